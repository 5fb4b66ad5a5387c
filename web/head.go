package web

import (
	"fmt"
	"math"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
	"rosesalt/web/link"
	"rosesalt/web/section"
)

// announcePause is how long typing must rest before the summary is told.
const announcePause = 900 * time.Millisecond

// sentenceView is the plan in a sentence, cut at its parts that can be changed.
type sentenceView struct {
	Count string
	Wrong string // what keeps the sentence from being this plan's
	Sizes []optionView
	Whole bool // the count can be stepped
	Fixed bool // the size cannot be changed
	Done  bool // nor the count
	Parts []phrase
}

// phrase is a run of the sentence; the product's name is in its colour.
type phrase struct{ Text, Tint string }

func sentenceOf(d *desk.Desk) sentenceView {
	p, s := d.Plan(), d.Sheet()
	size, _ := route.InputByKey("cell.size")
	count, _ := route.InputByKey("cell.count")
	v := sentenceView{Count: d.Text(count.Key), Sizes: viewField(d, size).Options, Whole: d.Problem("cell.count") == "", Fixed: d.Locked(size), Done: d.Locked(count)}
	say := func(tint, format string, args ...any) {
		v.Parts = append(v.Parts, phrase{fmt.Sprintf(format, args...), tint})
	}
	print := func(id route.FigureID) string {
		r := readFigure(d, id)
		return r.Number + unitAfter(r.Unit)
	}
	v.Wrong = wrong(d)
	cells, hold := "cells", "hold"
	if p.Rows[0].Count == 1 {
		cells, hold = "cell", "holds"
	}
	if r := p.Rows[0].Rejects; r > 0 && s.Value(route.CellsOpened) > 0 {
		cells += ", " + route.Print(r, "") + " of them left shut,"
	}
	others := 0.0
	for _, r := range p.Rows[1:] {
		if quantity.Given(r.Count) {
			others += r.Count
		}
	}
	if others > 0 {
		cells += " and " + route.Print(others, "") + " of other types"
		hold = "hold"
	}
	if s.Value(route.CellsOpened) == 0 {
		say("", " %s, none of which is opened, give nothing.", cells)
		return v
	}
	batches := route.InBatches(p)
	if batches != "" {
		batches = ", " + batches
	}
	say("", " %s %s about %s of oxide. %s%s, with %s of %s sulfuric acid in all and ", cells, hold, print(route.MixOxide), shareWords(p.BatchShare), batches,
		route.Print(route.StrongAcid(p, s).All(), "mL"), route.Print(float64(p.GasStrength), "%"))
	switch p.GasSource {
	case route.FromCopper:
		say("", "%s of copper, gives ", print(route.GasCopperUsed))
	case route.FromMetabisulfite:
		say("", "%s of metabisulfite, gives ", print(route.GasSaltUsed))
	default:
		reductant, _ := route.Stirred(p, s)
		say("", "%s of %s, gives ", route.Print(reductant.Amount, reductant.Unit), section.Lower(reductant.Name))
	}
	say("rose", "%s of %s", print(route.ProductMass), product(s))
	if s.Reason(route.CopperCrop) == route.Defined {
		say("", " and ")
		say("blue", "%s of blue copper sulfate", print(route.CopperCrop))
	}
	say("", ".")
	if r := readFigure(d, route.ProductMass); r.Range != "" {
		say("", " Eight times in ten the jar holds ")
		say("rose", "%s", r.Ends+unitAfter(r.Unit))
		if r.Middle != "" {
			say("", ", half the time less than ")
			say("rose", "%s", r.Middle+unitAfter(r.Unit))
		}
		say("", ".")
	}
	if small := smallVessels(d); small != nil {
		say("stop", " Too small for what is poured: %s.", smallWords(small))
	}
	say("soft", " %s", standing(d))
	return v
}

// product names the salt, and says that it is far from pure where it is.
func product(s *route.Sheet) string {
	if purity := s.Value(route.ProductPurity); s.Reason(route.ProductPurity) == route.Defined && purity < 90 {
		return "raw manganese sulfate (" + route.Print(purity, "%") + " pure)"
	}
	return "manganese sulfate"
}

// wrong says which fields cannot be used, so that the sentence is not taken for
// what is typed.
func wrong(d *desk.Desk) string {
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
	says := strings.Join(names, ", ") + " cannot be used as typed: this is still the plan of before."
	if len(names) == 1 {
		says += " " + reason
	}
	return says
}

// shareWords says a share as a person does.
func shareWords(share quantity.Percent) string {
	words := map[float64]string{100: "All of it", 50: "Half of it", 25: "A quarter of it", 20: "A fifth of it", 10: "A tenth of it", 75: "Three quarters of it"}
	if w, ok := words[float64(share)]; ok {
		return w
	}
	return route.Print(float64(share), "%") + " of it"
}

