package doc

import "strings"

// writer writes nodes as lines of plain text.
type writer struct {
	b    strings.Builder
	in   string // before each line
	line string // that is being written
	all  bool   // everything that the page shows, however it is folded
}

// Plain is the section as lines of plain text under its title: empty if it says nothing.
func (s *Section) Plain() string {
	w := writer{in: "  "}
	w.write(s.Of)
	w.end()
	if w.b.Len() == 0 {
		return ""
	}
	return s.Title + "\n" + w.b.String()
}

// Words are all words that the section shows on the page when it is open.
func (s *Section) Words() string { return shown(s.Of) }

func shown(of []Node) string {
	w := writer{all: true}
	w.write(of)
	w.end()
	return w.b.String()
}

func (w *writer) write(of []Node) {
	for _, n := range of {
		if n != nil {
			n.text(w)
		}
	}
}

// end ends the line, if there is anything in it.
func (w *writer) end() {
	if text := strings.TrimSpace(w.line); text != "" {
		w.b.WriteString(w.in + text + "\n")
	}
	w.line = ""
}

// lines writes nodes on lines of their own.
func (w *writer) lines(of ...Node) {
	w.end()
	in := w.in
	w.write(of)
	w.end()
	w.in = in
}

func (n Nodes) text(w *writer)   { w.write(n) }
func (n Text) text(w *writer)    { w.line += string(n) }
func (n Strong) text(w *writer)  { w.line += string(n) }
func (n Code) text(w *writer)    { w.line += string(n) }
func (n Small) text(w *writer)   { w.line += n.Text }
func (n Span) text(w *writer)    { w.write(n.Of) }
func (n Para) text(w *writer)    { w.lines(n.Of...) }
func (n Box) text(w *writer)     { w.lines(n.Of...) }
func (n Button) text(w *writer)  { w.shown(n.Text) }
func (n Tick) text(w *writer)    { w.shown(n.Text) }
func (n Picture) text(w *writer) { w.shown(n.Title) }
func (Progress) text(*writer)    {}
func (n Notice) text(w *writer)  { w.lines(Text(n.Lead + " " + n.Text)) }

// shown writes words that only the page has.
func (w *writer) shown(words ...string) {
	if w.all {
		w.lines(Text(strings.Join(words, " ")))
	}
}

func (n ScreenOnly) text(w *writer) {
	if w.all {
		w.write(n)
	}
}

func (n TextOnly) text(w *writer) {
	if !w.all {
		w.write(n)
	}
}

func (n Fold) text(w *writer) {
	w.shown(n.Title)
	if n.Told || w.all && !n.Late && n.Key == "" {
		w.lines(n.Of...)
	}
}

// What follows a heading in the same box stands further in.
func (n Heading) text(w *writer) {
	w.lines(Text(n + ":"))
	w.in += "  "
}

func (n List) text(w *writer) {
	for _, item := range n.Items {
		w.lines(item)
	}
}

func (n Table) text(w *writer) {
	if w.all {
		w.lines(n.Heads...)
	}
	for _, row := range n.Rows {
		for i, cell := range row {
			switch i {
			case 0:
			case 1:
				w.line += ": "
			default:
				w.line += "; "
			}
			w.write([]Node{cell})
		}
		w.end()
	}
}

func (n Amounts) text(w *writer) {
	for _, a := range n {
		line := a.Name
		if a.For != "" {
			line += " (" + a.For + ")"
		}
		line += ": " + a.Number + Unit(a.Unit)
		if a.Beside != "" {
			line += ", " + a.Beside
		}
		w.lines(Text(line))
	}
}

func (n Terms) text(w *writer) {
	for _, t := range n.List {
		w.lines(Text(t.Name + ": " + t.Says))
		in := w.in
		w.in += "  "
		w.lines(t.More)
		w.in = in
	}
}
