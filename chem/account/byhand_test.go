package account

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// TestGeneratorIsSplitMix: the first numbers of SplitMix64 from the seed 1234567, as Rosetta Code
// prints them ("Pseudo-random numbers/Splitmix64"; from memory).
func TestGeneratorIsSplitMix(t *testing.T) {
	g := generator(1234567)
	for _, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431} {
		assert.Equal(t, want, g.next())
	}
	g = generator(1234567)
	assert.Equal(t, (float64(uint64(6457827717110365317)>>12)+0.5)/(1<<52), g.unit())
	assert.Equal(t, int(uint64(3203168211198807973)%7), g.below(7))
}

// TestPartInWords, at the limits of its words and between them.
func TestPartInWords(t *testing.T) {
	for share, want := range map[float64]string{
		0.95: "nearly all of it", 0.9: "more than two thirds", 0.7: "more than two thirds", 2. / 3: "over half",
		0.6: "over half", 0.5: "nearly half", 0.45: "nearly half", 0.4: "more than a third", 0.35: "more than a third",
		1. / 3: "more than a quarter", 0.3: "more than a quarter", 0.25: "more than a tenth", 0.2: "more than a tenth",
		0.1: "a small part", 0.05: "a small part",
	} {
		assert.Equal(t, want, part(share), "%v", share)
	}
	for v, want := range map[float64]float64{0: 0, -3: 0, 0.05: 0.001, 0.5: 0.01, 5: 0.1, 12: 1, 94.4: 1, 999: 1, 1000: 100, 1500: 100, 12000: 1000} {
		assert.InDelta(t, want, grain(v), 1e-12, "%v", v)
	}
	assert.Equal(t, 95.0, asPrinted(94.6, 1))
	assert.Equal(t, 1.5, asPrinted(1.46, 0.1))
}

// TestUsualHalvesByHand: 2 g of a balance, or 4 % of less than 50 g, and the handling.
func TestUsualHalvesByHand(t *testing.T) {
	for _, c := range []struct {
		key     string
		v, half float64
	}{
		{KeyProduct, 100, 2 + 2},
		{KeyProduct, 20, 0.8 + 0.4},
		{KeyCopper, 20, 0.8 + 1},
		{KeyMetal, 20, 0.8 + 0.4},
		{KeyResidue, 20, 0.8 + 0.8},
		{KeyAssay, 30, 0.9},
		{KeyGas, 100, 20},
		{KeyProduct, 0.1, 0.05},
		{KeyAssay, 1, 0.05},
	} {
		assert.InDelta(t, c.half, usualHalf(c.key, c.v), 1e-12, "%s %v", c.key, c.v)
	}
	r := NewRecord()
	for _, half := range []float64{0, -1, math.Inf(1)} {
		assert.ErrorContains(t, r.Set(KeyProduct+"~", half), "above 0")
	}
	assert.ErrorContains(t, r.Set(KeyWet+"~", 1), "takes no tolerance")
	assert.ErrorContains(t, r.Set("found.nothing", 1), "is not measured here")
	assert.False(t, quantity.Given(r.Half(KeyProduct)))
	assert.False(t, quantity.Given(r.Value("found.dried~")))
}

// TestDryingTellsTheChange, and what is just within a fourhundredth of the net mass agrees.
func TestDryingTellsTheChange(t *testing.T) {
	for _, c := range []struct {
		full  []float64
		state Drying
		by    float64
	}{
		{[]float64{124.2, 124.1}, Constant, -0.1}, // of 40 g
		{[]float64{124.1, 124}, StillLosing, -0.1},
		{[]float64{124, 124.1}, Constant, 0.1},
		{[]float64{123.9, 124.1}, Gaining, 0.2},
		{[]float64{130, 124.1, 124}, StillLosing, -0.1},
	} {
		r := NewRecord()
		require.NoError(t, r.Set("found.product.empty", 84.1))
		inputs, _ := DishInputs(KeyProduct)
		for i, v := range c.full {
			require.NoError(t, r.Set(inputs[1+i].Key, v))
		}
		state, by := r.Dish(KeyProduct).Drying()
		assert.Equal(t, c.state, state, "%v", c.full)
		assert.Equal(t, c.by, by, "%v", c.full)
		assert.True(t, r.InDish(KeyProduct))
	}
	r := NewRecord()
	assert.False(t, r.InDish(KeyProduct))
	assert.False(t, r.InDish(KeyGas))
	assert.Nil(t, r.Dish(KeyGas))
	assert.Nil(t, r.Dish(KeyProduct+"~"))
	assert.NotNil(t, r.Dish(KeyMetal))
	inputs, logged := DishInputs(KeyProduct)
	require.Len(t, inputs, 1+Weighings)
	assert.True(t, logged)
	assert.Equal(t, []string{"found.product.empty", "found.product.full", "found.product.full.2"}, []string{inputs[0].Key, inputs[1].Key, inputs[2].Key})
	assert.Contains(t, inputs[0].Name, ", empty")
	assert.NotContains(t, inputs[1].Name, "weighing")
	assert.Contains(t, inputs[2].Name, ", weighing 2")
	inputs, logged = DishInputs(KeyMetal)
	assert.Len(t, inputs, 2)
	assert.False(t, logged)
	inputs, _ = DishInputs(KeyProduct + "~")
	assert.Nil(t, inputs)
	require.NoError(t, r.Set("found.metal.empty", 10))
	require.NoError(t, r.Set("found.metal.full", 10), "nothing is left")
	assert.Zero(t, r.Metal)
	require.NoError(t, r.Set("found.copper.full", 30))
	require.NoError(t, r.Set("found.copper", 5), "typed, while the dish says nothing")
	require.NoError(t, r.Set("found.copper.full", 31))
	assert.Equal(t, 5.0, r.Copper)
}

// TestTheFormWritesEachNumberOnce: what is measured, not what follows from a dish, nor a fact
// that is not so.
func TestTheFormWritesEachNumberOnce(t *testing.T) {
	r := NewRecord()
	require.NoError(t, r.Set(KeyCopper, 40))
	require.NoError(t, r.Set("found.product.empty", 80))
	require.NoError(t, r.Set("found.product.full", 100))
	require.NoError(t, r.Set(KeyWet, 1))
	form := r.Form()
	var written []string
	for _, f := range form.Fields {
		if _, own := form.Written(f); own {
			written = append(written, f.Key)
		}
	}
	assert.ElementsMatch(t, []string{KeyCopper, "found.product.empty", "found.product.full", KeyWet}, written)
	keys := map[string]bool{}
	for _, f := range form.Fields {
		assert.False(t, keys[f.Key], f.Key)
		keys[f.Key] = true
	}
	assert.True(t, keys[KeyGas+"~"] && keys[KeyProduct+"~"])
	assert.False(t, keys["found.dried~"] || keys[KeyWet+"~"])
}

// TestPlacesOfTwoPercent: where a value stands on the grid, and what stands outside of it.
func TestPlacesOfTwoPercent(t *testing.T) {
	var g grid
	for v, at := range map[float64]int{0: 0, 1.99: 0, 2: 1, 50: 25, 99.9: 49, 100: 49, 150: 49, -3: 0} {
		was := g[at]
		g.add(v, 0.25)
		assert.Equal(t, was+0.25, g[at], "%v", v)
	}
	was := g
	g.add(math.NaN(), 1)
	assert.Equal(t, was, g)

	// A normal of one and a half places, which loses nothing at the ends.
	var one grid
	one[20] = 2
	wide := one.smooth()
	sum := 0.0
	for i, w := range wide {
		sum += w
		d := float64(i-20) / 1.5
		assert.InDelta(t, wide[20]*math.Exp(-d*d/2), w, 1e-12)
	}
	assert.InDelta(t, 2, sum, 1e-12)
	one = grid{}
	one[0] = 3
	sum = 0
	for _, w := range one.smooth() {
		sum += w
	}
	assert.InDelta(t, 3, sum, 1e-12)

	var even grid
	for i := range even {
		even[i] = 0.02
	}
	for _, share := range []float64{0.1, 0.455, 0.5, 0.9} {
		assert.InDelta(t, 100*share, even.quantile(share), 1e-9)
	}
	one = grid{}
	one[10] = 1
	assert.InDelta(t, 21, one.quantile(0.5), 1e-12)
	assert.Equal(t, 20.0, one.quantile(0))
	assert.Equal(t, 100.0, one.quantile(2))
}

// TestLikelihoodIsPosteriorOverPrior: in hundredths of a logarithm, below the likeliest place,
// and beyond what the first draws tried as at its edge.
func TestLikelihoodIsPosteriorOverPrior(t *testing.T) {
	var prior grid
	var points []float64
	for i := 10; i < 40; i++ {
		prior[i] = 1. / 30
		for range i { // rising
			points = append(points, 2*float64(i)+1)
		}
	}
	list := likelihood(points, prior)
	require.Len(t, list, Places)
	assert.Zero(t, slices.Max(list))
	for i := 15; i < 34; i++ {
		assert.InDelta(t, 100*math.Log(float64(i+1)/float64(i)), list[i+1]-list[i], 1.01, "place %d", i)
	}
	assert.Equal(t, list[0], list[4], "never tried")
	assert.Equal(t, list[49], list[46])
	assert.Equal(t, make([]int, Places), likelihood(points, grid{}), "nothing was tried")
	var all grid
	for i := range all {
		all[i] = 0.02
	}
	assert.Equal(t, LeastTold, likelihood(points, all)[0], "the first place was tried, and none is there")
	var flat []float64
	for i := 10; i < 40; i++ {
		flat = append(flat, 2*float64(i)+1)
	}
	for i, v := range likelihood(flat, prior) {
		assert.InDelta(t, 0, v, 1, "place %d", i)
	}
	for _, v := range likelihood([]float64{21}, prior)[20:] {
		assert.Equal(t, LeastTold, v, "so few points cannot tell")
	}
}

