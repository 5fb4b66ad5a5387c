package procedure

import (
	"errors"
	"fmt"
	"math"
	"time"

	"rosesalt/chem/quantity"
)

// Session is when somebody is at the bench: from a time of the day, so long, each day or
// so many days apart, but not on dates that are left out.
type Session struct {
	From   time.Duration // after midnight, below 24 h
	Long   time.Duration // above zero, at most 24 h
	Every  int           // days from one session to the next; 0 and 1 are each day
	Second int           // days from each of these to one more session; 0 for none
	Out    []Span        // dates without a session
	Most   int           // sessions in which all is to be done; 0 for as many as it takes
}

// Apart is how many days lie between the beginnings of two sessions, a second one left out.
func (s Session) Apart() int { return max(1, s.Every) }

// Slot is a step, or a part of it, at its time.
type Slot struct {
	Step       int // place in the list of steps
	Start, End time.Time
	Day        int           // counted from 1, the day of the first session from the start on; the evening before is 0
	Session    int           // the number of the session, from 1; 0 outside of any
	Part, Of   int           // of a step done in parts; 1 of 1 otherwise
	Over       bool          // it goes on while nobody is there
	Late       time.Duration // by which the session runs over at its end
	Overfull   bool          // it does not fit into its session, and is laid out all the same
	By         Hand          // InSession for what is done in the session, ShownFirst for what is shown there
	Soon       bool          // of an adult's: begun the same day or the day after, since what the step before leaves must not wait longer
	Beyond     bool          // somebody is there for it, and it lies after as many sessions as there are to be
	Just       bool          // of an adult's: not before the day before the next session, since what it leaves must not wait longer
}

