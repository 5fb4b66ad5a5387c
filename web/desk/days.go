package desk

import (
	"time"

	"rosesalt/chem/account"
	"rosesalt/chem/procedure"
	"rosesalt/chem/spread"
	"rosesalt/web/link"
)

// editDays takes the text of one field of the days. Nothing of the plan depends on it.
func (d *Desk) editDays(key, text string) {
	d.texts[key] = text
	switch { // a start and a finish take each other's place
	case text == "":
	case key == link.StartKey:
		delete(d.texts, link.FinishKey)
	case key == link.FinishKey:
		delete(d.texts, link.StartKey)
	}
	d.settle()
}

// openWithTimes opens a plan with nothing measured; how long the steps take at this
// bench and how its tube bubbles stay known.
func (d *Desk) openWithTimes(c spread.Case) {
	days := procedure.NewDays()
	days.Session = d.days.Session
	d.Open(link.Encode(&link.Content{Case: c, Found: account.NewRecord(), Times: d.times, Days: days, Assays: d.assays.read, Log: d.GasReadings().Tube()}))
}

// DaysText is what stands in a field of the days: as typed, or what is set; empty for
// the usual.
func (d *Desk) DaysText(key string) string {
	if text, ok := d.texts[key]; ok {
		return text
	}
	return link.DaysText(d.days, d.times, key)
}

// Steps are the steps of the plan, with the times that the user gave them.
func (d *Desk) Steps() []procedure.Step { return procedure.Steps(&d.plan, d.sheet, d.times) }

// Timetable lays the steps out on the days; otherwise is the start where none is given.
func (d *Desk) Timetable(otherwise time.Time) (steps []procedure.Step, start time.Time, slots []procedure.Slot, err error) {
	steps = d.Steps()
	start, slots, err = d.days.Lay(steps, otherwise)
	return steps, start, slots, err
}