// TestRunsAreTrustedLessTheMoreThereAre: the logarithms of two runs count for two thirds each,
// and a run that tells nothing is none.
func TestRunsAreTrustedLessTheMoreThereAre(t *testing.T) {
	list, third := make([]int, Places), make([]int, Places)
	for i := range list {
		list[i] = -3 * (Places - 1 - i)
		third[i] = -4 * (Places - 1 - i) // 2 of 3 by two are 4 of 3 by one
	}
	flat := Told{"gas.uptake": make([]int, Places)}
	two := Combine(Told{"gas.uptake": list}, Told{"gas.uptake": list})
	one := Combine(Told{"gas.uptake": third})
	require.Len(t, two, 1)
	assert.InDelta(t, one[0].Low, two[0].Low, 1e-9)
	assert.InDelta(t, one[0].Median, two[0].Median, 1e-9)
	assert.InDelta(t, one[0].High, two[0].High, 1e-9)
	assert.Equal(t, two, Combine(Told{"gas.uptake": list}, flat, Told{"gas.uptake": list}))
	assert.Empty(t, Combine(Told{"gas.uptake": list[1:]}))
}

// TestTheUsualUptakeHoldsWhatMayBeLost: the mean of the usual estimate with as much of it lost as
// the cause reaches, as often as the cause weighs; the charge loses nothing.
func TestTheUsualUptakeHoldsWhatMayBeLost(t *testing.T) {
	c := demo()
	m := newModel(c, NewRecord())
	for k, key := range sharedKeys {
		mean, sum, want := 0.0, 0.0, 0.0
		for i, log := range usual()[k] {
			w := math.Exp(log)
			sum += w
			mean += w * (float64(i) + 0.5) * 2
		}
		for i := range m.uncertain {
			if u := &m.uncertain[i]; u.Input.Key == key {
				for j := range 1000 {
					want += u.At((float64(j)+0.5)/1000) / 1000
				}
			}
		}
		if key == "gas.uptake" {
			want *= 1 - GasLost.Prior()*(1-(lostLeast+lostMost)/2)
		}
		assert.InDelta(t, 1, sum, 1e-3)
		assert.InDelta(t, want, mean/sum, 0.3, key)
	}
}

// TestKishByHand: the square of the sum of the weights over the sum of their squares.
func TestKishByHand(t *testing.T) {
	s := &sampler{population: population{log: []float64{0, math.Log(3), math.Inf(-1)}}, weight: []float64{2, 1, 5}}
	assert.InDelta(t, 25./13, s.size(1), 1e-12, "2 and 3")
	assert.InDelta(t, (2+math.Sqrt(3))*(2+math.Sqrt(3))/7, s.size(0.5), 1e-12)
	s.reweigh(1)
	assert.InDelta(t, 1, s.weight[1], 1e-12)
	assert.InDelta(t, 2./3, s.weight[0], 1e-12)
	assert.Zero(t, s.weight[2])
	s.weight = []float64{0, 0, 0}
	assert.Zero(t, s.size(1))
}

// TestDistinctByHand: three, one and two of six points are one each, of two first draws.
func TestDistinctByHand(t *testing.T) {
	s := &sampler{dim: 1, population: population{u: []float64{1, 1, 1, 2, 3, 3}, label: make([]uint8, 6), line: []int32{7, 7, 7, 7, 8, 8}}}
	points, lines := s.distinct()
	assert.InDelta(t, 36./(9+1+4), points, 1e-12)
	assert.InDelta(t, 36./(16+4), lines, 1e-12)
	points, lines = new(sampler).distinct()
	assert.Zero(t, points)
	assert.Zero(t, lines)
}

// TestFirstDrawsFillEachCoordinate: of each label one in each part, and each draw a line of its
// own with its label's share of the weight.
func TestFirstDrawsFillEachCoordinate(t *testing.T) {
	const first = 50
	s := newSampler(3, []float64{0.2, 0, 0.8}, first, 70, 1, nil)
	require.Len(t, s.label, 2*first)
	for label := range 2 {
		for k := range s.dim {
			seen := map[int]bool{}
			for i := label * first; i < (label+1)*first; i++ {
				seen[int(s.point(i)[k]*first)] = true
			}
			assert.Len(t, seen, first, "label %d, coordinate %d", label, k)
		}
	}
	assert.Equal(t, []uint8{0, 2}, []uint8{s.label[first-1], s.label[first]})
	assert.Equal(t, 0.2/first, s.weight[0])
	assert.Equal(t, 0.8/first, s.weight[first])
	assert.Equal(t, int32(first), s.line[first])
}

// TestStepsCarryTheWeightThatTheySay: the first step of a likelihood lets in as much of it as
// leaves seven in ten of the points their weight.
func TestStepsCarryTheWeightThatTheySay(t *testing.T) {
	const first, people = 400, 100
	var logs []float64
	s := newSampler(1, []float64{1}, first, people, 2, func(_ int, u []float64) (float64, bool) {
		z := (u[0] - 0.3) / 0.001
		logs = append(logs, -z*z/2)
		return -z * z / 2, true
	})
	require.False(t, s.step(first))
	require.Len(t, logs, first)
	require.True(t, 0 < s.beta && s.beta < 1)
	sum, squares := 0.0, 0.0
	for _, l := range logs {
		w := math.Exp(s.beta * (l - slices.Max(logs)))
		sum, squares = sum+w, squares+w*w
	}
	assert.InDelta(t, carries*people, sum*sum/squares, 0.01)
	assert.Equal(t, 1, s.stages)
	assert.Equal(t, moving, s.phase)
	assert.Equal(t, 2, s.sweeps)
	assert.Len(t, s.label, people)
	for i := range s.label {
		assert.Equal(t, 1./people, s.weight[i])
	}
	for !s.step(first) {
	}
	assert.Equal(t, 1.0, s.beta)
	assert.Greater(t, s.taken, s.tried/20)
	assert.Less(t, s.taken, s.tried)
}

// TestPointsAreDrawnByTheirWeights, each as often as its weight says to a point.
func TestPointsAreDrawnByTheirWeights(t *testing.T) {
	const first, people = 64, 1000
	s := newSampler(1, []float64{0.25, 0.75}, first, people, 1, nil)
	s.log, s.allowed = make([]float64, 2*first), make([]bool, 2*first)
	want := map[int32]float64{}
	total := 0.0
	for i := range s.weight {
		s.weight[i] *= float64(1 + i%3)
		total += s.weight[i]
	}
	for i, w := range s.weight {
		want[int32(i)] = people * w / total
	}
	u := slices.Clone(s.u)
	s.resample()
	require.Len(t, s.label, people)
	have := map[int32]float64{}
	for i, line := range s.line {
		have[line]++
		require.Equal(t, u[line], s.u[i])
		require.Equal(t, line >= first, s.label[i] == 1)
	}
	for line, n := range want {
		assert.InDelta(t, n, have[line], 1, "draw %d", line)
	}
}

// TestHazenByHand: the value of rank k of n stands for the share (k - 1/2)/n.
func TestHazenByHand(t *testing.T) {
	list := []float64{1, 2, 4, 8}
	for q, want := range map[float64]float64{0: 1, 0.1: 1, 0.125: 1, 0.25: 1.5, 0.5: 3, 0.75: 6, 0.875: 8, 1: 8} {
		assert.InDelta(t, want, quantile(list, q), 1e-12, "%v", q)
	}
	assert.Equal(t, 5.0, quantile([]float64{5}, 0.5))
}

// atMiddle is a point whose every coordinate is the middle one, but those of the cause.
func atMiddle(m *model, howMuch, which float64) []float64 {
	u := make([]float64, m.dim())
	for k := range u {
		u[k] = 0.5
	}
	x := u[len(m.uncertain):]
	x[howFar], x[howElse], x[howAcid] = howMuch, which, 0.999
	return u
}

