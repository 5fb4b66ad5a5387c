package account

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/scripts/long"
)

// TestToldAlikeMultiply: the closed form. Normal likelihoods of one width, multiplied, are
// narrower by the root of their number, and a little wider for being known roughly; far narrower than the usual estimate they alone
// count. 1.2816 standard deviations to either side hold eight in ten.
func TestToldAlikeMultiply(t *testing.T) {
	const at, sd = 75.0, 12.0
	list := make([]int, Places)
	for i := range list {
		z := ((float64(i)+0.5)*100/Places - at) / sd
		list[i] = max(LeastTold, int(math.Round(-100*z*z/2)))
	}
	for _, n := range []int{16, 36, 50} {
		var runs []Told
		for range n {
			runs = append(runs, Told{"gas.uptake": list})
		}
		got := Combine(runs...)
		require.Len(t, got, 1)
		wide := 2 * 1.2816 * sd / math.Sqrt(float64(n)/(1+roughly))
		assert.InDelta(t, wide, got[0].High-got[0].Low, 0.15*wide, "%d runs", n)
		assert.InDelta(t, at, got[0].Median, 1.5, "%d runs", n)
	}
}

// TestFlatTellsNothing: a run that tells nothing leaves the usual estimate, and changes no
// other run's word.
func TestFlatTellsNothing(t *testing.T) {
	flat := Told{"gas.uptake": make([]int, Places), "cell.charge": make([]int, Places)}
	usual := Combine(flat)
	require.Len(t, usual, 2)
	c, _ := plain()
	for _, u := range spread.Uncertains(&c) {
		for _, l := range usual {
			if l.Input.Key == u.Input.Key {
				assert.InDelta(t, u.At(0.5), l.Median, 3, u.Input.Key)
			}
		}
	}
	sharp := Told{"gas.uptake": append(make([]int, 0, Places), flat["gas.uptake"]...)}
	for i := range Places {
		if i < 30 {
			sharp["gas.uptake"][i] = -300
		}
	}
	assert.Equal(t, Combine(sharp), Combine(sharp, flat)[:1])
}

// TestLearnedStartTellsTheSame: a run weighed from a plan that had learned already says
// what its own weighings say; were it to say what the account ended with, what was
// learned before would count twice.
func TestLearnedStartTellsTheSame(t *testing.T) {
	c, r := plain()
	r.Acid = new(route.Runner).Run(&c.Plan).Value(route.SlurryAcidUsed) // else none may have gone in, with much gas taken up
	first := quickly(c, r)
	next := put(c, first.Learned())
	require.Contains(t, next.Given, "gas.uptake")
	// The chemist goes on as before, so that both accounts tell of one run.
	again := c
	again.Given = map[string]spread.Interval{"gas.uptake": {Low: 15, High: 95}}
	wide := Combine(first.Told())[0]
	alike := Combine(quickly(again, r).Told())[0]
	assert.InDelta(t, wide.Median, alike.Median, long.Of(0.4, 0.25, 0.25)*(wide.High-wide.Low))
	// Learned from itself, the account is narrower, its word is not.
	narrow := quickly(next, r)
	after, _ := narrow.Input("gas.uptake")
	told := Combine(narrow.Told())[0]
	assert.Less(t, after.High-after.Low, told.High-told.Low)
}

func TestToldIsChecked(t *testing.T) {
	list := make([]int, Places)
	require.NoError(t, Told{"gas.uptake": list}.Check())
	assert.ErrorContains(t, Told{"dry.energy": list}.Check(), "not shared")
	assert.ErrorContains(t, Told{"gas.uptake": list[1:]}.Check(), "49 places")
	assert.ErrorContains(t, Told{"gas.uptake": append([]int{1}, list[1:]...)}.Check(), "holds 1")
	assert.ErrorContains(t, Told{"gas.uptake": append([]int{LeastTold - 1}, list[1:]...)}.Check(), "-701")
}
