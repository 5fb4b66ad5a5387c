package spread

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/scripts/long"
)

func TestMeasurementsAreSound(t *testing.T) {
	for _, m := range measurements {
		in, ok := route.InputByKey(m.Key)
		require.True(t, ok, m.Key)
		for _, key := range m.Spares {
			_, ok := route.InputByKey(key)
			assert.True(t, ok, key)
		}
		assert.NotEmpty(t, m.Do)
		assert.NotEmpty(t, m.How)
		assert.Equal(t, in.Standing == route.Measured, m.Half == 0 && m.Share == 0, m.Key)
	}
	m, ok := MeasurementOf("cell.fill")
	assert.True(t, ok && m.Key == "mix.wet")
	m, ok = MeasurementOf("mix.wet")
	assert.True(t, ok && m.Key == "mix.wet")
	_, ok = MeasurementOf("cell.aged")
	assert.False(t, ok)
}

// suggest is a Suggester run to its end.
func suggest(r *Run, id route.FigureID, top, draws int) []Suggestion {
	s := NewSuggester(r, id, top, draws)
	for !s.Step(math.MaxInt) {
	}
	return s.List()
}

// TestSuggestionHoldsWhatItPromises: the top suggestion for the product is
// followed by two hundred chemists with different cells. Each measures the truth
// within the tolerance, plans anew with what was found, and does as that plan says.
// Their bands are as wide as was promised, in the mean to a tenth, and hold the truth
// as often as they should. In a short run a dozen do, and may be less often right.
func TestSuggestionHoldsWhatItPromises(t *testing.T) {
	c := caseOf(t, entries{"batch.share": 100, "gas.flask": 1000})
	before := Start(c, 1024).Finish()
	list := suggest(before, route.ProductMass, 3, 1024)
	require.NotEmpty(t, list)
	top := list[0]
	for _, s := range list {
		t.Logf("%s: %s becomes %s", s.Do, span(s.Low, s.High), span(s.LowAfter, s.HighAfter))
	}
	low, high, _ := before.Band(route.ProductMass)
	assert.Equal(t, [2]float64{low, high}, [2]float64{top.Low, top.High})
	promised := top.HighAfter - top.LowAfter
	assert.Less(t, promised, 0.9*(high-low))
	require.Equal(t, route.Measured, top.Input.Standing, "the test below is about a weighing")
	id := map[string]route.FigureID{"mix.wet": route.MixMass, "mix.washed": route.MixDry, "mix.assay": route.MixAssay}[top.Key]

	random := rand.New(rand.NewPCG(4, 4))
	var runner route.Runner
	after := Start(c, 1024)
	chemists, slack := long.Of(12, 200, 200), long.Of(0.25, 0.09, 0.09)
	width, hits, best := 0.0, 0, before.Best().Value(id)
	for range chemists {
		truth := before.base
		for k := range before.uncertain {
			u := &before.uncertain[k]
			set(u.Input, &truth, u.At(random.Float64()))
		}
		route.Settle(&truth)
		real := runner.Run(&truth).Value(id)
		half := tolerance(top.Key, real)
		found := real + half*(random.Float64()+random.Float64()-1)
		known := c
		require.NoError(t, top.Input.Set(&known.Plan, found))
		after.Restart(known)
		after.Finish()
		low, high, ok := after.Band(route.ProductMass)
		require.True(t, ok)
		width += (high - low) / float64(chemists) * best / found // more mix, more of everything
		done := after.base
		for k := range before.uncertain {
			in := before.uncertain[k].Input
			in.Copy(&done, &truth)
		}
		require.NoError(t, top.Input.Set(&done, real))
		if v := runner.Run(&done).Value(route.ProductMass); low <= v && v <= high {
			hits++
		}
	}
	t.Logf("%.1f g promised, %.1f g in the mean; the truth is inside %d of %d times", promised, width, hits, chemists)
	assert.InDelta(t, promised, width, 0.1*promised)
	assert.InDelta(t, 0.8, float64(hits)/float64(chemists), slack)
}

func span(low, high float64) string {
	r := Round((low+high)/2, low, high)
	return fmt.Sprintf("%v to %v", r.Low, r.High)
}

