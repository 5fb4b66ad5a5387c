package safety_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/chem/table/tabletest"
)

func labels(p *route.Plan) []safety.Label {
	var b route.Runner
	sheet := *b.Run(p)
	return safety.Labels(p, &sheet, b.Book())
}

func labelled(t *testing.T, list []safety.Label, name string) safety.Label {
	t.Helper()
	for _, l := range list {
		if strings.HasPrefix(l.Name, name) {
			return l
		}
	}
	require.Fail(t, "no label "+name)
	return safety.Label{}
}

func codes(l *safety.Label) []safety.Code {
	var list []safety.Code
	for _, s := range l.Hazards {
		list = append(list, s.Code)
	}
	return list
}

// mixture reads "ZnCl2=1.5;CuSO4=1.5".
func mixture(t *testing.T, text string) []safety.Share {
	t.Helper()
	var shares []safety.Share
	for _, part := range strings.Split(text, ";") {
		formula, percent, _ := strings.Cut(part, "=")
		v, err := strconv.ParseFloat(percent, 64)
		require.NoError(t, err)
		at := slices.IndexFunc(allSubstances(), func(s reaction.Substance) bool { return s.Formula() == formula })
		require.GreaterOrEqual(t, at, 0, formula)
		shares = append(shares, safety.Share{Substance: reaction.Substance(at), Percent: quantity.Percent(v)})
	}
	return shares
}

func allSubstances() []reaction.Substance {
	list := make([]reaction.Substance, reaction.Substances)
	for i := range list {
		list[i] = reaction.Substance(i)
	}
	return list
}

