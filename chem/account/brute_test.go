package account

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/long"
)

// brute is how likely it is by plain draws, so many of each cause, that nothing went wrong, the
// shares of the causes if something did, and the effective number of draws that these rest on. It
// asks the account for nothing but the weight of a point.
func brute(t testing.TB, p *Posterior, draws int) (planned float64, shares [Causes]float64, size float64) {
	t.Helper()
	g := generator(0x6272757465)
	u := make([]float64, p.m.dim())
	p.tries = 1 // what the draws as planned would have found is not kept
	sum, squares := 0.0, 0.0
	for c, prior := range p.priors {
		for range draws {
			for k := range u {
				u[k] = g.unit()
			}
			if prior == 0 {
				break
			}
			if log, allowed := p.weigh(c, u); allowed {
				w := prior * math.Exp(log)
				if Cause(c) == AsPlanned {
					planned += w
					continue
				}
				shares[c] += w
				sum, squares = sum+w, squares+float64(w*w)
			}
		}
	}
	require.Positive(t, sum)
	for c := range shares {
		shares[c] /= sum
	}
	return planned / (planned + sum), shares, sum * sum / squares
}

// TestSharesByBruteForce: what is found by moving few points in steps is what very many plain
// draws give. It guards the verdict against chance: half of the sum of what the shares differ
// by. Two weighings leave two causes open in the first run, three leave five in the second, of
// which a short run makes too few draws.
func TestSharesByBruteForce(t *testing.T) {
	first, little := firstRun(t)
	many, record := plain()
	for _, c := range []struct {
		name string
		p    *Posterior
		most float64
	}{{"two open", Start(first, little), 0.10}, {"five open", Start(many, record), 0.20}}[:long.Of(1, 2, 2)] {
		t.Run(c.name, func(t *testing.T) {
			planned, is, size := brute(t, c.p, long.Of(12000, 12000, 60000))
			p := Start(c.p.m.c, c.p.m.rec).Finish()
			off := 0.0
			for cause := range Cause(Causes) {
				t.Logf("%-8s %.3f by brute force, %.3f", cause.Key(), is[cause], p.shares[cause])
				off += math.Abs(is[cause]-p.shares[cause]) / 2
			}
			t.Logf("as planned %.3f by brute force, %.3f", planned, p.planned)
			assert.InDelta(t, planned, p.planned, c.most/2+0.5/math.Sqrt(size))
			t.Logf("off by %.3f; brute force rests on %.0f draws", off, size)
			assert.Less(t, off, c.most+0.5/math.Sqrt(size))
		})
	}
}
