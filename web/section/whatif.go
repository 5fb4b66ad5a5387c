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
		answer.Of = doc.Nodes{doc.Text(w.Problem + wishAnswer(s, &w))}
	}
	pure := doc.Live{Class: "lede answer", ID: "ask.pure.answer", Of: pureAnswer(s)}
	shelf := ""
	if a, ok := spread.Allows(s.Case()); ok {
		shelf = onShelf(s, &a)
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
func onShelf(s *Source, a *spread.Allowance) string {
	limit, cells := a.Limit, ""
	if limit == route.NeitherFirst {
		limit = ""
	}
	if quantity.Given(a.Cells) {
		cells = route.Count(a.Cells, "cell")
	}
	return answered(s.Desk, "charges", "gas", route.Print(a.Gas, "mmol"), "limit", limit, "solid", solidName(a), "acid", route.PrintGiven(a.AcidWanted, "mL"),
		"amount", route.PrintGiven(a.SolidWanted, "g"), "share", route.PrintGiven(a.Share, "%"), "cells", cells)
}

func solidName(a *spread.Allowance) string {
	return strings.ToLower(a.Solid.Name)
}

// wishAnswer says what a wish takes; nothing until that is known.
func wishAnswer(s *Source, w *desk.Wish) string {
	if !w.Known {
		return ""
	}
	a := &w.Answer
	amount := func(v float64) string {
		switch {
		case !quantity.Given(v):
			return ""
		case w.ByShare:
			return route.Print(v, "%") + " of the oxide"
		}
		return route.Count(v, "cell")
	}
	sure, nearest, water := amount(a.Sure), amount(a.SureNearest), ""
	if sure != "" {
		nearest = ""
	}
	if route.Uses(s.Plan(), "crop.water") {
		water = route.PrintGiven(float64(s.Plan().CropWater), "mL")
	}
	return answered(s.Desk, "wish", "best", amount(a.Best), "makes", route.PrintGiven(a.BestMakes, "g"), "why", a.Why, "sure", sure,
		"nearly", route.PrintGiven(a.SureNearestMakes, "g"), "nearest", nearest, "water", water, "unfit", wishUnfit(s, w))
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
