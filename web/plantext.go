package web

import (
	"fmt"
	"strings"

	"rosesalt/chem/account"
	"rosesalt/chem/assay"
	"rosesalt/chem/field"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
	"rosesalt/web/section"
)

// planText is the plan as plain text, for a notebook or a mail. What link.ReadText reads
// again stands before all that a person may have typed, so that no plan in somebody's
// notes is taken for it.
func planText(d *desk.Desk) string {
	t := &plainText{d: d}
	t.line("Rosesalt plan")
	v := sentenceOf(d)
	words := v.Count + " dead "
	for _, o := range v.Sizes {
		if o.Chosen {
			words += o.Name
		}
	}
	for _, part := range v.Parts {
		words += part.Text
	}
	t.line(words)
	if v.Wrong != "" {
		t.line(v.Wrong)
	}
	t.line("", "To open it again, paste this text into “"+pasteLabel+"” on the page. Only these lines are read:", d.PlainLink())
	t.run()
	t.stages()
	t.parts()
	t.days()
	t.club()
	t.assays()
	t.gas()
	t.found()
	if notes := d.Notes(); notes != "" {
		t.title("Notes")
		t.item(strings.ReplaceAll(notes, "\n", "\n  "))
	}
	t.line("", safety.Deference())
	return t.b.String()
}

// plainText is a text being written.
type plainText struct {
	d *desk.Desk
	b strings.Builder
}

func (t *plainText) line(lines ...string) {
	for _, l := range lines {
		t.b.WriteString(l + "\n")
	}
}

func (t *plainText) title(text string) { t.line("", text) }
func (t *plainText) item(text string)  { t.line("  " + text) }

func (t *plainText) run() {
	v := runBarOf(t.d)
	if !v.On {
		return
	}
	done, next := v.Done, v.Next
	if done == "" {
		done = "nothing yet"
	}
	if next == "" {
		next = "nothing: all is done"
	}
	t.line("", "A run is under way. Done: "+done+". Next: "+next+".")
}

func (t *plainText) stages() {
	d := t.d
	inputs, notices := route.Inputs(), route.Notices(d.Plan(), d.Sheet())
	for stage := range route.Stage(route.Stages) {
		t.title(stageTitle[stage].Title)
		for i := range inputs {
			if in := &inputs[i]; in.Stage == stage {
				if text := inputLine(d, in); text != "" {
					t.item(text)
				}
			}
		}
		for _, declared := range route.FiguresOf(stage) {
			if f := viewFigure(d, declared.ID, false, false); declared.Main && f.Why == "" {
				t.item(f.Name + ": " + f.Number + unitAfter(f.Unit) + inRange(f.Range))
			}
		}
		for _, n := range notices {
			if n.Stage == stage && n.Tone == route.Mind {
				t.item("Mind. " + n.Text)
			}
		}
		for _, c := range safety.Cautions(stage, d.Plan()) {
			t.item("Stop. " + c.Lead + " " + c.Text)
		}
	}
}

// inputLine is an input that is set or worked out, as a line of plain text; empty where
// there is nothing to tell.
func inputLine(d *desk.Desk, in *route.Input) string {
	f := viewField(d, in)
	value, interval := in.Value(d.Plan()), d.Text(in.Key+"~")
	says := ""
	switch {
	case !route.Uses(d.Plan(), in.Key) || in.Row > 1 && !quantity.Given(d.Plan().Rows[in.Row-1].Count):
		return ""
	case in.IsChoice():
		return f.Name + ": " + in.OptionName(d.Plan(), int(value))
	case interval == "" && ((in.Standing == route.Measured || in.Standing == route.Chosen) && !quantity.Given(value) || in.Rare && in.IsDefault(d.Plan())):
		return ""
	case !quantity.Given(value):
		says = f.Name + ": " + f.Usual + unitAfter(f.Unit) + ", worked out"
	default:
		says = f.Name + ": " + route.Print(value, in.Unit)
	}
	if interval != "" {
		says += ", by you from " + interval + unitAfter(in.Unit)
	}
	if f.Planned != "" {
		says += ". " + strings.TrimSuffix(f.Planned, ".")
	}
	return says
}

