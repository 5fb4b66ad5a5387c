package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/chart"
	"rosesalt/web/draws"
	"rosesalt/web/section"
)

// doubt begins to work out how sure the figures are, beside typing: a newer change drops
// older work.
func (p *page) doubt(ctx app.Context) {
	p.round++
	if p.late.drawn && p.desk.AllDrawn() { // only a measurement has changed
		p.late.remake(section.AfterTitle, sourceOf(p.desk, nil))
	}
	p.draws.Begin(ctx)
}

// drew draws what stands since.
func (p *page) drew(ctx app.Context, stage draws.Progress) {
	switch stage {
	case draws.First:
		p.Update()
	case draws.Bands:
		p.Update()
		round := p.round
		ctx.After(draws.RestPause, func(ctx app.Context) {
			if round == p.round && p.drawn != p.round {
				p.redraw(ctx)
			}
		})
	case draws.Account: // it is waited for
		if p.late.drawn {
			p.late.remake(section.AfterTitle, sourceOf(p.desk, nil))
			p.Update()
			ctx.Defer(func(app.Context) { p.fill() })
		}
	case draws.Some:
		if p.drawn == p.round {
			p.late.certain(p.desk)
			p.Update()
		}
	case draws.All:
		p.finish(ctx)
	}
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
func (p *page) onAsk(ctx app.Context, ask, text string) {
	wish := p.desk.Wish()
	switch ask {
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
	case section.AskPure:
		p.desk.WantPure(text)
	case section.AskBy:
		wish.ByShare = text == section.ByShare
		p.desk.Want(wish)
	}
	p.round++
	p.draws.Begin(ctx)
}

// onPurer takes the steps that bring the salt to the wanted purity.
func (p *page) onPurer(ctx app.Context, a app.Action) {
	value, _ := a.Value.(string)
	if c, ok := section.PurerOf(p.source(), value); ok {
		p.make(ctx, c.Set, "Changed for the purity", section.PurerDone(p.desk, &c))
	}
}

// onSave hands a picture to the browser as a file.
func (p *page) onSave(_ app.Context, a app.Action) {
	saved, ok := a.Value.(chart.Saved)
	if !ok {
		return
	}
	save("rosesalt-"+saved.Name+".svg", "image/svg+xml", saved.Text)
}
