package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
)

// TestAlongWashesIsWashLast: each value is the figure of the plan with so many washes, and
// the first clear one is wash.enough.
func TestAlongWashesIsWashLast(t *testing.T) {
	p := planOf(t, "wash.acid=100")
	w := AlongWashes(p)
	var b Runner
	assert.Equal(t, b.Run(p).Value(WashLast), w.Rinsed)
	q := *p
	q.WashAcid = 0
	for n, v := range w.After {
		q.WashTimes = float64(n)
		assert.Equal(t, b.Run(&q).Value(WashLast), v, n)
	}
	assert.Equal(t, int(b.Run(&q).Value(WashEnough)), w.Clear)
	assert.Len(t, w.After, w.Clear+2, "one beyond the clear one")
	assert.Less(t, p.WashTimes, float64(w.Clear))

	many := AlongWashes(planOf(t, "wash.times=20"))
	assert.Len(t, many.After, 22, "one beyond the plan's own")
	assert.False(t, quantity.Given(many.Rinsed))
	never := AlongWashes(planOf(t, "wash.each=20"))
	assert.Equal(t, -1, never.Clear)
	assert.Len(t, never.After, 13)
	dry := AlongWashes(planOf(t, "wash.soak=0", "wash.each=0"))
	assert.False(t, quantity.Given(dry.After[0]), "nothing drains")
}

// TestAlongCopperIsThePlans: from the acid as bought to where the gas fades, and the
// plan's own stop on the way.
func TestAlongCopperIsThePlans(t *testing.T) {
	p := planOf(t, "gas.acid=30", "gas.copper=9")
	d := AlongCopper(p)
	s := new(Runner).Run(p)
	assert.Equal(t, Dissolved{s.Value(GasCopperUsed), s.Value(GasStrengthEnd), s.Value(GasVolume)}, d.Own)
	assert.Zero(t, d.Left)
	require.Len(t, d.Steps, dissolvingSteps+1)
	assert.Equal(t, Dissolved{Strength: float64(p.GasStrength)}, d.Steps[0])
	last := d.Steps[dissolvingSteps]
	assert.InDelta(t, 100*boilsAt(p.GasHot), last.Strength, 1e-6)
	assert.InDelta(t, last.Strength, d.Fades, 1e-9)
	for i := 1; i <= dissolvingSteps; i++ {
		assert.InDelta(t, last.Copper/dissolvingSteps, d.Steps[i].Copper-d.Steps[i-1].Copper, 1e-6)
		if d.Steps[i-1].Strength > last.Strength+1e-6 {
			assert.Less(t, d.Steps[i].Strength, d.Steps[i-1].Strength, "weaker until it boils")
		} else {
			assert.InDelta(t, last.Strength, d.Steps[i].Strength, 1e-6, "then no more")
		}
		assert.InDelta(t, d.Own.Gas/d.Own.Copper, d.Steps[i].Gas/d.Steps[i].Copper, 1e-6, "the same gas from each gram")
	}

	d = AlongCopper(planOf(t, "gas.acid=30", "gas.copper=500"))
	assert.InDelta(t, last.Copper, d.Own.Copper, 1e-6)
	assert.InDelta(t, 500-last.Copper, d.Left, 1e-6)
	assert.False(t, quantity.Given(d.Enough))
	d = AlongCopper(planOf(t, "gas.acid=200", "gas.copper=78"))
	assert.Equal(t, new(Runner).Run(planOf(t, "gas.acid=200", "gas.copper=78")).Value(MetShare)/100, d.Enough)
	assert.Nil(t, AlongCopper(planOf(t, "gas.source=metabisulfite")))
}
