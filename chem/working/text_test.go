package working

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/figure"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

func TestWorkingReads(t *testing.T) {
	w := New(&spread.Case{Plan: *planOf(t)})
	steps := w.Of(route.GasMass)
	text := strings.ReplaceAll(steps.Text(), thin, " ")
	assert.True(t, strings.HasPrefix(text, `Gas made, by mass

Gas made, by mass
  = [Gas made, by amount] / 1000 mmol/mol × M(SO₂)
  = 359.785 mmol / 1000 mmol/mol × 64.058 g/mol
  = 23.0471 g

Where the numbers come from
  Molar masses M: standard atomic weights 2021`), text)
	assert.Equal(t, []route.FigureID{route.GasMade}, steps.Uses)
}

func TestDigits(t *testing.T) {
	for text, v := range map[string]float64{
		"0": 0, "1.2": 1.2, "24.15": 24.150000000000002, "0.333333": 1. / 3, "374.000": 374.0004, "374": 374, "−2.5": -2.5,
		"1.23457×10⁶": 1234567, "5.73930×10⁻⁴": 5.739301e-4, "100000": 99999.96, "0.001": 0.001, "123456": 123456,
	} {
		assert.Equal(t, text, digits(v))
	}
}

func TestFormulasAreSetLow(t *testing.T) {
	assert.Equal(t, "2\u00a0MnOOH + H₂SO₄ → MnO₂ + MnSO₄ + 2\u00a0H₂O", lowered("2 MnOOH + H2SO4 -> MnO2 + MnSO4 + 2 H2O"))
	assert.Equal(t, "Zn₅(OH)₈Cl₂·H₂O", lowered("Zn5(OH)8Cl2·H2O"))
	assert.Equal(t, "ΔH(SO₄²⁻)", "ΔH("+ion("SO4^2-")+")")
}

func TestBracketsStandWhereTheyMust(t *testing.T) {
	for _, text := range []string{"a - (b + c)", "a - (b - c)", "a/(b*c)", "a/b*c", "(a + b)*c", "a*(b/c)", "min(a, b) - c"} {
		n := figure.Parse(text)
		value := func(name string) float64 { return map[string]float64{"a": 7, "b": 5, "c": 3}[name] }
		have, _, _ := expression(n.Print(func(name string) string { return digits(value(name)) }, written))
		assert.InDelta(t, n.Eval(value), (have.low+have.high)/2, 1e-9, text)
	}
}

// TestWrongWorkingsAreFound: the test's own reading of what is printed finds a wrong
// number, a wrong sign, a wrong unit and a wrong bracket.
func TestWrongWorkingsAreFound(t *testing.T) {
	spaced := strings.NewReplacer(" m", thin+"m", " g", thin+"g").Replace
	right := Step{Name: "x", Numbers: spaced("2 × (3.5 mL − 1 mL) × 4 g/mL × 1000 mg/g"), Result: spaced("20000 mg")}
	assert.NoError(t, reread(&right))
	for _, numbers := range []string{
		"2 × (3.5 mL − 1 mL) × 4.001 g/mL × 1000 mg/g",
		"2 × (3.5 mL + 1 mL) × 4 g/mL × 1000 mg/g",
		"2 × (3.5 mL − 1 mg) × 4 g/mL × 1000 mg/g",
		"2 × (3.5 mL − 1 mL) × 4 g × 1000 mg/g",
		"2 × (3.5 mL − 1 mL × 4 g/mL × 1000 mg/g",
	} {
		wrong := right
		wrong.Numbers = spaced(numbers)
		assert.Error(t, reread(&wrong), numbers)
	}
	assert.Error(t, reread(&Step{Name: "since", Numbers: "5" + thin + "g > 6" + thin + "g"}))
}

// TestEveryConstantIsShown somewhere, with its source.
func TestEveryConstantIsShown(t *testing.T) {
	seen := map[string]string{}
	for _, entries := range [][]string{
		nil,
		{"gas.source=metabisulfite"},
		{"dry.way=crystals", "crop.cold=5"},
		{"dry.way=crystals", "crop.cold=20"},
		{"dry.temperature=105", "gas.end=70"},
		{"dry.temperature=300", "gas.steam=30"},
		{"gas.source=slurrysalt"},
		{"gas.source=peroxide"},
		{"gas.source=oxalic"},
		{"cell.kind=alkaline"},
	} {
		w := New(&spread.Case{Plan: *planOf(t, entries...)})
		for id := range route.FigureID(len(route.Figures())) {
			steps := w.Of(id)
			for _, s := range steps.Sources {
				assert.NotEmpty(t, s.Text, s.Name)
				seen[s.Name] = s.Text
			}
		}
	}
	for _, c := range route.Constants() {
		assert.Equal(t, c.Source, seen[c.Name], c.Key)
	}
}