// parts are the parts of the page that are told here as they stand there.
func (t *plainText) parts() {
	source := section.Source{Desk: t.d}
	for i := range section.Parts {
		if p := &section.Parts[i]; p.Told {
			made := p.Of(&source)
			if text := made.Plain(); text != "" {
				t.b.WriteString("\n" + text)
			}
		}
	}
}

func (t *plainText) days() {
	v := daysOf(t.d)
	if v.Nothing {
		return
	}
	t.title(daysTitle)
	if v.Over {
		t.item("All stages of this run are done.")
		return
	}
	t.item(v.Says)
	for _, f := range v.Fields {
		if f.Problem != "" {
			t.item(f.Name + ": " + f.Problem)
		}
	}
	for _, day := range v.Days {
		t.item(day.Title + ": " + day.Brief + ".")
		if day.Until != "" {
			t.item("  Until " + day.Until + ": " + day.Stand)
		}
	}
	for _, st := range t.d.Steps() {
		if st.Asked && st.Batch <= 1 {
			t.item(st.Name + ": " + procedure.Hours(st.Minutes) + ", by you")
		}
	}
}

func (t *plainText) club() {
	v := clubOf(t.d)
	if v.Nothing {
		return
	}
	t.title(clubTitle)
	for _, s := range v.Says {
		t.item(s)
	}
	if v.Gas.Come != "" {
		t.item(v.Gas.Come + " " + v.Gas.Breath + " " + v.Gas.Leak + " " + v.Gas.Remedy)
	}
}

func (t *plainText) assays() {
	begun := false
	for _, o := range t.d.Assays() {
		if !o.Begun {
			continue
		}
		if !begun {
			t.title(assayTitle)
			for i := range assay.Shared {
				t.reading(&assay.Shared[i])
			}
			begun = true
		}
		t.item(o.Method.Name)
		for i := range o.Method.Inputs {
			t.reading(&o.Method.Inputs[i])
		}
		switch {
		case o.Result != nil:
			t.item(fmt.Sprintf("  %s: %s, %s", o.Result.Name, route.Print(o.Result.Value, o.Result.Unit), section.Lower(doubtOf(o.Result))))
		case len(o.Wanting) > 0:
			t.item("  Still wanted: " + wanted(&o))
		}
	}
}

// gas is the log of the gas: what was chosen and read, and what was counted.
func (t *plainText) gas() {
	read := t.d.GasReadings()
	if len(read) == 0 {
		return
	}
	t.title(gasTitle)
	for _, in := range gaslog.Inputs() {
		if _, ok := read[in.Key]; !ok {
			continue
		}
		t.reading(in)
	}
	if log, err := t.d.GasLog(); err == nil && log.Last > 0 {
		t.item(fmt.Sprintf("  By minute %d: %s of gas came over", log.Last, route.Print(log.Gas.Best, "mmol")))
	}
}

// reading is a reading as it stands in its field, where one was taken.
func (t *plainText) reading(in *field.Field) {
	text := t.d.Text(in.Key)
	if text == "" {
		return
	}
	for i, o := range in.Options {
		if o.Word == text {
			if float64(i) == in.Default {
				return // chosen by nobody
			}
			text = o.Name
		}
	}
	t.item("  " + in.Name + ": " + text + unitAfter(in.Unit))
}

func (t *plainText) found() {
	d := t.d
	if d.Found().Empty() {
		return
	}
	t.title(afterTitle)
	read := func(in *field.Field) {
		text := d.Text(in.Key)
		switch {
		case text == "" || in.Kind == field.Fact && text != "1":
			return
		case in.Kind == field.Fact:
			t.item(in.Name + ": yes")
			return
		}
		says := in.Name + ": " + text + unitAfter(in.Unit)
		if half := d.Found().OwnHalf(in.Key); quantity.Given(half) {
			says += " ± " + route.Print(half, in.Unit) + ", by you"
		}
		t.item(says)
	}
	for _, in := range account.Inputs() {
		read(in)
		dish, _ := account.DishInputs(in.Key)
		for i := range dish {
			read(dish[i])
		}
	}
	v := afterOf(d)
	if v.Verdict != "" {
		t.item(v.Verdict)
	}
	for _, c := range v.Causes {
		t.item(c)
	}
	if v.Missing != "" {
		t.item(v.Missing)
	}
}
