package doc

import (
	"cmp"
	"slices"
	"strconv"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/chart"
)

type ui = app.UI

// Unfolded is the action that tells the page that a fold was opened or closed: its fields
// are to be filled.
const Unfolded = "fill"

// ActionData and ValueData name the data attributes in which a button carries its action and
// value. One listener at the root of the page hears all of them.
const (
	ActionData = "do"
	ValueData  = "value"
)

// Asks has an element ask the page for an action when it is pressed.
func Asks[E interface{ Attr(string, any) E }](e E, action, value string) E {
	return e.Attr("data-"+ActionData, action).Attr("data-"+ValueData, value)
}

// View draws a section. The library leaves it alone while its section is deeply equal.
type View struct {
	app.Compo
	Section Section

	open map[string]bool // the folds that were opened, by key
}

// Render draws the section.
func (v *View) Render() app.UI {
	return v.Section.Around(v.draw(nil, v.Section.Of)...)
}

// FoldSection is the action that opens a section that is shut, and shuts an open one, with
// its id.
const FoldSection = "section.fold"

// Around is a section with its elements, for those that no document holds. The element that
// is found while the section is shut is the one that is filled when it opens: a browser that
// has found something in it holds on to it.
func (s *Section) Around(body ...ui) ui {
	expanded, inside := "true", app.Elem("div").ID(s.ID+".inside").Class("inside")
	if s.Shut {
		// The library takes "hidden" for a yes or no; to the browser the two are one.
		expanded, inside = "false", inside.Attr("Hidden", "until-found").Body(app.Text(s.Found))
	} else {
		inside = inside.Body(body...)
	}
	button := Asks(app.Elem("button").Attr("type", "button").ID(s.ID+".title").Attr("aria-expanded", expanded).Attr("aria-controls", s.ID+".inside"), FoldSection, s.ID).Text(s.Title)
	line := s.Line
	if line == nil {
		line = []Node{Text(s.Sub)}
	}
	head := []ui{app.Elem("h2").Body(button), app.Elem("p").Class("line").Body(Draw(line...)...)}
	if s.Marks != nil {
		head = append(head, app.Elem("p").Class("marks").Body(app.Range(s.Marks).Slice(func(i int) ui {
			return app.Elem("span").Class("mark " + s.Marks[i].Class).Text(s.Marks[i].Text)
		})))
	}
	section := app.Elem("section").ID(s.ID).Attr("aria-labelledby", s.ID+".title")
	if s.Shut {
		section = section.Class("shut")
	}
	return section.Body(
		s.Stream.draw(),
		app.Elem("div").Class("body").Body(app.Elem("div").Class("head").Body(head...), inside),
	)
}

// Draw draws nodes that stand in no section.
func Draw(of ...Node) []app.UI { return (&View{}).draw(nil, of) }

// draw appends the elements of nodes to a list.
func (v *View) draw(list []ui, of []Node) []ui {
	for _, n := range of {
		if n != nil {
			list = n.page(v, list)
		}
	}
	return list
}

// elem is an element around nodes.
func (v *View) elem(tag, class string, of ...Node) app.HTMLElem {
	return with(app.Elem(tag).Body(v.draw(nil, of)...), "class", class)
}

// with is an element with attributes, a name and a value in turn; those without a value are
// left out.
func with[E interface{ Attr(string, any) E }](e E, attributes ...string) E {
	for a := range slices.Chunk(attributes, 2) {
		if a[1] != "" {
			e = e.Attr(a[0], a[1])
		}
	}
	return e
}

func (n Nodes) page(v *View, list []ui) []ui { return v.draw(list, n) }

func (n Text) page(_ *View, list []ui) []ui { return append(list, app.Text(string(n))) }

func (n Strong) page(_ *View, list []ui) []ui { return append(list, app.Elem("b").Text(string(n))) }

func (n Code) page(_ *View, list []ui) []ui { return append(list, app.Elem("code").Text(string(n))) }

func (n Small) page(v *View, list []ui) []ui {
	return append(list, v.elem("small", n.Class, Text(n.Text)))
}

func (n Heading) page(_ *View, list []ui) []ui { return append(list, app.Elem("h3").Text(string(n))) }

func (n Para) page(v *View, list []ui) []ui {
	e := with(v.elem("p", n.Class, n.Of...), "id", n.ID)
	if n.Focus {
		e = e.TabIndex(-1)
	}
	return append(list, e)
}

func (n Box) page(v *View, list []ui) []ui {
	e := with(v.elem(cmp.Or(n.Tag, "div"), n.Class, n.Of...), "id", n.ID, "role", n.Role, "aria-describedby", n.Described, "aria-label", n.Label)
	if n.Stop {
		e = e.TabIndex(0)
	}
	return append(list, e)
}

