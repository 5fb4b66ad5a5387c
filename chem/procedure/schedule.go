package procedure

import (
	"errors"
	"fmt"
	"math"
	"time"

	"rosesalt/chem/quantity"
)

// Session is when somebody is at the bench: from a time of the day, so long, each day or
// so many days apart.
type Session struct {
	From  time.Duration // after midnight, below 24 h
	Long  time.Duration // above zero, at most 24 h
	Every int           // days from one session to the next; 0 and 1 are each day
}

// Apart is how many days lie between the beginnings of two sessions.
func (s Session) Apart() int { return max(1, s.Every) }

// Slot is a step at its time. A step that is done in parts has several.
type Slot struct {
	Step       int // place in the list of steps
	Start, End time.Time
	Day        int           // counted from 1, the day of the start; the evening before is 0
	Part, Of   int           // of a step done in parts; 1 of 1 otherwise
	Over       bool          // it goes on while nobody is there
	Late       time.Duration // by which the session runs over, rather than put a little off for days
}

const (
	mostDays = 60             // with a session that a timetable may take
	evening  = 18 * time.Hour // when the evening before begins
)

// TooLong says that a step does not fit into a session.
type TooLong struct {
	Step, Through int // the first and the last that must be done in one go; the same for one alone
	Needs, Allows quantity.Minute
	Apart         int // days between sessions; what may stand only overnight cannot wait for more
}

// Error says which limit is passed, and the remedy.
func (e TooLong) Error() string {
	does, one := "it needs", "its time"
	if e.Through != e.Step {
		does, one = "without a pause they need", "one of their times"
	}
	if e.Apart > 1 {
		return fmt.Sprintf("%s %s in one go, for what is begun cannot stand for %d days, and a session has %s: make this session longer, or %s shorter", does, Hours(e.Needs), e.Apart, Hours(e.Allows), one)
	}
	return fmt.Sprintf("%s %s in one go, and a session has %s: make the sessions longer, or %s shorter", does, Hours(e.Needs), Hours(e.Allows), one)
}

// Hours writes how long something takes, such as "2 h 25".
func Hours(m quantity.Minute) string {
	return fmt.Sprintf("%d h %02d", int(m)/60, int(m)%60)
}

// Schedule lays the steps out from the day and time of start, within the sessions of
// that and the following days; where sessions lie days apart, the first is that of the
// start. Steps of the evening before lie before it. What may be
// left alone overnight runs on between sessions; what is done in parts is broken off at
// the end of one and gone on with in the next, unless so little is left that a session runs
// over by it where the next is days off; everything else begins only where it
// can end, with what cannot stand until the next session.
func Schedule(steps []Step, start time.Time, session Session) ([]Slot, error) {
	var list []Slot
	before := midnight(start).Add(evening - 24*time.Hour)
	ends := map[string]time.Time{}
	c := newCursor(start, session)
	room := needs(steps, session.Apart())
	for i, st := range steps {
		long := st.Minutes.Duration()
		if st.Eve {
			list = append(list, Slot{Step: i, Start: before, End: before.Add(long), Part: 1, Of: 1})
			before = before.Add(long)
			continue
		}
		if t, ok := ends[st.Needs]; ok && t.After(c.now) {
			c.now = t
		}
		slots, err := c.lay(i, st, quantity.Minute(room[i]).Duration())
		if err != nil {
			if long, ok := errors.AsType[TooLong](err); ok {
				long.Through = through(steps, i, session.Apart())
				err = long
			}
			return nil, err
		}
		end := slots[len(slots)-1].End
		ends[st.ID] = end
		if !st.Beside {
			c.now = end
		}
		list = append(list, slots...)
		if slots[len(slots)-1].Day > mostDays*session.Apart() {
			return nil, TooMany{i, session.Apart()}
		}
	}
	return list, nil
}

// TooMany says at which step the work passes the days that a timetable may take.
type TooMany struct {
	Step  int
	Apart int // days between sessions
}

// Error says which limit is passed, and the remedy.
func (e TooMany) Error() string {
	if e.Apart > 1 {
		return fmt.Sprintf("it is reached only after more than %d sessions: make them longer", mostDays)
	}
	return fmt.Sprintf("it is reached only after more than %d days: make the sessions longer", mostDays)
}

