// Package gaslog is the book kept while gas is led in: every five minutes the bubbles
// of a minute, the slurry's temperature and the paper at the vent, and what follows of
// them: how much gas came so far, how far the run is ahead of the plan or behind it,
// and when the demand is met.
//
//	readings := gaslog.Readings{gaslog.Key(5, gaslog.Rate): 480, …}
//	log, err := gaslog.Evaluate(readings, bubble, plan, sheet)
//
// Minute 0 is when bubbles begin to come. What is counted in a row is the minute that
// ends there; package sound reckons what came between.
//
// Everything is a pure function of its arguments.
package gaslog

import (
	"math"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/sound"
)

// Row is one row of the log and what it says.
type Row struct {
	Minute  int
	Rate    float64 // bubbles a minute; Blank where not read
	Celsius float64 // of the slurry; Blank where not read
	Paper   int     // NotLooked, …

	Gas     sound.Band      // mmol that came over so far, where a rate was read
	Planned float64         // the same at the plan's even pace; Blank where it has none
	Ahead   quantity.Minute // of the plan, below zero behind it; Blank where that is not known
}

// Log is the log as it stands, worked out for a plan.
type Log struct {
	Rows []Row      // those in which something was read, in order
	Last int        // minute of the last row with a rate; 0 without one
	Gas  sound.Band // mmol that came over until then
	Made sound.Band // mmol made until then: with what stays in the flask, as account counts it

	// Met is the minute at which the demand is met: by the rows, or else at the pace of the
	// last one. All Blank where the plan has no demand or its charge does not meet it; infinite
	// where it is never met at that pace.
	Met sound.Band
	// Reached tells whether the demand was met by the last row.
	Reached bool
}

var unknown = sound.Band{Low: quantity.Blank, Best: quantity.Blank, High: quantity.Blank}

// Evaluate works the log out for a plan and its sheet, with the volume of one bubble in mL.
// It refuses what package sound refuses of a line and a bubble.
func Evaluate(r Readings, bubble sound.Band, p *route.Plan, s *route.Sheet) (Log, error) {
	log := Log{Met: unknown}
	tapping := sound.Tapping{Outlet: r.Outlet(p, s), Bubble: bubble}
	pace := planned(tapping.Outlet, p, s)
	need := Need(s)
	var before, tally sound.Tally
	met := unknown
	for minute := Each; minute <= Longest; minute += Each {
		row := Row{
			Minute: minute, Rate: r.Value(Key(minute, Rate)), Celsius: r.Value(Key(minute, Celsius)), Paper: int(r.Value(Key(minute, Paper))),
			Planned: pace(float64(minute)), Ahead: quantity.Minute(quantity.Blank),
		}
		if quantity.Given(row.Rate) {
			tapping.Sessions = append(tapping.Sessions, counted(minute, row.Rate))
			var err error
			before = tally
			if tally, err = tapping.At(sound.Second(60 * minute)); err != nil {
				return log, err
			}
			row.Gas, log.Last = tally.Gas, minute
			row.Ahead = ahead(pace, row.Gas.Best, minute, p)
			if quantity.Given(need) {
				met = passes(met, before, tally, need)
			}
		}
		if quantity.Given(row.Rate) || quantity.Given(row.Celsius) || row.Paper != NotLooked {
			log.Rows = append(log.Rows, row)
		}
	}
	if log.Last == 0 {
		// Nothing was counted; a bubble that cannot be is told all the same.
		_, err := tapping.At(0)
		return log, err
	}
	log.Gas = tally.Gas
	var err error
	if log.Made, err = Made(tapping.Outlet, tally.Volume); err != nil || !quantity.Given(need) {
		return log, err
	}
	left := tally.Left(need)
	log.Reached = quantity.Given(met.Best)
	end := func(was, left float64) float64 {
		if quantity.Given(was) {
			return was
		}
		return float64(log.Last) + left
	}
	log.Met = sound.Band{Low: end(met.Low, left.Low), Best: end(met.Best, left.Best), High: end(met.High, left.High)}
	return log, nil
}

// counted is a row's minute as a session of tapping.
func counted(minute int, rate float64) sound.Session {
	s := sound.Session{From: sound.Second(60*minute - 60), Until: sound.Second(60 * minute)}
	if n := int(math.Round(rate)); n > 0 {
		s.Taps = []sound.Tap{{At: s.Until, Bubbles: n}}
	}
	return s
}

// passes fills in the minutes at which the gas passes the demand between two rows, taking the
// pace there to be even: by the high end of the gas the earliest, by the low end the latest.
func passes(met sound.Band, from, to sound.Tally, need float64) sound.Band {
	end := func(was, before, after float64) float64 {
		if quantity.Given(was) || after < need {
			return was
		}
		share := (need - before) / (after - before)
		return (float64(from.At) + share*float64(to.At-from.At)) / 60
	}
	return sound.Band{
		Low: end(met.Low, from.Gas.High, to.Gas.High), Best: end(met.Best, from.Gas.Best, to.Gas.Best), High: end(met.High, from.Gas.Low, to.Gas.Low),
	}
}

// planned is the gas in mmol that the plan has led in by a minute at its even pace, less the
// air in the line as counting subtracts it; Blank where the plan makes none.
func planned(l sound.Outlet, p *route.Plan, s *route.Sheet) func(minute float64) float64 {
	each, err := Made(l, sound.Exactly(1))
	if err != nil || s.Reason(route.GasMade) != route.Defined || !(s.Value(route.GasMade) > 0) {
		return func(float64) float64 { return quantity.Blank }
	}
	millilitres := s.Value(route.GasMade) / each.Best
	return func(minute float64) float64 {
		gas, _ := l.Amount(sound.Exactly(millilitres * math.Min(1, minute/float64(p.GasMinutes))))
		return gas.Best
	}
}

// ahead is how many minutes the gas is ahead of the pace.
func ahead(pace func(float64) float64, gas float64, minute int, p *route.Plan) quantity.Minute {
	if !quantity.Given(pace(0)) {
		return quantity.Minute(quantity.Blank)
	}
	low, high := 0.0, float64(p.GasMinutes)
	for range 60 {
		if middle := (low + high) / 2; pace(middle) < gas {
			low = middle
		} else {
			high = middle
		}
	}
	return quantity.Minute(high - float64(minute))
}

// Need is the gas that must come over, after the air, until the oxide has what it can use,
// with what is not taken up, in mmol; Blank where the plan has none, or its charge does not
// make as much.
func Need(s *route.Sheet) float64 {
	if s.Reason(route.MetShare) != route.Defined {
		return quantity.Blank
	}
	return s.Value(route.MetShare)/100*s.Value(route.GasMade) - s.Value(route.GasPurged)
}

// Made is the gas in mmol that left the generator's liquid when so many mL of bubbles came
// over, air and all: what pushed the air out stays behind in the flask.
func Made(l sound.Outlet, millilitres sound.Band) (sound.Band, error) {
	l.Displaced = 0
	return l.Amount(millilitres)
}
