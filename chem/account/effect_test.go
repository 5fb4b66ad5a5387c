package account

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// TestEffectMendsOneThing: where nobody said whether dilute acid was poured in, and little salt
// says that none was, what gas taken up better would have brought is still told without acid.
func TestEffectMendsOneThing(t *testing.T) {
	c, r := firstRun(t)
	c.Plan.SlurryAcid = quantity.Millilitre(quantity.Blank)
	p := quickly(c, r)
	require.Equal(t, GasLost, p.Ranked()[0])
	require.Greater(t, p.noneOf[GasLost], 0.9)
	c.Plan.SlurryAcid = 0
	m := newModel(c, r)
	none := m.best.Value(route.ProductMass)
	gain, _ := p.effect(GasLost)
	assert.Less(t, r.Product+gain, 1.5*none, "half as much again is what other estimates may give")
	with, _ := p.effect(NoAcid)
	assert.Positive(t, with)
}
