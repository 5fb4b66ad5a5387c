package picture

import (
	"slices"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/chart"
)

// Warmth is a plan with its slurry kept at one temperature after another.
type Warmth struct {
	Gaseous bool                  // the gas is made in a generator, and led in
	Own     route.AtTemperature   // as the plan keeps it
	Along   []route.AtTemperature // colder and warmer, from 0 °C on; none where no sulfur dioxide comes into the plan
	Ends    []route.Anchor        // what is published
}

// Temperature shows the gas to make and the product against the temperature of the
// slurry, and what is published of both ends.
func Temperature(w *Warmth) chart.Picture {
	pic := chart.Picture{
		Name: "temperature",
		X:    chart.Axis{Name: "slurry kept at", Unit: "°C", Free: true},
		Table: chart.Table{Head: []string{
			"Slurry, °C", "To dithionate, %", "Gas to make, L", "In the jar, g", "Manganese sulfate in it, %",
			"Dithionate in it, g", "100 g of water hold, g of gas",
		}},
	}
	list := w.Along
	if list == nil {
		pic.Why = "No sulfur dioxide comes into this plan, so no dithionate forms."
		return pic
	}
	what := "gas to make"
	if !w.Gaseous {
		what = "gas that works"
	}
	row := func(name string, a *route.AtTemperature) {
		purity := "–"
		if quantity.Given(a.Purity) {
			purity = route.Print(a.Purity, "")
		}
		pic.Table.Rows = append(pic.Table.Rows, []string{name, route.Print(a.Dithionate, ""), route.Print(a.Gas, ""), route.Print(a.Product, ""), purity, route.Print(a.Salt, ""), route.Print(a.Dissolves, "")})
	}
	gas, product := chart.Series{Role: chart.Ochre, Dash: chart.Dashed}, chart.Series{Role: chart.Rose, Dash: chart.Dashed}
	for i := range list {
		a := &list[i]
		gas.Points = append(gas.Points, chart.At(a.Celsius, a.Gas))
		product.Points = append(product.Points, chart.At(a.Celsius, pureSalt(a)))
		row(route.Print(a.Celsius, ""), a)
	}
	pic.Panels = []chart.Panel{
		{Y: chart.Axis{Name: what, Unit: "L"}, Series: []chart.Series{gas}},
		{Y: chart.Axis{Name: "pure salt in the jar", Unit: "g"}, Series: []chart.Series{product}},
	}
	for _, end := range w.Ends {
		x, name := end.Low.Celsius, "print, "+end.Name
		for i, ends := range [...][2]float64{{end.Low.Gas, end.High.Gas}, {pureSalt(&end.Low), pureSalt(&end.High)}} {
			pic.Panels[i].Series = append(pic.Panels[i].Series, chart.Series{
				Role: chart.Ink, Dots: chart.Square, Points: []chart.Point{chart.At(x, ends[0]), chart.At(x, ends[1])},
			})
		}
		pic.Panels[0].Limits = append(pic.Panels[0].Limits, chart.Limit{At: x, Upright: true, Text: name})
		row(name+", least", &end.Low)
		row(name+", most", &end.High)
	}
	own := w.Own
	pic.Panels[0].Marks = []chart.Mark{{X: own.Celsius, Y: own.Gas, Shape: chart.Ring, Role: chart.Ochre, Text: route.Print(own.Gas, "L")}}
	pic.Panels[1].Marks = []chart.Mark{{X: own.Celsius, Y: pureSalt(&own), Shape: chart.Ring, Role: chart.Rose, Text: route.Print(pureSalt(&own), "g")}}
	other := list[0]
	if own.Celsius <= 40 {
		other = list[max(0, slices.IndexFunc(list, func(a route.AtTemperature) bool { return a.Celsius >= 60 }))]
	}
	warm := route.Print(other.Celsius, "°C")
	pic.Title = "At " + route.Print(own.Celsius, "°C") + " the slurry takes " + route.Print(own.Gas, "L") + " of gas for " + route.Print(pureSalt(&own), "g") + " of salt; at " +
		warm + " it would take " + route.Print(other.Gas, "L") + " for " + route.Print(pureSalt(&other), "g")
	pic.Note = "The squares are what print says at the two ends; the broken line between them is judgement. Cold water takes gas up better: 100 g hold " +
		route.Print(list[0].Dissolves, "g") + " in ice and " + route.Print(other.Dissolves, "g") + " at " + warm +
		"."
	if w.Gaseous {
		pic.Note += " How much less is taken up is not published: it is worked out from that, and from how gas spreads in water, unless the plan gives it."
	}
	return pic
}

// pureSalt is the manganese sulfate of the jar alone, g.
func pureSalt(a *route.AtTemperature) float64 {
	if !quantity.Given(a.Purity) {
		return 0
	}
	return a.Product * a.Purity / 100
}
