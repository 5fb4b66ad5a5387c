// Package timerbar is the list of the timers that run, on the page and in the view at the bench, and
// their chime.
//
// A Bar is put into the page once; a step starts a timer by an action:
//
//	ctx.NewActionWithValue(timerbar.Start, timerbar.Request{Step: "boil", Name: "Boil down", Length: 20 * time.Minute})
//
// What a timer is, and its arithmetic, is package timer's; here it is kept, shown and sounded. A
// timer is kept in the browser's storage by its end on the wall clock, so that it runs on while the
// page is shut or the machine asleep. One that is over chimes for three minutes, and shows until
// somebody ends it; one that was ended by mistake can be taken back for some seconds. Browsers allow
// sound only after a touch; where none would be heard, the bar says so.
package timerbar

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/browser"
	"rosesalt/web/doc"
	"rosesalt/web/timer"
)

const (
	Start       = "timer" // the action that starts one, with the text of a Request
	timerPrefix = "rosesalt.timer."
	mostTimers  = 12
	pageTitle   = "Rosesalt"

	// endTimer is the button's word, short for narrow windows: "Stop" is kept for what must
	// not happen.
	endTimer = "End"

	ringEach  = 10 * time.Second // between two chimes of a timer that is done
	ringFor   = 3 * time.Minute  // after that it only shows
	regretFor = 20 * time.Second // in which a stopped timer can be taken back
)

// Request is what a step asks for.
type Request struct {
	Step, Name string // a step's ID holds no space
	Length     time.Duration
}

// Text is the request as the value of a button.
func (r Request) Text() string { return r.Length.String() + " " + r.Step + " " + r.Name }

// request reads what Text wrote.
func request(text string) (r Request, ok bool) {
	length, rest, _ := strings.Cut(text, " ")
	r.Step, r.Name, ok = strings.Cut(rest, " ")
	long, err := time.ParseDuration(length)
	r.Length = long
	return r, ok && err == nil
}

// Bar lists the timers, on the page and in the bench view. It keeps them itself
// and draws itself alone, once a second while one runs. Each lies in the storage
// under a key of its own, so that two open pages do not write over each other.
type Bar struct {
	app.Compo
	list    []timer.Timer
	unkept  map[string]bool      // by id: will not survive a reload
	rung    map[string]time.Time // by id: when it was first seen done
	regret  *timer.Timer         // stopped a moment ago
	since   time.Time            // when
	told    string               // a trouble, in words
	said    string               // for screen readers, when one is done
	news    string               // the same, when one is started or stopped
	sound   chime
	round   int // of the last tick asked for
	next    time.Time
	closers []func()
}

// wallClock is now without its monotonic part, which stands still under a closed lid.
func wallClock() time.Time { return time.Now().Round(0) }

// OnMount takes up the timers that are kept.
func (b *Bar) OnMount(ctx app.Context) {
	b.unkept, b.rung = map[string]bool{}, map[string]time.Time{}
	ctx.Handle(Start, b.onNew)
	keys, _ := browser.Local.Keys()
	for _, key := range keys {
		if strings.HasPrefix(key, timerPrefix) {
			text, _ := browser.Local.Load(key)
			b.read(key, text)
		}
	}
	b.closers = []func(){
		app.Window().AddEventListener("storage", func(_ app.Context, e app.Event) {
			b.onStorage(e)
			ctx.Dispatch(b.tick) // the bar's own context: the window's would draw the page
		}),
		app.Window().AddEventListener("pagehide", func(app.Context, app.Event) { b.keepSeen() }),
		browser.OnDocument("visibilitychange", func(app.Value) {
			b.keepSeen()
			ctx.Dispatch(b.tick)
		}),
		browser.OnDocument("click", b.onClick),
	}
	b.tick(ctx)
}

// OnDismount stops hearing the page.
func (b *Bar) OnDismount() {
	for _, c := range b.closers {
		c()
	}
}

// onClick lets the page sound from now on: browsers allow it only at a touch.
func (b *Bar) onClick(e app.Value) {
	target := e.Get("target")
	wanted := len(b.list) > 0
	if !wanted && target.Get("closest").Truthy() {
		wanted = target.Call("closest", "[data-"+doc.ActionData+"="+Start+"]").Truthy()
	}
	if wanted {
		b.sound.allow()
	}
}

// read takes a timer out of the storage into the list.
func (b *Bar) read(key, text string) {
	t, err := timer.Decode(text)
	switch {
	case errors.Is(err, timer.ErrVersion):
		b.told = "A timer was kept by another version of this page, which this one cannot read. It was left alone."
	case err != nil || timerPrefix+t.ID != key:
		_ = browser.Local.Remove(key)
		b.told = "A kept timer was damaged and could not be read. Look at the clock: something may be due."
	default:
		b.put(t)
	}
}

