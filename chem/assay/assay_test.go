package assay

import (
	"maps"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/formula"
	"rosesalt/chem/reaction"
)

// The worked readings that the cases below change.
const (
	gasLost  = "loss.sample=2.00;loss.oxalic=3.00;loss.acid=60;loss.kind=dilute;loss.before=185.30;loss.after=184.25;loss.blank=0.03;loss.celsius=50"
	backed   = "permanganate.known=0.0200;oxalate.sample=0.500;oxalate.mass=0.600;oxalate.titre=22.40"
	neutral  = "permanganate.known=0.0200;volhard.sample=1.000;volhard.flask=250;volhard.part=50;volhard.titre=37.00;volhard.medium=neutral;volhard.clean=none"
	chelated = "edetate.known=0.0500;chelate.sample=1.000;chelate.flask=250;chelate.part=100;chelate.titre=45.00;chelate.zinc=known;chelate.percent=2"
	ignited  = "ignition.dish=31.20;ignition.before=36.20;ignition.after=35.66;ignition.again=35.66;ignition.celsius=450"
	pinked   = "permanganate.mass=0.200;permanganate.titre=31.50;permanganate.blank=0.05"
	zinced   = "edetate.mass=0.800;edetate.flask=250;edetate.part=25;edetate.titre=24.40"
)

func with(t testing.TB, base, changes string) Readings {
	r := read(t, base)
	if changes != "" {
		maps.Copy(r, read(t, changes))
	}
	return r
}

// Each method by hand, in one line beside it.
func TestByHand(t *testing.T) {
	for _, c := range []struct {
		readings, method string
		want, within     float64
	}{
		// 1.05 - 0.03 g less water at 45 °C (9.85 of 101.3 kPa: 4.41 %), by 86.936/88.018, in 2 g.
		{gasLost, "loss", 100 * 1.02 / 1.04409 * 86.936 / 88.018 / 2, 0.02},
		{backed, "oxalate", 100 * (0.6*0.995/126.064 - 2.5*0.02*0.0224) * 86.936 / 0.5, 1e-9},
		{neutral, "volhard", 100 * 1.5 * 0.02 * 0.037 * 5 * 54.938 / 1, 1e-9},
		{chelated, "chelate", 100 * (0.05*0.045*2.5 - 0.02/65.38) * 54.938, 1e-9},
		{ignited, "ignition", 10.8 * 150.994 / (89.2 * 18.015), 1e-9},
		{pinked, "permanganate", 0.2 * 0.995 / 126.064 * 0.4 / 0.03145, 1e-9},
		{zinced, "edetate", 0.8 * 0.995 / 65.38 / 10 / 0.0244, 1e-9},
		{"edetate.mass=9.31;edetate.flask=500;edetate.way=salt", "edetate", 9.31 * 0.995 / 372.238 / 0.5, 1e-9},
	} {
		t.Run(c.method, func(t *testing.T) {
			r := found(t, read(t, c.readings), c.method)
			assert.InDelta(t, c.want, r.Value, c.within)
			assert.Greater(t, r.U, 0.0)
			assert.NotEmpty(t, r.Working)
			if r.Handover == nil {
				assert.NotEmpty(t, r.NoHandover)
			}
			text := strings.Join(r.Working, "\n")
			assert.NotContains(t, text, "NaN")
			assert.NotContains(t, text, "->")
		})
	}
}

// What a titrant's standardising finds is what its titration uses, the uncertainty
// with it.
func TestTitrantIsHandedOn(t *testing.T) {
	known := found(t, read(t, pinked), "permanganate").Value
	typed := found(t, with(t, backed, "balance=0.0001"), "oxalate")
	typed.Value += 2.5 * (0.02 - known) * 0.0224 * 86.936 / 0.5 * 100
	r := with(t, backed, pinked+";balance=0.0001")
	delete(r, "assay.permanganate.known")
	standardised := found(t, r, "oxalate")
	assert.InDelta(t, typed.Value, standardised.Value, 1e-9)
	assert.Less(t, standardised.U, typed.U, "a strength only typed is less sure")
	delete(r, "assay.permanganate.titre")
	o := outcome(t, r, "oxalate")
	assert.Nil(t, o.Result)
	assert.Contains(t, o.Wanting, "assay.permanganate.known")
}