func (n Span) page(v *View, list []ui) []ui {
	return append(list, with(v.elem("span", n.Class, n.Of...), "id", n.ID))
}

func (n List) page(v *View, list []ui) []ui {
	tag := "ul"
	if n.Ordered {
		tag = "ol"
	}
	items := make([]ui, len(n.Items))
	for i, item := range n.Items {
		items[i] = v.elem("li", "", item)
	}
	return append(list, with(app.Elem(tag).Body(items...), "class", n.Class, "id", n.ID))
}

// headWord is the head of a column as it stands before a cell of it.
func headWord(head Node) string {
	switch head := head.(type) {
	case Text:
		return string(head)
	case Nodes:
		return headWord(head[0])
	}
	return ""
}

// The roles are written out: where rows are stacked, some browsers forget what they are.
func (n Table) page(v *View, list []ui) []ui {
	table := with(app.Elem("table").Role("table"), "class", n.Class)
	if n.wide() {
		table = table.Class("stack")
	}
	if n.Turns {
		table = table.Class("turns")
	}
	table = table.Body(n.groups(v)...)
	if n.Paper {
		return append(list, table)
	}
	scroll := app.Elem("div").Class("scroll").Body(table)
	if n.Label != "" { // narrow windows scroll it, so it takes the focus
		scroll = scroll.TabIndex(0).Role("region").Attr("aria-label", n.Label)
	}
	return append(list, scroll)
}

// groups are the heads, and the rows, those under each heading together.
func (n Table) groups(v *View) (list []ui) {
	group := func(tag string, rows []ui) { list = append(list, app.Elem(tag).Role("rowgroup").Body(rows...)) }
	line := func(cells ...ui) ui { return app.Elem("tr").Role("row").Body(cells...) }
	cells := make([]ui, len(n.Heads))
	for i, head := range n.Heads {
		if head == nil {
			cells[i] = app.Elem("td").Role("cell")
		} else {
			cells[i] = v.elem("th", "", head).Attr("scope", "col").Role("columnheader")
		}
	}
	if n.Heads != nil {
		group("thead", []ui{line(cells...)})
	}
	var rows []ui
	for _, row := range n.Rows {
		heading, heads := row[0].(Heading)
		switch across := len(row) == 1 && len(n.Heads) > 1; {
		case across && heads:
			if rows != nil {
				group("tbody", rows)
			}
			rows = []ui{line(app.Elem("th").Attr("scope", "rowgroup").Role("rowheader").Text(string(heading)).Attr("colspan", len(n.Heads)))}
		case across:
			rows = append(rows, line(v.elem("td", "", row[0]).Role("cell").Attr("colspan", len(n.Heads))))
		default:
			cells := make([]ui, len(row))
			for j := range row {
				cells[j] = n.cell(v, row, j)
			}
			rows = append(rows, line(cells...))
		}
	}
	group("tbody", rows)
	return list
}

// cell is a cell of a row; the first names it.
func (n Table) cell(v *View, row []Node, at int) ui {
	if at == 0 {
		return v.elem("th", "", row[0]).Attr("scope", "row").Role("rowheader")
	}
	e := v.elem("td", "", row[at]).Role("cell")
	switch {
	case at >= len(n.Heads):
		return e
	case n.Turns:
		return with(e, chart.HeadData, headWord(row[0]))
	}
	return with(e, chart.HeadData, headWord(n.Heads[at]))
}

// wide tells whether its columns want more room than a phone has: there its rows are stacked.
func (n Table) wide() bool {
	const sentence = 40 // letters
	for _, row := range n.Rows {
		for _, cell := range row {
			if text, ok := cell.(Text); ok && len(text) > sentence && len(n.Heads) == chart.PhoneColumns {
				return true
			}
		}
	}
	return len(n.Heads) > chart.PhoneColumns
}

func (n Amounts) page(_ *View, list []ui) []ui {
	lines := make([]ui, len(n))
	for i, a := range n {
		amount := []ui{app.Elem("span").Body(app.Elem("span").Class("num").Text(a.Number), app.Elem("small").Text(Unit(a.Unit)))}
		if a.Beside != "" {
			amount = append(amount, app.Elem("small").Text(a.Beside))
		}
		lines[i] = app.Elem("div").Class("fig").Body(
			app.Elem("dt").Body(app.Text(a.Name), app.Elem("small").Class("for").Text(a.For)), app.Elem("dd").Body(amount...),
		)
	}
	return append(list, app.Elem("dl").Class("amounts").Body(lines...))
}

func (n Terms) page(v *View, list []ui) []ui {
	terms := make([]ui, len(n.List))
	for i, t := range n.List {
		terms[i] = app.Elem("div").Body(app.Elem("dt").Body(app.Elem("b").Text(t.Name)), app.Elem("dd").Body(v.draw([]ui{app.Text(t.Says)}, []Node{t.More})...))
	}
	return append(list, app.Elem("dl").Class(n.Class).Body(terms...))
}

