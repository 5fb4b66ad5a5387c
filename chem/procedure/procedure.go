// Package procedure is the work at the bench: the steps of a plan in their order, with
// what is taken, what is to be measured, what one should see and what misleads, what must
// not happen, and how long it takes.
//
// What a step says stands in text/en; what it asks of time and order, here. The amounts are
// those of the plan's sheet; nothing is computed twice. How long a step
// takes is an estimate (common practice, unless a volume and a rate or the plan's own
// minutes give it), and can be set.
package procedure

import (
	"math"
	"slices"
	"strconv"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Watch says whether a step may be left alone.
type Watch uint8

// The watches, from the least to the most.
const (
	Overnight  Watch = iota // may stand overnight
	Unattended              // may be left while it settles, runs or dries
	Attended                // somebody is at it
	NeverLeave              // not for a moment
)

var watches = [...]string{"may stand overnight", "may be left meanwhile", "stay with it", "never leave it"}

// String is the watch in words.
func (w Watch) String() string { return watches[w] }

// Amount is something to take, in a unit as printed.
type Amount struct {
	Name  string
	Value float64
	Unit  string
}

// Text is the amount as read.
func (a Amount) Text() string { return route.Print(a.Value, a.Unit) }

// Step is one step of the work.
type Step struct {
	Key           string // short and stable: of its time in a link; the same in every batch
	ID            string // of this step alone: the key, and from the second batch on its number
	Stage         route.Stage
	Title         string   // with the batch, where there are several
	Name          string   // without
	Batch         int      // from 1; 0 for what is done once for all batches
	Do            []string // sentences
	Take          []Amount
	Measure       []Entry  // to be measured and written down
	See           string   // what one should see
	Misled        string   // what misleads
	Stop          string   // what must not happen; stands before the step
	Full          string   // that the plan's vessel does not hold what is poured, and what to do; stands before the amounts
	Equal         int      // so many equal batches the vessel holds; 0 where nothing is too much for it, or they do not help
	OfOne         []Amount // what is taken for one of those, in the order of Take
	End           string   // how to tell that it is over
	Watch         Watch
	Minutes       quantity.Minute
	Enough        quantity.Minute // of gas, after which the plan has its demand; 0 where that takes all of it
	TimeSet       bool            // by the user; else it is an estimate
	Eve           bool            // is done the evening before
	MostlyWaiting bool            // most of it is waiting: worth a timer

	Parts   bool            // may be broken off and gone on with another day
	Beside  bool            // the next step need not wait for it
	Needs   string          // the ID of a step beside, which must be over before this one
	Repeats float64         // how often what it says is done, of washes
	Onward  bool            // the next step follows in the same session
	Room    quantity.Minute // so much of the session must be left when it begins
	Pause   Pause           // how long what it leaves may stand, and how
	Begin   quantity.Minute // where sessions lie days apart, so much of one is enough to begin it, and it runs on alone; 0: all of it
	By      Hand            // who does it
	Show    quantity.Minute // so much of a session takes what is shown of it
}

// Entry is something to be measured: a name, its unit, and what to expect.
type Entry struct {
	Name, Unit string
	Expect     float64 // not a number where nothing is known
	Field      string  // the key of the field of the plan, or of what was weighed, that takes it; "" for none
}

// Durations are the minutes that the user set, by the key of the step.
type Durations map[string]quantity.Minute

// Longest is the most that a step may be said to take: a week.
const Longest quantity.Minute = 7 * 24 * 60

// maker makes the steps of one plan.
type maker struct {
	p     *route.Plan
	s     *route.Sheet
	times Durations
	list  []Step

	t       *route.Teller
	vessels []route.Vessel
	runs    float64 // equal batches
	batch   int     // that is being worked, from 1; 0 outside of them
}

// Steps are the steps of a plan in order. A plan that opens no cell has none.
func Steps(p *route.Plan, s *route.Sheet, times Durations) []Step {
	if !opens(s) {
		return nil
	}
	m := newMaker(p, s, times)
	m.before()
	for m.batch = 1; float64(m.batch) <= m.runs; m.batch++ {
		m.work()
	}
	m.batch = 0
	m.after()
	m.room()
	return m.list
}

// opens tells whether any cell is opened.
func opens(s *route.Sheet) bool { return s.Value(route.CellsOpened) > 0 }

func newMaker(p *route.Plan, s *route.Sheet, times Durations) *maker {
	m := &maker{p: p, s: s, times: times, vessels: route.Vessels(p, s), runs: route.BatchCount(p)}
	m.t = &route.Teller{Plan: p, Sheet: s, Own: m.places}
	return m
}

// keys are those of all steps that there can be, in order.
var keys = [...]string{
	"ready", "dilute", "open", "soak", "wash", "acid", "clear", "divide", "slurry", "line", "charge", "gas", "stir", "end", "rest", "cool",
	"iron", "filter", "dissolve", "blue", "evaporate", "dry", "grow", "drain", "waste",
}

// Keys are those of all steps that some plan has, in order.
func Keys() []string { return slices.Clone(keys[:]) }

// room asks for the time of the steps that must follow in the same session.
func (m *maker) room() {
	for i := len(m.list) - 2; i >= 0; i-- {
		if st, next := &m.list[i], &m.list[i+1]; st.Onward {
			st.Room = max(st.Room, st.Minutes+max(next.Minutes, next.Room))
		}
	}
}

// minutes is how long a step takes: as set, or as estimated.
func (m *maker) minutes(key string, estimate quantity.Minute) quantity.Minute {
	if t, ok := m.times[key]; ok {
		return t
	}
	step := 1.0
	if estimate > coarse {
		step = 5
	}
	return quantity.Minute(step * math.Ceil(float64(estimate)/step))
}

// coarse are the minutes above which an estimate is told in steps of five: no finer one
// means anything.
const coarse = 60

// add adds a step, if the plan has it.
func (m *maker) add(st Step) {
	if !m.tell(&st) {
		return
	}
	_, st.TimeSet = m.times[st.Key]
	st.Minutes = m.minutes(st.Key, st.Minutes)
	st.ID, st.Name, st.Batch = idOf(st.Key, m.batch), st.Title, m.batch
	if m.several() && m.batch > 0 {
		st.Title += ", batch " + strconv.Itoa(m.batch) + " of " + count(m.runs)
	}
	m.hold(&st)
	m.list = append(m.list, st)
}

// idOf tells the steps of one batch from those of another.
func idOf(key string, batch int) string {
	if batch > 1 {
		return key + "." + strconv.Itoa(batch)
	}
	return key
}

// several tells whether the plan is worked in batches.
func (m *maker) several() bool { return m.runs > 1 }

// share is a figure's part that one batch takes, and all of it outside of them.
func (m *maker) share(v float64) float64 {
	if m.batch > 0 {
		return v / m.runs
	}
	return v
}

// hold says of a step whether its vessel holds what it pours.
func (m *maker) hold(st *Step) {
	key := st.Key
	if key == "stir" { // into the vessel of the slurry
		key = "slurry"
	}
	for i := range m.vessels {
		v := &m.vessels[i]
		if v.Step != key || !v.TooSmall() {
			continue
		}
		st.Full, st.Equal = v.Warning(), int(v.Batches)
		for _, a := range st.Take {
			if v.Batches > 0 {
				a.Value *= m.runs / v.Batches
				st.OfOne = append(st.OfOne, a)
			}
		}
	}
}

// vessel is the plan's vessel that a step fills; nil where it fills none.
func (m *maker) vessel(step string) *route.Vessel {
	for i := range m.vessels {
		if m.vessels[i].Step == step {
			return &m.vessels[i]
		}
	}
	return nil
}

// has tells whether a figure means something, and is more than nothing.
func (m *maker) has(id route.FigureID) bool {
	return m.s.Reason(id) == route.Defined && m.s.Value(id) > 0
}

func (m *maker) v(id route.FigureID) float64 {
	return m.s.Amount(id)
}

// count is the whole number nearest to a figure.
func count(v float64) string { return route.Print(math.Round(v), "") }
