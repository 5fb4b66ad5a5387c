package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/sound"
	"rosesalt/web/browser"
	"rosesalt/web/bubbles"
)

// onGas takes counted gas, or readings of the log, as if they had been typed.
func (p *page) onGas(ctx app.Context, a app.Action) {
	was := p.state()
	switch v := a.Value.(type) {
	case bubbles.Use:
		p.desk.UseGas(v.Made)
		p.took(&was, "Use the gas counted")
		p.pushed = false
		p.changed(ctx)
		p.copied = "The gas counted is written to the account. Back takes it back."
		browser.FocusLater(ctx, v.Focus)
	case sound.Band:
		if p.desk.UseBubble(v) {
			p.took(&was, "Use this bubble")
			p.pushed = false
			p.changed(ctx)
			p.copied = "The plan takes this bubble. Back takes it back."
		}
	case bubbles.Rows:
		for _, e := range v.Rows {
			p.desk.Edit(e.Key, e.Text)
		}
		p.address(ctx)
		ctx.Defer(func(app.Context) { p.fill() })
		browser.FocusLater(ctx, v.Focus)
	}
	p.late.gas = bubbles.ViewOf(p.desk)
}
