// Package chart draws plain data: small pictures in the manner of printed ones, and what else the
// page draws.
//
// # Pictures
//
// A Picture is axes, lines with their intervals, marks and limits; or the bands of a flow; or rows
// of what was planned, found and reckoned; and with them the same numbers as a table. What they
// are and what they say is made elsewhere (package picture); nothing here runs a model or knows
// one. It is laid out at two widths, one for telephones; words are put where they cover least.
//
//	p := chart.Picture{
//		Title: "Gas as it comes",
//		X:     chart.Axis{Name: "time", Unit: "min"},
//		Panels: []chart.Panel{{
//			Y:      chart.Axis{Name: "gas", Unit: "mmol"},
//			Series: []chart.Series{{Label: "made", Role: chart.Ochre, Points: []chart.Point{chart.At(0, 0), chart.At(90, 274)}}},
//		}},
//	}
//
// The component Figure shows it on the page, in the layout that fits, with the table and a button
// to save it; File writes it as an SVG file that needs nothing else; Says tells it in words, to who
// cannot see it.
//
// A value that is not there is a Point that is not OK. So no number in a Picture is NaN, and two
// Pictures that say the same are deeply equal, by which the page leaves an equal one alone.
//
// # Other drawings
//
// An Apparatus is vessels in a row, from InRow; a Code is a text as a square for telephones, from
// NewCode; Pictogram is a hazard pictogram. Each draws itself as elements.
//
// Coordinates are pixels, near enough. Colours and widths of lines are the stylesheet's (chart.css),
// which finds a path or text by its data-part; in a saved file, look says the same.
package chart
