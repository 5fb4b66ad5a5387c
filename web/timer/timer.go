// Package timer computes what kitchen timers show: the time left, the time since one
// ended, pauses, and what follows when the machine's clock is put back.
//
// A timer stores the moment it was started and counts no ticks, so a page that is
// closed or a machine that sleeps loses nothing. It reads no clock: each method takes
// the present moment as wall-clock time (the monotonic part of a time is dropped, since
// it stops while a machine sleeps).
package timer

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"time"
	"unicode/utf8"
)

// Limits of a timer.
const (
	Shortest = time.Second
	Longest  = 7 * 24 * time.Hour
	MaxName  = 120 // bytes
)

// Timer is one timer. Make one with [Start].
type Timer struct {
	ID     string // unlike that of any other
	Name   string // what it waits for, as shown
	Length time.Duration

	started time.Time     // of the stretch that runs; when it was paused otherwise
	before  time.Duration // ran before that stretch
	paused  bool
	seen    time.Time     // the latest moment it was asked at
	back    time.Duration // by how much the clock was put back, in all
}

// Start gives a timer that runs from now. A length outside of the limits is an error.
func Start(id, name string, length time.Duration, now time.Time) (Timer, error) {
	now = now.Round(0)
	t := Timer{ID: id, Name: name, Length: length, started: now, seen: now}
	return t, t.check()
}

func (t *Timer) check() error {
	switch {
	case t.ID == "":
		return fmt.Errorf("timer: no identifier")
	case t.Name == "" || len(t.Name) > MaxName || !utf8.ValidString(t.Name):
		return fmt.Errorf("timer: the name %.40q is empty, or longer than %d bytes", t.Name, MaxName)
	case t.Length < Shortest || t.Length > Longest:
		return fmt.Errorf("timer: a length of %v is not from %v to %v", t.Length, Shortest, Longest)
	case t.before < 0 || t.before > Longest || t.back < 0:
		return fmt.Errorf("timer: ran %v before, put back by %v", t.before, t.back)
	}
	return nil
}

// Observe gives the timer the present moment. Where that lies before an earlier one, the
// clock was put back: the time that has really passed is unknown, so the timer goes on
// from where it stood, and Observe gives by how much. Less than [Slack] is a clock being
// adjusted, and gives zero.
func (t *Timer) Observe(now time.Time) (back time.Duration) {
	now = now.Round(0)
	if !now.Before(t.seen) {
		t.seen = now
		return 0
	}
	back = t.seen.Sub(now)
	// A clock that was decades ahead moves the start before 1970, but no farther than can
	// be stored.
	t.started = later(t.started.Add(-back), time.UnixMilli(-farthest))
	t.seen = now
	if back < Slack {
		return 0
	}
	t.back += min(back, farthest*time.Millisecond-t.back)
	return back
}

func later(a, b time.Time) time.Time {
	if a.Before(b) {
		return b
	}
	return a
}

// Slack is how much a clock may go back without being reported: adjustments over the
// network are smaller.
const Slack = 2 * time.Second

// PutBack is by how much the clock was put back since the timer was started, in all.
func (t *Timer) PutBack() time.Duration { return t.back }

// Ran is how long it has run; never negative.
func (t *Timer) Ran(now time.Time) time.Duration {
	if t.paused {
		return t.before
	}
	// What lies more than three centuries apart counts as three.
	return t.before + min(max(0, now.Round(0).Sub(t.started)), math.MaxInt64-t.before)
}

// Remaining is what is left of it: from its length down to nothing.
func (t *Timer) Remaining(now time.Time) time.Duration {
	return min(t.Length, max(0, t.Length-t.Ran(now)))
}

// Done tells whether its time is over.
func (t *Timer) Done(now time.Time) bool { return t.Remaining(now) == 0 }

// Over is how long it has been done; zero while it is not.
func (t *Timer) Over(now time.Time) time.Duration { return max(0, t.Ran(now)-t.Length) }

// Paused tells whether it is paused.
func (t *Timer) Paused() bool { return t.paused }

