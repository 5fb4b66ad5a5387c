package section

import (
	"slices"

	"rosesalt/chem/phrase"
	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/chem/stock"
	"rosesalt/web/doc"
)

// ShelfTitle is the title of what is at hand.
const ShelfTitle = "What I have on the shelf"

// Suit is the action that makes the changes of an offer that suits what is at hand, its value
// the offer's text.
const Suit = "shelf.suit"

// SuitOf is the offer that a button asks for.
func SuitOf(s *Source, value string) (stock.Offer, bool) {
	for _, o := range slices.Concat(suits(s), s.Quicker(), used(s)) {
		if o.Text == value {
			return o, true
		}
	}
	return stock.Offer{}, false
}

// suits are what keeps the plan within what is at hand.
func suits(s *Source) []stock.Offer {
	offers := s.Offers(s.first())
	if o, ok := s.Sure(); ok {
		offers = append(slices.Clip(offers), o)
	}
	return offers
}

// used is what takes off the shelf what a run used, where that is due.
func used(s *Source) []stock.Offer {
	if o, ok := s.Used(); ok {
		return []stock.Offer{o}
	}
	return nil
}

// takenOff offers to take what a run used off the shelf.
func takenOff(s *Source) []doc.Node {
	if offers := used(s); offers != nil {
		return suiting("mind", "Shelf.", "What this run used is still counted as standing there.", offers)
	}
	return nil
}

// first tells whether no run was kept yet, as far as is known.
func (s *Source) first() bool {
	return s.Kept != nil && s.Kept.Store != nil && len(s.Kept.list()) == 0
}

// shelf is what is at hand, and what the plan makes of it.
func shelf(s *Source) doc.Section {
	var have, may, how doc.Fields
	for _, f := range stock.Fields() {
		v := asked(s, f)
		v.Line = "set"
		switch {
		case f.Key == stock.ShareKey:
			how = append(how, v)
		case f.Key == stock.TakenKey:
			if s.Started() != nil {
				how = append(how, v)
			}
		case f.Options != nil:
			may = append(may, v)
		default:
			have = append(have, v)
		}
	}
	return doc.Section{Of: doc.Nodes{
		doc.PText("lede", "Leave blank what you do not know. What you give here bounds the share of the mix while you set none; what you typed elsewhere stays as it is."),
		doc.Div("cols",
			doc.Box{Of: doc.Nodes{doc.Heading("Reagents"), have, doc.Heading("May I buy it here?"), may}},
			doc.Box{Of: doc.Nodes{doc.Heading("Vessels and hours"), vesselsAtHand(s), doc.Heading("What follows the shelf"), how}},
		),
		scarcity(s),
		waysAtHand(s),
	}}
}

// vesselsAtHand are fields that have their place at a stage or among the days.
func vesselsAtHand(s *Source) (list doc.Fields) {
	for _, v := range [...]struct{ key, name string }{{"gas.flask", "Flask"}, {"slurry.beaker", "Slurry vessel"}, {"dry.dish", "Evaporating dish"}} {
		if in, ok := route.InputByKey(v.key); ok && route.Uses(s.Plan(), v.key) {
			f := Field(s.Desk, in)
			f.Again, f.Name = true, v.name
			list = append(list, f)
		}
	}
	days := s.Days()
	form := days.Form()
	for _, key := range [...]string{procedure.FromKey, procedure.LongKey} {
		if f, ok := form.Find(key); ok {
			hours := asked(s, f)
			hours.Again = true
			list = append(list, hours)
		}
	}
	return list
}

// scarcity is for how much of the mix each thing on the shelf is enough.
func scarcity(s *Source) doc.Node {
	table := doc.Table{Label: "For how much of the mix the shelf is enough", Heads: doc.Texts([]string{"On the shelf", "There is", "The plan takes", "Enough for, with nothing in reserve"})}
	f := s.Fitted()
	for _, l := range f.Limits {
		takes := route.Print(l.Asks, l.Unit)
		enough := "no share of the mix"
		if l.Enough > 0 {
			enough = route.Print(float64(l.Enough), "%") + " of the mix"
		}
		table.Rows = append(table.Rows, doc.Texts([]string{phrase.Capital(l.Word), route.Plain(l.Has) + doc.Unit(l.Unit), takes + " at " + route.Print(float64(f.Own), "%"), enough}))
	}
	if table.Rows == nil {
		return nil
	}
	return doc.Nodes{doc.Heading("For how much it is enough"), table}
}

// waysAtHand are the ways to reduce the oxide that the shelf leaves open.
func waysAtHand(s *Source) doc.Node {
	if !s.Shelf().Says() || s.Sheet().Value(route.CellsOpened) == 0 {
		return nil
	}
	ways := doc.Terms{Class: "advised"}
	for _, w := range s.Shelf().Ways(s.Plan()) {
		says := w.Gives
		if w.Shut != "" {
			says = w.Shut
		}
		name := w.Name
		if w.Own {
			name += " (the plan)"
		}
		ways.List = append(ways.List, doc.Term{Name: phrase.Capital(name), Says: says})
	}
	return doc.Nodes{doc.Heading("The ways that it leaves open"), ways}
}

// atHand is what the first screen says of the shelf: what limits, and what would suit it.
func atHand(s *Source) []doc.Node {
	if s.Started() != nil || s.Sheet().Value(route.CellsOpened) == 0 {
		return takenOff(s)
	}
	offers := suits(s)
	if says := shortOf(s); says != "" {
		return suiting("mind", "Shelf.", says, offers)
	}
	if says, ok := s.Fitted().Enough(); ok {
		return suiting("fit", "Shelf.", says, offers)
	}
	if offers != nil { // the vessels are too small, as the box beside says
		return suiting("mind", "Or", "keep to what your vessels hold:", offers)
	}
	return nil
}

// shortOf says what does not suffice for the plan; "" where all does.
func shortOf(s *Source) string {
	if shut := s.Shelf().Shut(s.Plan()); shut != "" {
		return shut
	}
	return s.Fitted().Short(shareWords(s.Fitted().Own))
}

// boiling says that boiling down takes long, and what shortens it.
func boiling(s *Source) []doc.Node {
	quicker := s.Quicker()
	if quicker == nil {
		return nil
	}
	return suiting("mind", "Long.", stock.Boils(s.Plan(), s.Sheet()), quicker)
}

// suiting is a notice with offers, a line each.
func suiting(class, lead, says string, offers []stock.Offer) []doc.Node {
	said := doc.P("", doc.Strong(lead+" "), doc.Text(says))
	if offers == nil {
		return doc.Nodes{doc.Notice{Class: class, Lead: lead, Text: says}}
	}
	list := doc.List{Class: "suits"}
	for _, o := range offers {
		list.Items = append(list.Items, doc.Nodes{doc.Button{Class: "do", Text: o.Text, Action: Suit, Value: o.Text}, doc.Span{Of: doc.Nodes{doc.Text(" " + o.Gives)}}})
	}
	return doc.Nodes{doc.Box{Class: "note " + class, Of: doc.Nodes{said, list}}}
}

// shareFollows says that other plans are told with the share that they would have; "" where none
// follows the shelf.
func shareFollows(s *Source) string {
	if s.Started() != nil || !s.Shelf().Says() || s.Fitted().Set {
		return ""
	}
	return answered(s.Desk, "follows")
}
