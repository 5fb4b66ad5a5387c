package doc

import "github.com/maxence-charriere/go-app/v9/pkg/app"

type (
	// Field is a control with its name, what is to be known of it, and what is wrong with it.
	Field struct {
		Key, Name, Unit string
		Why, Range      string
		Usual           string // what is counted with while the field is blank, in its unit
		Tag, Line       string // the kind of number, in a word and as the class of its line
		Problem         string
		Options         []Option // of a choice
		Kind            string   // the input's type, where it is no number: text, time …
		Most            int      // letters, if there is a limit
		Whole           bool
		Locked          bool
		Again           bool   // it stands a second time, and has its place elsewhere
		Planned         string // what the run's plan held, beside what was taken
		Told            string // the field in the text; empty: the text leaves it out
	}

	// Fields is a list of fields.
	Fields []Field

	// Option is one word of a choice.
	Option struct {
		Word, Name string
		Chosen     bool
	}

	// Control is what is typed or chosen in. What stands in it is written by the page, never
	// here: a text that a document knows may be older than what is being typed.
	Control struct {
		ID        string
		Key       string // its name: what it sets
		Ask       string // in place of a key: what it asks about certainty
		Label     string // for a screen reader, where no element is its label
		Described string // ids of what describes it, parted by spaces
		Bad       bool   // it cannot be used as typed
		Kind      string // the input's type
		Mode      string // the keys that a telephone shows
		Usual     string // stands there in brackets while nothing is typed
		Hint      string // stands there as it is while nothing is typed
		Unit      string
		Line      string   // class of its line
		Most      int      // letters, if there is a limit
		Options   []Option // of a choice
		Locked    bool
		Rows      int    // lines, if it is a place for several
		Accept    string // the files that may be chosen
		Raw       bool   // what is typed is not for the browser to spell or to propose
		Double    bool   // it doubles the field of its key; without an id in running text
	}
)

func (n Fields) page(v *View, list []ui) []ui {
	rows := make([]ui, 0, len(n))
	for i := range n {
		rows = n[i].page(v, rows)
	}
	return append(list, app.Elem("div").Class("rows").Body(rows...))
}

func (n Fields) text(w *writer) {
	for i := range n {
		n[i].text(w)
	}
}

func (n Field) page(v *View, list []ui) []ui {
	own := n.Key // in ids
	if n.Again {
		own = "again." + n.Key
	}
	c := Control{
		ID: "in." + own, Key: n.Key, Double: n.Again, Described: "why." + own, Kind: n.Kind, Usual: n.Usual, Unit: n.Unit, Line: n.Line, Most: n.Most, Options: n.Options, Locked: n.Locked,
	}
	class := "row"
	if n.Problem != "" {
		class += " bad"
		c.Bad = true
		c.Described += " problem." + own
	}
	switch {
	case n.Options != nil:
		class += " choice"
	case n.Kind != "":
		class += " when"
	case n.Whole:
		c.Mode = "numeric"
	default:
		c.Mode = "decimal"
	}
	label := app.Elem("label").Attr("for", c.ID).Text(n.Name)
	if n.Tag != "" {
		label = label.Body(app.Text(n.Name), app.Elem("span").Class("tag "+n.Line).Text(n.Tag))
	}
	why := n.Why
	if n.Planned != "" {
		why = n.Planned + " " + why
	}
	if n.Range != "" {
		why += " " + n.Range
	}
	row := append(c.page(v, []ui{label}), app.Elem("p").Class("why").ID("why."+own).Text(why))
	row = Problem{own, n.Problem}.page(v, row)
	return append(list, app.Elem("div").Class(class).Body(row...))
}

func (n Field) text(w *writer) {
	if !w.all {
		w.lines(Text(n.Told))
		return
	}
	w.shown(n.Name, n.Tag, n.Unit, n.Planned, n.Why, n.Range, n.Problem)
}

// Problem says what is wrong with the field of a key, and is not there when nothing is. It is
// no live region: it changes with every key, so the page tells it once typing pauses.
type Problem struct{ Key, Says string }

func (n Problem) page(_ *View, list []ui) []ui {
	if n.Says == "" {
		return list
	}
	return append(list, app.Elem("p").Class("problem").ID("problem."+n.Key).Text(n.Says))
}

func (n Problem) text(w *writer) { w.lines(Text(n.Says)) }

func (n Control) page(_ *View, list []ui) []ui {
	e, class, locked := app.Elem("input"), "in "+n.Line, "readonly"
	if n.Options != nil {
		options := make([]ui, len(n.Options))
		for i, o := range n.Options {
			options[i] = app.Elem("option").Attr("value", o.Word).Attr("selected", o.Chosen).Text(o.Name)
		}
		e, class, locked = app.Elem("select").Body(options...), "in pick", "disabled"
	}
	if n.Rows > 0 {
		e = app.Elem("textarea").Attr("rows", n.Rows)
	}
	if n.Raw || n.Double {
		e = e.Attr("autocomplete", "off")
	}
	if n.Raw {
		e = e.Attr("spellcheck", "false")
	}
	name := n.Key
	if n.Double {
		name = ""
	}
	e = with(e, "id", n.ID, "name", name, "data-ask", n.Ask, "aria-label", n.Label, "aria-describedby", n.Described, "type", n.Kind, "inputmode", n.Mode, "placeholder", n.Hint+Proposal(n.Usual), "accept", n.Accept)
	if n.Bad {
		e = e.Attr("aria-invalid", "true")
	}
	if n.Most > 0 {
		e = e.Attr("maxlength", n.Most)
	}
	if n.Locked {
		e = e.Attr(locked, true)
	}
	switch {
	case n.Double && n.ID == "": // in running text
		return append(list, e.Class(n.Line).Attr("data-key", n.Key))
	case n.Rows > 0 || n.Kind == "file":
		return append(list, e)
	}
	if n.Double {
		e = e.Attr("data-key", n.Key)
	}
	box := []ui{e}
	if n.Unit != "" && n.Options == nil {
		box = append(box, app.Elem("span").Text(n.Unit))
	}
	return append(list, app.Elem("div").Class(class).Body(box...))
}

func (n Control) text(*writer) {}

// Proposal is what stands in a field while nothing is typed: in brackets, as nobody types a
// number, and in the unit of the field.
func Proposal(text string) string {
	if text == "" {
		return ""
	}
	return "(" + text + ")"
}