func TestRefused(t *testing.T) {
	for name, c := range map[string]struct{ base, changes, method, at, says string }{
		"Volhard in acid":             {neutral, "volhard.medium=acid", "volhard", "volhard.medium", "In acid"},
		"Volhard with sulfur dioxide": {neutral, "volhard.clean=some", "volhard", "volhard.clean", "Boil the sulfur dioxide out"},
		"EDTA, zinc unaccounted":      {chelated, "chelate.zinc=unsaid", "chelate", "chelate.zinc", "one to one"},
		"strong acid on oxalic acid":  {gasLost, "loss.kind=strong", "loss", "loss.kind", "carbon monoxide"},
		"too warm":                    {gasLost, "loss.celsius=75", "loss", "loss.celsius", "limit of 60"},
		"oxalic acid used up":         {gasLost, "loss.oxalic=1.40", "loss", "loss.oxalic", "only the least"},
		"more gas than oxalic acid":   {gasLost, "loss.oxalic=0.90", "loss", "loss.oxalic", "spray"},
		"acid short":                  {gasLost, "loss.acid=8", "loss", "loss.acid", "oxalate of manganese"},
		"gained":                      {gasLost, "loss.after=186", "loss", "loss.after", "each other's field"},
		"blank above the loss":        {gasLost, "loss.blank=1.2", "loss", "loss.blank", "more than the sample"},
		"no sample":                   {gasLost, "loss.sample=0", "loss", "loss.sample", "Nothing was weighed in"},
		"gas, milligrams":             {gasLost, "loss.sample=0.5;loss.oxalic=5;loss.acid=200", "loss", "loss.after", "nothing holds more than 100"},
		"normality for molarity":      {backed, "permanganate.known=0.1;oxalate.titre=20", "oxalate", "permanganate.known", "normality"},
		"more than all":               {backed, "oxalate.mass=6", "oxalate", "oxalate.mass", "more than 100"},
		"the other oxalate":           {backed, "oxalate.sample=0.30;oxalate.titre=24", "oxalate", "oxalate.reductant", "the other oxalate"},
		"above all by a little":       {gasLost, "loss.after=183.00;loss.oxalic=8;loss.acid=200", "loss", "loss.after", "more than 100"},
		"blank above the reading":     {backed, "oxalate.blank=23", "oxalate", "oxalate.blank", "above the reading"},
		"nothing left over":           {backed, "oxalate.titre=0", "oxalate", "oxalate.titre", "only be the least"},
		"columns turned round":        {backed, "oxalate.reductant=iron;oxalate.full=20;oxalate.titre=45", "oxalate", "oxalate.full", "each other's field"},
		"too much manganese":          {neutral, "volhard.titre=55", "volhard", "permanganate.known", "36.4"},
		"too much, no slip":           {pinked, "volhard.sample=0.200;volhard.titre=50;volhard.medium=neutral;volhard.clean=none", "volhard", "volhard.titre", "36.4"},
		"neutral, normality":          {neutral, "permanganate.known=0.1", "volhard", "permanganate.known", "normality"},
		"part above flask":            {neutral, "volhard.flask=50;volhard.part=100", "volhard", "volhard.part", "More was taken out"},
		"whole, not part":             {neutral, "volhard.part=5", "volhard", "volhard.part", "the whole was titrated"},
		"zinc above all":              {chelated, "chelate.percent=40", "chelate", "chelate.titre", "less than 0"},
		"not hot enough":              {ignited, "ignition.celsius=200", "ignition", "ignition.celsius", "between 200 and 400"},
		"too hot":                     {ignited, "ignition.celsius=850", "ignition", "ignition.celsius", "breaks up"},
		"not constant":                {ignited, "ignition.again=35.50", "ignition", "ignition.again", "constant mass"},
		"heavier after the fire":      {ignited, "ignition.after=37;ignition.again=37", "ignition", "ignition.after", "no hydrate can"},
		"wet salt":                    {ignited, "ignition.after=33.5;ignition.again=33.5", "ignition", "ignition.before", "45.5"},
		"no salt":                     {ignited, "ignition.before=31.2;ignition.after=31.2;ignition.again=31.2", "ignition", "ignition.before", "no salt"},
		"salt without its dish":       {ignited, "ignition.after=4.5;ignition.again=4.5", "ignition", "ignition.again", "without its dish"},
		"nothing used":                {pinked, "permanganate.titre=0.05", "permanganate", "permanganate.titre", "beyond the blank"},
		"standard in milligrams":      {pinked, "permanganate.mass=20", "permanganate", "permanganate.mass", "milligrams"},
		"zinc's part above its flask": {zinced, "edetate.flask=20", "edetate", "edetate.part", "More was taken out"},
	} {
		t.Run(name, func(t *testing.T) {
			o := outcome(t, with(t, c.base, c.changes), c.method)
			assert.Nil(t, o.Result)
			require.Contains(t, o.Problems, "assay."+c.at)
			assert.Contains(t, o.Problems["assay."+c.at], c.says)
			for _, m := range o.Problems {
				assert.NotContains(t, m, "NaN")
			}
		})
	}
}