// TestSuggestionsComeInOrder: the narrowest band first, none that leaves it as it
// was, in small steps as in one.
func TestSuggestionsComeInOrder(t *testing.T) {
	r := Start(caseOf(t, nil), 1024).Finish()
	for _, id := range []route.FigureID{route.ProductMass, route.GasMade, route.WashLast, route.DryHours, route.CopperCrop} {
		whole := suggest(r, id, 3, 512)
		assert.NotEmpty(t, whole, id.Info().Key)
		assert.LessOrEqual(t, len(whole), 3)
		for i, s := range whole {
			assert.Less(t, s.HighAfter-s.LowAfter, s.High-s.Low)
			if i > 0 {
				assert.LessOrEqual(t, whole[i-1].HighAfter-whole[i-1].LowAfter, s.HighAfter-s.LowAfter)
			}
		}
		s, steps := NewSuggester(r, id, 3, 512), 0
		for !s.Step(100) {
			steps++
		}
		assert.GreaterOrEqual(t, steps, 5)
		assert.Equal(t, whole, s.List())
	}
	assert.Empty(t, suggest(r, route.CellsOpened, 3, 512), "certain")
	assert.Empty(t, suggest(r, route.GasLimit, 3, 512), "a word")
}

// TestNarrowingKeepsTheCase: what the caller gave is not written to.
func TestNarrowingKeepsTheCase(t *testing.T) {
	c := caseOf(t, nil)
	c.Given = map[string]Interval{"gas.uptake": {55, 90}}
	r := Start(c, 256).Finish()
	m, _ := MeasurementOf("gas.uptake")
	n, ok := m.Narrow(r)
	require.True(t, ok)
	best := r.Best().Value(route.UptakeShare)
	assert.Equal(t, Interval{best - 5, best + 5}, n.Given["gas.uptake"])
	assert.Equal(t, Interval{55, 90}, c.Given["gas.uptake"])
	m, _ = MeasurementOf("gas.warm")
	_, ok = m.Narrow(r)
	assert.False(t, ok, "not of this way")
	m, _ = MeasurementOf("mix.wet")
	n, ok = m.Narrow(r)
	require.True(t, ok)
	assert.Equal(t, r.Best().Value(route.MixMass), float64(n.Plan.MixWet))
	assert.False(t, quantity.Given(c.Plan.MixWet))
	_, ok = m.Narrow(Start(n, 16))
	assert.False(t, ok, "already weighed")
}

// TestCellsFor: the count found does it and one less does not, at best and nine
// times in ten.
func TestCellsFor(t *testing.T) {
	for _, c := range []struct {
		set  entries
		id   route.FigureID
		want float64
	}{
		{nil, route.ProductMass, 20},
		{nil, route.ProductMass, 100},
		{entries{"cell.rejects": 2, "batch.share": 100}, route.ProductMass, 50},
		{entries{"gas.acid": 60}, route.ProductMass, 30},
		{nil, route.CopperCrop, 80},
		{nil, route.ProductMass, 0},
	} {
		k := caseOf(t, c.set)
		a := CellsFor(k, c.id, c.want, 512).Finish()
		require.Empty(t, a.Why)
		at := func(count float64) (best, low float64) {
			now := k
			now.Plan.Rows[0].Count = count
			r := Start(now, 512).Finish()
			low, _, _ = r.Band(c.id)
			return r.Best().Value(c.id), low
		}
		best, _ := at(a.Best)
		assert.Equal(t, a.BestMakes, best)
		assert.GreaterOrEqual(t, best, c.want)
		_, low := at(a.Sure)
		assert.Equal(t, a.SureMakes, low)
		assert.GreaterOrEqual(t, low, c.want)
		assert.GreaterOrEqual(t, a.Sure, a.Best)
		if less := a.Best - 1; less >= 1 && less >= k.Plan.Rows[0].Rejects {
			best, _ = at(less)
			assert.Less(t, best, c.want)
		}
		if less := a.Sure - 1; less >= a.Best {
			_, low = at(less)
			assert.Less(t, low, c.want)
		}
	}
}

// TestCannotBeReached: why, and the nearest that can.
func TestCannotBeReached(t *testing.T) {
	c := caseOf(t, nil)
	a := ShareFor(c, route.ProductMass, 1e4, 256).Finish()
	assert.True(t, math.IsNaN(a.Best) && math.IsNaN(a.Sure))
	assert.Equal(t, 100.0, a.Nearest)
	assert.Contains(t, a.Why, "the field takes no more")
	assert.Contains(t, a.Why, "is the most")

	// Between the best and the sure most.
	r := Start(withShare(c, 100), 1024).Finish()
	low, _, _ := r.Band(route.ProductMass)
	want := (low + r.Best().Value(route.ProductMass)) / 2
	a = ShareFor(c, route.ProductMass, want, 512).Finish()
	assert.False(t, math.IsNaN(a.Best))
	assert.True(t, math.IsNaN(a.Sure))
	assert.Contains(t, a.Why, "not nine times in ten")

	a = CellsFor(caseOf(t, entries{"gas.acid": 10, "slurry.acid": 0}), route.ProductMass, 1e5, 256).Finish()
	assert.Contains(t, a.Why, "the acid runs out first")

	a = CellsFor(caseOf(t, entries{"mix.wet": 150}), route.ProductMass, 1e5, 256).Finish()
	assert.Contains(t, a.Why, "weighed")

	a = CellsFor(caseOf(t, entries{"gas.source": "metabisulfite"}), route.CopperCrop, 10, 256).Finish()
	assert.Contains(t, a.Why, "no copper")
}

