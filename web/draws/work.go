package draws

import "rosesalt/web/desk"

// Progress is the part of the work that stands on the desk now, as the page is told.
type Progress uint8

// The stages, in order.
const (
	Nothing Progress = iota // new
	First                   // the intervals, by the first draws
	Bands                   // the intervals, by all draws
	Account                 // the account of the run
	Some                    // something more of the rest: suggestions, sweep, wish, comparison
	All                     // all of it
)

// parts are the results that come with a stage.
var parts = [...]desk.Part{First: desk.BandsPart, Bands: desk.BandsPart, Account: desk.AccountPart, Some: desk.RestPart, All: desk.RestPart}

const (
	bandDraws    = 512           // a step, a few milliseconds
	accountDraws = 4 * bandDraws // a step of the account, which somebody waits for
	tellEach     = 6             // steps of the sweep and what follows from one telling to the next
)

// work is what is to be done for a desk as it is.
type work struct {
	desk             *desk.Desk
	bands, accounted bool // were told
	steps            int  // since the suggestions were told
}

// begin makes work for a desk whose page knows nothing yet.
func begin(d *desk.Desk) work { return work{desk: d} }

// goOn makes work for a desk whose page knows what stands on it.
func goOn(d *desk.Desk) work { return work{desk: d, bands: d.AllDrawn(), accounted: d.Accounted()} }

// step does a part and says what stands since.
func (w *work) step() Progress {
	d := w.desk
	if !w.bands {
		none := !d.BandsStand()
		if w.bands = d.StepBands(bandDraws); w.bands {
			return Bands
		}
		if none && d.BandsStand() {
			return First
		}
		return Nothing
	}
	if d.Account() != nil && !w.accounted {
		if !d.Accounted() {
			d.StepRest(accountDraws)
		}
		if w.accounted = d.Accounted(); w.accounted {
			return Account
		}
		return Nothing
	}
	_, told := d.Suggestions()
	if d.StepRest(bandDraws) {
		return All
	}
	if _, now := d.Suggestions(); now { // there is nothing else to see before
		if w.steps++; !told || w.steps%tellEach == 0 {
			return Some
		}
	}
	return Nothing
}
