package section

import (
	"slices"
	"strconv"
	"strings"

	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/picture"
)

// The actions of the stages.
const (
	AddRow  = "row.add"    // another type of cell, with no value
	DropRow = "row.drop"   // with the row's number
	Mended  = "mend"       // a change that a notice proposes, with "key=value"
	Done    = "run.done"   // a stage of the run is done, with its number
	Reopen  = "run.reopen" // it is not, with its number
)

// stages names the stages as the page does.
var stages = [route.Stages]string{
	"Cells", "Wash", "Batch", "Gas", "Slurry", "Filter", "Dry", "Copper salt", "Scrub and waste",
}

// StageTitle is the title of a stage.
func StageTitle(stage route.Stage) string { return stages[stage] }

// StageID is the id of a stage's section.
func StageID(stage route.Stage) string { return ID(stages[stage]) }

// Pictures are the pictures at each stage. They come once typing rests.
type Pictures [route.Stages][]doc.Node

// PicturesOf draws the pictures of a plan.
func PicturesOf(p *route.Plan, s *route.Sheet) (all Pictures) {
	all[route.Wash] = doc.Nodes{doc.Picture{Picture: picture.Chloride(route.AlongWashes(p))}}
	if route.HotAcid(p) {
		all[route.Gas] = doc.Nodes{doc.Picture{Picture: picture.Acid(route.AlongCopper(p))}}
	}
	if route.MakesCopperSalt(p) {
		all[route.CopperSalt] = doc.Nodes{doc.Picture{Picture: picture.Solubility(p, s)}}
	} else if p.DryWay == route.ToCrystals {
		all[route.Dry] = doc.Nodes{doc.Picture{Picture: picture.Solubility(p, s)}}
	}
	if route.Sulfurous(p) {
		all[route.Slurry] = doc.Nodes{doc.Picture{Picture: picture.Temperature(warmth(p))}}
	}
	return all
}

// warmth is a plan that sulfur dioxide comes into, with its slurry colder and warmer.
func warmth(p *route.Plan) *picture.Warmth {
	at := route.AlongTemperature(p, []float64{float64(p.SlurryTemperature), 0, 5, 10, 15, 20, 30, 40, 50, 60, 70, 80, 90})
	return &picture.Warmth{Gaseous: route.Gaseous(p), Own: at[0], Along: at[1:], Ends: route.Anchors(p)}
}

// Stages are the stages of the page; found is what is found in those that are shut, by their
// place, nil for all of them open. The names of figures open their workings only on a page
// that stands already: so many buttons would cost its start.
func Stages(s *Source, pictures *Pictures, opens bool, found func(route.Stage) (words string, shut bool)) []doc.Section {
	streams := streams(s.Desk)
	list := make([]doc.Section, route.Stages)
	for stage := range route.Stage(route.Stages) {
		made := doc.Section{ID: StageID(stage), Title: StageTitle(stage), Stream: streams[stage]}
		made.Line, made.Marks = line(s.Desk, stage)
		words, shut := "", false
		if found != nil {
			words, shut = found(stage)
		}
		if shut {
			made = made.Closed(words)
		} else {
			made.Of = inStage(s, stage, pictures[stage], opens)
			made = withTerms(made)
		}
		list[stage] = made
	}
	return list
}

// inStage is what a stage says when it is open.
func inStage(s *Source, stage route.Stage, pictures []doc.Node, opens bool) []doc.Node {
	fields, inputs := doc.Box{Class: "inputs"}, route.Inputs()
	if stage == route.Cells {
		fields.Of = bag(s, inputs)
	}
	fields.Of = append(fields.Of, fieldsOf(s, inputs, func(in *route.Input) bool {
		return in.Stage == stage && in.Row == 0 && route.Uses(s.Plan(), in.Key)
	}), done(s.Desk, stage))

	shown := doc.Box{Class: "figures", Of: figures(s.Desk, stage, opens)}
	for _, n := range s.Notices() {
		if n.Stage == stage {
			shown.Of = append(shown.Of, notice(s.Desk, n))
		}
	}
	list := doc.Nodes{
		doc.Div("cols", fields, shown),
		doc.Box{Of: pictures}, // they come late: what is below must not become another element
	}
	for _, c := range safety.Cautions(stage, s.Plan()) {
		list = append(list, doc.Notice{Class: "stop", Lead: "Stop. " + c.Lead, Text: c.Text})
	}
	return list
}