// A refused condition is a right one away from being taken.
func TestTheRestGoesOn(t *testing.T) {
	r := with(t, gasLost, neutral)
	maps.Copy(r, read(t, "volhard.medium=acid"))
	assert.Nil(t, outcome(t, r, "volhard").Result)
	assert.NotNil(t, outcome(t, r, "loss").Result)
	assert.NotNil(t, outcome(t, r, "permanganate").Result)
	assert.False(t, outcome(t, r, "ignition").Begun)
	assert.Empty(t, outcome(t, r, "ignition").Problems)
}

func TestWanting(t *testing.T) {
	for method, base := range map[string]string{"loss": gasLost, "oxalate": backed, "volhard": neutral, "ignition": ignited} {
		full := read(t, base)
		for key := range full {
			if !strings.HasPrefix(key, "assay."+method) || strings.HasSuffix(key, "flask") {
				continue
			}
			r := maps.Clone(full)
			delete(r, key)
			o := outcome(t, r, method)
			assert.Nil(t, o.Result, key)
			assert.Contains(t, o.Wanting, key)
			assert.Empty(t, o.Problems, key)
		}
	}
}

// The ways of giving the same reductant agree.
func TestSameReductantByOtherWays(t *testing.T) {
	acid := found(t, with(t, backed, "oxalate.purity=100"), "oxalate")
	salt := found(t, with(t, backed, "oxalate.purity=100;oxalate.reductant=salt;oxalate.mass=0.63776"), "oxalate")
	solution := found(t, with(t, backed, "oxalate.reductant=solution;oxalate.portion=47.595;oxalate.molarity=0.1"), "oxalate")
	alone := found(t, with(t, backed, "oxalate.reductant=solution;oxalate.full=95.19"), "oxalate")
	iron := found(t, with(t, backed, "oxalate.reductant=iron;oxalate.portion=95.19;oxalate.molarity=0.1"), "oxalate")
	for _, r := range []*Result{salt, solution, alone, iron} {
		assert.InDelta(t, acid.Value, r.Value, 0.01)
	}
	// The wrong salt weighed would be read as something else.
	assert.Greater(t, math.Abs(found(t, with(t, backed, "oxalate.purity=100;oxalate.reductant=salt"), "oxalate").Value-acid.Value), 4.0)
}

// EDTA counts zinc and manganese together; what Volhard leaves is zinc.
func TestZincByDifference(t *testing.T) {
	const manganese, zinc = 0.3, 0.02 // of the gram weighed in
	millimoles := manganese/54.938*1000 + zinc/65.38*1000
	r := with(t, chelated, "chelate.zinc=wanted")
	r["assay.chelate.titre"] = millimoles / 2.5 / 0.05
	maps.Copy(r, read(t, neutral))
	r["assay.volhard.titre"] = manganese / 54.938 * 1000 / 5 / 1.5 / 0.02
	z := found(t, r, "chelate")
	assert.InDelta(t, 100*zinc, z.Value, 1e-9)
	assert.Nil(t, z.Handover)
	// Left out, the zinc would be read as manganese.
	r["assay.chelate.zinc"] = zincNone
	assert.InDelta(t, 100*(manganese+zinc/65.38*54.938), found(t, r, "chelate").Value, 1e-9)
	r["assay.chelate.zinc"], r["assay.chelate.percent"] = zincKnown, 2
	assert.InDelta(t, 100*manganese, found(t, r, "chelate").Value, 1e-9)
}

