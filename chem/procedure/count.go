package procedure

import (
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Count is something in a step that is worth a timer: what is waited for, and the
// minutes to begin with, an estimate like the step's.
type Count struct {
	Name    string
	Minutes quantity.Minute
}

// Minutes within a step, common practice as above.
const (
	stirEach   = 10 // of washEach
	settleEach = 30 // of washEach
	dryAgain   = 60 // between two weighings
)

// Counts are the timers that a step of a plan may want; none where there is nothing to
// wait for. Where the user set the step's time, stirring and settling of a wash keep
// their shares of it, and a timer for a whole step takes it as it is; what lasts as long
// whatever the step takes (the test's stopper, a rinse, the drying between two weighings)
// stays.
func Counts(p *route.Plan, st *Step) []Count {
	switch st.Key {
	case "wash", "clear":
		scale := 1.0
		if st.Asked && st.Times > 0 {
			scale = float64(st.Minutes) / (washEach * st.Times)
		}
		return worth(Count{"Wash: stir", quantity.Minute(scale * stirEach)}, Count{"Wash: settle", quantity.Minute(scale * settleEach)})
	case "gas":
		minutes := p.GasMinutes / quantity.Minute(route.Runs(p))
		if st.Asked {
			minutes = st.Minutes
		}
		return worth(Count{st.Title, minutes})
	case "end":
		if !route.Sulfurous(p) {
			return worth(Count{"From pinch to pinch", standStirred}) // that vessel stays open
		}
		return worth(Count{"Slurry under its stopper", standStirred})
	case "filter":
		return worth(Count{st.Title, st.Minutes}, Count{"One rinse", rinseEach})
	case "dry":
		return worth(Count{st.Title, st.Minutes}, Count{"Dry before the next weighing", dryAgain})
	}
	if !st.Waits {
		return nil
	}
	return worth(Count{st.Title, st.Minutes})
}

// worth keeps what lasts a minute and no longer than a step may, in whole minutes.
func worth(list ...Count) []Count {
	var kept []Count
	for _, c := range list {
		if c.Minutes >= 1 {
			c.Minutes = min(Longest, quantity.Minute(int(c.Minutes)))
			kept = append(kept, c)
		}
	}
	return kept
}
