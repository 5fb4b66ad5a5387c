package doc

import (
	"regexp"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"
)

func TestPlainText(t *testing.T) {
	s := Section{Title: "Title", Of: []Node{
		Box{Of: []Node{Heading("Things"), Amounts{{"Acid", "rinses", "5", "mL", ""}, {"Flask", "", "250", "mL", "several"}}}},
		nil,
		P("", Strong("Mind. "), Text("It is hot."), Nodes{nil, Span{Of: []Node{Small{Text: " Very"}, Code(".")}}}),
		List{Items: Texts([]string{"one", "two"})},
		Table{Heads: []Node{nil, Text("A")}, Rows: Rows([][]string{{"row", "1", "2"}})},
		Terms{List: []Term{{"Soda", "anhydrous", P("", Text("dry"))}}},
		TextOnly{P("", Text("told"))},
		Fold{Title: "More", Of: []Node{Text("hidden")}},
		Fold{Title: "More", Of: []Node{Text("put away")}, Told: true},
		Button{Text: "Press"},
		ScreenOnly{Text("hidden")},
		Title{Level: 2, Of: []Node{Text("Part")}},
		Live{Of: []Node{Text("hidden")}},
		Label{Text: "hidden"},
		Write{Name: "hidden"},
		Blank{Name: "hidden"},
		Sign{},
		Pictogram("GHS05"),
		QR{Says: "hidden"},
		Apparatus{},
		Control{Usual: "hidden"},
		Figures{{Name: "Mass", Number: "5", Unit: "g", Range: "4–6"}, {Name: "None", Why: "another way"}},
		Fields{{Name: "Cells", Told: "Cells: 6"}, {Name: "Blank"}},
		Notice{Lead: "Mind.", Text: "It is hot.", Do: []Button{{Text: "Mend"}}},
	}}
	assert.Equal(t, "Title\n  Things:\n    Acid (rinses): 5\u202fmL\n    Flask: 250\u202fmL, several\n"+
		"  Mind. It is hot. Very.\n  one\n  two\n  row: 1; 2\n  Soda: anhydrous\n    dry\n  told\n  put away\n  Part\n"+
		"  Mass: 5\u202fg (4–6)\n  Cells: 6\n  Mind. It is hot.\n", s.Plain())
	assert.Empty(t, (&Section{Title: "Title", Of: []Node{P(""), Button{Text: "Press"}}}).Plain(), "what says nothing has no title")
}

// TestLongFoldsAreEmptyUntilOpened: their elements would cost every keystroke.
func TestLongFoldsAreEmptyUntilOpened(t *testing.T) {
	v := &View{Section: Section{ID: "s", Of: []Node{Fold{Key: "long", Title: "More", Of: []Node{Text("put away")}}}}}
	closed := app.HTMLString(v.Render())
	assert.Contains(t, closed, `aria-expanded="false"`)
	assert.NotContains(t, closed, "put away")
	v.open = map[string]bool{"long": true}
	opened := app.HTMLString(v.Render())
	assert.Contains(t, opened, `id="fold.long"`)
	assert.NotContains(t, opened, `"false"`)
	assert.Contains(t, opened, "put away")

	v = &View{Section: Section{Of: []Node{Fold{Late: true, Title: "More", Of: []Node{Text("put away")}}}}}
	assert.NotContains(t, app.HTMLString(v.Render()), "put away")
	v.open = map[string]bool{"More": true}
	assert.Contains(t, app.HTMLString(v.Render()), "put away")
}

// TestShutSectionIsALineAndWhatIsFound: all that it would show, and no elements.
func TestShutSectionIsALineAndWhatIsFound(t *testing.T) {
	s := Section{ID: "s", Title: "Title", Line: []Node{Text("what it comes to")}, Marks: []Mark{{"stop", "hot"}}, Of: []Node{
		Fields{{Name: "Acid", Why: "for the flask", Tag: "estimate", Told: "Acid: 5"}},
		Figures{{Name: "Gas", Number: "5", Unit: "L"}, {Name: "None", Why: "another way"}},
		Fold{Title: "More", Of: []Node{Text("put away")}},
		Fold{Title: "Late", Late: true, Of: []Node{Text("not there")}},
		ScreenOnly{Text("seen")},
		TextOnly{Text("told")},
		Button{Text: "Press"},
		Table{Heads: Texts([]string{"Head"}), Rows: Rows([][]string{{"row"}})},
	}}
	words := s.Words()
	for _, there := range []string{"Acid estimate", "for the flask", "Gas: 5", "None another way", "put away", "Late", "seen", "Press", "Head", "row"} {
		assert.Contains(t, words, there)
	}
	for _, left := range []string{"Acid: 5", "not there", "told"} {
		assert.NotContains(t, words, left)
	}
	html := app.HTMLString((&View{Section: s.Closed(words)}).Render())
	assert.Contains(t, html, `id="s.title"`)
	assert.Contains(t, html, "what it comes to")
	assert.Contains(t, html, "put away")
	assert.NotContains(t, html, "<details")
	assert.NotContains(t, html, "<label")
	assert.NotEmpty(t, s.Of, "the open one is left as it is")
}

