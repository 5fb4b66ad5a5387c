package assay

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/formula"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/table/tabletest"
)

// read makes readings of "oxalate.sample=0.6;oxalate.titre=…".
func read(t testing.TB, text string) Readings {
	t.Helper()
	r := Readings{}
	for _, pair := range strings.Split(text, ";") {
		key, value, ok := strings.Cut(pair, "=")
		require.True(t, ok, pair)
		in, known := inputs.Find("assay." + key)
		require.True(t, known, key)
		v, err := in.Take(value)
		require.NoError(t, err, key)
		back, err := in.Take(in.Write(v))
		require.NoError(t, err, key)
		require.Equal(t, v, back)
		r[in.Key] = v
	}
	return r
}

var seaLevel = Air{Pressure: quantity.Atmosphere}

// outcome is that of one method.
func outcome(t testing.TB, r Readings, method string) Outcome {
	t.Helper()
	for _, o := range Evaluate(r, seaLevel) {
		if o.Method.Key == "assay."+method {
			return o
		}
	}
	t.Fatal("no method ", method)
	return Outcome{}
}

// found is the result of one method, which must stand.
func found(t testing.TB, r Readings, method string) *Result {
	t.Helper()
	o := outcome(t, r, method)
	require.Empty(t, o.Problems)
	require.Empty(t, o.Wanting)
	require.NotNil(t, o.Result)
	return o.Result
}

// TestPublishedAssays holds every method to printed titrations and factors, and the
// number that the commonest wrong reading gives away from ours.
func TestPublishedAssays(t *testing.T) {
	traps := 0
	for _, row := range tabletest.Rows(t, "assays") {
		t.Run(row.Check(), func(t *testing.T) {
			have := assayed(t, row)
			row.Meets(t, have)
			if row.Text("trap") != "" {
				traps++
				assert.NotEmpty(t, row.Text("trap_is"))
				assert.Greater(t, math.Abs(have-row.Float("trap")), 20*row.Tolerance(), row.Text("trap_is"))
			}
		})
	}
	assert.GreaterOrEqual(t, traps, 12)
}

func assayed(t *testing.T, row tabletest.Row) float64 {
	method := row.Text("method")
	if method == "" {
		return factor(t, row)
	}
	readings := read(t, row.Text("readings"))
	r := found(t, readings, method)
	per := func(key string) float64 { return readings["assay."+key] }
	switch finds := row.Text("finds"); finds {
	case "percent MnO2":
		return r.Value
	case "percent Mn3O4":
		return 100 * float64(r.Moles) / 3 * molar("Mn3O4") / per("oxalate.sample")
	case "mg MnSO4·H2O a mL":
		return float64(r.Moles) * molar("MnSO4·H2O") * 1000 / per("chelate.titre")
	case "mg Mn a mL":
		return float64(r.Moles) * molarMn * 1000 / per("volhard.titre")
	case "mg MnO2 a mL saved":
		return float64(r.Moles) * molarDioxide * 1000 / (per("oxalate.full") - per("oxalate.titre"))
	case "mg KMnO4 a mg":
		return r.Value * per("permanganate.titre") * molar("KMnO4") / 1000 / per("permanganate.mass")
	case "mg KMnO4 a mL":
		return r.Value * molar("KMnO4")
	case "percent oxalic dihydrate at 5.980 g/L":
		// The strength found grows with the purity taken: the purity is that at which it
		// is the strength given.
		return 100 * 5.980 / molar("KMnO4") / r.Value
	case "waters":
		return r.Value
	case "mmol Mn a litre of 50 mL":
		return float64(r.Moles) * 1e6 / 50
	case "g CO2 to a g MnO2":
		return (per("loss.before") - per("loss.after")) / (float64(r.Moles) * molarDioxide)
	default:
		t.Fatal("unknown ", finds)
		return 0
	}
}

