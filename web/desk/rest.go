package desk

import (
	"math"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// What is worked out when typing rests, one thing after the other, in steps:
// suggestions, the sweep, the wishes, the plan that is pinned.

// sweepDraws are enough for the ends of a band in a picture.
const (
	sweepDraws  = 512
	sweepPoints = 25
	wishDraws   = 1024
)

type rest struct {
	sweep  *spread.Sweep
	swept  bool
	along  string // the key of the input that is swept
	wish   Wish
	seek   *spread.Seek
	sought bool
	pure   Pure
	purify *spread.Purify
	looked bool // for how it comes
	pinned *Pin

	accounted bool // the account stands
}

// Wish is what the user wants to make, and by what.
type Wish struct {
	Text    string // grams, as typed
	Figure  route.FigureID
	ByShare bool // vary the share of the batch, not the cells
	Problem string
	Answer  spread.Answer
	Known   bool // Answer is about the plan as it is
}

// Pure is how pure the user wants the salt, and what brings it there.
type Pure struct {
	Text    string // percent, as typed
	Problem string
	Answer  spread.Purer
	Known   bool // Answer is about the plan as it is
}

// varied is the key of the input that the wish varies.
func (w *Wish) varied() string {
	if w.ByShare {
		return route.ShareKey
	}
	return "cell.count"
}

// Pin is a plan kept beside the one being changed.
type Pin struct {
	Fragment string
	Sheet    route.Sheet
	Sampling *spread.Sampling

	differs []Differs // of each figure, where it was worked out on another desk
}

func (r *rest) begin() {
	r.sweep, r.swept, r.seek, r.sought, r.wish.Known, r.accounted = nil, false, nil, false, false, false
	r.purify, r.looked, r.pure.Known = nil, false, false
	if r.pinned != nil {
		r.pinned.differs = nil
	}
}

// StepRest does a part of what is left to do once the bands stand, and tells
// whether all is done.
func (d *Desk) StepRest(draws int) bool {
	r := &d.rest
	switch {
	case d.after != nil && !r.accounted:
		r.accounted = d.after.Step(draws)
	case d.doubts.run.Done() < Draws: // the draws were made on another desk, which is gone
		d.doubts.run.Step(draws)
	case !d.StepSuggestions(draws):
	case !r.swept:
		d.stepSweep(draws)
	case !r.sought:
		d.stepWish(draws)
	case !r.looked:
		d.stepPure(draws)
	case r.pinned != nil && r.pinned.differs == nil && r.pinned.Sampling.Done() < r.pinned.Sampling.Draws():
		r.pinned.Sampling.Step(draws)
	default:
		return true
	}
	return false
}

func (d *Desk) stepSweep(draws int) {
	d.rest.swept = !d.makeSweep() || d.rest.sweep.Step(draws)
}

// makeSweep makes the sweep where there is none yet. It can always: SweepAlong takes only
// what can be swept.
func (d *Desk) makeSweep() bool {
	r := &d.rest
	if r.sweep == nil {
		r.sweep, _ = spread.NewSweep(d.Following(), r.along, d.along(), sweepDraws, route.ProductMass)
	}
	return r.sweep != nil
}

// SweepAlong chooses the input that the sweep varies: any that is a number.
func (d *Desk) SweepAlong(key string) {
	if in, ok := route.InputByKey(key); ok && !in.IsChoice() {
		d.rest.along, d.rest.sweep, d.rest.swept = key, nil, false
	}
}

// SweptInput is the input that the sweep varies, and its value in the plan or what
// stands in for it; not ok where nothing does.
func (d *Desk) SweptInput() (in *route.Input, own float64, ok bool) {
	in, _ = route.InputByKey(d.rest.along)
	own, ok = in.InEffect(&d.plan, d.sheet)
	return in, own, ok
}

// along are the values of the sweep: an estimate's from its low to its high,
// others from a small part of the plan's to two and a half times as much, within
// the limits.
func (d *Desk) along() []float64 {
	in, own, ok := d.SweptInput()
	low, high := in.Low, in.High
	if low >= high {
		if !ok {
			own = math.Min(in.Max, math.Max(in.Min, 10))
		}
		low, high = own/4, 2.5*own
		if in.Whole {
			low, high = in.Min, math.Max(10, 2.5*own)
		}
	}
	low, high = math.Max(low, in.Min), math.Min(high, in.Max)
	var list []float64
	for i := range sweepPoints {
		v := low + (high-low)*float64(i)/(sweepPoints-1)
		if in.Whole {
			v = math.Round(v)
		}
		if len(list) == 0 || v > list[len(list)-1] {
			list = append(list, v)
		}
	}
	return list
}

// Sweep is the product against the input chosen; nil before it is begun. It is
// complete when Swept.
func (d *Desk) Sweep() *spread.Sweep { return d.rest.sweep }

// Swept tells whether the sweep is that of the plan as it is.
func (d *Desk) Swept() bool { return d.rest.swept }

// Want sets what the user wants to make.
func (d *Desk) Want(w Wish) {
	d.rest.wish = w
	d.rest.seek, d.rest.sought = nil, false
}

// Wish is what the user wants, and the answer where it is known.
func (d *Desk) Wish() Wish { return d.rest.wish }

// grams reads the wish.
var grams = field.Field{Name: "Wanted", Unit: "g", Min: 0.01, Max: 1e6, Blank: "nothing is wanted", Default: 20, Remedy: "Give grams."}

func (d *Desk) stepWish(draws int) {
	r := &d.rest
	w := &r.wish
	if r.seek == nil {
		v, err := grams.Take(w.Text)
		w.Problem = ""
		switch {
		case err != nil:
			w.Problem = err.Error()
		case !quantity.Given(v):
		case w.ByShare:
			r.seek = spread.ShareFor(d.Following(), w.Figure, v, wishDraws)
		default:
			r.seek = spread.CellsFor(d.Following(), w.Figure, v, wishDraws)
		}
		if r.seek == nil {
			r.sought, w.Known = true, false
			return
		}
	}
	if r.seek.Step(draws) {
		w.Answer, w.Known, r.sought = r.seek.Answer(), true, true
	}
}

// WantPure sets how pure the user wants the salt, as typed.
func (d *Desk) WantPure(text string) {
	d.rest.pure = Pure{Text: text}
	d.rest.purify, d.rest.looked = nil, false
}

// Pure is how pure the user wants the salt, and what brings it there where that is known.
func (d *Desk) Pure() Pure { return d.rest.pure }

// percent reads how pure it is wanted.
var percent = field.Field{Name: "Wanted", Unit: "%", Min: 1, Max: 100, Blank: "nothing is wanted", Default: 95, Remedy: "Give percent of what is in the jar."}

func (d *Desk) stepPure(draws int) {
	r := &d.rest
	w := &r.pure
	if r.purify == nil {
		v, err := percent.Take(w.Text)
		w.Problem = ""
		switch {
		case err != nil:
			w.Problem = err.Error()
		case quantity.Given(v):
			r.purify = spread.PureFor(d.Following(), v, wishDraws)
		}
		if r.purify == nil {
			r.looked, w.Known = true, false
			return
		}
	}
	if r.purify.Step(draws) {
		w.Answer, w.Known, r.looked = r.purify.Answer(), true, true
	}
}

// PinPlan keeps the plan as it is beside what comes.
func (d *Desk) PinPlan() {
	d.rest.pinned = pinOf(d.Fragment(), d.Case())
}

// Unpin lets the pinned plan go.
func (d *Desk) Unpin() { d.rest.pinned = nil }

// Pinned is the plan kept, or nil.
func (d *Desk) Pinned() *Pin { return d.rest.pinned }

// Differs is whether a figure of this plan differs from the pinned one's for certain, nine
// times in ten, and whether that is known: when the draws of both are done.
type Differs struct{ Differs, Known bool }

// Differs tells of a figure whether it differs from the pinned plan's.
func (d *Desk) Differs(id route.FigureID) Differs {
	p, run := d.rest.pinned, d.doubts.run
	switch {
	case p == nil || !d.AllDrawn():
		return Differs{}
	case p.differs != nil:
		return p.differs[id]
	case p.Sampling.Done() < p.Sampling.Draws() || run.Done() < run.Draws():
		return Differs{}
	}
	low, high, ok := spread.Difference(p.Sampling, run, id)
	return Differs{ok && (low > 0 || high < 0), ok}
}
