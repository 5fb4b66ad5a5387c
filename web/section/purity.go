package section

import (
	"slices"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// PurityTitle is the title of what lies in the jar beside the salt.
const PurityTitle = "Purity"

// SpotStep is the key of the step that begins with the spot tests.
const SpotStep = "evaporate"

// purity is what lies in the jar beside the salt, and what takes it out.
func purity(s *Source) doc.Section {
	following := s.Following()
	q, ok := following.Purity()
	if !ok {
		return doc.Section{Of: doc.Nodes{doc.PText("lede", answered(s.Desk, "pure.nothing"))}}
	}
	remedies := append(append([]route.Jar{q.Now}, q.Steps...), q.All)
	table := doc.Table{Class: "sums", Label: "What each step takes out", Heads: doc.Texts([]string{"Step", "In the jar", "Manganese sulfate", "Pure salt, of this plan’s"})}
	for _, r := range remedies {
		name := doc.Nodes{doc.Text(r.Name)}
		if r.How != "" {
			name = append(name, doc.Small{Text: " " + r.How})
		}
		table.Rows = append(table.Rows, append(doc.Nodes{name}, doc.Texts([]string{route.Print(r.Product, "g"), orDash(r.Purity, "%"), orDash(r.Keeps, "%")})...))
	}
	for i, companion := range q.Companions {
		if !slices.ContainsFunc(remedies, func(r route.Jar) bool { return r.Left[i] >= 0.05 }) {
			continue // it would print as nothing in each row
		}
		table.Heads = append(table.Heads, doc.Text(companion))
		for row, r := range remedies {
			left := "–"
			if quantity.Given(r.Left[i]) {
				left = route.Fixed(r.Left[i], 1)
			}
			table.Rows[row] = append(table.Rows[row], doc.Text(left))
		}
	}
	remains := "All of them together leave hardly anything."
	if list := q.Remains(); len(list) > 0 {
		remains = "All of them together still leave, to 100 g of salt: " + listed(list) + "."
	}
	return doc.Section{Of: doc.Nodes{
		doc.PText("lede", "Grams of each companion to 100 g of anhydrous manganese sulfate. Each step is the plan run again with that one thing changed, or the jar recrystallised. "+
			"Of the zinc and the ammonium a part grows into the crystals, here "+route.Print(float64(s.Plan().CropTaken), "%")+" of an even share: what is washed out before the oxide dissolves is gone for good."),
		table,
		askPure(PureTableID, ""),
		doc.Box{Class: "lede answer", Of: pureAnswer(s)},
		purerTable(s),
		paragraphs("lede", shareFollows(s)),
		doc.PText("lede", remains+" It is not for food, feed or plants, whatever is done."),
		doc.PText("lede", "What this bag held, spot tests of the filtrate tell, before it is boiled down:"),
		spotTests(s),
	}}
}

// SpotTests are the tests in drops for the bench, an entry for each.
func SpotTests(d *desk.Desk) []doc.Node {
	card := doc.Box{Class: "bottles mishaps"}
	for _, spot := range procedure.Spots(d.Plan()) {
		entry := doc.Nodes{doc.Heading(spot.Name)}
		for _, part := range [...][2]string{{"How", spot.Do}, {"Shows", spot.Shows}, {"Misleads", spot.Misled}, {"What to do", spot.Then}} {
			entry = append(entry, doc.P("", doc.Strong(part[0]+": "), doc.Text(part[1])))
		}
		card.Of = append(card.Of, doc.Box{Class: "bottle", Of: entry})
	}
	return doc.Nodes{card}
}

// spotTests are the tests in drops that tell what the table cannot: what this bag held.
func spotTests(s *Source) doc.Table {
	table := doc.Table{Class: "prose", Label: "Spot tests", Heads: doc.Texts([]string{"Of", "How", "Shows", "Misleads", "What to do"})}
	for _, spot := range procedure.Spots(s.Plan()) {
		table.Rows = append(table.Rows, doc.Texts([]string{spot.Name, spot.Do, spot.Shows, spot.Misled, spot.Then}))
	}
	return table
}
