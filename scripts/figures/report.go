package main

import (
	"strings"

	"rosesalt/chem/account"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

// report is what is printed. Its names are a promise; see the schema.
type report struct {
	Figures  map[string]figure `json:"figures"`
	Notices  []notice          `json:"notices"`
	Needs    needs             `json:"needs"`
	Troubles []trouble         `json:"troubles"`
	Account  *verdict          `json:"account,omitempty"`
}

// figure is a number in its unit with the ends of its interval, or a word; or why there
// is none.
type figure struct {
	Value  *float64 `json:"value,omitempty"`
	Low    *float64 `json:"low,omitempty"`
	High   *float64 `json:"high,omitempty"`
	Unit   *string  `json:"unit,omitempty"` // empty for a bare count; none for a word
	Text   string   `json:"text,omitempty"`
	Reason string   `json:"reason,omitempty"`
}

type notice struct {
	Key   string `json:"key"`
	Level string `json:"level"`
	Text  string `json:"text"`
}

type needs struct {
	Reagents []reagent `json:"reagents"`
	Vessels  []vessel  `json:"vessels"`
	Gear     []string  `json:"gear"`
}

type reagent struct {
	need          // its amount is what to buy
	Takes float64 `json:"takes"` // what the plan takes of it
}

type need struct {
	Name   string  `json:"name"`
	Amount float64 `json:"amount"`
	Unit   string  `json:"unit"`
	For    string  `json:"for,omitempty"`
}

type vessel struct {
	need           // its amount is the volume that it must have
	Stands float64 `json:"stands"` // the volume of the one on the bench
	Fits   bool    `json:"fits"`
}

type trouble struct {
	Part string `json:"part,omitempty"`
	Why  string `json:"why"`
}

// verdict is what most likely became of a run.
type verdict struct {
	Sure     string                        `json:"sure,omitempty"`     // what the weighings prove
	Question string                        `json:"question,omitempty"` // what is to be answered first
	Planned  *float64                      `json:"planned,omitempty"`  // how likely it is that nothing went wrong
	Causes   []cause                       `json:"causes"`             // if something did
	Why      string                        `json:"why,omitempty"`      // why there is no account
	Weigh    *weigh                        `json:"weigh,omitempty"`
	Flow     map[string]map[string]float64 `json:"flow,omitempty"`
}

type cause struct {
	Key    string  `json:"key"`
	Share  float64 `json:"share"`
	Remedy string  `json:"remedy,omitempty"`
}

type weigh struct {
	Key  string  `json:"key"`
	What string  `json:"what"`
	Now  float64 `json:"now"`
	Then float64 `json:"then"`
}

// reportOf reads all from a desk whose intervals and account are computed.
func reportOf(d *desk.Desk) report {
	r := report{Figures: map[string]figure{}, Notices: []notice{}, Needs: needsOf(d), Troubles: []trouble{}}
	for i := range route.Figures() {
		id := route.FigureID(i)
		r.Figures[id.Info().Key] = figureOf(d, id)
	}
	for _, n := range route.Notices(d.Plan(), d.Sheet()) {
		r.Notices = append(r.Notices, notice{n.Key, n.Tone.String(), n.Text})
	}
	for _, t := range d.Troubles() {
		r.Troubles = append(r.Troubles, trouble{t.Part, t.Why})
	}
	if p := d.Account(); p != nil {
		r.weighed(p)
	}
	return r
}

func figureOf(d *desk.Desk, id route.FigureID) figure {
	info, s := id.Info(), d.Sheet()
	f := figure{Unit: &info.Unit}
	if info.Words != nil {
		f.Unit = nil
	}
	switch why := s.Reason(id); {
	case why != route.Defined:
		f.Reason = why.String()
	case info.Words != nil:
		f.Text = s.Word(id)
	default:
		f.Value = number(s.Value(id))
		if band := d.Band(id); band.OK {
			f.Low, f.High = number(band.Low), number(band.High)
		}
	}
	return f
}

// number is a number as JSON has it: nil for a blank one.
func number(v float64) *float64 {
	if !quantity.Given(v) {
		return nil
	}
	return &v
}

func needsOf(d *desk.Desk) needs {
	n := needs{[]reagent{}, []vessel{}, route.Gear(d.Plan())}
	for _, r := range d.Reagents() {
		n.Reagents = append(n.Reagents, reagent{need{r.Name, r.Buy, r.Unit, r.For}, r.Amount})
	}
	for _, v := range route.Vessels(d.Plan(), d.Sheet()) {
		n.Vessels = append(n.Vessels, vessel{need(v.Need), v.Stands(), !v.TooSmall()})
	}
	return n
}

// weighed adds the account of a run that was weighed.
func (r *report) weighed(p *account.Posterior) {
	for _, b := range p.Bounds.List() {
		r.Figures[b.Key] = figure{Value: number(b.Value), Unit: &b.Unit, Reason: b.Why}
	}
	for _, c := range p.Contradictions {
		key := "contradiction." + strings.TrimPrefix(c.Keys[0], "found.")
		r.Notices = append(r.Notices, notice{key, route.Mind.String(), c.Sentence()})
	}
	r.Account = &verdict{Sure: p.Bounds.Sure(), Causes: []cause{}}
	if !p.OK() {
		r.Account.Why = p.Why()
		return
	}
	for _, f := range account.Figures() {
		if i, ok := p.Shown(f.Key); ok {
			r.Figures[f.Key] = figure{Value: &i.Median, Low: &i.Low, High: &i.High, Unit: &f.Unit}
		}
	}
	r.Account.Planned = number(p.Planned())
	for _, c := range p.Ranked() {
		if share := p.Probability(c); share > 0 {
			r.Account.Causes = append(r.Account.Causes, cause{c.Key(), share, p.Remedy(c)})
		}
	}
	v := p.Verdict()
	r.Account.Question = v.Question
	if s := v.Settles; s != nil {
		r.Account.Weigh = &weigh{s.Key, s.Input.Name, s.Now, s.After}
	}
	r.Account.Flow = flowOf(p)
}

// places are the vessels of the ledger in a word.
var places = [ledger.Vessels]string{
	ledger.Cells: "cells", ledger.Tray: "tray", ledger.Mix: "mix", ledger.WashLiquor: "washings", ledger.Reserve: "reserve",
	ledger.Generator: "flask", ledger.Trap: "trap", ledger.Slurry: "slurry", ledger.Vent: "air", ledger.Scrubber: "scrubber",
	ledger.Residue: "residue", ledger.Filtrate: "filtrate", ledger.Dish: "dish", ledger.MotherLiquor: "pinkliquor",
	ledger.ProductJar: "jar", ledger.CopperResidue: "sulfide", ledger.CopperLiquor: "blueliquor", ledger.CopperJar: "crystals",
	ledger.Losses: "losses",
}

// elements are those whose flow the page shows.
var elements = [...]reaction.Element{reaction.Mn, reaction.S, reaction.Cu}

// flowOf is where each element stands after the run as it most likely was, mmol.
func flowOf(p *account.Posterior) map[string]map[string]float64 {
	b := p.LikeliestRun()
	if b == nil {
		return nil
	}
	flow := map[string]map[string]float64{}
	for _, e := range elements {
		stands := map[string]float64{}
		for v, place := range places {
			if n := b.Book().Element(ledger.Vessel(v), e).Millimoles(); n > 0 {
				stands[place] = n
			}
		}
		if len(stands) > 0 {
			flow[e.String()] = stands
		}
	}
	return flow
}
