package spread

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/route"
	"rosesalt/scripts/long"
)

// TestTheValueStandsInItsInterval: over random plans of every way, of all figures with a
// spread nearly always, and of the main ones in the inner part of their draws eight times in
// ten, or seven of the few plans of a short run.
func TestTheValueStandsInItsInterval(t *testing.T) {
	plans, least := long.Of(50, 500, 2000), long.Of(0.7, 0.8, 0.8)
	main := []route.FigureID{route.ProductMass, route.GasMade, route.CopperCrop, route.ProductPurity, route.DemandGas}
	random := rand.New(rand.NewPCG(15, 85))
	r := Start(Case{Plan: route.NewPlan()}, long.Of(256, 512, 512))
	inside, all := 0, 0
	out := map[string]int{}
	inner, of := make([]int, len(main)), make([]int, len(main))
	for k := range plans {
		p := anyPlan(t, random)
		if k%2 == 0 { // the others make gas
			p.GasSource = route.Choice(random.IntN(int(route.ByOxalic) + 1))
			p.DryWay = route.Choice(random.IntN(2))
		}
		r.Restart(Case{Plan: p})
		r.Finish()
		for i := range route.Figures() {
			id := route.FigureID(i)
			low, high, ok := r.Band(id)
			best := r.Best().Value(id)
			if !ok || low == high || math.IsNaN(best) {
				continue
			}
			all++
			if slack := 1e-9 * math.Abs(best); low-slack <= best && best <= high+slack {
				inside++
			} else {
				out[id.Info().Key]++
			}
		}
		for i, id := range main {
			q := [2]float64{0.15, 0.85}
			best := r.Best().Value(id)
			if !r.quantiles(id, q[:]) || q[0] == q[1] || math.IsNaN(best) {
				continue
			}
			of[i]++
			if q[0] <= best && best <= q[1] {
				inner[i]++
			}
		}
	}
	t.Logf("%.2f %% of %d figures inside; outside: %v", 100*float64(inside)/float64(all), all, out)
	assert.GreaterOrEqual(t, float64(inside)/float64(all), 0.99)
	for i, id := range main {
		share := float64(inner[i]) / float64(of[i])
		t.Logf("%-16s %.1f %% of %d between the 15th and the 85th of 100", id.Info().Key, 100*share, of[i])
		assert.GreaterOrEqual(t, share, least, id.Info().Key)
	}
}
