package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/section"
)

// onUse hands a result over; Back takes it back.
func (p *page) onUse(ctx app.Context, a app.Action) {
	was := p.state()
	if method, ok := a.Value.(string); ok && p.desk.UseAssay(method) {
		p.took(&was, "Use the result")
		p.pushed = false
		p.changed(ctx)
		p.late.remake(section.AssaysTitle, sourceOf(p.desk, nil))
		p.copied = "The result is handed over. Back takes it back."
	}
}
