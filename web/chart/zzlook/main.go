//go:build js && wasm

package main

import (
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/chart"
	"rosesalt/web/link"
)

func main() {
	app.RouteWithRegexpFunc(".*", func() app.Composer { return &look{} })
	app.RunWhenOnBrowser()
}

type look struct {
	app.Compo
	pics []chart.Picture
	said string
	n    int
}

func (l *look) OnInit() {
	l.make(0)
}

func (l *look) make(more float64) {
	f := strings.TrimPrefix(app.Window().Get("location").Get("hash").String(), "#")
	c, _ := link.Decode(f)
	plan := c.Plan
	plan.Rows[0].Count += more
	var b route.Bench
	b.Keep = true
	b.Run(&plan)
	l.pics = []chart.Picture{
		chart.Chloride(&plan), chart.Acid(&plan), chart.Solubility(&plan), sweep(plan), chart.Flows(&b),
	}
	w := chart.ByCells(6, nil, true)
	w.Tries = nil
	l.pics = append(l.pics, chart.Swept(w))
	old := l.pics[3]
	old.Waiting = true
	l.pics = append(l.pics, old)
}

func sweep(plan route.Plan) chart.Picture {
	s := chart.ByCells(plan.Rows[0].Count, nil, false)
	var b route.Bench
	own := plan.Rows[0].Count
	for n := 1.0; n <= 2*own+2; n++ {
		plan.Rows[0].Count = n
		sheet := b.Run(&plan)
		v := sheet.Value(route.ProductMass)
		s.Tries = append(s.Tries, chart.Try{X: n, Best: v, Low: .6 * v, High: 1.4 * v, OK: sheet.Reason(route.ProductMass) == 0, Sure: true, Limit: sheet.Word(route.GasLimit)})
	}
	return chart.Swept(s)
}

func (l *look) OnMount(ctx app.Context) {
	ctx.Handle(chart.SaveAction, func(_ app.Context, a app.Action) {
		s := a.Value.(chart.Saved)
		app.Window().Set("saved", s.Name+"\n"+s.Text)
	})
	app.Window().Set("remake", app.FuncOf(func(app.Value, []app.Value) any {
		ctx.Dispatch(func(ctx app.Context) {
			begin := time.Now()
			l.n++
			l.make(float64(l.n))
			made := time.Since(begin)
			l.said = made.String()
			app.Window().Set("tmade", made.Seconds()*1000)
			ctx.Defer(func(app.Context) { app.Window().Set("tdraw", time.Since(drawAt).Seconds()*1000) })
		})
		return nil
	}))
	app.Window().Get("document").Get("documentElement").Call("setAttribute", "data-ready", "")
}

var drawAt time.Time

func (l *look) Render() app.UI {
	drawAt = time.Now()
	return app.Div().Class("page").Body(app.Main().Body(
		app.Section().Body(app.Div().Class("spine"), app.Div().Class("body").Body(
			app.H2().Text("Pictures"),
			app.Range(l.pics).Slice(func(i int) app.UI { return &chart.Figure{Picture: l.pics[i]} }),
			app.P().Text(l.said),
		)),
	))
}
