package spread

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/cell"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// TestShiftsAreSplitMix: the first numbers of SplitMix64 from the seed 1234567, as Rosetta Code
// prints them ("Pseudo-random numbers/Splitmix64"; from memory).
func TestShiftsAreSplitMix(t *testing.T) {
	l := newLattice(1234567)
	assert.Equal(t, []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821}, l.shift[:5])
}

// TestUnitIsTheMiddleOfItsStep, of 2^52 steps.
func TestUnitIsTheMiddleOfItsStep(t *testing.T) {
	assert.Equal(t, 0x1p-53, unit(0))
	assert.Equal(t, 0.5+0x1p-53, unit(1<<63))
	assert.Equal(t, 1-0x1p-53, unit(math.MaxUint64))
}

// TestLaterInputsTakeLaterCoordinates: the draws of a plan stay what they were when an input is
// added behind the others.
func TestLaterInputsTakeLaterCoordinates(t *testing.T) {
	inputs := route.Inputs()
	var order []int
	for i := range inputs {
		if in := &inputs[i]; !in.IsChoice() && (in.DrawGroup == 0 || in.Row == 0) {
			order = append(order, i)
		}
	}
	group := func(i int) int {
		if inputs[i].DrawGroup == 0 && inputs[i].Row > 1 {
			return 1 // further rows
		}
		return 2 * inputs[i].DrawGroup
	}
	slices.SortStableFunc(order, func(a, b int) int { return group(a) - group(b) })
	for at, i := range order {
		require.Equal(t, at, coordinates[i], inputs[i].Key)
	}
}

// TestShareOfIsTheCorrelationRatio: by the draws put in order and cut into bins of equal count,
// as many as the half root of their number, 32 at most; also where some are missing.
func TestShareOfIsTheCorrelationRatio(t *testing.T) {
	const coordinate = 3
	random := rand.New(rand.NewPCG(3, 1))
	for draws, bins := range map[int]int{16: 2, 64: 4, 256: 8, 1024: 16, 4096: 32, 16384: 32} {
		column, order := make([]float64, draws), make([]int, draws)
		at := func(i int) float64 { return unit(points.at(reversed(i), coordinate)) }
		for i := range column {
			column[i], order[i] = 1+at(i)*at(i)+random.Float64(), i
			if at(i)*float64(bins) < 1 && draws > 16 || i%7 == 3 {
				column[i] = math.NaN() // a whole bin, and some of the others
			}
		}
		slices.SortFunc(order, func(a, b int) int {
			if at(a) < at(b) {
				return -1
			}
			return 1
		})
		var all []float64
		between, filled := 0.0, 0.0
		var means, counts []float64
		for b := range bins {
			var in []float64
			for _, i := range order[b*draws/bins : (b+1)*draws/bins] {
				if !math.IsNaN(column[i]) {
					in = append(in, column[i])
				}
			}
			if all = append(all, in...); len(in) > 0 {
				m, _ := moments(in)
				means, counts, filled = append(means, m), append(counts, float64(len(in))), filled+1
			}
		}
		mean, deviation := moments(all)
		for b, m := range means {
			between += counts[b] * (m - mean) * (m - mean)
		}
		n := float64(len(all))
		total := deviation * deviation * n
		chance := (total - between) * (filled - 1) / (n - filled)
		have, ok := shareOf(column, coordinate)
		require.True(t, ok)
		assert.InDelta(t, math.Max(0, (between-chance)/total), have, 1e-9, "%d draws", draws)
	}
	_, ok := shareOf([]float64{1, 2}, coordinate)
	assert.False(t, ok, "as many bins as draws tell nothing")
	_, ok = shareOf([]float64{0.1, 0.1, 0.1, 0.1, 0.1}, coordinate)
	assert.False(t, ok, "no spread")
	share, ok := shareOf([]float64{1, 2, 3}, coordinate)
	assert.True(t, ok && share >= 0 && share <= 1)
}

