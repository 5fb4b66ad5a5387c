package doc

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/chart"
)

type (
	// Title stands above a sheet or, of level 2, a part of one.
	Title struct {
		Level int
		Class string
		Of    []Node
	}

	// Write is a place to write on paper, so many letters wide; without a width, a box to tick.
	Write struct {
		Name  string // beside it
		Width int
	}

	// Blank is a line to be filled in on paper, with what is to be expected.
	Blank struct{ Name, Unit, Expect string }

	// Sign is an eight-sided sign with a bar: stop.
	Sign struct{}

	// Apparatus is the drawing of the vessels in a row.
	Apparatus struct{ chart.Apparatus }

	// QR is a code to be scanned, and what it says to a screen reader.
	QR struct {
		chart.Code
		Says string
	}
)

func (n Title) page(v *View, list []ui) []ui {
	return append(list, v.elem("h"+strconv.Itoa(n.Level), n.Class, n.Of...))
}

func (n Title) text(w *writer) { w.lines(n.Of...) }

func (n Write) page(_ *View, list []ui) []ui {
	place := []ui{app.Text(n.Name + " "), app.Elem("i").Class("w" + strconv.Itoa(n.Width))}
	if n.Width == 0 {
		place = []ui{app.Elem("i").Class("sheet-tick"), app.Text(n.Name)}
	}
	if n.Name == "" {
		return append(list, place[min(n.Width, 1)])
	}
	return append(list, app.Elem("span").Body(place...))
}

func (Write) text(*writer) {}

func (n Blank) page(_ *View, list []ui) []ui {
	line := []ui{app.Elem("span").Text(n.Name), app.Elem("i")}
	if n.Unit+n.Expect != "" {
		line = append(line, app.Text(n.Unit), app.Elem("small").Text(n.Expect))
	}
	return append(list, app.Elem("p").Class("blank").Body(line...))
}

func (Blank) text(*writer) {}

func (Sign) page(_ *View, list []ui) []ui {
	return append(list, svg("svg").Attr("data-part", "sign").Attr("viewBox", "0 0 20 20").Attr("aria-hidden", "true").Body(
		svg("path").Attr("d", "M6 1h8l5 5v8l-5 5H6l-5-5V6Z"), svg("path").Attr("data-part", "bar").Attr("d", "M4.5 10h11"),
	))
}

func (Sign) text(*writer) {}

func (n Apparatus) page(_ *View, list []ui) []ui { return append(list, n.Draw()) }
func (Apparatus) text(*writer)                   {}
func (n QR) page(_ *View, list []ui) []ui        { return append(list, n.Draw(n.Says)) }
func (QR) text(*writer)                          {}
