package bubbles

import (
	"encoding/json"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/field"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/route"
	"rosesalt/chem/sound"
	"rosesalt/web/browser"
	"rosesalt/web/counting"
	"rosesalt/web/doc"
)

// Pad counts bubbles by hand: a button to be hit with gloves on, and what follows. The
// section of the gas shows one, and the bench view while gas is made; they share the taps.
type Pad struct {
	app.Compo
	Taps  *counting.Taps
	Gauge Gauge
	Bench bool

	Presses int // as the page knew them last

	ticking bool
	said    string // for screen readers, where something begins or ends
	written int    // the row of the log that was written last from here
	closers []func()
}

// tapKey is the key that taps wherever the focus is, but in a field. It does so only
// while taps are counted, from the first one to a pause: a single letter that always did
// something would be set off by those who speak to their machine (WCAG 2.2, 2.1.4).
const tapKey = "b"

// OnMount begins to hear keys.
func (t *Pad) OnMount(ctx app.Context) {
	t.closers = []func(){browser.OnDocument("keydown", func(e app.Value) {
		if !strings.EqualFold(e.Get("key").String(), tapKey) || e.Get("repeat").Bool() || modified(e) || typing() || !t.shown() {
			return
		}
		at := sound.Second(e.Get("timeStamp").Float() / 1000)
		ctx.Dispatch(func(ctx app.Context) {
			if t.Taps.Counting(at) {
				t.tap(ctx, at)
			}
		})
	}), browser.OnDocument("keydown", func(e app.Value) {
		// A key held down is one bubble, not a stream of them.
		if e.Get("repeat").Bool() && e.Get("target").Get("id").String() == t.id("tap") {
			e.Call("preventDefault")
		}
	})}
	t.tick(ctx)
}

// OnUpdate goes on with the clock.
func (t *Pad) OnUpdate(ctx app.Context) { t.tick(ctx) }

// OnDismount stops hearing keys.
func (t *Pad) OnDismount() {
	for _, c := range t.closers {
		c()
	}
}

func (t *Pad) id(name string) string {
	if t.Bench {
		return "bench." + name
	}
	return name
}

// shown tells whether the pad is in sight: behind the bench view the section's is not, and
// one key must not tap on both.
func (t *Pad) shown() bool {
	e := app.Window().GetElementByID(t.id("tap"))
	return e.Truthy() && e.Get("offsetParent").Truthy()
}

// modified tells whether a key comes with another that makes a command of it.
func modified(e app.Value) bool {
	for _, held := range []string{"ctrlKey", "altKey", "metaKey"} {
		if e.Get(held).Bool() {
			return true
		}
	}
	return false
}

// typing tells whether the focus is in something that takes letters.
func typing() bool {
	active := app.Window().Get("document").Get("activeElement")
	if !active.Truthy() {
		return false
	}
	switch active.Get("localName").String() {
	case "input", "textarea", "select":
		return true
	}
	return false
}

// clock is the time since the page was opened, on which the browser stamps its events.
func clock() sound.Second {
	if app.IsServer {
		return 0
	}
	return sound.Second(browser.SinceOpened() / 1000)
}

func (t *Pad) onTap(ctx app.Context, e app.Event) {
	at := clock()
	if stamp := e.Get("timeStamp"); stamp.Truthy() {
		at = min(at, sound.Second(stamp.Float()/1000))
	}
	t.tap(ctx, at)
}

func (t *Pad) tap(ctx app.Context, at sound.Second) {
	if at < t.Taps.Last() {
		at = t.Taps.Last()
	}
	counts := t.Taps.Counting(at)
	t.Taps.Tap(at)
	if !counts {
		t.said = "Counting began with this bubble."
	}
	t.remember()
	t.tick(ctx)
}

// tick draws the pad again each second while there is something that moves.
func (t *Pad) tick(ctx app.Context) {
	if _, ended := t.Taps.Ended(); ended || t.ticking || t.Taps.None() {
		return
	}
	t.ticking = true
	ctx.After(time.Second, func(ctx app.Context) {
		t.ticking = false
		t.tick(ctx)
	})
}

func (t *Pad) onUndo(ctx app.Context, _ app.Event) {
	if t.Taps.Undo(clock()) {
		t.said = "Taken back."
		t.remember()
		t.tick(ctx)
	}
}

func (t *Pad) onPause(app.Context, app.Event) {
	if !t.Taps.None() && !t.Taps.GasOver() {
		t.Taps.Pause()
		t.remember()
		t.said = "Paused. The gas goes on: the time until the next tap is filled in at the pace before and after."
	}
}

func (t *Pad) onEnd(app.Context, app.Event) {
	if !t.Taps.None() && !t.Taps.GasOver() {
		t.Taps.End(clock())
		t.remember()
		t.said = "The gas has stopped: what came until now is told below."
	}
}

