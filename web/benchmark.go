//go:build js && benchmark

package web

import (
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/browser"
	"rosesalt/web/desk"
	"rosesalt/web/runs"
	"rosesalt/web/section"
)

// Functions of the window that scripts/bench calls in a page built with the tag
// "benchmark". The shipped page has none of them.
func init() {
	// How many plans a second.
	app.Window().Set("rosesaltPlans", app.FuncOf(func(app.Value, []app.Value) any {
		runner, plan := new(route.Runner), route.NewPlan()
		const rounds = 4096
		start := time.Now()
		for i := range rounds {
			plan.Rows[0].Count = float64(1 + i%50)
			runner.Run(&plan)
		}
		return rounds / time.Since(start).Seconds()
	}))
	// How many runs are kept, the milliseconds to load them, work out their rows and combine
	// them, and those of one plain pass of the draws.
	app.Window().Set("rosesaltKeptRuns", app.FuncOf(func(app.Value, []app.Value) any {
		start := time.Now()
		k := section.Kept{Counted: map[string]bool{}, Store: runs.Open(browser.Local)}
		list := k.Store.Book().List()
		for _, s := range list {
			k.Counted[s.ID] = true
		}
		section.Parts[section.Index(section.KeptTitle)].Of(&section.Source{Desk: desk.New(""), Kept: &k})
		all := time.Since(start)
		start = time.Now()
		spread.Start(spread.Case{Plan: route.NewPlan()}, desk.Draws).Finish()
		pass := time.Since(start)
		_, told, _ := k.Together()
		return []any{told, all.Seconds() * 1000, pass.Seconds() * 1000}
	}))
}
