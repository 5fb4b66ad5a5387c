package web

import (
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/last"
)

const leftAction = "left" // with a leftStep

// leftStep is what to do about what was left.
type leftStep struct {
	Do leftDo
	ID string
}

type leftDo uint8

const (
	leftGoOn leftDo = iota
	leftForget
	leftForgetAll // this tab's own too; no ID
)

// lastView is what stands above the plan of last states.
type lastView struct {
	Trouble string
	Left    []leftView
}

type leftView struct{ ID, Words string }

func (p *page) lastView() lastView {
	v := lastView{Trouble: p.last.store.Trouble()}
	for _, left := range p.last.left {
		v.Left = append(v.Left, leftView{left.ID, left.Words(time.Now())})
	}
	return v
}

// leftOff says above the plan what was left, and that nothing is kept where it is not.
type leftOff struct {
	app.Compo
	View lastView
}

func (l *leftOff) Render() app.UI {
	v := l.View
	if v.Trouble == "" && len(v.Left) == 0 {
		return app.Elem("div").Class("left none")
	}
	return app.Elem("div").Class("left").Role("region").Aria("label", "What this browser keeps").Body(
		app.If(v.Trouble != "", app.Elem("p").ID("keeps.nothing").Text(v.Trouble)),
		app.If(len(v.Left) > 0, l.offers()),
	)
}

// offers are the newest of what was left, and the others folded away.
func (l *leftOff) offers() app.UI {
	left := l.View.Left
	if len(left) == 0 {
		return nil
	}
	offer := func(at int) app.UI { return offer(left[at]) }
	if len(left) == 1 {
		return offer(0)
	}
	return app.Elem("div").Body(
		offer(0),
		app.Elem("details").Body(
			app.Elem("summary").Text("And what was left before"),
			app.Range(left[1:]).Slice(func(i int) app.UI { return offer(i + 1) }),
		),
	)
}

func offer(v leftView) app.UI {
	id := "left." + v.ID
	do := func(what leftDo, text string) app.UI {
		return app.Elem("button").Attr("type", "button").Class("plain").Aria("describedby", id).Text(text).OnClick(func(ctx app.Context, _ app.Event) {
			ctx.NewActionWithValue(leftAction, leftStep{what, v.ID})
		}, v.ID)
	}
	return app.Elem("div").Class("offer").Body(
		app.Elem("p").ID(id).Text("Go on with "+v.Words+"?"),
		app.Elem("div").Body(do(leftGoOn, "Go on"), do(leftForget, "Forget it")),
	)
}

// undoUI is the button that brings back what was taken away last, or nothing.
func (p *page) undoUI() app.UI {
	if p.last.undo.do == nil {
		return app.Elem("div").Class("undo none")
	}
	return app.Elem("div").Class("undo").Body(
		app.Elem("button").Attr("type", "button").Class("plain").ID("undo").Text(p.last.undo.label).OnClick(p.onUndo),
	)
}

// forgetLast says in the section of kept runs what else is kept, and forgets it.
func forgetLast() app.UI {
	return app.Elem("div").Body(
		app.Elem("h3").Text("What is being done"),
		app.Elem("p").Class("lede").Text("What stands on a page is kept in this browser as it is typed, names on labels too, so that a tab that is closed or a browser that dies loses nothing. The next page offers it. Of tabs that are gone the last "+route.Print(last.MostLeft, "")+" are kept."),
		app.Elem("button").Attr("type", "button").Class("plain").ID("left.forget").Text("Forget what is kept of this page and of tabs that are gone").OnClick(func(ctx app.Context, _ app.Event) {
			ctx.NewActionWithValue(leftAction, leftStep{Do: leftForgetAll})
		}),
	)
}
