package section

import (
	"slices"
	"strings"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/chart"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/picture"
)

// WhatIfTitle is the title of wishes, sweeps and comparisons.
const WhatIfTitle = "Try a change"

// The controls that set nothing in the plan, by what they ask.
const (
	AskAbout = "about" // the figure to be surer of
	AskAlong = "along" // the input that the sweep varies
	AskGrams = "grams" // how much is wanted
	AskSalt  = "salt"  // the figure of the salt that is wanted
	AskBy    = "by"    // what to vary for it: ByCells or ByShare
	ByCells  = "cells"
	ByShare  = "share"
)

// GramsID is the id of the field of how much is wanted.
const GramsID = "ask.grams"

// Pin is the action that keeps the plan beside what comes, or with no value lets it go.
const Pin = "pin"

// whatIf answers wishes and compares plans.
func whatIf(s *Source) doc.Section {
	w := s.Wish()
	answer := doc.Live{Class: "lede answer", ID: "ask.answer"}
	if w.Problem != "" || w.Known {
		says := w.Problem + wishAnswer(&w)
		if water := s.Plan().CropWater; w.Known && route.Uses(s.Plan(), "crop.water") && quantity.Given(water) {
			says += " The " + route.Print(float64(water), "mL") + " of water left in the dish are counted in proportion."
		}
		answer.Of = doc.Nodes{doc.Text(strings.TrimSpace(says + " " + wishUnfit(s, &w)))}
	}
	pure := doc.Live{Class: "lede answer", ID: "ask.pure.answer", Of: pureAnswer(s)}
	shelf := ""
	if a, ok := spread.Allows(s.Case()); ok {
		shelf = onShelf(&a)
	}
	var along []doc.Option
	chosen, _, _ := s.SweptInput()
	inputs := route.Inputs()
	for i := range inputs {
		if in := &inputs[i]; !in.IsChoice() && in.Row <= 1 && route.Uses(s.Plan(), in.Key) {
			along = append(along, doc.Option{Word: in.Key, Name: in.Name, Chosen: in == chosen})
		}
	}
	pin := doc.Button{Class: "plain", Text: "Pin this plan, to compare what you change", Action: Pin, Value: "this"}
	var beside doc.Node
	if p := s.Pinned(); p != nil {
		pin.Text, pin.Value = "Let the pinned plan go", ""
		beside = compare(s, p)
	}
	return doc.Section{Of: doc.Nodes{
		doc.Div("ask",
			doc.Label{For: GramsID, Text: "I want"},
			doc.Control{ID: GramsID, Ask: AskGrams, Described: answer.ID, Kind: "text", Mode: "decimal", Usual: "50", Unit: "g"},
			doc.Control{Ask: AskSalt, Label: "of which salt", Options: []doc.Option{
				{Word: route.ProductMass.Info().Key, Name: "manganese sulfate, as dried", Chosen: w.Figure == route.ProductMass},
				{Word: route.CopperCrop.Info().Key, Name: "blue copper sulfate", Chosen: w.Figure == route.CopperCrop},
			}},
			doc.Control{Ask: AskBy, Label: "by what", Options: []doc.Option{
				{Word: ByCells, Name: "by the number of cells", Chosen: !w.ByShare}, {Word: ByShare, Name: "by the share in this run", Chosen: w.ByShare},
			}},
		),
		paragraphs("lede", shelf, shareFollows(s)),
		answer,
		askPure(PureID, pure.ID),
		pure,
		doc.Div("ask", doc.Label{For: "ask.along", Text: "Draw the salt in the jar against"}, doc.Control{ID: "ask.along", Ask: AskAlong, Options: along}),
		doc.Picture{Picture: sweepPicture(s)},
		pin,
		beside,
	}}
}

// onShelf says what the charges at hand allow.
func onShelf(a *spread.Allowance) string {
	var b strings.Builder
	b.WriteString("What you have makes " + route.Print(a.Gas, "mmol") + " of gas")
	if a.Limit != route.NeitherFirst && a.Limit != "" {
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
			b.WriteString(", or this share of " + route.Count(a.Cells, "cell"))
		}
		b.WriteString(".")
	}
	return b.String()
}

func solidName(a *spread.Allowance) string {
	return strings.ToLower(a.Solid.Name)
}

// wishAnswer says what a wish takes; nothing until that is known.
func wishAnswer(w *desk.Wish) string {
	if !w.Known {
		return ""
	}
	a := &w.Answer
	amount := func(v float64) string {
		if w.ByShare {
			return route.Print(v, "%") + " of the oxide"
		}
		return route.Count(v, "cell")
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

// wishUnfit says what does not fit in the plan that a wish takes, the surer one where there is one.
func wishUnfit(s *Source, w *desk.Wish) string {
	takes := w.Answer.Sure
	if !quantity.Given(takes) {
		takes = w.Answer.Best
	}
	if !w.Known || !quantity.Given(takes) {
		return ""
	}
	return unfitAfter(s, []field.Change{{Key: w.Answer.Input.Key, Text: route.Plain(takes)}})
}

func sweepPicture(d *Source) chart.Picture {
	in, own, _ := d.SweptInput()
	return picture.Sweep(in, own, d.Sweep(), d.Swept())
}

// compared are the figures that stand beside each other.
var compared = slices.Concat([]route.FigureID{
	route.MixManganese, route.BatchManganese, route.DemandGas, route.GasAcidUsed,
}, route.ChargesUsed(), []route.FigureID{
	route.GasVolume, route.UptakeTaken, route.VentVolume, route.ReduceConversion, route.FiltrateVolume, route.ProductMass, route.ProductPurity, route.CopperCrop, route.WasteBase,
})

func compare(s *Source, p *desk.Pin) doc.Node {
	table := doc.Table{Label: "The pinned plan beside this one", Heads: doc.Texts([]string{"Figure", "Pinned", "Now", "Change", "Beside the doubt"})}
	for _, id := range compared {
		unit := id.Info().Unit
		was, is := p.Sheet.Value(id), s.Sheet().Value(id)
		if p.Sheet.Reason(id) != route.Defined && s.Sheet().Reason(id) != route.Defined {
			continue
		}
		change, stands := "", ""
		if quantity.Given(was) && quantity.Given(is) {
			change = signed(is-was, unit)
			if beside := s.Differs(id); beside.Known && is != was {
				stands = "within the doubt"
				if beside.Differs {
					stands = "stands out"
				}
			}
		}
		table.Rows = append(table.Rows, doc.Texts([]string{id.Info().Name, orDash(was, unit), orDash(is, unit), change, stands}))
	}
	if table.Rows == nil {
		return nil
	}
	return table
}

func signed(v float64, unit string) string {
	s := route.Print(v, unit)
	if v > 0 && !strings.HasPrefix(s, "0") || v > 0 && strings.Trim(s, "0. "+unit) != "" {
		return "+" + s
	}
	return s
}
