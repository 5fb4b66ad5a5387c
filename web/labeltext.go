package web

import (
	"encoding/json"
	"errors"
	"slices"

	"rosesalt/chem/field"
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
var labelFields = [...]field.Field{
	{Key: "label.batch", Name: "Batch", Kind: field.Text, Why: "And page of the notebook."},
	{Key: "label.date", Name: "Filled on", Kind: field.Text, Why: "Blank: a line to write on."},
	{Key: "label.who", Name: "Who to ask", Kind: field.Text, Why: "Name and telephone."},
}

// Form is the texts as they are typed.
func (t *labelTexts) Form() field.Form {
	at := func(key string) int {
		return slices.IndexFunc(labelFields[:], func(f field.Field) bool { return f.Key == key })
	}
	form := field.Form{Find: func(key string) (*field.Field, bool) {
		if i := at(key); i >= 0 {
			return &labelFields[i], true
		}
		return nil, false
	}}
	for i := range labelFields {
		form.Fields = append(form.Fields, &labelFields[i])
	}
	form.Text = func(f *field.Field) string { return t[at(f.Key)] }
	form.Written = func(f *field.Field) (string, bool) { return t[at(f.Key)], t[at(f.Key)] != "" }
	form.Set = func(f *field.Field, text string) error {
		t[at(f.Key)] = text
		return nil
	}
	return form
}

// kept are the texts as stored, by key.
func (t *labelTexts) kept() map[string]string {
	m := map[string]string{}
	form := t.Form()
	for _, f := range form.Fields {
		if text, ok := form.Written(f); ok {
			m[f.Key] = text
		}
	}
	return m
}

func labelTextsOf(kept map[string]string) (t labelTexts) {
	for i := range labelFields {
		t[i] = field.Clip(kept[labelFields[i].Key], labelsMost)
	}
	return t
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
		if _, ok := p.labels.Form().Find(key); !ok {
			unknown = append(unknown, key)
		}
	}
	if len(unknown) > 0 {
		slices.Sort(unknown)
		return errors.New("this version does not know “" + unknown[0] + "” of the jar labels")
	}
	return nil
}
