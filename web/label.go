package web

import (
	"maps"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/chart"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

const (
	labelsTitle = "Jar labels"
	// labelsOnly is on the root of the document while only the labels are printed.
	labelsOnly = "labels-only"
)

// labelsView is the labels of a plan.
type labelsView struct {
	Labels []labelView
	Texts  labelTexts
}

type labelView struct {
	Name, Formula, Expect, Unit, Holds string
	Signal                             string
	Pictograms                         []string
	Hazards, Precautions, Notes        []string
	Size                               string // class of a larger label
}

func labelsOf(d *desk.Desk) labelsView {
	var v labelsView
	for _, l := range safety.Labels(d.Plan(), d.Sheet(), d.Bench().Book()) {
		v.Labels = append(v.Labels, labelOf(&l))
	}
	return v
}

// sizeClass is the class of what is larger than the least label.
var sizeClass = map[safety.Size]string{safety.SizeOf(10e3): " large", safety.SizeOf(100e3): " huge"}

func labelOf(l *safety.Label) labelView {
	v := labelView{
		Name: l.Name, Formula: l.Formula, Unit: "g", Signal: string(l.Signal), Notes: l.Notes,
		Size: sizeClass[l.Size],
	}
	switch {
	case l.Mass > 0:
		v.Expect = "expect about " + route.Print(float64(l.Mass), "g")
		_, v.Unit = route.PrintParts(float64(l.Mass), "g")
	case l.Volume > 0:
		v.Expect = "expect about " + route.Print(float64(l.Volume), "mL")
		_, v.Unit = route.PrintParts(float64(l.Volume), "mL")
	case l.Kind != safety.Product:
		v.Unit = "mL"
	}
	for _, p := range l.Pictograms {
		v.Pictograms = append(v.Pictograms, string(p))
	}
	v.Hazards, v.Precautions = statements(l.Hazards), statements(l.Precautions)
	const most = 5 // contents that a label has room for
	var in []string
	for i, h := range l.Holds {
		if i == most {
			in = append(in, "and traces")
			break
		}
		in = append(in, route.Print(float64(h.Mass), "g")+" "+h.Name)
	}
	v.Holds = strings.Join(in, ", ")
	return v
}

func statements(list []safety.Statement) []string {
	var lines []string
	for _, s := range list {
		lines = append(lines, string(s.Code)+"\u00a0"+s.Words)
	}
	return lines
}

// jarLabels is the section of the labels. Its labels are not there until asked for: the
// start is short because of it.
type jarLabels struct {
	app.Compo
	View labelsView

	open  bool
	begun bool            // the labels are there, shown or not
	off   map[string]bool // by name: not to be printed
	said  string
}

func (l *jarLabels) Render() app.UI {
	word := "Show the labels"
	if l.open {
		word = "Put the labels away"
	}
	body := []app.UI{
		app.Elem("p").Class("lede labels-tools").Text("For both salts, what is kept, what you make up, and the waste. Masses, batch and date are left to the pencil; hazards are the stricter where sources differ. Compare them with the supplier's current safety data sheet."),
		app.Elem("button").Attr("type", "button").ID("labels.show").Class("plain labels-tools").Aria("expanded", l.open).Text(word).OnClick(l.onShow),
	}
	if l.begun {
		class := "jarlabels"
		if !l.open {
			class += " away"
		}
		body = append(body, app.Elem("div").Class(class).Body(l.tools(), l.grid(), classTable()))
	}
	return plainSection(labelsTitle, "at their size on paper", body...)
}

func (l *jarLabels) tools() app.UI {
	return app.Elem("div").Class("labels-tools").Body(
		app.Elem("div").Class("rows").Body(app.Range(labelFields[:]).Slice(func(i int) app.UI {
			f := &labelFields[i]
			return app.Elem("div").Class("row").Body(
				app.Elem("label").Attr("for", f.Key).Text(f.Name),
				app.Elem("div").Class("in open").Body(
					app.ElemSelfClosing("input").ID(f.Key).Attr("name", f.Key).Attr("maxlength", strconv.Itoa(labelsMost)).Attr("autocomplete", "off").Aria("describedby", f.Key+".why"),
				),
				app.Elem("p").Class("why").ID(f.Key+".why").Text(f.Why),
			)
		})),
		app.Elem("p").Class("lede soft").Text("At least 74 × 52 mm with pictograms 16 mm along their side for a jar of up to 3 L, 105 × 74 mm and 23 mm above (Regulation (EC) No 1272/2008, annex I, table 1.3); wider here, so that the words fit. Cut along the broken lines."),
		app.Elem("p").Class("labels-do").Body(
			app.Elem("button").Attr("type", "button").ID("labels.print").Class("do").Text("Print labels").OnClick(l.onPrint),
			app.Elem("button").Attr("type", "button").Class("plain").Text("Tick all").OnClick(l.onAll),
			app.Elem("button").Attr("type", "button").Class("plain").Text("Tick none").OnClick(l.onNone),
		),
		app.Elem("p").Class("soft").Aria("live", "polite").Text(l.said),
	)
}

func (l *jarLabels) grid() app.UI {
	list := l.View.Labels
	return app.Elem("div").Class("labels-grid").Body(app.Range(list).Slice(func(i int) app.UI {
		v := list[i]
		class := "labels-item"
		if l.off[v.Name] {
			class += " off"
		}
		return app.Elem("div").Class(class).Body(
			app.Elem("label").Class("labels-tick").Body(
				app.ElemSelfClosing("input").Attr("type", "checkbox").Attr("checked", !l.off[v.Name]).OnChange(l.onTick(v.Name), v.Name),
				app.Text(" Print "+section.Lower(v.Name)),
			),
			l.label(v),
		)
	}))
}

func (l *jarLabels) label(v labelView) app.UI {
	body := []app.UI{
		app.Elem("h3").Text(v.Name),
		app.Elem("p").Class("jarlabel-formula").Text(v.Formula),
	}
	if v.Signal != "" || len(v.Pictograms) > 0 {
		pictograms := "jarlabel-signs"
		if len(v.Pictograms) > 3 {
			pictograms += " many"
		}
		body = append(body, app.Elem("div").Class("jarlabel-head").Body(
			app.Elem("div").Class(pictograms).Body(app.Range(v.Pictograms).Slice(func(i int) app.UI { return chart.Pictogram(v.Pictograms[i]) })),
			app.If(v.Signal != "", app.Elem("p").Class("jarlabel-signal").Text(v.Signal)),
		))
	}
	if len(v.Hazards) > 0 {
		body = append(body, app.Elem("p").Body(app.Elem("b").Text(strings.Join(v.Hazards, " "))))
	}
	if len(v.Precautions) > 0 {
		body = append(body, app.Elem("p").Text(strings.Join(v.Precautions, " ")))
	}
	if v.Holds != "" {
		body = append(body, app.Elem("p").Text("In it, about, counted without water: "+v.Holds+"."))
	}
	body = append(body,
		app.Elem("p").Text(strings.Join(v.Notes, " ")),
		app.Elem("div").Class("jarlabel-lines").Body(
			labelLine("Amount", "", v.Unit, v.Expect),
			labelLine("Batch", l.View.Texts[0], "", ""),
			labelLine("Filled on", l.View.Texts[1], "", ""),
			labelLine("Ask", l.View.Texts[2], "", ""),
		),
	)
	return app.Elem("div").Class("jarlabel" + v.Size).Body(body...)
}

// labelLine is a line to write on, or what was typed for it.
func labelLine(name, text, unit, after string) app.UI {
	return app.Elem("p").Body(
		app.Elem("span").Text(name),
		app.Elem("span").Class("blank").Text(text),
		app.If(unit != "", app.Elem("span").Text(unit)),
		app.If(after != "", app.Elem("span").Text(after)),
	)
}

// classTable tells where the hazards come from.
func classTable() app.UI {
	var rows [][]string
	for _, c := range safety.Classes() {
		var codes []string
		for _, code := range c.Codes {
			codes = append(codes, string(code))
		}
		source := c.Source
		if c.Standing != "published" {
			source += " (" + c.Standing + ")"
		}
		rows = append(rows, []string{c.Substance.Name(), strings.Join(codes, " "), source})
	}
	return app.Elem("details").Class("labels-tools").Body(
		app.Elem("summary").Text("How each substance is classified, and from where"),
		app.Elem("p").Class("lede soft").Text("A jar bears what its salt bears, and what the shares of all that the ledger counts in it add up to by the rules for mixtures in the same regulation. Lead and other traces are not counted."),
		table([]string{"Substance", "Statements", "Source"}, rows, "Classification of the substances"),
	)
}

// onShow shows the labels or hides them; what was typed stays.
func (l *jarLabels) onShow(ctx app.Context, _ app.Event) {
	l.open, l.begun, l.said = !l.open, true, ""
	ctx.NewAction(doc.Unfolded)
}

func (l *jarLabels) onTick(name string) app.EventHandler {
	return func(_ app.Context, e app.Event) { l.tick(name, e.Get("target").Get("checked").Bool()) }
}

// tick makes a new map each time: an older drawing may hold the old one.
func (l *jarLabels) tick(name string, on bool) {
	off := maps.Clone(l.off)
	if off == nil {
		off = map[string]bool{}
	}
	off[name] = !on
	l.off, l.said = off, ""
}

func (l *jarLabels) onAll(app.Context, app.Event) { l.off = nil }

func (l *jarLabels) onNone(app.Context, app.Event) {
	for _, v := range l.View.Labels {
		l.tick(v.Name, false)
	}
}

// onPrint prints only the labels that are ticked.
func (l *jarLabels) onPrint(app.Context, app.Event) {
	ticked := false
	for _, v := range l.View.Labels {
		ticked = ticked || !l.off[v.Name]
	}
	if !ticked {
		l.said = "No label is ticked: tick those to print."
		return
	}
	l.said = ""
	root := app.Window().Get("document").Get("documentElement").Get("classList")
	root.Call("add", labelsOnly)
	var done func()
	done = app.Window().AddEventListener("afterprint", func(app.Context, app.Event) {
		root.Call("remove", labelsOnly)
		done()
	})
	app.Window().Call("print")
}
