package web

import (
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

// smallVessels are the plan's vessels that do not hold what is poured into them.
func smallVessels(d *desk.Desk) []route.Vessel {
	var small []route.Vessel
	for _, v := range route.Vessels(d.Plan(), d.Sheet()) {
		if v.TooSmall() {
			small = append(small, v)
		}
	}
	return small
}

// smallWords names vessels that are too small, in a sentence and in the strip.
func smallWords(small []route.Vessel) string {
	var words []string
	for i := range small {
		words = append(words, small[i].Word())
	}
	return strings.Join(words, ", ")
}

// tooSmallView is what is said above the stages of vessels that are too small.
type tooSmallView struct {
	Notices []route.Notice
}

func tooSmallOf(d *desk.Desk) tooSmallView {
	var v tooSmallView
	if d.Sheet().Value(route.CellsOpened) == 0 {
		return v
	}
	small := smallVessels(d)
	for i := range small {
		v.Notices = append(v.Notices, open(d, route.Notice{Text: small[i].Warning(), Mends: small[i].Mends()}))
	}
	return v
}

// open leaves out the changes to inputs that a run under way has locked.
func open(d *desk.Desk, n route.Notice) route.Notice {
	var allowed []route.Mend
	for _, m := range n.Mends {
		if in, ok := route.InputByKey(m.Key); ok && !d.Locked(in) {
			allowed = append(allowed, m)
		}
	}
	n.Mends = allowed
	return n
}

// tooSmall stands above the strip while a vessel is too small.
type tooSmall struct {
	app.Compo
	View tooSmallView
}

func (t *tooSmall) Render() app.UI {
	list := t.View.Notices
	if len(list) == 0 {
		return app.Elem("div").Class("small-vessels none")
	}
	return app.Elem("div").Class("small-vessels").Role("region").Aria("label", "Vessels that are too small").Body(
		app.Range(list).Slice(func(i int) app.UI {
			text := list[i].Text
			if i == 0 {
				return app.Elem("p").Body(app.Elem("b").Text(tooSmallWord+". "), app.Text(text))
			}
			return app.Elem("p").Text(text)
		}),
		mends(mendsOf(list)),
	)
}

// mendsOf are the changes of several notices, each once.
func mendsOf(list []route.Notice) []route.Mend {
	var all []route.Mend
	seen := map[string]bool{}
	for _, n := range list {
		for _, m := range n.Mends {
			if !seen[m.Text] {
				seen[m.Text] = true
				all = append(all, m)
			}
		}
	}
	return all
}

// mends are buttons that make the changes.
func mends(list []route.Mend) app.UI {
	if len(list) == 0 {
		return nil
	}
	return app.Elem("p").Class("mends").Body(app.Range(list).Slice(func(i int) app.UI {
		m := list[i]
		return app.Elem("button").Attr("type", "button").Class("do").Text(m.Text).OnClick(onMend(m), m)
	}))
}

// mendAction goes to the page with a route.Mend.
const mendAction = "mend"

func onMend(m route.Mend) app.EventHandler {
	return func(ctx app.Context, _ app.Event) { ctx.NewActionWithValue(mendAction, m) }
}

// onMend makes the change, and says what is still too small: the button that was pressed
// is gone then, and the focus goes to what is said.
func (p *page) onMend(ctx app.Context, a app.Action) {
	m, ok := a.Value.(route.Mend)
	if !ok {
		return
	}
	was := p.state()
	p.desk.Edit(m.Key, route.Plain(m.Value))
	p.took(&was, m.Text)
	p.changed(ctx)
	p.copied = m.Done
	if small := smallVessels(p.desk); small != nil {
		p.copied += " Still too small: " + smallWords(small) + "."
	}
	focusAfter(ctx, p, "said")
}