// yields are the figures that the stages are about, each by its key, with the digits that it has on the
// first screen.
func yields(d *desk.Desk) (places []string) {
	for id := range tint {
		if d.Sheet().Amount(id) > 0 {
			r := Read(d, id)
			places = append(places, id.Info().Key, r.Number+doc.Unit(r.Unit))
		}
	}
	return places
}

// line is a stage in a line, and what wants attention there: what cannot be read, what is too
// small, what can hurt, what else to mind.
func line(d *desk.Desk, stage route.Stage) (says []doc.Node, marks []doc.Mark) {
	l := route.LineOf(stage, d.Plan(), d.Sheet(), yields(d)...)
	tint := ""
	if stage >= d.OldFrom() {
		tint = " old"
	}
	for i, part := range l.Parts {
		text, class := part.Text, tint
		if i > 0 && !strings.HasPrefix(text, ":") {
			text = " " + text
		}
		if part.Name != "text" {
			class = part.Name + tint
		}
		says = append(says, doc.Span{Class: strings.TrimSpace(class), Of: doc.Nodes{doc.Text(text)}})
	}
	mark := func(class, text string) {
		if text != "" {
			marks = append(marks, doc.Mark{Class: class, Text: text})
		}
	}
	if r := d.Started(); r != nil && stage < r.Done {
		mark("done", "done")
	}
	if n := faults(d, stage); n > 0 {
		mark("bad", "fields to mend: "+strconv.Itoa(n))
	}
	for _, v := range d.Vessels() {
		if v.Stage == stage && v.TooSmall() {
			mark("stop", "too small: "+v.Word())
		}
	}
	mark("stop", l.Stop)
	mark("mind", l.Mind)
	minds := 0
	for _, n := range d.Notices() {
		if n.Stage == stage && n.Tone == route.Mind && !slices.Contains(usual, n.Key) {
			minds++
		}
	}
	if minds > 0 {
		mark("mind", strconv.Itoa(minds)+" to mind")
	}
	return says, marks
}

// faults counts the fields of a stage that cannot be used as typed.
func faults(d *desk.Desk, stage route.Stage) (n int) {
	inputs := route.Inputs()
	for i := range inputs {
		if inputs[i].Stage == stage && d.Problem(inputs[i].Key) != "" {
			n++
		}
	}
	return n
}

// bag are the rows of the bag, a type of cell each.
func bag(s *Source, inputs []route.Input) (list []doc.Node) {
	rows := s.Rows()
	for _, number := range rows {
		n := strconv.Itoa(number)
		row := doc.Box{Class: "bagrow"}
		if len(rows) > 1 {
			row.Role, row.Label = "group", "Type "+n
		}
		if number > 1 && s.Started() == nil {
			row.Of = append(row.Of, doc.ScreenOnly{doc.Div("bagtitle",
				doc.Span{Of: doc.Nodes{doc.Text("Type " + n)}}, doc.Button{Class: "plain", Text: "Take out", Label: "Take out type " + n, Action: DropRow, Value: n},
			)})
		}
		row.Of = append(row.Of, fieldsOf(s, inputs, func(in *route.Input) bool { return in.Row == number }))
		list = append(list, row)
	}
	if len(rows) < route.MaxRows && s.Started() == nil {
		list = append(list, doc.Button{Class: "plain", ID: "add.row", Text: "Another type of cell in the bag", Action: AddRow})
	}
	return list
}