func TestWaterVapourIsAllowedFor(t *testing.T) {
	open := found(t, read(t, gasLost), "loss")
	dry := found(t, with(t, gasLost, "loss.way=tube"), "loss")
	assert.InDelta(t, 1.0441, dry.Value/open.Value, 0.0005)
	require.Len(t, open.Others, 1)
	assert.InDelta(t, dry.Value, open.Others[0].Value, 0.01)
	cool := found(t, with(t, gasLost, "loss.celsius=25"), "loss")
	assert.Greater(t, cool.Value, open.Value)
	assert.Less(t, cool.U, open.U, "cooler gas is surer")
	high := Evaluate(read(t, gasLost), Air{Pressure: 70})
	for _, o := range high {
		if o.Method == loss {
			assert.Less(t, o.Result.Value, open.Value, "in thin air more water goes with the gas")
		}
	}
	unswept := found(t, with(t, gasLost, "loss.swept=no"), "loss")
	assert.Greater(t, unswept.Value, open.Value)
	assert.Greater(t, unswept.U, 2*open.U)
	assert.Equal(t, "gas left in the flask", unswept.Shares[0].Name)
}

// The first-order uncertainty of the back-titration, worked by hand.
func TestUncertaintyByHand(t *testing.T) {
	r := found(t, with(t, backed, "glass=A"), "oxalate")
	balance := math.Sqrt(2*1e-6/12 + 4e-6/3)
	burette := math.Sqrt(0.03*0.03/6 + math.Pow(2.1e-4*4*22.4, 2)/3 + 0.05*0.05/3)
	factor := 100 * 86.936 / 0.5
	put, left := 0.6*0.995/126.064, 2.5*0.02*0.0224
	want := math.Sqrt(
		math.Pow(factor*put*balance/0.6, 2) + math.Pow(factor*put*0.005/math.Sqrt(3)/0.995, 2) +
			math.Pow(factor*left*0.01/math.Sqrt(3), 2) + math.Pow(factor*2.5*0.02*burette/1000, 2) +
			math.Pow(factor*2.5*0.02*0.05/math.Sqrt(3)/1000, 2) + math.Pow(factor*(put-left)*balance/0.5, 2))
	assert.InEpsilon(t, want, r.U, 1e-5)
	assert.Greater(t, found(t, with(t, backed, "glass=unmarked"), "oxalate").U, r.U)
	assert.Greater(t, found(t, with(t, backed, "balance=0.01"), "oxalate").U, 2*r.U)
}

func TestHandedOver(t *testing.T) {
	mix := found(t, read(t, backed), "oxalate")
	require.NotNil(t, mix.Handover)
	assert.Equal(t, "mix.assay", mix.Handover.Key)
	half := math.Sqrt(6 * (mix.U*mix.U + math.Pow(0.01*mix.Value, 2)/3))
	assert.InDelta(t, mix.Value-half, mix.Handover.Low, 1e-9)
	assert.InDelta(t, mix.Value+half, mix.Handover.High, 1e-9)
	assert.Equal(t, "found.assay", found(t, read(t, neutral), "volhard").Handover.Key)
	for n, want := range map[float64]float64{0: 450, 1: 110, 5: 20, 7: 5, 0.5: 300, 4: -1, 2.5: -1} {
		loss := 5 * n * molarWater / (molarSulfate + n*molarWater)
		r := with(t, ignited, "")
		r["assay.ignition.after"], r["assay.ignition.again"] = 36.2-loss, 36.2-loss
		o := found(t, r, "ignition")
		assert.InDelta(t, n, o.Value, 1e-9)
		if want < 0 {
			assert.Nil(t, o.Handover, "%v", n)
			assert.NotEmpty(t, o.NoHandover)
			continue
		}
		require.NotNil(t, o.Handover, "%v", n)
		assert.Equal(t, "found.dried", o.Handover.Key)
		assert.Equal(t, want, o.Handover.Value, "%v", n)
	}
}

