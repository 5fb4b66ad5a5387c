package section

import "rosesalt/web/doc"

// PasteLabel names where a plan's text is pasted, and the command that opens that.
const PasteLabel = "Open a plan text"

// The actions about a text that is pasted, with nothing.
const (
	ShowPaste = "paste.show" // or put it away
	OpenPaste = "paste.open"
)

// PasteText is the identifier of the place to paste.
const PasteText = "paste.text"

// Paste is the place to paste a text that is to be opened as a plan; said is why the last
// one was not.
func Paste(said string) []doc.Node {
	area := doc.Control{ID: PasteText, Rows: 7, Raw: true, Described: "paste.why"}
	var why doc.Node
	if said != "" {
		area.Bad, area.Described = true, "paste.why problem.paste"
		why = doc.Problem{Key: "paste", Says: said}
	}
	return doc.Nodes{
		doc.Label{For: PasteText, Text: "A plan’s text, a link, or what its code says"},
		area,
		doc.Para{Class: "why", ID: "paste.why", Of: doc.Nodes{doc.Text("Lines that a mail broke or quoted do no harm. It takes the place of the plan on this page, which stays one step back in the browser.")}},
		why,
		doc.P("labels-do",
			doc.Button{Class: "do", ID: "paste.open", Text: "Open it", Action: OpenPaste}, press(ShowPaste, "", "Put away")),
	}
}