const (
	mostSessions = 60             // that a timetable may take
	evening      = 18 * time.Hour // when the evening before begins
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

// TooLate says that the session of a step comes too late for what the step before leaves.
type TooLate struct {
	Step, After int
	Days        int // from what it leaves at the latest to the session
}

// Error says which limit is passed, and the remedy.
func (e TooLate) Error() string {
	return fmt.Sprintf("what is there by then stands to the next day at most, and this session is %d days later: let an adult do this as well, or meet on the day after", e.Days)
}

// TooFew says that the work takes more sessions than there are to be.
type TooFew struct {
	Step        int             // the first that is begun after them
	Needs, Most int             // sessions in which something is done
	Work, Has   quantity.Minute // that the steps take of sessions, and that so many have
	AtIt        quantity.Minute // of the work; the rest waits for what settles and runs through
}

// Error says which limit is passed, and by what.
func (e TooFew) Error() string {
	why := "by the hours alone %d would do, but what cools or stands until the next session, or cannot be broken off, asks for more"
	if e.Work > e.Has {
		why = Hours(e.AtIt) + " at the bench and " + Hours(e.Work-e.AtIt) + " while something settles or runs through, and %d have " + Hours(e.Has) + " in all"
	}
	return fmt.Sprintf("it comes after session %d. The work takes %d sessions: "+why, e.Most, e.Needs, e.Most)
}

// tooFew marks the slots that lie beyond the limit of the sessions, and says so; nil where there
// are none. Only sessions in which somebody does something count.
func (s Session) tooFew(steps []Step, slots []Slot) error {
	if s.Most == 0 {
		return nil
	}
	spent := TimeOf(steps, slots)
	fault := TooFew{Step: -1, Most: s.Most, Work: spent.InSessions(), AtIt: spent.AtIt, Has: quantity.Minute(float64(s.Most) * s.Long.Minutes())}
	last := 0
	for i := range slots {
		slot := &slots[i]
		if slot.Session == 0 || steps[slot.Step].Watch == Overnight {
			continue
		}
		if slot.Session > last {
			last = slot.Session
			fault.Needs++
		}
		if slot.Beyond = fault.Needs > s.Most; slot.Beyond && fault.Step < 0 {
			fault.Step = slot.Step
		}
	}
	if fault.Step < 0 {
		return nil
	}
	return fault
}

// Hours writes how long something takes, such as "2 h 25", in one line.
func Hours(m quantity.Minute) string {
	return fmt.Sprintf("%d\u202fh\u202f%02d", int(m)/60, int(m)%60)
}

// Schedule lays the steps out from the day and time of start, within the sessions of
// that and the following days; where sessions lie days apart, the first is that of the
// start. Steps of the evening before lie before it. What may be
// left alone overnight runs on between sessions; what is done in parts is broken off at
// the end of one and gone on with in the next, unless so little is left that a session runs
// over by it where the next is days off; everything else begins only where it
// can end, with what cannot stand until the next session. What an adult does between two
// sessions takes none of them.
//
// With an error that says what does not fit, all is laid out all the same: what is too long
// for a session runs over it.
func Schedule(steps []Step, start time.Time, session Session) ([]Slot, error) {
	var (
		list   []Slot
		fault  error
		ends   = map[string]time.Time{}
		c      = newCursor(steps, start, session)
		before = midnight(c.first).Add(evening - 24*time.Hour)
	)
	for i := range steps {
		st := &steps[i]
		if st.Eve || st.By.Away() && c.to.IsZero() { // before the first session
			end := before.Add(st.Minutes.Duration())
			list = append(list, Slot{Step: i, Start: before, End: end, Part: 1, Of: 1, By: st.By.doing()})
			before = end
			if st.Show > 0 {
				list = append(list, c.show(i))
			}
			continue
		}
		if t, ok := ends[st.Needs]; ok && t.After(c.now) {
			c.now = t
		}
		slots, err := c.lay(i)
		if fault == nil {
			fault = err
		}
		end := slots[len(slots)-1].End
		ends[st.ID] = end
		if !st.Beside {
			c.now = end
		}
		list = append(list, slots...)
		if c.number(slots[len(slots)-1].Start) > mostSessions {
			return list, TooMany{i, session.Apart()}
		}
	}
	few := session.tooFew(steps, list)
	if fault == nil {
		fault = few
	}
	return list, fault
}

// TooMany says at which step the work passes the days that a timetable may take.
type TooMany struct {
	Step  int
	Apart int // days between sessions
}

// Error says which limit is passed, and the remedy.
func (e TooMany) Error() string {
	if e.Apart > 1 {
		return fmt.Sprintf("it is reached only after more than %d sessions: make them longer", mostSessions)
	}
	return fmt.Sprintf("it is reached only after more than %d days: make the sessions longer", mostSessions)
}

// FinishBy is the latest start from which all is done by a time. Only the beginnings of
// sessions are tried, from the finish's own day back: a start in the middle of a session
// may be later, and in time as well.
func FinishBy(steps []Step, finish time.Time, session Session) (time.Time, []Slot, error) {
	day := midnight(finish).Add(session.From)
	for range mostSessions*session.Apart() + session.daysOut() {
		if !session.out(day) {
			slots, err := Schedule(steps, day, session)
			if many, ok := errors.AsType[TooMany](err); ok {
				return time.Time{}, nil, many
			}
			if end := last(slots); !end.After(finish) {
				return day, slots, err
			}
		}
		day = midnight(day).AddDate(0, 0, -1).Add(session.From)
	}
	return time.Time{}, nil, fmt.Errorf("the work does not fit into the %d days before", mostSessions*session.Apart())
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
	steps        []Step
	tight, loose []float64 // what each needs of its session: where the next is days off, and where it is the day after
	now, first   time.Time
	session      Session
	anchor       time.Time // the midnight of a day with a session; zero while all have one
	left         time.Time // the end of what somebody was there for last
	to           time.Time // the end of the last session that was used; zero before the first
	due          time.Time // the midnight of the last day on which the work can go on; zero while it may stand
	bursts       int       // steps up to this one are laid into their session though they do not fit
	counted      time.Time // the day up to which sessions are counted, and
	count        int       // how many there are
}

// newCursor stands at the start, whose session, or the next that there is, is the first. Where
// sessions lie days apart, they are on the day of the start.
func newCursor(steps []Step, start time.Time, session Session) cursor {
	c := cursor{steps: steps, now: start, first: start, session: session, bursts: -1}
	c.tight, c.loose = needs(steps, true), needs(steps, false)
	if session.Apart() > 1 { // what is left out, or over by then, does not move the day of the week
		c.anchor = midnight(start)
		if yesterday := c.anchor.AddDate(0, 0, -1); yesterday.Add(session.From + session.Long).After(start) {
			c.anchor = yesterday
		}
	}
	c.first, _ = c.open()
	return c
}

// off tells whether a day has no session.
func (c *cursor) off(day time.Time) bool {
	if c.session.out(day) {
		return true
	}
	if c.anchor.IsZero() {
		return false
	}
	apart := c.session.Apart()
	n := (between(c.anchor, day)%apart + apart) % apart
	return n != 0 && n != c.session.Second
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

// number is how many sessions there are up to the day of a time. It is asked in the order of
// the days.
func (c *cursor) number(t time.Time) int {
	day := midnight(t)
	if c.counted.IsZero() {
		c.counted = midnight(c.first).AddDate(0, 0, -2)
		if !c.anchor.IsZero() {
			c.counted = c.anchor.AddDate(0, 0, -1)
		}
	}
	for c.counted.Before(day) {
		c.counted = c.counted.AddDate(0, 0, 1)
		if !c.off(c.counted) && !c.counted.Add(c.session.From+c.session.Long).Before(c.first) {
			c.count++
		}
	}
	return c.count
}

// held is the number of the session that ends then.
func (c *cursor) held(to time.Time) int { return c.number(to.Add(-c.session.Long)) }

// slot is a step in the session that ends at a time.
func (c *cursor) slot(i int, start time.Time, long time.Duration, to time.Time) Slot {
	end := start.Add(long)
	c.left, c.to = end, to
	return Slot{Step: i, Start: start, End: end, Day: c.day(start), Session: c.held(to), Part: 1, Of: 1}
}

// lay puts a step at the first time that it can have.
func (c *cursor) lay(i int) (slots []Slot, err error) {
	st := &c.steps[i]
	long := st.Minutes.Duration()
	switch {
	case st.By.Away():
		return c.away(i), nil
	case i <= c.bursts && st.Watch != Overnight:
		slots = []Slot{c.burst(i)}
	case c.loose[i] == 0 && st.Watch != Overnight && c.now.Equal(c.left):
		// What takes no time belongs to the session that ends now, and to one that ran over.
		return []Slot{{Step: i, Start: c.now, End: c.now, Day: c.day(c.now), Session: c.held(c.to), Part: 1, Of: 1}}, nil
	case st.Watch == Overnight:
		from, to := c.open()
		start, end := c.now, c.now.Add(long) // nobody need be there
		slots = []Slot{{Step: i, Start: start, End: end, Day: c.day(start), Part: 1, Of: 1, By: st.By, Over: long > 0 && (from.After(start) || end.After(to))}}
		switch {
		case !from.After(start):
			slots[0].Session = c.held(to)
		case start.Equal(c.left):
			slots[0].Session = c.held(c.to)
		}
		return slots, nil
	case st.Parts:
		slots = c.parts(i, long)
	default:
		slots, err = c.whole(i)
	}
	if err == nil && !c.due.IsZero() && midnight(slots[0].Start).After(c.due) {
		slots[0].Overfull = true
		err = TooLate{Step: i, After: c.before(i), Days: between(c.due, midnight(slots[0].Start)) + 1}
	}
	c.due = time.Time{}
	if st.Pause.Stand < AWeek && !st.Parts {
		c.due = midnight(c.left).AddDate(0, 0, 1)
	}
	return slots, err
}

// before is the last step before one that somebody did.
func (c *cursor) before(i int) int {
	for i--; i > 0 && c.steps[i].Watch == Overnight; i-- {
		continue
	}
	return max(0, i)
}

// ahead is how many sessions are looked at for one that a step fits into: those of some
// weeks, since only what lies on the day after one makes a difference.
const ahead = 8

// whole puts a step that is not done in parts, with what must follow it, into a session.
func (c *cursor) whole(i int) ([]Slot, error) {
	st := &c.steps[i]
	start := c.now
	var fresh time.Time // the beginning of the first session that nothing was done in
	from, to := c.open()
	need, last := 0.0, true // of that session, and that the next is days off
	for range ahead {
		day := midnight(to.Add(-c.session.Long))
		late := !c.due.IsZero() && day.After(c.due)
		tight := c.off(day.AddDate(0, 0, 1))
		n := c.loose[i]
		if tight {
			n = c.tight[i]
		}
		begins := day.Add(c.session.From)
		here := from.Equal(begins) && fresh.IsZero() && !late
		if here {
			fresh = begins
		}
		if here || need == 0 {
			need, last = n, tight
		}
		if late && c.tight[i] > c.session.Long.Minutes() { // what is there cannot wait for this one
			break
		}
		room := to.Sub(from)
		switch {
		case quantity.Minute(n).Duration() <= room:
			return []Slot{c.slot(i, from, st.Minutes.Duration(), to)}, nil
		case tight && c.session.Apart() > 1 && st.Begin > 0 && st.Begin.Duration() <= room:
			slot := c.slot(i, from, st.Minutes.Duration(), to)
			slot.Over, c.left = true, time.Time{}
			return []Slot{slot}, nil
		}
		c.next(to)
		from, to = c.open()
	}
	c.now = start
	if !fresh.IsZero() {
		c.now = fresh
	}
	fault := TooLong{Step: i, Through: through(c.steps, i, last), Needs: quantity.Minute(need), Allows: quantity.Minute(c.session.Long.Minutes()), Apart: 1}
	if last {
		fault.Apart = c.gap()
	}
	c.bursts = fault.Through
	return []Slot{c.burst(i)}, fault
}

// gap is how many days off the next session is.
func (c *cursor) gap() int {
	_, to := c.open()
	day := midnight(to.Add(-c.session.Long))
	n := 1
	for c.off(day.AddDate(0, 0, n)) {
		n++
	}
	return n
}

// burst puts a step where it does not fit: into the session that holds now, or in one with
// what was put there before.
func (c *cursor) burst(i int) Slot {
	from, to := c.open()
	if c.now.Equal(c.left) && !c.to.IsZero() && c.bursts >= i && from.After(c.now) {
		from, to = c.now, c.to
	}
	slot := c.slot(i, from, c.steps[i].Minutes.Duration(), to)
	slot.Overfull, slot.Late = true, max(0, slot.End.Sub(to))
	return slot
}

// show puts what is shown of an adult's step into the session that holds now, or the next one
// with room for it.
func (c *cursor) show(i int) Slot {
	long := c.steps[i].Show.Duration()
	from, to := c.open()
	if to.Sub(from) < long {
		c.next(to)
		from, to = c.open()
	}
	slot := c.slot(i, from, long, to)
	slot.By, c.now = ShownFirst, slot.End
	return slot
}

// away puts a step of an adult's between two sessions, and before it what of this and of those
// that the adult goes on with is shown in the session.
func (c *cursor) away(i int) (slots []Slot) {
	st := &c.steps[i]
	if i == 0 || !c.steps[i-1].By.Away() {
		for k := i; k < len(c.steps) && (c.steps[k].By.Away() || c.steps[k].Watch == Overnight); k++ {
			if c.steps[k].Show > 0 {
				slots = append(slots, c.show(k))
			}
		}
	}
	start := c.now
	if start.Before(c.to) {
		start = c.to
	}
	slot := Slot{Step: i, Start: start, End: start.Add(st.Minutes.Duration()), Day: c.day(start), Part: 1, Of: 1, By: Staff, Soon: !c.due.IsZero() && !st.Beside}
	c.left = time.Time{}
	switch {
	case st.Beside: // what follows does not wait for it
	case st.Pause.Stand == AWeek:
		c.due = time.Time{}
	case !c.due.IsZero() && st.Pause.Stand == ToTheNextDay:
		c.due = c.due.AddDate(0, 0, 1)
	case c.due.IsZero():
		slot.Just = true
	}
	return append(slots, slot)
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
		slot := c.slot(i, from, part, to)
		slot.Part, slot.Late = len(slots)+1, late
		slots = append(slots, slot)
		long -= part
		c.now = from.Add(part)
		if long > 0 {
			c.next(to)
		}
	}
	if slots == nil { // a step of no length
		from, to := c.open()
		slots = []Slot{{Step: i, Start: from, End: from, Day: c.day(from), Session: c.held(to), Part: 1}}
	}
	for k := range slots {
		slots[k].Of = len(slots)
	}
	return slots
}
