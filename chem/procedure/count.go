package procedure

import (
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Countdown is something in a step that is worth a timer: what is waited for, and the
// minutes to begin with, an estimate like the step's.
type Countdown struct {
	Name    string
	Minutes quantity.Minute
}

// Minutes within a step, common practice as above.
const (
	stirEach   = 10 // of washEach
	settleEach = 30 // of washEach
	dryAgain   = 60 // between two weighings
)

// Countdowns are the timers that a step of a plan may want; none where there is nothing to
// wait for. Where the user set the step's time, stirring and settling of a wash keep
// their shares of it, and a timer for a whole step takes it as it is; what lasts as long
// whatever the step takes (the test's stopper, a rinse, the drying between two weighings)
// stays.
func Countdowns(p *route.Plan, st *Step) []Countdown {
	switch st.Key {
	case "wash", "acid", "clear":
		scale := 1.0
		if st.TimeSet && st.Repeats > 0 {
			scale = float64(st.Minutes) / (washEach * st.Repeats)
		}
		return worth(Countdown{"Wash: stir", quantity.Minute(scale * stirEach)}, Countdown{"Wash: settle", quantity.Minute(scale * settleEach)})
	case "gas":
		minutes := p.GasMinutes / quantity.Minute(route.BatchCount(p))
		if st.TimeSet {
			minutes = st.Minutes
		}
		counts := []Countdown{{st.Title, minutes}}
		if st.Enough < minutes {
			counts = append(counts, Countdown{"Gas, until it is enough by the plan", st.Enough})
		}
		return worth(counts...)
	case "end":
		if !route.Sulfurous(p) {
			return worth(Countdown{"From pinch to pinch", standStirred}) // that vessel stays open
		}
		return worth(Countdown{"Slurry under its stopper", standStirred})
	case "filter":
		return worth(Countdown{st.Title, st.Minutes}, Countdown{"One rinse", rinseEach})
	case "dry":
		return worth(Countdown{st.Title, st.Minutes}, Countdown{"Dry before the next weighing", dryAgain})
	}
	if !st.MostlyWaiting {
		return nil
	}
	return worth(Countdown{st.Title, st.Minutes})
}

// worth keeps what lasts a minute and no longer than a step may, in whole minutes.
func worth(list ...Countdown) []Countdown {
	var kept []Countdown
	for _, c := range list {
		if c.Minutes >= 1 {
			c.Minutes = min(Longest, quantity.Minute(int(c.Minutes)))
			kept = append(kept, c)
		}
	}
	return kept
}