// TestCausesDoWhatTheySay: each is the plan with one thing done to it, by hand.
func TestCausesDoWhatTheySay(t *testing.T) {
	c := demo()
	c.Plan.SlurryAcid = 108
	m := newModel(c, NewRecord())
	const far = 0.25
	plan := m.base
	for k := range m.uncertain {
		set(m.uncertain[k].Input, &plan, m.uncertain[k].At(0.5))
	}
	route.Reconcile(&plan)
	between := func(low, high float64) float64 { return low + far*(high-low) }
	for _, x := range []struct {
		cause Cause
		which float64
		edit  func(p *route.Plan)
	}{
		{AsPlanned, 0, func(*route.Plan) {}},
		{PoorOxide, 0.5, func(p *route.Plan) { p.Fill *= quantity.Percent(between(0.30, 0.75)) }},
		{PoorOxide, 0.8, func(p *route.Plan) { p.Fill *= quantity.Percent(between(1.30, 1.80)) }},
		{GasLost, 0, func(p *route.Plan) { p.GasUptake *= quantity.Percent(between(0.10, 0.65)) }},
		{EarlyEnd, 0, func(p *route.Plan) { route.EndAt(p, between(0.15, 0.85)) }},
		{Unrinsed, 0, func(p *route.Plan) {
			p.RinseTimes = 0
			p.WashHeld *= quantity.MillilitrePerGram(between(2, 5))
		}},
		{OtherCharge, 0.5, func(p *route.Plan) {
			p.GasAcid *= quantity.Millilitre(between(0.35, 0.75))
			p.GasCopper *= quantity.Gram(between(0.35, 0.75))
		}},
		{OtherCharge, 0.8, func(p *route.Plan) {
			p.GasAcid *= quantity.Millilitre(between(1.30, 2))
			p.GasCopper *= quantity.Gram(between(1.30, 2))
		}},
	} {
		p := plan
		x.edit(&p)
		route.Reconcile(&p)
		s := new(route.Runner).Run(&p)
		o, ok := m.run(x.cause, atMiddle(m, far, x.which))
		require.True(t, ok)
		name := x.cause.Key()
		assert.InEpsilon(t, s.Value(route.ProductMass), o.found[product], 1e-9, name)
		assert.InEpsilon(t, 1000*s.Value(route.ProductAnhydrous)/massSalt, o.manganese, 1e-9, name)
		assert.InEpsilon(t, 100*s.Value(route.ProductAnhydrous)*massMn/massSalt/s.Value(route.ProductMass), o.found[assay], 1e-9, name)
		assert.InDelta(t, s.Amount(route.CopperCrop), o.found[crystals], 1e-9, name)
		assert.InDelta(t, s.Value(route.CopperLeft), o.found[metal], 1e-9, name)
		assert.InEpsilon(t, s.Value(route.GasMade), o.found[gas], 1e-9, name)
		assert.InEpsilon(t, s.Value(route.UptakeTaken)-s.Value(route.UptakeDissolved), o.used, 1e-9, name)
		assert.LessOrEqual(t, o.reached, o.used, name)
		assert.Zero(t, o.spilt, name)
		assert.Zero(t, o.water, name)
	}
	planned, _ := m.run(AsPlanned, atMiddle(m, far, 0))
	for cause, ends := range map[Cause][2]float64{Spill: {0.12, 0.80}, LiquorLeft: {0.15, 0.60}} {
		o, _ := m.run(cause, atMiddle(m, far, 0))
		left := 1 - between(ends[0], ends[1])
		assert.InDelta(t, 1-left, o.spilt, 1e-12)
		assert.InEpsilon(t, left*planned.found[product], o.found[product], 1e-9)
		assert.InEpsilon(t, left*planned.manganese, o.manganese, 1e-9)
		assert.InEpsilon(t, left*planned.reached, o.reached, 1e-9)
		assert.InEpsilon(t, planned.found[assay], o.found[assay], 1e-9, "what is left is the same salt")
	}
	o, _ := m.run(OtherHydrate, atMiddle(m, 0.9, 0))
	water := (m.hydrate(0.9) - m.waters) * massWater * float64(m.runner.Book().Amount(productVessel, reaction.ManganeseSulfate))
	assert.InEpsilon(t, planned.found[product]+water, o.found[product], 1e-9)
	assert.InEpsilon(t, planned.found[assay]*planned.found[product]/o.found[product], o.found[assay], 1e-9)
	assert.InEpsilon(t, planned.manganese, o.manganese, 1e-9)
}

// TestDarkCopperByHand: the oxide takes acid, one to one, gives blue salt, and is no metal; and
// crystals that are weighed wet weigh more.
func TestDarkCopperByHand(t *testing.T) {
	c := demo()
	c.Plan.SlurryAcid = 108
	r := NewRecord()
	r.OxideOnCopper, r.WetCrystals = true, true
	m := newModel(c, r)
	u := atMiddle(m, 0.5, 0)
	plan := m.base
	for k := range m.uncertain {
		set(m.uncertain[k].Input, &plan, m.uncertain[k].At(0.5))
	}
	route.Reconcile(&plan)
	for cause, dark := range map[Cause]float64{DarkCopper: 0.24 * m.copper, AsPlanned: 0.5 * oxideMost * m.copper} {
		p := plan
		p.GasCopper -= quantity.Gram(dark)
		if cause == DarkCopper {
			p.GasAcid *= quantity.Millilitre(1 - dark/79.545/(2*float64(route.MostByAcid(&m.base))))
		}
		route.Reconcile(&p)
		s := new(route.Runner).Run(&p)
		o, ok := m.run(cause, u)
		require.True(t, ok)
		assert.InEpsilon(t, (s.Value(route.CopperCrop)+dark/79.545*249.68)*(1+0.5*wetMost), o.found[crystals], 1e-4, cause.Key())
		assert.InEpsilon(t, s.Value(route.GasMade), o.made, 1e-4, cause.Key())
		assert.InDelta(t, s.Value(route.CopperLeft), o.found[metal], 1e-3, cause.Key())
	}
}

// TestHydrateSkipsThatOfTheDrying: evenly from none to the wettest, but for what is not told apart.
func TestHydrateSkipsThatOfTheDrying(t *testing.T) {
	for waters, want := range map[float64][3]float64{
		1: {0, 0.25, 6},    // 0 to 0.25 and 1.75 to 6
		0: {0.75, 0.75, 6}, // 0.75 to 6
		6: {0, 5.25, 5.25}, // 0 to 5.25
	} {
		m := &model{waters: waters}
		low, high := math.Max(0, waters-0.75), math.Min(6, waters+0.75)
		width := low + 6 - high
		assert.InDelta(t, want[0], m.hydrate(1e-12), 1e-9, "%v", waters)
		assert.InDelta(t, want[2], m.hydrate(1-1e-12), 1e-9, "%v", waters)
		if low > 0 {
			assert.InDelta(t, want[1], m.hydrate(low/width), 1e-9, "%v", waters)
			assert.InDelta(t, low/2, m.hydrate(low/width/2), 1e-9)
		}
		if high < 6 {
			assert.InDelta(t, (high+6)/2, m.hydrate(1-(6-high)/width/2), 1e-9)
		}
	}
}

// TestPoorMixThatWasWeighed: gangue stands in for its oxide, or oxide for gangue; the fill of
// cells stays within its limits.
func TestPoorMixThatWasWeighed(t *testing.T) {
	m := &model{weighed: true}
	for _, c := range []struct{ inert, share, want float64 }{
		{10, 0.5, 55}, {10, 1, 10}, {10, 1.5, 0}, {40, 0.5, 60}, {30, 1.2, 16},
	} {
		p := route.NewPlan()
		p.MixInert = quantity.Percent(c.inert)
		m.poor(&p, c.share)
		assert.InDelta(t, c.want, float64(p.MixInert), 1e-9, "%v", c)
	}
	m = &model{}
	for _, c := range []struct{ fill, share, want float64 }{{100, 0.5, 50}, {100, 0.1, 20}, {150, 1.8, 200}} {
		p := route.NewPlan()
		p.Fill = quantity.Percent(c.fill)
		m.poor(&p, c.share)
		assert.InDelta(t, c.want, float64(p.Fill), 1e-9, "%v", c)
	}
}

// TestWhatWasSaidRulesCausesOut, and the others share its weight.
func TestWhatWasSaidRulesCausesOut(t *testing.T) {
	charged, rinsed := demo(), demo()
	charged.Plan.GasAcid, charged.Plan.GasCopper = 50, 20
	rinsed.Plan.RinseTimes = 0
	dark, poured, none := NewRecord(), NewRecord(), NewRecord()
	dark.OxideOnCopper = true
	poured.Acid, none.Acid = 108, 0
	for name, x := range map[string]struct {
		m   *model
		out []Cause
	}{
		"nothing said":   {newModel(demo(), NewRecord()), []Cause{DarkCopper}},
		"charge noted":   {newModel(charged, NewRecord()), []Cause{DarkCopper, OtherCharge}},
		"never rinsed":   {newModel(rinsed, NewRecord()), []Cause{DarkCopper, Unrinsed}},
		"dark copper":    {newModel(demo(), dark), nil},
		"acid poured":    {newModel(demo(), poured), []Cause{DarkCopper, NoAcid}},
		"no acid poured": {newModel(demo(), none), []Cause{DarkCopper, AsPlanned}},
	} {
		list, sum := x.m.priors(), 0.0
		whole := 0.0
		weight := func(c Cause) float64 {
			if c == NoAcid && name == "no acid poured" {
				return 2 * AsPlanned.Prior() // a second fault is half as likely
			}
			return c.Prior()
		}
		for c := range Cause(Causes) {
			if !slices.Contains(x.out, c) {
				whole += weight(c)
			}
		}
		for c := range Cause(Causes) {
			sum += list[c]
			if slices.Contains(x.out, c) {
				assert.Zero(t, list[c], "%s: %s", name, c.Key())
				continue
			}
			assert.InDelta(t, weight(c)/whole, list[c], 1e-12, "%s: %s", name, c.Key())
		}
		assert.InDelta(t, 1, sum, 1e-12)
	}
}

// TestNoAcidGoesWithOthers half as often as with a run that went as planned otherwise.
func TestNoAcidGoesWithOthers(t *testing.T) {
	m := newModel(demo(), NewRecord())
	require.True(t, m.asked)
	u := atMiddle(m, 0.5, 0)
	x := u[len(m.uncertain):]
	edge := 0.5 * NoAcid.Prior() / (NoAcid.Prior() + AsPlanned.Prior())
	for at, want := range map[float64]bool{0.999 * edge: true, 1.001 * edge: false} {
		x[howAcid] = at
		assert.Equal(t, want, m.none(GasLost, u))
		assert.False(t, m.none(AsPlanned, u))
		assert.True(t, m.none(NoAcid, u))
	}
	said := newModel(demo(), func() Record { r := NewRecord(); r.Acid = 108; return r }())
	assert.False(t, said.none(NoAcid, u), "somebody said how much went in")
}

