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
	Key, Name, Unit string
	Why, Range      string
	Usual           string // what is counted with while the field is blank, in its unit
	Tag, Line       string // the kind of number, in a word and as a line
	Problem         string
	Options         []optionView
	Whole           bool
	Locked          bool   // a run has its plan fixed, or the stage is done
	Planned         string // what the run's plan held, beside what was taken
}

func viewField(d *desk.Desk, in *route.Input) fieldView {
	v := fieldView{
		Key: in.Key, Name: in.Name, Unit: in.Unit, Why: in.Why,
		Problem: d.Problem(in.Key), Whole: in.Whole,
	}
	for i, o := range in.Options {
		v.Options = append(v.Options, optionView{o.Word, in.OptionName(d.Plan(), i), float64(i) == in.Value(d.Plan())})
	}
	given := quantity.Given(in.Value(d.Plan()))
	if !given {
		if n, ok := in.WorkedOut(d.Plan(), d.Sheet()); ok {
			v.Usual = route.Print(n, "")
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
	if in.Key == "cell.charge" && quantity.Given(d.Plan().MixAssay) && d.Sheet().Reason(route.MixCharge) == route.Defined {
		v.Tag, v.Line = "overruled", "open"
		v.Range = "The assay says " + route.Print(d.Sheet().Value(route.MixCharge), "%") + ", and that is used."
	}
	if in.Blank != "" {
		v.Range = "Blank: " + in.Blank + "."
	}
	if d.Started() != nil {
		v.inRun(d, in)
	}
	return v
}

// inRun shows a field as a run under way has it: locked, or what was taken beside what
// was planned.
func (v *fieldView) inRun(d *desk.Desk, in *route.Input) {
	v.Locked = d.Locked(in)
	if !desk.Taken(in) {
		return
	}
	planned, ok := d.Planned(in)
	if ok {
		v.Planned = "Planned: " + route.Print(planned, in.Unit) + "."
	}
	if in.Standing == route.Measured {
		return
	}
	taken := in.Value(d.Plan())
	switch done := in.Stage < d.Started().Done; {
	case quantity.Given(taken) && !(ok && route.Print(taken, in.Unit) == route.Print(planned, in.Unit)):
		v.Tag, v.Line = "you took", "weighed"
	case done:
		v.Tag, v.Line = "as planned", "weighed"
	case !quantity.Given(taken):
		v.Tag, v.Line = "still ahead", "worked"
	default:
		v.Tag, v.Line = "still ahead", "set"
	}
}

func unitAfter(unit string) string {
	if unit == "" {
		return ""
	}
	return "\u202f" + unit
}

// field is one input with its label, unit, why, and what is wrong with it. What
// stands in it is written by page.fill, never here: a text that Render knows may
// be older than what is being typed. Its events are heard at the root.
func field(v fieldView) app.UI {
	id := "in." + v.Key
	class := "row"
	if v.Problem != "" {
		class += " bad"
	}
	if v.Options != nil {
		class += " choice"
	}
	label := app.Elem("label").Attr("for", id).Text(v.Name)
	if v.Tag != "" {
		label = app.Elem("label").Attr("for", id).Body(app.Text(v.Name), app.Elem("span").Class("tag "+v.Line).Text(v.Tag))
	}
	why := v.Why
	if v.Planned != "" {
		why = v.Planned + " " + why
	}
	if v.Range != "" {
		why += " " + v.Range
	}
	return app.Elem("div").Class(class).Body(
		label,
		control(v, id),
		app.Elem("p").Class("why").ID("why."+v.Key).Text(why),
		problem(v),
	)
}

// problem says what is wrong with a field, and is not there when nothing is. It is no
// live region: it changes with every key, so page.spoken tells it once typing pauses.
func problem(v fieldView) app.UI {
	if v.Problem == "" {
		return nil
	}
	return app.Elem("p").Class("problem").ID("problem." + v.Key).Text(v.Problem)
}

// proposal is what stands in a field while nothing is typed: in brackets, as nobody types
// a number, and in the unit of the field.
func proposal(text string) string {
	if text == "" {
		return ""
	}
	return "(" + text + ")"
}

func control(v fieldView, id string) app.UI {
	described := "why." + v.Key
	if v.Problem != "" {
		described += " problem." + v.Key
	}
	if v.Options != nil {
		return app.Elem("div").Class("in pick").Body(options(app.Elem("select").ID(id).Attr("name", v.Key).Attr("disabled", v.Locked).Aria("describedby", described), v.Options))
	}
	mode := "decimal"
	if v.Whole {
		mode = "numeric"
	}
	input := app.ElemSelfClosing("input").ID(id).Attr("name", v.Key).Attr("inputmode", mode).
		Attr("placeholder", proposal(v.Usual)).Attr("readonly", v.Locked).Aria("describedby", described)
	if v.Problem != "" {
		input = input.Aria("invalid", "true")
	}
	if v.Unit == "" {
		return app.Elem("div").Class("in " + v.Line).Body(input)
	}
	return app.Elem("div").Class("in "+v.Line).Body(input, app.Elem("span").Text(v.Unit))
}

func options(s app.HTMLElem, list []optionView) app.UI {
	return s.Body(app.Range(list).Slice(func(i int) app.UI {
		o := list[i]
		return app.Elem("option").Attr("value", o.Word).Attr("selected", o.Chosen).Text(o.Name)
	}))
}
