package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/browser"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

// whereabouts is the place of the page that is shown, and what of the others is known.
type whereabouts struct {
	now     section.Place
	before  section.Place // from which the bench was gone to
	visited [section.Places]bool
	scroll  [section.Places]float64 // how far each was scrolled when it was left
	// edition is the number of the plan's entries in the history. Entries of one edition are
	// places of the same plan, whatever was typed since; those of another hold another plan.
	edition int
}

// entry is the place and edition of the history's entry that is shown, as the page wrote it; not ok
// for a link that is opened, whose entry the page has not written yet.
func entry() (place section.Place, edition int, ok bool) {
	if app.IsServer {
		return 0, 0, false
	}
	state := app.Window().Get("history").Get("state")
	if !state.Truthy() || !state.Get("place").Truthy() {
		return 0, 0, false
	}
	return section.PlaceOf(state.Get("place").String()), state.Get("edition").Int(), true
}

// recallPlace takes up the place that a reload was made at.
func (p *page) recallPlace() {
	if place, edition, ok := entry(); ok {
		p.at.now, p.at.edition = place, edition
	}
	p.followBench()
}

// followBench has the place agree with whether the bench view is open.
func (p *page) followBench() {
	switch {
	case p.bench.Open:
		p.at.now = section.Bench
	case p.at.now == section.Bench:
		p.at.now = section.Plan
	}
	p.at.visited[p.at.now] = true
}

// entry is what the history holds of the page beside the address.
func (p *page) entry() map[string]any {
	return map[string]any{"edition": p.at.edition, "place": p.at.now.Word()}
}

// enter puts an entry into the history: a new one, or in the place of the one that stands
// there. A browser that refuses is no reason to stop.
func (p *page) enter(anew bool, address string) {
	defer func() { _ = recover() }()
	history, how := app.Window().Get("history"), "replaceState"
	if anew {
		how = "pushState"
	}
	history.Call(how, p.entry(), "", address)
}

// goTo shows a place, which makes an entry of the history.
func (p *page) goTo(ctx app.Context, to section.Place) {
	if to == p.at.now {
		return
	}
	p.address(ctx)
	p.enter(false, "") // so that coming back tells where this was
	p.show(ctx, to)
	p.enter(true, "")
}

// show shows a place as it was left.
func (p *page) show(ctx app.Context, to section.Place) {
	if to == p.at.now {
		return
	}
	p.at.scroll[p.at.now] = app.Window().Get("scrollY").Float()
	p.at.before, p.at.now = p.at.now, to
	if !p.at.visited[to] {
		p.at.visited[to] = true
		if ids := section.IDs(to); to == section.MakeReady || to == section.Afterwards {
			p.open.set(true, ids[0]) // what most come for
		}
		if p.late.drawn {
			p.late.makePlace(to, p.source())
		}
	}
	if p.bench.Open != (to == section.Bench) {
		p.bench.Open = to == section.Bench
		p.bench.Keep()
	}
	toTop(ctx, p.at.scroll[to])
	ctx.Defer(func(app.Context) { p.fill() })
}

// handlePlaces hears what leads from place to place.
func (p *page) handlePlaces(ctx app.Context) {
	ctx.Handle(section.GoTo, func(ctx app.Context, a app.Action) {
		word, _ := a.Value.(string)
		p.goTo(ctx, section.PlaceOf(word))
	})
	// The loader says so when the browser went back or forward, before it tells of the address.
	p.closers = append(p.closers, browser.OnWindow("travelled", func(app.Value) {
		to, edition, ok := entry()
		if !ok {
			return // somebody's link
		}
		if edition != p.at.edition {
			p.at.edition, p.pushed = edition, false
		} else if !p.astray && fragment() != p.written { // another place of this plan, which was typed in since
			now := p.at.now
			p.at.now = to
			p.enter(false, "#"+p.written)
			p.at.now = now
		}
		ctx.Dispatch(func(ctx app.Context) {
			p.show(ctx, to)
			ctx.Defer(func(ctx app.Context) {
				if app.Window().Get("document").Get("activeElement").Get("localName").String() == "body" && to != section.Bench {
					browser.FocusStill(ctx, "go."+to.Word())
				}
			})
		})
	}))
}

// places are the ways to the places of the page, at its head.
func (p *page) places() app.UI {
	var list []app.UI
	for place := range section.Place(section.Places) {
		b := doc.Asks(browser.Button().ID("go."+place.Word()).Attr("aria-controls", "place."+place.Word()), section.GoTo, place.Word()).Text(place.Name())
		if place == p.at.now {
			b = b.Attr("aria-current", "page")
		}
		list = append(list, b)
	}
	return app.Elem("nav").Attr("aria-label", "Places").Body(list...)
}

// place is what stands in one place; nothing before it is visited, unless it is printed.
func (p *page) place(place section.Place, body func() []app.UI) app.UI {
	e := app.Elem("div").ID("place." + place.Word()).Class("place")
	if place != p.at.now {
		e = e.Attr("hidden", true)
	}
	if p.at.visited[place] || p.open.paper {
		e = e.Body(body()...)
	}
	return e
}
