// Package doctest looks into documents, for tests.
package doctest

import (
	"bytes"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/doc"
)

// Find lists all nodes of a type, in their order.
func Find[T doc.Node](of ...doc.Node) (list []T) {
	for _, n := range of {
		if found, ok := n.(T); ok {
			list = append(list, found)
		}
		list = append(list, Find[T](inside(n)...)...)
	}
	return list
}

// inside lists the nodes in a node.
func inside(n doc.Node) (list []doc.Node) {
	switch n := n.(type) {
	case doc.Nodes:
		return n
	case doc.ScreenOnly:
		return n
	case doc.TextOnly:
		return n
	case doc.Terms:
		for _, t := range n.List {
			list = append(list, t.More)
		}
	case doc.Para:
		return n.Of
	case doc.Box:
		return n.Of
	case doc.Span:
		return n.Of
	case doc.Title:
		return n.Of
	case doc.Live:
		return n.Of
	case doc.Fold:
		return n.Of
	case doc.List:
		return n.Items
	case doc.Fields:
		for _, f := range n {
			list = append(list, f)
		}
	case doc.Figures:
		for _, f := range n {
			list = append(list, f)
		}
	case doc.Notice:
		for _, b := range n.Do {
			list = append(list, b)
		}
	case doc.Table:
		list = append(list, n.Heads...)
		for _, row := range n.Rows {
			list = append(list, row...)
		}
	}
	return list
}

// Text is the plain text of nodes, a line each.
func Text(of ...doc.Node) string {
	return strings.TrimSpace((&doc.Section{Of: of}).Plain())
}

// HTML is a section as elements.
func HTML(s doc.Section) string {
	var b bytes.Buffer
	app.PrintHTML(&b, &doc.View{Section: s})
	return b.String()
}
