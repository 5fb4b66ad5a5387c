package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/atbench"
	"rosesalt/web/browser"
	"rosesalt/web/bubbles"
	"rosesalt/web/section"
)

func (p *page) onBench(ctx app.Context, _ app.Event) {
	p.bench.Open = true
	p.bench.Scroll = app.Window().Get("scrollY").Float()
	p.bench.Keep()
	toTop(ctx, 0)
}

func (p *page) onBenchMove(ctx app.Context, a app.Action) {
	move, ok := a.Value.(atbench.Move)
	if !ok || !p.bench.Open {
		return
	}
	if move.Leave {
		p.bench.Open = false
		p.bench.Keep()
		toTop(ctx, p.bench.Scroll)
		browser.FocusStill(ctx, "bench.open")
		return
	}
	if p.bench.Go(p.desk, move.By) {
		toTop(ctx, 0)
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
	v := &atbench.View{At: atbench.StepOf(p.desk, &p.bench), Taps: &p.taps}
	if v.At.Key == section.GasStep && route.Gaseous(p.desk.Plan()) {
		v.Gas, v.Gauge = true, bubbles.GaugeOf(p.desk)
	}
	return v
}
