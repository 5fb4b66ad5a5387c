package web

import (
	"math"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/desk"
)

// figureView is what one figure shows.
type figureView struct {
	Key, Name    string
	Value        string // full precision, or the word
	Number, Unit string // as read
	Why          string // why it is not defined
	Tint         string
	Old          bool
	Low, High    string // of the band, in full; empty without one
	Range        string // the band as read, in the figure's unit
	Whisker      [2]int // its ends on the whisker, in pixels; both 0 without one
}

// tint is the colour role of the figures that a stage is about.
var tint = map[route.FigureID]string{
	route.ProductMass: "rose", route.CopperCrop: "blue", route.GasVolume: "ochre",
}

// The whisker's measures, in pixels: the best value in the middle, nothing at one
// end and twice the value at the other. All whiskers share this meaning.
const (
	whiskerWidth  = 84
	whiskerMiddle = whiskerWidth / 2
	whiskerHalf   = 38
)

// read is a figure as it is read: the number and its band rounded so that the
// last digit means something, in a sensible unit.
type read struct {
	Number, Unit string
	Ends, Middle string // of the band, and of the draws where the number misleads
	Range        string // both
	band         desk.Band
}

func readFigure(d *desk.Desk, id route.FigureID) read {
	v, unit := d.Sheet().Value(id), id.Info().Unit
	band := d.Band(id)
	if !band.OK || band.Low == band.High {
		number, unit := route.PrintParts(v, unit)
		return read{Number: number, Unit: unit}
	}
	factor, unit := route.Scale(v, unit)
	r := spread.Round(v*factor, band.Low*factor, band.High*factor)
	if unit == "" && whole(v) && whole(band.Low) && whole(band.High) {
		r = spread.Rounded{Best: v, Low: band.Low, High: band.High} // a count
	}
	out := read{
		Number: route.Fixed(r.Best, r.Decimals), Unit: unit, band: band,
		Ends: route.Fixed(r.Low, r.Decimals) + "–" + route.Fixed(r.High, r.Decimals),
	}
	out.Range = out.Ends
	if quantity.Given(band.Middle) {
		out.Middle = route.Fixed(spread.Round(band.Middle*factor, band.Low*factor, band.High*factor).Best, r.Decimals)
		out.Range += ", middle " + out.Middle
	}
	return out
}

// readAs is a figure as it is read, in its own unit whatever its size: what a field
// proposes stands before the unit of the field.
func readAs(d *desk.Desk, id route.FigureID) string {
	if r := readFigure(d, id); r.Unit == id.Info().Unit {
		return r.Number
	}
	return route.Print(d.Sheet().Value(id), "")
}

func whole(v float64) bool { return v == math.Trunc(v) }

// whisker places the ends of a band.
func whisker(best float64, band desk.Band) [2]int {
	if best <= 0 {
		return [2]int{}
	}
	place := func(v float64) int {
		return whiskerMiddle + int(math.Round(whiskerHalf*math.Max(-1.05, math.Min(1.05, v/best-1))))
	}
	return [2]int{place(band.Low), place(band.High)}
}

func viewFigure(d *desk.Desk, id route.FigureID, old, whiskers bool) figureView {
	s, info := d.Sheet(), id.Info()
	v := figureView{Key: info.Key, Name: info.Name, Tint: tint[id], Old: old}
	switch {
	case s.Reason(id) != route.Defined:
		v.Why = s.Reason(id).String()
	case info.Words != nil:
		v.Value = s.Word(id)
		v.Number = v.Value
	default:
		v.Value = full(s.Value(id))
		r := readFigure(d, id)
		v.Number, v.Unit, v.Range = r.Number, r.Unit, r.Range
		if r.Range != "" {
			v.Low, v.High = full(r.band.Low), full(r.band.High)
			if whiskers {
				v.Whisker = whisker(s.Value(id), r.band)
			}
		}
	}
	return v
}

// figure is a line of a list of figures: the name, and a data element whose
// value is the figure in full. It is a plain function, not a component: a page
// of components this small would spend its start in their book-keeping. Once the
// page stands, the name opens the figure's working.
func figure(v figureView, opens bool) app.UI {
	class := "fig"
	if v.Tint != "" {
		class += " lead " + v.Tint
	}
	if v.Old {
		class += " old"
	}
	data := app.Elem("data").ID(v.Key).Attr("value", v.Value)
	switch {
	case v.Why != "":
		class += " undefined"
		data = data.DataSet("undefined", v.Why).Body(app.Text("–"), app.Elem("small").Text(v.Why))
	case v.Unit != "":
		data = data.Body(app.Text(v.Number), app.Elem("small").Text("\u202f"+v.Unit))
	default:
		if !startsWithDigit(v.Number) {
			class += " word"
		}
		data = data.Body(app.Text(v.Number))
	}
	if v.Range != "" {
		data = data.DataSet("low", v.Low).DataSet("high", v.High)
	}
	dd := []app.UI{data}
	if v.Range != "" {
		dd = append(dd, app.Elem("small").Class("range").Text(v.Range))
	}
	if v.Old {
		dd = append(dd, app.Elem("small").Class("was").Text("from before the last change"))
	}
	if v.Whisker != [2]int{} {
		dd = append(dd, drawWhisker(v.Whisker))
	}
	name := app.Text(v.Name)
	if opens {
		name = app.Elem("button").Attr("type", "button").Aria("haspopup", "dialog").Text(v.Name)
	}
	return app.Elem("div").Class(class).Body(app.Elem("dt").Body(name), app.Elem("dd").Body(dd...))
}

// drawWhisker is hidden from screen readers: the range beside it says the same.
func drawWhisker(ends [2]int) app.UI {
	low, high := strconv.Itoa(ends[0]), strconv.Itoa(ends[1])
	return svg("svg").Attr("data-part", "whisker").Attr("width", strconv.Itoa(whiskerWidth)).Attr("height", "12").Aria("hidden", "true").Body(
		svg("path").Attr("d", "M"+low+" 6H"+high+"M"+low+" 2v8M"+high+" 2v8"),
		svg("circle").Attr("cx", strconv.Itoa(whiskerMiddle)).Attr("cy", "6").Attr("r", "3.5"),
	)
}

func full(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// startsWithDigit tells numbers from words, which are set smaller.
func startsWithDigit(s string) bool {
	return s != "" && (s[0] >= '0' && s[0] <= '9' || strings.HasPrefix(s, "−"))
}