// TestSurveyHoldsItsDraws: the ends of what the plan allows are those of its draws.
func TestSurveyHoldsItsDraws(t *testing.T) {
	c := demo()
	c.Plan.SlurryAcid = 108
	m := newModel(c, NewRecord())
	s := newSampler(m.dim(), []float64{1}, surveyDraws, 1, 1, nil)
	share, spent, batch, dry, barren, heaviest := math.Inf(1), 0.0, 0.0, 0.0, math.Inf(1), 0.0
	for i := range surveyDraws {
		o, ok := m.run(AsPlanned, s.point(i))
		require.True(t, ok)
		mn := m.sheet.Value(route.BatchManganese)
		pure := massSalt + m.waters*massWater
		share = math.Min(share, o.found[assay]/100)
		spent = math.Max(spent, mn*(100-m.sheet.Value(route.MixCharge))/100)
		batch, dry = math.Max(batch, mn), math.Max(dry, m.sheet.Value(route.BatchDry))
		barren = math.Min(barren, m.barren())
		heaviest = math.Max(heaviest, mn*pure/1000+math.Max(0, o.found[product]-o.manganese*pure/1000))
	}
	for _, x := range [][2]float64{
		{share, m.survey.share},
		{spent, m.survey.spent},
		{batch, m.survey.batch},
		{dry, m.survey.dry},
		{barren, m.survey.barren},
		{heaviest, m.survey.heaviest},
	} {
		assert.InEpsilon(t, x[0], x[1], 1e-9)
	}
	assert.Greater(t, m.survey.chloride, 0.0)
}

// TestUsedLeastWithoutAnAssay: the salt taken for the wettest that it may be.
func TestUsedLeastWithoutAnAssay(t *testing.T) {
	r := NewRecord()
	r.Product = 60
	m := newModel(demo(), r)
	b := m.bounds()
	require.Less(t, m.waters, wettest)
	share := 1 / (1/m.survey.share + (wettest-m.waters)*18.015/54.938)
	mn := 1000 * 60 * share / 54.938
	assert.Contains(t, b.Used.Working, route.Print(100*share, "%"))
	assert.InDelta(t, math.Max(0, mn-m.survey.spent/2), b.Used.Value, 0.01)
	require.Positive(t, b.Used.Value)
	assert.InDelta(t, 100*b.Used.Value/b.MadeMost.Value, b.Surely.Value, 1e-9)
	assert.Equal(t, b.List(), []*Bound{&b.Made, &b.MadeMost, &b.Used, &b.UsedMost, &b.Idle, &b.Surely, &b.Closure})

	// What is weighed as manganese sulfate holds a fiftieth of it.
	m.survey.share, m.survey.spent = 1e-4, 0
	assert.InDelta(t, 1000*60*0.02/massSalt, m.bounds().Used.Value, 1e-9)

	// Copper that is left gave no gas, be it of twice the charge.
	r.Metal = 5
	m = newModel(demo(), r)
	assert.InDelta(t, math.Min(2*m.brought(), 1000*(2*m.copper-5)/63.546), m.bounds().MadeMost.Value, 0.05)
	r.Metal = 1.9 * m.copper
	assert.InDelta(t, 1000*0.1*m.copper/63.546, Start(demo(), r).Bounds.MadeMost.Value, 0.05)
}

// TestClosureByHand: manganese in the salt, and in what the residue weighs beyond carbon and
// gangue, of that of the batch.
func TestClosureByHand(t *testing.T) {
	r := NewRecord()
	r.Product, r.Residue = 30, 14
	m := newModel(demo(), r)
	closure := m.bounds().Closure.Value
	s := m.runner.Run(&m.base)
	n, oxide := undissolved(m.runner.Book())
	require.Positive(t, float64(n))
	salt := 1000 * 30 * s.Value(route.ProductAnhydrous) / massSalt / s.Value(route.ProductMass)
	left := 1000 * (14 - m.barren()) / (float64(oxide) / float64(n))
	assert.InDelta(t, 100*(salt+left)/s.Value(route.BatchManganese), closure, 1e-9)
	r.Assay = 30
	m = newModel(demo(), r)
	assert.InDelta(t, 100*(1000*9/massMn+left)/s.Value(route.BatchManganese), m.bounds().Closure.Value, 1e-9)
}

// TestContradictionsByHand: by how much, and whether that is more than the balance errs by.
func TestContradictionsByHand(t *testing.T) {
	c := demo()
	m := newModel(c, NewRecord())
	find := func(r Record, says string) *Contradiction {
		for _, x := range Start(c, r).Contradictions {
			if len(x.Message) >= len(says) && x.Message[:len(says)] == says {
				return &x
			}
		}
		t.Fatalf("no %q in %v", says, Start(c, r).Contradictions)
		return nil
	}
	r := NewRecord()
	r.Product, r.Assay = 150, 30
	x := find(r, "Salt and assay together")
	assert.InDelta(t, 1000*150*0.3/massMn-m.survey.batch, x.Size, 1e-6)
	assert.True(t, x.Sure)
	r = NewRecord()
	r.Gas = 1000*m.copper/massCopper + 1
	x = find(r, "More gas was counted")
	assert.InDelta(t, 1, x.Size, 1e-6)
	assert.False(t, x.Sure, "bubbles err by more")
	r.Gas *= 2
	assert.True(t, find(r, "More gas was counted").Sure)
	r = NewRecord()
	r.Gas, r.Copper = 20, 40
	x = find(r, "The blue crystals prove")
	made := Start(c, r).Bounds.Made.Value
	assert.InDelta(t, made-20, x.Size, 1e-6)
	assert.Equal(t, made-20 > math.Hypot(4, made*3.6/40), x.Sure)
	r = NewRecord()
	low, _ := m.ends("gas.sulfide")
	low /= 100
	r.Metal, r.Copper = m.copper*0.7, m.copper*0.7*massBlue/massCopper
	x = find(r, "Copper left, in the crystals")
	assert.InDelta(t, m.copper*(0.7+0.7/(1-0.4*low)-1), x.Size, 1e-6)
	r = NewRecord()
	r.Assay = 40
	assert.True(t, find(r, "The assay is above that of the pure anhydrous").Sure)
	r.Assay = 36.5
	x = find(r, "The assay is above that of the pure anhydrous")
	assert.False(t, x.Sure)
	require.NoError(t, r.Set(KeyAssay+"~", x.Size))
	assert.False(t, find(r, "The assay is above that of the pure anhydrous").Sure, "just what it may err by")
	require.NoError(t, r.Set(KeyAssay+"~", 0.999*x.Size))
	assert.True(t, find(r, "The assay is above that of the pure anhydrous").Sure)
	require.NoError(t, r.Set(KeyAssay+"~", quantity.Blank))
	assert.Equal(t, "It is so.", (&Contradiction{Message: "It is so."}).Sentence())
	assert.Equal(t, "It is so. Likely: a; or b.", (&Contradiction{Message: "It is so.", Likely: []string{"a", "b"}}).Sentence())
	r = NewRecord()
	r.Metal, r.Copper = m.copper, 0
	assert.Empty(t, Start(c, r).Contradictions, "all of it may be left")
}

// TestTimesInTen, as read.
func TestTimesInTen(t *testing.T) {
	for p, want := range map[float64]string{0.1: "once in 10", 0.149: "once in 10", 0.15: "2 times in 10", 0.44: "4 times in 10", 0.95: "10 times in 10", 0.951: "nearly always"} {
		assert.Equal(t, want, times(p), "%v", p)
	}
	for tenths, want := range map[int]string{0: "0 in 10", 9: "9 in 10", 10: "almost certain"} {
		assert.Equal(t, want, inTen(tenths))
	}
	g, again, sum := generator(9), generator(9), -6.0
	for range 12 {
		sum += again.unit()
	}
	assert.Equal(t, sum, normal(&g))
}

// TestFigureByHand: what a spill of a quarter and 3 g of water more do to the figures of the jar.
func TestFigureByHand(t *testing.T) {
	plan := demo().Plan
	s := new(route.Runner).Run(&plan)
	o := &outcome{spilt: 0.25, water: 3}
	o.found[product] = 17
	dry, purity, waters := s.Value(route.ProductMass), s.Value(route.ProductPurity), s.Value(route.ProductWaters)
	assert.Equal(t, 17.0, o.figure(s, route.ProductMass))
	for _, id := range []route.FigureID{route.ProductAnhydrous, route.ProductYield, route.ProductZinc} {
		assert.Equal(t, 0.75*s.Value(id), o.figure(s, id))
	}
	assert.Equal(t, s.Value(route.GasMade), o.figure(s, route.GasMade))
	assert.InDelta(t, 100*(purity/100*dry+3)/(dry+3), o.figure(s, route.ProductPurity), 1e-9)
	moles := purity / 100 * dry / (massSalt + waters*massWater)
	assert.InDelta(t, waters+3/massWater/moles, o.figure(s, route.ProductWaters), 1e-9)
	o.water = 0
	assert.Equal(t, waters, o.figure(s, route.ProductWaters))
}

// TestLearnedValuesAsTheyArePut: the ends that make a tenth and a ninetieth percentile of them,
// with the digits that mean something, within the limits of the field.
func TestLearnedValuesAsTheyArePut(t *testing.T) {
	in, _ := route.InputByKey(uptakeKey)
	for _, c := range []struct {
		learned     Interval
		best        float64
		low, higher float64
	}{
		{Interval{60, 65, 70}, 65, 56, 74},    // 65 ± 5/0.5528
		{Interval{50, 60, 65}, 60, 42, 69},    // 60 - 18.1, + 9.0
		{Interval{90, 97, 99}, 97, 84, 100},   // 84.3, and 100.6 is above the limit
		{Interval{1, 1.5, 30}, 1.5, 1, 53.05}, // below the least
	} {
		next := put(demo(), []Learned{{in, c.learned}})
		assert.InDelta(t, c.best, float64(next.Plan.GasUptake), 0.5, "%v", c.learned)
		assert.InDelta(t, c.low, next.Given[uptakeKey].Low, 0.5, "%v", c.learned)
		assert.InDelta(t, c.higher, next.Given[uptakeKey].High, 0.5, "%v", c.learned)
	}
	from := demo()
	from.Given = map[string]spread.Interval{"wash.held": {Low: 0.8, High: 1.2}, uptakeKey: {Low: 1, High: 2}}
	next := put(from, []Learned{{in, Interval{60, 65, 70}}})
	assert.Equal(t, spread.Interval{Low: 0.8, High: 1.2}, next.Given["wash.held"])
	assert.Equal(t, spread.Interval{Low: 1, High: 2}, from.Given[uptakeKey], "the case before is left as it was")
}

