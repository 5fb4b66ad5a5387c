package procedure

import (
	"errors"
	"strings"

	"rosesalt/chem/quantity"
)

// Fault is why the work does not fit into its sessions: [TooLong], [TooLate], [TooMany] or [TooFew].
// It tells of steps by their places in the list that was laid out.
type Fault interface {
	error

	// among is the fault in a longer list, in which the step i stands at place[i].
	among(place []int) Fault

	// steps are those that it is about, by what a step is called.
	steps(called func(step int) string) string
}

func (e TooLong) among(place []int) Fault {
	e.Step, e.Through = place[e.Step], place[e.Through]
	return e
}

func (e TooLong) steps(called func(int) string) string {
	if e.Through == e.Step {
		return called(e.Step)
	}
	return called(e.Step) + " to " + called(e.Through)
}

func (e TooLate) among(place []int) Fault {
	e.Step, e.After = place[e.Step], place[e.After]
	return e
}

func (e TooLate) steps(called func(int) string) string {
	return called(e.Step) + ", after " + called(e.After)
}

func (e TooMany) among(place []int) Fault {
	e.Step = place[e.Step]
	return e
}

func (e TooMany) steps(called func(int) string) string { return called(e.Step) }

func (e TooFew) among(place []int) Fault {
	e.Step = place[e.Step]
	return e
}

func (e TooFew) steps(called func(int) string) string { return called(e.Step) }

// Among is what went wrong with a part of the steps, told of the whole list, in which the step i of
// the part stands at place[i]; what is no [Fault] stays as it is.
func Among(err error, place []int) error {
	if f, ok := errors.AsType[Fault](err); ok {
		return f.among(place)
	}
	return err
}

// Explain says in a sentence what does not fit into the sessions, by the titles of the steps, why,
// and what would.
func Explain(err error, steps []Step) string {
	about := ""
	if f, ok := errors.AsType[Fault](err); ok {
		about = f.steps(func(i int) string { return "“" + steps[i].Title + "”" })
	}
	return strings.TrimPrefix(about+": ", ": ") + err.Error() + "."
}

// Spent is how long the work of a timetable takes; what may stand overnight does not count.
type Spent struct {
	AtIt    quantity.Minute // in sessions, somebody at it
	Waits   quantity.Minute // in sessions, while something settles or runs through
	Before  quantity.Minute // on the evening before
	Between quantity.Minute // of an adult's, between sessions
}

// InSessions is what the sessions must hold.
func (s *Spent) InSessions() quantity.Minute { return s.AtIt + s.Waits }

// TimeOf is how long the work laid out in slots takes.
func TimeOf(steps []Step, slots []Slot) (s Spent) {
	for i := range slots {
		slot := &slots[i]
		st, lasts := &steps[slot.Step], quantity.Minute(slot.End.Sub(slot.Start).Minutes())
		switch {
		case st.Watch == Overnight:
		case slot.Session == 0 && st.Eve:
			s.Before += lasts
		case slot.Session == 0:
			s.Between += lasts
		case st.Watch == Unattended:
			s.Waits += lasts
		default:
			s.AtIt += lasts
		}
	}
	return s
}
