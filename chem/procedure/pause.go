package procedure

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

// standOf is how long what a step leaves may stand.
func standOf(st *Step) Stand {
	if st.Onward {
		return NotAtAll
	}
	switch st.Key {
	case "slurry", "line", "end", "rest", "iron":
		return ToTheNextDay
	}
	return AWeek
}

// ComeBack tells whether somebody must stay, or come back, for the end of a step that goes
// on by itself: a hot flask of strong acid does not stand alone and open until a session
// that is days off.
func ComeBack(st *Step, s Slot, apart int) bool {
	return st.Key == "cool" && s.Over && apart > 1
}

// needs is how much of a session must be left when each step begins. Where the next session
// is more than a day off, a step whose work may stand only to the next day asks for the
// room of the next one too. What an adult does between sessions asks for none, but for what
// of it is shown first.
func needs(steps []Step, tight bool) []float64 {
	list := make([]float64, len(steps))
	after := 0.0 // of the next step that somebody must be there for
	show := 0.0  // of the steps of an adult's that follow
	for i := len(steps) - 1; i >= 0; i-- {
		st := &steps[i]
		if st.By.Away() {
			show += float64(st.Show)
			after = show
			continue
		}
		list[i] = float64(max(st.Minutes, st.Room))
		if tight && st.Pause.Stand < AWeek {
			list[i] = max(list[i], float64(st.Minutes)+after)
		}
		if st.Watch == Overnight {
			continue
		}
		show, after = 0, list[i]
		if st.Parts {
			after = 0
		}
	}
	return list
}

// through is the last step that must be done in one go with a step: itself where it may
// stand until the next session.
func through(steps []Step, i int, tight bool) int {
	last := i
	for next := i + 1; next < len(steps); next++ {
		st := &steps[last]
		if !st.Onward && (!tight || st.Pause.Stand >= AWeek) {
			break
		}
		if steps[next].Watch == Overnight { // nobody need be there for it
			continue
		}
		if steps[next].Parts || steps[next].By.Away() {
			break
		}
		last = next
	}
	return last
}
