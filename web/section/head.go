package section

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/link"
)

// The actions of the head of the page.
const (
	StartRun   = "run.start"  // with no value
	StartOver  = "plan.reset" // with no value
	Jump       = "jump"       // to a section, with its id
	ToPlanning = "run.drop"   // back to planning, with no value
)

// Words is the plan in its sentence; unless all of it is asked for, without how much of it is
// a guess.
func Words(d *desk.Desk, all bool) string {
	count, _ := route.InputByKey("cell.count")
	size, _ := route.InputByKey("cell.size")
	words := d.Text(count.Key) + " dead " + size.OptionName(d.Plan(), int(size.Value(d.Plan())))
	for _, part := range clauses(d) {
		if all || part.tint != "soft" {
			words += part.text
		}
	}
	return words
}

// clause is a run of the sentence; the product's name is in its colour.
type clause struct{ text, tint string }

// clauses are the sentence behind the size of the cells.
func clauses(d *desk.Desk) (list []clause) {
	p, s := d.Plan(), d.Sheet()
	say := func(tint, format string, args ...any) {
		list = append(list, clause{fmt.Sprintf(format, args...), tint})
	}
	print := func(id route.FigureID) string {
		r := Read(d, id)
		return r.Number + doc.Unit(r.Unit)
	}
	cells, hold := "cells", "hold"
	if p.Rows[0].Count == 1 {
		cells, hold = "cell", "holds"
	}
	cells += besides(d)
	if others(p) > 0 {
		hold = "hold"
	}
	if s.Value(route.CellsOpened) == 0 {
		say("", " %s, none of which is opened, give nothing.", cells)
		return list
	}
	batches := route.InBatches(p)
	if batches != "" {
		batches = ", " + batches
	}
	say("", " %s %s about %s of oxide. %s of it%s, with %s of %s sulfuric acid in all and ", cells, hold, print(route.MixOxide), phrase.Capital(shareWords(p.BatchShare)), batches,
		route.Print(route.StrongAcid(p, s).All(), "mL"), route.Print(float64(p.GasStrength), "%"))
	reductant := route.ReductantOf(p)
	say("", "%s of %s, gives ", print(reductant.Used), reductant.Name)
	say("rose", "%s of %s", print(route.ProductMass), product(s))
	if s.Reason(route.CopperCrop) == route.Defined {
		say("", " and ")
		say("blue", "%s of blue copper sulfate", print(route.CopperCrop))
	}
	say("", ".")
	if r := Read(d, route.ProductMass); r.Range != "" {
		say("", " Eight times in ten the jar holds ")
		say("rose", "%s", r.Range+doc.Unit(r.Unit))
		say("", ".")
	}
	if small := TooSmall(d); small != "" {
		say("stop", " Too small for what is poured: %s.", small)
	}
	say("soft", " %s", guessed(d))
	return list
}

// product names the salt, and says that it is far from pure where it is.
func product(s *route.Sheet) string {
	if purity := s.Value(route.ProductPurity); s.Reason(route.ProductPurity) == route.Defined && purity < 90 {
		return productName(s) + " (" + route.Print(purity, "%") + " pure)"
	}
	return productName(s)
}

// productName names the salt, raw where it is far from pure.
func productName(s *route.Sheet) string {
	if s.Reason(route.ProductPurity) == route.Defined && s.Value(route.ProductPurity) < 90 {
		return "raw manganese sulfate"
	}
	return "manganese sulfate"
}

// unusable says which fields cannot be used, so that the sentence is not taken for
// what is typed.
func unusable(d *desk.Desk) string {
	var names []string
	reason := ""
	inputs := route.Inputs()
	for i := range inputs {
		if d.Problem(inputs[i].Key) != "" {
			reason = d.Problem(inputs[i].Key)
			names = append(names, "“"+inputs[i].Name+"”")
		}
	}
	if len(names) == 0 {
		return ""
	}
	if len(names) > 1 {
		reason = ""
	}
	return glanced(d, "unusable", "names", strings.Join(names, ", "), "reason", reason)
}

// guessed says how much of the plan rests on guesses.
func guessed(d *desk.Desk) string {
	drawn := map[string]bool{} // what the doubt rests on: not what a weighing overrules
	for _, u := range d.Uncertains() {
		drawn[u.Input.Key] = true
	}
	guesses, weighed := 0, 0
	inputs := route.Inputs()
	for i := range inputs {
		in := &inputs[i]
		switch {
		case in.Standing == route.Estimated && in.IsDefault(d.Plan()) && drawn[in.Key]:
			guesses++
		case in.Standing == route.Measured && !in.IsDefault(d.Plan()):
			weighed++
		}
	}
	return glanced(d, "guesses", "guesses", strconv.Itoa(guesses), "weighed", route.If(weighed > 0))
}

// TooSmallWord begins what is said of a vessel that does not hold what is poured.
const TooSmallWord = "Too small a vessel"

// Item is a figure of the summary.
type Item struct {
	Name, Number, Unit, Tint string
	Range                    string
	Fold                     bool // left out where room is short
	Long                     bool // left out of the strip: it stands above
	Old                      bool
}

