package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

type (
	fieldView  = doc.Field
	optionView = doc.Option
)

func viewField(d *desk.Desk, in *route.Input) fieldView {
	v := fieldView{
		Key: in.Key, Name: in.Name, Unit: in.Unit, Why: in.Why,
		Problem: d.Problem(in.Key), Whole: in.Whole,
	}
	for i, o := range in.Options {
		v.Options = append(v.Options, optionView{Word: o.Word, Name: in.OptionName(d.Plan(), i), Chosen: float64(i) == in.Value(d.Plan())})
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
		inRun(&v, d, in)
	}
	return v
}

// viewReading is what a field of something read at the bench shows.
func viewReading(d *desk.Desk, in *field.Field) fieldView {
	v := fieldView{Key: in.Key, Name: in.Name, Unit: in.Unit, Why: in.Why, Problem: d.Problem(in.Key), Line: "open", Whole: in.Whole}
	text := d.Text(in.Key)
	for _, o := range in.Options {
		v.Options = append(v.Options, optionView{Word: o.Word, Name: o.Name, Chosen: o.Word == text})
	}
	switch {
	case in.IsChoice():
	case text != "":
		v.Tag, v.Line = "you read", "weighed"
	case quantity.Given(in.Default):
		v.Usual = route.Plain(in.Default)
	default:
		v.Tag = "not read"
	}
	return v
}

// inRun shows a field as a run under way has it: locked, or what was taken beside what
// was planned.
func inRun(v *fieldView, d *desk.Desk, in *route.Input) {
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

// drawField draws a field outside a document.
func drawField(v fieldView) app.UI { return doc.Draw(v)[0] }

func options(s app.HTMLElem, list []optionView) app.UI {
	return s.Body(app.Range(list).Slice(func(i int) app.UI {
		o := list[i]
		return app.Elem("option").Attr("value", o.Word).Attr("selected", o.Chosen).Text(o.Name)
	}))
}
