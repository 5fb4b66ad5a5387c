package bubbles

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/field"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
	"rosesalt/chem/sound"
	"rosesalt/web/browser"
	"rosesalt/web/chart"
	"rosesalt/web/counting"
	"rosesalt/web/doc"
	"rosesalt/web/picture"
)

const (
	hearFile    = "hear.file"
	hearPicture = "hear.picture"
)

// hearing shows a recording: the file, the progress, what was heard, and the picture in
// which it is mended.
type hearing struct {
	app.Compo
	Ear    *Ear
	Gauge  Gauge
	Fields []doc.Field

	pictures [2]chart.Picture
	drawn    drawnEar
	closers  []func()
}

// drawnEar is what the pictures were drawn from.
type drawnEar struct {
	run, bubbles, mended int
	view                 counting.View
	line                 sound.Outlet
	need                 float64
}

// line is where the gas comes out, as a recording has it: one that begins in the middle
// of the run has no air to come.
func (h *hearing) line() sound.Outlet {
	l := h.Gauge.Outlet
	if h.Gauge.Midway {
		l.Displaced = 0
	}
	return l
}

// heardPress is the action of the buttons beside a recording, with one of the words below or
// useGas, intoLog.
const heardPress = "hear.press"

// What can be done with a recording, by a button or by a key on its picture.
const (
	cancelCount  = "cancel"
	countByHand  = "byhand"
	lookCloser   = "closer"
	lookWider    = "wider"
	lookAtAll    = "whole"
	lookEarlier  = "earlier"
	lookLater    = "later"
	playStretch  = "play"
	nextBubble   = "next"
	bubbleBefore = "back"
	takeAway     = "away"
	addBubble    = "add"
	undoLast     = "undo"
	undoAll      = "undoall"
	markLeft     = "left"
	markRight    = "right"
	markFirst    = "first"
	markLast     = "last"
)

// byKey is what a key does to the picture.
var byKey = map[string]string{
	"ArrowLeft": markLeft, "ArrowRight": markRight, "ArrowDown": nextBubble, "n": nextBubble, "ArrowUp": bubbleBefore, "p": bubbleBefore, "PageUp": lookEarlier, "PageDown": lookLater, "Home": markFirst, "End": markLast,
	"+": lookCloser, "=": lookCloser, "-": lookWider, "Delete": takeAway, "Backspace": takeAway, "Insert": addBubble, "Enter": addBubble, " ": playStretch,
}

// OnMount begins to hear files that are chosen or dropped, keys, and touches of the picture.
func (h *hearing) OnMount(ctx app.Context) {
	h.Ear.shown = ctx
	ctx.Handle(heardPress, func(ctx app.Context, a app.Action) {
		word, _ := a.Value.(string)
		h.act(ctx, word)
	})
	closest := func(e app.Value, selector string) app.Value {
		if target := e.Get("target"); target.Get("closest").Truthy() {
			return target.Call("closest", selector)
		}
		return app.Null()
	}
	begin := func(files app.Value) {
		if files.Length() > 0 {
			file := files.Index(0)
			ctx.Dispatch(func(app.Context) { h.Ear.begin(file, h.line()) })
		}
	}
	isField := func(e app.Value) bool { return e.Get("target").Get("id").String() == hearFile }
	h.closers = []func(){
		browser.OnDocument("change", func(e app.Value) {
			if isField(e) {
				begin(e.Get("target").Get("files"))
				e.Get("target").Set("value", "") // the same file may be chosen again
			}
		}),
		browser.OnDocument("dragover", func(e app.Value) {
			if closest(e, ".hear").Truthy() {
				e.Call("preventDefault")
			}
		}),
		browser.OnDocument("drop", func(e app.Value) {
			if closest(e, ".hear").Truthy() && !isField(e) { // the field takes its own
				e.Call("preventDefault")
				begin(e.Get("dataTransfer").Get("files"))
			}
		}),
		browser.OnDocument("keydown", func(e app.Value) {
			if active := app.Window().Get("document").Get("activeElement"); !active.Truthy() || active.Get("id").String() != hearPicture || modified(e) {
				return
			}
			if word := byKey[e.Get("key").String()]; word != "" {
				e.Call("preventDefault")
				ctx.Dispatch(func(ctx app.Context) { h.act(ctx, word) })
			}
		}),
		browser.OnDocument("click", func(e app.Value) {
			if drawing := closest(e, ".hear-picture svg"); drawing.Truthy() {
				if at, ok := h.touched(drawing, e.Get("clientX").Float()); ok {
					ctx.Dispatch(func(app.Context) { h.Ear.view, h.Ear.said = h.Ear.view.At(at), "" })
				}
			}
		}),
	}
}

