package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/browser"
	"rosesalt/web/section"
)

// onMend makes the change, and says what is still too small: the button that was pressed
// is gone then, and the focus goes to what is said.
func (p *page) onMend(ctx app.Context, a app.Action) {
	value, _ := a.Value.(string)
	m, ok := section.MendOf(p.desk, value)
	if !ok {
		return
	}
	was := p.state()
	section.Mend(p.desk, m)
	p.took(&was, m.Text)
	p.changed(ctx)
	p.copied = m.Done
	if small := section.TooSmall(p.desk); small != "" {
		p.copied += " Still too small: " + small + "."
	}
	browser.FocusAfter(ctx, p, "said")
}

// onSuit makes all changes of an offer that suits what is at hand, as one that can be undone.
func (p *page) onSuit(ctx app.Context, a app.Action) {
	value, _ := a.Value.(string)
	if offer, ok := section.SuitOf(p.source(), value); ok {
		p.make(ctx, offer.Set, offer.Text, offer.Done)
	}
}