func withShare(c Case, share float64) Case {
	c.Plan.BatchShare = quantity.Percent(share)
	return c
}

func TestSeekGivesWay(t *testing.T) {
	c := caseOf(t, nil)
	want := CellsFor(c, route.ProductMass, 60, 256).Finish()
	s, steps := CellsFor(c, route.ProductMass, 60, 256), 0
	for !s.Step(50) {
		steps++
	}
	assert.Greater(t, steps, 40)
	assert.Equal(t, want, s.Answer())
}

// TestAllows: with what is said to be wanted, the other is used up.
func TestAllows(t *testing.T) {
	_, ok := Allows(caseOf(t, nil))
	assert.False(t, ok)
	for name, e := range map[string]entries{
		"copper": {"gas.acid": 25, "gas.copper": 8},
		"salt":   {"gas.source": "metabisulfite", "gas.acid": 10, "gas.salt": 60},
	} {
		t.Run(name, func(t *testing.T) {
			c := caseOf(t, e)
			a, ok := Allows(c)
			require.True(t, ok)
			var b route.Runner
			inLiquid := func(p route.Plan) float64 {
				s := b.Run(&p)
				return s.Value(route.GasMade) + s.Value(route.GasHeld)
			}
			acid, solid := c.Plan, c.Plan
			require.NoError(t, a.Solid.Set(&acid, a.SolidWanted)) // for all the acid
			solid.GasAcid = quantity.Millilitre(a.AcidWanted)     // for all the solid
			acid.BatchShare, solid.BatchShare = 1, 1              // a demand that both meet
			s := b.Run(&acid)
			assert.Equal(t, route.NeitherFirst, s.Word(route.GasLimit))
			s = b.Run(&solid)
			assert.Equal(t, route.NeitherFirst, s.Word(route.GasLimit))
			assert.InDelta(t, inLiquid(c.Plan), math.Min(inLiquid(acid), inLiquid(solid)), 1e-9)

			// The share that it serves is served just so.
			p := c.Plan
			p.BatchShare = quantity.Percent(math.Min(100, a.Share))
			s = b.Run(&p)
			if a.Share <= 100 {
				assert.InDelta(t, s.Value(route.GasNeeded), s.Value(route.GasMade), 1e-6*s.Value(route.GasMade))
			}
			if quantity.Given(a.Cells) && a.Cells >= 1 {
				p = c.Plan
				p.Rows[0].Count = a.Cells
				s = b.Run(&p)
				assert.GreaterOrEqual(t, s.Value(route.GasMade), s.Value(route.GasNeeded)*(1-1e-9))
				p.Rows[0].Count++
				s = b.Run(&p)
				assert.Less(t, s.Value(route.GasMade), s.Value(route.GasNeeded))
			}
		})
	}
	// With one given, the other follows it.
	a, ok := Allows(caseOf(t, entries{"gas.copper": 8}))
	require.True(t, ok)
	assert.Greater(t, a.AcidWanted, 0.0)
	assert.True(t, math.IsNaN(a.SolidWanted))
	assert.Greater(t, a.Gas, 0.0)
}

func TestSweep(t *testing.T) {
	c := caseOf(t, entries{"gas.copper": 12})
	values := []float64{0, 5, 10, 20, 30, 40, 60}
	s, err := NewSweep(c, "gas.acid", values, 512, route.ProductMass, route.GasMade)
	require.NoError(t, err)
	for !s.Step(100) {
	}
	require.Len(t, s.Turns(), 1)
	turn := s.Turns()[0]
	a, _ := Allows(c)
	assert.InDelta(t, a.AcidWanted, turn.At, 0.02)
	assert.Equal(t, [2]string{"acid", "copper"}, [2]string{turn.From, turn.To})
	require.Len(t, s.Line(0), len(values))
	for i, p := range s.Line(1) {
		assert.Equal(t, values[i], p.At)
		if i == 0 {
			assert.True(t, math.IsNaN(p.Best) && math.IsNaN(p.Low))
			continue
		}
		k := c
		k.Plan.GasAcid = quantity.Millilitre(p.At)
		r := Start(k, 512).Finish()
		low, high, _ := r.Band(route.GasMade)
		assert.Equal(t, Point{p.At, r.Best().Value(route.GasMade), low, high}, p)
	}
	_, err = NewSweep(c, "gas.source", values, 64)
	assert.ErrorContains(t, err, "choice")
	_, err = NewSweep(c, "no.such", values, 64)
	assert.ErrorContains(t, err, "no.such")
}

