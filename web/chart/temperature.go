package chart

import (
	"math"

	"rosesalt/chem/route"
)

// celsiuses are where the picture of the slurry's temperature is worked out.
var celsiuses = []float64{0, 5, 10, 15, 20, 30, 40, 50, 60, 70, 80, 90}

// Temperature shows the gas bill and the product against the temperature of the slurry,
// and the two ends that print anchors.
func Temperature(p *route.Plan) Picture {
	pic := Picture{
		Name: "temperature",
		X:    Axis{Name: "slurry kept at", Unit: "°C", Free: true},
		Table: Table{Head: []string{
			"Slurry, °C", "To dithionate, %", "Gas to make, L", "In the jar, g", "Manganese sulfate in it, %",
			"Dithionate in it, g", "100 g of water hold, g of gas",
		}},
	}
	list := route.AlongTemperature(p, celsiuses)
	if list == nil {
		pic.Why = "No sulfur dioxide comes into this plan, so no dithionate forms."
		return pic
	}
	what := "gas to make"
	if !route.Gaseous(p) {
		what = "gas that works"
	}
	gas := Series{Role: Ochre, Dash: Dashed}
	product := Series{Role: Rose, Dash: Dashed}
	for i := range list {
		a := &list[i]
		gas.Points = append(gas.Points, at(a.Celsius, a.Gas, true))
		product.Points = append(product.Points, at(a.Celsius, pureSalt(a), true))
		pic.Table.Rows = append(pic.Table.Rows, temperatureRow(route.Print(a.Celsius, ""), a))
	}
	panels := []Panel{
		{Y: Axis{Name: what, Unit: "L"}, Series: []Series{gas}},
		{Y: Axis{Name: "pure salt in the jar", Unit: "g"}, Series: []Series{product}},
	}
	for _, end := range route.Anchors(p) {
		x := end.Low.Celsius
		bracket := func(low, high float64, role Role) Series {
			return Series{Role: role, Dots: Square, Points: []Point{at(x, low, true), at(x, high, true)}}
		}
		panels[0].Series = append(panels[0].Series, bracket(end.Low.Gas, end.High.Gas, Ink))
		panels[1].Series = append(panels[1].Series, bracket(pureSalt(&end.Low), pureSalt(&end.High), Ink))
		panels[0].Limits = append(panels[0].Limits, Limit{At: x, Upright: true, Text: "print, " + end.Name})
		pic.Table.Rows = append(pic.Table.Rows, temperatureRow("print, "+end.Name+", least", &end.Low), temperatureRow("print, "+end.Name+", most", &end.High))
	}
	own := route.AlongTemperature(p, []float64{float64(p.SlurryTemperature)})[0]
	panels[0].Marks = []Mark{{X: own.Celsius, Y: own.Gas, Shape: Ring, Role: Ochre, Text: route.Print(own.Gas, "L")}}
	panels[1].Marks = []Mark{{X: own.Celsius, Y: pureSalt(&own), Shape: Ring, Role: Rose, Text: route.Print(pureSalt(&own), "g")}}
	pic.Panels = panels
	other := list[len(list)-4] // 60 °C
	if own.Celsius > 40 {
		other = list[0]
	}
	pic.Title = "At " + route.Print(own.Celsius, "°C") + " the slurry takes " + route.Print(own.Gas, "L") + " of gas for " + route.Print(pureSalt(&own), "g") + " of salt; at " +
		route.Print(other.Celsius, "°C") + " it would take " + route.Print(other.Gas, "L") + " for " + route.Print(pureSalt(&other), "g")
	pic.Note = "The squares are what print says at the two ends; the broken line between them is judgement. Cold water takes gas up better: 100 g hold " +
		route.Print(list[0].Dissolves, "g") + " in ice and " + route.Print(other.Dissolves, "g") + " at " + route.Print(other.Celsius, "°C") +
		". How the uptake follows is not published, and the picture keeps it as the plan has it."
	return pic
}

// pureSalt is the manganese sulfate of the jar alone.
func pureSalt(a *route.AtTemperature) float64 {
	if math.IsNaN(a.Purity) {
		return 0
	}
	return a.Product * a.Purity / 100
}

func temperatureRow(name string, a *route.AtTemperature) []string {
	purity := "–"
	if !math.IsNaN(a.Purity) {
		purity = route.Print(a.Purity, "")
	}
	return []string{name, route.Print(a.Dithionate, ""), route.Print(a.Gas, ""), route.Print(a.Product, ""), purity, route.Print(a.Salt, ""), route.Print(a.Dissolves, "")}
}
