package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

// runState is how a stage stands in a run.
type runState uint8

const (
	planning runState = iota // no run is under way
	ahead
	behind // done
)

func runStateOf(d *desk.Desk, stage route.Stage) runState {
	switch {
	case d.Started() == nil:
		return planning
	case stage < d.Started().Done:
		return behind
	}
	return ahead
}

// runAction goes to the page with what to do about the run.
const runAction = "run"

type runStep struct {
	Stage route.Stage
	Open  bool // open it again; else it is done
	Drop  bool // back to planning
}

// done ends a stage of the run, or opens it again.
func (s *stageSection) done() app.UI {
	switch s.View.Run {
	case ahead:
		return app.Elem("p").Class("step-done").Body(
			app.Elem("button").Attr("type", "button").Class("do").ID("done." + s.View.ID).Text(s.View.Title + " done: keep these amounts").OnClick(s.onDone),
		)
	case behind:
		return app.Elem("p").Class("step-done").Body(
			app.Elem("b").Text("Done. "), app.Text("The amounts are kept as they stand. "),
			app.Elem("button").Attr("type", "button").Class("plain").ID("open."+s.View.ID).Text("Open "+s.View.Title+" again").OnClick(s.onReopen),
		)
	}
	return nil
}

func (s *stageSection) onDone(ctx app.Context, _ app.Event) {
	ctx.NewActionWithValue(runAction, runStep{Stage: s.View.Stage})
}

func (s *stageSection) onReopen(ctx app.Context, _ app.Event) {
	ctx.NewActionWithValue(runAction, runStep{Stage: s.View.Stage, Open: true})
}

// runBarView tells that a run is under way.
type runBarView struct {
	On   bool
	Done string // the stages that are done
	Next string // the stage that is next
}

func runBarOf(d *desk.Desk) runBarView {
	r := d.Started()
	if r == nil {
		return runBarView{}
	}
	v := runBarView{On: true}
	for stage := range r.Done {
		if v.Done != "" {
			v.Done += ", "
		}
		v.Done += stageTitle[stage].Title
	}
	if r.Done < route.Stages {
		v.Next = stageTitle[r.Done].Title
	}
	return v
}

// runBar stands above the strip while a run is under way.
type runBar struct {
	app.Compo
	View runBarView
}

func (b *runBar) Render() app.UI {
	v := b.View
	if !v.On {
		return app.Elem("div").Class("run none")
	}
	state := "Nothing is marked done yet."
	switch {
	case v.Next == "":
		state = "All stages are done: weigh, and go to “" + afterTitle + "”."
	case v.Done != "":
		state = "Done: " + v.Done + ". Next: " + v.Next + "."
	}
	return app.Elem("div").Class("run").Role("region").Aria("label", "The run").Body(
		app.Elem("p").Body(
			app.Elem("b").Text("A run is under way. "),
			app.Text("The plan is fixed. Beside each planned amount type what you really took, and mark a stage done when it is; only what is still ahead is worked out anew. "+state),
		),
		button("Back to planning", b.onDrop),
	)
}

func (b *runBar) onDrop(ctx app.Context, _ app.Event) {
	ctx.NewActionWithValue(runAction, runStep{Drop: true})
}

func (p *page) onStart(ctx app.Context, _ app.Event) {
	was := p.state()
	if !p.desk.StartRun() {
		p.copied = "Mend the marked fields first: a run is started from a plan that can be worked out."
		focusBad(ctx)
		return
	}
	p.took(&was, "Start this run") // which lets a pinned plan go
	p.pushed = false               // Back returns to the plan
	p.changed(ctx)
	focusAfter(ctx, p, "said")
	p.copied = "The run is started, and the plan fixed. Back in the browser returns to planning."
}

func (p *page) onRun(ctx app.Context, a app.Action) {
	step, ok := a.Value.(runStep)
	if !ok {
		return
	}
	said := ""
	switch {
	case step.Drop:
		was := p.state()
		p.leave()
		p.desk.DropRun()
		p.took(&was, "Back to planning")
		p.opened, p.pushed = true, false
		focusLater(ctx, "said")
		said = "Back to planning, with what was weighed before the run."
	case step.Open:
		p.desk.Reopen(step.Stage)
		focusLater(ctx, "done."+stageID(step.Stage))
	case !p.desk.StageDone(step.Stage):
		said = "Mend the marked fields first: what cannot be read is not kept as taken."
		focusBad(ctx)
	default:
		p.opened = true
		focusLater(ctx, "open."+stageID(step.Stage))
	}
	p.changed(ctx)
	p.copied = said
}

// focusBad puts the focus on the first field that cannot be used.
func focusBad(ctx app.Context) {
	ctx.Defer(func(app.Context) {
		if e := app.Window().Get("document").Call("querySelector", ".bad input"); e.Truthy() {
			e.Call("focus")
		}
	})
}
