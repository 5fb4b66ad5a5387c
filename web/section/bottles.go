package section

import (
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/doc"
	"rosesalt/web/link"
)

// BottlesTitle is the title of the register of the waste.
const BottlesTitle = "Waste bottles"

// bottles is the register of the waste, and what a room would breathe.
func bottles(s *Source) doc.Section {
	all := doc.Box{Class: "bottles"}
	for _, b := range safety.Bottles(s.Plan(), s.Runner().Book(), s.Sheet()) {
		all.Of = append(all.Of, bottle(&b))
	}
	return doc.Section{Of: doc.Nodes{
		doc.PText("lede", "A bottle for each, labelled and dated, for collection. Whether you may treat anything yourself is for your waste authority; treating only makes a bottle less harmful, never fit for the drain."),
		all,
		doc.Fold{Key: "never", Title: "What must never meet, pair by pair, and what was considered", Of: doc.Nodes{
			doc.PText("lede", "Each of the first column with each of the second, the gravest first. “Considered” is no leave to pour them together: each stream stays on its own. What is not here has not been considered."),
			never(s.Plan()),
		}},
		running(s.Kept.Plans()),
		limits(s),
	}}
}

func bottle(b *safety.Bottle) doc.Node {
	box := doc.Div("bottle", doc.Heading(b.Name))
	if amount := Amount(b); amount != "" {
		box.Of = append(box.Of, doc.PText("amount num", amount))
	}
	const most = 6 // lines that a label has room for
	holds := ""
	for i, h := range b.Holds {
		if i == most {
			holds += ", and traces"
			break
		}
		if i > 0 {
			holds += ", "
		}
		holds += route.Print(float64(h.Mass), "g") + " " + h.Name
	}
	if holds != "" {
		box.Of = append(box.Of, doc.PText("soft", "In it: "+holds+"."))
	}
	soda := ""
	if b.Soda > 0 {
		soda = "About " + route.Print(float64(b.Soda), "g") + " of soda, anhydrous, for its acid and metals."
	}
	if b.Acid > 0 {
		soda = "About " + route.Print(float64(b.Acid), "mL") + " of dilute acid, 1 mol/L; stop at pH 9."
	}
	box.Of = append(box.Of, doc.P("", doc.Strong("Never meets ")), doc.List{Class: "gear", Items: doc.Texts(b.Never)})
	for _, text := range []string{b.Treat, soda, b.Keep} {
		if text != "" {
			box.Of = append(box.Of, doc.PText("", text))
		}
	}
	return box
}

// Amount is how much is in a bottle; empty where that is nothing.
func Amount(b *safety.Bottle) string {
	switch {
	case b.Volume > 0:
		return route.Print(float64(b.Volume), "mL") + " of water in it"
	case b.Mass > 0:
		return route.Print(float64(b.Mass), "g") + ", damp"
	}
	return ""
}

// never is what must never meet, or was considered.
func never(p *route.Plan) doc.Node {
	table := doc.Table{Class: "prose", Label: "What must never meet", Heads: doc.Texts([]string{"This", "With", "What comes of it", "Source"})}
	for _, m := range safety.MeetingsOf(p) {
		comes := m.Comes + "."
		if !m.Harm {
			comes = "Considered: " + comes
		}
		if m.Instead != "" {
			comes += " Instead: " + m.Instead
		}
		table.Rows = append(table.Rows, doc.Texts([]string{safety.Listed(m.Of), safety.Listed(m.With), comes, m.Source}))
	}
	return table
}

// running adds up the bottles of the plans of kept runs, given as fragments.
func running(kept []string) doc.Node {
	var all [][]safety.Bottle
	var runner route.Runner
	for _, f := range kept {
		c, _ := link.Decode(f)
		plan := c.Planned()
		sheet := runner.Run(&plan)
		all = append(all, safety.Bottles(&plan, runner.Book(), sheet))
	}
	table := doc.Table{Label: "Waste of all kept runs", Heads: doc.Texts([]string{"Bottle", "Holds", "Copper", "Zinc", "Manganese", "Soda for it"})}
	for _, b := range safety.PourTogether(all...) {
		if b.Mass <= 0 {
			continue
		}
		soda := "–"
		if b.Soda > 0 {
			soda = route.Print(float64(b.Soda), "g")
		}
		table.Rows = append(table.Rows, doc.Texts([]string{b.Name, Amount(&b), route.Print(float64(b.Metals[0]), "g"), route.Print(float64(b.Metals[1]), "g"), route.Print(float64(b.Metals[2]), "g"), soda}))
	}
	if table.Rows == nil {
		return nil
	}
	title := "What stands in the bottles after the " + route.Print(float64(len(kept)), "") + " kept runs"
	if len(kept) == 1 {
		title = "What stands in the bottles after the one kept run"
	}
	return doc.Fold{Title: title, Of: doc.Nodes{table}}
}

// limits holds what a room would breathe against each published limit.
func limits(s *Source) doc.Node {
	table := doc.Table{Class: "prose", Label: "Published limits for sulfur dioxide", Heads: doc.Texts([]string{"Limit", "Where", "As printed", "Worst mean", "Of the limit", "Source"})}
	for _, h := range route.Exposures(s.Plan(), s.Sheet()) {
		source := h.Limit.Source
		if h.Limit.Memory {
			source += " (from memory)"
		}
		printed := route.Print(float64(h.Limit.PPM), "ppm")
		if h.Limit.MgPerM3 > 0 {
			printed += ", " + route.Print(h.Limit.MgPerM3, "mg/m³")
		}
		table.Rows = append(table.Rows, doc.Texts([]string{
			h.Limit.Name, h.Limit.Jurisdiction, printed, route.Print(float64(h.Mean), "ppm"), route.Print(float64(h.Mean/h.Limit.PPM), "×"), source,
		}))
	}
	if table.Rows == nil {
		return nil
	}
	p := s.Plan()
	return doc.Fold{Title: "Held against each published limit: what a room would breathe", Of: doc.Nodes{
		doc.PText("lede", "If "+route.Print(float64(route.Escapes(p)), "%")+" of the gas not taken up got into a room of "+route.Print(float64(p.RoomVolume), "m³")+" whose air is changed "+
			route.Print(float64(p.RoomChanges), "×")+" an hour. Well-mixed air is assumed; near the leak it is several times more. A room is no control for this gas, and a figure under a limit is no permit."),
		table,
	}}
}
