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
	ctx.Handle(t.id("pad"), t.onPress)
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

// The words of the pad's buttons, beside the number of bubbles that a tap stands for.
const (
	undo    = "undo"
	pause   = "pause"
	over    = "over"
	anew    = "anew"
	intoLog = "log"
	intoBox = "box"
)

// onPress does what a button of the pad says.
func (t *Pad) onPress(ctx app.Context, a app.Action) {
	switch word, _ := a.Value.(string); word {
	case undo:
		if t.Taps.Undo(clock()) {
			t.said = "Taken back."
		}
	case pause:
		if !t.Taps.None() && !t.Taps.GasOver() {
			t.Taps.Pause()
			t.said = "Paused. The gas goes on: the time until the next tap is filled in at the pace before and after."
		}
	case over:
		if !t.Taps.None() && !t.Taps.GasOver() {
			t.Taps.End(clock())
			t.said = "The gas has stopped: what came until now is told below."
		}
	case anew:
		if !t.Taps.None() {
			t.Taps.Reset()
			t.written = 0
			t.said = "All taps are taken back. “Undo the last tap” brings them again."
		}
	case useGas:
		if _, still, err := t.tally(clock()); err == nil {
			if made, err := gaslog.Made(t.Gauge.Outlet, still.Volume); err == nil {
				ctx.NewActionWithValue(Action, Use{made, handedOver(t.id("use.tap"))})
			}
		}
	case intoBox:
		if s := t.Taps.Sessions(); t.Gauge.Box.Key != "" && len(s) > 0 {
			rate := whole(s[len(s)-1].Rate().Times(60).Best)
			ctx.NewActionWithValue(Action, Rows{[]field.Change{{Key: t.Gauge.Box.Key, Text: rate}}, t.Gauge.Box.ID})
			t.said = "Written into the box above."
		}
	case intoLog:
		if minute, rate, is := t.due(t.tapping(), t.Taps.Until(clock())); is {
			ctx.NewActionWithValue(Action, Rows{[]field.Change{{Key: gaslog.Key(minute, gaslog.Rate), Text: whole(rate)}}, t.id("tap.log.done")})
			t.written = minute
			t.said = "Written into the log at minute " + strconv.Itoa(minute) + "."
		}
	default:
		if n, err := strconv.Atoi(word); err == nil {
			t.Taps.SetPerPress(n)
		}
	}
	t.remember()
	t.tick(ctx)
}

// tapping is what was tapped, with what it is reckoned with.
func (t *Pad) tapping() sound.Tapping {
	return t.Taps.Tapping(t.Gauge.Outlet, t.Gauge.Bubble, t.Gauge.Before)
}

// tally is what came by now, and what is handed over, which stands still: until the last tap, or
// until the gas stopped.
func (t *Pad) tally(now sound.Second) (y, still sound.Tally, err error) {
	tapping := t.tapping()
	if y, err = tapping.At(t.Taps.Until(now)); err != nil {
		return y, still, err
	}
	at, ended := t.Taps.Ended()
	if !ended {
		at = t.Taps.Last()
	}
	still, err = tapping.At(at)
	return y, still, err
}

