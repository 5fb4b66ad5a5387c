package desk

import (
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// The draws of a plan: enough to settle the ends of a band to about a hundredth
// of its width, and few enough to keep up with typing. Suggestions run as many
// again each, and are worked out when all else rests.
const (
	Draws        = 4096
	suggestDraws = 4096
	suggestTop   = 3
)

// doubts are how sure the figures are: worked out in steps after each change,
// so that the page can give way to typing.
type doubts struct {
	run       *spread.Run
	stand     bool // bands are those of the plan as it is
	bands     []Band
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
		b.run.Restart(c)
	}
	b.stand, b.told, b.suggester = false, false, nil
}

// StepBands does a part of the draws and tells whether all bands stand.
func (d *Desk) StepBands(draws int) bool {
	b := &d.doubts
	if b.stand {
		return true
	}
	if !b.run.Step(draws) {
		return false
	}
	for i := range b.bands {
		b.bands[i].Low, b.bands[i].High, b.bands[i].OK = b.run.Band(route.FigureID(i))
	}
	b.stand = true
	return true
}

// BandsStand tells whether the bands are those of the plan as it is; if not they
// are the last ones that were worked out.
func (d *Desk) BandsStand() bool { return d.doubts.stand }

// Band is the last band worked out for a figure.
func (d *Desk) Band(id route.FigureID) Band { return d.doubts.bands[id] }

// Run holds the draws of the plan, complete when BandsStand.
func (d *Desk) Run() *spread.Run { return d.doubts.run }

// Ask chooses the figure that suggestions are about.
func (d *Desk) Ask(id route.FigureID) {
	d.doubts.asked, d.doubts.told, d.doubts.suggester = id, false, nil
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
