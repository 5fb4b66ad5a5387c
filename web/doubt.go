package web

import (
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/chart"
	"rosesalt/web/section"
)

// How the doubt is worked out beside typing: a few draws at a time, and between
// them the browser has its turn; a newer change drops older work.
const (
	bandDraws  = 512                    // a step, a few milliseconds
	breath     = time.Millisecond       // between steps
	restPause  = 200 * time.Millisecond // typing must rest so long before the rest is begun
	redrawEach = 6                      // steps of the rest between two drawings

	accountDraws = 4 * bandDraws // a step of the account, which somebody waits for
)

// doubt begins to work out how sure the figures are.
func (p *page) doubt(ctx app.Context) {
	p.round++
	if p.late.drawn && p.desk.BandsStand() { // only a measurement has changed
		p.late.remake(section.AfterTitle, sourceOf(p.desk, nil))
		p.later(ctx, breath, p.round, func(ctx app.Context, round int) { p.stepRest(ctx, round, 1) })
		return
	}
	p.later(ctx, breath, p.round, p.stepBands)
}

// later does something after a while without drawing the page again, unless a
// newer round has begun.
func (p *page) later(ctx app.Context, wait time.Duration, round int, do func(app.Context, int)) {
	source := ctx.Src()
	ctx.Async(func() {
		time.Sleep(wait)
		ctx.Dispatcher().Dispatch(app.Dispatch{Mode: app.Next, Source: source, Function: func(ctx app.Context) {
			if round == p.round {
				do(ctx, round)
			}
		}})
	})
}

func (p *page) stepBands(ctx app.Context, round int) {
	if !p.desk.StepBands(bandDraws) {
		p.later(ctx, breath, round, p.stepBands)
		return
	}
	p.Update()
	p.later(ctx, restPause, round, func(ctx app.Context, round int) {
		p.redraw(ctx)
		p.stepRest(ctx, round, 1)
	})
}

// stepRest works out what can wait, and draws it now and then.
func (p *page) stepRest(ctx app.Context, round, step int) {
	accounted := p.desk.Accounted()
	draws := bandDraws
	if waited := p.desk.After() != nil && !accounted; waited {
		draws = accountDraws
		step = 1 // nothing else is drawn meanwhile
	}
	if p.desk.StepRest(draws) {
		p.finish(ctx)
		return
	}
	if !accounted && p.desk.Accounted() { // the account is waited for
		p.late.remake(section.AfterTitle, sourceOf(p.desk, nil))
		p.Update()
		ctx.Defer(func(app.Context) { p.fill() })
	}
	if step%redrawEach == 0 {
		p.late.certain(p.desk)
		p.Update()
	}
	p.later(ctx, breath, round, func(ctx app.Context, round int) { p.stepRest(ctx, round, step+1) })
}

// finish draws what the last of the rest gave; all else, unless it stands already for the
// plan as it is.
func (p *page) finish(ctx app.Context) {
	if p.drawn != p.round {
		p.redraw(ctx)
		return
	}
	p.late.certain(p.desk)
	p.Update()
	ctx.Defer(func(app.Context) { p.fill() })
}

// redraw draws everything, what waits for typing to pause too; fields that were not
// there before are filled.
func (p *page) redraw(ctx app.Context) {
	p.openKept()
	p.late, p.drawn = slowOf(p.source(), &p.at.visited), p.round
	p.Update()
	ctx.Defer(func(app.Context) { p.fill() })
}

// onAsk hears the controls that are about certainty, not about the plan.
func (p *page) onAsk(ctx app.Context, target app.Value) bool {
	ask := target.Get("dataset").Get("ask")
	if !ask.Truthy() {
		return false
	}
	text := target.Get("value").String()
	wish := p.desk.Wish()
	switch ask.String() {
	case section.AskAbout:
		if id, ok := route.FigureByKey(text); ok {
			p.desk.Ask(id)
		}
	case section.AskAlong:
		p.desk.SweepAlong(text)
	case section.AskGrams:
		wish.Text = text
		p.desk.Want(wish)
	case section.AskSalt:
		if id, ok := route.FigureByKey(text); ok {
			wish.Figure = id
			p.desk.Want(wish)
		}
	case section.AskBy:
		wish.ByShare = text == section.ByShare
		p.desk.Want(wish)
	}
	p.round++
	p.later(ctx, breath, p.round, func(ctx app.Context, round int) {
		if p.desk.BandsStand() {
			p.stepRest(ctx, round, 1)
		} else {
			p.stepBands(ctx, round)
		}
	})
	return true
}

// onSave hands a picture to the browser as a file.
func (p *page) onSave(_ app.Context, a app.Action) {
	saved, ok := a.Value.(chart.Saved)
	if !ok {
		return
	}
	save("rosesalt-"+saved.Name+".svg", "image/svg+xml", saved.Text)
}