// fewPoints is the account of the run of BenchmarkWeigh from few points, to be written to.
func fewPoints(t *testing.T) *Posterior {
	c, r := plain()
	c.Plan.SlurryAcid = 108
	p := Start(c, r)
	p.s = newSampler(p.s.dim, p.s.prior, 64, 100, 1, p.s.eval)
	p.s.own = beyond
	require.True(t, p.Finish().OK())
	return p
}

// TestLearnedIsNarrowerByAFifth, or moved by three tenths of its width.
func TestLearnedIsNarrowerByAFifth(t *testing.T) {
	p := fewPoints(t)
	p.missed = nil
	for _, c := range []struct {
		times, by float64
		learned   bool
	}{{1, 0, false}, {0.85, 0, false}, {0.75, 0, true}, {1, 0.25, false}, {1, 0.35, true}, {1, -0.35, true}} {
		for k := range p.m.uncertain {
			u := &p.m.uncertain[k]
			column := p.column(p.inputAt(k))
			wide := u.At(0.9) - u.At(0.1)
			for i := range column {
				column[i] = u.At(0.5) + c.times*(u.At((float64(i)+0.5)/float64(len(column)))-u.At(0.5)) + c.by*wide
			}
		}
		learned := map[string]bool{}
		for _, l := range p.Learned() {
			learned[l.Input.Key] = true
		}
		for k := range p.m.uncertain {
			if in := p.m.uncertain[k].Input; !in.Whole {
				assert.Equal(t, c.learned, learned[in.Key], "%s %v", in.Key, c)
			}
		}
	}
}

// TestMissesByHand: three standard deviations from what the best point gives, the worst first.
func TestMissesByHand(t *testing.T) {
	p := fewPoints(t)
	best := 0
	for i, l := range p.s.log {
		if l > p.s.log[best] {
			best = i
		}
	}
	o, _ := p.m.run(Cause(p.s.label[best]), p.s.point(best))
	p.sd[product], p.sd[crystals], p.sd[residue] = 1, 2, 0
	p.m.rec.Product, p.m.rec.Copper = o.found[product]+2.9, o.found[crystals]-5.9
	assert.Empty(t, p.misses())
	p.m.rec.Product, p.m.rec.Copper = o.found[product]+3.1, o.found[crystals]-8
	list := p.misses()
	require.Len(t, list, 2)
	assert.Equal(t, Miss{KeyCopper, o.found[crystals] - 8, o.found[crystals], list[0].Halves}, list[0])
	assert.InDelta(t, -2, list[0].Halves, 1e-9)
	assert.InDelta(t, 1.55, list[1].Halves, 1e-9)

	// Covered is what lies, with its half-width, where eight in ten of the points put it.
	i, ok := p.interval(p.foundAt(product))
	require.True(t, ok)
	p.sd[crystals] = 0
	for v, uncovered := range map[float64]bool{i.Low - 1.9: false, i.Low - 2.1: true, i.High + 1.9: false, i.High + 2.1: true} {
		p.m.rec.Product = v
		assert.Equal(t, uncovered, p.uncovered(), "%v in %v", v, i)
	}
	p.m.rec.Product = i.High + 50
	p.tries = 0
	fitted, _ := p.Fitted(KeyProduct)
	assert.Equal(t, i.High, fitted.High)
	p.tries = 1
	fitted, _ = p.Fitted(KeyProduct)
	assert.Equal(t, i.High+50, fitted.High, "what was found is held once the errors were widened")
	assert.Equal(t, i.Low, fitted.Low)
	_, ok = p.Fitted("found.nothing")
	assert.False(t, ok)
	_, ok = p.Expected("found.nothing")
	assert.False(t, ok)
}

// TestTwoWeighingsLeaveATenth, which the other causes share by what they had before.
func TestTwoWeighingsLeaveATenth(t *testing.T) {
	p := fewPoints(t)
	p.sd = [measurements]float64{}
	p.sd[product], p.sd[crystals] = 1, 1
	p.planned, p.shares = 0.97, [Causes]float64{GasLost: 0.98, Spill: 0.02}
	p.humble()
	assert.Equal(t, sureOfTwo, p.planned)
	assert.Equal(t, sureOfTwo, p.shares[GasLost])
	rest := 1 - p.priors[AsPlanned] - p.priors[GasLost]
	assert.InDelta(t, 0.02+0.08*p.priors[Spill]/rest, p.shares[Spill], 1e-12)
	assert.InDelta(t, 0.08*p.priors[EarlyEnd]/rest, p.shares[EarlyEnd], 1e-12)
	assert.Zero(t, p.shares[AsPlanned])
	p.sd[residue] = 1
	p.planned, p.shares = 0.97, [Causes]float64{GasLost: 0.98, Spill: 0.02}
	p.humble()
	assert.Equal(t, 0.98, p.shares[GasLost], "three are enough")
	assert.Equal(t, 0.97, p.planned)
	p.sd[residue] = 0
	p.planned, p.shares = 0.5, [Causes]float64{GasLost: 0.8, Spill: 0.2}
	p.humble()
	assert.Equal(t, 0.8, p.shares[GasLost])
	assert.Equal(t, 0.5, p.planned)
}

// TestHalfOfThePointsIsEnough for an interval.
func TestHalfOfThePointsIsEnough(t *testing.T) {
	p := fewPoints(t)
	column := p.Points(route.ProductMass)
	n := len(column)
	for i := range n/2 + 1 {
		_, ok := p.Interval(route.ProductMass)
		require.True(t, ok, "%d of %d", i, n)
		column[i] = math.NaN()
	}
	_, ok := p.Interval(route.ProductMass)
	assert.False(t, ok)
	size := p.Size()
	assert.Equal(t, 64*(int(Causes)-2), size.Draws, "of each cause but dark copper and no acid")
	assert.Positive(t, size.Lines)
	assert.GreaterOrEqual(t, size.Points, size.Lines)
}

// TestUsedLeastWithoutAcid: where no acid touched the oxide, each manganese of the salt took half
// a gas, and all but that of the chloride a whole one.
func TestUsedLeastWithoutAcid(t *testing.T) {
	c := demo()
	c.Plan.SlurryAcid, c.Plan.WashAcid = 0, 0
	r := NewRecord()
	r.Product, r.Assay = 30, 30
	m := newModel(c, r)
	mn := 1000 * 9 / massMn
	require.Less(t, m.survey.chloride, mn)
	require.Less(t, m.survey.chloride, m.survey.spent)
	assert.InDelta(t, mn-m.survey.chloride/2, m.bounds().Used.Value, 1e-9)
	m.survey.chloride = 1.5 * mn
	m.survey.spent = 3 * mn
	assert.InDelta(t, mn/2, m.bounds().Used.Value, 1e-9)
	m.survey.spent = mn / 10
	assert.InDelta(t, 0.95*mn, m.bounds().Used.Value, 1e-9)
}

// TestHeldUptakeInWords: half of the gas or more is not little.
func TestHeldUptakeInWords(t *testing.T) {
	in, _ := route.InputByKey(uptakeKey)
	for median, says := range map[float64]string{49: "Little of the gas was taken up", 50: "Less of the gas than planned was taken up", 70: "Less of the gas than planned was taken up"} {
		h := HeldBack{Learned{in, Interval{median - 5, median, median + 5}}, 80}
		assert.Contains(t, h.Sentence(), says)
		assert.Contains(t, h.Sentence(), "does not make more gas for that and keeps 80")
	}
	h := HeldBack{Learned{in, Interval{40, 45, 50}}, quantity.Blank}
	assert.NotContains(t, h.Sentence(), "keeps")
	fill, _ := route.InputByKey("cell.fill")
	h = HeldBack{Learned{fill, Interval{140, 150, 160}}, 100}
	assert.Contains(t, h.Sentence(), "learned, would take far more gas")
	assert.Contains(t, h.Sentence(), remedies[PoorOxide].say)
	late, _ := route.InputByKey("slurry.reach")
	h = HeldBack{Learned{late, Interval{90, 95, 98}}, 80}
	assert.NotContains(t, h.Sentence(), remedies[PoorOxide].say)
}

// TestOtherCausesAreCounted: those beyond the ones that the sentence names, and those that are
// worth no word, make up the ten tenths.
func TestOtherCausesAreCounted(t *testing.T) {
	p := fewPoints(t)
	p.planned, p.none, p.missed = 0, 0, nil
	for _, c := range []struct {
		shares [Causes]float64
		says   string
		others string
	}{
		{[Causes]float64{GasLost: 0.3, Spill: 0.2, EarlyEnd: 0.2, PoorOxide: 0.2, LiquorLeft: 0.1}, "One of the other causes: 3 in 10.", ""},
		{[Causes]float64{GasLost: 0.6, Spill: 0.3, EarlyEnd: 0.04, PoorOxide: 0.03, LiquorLeft: 0.03}, "One of the other causes: 1 in 10.", "1 in 10"},
		{[Causes]float64{GasLost: 0.7, Spill: 0.3}, "", ""},
	} {
		p.shares = c.shares
		v := p.Verdict()
		assert.Equal(t, c.others, v.Others)
		if c.says == "" {
			assert.NotContains(t, v.Sentence, "other causes")
		} else {
			assert.Contains(t, v.Sentence, c.says)
		}
	}
	p.shares = [Causes]float64{GasLost: 0.7, Spill: 0.2, EarlyEnd: 0.049, LiquorLeft: 0.051}
	list, others := p.ranked()
	require.Len(t, list, 3, "a twentieth is worth a word")
	assert.Equal(t, []int{7, 2, 1, 0}, []int{list[0].tenths, list[1].tenths, list[2].tenths, others})
}

