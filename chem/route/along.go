package route

import (
	"rosesalt/chem/quantity"
)

// MostWashes is how many washes AlongWashes tries at most.
const MostWashes = 50

// Washing is the chloride in the wash liquor, wash by wash.
type Washing struct {
	After  []float64 // mg/L after so many washes, from the soak alone on; blank where nothing drains
	Clear  int       // the first wash after which silver nitrate stays clear; -1 where none does
	Own    int       // how many the plan makes before any acid
	Behind int       // how many it makes after the acid rinse
	Rinsed float64   // mg/L in the last wash behind the acid rinse; blank where there is none
}

// AlongWashes runs the plan with no wash, one, two and so on, to a little beyond the
// plan's own and the first clear one. The acid rinse, which comes after all of them, is
// left out of these.
func AlongWashes(p *Plan) Washing {
	var b Runner
	last := func(q *Plan) float64 {
		if s := b.Run(q); s.Reason(WashLast) == Defined {
			return s.Value(WashLast)
		}
		return quantity.Blank
	}
	w := Washing{Clear: -1, Rinsed: quantity.Blank}
	rinsed := last(p)
	planned := int(b.sheet.Value(WashTimesUsed))
	if w.Own, w.Behind = planned, int(b.sheet.Value(WashAfterUsed)); w.Behind > 0 {
		w.Rinsed = rinsed
	}
	q := *p
	q.WashAcid = 0
	for n := 0; n <= MostWashes; n++ {
		q.WashTimes = float64(n)
		v := last(&q)
		w.After = append(w.After, v)
		if w.Clear < 0 && v <= SilverLimit {
			w.Clear = n
		}
		if w.Clear >= 0 && n > max(planned, w.Clear, 3) {
			break
		}
	}
	if w.Clear < 0 {
		w.After = w.After[:min(len(w.After), max(planned+2, 12)+1)]
	}
	return w
}