// put takes a timer into the list, in the order in which they were made: no row moves
// away under a finger.
func (b *Bar) put(t timer.Timer) {
	if i := b.find(t.ID); i >= 0 {
		b.list[i] = t
		return
	}
	at := len(b.list)
	for at > 0 && startOf(b.list[at-1].ID) > startOf(t.ID) {
		at--
	}
	b.list = slices.Insert(b.list, at, t)
}

// startOf is the part of an identifier that says when it was made.
func startOf(id string) string { return id[strings.LastIndex(id, ".")+1:] }

func (b *Bar) find(id string) int {
	return slices.IndexFunc(b.list, func(t timer.Timer) bool { return t.ID == id })
}

func (b *Bar) keep(t *timer.Timer) {
	b.unkept[t.ID] = browser.Local.Save(timerPrefix+t.ID, t.Encode()) != nil
}

// keepSeen writes down the latest moment that each timer has seen, so that a clock
// put back while the page is closed is noticed. What another page has stopped stays
// stopped.
func (b *Bar) keepSeen() {
	for i := range b.list {
		if text, _ := browser.Local.Load(timerPrefix + b.list[i].ID); text != "" {
			b.keep(&b.list[i])
		}
	}
}

// onStorage takes over what another page did to a timer.
func (b *Bar) onStorage(e app.Event) {
	key := e.Get("key")
	if !key.Truthy() || !strings.HasPrefix(key.String(), timerPrefix) {
		return
	}
	if value := e.Get("newValue"); value.IsNull() {
		b.drop(strings.TrimPrefix(key.String(), timerPrefix))
	} else {
		b.read(key.String(), value.String())
	}
}

func (b *Bar) onNew(ctx app.Context, a app.Action) {
	text, _ := a.Value.(string)
	want, ok := request(text)
	if !ok {
		return
	}
	now := wallClock()
	if len(b.list) == mostTimers {
		b.told = "There are " + strconv.Itoa(mostTimers) + " timers already. End one first."
		return
	}
	id := want.Step + "." + strconv.FormatInt(now.UnixMilli(), 36)
	t, err := timer.Start(id, b.name(want.Name), want.Length, now)
	if err != nil {
		b.told = "A timer cannot be set to " + timer.Words(want.Length) + "."
		return
	}
	b.put(t)
	b.told, b.regret = "", nil
	b.news = "Timer started: " + t.Name + ", " + timer.Words(want.Length) + "."
	b.keep(&t)
	b.tick(ctx)
}

// name tells timers of the same thing apart.
func (b *Bar) name(name string) string {
	full := name
	for n := 2; slices.ContainsFunc(b.list, func(t timer.Timer) bool { return t.Name == full }); n++ {
		full = name + " (" + strconv.Itoa(n) + ")"
	}
	return full
}

// tick looks at the clock, and asks for the next look where something can change.
func (b *Bar) tick(ctx app.Context) {
	now := wallClock()
	wait, done := time.Duration(0), false
	for i := range b.list {
		t := &b.list[i]
		if t.Observe(now) > 0 {
			b.keep(t)
		}
		if t.Runs(now) && wait == 0 { // to the full second, when what is shown changes
			wait = t.Remaining(now)%time.Second + 5*time.Millisecond
		}
		if t.Done(now) {
			done = true
			if b.ring(t, now) {
				b.sound.ring()
			}
		}
	}
	if b.regret != nil && now.Sub(b.since) > regretFor {
		b.regret = nil
	}
	b.title(now)
	b.round++
	switch {
	case wait > 0:
	case b.regret != nil:
		wait = time.Second
	case done:
		wait = ringEach
	default:
		return
	}
	round := b.round
	ctx.After(wait, func(ctx app.Context) {
		if round == b.round {
			b.tick(ctx)
		}
	})
}

// ring tells whether a timer that is done sounds now.
func (b *Bar) ring(t *timer.Timer, now time.Time) bool {
	first, told := b.rung[t.ID]
	if !told {
		b.rung[t.ID], b.next = now, now.Add(ringEach)
		b.said = t.Name + ": the time is over."
		return true
	}
	if now.Sub(first) > ringFor || now.Before(b.next) {
		return false
	}
	b.next = now.Add(ringEach)
	return true
}

// title shows the soonest in the tab.
func (b *Bar) title(now time.Time) {
	text := pageTitle
	if i := timer.Soonest(b.list, now); i >= 0 {
		if t := &b.list[i]; t.Done(now) {
			text = "Over: " + t.Name + " · " + pageTitle
		} else {
			text = timer.Clock(t.Remaining(now)) + " " + t.Name + " · " + pageTitle
		}
	}
	if document := app.Window().Get("document"); document.Get("title").String() != text {
		document.Set("title", text)
	}
}

func (b *Bar) drop(id string) {
	if i := b.find(id); i >= 0 {
		b.list = slices.Delete(b.list, i, i+1)
	}
	delete(b.unkept, id)
	delete(b.rung, id)
}

