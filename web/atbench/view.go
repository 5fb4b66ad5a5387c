// Package atbench is the view of the page that is used at the bench: one step of the work, in
// letters that can be read from where the hands are, with what must not happen above what is done.
//
// StepOf takes the step at which one is from a desk, as plain data; a View draws it, in the place of
// the page. A State holds at which step that is, by its ID, so that a changed plan does not move
// it, and is kept in the tab.
//
//	at := atbench.Recall()
//	if at.Open {
//		view := &atbench.View{At: atbench.StepOf(d, &at)}
//	}
//
// Out of the view goes an Action with a Move: so many steps on, or back to the page; whoever holds
// the State calls Go. Timers are started by timerbar.Start, what is measured is edited on the desk
// like any field, and bubbles are tapped on the pad of package bubbles. Nothing else can be typed,
// so that a stray touch changes no plan, and the screen is kept awake.
package atbench

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/phrase"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/browser"
	"rosesalt/web/bubbles"
	"rosesalt/web/counting"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/section"
	"rosesalt/web/timer"
	"rosesalt/web/timerbar"
)

// Action is the action of the view, with a Move.
const Action = "bench"

// pressed is the action of the view's own buttons, with one of the words below. Those of a timer
// have the timer's place behind them.
const pressed = "bench.press"

const (
	next    = "next"
	back    = "back"
	leave   = "leave"
	mishaps = "mishaps"
	spots   = "spots"
	pad     = "pad"
	shorter = "shorter "
	longer  = "longer "
)

const benchKey = "rosesalt.bench"

// Move goes so many steps on, or leaves the bench view.
type Move struct {
	By    int
	Leave bool
}

// State is whether the bench view is open, and at which step.
type State struct {
	Open bool
	Step string // its ID; kept while the view is shut
	// Began is the step in which the run was started, where that was done in the view. It is not kept.
	Began string
}

// Recall is what the tab's storage holds of it, "+" and the step while it was open.
func Recall() State {
	kept, _ := browser.Tab.Load(benchKey)
	return Read(kept)
}

// Read takes up what Text wrote.
func Read(kept string) State {
	return State{Open: strings.HasPrefix(kept, "+"), Step: strings.TrimLeft(kept, "+-")}
}

// Text is what Read reads.
func (a *State) Text() string {
	if a.Open {
		return "+" + a.Step
	}
	return "-" + a.Step
}

// Keep keeps it in the tab.
func (a *State) Keep() { _ = browser.Tab.Save(benchKey, a.Text()) } // refused: a reload begins at the page

// place is where a step stands in the list. One that the plan no longer has, or that
// was never chosen, is the first that a run has still ahead.
func (a *State) place(list []procedure.Step, done route.Stage) int {
	ahead := 0
	if done > 0 {
		ahead = len(list) - 1
	}
	for i := len(list) - 1; i >= 0; i-- {
		if list[i].ID == a.Step {
			return i
		}
		if list[i].Stage >= done && !(done > 0 && list[i].Eve) {
			ahead = i
		}
	}
	return ahead
}

// Go goes so many steps on. It tells whether there is such a step.
func (a *State) Go(d *desk.Desk, by int) bool {
	list := d.Steps()
	at := a.place(list, doneStages(d)) + by
	if at < 0 || at >= len(list) {
		return false
	}
	a.Step = list[at].ID
	a.Keep()
	return true
}

func doneStages(d *desk.Desk) route.Stage {
	if r := d.Started(); r != nil {
		return r.Done
	}
	return 0
}

// Step is one step as the bench view shows it.
type Step struct {
	Place, Of         int // counted from 1; of none where the plan has no steps
	Key, Stage, Title string
	ID                string // of this step alone
	Stop              string
	Full              string // that the vessel does not hold what is poured
	Take              doc.Amounts
	Do                []string
	See, Misled, End  string
	Measure           []Entry
	Waits             string // what is taken has no field yet, and why
	CanStart          bool   // the run can be started, which makes them
	Watch             string
	Never             bool // must not be left
	Time              string
	Countdowns        []procedure.Countdown
}

