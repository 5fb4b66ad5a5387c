package desk

import (
	"strconv"
	"strings"

	"rosesalt/chem/account"
	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/chem/stock"
	"rosesalt/web/link"
)

// Started is the plan that a run was started from, and how far the run is. The desk's
// own plan is the run as it went: what was taken stands in the place of what was
// planned, and only what is still ahead is worked out anew.
type Started struct {
	Plan  route.Plan
	Sheet route.Sheet
	Done  route.Stage // the first stage that is not done; route.Stages when all are

	content link.Run
}

// planOnly are numbers that no hand measures out or reads: they belong to the plan.
var planOnly = map[string]bool{
	"gas.flask": true, "gas.purge": true, "gas.tube": true,
	"slurry.beaker": true, "wash.target": true,
	"room.volume": true, "room.changes": true, "room.escape": true,
}

// Taken tells whether an input is a quantity that a hand takes, weighs or reads at the
// bench, and so can come out otherwise than planned. Choices and estimates cannot.
func Taken(in *route.Input) bool {
	return !in.IsChoice() && in.Low >= in.High && !in.Sizes && !planOnly[in.Key]
}

// StartRun fixes the plan as it is. It refuses while a field cannot be used.
func (d *Desk) StartRun() bool {
	if d.run != nil || d.FaultCount() > 0 {
		return false
	}
	before := d.is.Found
	d.is.Plan, d.fitted = d.sized.Plan, stock.Fitted{}
	d.begin(&link.Run{Planned: d.Case(), Before: &before})
	return true
}

// begin takes up a run, and pins its plan beside what comes of it; nil ends one.
func (d *Desk) begin(r *link.Run) {
	if r == nil {
		if d.run != nil {
			d.Unpin()
		}
		d.run = nil
		return
	}
	d.run = &Started{Plan: r.Planned.Plan, Done: route.Stage(r.Done), content: *r}
	d.rest.pinned = pinOf(link.Encode(&link.Content{Case: r.Planned, Found: account.NewRecord()}), r.Planned)
	d.run.Sheet = d.rest.pinned.Sheet
}

// Started is the run under way, or nil.
func (d *Desk) Started() *Started { return d.run }

// DropRun goes back to the plan that the run was started from, with what had been measured
// by then. What was measured since goes with the run; the notes stay.
func (d *Desk) DropRun() {
	if d.run == nil {
		return
	}
	c := d.withTimes(d.run.content.Planned)
	c.Notes = d.is.Notes
	if before := d.run.content.Before; before != nil {
		c.Found = *before
	}
	d.Open(link.Encode(&c))
}

// TakeBackStart takes the start of a run back: the desk is the draft that stood before it, with what
// was typed since in the same fields, those of the plan too. What a stage that is done took as planned
// is not kept, since nobody typed it.
func (d *Desk) TakeBackStart(before *Draft) {
	if d.run == nil {
		return
	}
	since, typed := d.is, d.texts
	d.TakeDraft(before)
	d.Retype(typed)
	for _, form := range since.Forms() {
		for _, f := range form.Fields {
			if f.Kind == field.Text {
				d.Edit(f.Key, form.Text(f))
			}
		}
	}
}

// Locked tells whether a field must not change: while a run is under way all of the
// plan, and what was taken in a stage that is done. Weighings and assays often come
// later than their stage, and stay open.
func (d *Desk) Locked(in *route.Input) bool {
	return d.run != nil && (!Taken(in) || in.Stage < d.run.Done && in.Standing != route.Measured)
}

// StageDone says that a stage, and all before it, are done: what was left blank there
// was taken as planned, and is now a fact.
func (d *Desk) StageDone(stage route.Stage) bool {
	if d.run == nil || d.FaultCount() > 0 || stage < d.run.Done {
		return false
	}
	inputs := route.Inputs()
	for i := range inputs {
		in := &inputs[i]
		if in.Stage > stage || !Taken(in) || in.Standing != route.WorkedOut || quantity.Given(in.Value(&d.is.Plan)) {
			continue
		}
		if v, ok := in.WorkedOut(&d.plan, d.sheet); ok && in.Accept(asPoured(v)) == nil {
			_ = in.Set(&d.is.Plan, asPoured(v))
			delete(d.texts, in.Key)
		}
	}
	d.setDone(stage + 1)
	d.compute()
	return true
}

