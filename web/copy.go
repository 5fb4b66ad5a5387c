package web

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/link"
	"rosesalt/web/runs"
)

// A saved copy is the page's own file with one element more:
//
//	<script type="application/json" id="saved">{"version":1,"plan":"v=1&…","more":{…}}</script>
//
// The plan is a link's fragment, with a link's promise: what a version does not know
// of it is named and left out. "more" holds what other parts of the page keep beside
// the plan, by name; what a version does not know of that is named, and goes into the
// next copy as it is.

// copyVersion is what this program writes.
const copyVersion = 1

// saved is what lies in a saved copy.
type saved struct {
	Version int                        `json:"version"`
	Plan    string                     `json:"plan"`
	More    map[string]json.RawMessage `json:"more,omitempty"`
}

// keepsake is a part of the page that puts something of its own into a saved copy,
// and takes it back when the copy is opened.
type keepsake struct {
	name string // in the file; never to be changed
	save func() (json.RawMessage, error)
	open func(json.RawMessage) error
}

// keepsakes are the parts that do so. A save that gives nothing leaves its part out.
func (p *page) keepsakes() []keepsake {
	return []keepsake{
		{name: "runs", save: p.runsForCopy, open: func(raw json.RawMessage) error { p.kept.inCopy = raw; return nil }},
		{name: "labels", save: p.labelsForCopy, open: p.openLabels},
	}
}

// runsForCopy are the kept runs as their own file has them.
func (p *page) runsForCopy() (json.RawMessage, error) {
	if app.IsServer {
		return nil, nil
	}
	p.openKept()
	list := p.kept.Store.Book().List()
	if len(list) == 0 {
		return nil, nil
	}
	return runs.Encode(list), nil
}

// original is the saved copy that the page was opened from; all of it is empty in the
// page as it was built.
type original struct {
	plan     string                     // stands in for a missing fragment
	unknown  map[string]json.RawMessage // for the next copy
	troubles []link.Trouble
}

// openCopy reads what was saved in this file.
func (p *page) openCopy() original {
	if app.IsServer {
		return original{}
	}
	element := app.Window().GetElementByID("saved")
	if !element.Truthy() {
		return original{}
	}
	c, more := readCopy(element.Get("textContent").String())
	for _, k := range p.keepsakes() {
		raw, ok := more[k.name]
		if !ok {
			continue
		}
		delete(more, k.name)
		if err := k.open(raw); err != nil {
			c.trouble(k.name, err.Error())
		}
	}
	for _, name := range slices.Sorted(maps.Keys(more)) {
		c.trouble(name, "this version does not know this part of the saved copy. It is left as it is, and goes into the next copy")
	}
	c.unknown = more
	return c
}

func (c *original) trouble(part, why string) {
	c.troubles = append(c.troubles, link.Trouble{Part: route.Clip(part, 60), Why: why})
}

// readCopy reads the text of a saved copy; the parts beside the plan are still to be
// handed out.
func readCopy(text string) (original, map[string]json.RawMessage) {
	var c original
	var s saved
	if err := json.Unmarshal([]byte(text), &s); err != nil {
		c.trouble("", "what was saved in this file is damaged, so the page starts with the plan it was built with")
		return c, nil
	}
	if s.Version != copyVersion {
		c.trouble(fmt.Sprintf("version %d", s.Version), "the copy was saved by another version; what this one knows was read")
	}
	c.plan = s.Plan
	return c, s.More
}

// planAt is the plan of a fragment; without one, that of the copy.
func (p *page) planAt(fragment string) string {
	if fragment == "" {
		return p.from.plan
	}
	return fragment
}

// troubles are what could not be taken of the copy and of the link.
func (p *page) troubles() []link.Trouble {
	return slices.Concat(p.from.troubles, p.desk.Troubles())
}

// copyText is what a copy of the page holds now, and which parts would not go in.
func (p *page) copyText() (text string, failed []string) {
	s := saved{Version: copyVersion, Plan: p.desk.Fragment(), More: maps.Clone(p.from.unknown)}
	for _, k := range p.keepsakes() {
		raw, err := k.save()
		switch {
		case err != nil:
			failed = append(failed, k.name+": "+err.Error())
		case raw != nil:
			if s.More == nil {
				s.More = map[string]json.RawMessage{}
			}
			s.More[k.name] = raw
		}
	}
	b, err := json.Marshal(s) // writes "<" as \u003c, so nothing in it ends the element
	if err != nil {
		failed = append(failed, err.Error())
		b, _ = json.Marshal(saved{Version: copyVersion, Plan: s.Plan})
	}
	return string(b), failed
}

// onSaveCopy hands the browser this file with the plan inside.
func (p *page) onSaveCopy(app.Context, app.Event) {
	text, failed := p.copyText()
	name := "rosesalt-" + time.Now().Format("2006-01-02-1504") + ".html"
	if !offerCopy(name, text) {
		p.copied = "The browser refused to save a file. “Copy plan text” carries the plan too."
		return
	}
	done := "A copy goes to the browser's downloads as " + name + ". It opens as this plan, without a network."
	if p.desk.FaultCount() > 0 {
		done += " Fields that cannot be read are left out of it."
	}
	if len(failed) > 0 {
		done += " Left out: " + strings.Join(failed, "; ") + "."
	}
	p.copied = done
}

// offerCopy hands the copy to the browser as a file, where it lets us.
func offerCopy(name, text string) (ok bool) {
	defer func() { ok = recover() == nil }()
	download(name, app.Window().Call("rosesaltCopy", text))
	return true
}
