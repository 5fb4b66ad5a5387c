package account

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/long"
)

// nothingElse is the second thing that went wrong where none did.
var nothingElse = plant{cause: AsPlanned}

// TestBestPossible: how often anything could name the planted cause: the likeliest by the very
// file of plants, with very many plain draws of each. What is said of dilute acid and of dark
// copper gives those two away. Whoever knows that something went wrong could be right in 88 of
// 100 with salt, crystals and residue, and in 67 with salt and crystals. It guards
// TestPlantedCauses against asking for more than can be, and against an account that knows more
// than it may.
func TestBestPossible(t *testing.T) {
	long.Only(t, "it tells of the plants, which do not change, not of the account")
	list := plants(t)
	const draws, runs = 20000, 400
	sown := make([][][measurements]float64, len(list))
	for i, p := range list {
		g := generator(99 + i)
		for m := ground(demo(), p, nothingElse); len(sown[i]) < draws; {
			if found, ok := m.sow(p, nothingElse, nil, &g); ok {
				sown[i] = append(sown[i], found)
			}
		}
	}
	for _, c := range []struct {
		name     string
		named    float64 // by the account, see TestPlantedCauses
		best     float64
		measured []measurement
	}{
		{"careful", namedByThree, 0.88, []measurement{product, crystals, residue}},
		{"two", namedByTwo, 0.67, []measurement{product, crystals}},
	} {
		t.Run(c.name, func(t *testing.T) {
			best := 0.0
			for i := range runs {
				g := generator(0x706c616e746564 + uint64(i)*7919)
				p := pick(list, &g)
				r, ok := grow(demo(), p, &g, c.measured...)
				for !ok {
					r, ok = grow(demo(), p, &g, c.measured...)
				}
				var by [Causes]float64
				for k, q := range list {
					if r.OxideOnCopper != (q.cause == DarkCopper) || (r.Acid == 0) != (q.cause == NoAcid) {
						continue // it was said
					}
					for _, found := range sown[k] {
						z := 0.0
						for _, f := range c.measured {
							if d := 2 * (r.at(f) - found[f]) / r.half(f); z < 60 {
								z += float64(d * d)
							}
						}
						by[q.cause] += q.weight * math.Exp(-z/2)
					}
				}
				likeliest := AsPlanned
				for cause := range Cause(Causes) {
					if by[cause] > by[likeliest] {
						likeliest = cause
					}
				}
				if likeliest == p.cause {
					best += 1. / runs
				}
			}
			t.Logf("named first at best: %.3f", best)
			assert.InDelta(t, c.best, best, 0.05)
			assert.Less(t, c.named, best+0.03, "the account may not know more than there is to know")
		})
	}
}