// TestPointsBeyondABoundWeighLess, by the square of how far, in hundredths of it.
func TestPointsBeyondABoundWeighLess(t *testing.T) {
	p := fewPoints(t)
	u := atMiddle(p.m, 0.5, 0)
	o, ok := p.m.run(AsPlanned, u)
	require.True(t, ok)
	log, allowed := p.weigh(int(AsPlanned), u)
	require.True(t, allowed)
	want := 0.0
	for f, sd := range p.sd {
		if sd > 0 {
			z := (p.m.rec.at(measurement(f)) - o.found[f]) / sd
			want -= z * z / 2
		}
	}
	assert.InDelta(t, want, log, 1e-9)
	p.wide = 2
	wide, _ := p.weigh(int(AsPlanned), u)
	assert.InDelta(t, want/4, wide, 1e-9, "with errors twice as large")
	p.wide = 1
	bounds := p.Bounds
	for _, past := range []func(){
		func() { p.Bounds.Made.Value = o.made / 0.97 },
		func() { p.Bounds.MadeMost.Value = o.made / 1.03 },
		func() { p.Bounds.Used.Value = o.used / 0.97 },
		func() { p.Bounds.UsedMost.Value = o.reached / 1.03 },
	} {
		p.Bounds = bounds
		past()
		beyond, allowed := p.weigh(int(AsPlanned), u)
		assert.False(t, allowed)
		assert.InDelta(t, want-9./2, beyond, 1e-6, "three hundredths")
	}
}

// TestWhatIsNotWeighedYetSettlesIt: that which parts the causes, and nothing where none does.
func TestWhatIsNotWeighedYetSettlesIt(t *testing.T) {
	p := fewPoints(t)
	p.missed, p.planned, p.shares = nil, 0, [Causes]float64{GasLost: 0.6, Spill: 0.4}
	p.m.rec.Residue = quantity.Blank
	for i := range p.s.label {
		p.s.label[i] = uint8(GasLost)
		if i%5 < 2 {
			p.s.label[i] = uint8(Spill)
		}
		for f := range measurement(measurements) {
			p.column(p.foundAt(f))[i] = 20
		}
	}
	assert.Nil(t, p.settles(), "all are alike")
	for i, l := range p.s.label {
		if Cause(l) == Spill {
			p.column(p.foundAt(residue))[i] = 60
		}
	}
	s := p.settles()
	require.NotNil(t, s)
	assert.Equal(t, KeyResidue, s.Key)
	assert.Equal(t, 0.6, s.Now)
	assert.InDelta(t, 1, s.After, 1e-9)
	assert.Equal(t, "To settle it, dry the black residue and weigh it: the likeliest cause would then be the true one nearly always, in place of 6 times in 10.", s.Sentence)
	p.planned = 0.4
	assert.Contains(t, p.settles().Sentence, "To tell what went wrong, if anything did")
	source := p.m.base.GasSource
	p.m.base.GasSource = route.ByPeroxide
	s = p.settles()
	require.NotNil(t, s, "without copper as well")
	assert.Equal(t, KeyResidue, s.Key)
	p.m.base.GasSource = source
	p.m.rec.Residue = 20
	assert.Nil(t, p.settles(), "it was weighed")
	p.m.rec.Residue = quantity.Blank
	p.shares = [Causes]float64{GasLost: 0.95, Spill: 0.05}
	assert.Nil(t, p.settles(), "it is settled")
}

// TestMissingByTheBook: what reached the jar, what was never dissolved, what more the cake holds,
// and what was lost.
func TestMissingByTheBook(t *testing.T) {
	p := fewPoints(t)
	print := func(n float64) string { return route.Print(n, "mmol") }
	for _, cause := range []Cause{GasLost, LiquorLeft} {
		p.planned, p.shares = 0, [Causes]float64{}
		p.shares[cause] = 1
		for i := range p.s.label {
			p.s.label[i] = uint8(cause)
		}
		book := p.LikeliestRun().Book()
		left, _ := undissolved(book)
		of := func(where ledger.Vessel) float64 { return book.Element(where, reaction.Mn).Millimoles() }
		liquor := of(ledger.MotherLiquor)
		text := p.missing()
		assert.Contains(t, text, print(of(productVessel))+" reached the jar")
		assert.Contains(t, text, print(left.Millimoles())+" was never dissolved")
		assert.Contains(t, text, print(of(residueVessel)-left.Millimoles())+" more stayed in the cake")
		assert.Contains(t, text, print(of(ledger.Losses))+" was lost in handling")
		assert.Contains(t, text, "Of "+print(of(productVessel)+of(residueVessel)+liquor+of(ledger.Losses))+" of manganese")
		if cause == LiquorLeft {
			require.Positive(t, liquor)
			assert.Contains(t, text, ", "+print(liquor)+" in the liquor, and ")
		} else {
			assert.NotContains(t, text, "in the liquor")
		}
	}
}

// TestWhatHoldsForOneCauseSaysSo where the next one is hardly less likely, and beside what the plan
// has of manganese.
func TestWhatHoldsForOneCauseSaysSo(t *testing.T) {
	p := fewPoints(t)
	p.planned = 0
	for i := range p.s.label {
		p.s.label[i] = uint8(GasLost)
	}
	for next, close := range map[float64]bool{0.49: true, 0.45: true, 0.4: false, 0: false} {
		p.shares = [Causes]float64{}
		p.shares[GasLost], p.shares[PoorOxide] = 1-next, next
		says, is := p.Close()
		assert.Equal(t, close, is, "%v", next)
		text := p.missing()
		assert.Equal(t, close, strings.Contains(text, "the likelier by a hair: of "), text)
		assert.Equal(t, !close, strings.HasPrefix(text, "Of ") && strings.Contains(text, ", as it most likely went ("), text)
		if is {
			assert.Equal(t, "If "+p.says(p.Mostly())+", the likelier by a hair: ", says)
			assert.True(t, strings.HasPrefix(text, says), text)
		}
	}
	p.planned = 0.6
	_, is := p.Close()
	assert.False(t, is, "it stands for the runs that went as planned")
}

// TestQuestionOfTheAcid is asked where the answer could be what happened.
func TestQuestionOfTheAcid(t *testing.T) {
	c, r := plain()
	p := Start(c, r)
	require.True(t, p.m.asked)
	for none, asks := range map[float64]bool{0.04: false, 0.06: true} {
		p.none = none
		assert.Equal(t, asks, p.question() != "")
	}
	assert.Contains(t, p.unsaid(), "Nobody noted what was charged, or how much dilute acid went in: ")
	c.Plan.SlurryAcid = 0
	p = Start(c, r)
	p.none = 1
	assert.Empty(t, p.question(), "it was said")
	assert.Contains(t, p.unsaid(), "Nobody noted what was charged: ")
	with := p.m.base
	with.SlurryAcid = quantity.Millilitre(p.m.best.Value(route.DemandAcid))
	var runner route.Runner
	none := route.Print(runner.Run(&p.m.base).Value(route.ProductMass), "g")
	assert.Equal(t, "Without dilute acid the best estimate is "+none+" of salt, with it "+route.Print(runner.Run(&with).Value(route.ProductMass), "g")+". ", p.without())
}

// TestSaidOfTheAcid: less than a tenth of what the plan wants is none; where the plan itself pours
// so little, “as planned” is what it wants.
func TestSaidOfTheAcid(t *testing.T) {
	wants := float64(newModel(demo(), NewRecord()).base.SlurryAcid)
	require.Greater(t, wants, 50.0)
	for _, x := range []struct {
		poured, planned       float64 // of what is wanted; Blank where nobody said
		asked, without, usual bool
	}{
		{quantity.Blank, quantity.Blank, true, false, true},
		{0.09, quantity.Blank, false, true, true},
		{0.11, quantity.Blank, false, false, true},
		{5, quantity.Blank, false, false, true},
		{quantity.Blank, 0.09, false, true, true},
		{quantity.Blank, 0.5, false, false, false},
		{0, 0.5, false, true, false},
	} {
		c, r := demo(), NewRecord()
		r.Acid, c.Plan.SlurryAcid = x.poured*wants, quantity.Millilitre(x.planned*wants)
		m := newModel(c, r)
		assert.Equal(t, x.asked, m.asked, "%+v", x)
		assert.Equal(t, x.without, m.without, "%+v", x)
		want := x.planned * wants
		if x.usual {
			want = m.best.Value(route.DemandAcid)
			assert.InEpsilon(t, want, float64(m.acid), 0.05, "%+v", x)
			continue
		}
		assert.InEpsilon(t, want, float64(m.acid), 1e-12, "%+v", x)
	}
}

