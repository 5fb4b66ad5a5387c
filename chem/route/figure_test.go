package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"rosesalt/chem/quantity"
)

// TestEveryFigureIsDeclaredOnce: each id has one row, in a list of its own stage or of its way, so that
// the figures of a stage stand together; those that answer its question stand first.
func TestEveryFigureIsDeclaredOnce(t *testing.T) {
	keys, rows := map[string]bool{}, 0
	for _, list := range figureLists {
		rows += len(list.rows)
	}
	for _, way := range reductants {
		rows += len(way.figures)
	}
	assert.Equal(t, len(figures), rows)
	for i, f := range figures {
		assert.Equal(t, FigureID(i), f.ID, "%q", f.Key)
		assert.False(t, keys[f.Key] || f.Key == "" || f.Name == "", "%d: %q", i, f.Key)
		keys[f.Key] = true
		if i > 0 {
			before := figures[i-1]
			assert.GreaterOrEqual(t, f.Stage, before.Stage, f.Key)
			assert.False(t, f.Main && !before.Main && f.Stage == before.Stage, "%s stands behind %s", f.Key, before.Key)
		}
	}
	listed := 0
	for stage := range Stage(Stages) {
		for _, f := range FiguresOf(stage) {
			assert.Equal(t, stage, f.Stage, f.Key)
			listed++
		}
	}
	assert.Equal(t, len(figures), listed)
}

// TestFormulasStandAlone: what has a formula is set by no stage, in any plan; every form
// can be reached, and quantities are told wherever a formula takes one.
func TestFormulasStandAlone(t *testing.T) {
	reached := map[string]bool{}
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		s := b.Run(p)
		for id := range FigureID(figureCount) {
			if formula := s.Formula(id); formula != "" {
				reached[formula] = reached[formula] || s.Reason(id) == Defined
				if s.reasons[id] == Defined {
					t.Fatalf("%s has a formula, and is set\nplan:%s", id.Info().Key, link(p))
				}
			}
		}
	})
	for _, entries := range [][]string{nil, {"batch.runs=2", "dry.way=crystals"}, {"gas.source=slurrysalt", "dry.way=crystals"}} {
		_, s := run(t, entries...)
		for id := range FigureID(figureCount) {
			reached[s.Formula(id)] = reached[s.Formula(id)] || s.Reason(id) == Defined
		}
	}
	for i := range figures {
		for _, f := range formsOf(&figures[i]) {
			assert.True(t, reached[f.Formula], "%s: %s", figures[i].Key, f.Formula)
		}
	}
	assert.Len(t, derived().inputs, mostInputs, "as many inputs as formulas name")
	assert.Equal(t, mostAmounts, derived().read, "and as many amounts")
}

// TestEveryFigureHasAValueSomewhere: a row may say why a stage sets none, but none says so in
// every plan.
func TestEveryFigureHasAValueSomewhere(t *testing.T) {
	given := map[FigureID]bool{}
	for _, entries := range [][]string{
		nil,
		{"gas.source=metabisulfite"},
		{"gas.source=slurrysalt"},
		{"gas.source=peroxide"},
		{"gas.source=oxalic"},
		{"dry.way=crystals"},
		{"iron.way=thrown"},
		{"cell.kind=alkaline"},
	} {
		_, s := run(t, entries...)
		for id := range FigureID(figureCount) {
			given[id] = given[id] || s.Reason(id) == Defined
		}
	}
	for id := range FigureID(figureCount) {
		assert.True(t, given[id], id.Info().Key)
	}
}

// TestReasonsOfFormulas: a figure has none where what it follows from has none, and that
// one's reason; where nothing is divided by nothing, its own.
func TestReasonsOfFormulas(t *testing.T) {
	for _, c := range []struct {
		id   FigureID
		want Reason
		plan []string
	}{
		{MetMinute, NotMet, []string{"gas.copper=1"}},
		{MetBubbles, NoGasNeeded, []string{"cell.rejects=6"}},
		{DemandTimes, NoPairs, []string{"cell.rejects=6"}},
		{DemandTimes, StirredIn, []string{"gas.source=peroxide"}},
		{ScrubRise, NothingVents, []string{"gas.uptake=100", "gas.purge=0", "gas.excess=0", "slurry.reach=100", "slurry.temperature=1", "loss.transfer=0", "slurry.acid=0", "gas.copper=1"}},
		{StirServes, NoPairs, []string{"gas.source=peroxide", "peroxide.charge=50", "slurry.reach=1e-307"}},
		{WashPerGram, NoCells, []string{"cell.rejects=6"}},
		{ReduceIce, KeptWarm, []string{"gas.source=oxalic"}},
		{ReduceIce, KeptWarm, []string{"slurry.temperature=60"}},
		{RoomTimes, NothingVents, []string{"gas.source=oxalic"}},
		{GasVolume, StirredIn, []string{"gas.source=oxalic"}},
		{GasVolume, Defined, nil},
	} {
		_, s := run(t, c.plan...)
		assert.Equal(t, c.want, s.Reason(c.id), "%s %v", c.id.Info().Key, c.plan)
		assert.Equal(t, c.want == Defined, quantity.Given(s.Value(c.id)), "%s %v", c.id.Info().Key, c.plan)
	}
}

// TestFiguresStandInForInputs that may be blank, one for one, in their unit; what is
// poured is grams or millilitres.
func TestFiguresStandInForInputs(t *testing.T) {
	poured := 0
	for _, f := range figures {
		if f.For == "" {
			assert.False(t, f.Poured, f.Key)
			continue
		}
		in := input(t, f.For)
		assert.NotEmpty(t, in.Blank, f.Key)
		assert.Equal(t, in.Unit, f.Unit, f.Key)
		id, ok := figureFor(f.For)
		assert.True(t, ok && id == f.ID, f.Key)
		if f.Poured {
			poured++
			assert.Contains(t, []string{"g", "mL", "×"}, f.Unit, f.Key)
		}
	}
	assert.Equal(t, 16, poured)
	_, ok := figureFor("gas.excess")
	assert.False(t, ok)
}

// TestOtherWays: reasons that speak of the plan's way, and none of what only this plan's
// numbers bring about.
func TestOtherWays(t *testing.T) {
	for _, r := range unmet[1:] {
		assert.True(t, r.OtherWay(), r.String())
	}
	for _, r := range []Reason{Defined, NotReached, NoCells, NoGas, NotMet, NothingVents, TooAcid} {
		assert.False(t, r.OtherWay(), r.String())
	}
}
