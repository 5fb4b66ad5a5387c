package section

import (
	"rosesalt/chem/ledger"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/web/doc"
	"rosesalt/web/picture"
)

// WhereTitle is the title of the ledger by vessel.
const WhereTitle = "Where it goes"

var whereElements = [...]reaction.Element{reaction.Mn, reaction.S, reaction.Cu, reaction.Zn}

// where is what stands where when the work is done.
func where(s *Source) doc.Section {
	table := doc.Table{Class: "sums", Label: "Where the matter stands", Heads: doc.Texts([]string{"Vessel", "Manganese", "Sulfur", "Copper", "Zinc"})}
	book := s.Runner().Book()
	for vessel := range ledger.Vessel(ledger.Vessels) {
		row, any := doc.Nodes{doc.Text(vessel.String())}, false
		for _, e := range whereElements {
			cell := doc.Text("")
			if n := book.Element(vessel, e); n > 1e-6 {
				cell, any = doc.Text(route.Print(n.Millimoles(), "mmol")), true
			}
			row = append(row, cell)
		}
		if any {
			table.Rows = append(table.Rows, row)
		}
	}
	total := doc.Nodes{doc.Text("In all")}
	for _, e := range whereElements {
		_, out := book.Balance(e)
		total = append(total, doc.Text(route.Print(out.Millimoles(), "mmol")))
	}
	table.Rows = append(table.Rows, total)
	return doc.Section{Of: doc.Nodes{
		doc.PText("lede", "What was brought in stands somewhere. The plan books each step, and these columns add up."),
		doc.Picture{Picture: picture.Flows(s.Runner().Book())},
		table,
	}}
}
