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
		doc.Fold{Class: "club-more club-who", Title: "Who may do what", Of: doc.Nodes{
			doc.PText("lede", pupils),
			doc.Table{Label: "Who may do what", Heads: doc.Texts([]string{"Step", "Who", "What can harm"}), Rows: clubTasks(s)},
		}},
		clubLimits(s),
	}}
}

// pupils says what the page does not know.
const pupils = "Adults who have done it before make the gas and handle strong acid. What children, pupils and newcomers of what age may do is for the local code and the rules of the school or the house: ask before, and write it on the sheet."

var clubVesselHeads = []string{"Vessel", "At least", "Size", "So many"}

func clubReagents(s *Source) (rows [][]doc.Node) {
	for _, n := range s.Club().Reagents(s.Reagents()) {
		rows = append(rows, doc.Texts([]string{n.Name, route.Print(n.Amount, n.Unit), route.Print(n.All, n.Unit)}))
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
	list := []string{groups + ", each with this plan: " + route.Count(c.Groups*cells, "cell") + " to open in all."}
	if c.Batch == club.SharedBatch {
		list[0] = groups + ", one batch of this plan for all: " + route.Count(cells, "cell") + " to open, and about " + route.Print(s.Sheet().Value(route.ProductMass)/c.Groups, "g") + " of salt for each group."
	}
	if bags := c.Bags(p); bags < c.Batches() {
		list = append(list, "Washed together, the mix of "+route.Count(bags*cells, "cell")+" is enough, since each group takes "+route.Print(float64(p.BatchShare), "%")+" of a bag of "+route.Print(cells, "")+": cells, wash water and wash liquor then are those of "+route.Count(bags, "bag")+".")
	}
	if turn := club.TurnTime(s.Steps()); turn > 0 {
		what := "The gas"
		if !route.Gaseous(p) {
			what = "Stirring in"
		}
		if c.Batch == club.SharedBatch {
			return append(list, what+" is done once for all; with its last test it takes "+procedure.Hours(turn)+".")
		}
		all := c.Turns() * float64(turn)
		list = append(list, what+" goes in "+route.Count(c.Turns(), "turn")+", at most "+route.Count(c.Running(), "group")+" at a time; a turn takes "+procedure.Hours(turn)+" with its last test, all of them "+procedure.Hours(quantity.Minute(all))+"."+ownFlasks(s))
	}
	return list
}

// clubGas is the gas that comes at once, and what a room would breathe of it.
func clubGas(s *Source) doc.Node {
	p, c := s.Plan(), s.Club()
	g, ok := c.Gas(p, s.Sheet())
	if !ok {
		return doc.PText("note", "No sulfur dioxide comes into this plan, so there is nothing to hold against a limit in the air. Outdoors all the same: acid mist, froth, dust.")
	}
	source, leak := "generator", "If a joint opened and all of it got out there: "
	if !route.Gaseous(p) {
		source, leak = "open vessel", "If the slurry took none of it up: "
	}
	come := "At once " + route.Print(g.Litres, "L") + " of sulfur dioxide from " + route.Count(c.Running(), source) + ", in " + route.Print(float64(g.Minutes), "min") + "."
	breath := ""
	if g.Passing != nil {
		from := g.Limit.Source
		if g.Limit.Memory {
			from += ", from memory"
		}
		mean := g.Passing[p.RoomLimit].Mean
		breath = "If " + route.Print(float64(route.Escapes(p)), "%") + " of what is not taken up got into a room of " + route.Print(float64(p.RoomVolume), "m³") + " whose air is changed " + route.Print(float64(p.RoomChanges), "×") +
			" an hour, it would breathe " + route.Print(float64(mean), "ppm") + ": " + route.Print(float64(mean/g.Limit.PPM), "×") + " the limit of " + g.Limit.Name + ", " + route.Print(float64(g.Limit.PPM), "ppm") + " (" + from + ")."
	}
	leaked := g.Leak[p.RoomLimit].Mean
	leak += route.Print(float64(leaked), "ppm") + ", " + route.Print(float64(leaked/g.Limit.PPM), "×") + " that limit."
	class, lead := "note stop", "Stop. "
	var remedy string
	switch over := g.Over(c); {
	case over && g.Most < 1:
		remedy = "Not even one stays below the limit there: outdoors or in a working fume cupboard only, and still one at a time."
	case over:
		remedy = "That is over the limit: at most " + route.Print(g.Most, "") + " at a time, and better none indoors. Outdoors or in a working fume cupboard."
	default:
		class, lead = "note mind", "Mind. "
		remedy = "By this reckoning it stays below, but near a leak it is several times more, and a figure under a limit is no permit: outdoors or in a working fume cupboard all the same."
	}
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
