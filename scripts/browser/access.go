package browser

import (
	"encoding/json"

	"github.com/chromedp/cdproto/accessibility"
	"github.com/chromedp/cdproto/emulation"
)

// Media is how a reader has set the browser, or what the page is shown on.
type Media struct {
	Dark   bool // the reader asked for dark colours
	Forced bool // the reader's own few colours stand in the place of the page's
	Still  bool // the reader asked for no motion
	Paper  bool // the page is laid out for paper
}

// features are what a browser must be able to do to show it.
func (m Media) features() (list []Feature) {
	for _, f := range []struct {
		asked bool
		Feature
	}{{m.Dark, Dark}, {m.Still, Still}, {m.Forced, Forced}, {m.Paper, Paper}} {
		if f.asked {
			list = append(list, f.Feature)
		}
	}
	return list
}

// Show lays the page out as a reader has set the browser; what is not asked for is
// the browser's default.
func (t *Tab) Show(m Media) error {
	if err := t.kind.Can(m.features()...); err != nil {
		return err
	}
	return t.driver.show(m)
}

// NoScripts switches the scripts of the pages off that are loaded from now on; Eval
// works on.
func (t *Tab) NoScripts() error {
	_, err := call(t, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	return err
}

// Heard is what a screen reader is told of an element.
type Heard struct {
	Role, Name, Description string
	Within                  string // the names of the regions, groups and figures it lies in
	Focusable               bool
}

// Listen gives what a screen reader is told of every element, in order, as the
// browser itself works it out.
func (t *Tab) Listen() ([]Heard, error) {
	r, err := call(t, accessibility.GetFullAXTree, accessibility.GetFullAXTreeParams{})
	if err != nil {
		return nil, err
	}
	text := func(v *accessibility.Value) (s string) {
		if v != nil {
			_ = json.Unmarshal(v.Value, &s) // what is no text is none
		}
		return s
	}
	nodes := map[accessibility.NodeID]*accessibility.Node{}
	for _, n := range r.Nodes {
		nodes[n.NodeID] = n
	}
	within := func(n *accessibility.Node) (names string) {
		for n = nodes[n.ParentID]; n != nil; n = nodes[n.ParentID] {
			switch text(n.Role) {
			case "region", "group", "Details", "figure", "dialog", "navigation", "main":
				if name := text(n.Name); name != "" {
					names = name + " › " + names
				}
			}
		}
		return names
	}
	var list []Heard
	for _, n := range r.Nodes {
		if n.Ignored {
			continue
		}
		h := Heard{Role: text(n.Role), Name: text(n.Name), Description: text(n.Description), Within: within(n)}
		for _, p := range n.Properties {
			if p.Name == accessibility.PropertyNameFocusable && p.Value != nil {
				h.Focusable = string(p.Value.Value) == "true"
			}
		}
		list = append(list, h)
	}
	return list, nil
}
