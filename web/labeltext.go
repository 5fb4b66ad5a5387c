package web

import (
	"encoding/json"
	"errors"
	"slices"

	"rosesalt/chem/route"
	"rosesalt/web/browser"
)

// labelTexts are what was typed to stand on every label, in the order of labelFields. They
// hold names and telephone numbers, so no link carries them: they lie in the tab's storage,
// with the file that they were typed in, and in a saved copy.
type labelTexts [len(labelFields)]string

const (
	labelsKey  = "rosesalt.labels" // in the tab's storage
	labelsMost = 60                // letters of each
)

// labelFields are what a hand may write instead.
var labelFields = [...]struct{ id, name, why string }{
	{"label.batch", "Batch", "And page of the notebook."},
	{"label.date", "Filled on", "Blank: a line to write on."},
	{"label.who", "Who to ask", "Name and telephone."},
}

// labelField is the place of a key among the fields of the labels.
func labelField(key string) (at int, ok bool) {
	for i, f := range labelFields {
		if f.id == key {
			return i, true
		}
	}
	return 0, false
}

// keptLabels are the texts as stored, by key.
func (t labelTexts) kept() map[string]string {
	m := map[string]string{}
	for i, text := range t {
		if text != "" {
			m[labelFields[i].id] = text
		}
	}
	return m
}

func labelTextsOf(kept map[string]string) (t labelTexts) {
	for i, f := range labelFields {
		t[i] = route.Clip(kept[f.id], labelsMost)
	}
	return t
}

// onLabel takes what was typed for the labels.
func (p *page) onLabel(at int, text string) {
	p.labels[at] = text
	p.late.labels.Texts = p.labels
	browser.KeepInTab(labelsKey, p.labels.kept())
	p.Update()
}

// recallLabels takes up what was typed in this tab before a reload, which is newer than
// what the file was saved with.
func (p *page) recallLabels() {
	var kept map[string]string
	if browser.RecallFromTab(labelsKey, &kept) {
		p.labels = labelTextsOf(kept)
	}
}

// labelsForCopy are the texts for a saved copy.
func (p *page) labelsForCopy() (json.RawMessage, error) {
	kept := p.labels.kept()
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
	p.labels = labelTextsOf(kept)
	var unknown []string
	for key := range kept {
		if _, ok := labelField(key); !ok {
			unknown = append(unknown, key)
		}
	}
	if len(unknown) > 0 {
		slices.Sort(unknown)
		return errors.New("this version does not know “" + unknown[0] + "” of the jar labels")
	}
	return nil
}
