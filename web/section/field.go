package section

import (
	"strings"
	"time"

	"rosesalt/chem/field"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// Field is the field of an input.
func Field(d *desk.Desk, in *route.Input) doc.Field {
	v := doc.Field{
		Key: in.Key, Name: in.Name, Unit: in.Unit, Why: in.Why,
		Problem: d.Problem(in.Key), Whole: in.Whole,
	}
	for i, o := range in.Options {
		v.Options = append(v.Options, doc.Option{Word: o.Word, Name: in.OptionName(d.Plan(), i), Chosen: float64(i) == in.Value(d.Plan())})
	}
	given := quantity.Given(in.Value(d.Plan()))
	if !given {
		if n, ok := in.WorkedOut(d.Plan(), d.Sheet()); ok {
			v.Usual = route.Print(n, "")
		}
	}
	switch {
	case in.IsChoice():
	case d.Moved(in):
		v.Tag, v.Line = "your interval", "set"
	case in.Standing == route.Measured && given:
		v.Tag, v.Line = "you weighed", "weighed"
	case in.Standing == route.Measured:
		v.Tag, v.Line = "not weighed", "open"
	case in.Standing == route.WorkedOut && !given:
		v.Tag, v.Line = "worked out", "worked"
	case in.Standing == route.Estimated && in.IsDefault(d.Plan()):
		v.Tag, v.Line = "estimate", "guess"
	case in.Key == route.ShareKey && quantity.Given(d.Plan().CakeTaken):
		v.Tag, v.Line = "by weight", "weighed"
	case in.Key == route.ShareKey && d.Fitted().Less():
		v.Tag, v.Line = "by the shelf", "worked"
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
	if says := OfCake(d); says != "" && (in.Key == route.ShareKey || in.Key == route.TakenKey) {
		v.Range = says
	}
	if d.Moved(in) {
		v.Range = "Planned with " + route.Print(in.Value(d.Plan()), in.Unit) + ", the middle of your interval: the value here is not inside it."
	}
	if d.Started() != nil {
		inRun(&v, d, in)
	}
	v.Told = told(d, in, &v)
	return v
}

// OfCake says what share of the cake was weighed out of it, and by which weight of all of it; ""
// where none was weighed out.
func OfCake(d *desk.Desk) string {
	p := d.Plan()
	if !quantity.Given(p.CakeTaken) {
		return ""
	}
	says := route.Print(float64(p.CakeTaken), "g") + " is " + route.Print(float64(p.BatchShare), "%") + " of all of the damp cake, " +
		route.Print(float64(p.CakeTaken)/p.BatchShare.Fraction(), "g")
	if !quantity.Given(p.CakeDamp) {
		says += " by the plan, since nobody weighed that"
	}
	return says + "."
}

// told is an input that is set or worked out, in the plan text; empty where there is nothing
// to tell.
func told(d *desk.Desk, in *route.Input, f *doc.Field) string {
	value, interval := in.Value(d.Plan()), d.Text(in.Key+"~")
	says := ""
	switch {
	case in.Row > 1 && !quantity.Given(d.Plan().Rows[in.Row-1].Count):
		return ""
	case in.IsChoice():
		return f.Name + ": " + in.OptionName(d.Plan(), int(value))
	case interval == "" && ((in.Standing == route.Measured || in.Standing == route.Chosen) && !quantity.Given(value) || in.Rare && in.IsDefault(d.Plan())):
		return ""
	case !quantity.Given(value):
		says = f.Name + ": " + f.Usual + doc.Unit(f.Unit) + ", worked out"
	default:
		says = f.Name + ": " + route.Print(value, in.Unit)
	}
	if interval != "" {
		says += ", by you from " + interval + doc.Unit(in.Unit)
	}
	if f.Planned != "" {
		says += ". " + strings.TrimSuffix(f.Planned, ".")
	}
	return says
}

// inRun shows a field as a run under way has it: locked, or what was taken beside what
// was planned.
func inRun(v *doc.Field, d *desk.Desk, in *route.Input) {
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

// controls are what a browser offers for a kind of field.
var controls = map[field.Kind]string{field.Number: "text", field.Day: "datetime-local", field.Clock: "time"}

// asked is a field of when the work is done, and by how many.
func asked(s *Source, f *field.Field) doc.Field {
	why := f.Why
	if f.Key == procedure.LongKey {
		d := s.Days()
		why = "From " + time.Time{}.Add(d.From).Format(clockForm) + " to " + d.End().Format(clockForm) + ", so " + procedure.Hours(quantity.Minute(d.Long.Minutes())) + ". " + why
	}
	return doc.Field{Key: f.Key, Name: f.Name, Kind: controls[f.Kind], Unit: f.Unit, Why: why, Problem: s.Problem(f.Key), Options: choices(s.Desk, f)}
}

// choices are the options of a field that is chosen in, beside the plan.
func choices(d *desk.Desk, f *field.Field) (list []doc.Option) {
	text := d.Text(f.Key)
	for _, o := range f.Options {
		list = append(list, doc.Option{Word: o.Word, Name: o.Name, Chosen: o.Word == text})
	}
	return list
}

// BenchField is a field of something read at the bench.
func BenchField(d *desk.Desk, in *field.Field) doc.Field {
	v := doc.Field{Key: in.Key, Name: in.Name, Unit: in.Unit, Why: in.Why, Problem: d.Problem(in.Key), Line: "open", Whole: in.Whole, Options: choices(d, in)}
	switch {
	case in.IsChoice():
	case d.Text(in.Key) != "":
		v.Tag, v.Line = "you read", "weighed"
	case quantity.Given(in.Default):
		v.Usual = route.Plain(in.Default)
	default:
		v.Tag = "not read"
	}
	return v
}
