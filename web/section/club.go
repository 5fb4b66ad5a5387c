package section

import (
	"rosesalt/chem/club"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/doc"
)

// ClubTitle is the title of a run of several groups.
const ClubTitle = "With a club"

// PrintClub is the action that prints the club sheet, with no value.
const PrintClub = "club"

// groups is a run of several groups.
func groups(s *Source) doc.Section {
	if s.Steps() == nil {
		return doc.Section{Of: doc.Nodes{
			doc.ScreenOnly{doc.PText("lede", "No cell is opened in this plan, so there is nothing to share out.")},
		}}
	}
	fields, c := doc.Box{Class: "rows"}, s.Club()
	for _, in := range c.Form().Fields {
		f := asked(s, in)
		if f.Problem == "" && f.Key == club.AtOnceKey {
			f.Problem = c.Trouble()
		}
		fields.Of = append(fields.Of, f)
	}
	fields.Of = append(fields.Of, doc.P("step-done", doc.Button{Class: "plain", ID: "club.print", Text: "Print the club sheet", Action: PrintClub}))
	if s.Days().Apart() > 1 {
		fields.Of = append(fields.Of, doc.P("step-done", doc.Button{Class: "plain", ID: "club.shelf", Text: "Print labels for the shelf between sessions", Action: PrintShelf}))
	}
	return doc.Section{Of: doc.Nodes{
		doc.Div("cols",
			fields,
			doc.Box{Of: doc.Nodes{paragraphs("club-says", clubSays(s)...), clubGas(s)}},
		),
		doc.Fold{Class: "club-more", Title: "To buy and weigh out for all, and the waste of all", Of: doc.Nodes{
			doc.Table{Label: "Reagents for all groups", Heads: doc.Texts([]string{"Reagent", "One group takes", "To buy for all"}), Rows: clubReagents(s)},
			doc.Table{Label: "Vessels for all groups", Heads: doc.Texts(clubVesselHeads), Rows: clubVessels(s)},
			doc.PText("why", "The gas line goes from group to group: as many as have gas at the same time. Of flasks that hold hot acid each group has its own."),
			doc.Table{Label: "Waste of all groups", Heads: doc.Texts([]string{"Waste", "All groups", "To neutralise it"}), Rows: clubWaste(s)},
		}},
		doc.Fold{Class: "club-more", Title: "Who may do what", Of: doc.Nodes{
			doc.PText("lede", answered(s.Desk, "club.pupils")),
			doc.Table{Class: "prose", Label: "Who may do what", Heads: doc.Texts([]string{"Step", "Who", "What can harm"}), Rows: clubTasks(s)},
		}},
		clubLimits(s),
	}}
}

var clubVesselHeads = []string{"Vessel", "At least", "Size", "So many"}

func clubReagents(s *Source) (rows [][]doc.Node) {
	for _, n := range s.Club().Reagents(s.Reagents()) {
		rows = append(rows, doc.Texts([]string{n.Name, route.Print(n.Amount, n.Unit), n.ToBuyText()}))
	}
	return rows
}

func clubVessels(s *Source) (rows [][]doc.Node) {
	for _, n := range s.Club().Vessels(s.Plan(), s.Sheet()) {
		rows = append(rows, doc.Texts([]string{n.Name, n.LeastText(), nextSize(&n.Vessel), route.Print(n.Count, "×")}))
	}
	return rows
}

// nextSize is the size of a vessel that stands on the bench: the plan's own, or that in
// which it is sold.
func nextSize(v *route.Vessel) string {
	switch {
	case v.TooSmall():
		return v.SizeText() + ", too small"
	case !v.Given() && v.Common() == 0:
		return "several"
	}
	return v.SizeText()
}

func clubWaste(s *Source) (rows [][]doc.Node) {
	for _, b := range s.Club().Waste(s.Plan(), s.Runner().Book(), s.Sheet()) {
		help := "–"
		switch {
		case b.Soda > 0:
			help = route.Print(float64(b.Soda), "g") + " of soda"
		case b.Acid > 0:
			help = route.Print(float64(b.Acid), "mL") + " of dilute acid"
		}
		rows = append(rows, doc.Texts([]string{b.Name, Amount(&b), help}))
	}
	return rows
}

func clubTasks(s *Source) (rows [][]doc.Node) {
	for _, t := range club.Tasks(s.Plan(), s.Runner().Book(), s.Steps()) {
		rows = append(rows, doc.Texts([]string{t.Step, whoMay(&t), t.Why}))
	}
	return rows
}

func whoMay(t *club.Task) string {
	if t.Adult {
		return "adults only"
	}
	return "by the local code"
}

