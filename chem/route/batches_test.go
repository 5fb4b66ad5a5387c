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
		before := float64(p.GasMinutes) / BatchCount(p)
		m := batchesOf(t, p)
		require.NoError(t, m.Set(p), c.entries)
		assert.Equal(t, m.Value, BatchCount(p))
		after := float64(p.GasMinutes) / BatchCount(p)
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

// TestNoFlaskIsOfferedForMoreAcidThanABenchTakes: more than 300 mL of hot acid in one flask
// are cut into batches, whatever the flask, and after the press nothing is said of it.
func TestNoFlaskIsOfferedForMoreAcidThanABenchTakes(t *testing.T) {
	for _, flask := range []string{"250", "500", "2000", "6000"} {
		for _, share := range []string{"20", "30", "40", "60", "100"} {
			p := planOf(t, "cell.size=R20", "cell.count=12", "slurry.beaker=20000", "batch.share="+share, "gas.flask="+flask)
			s := *new(Runner).Run(p)
			hint := share + " % in " + flask + " mL"
			acid := s.Value(GasAcidUsed)
			for _, v := range Vessels(p, &s) {
				for _, m := range v.Mends() {
					q := *p
					require.NoError(t, m.Set(&q))
					then := new(Runner).Run(&q)
					assert.LessOrEqual(t, then.Value(GasAcidUsed)/BatchCount(&q), 300*(1+1e-9), "%s: %s", hint, m.Text)
				}
			}
			var about []Notice
			for _, n := range Notices(p, &s) {
				if n.Key == "gas.acid" {
					about = append(about, n)
				}
				if n.Key == "batch.vessels" && acid > 300 {
					assert.NotContains(t, n.Text, "or take", hint)
				}
			}
			require.Equal(t, acid > 300, len(about) == 1, hint)
			if acid <= 300 {
				continue
			}
			require.Len(t, about[0].Mends, 1, hint)
			assert.Contains(t, about[0].Text, "bench like this. "+about[0].Mends[0].Text+".", hint)
			require.NoError(t, about[0].Mends[0].Set(p))
			s = *new(Runner).Run(p)
			for _, n := range Notices(p, &s) {
				assert.NotContains(t, []string{"gas.acid", "vessel.charge", "batch.vessels"}, n.Key, hint)
			}
		}
	}
	// Where the batches would be too many, a smaller share is what is left.
	p := planOf(t, "gas.acid=4000", "gas.flask=20000")
	for _, n := range Notices(p, new(Runner).Run(p)) {
		if n.Key == "gas.acid" {
			assert.Empty(t, n.Mends)
			assert.Contains(t, n.Text, "Work a smaller share of the oxide.")
		}
	}
}
