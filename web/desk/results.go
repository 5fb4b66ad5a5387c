package desk

import (
	"rosesalt/chem/account"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/link"
)

// Errand is all that another desk needs to make the draws of this one, as texts.
type Errand struct {
	Plan   string // fragment of its link
	Pinned string // fragment of the plan beside it, where it is not a run's own
	About  string // key of the figure that suggestions are about
	Along  string // key of the input that is swept
	Wanted Wanted
}

// Errand is what another desk needs to make the draws of this one.
func (d *Desk) Errand() Errand {
	draft := d.Draft()
	return Errand{draft.Plan, draft.Pinned, d.Asked().Info().Key, d.rest.along, draft.Wanted}
}

// RunErrand makes the desk one that steps what an errand asks for, in place of the errand
// before. What was worked out and holds for this one too stays.
func (d *Desk) RunErrand(e *Errand) {
	before := d.rest.pinned
	if e.Plan != d.errand.Plan {
		c, _ := link.Decode(e.Plan)
		if planText(c.Following()) == planText(d.Following()) {
			d.is = c
			d.forms = d.is.Forms()
			d.begin(c.Run)
			d.size()
			d.weigh()
		} else {
			d.OpenContent(&c, nil)
		}
	}
	if d.run == nil {
		if d.Unpin(); e.Pinned != "" {
			d.rest.pinned = pinned(e.Pinned)
		}
	}
	if p := d.rest.pinned; p != nil && before != nil && p.Fragment == before.Fragment {
		d.rest.pinned = before
	}
	if id, ok := route.FigureByKey(e.About); ok && id != d.Asked() {
		d.Ask(id)
	}
	if e.Along != d.rest.along {
		d.SweepAlong(e.Along)
	}
	if e.Wanted.wish() != d.errand.Wanted.wish() {
		d.Want(e.Wanted.wish())
	}
	if e.Wanted.Pure != d.errand.Wanted.Pure {
		d.WantPure(e.Wanted.Pure)
	}
	d.errand = *e
}

func planText(c spread.Case) string {
	return link.Encode(&link.Content{Case: c, Found: account.NewRecord()})
}

// Results are what the draws of an errand gave, as plain data, for the desk that it came
// from. Each of the three parts may be missing.
type Results struct {
	Draws  int // that the bands rest on; 0 without bands
	Bands  []Band
	Shares []share // nil before all draws are done
	Bought bool    // More is there, which says what to buy
	More   route.Amounts

	Accounted bool
	Account   account.Work

	Rest        bool // what follows is there
	Told        bool
	Suggestions []suggestion
	Swept       bool
	Sweep       spread.Found
	Sought      bool
	Wish        Wish
	Looked      bool
	Pure        Pure
	Differs     []Differs
}

type share struct {
	Key string
	Of  float64
}

type suggestion struct {
	Key                            string
	Low, High, LowAfter, HighAfter float64
}

// Part names parts of the results.
type Part uint8

// The parts of the results.
const (
	BandsPart Part = 1 << iota
	AccountPart
	RestPart
)

// Results gives parts of what was worked out so far.
func (d *Desk) Results(parts Part) (r Results) {
	b := &d.doubts
	if parts&(BandsPart|RestPart) != 0 {
		for _, s := range d.Shares() {
			r.Shares = append(r.Shares, share{s.Input.Key, s.Of})
		}
	}
	if parts&BandsPart != 0 {
		r.Draws, r.Bands = b.rest, b.bands
		r.Bought, r.More = b.bought, b.more
	}
	if parts&AccountPart != 0 && d.Accounted() {
		r.Account, r.Accounted = d.after.Work()
	}
	if parts&RestPart == 0 {
		return r
	}
	r.Rest, r.Told, r.Swept, r.Sought, r.Wish = true, b.told, d.rest.swept, d.rest.sought, d.rest.wish
	r.Looked, r.Pure = d.rest.looked, d.rest.pure
	for _, s := range b.list {
		r.Suggestions = append(r.Suggestions, suggestion{s.Key, s.Low, s.High, s.LowAfter, s.HighAfter})
	}
	if d.rest.sweep != nil {
		r.Sweep = d.rest.sweep.Found()
	}
	if d.Differs(route.ProductMass).Known {
		for id := range route.FigureID(len(route.Figures())) {
			r.Differs = append(r.Differs, d.Differs(id))
		}
	}
	return r
}

// TakeResults takes what another desk worked out for the errand of this one as it is now.
func (d *Desk) TakeResults(r *Results) {
	b, rest := &d.doubts, &d.rest
	if len(r.Bands) == len(b.bands) {
		b.bands, b.rest = r.Bands, r.Draws
	}
	if r.Bought {
		b.bought, b.more = true, r.More
	}
	if r.Shares != nil {
		b.shares = nil
		for _, s := range r.Shares {
			if in, ok := route.InputByKey(s.Key); ok {
				b.shares = append(b.shares, spread.Share{Input: in, Of: s.Of})
			}
		}
	}
	if r.Accounted && d.after != nil && !rest.accounted {
		rest.accounted = d.after.Take(&r.Account)
	}
	if !r.Rest {
		return
	}
	if b.told = r.Told; r.Told {
		b.list = nil
		for _, s := range r.Suggestions {
			m, ok := spread.MeasurementOf(s.Key)
			in, known := route.InputByKey(s.Key)
			if ok && known {
				b.list = append(b.list, spread.Suggestion{Measurement: m, Input: in, Low: s.Low, High: s.High, LowAfter: s.LowAfter, HighAfter: s.HighAfter})
			}
		}
	}
	if r.Sweep.Lines != nil && d.makeSweep() {
		rest.sweep.Take(r.Sweep)
		rest.swept = r.Swept
	}
	if rest.sought = r.Sought; r.Sought {
		w := &rest.wish
		w.Problem, w.Answer, w.Known = r.Wish.Problem, r.Wish.Answer, r.Wish.Known
		w.Answer.Input, _ = route.InputByKey(w.varied())
	}
	if rest.looked = r.Looked; r.Looked {
		w := &rest.pure
		w.Problem, w.Answer, w.Known = r.Pure.Problem, r.Pure.Answer, r.Pure.Known
	}
	if rest.pinned != nil && len(r.Differs) == len(b.bands) {
		rest.pinned.differs = r.Differs
	}
}
