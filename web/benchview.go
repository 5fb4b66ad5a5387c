package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/gaslog"
	"rosesalt/web/atbench"
	"rosesalt/web/browser"
	"rosesalt/web/bubbles"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

func (p *page) onBenchMove(ctx app.Context, a app.Action) {
	move, ok := a.Value.(atbench.Move)
	if !ok || !p.bench.Open {
		return
	}
	if move.Leave {
		p.goTo(ctx, p.at.before)
		browser.FocusStill(ctx, "go."+section.Bench.Word())
		return
	}
	if p.bench.Go(p.desk, move.By) {
		toTop(ctx, 0)
		ctx.Defer(func(app.Context) { p.fill() })
	}
}

// toTop scrolls once the page is drawn.
func toTop(ctx app.Context, top float64) {
	ctx.Defer(func(app.Context) {
		app.Window().Call("scrollTo", map[string]any{"top": top, "behavior": "instant"})
	})
}

// benchUI is the bench view where it is open; it is not there at all otherwise.
func (p *page) benchUI() app.UI {
	if !p.bench.Open {
		return nil
	}
	v := &atbench.View{At: atbench.StepOf(p.desk, &p.bench), Taps: &p.taps, Wrong: section.Mishaps(p.desk)}
	switch v.At.ID {
	case section.ReadyStep:
		v.PutOut = section.PutOut(p.source())
	case p.bench.Began:
		if p.desk.Started() != nil && p.last.undo.do != nil {
			v.Undo = doc.Nodes{
				doc.PText("soft", "The run is started, and the plan fixed."),
				doc.Button{ID: "bench.undo", Class: "bench-plain", Text: p.last.undo.label, Action: undoAction},
			}
		}
	}
	if v.At.Key == section.SpotStep {
		v.Spots = section.SpotTests(p.desk)
	}
	if v.At.Key == section.GasStep {
		v.Gas, v.Gauge = true, bubbles.GaugeOf(p.desk)
		for _, m := range v.At.Measure {
			if minute, ok := gaslog.Minute(m.Field); ok && m.Field == gaslog.Key(minute, gaslog.Rate) {
				v.Gauge.Box = bubbles.Box{Key: m.Field, ID: "bench.in." + m.Field, Text: p.desk.Text(m.Field)}
			}
		}
	}
	return v
}
