// Package desk holds what the user is doing: the texts as typed, the plan that
// they make, what is wrong with them, and the figures. It knows nothing of
// pages, so that every behaviour of the form can be tested without a browser.
package desk

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"rosesalt/chem/account"
	"rosesalt/chem/assay"
	"rosesalt/chem/club"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/link"
)

// Desk is the state of the form. Make one with New.
type Desk struct {
	plan     route.Plan        // the last that could be computed
	texts    map[string]string // as typed, by key, for fields that were touched
	problems map[string]string // by key
	troubles []link.Trouble    // of the link that was opened
	given    map[string]spread.Interval
	found    account.Record
	after    *account.Posterior // nil while nothing is measured
	run      *Started           // nil while nothing is begun
	notes    string
	assays   readings
	log      readings        // of the gas, while it was led in
	times    procedure.Times // that the user gives the steps
	days     procedure.Days
	club     club.Club
	doubts   doubts
	rest     rest
	bench    route.Bench
	sheet    *route.Sheet
	legs     []route.Leg
	vessels  []route.Vessel
	notices  []route.Notice
}

// New opens the plan of a fragment.
func New(fragment string) *Desk {
	d := &Desk{rest: rest{along: "cell.count", wish: Wish{Figure: route.ProductMass}}}
	d.bench.Keep = true
	d.Open(fragment)
	return d
}

// Open replaces everything by the plan of a fragment.
func (d *Desk) Open(fragment string) {
	c, troubles := link.Decode(fragment)
	d.OpenContent(&c, troubles)
}

// OpenContent replaces everything by what was read out of a link or a text.
func (d *Desk) OpenContent(c *link.Content, troubles []link.Trouble) {
	d.plan, d.given, d.found, d.notes, d.troubles = c.Plan, c.Given, c.Found, c.Notes, troubles
	d.times, d.days, d.club = c.Times, c.Days, c.Club
	d.texts, d.problems = map[string]string{}, map[string]string{}
	d.begin(c.Run)
	d.assays, d.log = openReadings(assay.InputByKey, c.Assays), openReadings(gaslog.InputByKey, c.Log)
	d.compute()
}

// Reset goes back to the plan that the page starts with.
func (d *Desk) Reset() { d.Open("") }

// Edit takes the text of one field, as typed, and works the plan out again. Fields
// that cannot be read or do not go together keep their text and get a problem; the
// plan keeps the last good value for them.
func (d *Desk) Edit(key, text string) {
	if key == NotesKey {
		d.notes = link.CutNotes(text)
		return
	}
	if link.IsDays(key) {
		d.editDays(key, text)
		return
	}
	if _, ok := club.InputByKey(key); ok {
		d.editClub(key, text)
		return
	}
	if d.assays.edit(key, text) || d.log.edit(key, text) {
		return
	}
	if !d.takes(key) {
		return
	}
	d.texts[key] = text
	if of, ok := account.DishOf(key); ok {
		delete(d.texts, of) // the mass follows from the dish from now on
	}
	d.settle()
	if _, ok := account.InputByKey(strings.TrimSuffix(key, "~")); ok {
		d.weigh() // the plan and its bands are what they were
		return
	}
	d.compute()
}

// NotesKey is the key of the notes.
const NotesKey = "notes"

// Clear takes a further row of the bag away; not while a run has its plan fixed.
func (d *Desk) Clear(row int) {
	if d.run != nil {
		return
	}
	fresh := route.NewPlan()
	inputs := route.Inputs()
	for i := range inputs {
		if inputs[i].Row == row {
			delete(d.texts, inputs[i].Key)
			delete(d.texts, inputs[i].Key+"~")
			delete(d.given, inputs[i].Key)
			inputs[i].Copy(&d.plan, &fresh)
		}
	}
	d.settle()
	d.compute()
}

// settle reads all typed texts into the plan.
func (d *Desk) settle() {
	good, next := d.plan, d.plan
	d.problems = map[string]string{}
	found := d.loosen()
	for _, key := range slices.Sorted(maps.Keys(d.texts)) {
		if err := d.read(&next, key, d.texts[key]); err != nil {
			d.problems[key] = err.Error()
			if _, ok := account.InputByKey(key); ok {
				_ = d.found.Set(key, found.Value(key)) // the last good one, where it still fits
			}
		}
	}
	// Each round takes back what does not go together; a good plan is the end.
	for range d.texts {
		problems := route.Check(&next)
		if len(problems) == 0 {
			break
		}
		d.takeBack(&next, &good, problems[0])
	}
	if len(route.Check(&next)) > 0 {
		next = good
	}
	d.plan = next
}

