package picture

import (
	"math"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
	"rosesalt/web/chart"
)

// Solubility shows what water holds of both salts against temperature, out of the
// published tables, with the temperatures at which this plan dissolves and grows its
// crystals. The points of the copper salt stand on the line of the plan's own acid
// liquor, which holds less.
func Solubility(p *route.Plan, s *route.Sheet) chart.Picture {
	pic := chart.Picture{
		Name:   "solubility",
		Title:  "Cooling brings out copper sulfate, not manganese sulfate: that must be boiled down",
		Note:   "Grams of the anhydrous salt. " + table.ManganeseSulfateSolubility.Source() + ".",
		X:      chart.Axis{Name: "temperature", Unit: "°C"},
		Panels: []chart.Panel{{Y: chart.Axis{Name: "salt in 100 g of water", Unit: "g"}}},
		Table:  chart.Table{Head: []string{"At", "Manganese sulfate, g", "Copper sulfate, g"}},
	}
	panel := &pic.Panels[0]
	row := func(cells ...string) { pic.Table.Rows = append(pic.Table.Rows, cells) }
	mark := func(at, holds float64, role chart.Role, text string) {
		panel.Marks = append(panel.Marks, chart.Mark{X: at, Y: holds, Shape: chart.Ring, Role: role, Text: text})
	}
	panel.Series = []chart.Series{
		{Label: "manganese sulfate", Role: chart.Rose, Points: points(table.ManganeseSulfateSolubility, 1)},
		{Label: "copper sulfate", Role: chart.Blue, Dash: chart.Dashed, Points: points(table.CopperSulfateSolubility, 1)},
	}
	for _, r := range table.ManganeseSulfateSolubility.Rows() {
		copper := "–"
		if c, err := table.CopperSulfateSolubility.At(r.X); err == nil {
			copper = route.Print(c, "")
		}
		row(route.Print(r.X, "°C"), route.Print(r.Y, ""), copper)
	}
	if p.DryWay == route.ToCrystals {
		cold, at := float64(p.CropCold), route.Print(float64(p.CropCold), "°C")
		if holds, err := table.ManganeseSulfateSolubility.At(cold); err == nil {
			mark(cold, holds, chart.Rose, "pink crystals at "+at)
			row("pink crystals, "+at, route.Print(holds, ""), "–")
			pic.Title = "At " + at + " every 100 g of water keep " + route.Print(holds, "g") + " of manganese sulfate from the crystals"
		}
	}
	factor := s.Value(route.CopperFactorUsed) / 100
	hot, cold := float64(p.CopperHot), float64(p.CopperCold)
	inHot, err := table.CopperSulfateSolubility.At(hot)
	inCold, err2 := table.CopperSulfateSolubility.At(cold)
	if !quantity.Given(factor) || err != nil || err2 != nil {
		return pic
	}
	inHot, inCold = inHot*factor, inCold*factor
	if math.Abs(factor-1) > 0.01 {
		panel.Series = append(panel.Series, chart.Series{
			Label: "in this plan’s acid liquor", Role: chart.Blue, Dash: chart.Dotted,
			Points: points(table.CopperSulfateSolubility, factor),
		})
	}
	mark(hot, inHot, chart.Blue, "hot: "+route.Print(inHot, "g"))
	mark(cold, inCold, chart.Blue, "cold: "+route.Print(inCold, "g"))
	row("acid liquor hot, "+route.Print(hot, "°C"), "–", route.Print(inHot, ""))
	row("acid liquor cold, "+route.Print(cold, "°C"), "–", route.Print(inCold, ""))
	pic.Title = "Cooled from " + route.Print(hot, "") + " to " + route.Print(cold, "°C") + ", the acid liquor lets go of " +
		route.Print(100*(1-inCold/inHot), "%") + " of the copper sulfate it could hold"
	return pic
}

// points are the printed rows of a table, times a factor.
func points(t *table.Table, factor float64) []chart.Point {
	var list []chart.Point
	for _, r := range t.Rows() {
		list = append(list, chart.At(r.X, factor*r.Y))
	}
	return list
}
