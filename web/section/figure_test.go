package section

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/chem/spread"
	"rosesalt/scripts/long"
	"rosesalt/web/desk"
	"rosesalt/web/link"
)

// TestFirstIntervalsHardlyMove: of the ends that are printed after the first draws, 99 in
// 100 are at most a step of the last digit from where all draws put them.
func TestFirstIntervalsHardlyMove(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	ends, moved := 0, 0
	rounded := func(d *desk.Desk, id route.FigureID) (r spread.Rounded, shown bool) {
		band, v := d.Band(id), d.Sheet().Value(id)
		factor, _ := route.Scale(v, id.Info().Unit)
		return spread.Round(v*factor, band.Low*factor, band.High*factor), Read(d, id).Range != ""
	}
	for range long.Of(20, 60, 500) {
		c := link.NewContent()
		c.Plan = routetest.Plan(r)
		first := desk.New("")
		first.OpenContent(&c, nil)
		for !first.BandsStand() {
			first.StepBands(desk.FirstDraws)
		}
		require.False(t, first.AllDrawn())
		was := map[route.FigureID]spread.Rounded{}
		for id := range route.FigureID(len(route.Figures())) {
			if r, shown := rounded(first, id); shown && first.Sheet().Reason(id) == route.Defined {
				was[id] = r
			}
		}
		first.StepBands(desk.Draws)
		for id, was := range was {
			is, shown := rounded(first, id)
			step := math.Pow10(-min(was.Decimals, is.Decimals))
			for _, by := range []float64{is.Low - was.Low, is.High - was.High} {
				if ends++; !shown || math.Abs(by) > 1.001*step {
					moved++
				}
			}
		}
	}
	t.Logf("%d of %d ends moved by more than a step", moved, ends)
	require.Positive(t, ends)
	require.Less(t, float64(moved), 0.01*float64(ends))
}