func (n Fold) page(v *View, list []ui) []ui {
	switch {
	case n.Key != "":
		return append(list, n.byButton(v))
	case n.Late && !v.isOpen(n.Title, n.Open):
		n.Of = nil
	}
	e := v.elem("details", n.Class, append(Nodes{summary(n.Title)}, n.Of...)...)
	if n.Open {
		e = e.Attr("open", true)
	}
	if n.Late {
		e = e.Attr("data-fold", n.Title).On("toggle", v.onToggle)
	}
	return append(list, with(e, "aria-label", n.Label))
}

// byButton is a fold with a button.
func (n Fold) byButton(v *View) ui {
	said := "false"
	button := app.Elem("button").Attr("type", "button").Class("plain").ID("fold."+n.Key).Attr("data-fold", n.Key).Text(n.Title).OnClick(v.onFold)
	body := []ui{button}
	if v.isOpen(n.Key, n.Open) {
		said = "true"
		button = button.Text(cmp.Or(n.Opened, n.Title))
		body = v.draw(body, n.Of)
	}
	button.Attr("aria-expanded", said)
	return app.Elem("div").Class(n.Class).Body(body...)
}

// summary is the title of a fold.
type summary string

func (n summary) page(_ *View, list []ui) []ui {
	return append(list, app.Elem("summary").Text(string(n)))
}

func (summary) text(*writer) {}

// onFold opens or closes the fold whose button was pressed.
func (v *View) onFold(ctx app.Context, _ app.Event) {
	key := ctx.JSSrc().Get("dataset").Get("fold").String()
	v.fold(ctx, key, ctx.JSSrc().Call("getAttribute", "aria-expanded").String() != "true")
}

// onToggle hears that a fold was opened or closed.
func (v *View) onToggle(ctx app.Context, _ app.Event) {
	v.fold(ctx, ctx.JSSrc().Get("dataset").Get("fold").String(), ctx.JSSrc().Get("open").Bool())
}

// isOpen tells whether a fold is open: as it was left, or as it is at first.
func (v *View) isOpen(key string, first bool) bool {
	if open, said := v.open[key]; said {
		return open
	}
	return first
}

func (v *View) fold(ctx app.Context, key string, open bool) {
	if v.open == nil {
		v.open = map[string]bool{}
	}
	v.open[key] = open
	ctx.NewAction(Unfolded)
}

func (n Tick) page(_ *View, list []ui) []ui {
	box := Asks(app.ElemSelfClosing("input").Attr("type", "checkbox").Attr("checked", n.On), n.Action, n.Value)
	return append(list, app.Elem("label").Class(n.Class).Body(with(box, "aria-label", n.Label), app.Text(n.Text)))
}

func (n Button) page(_ *View, list []ui) []ui {
	b := Asks(app.Elem("button").Attr("type", "button").Text(n.Text), n.Action, n.Value)
	b = with(b, "class", n.Class, "id", n.ID, "aria-label", n.Label)
	if n.Off {
		b = b.Attr("disabled", true)
	}
	if n.Idle {
		b = b.Attr("aria-disabled", "true")
	}
	if n.Choice {
		b = b.Attr("aria-pressed", strconv.FormatBool(n.Shown))
	}
	if n.Opens != "" {
		b = b.Attr("aria-expanded", strconv.FormatBool(n.Shown)).Attr("aria-controls", n.Opens)
	}
	return append(list, b)
}

func (n Progress) page(_ *View, list []ui) []ui {
	return append(list, app.Elem("progress").Attr("max", "1").Attr("value", strconv.FormatFloat(n.Share, 'f', 3, 64)).Aria("label", n.Label))
}

func (n Notice) page(v *View, list []ui) []ui {
	words := []ui{app.Elem("b").Text(n.Lead + " "), app.Text(n.Text)}
	if n.Do == nil {
		return append(list, app.Elem("p").Class("note "+n.Class).Body(words...))
	}
	var buttons []ui
	for _, b := range n.Do {
		buttons = b.page(v, buttons)
	}
	return append(list, app.Elem("div").Class("note "+n.Class).Body(append(words, app.Elem("p").Class("mends").Body(buttons...))...))
}

func (n ScreenOnly) page(v *View, list []ui) []ui { return v.draw(list, n) }

func (n TextOnly) page(_ *View, list []ui) []ui { return list }

func (n Picture) page(_ *View, list []ui) []ui {
	return append(list, &chart.Figure{Picture: n.Picture})
}

// Unit is a unit as it follows its number.
func Unit(name string) string {
	if name == "" {
		return ""
	}
	return "\u202f" + name
}
