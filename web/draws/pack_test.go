package draws

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type packed struct {
	Yes   bool
	Small uint8
	Whole int
	Line  []int32
	Real  float64
	Reals []float64
	Grid  [2][3]float64
	Words []string
	Many  []struct{ Key string }
	At    *int
}

func TestPackedIsUnpacked(t *testing.T) {
	at := 3
	for _, v := range []packed{
		{},
		{
			Yes: true, Small: 200, Whole: -5, Line: []int32{-1, math.MaxInt32}, Real: math.Inf(-1), Reals: []float64{0.1, math.Copysign(0, -1), math.MaxFloat64},
			Grid: [2][3]float64{{1, 2, 3}, {4, 5, 6}}, Words: []string{"", "±é\x00"}, Many: []struct{ Key string }{{"a"}, {"b"}}, At: &at,
		},
	} {
		b := pack(v)
		var got packed
		require.NoError(t, unpack(b, &got))
		v.At = nil
		assert.Equal(t, v, got)
		for n := range b {
			var part packed
			assert.ErrorIs(t, unpack(b[:n], &part), errShort, n)
		}
		assert.ErrorIs(t, unpack(append(b, 0), &got), errShort)
	}
	odd := math.Float64frombits(0x7ff8000000000123)
	var got float64
	require.NoError(t, unpack(pack(odd), &got))
	assert.Equal(t, math.Float64bits(odd), math.Float64bits(got), "not-a-number stays to the bit")
	assert.Panics(t, func() { pack(map[string]int{}) })
}