// Entry is a place for what is measured: to be typed, where a field takes it.
type Entry struct {
	Name, Unit, Expect string
	Field, Problem     string // the key of the field, and what is wrong with it
	Off                string // that what was typed is far from what was planned
	Says               string // what follows from what was typed
}

// StepOf is the step at which one is.
func StepOf(d *desk.Desk, at *State) Step {
	list := d.Steps()
	if len(list) == 0 {
		return Step{}
	}
	place := at.place(list, doneStages(d))
	st := asPlanned(d, &list[place])
	v := Step{
		Place: place + 1, Of: len(list), Key: st.Key, ID: st.ID, Stage: section.StageTitle(st.Stage), Title: st.Title,
		Stop: st.Stop, Full: st.Full, Take: amounts(st), Do: st.Do, See: st.See, Misled: st.Misled, End: st.End,
		Watch: st.Watch.String(), Never: st.Watch == procedure.NeverLeave,
		Time: "about " + timer.Words(st.Minutes.Duration()), Countdowns: procedure.Countdowns(d.Plan(), st),
	}
	if st.TimeSet {
		v.Time = timer.Words(st.Minutes.Duration()) + ", as you set it"
	}
	for _, m := range st.Measure {
		b := Entry{Name: m.Name, Unit: m.Unit}
		if takes(d, m.Field) {
			b.Field, b.Problem = m.Field, d.Problem(m.Field)
		}
		if quantity.Given(m.Expect) && !planned(d, m.Field) {
			b.Expect = "expect about " + route.Print(m.Expect, m.Unit)
			if took, ok := taken(d, &m); ok {
				number := route.Print(took, m.Unit)
				if b.Field != "" && took == m.Expect && fromPlan(d, m.Field) {
					b.Expect = "by the plan " + number + ": type over it what it was"
				}
				if b.Field == "" {
					b.Expect += "; taken " + number
				}
				if math.Abs(took-m.Expect) > farOff*math.Abs(m.Expect) {
					b.Off = number + " is more than a fifth off the " + route.Print(m.Expect, m.Unit) + " of the plan. What follows goes by what was taken."
				}
			}
		}
		if m.Field == route.TakenKey {
			b.Says = section.OfCake(d)
		}
		if b.Field == "" && d.Started() == nil {
			v.CanStart = d.FaultCount() == 0
			v.Waits = "What is taken can be typed here once the run is started, which fixes the plan."
			if !v.CanStart {
				v.Waits = "What is taken can be typed here once the run is started. That wants each field of “" + section.Plan.Name() + "” to be read: mend those that are marked there first."
			}
		}
		v.Measure = append(v.Measure, b)
	}
	return v
}

// asPlanned is a step of a run with what to do, to take and to expect as if nothing had been typed in
// it: what was taken in the steps before counts, what is typed here stands beside the plan. What is
// to be taken out of something follows what that was weighed to be.
func asPlanned(d *desk.Desk, st *procedure.Step) *procedure.Step {
	run := d.Started()
	if run == nil {
		return st
	}
	untyped, weighed := *d.Plan(), *d.Plan()
	typed, weighs := false, false
	for _, m := range st.Measure {
		in, ok := route.InputByKey(m.Field)
		if !ok {
			continue
		}
		was, is := in.Value(&run.Plan), in.Value(&untyped)
		if was != is && (quantity.Given(was) || quantity.Given(is)) && in.Set(&untyped, was) == nil {
			typed = true
			if in.Standing == route.Measured {
				weighs = true
			} else {
				_ = in.Set(&weighed, was) // as above
			}
		}
	}
	if !typed {
		return st
	}
	expect := stepOf(&untyped, st)
	take := expect
	if weighs {
		take = stepOf(&weighed, st)
	}
	of := *st
	of.Do, of.Take, of.OfOne, of.Equal, of.Measure = take.Do, take.Take, take.OfOne, take.Equal, slices.Clone(expect.Measure)
	for i, m := range expect.Measure { // what is taken is to be expected too
		if slices.ContainsFunc(expect.Take, func(a procedure.Amount) bool { return a.Value == m.Expect && a.Unit == m.Unit }) {
			of.Measure[i] = take.Measure[i]
		}
	}
	return &of
}