// TestTextIsNeverMarkup whatever it is. Attributes are set by the library one by one.
func TestTextIsNeverMarkup(t *testing.T) {
	const evil = `<img src="x">`
	v := &View{Section: Section{Title: evil, Sub: evil, Stream: Stream{Flows: true, Labels: []string{evil}, Joins: evil, Jar: evil}, Of: []Node{
		Text(evil), Strong(evil), Code(evil),
		Control{Unit: evil},
		Small{Text: evil},
		Span{Of: []Node{Text(evil)}},
		Heading(evil), P("", Text(evil)),
		List{Items: Texts([]string{evil})},
		Table{Heads: Texts([]string{evil, evil}), Rows: [][]Node{{Heading(evil)}, {Text(evil), Text(evil)}, {Text(evil)}}},
		Amounts{{evil, evil, evil, evil, evil}},
		Terms{List: []Term{{evil, evil, Text(evil)}}},
		Fold{Title: evil},
		Fold{Key: "k", Title: evil},
		Button{Text: evil},
		Tick{Text: evil},
		Fields{{Name: evil, Unit: evil, Why: evil, Range: evil, Tag: evil, Problem: evil}, {Options: []Option{{Name: evil}}}},
		Figures{{Name: evil, Why: "x"}, {Number: evil, Unit: evil, Range: evil}},
		Notice{Lead: evil, Text: evil, Do: []Button{{Text: evil}}},
		Problem{Says: evil},
		Pictogram(evil),
		Title{Level: 1, Of: []Node{Text(evil)}},
		Live{Of: []Node{Text(evil)}},
		Label{Text: evil},
		Write{Name: evil},
		Write{Name: evil, Width: 4},
		Blank{evil, evil, evil},
	}}}
	html := regexp.MustCompile(`"(\\.|[^"\\])*"`).ReplaceAllString(app.HTMLString(v.Render()), `""`)
	assert.NotContains(t, html, "<img")
	assert.Contains(t, html, "&lt;img")
}

// TestTableIsParted: a heading begins a group of rows, and a row of one cell goes across.
func TestTableIsParted(t *testing.T) {
	of := Table{Heads: Texts([]string{"A", "B"}), Rows: [][]Node{{Heading("One")}, Texts([]string{"a", "b"}), {Text("across")}, {Heading("Two")}, Texts([]string{"c", "d"})}}
	html := strings.ReplaceAll(app.HTMLString(app.Elem("div").Body(Draw(of)...)), "\n", "")
	assert.Regexp(t, `<tbody[^>]*><tr[^>]*><th[^>]* colspan="2"[^>]*>One</th></tr><tr[^>]*>.*<tr[^>]*><td[^>]* colspan="2"[^>]*>across</td></tr></tbody><tbody[^>]*><tr[^>]*><th[^>]*>Two</th></tr><tr[^>]*>.*</tbody>`, html)
	assert.Equal(t, 2, strings.Count(html, "<tbody"))
	assert.Equal(t, 1, strings.Count(strings.ReplaceAll(app.HTMLString(app.Elem("div").Body(Draw(Table{Heads: of.Heads})...)), "\n", ""), "<tbody"))
}

// TestCellsRepeatTheirHeads, for windows that stack them, and say what they are whatever becomes of
// their boxes: a cell under a head of several nodes takes its words, one under no head has none.
func TestCellsRepeatTheirHeads(t *testing.T) {
	of := Table{Heads: []Node{Text("Run"), Nodes{Text("Found"), Button{Text: "sort"}}, nil}, Rows: [][]Node{Texts([]string{"a", "1", "open", "more than heads"})}}
	html := strings.ReplaceAll(app.HTMLString(app.Elem("div").Body(Draw(of)...)), "\n", "")
	cell := func(text string) string { return regexp.MustCompile(`<t[dh][^>]*>` + text).FindString(html) }
	assert.Contains(t, cell("1<"), `data-head="Found"`)
	assert.Contains(t, cell("1<"), `role="cell"`)
	assert.NotContains(t, cell("open<"), "data-head")
	assert.Contains(t, cell("a<"), `role="rowheader"`)
	assert.NotContains(t, cell("a<"), "data-head")
	assert.Equal(t, 2, strings.Count(html, `role="row"`))
	assert.Equal(t, 1, strings.Count(html, `role="table"`))
}