// whole is a pace to the nearest bubble.
func whole(rate float64) string { return strconv.FormatFloat(rate, 'f', 0, 64) }

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
	choices := doc.Box{Class: "tap-each", Role: "group", Label: "A tap stands for", Of: doc.Nodes{doc.Span{Of: doc.Nodes{doc.Text("A tap stands for")}}}}
	for _, n := range counting.PerPressChoices {
		number := strconv.Itoa(n)
		choices.Of = append(choices.Of, doc.Button{ID: t.id("tap." + number), Text: number, Action: t.id("pad"), Value: number, Choice: true, Shown: n == each})
	}
	tools := doc.Div("tap-tools")
	for _, b := range [...][3]string{{"tap.undo", "Undo the last tap", undo}, {"tap.pause", "Pause", pause}, {"tap.end", "The gas has stopped", over}, {"tap.over", "Start over", anew}} {
		tools.Of = append(tools.Of, doc.Button{ID: t.id(b[0]), Text: b[1], Action: t.id("pad"), Value: b[2]})
	}
	body := append(doc.Draw(choices, doc.Div("", t.proposed())), browser.Button().ID(t.id("tap")).Class("tap-pad").Body(
		app.Elem("b").Text("Tap at "+ordinals[each]+" bubble"),
		app.Elem("span").Text(t.state(now)),
	).OnClick(t.onTap))
	return app.Elem("div").Class("tap").Body(append(body, doc.Draw(tools, doc.Live{Class: "soft", Of: doc.Nodes{doc.Text(t.said)}}, doc.Div("", t.told(now)...))...)...)
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
func (t *Pad) told(now sound.Second) []doc.Node {
	sessions := t.Taps.Sessions()
	if len(sessions) == 0 {
		return nil
	}
	g := &t.Gauge
	last := sessions[len(sessions)-1]
	list := doc.Figures{bandFigure(t.id("tap.rate"), "Bubbles a minute", "", last.Rate().Times(60))}
	// The figures come first, and what is said of them.
	says := func(why string) []doc.Node {
		return doc.Nodes{doc.Div("gasfigures", list), doc.PText("lede soft", why), t.offerBox(last), t.offerRow(now)}
	}
	if g.Wanted != "" {
		return says("The gas: " + g.Wanted)
	}
	y, still, err := t.tally(now)
	if err != nil {
		return says(why(err))
	}
	list = append(list, bandFigure(t.id("tap.bubble"), "One bubble", "mL", g.Bubble))
	if !slices.ContainsFunc(sessions, sound.Session.LongEnough) {
		return says("Count ten bubbles or more, for half a minute or longer: then it says here how much gas that is.")
	}
	_, ended := t.Taps.Ended()
	list = append(list, bandFigure(t.id("tap.gas"), "Gas led in so far", "mmol", y.Gas))
	if g.Need > 0 {
		list = append(list, t.leftOf(y, ended, last.LongEnough())...)
	}
	made, err := gaslog.Made(g.Outlet, still.Volume)
	if err != nil {
		return says(why(err))
	}
	until := ", until the last tap"
	if ended {
		until = ", until the gas stopped"
	}
	var air doc.Node
	if y.Gas.Best < mostlyGas*made.Best {
		air = doc.PText("lede soft", "The air of flask and tube, "+route.Print(float64(g.Outlet.Displaced), "mL")+", comes out first and is no gas led in.")
	}
	hand := doc.Node(doc.PText("soft", "Once the run is started, the gas counted can be written to the account from here."))
	if g.Started || !t.Bench {
		hand = handGas(t.id("pad"), t.id("use.tap"), made, "from "+route.Print(float64(y.Counted), "")+" bubbles tapped"+until, g)
	}
	return doc.Nodes{doc.Div("gasfigures", list), air, t.offerBox(last), t.offerRow(now), hand}
}

// mostlyGas is the share of the gas made below which it is said why less was led in (judgement).
const mostlyGas = 0.9

// handTaps are the taps in a second that a hand keeps up for minutes (estimate).
const handTaps = 2

// proposed says for how many bubbles a tap may stand at the plan's pace; nil where one each will
// do, and from the first tap on.
func (t *Pad) proposed() doc.Node {
	pace := t.Gauge.PerSecond
	if !t.Taps.None() || pace <= handTaps {
		return nil
	}
	n := 0
	for _, n = range counting.PerPressChoices {
		if pace <= handTaps*float64(n) {
			break
		}
	}
	return doc.PText("soft", "At the plan's pace some "+route.Print(pace, "")+" bubbles come in a second: let a tap stand for "+strconv.Itoa(n)+".")
}

// offerBox offers to write the pace of the last session into the bench's box for it.
func (t *Pad) offerBox(last sound.Session) doc.Node {
	box, rate := &t.Gauge.Box, whole(last.Rate().Times(60).Best)
	switch {
	case box.Key == "" || !last.LongEnough():
		return nil
	case box.Text == rate:
		return doc.PText("soft", rate+" a minute stands in the box above.")
	}
	return doc.Button{Class: "do", ID: t.id("tap.box"), Text: "Write " + rate + " a minute into the box above", Action: t.id("pad"), Value: intoBox}
}

// leftOf is what is left of the demand: minutes at the last pace where that tells, and where
// the gas has stopped what is short.
func (t *Pad) leftOf(y sound.Tally, ended, telling bool) doc.Figures {
	key, need := t.id("tap.left"), t.Gauge.Need
	left := y.Left(need)
	switch {
	case left.Best == 0:
		return doc.Figures{{Key: key, Name: "Left until the demand is met", Value: "0", Number: "none", Range: "it is met: judge the end"}}
	case ended:
		short := sound.Band{Low: math.Max(0, need-y.Gas.High), Best: need - y.Gas.Best, High: need - y.Gas.Low}
		return doc.Figures{bandFigure(key, "The gas has stopped short of the demand by", "mmol", short)}
	case !telling:
		return nil
	}
	return doc.Figures{bandFigure(key, "Left until the demand is met", "min", left)}
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

// offerRow offers to write the pace into the row of the log that is due, once.
func (t *Pad) offerRow(now sound.Second) doc.Node {
	if t.Gauge.Touching {
		return nil
	}
	minute, rate, is := t.due(t.tapping(), t.Taps.Until(now))
	switch {
	case is:
		return doc.Button{Class: "plain", ID: t.id("tap.log"), Text: "Write " + whole(rate) + " a minute into the log at minute " + strconv.Itoa(minute), Action: t.id("pad"), Value: intoLog}
	case t.written > 0 && t.written == t.Gauge.Next-gaslog.Each:
		return doc.Para{Class: "lede soft", ID: t.id("tap.log.done"), Focus: true, Of: doc.Nodes{doc.Text("Minute " + strconv.Itoa(t.written) + " is in the log.")}}
	}
	return nil
}