// OnDismount stops what plays.
func (h *hearing) OnDismount() {
	for _, c := range h.closers {
		c()
	}
	h.Ear.stop()
}

// act does what a word says.
func (h *hearing) act(ctx app.Context, word string) {
	e := h.Ear
	v := e.view
	fine := v.Width() / 100
	switch word {
	case cancelCount:
		e.cancel()
	case countByHand:
		e.mends = true
	case useGas:
		if volume, way := h.volume(); way != "" {
			if made, err := gaslog.Made(h.line(), volume); err == nil {
				ctx.NewActionWithValue(Action, Use{made, handedOver("use.hear")})
			}
		}
	case intoLog:
		ctx.NewActionWithValue(Action, Rows{Rows: h.rows()})
		e.said = "Written into the log."
	case markLeft:
		e.view = v.At(v.Mark - fine)
	case markRight:
		e.view = v.At(v.Mark + fine)
	case markFirst:
		e.view = v.At(0)
	case markLast:
		e.view = v.At(v.Length)
	case lookEarlier:
		e.view = v.Move(-0.8)
	case lookLater:
		e.view = v.Move(0.8)
	case lookCloser:
		e.view = v.Zoom(0.5)
	case lookWider:
		e.view = v.Zoom(2)
	case lookAtAll:
		e.view = v.Zoom(math.Inf(1))
	case nextBubble:
		e.next(false)
	case bubbleBefore:
		e.next(true)
	case takeAway:
		e.takeAway()
	case addBubble:
		e.add()
	case undoLast:
		e.unmend(false)
	case undoAll:
		e.unmend(true)
	case playStretch:
		e.play()
	}
}

// next puts the mark on the next bubble, or the one before.
func (e *Ear) next(back bool) {
	if at, ok := e.view.Next(&e.result, back); ok {
		e.view = e.view.At(at)
		e.said = "A bubble at " + clockAt(at) + "."
		return
	}
	e.said = "There is no further bubble."
}

func (e *Ear) takeAway() {
	i := e.view.Chosen(&e.result)
	if i < 0 {
		e.said = "No bubble is at the mark. Go to one with “Next bubble”, or touch it."
		return
	}
	at := e.result.Bubbles[i].At
	e.mend(e.result.Remove(i), "The bubble at "+clockAt(at)+" is taken away.")
}

// asOne is how near two moments are one: no tube lets go two bubbles within it (estimate).
const asOne sound.Second = 0.002

func (e *Ear) add() {
	if _, there := e.result.Nearest(e.view.Mark, asOne); there {
		e.said = "There is one already at " + clockAt(e.view.Mark) + "."
		return
	}
	e.mend(e.result.Add(e.view.Mark), "A bubble is added at "+clockAt(e.view.Mark)+".")
}

// clockAt is a moment of a recording as it is read: minutes, seconds and hundredths.
func clockAt(t sound.Second) string {
	hundredths := int(math.Round(float64(t) * 100))
	return fmt.Sprintf("%d:%05.2f", hundredths/6000, float64(hundredths%6000)/100)
}

