package web

import (
	"encoding/json"
	"errors"
	"slices"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/browser"
	"rosesalt/web/section"
)

const (
	// labelsOnly is on the root of the document while only the labels are printed.
	labelsOnly = "labels-only"
	// labelsKey is where their texts lie in the tab's storage. They lie there with the file
	// that they were typed in, and in a saved copy.
	labelsKey = "rosesalt.labels"
)

// recallLabels takes up what was typed in this tab before a reload, which is newer than
// what the file was saved with.
func (p *page) recallLabels() {
	var kept map[string]string
	if browser.RecallFromTab(labelsKey, &kept) {
		p.labels.Texts = section.LabelTextsOf(kept)
	}
}

// labelsForCopy are the texts for a saved copy.
func (p *page) labelsForCopy() (json.RawMessage, error) {
	kept := p.labels.Texts.Kept()
	if len(kept) == 0 {
		return nil, nil
	}
	return json.Marshal(kept)
}

// openLabels takes them out of a saved copy. A field that this version does not have is
// told, not dropped in silence.
func (p *page) openLabels(raw json.RawMessage) error {
	var kept map[string]string
	if err := json.Unmarshal(raw, &kept); err != nil {
		return errors.New("the texts of the jar labels are damaged")
	}
	p.labels.Texts = section.LabelTextsOf(kept)
	var unknown []string
	for key := range kept {
		if _, ok := p.labels.Texts.Form().Find(key); !ok {
			unknown = append(unknown, key)
		}
	}
	if len(unknown) > 0 {
		slices.Sort(unknown)
		return errors.New("this version does not know “" + unknown[0] + "” of the jar labels")
	}
	return nil
}

// showLabels draws the labels anew.
func (p *page) showLabels() {
	p.late.remake(section.LabelsTitle, p.source())
	p.Update()
}

func (p *page) onTickLabel(_ app.Context, a app.Action) {
	if name, ok := a.Value.(string); ok {
		p.labels.Tick(name, p.labels.Off[name])
		p.showLabels()
	}
}

func (p *page) onTickLabels(_ app.Context, a app.Action) {
	p.labels.TickAll(p.desk, a.Value != "")
	p.showLabels()
}

// onPrintLabels prints only the labels that are ticked, or the one whose name it is given.
func (p *page) onPrintLabels(ctx app.Context, a app.Action) {
	only, _ := a.Value.(string)
	ready := only != "" || p.labels.Any(p.desk)
	p.labels.Only = only
	p.showLabels()
	if !ready {
		return
	}
	ctx.Defer(func(app.Context) { // once it is drawn which
		root := app.Window().Get("document").Get("documentElement").Get("classList")
		root.Call("add", labelsOnly)
		var done func()
		done = app.Window().AddEventListener("afterprint", func(app.Context, app.Event) {
			root.Call("remove", labelsOnly)
			done()
			if p.labels.Only != "" {
				p.labels.Only = ""
				p.showLabels()
			}
		})
		app.Window().Call("print")
	})
}
