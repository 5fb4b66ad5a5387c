// Package web is the page: components that show what package desk holds.
//
// Data goes one way. A field's text goes to the desk by an action; the desk
// works out plan and figures; the page cuts them into values for each section,
// and a section is drawn again only when its values differ. No component
// computes chemistry.
package web

import (
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/link"
)

// The actions that components send to the page.
const (
	editAction   = "edit"   // with an edit
	addRowAction = "addrow" // with nothing
	dropAction   = "drop"   // with a row's number
)

// edit is a field's new text, and the control that it was typed in.
type edit struct{ Key, Text, Control string }

// New makes the root component of the page.
func New() app.Composer { return &page{} }

// page is the root: it owns the desk and keeps the address in step with it.
type page struct {
	app.Compo
	desk    *desk.Desk
	written string // the fragment that the address holds
	pushed  bool   // whether this visit has its own entry in the history
	said    string // what the live region says
	copied  string
	closers []func()
	ticket  int // of the last edit, for what waits until typing pauses
}

func (p *page) OnInit() {
	p.written = fragment()
	p.desk = desk.New(p.written)
}

// fragment is the address's fragment as it stands, still escaped.
func fragment() string {
	if app.IsServer {
		return ""
	}
	return strings.TrimPrefix(app.Window().Get("location").Get("hash").String(), "#")
}

func (p *page) OnMount(ctx app.Context) {
	ctx.Handle(editAction, p.onEdit)
	ctx.Handle(addRowAction, p.onAddRow)
	ctx.Handle(dropAction, p.onDrop)
	// The library's own navigation ignores an address it believes to be on already.
	for _, event := range []string{"popstate", "hashchange"} {
		p.closers = append(p.closers, app.Window().AddEventListener(event, func(ctx app.Context, _ app.Event) { p.follow(ctx) }))
	}
	ctx.Defer(func(app.Context) {
		app.Window().Get("document").Get("documentElement").Call("setAttribute", "data-ready", "")
	})
}

func (p *page) OnDismount() {
	for _, c := range p.closers {
		c()
	}
}

// follow opens the plan of an address that someone else wrote: Back, Forward, or
// a link pasted over this one.
func (p *page) follow(ctx app.Context) {
	now := fragment()
	if now == p.written {
		return
	}
	p.written, p.pushed = now, false
	p.desk.Open(now)
	p.announce(ctx)
	p.Update()
}

func (p *page) onEdit(ctx app.Context, a app.Action) {
	e, ok := a.Value.(edit)
	if !ok {
		return
	}
	p.desk.Edit(e.Key, e.Text, e.Control)
	p.changed(ctx)
}

func (p *page) onAddRow(ctx app.Context, _ app.Action) {
	p.desk.AddRow()
	p.changed(ctx)
}

func (p *page) onDrop(ctx app.Context, a app.Action) {
	if row, ok := a.Value.(int); ok {
		p.desk.Clear(row)
		p.changed(ctx)
	}
}

// changed brings the address into step. The first change of a visit makes an
// entry of its own, so that Back returns to the plan as it was opened; further
// ones write over it, so that typing does not fill the history.
func (p *page) changed(ctx app.Context) {
	p.copied = ""
	// An address without a fragment is the new plan's.
	if f := p.desk.Fragment(); f != p.written && (p.written != "" || f != link.Encode(&newPlan)) {
		how := "replaceState"
		if !p.pushed {
			how, p.pushed = "pushState", true
		}
		app.Window().Get("history").Call(how, nil, "", "#"+f)
		p.written = f
	}
	p.announce(ctx)
}

var newPlan = route.NewPlan()

// announce tells the summary to a screen reader once typing pauses.
func (p *page) announce(ctx app.Context) {
	p.ticket++
	ticket := p.ticket
	ctx.After(announcePause, func(ctx app.Context) {
		if ticket == p.ticket {
			p.said = summary(p.desk)
			p.Update()
		}
	})
}

func (p *page) Render() app.UI {
	d := p.desk
	sections := sectionsOf(d)
	return app.Div().Class("page").Body(
		app.Header().Body(
			app.P().Class("brand").Text("Rosesalt"),
			app.Div().Class("tools").Body(
				button("Start over", p.onReset),
				button("Copy plan text", p.onCopyText),
				app.If(served(), button("Copy link", p.onCopyLink)),
				button("Print", func(app.Context, app.Event) { app.Window().Call("print") }),
			),
		),
		app.P().Class("copied").Aria("live", "polite").Text(p.copied),
		&sentence{View: sentenceOf(d)},
		&troubles{List: d.Troubles()},
		&strip{View: stripOf(d)},
		app.Main().ID("plan").Body(
			app.Range(sections).Slice(func(i int) app.UI { return sections[i] }),
		),
		app.Footer().Body(
			app.P().Text(deference),
			app.P().Class("soft").Text("Estimates carry a mark and give way to what you weigh. Values from memory are named as such in the tables."),
		),
		app.P().Class("unseen").Role("status").Aria("live", "polite").Text(p.said),
	)
}

func (p *page) onReset(ctx app.Context, _ app.Event) {
	p.desk.Reset()
	p.changed(ctx)
}

func button(label string, do app.EventHandler) app.UI {
	return app.Button().Type("button").Text(label).OnClick(do)
}

// served tells whether the page came from a server, so that its address means
// something to a friend.
func served() bool {
	return !app.IsServer && strings.HasPrefix(app.Window().Get("location").Get("protocol").String(), "http")
}

func (p *page) onCopyLink(ctx app.Context, _ app.Event) {
	p.copy(ctx, app.Window().Get("location").Get("href").String(), "Link copied.")
}

func (p *page) onCopyText(ctx app.Context, _ app.Event) {
	p.copy(ctx, planText(p.desk), "Plan copied as text.")
}

// copy puts text on the clipboard, by the old way where the new one is refused,
// as it is for a file opened from disk in some browsers.
func (p *page) copy(ctx app.Context, text, done string) {
	document := app.Window().Get("document")
	area := document.Call("createElement", "textarea")
	area.Set("value", text)
	area.Call("setAttribute", "class", "unseen")
	document.Get("body").Call("appendChild", area)
	area.Call("select")
	ok := document.Call("execCommand", "copy").Bool()
	area.Call("remove")
	if !ok {
		done = "The browser refused the clipboard."
	}
	p.copied = done
}

// stageTitle names the stages as the page does.
var stageTitle = [route.Stages]struct{ Title, Sub string }{
	route.Cells:      {"Cells", "what the bag holds"},
	route.Wash:       {"Wash", "the electrolyte out"},
	route.Batch:      {"Batch", "how much of it goes into this run"},
	route.Gas:        {"Gas", "sulfur dioxide out of a flask"},
	route.Slurry:     {"Slurry", "gas into cold black mud"},
	route.Filter:     {"Filter", "the rose liquor from the black residue"},
	route.Dry:        {"Dry", "liquor to salt"},
	route.CopperSalt: {"Copper salt", "blue crystals out of the flask"},
	route.Waste:      {"Scrub and waste", "nothing leaves unseen"},
}