// TestCausesInWords: what may be too little or too much is told as what most of its points are,
// and where nothing is led in nothing is said of gas.
func TestCausesInWords(t *testing.T) {
	const (
		less = iota
		even
		more
	)
	says := func(c spread.Case, cause Cause, much int) string {
		p := &Posterior{m: newModel(c, NewRecord())}
		if p.mostlyMuch(cause) {
			t.Error("much of no point")
		}
		p.s = &sampler{dim: p.m.dim()}
		for i := range 4 {
			u := make([]float64, p.m.dim())
			x := u[len(p.m.uncertain):]
			x[howFar], x[howElse] = 0.01, lessOften-0.01
			if i >= 3-much {
				x[howFar], x[howElse] = 0.99, lessOften
			}
			p.s.u, p.s.label = append(p.s.u, u...), append(p.s.label, uint8(cause))
		}
		for range 5 { // of another cause, which says nothing of this one
			u := make([]float64, p.m.dim())
			u[len(p.m.uncertain)+howFar], u[len(p.m.uncertain)+howElse] = 0.99, 0.99
			p.s.u, p.s.label = append(p.s.u, u...), append(p.s.label, uint8(Spill))
		}
		return p.says(cause)
	}
	stirred := demo()
	stirred.Plan.GasSource = route.ByPeroxide
	for _, x := range []struct {
		c     spread.Case
		cause Cause
		much  int
		want  string
	}{
		{demo(), GasLost, less, "much of the gas passed by without reacting"},
		{stirred, GasLost, more, "much of what was stirred in never did its work"},
		{demo(), EarlyEnd, less, "the gas was ended early"},
		{stirred, EarlyEnd, more, "less was stirred in than planned"},
		{demo(), NoAcid, less, NoAcid.Says()},
		{stirred, NoAcid, less, "no dilute acid went in, so that little dissolved"},
		{demo(), OtherHydrate, more, "the salt was not dry: it holds more water than its drying leaves"},
		{demo(), OtherHydrate, less, "the salt was dried hotter than was said: it holds less water"},
		{demo(), PoorOxide, more, "the cells held far more oxide than the plan takes them to"},
		{demo(), PoorOxide, even, "the cells held far less oxide than the plan takes them to"},
		{stirred, OtherCharge, more, "more was stirred in than the plan asks for; nobody noted how much"},
		{stirred, OtherCharge, less, "less was stirred in than the plan asks for; nobody noted how much"},
		{demo(), OtherCharge, more, "more went into the generator than the plan asks for; nobody noted how much"},
		{demo(), OtherCharge, even, "less went into the generator than the plan asks for; nobody noted how much"},
	} {
		assert.Equal(t, x.want, says(x.c, x.cause, x.much))
	}
	p := &Posterior{m: newModel(demo(), NewRecord())}
	assert.Equal(t, "gas lost", p.Called(GasLost))
	p.noneOf[GasLost], p.noneOf[NoAcid] = 0.51, 1
	assert.Equal(t, "no dilute acid went in, and much of the gas passed by without reacting", p.says(GasLost))
	assert.Equal(t, NoAcid.Says(), p.says(NoAcid), "it is said once")
	p.noneOf[GasLost] = 0.5
	assert.Equal(t, GasLost.Says(), p.says(GasLost))
}

// TestEffectInWords: the gain is the run once more without its cause, told as what it is.
func TestEffectInWords(t *testing.T) {
	p := fewPoints(t)
	at, ok := p.likeliest()
	require.True(t, ok)
	u := p.s.point(at)
	for i := range p.s.label { // one point alone has the label
		p.s.label[i] = uint8(AsPlanned)
	}
	gain := func(c Cause) float64 {
		p.s.label[at] = uint8(c)
		was, _ := p.m.run(c, u)
		now, _ := p.m.run(AsPlanned, u)
		p.planned, p.shares = 0, [Causes]float64{}
		p.shares[c] = 1
		return now.found[product] - was.found[product]
	}
	for _, c := range []Cause{GasLost, EarlyEnd, Spill, LiquorLeft, PoorOxide} {
		want := gain(c)
		got, says := p.effect(c)
		require.InDelta(t, want, got, 1e-9, c.Key())
		require.Greater(t, got, 1.0, c.Key())
		switch c {
		case PoorOxide:
			assert.Empty(t, says, "no doing of the chemist's")
		case GasLost:
			_, _ = p.m.run(GasLost, u)
			from := route.Uptake(&p.m.plan, p.m.sheet)
			_, _ = p.m.run(AsPlanned, u)
			to := route.Uptake(&p.m.plan, p.m.sheet)
			assert.Equal(t, "Uptake from "+route.Print(from, "%")+" to "+route.Print(to, "%")+": "+route.Print(got, "g")+" more.", says)
		default:
			assert.Equal(t, "This run would then have given "+route.Print(got, "g")+" of salt more.", says, c.Key())
		}
		_, do := p.remedy(c)
		assert.Equal(t, strings.TrimSpace(do+" "+says), p.Remedy(c), c.Key())
	}
	wet := u[len(p.m.uncertain):]
	wet[howFar] = 0.999
	less := gain(OtherHydrate)
	got, says := p.effect(OtherHydrate)
	require.Negative(t, less)
	assert.InDelta(t, less, got, 1e-9)
	assert.Equal(t, "As it most likely ran, "+route.Print(-less, "g")+" less would be in the jar, all of it water.", says)
}

// TestGasLostIsToldOnce: where what was learned of the uptake is not carried, that sentence holds
// what to do about it, and the advice does not say it again.
func TestGasLostIsToldOnce(t *testing.T) {
	p := fewPoints(t)
	p.missed, p.planned, p.shares = nil, 0, [Causes]float64{GasLost: 0.6, Spill: 0.4}
	in, _ := route.InputByKey(uptakeKey)
	for _, x := range []struct {
		learned []Learned
		names   []string
	}{
		{[]Learned{{in, Interval{20, 25, 30}}}, []string{in.Name, Spill.Name()}},
		{nil, []string{GasLost.Name(), Spill.Name()}},
	} {
		_, list := NextInto(p, p.m.c.Plan, x.learned)
		var names []string
		for _, c := range list {
			if c.Key == uptakeKey || c.Key == "loss.transfer" {
				names = append(names, c.Name)
			}
		}
		assert.Equal(t, x.names, names)
	}
}

// TestEdges of what is told in words: whatever begins "from" a share has it, whatever lies "above"
// it has not.
func TestEdges(t *testing.T) {
	p := fewPoints(t)
	p.missed, p.none = nil, 0
	p.planned = 0.5
	assert.Equal(t, AsPlanned, p.Mostly(), "as likely as not is as planned")
	p.planned = 0
	p.shares = [Causes]float64{GasLost: 0.72, Spill: 0.23, EarlyEnd: worthWord}
	list, others := p.ranked()
	require.Len(t, list, 3, "a twentieth is worth a word")
	assert.Zero(t, others)
	p.shares = [Causes]float64{GasLost: 0.7, Spill: worthDoing}
	require.Len(t, p.Advice(), 2, "three tenths are worth doing something about")

	p.m.asked = true
	p.none = 0.9
	assert.NotContains(t, p.likely(list), "very likely no dilute acid")
	p.none = 0.5
	assert.Equal(t, GasLost, p.Advice()[0].Cause, "as likely as not")
	p.none = hangs
	assert.NotEmpty(t, p.question())
	p.m.asked, p.none = false, 0

	const nothing = "Nothing more needs to be weighed for this run."
	p.shares = [Causes]float64{GasLost: asGoodAsKnown, EarlyEnd: 1 - asGoodAsKnown}
	assert.Equal(t, nothing, p.weighNext(nil))
	p.planned, p.shares = asGoodAsKnown, [Causes]float64{GasLost: 0.5, EarlyEnd: 0.5}
	assert.Equal(t, nothing, p.weighNext(nil))
	p.planned, p.shares = 0, [Causes]float64{Spill: 0.5, LiquorLeft: 0.3, GasLost: 0.2}
	assert.NotContains(t, p.weighNext(nil), "boil it to dryness")
	p.shares = [Causes]float64{OtherCharge: 0.7, EarlyEnd: 0.25, OtherHydrate: hangs}
	assert.Contains(t, p.weighNext(nil), "weigh what you charge and count the bubbles.")
	p.shares = [Causes]float64{OtherCharge: 0.95, OtherHydrate: hangs}
	p.planned = 0.6
	assert.Contains(t, p.weighNext(nil), "weigh what you charge and dry the salt until two weighings agree.")

	// What is more or less by no more than a weighing errs by is not told.
	for f, v := range map[measurement]float64{product: 40, residue: 7} {
		p.early[f] = []float64{v, v, v}
	}
	r := &p.m.rec
	for _, x := range []struct {
		less, more, half float64
		is               bool
	}{{10, 9, 8, true}, {10, 9, 9, false}, {9, 10, 8, true}, {9, 10, 9, false}} {
		r.Product, r.Residue = 40-x.less, 7+x.more
		require.NoError(t, r.Set(KeyProduct+"~", x.half))
		require.NoError(t, r.Set(KeyResidue+"~", x.half))
		assert.Equal(t, x.is, p.saltInCake(), "%+v", x)
	}
	// Nor is what lies half-way between the oxide and the salt that it makes.
	p.early[product], p.early[residue] = []float64{100}, []float64{0}
	for _, x := range []struct {
		less, more float64
		is         bool
	}{{1, likeSalt, false}, {1, 1.01 * likeSalt, true}, {1.01 * likeSalt, 1, true}} {
		r.Product, r.Residue = 100-x.less, x.more
		require.NoError(t, r.Set(KeyProduct+"~", 0.01))
		require.NoError(t, r.Set(KeyResidue+"~", 0.01))
		assert.Equal(t, x.is, p.saltInCake(), "%+v", x)
	}

	// Ten tenths are shared out by what is left over, and among equals to the first.
	assert.Equal(t, []int{3, 3, 2, 2}, apportion([]float64{0.25, 0.25, 0.25, 0.25}))
	assert.Equal(t, []int{5, 5}, apportion([]float64{0.5, 0.5}))
	assert.Equal(t, []int{4, 3, 3}, apportion([]float64{0.35, 0.34, 0.31}))

	// A weighing is covered where its half-width ends at the interval.
	for i := range p.s.label {
		p.column(p.foundAt(product))[i] = 20
	}
	p.sd = [measurements]float64{}
	p.sd[product] = 2
	for v, want := range map[float64]bool{16: false, 24: false, 15.5: true, 24.5: true} {
		r.Product = v
		assert.Equal(t, want, p.uncovered(), "%v", v)
	}

	// A whole that is proved to have worked is no idle gas, and nothing that worked is told so.
	m := newModel(demo(), NewRecord())
	of := func(made, used, least float64) string {
		b := quantity.Blank
		bounds := &Bounds{Made: Bound{Value: made}, MadeMost: Bound{Value: b}, Used: Bound{Value: least}, UsedMost: Bound{Value: used}}
		return m.sure(bounds)
	}
	assert.Contains(t, of(40, 40, 10), "cannot show whether any of it was lost")
	assert.Contains(t, of(40, 39, 10), "so 1\u202fmmol or more, a small part, did no work")
	assert.Contains(t, of(quantity.Blank, 40, 0), "; no manganese that is in the jar proves that any worked.")
	assert.Contains(t, of(quantity.Blank, 40, 10), "; what is in the jar took 10\u202fmmol at least.")

	// Gas stays as hydrogensulfite from twice the weighed salt on.
	rec := NewRecord()
	rec.Product = 20
	m = newModel(demo(), rec)
	_, d := m.ends("slurry.dithionate")
	salt := 1000 * 20 / (massSalt + m.waters*massWater) * (1 + d/100)
	m.survey.sulfite = 40
	assert.InDelta(t, 1.5*salt, m.bounds().UsedMost.Value, 0.01)
	m.survey.sulfite = 40.1
	assert.InDelta(t, salt, m.bounds().UsedMost.Value, 0.01)

	require.NoError(t, Told{uptakeKey: append([]int{LeastTold}, make([]int, Places-1)...)}.Check())
	in, _ := route.InputByKey("gas.sulfide")
	h := HeldBack{Learned{in, Interval{1, 2, 3}}, 80}
	assert.NotContains(t, h.Sentence(), remedies[PoorOxide].say, "the gas is no matter of the cells")
	assert.Equal(t, route.Gas, in.Stage)
	for v, ok := range map[float64]bool{0: false, -1: false, math.Inf(1): false, 1e-9: true, 1e9: true} {
		assert.Equal(t, ok, rec.Set(KeyProduct+"~", v) == nil, "%v", v)
	}
}

