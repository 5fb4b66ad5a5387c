package section

import (
	"strings"

	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/doc"
)

// ReadyTitle is the title of what to buy and put out.
const ReadyTitle = "Buy and put out"

// ReadyStep is the key of the step in which all of it is put out.
const ReadyStep = "ready"

// PutOut is what to have: reagents, what is made up from them, vessels, tools.
func PutOut(s *Source) doc.Node {
	var reagents, fills, vessels doc.Amounts
	for _, r := range s.Reagents() {
		number, unit := r.ToBuy()
		beside := ""
		if r.Buy != r.Amount {
			beside = "the plan takes " + route.Print(r.Amount, r.Unit)
		}
		if stands := onTheShelf(s, &r); stands != "" {
			beside = strings.TrimPrefix(beside+"; "+stands, "; ")
		}
		reagents = append(reagents, doc.Amount{Name: r.Name, For: r.For, Number: number, Unit: unit, Beside: beside})
	}
	for _, m := range route.Fills(s.Plan(), s.Sheet()) {
		number, unit := route.PrintParts(m.Amount, m.Unit)
		fills = append(fills, doc.Amount{Name: m.Name, For: m.For, Number: number, Unit: unit})
	}
	for _, v := range s.Vessels() {
		text := v.LeastText()
		if v.Given() {
			text = v.SizeText()
		}
		number, unit, _ := strings.Cut(text, "\u202f")
		vessels = append(vessels, doc.Amount{Name: v.Name, For: v.For, Number: number, Unit: unit, Beside: Beside(&v)})
	}
	toHave := doc.Nodes{doc.Heading("Reagents, each enough in nine runs of ten"), reagents}
	if fills != nil {
		toHave = append(toHave, doc.Heading("Made up from them, or filled in"), fills)
	}
	return doc.Div("cols",
		doc.Box{Of: toHave},
		doc.Box{Of: doc.Nodes{doc.Heading("Vessels, at least"), vessels}},
		doc.Div("tools-out", doc.Heading("Tools, and what guards you"), doc.List{Class: "gear", Items: doc.Texts(route.Gear(s.Plan()))}),
	)
}

func ready(s *Source) doc.Section {
	buying := doc.Terms{Class: "advised"}
	for _, a := range safety.Buying(s.Plan(), s.Sheet()) {
		buying.List = append(buying.List, doc.Term{Name: a.Of, Says: a.Text})
	}
	return doc.Section{Of: doc.Nodes{
		PutOut(s),
		doc.Fold{Title: "Which kind to buy, what the law allows", Of: doc.Nodes{buying}},
	}}
}

// Beside is what is said beside a vessel's volume: whether the plan's own holds what is
// poured, or the size in which it is sold.
func Beside(v *route.Vessel) string {
	least, says := v.LeastText(), ""
	switch {
	case v.TooSmall():
		says = "too small: " + least + " or more"
	case v.Given():
		says = "the plan’s; " + least + " would do"
	case v.Common() == 0:
		says = "several"
	case v.SizeText() != least:
		says = "next size " + v.SizeText()
	}
	return strings.TrimPrefix(says+Each(v), ", ")
}

// Each says where every batch wants a vessel of its own.
func Each(v *route.Vessel) string {
	if v.Each {
		return ", one for each batch"
	}
	return ""
}