func (t *Pad) onReset(app.Context, app.Event) {
	if t.Taps.None() {
		return
	}
	t.Taps.Reset()
	t.remember()
	t.written = 0
	t.said = "All taps are taken back. “Undo the last tap” brings them again."
}

func (t *Pad) onEach(n int) app.EventHandler {
	return func(app.Context, app.Event) {
		t.Taps.SetPerPress(n)
		t.remember()
	}
}

// TapsKey is the key of the taps in the tab's storage.
const TapsKey = "rosesalt.taps"

// pageOpened is the time of the world's clock at which the page was opened.
func pageOpened() sound.Second {
	return sound.Second(app.Window().Get("performance").Get("timeOrigin").Float() / 1000)
}

// remember keeps the taps until the tab is closed: a telephone throws away a page that is
// out of sight, and with it an hour of counting.
func (t *Pad) remember() {
	if t.Taps.Empty() {
		_ = browser.Tab.Remove(TapsKey) // refused: nothing was kept either
		return
	}
	browser.KeepInTab(TapsKey, json.RawMessage(t.Taps.Write(pageOpened(), clock())))
}

// RecallTaps are those of before a reload; none where nothing can be read.
func RecallTaps() (taps counting.Taps) {
	var kept json.RawMessage
	if browser.RecallFromTab(TapsKey, &kept) {
		taps, _ = counting.Read(kept, pageOpened())
	}
	return taps
}

var ordinals = map[int]string{1: "each", 5: "every fifth", 10: "every tenth"}

// Render draws the pad.
func (t *Pad) Render() app.UI {
	now := clock()
	each := t.Taps.PerPress()
	return app.Elem("div").Class("tap").Body(
		app.Elem("div").Class("tap-each").Role("group").Aria("label", "A tap stands for").Body(
			app.Elem("span").Text("A tap stands for"),
			app.Range(counting.PerPressChoices[:]).Slice(func(i int) app.UI {
				n := counting.PerPressChoices[i]
				return browser.Button().ID(t.id("tap."+strconv.Itoa(n))).Aria("pressed", strconv.FormatBool(n == each)).Text(strconv.Itoa(n)).OnClick(t.onEach(n), n)
			}),
		),
		browser.Button().ID(t.id("tap")).Class("tap-pad").Body(
			app.Elem("b").Text("Tap at "+ordinals[each]+" bubble"),
			app.Elem("span").Text(t.state(now)),
		).OnClick(t.onTap),
		app.Elem("div").Class("tap-tools").Body(
			browser.Button().ID(t.id("tap.undo")).Text("Undo the last tap").OnClick(t.onUndo),
			browser.Button().ID(t.id("tap.pause")).Text("Pause").OnClick(t.onPause),
			browser.Button().ID(t.id("tap.end")).Text("The gas has stopped").OnClick(t.onEnd),
			browser.Button().ID(t.id("tap.over")).Text("Start over").OnClick(t.onReset),
		),
		app.Elem("p").Class("soft").Role("status").Text(t.said),
		t.told(now),
	)
}

// state is how the counting stands, in the button.
func (t *Pad) state(now sound.Second) string {
	_, ended := t.Taps.Ended()
	switch {
	case t.Taps.GasOver():
		return "What was tapped before is told below. The next tap begins anew; after Undo it goes on."
	case ended:
		return "The gas has stopped. One more tap, and it goes on."
	case t.Taps.None():
		return "The first tap starts the clock. From then until a pause the key B taps too."
	case !t.Taps.Counting(now):
		return "Not counting. The next tap starts the clock again."
	}
	sessions := t.Taps.Sessions()
	if len(sessions) == 0 || sessions[len(sessions)-1].Until < t.Taps.Last() {
		return "The clock runs: tap at the next."
	}
	s := sessions[len(sessions)-1]
	text := bubblesOf(s.Bubbles()) + " in " + route.Print(math.Round(float64(s.Until-s.From)), "s")
	if s.Until-s.From < 1 {
		text = bubblesOf(s.Bubbles())
	}
	if s.Until-s.From < 60 {
		text += ", go on for a minute"
	}
	return text
}

func bubblesOf(n int) string {
	if n == 1 {
		return "1 bubble"
	}
	return route.Print(float64(n), "") + " bubbles"
}