// stepOf is a step as it is in a plan; as it is where that has no such step.
func stepOf(p *route.Plan, st *procedure.Step) *procedure.Step {
	for _, then := range procedure.Steps(p, new(route.Runner).Run(p), nil) {
		if then.ID == st.ID && len(then.Measure) == len(st.Measure) {
			return &then
		}
	}
	return st
}

// farOff is the part of what was planned from which a different amount is spoken of (judgement).
const farOff = 0.2

// taken is what a run took of something to be measured; not ok where nothing was typed of it.
func taken(d *desk.Desk, m *procedure.Entry) (took float64, ok bool) {
	in, ok := route.InputByKey(m.Field)
	if !ok || d.Started() == nil || d.Problem(m.Field) != "" || in.Unit != m.Unit {
		return 0, false
	}
	took = in.Value(d.Plan())
	return took, quantity.Given(took)
}

// fromPlan tells whether the box of a field holds what the plan says, until something is typed.
func fromPlan(d *desk.Desk, key string) bool {
	in, ok := route.InputByKey(key)
	return ok && in.Standing != route.Measured && !(key == route.ShareKey && quantity.Given(d.Plan().CakeTaken))
}

// takes tells whether a field takes what is measured: one of the plan that is no measurement
// only while a run is under way, or the plan would be another one.
func takes(d *desk.Desk, key string) bool {
	in, ok := route.InputByKey(key)
	if !ok {
		_, _, ok = d.Find(key)
		return ok
	}
	return (in.Standing == route.Measured || d.Started() != nil) && !d.Locked(in)
}

// planned tells whether the plan goes by a measurement of a field: then it expects nothing else.
func planned(d *desk.Desk, key string) bool {
	in, ok := route.InputByKey(key)
	plan := d.Plan()
	if run := d.Started(); run != nil {
		plan = &run.Plan
	}
	return ok && in.Standing == route.Measured && quantity.Given(in.Value(plan))
}

// amounts are what is taken; where the vessel does not hold them, each beside that of one equal
// batch, which comes first.
func amounts(st *procedure.Step) (list doc.Amounts) {
	for i, a := range st.Take {
		made := doc.Amount{Name: a.Name}
		if st.Equal > 0 {
			made.Name += ", one of " + strconv.Itoa(st.Equal) + " equal batches"
			made.Beside = "all: " + a.Text()
			a = st.OfOne[i]
		}
		made.Number, made.Unit = route.PrintParts(a.Value, a.Unit)
		list = append(list, made)
	}
	return list
}

// View is the work at the bench, a step at a time, in the place of the page: to a
// screen reader too it is then the main part, and its title the first. It has nothing
// to type in but what is measured in the step, so that a stray touch changes no plan.
type View struct {
	app.Compo
	At      Step
	Gas     bool // its bubbles can be tapped in this step
	Gauge   bubbles.Gauge
	Taps    *counting.Taps
	Wrong   []doc.Node                 // the card of mishaps
	Spots   []doc.Node                 // the spot tests, in the step that begins with them
	PutOut  doc.Node                   // what is put out, in the step that says so; nil in any other
	Undo    []doc.Node                 // what takes the start of a run back, where that was made in this step
	open    map[string]bool            // the card, the spot tests and the pad, by their words
	shown   string                     // the ID of the step that the focus followed
	lengths map[string]quantity.Minute // of timers not started yet, where they were changed
	touched time.Time                  // when Next or Back was touched last
	lock    app.Value                  // of the screen, while it is kept awake
	awake   string                     // what is known of it, in words
	gone    bool
	closers []func()
}

// trembling is the time in which a second touch of Next is the same one.
const trembling = 300 * time.Millisecond

// OnMount begins to hear keys, and keeps the screen awake.
func (b *View) OnMount(ctx app.Context) {
	b.closers = []func(){
		app.Window().AddEventListener("keydown", b.onKey),
		browser.OnDocument("visibilitychange", func(app.Value) { b.stayAwake() }),
	}
	ctx.Handle(pressed, b.onPress)
	b.shown = b.At.ID
	browser.FocusStill(ctx, "bench.title")
	b.stayAwake()
}

