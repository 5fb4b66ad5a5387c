// Package doc is what a part of the page says, as plain data: headings, paragraphs, lists,
// tables, lines of amounts, folds, pictures, buttons. A document is drawn as elements
// (page.go) or written as plain text (text.go). It holds no function and no pointer, so two
// documents say the same when they are deeply equal, and the page leaves an equal one alone.
//
// Class is the class that the stylesheets know, ID the id of the element; both may be empty.
package doc

import "rosesalt/web/chart"

// Node is a part of a document. Nil stands for nothing.
type Node interface {
	page(v *View, list []ui) []ui
	text(w *writer)
}

// Section is a part of the page: a line that is pressed to open and to close it, and what is
// in it. One that is shut holds nothing but the text that looking for words on the page finds.
type Section struct {
	ID, Title string // both given by the list of the page's parts
	Sub       string // what it is about, beside the title
	Line      []Node // in its place, what it comes to
	Marks     []Mark // what wants attention, behind the line
	Stream    Stream // at its margin
	Of        []Node
	Shut      bool
	Found     string // what it would say, while it is shut
}

// Mark is a few words of what wants attention. Class is stop, mind or nothing.
type Mark struct{ Class, Text string }

// Closed is the section shut, with what is found in it.
func (s Section) Closed(found string) Section {
	s.Of, s.Shut, s.Found = nil, true, found
	return s
}

type (
	// Nodes is several nodes where one is asked for, with no element around them.
	Nodes []Node

	// Text is plain words.
	Text string

	// Strong is words that stand out.
	Strong string

	// Code is what a machine reads.
	Code string

	// Small is words that matter less than those before them.
	Small struct{ Class, Text string }

	// Heading stands above a part of a section.
	Heading string

	// Para is a paragraph.
	Para struct {
		Class, ID string
		Focus     bool // it can be given the focus
		Of        []Node
	}

	// Box keeps nodes together, for the stylesheets' sake, or as a part with a name of its own
	// for a screen reader.
	Box struct {
		Tag         string // the element, where it is no div
		Class, ID   string
		Role, Label string // for a screen reader
		Described   string // the id of what describes it
		Stop        bool   // the tabulator stops at it
		Of          []Node
	}

	// Span is nodes in running text.
	Span struct {
		Class, ID string
		Of        []Node
	}

	// List is a list, an item a node.
	List struct {
		Class   string
		ID      string
		Ordered bool // numbered
		Items   []Node
	}

	// Table is a table, a cell a node. The first cell of a row names it. A head that is nil
	// stands over what needs none. A row of one cell goes across the table; a Heading there
	// begins a group of rows.
	Table struct {
		Class string
		Label string // what a screen reader calls it; empty where what is in it takes the focus
		Paper bool   // it never scrolls
		Turns bool   // on a phone its columns stand below one another, not its rows
		Heads []Node
		Rows  [][]Node
	}

	// Amounts is a list of things with their amounts.
	Amounts []Amount

	// Amount is a thing, what it is for, how much of it, and what else is to be said of that.
	Amount struct{ Name, For, Number, Unit, Beside string }

	// Terms is a list of terms, each with what is to be said of it.
	Terms struct {
		Class string
		List  []Term
	}

	// Term is a term of Terms.
	Term struct {
		Name, Says string
		More       Node // may be nil
	}

	// Fold is put away until its title is pressed.
	Fold struct {
		Class, Title string
		Opened       string // the title while it is open, of one with a key, where it is another
		Label        string // for a screen reader, where the title alone says too little
		Of           []Node
		Open         bool   // until it is closed
		Told         bool   // the text tells what is in it; else it leaves the fold out
		Late         bool   // its elements are made only while it is open: for what is long
		Key          string // if it has one, it is late, and a button with the id fold.Key opens it
	}

	// Button asks the page for an action, with a value. The text leaves it out.
	Button struct {
		Class, ID     string
		Text          string
		Label         string // for a screen reader, where the text alone says too little
		Action, Value string
		Off           bool   // it cannot be pressed
		Idle          bool   // it does nothing now, and keeps the focus all the same
		Opens         string // the id of what it shows and puts away, if it does
		Choice        bool   // it is one of several to choose from
		Shown         bool   // what it opens is shown; the choice is the one that holds
	}

	// Tick is a box to tick that asks the page for an action, as a button does. The text
	// leaves it out.
	Tick struct {
		Class, Text   string
		Label         string // for a screen reader, where the text alone says too little
		Action, Value string
		On            bool
	}

	// Progress is how far some work is, from 0 to 1. The text leaves it out.
	Progress struct {
		Label string // for a screen reader
		Share float64
	}

	// Notice is a word of advice or a warning, with buttons that follow it. Class is mind, tip
	// or stop.
	Notice struct {
		Class, Lead, Text string
		Do                []Button
	}

	// ScreenOnly is nodes that the text leaves out.
	ScreenOnly []Node

	// TextOnly is nodes that only the text has.
	TextOnly []Node

	// Picture is a picture with its numbers. The text leaves it out.
	Picture struct{ chart.Picture }
)

// P is a paragraph.
func P(class string, of ...Node) Para { return Para{Class: class, Of: of} }

// PText is a paragraph of plain words.
func PText(class, words string) Para { return P(class, Text(words)) }

// Div keeps nodes together under a class.
func Div(class string, of ...Node) Box { return Box{Class: class, Of: of} }

// Texts makes a node of each text, for lists and rows.
func Texts(list []string) []Node {
	nodes := make([]Node, len(list))
	for i, text := range list {
		nodes[i] = Text(text)
	}
	return nodes
}

// Rows makes nodes of the texts of a table.
func Rows(rows [][]string) [][]Node {
	list := make([][]Node, len(rows))
	for i, row := range rows {
		list[i] = Texts(row)
	}
	return list
}
