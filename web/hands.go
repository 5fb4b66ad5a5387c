package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/browser"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

// hearHands hears what is typed and pressed anywhere on the page: one listener is cheaper to
// set up than one for each field. What stands in a field or behind a button is read when it
// happens: the library hands events on later, and the page may draw in between.
func (p *page) hearHands(ctx app.Context) {
	p.closers = append(p.closers,
		browser.OnDocument("input", func(e app.Value) {
			made := inputAt(e.Get("target"))
			ctx.Dispatch(func(ctx app.Context) { p.onInput(ctx, made) })
		}),
		browser.OnDocument("click", func(e app.Value) {
			made := pressAt(e.Get("target"))
			ctx.Dispatch(func(ctx app.Context) { p.onPress(ctx, made) })
		}),
	)
}

// input is what was typed into a control, and what it is for: the key of a field, or what is
// asked, or else its id.
type input struct{ key, ask, id, text string }

func inputAt(control app.Value) input {
	made := input{key: keyOf(control), id: control.Get("id").String(), text: control.Get("value").String()}
	if ask := control.Get("dataset").Get("ask"); ask.Truthy() {
		made.ask = ask.String()
	}
	return made
}

// keyOf is the key of the field that a control sets: its name, or for the sentence's controls,
// which double a named one, what they say; or "".
func keyOf(control app.Value) string {
	if name := control.Get("name"); name.Truthy() {
		return name.String()
	}
	if key := control.Get("dataset").Get("key"); key.Truthy() {
		return key.String()
	}
	return ""
}

func (p *page) onInput(ctx app.Context, made input) {
	switch {
	case made.ask != "":
		p.onAsk(ctx, made.ask, made.text)
	case made.key != "":
		p.typed(ctx, made.key, made.text)
	case made.id == section.RunName:
		p.kept.name = made.text
	case made.id == section.RunFile:
		ctx.NewAction(chooseAction)
	}
}

// press is what was pressed: a button with an action and its value, a figure within a working,
// or a figure of the page, with the place where it stands. All empty for anything else.
type press struct {
	action, value string
	within        string
	figure, from  string
}

// pressAt reads what is pressed. A figure's name is a button for the keyboard; for a finger
// the whole row is, and the whole line of a section.
func pressAt(target app.Value) (made press) {
	if head := target.Call("closest", "section .head"); head.Truthy() && !target.Call("closest", "button").Truthy() && !selecting() {
		target = head.Call("querySelector", "button")
	}
	if button := target.Call("closest", "[data-"+doc.ActionData+"]"); button.Truthy() {
		data := button.Get("dataset")
		return press{action: data.Get(doc.ActionData).String(), value: data.Get(doc.ValueData).String()}
	}
	if how := target.Call("closest", "[data-how]"); how.Truthy() {
		key := how.Get("dataset").Get("how").String()
		if how.Call("closest", ".fig").Truthy() {
			return press{figure: key, from: `main .fig [data-how="` + key + `"]`}
		}
		return press{within: key}
	}
	row := target.Call("closest", ".fig")
	if !row.Truthy() || target.Get("localName").String() != "button" && selecting() {
		return press{}
	}
	data := row.Call("querySelector", "data")
	if !data.Truthy() {
		return press{}
	}
	if key := data.Get("id").String(); key != "" {
		return press{figure: key, from: `main data[id="` + key + `"]`}
	}
	key := data.Get("dataset").Get("key").String() // it stands at its stage too
	return press{figure: key, from: `main data[data-key="` + key + `"]`}
}

func (p *page) onPress(ctx app.Context, made press) {
	_, is := route.FigureByKey(made.figure)
	switch {
	case made.action != "":
		ctx.NewActionWithValue(made.action, made.value)
	case made.within != "":
		p.openWorking(ctx, made.within)
	case !is:
	case made.figure == p.how.key:
		p.closeWorking(ctx)
	default:
		p.how.from = made.from
		p.openWorking(ctx, made.figure)
	}
}

// selecting tells whether the press was the end of marking text.
func selecting() bool {
	return app.Window().Call("getSelection").Call("toString").String() != ""
}