func (b *Bar) onStop(id string) app.EventHandler {
	return func(ctx app.Context, _ app.Event) {
		i := b.find(id)
		if i < 0 {
			return
		}
		b.regret, b.said, b.news = nil, "", ""
		if t := b.list[i]; !t.Done(wallClock()) {
			b.regret, b.since = &t, wallClock()
			b.news = "Timer stopped: " + t.Name + "."
		}
		_ = browser.Local.Remove(timerPrefix + id)
		b.drop(id)
		b.tick(ctx)
		b.focusLeft(ctx)
	}
}

// focusLeft puts the focus where a stopped timer's button was.
func (b *Bar) focusLeft(ctx app.Context) {
	browser.AfterDraw(ctx, b, func() {
		document := app.Window().Get("document")
		for _, at := range []string{".timers button", "[id='bench.title']", "[id='bench.open']"} {
			if e := document.Call("querySelector", at); e.Truthy() && e.Get("offsetParent").Truthy() {
				e.Call("focus", map[string]any{"preventScroll": true})
				return
			}
		}
	})
}

func (b *Bar) onPause(id string) app.EventHandler {
	return func(ctx app.Context, _ app.Event) {
		i := b.find(id)
		if i < 0 {
			return
		}
		if t, now := &b.list[i], wallClock(); t.Paused() {
			t.Resume(now)
		} else {
			t.Pause(now)
		}
		b.keep(&b.list[i])
		b.tick(ctx)
	}
}

func (b *Bar) onRegret(ctx app.Context, _ app.Event) {
	if b.regret == nil {
		return
	}
	t := *b.regret
	b.regret = nil
	b.keep(&t)
	b.put(t)
	b.tick(ctx)
	b.focusLeft(ctx)
}

func (b *Bar) onHeard(app.Context, app.Event) { b.told = "" }

// Render draws the timers.
func (b *Bar) Render() app.UI {
	// They are there before they have anything to say, or it would not be heard.
	rows := []app.UI{app.Elem("p").Class("unseen").Role("alert").Text(b.said), app.Elem("p").Class("unseen").Role("status").Text(b.news)}
	if len(b.list) == 0 && b.told == "" && b.regret == nil {
		return app.Elem("div").Class("timers none").Body(rows...)
	}
	now := wallClock()
	unkept, silent, back := false, b.sound.silent(), time.Duration(0)
	var timers []app.UI
	for i := range b.list {
		timers = append(timers, b.row(&b.list[i], now))
		unkept = unkept || b.unkept[b.list[i].ID]
		back = max(back, b.list[i].PutBack())
	}
	if b.told != "" {
		rows = append(rows, app.Elem("div").Class("timer").Body(app.Elem("span").Class("what").Role("status").Text(b.told), button("Understood", b.onHeard)))
	}
	if back > 0 {
		rows = append(rows, timerNote("The clock of this machine was put back by "+timer.Words(back)+". The timers started before went on from where they stood, so they may be late: look at another clock."))
	}
	rows = append(rows, timers...)
	if b.regret != nil {
		rows = append(rows, app.Elem("div").Class("timer").Body(
			app.Elem("span").Class("what").Text("Ended: "+b.regret.Name), button("Let it run on", b.onRegret)))
	}
	if unkept {
		rows = append(rows, timerNote("This browser keeps nothing for this page: the timers run on here, but a reload or a closed window ends them."))
	}
	if len(b.list) > 0 && silent != "" {
		rows = append(rows, timerNote(silent))
	}
	return app.Elem("div").Class("timers").Role("region").Aria("label", "Timers").Body(rows...)
}

func button(label string, do app.EventHandler) app.UI {
	return browser.Button().Text(label).OnClick(do)
}

func timerNote(text string) app.UI { return app.Elem("p").Class("timer-note").Text(text) }

func (b *Bar) row(t *timer.Timer, now time.Time) app.UI {
	class, left, pause := "timer", timer.Clock(t.Remaining(now)), "Pause"
	switch {
	case t.Done(now):
		class, left = "timer over", "over"
		if over := t.Over(now); over >= time.Minute {
			left = "over for " + timer.Words(over)
		}
	case t.Paused():
		class, pause = "timer paused", "Go on"
	}
	body := []app.UI{
		app.Elem("span").Class("what").Text(t.Name),
		app.Elem("b").Class("num").Role("timer").Text(left),
	}
	if class != "timer over" {
		body = append(body, browser.Button().Aria("label", pause+": "+t.Name).Text(pause).OnClick(b.onPause(t.ID), t.ID))
	}
	body = append(body, browser.Button().Aria("label", endTimer+" timer: "+t.Name).Text(endTimer).OnClick(b.onStop(t.ID), t.ID))
	return app.Elem("div").Class(class).Body(body...)
}
