package figure

import (
	"math"
	"math/rand"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
)

var places = map[string]int{"a": 0, "b": 1, "c": 2, "zero": 3, "none": 4}

func leaf(name string) Leaf {
	switch name {
	case "two":
		return Leaf{Fixed: true, Value: 2}
	case "sum":
		return Leaf{Formula: Parse("a + b")}
	}
	return Leaf{Place: places[name]}
}

var formulas = map[string]func(a, b, c float64) float64{
	"a + b - c":                        func(a, b, c float64) float64 { return a + b - c },
	"a - (b - c)":                      func(a, b, c float64) float64 { return a - (b - c) },
	"a/b*c":                            func(a, b, c float64) float64 { return a / b * c },
	"a/(b*c)":                          func(a, b, c float64) float64 { return a / (b * c) },
	"a*1000[mg/g]*two*2":               func(a, b, c float64) float64 { return a * 1000 * 2 * 2 },
	"two*3*a":                          func(a, b, c float64) float64 { return 6 * a },
	"sum*c":                            func(a, b, c float64) float64 { return (a + b) * c },
	"min(a, b, c)":                     func(a, b, c float64) float64 { return math.Min(a, math.Min(b, c)) },
	"max(a, b, two)":                   func(a, b, c float64) float64 { return math.Max(a, math.Max(b, 2)) },
	"max(1, roundup(a/b))":             func(a, b, c float64) float64 { return math.Max(1, math.Ceil(a/b-1e-9)) },
	"roundup(2.0000000001 + 0*a)":      func(a, b, c float64) float64 { return 2 },
	"ln(exp(a))":                       func(a, b, c float64) float64 { return math.Log(math.Exp(a)) },
	"a^2 + b^c":                        func(a, b, c float64) float64 { return a*a + math.Pow(b, c) },
	"a < b":                            func(a, b, c float64) float64 { return truth(a < b) },
	"a >= b":                           func(a, b, c float64) float64 { return truth(a >= b) },
	"(a + (b + (c + (a + (b + c)))))":  func(a, b, c float64) float64 { return a + (b + (c + (a + (b + c)))) },
	"min(none, a)":                     func(a, b, c float64) float64 { return math.NaN() },
	"min(a, none)":                     func(a, b, c float64) float64 { return math.NaN() },
	"max(a, none)":                     func(a, b, c float64) float64 { return math.NaN() },
	"a/zero":                           func(a, b, c float64) float64 { return math.NaN() },
	"zero/zero":                        func(a, b, c float64) float64 { return math.NaN() },
	"max(0[mmol], a - b)*min(a, b)*15": func(a, b, c float64) float64 { return math.Max(0, a-b) * math.Min(a, b) * 15 },
}

// TestProgramsGiveTheirFormulas: read as a tree, run as a program and run by columns, a
// formula gives what the same arithmetic in Go gives; programs and columns to the bit.
func TestProgramsGiveTheirFormulas(t *testing.T) {
	const rows = 2*block + 3
	rng := rand.New(rand.NewSource(1))
	columns := make([][]float64, len(places))
	for i := range columns {
		columns[i] = make([]float64, rows)
		for k := range columns[i] {
			columns[i][k] = [...]float64{10 * rng.Float64(), 10 * rng.Float64(), 3 * rng.Float64(), 0, math.NaN()}[i]
		}
	}
	for text, want := range formulas {
		tree := Parse(text)
		p := Compile(tree, leaf)
		out := make([]float64, rows)
		new(Columns).Run(p, func(place int) []float64 { return columns[place] }, out)
		for k := range rows {
			row := make([]float64, len(places))
			for i := range row {
				row[i] = columns[i][k]
			}
			var value func(name string) float64
			value = func(name string) float64 {
				switch l := leaf(name); {
				case l.Formula != nil:
					return l.Formula.Eval(value)
				case l.Fixed:
					return l.Value
				default:
					return row[l.Place]
				}
			}
			right := want(row[0], row[1], row[2])
			if v := p.Run(row); math.IsNaN(right) {
				assert.True(t, math.IsNaN(v), text)
			} else {
				assert.InDelta(t, right, v, 1e-12*math.Abs(right), text)
				assert.InDelta(t, right, tree.Eval(value), 1e-12*math.Abs(right), text)
			}
			assert.Equal(t, math.Float64bits(p.Run(row)), math.Float64bits(out[k]), "%s in row %d", text, k)
		}
	}
}

// TestWhatIsFixedIsWorkedOutOnce: numbers that hang on no row are one step.
func TestWhatIsFixedIsWorkedOutOnce(t *testing.T) {
	for text, steps := range map[string]int{"two*3 - 1": 1, "a*(two/4)": 3, "roundup(two)": 1, "a + b": 3, "min(a)": 1} {
		assert.Len(t, Compile(Parse(text), leaf).steps, steps, text)
	}
}

// TestFormulasThatCannotBeRead are the programmer's errors, as are those that need more
// room than there is.
func TestFormulasThatCannotBeRead(t *testing.T) {
	for _, text := range []string{"", "a +", "(a", "a)", "min(a", "1.2.3", "a b", "5[g"} {
		assert.Panics(t, func() { Parse(text) }, text)
	}
	assert.Panics(t, func() { Parse("sin(a)").Eval(func(string) float64 { return 1 }) })
	deep := "a"
	for range 8 {
		deep = "b + (" + deep + ")"
	}
	assert.Panics(t, func() { Compile(Parse(deep), leaf) })
}

func TestPrint(t *testing.T) {
	number := func(v float64, unit string) string { return strconv.FormatFloat(v, 'g', -1, 64) + unit }
	for text, want := range map[string]string{
		"a - (b + c)":        "a − (b + c)",
		"a/(b*c)":            "a / (b × c)",
		"a/b*c":              "a / b × c",
		"(a + b)*c":          "(a + b) × c",
		"a^2":                "a^2",
		"max(1, roundup(a))": "max(1; round up(a))",
		"a*2[g/mL] <= b":     "a × 2g/mL ≤ b",
	} {
		assert.Equal(t, want, Parse(text).Print(func(name string) string { return name }, number))
	}
}