// clubSays is the club in sentences.
func clubSays(s *Source) []string {
	p, c := s.Plan(), s.Club()
	cells := s.Sheet().Value(route.CellsOpened)
	groups := route.Print(c.Groups, "") + " groups"
	if c.Groups == 1 {
		groups = "One group"
	}
	if c.Pupils > 0 {
		groups += " of " + c.Each()
	}
	says := func(key string, places ...string) string { return answered(s.Desk, key, places...) }
	list := []string{says("club.own", "groups", groups, "cells", route.Count(c.Groups*cells, "cell"))}
	if c.Batch == club.SharedBatch {
		list[0] = says("club.one", "groups", groups, "cells", route.Count(cells, "cell"), "each", route.Print(s.Sheet().Value(route.ProductMass)/c.Groups, "g"))
	}
	if bags := c.Bags(p); bags < c.Batches() {
		list = append(list, says("club.bags", "cells", route.Count(bags*cells, "cell"), "bag", route.Print(cells, ""), "bags", route.Count(bags, "bag")))
	}
	if turn := club.TurnTime(s.Steps()); turn > 0 {
		if c.Batch == club.SharedBatch {
			return append(list, says("club.once", "time", procedure.Hours(turn)))
		}
		all := quantity.Minute(c.Turns() * float64(turn))
		list = append(list, says("club.turns", "turns", route.Count(c.Turns(), "turn"), "groups", route.Count(c.Running(), "group"), "time", procedure.Hours(turn), "all", procedure.Hours(all))+ownFlasks(s))
	}
	return list
}

// clubGas is the gas that comes at once, and what a room would breathe of it.
func clubGas(s *Source) doc.Node {
	p, c := s.Plan(), s.Club()
	g, ok := c.Gas(p, s.Sheet())
	if !ok {
		return doc.PText("note", answered(s.Desk, "club.no gas"))
	}
	source := "generator"
	if !route.Gaseous(p) {
		source = "open vessel"
	}
	come := answered(s.Desk, "club.comes", "litres", route.Print(g.Litres, "L"), "sources", route.Count(c.Running(), source), "minutes", route.Print(float64(g.Minutes), "min"))
	breath := ""
	if g.Passing != nil {
		from := g.Limit.Source
		if g.Limit.Memory {
			from += ", from memory"
		}
		mean := g.Passing[p.RoomLimit].Mean
		breath = answered(s.Desk, "club.breathes", "escapes", route.Print(float64(route.Escapes(p)), "%"), "mean", route.Print(float64(mean), "ppm"),
			"times", route.Print(float64(mean/g.Limit.PPM), "×"), "limit", g.Limit.Name, "ppm", route.Print(float64(g.Limit.PPM), "ppm"), "source", from)
	}
	leaked := g.Leak[p.RoomLimit].Mean
	leak := answered(s.Desk, "club.leaks", "leaked", route.Print(float64(leaked), "ppm"), "times", route.Print(float64(leaked/g.Limit.PPM), "×"))
	class, lead := "note stop", "Stop. "
	key := "club.over"
	switch over := g.Over(c); {
	case over && g.Most < 1:
		key = "club.none"
	case !over:
		class, lead, key = "note mind", "Mind. ", "club.below"
	}
	remedy := answered(s.Desk, key, "most", route.Print(g.Most, ""))
	return doc.Box{Class: class, Of: doc.Nodes{doc.P("", doc.Strong(lead+come+" "), doc.Text(breath+" "+leak+" "), doc.Strong(remedy))}}
}

// clubLimits holds the gas of all against each published limit.
func clubLimits(s *Source) doc.Node {
	g, ok := s.Club().Gas(s.Plan(), s.Sheet())
	if !ok || len(g.Leak) == 0 {
		return nil
	}
	against := func(h *route.Exposure) string {
		return route.Print(float64(h.Mean), "ppm") + ", " + route.Print(float64(h.Mean/h.Limit.PPM), "×")
	}
	table := doc.Table{Label: "Gas of all that run at once", Heads: doc.Texts([]string{"Limit", "As printed", "Of what passes by", "If all of it got out"})}
	for i := range g.Leak {
		h, passing := &g.Leak[i], "–"
		if g.Passing != nil {
			passing = against(&g.Passing[i])
		}
		table.Rows = append(table.Rows, doc.Texts([]string{h.Limit.Name, route.Print(float64(h.Limit.PPM), "ppm"), passing, against(h)}))
	}
	return doc.Fold{Class: "club-more", Title: "All at once, held against each published limit", Of: doc.Nodes{
		doc.PText("lede", "Worst means over each limit's time, and how many times the limit that is. The room is that of “Scrub and waste”, its air well mixed, which no real one is."),
		table,
	}}
}
