// Package desk holds what the user is doing: the texts as typed, the plan that
// they make, what is wrong with them, and the figures. It knows nothing of
// pages, so that every behaviour of the form can be tested without a browser.
//
// Edit takes what is typed into one field: the form that has the field reads it, the plan is
// run, and the figures stand at once. What takes draws is worked out in steps, so that typing
// goes first: StepBands, then StepRest. A later Edit drops what was begun.
//
//	d := desk.New("cell.count=8")
//	d.Edit("gas.minutes", "120")
//	grams := d.Sheet().Value(route.ProductMass)
package desk

import (
	"maps"
	"math"
	"slices"
	"strconv"

	"rosesalt/chem/account"
	"rosesalt/chem/field"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/chem/stock"
	"rosesalt/web/link"
)

// Desk is the state of the form. Make one with New.
type Desk struct {
	is       link.Content       // what could be read last; its run is that of run
	sized    spread.Case        // the same with its share within the shelf
	fitted   stock.Fitted       // how it stands to the shelf
	plan     route.Plan         // as computed
	forms    []field.Form       // over it
	texts    map[string]string  // as typed, by key, for fields that were touched
	problems map[string]string  // by key
	troubles []link.Trouble     // of the link that was opened
	after    *account.Posterior // nil while nothing is measured
	run      *Started           // nil while nothing is begun
	ended    bool               // the user says that the run is over
	doubts   doubts
	rest     rest
	runner   route.Runner
	sheet    *route.Sheet
	legs     []route.Leg
	vessels  []route.Vessel
	notices  []route.Notice
	steps    []procedure.Step       // nil until they are asked for
	errand   Errand                 // that was run last
	offers   map[bool][]stock.Offer // of the plan as it is, by whether it is of a first run
}

// New opens the plan of a fragment.
func New(fragment string) *Desk {
	d := &Desk{rest: rest{along: "cell.count", wish: Wish{Figure: route.ProductMass}}}
	d.runner.Keep = true
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
	d.is, d.troubles = *c, troubles
	d.forms = d.is.Forms()
	d.texts, d.problems, d.ended = map[string]string{}, map[string]string{}, false
	d.begin(c.Run)
	d.compute()
}

// Reset goes back to the plan that the page starts with.
func (d *Desk) Reset() { d.Open("") }

// Edit takes the text of one field, as typed, works out anew what rests on it, and says
// what that is. Fields that cannot be read or do not go together keep their text and get a
// problem; the plan keeps the last good value for them.
func (d *Desk) Edit(key, text string) field.Affects {
	form, f, ok := d.Find(key)
	switch {
	case !ok || !d.takes(form, f):
		return field.Nothing
	case f.Kind == field.Text:
		_ = form.Set(f, text) // as it stands
		return form.Affects
	}
	d.texts[key] = text
	if f.Several != nil {
		for _, part := range f.Several(text) {
			d.texts[part.Key] = part.Text
		}
	}
	delete(d.texts, f.Clears)
	d.settle()
	d.setShare(key)
	d.setTaken(key)
	switch form.Affects {
	case field.Figures:
		d.compute()
	case field.Account:
		d.weigh() // the plan and its bands are what they were
	}
	return form.Affects
}

// Add changes the number of a field from what is typed there, within its limits, as Edit
// does; what is no number counts as 0.
func (d *Desk) Add(key string, by float64) field.Affects {
	_, f, ok := d.Find(key)
	if !ok {
		return field.Nothing
	}
	now, err := f.Read(d.Text(key))
	if err != nil || !quantity.Given(now) {
		now = 0
	}
	return d.Edit(key, f.Write(min(f.Max, max(f.Min, math.Round(now)+by))))
}

// RemoveRow takes a further row of the bag away; not while a run has its plan fixed.
func (d *Desk) RemoveRow(row int) {
	if d.run != nil {
		return
	}
	fresh := route.NewPlan()
	inputs := route.Inputs()
	for i := range inputs {
		if inputs[i].Row == row {
			delete(d.texts, inputs[i].Key)
			delete(d.texts, inputs[i].Key+"~")
			delete(d.is.Given, inputs[i].Key)
			inputs[i].Copy(&d.is.Plan, &fresh)
		}
	}
	d.settle()
	d.compute()
}

