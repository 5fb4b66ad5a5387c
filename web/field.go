package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

// optionView is one word of a choice.
type optionView struct {
	Word, Name string
	Chosen     bool
}

// fieldView is what one input shows.
type fieldView struct {
	Key, Name, Unit, Text string
	Mine                  bool // Text was typed in this very field
	Why, Range            string
	Blank                 string // what stands in the field while it is blank
	Tag, Line             string // the kind of number, in a word and as a line
	Problem               string
	Options               []optionView
	Whole                 bool
}

func viewField(d *desk.Desk, in *route.Input) fieldView {
	v := fieldView{
		Key: in.Key, Name: in.Name, Unit: in.Unit, Text: d.Text(in), Mine: d.TypedIn(in.Key, fieldControl), Why: in.Why,
		Problem: d.Problem(in.Key), Whole: in.Whole,
	}
	for i, o := range in.Options {
		v.Options = append(v.Options, optionView{o.Word, o.Name, float64(i) == in.Value(d.Plan())})
	}
	given := quantity.Given(in.Value(d.Plan()))
	if !given {
		if n, ok := in.WorkedOut(d.Plan(), d.Sheet()); ok {
			v.Blank = route.Print(n, "")
		}
	}
	switch {
	case in.IsChoice():
	case in.Standing == route.Measured && given:
		v.Tag, v.Line = "you weighed", "weighed"
	case in.Standing == route.Measured:
		v.Tag, v.Line = "not weighed", "open"
	case in.Standing == route.WorkedOut && !given:
		v.Tag, v.Line = "worked out", "worked"
	case in.Standing == route.Estimated && in.IsDefault(d.Plan()):
		v.Tag, v.Line = "estimate", "guess"
	case !in.IsDefault(d.Plan()) && in.Key != "cell.count":
		v.Tag, v.Line = "you set", "set"
	}
	if in.Standing == route.Estimated && in.IsDefault(d.Plan()) {
		v.Range = "Likely " + route.Print(in.Low, "") + " to " + route.Print(in.High, in.Unit) + "."
	}
	if in.Blank != "" {
		v.Range = "Blank: " + in.Blank + "."
	}
	return v
}

func unitAfter(unit string) string {
	if unit == "" {
		return ""
	}
	return "\u202f" + unit
}

// fieldControl and sentenceControl name the controls in which a text is typed.
const (
	fieldControl    = "field"
	sentenceControl = "sentence"
)

// write puts text into the input of a component from outside. It is never done
// from Render: the text there may be older than what is being typed.
func write(root app.Value, text string) {
	if input := root.Call("querySelector", "input"); input.Truthy() && input.Get("value").String() != text {
		input.Set("value", text)
	}
}

// field is one input with its label, unit, why, and what is wrong with it.
type field struct {
	app.Compo
	View fieldView
}

// OnMount fills the field.
func (f *field) OnMount(app.Context) { write(f.JSValue(), f.View.Text) }

// OnUpdate fills it anew when the text came from elsewhere.
func (f *field) OnUpdate(app.Context) {
	if !f.View.Mine {
		write(f.JSValue(), f.View.Text)
	}
}

func (f *field) Render() app.UI {
	v := f.View
	id := "in." + v.Key
	class := "row"
	if v.Problem != "" {
		class += " bad"
	}
	if v.Options != nil {
		class += " choice"
	}
	return app.Div().Class(class).Body(
		app.Label().For(id).Body(
			app.Text(v.Name),
			app.If(v.Tag != "", app.Span().Class("tag "+v.Line).Text(v.Tag)),
		),
		f.control(id),
		app.P().Class("why").ID("why."+v.Key).Body(
			app.Text(v.Why),
			app.If(v.Range != "", app.Span().Class("range").Text(" "+v.Range)),
		),
		app.P().Class("problem").ID("problem."+v.Key).Role("alert").Text(v.Problem),
	)
}

func (f *field) control(id string) app.UI {
	v := f.View
	if v.Options != nil {
		return app.Div().Class("in pick").Body(
			app.Select().ID(id).Name(v.Key).Aria("describedby", "why."+v.Key+" problem."+v.Key).OnChange(f.onInput).Body(
				app.Range(v.Options).Slice(func(i int) app.UI {
					o := v.Options[i]
					return app.Option().Value(o.Word).Selected(o.Chosen).Text(o.Name)
				}),
			),
		)
	}
	mode := "decimal"
	if v.Whole {
		mode = "numeric"
	}
	input := app.Input().Type("text").ID(id).Name(v.Key).Attr("inputmode", mode).AutoComplete(false).
		Attr("spellcheck", "false").Placeholder(v.Blank).
		Aria("describedby", "why."+v.Key+" problem."+v.Key).OnInput(f.onInput)
	if v.Problem != "" {
		input = input.Aria("invalid", "true")
	}
	return app.Div().Class("in "+v.Line).Body(input, app.Span().Text(v.Unit))
}

func (f *field) onInput(ctx app.Context, _ app.Event) {
	ctx.NewActionWithValue(editAction, edit{f.View.Key, ctx.JSSrc().Get("value").String(), fieldControl})
}