// TestRoundAtItsLimits: where one digit begins, and what is too wide or too small to divide.
func TestRoundAtItsLimits(t *testing.T) {
	assert.Equal(t, -2, Decimals(0, 709), "354.5 rounds to 355: one digit")
	assert.Equal(t, -1, Decimals(0, 708))
	assert.Equal(t, 0, Decimals(0, math.Inf(1)))
	assert.Equal(t, 0, Decimals(2, 1))
	assert.Equal(t, 0, Decimals(-1, -1))
	for v, want := range map[float64]int{
		1: 0, 9.99: 0, 10: 1, 0.1: -1, 0.0999: -2, -250: 2, 1e300: 300, 1e-300: -300, 3e-310: -300, 0: 0,
	} {
		assert.Equal(t, want, exponent(v), "%v", v)
	}
	assert.Zero(t, exponent(math.Inf(1)))
	assert.Zero(t, exponent(math.NaN()))
	assert.Equal(t, math.Inf(1), HalfWidth(math.Inf(1)))
	assert.Equal(t, 310.0, HalfWidth(304), "300 is smaller by more than a hundredth")
	assert.Equal(t, 300.0, HalfWidth(302))
}

// TestRecipeWeighsByTheMix: each kind by the mix that its opened cells hold.
func TestRecipeWeighsByTheMix(t *testing.T) {
	c := caseOf(t, entries{
		"cell.count": 5, "cell.rejects": 2, "cell.size": "R20", "cell.kind": "ammonium",
		"cell.2.count": 4, "cell.2.size": "R6", "cell.2.kind": "zincchloride",
	})
	u := find(t, Uncertains(&c), "mix.ammonium")
	rows := &c.Plan.Rows
	grams := func(i int) float64 { return cell.PartsOf(int(rows[i].Size), int(rows[i].Kind)).Mix.Best }
	first, second := 3*grams(0), 4*grams(1)
	a, b := cell.Kinds()[rows[0].Kind].Ammonium, cell.Kinds()[rows[1].Kind].Ammonium
	require.NotEqual(t, a, b)
	require.Greater(t, grams(0), 2*grams(1))
	for have, of := range map[float64][2]float64{u.Low: {a.Low, b.Low}, u.Best: {a.Best, b.Best}, u.High: {a.High, b.High}} {
		assert.InDelta(t, (first*of[0]+second*of[1])/(first+second), have, 1e-12)
	}
}

// TestTolerancesByHand: 2 g of a balance, of less than 50 g 4 %, and 3 % for the handling of a
// wet mix, 2 of a dry one; 3 of a titration.
func TestTolerancesByHand(t *testing.T) {
	for _, c := range []struct {
		set  entries
		key  string
		half float64
	}{
		{entries{"mix.wet": 150}, "mix.wet", 2 + 4.5},
		{entries{"mix.wet": 40}, "mix.wet", 1.6 + 1.2},
		{entries{"mix.wet": 150, "mix.washed": 120}, "mix.washed", 2 + 2.4},
		{entries{"mix.assay": 42}, "mix.assay", 1.26},
	} {
		k := caseOf(t, c.set)
		u := find(t, Uncertains(&k), c.key)
		v := u.Input.Value(&k.Plan)
		assert.InDelta(t, v-c.half, u.Low, 1e-9, "%v", c.set)
		assert.InDelta(t, v+c.half, u.High, 1e-9, "%v", c.set)
		assert.Equal(t, v, u.Best)
	}
	assert.Zero(t, tolerance("gas.uptake", 80))
}

// TestEndsGoStraight between the temperatures of their table, and stay beyond them.
func TestEndsGoStraight(t *testing.T) {
	e := ends{{5, 35, 75}, {20, 15, 60}, {50, 1, 12}}
	for celsius, want := range map[float64][2]float64{
		-3: {35, 75}, 5: {35, 75}, 12.5: {25, 67.5}, 20: {15, 60}, 26: {12.2, 50.4}, 50: {1, 12}, 90: {1, 12},
	} {
		low, high := e.at(celsius)
		assert.InDelta(t, want[0], low, 1e-12, "%v °C", celsius)
		assert.InDelta(t, want[1], high, 1e-12, "%v °C", celsius)
	}
}

