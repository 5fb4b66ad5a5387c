package account

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/scripts/long"
)

// TestNextRunMakesHardlyMoreGas: whatever went wrong in a run, and however much of its gas was
// lost, no plan of a next run makes far more gas for it, nor charges for more.
func TestNextRunMakesHardlyMoreGas(t *testing.T) {
	type run struct {
		name string
		c    spread.Case
		r    Record
	}
	little := NewRecord()
	little.Product, little.Copper = 12, 60
	less := NewRecord()
	less.Product, less.Copper, less.Residue = 26, 44, 14
	list := []run{{"little salt for much gas", demo(), little}, {"half of the salt", demo(), less}}
	g := generator(0x6e657874)
	m := newModel(demo(), NewRecord())
	for cause := range Cause(Causes) {
		if !m.may(cause) {
			continue
		}
		for range long.Of(1, 2, 8) {
			now, ok := simulate(m, cause, &g, product, crystals, residue)
			require.True(t, ok)
			list = append(list, run{cause.Key(), demo(), now.record})
		}
	}
	told := false
	for _, of := range list {
		p := quickly(of.c, of.r)
		require.True(t, p.OK(), of.name)
		next, changes := NextInto(p, p.m.c.Plan, p.Learned())
		before, after := of.c.Planned(), next.Planned()
		was, now := new(route.Runner).Run(&before), new(route.Runner).Run(&after)
		for _, id := range []route.FigureID{route.GasMade, route.GasAcidUsed, route.ReductantOf(&before).Used} {
			assert.LessOrEqual(t, now.Value(id), 1.3*was.Value(id), "%s: %s", of.name, id.Info().Key)
		}
		for _, c := range changes {
			if c.Key == "gas.uptake" && quantity.Given(c.Was) && c.Was == c.Now {
				told = true
				assert.Contains(t, c.Sentence, "the next plan does not make more gas for that")
			}
		}
	}
	assert.True(t, told)
}