// OnDismount lets the screen go dark again.
func (b *View) OnDismount() {
	b.gone = true
	for _, c := range b.closers {
		c()
	}
	b.letSleep()
}

// OnUpdate follows a step to another: the focus stays on the button that was
// pressed, and goes to the title otherwise. What is typed in a step is no other step.
func (b *View) OnUpdate(ctx app.Context) {
	if b.At.ID == b.shown {
		return
	}
	b.shown = b.At.ID
	active := app.Window().Get("document").Get("activeElement")
	if id := active.Get("id"); id.Truthy() && (id.String() == "bench.next" || id.String() == "bench.back") {
		return
	}
	browser.FocusStill(ctx, "bench.title")
}

// stayAwake asks the browser not to let the screen go dark. It lets go of that by
// itself when the page is hidden.
func (b *View) stayAwake() {
	defer func() {
		if recover() != nil {
			b.awake = mayDarken
		}
	}()
	if app.Window().Get("document").Get("hidden").Bool() {
		return
	}
	waker := app.Window().Get("navigator").Get("wakeLock")
	if !waker.Truthy() {
		b.awake = mayDarken
		return
	}
	browser.Then(waker.Call("request", "screen"), func(lock app.Value) {
		if b.letSleep(); b.gone {
			release(lock)
			return
		}
		b.lock, b.awake = lock, "The screen stays on."
		b.Update()
	}, func(app.Value) {
		b.awake = mayDarken
		if !b.gone {
			b.Update()
		}
	})
}

const mayDarken = "The screen may go dark: this browser does not let the page keep it on."

func (b *View) letSleep() {
	if b.lock != nil {
		release(b.lock)
		b.lock = nil
	}
}

func release(lock app.Value) {
	defer func() { _ = recover() }()
	browser.Then(lock.Call("release"), func(app.Value) {}, func(app.Value) {})
}

func (b *View) onKey(ctx app.Context, e app.Event) {
	for _, held := range []string{"ctrlKey", "altKey", "metaKey", "shiftKey"} {
		if e.Get(held).Bool() {
			return
		}
	}
	if app.Window().Get("document").Get("activeElement").Get("localName").String() == "input" && e.Get("key").String() != "Escape" {
		return // the caret is moved
	}
	var move Move
	switch e.Get("key").String() {
	case "ArrowRight":
		move.By = 1
	case "ArrowLeft":
		move.By = -1
	case "Escape":
		move.Leave = true
	default:
		return
	}
	e.PreventDefault()
	ctx.NewActionWithValue(Action, move)
}

// onPress does what a button of the view says.
func (b *View) onPress(ctx app.Context, a app.Action) {
	switch word, _ := a.Value.(string); word {
	case next:
		b.step(ctx, 1)
	case back:
		b.step(ctx, -1)
	case leave:
		ctx.NewActionWithValue(Action, Move{Leave: true})
	default:
		b.press(word)
	}
}

// step goes a step on or back, but not twice at one touch.
func (b *View) step(ctx app.Context, by int) {
	now := time.Now()
	if now.Sub(b.touched) < trembling {
		return
	}
	b.touched = now
	ctx.NewActionWithValue(Action, Move{By: by})
}

// press does what changes the view alone: it shows and puts away, and sets timers.
func (b *View) press(word string) {
	if place, ok := strings.CutPrefix(word, longer); ok {
		b.lengthen(place, 1)
	} else if place, ok := strings.CutPrefix(word, shorter); ok {
		b.lengthen(place, -1)
	} else {
		if b.open == nil {
			b.open = map[string]bool{}
		}
		b.open[word] = !b.open[word]
	}
}

// Render draws the step. What changes from step to step stands in boxes that stay, so that the
// library changes what is in them and the focus keeps its element.
func (b *View) Render() app.UI {
	e := app.Elem("div").Class("bench").Role("main").Aria("labelledby", "bench.title")
	if b.At.Of == 0 {
		return e.Body(
			app.Elem("h1").ID("bench.title").TabIndex(-1).Text("No cell is opened, so there is nothing to do."),
			doc.Draw(doc.Button{ID: "bench.leave", Text: "Leave the bench", Action: pressed, Value: leave})[0],
		)
	}
	body := append(doc.Draw(b.head()...), app.Elem("h1").ID("bench.title").TabIndex(-1).Text(b.At.Title))
	body = append(body, doc.Draw(doc.Div("bench-step", b.work()...))...)
	body = append(body, b.tapping())
	return e.Body(append(body, doc.Draw(b.foot()...)...)...)
}