// settle reads all typed texts. Those of which one clears another are taken out before, so
// that they can be read in any order.
func (d *Desk) settle() {
	d.steps = nil
	good, next := d.is.Plan, &d.is.Plan
	d.problems = map[string]string{}
	keys := slices.Sorted(maps.Keys(d.texts))
	held := map[string]string{}
	for _, key := range keys {
		if form, f, _ := d.Find(key); f.Clears != "" {
			held[key] = form.Text(f)
			_ = form.Set(f, "")
		}
	}
	for _, key := range keys {
		form, f, _ := d.Find(key)
		if err := form.Set(f, d.texts[key]); err != nil {
			d.problems[key] = err.Error()
			if was, ok := held[key]; ok && form.Text(f) != was {
				_ = form.Set(f, was) // the last good one, where it still fits
			}
		}
	}
	// Each round takes back what does not go together; a good plan is the end.
	for range d.texts {
		problems := route.Check(next)
		if len(problems) == 0 {
			break
		}
		d.takeBack(next, &good, problems[0])
	}
	if len(route.Check(next)) > 0 {
		*next = good
	}
}

// takeBack takes back what does not go together: of the values that the problem names, and
// then of all that were typed, the first that brought it about alone; where none did, all
// that the problem names and that are not what they were.
func (d *Desk) takeBack(next, good *route.Plan, p route.Problem) {
	for _, key := range slices.Concat(p.Keys, slices.Sorted(maps.Keys(d.texts))) {
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
	told := p.Keys[0]
	for _, key := range p.Keys {
		if in, _ := route.InputByKey(key); !sameValue(in, next, good) {
			in.Copy(next, good)
			told = key
			d.problems[key] = p.Message
		}
	}
	d.problems[told] = p.Message
}

func sameValue(in *route.Input, a, b *route.Plan) bool {
	v, w := in.Value(a), in.Value(b)
	return v == w || !quantity.Given(v) && !quantity.Given(w)
}

func (d *Desk) compute() {
	d.steps = nil
	d.size()
	d.plan = d.sized.Planned()
	d.sheet = d.runner.Run(&d.plan)
	d.legs = d.runner.Stream()
	d.vessels, d.notices = route.Vessels(&d.plan, d.sheet), route.Notices(&d.plan, d.sheet)
	d.doubts.begin(d.Case())
	d.rest.begin()
	d.weigh()
}

// weigh begins the account anew.
func (d *Desk) weigh() {
	d.after, d.rest.accounted = nil, false
	if !d.is.Found.Empty() {
		d.after = account.Start(d.Case(), d.is.Found)
	}
}

// Case is the plan as it is held, its share within the shelf, with the intervals that the user set.
func (d *Desk) Case() spread.Case {
	c := spread.Case{Plan: d.sized.Plan, Given: maps.Clone(d.is.Given)}
	if quantity.Given(c.Plan.CakeTaken) { // the share is known
		delete(c.Given, route.ShareKey)
	}
	return c
}

// Following is the case from which changes of the plan are worked out: its share follows the shelf
// again after each.
func (d *Desk) Following() spread.Case {
	c := d.content().Following()
	c.Given = maps.Clone(c.Given)
	return c
}

// Plan is the plan as computed; see spread.Case.Planned.
func (d *Desk) Plan() *route.Plan { return &d.plan }

// Moved tells whether the plan is computed with another value of an input than the one
// that is held: with the middle of its interval.
func (d *Desk) Moved(in *route.Input) bool { return !sameValue(in, &d.plan, &d.sized.Plan) }

// Sheet holds the figures of the plan.
func (d *Desk) Sheet() *route.Sheet { return d.sheet }

// Runner is the one that ran the plan.
func (d *Desk) Runner() *route.Runner { return &d.runner }

// Legs are the manganese's way through the stages.
func (d *Desk) Legs() []route.Leg { return d.legs }

// Vessels are those of the plan.
func (d *Desk) Vessels() []route.Vessel { return d.vessels }

// Notices are what a chemist would say of the plan.
func (d *Desk) Notices() []route.Notice { return d.notices }

// ChangesSince says what moved the figures since the opened link was written; nothing where it is of
// this version.
func (d *Desk) ChangesSince() []string {
	if d.is.Version == 0 {
		return nil
	}
	return route.ChangesSince(&d.plan, d.is.Version)
}

// Troubles are what the opened link held that could not be taken.
func (d *Desk) Troubles() []link.Trouble { return d.troubles }

// Fragment is the plan as a link's fragment.
func (d *Desk) Fragment() string { return link.Encode(d.content()) }

// PlainLink is the plan as lines of a text, which link.ReadText reads.
func (d *Desk) PlainLink() string { return link.WriteText(d.content()) }

func (d *Desk) content() *link.Content {
	c := d.is
	c.Run = nil
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
	return list
}

// Problem is what is wrong with a field, or "".
func (d *Desk) Problem(key string) string { return d.problems[key] }

// Text is what stands in a field: as typed, or what is held; "" for a field of none.
func (d *Desk) Text(key string) string {
	if text, ok := d.texts[key]; ok {
		return text
	}
	return d.HeldText(key)
}

// HeldText is what the plan, the record and the others hold for a field, as it may be typed.
func (d *Desk) HeldText(key string) string {
	if share := d.sized.Plan.BatchShare; key == route.ShareKey && share != d.is.Plan.BatchShare { // it follows the cake or the shelf
		return route.Plain(asPoured(float64(share)))
	}
	if form, f, ok := d.Find(key); ok {
		return form.Text(f)
	}
	return ""
}

// Find looks for the form that has a key.
func (d *Desk) Find(key string) (*field.Form, *field.Field, bool) { return link.Find(d.forms, key) }

// Record is what was measured.
func (d *Desk) Record() *account.Record { return &d.is.Found }

// Account is the account of the run; nil while nothing is measured. It stands when
// Accounted.
func (d *Desk) Account() *account.Posterior { return d.after }

// Accounted tells whether the account stands.
func (d *Desk) Accounted() bool { return d.rest.accounted }

// Carried are the learned values that PlanNext starts from, and those that it does not.
func (d *Desk) Carried() ([]account.Learned, []account.HeldBack) {
	return d.after.Carried(d.base().Plan)
}

// Next is how the next run is to be planned.
type Next struct {
	TakeOff bool // what this run used is taken off the shelf first
	Jar     bool // from the cake that this run left in its jar: the same cells, and at most what is left
}

// PlanNext makes the plan of the next run, of which nothing is measured yet: out of the account,
// with the learned values that are carried in place of the estimates, or where none of this run can
// be made, as the plan stands. Not ok before the run is over, and while the account is being made.
func (d *Desk) PlanNext(how Next) (changes []account.Change, ok bool) {
	if !d.Over() || d.after != nil && !d.rest.accounted {
		return nil, false
	}
	next := d.base()
	own := next.Plan.BatchShare
	share := d.nextShare(own)
	if jar, left := d.Jar(); left && how.Jar {
		next.Plan.CakeDamp = d.is.Plan.CakeDamp // it is the same cake
		share = min(share, jar.Share)
	}
	if o, used := d.UsedUp(); used && how.TakeOff {
		d.is.Shelf = d.is.Shelf.With(o.Set)
	}
	if d.after != nil && d.after.OK() {
		base, learned := next.Plan, d.after.Learned()
		next, changes = account.NextInto(d.after, base, learned)
		fits := next
		fits.Plan.BatchShare, fits.Shelf = share, another(d.is.Shelf)
		if fits, _ = fits.Sized(); fits.Plan.BatchShare != own { // what changes is told with that share
			base.BatchShare = fits.Plan.BatchShare
			next, changes = account.NextInto(d.after, base, learned)
		}
	}
	next.Plan.BatchShare = share
	d.openWithTimes(next)
	return changes, true
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
	for i := range d.is.Plan.Rows {
		_, typed := d.texts[countKey(i+1)]
		if i == 0 || !math.IsNaN(d.is.Plan.Rows[i].Count) || typed {
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

// FaultCount is how many fields have a problem that keeps the work from going on.
func (d *Desk) FaultCount() (n int) {
	for key := range d.problems {
		if form, _, ok := d.Find(key); ok && !form.Affects.Beside() {
			n++
		}
	}
	return n
}
