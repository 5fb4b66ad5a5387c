package chart

import (
	"math"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// Solubility shows what water holds of both salts against temperature, out of the
// published tables, with the temperatures at which this plan dissolves and grows
// its crystals. The points of the copper salt stand on the line of the plan's own
// acid liquor, which holds less.
func Solubility(p *route.Plan) Picture {
	pic := Picture{
		Name:   "solubility",
		Note:   "Grams of the anhydrous salt. " + table.ManganeseSulfateSolubility.Source() + ".",
		X:      Axis{Name: "temperature", Unit: "°C"},
		Panels: []Panel{{Y: Axis{Name: "salt in 100 g of water", Unit: "g"}}},
		Table:  Table{Head: []string{"At", "Manganese sulfate, g", "Copper sulfate, g"}},
	}
	panel := &pic.Panels[0]
	manganese, copper := rows(table.ManganeseSulfateSolubility, 1), rows(table.CopperSulfateSolubility, 1)
	panel.Series = []Series{
		{Label: "manganese sulfate", Role: Rose, Points: manganese},
		{Label: "copper sulfate", Role: Blue, Dash: Dashed, Points: copper},
	}
	for _, q := range manganese {
		row := []string{route.Print(q.X, "°C"), route.Print(q.Y, ""), "–"}
		if c, err := table.CopperSulfateSolubility.At(q.X); err == nil {
			row[2] = route.Print(c, "")
		}
		pic.Table.Rows = append(pic.Table.Rows, row)
	}
	if p.DryWay == route.ToCrystals {
		cold := float64(p.CropCold)
		if s, err := table.ManganeseSulfateSolubility.At(cold); err == nil {
			panel.Marks = append(panel.Marks, Mark{X: cold, Y: s, Shape: Ring, Role: Rose, Text: "pink crystals at " + route.Print(cold, "°C")})
			pic.Table.Rows = append(pic.Table.Rows, []string{"pink crystals, " + route.Print(cold, "°C"), route.Print(s, ""), "–"})
			pic.Title = "At " + route.Print(cold, "°C") + " every 100 g of water keep " + route.Print(s, "g") + " of manganese sulfate from the crystals"
		}
	}
	if p.GasSource == route.FromCopper {
		copperPoints(p, &pic)
	}
	if pic.Title == "" {
		pic.Title = "Cooling brings out copper sulfate, not manganese sulfate: that must be boiled down"
	}
	return pic
}

func copperPoints(p *route.Plan, pic *Picture) {
	var bench route.Bench
	factor := bench.Run(p).Value(route.CopperFactorUsed) / 100
	hot, cold := float64(p.CopperHot), float64(p.CopperCold)
	inHot, err := table.CopperSulfateSolubility.At(hot)
	inCold, err2 := table.CopperSulfateSolubility.At(cold)
	if !quantity.Given(factor) || err != nil || err2 != nil {
		return
	}
	inHot, inCold = inHot*factor, inCold*factor
	panel := &pic.Panels[0]
	if math.Abs(factor-1) > 0.01 {
		panel.Series = append(panel.Series, Series{
			Label: "in this plan’s acid liquor", Role: Blue, Dash: Dotted,
			Points: rows(table.CopperSulfateSolubility, factor),
		})
	}
	panel.Marks = append(panel.Marks,
		Mark{X: hot, Y: inHot, Shape: Ring, Role: Blue, Text: "hot: " + route.Print(inHot, "g")},
		Mark{X: cold, Y: inCold, Shape: Ring, Role: Blue, Text: "cold: " + route.Print(inCold, "g")})
	pic.Table.Rows = append(pic.Table.Rows,
		[]string{"acid liquor hot, " + route.Print(hot, "°C"), "–", route.Print(inHot, "")},
		[]string{"acid liquor cold, " + route.Print(cold, "°C"), "–", route.Print(inCold, "")})
	pic.Title = "Cooled from " + route.Print(hot, "") + " to " + route.Print(cold, "°C") + ", the acid liquor lets go of " +
		route.Print(100*(1-inCold/inHot), "%") + " of the copper sulfate it could hold"
}

// rows are the printed rows of a table, times a factor.
func rows(t *table.Table, factor float64) []Point {
	var list []Point
	for _, r := range t.Rows() {
		list = append(list, at(r.X, factor*r.Y, true))
	}
	return list
}