// head is at which step one is, and the card of mishaps.
func (b *View) head() []doc.Node {
	return doc.Nodes{
		doc.Div("bench-head",
			doc.P("", doc.Strong(fmt.Sprintf("Step %d of %d", b.At.Place, b.At.Of)), doc.Text(" · "+b.At.Stage)),
			b.opener(mishaps, "bench.wrong", "bench.card", "", section.WrongTitle, section.WrongTitle),
			doc.Button{ID: "bench.leave", Text: "Leave the bench", Action: pressed, Value: leave},
		),
		b.opened(mishaps, "bench.card", b.Wrong),
	}
}

// opener is a button that shows something, and puts it away.
func (b *View) opener(word, id, opens, class, shows, puts string) doc.Button {
	if b.open[word] {
		shows = puts
	}
	return doc.Button{ID: id, Class: class, Text: shows, Action: pressed, Value: word, Opens: opens, Shown: b.open[word]}
}

// opened is what such a button shows, while it does.
func (b *View) opened(word, id string, of []doc.Node) doc.Node {
	if !b.open[word] {
		of = nil
	}
	return doc.Box{Class: "bench-card", ID: id, Of: of}
}

// work is what is done in the step, in its order: what must not happen stands first.
func (b *View) work() (list doc.Nodes) {
	v := &b.At
	add := func(class, lead, text string, sign bool) {
		if text == "" {
			return
		}
		p := doc.P(class, doc.Strong(lead+" "), doc.Text(text))
		if sign {
			p.Of = append(doc.Nodes{doc.Sign{}, doc.Text(" ")}, p.Of...)
		}
		list = append(list, p)
	}
	add("bench-stop", "Stop.", v.Stop, true)
	watch := "bench-watch"
	if v.Never {
		watch += " never"
	}
	list = append(list, doc.P(watch, doc.Strong(phrase.Capital(v.Watch)), doc.Text(" · "), doc.Span{Of: doc.Nodes{doc.Text(v.Time)}}))
	add("bench-stop", section.TooSmallWord+".", v.Full, true) // before the amounts: they must not be poured as they stand
	if v.Take != nil {
		list = append(list, doc.Div("bench-take", v.Take))
	}
	for _, do := range v.Do {
		list = append(list, doc.PText("", do))
	}
	if b.PutOut != nil {
		list = append(list, doc.Title{Level: 2, Of: doc.Nodes{doc.Text(section.ReadyTitle)}}, b.PutOut)
	}
	if b.Spots != nil {
		list = append(list, b.opener(spots, "bench.spots", "bench.tests", "bench-plain", "Show the spot tests", "Put the spot tests away"), b.opened(spots, "bench.tests", b.Spots))
	}
	add("note", "You should see:", v.See, false)
	add("note", "It misleads:", v.Misled, false)
	add("note", "It is over when:", v.End, false)
	return append(list, b.measure())
}

// measure is what is measured, with a field where one takes it.
func (b *View) measure() doc.Node {
	if len(b.At.Measure) == 0 {
		return nil
	}
	lines := doc.Box{Tag: "ul"}
	for _, m := range b.At.Measure {
		line := doc.Box{Tag: "li", Of: doc.Nodes{doc.Span{Of: doc.Nodes{doc.Text(m.Name)}}, doc.Strong(m.Expect)}}
		if m.Field != "" {
			line.Class = "typed"
			says := doc.Problem{Key: "bench." + m.Field, Says: m.Problem}
			control := doc.Control{ID: "bench.in." + m.Field, Key: m.Field, Double: true, Label: m.Name, Kind: "text", Mode: "decimal", Unit: m.Unit, Line: "open", Bad: m.Problem != ""}
			if control.Bad {
				control.Described = "problem." + says.Key
			}
			line.Of = append(line.Of, control, says)
		}
		for _, note := range [...]string{m.Off, m.Says} {
			if note != "" {
				line.Of = append(line.Of, doc.PText("note", note))
			}
		}
		lines.Of = append(lines.Of, line)
	}
	list := doc.Nodes{doc.Title{Level: 2, Of: doc.Nodes{doc.Text("Measure, and write down")}}, lines}
	if b.At.Waits != "" {
		list = append(list, doc.PText("soft", b.At.Waits))
	}
	if b.At.CanStart {
		list = append(list, doc.Button{ID: "bench.start", Class: "bench-plain", Text: "Start this run", Action: section.StartRun})
	}
	return doc.Div("bench-measure", append(list, b.Undo...)...)
}