// Reopen opens a stage that was done, and all after it.
func (d *Desk) Reopen(stage route.Stage) {
	if d.run != nil && stage < d.run.Done {
		d.setDone(stage)
	}
}

func (d *Desk) setDone(stage route.Stage) {
	d.run.Done, d.run.content.Done = stage, int(stage)
}

// asPoured is a worked-out amount to four digits, finer than anyone pours it.
func asPoured(v float64) float64 {
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'g', 4, 64), 64)
	return v
}

// takes tells whether a field takes a text as things stand: while a run is under way what
// is locked does not, nor does an interval but that of a measurement.
func (d *Desk) takes(form *field.Form, f *field.Field) bool {
	if d.run == nil || form.Affects != field.Figures {
		return true
	}
	in, ok := route.InputByKey(strings.TrimSuffix(f.Key, "~"))
	if !ok { // of the shelf
		return true
	}
	return !d.Locked(in) && !(f.Kind == field.Interval && f.Standing != field.Measured)
}

// Planned is what the plan of the run held for an input, or what stood in for it; not
// ok where it held nothing, or no run is under way.
func (d *Desk) Planned(in *route.Input) (v float64, ok bool) {
	if d.run == nil || in.IsChoice() {
		return 0, false
	}
	if v = in.Value(&d.run.Plan); quantity.Given(v) {
		return v, true
	}
	if in.Standing != route.WorkedOut {
		return 0, false
	}
	return in.WorkedOut(&d.run.Plan, &d.run.Sheet)
}

// setTaken takes note that something else was taken than an interval of the plan allows: the
// interval goes, since the run is computed with what was taken, not with a middle.
func (d *Desk) setTaken(key string) {
	in, ok := route.InputByKey(key)
	if d.run == nil || !ok || !Taken(in) || in.Standing == route.Measured {
		return
	}
	v := in.Value(&d.is.Plan)
	if given, has := d.is.Given[key]; has && quantity.Given(v) && (v <= given.Low || v >= given.High) {
		delete(d.is.Given, key)
		delete(d.texts, key+"~")
	}
}

// forget puts the plan's own amounts back in place of those that were taken, for the
// next run: how much was poured this time is no plan.
func (s *Started) forget(p *route.Plan) {
	inputs := route.Inputs()
	for i := range inputs {
		if in := &inputs[i]; Taken(in) && in.Standing != route.Measured && in.Stage > route.Cells {
			in.Copy(p, &s.Plan)
		}
	}
}

// base is what a next run is planned from: the plan without what only this run took, and without
// the weights of its damp cake, of which the next run has another.
func (d *Desk) base() spread.Case {
	c := d.Case()
	if quantity.Given(c.Plan.CakeTaken) { // the share that follows from it has many digits
		c.Plan.BatchShare = quantity.Percent(asPoured(float64(c.Plan.BatchShare)))
	}
	if d.run != nil {
		d.run.forget(&c.Plan)
	}
	c.Plan.CakeDamp, c.Plan.CakeTaken = quantity.Gram(quantity.Blank), quantity.Gram(quantity.Blank)
	return c
}

// Jar is what a run leaves of its cake, damp in a jar: which share of it all, what that weighs, and
// the oxide of manganese in it.
type Jar struct {
	Share       quantity.Percent
	Damp, Oxide quantity.Gram
}

// Jar is what is left of the cake by the plan, or by the weight of all of the damp cake where that was
// taken; not ok where nothing is.
func (d *Desk) Jar() (Jar, bool) {
	share := d.plan.BatchShare
	j := Jar{Share: quantity.Percent(asPoured(float64(100 - share)))}
	for _, oxide := range []reaction.Substance{reaction.ManganeseDioxide, reaction.Manganite, reaction.Hetaerolite, reaction.Hausmannite} {
		j.Oxide += d.runner.Book().Mass(ledger.Reserve, oxide)
	}
	j.Damp = quantity.Gram(d.sheet.Amount(route.BatchDamp) * float64(j.Share/share))
	return j, j.Share > 0 && j.Oxide > 0
}

// Notes are what the user wrote down of the run.
func (d *Desk) Notes() string { return d.is.Notes }
