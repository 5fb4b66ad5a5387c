package web

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/timer"
)

const (
	timerAction = "timer" // with a newTimer
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

// newTimer is what a step asks for.
type newTimer struct {
	Step, Name string
	Length     time.Duration
}

// timerBar lists the timers, on the page and in the bench view. It keeps them itself
// and draws itself alone, once a second while one runs. Each lies in the storage
// under a key of its own, so that two open pages do not write over each other.
type timerBar struct {
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

func (b *timerBar) OnMount(ctx app.Context) {
	b.unkept, b.rung = map[string]bool{}, map[string]time.Time{}
	ctx.Handle(timerAction, b.onNew)
	keys, _ := localShelf.Keys()
	for _, key := range keys {
		if strings.HasPrefix(key, timerPrefix) {
			text, _ := localShelf.Load(key)
			b.read(key, text)
		}
	}
	b.closers = []func(){
		app.Window().AddEventListener("storage", func(_ app.Context, e app.Event) {
			b.onStorage(e)
			ctx.Dispatch(b.tick) // the bar's own context: the window's would draw the page
		}),
		app.Window().AddEventListener("pagehide", func(app.Context, app.Event) { b.keepSeen() }),
		onDocument("visibilitychange", func(app.Value) {
			b.keepSeen()
			ctx.Dispatch(b.tick)
		}),
		onDocument("click", b.onClick),
	}
	b.tick(ctx)
}

func (b *timerBar) OnDismount() {
	for _, c := range b.closers {
		c()
	}
}

// onDocument hears an event of the document at once, before the browser forgets that
// a person caused it.
func onDocument(event string, do func(event app.Value)) (stop func()) {
	return on(app.Window().Get("document"), event, do)
}

// onWindow hears an event of the window at once: a page that is left runs nothing later.
func onWindow(event string, do func(event app.Value)) (stop func()) {
	return on(app.Window(), event, do)
}

func on(target app.Value, event string, do func(event app.Value)) (stop func()) {
	f := app.FuncOf(func(_ app.Value, args []app.Value) any {
		do(args[0])
		return nil
	})
	target.Call("addEventListener", event, f, true)
	return func() {
		target.Call("removeEventListener", event, f, true)
		f.Release()
	}
}

// onClick lets the page sound from now on: browsers allow it only at a touch.
func (b *timerBar) onClick(e app.Value) {
	target := e.Get("target")
	wanted := len(b.list) > 0
	if !wanted && target.Get("closest").Truthy() {
		wanted = target.Call("closest", "[data-chime]").Truthy()
	}
	if wanted {
		b.sound.allow()
	}
}

// read takes a timer out of the storage into the list.
func (b *timerBar) read(key, text string) {
	t, err := timer.Decode(text)
	switch {
	case errors.Is(err, timer.ErrVersion):
		b.told = "A timer was kept by another version of this page, which this one cannot read. It was left alone."
	case err != nil || timerPrefix+t.ID != key:
		_ = localShelf.Remove(key)
		b.told = "A kept timer was damaged and could not be read. Look at the clock: something may be due."
	default:
		b.put(t)
	}
}

// put takes a timer into the list, in the order in which they were made: no row moves
// away under a finger.
func (b *timerBar) put(t timer.Timer) {
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

func (b *timerBar) find(id string) int {
	return slices.IndexFunc(b.list, func(t timer.Timer) bool { return t.ID == id })
}

func (b *timerBar) keep(t *timer.Timer) {
	b.unkept[t.ID] = localShelf.Save(timerPrefix+t.ID, t.Encode()) != nil
}

// keepSeen writes down the latest moment that each timer has seen, so that a clock
// put back while the page is closed is noticed. What another page has stopped stays
// stopped.
func (b *timerBar) keepSeen() {
	for i := range b.list {
		if text, _ := localShelf.Load(timerPrefix + b.list[i].ID); text != "" {
			b.keep(&b.list[i])
		}
	}
}

// onStorage takes over what another page did to a timer.
func (b *timerBar) onStorage(e app.Event) {
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

func (b *timerBar) onNew(ctx app.Context, a app.Action) {
	want, ok := a.Value.(newTimer)
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
func (b *timerBar) name(name string) string {
	full := name
	for n := 2; slices.ContainsFunc(b.list, func(t timer.Timer) bool { return t.Name == full }); n++ {
		full = name + " (" + strconv.Itoa(n) + ")"
	}
	return full
}

// tick looks at the clock, and asks for the next look where something can change.
func (b *timerBar) tick(ctx app.Context) {
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
func (b *timerBar) ring(t *timer.Timer, now time.Time) bool {
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
func (b *timerBar) title(now time.Time) {
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

func (b *timerBar) drop(id string) {
	if i := b.find(id); i >= 0 {
		b.list = slices.Delete(b.list, i, i+1)
	}
	delete(b.unkept, id)
	delete(b.rung, id)
}

func (b *timerBar) onStop(id string) app.EventHandler {
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
		_ = localShelf.Remove(timerPrefix + id)
		b.drop(id)
		b.tick(ctx)
		b.focusLeft(ctx)
	}
}

// focusLeft puts the focus where a stopped timer's button was.
func (b *timerBar) focusLeft(ctx app.Context) {
	drawn(ctx, b, func() {
		document := app.Window().Get("document")
		for _, at := range []string{".timers button", "[id='bench.title']", "[id='bench.open']"} {
			if e := document.Call("querySelector", at); e.Truthy() && e.Get("offsetParent").Truthy() {
				e.Call("focus", map[string]any{"preventScroll": true})
				return
			}
		}
	})
}

func (b *timerBar) onPause(id string) app.EventHandler {
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

func (b *timerBar) onRegret(ctx app.Context, _ app.Event) {
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

func (b *timerBar) onHeard(app.Context, app.Event) { b.told = "" }

func (b *timerBar) Render() app.UI {
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

func timerNote(text string) app.UI { return app.Elem("p").Class("timer-note").Text(text) }

func (b *timerBar) row(t *timer.Timer, now time.Time) app.UI {
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
		body = append(body, app.Elem("button").Attr("type", "button").Aria("label", pause+": "+t.Name).Text(pause).OnClick(b.onPause(t.ID), t.ID))
	}
	body = append(body, app.Elem("button").Attr("type", "button").Aria("label", endTimer+" timer: "+t.Name).Text(endTimer).OnClick(b.onStop(t.ID), t.ID))
	return app.Elem("div").Class(class).Body(body...)
}
