package web

import (
	"fmt"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/field"
	"rosesalt/chem/route"
	"rosesalt/web/browser"
	"rosesalt/web/desk"
	"rosesalt/web/section"
)

// announcePause is how long typing must rest before the summary is told.
const announcePause = 900 * time.Millisecond

// onJump goes to a section, wherever it is, opens it and puts the focus on its title, so that
// the next Tab goes on from there; or to the field of a key.
func (p *page) onJump(ctx app.Context, a app.Action) {
	value, _ := a.Value.(string)
	id, focus := value, value+".title"
	if in, ok := route.InputByKey(value); ok {
		id, focus = section.StageID(in.Stage), "in."+value
	}
	p.goTo(ctx, section.PlaceAt(id))
	p.open.set(true, id)
	browser.AfterDraw(ctx, p, func() {
		p.fill()
		if e := app.Window().GetElementByID(focus); e.Truthy() {
			e.Call("focus", map[string]any{"preventScroll": true})
			e.Call("scrollIntoView", map[string]any{"block": "center", "behavior": "instant"})
		}
	})
}

// onKey moves among the lines of the sections, since the tabulator goes through all of what is
// open. Escape leads from within a section to its line, from a line to the head of the page,
// and from there to the first line; on a line the arrow keys, Home and End lead to another.
// Nothing is drawn anew for a key.
func (p *page) onKey(e app.Value) {
	key := e.Get("key").String()
	if e.Get("isComposing").Bool() || p.bench.Open || p.how.key != "" {
		return
	}
	document := app.Window().Get("document")
	active := document.Get("activeElement")
	lines := document.Call("querySelectorAll", ".place:not([hidden]) "+lineButtons)
	if !active.Truthy() || lines.Length() == 0 {
		return
	}
	at := -1
	for i := range lines.Length() {
		if lines.Index(i).Equal(active) {
			at = i
		}
	}
	var to app.Value
	switch inside := active.Call("closest", ".inside"); {
	case key == "Escape" && inside.Truthy():
		to = inside.Call("closest", "section").Call("querySelector", lineButtons)
	case key == "Escape" && at >= 0:
		to = document.Call("querySelector", "header button")
	case key == "Escape":
		to = lines.Index(0)
	case at < 0:
		return
	case key == "ArrowDown" && at+1 < lines.Length():
		to = lines.Index(at + 1)
	case key == "ArrowUp" && at > 0:
		to = lines.Index(at - 1)
	case key == "Home":
		to = lines.Index(0)
	case key == "End":
		to = lines.Index(lines.Length() - 1)
	default:
		return
	}
	e.Call("preventDefault")
	to.Call("focus")
}

// lineButtons are the titles of the sections, which open them.
const lineButtons = ".head h2 button"

// spoken is what a screen reader hears after a change: what is wrong with the field that
// was typed in, or what a reading came to, or the summary.
func (p *page) spoken() string {
	d, key := p.desk, p.touched
	if problem := d.Problem(key); problem != "" {
		return problem
	}
	if form, _, ok := d.Find(key); ok {
		switch form.Affects {
		case field.Assays:
			return section.AssaySays(sourceOf(d, nil), key)
		case field.Gas:
			return "" // what the log says speaks for itself
		}
	}
	return summary(d)
}

// summary is the strip in words.
func summary(d *desk.Desk) string {
	var b strings.Builder
	for _, item := range section.Summary(d) {
		fmt.Fprintf(&b, "%s %s %s. ", item.Name, item.Number, item.Unit)
	}
	if n := d.FaultCount(); n > 0 {
		fmt.Fprintf(&b, "Fields that want attention: %d.", n)
	}
	return b.String()
}