// Any readings that the fields take give an outcome that is whole: a finite result
// within bounds, something wanting, or a message, and never a panic.
func TestAnyReadings(t *testing.T) {
	var number []float64
	rapid.Check(t, func(t *rapid.T) {
		r := Readings{}
		for _, in := range Inputs() {
			if in.Options == nil && rapid.Float64Range(0, 1).Draw(t, "left out") < 0.2 {
				continue
			}
			v := rapid.Float64Range(in.Min, in.Max).Draw(t, in.Key)
			if in.Whole {
				v = math.Round(v)
			}
			if in.Accept(v) == nil {
				r[in.Key] = v
			}
		}
		for _, o := range Evaluate(r, seaLevel) {
			if !o.Begun {
				continue
			}
			if o.Result == nil {
				if len(o.Wanting) == 0 && len(o.Problems) == 0 {
					t.Fatal(o.Method.Key, " is silent")
				}
				continue
			}
			number = append(number, o.Result.Value)
			if math.IsNaN(o.Result.Value) || math.IsInf(o.Result.Value, 0) || !(o.Result.U >= 0) {
				t.Fatal(o.Method.Key, o.Result.Value, o.Result.U)
			}
			if h := o.Result.Handover; h != nil && !(h.Low <= h.High) {
				t.Fatal(h)
			}
		}
	})
	assert.NotEmpty(t, number)
}

func TestMethodsAreSound(t *testing.T) {
	keys := map[string]bool{}
	for _, in := range Inputs() {
		assert.False(t, keys[in.Key], in.Key)
		keys[in.Key] = true
		assert.NotEmpty(t, in.Name)
		assert.NotEmpty(t, in.Why, in.Key)
		assert.Less(t, in.Min, in.Max, in.Key)
		assert.True(t, inputs.Has(in.Key))
	}
	for _, m := range methods {
		assert.NotEmpty(t, m.Steps(), m.Key)
		assert.False(t, keys[m.Key], m.Key)
		keys[m.Key] = true
		for _, in := range m.Inputs {
			assert.True(t, strings.HasPrefix(in.Key, m.Key+"."))
		}
	}
	assert.False(t, inputs.Has("mix.assay"))
	assert.Len(t, texts.Blocks(), len(methods), "each block is of a method")
}

// Masses of the solutions from molar masses written out here.
func TestRecipes(t *testing.T) {
	want := map[string]float64{"Permanganate": 3.1606, "Oxalic acid": 6.3032, "EDTA": 18.612, "Iron(II) solution": 39.2125}
	seen := 0
	for _, r := range Recipes() {
		if grams, ok := want[r.Name]; ok {
			seen++
			assert.InDelta(t, grams, r.Mass(1000), 0.001, r.Name)
		}
		assert.Contains(t, r.String(), formula.Typeset(r.Formula))
	}
	assert.Equal(t, len(want), seen)
}

func TestTypeset(t *testing.T) {
	assert.Equal(t, "5 C₂O₄²⁻ + 2 MnO₄⁻ + 16 H⁺ → 2 Mn²⁺ + 10 CO₂ + 8 H₂O", Typeset(reaction.PermanganateOxalate))
	assert.Equal(t, "MnSO₄·H₂O → MnSO₄ + H₂O", Typeset(reaction.Ignition))
}

func TestParseAnalysisRefuses(t *testing.T) {
	for text, says := range map[string]string{
		"MnO2":                       "no arrow",
		"3 Mn^2+ + MnO4^- -> 5 MnO2": "does not balance",
		"Mn^2+ -> Mn^3+":             "charge does not balance",
		"H2O + H2O -> 2 H2O":         "stands twice",
		"x H2O -> H2O":               "not a whole number",
		"Qq -> Qq":                   "unknown",
	} {
		_, err := reaction.ParseAnalysis(text)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), says)
	}
	assert.Panics(t, func() { reaction.Ignition.Per("MnO2", "H2O") })
}

