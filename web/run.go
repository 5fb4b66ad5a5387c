package web

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/atbench"
	"rosesalt/web/browser"
	"rosesalt/web/section"
	"rosesalt/web/tabs"
)

func (p *page) onStart(ctx app.Context, _ app.Action) {
	was := p.state()
	if !p.desk.StartRun() {
		p.copied = "Mend the marked fields first: a run is started from a plan that can be worked out."
		focusBad(ctx)
		return
	}
	p.tookStart(&was) // which lets a pinned plan go
	p.pushed = false  // Back returns to the plan
	p.changed(ctx)
	if p.bench.Open {
		p.bench.Began = atbench.StepOf(p.desk, &p.bench).ID
		ctx.Defer(func(app.Context) { focusFirst(".bench-measure input") })
	} else {
		browser.FocusAfter(ctx, p, "said")
	}
	p.copied = "The run is started, and the plan fixed. Back in the browser returns to planning."
}

// tookStart lets Undo take the start of a run back, and that alone: what was typed since stays.
func (p *page) tookStart(was *tabs.State) {
	const what = "Start this run"
	p.took(was, what)
	p.last.undo.do = func(ctx app.Context) {
		if p.desk.Started() == nil { // by other ways
			p.last.undo = undo{}
			return
		}
		now := p.state()
		p.leave()
		p.desk.TakeBackStart(&was.Draft)
		p.took(&now, "bring it back")
		p.opened, p.pushed = true, false
		p.changed(ctx)
		p.copied = "The run is not started. What was typed since stands in its fields."
	}
}

// onToPlanning drops the run.
func (p *page) onToPlanning(ctx app.Context, _ app.Action) {
	was := p.state()
	p.leave()
	p.desk.DropRun()
	p.took(&was, "Back to planning")
	p.opened, p.pushed = true, false
	browser.FocusLater(ctx, "said")
	p.changed(ctx)
	p.copied = "Back to planning, with what was weighed before the run."
}

func (p *page) onDone(ctx app.Context, a app.Action) {
	stage, ok := stageOf(a)
	switch {
	case !ok:
	case !p.desk.StageDone(stage):
		focusBad(ctx)
		p.changed(ctx)
		p.copied = "Mend the marked fields first: what cannot be read is not kept as taken."
	default:
		p.opened = true
		browser.FocusLater(ctx, "open."+section.StageID(stage))
		p.changed(ctx)
	}
}

func (p *page) onReopen(ctx app.Context, a app.Action) {
	if stage, ok := stageOf(a); ok {
		p.desk.Reopen(stage)
		browser.FocusLater(ctx, "done."+section.StageID(stage))
		p.changed(ctx)
	}
}

// stageOf is the stage whose number an action carries.
func stageOf(a app.Action) (route.Stage, bool) {
	text, _ := a.Value.(string)
	n, err := strconv.Atoi(text)
	return route.Stage(n), err == nil && n >= 0 && n < route.Stages
}

// focusBad puts the focus on the first field that cannot be used.
func focusBad(ctx app.Context) {
	ctx.Defer(func(app.Context) { focusFirst(".bad input") })
}

// focusFirst puts the focus on the first element that a selector finds, if there is one.
func focusFirst(selector string) {
	if e := app.Window().Get("document").Call("querySelector", selector); e.Truthy() {
		e.Call("focus")
	}
}