// TestEndsAroundWhatIsWorkedOut: of what acid splits the ends go with what the acid is enough
// for; what the acid takes of the copper's solubility is half and double as likely, within the
// input's own ends and no more than twice as far from plain water.
func TestEndsAroundWhatIsWorkedOut(t *testing.T) {
	for _, acid := range []float64{150, 2000} {
		c := caseOf(t, entries{"slurry.temperature": 20, "slurry.acid": acid})
		u := find(t, Uncertains(&c), "slurry.split")
		of := u.Best / 100 / route.SplitAt(20)
		assert.InDelta(t, 20*of, u.Low, 1e-9)
		assert.InDelta(t, math.Min(100, 95*of), u.High, 1e-9)
		if acid == 150 {
			assert.Less(t, of, 0.95, "it is not enough for all")
		}
	}
	c := caseOf(t, nil)
	u := find(t, Uncertains(&c), "copper.factor")
	require.True(t, u.Best > 20 && u.Best < 100, "%v", u.Best)
	assert.InDelta(t, math.Max(math.Max(10, u.Best/2), 100-2*(100-u.Best)), u.Low, 1e-9)
	assert.InDelta(t, math.Min(100, 2*u.Best), u.High, 1e-9)
}

// TestMiddleOfAGivenInterval stands in for a value at its end or outside; inside it stays, and an
// interval that knows the value moves nothing.
func TestMiddleOfAGivenInterval(t *testing.T) {
	for _, c := range []struct {
		given Interval
		want  float64
	}{
		{Interval{60, 80}, 70},
		{Interval{50, 60}, 55},
		{Interval{40, 50}, 45},
		{Interval{50, 50}, 50},
		{Interval{49, 60}, 50},
		{Interval{70, 70}, 50},
		{Interval{90, 300}, 95}, // cut to the limit of 100
	} {
		k := caseOf(t, entries{"batch.share": 50})
		k.Given = map[string]Interval{"batch.share": c.given}
		assert.Equal(t, c.want, float64(k.Planned().BatchShare), "%v", c.given)
	}
	k := caseOf(t, entries{"cell.count": 4})
	k.Given = map[string]Interval{"cell.count": {5, 8}}
	assert.Equal(t, 7.0, k.Planned().Rows[0].Count, "a whole number")
}

// TestHalfOfTheDrawsIsEnough for a band; fewer are not.
func TestHalfOfTheDrawsIsEnough(t *testing.T) {
	a, b := Start(caseOf(t, nil), 16).Finish(), Start(caseOf(t, nil), 16).Finish()
	column := b.Figure(route.ProductMass)
	for i := range 9 {
		_, ok := b.Quantile(route.ProductMass, 0.5)
		_, _, differ := Difference(a, b, route.ProductMass)
		assert.Equal(t, i <= 8, ok, "%d are left out", i)
		assert.Equal(t, i <= 8, differ, "%d are left out", i)
		column[i] = math.NaN()
	}
	_, ok := b.Quantile(route.ProductMass, 0.5)
	assert.False(t, ok)
	_, _, ok = Difference(a, b, route.ProductMass)
	assert.False(t, ok)
	_, _, ok = Difference(a, Start(caseOf(t, nil), 16), route.ProductMass)
	assert.False(t, ok, "before the first draw")
	half := Start(caseOf(t, nil), 16)
	half.Step(4)
	low, high, ok := Difference(half, a, route.ProductMass)
	assert.True(t, ok && low == 0 && high == 0, "of the draws that both have made")
	assert.Equal(t, 1, Start(caseOf(t, nil), 0).Draws())
	assert.Equal(t, 1<<20, Start(caseOf(t, nil), 1<<21).Draws())
}

