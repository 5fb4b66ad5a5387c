package section

import (
	"strings"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/doc"
)

// SureTitle is the title of how sure the figures are.
const SureTitle = "How sure"

// worthWhile is how much of a band may be left for a measurement to be worth naming.
const worthWhile = 0.95

// askable are the figures that one may want to be surer of.
var askable = []route.FigureID{
	route.ProductMass, route.ProductAnhydrous, route.ProductPurity, route.CopperCrop, route.GasNeeded, route.GasAcidNeeded,
	route.ReduceConversion, route.VentGas, route.WashEnough, route.WasteBase,
}

// sure is what to measure next, and what the doubt rests on.
func sure(s *Source) doc.Section {
	var about []doc.Option
	for _, id := range askable {
		about = append(about, doc.Option{Word: id.Info().Key, Name: id.Info().Name, Chosen: id == s.Asked()})
	}
	most, doubts := doubtsOf(s)
	return doc.Section{Of: doc.Nodes{
		doc.PText("lede", "Behind each figure stands where eight in ten of 4096 plans lie, drawn from between the low and the high of every estimate. The bar beside it runs from nothing to twice the figure. Half of the draws of an estimate lie below the value that the plan takes, half above. Charges that you will weigh out are held, and what becomes of them is drawn. Where gas, acid or oxide may fall short the figure stands above the middle of its interval: what is short costs, what is over does not pay."),
		doc.Div("ask", doc.Label{For: "ask.about", Text: "To be surer of"}, doc.Control{ID: "ask.about", Ask: AskAbout, Options: about}),
		advice(s),
		doc.Fold{Title: "What the doubt rests on, and the intervals to change", Of: doc.Nodes{
			doc.PText("lede", most), // there while it is empty too: the table keeps its place, and a field its focus
			doubts,
		}},
	}}
}

// advice is what to measure next.
func advice(s *Source) doc.Node {
	waiting := ""
	suggested, told := s.Suggestions()
	if !told || !s.BandsStand() {
		waiting = " waiting"
	}
	list := doc.List{Class: "advice" + waiting, Ordered: true}
	for i := range suggested {
		a := &suggested[i]
		if !worth(a) {
			continue
		}
		before, after := narrowed(s, a)
		list.Items = append(list.Items, doc.Nodes{
			doc.Strong(a.Do + ": "), doc.Text(before + " becomes "), doc.Strong(after), doc.Text(". "), doc.Span{Class: "soft", Of: doc.Nodes{doc.Text(a.How)}},
		})
	}
	switch {
	case list.Items != nil:
		return list
	case waiting != "":
		return doc.PText("lede waiting", "Working out what to measure next …")
	}
	return doc.PText("lede", "No single measurement of this bench would narrow it by more than a twentieth.")
}

// worth tells whether a measurement is worth naming.
func worth(a *spread.Suggestion) bool { return a.HighAfter-a.LowAfter <= worthWhile*(a.High-a.Low) }

// narrowed is the interval before and after a measurement, both to the same digits.
func narrowed(s *Source, a *spread.Suggestion) (before, after string) {
	factor, unit := route.Scale(s.Sheet().Value(s.Asked()), s.Asked().Info().Unit)
	decimals := spread.Decimals(a.LowAfter*factor, a.HighAfter*factor)
	span := func(low, high float64) string {
		return route.Fixed(low*factor, decimals) + "–" + route.Fixed(high*factor, decimals) + doc.Unit(unit)
	}
	return span(a.Low, a.High), span(a.LowAfter, a.HighAfter)
}

// doubtsOf lists the inputs that are drawn, in bench order, so that no row moves while an
// interval is typed in it; and says which explain most.
func doubtsOf(s *Source) (most string, table doc.Table) {
	share := map[string]float64{}
	var words []string
	for _, part := range s.Shares() {
		share[part.Input.Key] = part.Of
		if len(words) < 4 && part.Of >= 0.03 {
			words = append(words, part.Input.Name+" ("+route.Print(100*part.Of, "%")+")")
		}
	}
	if words != nil {
		most = "Most of the doubt comes from: " + strings.Join(words, "; ") + "."
	}
	table = doc.Table{Class: "doubts", Heads: doc.Texts([]string{"Input", "Drawn from", "Explains", "Your interval"})}
	drawn := s.Uncertains()
	for i := range drawn {
		u := &drawn[i]
		in, of := u.Input, ""
		if v := share[in.Key]; v >= 0.005 {
			of = route.Print(100*v, "%")
		}
		usual := route.Print(u.Low, "") + " to " + route.Print(u.High, "") + doc.Unit(in.Unit)
		own := doc.Control{Key: in.Key + "~", Label: in.Name + ", low to high", Kind: "text", Usual: usual}
		table.Rows = append(table.Rows, append(doc.Texts([]string{in.Name, usual, of}), checked(s, own)))
	}
	return most, table
}
