package web

import (
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/chart"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/picture"
	"rosesalt/web/section"
)

// whatIfView answers wishes and compares plans.
type whatIfView struct {
	Salts, By []optionView
	Along     []optionView
	Problem   string
	Answer    string
	Shelf     string // what given charges allow
	Picture   chart.Picture
	Pinned    bool
	Compared  []compareView
}

type compareView struct{ Name, Pinned, Now, Change, Stands string }

func whatIfOf(d *desk.Desk) whatIfView {
	w := d.Wish()
	v := whatIfView{
		Salts: []optionView{
			{Word: "product.mass", Name: "manganese sulfate, as dried", Chosen: w.Figure == route.ProductMass},
			{Word: "copper.crop", Name: "blue copper sulfate", Chosen: w.Figure == route.CopperCrop},
		},
		By:      []optionView{{Word: "cells", Name: "by the number of cells", Chosen: !w.ByShare}, {Word: "share", Name: "by the share in this run", Chosen: w.ByShare}},
		Problem: w.Problem,
		Picture: sweepPicture(d),
	}
	along, _, _ := d.Along()
	inputs := route.Inputs()
	for i := range inputs {
		if in := &inputs[i]; !in.IsChoice() && in.Row <= 1 && route.Uses(d.Plan(), in.Key) {
			v.Along = append(v.Along, optionView{Word: in.Key, Name: in.Name, Chosen: in == along})
		}
	}
	if w.Known {
		v.Answer = answer(&w)
	}
	if a, ok := spread.Allows(d.Case()); ok {
		v.Shelf = shelf(&a)
	}
	if p := d.Pinned(); p != nil {
		v.Pinned, v.Compared = true, compare(d, p)
	}
	return v
}

// shelf says what the charges at hand allow.
func shelf(a *spread.Allowance) string {
	var b strings.Builder
	b.WriteString("What you have makes " + route.Print(a.Gas, "mmol") + " of gas")
	if a.Limit != "neither" && a.Limit != "" {
		b.WriteString("; the " + a.Limit + " runs out first")
	}
	b.WriteString(".")
	if quantity.Given(a.AcidWanted) {
		b.WriteString(" All of the " + solidName(a) + " would use " + route.Print(a.AcidWanted, "mL") + " of acid.")
	}
	if quantity.Given(a.SolidWanted) {
		b.WriteString(" All of the acid would use " + route.Print(a.SolidWanted, "g") + " of " + solidName(a) + ".")
	}
	if quantity.Given(a.Share) {
		b.WriteString(" It serves " + route.Print(a.Share, "%") + " of this oxide")
		if quantity.Given(a.Cells) {
			b.WriteString(", or this share of " + countOf(a.Cells, "cell"))
		}
		b.WriteString(".")
	}
	return b.String()
}

func solidName(a *spread.Allowance) string {
	return strings.ToLower(a.Solid.Name)
}

// answer says what a wish takes.
func answer(w *desk.Wish) string {
	a := &w.Answer
	amount := func(v float64) string {
		if w.ByShare {
			return route.Print(v, "%") + " of the oxide"
		}
		return countOf(v, "cell")
	}
	var b strings.Builder
	if quantity.Given(a.Best) {
		b.WriteString("At the best guess " + amount(a.Best) + " would do (" + route.Print(a.BestMakes, "g") + "). ")
	} else {
		b.WriteString(a.Why + " ")
	}
	switch {
	case quantity.Given(a.Sure):
		b.WriteString("To have it nine times in ten, take " + amount(a.Sure) + ".")
	case quantity.Given(a.SureNearest):
		b.WriteString("Nine times in ten no more than " + route.Print(a.SureNearestMakes, "g") + " is sure, with " + amount(a.SureNearest) + ".")
	}
	return b.String()
}

func sweepPicture(d *desk.Desk) chart.Picture {
	in, own, _ := d.Along()
	return picture.Sweep(in, own, d.Sweep(), d.Swept())
}

