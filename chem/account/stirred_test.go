package account

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// TestAccountWithoutGas: where the reductant is stirred in, the account says nothing of
// gas made, and still tells a run that went short from one that did not.
func TestAccountWithoutGas(t *testing.T) {
	for _, source := range []route.Choice{route.BySalt, route.ByPeroxide, route.ByOxalic} {
		c := spread.Case{Plan: route.NewPlan()}
		c.Plan.GasSource = source
		require.Empty(t, route.Check(&c.Plan))
		var b route.Runner
		expected := b.Run(&c.Plan).Value(route.ProductMass)
		rec := NewRecord()
		rec.Product = 0.4 * expected
		p := quickly(c, rec)
		require.True(t, p.OK(), p.Why())
		assert.False(t, p.Bounds.Made.OK())
		held := poured(c)
		brought := route.MostBrought(&held).Millimoles()
		assert.InDelta(t, math.Max(0, brought-p.Bounds.UsedMost.Value), p.Bounds.Idle.Value, 1e-9)
		assert.InDelta(t, 2*brought, p.Bounds.MadeMost.Value, 1e-6, "nobody noted the charge")
		assert.Less(t, p.Bounds.Used.Value, p.Bounds.UsedMost.Value)
		if source == route.ByOxalic { // oxalate in the salt may hold as much again
			assert.Contains(t, p.Bounds.Sure(), "cannot show whether any of it was lost")
			assert.InDelta(t, 2*1000*rec.Product/169.02, p.Bounds.UsedMost.Value, 0.5)
		} else {
			assert.Greater(t, p.Bounds.Idle.Value, 0.0, "%d", source)
			assert.Contains(t, p.Bounds.Sure(), "or more, ")
		}
		sum := 0.0
		for cause := range Cause(Causes) {
			sum += p.Probability(cause)
		}
		assert.InDelta(t, 1, sum, 1e-9)
		assert.Less(t, p.Planned(), 0.5*AsPlanned.Prior(), "less than half of what was planned is in the jar")
		i, ok := p.Interval(route.ProductMass)
		require.True(t, ok)
		assert.InDelta(t, rec.Product, i.Median, 0.1*expected)
		assert.False(t, math.IsNaN(i.Low) || math.IsNaN(i.High))
		assert.NotContains(t, p.Verdict().Sentence, "gas", "%d", source)
		for cause := range Cause(Causes) {
			assert.NotContains(t, p.Called(cause), "gas", "%d", source)
		}
		_, ok = p.Account(KeyUptake)
		assert.Equal(t, source == route.BySalt, ok, "uptake is told where gas is set free")
		if _, ok := p.Account(KeyMade); ok && source != route.FromCopper {
			t.Errorf("%d: gas made is told where no gas is led in", source)
		}
	}
}

// poured is the plan with its charges as printed.
func poured(c spread.Case) route.Plan {
	p := c.Plan
	spread.HoldCharges(&p, new(route.Runner).Run(&c.Plan))
	return p
}
