// Package counting holds the state behind counting bubbles, without a page: taps and their
// undoing, the sound that is kept to be looked at and heard again, and the stretch of it
// that is shown. Package sound computes the counts.
package counting

import (
	"slices"

	"rosesalt/chem/sound"
)

// Taps are the presses at bubbles, in sessions. The zero value has none; each press stands
// for one bubble.
type Taps struct {
	sessions []sound.Session
	stopped  bool // the next press begins a session
	ended    bool // no gas came after end
	end      sound.Second
	each     int
	past     bool  // of a gas that is over: the next press begins anew
	before   *Taps // what was taken back all at once
}

// PerPressChoices are the numbers of bubbles that a press may stand for.
var PerPressChoices = [...]int{1, 5, 10}

// PerPress is how many bubbles a press stands for.
func (t *Taps) PerPress() int { return max(1, t.each) }

// SetPerPress changes PerPress for presses to come. The next one begins a session, since the
// gap before it has neither rhythm.
func (t *Taps) SetPerPress(n int) {
	if n != t.PerPress() {
		t.each, t.stopped = n, true
	}
}

// quiet is how long no press comes before the next one begins a session: whoever counts
// slow bubbles presses some four times as often as that (estimate).
const quiet sound.Second = 15

// quietGaps is how many of the gaps so far that is (estimate).
const quietGaps = 4

// Tap adds a press at a time, which must not lie before the last one. The first of a session
// only starts its clock; the bubbles after it are counted.
func (t *Taps) Tap(at sound.Second) {
	if t.past {
		t.Reset()
	}
	t.ended = false
	n := len(t.sessions)
	if n == 0 || t.stopped || at-t.sessions[n-1].Until > t.patience() {
		t.sessions, t.stopped = append(t.sessions, sound.Session{From: at, Until: at}), false
		return
	}
	s := &t.sessions[n-1]
	s.Taps, s.Until = append(s.Taps, sound.Tap{At: at, Bubbles: t.PerPress()}), at
}

// patience is how long the last session waits for a press.
func (t *Taps) patience() sound.Second {
	s := t.sessions[len(t.sessions)-1]
	if n := len(s.Taps); n > 1 {
		return max(quiet, quietGaps*(s.Until-s.From)/sound.Second(n))
	}
	// After one or two presses nothing is known of the rhythm.
	return quietGaps * quiet
}

// Pause ends the session: the next press begins another.
func (t *Taps) Pause() { t.stopped = len(t.sessions) > 0 }

// End says that the gas stopped at a time, which must not lie before the last press; one
// more press says that it did not.
func (t *Taps) End(at sound.Second) {
	if !t.None() && !t.past {
		t.stopped, t.ended, t.end = true, true, at
	}
}

// Ended tells whether the gas stopped, and when.
func (t *Taps) Ended() (at sound.Second, is bool) { return t.end, t.ended }

// Until is the time until which gas came: now, or when it stopped.
func (t *Taps) Until(now sound.Second) sound.Second {
	if t.ended {
		return t.end
	}
	return max(now, t.Last())
}

// Counting tells whether a press now would be counted.
func (t *Taps) Counting(now sound.Second) bool {
	n := len(t.sessions)
	return n > 0 && !t.stopped && now-t.sessions[n-1].Until <= t.patience()
}

// Undo takes back the last press, End or Reset, and tells whether there was one. After a
// pause the next press still begins a session.
func (t *Taps) Undo(now sound.Second) bool {
	n := len(t.sessions)
	t.stopped = t.stopped || n > 0 && !t.Counting(now)
	if n == 0 {
		if t.before == nil {
			return false
		}
		*t = *t.before
		t.stopped = true
		return true
	}
	if t.ended {
		t.ended, t.past = false, false
		return true
	}
	s := &t.sessions[n-1]
	if len(s.Taps) == 0 {
		t.sessions = t.sessions[:n-1]
		t.stopped = n > 1
		return true
	}
	s.Taps = s.Taps[:len(s.Taps)-1]
	s.Until = s.From
	if k := len(s.Taps); k > 0 {
		s.Until = s.Taps[k-1].At
	}
	return true
}

// Reset takes all presses back; Undo brings them again.
func (t *Taps) Reset() {
	if t.None() {
		return
	}
	before := *t
	*t = Taps{each: t.each, before: &before}
}

// GasOver tells whether the taps belong to gas that has ended: the next press starts a new
// count.
func (t *Taps) GasOver() bool { return t.past }

// Empty tells whether there is no press, and none that Undo could bring back.
func (t *Taps) Empty() bool { return t.None() && t.before == nil }

// None tells whether nothing was pressed.
func (t *Taps) None() bool { return len(t.sessions) == 0 }

// Presses is how many there are, those that only start a clock among them.
func (t *Taps) Presses() int {
	n := len(t.sessions)
	for _, s := range t.sessions {
		n += len(s.Taps)
	}
	return n
}

// First is when the first press came.
func (t *Taps) First() sound.Second {
	if t.None() {
		return 0
	}
	return t.sessions[0].From
}

// Last is when the last press came.
func (t *Taps) Last() sound.Second {
	if t.None() {
		return 0
	}
	return t.sessions[len(t.sessions)-1].Until
}

// Sessions are those in which something was counted.
func (t *Taps) Sessions() []sound.Session {
	return slices.DeleteFunc(slices.Clone(t.sessions), func(s sound.Session) bool { return len(s.Taps) == 0 })
}

// Tapping gives the taps to package sound; the gas began to come some time before the first
// press.
func (t *Taps) Tapping(l sound.Outlet, bubble sound.Band, before sound.Second) sound.Tapping {
	return sound.Tapping{Outlet: l, Bubble: bubble, Began: t.First() - before, Sessions: t.Sessions()}
}