// TestSweepKnowsItsValue: also where it passes the default of an estimate.
func TestSweepKnowsItsValue(t *testing.T) {
	s, err := NewSweep(caseOf(t, nil), "gas.uptake", []float64{79, 80, 81}, 1024, route.GasNeeded)
	require.NoError(t, err)
	line := s.Finish().Line(0)
	width := func(i int) float64 { return line[i].High - line[i].Low }
	assert.InDelta(t, (width(0)+width(2))/2, width(1), 0.02*width(1))
}

func TestSweepOfCells(t *testing.T) {
	s, err := NewSweep(caseOf(t, entries{"gas.acid": 60, "gas.copper": 24}), "cell.count", []float64{1, 4, 8, 12, 16, 20.5}, 128, route.ProductMass)
	require.NoError(t, err)
	s.Finish()
	line := s.Line(0)
	assert.True(t, math.IsNaN(line[5].Best), "half a cell is refused")
	for i := 1; i < 5; i++ {
		assert.Greater(t, line[i].Best, line[i-1].Best)
		assert.True(t, line[i].Low <= line[i].High)
	}
}

// TestSlowerFlameAndSecondVesselCanBeAsked: swept, both want less gas, band and best.
func TestSlowerFlameAndSecondVesselCanBeAsked(t *testing.T) {
	for key, values := range map[string][]float64{"gas.minutes": {30, 60, 90, 180, 360}, "gas.vessels": {1, 2, 3}} {
		s, err := NewSweep(caseOf(t, nil), key, values, 256, route.GasNeeded, route.UptakeShare)
		require.NoError(t, err)
		s.Finish()
		gas, share := s.Line(0), s.Line(1)
		for i := range values[1:] {
			assert.Less(t, gas[i+1].Best, gas[i].Best, "%s %v", key, values[i+1])
			assert.Less(t, gas[i+1].High, gas[i].High, "%s %v", key, values[i+1])
			assert.Greater(t, share[i+1].Best, share[i].Best, "%s %v", key, values[i+1])
			assert.Greater(t, share[i+1].Low, share[i].Low, "%s %v", key, values[i+1])
		}
	}
}

// TestTheExcessIsEnoughAsOftenAsItsFieldSays, in the plan that the page starts with.
func TestTheExcessIsEnoughAsOftenAsItsFieldSays(t *testing.T) {
	in, ok := route.InputByKey("gas.excess")
	require.True(t, ok)
	for _, c := range []struct {
		excess, least, most float64
		says                string
	}{
		{30, 0.75, 0.80, "30 % is enough in nearly eight runs of ten"},
		{10, 0.52, 0.60, "10 % in little more than half"},
	} {
		p := route.PlanOf(route.Defaults)
		require.NoError(t, in.Set(&p, c.excess))
		draws := Start(Case{Plan: p}, 1024).Finish().Figure(route.MetShare)
		enough := 0.0
		for _, met := range draws {
			if quantity.Given(met) {
				enough++
			}
		}
		share := enough / float64(len(draws))
		assert.True(t, c.least < share && share < c.most, "%v %%: %v", c.excess, share)
		assert.Contains(t, in.Why, c.says)
	}
}

// TestAWishKeepsTheWaterInProportion: water in the dish that is given as a number does not make a
// smaller share give nothing.
func TestAWishKeepsTheWaterInProportion(t *testing.T) {
	c := Case{Plan: route.NewPlan()}
	c.Plan.DryWay, c.Plan.CropCold = route.ToCrystals, 100
	blank := ShareFor(c, route.ProductMass, 20, 256).Finish()
	sheet := new(route.Runner).Run(&c.Plan)
	c.Plan.CropWater = quantity.Millilitre(sheet.Value(route.CropWaterUsed))
	given := ShareFor(c, route.ProductMass, 20, 256).Finish()
	require.True(t, quantity.Given(blank.Best))
	assert.Equal(t, blank.Best, given.Best)
	assert.InEpsilon(t, blank.BestMakes, given.BestMakes, 0.01)
	require.True(t, quantity.Given(given.Sure))
	c.Given = map[string]Interval{"crop.water": {float64(c.Plan.CropWater) * 0.9, float64(c.Plan.CropWater) * 1.1}}
	between := ShareFor(c, route.ProductMass, 20, 256).Finish()
	assert.InDelta(t, blank.Best, between.Best, 1)
	assert.InDelta(t, given.Sure, between.Sure, 3)
}