// TestTheNarrowestIsSuggestedFirst, wherever it lies; what leaves 97 parts of a hundred is none.
func TestTheNarrowestIsSuggestedFirst(t *testing.T) {
	s := &Suggester{id: route.ProductMass, low: 0, high: 100, top: 3}
	s.run = Start(caseOf(t, nil), 16).Finish()
	column := s.run.Figure(s.id)
	for m, ends := range [][2]float64{{0, 30}, {90, 100}, {0, 130}, {0, 120}} {
		for i := range column {
			column[i] = ends[0] + (ends[1]-ends[0])*(float64(i)+0.5)/16
		}
		s.run.bands[s.id].at = 0
		s.take(&candidate{m: &measurements[m]})
	}
	list := s.List() // the band is eight tenths of the whole: 104 are too much
	require.Len(t, list, 3)
	assert.Equal(t, []*Measurement{&measurements[1], &measurements[0], &measurements[3]}, []*Measurement{list[0].Measurement, list[1].Measurement, list[2].Measurement})
	assert.InDelta(t, 91, list[0].LowAfter, 0.01)
	assert.InDelta(t, 99, list[0].HighAfter, 0.01)
	assert.Equal(t, [2]float64{0, 100}, [2]float64{list[0].Low, list[0].High})
	assert.Equal(t, measurements[1].Key, list[0].Input.Key)
}

// TestDrawsAreCountedDown: those that were made, and one where none was left.
func TestDrawsAreCountedDown(t *testing.T) {
	r := Start(caseOf(t, nil), 16)
	for _, c := range []struct {
		ask, made int
		done      bool
	}{{10, 10, false}, {10, 6, true}, {10, 1, true}} {
		made, done := r.spend(c.ask)
		assert.Equal(t, c.made, made)
		assert.Equal(t, c.done, done)
	}
}

// TestNarrowLeavesWhatItSays: the measurement's half-width and its share of the value, within the
// ends as they were; nothing new where these are as near.
func TestNarrowLeavesWhatItSays(t *testing.T) {
	c := caseOf(t, nil)
	m, ok := MeasurementOf("wash.held")
	require.True(t, ok)
	narrowed, ok := m.Narrow(Start(c, 16))
	require.True(t, ok)
	now := narrowed.Given["wash.held"] // 1 mL/g, half-width 0.02 + 0.08
	assert.InDelta(t, 0.9, now.Low, 1e-12)
	assert.InDelta(t, 1.1, now.High, 1e-12)
	c.Given = map[string]Interval{"wash.held": {0.95, 3}}
	narrowed, ok = m.Narrow(Start(c, 16))
	require.True(t, ok)
	assert.Equal(t, 0.95, narrowed.Given["wash.held"].Low)
	assert.InDelta(t, 1.1, narrowed.Given["wash.held"].High, 1e-12)
	c.Given = map[string]Interval{"wash.held": {0.95, 1.05}}
	_, ok = m.Narrow(Start(c, 16))
	assert.False(t, ok, "it is known as well")
}

// TestNoWorkIsDoneUnasked: a step of no draws makes none.
func TestNoWorkIsDoneUnasked(t *testing.T) {
	c := caseOf(t, nil)
	s := NewSuggester(Start(c, 64).Finish(), route.ProductMass, 3, 64)
	assert.False(t, s.Step(0))
	assert.Nil(t, s.run)
	k := CellsFor(c, route.ProductMass, 60, 64)
	assert.False(t, k.Step(0))
	assert.Equal(t, k.first, k.next)
	w, err := NewSweep(c, "gas.acid", []float64{10, 20}, 64, route.GasMade)
	require.NoError(t, err)
	assert.False(t, w.Step(0))
	assert.Nil(t, w.run)
	f := PureFor(c, 95, 64)
	assert.False(t, f.Step(0))
	assert.Zero(t, f.next)
	b := StartBuying(c)
	assert.False(t, b.Step(0))
	assert.Zero(t, b.run.done)
}

// TestNearestIsTheLeastThatMakesTheMost, by all counts.
func TestNearestIsTheLeastThatMakesTheMost(t *testing.T) {
	c := caseOf(t, entries{"gas.acid": 60, "gas.copper": 12, "slurry.acid": 0, "cell.rejects": 3})
	for _, id := range []route.FigureID{route.GasMade, route.UptakeTaken} {
		a := CellsFor(c, id, 1e5, 64).Finish()
		nearest, most := 0.0, math.Inf(-1)
		for count := 3.0; count <= a.Input.Max; count++ {
			p := c.Plan
			p.Rows[0].Count = count
			if v := new(route.Runner).Run(&p).Value(id); v > most+1e-9*math.Abs(v) || math.IsInf(most, -1) && v == v {
				nearest, most = count, v
			}
		}
		assert.Equal(t, nearest, a.Nearest)
		assert.Equal(t, most, a.NearestMakes)
	}
}

