package desk

import (
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// The draws of a plan: enough to settle the ends of a band to about a hundredth
// of its width, and few enough to keep up with typing. Suggestions run as many
// again each, and are worked out when all else rests.
//
// The first bands are shown after half of them: of the ends that are printed, then 99
// in 100 are at most a step of the last digit from where all draws put them (1024 draws: 98.6).
const (
	Draws        = 4096
	FirstDraws   = 2048
	suggestDraws = 4096
	suggestTop   = 3
)

// doubts are how sure the figures are: worked out in steps after each change,
// so that the page can give way to typing.
type doubts struct {
	run       *spread.Sampling
	bands     []Band
	rest      int // how many draws of the plan as it is the bands rest on; 0 if none
	buying    *spread.Buying
	begun     bool          // buying is that of the plan as it is
	bought    bool          // more is
	more      route.Amounts // the last that was worked out for the plan's way; zero before
	shares    []spread.Share
	suggester *spread.Suggester
	asked     route.FigureID // the figure that suggestions are about
	list      []spread.Suggestion
	told      bool // list is complete for the plan as it is
}

// Band is the interval of a figure in which eight of ten draws lie.
type Band struct {
	Low, High float64
	OK        bool
}

func (b *doubts) begin(c spread.Case) {
	if b.run == nil {
		b.run = spread.Start(c, Draws)
		b.bands = make([]Band, len(route.Figures()))
		b.asked = route.ProductMass
	} else {
		if was := b.run.Case(); was.Plan.GasSource != c.Plan.GasSource {
			b.more = route.Amounts{} // what was bought was another reductant
		}
		b.run.Restart(c)
	}
	b.rest, b.begun, b.bought, b.shares, b.told, b.suggester = 0, false, false, nil, false, nil
}

// StepBands does a part of the draws and tells whether all are done. The bands stand from
// the FirstDraws on, and again when all are done; then what to buy stands too.
func (d *Desk) StepBands(draws int) bool {
	b := &d.doubts
	if b.rest == Draws {
		return true
	}
	first := b.rest == 0
	all := b.run.Step(draws)
	if done := b.run.Done(); all || b.rest == 0 && done >= FirstDraws {
		for i := range b.bands {
			b.bands[i].Low, b.bands[i].High, b.bands[i].OK = b.run.Band(route.FigureID(i))
		}
		b.rest = done
	}
	if (!first || all) && !b.bought {
		d.stepBuying(draws)
	}
	return all
}

// stepBuying does a part of the draws of what to buy. They are fewer than those that follow the
// first bands, so that they are done before.
func (d *Desk) stepBuying(draws int) {
	b := &d.doubts
	switch {
	case b.buying == nil:
		b.buying = spread.StartBuying(d.Case())
	case !b.begun:
		b.buying.Restart(d.Case())
	}
	b.begun = true
	if b.bought = b.buying.Step(draws); b.bought {
		b.more = b.buying.More()
	}
}

// Reagents are what to have, by the last draws that were made of what to buy for the plan's way;
// before the first nothing is said of how much to buy.
func (d *Desk) Reagents() []route.Reagent {
	list := d.doubts.more.Enough(route.Reagents(&d.plan, d.sheet))
	for i := range list {
		if !d.KnowsWhatToBuy() {
			list[i].Buy = quantity.Blank
		}
	}
	return list
}

// SettleBuying makes at once the draws that are left of what to buy for the plan as it is: what goes to
// paper cannot wait for them.
func (d *Desk) SettleBuying() {
	for !d.doubts.bought {
		d.stepBuying(spread.BuyingDraws)
	}
}

// KnowsWhatToBuy tells whether anything was drawn of what to buy for the plan's way.
func (d *Desk) KnowsWhatToBuy() bool { return d.doubts.more != route.Amounts{} }

// BandsStand tells whether the bands are those of the plan as it is; if not they
// are the last ones that were worked out.
func (d *Desk) BandsStand() bool { return d.doubts.rest > 0 }

// AllDrawn tells whether the bands rest on all draws of the plan as it is.
func (d *Desk) AllDrawn() bool { return d.doubts.rest == Draws }

// Band is the last band worked out for a figure.
func (d *Desk) Band(id route.FigureID) Band { return d.doubts.bands[id] }

// Uncertains are the inputs that are drawn. The caller must only read them, and not after
// a change of the plan.
func (d *Desk) Uncertains() []spread.Uncertain { return d.doubts.run.Uncertains() }

// Shares are how much of the variance of the figure that is asked about each input
// explains; nil until all draws are done.
func (d *Desk) Shares() []spread.Share {
	b := &d.doubts
	if b.shares == nil && b.run.Done() == Draws {
		b.shares = b.run.Shares(b.asked)
	}
	return b.shares
}

// Ask chooses the figure that suggestions are about.
func (d *Desk) Ask(id route.FigureID) {
	b := &d.doubts
	b.asked, b.shares, b.told, b.suggester = id, nil, false, nil
}

// Asked is the figure that suggestions are about.
func (d *Desk) Asked() route.FigureID { return d.doubts.asked }

// StepSuggestions does a part of the work of finding what to measure next, and
// tells whether it is done. The bands must stand.
func (d *Desk) StepSuggestions(draws int) bool {
	b := &d.doubts
	if b.told {
		return true
	}
	if b.suggester == nil {
		b.suggester = spread.NewSuggester(b.run, b.asked, suggestTop, suggestDraws)
	}
	if !b.suggester.Step(draws) {
		return false
	}
	b.list, b.told = b.suggester.List(), true
	return true
}

// Suggestions are what to measure next, and whether they are about the plan as
// it is.
func (d *Desk) Suggestions() (list []spread.Suggestion, told bool) {
	return d.doubts.list, d.doubts.told
}