func clockShort(t sound.Second) string {
	s := int(math.Round(float64(t)))
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// touched is the moment at which a drawing was touched, so many pixels from the window's edge;
// near a bubble, that of the bubble.
func (h *hearing) touched(drawing app.Value, x float64) (at sound.Second, ok bool) {
	box := drawing.Call("getBoundingClientRect")
	width := box.Get("width").Float()
	if !(width > 0) {
		return 0, false
	}
	pic := h.pictures[0]
	value := func(x float64) sound.Second {
		v := pic.ValueAt((x-box.Get("left").Float())/width, drawing.Call("getAttribute", "data-part").String() == "wide")
		if pic.X.Unit == "min" {
			v *= 60
		}
		return sound.Second(v)
	}
	const near = 12 // pixels, about a finger's half
	at = value(x)
	if i, ok := h.Ear.result.Nearest(at, value(x+near)-at); ok {
		at = h.Ear.result.Bubbles[i].At
	}
	return at, true
}

// Render draws it.
func (h *hearing) Render() app.UI {
	e := h.Ear
	e.reckon(h.line())
	class := "row hear-file"
	if e.trouble != "" {
		class += " bad"
	}
	list := doc.Nodes{
		doc.Div(class,
			doc.Label{For: hearFile, Text: "A recording"},
			doc.Div("in", doc.Control{ID: hearFile, Kind: "file", Accept: "audio/*,.mp3,.wav,.m4a,.ogg,.opus,.webm,.flac", Described: "hear.why", Bad: e.trouble != ""}),
			doc.Para{Class: "why", ID: "hear.why", Of: doc.Nodes{doc.Text("MP3 or WAV of any length; or what else this browser plays, up to half an hour. Choose it, or drop it here. It stays in this page: nothing is sent, and nothing is kept but what you hand over.")}},
			doc.Problem{Key: hearFile, Says: e.trouble},
		),
		doc.Fields(h.Fields),
	}
	switch e.phase {
	case earWorking:
		list = append(list, doc.Div("hear-work", // no live region: it changes all the time, and hear.said tells the end
			doc.Progress{Label: "Counting", Share: e.share},
			doc.PText("", fmt.Sprintf("Counting “%s”: %d %% read, %s heard, %s.", route.Clip(e.name, 60), int(100*e.share), clockShort(e.progress.Heard), route.Count(float64(e.progress.Bubbles), "bubble"))),
			doc.Button{Class: "do", ID: "hear.cancel", Text: "Cancel", Action: heardPress, Value: cancelCount},
		))
	case earDone:
		list = append(list, h.told()...)
	}
	list = append(list, doc.Live{Class: "soft", ID: "hear.said", Of: doc.Nodes{doc.Text(e.said)}})
	return app.Elem("div").Class("hear").Body(doc.Draw(list...)...)
}

// told is what was heard, the pictures, and what mends them.
func (h *hearing) told() []doc.Node {
	e, g := h.Ear, &h.Gauge
	r := &e.result
	list := doc.Nodes{doc.Heading("Heard in “" + route.Clip(e.name, 60) + "”, " + clockShort(r.Length))}
	line := func(class, text string) {
		if text != "" {
			list = append(list, doc.PText(class, text))
		}
	}
	line("note mind", r.Trouble)
	counted := r.Trouble == ""
	volume, way := h.volume()
	l := h.line()
	open := func(b sound.Band) sound.Band { return b }
	if r.LeastOnly() {
		open = func(b sound.Band) sound.Band { return sound.Band{Low: b.Low, Best: b.Best, High: math.Inf(1)} }
	}
	if counted {
		figures := doc.Figures{
			bandFigure("hear.count", "Bubbles", "", open(r.Count.Whole())),
			bandFigure("hear.rate", "Bubbles a minute, on the mean", "", open(r.Rate.Times(60))),
		}
		if r.Sizes.Volume.Best > 0 && !r.Uneven() {
			figures = append(figures, bandFigure("hear.size", "A bubble by its pitch; eight in ten lie between", "mL", r.Sizes.Volume))
		}
		if gas, err := l.Amount(volume); err == nil && way != "" && !g.Touching {
			figures = append(figures, bandFigure("hear.gas", "Gas led in, "+way, "mmol", open(gas)))
		}
		list = append(list, doc.Div("gasfigures", figures))
		line("says-days", h.met())
		if r.LeastOnly() {
			line("note mind", "So many bubbles are lost that this is only the least there were: nothing is handed over from it. Put the microphone nearer, away from wind and burner and not overdriven, and record again, or tap.")
		} else {
			line("lede", trusted(r))
		}
	}
	for _, n := range r.Notices {
		line("note tip", n)
	}
	if e.damaged > 0 {
		line("note tip", "The file is broken in "+route.Count(float64(e.damaged), "place")+". What is broken was skipped.")
	}
	if counted && g.Touching {
		line("lede soft", "The gas: "+touches)
	}
	if counted && !g.Touching && !r.LeastOnly() {
		if made, err := gaslog.Made(l, volume); err == nil && way != "" {
			list = append(list, handGas(heardPress, "use.hear", made, "from "+route.Print(math.Round(r.Count.Best), "")+" bubbles heard in the recording, "+way, g))
		}
		if n := len(h.rows()); n > 0 {
			rows := strconv.Itoa(n) + " rows"
			if n == 1 {
				rows = "one row"
			}
			list = append(list, doc.Button{Class: "plain", ID: "hear.log", Text: "Write its pace into the log, " + rows, Action: heardPress, Value: intoLog})
		}
	}
	switch {
	case r.Length > 0 && (counted || e.mends):
		list = append(list, h.mending()...)
	case r.Length > 0: // an empty picture with all bubbles to be placed by hand is no help at first
		list = append(list, doc.Button{Class: "plain", ID: "hear.byhand", Text: "Look and count by hand", Action: heardPress, Value: countByHand})
	}
	return list
}

// volume is the gas in the bubbles in mL, air and all, by the surer of two ways: each
// bubble's pitch, or their number times one that was measured. The way is empty where
// neither tells it.
func (h *hearing) volume() (sound.Band, string) {
	r := &h.Ear.result
	if h.Gauge.Caught && h.Gauge.Wanted == "" {
		return r.Count.By(h.Gauge.Bubble), "by their number and the bubble that was caught"
	}
	if r.Uneven() {
		return sound.Band{}, ""
	}
	return r.Volume, "by their pitch"
}

// met says when the demand is met in the recording.
func (h *hearing) met() string {
	if _, way := h.volume(); way == "" || !(h.Gauge.Need > 0) || h.Gauge.Midway || h.Gauge.Touching || h.Ear.result.LeastOnly() {
		return ""
	}
	minutes, ok := h.Ear.result.Met(h.Gauge.Need)
	if !ok {
		return "In this recording the demand of " + route.Print(h.Gauge.Need, "mmol") + " is not met yet."
	}
	return metWords(minutes, true)
}

// trusted says which parts of the recording the count rests on.
func trusted(r *sound.Result) string {
	var good, bad []string
	heard := sound.Second(0)
	for _, s := range r.Spans {
		text := clockShort(s.From) + "–" + clockShort(s.Until)
		if s.Why == "" {
			heard += s.Until - s.From
			good = append(good, text)
		} else {
			bad = append(bad, text+" ("+s.Why+")")
		}
	}
	switch {
	case len(r.Spans) == 0:
		return ""
	case len(bad) == 0:
		return "All of the recording is trusted."
	case len(good) == 0:
		return "No part of the recording is trusted."
	}
	const most = 6
	list := func(l []string) string {
		if len(l) > most {
			return strings.Join(l[:most], ", ") + " and " + strconv.Itoa(len(l)-most) + " more"
		}
		return strings.Join(l, ", ")
	}
	return "Trusted: " + list(good) + ", " + route.Print(100*float64(heard/r.Length), "%") + " of it. Not trusted, and filled in at the pace beside: " + list(bad) + "."
}

// rows are the paces of the recording as rows of the log; none where it does not begin
// with the gas, and none of a minute that is mostly not trusted.
func (h *hearing) rows() []field.Change {
	r := &h.Ear.result
	if h.Gauge.Midway {
		return nil
	}
	var list []field.Change
	for minute := gaslog.Each; minute <= gaslog.Longest && sound.Second(60*minute) <= r.Length; minute += gaslog.Each {
		n, until := 0, sound.Second(60*minute)
		if deaf(r.Spans, until-60, until) > 30 {
			continue
		}
		for _, b := range r.Bubbles {
			if b.At > until-60 && b.At <= until {
				n++
			}
		}
		list = append(list, field.Change{Key: gaslog.Key(minute, gaslog.Rate), Text: strconv.Itoa(n)})
	}
	return list
}

// deaf is how many seconds of a stretch are not trusted.
func deaf(spans []sound.Span, from, until sound.Second) (seconds sound.Second) {
	for _, s := range spans {
		if s.Why != "" {
			seconds += max(0, min(until, s.Until)-max(from, s.From))
		}
	}
	return seconds
}

// lookClose is the widest stretch that is drawn from the sound itself; wider ones are drawn
// from the counter's levels.
const lookClose sound.Second = 20

// columns of the picture, of equal width.
const columns = 280

// draw draws the pictures again where something of theirs has changed.
func (h *hearing) draw() {
	e := h.Ear
	now := drawnEar{e.run, len(e.result.Bubbles), len(e.mended), e.view, e.result.Settings.Outlet, h.Gauge.Need}
	if now == h.drawn {
		return
	}
	if was := h.drawn; was.run != now.run || was.bubbles != now.bubbles || was.mended != now.mended || was.line != now.line || was.need != now.need {
		h.pictures[1] = picture.GasHeard(&e.result, h.need())
	}
	s := picture.Stretch{From: e.view.From, Until: e.view.Until, Mark: e.view.Mark}
	if e.view.Width() <= lookClose && e.view.Until <= e.kept.Length()+1 {
		s.Loud = e.kept.Peaks(s.From, s.Until, columns)
	} else {
		s.Loud = levels(e.result.Levels, s.From, s.Until)
	}
	h.pictures[0] = picture.Loudness(&e.result, s)
	h.pictures[0].Title = clockAt(s.From) + " to " + clockAt(s.Until) + " of " + clockAt(e.result.Length) + ": " + phrase.Lower(h.pictures[0].Title)
	h.drawn = now
}

func (h *hearing) need() float64 {
	if h.Gauge.Need > 0 && !h.Gauge.Midway {
		return h.Gauge.Need
	}
	return math.NaN()
}

// levels are the counter's levels of a stretch in columns, the loudest of each.
func levels(all []sound.Level, from, until sound.Second) []sound.Decibel {
	list := make([]sound.Decibel, columns)
	for i := range list {
		list[i] = counting.Silence
	}
	for _, l := range all {
		if l.At < from || l.At >= until {
			continue
		}
		c := min(columns-1, int(float64((l.At-from)/(until-from))*columns))
		list[c] = max(list[c], l.BubbleBand)
	}
	for i := 1; i < columns; i++ { // fewer levels than columns leave gaps
		if list[i] == counting.Silence && len(all) > 0 {
			list[i] = list[i-1]
		}
	}
	return list
}

// mending is the picture of the sound with what moves it and mends the count.
func (h *hearing) mending() []doc.Node {
	h.draw()
	e := h.Ear
	v, none := e.view, len(e.mended) == 0
	tools := func(label string, list ...doc.Button) doc.Node {
		box := doc.Box{Class: "hear-tools", Role: "group", Label: label}
		for _, b := range list {
			b.ID, b.Action = "hear."+b.Value, heardPress
			box.Of = append(box.Of, b)
		}
		return box
	}
	whole := v.Width() >= v.Length
	listen := "Listen to this stretch"
	if e.audio != nil {
		listen = "Stop listening"
	}
	chosen := v.Chosen(&e.result)
	at := "Mark at " + clockAt(v.Mark)
	if chosen >= 0 {
		at += ", on a bubble"
	}
	list := doc.Nodes{
		doc.Heading("Look, listen, and correct"),
		doc.PText("lede", "Touch the picture to put the mark there. With the keyboard: left and right move the mark, down and up go from bubble to bubble, + and − zoom, Enter adds a bubble, Delete takes one away, Space plays the stretch."),
		doc.Box{Class: "hear-picture", ID: hearPicture, Stop: true, Role: "group", Label: "The sound, with its bubbles", Of: doc.Nodes{doc.Picture{Picture: h.pictures[0]}}},
		doc.Para{Class: "num", ID: "hear.mark", Of: doc.Nodes{doc.Text(at)}},
		tools("The stretch that is shown",
			doc.Button{Value: lookCloser, Text: "Closer", Idle: v.Width() <= counting.Shortest},
			doc.Button{Value: lookWider, Text: "Wider", Idle: whole},
			doc.Button{Value: lookAtAll, Text: "All of it", Idle: whole},
			doc.Button{Value: lookEarlier, Text: "Earlier", Idle: v.From <= 0},
			doc.Button{Value: lookLater, Text: "Later", Idle: v.Until >= v.Length},
			doc.Button{Value: playStretch, Text: listen, Idle: e.silent()},
		),
		tools("Correct the count",
			doc.Button{Value: nextBubble, Text: "Next bubble"},
			doc.Button{Value: bubbleBefore, Text: "Bubble before"},
			doc.Button{Value: takeAway, Text: "Take this bubble away", Idle: chosen < 0},
			doc.Button{Value: addBubble, Text: "Add a bubble here"},
			doc.Button{Value: undoLast, Text: "Undo the last correction", Idle: none},
			doc.Button{Value: undoAll, Text: "Take all corrections back", Idle: none},
		),
	}
	if _, way := h.volume(); way != "" && !h.Gauge.Touching && !e.result.LeastOnly() {
		list = append(list, doc.Picture{Picture: h.pictures[1]})
	}
	return list
}
