package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// batchesOf is the change of a plan that works it in equal batches.
func batchesOf(t *testing.T, p *Plan) Mend {
	t.Helper()
	for _, v := range Vessels(p, new(Runner).Run(p)) {
		for _, m := range v.Mends() {
			if m.Key == "batch.runs" {
				return m
			}
		}
	}
	require.Fail(t, "no batches")
	return Mend{}
}

// TestEachOfMoreBatchesHasTheTimeThatOneHad: all batches share the time of the gas, so more
// of them want more of it.
func TestEachOfMoreBatchesHasTheTimeThatOneHad(t *testing.T) {
	large := []string{"cell.size=R20", "cell.count=12"}
	for _, c := range []struct {
		entries []string
		each    string
		longest bool
	}{
		{with(large, "batch.share=50"), "90\u202fmin", false},
		{with(large, "batch.share=25", "gas.minutes=40"), "40\u202fmin", false},
		{with(large, "batch.share=50", "batch.runs=2", "gas.minutes=180"), "90\u202fmin", false},
		{with(large, "batch.share=50", "gas.minutes=300"), "", true},
		{with(large, "batch.share=50", "gas.source=metabisulfite", "gas.flask=1000"), "90\u202fmin", false},
	} {
		p := planOf(t, c.entries...)
		before := float64(p.GasMinutes) / Runs(p)
		m := batchesOf(t, p)
		require.NoError(t, m.Set(p), c.entries)
		assert.Equal(t, m.Value, Runs(p))
		after := float64(p.GasMinutes) / Runs(p)
		if c.longest {
			assert.InDelta(t, 1000, float64(p.GasMinutes), 1e-9, "the longest time that a plan takes")
			assert.Contains(t, m.Text, Print(after, "min")+" of gas for each (the longest: a plan takes 1000\u202fmin in all)")
			continue
		}
		assert.InDelta(t, before, after, 1e-9, c.entries)
		assert.Contains(t, m.Text, ", "+c.each+" of gas for each")
		assert.Contains(t, m.Done, ", "+c.each+" of gas for each")
	}
	// Without gas there is none to share out.
	m := batchesOf(t, planOf(t, with(large, "batch.share=25", "gas.source=peroxide")...))
	assert.Zero(t, m.Minutes)
	assert.NotContains(t, m.Text, "gas")
}
