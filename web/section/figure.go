package section

import (
	"math"
	"strconv"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// tint is the colour role of the figures that a stage is about.
var tint = map[route.FigureID]string{
	route.ProductMass: "rose", route.CopperCrop: "blue", route.GasVolume: "ochre",
}

// Reading is a figure as it is read: the number and its band rounded so that the
// last digit means something, in a sensible unit.
type Reading struct {
	Number, Unit string
	Range        string // the ends of the band
	band         desk.Band
}

// Read reads a figure.
func Read(d *desk.Desk, id route.FigureID) Reading {
	v, unit := d.Sheet().Value(id), id.Info().Unit
	band := d.Band(id)
	if !band.OK || band.Low == band.High {
		number, unit := route.PrintParts(v, unit)
		return Reading{Number: number, Unit: unit}
	}
	factor, unit := route.Scale(v, unit)
	r := spread.Round(v*factor, band.Low*factor, band.High*factor)
	if unit == "" && whole(v) && whole(band.Low) && whole(band.High) {
		r = spread.Rounded{Best: v, Low: band.Low, High: band.High} // a count
	}
	return Reading{
		Number: route.Fixed(r.Best, r.Decimals), Unit: unit, band: band,
		Range: route.Fixed(r.Low, r.Decimals) + "–" + route.Fixed(r.High, r.Decimals),
	}
}

// readAs is a figure as it is read, in its own unit whatever its size: what a field
// proposes stands before the unit of the field.
func readAs(d *desk.Desk, id route.FigureID) string {
	if r := Read(d, id); r.Unit == id.Info().Unit {
		return r.Number
	}
	return route.Print(d.Sheet().Value(id), "")
}

func whole(v float64) bool { return v == math.Trunc(v) }

// Figure is a figure of the plan, old while it is that of before the last change.
func Figure(d *desk.Desk, id route.FigureID, old, whiskers bool) doc.Figure {
	s, info := d.Sheet(), id.Info()
	v := doc.Figure{Key: info.Key, Name: info.Name, Tint: tint[id], Old: old}
	switch {
	case s.Reason(id) != route.Defined:
		v.Why = s.Reason(id).String()
	case info.Words != nil:
		v.Value = s.Word(id)
		v.Number = v.Value
	default:
		v.Value = full(s.Value(id))
		r := Read(d, id)
		v.Number, v.Unit, v.Range = r.Number, r.Unit, r.Range
		if r.Range != "" {
			v.Low, v.High = full(r.band.Low), full(r.band.High)
			if whiskers {
				v.Whisker = doc.Whisker(s.Value(id), r.band.Low, r.band.High)
			}
		}
	}
	return v
}

func full(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