func one(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

func TestHazardsOfMixturesArePublished(t *testing.T) {
	for _, r := range tabletest.Rows(t, "hazards") {
		t.Run(r.Check(), func(t *testing.T) {
			r.Meets(t, one(slices.Contains(safety.MixtureCodes(mixture(t, r.Text("mixture"))), safety.Code(r.Text("code")))))
		})
	}
}

func TestLabelElementsArePublished(t *testing.T) {
	for _, r := range tabletest.Rows(t, "label-elements") {
		t.Run(r.Check(), func(t *testing.T) {
			var list []safety.Code
			for _, c := range strings.Fields(r.Text("codes")) {
				list = append(list, safety.Code(c))
			}
			shown := safety.OnLabel(list)
			element := r.Text("element")
			is := slices.Contains(safety.PictogramsOf(shown), safety.Pictogram(element)) || safety.SignalOf(shown) == safety.Signal(element) ||
				slices.Contains(shown, safety.Code(element))
			r.Meets(t, one(is))
		})
	}
}

func TestSizesArePublished(t *testing.T) {
	for _, r := range tabletest.Rows(t, "label-sizes") {
		t.Run(r.Check(), func(t *testing.T) {
			size := safety.SizeOf(quantity.Millilitre(r.Float("capacity_ml")))
			r.Meets(t, float64(map[string]safety.Millimetre{"width": size.Width, "height": size.Height, "pictogram": size.Pictogram}[r.Text("measure")]))
		})
	}
}

// plansToLabel cover all ways to reduce the oxide, both ways to a solid, all kinds of cell, and a large bag.
func plansToLabel() map[string]route.Plan {
	plans := map[string]route.Plan{}
	p := route.NewPlan()
	plans["demo"] = p
	p.GasSource, p.DryWay, p.BatchShare = route.FromMetabisulfite, route.ToCrystals, 100
	plans["metabisulfite"] = p
	p = route.NewPlan()
	p.Rows[0].Count, p.DryTemperature, p.SlurryVessel = 200, 450, route.OpenVessel
	plans["large and hot"] = p
	p = route.NewPlan()
	p.WashAcid, p.DryTemperature = 500, 20
	plans["acid washed"] = p
	for source := range route.Choice(ways) {
		for kind := range route.Choice(3) {
			p = route.NewPlan()
			p.GasSource, p.Rows[0].Kind, p.DryWay = source, kind, route.ToCrystals
			plans[fmt.Sprintf("way %d, kind %d", source, kind)] = p
		}
	}
	return plans
}

func TestEveryLabelHangsTogether(t *testing.T) {
	for name, p := range plansToLabel() {
		t.Run(name, func(t *testing.T) {
			seen := map[string]bool{}
			for _, l := range labels(&p) {
				assert.False(t, seen[l.Name], "%s twice", l.Name)
				seen[l.Name] = true
				assert.NotEmpty(t, l.Formula, l.Name)
				assert.NotZero(t, l.Size.Width, l.Name)
				have := codes(&l)
				assert.Equal(t, safety.SignalOf(have), l.Signal, l.Name)
				assert.Equal(t, safety.PictogramsOf(have), l.Pictograms, l.Name)
				for _, s := range append(append([]safety.Statement{}, l.Hazards...), l.Precautions...) {
					assert.NotEmpty(t, s.Code, l.Name)
					assert.True(t, strings.HasSuffix(s.Words, "."), "%s: %s", l.Name, s.Code)
				}
				if len(have) == 0 {
					assert.Empty(t, l.Precautions, l.Name)
					continue
				}
				assert.LessOrEqual(t, len(l.Precautions), 6, l.Name)
				assert.Equal(t, safety.Code("P501"), l.Precautions[len(l.Precautions)-1].Code, l.Name)
				// H411 alone has no word, H412 neither word nor pictogram; all else has both.
				weak := slices.Contains(have, "H411") || slices.Contains(have, "H412")
				if !weak || len(have) > 1 {
					assert.NotEmpty(t, l.Signal, l.Name)
					assert.NotEmpty(t, l.Pictograms, l.Name)
				}
			}
		})
	}
}

func TestLabelOfTheRoseSalt(t *testing.T) {
	for name, c := range map[string]struct {
		celsius       float64
		name, formula string
	}{
		"oven":        {120, "Manganese(II) sulfate monohydrate", "MnSO₄·H₂O"},
		"cold":        {20, "Manganese(II) sulfate pentahydrate", "MnSO₄·5H₂O"},
		"ice":         {5, "Manganese(II) sulfate heptahydrate", "MnSO₄·7H₂O"},
		"kiln":        {450, "Manganese(II) sulfate, anhydrous", "MnSO₄"},
		"in between":  {300, "Manganese(II) sulfate, between", "MnSO₄·xH₂O, x about 0.50"},
		"still, mono": {60, "Manganese(II) sulfate monohydrate", "MnSO₄·H₂O"},
	} {
		t.Run(name, func(t *testing.T) {
			p := route.NewPlan()
			p.DryTemperature = quantity.Celsius(c.celsius)
			var b route.Runner
			sheet := *b.Run(&p)
			l := labelled(t, safety.Labels(&p, &sheet, b.Book()), "Manganese(II)")
			assert.True(t, strings.HasPrefix(l.Name, c.name), l.Name)
			assert.Equal(t, sheet.Value(route.ProductPurity) < 90, strings.Contains(l.Name, "raw"), "what is far from pure does not pass for it")
			assert.Equal(t, c.formula, l.Formula)
			assert.InEpsilon(t, sheet.Value(route.ProductMass), float64(l.Mass), 1e-9)
			assert.Equal(t, safety.Danger, l.Signal)
			have := codes(&l)
			assert.Contains(t, have, safety.Code("H373"))
			assert.True(t, slices.Contains(have, "H318") || slices.Contains(have, "H314"), "eyes, or where acid or zinc chloride is left, skin too")
			assert.Subset(t, l.Pictograms, []safety.Pictogram{safety.Corrosion, safety.Health, safety.Environment})
			assert.Contains(t, l.Notes, notFood)
		})
	}
}

const notFood = "Not a fertiliser, feed or food: lead may be in it."

func TestEveryJarHasALabel(t *testing.T) {
	p := route.NewPlan()
	p.GasSpare = 1.2 // as much acid left as there may be
	list := labels(&p)
	for _, name := range []string{
		"Manganese(II) sulfate", "Copper(II) sulfate pentahydrate", "Washed black mix, kept", "Zinc cans", "Carbon rods",
		"Dilute sulfuric acid", "Silver nitrate", "Permanganate", "Wash liquor", "Blue mother liquor", "Scrubber liquid", "Black residue",
		"Black powder", "Silver test drops",
	} {
		labelled(t, list, name)
	}
	blue := labelled(t, list, "Blue mother liquor")
	assert.Contains(t, codes(&blue), safety.Code("H314"), "its acid burns")
	scrubber := labelled(t, list, "Scrubber")
	assert.Subset(t, codes(&scrubber), []safety.Code{"H319", "EUH031"}, "soda before, sulfite after")
	acid := labelled(t, list, "Dilute")
	assert.NotContains(t, codes(&acid), safety.Code("H314"))
	assert.Contains(t, acid.Formula, "9.2")
	wash := labelled(t, list, "Wash liquor")
	if len(wash.Hazards) == 0 {
		assert.Contains(t, strings.Join(wash.Notes, " "), "no hazard statement is due", "silence is no leave")
	}
	for _, l := range list {
		if l.Kind == safety.Product || l.Kind == safety.Kept {
			assert.Contains(t, l.Notes, notFood, l.Name)
		}
	}
	p.BatchShare = 100
	for _, l := range labels(&p) {
		assert.NotContains(t, l.Name, "kept for later")
	}
}

// TestLabelsFollowTheTests: papers only where sulfur dioxide bleaches them, silver only
// where the washes are judged by it.
func TestLabelsFollowTheTests(t *testing.T) {
	for name, p := range plansToLabel() {
		names := ""
		for _, l := range labels(&p) {
			names += l.Name + "\n"
		}
		for _, b := range safety.Bottles(&p, new(route.Runner).Book(), new(route.Sheet)) {
			names += b.Name + "\n"
		}
		assert.Equal(t, route.Sulfurous(&p), strings.Contains(strings.ToLower(names), "permanganate"), name)
		assert.Equal(t, !route.Alkaline(&p), strings.Contains(strings.ToLower(names), "silver"), name)
	}
}

func TestLargeBottlesHaveLargeLabels(t *testing.T) {
	p := route.PlanOf(1)
	p.Rows[0].Count = 60
	l := labelled(t, labels(&p), "Wash liquor")
	require.Greater(t, float64(l.Volume), 3000.0)
	assert.Equal(t, safety.Size{Width: 105, Height: 74, Pictogram: 23}, l.Size)
}

func TestClassesSayWhereFrom(t *testing.T) {
	seen := map[reaction.Substance]bool{}
	for _, c := range safety.Classes() {
		assert.False(t, seen[c.Substance], c.Substance)
		seen[c.Substance] = true
		assert.NotEmpty(t, c.Source, c.Substance)
		assert.Contains(t, []string{"published", "from memory", "estimate"}, c.Standing, c.Substance)
		assert.Len(t, safety.OnLabel(c.Codes), len(c.Codes), "%s: no statement that another makes needless", c.Substance)
		pure := safety.MixtureCodes([]safety.Share{{Substance: c.Substance, Percent: 100}})
		for _, code := range c.Codes {
			assert.Contains(t, pure, code, "%s: pure, it bears what it bears", c.Substance)
		}
	}
}

// A mixture never bears less when water leaves it.
func TestStrongerIsNeverMilder(t *testing.T) {
	grave := map[safety.Code][]safety.Code{"H315": {"H314"}, "H318": {"H314"}, "H319": {"H318", "H314"}, "H412": {"H411", "H410"}, "H411": {"H410"}, "H400": {"H410"}}
	for _, c := range safety.Classes() {
		var before []safety.Code
		for percent := quantity.Percent(0.5); percent <= 100; percent += 0.5 {
			now := safety.MixtureCodes([]safety.Share{{Substance: c.Substance, Percent: percent}})
			for _, code := range before {
				kept := slices.Contains(now, code) || slices.ContainsFunc(grave[code], func(g safety.Code) bool { return slices.Contains(now, g) })
				require.True(t, kept, "%s at %v %% lost %s", c.Substance, percent, code)
			}
			before = now
		}
	}
}
