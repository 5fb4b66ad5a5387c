package section

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

func TestEveryFigureStandsOnThePageOnce(t *testing.T) {
	for _, fragment := range []string{"", "gas.source=oxalic"} {
		seen := map[string]int{}
		for _, stage := range Stages(from(fragment), new(Pictures), false, nil) {
			for _, f := range doctest.Find[doc.Figure](stage.Of...) {
				seen[f.Key]++
			}
		}
		for _, f := range route.Figures() {
			assert.Equal(t, 1, seen[f.Key], f.Key)
		}
	}
}

func TestKindsOfNumber(t *testing.T) {
	cases := map[string]struct{ fragment, key, tag string }{
		"estimate":     {"", "gas.sulfide", "estimate"},
		"you set":      {"gas.uptake=60", "gas.uptake", "you set"},
		"worked out":   {"", "gas.acid", "worked out"},
		"given charge": {"gas.acid=20", "gas.acid", "you set"},
		"not weighed":  {"", "mix.wet", "not weighed"},
		"you weighed":  {"mix.wet=150", "mix.wet", "you weighed"},
		"free choice":  {"", "gas.minutes", ""},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			in, _ := route.InputByKey(c.key)
			assert.Equal(t, c.tag, Field(desk.New(c.fragment), in).Tag)
		})
	}
}

func TestStreamIsAsWideAsItsMatter(t *testing.T) {
	d := desk.New("")
	beside := streams(d)
	legs := d.Legs()
	scale := streamWidth / float64(legs[0].In)
	for _, leg := range legs {
		assert.InDelta(t, float64(leg.Out)*scale, beside[leg.Stage].Out, 0.06, "stage %d", leg.Stage)
	}
	assert.NotEmpty(t, beside[route.Batch].Labels, "what is kept leaves visibly")
	assert.NotEmpty(t, beside[route.Slurry].Joins)
	assert.NotEmpty(t, beside[route.Dry].Jar)
	assert.NotEmpty(t, beside[route.CopperSalt].BlueLabel)
}

// TestStagesSayInTheTextWhatIsSet: what is seldom changed too, but neither tips nor figures for
// the curious.
func TestStagesSayInTheTextWhatIsSet(t *testing.T) {
	var none Pictures
	text := ""
	for _, stage := range Stages(from("gas.uptake=60&wash.acid=50&cell.2.count=4"), &none, false, nil) {
		text += stage.Plain()
	}
	for _, said := range []string{"Cells\n", "Mind. ", "Stop. Open only cells", "60\u202f%"} {
		assert.Contains(t, text, said)
	}
	for _, left := range []string{"Tip.", "Seldom changed", "All other figures of this stage", "Take out", "Another type of cell"} {
		assert.NotContains(t, text, left)
	}
	var rare string
	inputs := route.Inputs()
	for i := range inputs {
		if in := &inputs[i]; in.Rare && in.Row == 0 && in.Stage == route.Wash && !in.IsChoice() {
			rare = in.Key
			s := from(rare + "=" + route.Plain(in.Max))
			assert.Contains(t, Stages(s, &none, false, nil)[route.Wash].Plain(), in.Name+": ", rare)
			break
		}
	}
	assert.NotEmpty(t, rare)
}

// TestStagesSayInTheTextWhatIsPoured: whatever a plan pours or counts, its fields left blank.
func TestStagesSayInTheTextWhatIsPoured(t *testing.T) {
	var none Pictures
	for _, fragment := range []string{"", "v=1", "gas.source=metabisulfite", "gas.source=slurrysalt", "gas.source=peroxide", "gas.source=oxalic"} {
		s, text := from(fragment), ""
		for _, stage := range Stages(s, &none, false, nil) {
			text += stage.Plain()
		}
		poured := 0
		for id := range route.FigureID(len(route.Figures())) {
			if f := id.Info(); f.Poured && s.Sheet().Value(id) > 0 {
				in, _ := route.InputByKey(f.For)
				assert.Contains(t, text, in.Name+": ", "%s: %s", fragment, f.Key)
				poured++
			}
		}
		assert.Greater(t, poured, 5)
	}
}