func TestAsks(t *testing.T) {
	for key, c := range map[string]struct {
		readings string
		asks     bool
	}{
		"permanganate.mass":  {"permanganate.known=0.02", false},
		"permanganate.known": {"permanganate.known=0.02", true},
		"oxalate.mass":       {"oxalate.reductant=iron", false},
		"oxalate.portion":    {"oxalate.reductant=iron", true},
		"oxalate.molarity":   {"oxalate.reductant=iron;oxalate.full=20", false},
		"oxalate.full":       {"oxalate.reductant=salt", false},
		"edetate.titre":      {"edetate.way=salt", false},
		"loss.head":          {"loss.swept=no", true},
		"chelate.percent":    {"chelate.zinc=known", true},
		"chelate.manganese":  {"chelate.zinc=known", false},
		"ignition.dish":      {"ignition.step=0.001", true},
		"volhard.part":       {"volhard.sample=1", true},
	} {
		assert.Equal(t, c.asks, Asks("assay."+key, read(t, c.readings)), key)
	}
	// No reading that a method waits for is ever hidden.
	for _, base := range []string{gasLost, backed, neutral, chelated, pinked, zinced} {
		full := read(t, base)
		for key := range full {
			r := maps.Clone(full)
			delete(r, key)
			for _, o := range Evaluate(r, seaLevel) {
				for _, wanted := range o.Wanting {
					assert.True(t, Asks(wanted, r), wanted)
				}
			}
		}
	}
}

// The first-order law holds where it is used: drawing every quantity from a normal
// distribution gives the same spread, also for the gas lost, whose allowance for water
// bends (JCGM 101:2008, clause 8, compares the two so).
func TestFirstOrderIsEnough(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for method, base := range map[string]string{"loss": gasLost, "oxalate": backed, "volhard": neutral, "chelate": chelated, "ignition": ignited} {
		r := read(t, base)
		known := map[string]*Result{}
		for _, m := range methods {
			w := &work{method: m, in: r, air: seaLevel, known: known, problems: map[string]string{}}
			if m.Key == "assay."+method {
				m.work(w)
				require.NotNil(t, w.result)
				sum, squares := 0.0, 0.0
				const draws = 20000
				x := make([]float64, len(w.x))
				for range draws {
					for i := range x {
						x[i] = w.x[i] + w.u[i]*random.NormFloat64()
					}
					y := w.formula(x)
					sum, squares = sum+y, squares+y*y
				}
				mean := sum / draws
				assert.InEpsilon(t, math.Sqrt(squares/draws-mean*mean), w.result.U, 0.03, method)
				assert.InDelta(t, mean, w.result.Value, 0.1*w.result.U, method)
				continue
			}
			if m.Purpose == OfTitrant {
				for _, o := range Evaluate(r, seaLevel) {
					if o.Method == m && o.Result != nil {
						known[m.Key] = o.Result
					}
				}
			}
		}
	}
}

func TestTwoAssaysThatDiffer(t *testing.T) {
	r := with(t, gasLost, backed)
	differ := func(r Readings, method string) bool {
		return strings.Contains(strings.Join(found(t, r, method).Notes, "\n"), "Two assays differ")
	}
	assert.True(t, differ(r, "loss"), "48 against 63 %")
	assert.True(t, differ(r, "oxalate"))
	r["assay.oxalate.mass"] = 0.495
	assert.InDelta(t, found(t, r, "loss").Value, found(t, r, "oxalate").Value, 1.5)
	assert.False(t, differ(r, "loss"))
	assert.False(t, differ(r, "oxalate"))
}

// What an unswept flask keeps, from densities as tabulated at 25 °C and one atmosphere
// (carbon dioxide 1.80, air 1.184 g/L; 1.45 to 1.5 g of carbon dioxide to a litre of
// water), half of it.
func TestUnsweptByHand(t *testing.T) {
	keeps := 0.150*(1.80-1.184) + 0.060*1.48
	swept, unswept := found(t, read(t, gasLost), "loss"), found(t, with(t, gasLost, "loss.swept=no"), "loss")
	assert.InDelta(t, keeps/2/1.0441*86.936/88.018/2*100, unswept.Value-swept.Value, 0.1)
	assert.InDelta(t, keeps/2/1.0441*86.936/88.018/2*100/math.Sqrt(3), math.Sqrt(unswept.U*unswept.U-swept.U*swept.U), 0.1)
	wide := found(t, with(t, gasLost, "loss.swept=no;loss.head=500"), "loss")
	assert.InDelta(t, 0.350*(1.80-1.184)/2/1.0441*86.936/88.018/2*100, wide.Value-unswept.Value, 0.1)
}

