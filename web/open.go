package web

import (
	"maps"
	"slices"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/chem/stock"
	"rosesalt/web/browser"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

// openKey is where the ids of the open sections lie in the tab's storage.
const openKey = "rosesalt.open"

// opening is which sections are open, by their ids.
type opening struct {
	ids   map[string]bool
	paper bool // all of them, while the page is being printed
}

// recallOpen opens what was open in this tab before a reload.
func (o *opening) recallOpen() {
	o.ids = map[string]bool{}
	var kept []string
	browser.RecallFromTab(openKey, &kept)
	for _, id := range kept {
		o.ids[id] = true
	}
}

func (o *opening) has(id string) bool { return o.paper || o.ids[id] }

// set opens or shuts sections, and keeps what is open for a reload.
func (o *opening) set(open bool, ids ...string) {
	for _, id := range ids {
		if open {
			o.ids[id] = true
		} else {
			delete(o.ids, id)
		}
	}
	if len(o.ids) == 0 {
		_ = browser.Tab.Remove(openKey) // refused: nothing was kept
		return
	}
	browser.KeepInTab(openKey, slices.Sorted(maps.Keys(o.ids)))
}

// handleOpen hears what opens sections: their lines, the browser's looking for words, and
// printing.
func (p *page) handleOpen(ctx app.Context) {
	ctx.Handle(doc.FoldSection, func(ctx app.Context, a app.Action) {
		id, _ := a.Value.(string)
		p.open.set(!p.open.ids[id], id)
		ctx.Defer(func(app.Context) { p.fill() })
	})
	ctx.Handle(section.OpenAll, func(ctx app.Context, a app.Action) {
		p.open.set(a.Value != "", section.IDs(p.at.now)...)
		ctx.Defer(func(app.Context) { p.fill() })
	})
	p.closers = append(
		p.closers,
		// The browser brings what it found into view right after this.
		browser.OnDocument("beforematch", func(e app.Value) {
			if at := e.Get("target").Call("closest", "section"); at.Truthy() {
				p.open.set(true, at.Get("id").String())
				p.drawNow(ctx)
			}
		}),
		browser.OnWindow("beforeprint", func(app.Value) { p.mountPaper(ctx) }),
	)
}

// drawNow draws the page before what is going on in the browser goes on. An update would wait
// for the next frame.
func (p *page) drawNow(ctx app.Context) {
	if d, ok := ctx.Dispatcher().(interface{ Mount(app.UI) }); ok {
		d.Mount(&page{Turn: p.Turn + 1})
		ctx.Dispatcher().Dispatch(app.Dispatch{Mode: app.Next, Source: p, Function: func(app.Context) { p.fill() }})
	}
}

// mountPaper has all sections open for paper, unless it shows a sheet or labels alone.
func (p *page) mountPaper(ctx app.Context) {
	root := app.Window().Get("document").Get("documentElement")
	if p.open.paper || root.Call("matches", ".sheeted, ."+labelsOnly).Bool() {
		return
	}
	p.openKept()
	p.settled()
	p.late = slowOf(p.source(), &[section.Places]bool{true, true, true, true})
	p.late.visited = &p.at.visited
	p.open.paper = true
	p.drawNow(ctx)
}

// onPrint prints the page. What is printed is mounted before the browser is asked: not every
// browser waits for what is done on its own word.
func (p *page) onPrint(ctx app.Context, _ app.Event) {
	p.printed(ctx)
	p.mountPaper(ctx)
	ctx.Defer(func(app.Context) { app.Window().Call("print") })
}

// openFaults opens the stages, and what is at hand, in which a field cannot be used as typed. They stay open when
// it is mended.
func (p *page) openFaults() {
	inputs := route.Inputs()
	for i := range inputs {
		if id := section.StageID(inputs[i].Stage); p.desk.Problem(inputs[i].Key) != "" && !p.open.ids[id] {
			p.open.set(true, id)
		}
	}
	for _, f := range stock.Fields() {
		if p.desk.Problem(f.Key) != "" {
			p.open.set(true, section.ID(section.ShelfTitle))
		}
	}
}

// markNumbers marks what stands in a number's field that is pressed, so that what is typed
// takes its place and does not go on from it. A second press sets the caret.
func (p *page) markNumbers() {
	number := func(target app.Value) bool {
		return target.Get("localName").String() == "input" && slices.Contains([]string{"numeric", "decimal"}, target.Get("inputMode").String())
	}
	came := false
	p.closers = append(
		p.closers,
		browser.OnDocument("focusin", func(e app.Value) { came = number(e.Get("target")) }),
		browser.OnDocument("click", func(e app.Value) {
			if field := e.Get("target"); came && number(field) && field.Get("selectionStart").Int() == field.Get("selectionEnd").Int() {
				field.Call("select")
			}
			came = false
		}),
	)
}
