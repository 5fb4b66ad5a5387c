package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
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
	p.desk.Edit(m.Key, route.Plain(m.Value))
	p.took(&was, m.Text)
	p.changed(ctx)
	p.copied = m.Done
	if small := section.TooSmall(p.desk); small != "" {
		p.copied += " Still too small: " + small + "."
	}
	browser.FocusAfter(ctx, p, "said")
}