// TestMiddlingOfTheBest: of the points that meet the weighings as well as the best does, be it just
// so, the run that stands for all is the one nearest to the middle of what the account says.
func TestMiddlingOfTheBest(t *testing.T) {
	p := fewPoints(t)
	p.planned, p.shares = 0, [Causes]float64{GasLost: 1}
	p.sd = [measurements]float64{} // no salt was weighed that would come first
	for i := range p.s.label {
		p.s.label[i], p.s.log[i] = uint8(GasLost), -1
		for a := range amounts {
			p.column(p.amountAt(a))[i] = float64(i)
		}
	}
	n := len(p.s.label)
	require.Greater(t, n, 50)
	p.s.log[0], p.s.log[n/4], p.s.log[n/2] = 0, -asGood, -asGood-0.01
	at, ok := p.likeliest()
	require.True(t, ok)
	assert.Equal(t, n/4, at)
	// Each figure counts by how wide its interval is: gas made ten times as wide as the others.
	for _, x := range []struct{ madeOff, usedOff, at int }{{n / 4, n / 2, 0}, {n / 2, 2 * n / 5, n / 4}} {
		for a := range amounts {
			column := p.column(p.amountAt(a))
			scale := 1.0
			if a == made {
				scale = 10
			}
			for i := range n {
				column[i] = 1000 + scale*float64(i)
			}
			column[0], column[n/4] = 1000+scale*float64(n/2), 1000+scale*float64(n/2)
		}
		p.column(p.amountAt(made))[0] -= 10 * float64(x.madeOff)
		p.column(p.amountAt(used))[n/4] -= float64(x.usedOff)
		at, _ = p.likeliest()
		assert.Equal(t, x.at, at)
	}
	p.s.label[n/4] = uint8(Spill)
	at, _ = p.likeliest()
	assert.Zero(t, at)
	p.shares = [Causes]float64{PoorOxide: 1}
	_, ok = p.likeliest()
	assert.False(t, ok, "no point went so")
	p.shares = [Causes]float64{GasLost: 1}
	// The weighed salt counts ten times more: half of the square, ten times.
	p.sd[product], p.wide = 2, 0.25
	p.m.rec.Product = 30
	for i := range p.s.label {
		p.s.log[i] = 0
		p.column(p.foundAt(product))[i] = 30.5
	}
	p.column(p.foundAt(product))[n-1] = 30
	p.s.log[n-1] = -4.4 // 5 better by the salt, and so 0.6 above the others
	at, _ = p.likeliest()
	assert.Equal(t, n-1, at)
	p.s.log[n-1] = -4.6
	at, _ = p.likeliest()
	assert.NotEqual(t, n-1, at, "0.4 above them is no better than they are")
}

// TestUsedMostByAnAssay: in salt dried free of water what is no manganese sulfate, by the assay at
// its high end, may be zinc's, which is heavier, so that less gas can stand behind it. With water
// in the salt zinc sulfate without any would be more, and the weight alone bounds it.
func TestUsedMostByAnAssay(t *testing.T) {
	r := NewRecord()
	r.Product, r.Assay, r.Dried = 30, 20, 450
	m := newModel(demo(), r)
	require.InDelta(t, 0, m.waters, 0.01)
	m.survey.sulfite = math.Inf(1)
	_, d := m.ends("slurry.dithionate")
	mn := 1000 * 30 * 0.206 / 54.938 // 20 %, and three hundredths of that
	zinc := 1000 * (30 - mn/1000*151.00) / 161.44
	b := m.bounds()
	assert.InDelta(t, (mn+zinc)*(1+d/100), b.UsedMost.Value, 0.05)
	assert.Contains(t, b.UsedMost.Working, "R = 30\u202fg × 21\u202f% / 54.938 g/mol, and the rest as zinc sulfate, "+route.Print(zinc, "mmol")+" = "+route.Print(mn+zinc, "mmol"))
	r.Dried = quantity.Blank
	m = newModel(demo(), r)
	m.survey.sulfite = math.Inf(1)
	assert.InDelta(t, 1000*30/169.02*(1+d/100), m.bounds().UsedMost.Value, 0.5)
}

// TestPointsKeepAllOfTheirRun: each figure, amount, weighing and input of a point is that of the
// plan run at it, and stands where it is asked for.
func TestPointsKeepAllOfTheirRun(t *testing.T) {
	p := fewPoints(t)
	same := func(want, got float64, what string) {
		t.Helper()
		assert.True(t, want == got || want != want && got != got, "%s: %v, %v", what, want, got)
	}
	for _, i := range []int{0, len(p.s.label) / 2, len(p.s.label) - 1} {
		o, ok := p.m.run(Cause(p.s.label[i]), p.s.point(i))
		require.True(t, ok)
		for id := range route.FigureID(len(route.Figures())) {
			if id.Info().Words == nil {
				same(o.figure(p.m.sheet, id), p.Points(id)[i], id.Info().Key)
			}
		}
		for a, want := range map[int]float64{made: o.made, used: o.used, uptake: o.uptake, cake: p.m.sheet.Value(route.ResidueManganese)} {
			same(want, p.column(p.amountAt(a))[i], amountFigures[a].Key)
		}
		for f := range measurement(measurements) {
			same(o.found[f], p.column(p.foundAt(f))[i], measurementKeys[f])
		}
		for k := range p.m.uncertain {
			same(p.m.uncertain[k].Input.Value(&p.m.learns), p.column(p.inputAt(k))[i], p.m.uncertain[k].Input.Key)
		}
	}
}

// TestToldOfItsOwnInput: what is told of an input is the likelihood of its own points over its own
// first draws, all of which together weigh as much as were drawn.
func TestToldOfItsOwnInput(t *testing.T) {
	p := fewPoints(t)
	told := p.Told()
	require.Len(t, told, len(sharedKeys))
	for s, key := range sharedKeys {
		k := slices.IndexFunc(p.m.uncertain, func(u spread.Uncertain) bool { return u.Input.Key == key })
		assert.Equal(t, likelihood(p.column(p.inputAt(k)), p.prior.of[s]), told[key], key)
		sum := 0.0
		for _, w := range p.prior.of[s] {
			sum += w
		}
		assert.InDelta(t, 64./firstDraws, sum, 1e-9, "%s: 64 draws of each cause", key)
	}
}

// TestPlannedPointsAreGivenTheirWeight: as many of the points went as planned as is said.
func TestPlannedPointsAreGivenTheirWeight(t *testing.T) {
	c, r := demo(), NewRecord()
	c.Plan.SlurryAcid = 108
	r.Product = 35
	require.NoError(t, r.Set(KeyProduct+"~", 20))
	p := Start(c, r)
	p.s = newSampler(p.s.dim, p.s.prior, 64, 400, 1, p.s.eval)
	p.s.own = beyond
	require.True(t, p.Finish().OK())
	planned := 0.0
	for _, l := range p.s.label {
		if Cause(l) == AsPlanned {
			planned += 1 / float64(len(p.s.label))
		}
	}
	require.Greater(t, p.planned, 0.2)
	require.Less(t, p.planned, sureOfTwo)
	assert.InDelta(t, p.planned, planned, 2./float64(len(p.s.label)))
}