func TestInputsSayWhatTheyAreWorth(t *testing.T) {
	source := func(c *spread.Case, id route.FigureID, name string) string {
		steps := New(c).Of(id)
		for _, s := range steps.Sources {
			if s.Name == name {
				return strings.ReplaceAll(s.Text, thin, " ")
			}
		}
		return "not there"
	}
	c := spread.Case{Plan: *planOf(t)}
	const uptake = "Gas that the slurry takes up"
	assert.Regexp(t, `^estimate, 40.* to 92.* %. To replace it: weigh the scrubber`, source(&c, route.UptakeShare, uptake))
	c.Given = map[string]spread.Interval{"gas.uptake": {Low: 70, High: 90}}
	assert.Equal(t, "you gave it as 70 to 90 %.", source(&c, route.UptakeShare, uptake))
	c = spread.Case{Plan: *planOf(t, "gas.uptake=60")}
	assert.Equal(t, "you set it", source(&c, route.UptakeShare, uptake))
	c = spread.Case{Plan: *planOf(t, "mix.wet=150")}
	assert.Equal(t, "you weighed or titrated it", source(&c, route.MixManganese, "Wet black mix, weighed"))
}

// TestSymbolsAreTheirOwn: no quantity hides a figure or an input of the same name.
func TestSymbolsAreTheirOwn(t *testing.T) {
	for _, entries := range [][]string{nil, {"gas.source=metabisulfite", "dry.way=crystals", "wash.acid=50", "mix.wet=150"}} {
		w := New(&spread.Case{Plan: *planOf(t, entries...)})
		for symbol, term := range w.terms {
			_, isFigure := route.FigureByKey(symbol)
			_, isInput := route.InputByKey(symbol)
			assert.False(t, term.text != "" && (isFigure || isInput), symbol)
		}
	}
}

func BenchmarkNew(b *testing.B) {
	c := spread.Case{Plan: *planOf(b)}
	for b.Loop() {
		New(&c)
	}
}

func BenchmarkOf(b *testing.B) {
	w := New(&spread.Case{Plan: *planOf(b)})
	for b.Loop() {
		w.Of(route.ProductMass)
	}
}

func TestDefinitionsHoldWhereTheirConditionsDo(t *testing.T) {
	w := New(&spread.Case{Plan: route.NewPlan()})
	w.define(`
		$x | g | taken | 2[g] | since 1 < 2 | a note
		$x | g | left out | 3[g] | if 1 > 2
		test.same |  |  | $x
		= cell.opened | 5 | since 2 < 1
	`, "$x", "test.x")
	x := w.terms["test.x"]
	assert.Equal(t, "taken", x.name)
	assert.Equal(t, recipe{"2[g]", []string{"1 < 2"}, "a note"}, x.recipe)
	assert.Equal(t, 2.0, w.calc("test.same"))
	assert.NotEqual(t, "5", w.formulas["cell.opened"].text)
	assert.PanicsWithValue(t, "working: test.x is defined twice", func() { w.define("test.x | g | again | 1[g]") })
	assert.PanicsWithValue(t, "working: no figure no.such", func() { w.define("= no.such | 1") })
}

// TestPortionsOfOneNameAreToldApart: what comes from one vessel more than once in a sum.
func TestPortionsOfOneNameAreToldApart(t *testing.T) {
	from := regexp.MustCompile(`\[from the [^\]]*\]`)
	several := 0
	for _, source := range []string{"copper", "peroxide", "oxalic"} {
		w := New(&spread.Case{Plan: *planOf(t, "gas.source="+source)})
		for _, info := range route.Figures() {
			of := w.Of(info.ID)
			for line := range strings.Lines(of.Text()) {
				seen := map[string]bool{}
				for _, name := range from.FindAllString(line, -1) {
					assert.False(t, seen[name], "%s: %s", info.Key, line)
					seen[name] = true
				}
				several += strings.Count(line, ", the second time]")
			}
		}
	}
	assert.Positive(t, several)
}