// tapping is the pad for bubbles, where there are any. It opens at a touch: until then there
// is nothing to hit by accident.
func (b *View) tapping() app.UI {
	e := app.Elem("div").Class("bench-taps")
	if !b.Gas {
		return e
	}
	body := doc.Draw(b.opener(pad, "bench.taps", "bench.pad", "bench-plain", "Count the bubbles by tapping", "Put the pad away"))
	shown := app.Elem("div").ID("bench.pad")
	if b.open[pad] {
		shown = shown.Body(&bubbles.Pad{Taps: b.Taps, Gauge: b.Gauge, Bench: true})
	}
	return e.Body(append(body, shown)...)
}

// foot is the timers that the step may want, and the way on.
func (b *View) foot() []doc.Node {
	v := &b.At
	timers := doc.Div("bench-counts")
	for i, c := range v.Countdowns {
		place, long := strconv.Itoa(i), b.length(&c)
		timers.Of = append(timers.Of, doc.Box{Class: "bench-count", Role: "group", Label: "Timer: " + c.Name, Of: doc.Nodes{
			doc.Span{Class: "what", Of: doc.Nodes{doc.Text("Timer: " + c.Name)}},
			doc.Button{Text: "−", Label: "Shorter", Action: pressed, Value: shorter + place},
			doc.Strong(timer.Words(long)),
			doc.Button{Text: "+", Label: "Longer", Action: pressed, Value: longer + place},
			doc.Button{Class: "do", Text: "Start", Action: timerbar.Start, Value: timerbar.Request{Step: v.ID, Name: c.Name, Length: long}.Text()},
		}})
	}
	on := doc.Button{ID: "bench.next", Text: "Next", Action: pressed, Value: next}
	if v.Place == v.Of {
		on.Text, on.Idle = "The last step", true
	}
	return doc.Nodes{
		timers,
		doc.PText("soft", b.awake),
		doc.Live{Class: "unseen", Of: doc.Nodes{doc.Text(b.spoken())}},
		doc.Div("bench-go", doc.Button{ID: "bench.back", Text: "Back", Action: pressed, Value: back, Idle: v.Place == 1}, on),
	}
}

// spoken is what a screen reader hears when the step changes.
func (b *View) spoken() string {
	v := &b.At
	text := fmt.Sprintf("Step %d of %d: %s.", v.Place, v.Of, v.Title)
	if v.Stop != "" {
		text += " Stop: " + v.Stop
	}
	if v.Full != "" {
		text += " " + section.TooSmallWord + ": " + v.Full
	}
	return text
}

// length is how long a timer of the step will run, as it was set.
func (b *View) length(c *procedure.Countdown) time.Duration {
	if m, ok := b.lengths[b.At.ID+"."+c.Name]; ok {
		return m.Duration()
	}
	return c.Minutes.Duration()
}

// lengthen makes a timer longer or shorter, by a step that suits its length.
func (b *View) lengthen(place string, sign float64) {
	i, err := strconv.Atoi(place)
	if err != nil || i >= len(b.At.Countdowns) {
		return
	}
	c := &b.At.Countdowns[i]
	m, step := b.length(c).Minutes(), 1.0
	for _, s := range []float64{5, 15, 60} { // from four of a step on
		if m > 4*s || sign > 0 && m == 4*s {
			step = s
		}
	}
	if b.lengths == nil {
		b.lengths = map[string]quantity.Minute{}
	}
	b.lengths[b.At.ID+"."+c.Name] = quantity.Minute(min(float64(procedure.Longest), max(1, m+sign*step)))
}
