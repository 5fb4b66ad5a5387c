package procedure

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/phrase"
	"rosesalt/chem/phrase/phrasetest"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/scripts/long"
)

// TestStepsSayWhatThePlanHas: the texts name no condition or place that is not there, in no
// plan that has the step a place is empty, and every sentence is said in some plan.
func TestStepsSayWhatThePlanHas(t *testing.T) {
	steps, evening, tests := phrasetest.Hold(t, texts), phrasetest.Hold(t, ready), phrasetest.Hold(t, spots)
	r := rand.New(rand.NewPCG(4, 6))
	for i := range long.Of(150, 400, 4000) {
		p := routetest.Way(r, i)
		switch i % 12 { // seldom drawn
		case 0:
			p.WashTimes = 1
		case 1, 6:
			p.WashAcid, p.WashAfter = 50, float64(1+i%2)
		case 2:
			p.SlurryWater = 0
		case 3:
			p.SlurryWater, p.SlurryAcid = 0, 0
		case 4:
			p.CopperWater = 0
		case 7:
			p.GasSource, p.GasWater = route.FromMetabisulfite, 0
		case 5:
			p.SlurryRest = 6
			p.IronWay = route.IronThrownDown
		}
		m := newMaker(&p, new(route.Runner).Run(&p), nil)
		evening.In(m.t)
		tests.In(m.t)
		for m.batch = range int(m.runs) + 1 {
			steps.In(m.t)
		}
	}
	steps.Done()
	evening.Done()
	tests.Done()
}

// TestEveryWayHasItsWork: one step of each batch in which gas is led in or the reductant
// goes in.
func TestEveryWayHasItsWork(t *testing.T) {
	source, _ := route.InputByKey("gas.source")
	for _, o := range source.Options {
		p := route.NewPlan()
		require.NoError(t, source.Choose(&p, o.Word))
		at := slices.DeleteFunc(Steps(&p, new(route.Runner).Run(&p), nil), func(st Step) bool { return st.Key != "gas" && st.Key != "stir" })
		assert.Len(t, at, 1, o.Word)
	}
}

func TestEverySentenceIsAskedFor(t *testing.T) { phrasetest.Asked(t, texts, shared) }

// TestAmountsAndBlanksHaveUnits: what is taken is weighed or poured, and a blank names a place,
// a unit behind "in", or nothing.
func TestAmountsAndBlanksHaveUnits(t *testing.T) {
	p := route.NewPlan()
	m := newMaker(&p, new(route.Runner).Run(&p), nil)
	for _, b := range texts.Blocks() {
		for _, part := range b.Parts {
			switch part.Name {
			case "take":
				assert.Contains(t, []string{"g", "mL"}, m.t.At(part.About).Unit, part.Text)
			case "measure":
				assert.Contains(t, []string{"g", "mL", "min", "°C", "%", ""}, m.blank(phrase.Line{About: part.About}).Unit, part.Text)
			default:
				assert.Empty(t, part.About, "%s is about nothing", part.Name)
			}
		}
	}
}

// TestSilverTestsTheLastWash: the test stands once, in the step of the last wash, and as many
// washes as want distilled water are told to have it; where there are no chlorides, it is not
// asked for.
func TestSilverTestsTheLastWash(t *testing.T) {
	kind, _ := route.InputByKey("cell.kind")
	for _, c := range []struct {
		acid, after float64
		kind, step  string
		distilled   []string
	}{
		{0, 1, "ammonium", "wash", []string{"wash"}},
		{100, 1, "ammonium", "acid", []string{"wash", "acid"}},
		{100, 2, "ammonium", "clear", []string{"acid", "clear"}},
		{100, 3, "ammonium", "clear", []string{"clear"}},
		{100, 1, "alkaline", "", []string{"acid"}},
		{100, 3, "alkaline", "", []string{"clear"}},
	} {
		p := route.NewPlan()
		require.NoError(t, kind.Choose(&p, c.kind))
		p.WashAcid, p.WashAfter = quantity.Millilitre(c.acid), c.after
		var tested, distilled []string
		for _, st := range Steps(&p, new(route.Runner).Run(&p), nil) {
			do := strings.Join(st.Do, " ")
			if strings.Contains(do, "silver nitrate:") {
				tested = append(tested, st.Key)
				assert.Contains(t, st.End, "clouds white")
				assert.Contains(t, st.Stop, "silver test goes at once into its jar")
			} else {
				assert.NotContains(t, st.Stop, "silver test", st.Key)
			}
			for _, a := range st.Take {
				do += " " + a.Name
			}
			if strings.Contains(strings.ToLower(do), "distilled") {
				distilled = append(distilled, st.Key)
			}
		}
		assert.Equal(t, c.step, strings.Join(tested, " "), c)
		assert.Equal(t, c.distilled, distilled, c)
	}
}

// TestWashesBehindTheRinse are counted once: the first goes with the rinse, the others say of how
// many they are, and each has its water among the amounts.
func TestWashesBehindTheRinse(t *testing.T) {
	after, _ := route.InputByKey("wash.after")
	for n, want := range map[float64][2]string{
		1: {"Distilled water, for the one wash behind it", ""},
		2: {"Distilled water, for the first of 2 washes behind it", "Wash it clear, the last of 2"},
		8: {"Water, for the first of 8 washes behind it", "Wash it clear, 7 more of 8"},
	} {
		p := route.NewPlan()
		require.NoError(t, after.Set(&p, n))
		require.True(t, route.Rinses(&p))
		sheet := new(route.Runner).Run(&p)
		each, times := sheet.Value(route.WashEachUsed), 0.0
		said := map[string]Step{}
		for _, st := range Steps(&p, sheet, nil) {
			said[st.Key] = st
		}
		rinse := said["acid"]
		require.Len(t, rinse.Take, 2)
		assert.Equal(t, Amount{want[0], each, "mL"}, rinse.Take[1])
		times += rinse.Repeats - 1 // the rinse itself
		assert.Equal(t, want[1], said["clear"].Title)
		for _, a := range said["clear"].Take {
			assert.Equal(t, each, a.Value)
			times += said["clear"].Repeats
		}
		assert.Equal(t, n, times)
	}
}
