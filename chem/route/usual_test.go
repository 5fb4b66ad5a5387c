package route_test

import (
	"math/rand/v2"
	"testing"

	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/scripts/long"
)

// TestNoTwoNoticesContradictInUsualPlans: around what is usual other pairs meet than in
// plans drawn over all limits.
func TestNoTwoNoticesContradictInUsualPlans(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 7))
	var b route.Runner
	for i := range long.Of(1000, 5000, 60000) {
		p := routetest.Way(r, i)
		switch i % 7 { // seldom drawn, since they are not used by default
		case 0:
			p.WashAcid = 400
		case 1:
			p.IronWay = route.IronThrownDown
		}
		if two := route.Oppose(route.Notices(&p, b.Run(&p))); two != "" {
			t.Errorf("plan %d: %s", i, two)
		}
	}
}
