package desk

import (
	"rosesalt/chem/account"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/route"
	"rosesalt/chem/sound"
	"rosesalt/chem/spread"
)

// GasReadings are what was read while gas was led in. The caller must not change them.
func (d *Desk) GasReadings() gaslog.Readings { return d.is.Log }

// GasOutlet is where the gas comes out, by the plan and what was read.
func (d *Desk) GasOutlet() sound.Outlet { return d.GasReadings().Outlet(&d.plan, d.sheet) }

// GasBubble is the volume of one bubble in mL, by the way that was chosen. The error is a
// gaslog.MissingReading where a reading is missing for it.
func (d *Desk) GasBubble() (sound.Band, error) {
	c := d.Case()
	return d.GasReadings().Bubble(&c, d.GasOutlet())
}

// GasLog is what the rows of the log say.
func (d *Desk) GasLog() (gaslog.Log, error) {
	bubble, err := d.GasBubble()
	if err != nil {
		return gaslog.Log{}, err
	}
	return gaslog.Evaluate(d.GasReadings(), bubble, &d.plan, d.sheet)
}

// GasNeed is the gas in mmol that must come over until the demand is met; Blank where the
// plan has none.
func (d *Desk) GasNeed() float64 { return gaslog.Need(d.sheet) }

// GasCounted is what is handed over of gas that was counted, as its fields take it.
func GasCounted(made sound.Band) (value, half string) {
	r := spread.Round(made.Best, made.Low, made.High)
	// The record's interval is even on both sides: the wider one counts.
	wide := max(made.High-made.Best, made.Best-made.Low)
	if !(wide > 0) {
		return route.Plain(r.Best), ""
	}
	return route.Plain(r.Best), route.Plain(spread.HalfWidth(wide))
}

// UseGas hands the gas that was made, in mmol, to what was found after the run, with its
// interval, as if it had been typed there.
func (d *Desk) UseGas(made sound.Band) {
	value, half := GasCounted(made)
	d.Edit(account.KeyGas, value)
	d.Edit(account.KeyGas+"~", half)
}

// bubbleTexts are a bubble's volume in mL as the plan's field and its interval take it.
func bubbleTexts(b sound.Band) (value, interval string) {
	r := spread.Round(b.Best, b.Low, b.High)
	if r.Low < r.High {
		interval = route.Plain(r.Low) + " to " + route.Plain(r.High)
	}
	return route.Plain(r.Best), interval
}

const bubbleKey = "gas.bubble"

// HoldsBubble tells whether the plan holds this volume of a bubble, with this interval.
func (d *Desk) HoldsBubble(b sound.Band) bool {
	value, interval := bubbleTexts(b)
	return d.Text(bubbleKey) == value && d.Text(bubbleKey+"~") == interval
}

// UseBubble hands the volume of a bubble in mL to the plan, with its interval. It tells
// whether the plan takes one now.
func (d *Desk) UseBubble(b sound.Band) bool {
	in, _ := route.InputByKey(bubbleKey)
	if d.Locked(in) {
		return false
	}
	value, interval := bubbleTexts(b)
	d.Edit(bubbleKey, value)
	if interval != "" {
		d.Edit(bubbleKey+"~", interval)
	}
	return true
}
