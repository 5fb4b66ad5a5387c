package gaslog

import (
	"fmt"
	"math"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/sound"
	"rosesalt/chem/spread"
)

// halfDivision is how far a cylinder is misread, in mL, and misread the share of what it
// holds: half a division of a small one, and what meniscus and slant cost in a large one
// (common practice).
const (
	halfDivision = 0.25
	misread      = 0.01
)

// Outlet is where the gas comes out, as package sound takes it. The slurry counts as water:
// how much denser it is changes nothing here that could be read.
func (r Readings) Outlet(p *route.Plan, s *route.Sheet) sound.Outlet {
	l := sound.UsualOutlet()
	l.Air, l.Depth = p.AirPressure, sound.Millimetre(r.Value(KeyDepth))
	l.Liquid = p.SlurryTemperature
	if r.Value(KeyWhere) == InBottle {
		l.Liquid = p.AirTemperature
	}
	if s.Reason(route.GasPurgeUsed) == route.Defined {
		l.Displaced = quantity.Millilitre(s.Value(route.GasPurgeUsed))
	}
	return l
}

// Bubble is the volume of one bubble in mL by the way that the readings name. Where a
// reading is still wanted for it the error is a MissingReading; other errors are package sound's.
func (r Readings) Bubble(c *spread.Case, l sound.Outlet) (sound.Band, error) {
	switch r.Value(KeyWay) {
	case FromBore:
		if !quantity.Given(r.Value(KeyBore)) {
			return sound.Band{}, MissingReading(KeyBore)
		}
		return sound.Detached(sound.Millimetre(r.Value(KeyBore)), l)
	case Caught:
		n, filled := r.Value(KeyCaught), r.Value(KeyFilled)
		switch {
		case !quantity.Given(n):
			return sound.Band{}, MissingReading(KeyCaught)
		case !quantity.Given(filled):
			return sound.Band{}, MissingReading(KeyFilled)
		}
		return sound.Caught(int(n), filled, math.Hypot(halfDivision, misread*filled))
	}
	list := spread.Uncertains(c)
	for i := range list {
		if u := &list[i]; u.Input.Key == bubbleKey {
			return sound.Band{Low: u.Low, Best: u.Best, High: u.High}, nil
		}
	}
	return sound.Exactly(float64(c.Plan.GasBubble)), nil
}

const bubbleKey = "gas.bubble"

// MissingReading is the key of a reading without which the bubble's size is not known.
type MissingReading string

func (w MissingReading) Error() string {
	in, _ := InputByKey(string(w))
	return fmt.Sprintf("“%s” is still wanted.", in.Name)
}