// fieldsOf are the fields of inputs.
func fieldsOf(s *Source, inputs []route.Input, has func(*route.Input) bool) doc.Nodes {
	var often, rare doc.Fields
	for i := range inputs {
		switch in := &inputs[i]; {
		case !has(in):
		case in.Rare:
			rare = append(rare, Field(s.Desk, in))
		default:
			often = append(often, Field(s.Desk, in))
		}
	}
	return folding(often, rare)
}

// folding puts away fields that are seldom changed, and names the first of them.
func folding(often, rare doc.Fields) doc.Nodes {
	if rare == nil {
		return doc.Nodes{often}
	}
	title := "Seldom changed: " + rare[0].Name
	if len(rare) > 1 {
		title += ", and " + strconv.Itoa(len(rare)-1) + " more"
	}
	bad := slices.ContainsFunc(rare, func(f doc.Field) bool { return f.Problem != "" })
	return doc.Nodes{often, doc.Fold{Title: title, Of: doc.Nodes{rare}, Open: bad, Told: true}}
}

// done ends a stage of the run, or opens it again.
func done(d *desk.Desk, stage route.Stage) doc.Node {
	value, id, title := strconv.Itoa(int(stage)), StageID(stage), StageTitle(stage)
	switch r := d.Started(); {
	case r == nil:
		return nil
	case stage < r.Done:
		return doc.ScreenOnly{doc.P("step-done",
			doc.Strong("Done. "), doc.Text("The amounts are kept as they stand. "),
			doc.Button{Class: "plain", ID: "open." + id, Text: "Open " + title + " again", Action: Reopen, Value: value},
		)}
	}
	return doc.P("step-done", doc.Button{Class: "do", ID: "done." + id, Text: title + " done: keep these amounts", Action: Done, Value: value})
}

// figures are those of a stage: the main ones, and the others under a fold.
func figures(d *desk.Desk, stage route.Stage, opens bool) []doc.Node {
	var first, more doc.Figures
	old := stage >= d.OldFrom()
	for _, f := range route.FiguresOf(stage) {
		seen := Figure(d, f.ID, old, f.Main)
		if f.Main && !d.Sheet().Reason(f.ID).OtherWay() {
			first = append(first, seen)
		} else {
			more = append(more, seen)
		}
	}
	for _, list := range []doc.Figures{first, more} {
		for i := range list {
			list[i].Opens = opens
		}
	}
	if more == nil {
		return doc.Nodes{first}
	}
	return doc.Nodes{first, doc.Fold{Title: "All other figures of this stage", Of: doc.Nodes{more}}}
}

// notice is a notice with the changes that it proposes. The text leaves out what is no more
// than a tip.
func notice(d *desk.Desk, n route.Notice) doc.Node {
	if n.Tone != route.Mind {
		return doc.ScreenOnly{doc.Notice{Class: "tip", Lead: "Tip.", Text: n.Text}}
	}
	return doc.Notice{Class: "mind", Lead: "Mind.", Text: n.Text, Do: mends(d, n.Mends)}
}

// mends are buttons that make changes, but for those that a run under way does not allow.
func mends(d *desk.Desk, list []route.Mend) (buttons []doc.Button) {
	locked := func(key string) bool {
		in, ok := route.InputByKey(key)
		return !ok || d.Locked(in)
	}
	for _, m := range list {
		if !locked(m.Key) && (m.Minutes == 0 || !locked("gas.minutes")) {
			buttons = append(buttons, doc.Button{Class: "do", Text: m.Text, Action: Mended, Value: m.Key + "=" + route.Plain(m.Value)})
		}
	}
	return buttons
}

// Mend makes a change in the plan.
func Mend(d *desk.Desk, m route.Mend) {
	d.Edit(m.Key, route.Plain(m.Value))
	if m.Minutes > 0 {
		d.Edit("gas.minutes", route.Plain(m.Minutes))
	}
}

// MendOf is the change that a button of a notice asks for.
func MendOf(d *desk.Desk, value string) (route.Mend, bool) {
	for _, n := range d.Notices() {
		for _, m := range n.Mends {
			if m.Key+"="+route.Plain(m.Value) == value {
				return m, true
			}
		}
	}
	return route.Mend{}, false
}
