package doc

import (
	"math"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
)

type (
	// Figure is a figure of the plan as it is read.
	Figure struct {
		Key, Name    string // no key: a number that stands beside another and has no working
		For          string // what it is for
		Double       bool   // it stands elsewhere under its key
		Value        string // full precision, or the word
		Number, Unit string // as read
		Why          string // why it is not defined
		Tint         string
		Old          bool
		Low, High    string // of the band, in full; empty without one
		Range        string // the band as read, in the figure's unit
		Whisker      [2]int // its ends on the whisker, in pixels; both 0 without one
		Opens        bool   // its name opens its working
		How          string // the key of another figure, whose working its name opens
	}

	// Figures is a list of figures.
	Figures []Figure
)

// The whisker's measures, in pixels: the best value in the middle, nothing at one
// end and twice the value at the other. All whiskers share this meaning.
const (
	whiskerWidth  = 84
	whiskerMiddle = whiskerWidth / 2
	whiskerHalf   = 38
)

// Whisker places the ends of a band.
func Whisker(best, low, high float64) [2]int {
	if best <= 0 {
		return [2]int{}
	}
	place := func(v float64) int {
		return whiskerMiddle + int(math.Round(whiskerHalf*math.Max(-1.05, math.Min(1.05, v/best-1))))
	}
	return [2]int{place(low), place(high)}
}

func (n Figures) page(_ *View, list []ui) []ui {
	lines := make([]ui, 0, len(n))
	for i := range n {
		lines = n[i].page(nil, lines)
	}
	return append(list, app.Elem("dl").Body(lines...))
}

func (n Figures) text(w *writer) {
	for i := range n {
		n[i].text(w)
	}
}

// A figure without a value is left out.
func (f Figure) text(w *writer) {
	if f.Why != "" {
		w.shown(f.Name, f.Why)
		return
	}
	line := f.Name + ": " + f.Number + Unit(f.Unit)
	if f.Range != "" {
		line += " (" + f.Range + ")"
	}
	w.lines(Text(line))
}

// A figure is a line of a list: the name, and a data element whose value is the figure in full.
func (f Figure) page(_ *View, list []ui) []ui {
	class := "fig"
	if f.Tint != "" {
		class += " lead " + f.Tint
	}
	if f.Old {
		class += " old"
	}
	data := app.Elem("data").Attr("value", f.Value)
	switch {
	case f.Key == "":
		data = app.Elem("span").Class("num")
	case f.Double:
		data = data.Attr("data-key", f.Key)
	default:
		data = data.ID(f.Key)
	}
	switch {
	case f.Why != "":
		class += " undefined"
		data = data.Attr("data-undefined", f.Why).Body(app.Text("–"), app.Elem("small").Text(f.Why))
	case f.Unit != "":
		data = data.Body(app.Text(f.Number), app.Elem("small").Text(Unit(f.Unit)))
	default:
		if !startsWithDigit(f.Number) {
			class += " word"
		}
		data = data.Body(app.Text(f.Number))
	}
	dd := []ui{data}
	with(data, "data-low", f.Low, "data-high", f.High)
	if f.Range != "" {
		dd = append(dd, app.Elem("small").Class("range").Text(f.Range))
	}
	if f.Old {
		dd = append(dd, app.Elem("small").Class("was").Text("from before the last change"))
	}
	if f.Whisker != [2]int{} {
		dd = append(dd, drawWhisker(f.Whisker))
	}
	name := app.Text(f.Name)
	if f.Opens || f.How != "" {
		name = with(app.Elem("button").Attr("type", "button").Attr("aria-haspopup", "dialog").Text(f.Name), "data-how", f.How)
	}
	dt := []ui{name}
	if f.For != "" {
		dt = append(dt, app.Elem("small").Class("for").Text(f.For))
	}
	return append(list, app.Elem("div").Class(class).Body(app.Elem("dt").Body(dt...), app.Elem("dd").Body(dd...)))
}

// drawWhisker is hidden from screen readers: the range beside it says the same.
func drawWhisker(ends [2]int) ui {
	low, high := strconv.Itoa(ends[0]), strconv.Itoa(ends[1])
	return svg("svg").Attr("data-part", "whisker").Attr("width", strconv.Itoa(whiskerWidth)).Attr("height", "12").Attr("aria-hidden", "true").Body(
		svg("path").Attr("d", "M"+low+" 6H"+high+"M"+low+" 2v8M"+high+" 2v8"),
		svg("circle").Attr("cx", strconv.Itoa(whiskerMiddle)).Attr("cy", "6").Attr("r", "3.5"),
	)
}

func svg(tag string) app.HTMLElem { return app.Elem(tag).XMLNS("http://www.w3.org/2000/svg") }

// startsWithDigit tells numbers from words, which are set smaller.
func startsWithDigit(s string) bool {
	return s != "" && (s[0] >= '0' && s[0] <= '9' || strings.HasPrefix(s, "−"))
}
