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
	Take              []Amount
	OfOne             []Amount // taken for one of so many equal batches, where those fit
	Equal             int
	Do                []string
	See, Misled, End  string
	Measure           []Entry
	Planned           bool // no run is started: what is taken has no field yet
	Watch             string
	Never             bool // must not be left
	Time              string
	Countdowns        []procedure.Countdown
}

// Amount is what is taken.
type Amount struct{ Name, Number, Unit string }

// Entry is a place for what is measured: to be typed, where a field takes it.
type Entry struct {
	Name, Unit, Expect string
	Field, Problem     string // the key of the field, and what is wrong with it
	Off                string // that what was typed is far from what was planned
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
		Stop: st.Stop, Full: st.Full, Equal: st.Equal, Take: amounts(st.Take), OfOne: amounts(st.OfOne), Do: st.Do, See: st.See, Misled: st.Misled, End: st.End,
		Watch: st.Watch.String(), Never: st.Watch == procedure.NeverLeave,
		Planned: d.Started() == nil,
		Time:    "about " + timer.Words(st.Minutes.Duration()), Countdowns: procedure.Countdowns(d.Plan(), st),
	}
	if st.TimeSet {
		v.Time = timer.Words(st.Minutes.Duration()) + ", as you set it"
	}
	for _, m := range st.Measure {
		b := Entry{Name: m.Name, Unit: m.Unit}
		if takes(d, m.Field) {
			b.Field, b.Problem = m.Field, d.Problem(m.Field)
		}
		if quantity.Given(m.Expect) {
			b.Expect = "expect about " + route.Print(m.Expect, m.Unit)
			if took, ok := taken(d, &m); ok {
				number := route.Print(took, m.Unit)
				if b.Field == "" {
					b.Expect += "; taken " + number
				}
				if math.Abs(took-m.Expect) > farOff*math.Abs(m.Expect) {
					b.Off = number + " is more than a fifth off the " + route.Print(m.Expect, m.Unit) + " of the plan. What follows goes by what was taken."
				}
			}
		}
		v.Measure = append(v.Measure, b)
	}
	return v
}

