// Package picture says what the page's pictures show: it turns figures of the core into
// the plain data that package chart draws, with axes, marks, sentences and the numbers as
// a table.
//
//	&chart.Figure{Picture: picture.Chloride(route.AlongWashes(plan))}
//
// It runs no plan: what a picture shows along an axis is worked out by the core
// (route.AlongWashes and its like, spread.Sweep, sound.Result) and given to it.
package picture

import (
	"rosesalt/chem/route"
	"rosesalt/web/chart"
)

// thisPlan marks the plan's own point.
func thisPlan(x, y float64, unit string, role chart.Role) chart.Mark {
	return chart.Mark{X: x, Y: y, Shape: chart.Ring, Role: role, Text: "this plan: " + route.Print(y, unit)}
}
