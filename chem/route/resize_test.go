package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/field"
)

// TestTheWaterLeftGoesWithTheSize: a plan with its water in the dish given as a number gives salt
// in proportion at another share and count, and the change says so; a blank stays blank.
func TestTheWaterLeftGoesWithTheSize(t *testing.T) {
	var b Runner
	p := NewPlan()
	p.DryWay, p.CropCold = ToCrystals, grownHot
	set := []field.Change{{Key: "batch.share", Text: "5"}}
	_, all, ok := b.Resized(&p, set)
	require.True(t, ok)
	assert.Equal(t, set, all, "what is blank follows by itself")

	p.CropWater = 50
	jar := func(p *Plan) float64 { return b.Run(p).Value(ProductMass) }
	before := jar(&p)
	require.Positive(t, before)
	q, all, ok := b.Resized(&p, set)
	require.True(t, ok)
	assert.Equal(t, append(set, field.Change{Key: "crop.water", Text: "10"}), all)
	assert.InDelta(t, before/5, jar(&q), before/500)
	typed, ok := p.With(all)
	require.True(t, ok)
	assert.Equal(t, jar(&q), jar(&typed))
	plain, _ := p.With(set)
	assert.Zero(t, jar(&plain), "as a number it leaves all of the salt in solution")

	q, _, ok = b.Resized(&p, []field.Change{{Key: "cell.count", Text: "12"}, {Key: "cell.rejects", Text: "0"}})
	require.True(t, ok)
	assert.InEpsilon(t, 50*b.Run(&q).Value(BatchManganese)/b.Run(&p).Value(BatchManganese), float64(q.CropWater), 1e-2)
	_, _, ok = b.Resized(&p, []field.Change{{Key: "batch.share", Text: "500"}})
	assert.False(t, ok)
	p.DryWay = ToDryness
	q, all, _ = b.Resized(&p, set)
	assert.Equal(t, set, all, "nothing is grown")
	assert.Equal(t, p.CropWater, q.CropWater)
}