// asPlanned is a step of a run with what to take and to expect as if nothing had been typed in
// it: what was taken in the steps before counts, what is typed here stands beside the plan.
func asPlanned(d *desk.Desk, st *procedure.Step) *procedure.Step {
	run := d.Started()
	if run == nil {
		return st
	}
	plan, typed := *d.Plan(), false
	for _, m := range st.Measure {
		in, ok := route.InputByKey(m.Field)
		if !ok {
			continue
		}
		was, is := in.Value(&run.Plan), in.Value(&plan)
		if was != is && (quantity.Given(was) || quantity.Given(is)) && in.Set(&plan, was) == nil {
			typed = true
		}
	}
	if !typed {
		return st
	}
	for _, then := range procedure.Steps(&plan, new(route.Runner).Run(&plan), nil) {
		if then.ID == st.ID && len(then.Measure) == len(st.Measure) {
			of := *st
			of.Take, of.OfOne, of.Equal, of.Measure = then.Take, then.OfOne, then.Equal, then.Measure
			return &of
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

func amounts(list []procedure.Amount) []Amount {
	var amounts []Amount
	for _, a := range list {
		number, unit := route.PrintParts(a.Value, a.Unit)
		amounts = append(amounts, Amount{a.Name, number, unit})
	}
	return amounts
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
	card    bool                       // that of mishaps is open
	spots   bool                       // the spot tests are
	shown   string                     // the ID of the step that the focus followed
	tapping bool                       // the pad is open
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

func (b *View) onGo(by int) app.EventHandler {
	return func(ctx app.Context, _ app.Event) {
		now := time.Now()
		if now.Sub(b.touched) < trembling {
			return
		}
		b.touched = now
		ctx.NewActionWithValue(Action, Move{By: by})
	}
}

func (b *View) onLeave(ctx app.Context, _ app.Event) {
	ctx.NewActionWithValue(Action, Move{Leave: true})
}

// Render draws the step.
func (b *View) Render() app.UI {
	v := b.At
	leave := browser.Button().ID("bench.leave").Text("Leave the bench view").OnClick(b.onLeave)
	if v.Of == 0 {
		return app.Elem("div").Class("bench").Role("main").Aria("labelledby", "bench.title").Body(
			app.Elem("h1").ID("bench.title").TabIndex(-1).Text("No cell is opened, so there is nothing to do."),
			leave,
		)
	}
	body := []app.UI{
		app.Elem("div").Class("bench-head").Body(
			app.Elem("p").Body(app.Elem("b").Text(fmt.Sprintf("Step %d of %d", v.Place, v.Of)), app.Text(" · "+v.Stage)),
			browser.Button().ID("bench.wrong").Aria("expanded", strconv.FormatBool(b.card)).Aria("controls", "bench.card").Text(section.WrongTitle).OnClick(b.onCard),
			leave,
		),
		app.Elem("div").ID("bench.card").Class("bench-card").Body(b.drawCard()...),
		app.Elem("h1").ID("bench.title").TabIndex(-1).Text(v.Title),
		benchStop(v.Stop),
		benchWatch(v),
		benchFull(v.Full),
		benchTake(v),
		app.Elem("div").Class("bench-do").Body(app.Range(v.Do).Slice(func(i int) app.UI { return app.Elem("p").Text(v.Do[i]) })),
		b.spotTests(),
		benchSee(v),
		benchMeasure(v),
		b.taps(),
		b.counts(),
		app.Elem("p").Class("soft").Text(b.awake),
		app.Elem("p").Class("unseen").Role("status").Text(b.spoken()),
		app.Elem("div").Class("bench-go").Body(
			browser.Button().ID("bench.back").Aria("disabled", strconv.FormatBool(v.Place == 1)).Text("Back").OnClick(b.onGo(-1)),
			browser.Button().ID("bench.next").Aria("disabled", strconv.FormatBool(v.Place == v.Of)).Text(b.nextWord()).OnClick(b.onGo(1), 1),
		),
	}
	return app.Elem("div").Class("bench").Role("main").Aria("labelledby", "bench.title").Body(body...)
}

// drawCard is the card of mishaps, while it is open.
func (b *View) drawCard() []app.UI {
	if !b.card {
		return nil
	}
	return doc.Draw(b.Wrong...)
}

func (b *View) onCard(app.Context, app.Event) { b.card = !b.card }

// spotTests are the spot tests where the step begins with them, shown at a touch.
func (b *View) spotTests() app.UI {
	if b.Spots == nil {
		return app.Elem("div").Class("none")
	}
	word, open := "Show the spot tests", []doc.Node(nil)
	if b.spots {
		word, open = "Put the spot tests away", b.Spots
	}
	return app.Elem("div").Class("bench-taps").Body(
		browser.Button().ID("bench.spots").Class("bench-plain").Aria("expanded", strconv.FormatBool(b.spots)).Aria("controls", "bench.tests").Text(word).OnClick(b.onSpots),
		app.Elem("div").ID("bench.tests").Class("bench-card").Body(doc.Draw(open...)...),
	)
}

func (b *View) onSpots(app.Context, app.Event) { b.spots = !b.spots }

func (b *View) nextWord() string {
	if b.At.Place == b.At.Of {
		return "The last step"
	}
	return "Next"
}

// spoken is what a screen reader hears when the step changes.
func (b *View) spoken() string {
	v := b.At
	text := fmt.Sprintf("Step %d of %d: %s.", v.Place, v.Of, v.Title)
	if v.Stop != "" {
		text += " Stop: " + v.Stop
	}
	if v.Full != "" {
		text += " " + section.TooSmallWord + ": " + v.Full
	}
	return text
}

func benchStop(text string) app.UI {
	return app.Elem("p").Class(hiddenWithout("bench-stop", text)).Body(
		app.Elem("span").Aria("hidden", "true").Text("▲ "), app.Elem("b").Text("Stop. "), app.Text(text),
	)
}

// hiddenWithout keeps a part in its place, out of sight where it has no text: the
// library then changes texts between steps, not elements.
func hiddenWithout(class, text string) string {
	if text == "" {
		return class + " none"
	}
	return class
}

func benchWatch(v Step) app.UI {
	class := "bench-watch"
	if v.Never {
		class += " never"
	}
	return app.Elem("p").Class(class).Body(app.Elem("b").Text(strings.ToUpper(v.Watch[:1])+v.Watch[1:]), app.Elem("span").Text(" · "+v.Time))
}

// benchFull stands before the amounts: they must not be poured as they stand.
func benchFull(text string) app.UI {
	return app.Elem("p").Class(hiddenWithout("bench-stop", text)).Body(
		app.Elem("span").Aria("hidden", "true").Text("▲ "), app.Elem("b").Text(section.TooSmallWord+". "), app.Text(text),
	)
}

// benchTake are the amounts; where the vessel does not hold them, each beside that of one
// equal batch, which comes first.
func benchTake(v Step) app.UI {
	return app.Elem("dl").Class("bench-take").Body(app.Range(v.Take).Slice(func(i int) app.UI {
		a := v.Take[i]
		if v.Equal == 0 {
			return benchDose(a.Name, a, "")
		}
		return benchDose(a.Name+", one of "+strconv.Itoa(v.Equal)+" equal batches", v.OfOne[i], "all: "+a.Number+doc.Unit(a.Unit))
	}))
}

func benchDose(name string, a Amount, beside string) app.UI {
	return app.Elem("div").Body(
		app.Elem("dt").Text(name),
		app.Elem("dd").Body(app.Elem("span").Class("num").Text(a.Number), app.Elem("small").Text(doc.Unit(a.Unit)), app.Elem("small").Class("beside").Text(beside)),
	)
}

func benchSee(v Step) app.UI {
	line := func(word, text string) app.UI {
		return app.Elem("p").Class(hiddenWithout("note", text)).Body(app.Elem("b").Text(word+" "), app.Text(text))
	}
	return app.Elem("div").Class("bench-see").Body(line("You should see:", v.See), line("It misleads:", v.Misled), line("It is over when:", v.End))
}

func benchMeasure(v Step) app.UI {
	list := v.Measure
	waits := ""
	if v.Planned && slices.ContainsFunc(list, func(m Entry) bool { return m.Field == "" }) {
		waits = "What is taken can be typed here once “Start this run” at “" + section.Plan.Name() + "” has fixed the plan."
	}
	if len(list) == 0 {
		return app.Elem("div").Class("bench-measure none")
	}
	return app.Elem("div").Class("bench-measure").Body(
		app.Elem("h2").Text("Measure, and write down"),
		app.Elem("ul").Body(app.Range(list).Slice(func(i int) app.UI {
			m := list[i]
			far := app.Elem("p").Class(hiddenWithout("note", m.Off)).Text(m.Off)
			if m.Field == "" {
				return app.Elem("li").Body(app.Elem("span").Text(m.Name), app.Elem("b").Text(m.Expect), far)
			}
			control := doc.Control{Key: m.Field, Double: true, Label: m.Name, Kind: "text", Mode: "decimal", Bad: m.Problem != ""}
			says := doc.Problem{Key: "bench." + m.Field, Says: m.Problem}
			if control.Bad {
				control.Described = "problem." + says.Key
			}
			line := []app.UI{app.Elem("span").Text(m.Name), app.Elem("b").Text(m.Expect), app.Elem("span").Class("in open").Body(append(doc.Draw(control), app.Elem("span").Text(m.Unit))...)}
			return app.Elem("li").Class("typed").Body(append(append(line, doc.Draw(says)...), far)...)
		})),
		app.Elem("p").Class(hiddenWithout("soft", waits)).Text(waits),
	)
}

// taps is the pad for bubbles, where there are any. It opens at a touch: until then there
// is nothing to hit by accident.
func (b *View) taps() app.UI {
	if !b.Gas {
		return app.Elem("div").Class("none")
	}
	word := "Count the bubbles by tapping"
	if b.tapping {
		word = "Put the pad away"
	}
	body := []app.UI{browser.Button().ID("bench.taps").Class("bench-plain").Aria("expanded", strconv.FormatBool(b.tapping)).Text(word).OnClick(b.onTaps)}
	if b.tapping {
		body = append(body, &bubbles.Pad{Taps: b.Taps, Gauge: b.Gauge, Bench: true})
	}
	return app.Elem("div").Class("bench-taps").Body(body...)
}

func (b *View) onTaps(app.Context, app.Event) { b.tapping = !b.tapping }

// counts are the timers that the step may want.
func (b *View) counts() app.UI {
	list := b.At.Countdowns
	return app.Elem("div").Class("bench-counts").Body(app.Range(list).Slice(func(i int) app.UI {
		c := list[i]
		c.Minutes = b.length(c)
		id := b.At.ID + "." + c.Name
		return app.Elem("div").Class("bench-count").Role("group").Aria("label", "Timer: "+c.Name).Body(
			app.Elem("span").Class("what").Text("Timer: "+c.Name),
			browser.Button().Aria("label", "Shorter").Text("−").OnClick(b.onLength(c, -1), id, float64(c.Minutes)),
			app.Elem("b").Class("num").Text(timer.Words(c.Minutes.Duration())),
			browser.Button().Aria("label", "Longer").Text("+").OnClick(b.onLength(c, 1), id, float64(c.Minutes)),
			browser.Button().DataSet("chime", "").Class("do").Text("Start").OnClick(b.onCount(c), id, float64(c.Minutes)),
		)
	}))
}

func (b *View) length(c procedure.Countdown) quantity.Minute {
	if m, ok := b.lengths[b.At.ID+"."+c.Name]; ok {
		return m
	}
	return c.Minutes
}

// onLength makes a timer longer or shorter, by a step that suits its length.
func (b *View) onLength(c procedure.Countdown, sign float64) app.EventHandler {
	key := b.At.ID + "." + c.Name
	return func(app.Context, app.Event) {
		m, step := float64(c.Minutes), 1.0
		for _, s := range []float64{5, 15, 60} { // from four of a step on
			if m > 4*s || sign > 0 && m == 4*s {
				step = s
			}
		}
		if b.lengths == nil {
			b.lengths = map[string]quantity.Minute{}
		}
		b.lengths[key] = quantity.Minute(min(float64(procedure.Longest), max(1, m+sign*step)))
	}
}

func (b *View) onCount(c procedure.Countdown) app.EventHandler {
	step := b.At.ID
	return func(ctx app.Context, _ app.Event) {
		ctx.NewActionWithValue(timerbar.Start, timerbar.Request{Step: step, Name: c.Name, Length: c.Minutes.Duration()})
	}
}
