package section

import (
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/chem/stock"
	"rosesalt/web/doc"
)

// WaysTitle is the title of the table of ways.
const WaysTitle = "Other ways"

// ways sets the reductants side by side: the plan as it stands with each.
func ways(s *Source) doc.Section {
	table := doc.Table{Class: "ways", Turns: true, Label: "The ways side by side", Heads: doc.Nodes{nil}}
	for _, name := range []string{"In the jar", "Of it manganese sulfate", "Left in it besides", "Vessels", "Reductant, as bought", "Sulfuric acid, concentrated", "Gas to handle", "Heat", "Mind"} {
		table.Rows = append(table.Rows, doc.Nodes{doc.Text(name)})
	}
	following := s.Following()
	list := following.Ways()
	for i := range list {
		w := &list[i]
		head := doc.Nodes{doc.Text(w.Name)}
		switch {
		case w.Plan.GasSource == s.Plan().GasSource:
			head = append(head, doc.PText("soft", "This is the plan."))
		case w.Problem == "" && s.Started() == nil:
			head = append(head, doc.P("", doc.Button{
				Class: "plain", ID: "way." + w.Word, Text: "Make this the plan", Label: "Make this the plan: " + w.Name, Action: Edit, Value: "gas.source=" + w.Word,
			}))
		}
		table.Heads = append(table.Heads, head)
		for row, text := range wayCells(w) {
			table.Rows[row] = append(table.Rows[row], doc.Text(text))
		}
	}
	return doc.Section{Of: doc.Nodes{
		doc.PText("lede", "The plan as it stands, worked out with each reductant. A charge that you gave for one means nothing in another; dilute acid that you gave stays, so leave it blank to compare them fairly."),
		paragraphs("lede", shareFollows(s)),
		table,
	}}
}

// wayCells are a way's column of the table.
func wayCells(w *route.Way) [9]string {
	if w.Problem != "" {
		return [...]string{"–", "–", "–", "–", "–", "–", "–", "–", w.Problem}
	}
	print := func(id route.FigureID) string { return orDash(w.Sheet.Value(id), id.Info().Unit) }
	unfit := stock.Unfit(&w.Plan, &w.Sheet)
	if unfit == "" {
		unfit = "all vessels hold it"
	}
	return [...]string{
		print(route.ProductMass), print(route.ProductPurity), listed(w.Leaves), unfit,
		route.Print(w.Reductant.Amount, w.Reductant.Unit) + " " + phrase.Lower(w.Reductant.Name), route.Print(w.Acid.Amount, w.Acid.Unit), listed(w.Gases), print(route.ReduceHeat), ownCautions(w),
	}
}

// ownCautions are the leads of what a way asks for while the oxide is reduced.
func ownCautions(w *route.Way) string {
	var list []string
	for _, stage := range []route.Stage{route.Gas, route.Slurry, route.CopperSalt} {
		for _, c := range safety.Cautions(stage, &w.Plan) {
			list = append(list, c.Lead)
		}
	}
	return strings.Join(list, " ")
}