// TestNoFigureIsReadToItsLastDigit: a band that is wide by those alone is none.
func TestNoFigureIsReadToItsLastDigit(t *testing.T) {
	d := desk.New("")
	for !d.StepBands(desk.Draws) {
	}
	for i, f := range route.Figures() {
		if r := Read(d, route.FigureID(i)); d.Sheet().Reason(route.FigureID(i)) == route.Defined {
			assert.Less(t, len(r.Number), 12, "%s: %s", f.Key, r.Number)
		}
	}
}

// TestAValueAtTheEndOfItsIntervalIsNotPlannedWith: the middle of the interval is, and the
// field says so; one inside is.
func TestAValueAtTheEndOfItsIntervalIsNotPlannedWith(t *testing.T) {
	in, _ := route.InputByKey("gas.uptake")
	for fragment, with := range map[string]float64{
		"v=1&gas.uptake=80&gas.uptake~=30,80": 55,
		"v=1&gas.uptake~=30,50":               40,
		"v=1&gas.uptake=49&gas.uptake~=30,50": 49,
	} {
		d := desk.New(fragment)
		assert.Equal(t, with, in.Value(d.Plan()))
		says := Field(d, in).Range
		if held := in.Value(heldBy(d)); held != with {
			assert.Contains(t, says, "Planned with "+route.Print(with, "%"), "%s", fragment)
		} else {
			assert.NotContains(t, says, "Planned with")
		}
		assert.Equal(t, d.Plan().GasUptake, desk.New(d.Fragment()).Plan().GasUptake)
	}
}

func heldBy(d *desk.Desk) *route.Plan {
	c := d.Case()
	return &c.Plan
}

// TestLinesHaveTheDigitsOfTheFirstScreen, before anything is drawn and after.
func TestLinesHaveTheDigitsOfTheFirstScreen(t *testing.T) {
	more := 0
	for _, fragment := range []string{"", "shelf.copper=10", "gas.source=oxalic", "cell.count=1000", "dry.way=crystals"} {
		s := from(fragment)
		for _, drawn := range []bool{false, true} {
			for drawn && !s.StepBands(desk.Draws) {
			}
			lines := ""
			for stage := range route.Stage(route.Stages) {
				says, _ := line(s.Desk, stage)
				lines += doctest.Text(says...) + "\n"
			}
			for id := range tint {
				if s.Sheet().Amount(id) > 0 {
					r := Read(s.Desk, id)
					said := r.Number + doc.Unit(r.Unit)
					assert.Contains(t, lines, ": "+said+" of ", fragment)
					if said != route.Print(s.Sheet().Value(id), id.Info().Unit) {
						more++
					}
				}
			}
		}
	}
	assert.Greater(t, more, 2, "figures with more digits by their intervals")
}

// TestGramsAndShareOfTheCakeSayOneThing: both fields say which share of which cake it is, and that
// nobody weighed that.
func TestGramsAndShareOfTheCakeSayOneThing(t *testing.T) {
	field := func(fragment, key string) doc.Field {
		in, ok := route.InputByKey(key)
		require.True(t, ok)
		return Field(from(fragment).Desk, in)
	}
	for _, key := range []string{route.ShareKey, route.TakenKey} {
		assert.Equal(t, "95\u202fg is 24\u202f% of all of the damp cake, 400\u202fg.", field("v=2&cake.damp=400&cake.taken=95", key).Range)
		assert.Regexp(t, `^60\x{202f}g is \d+\x{202f}% of all of the damp cake, \d+\x{202f}g by the plan, since nobody weighed that\.$`, field("v=2&cake.taken=60", key).Range)
		assert.NotContains(t, field("v=2&cake.damp=400", key).Range, "of all of the damp cake")
	}
	assert.Equal(t, "by weight", field("v=2&cake.damp=400&cake.taken=95", route.ShareKey).Tag)
	assert.Equal(t, "100", field("v=2&cake.damp=400", route.TakenKey).Usual, "what is to be weighed out")
}
