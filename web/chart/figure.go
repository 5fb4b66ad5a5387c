package chart

import "github.com/maxence-charriere/go-app/v9/pkg/app"

// SaveAction is the action that a picture's button sends to the page, with a
// Saved.
const SaveAction = "savesvg"

// Saved is a picture as a file. Name is the picture's, without an ending.
type Saved struct{ Name, Text string }

// Figure shows a picture under its title, with its numbers as a table and a
// button to save it.
type Figure struct {
	app.Compo
	Picture Picture

	open bool    // the table has been asked for
	last Picture // drawn when it was known last
}

const svgNS = "http://www.w3.org/2000/svg"

func svg(tag string) app.HTMLElem { return app.Elem(tag).XMLNS(svgNS) }

// Render draws both layouts; the stylesheet shows the one that fits. To a screen
// reader they are one image.
func (f *Figure) Render() app.UI {
	p := f.Picture
	drawn := f.drawn()
	if p.Why != "" {
		return app.Elem("figure").Class("pic").Body(app.Elem("p").Class("soft").Text(p.Why))
	}
	class := "pic-draw"
	if p.Waiting {
		class += " waiting"
	}
	return app.Elem("figure").Class("pic").Body(
		app.Elem("figcaption").Text(p.Title),
		app.Elem("div").Class(class).Role("img").Aria("label", p.Says()).Body(
			picture(draw(drawn, true), "wide"),
			picture(draw(drawn, false), "narrow"),
			app.If(p.Waiting, app.Elem("p").Class("soft").Text("working…")),
		),
		app.If(p.Note != "", app.Elem("p").Class("soft pic-note").Text(p.Note)),
		app.Elem("div").Class("pic-more").Body(
			app.Elem("details").On("toggle", f.onToggle).Body(
				app.Elem("summary").Text("Numbers of this picture").Aria("label", "Numbers of this picture: "+p.Title),
				f.numbers(),
			),
			app.If(!p.Waiting, app.Elem("button").Attr("type", "button").Class("plain").Text("Save as SVG").
				Aria("label", "Save as SVG: "+p.Title).OnClick(f.onSave)),
		),
	)
}

// drawn is what is drawn: while a picture waits, the last one of the same kind
// that was known, so that nothing jumps or blinks while someone types.
func (f *Figure) drawn() *Picture {
	p := &f.Picture
	if !p.Waiting {
		f.last = *p
		return p
	}
	if f.last.Name == p.Name && f.last.X == p.X && f.last.Why == "" && !f.last.empty() {
		return &f.last
	}
	return p
}

// picture makes the elements of a drawing.
func picture(d *drawing, part string) app.HTMLElem {
	list := make([]app.UI, 0, len(d.paths)+len(d.texts))
	for _, n := range d.paths {
		list = append(list, svg("path").Attr("data-part", n.part).Attr("d", n.d))
	}
	for _, n := range d.texts {
		t := svg("text").Attr("data-part", n.part).Attr("x", num(n.x)).Attr("y", num(n.y))
		if n.anchor != "" {
			t = t.Attr("text-anchor", n.anchor)
		}
		list = append(list, t.Text(n.text))
	}
	return svg("svg").Attr("data-part", part).Attr("viewBox", "0 0 "+num(d.width)+" "+num(d.height)).Aria("hidden", "true").Body(list...)
}

// A table of more columns than PhoneColumns is stacked by the stylesheet where the window is too
// narrow for them, here and in package doc: each cell then stands behind the head of its column, which
// it repeats in the attribute HeadData.
const (
	PhoneColumns = 3
	HeadData     = "data-head"
)

// numbers is the table, as package doc draws its own. Its rows are made when it is opened: closed,
// nobody can read them, and a page of five would carry hundreds of cells through every keystroke.
func (f *Figure) numbers() app.UI {
	t := f.Picture.Table
	var rows [][]string
	if f.open {
		rows = t.Rows
	}
	class := ""
	if len(t.Head) > PhoneColumns {
		class = "stack"
	}
	// Narrow windows scroll it, so it takes the focus.
	return app.Elem("div").Class("scroll").TabIndex(0).Role("region").Aria("label", "Numbers: "+f.Picture.Title).Body(app.Elem("table").Class(class).Role("table").Aria("label", f.Picture.Title).Body(
		app.Elem("thead").Role("rowgroup").Body(app.Elem("tr").Role("row").Body(app.Range(t.Head).Slice(func(i int) app.UI { return app.Elem("th").Attr("scope", "col").Role("columnheader").Text(t.Head[i]) }))),
		app.Elem("tbody").Role("rowgroup").Body(app.Range(rows).Slice(func(i int) app.UI {
			row := rows[i]
			return app.Elem("tr").Role("row").Body(app.Range(row).Slice(func(j int) app.UI {
				if j == 0 {
					return app.Elem("th").Attr("scope", "row").Role("rowheader").Attr(HeadData, t.Head[j]).Text(row[j])
				}
				return app.Elem("td").Role("cell").Attr(HeadData, t.Head[j]).Text(row[j])
			}))
		})),
	))
}

func (f *Figure) onToggle(ctx app.Context, _ app.Event) {
	f.open = ctx.JSSrc().Get("open").Bool()
}

func (f *Figure) onSave(ctx app.Context, _ app.Event) {
	ctx.NewActionWithValue(SaveAction, Saved{Name: f.Picture.Name, Text: File(f.Picture)})
}

// Says is the picture in words, for those who cannot see it.
func (p *Picture) Says() string {
	says := "Picture: " + p.Title + "."
	for i := range p.Panels {
		says += " " + Capital(p.Panels[i].Y.Title()) + ", against " + p.X.Title() + "."
	}
	return says
}