// TestAWishIsMetToTheDigit: what a count makes is reached by that count.
func TestAWishIsMetToTheDigit(t *testing.T) {
	c := caseOf(t, nil)
	c.Plan.Rows[0].Count = 5
	want := new(route.Runner).Run(&c.Plan).Value(route.ProductMass)
	a := CellsFor(c, route.ProductMass, want, 64).Finish()
	assert.Equal(t, 5.0, a.Best)
	assert.Equal(t, want, a.BestMakes)
}

// TestEndsThatDifferByTheArithmeticAlone are one, be the figure large or small.
func TestEndsThatDifferByTheArithmeticAlone(t *testing.T) {
	for _, c := range []struct {
		figure, step float64
		one          bool
	}{{1e-8, 1e-10, false}, {1e8, 1e-10, false}, {1e-8, 1e-15, true}, {1e8, 1e-15, true}} {
		r := Start(caseOf(t, nil), 16).Finish()
		for i, column := 0, r.Figure(route.ProductMass); i < 16; i++ {
			column[i] = c.figure * (1 + c.step*float64(i))
		}
		low, high, ok := r.Band(route.ProductMass)
		require.True(t, ok)
		assert.Equal(t, c.one, low == high, "%v", c)
	}
}

// TestTheChargeThatIsGivenUsesUpTheOther, where that is left blank.
func TestTheChargeThatIsGivenUsesUpTheOther(t *testing.T) {
	for _, e := range []entries{{"gas.copper": 90}, {"gas.acid": 300}, {"gas.source": "metabisulfite", "gas.salt": 300}, {"gas.source": "metabisulfite", "gas.acid": 200}} {
		c := caseOf(t, e)
		a, ok := Allows(c)
		require.True(t, ok)
		p := c.Plan
		acid, _ := route.InputByKey("gas.acid")
		if quantity.Given(a.AcidWanted) {
			require.NoError(t, acid.Set(&p, a.AcidWanted))
		} else {
			require.NoError(t, a.Solid.Set(&p, a.SolidWanted))
		}
		assert.Equal(t, new(route.Runner).Run(&p).Value(route.GasMade), a.Gas, "%v", e)
		blank := new(route.Runner).Run(&c.Plan).Value(route.GasMade)
		assert.Greater(t, math.Abs(blank-a.Gas), 0.01*a.Gas, "%v: what is blank follows the demand else", e)
		assert.Equal(t, quantity.Given(float64(c.Plan.GasAcid)), quantity.Given(a.SolidWanted), "%v", e)
		assert.NotEqual(t, quantity.Given(a.SolidWanted), quantity.Given(a.AcidWanted), "%v", e)
	}
	_, ok := Allows(caseOf(t, entries{"gas.source": "oxalic"}))
	assert.False(t, ok, "no gas is made")
}

// TestAloneTellsOfEachStep, of washes of one, and the surest is that of which nine draws in ten
// are purest.
func TestAloneTellsOfEachStep(t *testing.T) {
	c := Case{Plan: route.PlanOf(route.Defaults)}
	f := PureFor(c, 95, 64)
	for !f.Step(math.MaxInt) {
	}
	washes, others, want := 0, 0, 0
	for _, one := range f.answer.Alone {
		require.Len(t, one.Steps, 1)
		if one.Steps[0].Kind == route.OfWash {
			washes++
		} else {
			others++
		}
	}
	for i := range f.tries {
		if x := &f.tries[i]; len(x.steps) == 1 && quantity.Given(x.purity) && x.steps[0].Kind != route.OfWash {
			want++
		}
	}
	assert.Equal(t, 1, washes)
	assert.Equal(t, want, others)
	assert.Greater(t, others, 2)
	sure := math.Inf(-1)
	for _, i := range f.able {
		k, _, ok := f.with(f.tries[i].steps)
		require.True(t, ok)
		low, _ := Start(k, 64).Finish().Quantile(route.ProductPurity, 0.1)
		sure = math.Max(sure, low)
	}
	require.NotEmpty(t, f.answer.Surest.Steps)
	assert.Equal(t, sure, f.answer.SurestSure)
}