// Summary is the figures that stay in view.
func Summary(d *desk.Desk) (list []Item) {
	s := d.Sheet()
	add := func(name string, id route.FigureID, tint string, fold, long bool) {
		if s.Reason(id) != route.Defined {
			return
		}
		item := Item{Name: name, Tint: tint, Fold: fold, Long: long, Old: id.Info().Stage >= d.OldFrom()}
		if id.Info().Words != nil {
			item.Number = s.Word(id)
		} else {
			r := Read(d, id)
			item.Number, item.Unit, item.Range = r.Number, r.Unit, r.Range
		}
		list = append(list, item)
	}
	add("Product", route.ProductMass, "rose", false, false)
	add("Blue salt", route.CopperCrop, "blue", true, false)
	acid := route.StrongAcid(d.Plan(), s)
	number, unit := route.PrintParts(acid.All(), "mL")
	if acid.All() > 0 {
		list = append(list, Item{Name: "Acid to pour", Number: number, Unit: unit, Fold: true, Old: route.Slurry >= d.OldFrom()})
	}
	reductant := route.ReductantOf(d.Plan())
	add(reductant.Title(), reductant.Used, "", true, true)
	add("Gas", route.GasVolume, "ochre", true, false)
	if s.Word(route.GasLimit) != route.NeitherFirst {
		add("Runs out first", route.GasLimit, "", true, false)
	}
	if small := TooSmall(d); small != "" && s.Value(route.CellsOpened) > 0 {
		list = append(list, Item{Name: "Too small:", Number: small, Tint: "stop"})
	}
	return list
}

// Strip is the line that stays in view: the summary without what is long, and the main caution.
func Strip(s *Source) []doc.Node {
	sum := doc.Box{Class: "sum"}
	for _, item := range Summary(s.Desk) {
		if item.Long {
			continue
		}
		class := "item " + item.Tint
		if item.Fold {
			class += " fold"
		}
		if item.Old {
			class += " old"
		}
		line := doc.Box{Class: class, Of: doc.Nodes{
			doc.Span{Of: doc.Nodes{doc.Text(item.Name + " ")}}, doc.Span{Class: "num", Of: doc.Nodes{doc.Text(item.Number)}}, doc.Small{Text: doc.Unit(item.Unit)},
		}}
		if item.Range != "" {
			line.Of = append(line.Of, doc.Small{Class: "range", Text: " " + item.Range})
		}
		sum.Of = append(sum.Of, line)
	}
	sum.Of = append(sum.Of, doc.PText("stop", safety.MainCaution(s.Plan())))
	return doc.Nodes{sum}
}

// Troubles says what a link held that could not be taken.
func Troubles(list []link.Trouble) []doc.Node {
	if len(list) == 0 {
		return nil
	}
	var items []doc.Node
	for _, t := range list {
		item := doc.Nodes{doc.Text(" " + strings.TrimSuffix(t.Why, ".") + ".")}
		if t.Part != "" {
			item = append(doc.Nodes{doc.Code(t.Part)}, item...)
		}
		items = append(items, item)
	}
	return doc.Nodes{
		doc.P("", doc.Strong("Not all of what was opened could be taken."), doc.Text(" The rest stands.")), doc.List{Items: items},
	}
}

// Since says what moved the figures of a plan that an earlier version of the page wrote.
func Since(d *desk.Desk) []doc.Node {
	changes := d.ChangesSince()
	if len(changes) == 0 {
		return nil
	}
	return doc.Nodes{
		doc.P("", doc.Strong("This plan was written by an earlier version of this page."), doc.Text(" What was chosen in it stands as it was. Of its figures these have changed:")),
		doc.List{Items: doc.Texts(changes)},
	}
}

// RunBar tells that a run is under way.
func RunBar(d *desk.Desk) []doc.Node {
	r := d.Started()
	if r == nil {
		return nil
	}
	var names []string
	for stage := range r.Done {
		names = append(names, StageTitle(stage))
	}
	state := "Nothing is marked done yet."
	switch {
	case r.Done >= route.Stages:
		state = "All stages are done: weigh, and go to “" + AfterTitle + "”."
	case names != nil:
		state = "Done: " + strings.Join(names, ", ") + ". Next: " + StageTitle(r.Done) + "."
	}
	return doc.Nodes{
		doc.P("",
			doc.Strong("A run is under way. "),
			doc.ScreenOnly{doc.Text("The plan is fixed. Beside each planned amount type what you really took, and mark a stage done when it is; only what is still ahead is worked out anew. ")},
			doc.Text(state),
		),
		doc.Button{Text: "Back to planning", Action: ToPlanning},
	}
}

// TooSmall names the vessels that do not hold what is poured into them, in a sentence and in
// the strip; empty where all do.
func TooSmall(d *desk.Desk) string {
	var words []string
	for _, v := range d.Vessels() {
		if v.TooSmall() {
			words = append(words, v.Word())
		}
	}
	return strings.Join(words, ", ")
}

// TooSmallBox says above the strip what to do about such vessels, each change once.
func TooSmallBox(d *desk.Desk) (says []doc.Node) {
	var all []route.Mend
	for _, v := range d.Vessels() {
		if !v.TooSmall() || d.Sheet().Value(route.CellsOpened) == 0 {
			continue
		}
		said := doc.PText("", v.Warning())
		if says == nil {
			said = doc.P("", doc.Strong(TooSmallWord+". "), said.Of[0])
		}
		says = append(says, said)
		for _, m := range v.Mends() {
			if !slices.ContainsFunc(all, func(n route.Mend) bool { return n.Text == m.Text }) {
				all = append(all, m)
			}
		}
	}
	if buttons := mends(d, all); buttons != nil {
		press := doc.P("mends")
		for _, b := range buttons {
			press.Of = append(press.Of, b)
		}
		says = append(says, press)
	}
	return says
}