// standing says how much of the plan rests on guesses.
func standing(d *desk.Desk) string {
	drawn := map[string]bool{} // what the doubt rests on: not what a weighing overrules
	for _, u := range d.Run().Uncertains() {
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
	if weighed == 0 {
		return fmt.Sprintf("%d of the inputs are estimates and nothing is weighed yet, so take every figure as a guide.", guesses)
	}
	return fmt.Sprintf("%d of the inputs are still estimates.", guesses)
}

// sentence is the plan as a sentence, its count and size changed in place.
type sentence struct {
	app.Compo
	View sentenceView
}

func (s *sentence) Render() app.UI {
	v := s.View
	class := "says"
	if v.Wrong != "" {
		class += " old"
	}
	count := app.ElemSelfClosing("input").Attr("type", "text").Attr("inputmode", "numeric").Attr("autocomplete", "off").Aria("label", "How many cells").
		Class("count").Attr("readonly", v.Done).DataSet("key", "cell.count")
	if v.Wrong != "" {
		count = count.Aria("describedby", "says.problem")
	}
	return app.Elem("h1").Class(class).Body(
		app.Elem("span").Class("set step").Body(
			app.Elem("button").Attr("type", "button").Aria("label", "One cell fewer").Text("−").Attr("disabled", v.Done).OnClick(s.onStep(-1)),
			count,
			app.Elem("button").Attr("type", "button").Aria("label", "One cell more").Text("+").Attr("disabled", v.Done).OnClick(s.onStep(1)),
		),
		app.Text(" dead "),
		app.Elem("span").Class("set pick").Body(
			options(app.Elem("select").Attr("disabled", v.Fixed).Aria("label", "Size of the cells").DataSet("key", "cell.size"), v.Sizes),
		),
		app.Range(v.Parts).Slice(func(i int) app.UI {
			part := v.Parts[i]
			return app.Elem("span").Class(part.Tint).Text(part.Text)
		}),
		wrongLine(v.Wrong),
	)
}

func wrongLine(text string) app.UI {
	if text == "" {
		return nil
	}
	return app.Elem("span").Class("problem").ID("says.problem").Text(text)
}

func (s *sentence) onStep(by float64) app.EventHandler {
	return func(ctx app.Context, _ app.Event) {
		in, _ := route.InputByKey("cell.count")
		v, err := in.Read(s.View.Count)
		if err != nil || !quantity.Given(v) {
			v = 0
		}
		v = math.Min(in.Max, math.Max(in.Min, math.Round(v)+by))
		ctx.NewActionWithValue(section.Edit, "cell.count="+route.Plain(v))
	}
}

// stripView is the summary that stays in view.
type stripView struct {
	Items []stripItem
	Stop  string
}

type stripItem struct {
	Name, Number, Unit, Tint string
	Range                    string
	Fold                     bool // left out where room is short
	Old                      bool
}

func stripOf(d *desk.Desk) stripView {
	s := d.Sheet()
	v := stripView{Stop: safety.Loudest(d.Plan())}
	add := func(name string, id route.FigureID, tint string, fold bool) {
		if s.Reason(id) != route.Defined {
			return
		}
		item := stripItem{Name: name, Tint: tint, Fold: fold, Old: id.Info().Stage >= d.OldFrom()}
		if id.Info().Words != nil {
			item.Number = s.Word(id)
		} else {
			r := readFigure(d, id)
			item.Number, item.Unit, item.Range = r.Number, r.Unit, r.Range
		}
		v.Items = append(v.Items, item)
	}
	add("Product", route.ProductMass, "rose", false)
	add("Blue salt", route.CopperCrop, "blue", true)
	acid := route.StrongAcid(d.Plan(), s)
	number, unit := route.PrintParts(acid.All(), "mL")
	if acid.All() > 0 {
		v.Items = append(v.Items, stripItem{Name: "Acid in all", Number: number, Unit: unit, Range: acid.Where(), Fold: true, Old: route.Slurry >= d.OldFrom()})
	}
	add("Copper", route.GasCopperUsed, "", true)
	add("Metabisulfite", route.GasSaltUsed, "", true)
	if need, ok := route.Stirred(d.Plan(), s); ok {
		number, unit := route.PrintParts(need.Amount, need.Unit)
		v.Items = append(v.Items, stripItem{Name: need.Name, Number: number, Unit: unit, Fold: true})
	}
	add("Gas", route.GasVolume, "ochre", true)
	if s.Word(route.GasLimit) != "neither" {
		add("Runs out first", route.GasLimit, "", true)
	}
	if small := smallVessels(d); small != nil && s.Value(route.CellsOpened) > 0 {
		v.Items = append(v.Items, stripItem{Name: "Too small:", Number: smallWords(small), Tint: "stop"})
	}
	return v
}

// strip is the summary, and the list of stages to jump by.
type strip struct {
	app.Compo
	View stripView
}

func (s *strip) Render() app.UI {
	v := s.View
	return app.Elem("div").Class("strip").Role("region").Aria("label", "Summary").Body(
		app.Elem("div").Class("sum").Body(
			app.Range(v.Items).Slice(func(i int) app.UI {
				item := v.Items[i]
				class := "item " + item.Tint
				if item.Fold {
					class += " fold"
				}
				if item.Old {
					class += " old"
				}
				return app.Elem("div").Class(class).Body(
					app.Elem("span").Text(item.Name+" "), app.Elem("b").Class("num").Text(item.Number), app.Elem("small").Text(unitAfter(item.Unit)),
					rangeOf(item.Range),
				)
			}),
			app.Elem("p").Class("stop").Text(v.Stop),
		),
		app.Elem("nav").Aria("label", "Stages").Aria("describedby", "stages.hint").Body(
			app.Range(jumps()).Slice(func(i int) app.UI {
				title := jumps()[i]
				return app.Elem("button").Attr("type", "button").DataSet("to", section.ID(title)).Text(title).OnClick(jumpTo(section.ID(title)), title)
			}),
		),
		app.Elem("p").Class("hint").ID("stages.hint").Text("Escape comes back here from anywhere on the page."),
	)
}

func rangeOf(text string) app.UI {
	if text == "" {
		return nil
	}
	return app.Elem("small").Class("range").Text(" " + text)
}

func jumps() []string {
	var list []string
	for _, t := range stageTitle {
		list = append(list, t.Title)
	}
	for i := range section.Parts {
		list = append(list, section.Parts[i].Title)
	}
	return list
}

// jumpTo scrolls to a section and puts the focus on its title, so that the next
// Tab goes on from there.
func jumpTo(id string) app.EventHandler {
	return func(ctx app.Context, _ app.Event) {
		title := app.Window().GetElementByID(id + ".title")
		if title.Truthy() {
			title.Call("focus", map[string]any{"preventScroll": true})
			app.Window().GetElementByID(id).Call("scrollIntoView")
		}
	}
}

// toStages brings the focus from anywhere on the page to the list of stages, at the
// section where it stood, when Escape is pressed: the page is long, and the tabulator
// goes through all of it. Nothing is drawn anew for a key.
func (p *page) toStages(e app.Value) {
	if e.Get("key").String() != "Escape" || e.Get("isComposing").Bool() || p.bench.open || p.how.key != "" {
		return
	}
	document := app.Window().Get("document")
	active := document.Get("activeElement")
	if !active.Truthy() || active.Call("closest", "nav").Truthy() {
		return
	}
	to := document.Call("querySelector", "nav button")
	if section := active.Call("closest", "main > section"); section.Truthy() {
		if own := document.Call("querySelector", `nav [data-to="`+section.Get("id").String()+`"]`); own.Truthy() {
			to = own
		}
	}
	if to.Truthy() {
		to.Call("focus")
	}
}

// troubles says what a link held that could not be taken.
type troubles struct {
	app.Compo
	List []link.Trouble
}

func (t *troubles) Render() app.UI {
	if len(t.List) == 0 {
		return app.Elem("div").Class("troubles none")
	}
	return app.Elem("div").Class("troubles").Role("alert").Body(
		app.Elem("p").Body(app.Elem("b").Text("Not all of what was opened could be taken."), app.Text(" The rest stands.")),
		app.Elem("ul").Body(app.Range(t.List).Slice(func(i int) app.UI {
			return app.Elem("li").Body(
				app.If(t.List[i].Part != "", app.Elem("code").Text(t.List[i].Part)),
				app.Text(" "+strings.TrimSuffix(t.List[i].Why, ".")+"."),
			)
		})),
	)
}

// spoken is what a screen reader hears after a change: what is wrong with the field that
// was typed in, or what a reading came to, or the summary.
func (p *page) spoken() string {
	d, key := p.desk, p.touched
	if problem := d.Problem(key); problem != "" {
		return problem
	}
	if form, _, ok := d.Find(key); ok {
		switch form.Anew {
		case field.Assays:
			return p.late.assays.spoken(key)
		case field.Gas:
			return "" // what the log says speaks for itself
		}
	}
	return summary(d)
}

// summary is the strip in words.
func summary(d *desk.Desk) string {
	var b strings.Builder
	for _, item := range stripOf(d).Items {
		fmt.Fprintf(&b, "%s %s %s. ", item.Name, item.Number, item.Unit)
	}
	if n := d.Wrong(); n > 0 {
		fmt.Fprintf(&b, "Fields that want attention: %d.", n)
	}
	return b.String()
}

func inRange(text string) string {
	if text == "" {
		return ""
	}
	return " (" + text + ")"
}

func plainSection(title, sub string, body ...app.UI) app.UI {
	id := section.ID(title)
	return app.Elem("section").ID(id).Aria("labelledby", id+".title").Body(
		app.Elem("div").Class("spine").Aria("hidden", "true"),
		app.Elem("div").Class("body").Body(append([]app.UI{
			app.Elem("h2").ID(id+".title").TabIndex(-1).Body(app.Text(title+" "), app.Elem("small").Text(sub)),
		}, body...)...),
	)
}