// TestWaterGivenBetweenGoesInProportion, each end by the share of the whole.
func TestWaterGivenBetweenGoesInProportion(t *testing.T) {
	c := caseOf(t, entries{"dry.way": "crystals", "batch.share": 80, "crop.water": 100})
	c.Given = map[string]Interval{"crop.water": {90, 120}}
	s := ShareFor(c, route.ProductMass, 20, 64)
	half := s.with(80) // 40 %
	by := float64(half.Plan.CropWater) / 100
	assert.InDelta(t, 0.5, by, 0.05)
	assert.InDelta(t, 90*by, half.Given["crop.water"].Low, 1e-9)
	assert.InDelta(t, 120*by, half.Given["crop.water"].High, 1e-9)
	assert.Equal(t, Interval{40, 40}, half.Given["batch.share"])
}

// TestValuesInWords: one cell, several, and percent.
func TestValuesInWords(t *testing.T) {
	c := caseOf(t, nil)
	s := CellsFor(c, route.ProductMass, 20, 64)
	assert.Equal(t, "1 cell", s.print(1))
	assert.Equal(t, "12 cells", s.print(12))
	assert.Equal(t, "2.5\u202f%", ShareFor(c, route.ProductMass, 20, 64).print(2.5))
}

// TestScaledTakesTheShareFirst, then cells, and of them those that are opened.
func TestScaledTakesTheShareFirst(t *testing.T) {
	c := caseOf(t, entries{"cell.count": 6, "cell.rejects": 2, "batch.share": 50, "mix.wet": 200, "mix.washed": 150})
	less := scaled(&c.Plan, 1.5)
	assert.Equal(t, 75.0, float64(less.BatchShare))
	assert.Equal(t, 6.0, less.Rows[0].Count)
	assert.Equal(t, 200.0, float64(less.MixWet))
	more := scaled(&c.Plan, 3)
	assert.Equal(t, 100.0, float64(more.BatchShare))
	assert.Equal(t, 2+1.5*4, more.Rows[0].Count)
	assert.Equal(t, 300.0, float64(more.MixWet))
	assert.Equal(t, 225.0, float64(more.MixWashed))
}

// TestTurnOfAWholeNumber is the first at which the limit is another.
func TestTurnOfAWholeNumber(t *testing.T) {
	c := caseOf(t, entries{"gas.acid": 60})
	limit := func(count float64) string {
		p := c.Plan
		p.Rows[0].Count = count
		return new(route.Runner).Run(&p).Word(route.GasLimit)
	}
	first, last := limit(1), limit(40)
	require.NotEqual(t, first, last)
	turns := 1.0
	for limit(turns) == first {
		turns++
	}
	s, err := NewSweep(c, "cell.count", []float64{1, 40}, 16, route.GasMade)
	require.NoError(t, err)
	s.Finish()
	require.Len(t, s.Turns(), 1)
	assert.Equal(t, Turn{turns, first, last}, s.Turns()[0])
	assert.Equal(t, first, s.Limit(0))
	assert.Equal(t, last, s.Limit(1))
	assert.Empty(t, s.Limit(2))
}

// TestASweepGoesOnFromAnother, as from itself.
func TestASweepGoesOnFromAnother(t *testing.T) {
	of := func() *Sweep {
		s, err := NewSweep(caseOf(t, entries{"gas.copper": 12}), "gas.acid", []float64{5, 10, 40}, 64, route.GasMade)
		require.NoError(t, err)
		return s
	}
	half, whole := of(), of().Finish()
	half.Step(64)
	require.False(t, half.Found().Done)
	require.Len(t, half.Found().Limits, 1)
	on := of()
	on.Take(half.Found())
	on.Finish()
	assert.Equal(t, whole.Found(), on.Found())
	assert.Equal(t, "gas.acid", on.Input().Key)
}