// factor computes the rows that are not readings of one of our methods.
func factor(t *testing.T, row tabletest.Row) float64 {
	switch finds := row.Text("finds"); finds {
	case "g Mn3O4 from g MnO2":
		return molar("Mn3O4") / 3 / molarDioxide
	case "g made up":
		given := map[string]string{}
		for _, pair := range strings.Split(row.Text("readings"), ";") {
			key, value, _ := strings.Cut(pair, "=")
			given[key] = value
		}
		molarity, err := strconv.ParseFloat(given["molarity"], 64)
		require.NoError(t, err)
		volume, err := strconv.ParseFloat(given["volume"], 64)
		require.NoError(t, err)
		return Recipe{Formula: given["formula"], Molarity: molarity}.Mass(volume)
	case "g Mn from g Fe":
		volhard := reaction.PermanganateManganese.Per("Mn^2+", "MnO4^-") * molarMn
		return volhard / (reaction.PermanganateIron.Per("Fe^2+", "MnO4^-") * molar("Fe"))
	case "percent Na2O", "percent K2O":
		given := map[string]float64{}
		for _, pair := range strings.Split(row.Text("readings"), ";") {
			key, value, _ := strings.Cut(pair, "=")
			v, err := strconv.ParseFloat(value, 64)
			require.NoError(t, err)
			given[key] = v
		}
		// Two unknowns, the mass of both chlorides and their chloride.
		n := given["silver"] * given["normality"] / 1000
		sodium := (n*molar("KCl") - given["salts"]) / (molar("KCl") - molar("NaCl"))
		if finds == "percent Na2O" {
			return 100 * sodium / 2 * molar("Na2O") / given["sample"]
		}
		return 100 * (n - sodium) / 2 * molar("K2O") / given["sample"]
	default:
		t.Fatal("unknown ", finds)
		return 0
	}
}

// The published losses of the hydrates, read backwards: each loss gives its waters.
func TestPublishedIgnition(t *testing.T) {
	seen := 0
	for _, row := range tabletest.Rows(t, "ignition") {
		if row.Text("salt") != "MnSO4" || strings.Contains(row.Check(), "usp") || strings.Contains(row.Check(), "pharmacopoeia") {
			continue
		}
		seen++
		lost := row.Expected() / 100 * 5
		r := found(t, Readings{
			"assay.ignition.dish": 20, "assay.ignition.before": 25, "assay.ignition.after": 25 - lost, "assay.ignition.again": 25 - lost,
			"assay.ignition.celsius": 450,
		}, "ignition")
		assert.InDelta(t, row.Float("waters"), r.Value, 0.003, row.Check())
		// The common wrong base: water over what was weighed in, not over what stayed.
		assert.Greater(t, math.Abs(row.Expected()/100*molarSulfate/molarWater-r.Value), 0.09)
	}
	assert.Equal(t, 5, seen)
}

// A salt within the pharmacopoeia's limits is taken, and at the middle of the
// tetrahydrate's it is called that.
func TestPharmacopoeiaLimits(t *testing.T) {
	for _, row := range tabletest.Rows(t, "ignition") {
		if row.Check() != "loss.usp.1" && row.Check() != "loss.pharmacopoeia.4" {
			continue
		}
		for _, loss := range []float64{row.Expected() - row.Tolerance(), row.Expected(), row.Expected() + row.Tolerance()} {
			r := found(t, Readings{
				"assay.ignition.dish": 20, "assay.ignition.before": 25, "assay.ignition.after": 25 - loss/20, "assay.ignition.again": 25 - loss/20,
				"assay.ignition.celsius": 450,
			}, "ignition")
			assert.InDelta(t, row.Float("waters"), r.Value, 0.35, "%v at %v %%", row.Check(), loss)
		}
	}
}

type quantityOf struct{ x, u float64 }

