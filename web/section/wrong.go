package section

import (
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// WrongTitle is the title of the card of mishaps.
const WrongTitle = "If it goes wrong"

// Mishaps is the card of what to do where something goes wrong.
func Mishaps(d *desk.Desk) []doc.Node { return doc.Nodes{mishaps(d.Plan(), d.Sheet())} }

func wrong(s *Source) doc.Section {
	return doc.Section{Of: doc.Nodes{
		doc.Fold{Title: "What to do, in which order", Of: doc.Nodes{mishaps(s.Plan(), s.Sheet())}},
	}}
}

// mishaps is what to do where something goes wrong, an entry for each mishap.
func mishaps(p *route.Plan, s *route.Sheet) doc.Node {
	card := doc.Box{Class: "bottles mishaps"}
	for _, m := range safety.Mishaps(p, s) {
		entry := doc.Nodes{doc.Heading(m.Name)}
		if m.Sign != "" {
			entry = append(entry, doc.PText("soft", m.Sign))
		}
		entry = append(entry, doc.List{Ordered: true, Items: doc.Texts(m.Do)})
		if m.Not != "" {
			entry = append(entry, doc.P("", doc.Strong(m.Not)))
		}
		card.Of = append(card.Of, doc.Box{Class: "bottle", Of: entry})
	}
	return card
}