// takeBack takes back what does not go together: the values that the problem names, or,
// where those are what they were, the typed one that brought it about.
func (d *Desk) takeBack(next, good *route.Plan, p route.Problem) {
	moved := false
	for _, key := range p.Keys {
		in, _ := route.InputByKey(key)
		moved = moved || !sameValue(in, next, good)
		in.Copy(next, good)
	}
	if moved {
		d.blame(p)
		return
	}
	for _, key := range slices.Sorted(maps.Keys(d.texts)) {
		in, ok := route.InputByKey(key)
		if !ok || sameValue(in, next, good) {
			continue
		}
		without := *next
		in.Copy(&without, good)
		if !slices.ContainsFunc(route.Check(&without), func(q route.Problem) bool { return q.Message == p.Message }) {
			*next = without
			d.problems[key] = p.Message
			return
		}
	}
	d.blame(p)
}

func sameValue(in *route.Input, a, b *route.Plan) bool {
	v, w := in.Value(a), in.Value(b)
	return v == w || !quantity.Given(v) && !quantity.Given(w)
}

// loosen takes all typed measurements out of the record, so that they can be read in
// any order: a reading is held against the others of its dish. It gives the record as
// it was.
func (d *Desk) loosen() account.Record {
	was := d.found
	for key := range d.texts {
		if _, ok := account.DishOf(key); ok {
			_ = d.found.Set(key, quantity.Blank)
		}
	}
	return was
}

// blame puts the message at the field that was typed in.
func (d *Desk) blame(p route.Problem) {
	for _, key := range p.Keys {
		if _, typed := d.texts[key]; typed {
			d.problems[key] = p.Message
			return
		}
	}
	d.problems[p.Keys[0]] = p.Message
}

func (d *Desk) read(p *route.Plan, key, text string) error {
	if link.IsDays(key) {
		return link.SetDays(&d.days, d.times, key, text)
	}
	if in, ok := club.InputByKey(key); ok {
		return link.SetClub(in, &d.club, text)
	}
	if name, ok := strings.CutSuffix(key, "~"); ok {
		if in, ok := account.InputByKey(name); ok {
			return link.SetTolerance(in, &d.found, text)
		}
		in, _ := route.InputByKey(name)
		return d.readInterval(in, text)
	}
	if in, ok := account.InputByKey(key); ok {
		return link.SetFound(in, &d.found, text)
	}
	in, _ := route.InputByKey(key)
	if in.IsChoice() {
		return in.Choose(p, text)
	}
	v, err := in.Read(text)
	if err != nil {
		return err
	}
	return in.Set(p, v)
}

func (d *Desk) compute() {
	d.sheet = d.bench.Run(&d.plan)
	d.legs = d.bench.Stream()
	d.vessels, d.notices = route.Vessels(&d.plan, d.sheet), route.Notices(&d.plan, d.sheet)
	d.doubts.begin(d.Case())
	d.rest.begin()
	d.weigh()
}

// weigh begins the account anew.
func (d *Desk) weigh() {
	d.after, d.rest.accounted = nil, false
	if !d.found.Empty() {
		d.after = account.Start(d.Case(), d.found)
	}
}

// readInterval takes the interval of an input; nothing typed gives back the usual
// one.
func (d *Desk) readInterval(in *route.Input, text string) error {
	if strings.TrimSpace(text) == "" {
		delete(d.given, in.Key)
		return nil
	}
	given, err := link.ReadInterval(in, text)
	if err == nil {
		d.given[in.Key] = given
	}
	return err
}

// Case is the plan with the intervals that the user set.
func (d *Desk) Case() spread.Case { return spread.Case{Plan: d.plan, Given: maps.Clone(d.given)} }

// IntervalText is what stands in the field of an input's interval: as typed, or
// what the user set before; empty for the usual one.
func (d *Desk) IntervalText(in *route.Input) string {
	if text, ok := d.texts[in.Key+"~"]; ok {
		return text
	}
	if given, ok := d.given[in.Key]; ok {
		return route.Plain(given.Low) + " to " + route.Plain(given.High)
	}
	return ""
}

// Plan is the plan as computed.
func (d *Desk) Plan() *route.Plan { return &d.plan }

// Sheet holds its figures.
func (d *Desk) Sheet() *route.Sheet { return d.sheet }

// Bench ran it.
func (d *Desk) Bench() *route.Bench { return &d.bench }

// Legs are the manganese's way through the stages.
func (d *Desk) Legs() []route.Leg { return d.legs }

// Vessels are those of the plan.
func (d *Desk) Vessels() []route.Vessel { return d.vessels }

