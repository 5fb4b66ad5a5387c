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

// OnMount begins to hear files that are dropped, and keys.
func (h *hearing) OnMount(ctx app.Context) {
	h.Ear.shown = ctx
	inside := func(e app.Value) bool {
		target := e.Get("target")
		return target.Get("closest").Truthy() && target.Call("closest", ".hear").Truthy()
	}
	h.closers = []func(){
		browser.OnDocument("dragover", func(e app.Value) {
			if inside(e) {
				e.Call("preventDefault")
			}
		}),
		browser.OnDocument("drop", func(e app.Value) {
			if !inside(e) || e.Get("target").Get("id").String() == hearFile { // the field takes its own
				return
			}
			e.Call("preventDefault")
			if files := e.Get("dataTransfer").Get("files"); files.Length() > 0 {
				file := files.Index(0)
				ctx.Dispatch(func(app.Context) { h.Ear.begin(file, h.line()) })
			}
		}),
		browser.OnDocument("keydown", func(e app.Value) {
			if active := app.Window().Get("document").Get("activeElement"); !active.Truthy() || active.Get("id").String() != hearPicture || modified(e) {
				return
			}
			if do := h.keyed(e.Get("key").String()); do != nil {
				e.Call("preventDefault")
				ctx.Dispatch(do)
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

func (h *hearing) onFile(ctx app.Context, _ app.Event) {
	files := ctx.JSSrc().Get("files")
	if files.Length() == 0 {
		return
	}
	file := files.Index(0)
	h.Ear.begin(file, h.line())
	ctx.JSSrc().Set("value", "") // the same file may be chosen again
}

func (h *hearing) onCancel(app.Context, app.Event) { h.Ear.cancel() }

// keyed is what a key does to the picture; nil where it does nothing.
func (h *hearing) keyed(key string) func(app.Context) {
	e := h.Ear
	look := func(v counting.View) func(app.Context) { return func(app.Context) { e.view = v } }
	fine := e.view.Width() / 100
	switch key {
	case "ArrowLeft":
		return look(e.view.At(e.view.Mark - fine))
	case "ArrowRight":
		return look(e.view.At(e.view.Mark + fine))
	case "ArrowDown", "n":
		return func(app.Context) { e.next(false) }
	case "ArrowUp", "p":
		return func(app.Context) { e.next(true) }
	case "PageUp":
		return look(e.view.Move(-0.8))
	case "PageDown":
		return look(e.view.Move(0.8))
	case "Home":
		return look(e.view.At(0))
	case "End":
		return look(e.view.At(e.view.Length))
	case "+", "=":
		return look(e.view.Zoom(0.5))
	case "-":
		return look(e.view.Zoom(2))
	case "Delete", "Backspace":
		return func(app.Context) { e.takeAway() }
	case "Insert", "Enter":
		return func(app.Context) { e.add() }
	case " ":
		return e.play
	}
	return nil
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

// onTouch puts the mark where the picture was touched; near a bubble, on it.
func (h *hearing) onTouch(_ app.Context, e app.Event) {
	target := e.Get("target")
	if !target.Get("closest").Truthy() {
		return
	}
	drawing := target.Call("closest", "svg")
	if !drawing.Truthy() {
		return
	}
	box := drawing.Call("getBoundingClientRect")
	width := box.Get("width").Float()
	if !(width > 0) {
		return
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
	x := e.Get("clientX").Float()
	at := value(x)
	if i, ok := h.Ear.result.Nearest(at, value(x+near)-at); ok {
		at = h.Ear.result.Bubbles[i].At
	}
	h.Ear.view = h.Ear.view.At(at)
	h.Ear.said = ""
}

// Render draws it.
func (h *hearing) Render() app.UI {
	e := h.Ear
	e.reckon(h.line())
	input := app.ElemSelfClosing("input").Attr("type", "file").ID(hearFile).Attr("accept", "audio/*,.mp3,.wav,.m4a,.ogg,.opus,.webm,.flac").Aria("describedby", "hear.why").OnChange(h.onFile)
	class := "row hear-file"
	if e.trouble != "" {
		class += " bad"
		input = input.Aria("invalid", "true")
	}
	body := []app.UI{
		app.Elem("div").Class(class).Body(
			app.Elem("label").Attr("for", hearFile).Text("A recording"),
			app.Elem("div").Class("in").Body(input),
			app.Elem("p").Class("why").ID("hear.why").Text("MP3 or WAV of any length; or what else this browser plays, up to half an hour. Choose it, or drop it here. It stays in this page: nothing is sent, and nothing is kept but what you hand over."),
			app.If(e.trouble != "", app.Elem("p").Class("problem").ID("problem."+hearFile).Text(e.trouble)),
		),
		fields(h.Fields),
	}
	switch e.phase {
	case earWorking:
		body = append(body, app.Elem("div").Class("hear-work").Body( // no live region: it changes all the time, and hear.said tells the end
			app.Elem("progress").Attr("max", "1").Attr("value", strconv.FormatFloat(e.share, 'f', 3, 64)).Aria("label", "Counting"),
			app.Elem("p").Text(fmt.Sprintf("Counting “%s”: %d %% read, %s heard, %s.", route.Clip(e.name, 60), int(100*e.share), clockShort(e.progress.Heard), route.Count(float64(e.progress.Bubbles), "bubble"))),
			browser.Button().Class("do").ID("hear.cancel").Text("Cancel").OnClick(h.onCancel),
		))
	case earDone:
		body = append(body, h.told()...)
	}
	return app.Elem("div").Class("hear").Body(append(body, app.Elem("p").Class("soft").ID("hear.said").Role("status").Text(e.said))...)
}

// told is what was heard, the pictures, and what mends them.
func (h *hearing) told() []app.UI {
	e, g := h.Ear, h.Gauge
	r := &e.result
	var parts []app.UI
	line := func(class, text string) {
		if text != "" {
			parts = append(parts, app.Elem("p").Class(class).Text(text))
		}
	}
	parts = append(parts, app.Elem("h3").Text("Heard in “"+route.Clip(e.name, 60)+"”, "+clockShort(r.Length)))
	line("note mind", r.Trouble)
	volume, way := h.volume()
	l := h.line()
	open := func(b sound.Band) sound.Band { return b }
	if r.LeastOnly() {
		open = func(b sound.Band) sound.Band { return sound.Band{Low: b.Low, Best: b.Best, High: math.Inf(1)} }
	}
	if r.Trouble == "" {
		list := []doc.Figure{
			bandFigure("hear.count", "Bubbles", "", open(r.Count.Whole())),
			bandFigure("hear.rate", "Bubbles a minute, on the mean", "", open(r.Rate.Times(60))),
		}
		if r.Sizes.Volume.Best > 0 && !r.Uneven() {
			list = append(list, bandFigure("hear.size", "A bubble by its pitch; eight in ten lie between", "mL", r.Sizes.Volume))
		}
		if gas, err := l.Amount(volume); err == nil && way != "" && !g.Touching {
			list = append(list, bandFigure("hear.gas", "Gas led in, "+way, "mmol", open(gas)))
		}
		parts = append(parts, app.Elem("dl").Class("gasfigures").Body(app.Range(list).Slice(func(i int) app.UI { return doc.Draw(list[i])[0] })))
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
	if r.Trouble == "" && g.Touching {
		line("lede soft", "The gas: "+touches)
	}
	if r.Trouble == "" && !g.Touching && !r.LeastOnly() {
		if made, err := gaslog.Made(l, volume); err == nil && way != "" {
			parts = append(parts, handGas("use.hear", made, "from "+route.Print(math.Round(r.Count.Best), "")+" bubbles heard in the recording, "+way, g))
		}
		if rows := h.rows(); len(rows) > 0 {
			label := "Write its pace into the log, " + strconv.Itoa(len(rows)) + " rows"
			if len(rows) == 1 {
				label = "Write its pace into the log, one row"
			}
			parts = append(parts, browser.Button().Class("plain").ID("hear.log").Text(label).OnClick(func(ctx app.Context, _ app.Event) {
				ctx.NewActionWithValue(Action, Rows{Rows: h.rows()})
				e.said = "Written into the log."
			}, label))
		}
	}
	switch {
	case r.Length > 0 && (r.Trouble == "" || e.mends):
		parts = append(parts, h.mending()...)
	case r.Length > 0: // an empty picture with all bubbles to be placed by hand is no help at first
		parts = append(parts, browser.Button().Class("plain").ID("hear.byhand").Text("Look and count by hand").OnClick(func(app.Context, app.Event) {
			e.mends = true
		}))
	}
	return parts
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
func (h *hearing) mending() []app.UI {
	h.draw()
	e := h.Ear
	do := func(id, label string, act func(app.Context), off bool) app.UI {
		return browser.Button().ID("hear."+id).Aria("disabled", strconv.FormatBool(off)).Text(label).OnClick(func(ctx app.Context, _ app.Event) {
			if !off {
				act(ctx)
			}
		}, label, off)
	}
	look := func(next func(counting.View) counting.View) func(app.Context) {
		return func(app.Context) { e.view = next(e.view) }
	}
	whole := e.view.Width() >= e.view.Length
	play := "Listen to this stretch"
	if e.audio != nil {
		play = "Stop listening"
	}
	chosen := e.view.Chosen(&e.result)
	at := "Mark at " + clockAt(e.view.Mark)
	if chosen >= 0 {
		at += ", on a bubble"
	}
	var gas app.UI = &chart.Figure{Picture: h.pictures[1]}
	if _, way := h.volume(); way == "" || h.Gauge.Touching || e.result.LeastOnly() {
		gas = nil
	}
	return []app.UI{
		app.Elem("h3").Text("Look, listen, and correct"),
		para("lede", "Touch the picture to put the mark there. With the keyboard: left and right move the mark, down and up go from bubble to bubble, + and − zoom, Enter adds a bubble, Delete takes one away, Space plays the stretch."),
		app.Elem("div").ID(hearPicture).Class("hear-picture").TabIndex(0).Role("group").Aria("label", "The sound, with its bubbles").OnClick(h.onTouch).Body(
			&chart.Figure{Picture: h.pictures[0]},
		),
		app.Elem("p").Class("num").ID("hear.mark").Text(at),
		app.Elem("div").Class("hear-tools").Role("group").Aria("label", "The stretch that is shown").Body(
			do("closer", "Closer", look(func(v counting.View) counting.View { return v.Zoom(0.4) }), e.view.Width() <= counting.Shortest),
			do("wider", "Wider", look(func(v counting.View) counting.View { return v.Zoom(2.5) }), whole),
			do("whole", "All of it", look(func(v counting.View) counting.View { return v.Zoom(math.Inf(1)) }), whole),
			do("earlier", "Earlier", look(func(v counting.View) counting.View { return v.Move(-0.8) }), e.view.From <= 0),
			do("later", "Later", look(func(v counting.View) counting.View { return v.Move(0.8) }), e.view.Until >= e.view.Length),
			do("play", play, e.play, e.view.From >= e.kept.Length()),
		),
		app.Elem("div").Class("hear-tools").Role("group").Aria("label", "Correct the count").Body(
			do("next", "Next bubble", func(app.Context) { e.next(false) }, false),
			do("back", "Bubble before", func(app.Context) { e.next(true) }, false),
			do("away", "Take this bubble away", func(app.Context) { e.takeAway() }, chosen < 0),
			do("add", "Add a bubble here", func(app.Context) { e.add() }, false),
			do("undo", "Undo the last correction", func(app.Context) { e.unmend(false) }, len(e.mended) == 0),
			do("undoall", "Take all corrections back", func(app.Context) { e.unmend(true) }, len(e.mended) == 0),
		),
		gas,
	}
}