// models are those of the published uncertainty examples.
var models = map[string]struct {
	parts []quantityOf
	f     func(x []float64) float64
}{
	"eurachem a1": {[]quantityOf{{0.9999, 0.000058}, {100.28, 0.05}, {100.0, 0.07}}, func(x []float64) float64 { return 1000 * x[1] * x[0] / x[2] }},
	"eurachem a2": {
		[]quantityOf{{1, 0.0005}, {0.3888, 0.00013}, {1, 0.00029}, {204.2212, 0.0038}, {18.64, 0.013}},
		func(x []float64) float64 { return 1000 * x[1] * x[2] / (x[3] * x[4]) * x[0] },
	},
	"eurachem a3": {
		[]quantityOf{{1, 0.001}, {0.3888, 0.00013}, {1, 0.00029}, {14.89, 0.015}, {18.64, 0.016}, {204.2212, 0.0038}, {15, 0.011}},
		func(x []float64) float64 { return 1000 * x[1] * x[2] * x[3] / (x[4] * x[5] * x[6]) * x[0] },
	},
	"sum":       {[]quantityOf{{0, 1}, {0, 1}, {0, 1}, {0, 1}}, func(x []float64) float64 { return x[0] + x[1] + x[2] + x[3] }},
	"logarithm": {[]quantityOf{{0.6, rectangular(0.5)}}, func(x []float64) float64 { return math.Log(x[0]) }},
	"expansion": {
		[]quantityOf{{1.4999, 0.0001}, {288.15, 0.02}, {1.5021, 0.0002}, {373.10, 0.05}},
		func(x []float64) float64 { return (x[2] - x[0]) / (x[0] * (x[3] - x[1])) },
	},
	"gauge": {
		[]quantityOf{{50000623, 25}, {215, 9.7}, {-0.1, 0.41}, {11.5e-6, 1.2e-6}, {0, 0.58e-6}, {0, 0.029}},
		func(x []float64) float64 {
			return x[0] + x[1] - x[0]*(x[4]*x[2]+x[3]*x[5])
		},
	},
}

func TestPublishedPropagation(t *testing.T) {
	for _, row := range tabletest.Rows(t, "propagation") {
		m, ok := models[row.Text("model")]
		require.True(t, ok, row.Check())
		var b budget
		for _, p := range m.parts {
			b.add("", p.x, p.u)
		}
		y, u, shares := b.propagate(m.f)
		if row.Text("finds") == "u" {
			row.Meets(t, u)
			sum := 0.0
			for _, s := range shares {
				sum += s.Of
			}
			assert.InDelta(t, 1, sum, 1e-9)
		} else {
			row.Meets(t, y)
		}
	}
}

func TestPublishedGlassware(t *testing.T) {
	wares := map[string]Ware{"burette": Burette, "pipette": Pipette, "flask": Flask, "cylinder": Cylinder}
	for _, row := range tabletest.Rows(t, "glassware") {
		class := ClassA
		if row.Text("class") == "B" {
			class = ClassB
		}
		have, ok := Tolerance(wares[row.Text("ware")], class, row.Float("capacity"))
		require.True(t, ok)
		row.Meets(t, have)
	}
	for _, ml := range []float64{0, -1, 1001, math.NaN()} {
		_, ok := Tolerance(Flask, ClassA, ml)
		assert.False(t, ok, "%v", ml)
	}
}

func TestAnalysesBalance(t *testing.T) {
	require.NotEmpty(t, reaction.Analyses())
	for _, a := range reaction.Analyses() {
		mass, charge := 0.0, 0
		for i, side := range strings.Split(a.String(), "->") {
			for _, word := range strings.Split(side, " + ") {
				n, written, two := strings.Cut(strings.TrimSpace(word), " ")
				if !two {
					n, written = "1", n
				}
				count, err := strconv.Atoi(n)
				require.NoError(t, err)
				f := formula.MustParse(written)
				sign := 2*i - 1
				mass += float64(sign*count) * float64(f.MolarMass())
				charge += sign * count * f.Charge()
			}
		}
		assert.InDelta(t, 0, mass, 1e-9, a.String())
		assert.Zero(t, charge, a.String())
	}
}