// compared are the figures that stand beside each other.
var compared = []route.FigureID{
	route.MixManganese, route.BatchManganese, route.DemandGas, route.GasAcidUsed, route.GasCopperUsed, route.GasSaltUsed, route.SaltUsed, route.PeroxideUsed, route.OxalicUsed, route.GasVolume,
	route.UptakeTaken, route.VentVolume, route.ReduceConversion, route.FiltrateVol, route.ProductMass, route.ProductPurity, route.CopperCrop, route.WasteBase,
}

func compare(d *desk.Desk, p *desk.Pin) []compareView {
	var list []compareView
	for _, id := range compared {
		unit := id.Info().Unit
		was, is := p.Sheet.Value(id), d.Sheet().Value(id)
		if p.Sheet.Reason(id) != route.Defined && d.Sheet().Reason(id) != route.Defined {
			continue
		}
		v := compareView{Name: id.Info().Name, Pinned: section.OrDash(was, unit), Now: section.OrDash(is, unit)}
		if quantity.Given(was) && quantity.Given(is) {
			v.Change = signed(is-was, unit)
			if differs, known := d.Differs(id); known && is != was {
				v.Stands = "within the doubt"
				if differs {
					v.Stands = "stands out"
				}
			}
		}
		list = append(list, v)
	}
	return list
}

func signed(v float64, unit string) string {
	s := route.Print(v, unit)
	if v > 0 && !strings.HasPrefix(s, "0") || v > 0 && strings.Trim(s, "0. "+unit) != "" {
		return "+" + s
	}
	return s
}

// whatIf is the section of wishes, sweeps and comparisons.
type whatIf struct {
	app.Compo
	View whatIfView
}

const pinAction = "pin" // with whether to pin

func (w *whatIf) Render() app.UI {
	v := w.View
	pin := "Pin this plan, to compare what you change"
	if v.Pinned {
		pin = "Let the pinned plan go"
	}
	return plainSection(whatIfTitle, "more cells, a wanted jar, two plans side by side",
		app.Elem("div").Class("ask").Body(
			app.Elem("label").Attr("for", gramsID).Text("I want"),
			app.Elem("div").Class("in").Body(app.ElemSelfClosing("input").Attr("type", "text").ID(gramsID).Attr("inputmode", "decimal").DataSet("ask", "grams").Attr("placeholder", doc.Proposal("50")).Aria("describedby", "ask.answer"), app.Elem("span").Text("g")),
			app.Elem("div").Class("in pick").Body(options(app.Elem("select").Aria("label", "of which salt").DataSet("ask", "salt"), v.Salts)),
			app.Elem("div").Class("in pick").Body(options(app.Elem("select").Aria("label", "by what").DataSet("ask", "by"), v.By)),
		),
		shelfLine(v.Shelf),
		app.Elem("p").Class("lede answer").ID("ask.answer").Aria("live", "polite").Text(v.Problem+v.Answer),
		app.Elem("div").Class("ask").Body(
			app.Elem("label").Attr("for", "ask.along").Text("What changes with"),
			app.Elem("div").Class("in pick").Body(options(app.Elem("select").ID("ask.along").DataSet("ask", "along"), v.Along)),
		),
		&chart.Figure{Picture: v.Picture},
		app.Elem("button").Attr("type", "button").Class("plain").Text(pin).OnClick(w.onPin),
		compareTable(v.Compared),
	)
}

func shelfLine(text string) app.UI {
	if text == "" {
		return nil
	}
	return app.Elem("p").Class("lede").Text(text)
}

const gramsID = "ask.grams" // of the field of what is wanted

func (w *whatIf) onPin(ctx app.Context, _ app.Event) {
	ctx.NewActionWithValue(pinAction, !w.View.Pinned)
}

func compareTable(list []compareView) app.UI {
	if len(list) == 0 {
		return nil
	}
	heads := []string{"Figure", "Pinned", "Now", "Change", "Beside the doubt"}
	var rows [][]string
	for _, c := range list {
		rows = append(rows, []string{c.Name, c.Pinned, c.Now, c.Change, c.Stands})
	}
	return table(heads, rows, "The pinned plan beside this one")
}