// TestPriceByHand: 1 h, 2 nights, 3 L of liquor and 4 of gas, half of the salt and a quarter of
// the blue, and another reductant.
func TestPriceByHand(t *testing.T) {
	c := Cost{Hours: 1, Nights: 2, Litres: 3, Gas: 4, Share: 0.5, Blues: 0.25}
	assert.Equal(t, 1+2+3+4+5+2.5, c.price())
	c.Way = true
	assert.Equal(t, 1+2+3+4+5+2.5+4, c.price())
	c.Blues = -1
	assert.Equal(t, 1+2+3+4+5+4.0, c.price(), "more blue is no gain")
}

// TestAskedByHand: hours and nights by the steps at the bench, litres of liquor and of gas.
func TestAskedByHand(t *testing.T) {
	for _, e := range []entries{nil, {"dry.way": "crystals"}, {"gas.source": "oxalic"}} {
		c := caseOf(t, e)
		var runner route.Runner
		s := runner.Run(&c.Plan)
		minutes, nights := 0.0, 0.0
		for _, st := range procedure.Steps(&c.Plan, s, nil) {
			if st.Watch != procedure.Overnight {
				minutes += float64(st.Minutes)
			} else if !st.Beside {
				nights++
			}
		}
		w := new(Purify).asks(&c.Plan, s, 7)
		assert.InDelta(t, minutes/60, w.hours, 1e-9)
		assert.Equal(t, nights, w.nights)
		assert.Equal(t, s.Value(route.WasteVolume)/1000, w.litres)
		assert.Equal(t, s.Amount(route.VentVolume)+s.Amount(route.DryGasVolume), w.gas)
		assert.Equal(t, s.Amount(route.CopperCrop), w.blue)
		assert.Equal(t, 7.0, w.salt)
	}
}

// TestIntervalsAsTyped: the forms that are read, those that are refused and why, and that
// nothing typed brings back the usual one.
func TestIntervalsAsTyped(t *testing.T) {
	c := Case{Plan: route.NewPlan(), Given: map[string]Interval{}}
	form := c.Form()
	f, ok := form.Find("gas.uptake~")
	require.True(t, ok)
	for _, text := range []string{"50,95", "50-95", "50 - 95", "50 to 95", "50–95", "50…95", "50;95", "50 % to 95 %"} {
		delete(c.Given, "gas.uptake")
		require.NoError(t, form.Set(f, text), text)
		assert.Equal(t, map[string]Interval{"gas.uptake": {50, 95}}, c.Given, text)
	}
	assert.Equal(t, "50 to 95", form.Text(f))
	written, ok := form.Written(f)
	assert.True(t, ok)
	assert.Equal(t, "50,95", written)
	for text, why := range map[string]string{
		"50":        "is not an interval",
		"a to b":    "",
		"50 to ":    "",
		"95 to 50":  "has its high before its low",
		"50 to 300": "",
		"5,6,7":     "is not an interval",
	} {
		assert.ErrorContains(t, form.Set(f, text), why, text)
		assert.Equal(t, Interval{50, 95}, c.Given["gas.uptake"], "%s: a refused one changes nothing", text)
	}
	require.NoError(t, form.Set(f, "60 to 60"), "known")
	require.NoError(t, form.Set(f, "  "))
	assert.Empty(t, c.Given)
	assert.Empty(t, form.Text(f))
	_, ok = form.Written(f)
	assert.False(t, ok)
	whole, ok := form.Find("cell.count~")
	require.True(t, ok)
	require.NoError(t, form.Set(whole, "3.5 to 6.5"), "the ends of a count need not be whole")
	for _, key := range []string{"gas.source~", "gas.uptake", "nothing~"} {
		_, ok = form.Find(key)
		assert.False(t, ok, key)
	}
	inputs := route.Inputs()
	choices := 0
	for i := range inputs {
		if inputs[i].IsChoice() {
			choices++
		}
	}
	assert.Len(t, form.Fields, len(inputs)-choices)
	assert.True(t, quantity.Given(c.Given["cell.count"].Low))
}
