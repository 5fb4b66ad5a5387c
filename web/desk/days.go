package desk

import (
	"time"

	"rosesalt/chem/account"
	"rosesalt/chem/club"
	"rosesalt/chem/procedure"
	"rosesalt/chem/spread"
	"rosesalt/web/link"
)

// openWithTimes opens a plan with nothing measured; how long the steps take at this
// bench, for how many, and how its tube bubbles stay known.
func (d *Desk) openWithTimes(c spread.Case) {
	content := d.withTimes(c)
	d.Open(link.Encode(&content))
}

func (d *Desk) withTimes(c spread.Case) link.Content {
	days := procedure.NewDays()
	days.Session = d.is.Days.Session
	c.Shelf = another(d.is.Shelf)
	return link.Content{Case: c, Found: account.NewRecord(), Times: d.is.Times, Days: days, Hands: d.is.Hands, Club: d.is.Club, Assays: d.is.Assays, Log: d.is.Log.Tube()}
}

// Steps are the steps of the plan, with the times and the hands that the user gave them. They
// are made once for all that ask, and not to be changed.
func (d *Desk) Steps() []procedure.Step {
	if d.steps == nil {
		d.steps = procedure.WithHands(&d.plan, d.sheet, procedure.Steps(&d.plan, d.sheet, d.is.Times), d.is.Hands, d.is.Times)
	}
	return d.steps
}

// Hands are who does the steps, where it is not who is at the session.
func (d *Desk) Hands() procedure.Hands { return d.is.Hands }

// Work is what decides when the plan is done, and by whom.
func (d *Desk) Work(otherwise time.Time) club.Work {
	return club.Work{
		Case: d.Following(), Times: d.is.Times, Hands: d.is.Hands, Days: d.is.Days, Club: d.is.Club, Start: otherwise,
		Fixed: d.run != nil, Behind: d.behind,
	}
}

// Timetable lays the steps that are left out on the days: all of them, or while a run is
// under way those of the stages not done, and what these still wait for. The slots name
// steps by their place among all. Otherwise is the start where none is given.
func (d *Desk) Timetable(otherwise time.Time) (t Timetable, err error) {
	t.Steps = d.Steps()
	var left []procedure.Step
	var place []int
	for i := range t.Steps {
		if !d.behind(t.Steps, i) {
			left, place = append(left, t.Steps[i]), append(place, i)
		}
	}
	t.Left = len(left)
	if t.Left == 0 {
		return t, nil
	}
	t.Todo = place
	t.Start, t.Slots, err = d.is.Days.Lay(left, otherwise)
	for i := range t.Slots {
		t.Slots[i].Step = place[t.Slots[i].Step]
	}
	return t, procedure.Among(err, place)
}

// Timetable is the work laid out on the days.
type Timetable struct {
	Steps []procedure.Step // all of the plan
	Left  int              // how many of them are not done
	Todo  []int            // these, by their place among all
	Start time.Time
	Slots []procedure.Slot // of those left
}

// behind tells whether a step's stage is done, and nothing that is left waits for it: a
// flask that cools does so after its gas is done.
func (d *Desk) behind(steps []procedure.Step, i int) bool {
	if d.run == nil || steps[i].Stage >= d.run.Done {
		return false
	}
	for _, later := range steps[i+1:] {
		if later.Needs == steps[i].ID && later.Stage >= d.run.Done {
			return false
		}
	}
	return true
}

// Days are when the work is to be done.
func (d *Desk) Days() procedure.Days { return d.is.Days }

// Club is how many groups there are.
func (d *Desk) Club() club.Club { return d.is.Club }