// told is what the taps tell.
func (t *Pad) told(now sound.Second) app.UI {
	sessions := t.Taps.Sessions()
	if len(sessions) == 0 {
		return app.Elem("div")
	}
	g := t.Gauge
	last := sessions[len(sessions)-1]
	list := []doc.Figure{bandFigure(t.id("tap.rate"), "Bubbles a minute", "", last.Rate().Times(60))}
	body := func(more ...app.UI) app.UI {
		return app.Elem("div").Body(append([]app.UI{
			app.Elem("dl").Class("gasfigures").Body(app.Range(list).Slice(func(i int) app.UI { return doc.Draw(list[i])[0] })),
		}, more...)...)
	}
	says := func(text string) app.UI { return para("lede soft", text) }
	tapping := t.Taps.Tapping(g.Outlet, g.Bubble, g.Before)
	log := t.intoLog(tapping, t.Taps.Until(now))
	if g.Wanted != "" {
		return body(says("The gas: "+g.Wanted), log)
	}
	// What is handed over stands still: until the last tap, or until the gas stopped.
	at, ended := t.Taps.Ended()
	until := ", until the gas stopped"
	if !ended {
		at, until = t.Taps.Last(), ", until the last tap"
	}
	y, err := tapping.At(t.Taps.Until(now))
	if err != nil {
		return body(says(why(err)), log)
	}
	still, err := tapping.At(at)
	if err != nil {
		return body(says(why(err)), log)
	}
	list = append(list, bandFigure(t.id("tap.bubble"), "One bubble", "mL", g.Bubble))
	if !slices.ContainsFunc(sessions, sound.Session.LongEnough) {
		return body(says("How much gas that is, ten bubbles in half a minute or more tell."), log)
	}
	list = append(list, bandFigure(t.id("tap.gas"), "Gas led in so far", "mmol", y.Gas))
	if g.Need > 0 {
		list = append(list, t.leftOf(y, ended, last.LongEnough())...)
	}
	made, err := gaslog.Made(g.Outlet, still.Volume)
	if err != nil {
		return body(says(why(err)), log)
	}
	return body(log, handGas(t.id("use.tap"), made, "from "+route.Print(float64(y.Counted), "")+" bubbles tapped"+until, g))
}

// leftOf is what is left of the demand: minutes at the last pace where that tells, and where
// the gas has stopped what is short.
func (t *Pad) leftOf(y sound.Tally, ended, telling bool) []doc.Figure {
	key, need := t.id("tap.left"), t.Gauge.Need
	left := y.Left(need)
	switch {
	case left.Best == 0:
		return []doc.Figure{{Key: key, Name: "Left until the demand is met", Value: "0", Number: "none", Range: "it is met: judge the end"}}
	case ended:
		short := sound.Band{Low: math.Max(0, need-y.Gas.High), Best: need - y.Gas.Best, High: need - y.Gas.Low}
		return []doc.Figure{bandFigure(key, "The gas has stopped short of the demand by", "mmol", short)}
	case !telling:
		return nil
	}
	return []doc.Figure{bandFigure(key, "Left until the demand is met", "min", left)}
}

// due is the row of the log whose time has come, and the pace for it: of the last session,
// where that counted since the row before and did not begin more than a minute late.
func (t *Pad) due(tapping sound.Tapping, now sound.Second) (minute int, rate float64, is bool) {
	minute = min(gaslog.Longest, gaslog.Each*int(float64(now-tapping.Began)/60/gaslog.Each))
	if _, ended := t.Taps.Ended(); ended || minute < t.Gauge.Next {
		return minute, 0, false
	}
	row := tapping.Began + sound.Second(60*minute)
	s := since(tapping.Sessions[len(tapping.Sessions)-1], row-60*gaslog.Each)
	return minute, s.Rate().Times(60).Best, s.LongEnough() && s.From <= row+60
}

// since is what of a session came after a moment, from the last tap before it on.
func since(s sound.Session, moment sound.Second) sound.Session {
	for len(s.Taps) > 0 && s.From < moment && s.Taps[0].At <= moment {
		s.From, s.Taps = s.Taps[0].At, s.Taps[1:]
	}
	return s
}

// intoLog offers to write the pace into the row of the log that is due, once.
func (t *Pad) intoLog(tapping sound.Tapping, now sound.Second) app.UI {
	if t.Gauge.Touching {
		return nil
	}
	minute, rate, is := t.due(tapping, now)
	if !is {
		if t.written > 0 && t.written == t.Gauge.Next-gaslog.Each {
			return app.Elem("p").Class("lede soft").ID(t.id("tap.log.done")).TabIndex(-1).Text("Minute " + strconv.Itoa(t.written) + " is in the log.")
		}
		return nil
	}
	text := strconv.FormatFloat(rate, 'f', 0, 64)
	label := "Write " + text + " a minute into the log at minute " + strconv.Itoa(minute)
	return browser.Button().Class("plain").ID(t.id("tap.log")).Text(label).OnClick(func(ctx app.Context, _ app.Event) {
		ctx.NewActionWithValue(Action, Rows{[]field.Change{{Key: gaslog.Key(minute, gaslog.Rate), Text: text}}, t.id("tap.log.done")})
		t.written = minute
		t.said = "Written into the log at minute " + strconv.Itoa(minute) + "."
	}, label)
}
