package chart_test

import (
	"fmt"
	"strings"

	"rosesalt/web/chart"
)

// A line as an SVG file of its own, and in words.
func ExampleFile() {
	p := chart.Picture{
		Title: "Gas as it comes",
		X:     chart.Axis{Name: "time", Unit: "min"},
		Panels: []chart.Panel{{
			Y:      chart.Axis{Name: "gas", Unit: "mmol"},
			Series: []chart.Series{{Label: "made", Role: chart.Ochre, Points: []chart.Point{chart.At(0, 0), chart.At(90, 274)}}},
		}},
	}
	file := chart.File(p)
	fmt.Println(strings.Contains(file, "<title>Gas as it comes</title>"), strings.Contains(file, "NaN"))
	fmt.Println(p.Says())
	// Output:
	// true false
	// Picture: Gas as it comes. Gas, mmol, against time, min.
}
