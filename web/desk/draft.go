package desk

import (
	"rosesalt/chem/field"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/link"
)

// Draft is all that was typed into a desk or chosen there, as texts: enough to go on with
// it on another desk.
type Draft struct {
	Plan   string            `json:"plan"`             // fragment of its link
	Unread map[string]string `json:"unread,omitempty"` // texts of fields that cannot be read, by key
	Pinned string            `json:"pinned,omitempty"` // fragment of the plan beside it; a run's own is not named
	Wanted Wanted            `json:"wanted,omitzero"`
	Ended  bool              `json:"ended,omitempty"` // the run is over, as the user says

	troubles []link.Trouble // of the link that it came from
}

// Wanted is what is to be made, and by what, as typed and chosen.
type Wanted struct {
	Grams   string `json:"grams"`
	Figure  string `json:"figure"`
	ByShare bool   `json:"by_share,omitempty"`
	Pure    string `json:"pure,omitempty"` // percent of the jar
}

// Draft is the desk as it stands.
func (d *Desk) Draft() Draft {
	draft := Draft{Plan: d.Fragment(), Unread: d.Unread(), Ended: d.ended, troubles: d.troubles}
	if p := d.rest.pinned; p != nil && d.run == nil {
		draft.Pinned = p.Fragment
	}
	if w := d.rest.wish; w.Text != "" {
		draft.Wanted = Wanted{Grams: w.Text, Figure: w.Figure.Info().Key, ByShare: w.ByShare}
	}
	draft.Wanted.Pure = d.rest.pure.Text
	return draft
}

// TakeDraft replaces everything by a draft.
func (d *Desk) TakeDraft(draft *Draft) {
	c, troubles := link.Decode(draft.Plan)
	if draft.troubles != nil {
		troubles = draft.troubles
	}
	d.OpenContent(&c, troubles)
	d.Recall(draft)
}

// Recall adds to the plan of a draft, which is open, what its link does not carry.
func (d *Desk) Recall(draft *Draft) {
	d.Retype(draft.Unread)
	d.ended = draft.Ended
	if d.run == nil {
		d.Unpin()
		if draft.Pinned != "" {
			d.rest.pinned = pinned(draft.Pinned)
		}
	}
	d.Want(draft.Wanted.wish())
	d.WantPure(draft.Wanted.Pure)
}

func (w Wanted) wish() Wish {
	wish := Wish{Text: w.Grams, Figure: route.ProductMass, ByShare: w.ByShare}
	if id, ok := route.FigureByKey(w.Figure); ok {
		wish.Figure = id
	}
	return wish
}

// Retype puts texts that could not be read back into their fields, all at once, since
// which of them is told as wrong may depend on the others.
func (d *Desk) Retype(texts map[string]string) {
	if len(texts) == 0 {
		return
	}
	for key, text := range texts {
		if form, f, ok := d.Find(key); ok && f.Kind != field.Text && d.takes(form, f) {
			d.texts[key] = text
		}
	}
	d.settle()
	d.compute()
}

// pinned is the plan of a fragment to stand beside the one being changed.
func pinned(fragment string) *Pin {
	c, _ := link.Decode(fragment)
	sized, _ := c.Sized()
	return pinOf(fragment, sized)
}

// pinOf works out a plan to stand beside the one being changed.
func pinOf(fragment string, c spread.Case) *Pin {
	run := spread.Start(c, Draws)
	return &Pin{Fragment: fragment, Sheet: *run.Best(), Sampling: run}
}