func TestUncertaintyOfTheGasByHand(t *testing.T) {
	w := math.Sqrt(2*1e-4/12 + 4e-4/3) // a weighing, g
	keeps := 0.150*(1.80-1.184) + 0.060*1.48
	toPercent := 1 / 1.0441 * 86.936 / 88.018 / 2 * 100
	// Between the rows of 40 and 50 °C the vapour pressure rises 0.496 kPa a kelvin.
	water := 0.4959 * 101.325 / math.Pow(101.325-9.8525, 2) * 18.015 / 44.009
	want := math.Sqrt(2*math.Pow(w*toPercent, 2) + math.Pow(48.246*w/2, 2) +
		math.Pow(0.05/math.Sqrt(3)*keeps*toPercent, 2) + math.Pow(48.246*water/1.0441*5/math.Sqrt(3), 2))
	assert.InEpsilon(t, want, found(t, read(t, gasLost), "loss").U, 0.002)
}

// Where a limit lies, from both sides of it.
func TestLimits(t *testing.T) {
	assert.NotEmpty(t, outcome(t, with(t, ignited, "ignition.celsius=399"), "ignition").Problems)
	assert.NotNil(t, outcome(t, with(t, ignited, "ignition.celsius=400"), "ignition").Result)
	assert.NotNil(t, outcome(t, with(t, ignited, "ignition.celsius=600"), "ignition").Result)
	assert.NotEmpty(t, outcome(t, with(t, ignited, "ignition.celsius=601"), "ignition").Problems)
	hydrate := func(n float64) *Result {
		r := with(t, ignited, "ignition.step=0.0001")
		loss := 5 * n * molarWater / (molarSulfate + n*molarWater)
		r["assay.ignition.after"], r["assay.ignition.again"] = 36.2-loss, 36.2-loss
		return found(t, r, "ignition")
	}
	require.NotNil(t, hydrate(1.14).Handover)
	assert.Equal(t, 110.0, hydrate(1.14).Handover.Value)
	assert.Nil(t, hydrate(1.16).Handover)
	// Two uncertainties beyond the bound are not enough where they are wide.
	rough := with(t, gasLost, "loss.sample=1.00;loss.oxalic=9;loss.acid=200;loss.way=tube")
	rough["assay.loss.after"] = 185.30 - 0.03 - 1.02/86.936*88.018
	assert.NotEmpty(t, outcome(t, rough, "loss").Problems, "102 %")
	rough["assay.loss.after"] = 185.30 - 0.03 - 1.005/86.936*88.018
	require.NotNil(t, outcome(t, rough, "loss").Result, "100.5 %")
	assert.Equal(t, 100.0, outcome(t, rough, "loss").Result.Handover.Value)
}

func TestMoreUncertaintiesByHand(t *testing.T) {
	c := found(t, read(t, chelated), "chelate")
	zinc := 100 * 0.1 * 0.02 / math.Sqrt(3) / 65.38 * 54.938
	for _, s := range c.Shares {
		if s.Name == "the zinc" {
			assert.InEpsilon(t, zinc, math.Sqrt(s.Of)*c.U, 1e-6)
		}
	}
	assert.Contains(t, c.Shares[1].Name, "zinc")
	v := found(t, read(t, neutral), "volhard")
	assert.InEpsilon(t, 2*math.Sqrt(v.U*v.U+math.Pow(0.01*v.Value, 2)/3), v.Handover.Half, 1e-9)
	for class, want := range map[Class]float64{ClassA: 0.05, ClassB: 0.10, Unmarked: 0.20} {
		have, ok := Tolerance(Burette, class, 37)
		assert.True(t, ok)
		assert.InDelta(t, want, have, 1e-12)
	}
	notes := func(ml string) string {
		return strings.Join(found(t, with(t, gasLost, "loss.acid="+ml), "loss").Notes, " ")
	}
	assert.Contains(t, notes("20"), "Acid was short")
	assert.NotContains(t, notes("60"), "Acid was short")
	o := outcome(t, with(t, backed, "oxalate.reductant=solution;oxalate.portion=75;oxalate.molarity=0.1"), "oxalate")
	assert.Contains(t, o.Problems["assay.oxalate.molarity"], "a normality typed")
	_, iron := outcome(t, with(t, backed, "oxalate.reductant=iron;oxalate.portion=200;oxalate.molarity=0.1"), "oxalate").Problems["assay.oxalate.molarity"]
	assert.False(t, iron, "iron's normality is its molarity")
}
