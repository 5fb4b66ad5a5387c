package route

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/phrase/phrasetest"
)

// TestEveryStageHasItsLine in whatever plan.
func TestEveryStageHasItsLine(t *testing.T) {
	held := phrasetest.Hold(t, lineTexts)
	plans := [][]string{
		{},
		{"gas.source=metabisulfite", "dry.way=crystals"},
		{"gas.source=slurrysalt", "wash.times=0"},
		{"gas.source=peroxide", "cell.kind=alkaline"},
		{"gas.source=oxalic", "batch.share=100"},
		{"batch.runs=3"},
		{"wash.times=0", "wash.acid=100"},
		{"gas.acid=0.1", "rinse.times=0"},
		{"cell.rejects=6"},
		{"cell.rejects=6", "dry.way=crystals", "gas.source=oxalic"},
	}
	for _, way := range reductants {
		plans = append(plans, []string{"gas.source=" + way.word}, []string{"gas.source=" + way.word, "batch.runs=3"})
	}
	for _, words := range plans {
		p := planOf(t, words...)
		s := new(Runner).Run(p)
		held.In(&Teller{Plan: p, Sheet: s})
		for stage := range Stage(Stages) {
			line := LineOf(stage, p, s)
			assert.NotEmpty(t, line.Parts, "stage %d, %v", stage, words)
		}
	}
	held.Done()
}

func TestLineSaysWhatIsPouredAndWhatComes(t *testing.T) {
	p := planOf(t)
	s := new(Runner).Run(p)
	line := LineOf(Gas, p, s)
	assert.Equal(t, ": "+Print(s.Value(GasVolume), "L")+" of gas", line.Parts[1].Text)
	assert.Equal(t, "ochre", line.Parts[1].Name)
	assert.Contains(t, line.Parts[0].Text, Print(s.Value(GasAcidUsed), "mL"))
	assert.Equal(t, "hot acid, poison gas", line.Stop)
}

// TestALineTellsWhatTheHandMakes: one of equal batches.
func TestALineTellsWhatTheHandMakes(t *testing.T) {
	p := planOf(t, "batch.runs=3", "gas.minutes=180")
	s := new(Runner).Run(p)
	line := LineOf(Gas, p, s)
	assert.Contains(t, line.Parts[0].Text, Print(s.Value(GasAcidUsed)/3, "mL"))
	assert.Contains(t, line.Parts[0].Text, "in "+Print(60, "min")+", in each of 3 batches")
	assert.Equal(t, ": "+Print(s.Value(GasVolume)/3, "L")+" of gas", line.Parts[1].Text)
	assert.Contains(t, LineOf(Slurry, p, s).Parts[0].Text, Print(s.Value(SlurryWaterUsed)/3, "mL"))
}

// TestTheWashLineTellsAllWashesBeforeItsChloride: as many as are worked out, with the acid
// rinse and what follows it.
func TestTheWashLineTellsAllWashesBeforeItsChloride(t *testing.T) {
	for _, words := range [][]string{{}, {"wash.acid=0"}, {"wash.times=0", "wash.acid=0"}, {"wash.times=3", "wash.acid=150", "wash.after=2"}} {
		p := PlanOf(Defaults)
		alter(t, &p, words...)
		s := new(Runner).Run(&p)
		line := LineOf(Wash, &p, s).Parts[0].Text
		for _, said := range []struct {
			before string
			id     FigureID
			unit   string
			after  string
		}{
			{", wash ", WashTimesUsed, "×", " in "},
			{", acid rinse of ", WashAcidPoured, "mL", ""},
			{", ", WashAfterUsed, "×", " more"},
		} {
			part := said.before + Print(s.Value(said.id), said.unit) + said.after
			assert.Equal(t, s.Value(said.id) > 0, strings.Contains(line, part), "%q in %q", part, line)
		}
	}
}
