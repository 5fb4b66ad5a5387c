package web

import (
	"fmt"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/field"
	"rosesalt/web/desk"
	"rosesalt/web/section"
)

// announcePause is how long typing must rest before the summary is told.
const announcePause = 900 * time.Millisecond

// onJump scrolls to a section and puts the focus on its title, so that the next Tab goes on
// from there.
func (p *page) onJump(_ app.Context, a app.Action) {
	id, _ := a.Value.(string)
	if title := app.Window().GetElementByID(id + ".title"); title.Truthy() {
		title.Call("focus", map[string]any{"preventScroll": true})
		app.Window().GetElementByID(id).Call("scrollIntoView")
	}
}

// toStages brings the focus from anywhere on the page to the list of stages, at the
// section where it stood, when Escape is pressed: the page is long, and the tabulator
// goes through all of it. Nothing is drawn anew for a key.
func (p *page) toStages(e app.Value) {
	if e.Get("key").String() != "Escape" || e.Get("isComposing").Bool() || p.bench.Open || p.how.key != "" {
		return
	}
	document := app.Window().Get("document")
	active := document.Get("activeElement")
	if !active.Truthy() || active.Call("closest", "nav").Truthy() {
		return
	}
	to := document.Call("querySelector", "nav button")
	if section := active.Call("closest", "main > section"); section.Truthy() {
		if own := document.Call("querySelector", `nav [data-value="`+section.Get("id").String()+`"]`); own.Truthy() {
			to = own
		}
	}
	if to.Truthy() {
		to.Call("focus")
	}
}

// spoken is what a screen reader hears after a change: what is wrong with the field that
// was typed in, or what a reading came to, or the summary.
func (p *page) spoken() string {
	d, key := p.desk, p.touched
	if problem := d.Problem(key); problem != "" {
		return problem
	}
	if form, _, ok := d.Find(key); ok {
		switch form.Anew {
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
	if n := d.Wrong(); n > 0 {
		fmt.Fprintf(&b, "Fields that want attention: %d.", n)
	}
	return b.String()
}