// TestCellsOfATableThatTurnsRepeatTheirRows, since a phone shows a block for each column.
func TestCellsOfATableThatTurnsRepeatTheirRows(t *testing.T) {
	of := Table{Turns: true, Heads: Texts([]string{"", "A", "B", "C"}), Rows: [][]Node{Texts([]string{"Acid", "1", "2", "3"})}}
	html := strings.ReplaceAll(app.HTMLString(app.Elem("div").Body(Draw(of)...)), "\n", "")
	assert.Regexp(t, `<table[^>]* class="stack turns"`, html)
	assert.Equal(t, 3, strings.Count(html, `data-head="Acid"`))
}

// TestWideTablesStack: those of more than three columns, and of three where one holds sentences.
func TestWideTablesStack(t *testing.T) {
	long := strings.Repeat("a word ", 6)
	for _, c := range []struct {
		row  []string
		wide bool
	}{
		{[]string{"a", "b", "c", "d"}, true}, {[]string{"a", "b", "c"}, false}, {[]string{"a", "b", long}, true}, {[]string{"a", long}, false},
	} {
		of := Table{Heads: Texts(c.row), Rows: Rows([][]string{c.row})}
		assert.Equal(t, c.wide, strings.Contains(app.HTMLString(app.Elem("div").Body(Draw(of)...)), `class="stack"`), c.row)
	}
}

// TestFoldsMayBeOpenAtFirst until somebody closes them.
func TestFoldsMayBeOpenAtFirst(t *testing.T) {
	v := &View{Section: Section{Of: []Node{
		Fold{Key: "by.button", Title: "One", Open: true, Of: []Node{Text("first")}},
		Fold{Late: true, Title: "Two", Open: true, Of: []Node{Text("second")}},
		Fold{Title: "Three", Open: true, Of: []Node{Text("third")}},
	}}}
	html := app.HTMLString(v.Render())
	for _, text := range []string{"first", "second", "third"} {
		assert.Contains(t, html, text)
	}
	assert.NotContains(t, html, `"false"`)
	assert.Len(t, regexp.MustCompile(`<details[^>]* open`).FindAllString(html, -1), 2)
	v.open = map[string]bool{"by.button": false, "Two": false}
	html = app.HTMLString(v.Render())
	assert.NotContains(t, html, "first")
	assert.NotContains(t, html, "second")
}

// TestNumberWithoutAKeyHasNoWorking: it stands beside the figure that has one.
func TestNumberWithoutAKeyHasNoWorking(t *testing.T) {
	html := app.HTMLString(app.Elem("div").Body(Draw(Figures{{Key: "k", Number: "5"}, {Number: "6"}})...))
	assert.Equal(t, 1, strings.Count(html, "<data"))
	assert.Contains(t, html, `<span class="num">`)
}

// TestBlankSaysWhatToExpect also of a number that has no unit.
func TestBlankSaysWhatToExpect(t *testing.T) {
	html := app.HTMLString((&View{Section: Section{Of: []Node{Blank{Name: "Bubbles", Expect: " about 89"}, Blank{Name: "Place"}}}}).Render())
	assert.Contains(t, html, "<small> about 89</small>")
	assert.Equal(t, 1, strings.Count(html, "<small>"))
}

// TestButtonsTellWhatTheyAre: what one opens, that it is chosen, and that it does nothing now.
// Only one that cannot be pressed at all loses the focus.
func TestButtonsTellWhatTheyAre(t *testing.T) {
	drawn := func(b Button) string { return app.HTMLString(Draw(b)[0]) }
	assert.NotRegexp(t, "aria-|disabled", drawn(Button{Text: "Next"}))
	assert.Contains(t, drawn(Button{Opens: "card"}), `aria-controls="card"`)
	assert.Contains(t, drawn(Button{Opens: "card"}), `aria-expanded="false"`)
	assert.Regexp(t, `aria-expanded[^=]`, drawn(Button{Opens: "card", Shown: true}), "written without its value, true")
	assert.Contains(t, drawn(Button{Choice: true}), `aria-pressed="false"`)
	assert.Regexp(t, `aria-pressed[^=]`, drawn(Button{Choice: true, Shown: true}))
	assert.Regexp(t, `aria-disabled[^=]`, drawn(Button{Idle: true}))
	assert.NotContains(t, drawn(Button{Idle: true}), ` disabled`)
}

// TestOnlyWhatAsksForItTakesTheFocus: the tabulator stops at a box, a paragraph waits for a script.
func TestOnlyWhatAsksForItTakesTheFocus(t *testing.T) {
	html := app.HTMLString(app.Elem("div").Body(Draw(Para{ID: "done", Focus: true}, Box{ID: "picture", Stop: true}, Para{ID: "plain"}, Box{ID: "box"})...))
	assert.Equal(t, 2, strings.Count(html, "tabindex"))
	assert.Regexp(t, `<p[^>]*tabindex="-1"`, html)
	assert.Regexp(t, `<div[^>]*tabindex="0"`, html)
}