// Runs tells whether it is neither paused nor done.
func (t *Timer) Runs(now time.Time) bool { return !t.paused && !t.Done(now) }

// Pause stops it for the time being. One that is paused or done stays as it is.
func (t *Timer) Pause(now time.Time) {
	t.Observe(now)
	if t.Runs(now) {
		t.before, t.started, t.paused = t.Ran(now), now.Round(0), true
	}
}

// Resume ends a pause.
func (t *Timer) Resume(now time.Time) {
	t.Observe(now)
	if t.paused {
		t.started, t.paused = now.Round(0), false
	}
}

// Soonest is the place of the timer that is done first, or has been done longest; -1
// where none runs or is done.
func Soonest(list []Timer, now time.Time) int {
	best, least := -1, time.Duration(0)
	for i := range list {
		t := &list[i]
		if t.paused {
			continue
		}
		if left := t.Length - t.Ran(now); best < 0 || left < least {
			best, least = i, left
		}
	}
	return best
}

// Clock writes what is left as a kitchen clock shows it, "4:05" or "1:04:05". It
// counts a second that has begun, so that it shows nothing only when nothing is left.
func Clock(d time.Duration) string {
	s := int(math.Ceil(max(0, d).Seconds()))
	if s >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// Words writes a time as it is said, to the minute: "1 h 5 min", "less than a minute".
func Words(d time.Duration) string {
	m := int(d / time.Minute)
	switch {
	case m < 1:
		return "less than a minute"
	case m < 60:
		return fmt.Sprintf("%d\u202fmin", m)
	case m%60 == 0:
		return fmt.Sprintf("%d\u202fh", m/60)
	}
	return fmt.Sprintf("%d\u202fh %d\u202fmin", m/60, m%60)
}

// stored is a timer as it is kept: moments in milliseconds since 1970, spans in
// milliseconds.
type stored struct {
	Version int    `json:"v"`
	ID      string `json:"id"`
	Name    string `json:"name"`
	Length  int64  `json:"length"`
	Started int64  `json:"started"`
	Before  int64  `json:"before,omitempty"`
	Paused  bool   `json:"paused,omitempty"`
	Seen    int64  `json:"seen"`
	Back    int64  `json:"back,omitempty"`
}

const version = 1

// Encode writes the timer as text that can be stored.
func (t *Timer) Encode() string {
	b, err := json.Marshal(stored{
		version, t.ID, t.Name, t.Length.Milliseconds(), t.started.UnixMilli(), t.before.Milliseconds(), t.paused, t.seen.UnixMilli(), t.back.Milliseconds(),
	})
	if err != nil {
		panic(err) // numbers and valid text always have a JSON form
	}
	return string(b)
}

// ErrVersion is the error for a timer stored by another version of this program.
var ErrVersion = errors.New("written by another version")

// Decode reads what [Timer.Encode] wrote. What is damaged, or of another version, is
// an error.
func Decode(text string) (Timer, error) {
	var s stored
	if err := json.Unmarshal([]byte(text), &s); err != nil {
		return Timer{}, fmt.Errorf("timer: %.60q cannot be read: %w", text, err)
	}
	if s.Version != version {
		return Timer{}, fmt.Errorf("timer: %w: %d", ErrVersion, s.Version)
	}
	for _, n := range []int64{s.Length, max(s.Started, -s.Started), s.Before, s.Seen, s.Back} {
		if n < 0 || n > farthest {
			return Timer{}, fmt.Errorf("timer: %d milliseconds are no moment and no span", n)
		}
	}
	span := func(ms int64) time.Duration { return time.Duration(ms) * time.Millisecond }
	t := Timer{
		ID: s.ID, Name: s.Name, Length: span(s.Length),
		started: time.UnixMilli(s.Started), before: span(s.Before), paused: s.Paused, seen: time.UnixMilli(s.Seen), back: span(s.Back),
	}
	if err := t.check(); err != nil {
		return Timer{}, err
	}
	return t, nil
}

// farthest is the year 2200 in milliseconds since 1970; later times would overflow a
// duration.
const farthest = 230 * 365 * 24 * 3600 * 1000
