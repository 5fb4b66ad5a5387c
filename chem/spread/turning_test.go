package spread

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
)

// TestIntervalsHoldBothSidesOfATurn: where the salt in the jar turns into another at a
// temperature near that of the plan, the interval of its mass holds what the jar weighs on
// both sides; well away from it the temperature is known, and it does not.
func TestIntervalsHoldBothSidesOfATurn(t *testing.T) {
	mass := func(e entries) float64 {
		c := caseOf(t, e)
		return new(route.Runner).Run(&c.Plan).Value(route.ProductMass)
	}
	for _, c := range []struct {
		key      string
		at, away float64
		way      string
	}{
		{"dry.temperature", 25, 18, "dry"},
		{"dry.temperature", 9, 15, "dry"},
		{"dry.temperature", 258, 190, "dry"},
		{"crop.cold", 9, 15, "crystals"},
		{"crop.cold", 25, 15, "crystals"},
	} {
		var ends [2][2]float64
		for side, off := range []float64{-0.1, 0.1} {
			e := entries{c.key: c.at + off, "dry.way": c.way}
			r := Start(caseOf(t, e), 1024).Finish()
			low, high, ok := r.Band(route.ProductMass)
			require.True(t, ok)
			here, there := mass(e), mass(entries{c.key: c.at - off, "dry.way": c.way})
			require.Greater(t, math.Abs(here-there), 0.01*here, "%v: a step", e)
			assert.True(t, low <= 1.02*there && 0.98*there <= high, "%v: %v on the other side, in %v to %v", e, there, low, high)
			assert.True(t, low <= here && here <= high, "%v: %v in %v to %v", e, here, low, high)
			ends[side] = [2]float64{low, high}
			said := false
			plan := r.Case().Plan
			for _, n := range route.Notices(&plan, r.Best()) {
				said = said || n.Key == "dry.turning"
			}
			assert.Equal(t, c.at < 200, said, "%v", e) // between 200 and 400 another notice speaks
		}
		width := ends[0][1] - ends[0][0]
		assert.InDelta(t, ends[0][0], ends[1][0], 0.1*width, "%s at %v: the interval does not step", c.key, c.at)
		assert.InDelta(t, ends[0][1], ends[1][1], 0.1*width)
		away := caseOf(t, entries{c.key: c.away, "dry.way": c.way})
		assert.NotContains(t, keys(Uncertains(&away)), c.key, "%v", c.away)
	}
	between := caseOf(t, entries{"dry.temperature": 300})
	u := find(t, Uncertains(&between), "dry.temperature")
	assert.Equal(t, [3]float64{200, 300, 400}, [3]float64{u.Low, u.Best, u.High}, "the water leaves somewhere between")
	r := Start(between, 1024).Finish()
	low, high, _ := r.Band(route.ProductWaters)
	assert.True(t, low < 0.3 && high > 0.7)
}

// TestHeatsCarryTheSpreadOfTheirTables: every heat, and what warms by it, has an interval of
// some hundredths by the tables alone.
func TestHeatsCarryTheSpreadOfTheirTables(t *testing.T) {
	r := Start(Case{Plan: route.NewPlan()}, 512)
	known := r.base
	for k := range r.uncertain {
		if u := &r.uncertain[k]; u.Input.Key != "heat.share" {
			u.Low, u.High = u.Best, u.Best
		}
	}
	r.Finish()
	for _, id := range []route.FigureID{route.ReduceHeat, route.ReduceRise, route.ReduceIce, route.SlurryAcidRise, route.ScrubHeat, route.ScrubRise, route.CopperHeat, route.CopperRise} {
		low, high, ok := r.Band(id)
		best := new(route.Runner).Run(&known).Value(id)
		assert.True(t, ok, id.Info().Key)
		assert.InDelta(t, 0.983, low/best, 0.003, id.Info().Key)
		assert.InDelta(t, 1.033, high/best, 0.003, id.Info().Key)
	}
	low, high, _ := r.Band(route.ProductMass)
	assert.Equal(t, low, high, "nothing else hangs on it")
}
