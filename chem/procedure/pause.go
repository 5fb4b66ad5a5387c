package procedure

import "rosesalt/chem/route"

// Stand is how long what a step leaves may stand before the work goes on.
type Stand uint8

// The stands, from the shortest.
const (
	NotAtAll     Stand = iota // the next step follows in the same session
	ToTheNextDay              // overnight, and no longer
	AWeek                     // to the next evening of a club
)

var stands = [...]string{"must not wait", "to the next day at most", "may wait a week"}

// String is the stand in words.
func (s Stand) String() string { return stands[s] }

// Pause is how long what a step leaves may stand, and how. It holds for a step that is
// broken off as well.
type Pause struct {
	Stand Stand
	How   string // a sentence
}

// What stands, and how. All common practice: zinc crumbs in the mix give hydrogen, acid
// in a slurry goes on working, a dish dries out, crystals lose water.
const (
	mixStands    = "The mix damp in its pail, the lid loose: crumbs of zinc give hydrogen. Dried out it is dust. Cells not opened wait as they are."
	slurryStands = "The acid slurry in the cold, covered, never stoppered, labelled: the acid goes on working in it."
	boilStands   = "Nothing stays in the dish: the liquor goes back into a lidded jar, labelled. In the dish it creeps, spills and dries to a crust."
)

// pauseOf is the pause after a step of a plan.
func pauseOf(p *route.Plan, st *Step) Pause {
	if st.Onward {
		return Pause{NotAtAll, "What is begun here is brought to its end in the same session."}
	}
	switch st.Key {
	case "ready":
		return Pause{AWeek, "Reagents locked away, labelled, out of reach of children."}
	case "dilute":
		return Pause{AWeek, "The dilute acid in its labelled bottle, locked away."}
	case "open", "soak", "wash", "acid":
		if route.Alkaline(p) {
			return Pause{AWeek, mixStands + " Until it is washed it holds lye: locked away."}
		}
		return Pause{AWeek, mixStands}
	case "divide":
		return Pause{AWeek, "Both shares damp in lidded, labelled jars. Look whether they are still damp before you go on."}
	case "slurry":
		return Pause{ToTheNextDay, slurryStands}
	case "line":
		return Pause{ToTheNextDay, "The line empty, and tested with air again. " + slurryStands}
	case "end":
		if route.Sulfurous(p) {
			return Pause{ToTheNextDay, "The slurry outdoors or in the fume cupboard, covered, not sealed: it holds gas. Filter it the next day at the latest."}
		}
		return Pause{ToTheNextDay, "The slurry covered, never stoppered: it may still give gas. Filter it the next day at the latest."}
	case "cool":
		return Pause{AWeek, "The flask only when it is quite cold: stoppered, labelled “strong acid”, locked away, so somebody stays or comes back for that. It draws water from the air."}
	case "filter":
		return Pause{AWeek, "The rose liquor in a closed, labelled bottle, the black residue damp in its pail."}
	case "dissolve", "blue":
		return Pause{AWeek, "The blue liquor covered, labelled, out of reach: more time makes larger crystals. It must not dry out."}
	case "evaporate":
		return Pause{AWeek, boilStands}
	case "dry":
		return Pause{AWeek, "The salt in its lidded jar, not open in the dish: it draws water or loses it."}
	case "grow":
		return Pause{AWeek, "The dish covered and labelled, not in a refrigerator for food. Uncovered it dries, and all that the liquor holds goes into the crystals."}
	case "drain":
		return Pause{AWeek, "The blue crystals in their lidded jar: left on paper they lose water and turn white."}
	}
	return Pause{AWeek, "Jars and bottles labelled, dated, caps loose, locked away."}
}

// ComeBack tells whether somebody must stay, or come back, for the end of a step that goes
// on by itself: a hot flask of strong acid does not stand alone and open until a session
// that is days off.
func ComeBack(st *Step, s Slot, apart int) bool {
	return st.Key == "cool" && s.Over && apart > 1
}

// needs is how much of a session must be left when each step begins. Where sessions lie
// more than a day apart, a step whose work may stand only to the next day asks for the
// room of the next one too.
func needs(steps []Step, every int) []float64 {
	list := make([]float64, len(steps))
	after := 0.0 // of the next step that somebody must be there for
	for i := len(steps) - 1; i >= 0; i-- {
		st := &steps[i]
		list[i] = float64(max(st.Minutes, st.Room))
		if every > 1 && st.Pause.Stand < AWeek {
			list[i] = max(list[i], float64(st.Minutes)+after)
		}
		switch {
		case st.Watch == Overnight:
		case st.Parts:
			after = 0
		default:
			after = list[i]
		}
	}
	return list
}

// through is the last step that must be done in one go with a step: itself where it may
// stand until the next session.
func through(steps []Step, i, every int) int {
	last := i
	for next := i + 1; next < len(steps); next++ {
		st := &steps[last]
		if !st.Onward && (every <= 1 || st.Pause.Stand >= AWeek) {
			break
		}
		if steps[next].Watch == Overnight { // nobody need be there for it
			continue
		}
		if steps[next].Parts {
			break
		}
		last = next
	}
	return last
}
