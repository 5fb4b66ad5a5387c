package picture

import (
	"rosesalt/chem/route"
	"rosesalt/web/chart"
)

// Acid shows the acid's strength and the gas made as copper dissolves in the acid of
// a plan, to where the gas fades; nil where no gas is made from copper.
func Acid(along *route.Dissolving) chart.Picture {
	pic := chart.Picture{
		Name: "acid",
		X:    chart.Axis{Name: "copper dissolved", Unit: "g"},
		Panels: []chart.Panel{
			{Y: chart.Axis{Name: "strength of the acid", Unit: "%", Free: true}},
			{Y: chart.Axis{Name: "gas made", Unit: "L"}},
		},
		Table: chart.Table{Head: []string{"Copper dissolved, g", "Acid, %", "Gas made, L"}},
	}
	switch {
	case along == nil:
		pic.Why = "No gas is made."
	case along.Steps == nil:
		pic.Why = "Acid of this strength gives no gas."
	}
	if pic.Why != "" {
		return pic
	}
	strength, gas := chart.Series{Role: chart.Ink}, chart.Series{Role: chart.Ochre, Dash: chart.Dashed}
	row := func(before string, a route.Dissolved) {
		pic.Table.Rows = append(pic.Table.Rows, []string{before + route.Print(a.Copper, ""), route.Print(a.Strength, ""), route.Print(a.Gas, "")})
	}
	for _, a := range along.Steps {
		strength.Points = append(strength.Points, chart.At(a.Copper, a.Strength))
		gas.Points = append(gas.Points, chart.At(a.Copper, a.Gas))
		row("", a)
	}
	own, end := along.Own, along.Fades
	row("this plan: ", own)
	stop := thisPlan(own.Copper, own.Strength, "%", chart.Rose)
	if own.Strength < end+1 {
		stop.Text = "" // the limit says it
	}
	weak := route.Print(end, "%")
	pic.Panels[0].Series = []chart.Series{strength}
	pic.Panels[0].Limits = []chart.Limit{{At: end, Text: "gas fades at " + weak}}
	if end <= along.Boils+0.01 {
		pic.Panels[0].Limits[0].Text = "at " + weak + " water boils off"
	}
	pic.Panels[0].Marks = []chart.Mark{stop}
	pic.Panels[1].Series = []chart.Series{gas}
	pic.Panels[1].Marks = []chart.Mark{thisPlan(own.Copper, own.Gas, "L", chart.Rose)}
	if along.Enough < 0.98 {
		pic.Panels[1].Marks = append(pic.Panels[1].Marks, chart.Mark{
			X: along.Enough * own.Copper, Y: along.Enough * own.Gas, Shape: chart.Diamond, Role: chart.Ochre,
			Text: "the oxide has enough: " + route.Print(along.Enough*own.Gas, "L"),
		})
	}
	pic.Title = "Acid has weakened to " + weak + " when " + route.Print(own.Copper, "g") + " of copper have dissolved"
	switch fade := along.Steps[len(along.Steps)-1]; {
	case along.Left > own.Copper*1e-6:
		pic.Title += "; " + route.Print(along.Left, "g") + " stay"
	case own.Copper < fade.Copper*(1-1e-6):
		pic.Title = "Acid is still " + route.Print(own.Strength, "%") + " strong when all " + route.Print(own.Copper, "g") + " of copper have dissolved"
	}
	return pic
}