// FinishBy is the latest start from which all is done by a time. Only the beginnings of
// sessions are tried, from the finish's own day back: a start in the middle of a session
// may be later, and in time as well.
func FinishBy(steps []Step, finish time.Time, session Session) (time.Time, []Slot, error) {
	day := midnight(finish).Add(session.From)
	for range mostDays * session.Apart() {
		slots, err := Schedule(steps, day, session)
		if err != nil {
			return time.Time{}, nil, err
		}
		if end := last(slots); !end.After(finish) {
			return day, slots, nil
		}
		day = midnight(day.Add(-12 * time.Hour)).Add(session.From)
	}
	return time.Time{}, nil, fmt.Errorf("the work does not fit into the %d days before", mostDays*session.Apart())
}

// last is the end of the slot that ends last.
func last(slots []Slot) time.Time {
	var end time.Time
	for _, s := range slots {
		if s.End.After(end) {
			end = s.End
		}
	}
	return end
}

func midnight(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, t.Location())
}

// cursor walks through the sessions.
type cursor struct {
	now, first time.Time
	session    Session
	anchor     time.Time // the midnight of a day with a session; zero while all have one
	left       time.Time // the end of what somebody was there for last
}

// newCursor stands at the start, whose session, or the next that there is on any day, is
// the first.
func newCursor(start time.Time, session Session) cursor {
	c := cursor{now: start, first: start, session: session}
	if session.Apart() > 1 {
		_, to := c.open()
		c.anchor = midnight(to.Add(-session.Long))
	}
	return c
}

// off tells whether a day has no session.
func (c *cursor) off(day time.Time) bool {
	return !c.anchor.IsZero() && between(c.anchor, day)%c.session.Apart() != 0
}

// between is the number of days from one midnight to another.
func between(from, to time.Time) int { return int(math.Round(to.Sub(from).Hours() / 24)) }

// open is the session that holds now, or the next one.
func (c *cursor) open() (from, to time.Time) {
	for day := midnight(c.now).AddDate(0, 0, -1); ; day = day.AddDate(0, 0, 1) {
		if c.off(day) {
			continue
		}
		from = day.Add(c.session.From)
		to = from.Add(c.session.Long)
		if to.After(c.now) {
			if from.Before(c.now) {
				from = c.now
			}
			return from, to
		}
	}
}

// next moves to the beginning of the session after the one that ends then.
func (c *cursor) next(to time.Time) { c.now = to.Add(time.Second) }

func (c *cursor) day(t time.Time) int {
	return between(midnight(c.first), midnight(t)) + 1
}

// lay puts a step that needs so much of a session at the first time that it can have.
func (c *cursor) lay(i int, st Step, needs time.Duration) ([]Slot, error) {
	long := st.Minutes.Duration()
	from, to := c.open()
	switch {
	case needs == 0 && st.Watch != Overnight && c.now.Equal(c.left):
		// What takes no time belongs to the session that ends now, and to one that ran over.
		return []Slot{{Step: i, Start: c.now, End: c.now, Day: c.day(c.now), Part: 1, Of: 1}}, nil
	case st.Watch == Overnight:
		start, end := c.now, c.now.Add(long) // nobody need be there
		return []Slot{{Step: i, Start: start, End: end, Day: c.day(start), Part: 1, Of: 1, Over: long > 0 && (from.After(start) || end.After(to))}}, nil
	case st.Parts:
		return c.parts(i, long), nil
	}
	if needs > c.session.Long {
		return nil, TooLong{Step: i, Through: i, Needs: quantity.Minute(needs.Minutes()), Allows: quantity.Minute(c.session.Long.Minutes()), Apart: c.session.Apart()}
	}
	if from.Add(needs).After(to) {
		c.next(to)
		from, _ = c.open()
	}
	c.left = from.Add(long)
	return []Slot{{Step: i, Start: from, End: c.left, Day: c.day(from), Part: 1, Of: 1}}, nil
}

func (c *cursor) parts(i int, long time.Duration) []Slot {
	const least = 15 * time.Minute // less is not worth beginning, nor putting off for days
	var slots []Slot
	for long > 0 {
		from, to := c.open()
		room := to.Sub(from)
		if room < min(least, long) && c.session.Long >= least {
			c.next(to)
			continue
		}
		part := min(long, room)
		late := time.Duration(0)
		if rest := long - part; rest < least && c.session.Apart() > 1 {
			part, late = long, rest
		}
		slots = append(slots, Slot{Step: i, Start: from, End: from.Add(part), Day: c.day(from), Part: len(slots) + 1, Late: late})
		long -= part
		c.now = from.Add(part)
		c.left = c.now
		if long > 0 {
			c.next(to)
		}
	}
	if slots == nil { // a step of no length
		from, _ := c.open()
		slots = []Slot{{Step: i, Start: from, End: from, Day: c.day(from), Part: 1}}
	}
	for k := range slots {
		slots[k].Of = len(slots)
	}
	return slots
}