// Notices are what a chemist would say of the plan.
func (d *Desk) Notices() []route.Notice { return d.notices }

// Troubles are what the opened link held that could not be taken.
func (d *Desk) Troubles() []link.Trouble { return d.troubles }

// Fragment is the plan as a link's fragment.
func (d *Desk) Fragment() string { return link.Encode(d.content()) }

// PlainLink is the same as lines of a text.
func (d *Desk) PlainLink() string { return link.WriteText(d.content()) }

func (d *Desk) content() *link.Content {
	c := link.Content{
		Case: spread.Case{Plan: d.plan, Given: d.given}, Found: d.found, Notes: d.notes, Assays: d.assays.read, Log: d.log.read,
		Times: d.times, Days: d.days, Club: d.club,
	}
	if d.run != nil {
		c.Run = &d.run.content
	}
	return &c
}

// Unread are the texts of fields that cannot be used, by key: no link carries them.
func (d *Desk) Unread() map[string]string {
	list := map[string]string{}
	for key := range d.problems {
		if text, ok := d.texts[key]; ok {
			list[key] = text
		}
	}
	for _, r := range []*readings{&d.assays, &d.log} {
		for key := range r.problems {
			list[key] = r.texts[key]
		}
	}
	return list
}

// Problem is what is wrong with a field, or "".
func (d *Desk) Problem(key string) string { return d.problems[key] }

// Text is what stands in a field: as typed, or the plan's value.
func (d *Desk) Text(in *route.Input) string {
	if text, ok := d.texts[in.Key]; ok {
		return text
	}
	v := in.Value(&d.plan)
	switch {
	case in.IsChoice():
		return in.Word(&d.plan)
	case !quantity.Given(v):
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// FoundText is what stands in the field of a measurement.
func (d *Desk) FoundText(key string) string {
	if text, ok := d.texts[key]; ok {
		return text
	}
	v := d.found.Value(key)
	if of, ok := strings.CutSuffix(key, "~"); ok {
		v = d.found.OwnHalf(of)
	}
	if quantity.Given(v) {
		return route.Plain(v)
	}
	return ""
}

// Found is what was measured.
func (d *Desk) Found() *account.Record { return &d.found }

// After is the account of the run; nil while nothing is measured. It stands when
// Accounted.
func (d *Desk) After() *account.Posterior { return d.after }

// Accounted tells whether the account stands.
func (d *Desk) Accounted() bool { return d.rest.accounted }

// PlanNext makes the plan of the next run out of the account: the learned values
// in place of the estimates, nothing measured yet.
func (d *Desk) PlanNext() []account.Change {
	if d.after == nil || !d.rest.accounted || !d.after.OK() {
		return nil
	}
	next, changes := account.NextInto(d.after, d.base().Plan, d.after.Learned())
	d.openWithTimes(next)
	return changes
}

// PlanFrom makes the plan of the next run out of what several runs told, in place of
// this plan's estimates, nothing measured yet. Nil where they told nothing.
func (d *Desk) PlanFrom(learned []account.Learned) []account.Change {
	if len(learned) == 0 {
		return nil
	}
	next, changes := account.NextOf(d.base(), learned)
	d.openWithTimes(next)
	return changes
}

// OldFrom is the first stage whose figures rest on a value that is no longer
// what the field shows; route.Stages when none does.
func (d *Desk) OldFrom() route.Stage {
	first := route.Stage(route.Stages)
	for key := range d.problems {
		if in, ok := route.InputByKey(key); ok && in.Stage < first {
			first = in.Stage
		}
	}
	return first
}

// Rows are the numbers of the rows of the bag that are shown: those with cells,
// and those being typed in.
func (d *Desk) Rows() []int {
	var rows []int
	for i := range d.plan.Rows {
		_, typed := d.texts[countKey(i+1)]
		if i == 0 || !math.IsNaN(d.plan.Rows[i].Count) || typed {
			rows = append(rows, i+1)
		}
	}
	return rows
}

// AddRow opens the next free row of the bag with one cell in it, and says
// whether there was one.
func (d *Desk) AddRow() bool {
	if d.run != nil {
		return false
	}
	shown := map[int]bool{}
	for _, row := range d.Rows() {
		shown[row] = true
	}
	for row := 2; row <= route.MaxRows; row++ {
		if !shown[row] {
			d.Edit(countKey(row), "1")
			return true
		}
	}
	return false
}

func countKey(row int) string {
	if row == 1 {
		return "cell.count"
	}
	return "cell." + strconv.Itoa(row) + ".count"
}

// Wrong is how many fields have a problem.
func (d *Desk) Wrong() int { return len(d.problems) }
