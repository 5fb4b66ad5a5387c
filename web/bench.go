package web

import (
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
)

// offerBench lets the benchmark ask how many plans a second this browser
// computes; nothing on the page uses it.
func offerBench() {
	app.Window().Set("rosesaltBench", app.FuncOf(func(app.Value, []app.Value) any {
		bench, plan := new(route.Bench), route.NewPlan()
		const rounds = 4096
		start := time.Now()
		for i := range rounds {
			plan.Rows[0].Count = float64(1 + i%50)
			bench.Run(&plan)
		}
		return rounds / time.Since(start).Seconds()
	}))
}
