package bubbles

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/field"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/sound"
	"rosesalt/chem/sound/soundtest"
	"rosesalt/web/counting"
	"rosesalt/web/desk"
	"rosesalt/web/doc/doctest"
)

func html(t *testing.T, ui app.UI) string {
	t.Helper()
	var b bytes.Buffer
	app.PrintHTML(&b, ui)
	return b.String()
}

// unfoldedGas is the section with all its parts open.
func unfoldedGas(d *desk.Desk, taps *counting.Taps, e *Ear) *Section {
	return &Section{View: ViewOf(d), Taps: taps, Ear: e, said: map[string]bool{foldAll: true, foldTap: true, foldHear: true, foldLog: true}}
}

func TestGasSectionOfOddPlans(t *testing.T) {
	for _, fragment := range []string{
		"", "gas.source=metabisulfite", "gas.source=peroxide", "cell.rejects=6", "slurry.celsius=90", "gas.acid=1", "batch.share=0.1",
		"log.5.rate=530&log.10.celsius=8&log.15.paper=fades", "log.bubble=bore", "log.bubble=bore&log.bore=6", "log.where=touching", "log.where=bottle&log.5.rate=0",
	} {
		d := desk.New(fragment)
		var taps counting.Taps
		for i := range 40 {
			taps.Tap(sound.Second(i))
		}
		text := html(t, unfoldedGas(d, &taps, &Ear{}))
		assert.NotContains(t, text, "NaN", fragment)
		assert.NotContains(t, text, "Inf", fragment)
		if !route.Gaseous(d.Plan()) {
			assert.Contains(t, text, "leads no gas in")
		}
	}
}

// TestTheLogSaysWhatItCountsInBatches: it is held against the demand of all of them.
func TestTheLogSaysWhatItCountsInBatches(t *testing.T) {
	assert.NotContains(t, ViewOf(desk.New("v=1")).Outlook.Says, "batches")
	assert.Contains(t, ViewOf(desk.New("v=1&batch.runs=2")).Outlook.Says, "of all batches together")
}

func TestTooWarmASlurryIsTold(t *testing.T) {
	d := desk.New("")
	in, ok := route.InputByKey("slurry.temperature")
	require.True(t, ok)
	d.Edit(in.Key, "80")
	assert.Empty(t, ViewOf(d).Gauge.Wanted, "the bubble is the plan's")
	assert.Contains(t, ViewOf(d).LogWhy, "(liquid 80 °C is outside 0 to 40). Count where it is cooler")
	d.Edit(gaslog.KeyWay, "bore")
	d.Edit(gaslog.KeyBore, "6")
	assert.Contains(t, ViewOf(d).Gauge.Wanted, "cooler")
	d.Edit(gaslog.KeyWhere, "bottle")
	assert.Empty(t, ViewOf(d).Gauge.Wanted, "the bottle stands at the bench")
}

func TestTheNextRowComesWhenTheLastIsFilled(t *testing.T) {
	d := desk.New("")
	assert.Len(t, ViewOf(d).Rows, 3)
	d.Edit(gaslog.Key(15, gaslog.Celsius), "9")
	assert.Len(t, ViewOf(d).Rows, 4)
	d.Edit(gaslog.Key(5, gaslog.Rate), "480")
	assert.Equal(t, 10, ViewOf(d).Gauge.Next)
	d.Edit(gaslog.Key(40, gaslog.Rate), "many")
	v := ViewOf(d)
	assert.Contains(t, doctest.Text(v.log()...), "Bubbles a minute at minute 40: “many” cannot be read", "a row with something wrong stays in sight")
}

func TestWordsOfTheDemand(t *testing.T) {
	assert.Equal(t, "", metWords(sound.Band{Low: math.NaN(), Best: quantity.Blank, High: math.NaN()}, false))
	assert.Equal(t, "The demand was met at about minute 14 (12–17).", metWords(sound.Band{Low: 12.2, Best: 14.1, High: 16.8}, true))
	assert.Equal(t, "At this pace the demand is met at about minute 70 (60 at the earliest).", metWords(sound.Band{Low: 60, Best: 70, High: math.Inf(1)}, false))
	assert.Equal(t, "At this pace the demand is never met.", metWords(sound.Band{Low: 60, Best: math.Inf(1), High: math.Inf(1)}, false))
	assert.Equal(t, "on time", aheadWords(-0.4))
	assert.Equal(t, "3\u202fmin behind", aheadWords(-3.2))
	assert.Equal(t, "12\u202fmin ahead", aheadWords(12))
	assert.Empty(t, aheadWords(quantity.Blank))
}

func TestFilesAreRefusedAtOnce(t *testing.T) {
	assert.Empty(t, refuse("run.mp3", "audio/mpeg", 1e7))
	assert.Empty(t, refuse("run.mp4", "video/mp4", 1e7), "may be sound alone: it is looked into")
	assert.Empty(t, refuse("run.webm", "video/webm", 1e7), "may be sound alone: it is looked into")
	assert.Contains(t, refuse("run.mp3", "audio/mpeg", 0), "empty")
	assert.Contains(t, refuse("run.wav", "audio/wav", 2.1e9), "2.1 GB")
	assert.Contains(t, refuse("run.mov", "video/quicktime", 1e7), "video")
	assert.Contains(t, refuse("run.mkv", "", 1e7), "video")
}

func TestMomentsOfARecording(t *testing.T) {
	assert.Equal(t, "0:00.00", clockAt(0))
	assert.Equal(t, "1:00.00", clockAt(59.999))
	assert.Equal(t, "12:05.07", clockAt(725.07))
	assert.Equal(t, "1:00", clockShort(59.7))
	r := &sound.Result{Length: 100, Spans: []sound.Span{{From: 0, Until: 80}, {From: 80, Until: 100, Why: "wind"}}}
	assert.Equal(t, "Trusted: 0:00–1:20, 80\u202f% of it. Not trusted, and filled in at the pace beside: 1:20–1:40 (wind).", trusted(r))
	r.Spans = r.Spans[:1]
	assert.Equal(t, "All of the recording is trusted.", trusted(r))
}

// heardEar is a recording that was counted: a bubble each second.
func heardEar() *Ear {
	r := sound.Result{Settings: sound.UsualSettings(sound.UsualOutlet()), Length: 620}
	var list []sound.Bubble
	for i := range 600 {
		list = append(list, sound.Bubble{At: sound.Second(i) + 0.5, Pitch: 900, Loudness: -20, Sure: 1})
	}
	e := &Ear{name: "run.mp3", phase: earDone, result: r.With(list), kept: counting.Keep(11025), view: counting.Whole(620)}
	e.counted = e.result.Bubbles
	return e
}

func TestWhatWasHeardIsShownAndMended(t *testing.T) {
	d := desk.New("")
	e := heardEar()
	h := &hearing{Ear: e, Gauge: GaugeOf(d)}
	text := html(t, h)
	assert.NotContains(t, text, "NaN")
	assert.Contains(t, text, "from 600 bubbles heard in the recording, by their pitch")
	assert.Equal(t, []field.Change{{Key: gaslog.Key(5, gaslog.Rate), Text: "60"}, {Key: gaslog.Key(10, gaslog.Rate), Text: "60"}}, h.rows())

	e.result.Spans = []sound.Span{{From: 0, Until: 250}, {From: 250, Until: 295, Why: "wind"}, {From: 295, Until: 620}}
	assert.Equal(t, []field.Change{{Key: gaslog.Key(10, gaslog.Rate), Text: "60"}}, h.rows(), "a minute of wind is no row")
	e.result.Spans = nil

	// Nearer, on a bubble, and away with it.
	for range 5 {
		h.act(nil, byKey["+"])
	}
	e.next(false)
	was := len(e.result.Bubbles)
	h.act(nil, byKey["Delete"])
	assert.Len(t, e.result.Bubbles, was-1)
	h.act(nil, byKey["Enter"])
	assert.Len(t, e.result.Bubbles, was)
	h.act(nil, byKey["Enter"])
	assert.Len(t, e.result.Bubbles, was, "not two at one time")
	assert.Contains(t, e.said, "There is one already at ")
	e.view = e.view.At(e.view.Mark + 0.01)
	h.act(nil, byKey["Enter"])
	assert.Len(t, e.result.Bubbles, was+1)
	e.unmend(false)
	assert.Len(t, e.result.Bubbles, was)
	e.unmend(true)
	assert.Equal(t, len(e.counted), len(e.result.Bubbles))
	assert.Empty(t, e.mended)

	// Where some were caught, their size is the surer.
	d.Edit(gaslog.KeyWay, "caught")
	d.Edit(gaslog.KeyCaught, "50")
	d.Edit(gaslog.KeyFilled, "8")
	h.Gauge = GaugeOf(d)
	volume, way := h.volume()
	assert.InDelta(t, 600*0.16, volume.Best, 1e-9)
	assert.Contains(t, way, "caught")
	assert.NotContains(t, html(t, h), "NaN")

	// In the middle of a run there is no air to come, and no minute 0.
	d.Edit(gaslog.KeyBegins, "later")
	before := h.line().Displaced
	h.Gauge = GaugeOf(d)
	assert.Positive(t, float64(before))
	assert.Zero(t, h.line().Displaced)
	assert.Empty(t, h.rows())
	assert.Empty(t, h.met())
}

// tapped is the pad after a press each so many seconds until a moment.
func tapped(d *desk.Desk, each, until sound.Second) *Pad {
	var taps counting.Taps
	for at := sound.Second(0); at <= until; at += each {
		taps.Tap(at)
	}
	return &Pad{Taps: &taps, Gauge: GaugeOf(d)}
}

func TestAFewTapsTellNoGas(t *testing.T) {
	d := desk.New("")
	for _, few := range []*Pad{tapped(d, 1, 2), tapped(d, 0.2, 6), tapped(d, 10, 60)} {
		text := html(t, few)
		assert.Contains(t, text, `id="tap.rate"`)
		for _, figure := range []string{"tap.gas", "tap.left", "use.tap", "tap.log"} {
			assert.NotContains(t, text, `id="`+figure+`"`)
		}
		assert.Contains(t, text, "Count ten bubbles or more, for half a minute or longer")
	}
	text := html(t, tapped(d, 0.2, 31))
	for _, figure := range []string{"tap.gas", "tap.left", "use.tap"} {
		assert.Contains(t, text, `id="`+figure+`"`)
	}
	assert.Contains(t, html(t, tapped(d, 1, 1)), "1 bubble in 1\u202fs, ")
	assert.Contains(t, html(t, tapped(d, 0.2, 0.2)), "<span>1 bubble, go on")
}

func TestStoppedGasIsShort(t *testing.T) {
	pad := tapped(desk.New(""), 0.2, 60)
	pad.Taps.End(60)
	text := html(t, pad)
	assert.NotContains(t, text, "Left until the demand is met")
	assert.Contains(t, text, "The gas has stopped short of the demand by")
	assert.NotContains(t, text, `id="tap.log"`)
	met := &Pad{Taps: pad.Taps, Gauge: pad.Gauge}
	y, err := pad.Taps.Tapping(pad.Gauge.Outlet, pad.Gauge.Bubble, 0).At(60)
	require.NoError(t, err)
	met.Gauge.Need = y.Gas.Best / 2
	assert.Contains(t, html(t, met), "it is met: judge the end")
}

// TestWhatIsShortHasTheDigitsOfAPlan: the band of a little gas counted is no reason for more.
func TestWhatIsShortHasTheDigitsOfAPlan(t *testing.T) {
	pad := tapped(desk.New(""), 0.2, 60)
	pad.Taps.End(60)
	short := pad.leftOf(sound.Tally{Gas: sound.Band{Low: 0.01, Best: 0.014, High: 0.02}}, true, true)
	require.Len(t, short, 1)
	assert.Equal(t, route.Print(pad.Gauge.Need, "mmol"), short[0].Number+"\u202f"+short[0].Unit)
	assert.Empty(t, short[0].Range)
	much := pad.leftOf(sound.Tally{Gas: sound.Band{Low: 0.3 * pad.Gauge.Need, Best: 0.5 * pad.Gauge.Need, High: 0.7 * pad.Gauge.Need}}, true, true)
	assert.NotEmpty(t, much[0].Range)
}

// TestThePadAtTheBench proposes how many bubbles a tap stands for, fills the box of its step, says
// why little of the gas made was led in, and hands nothing over before a run is started.
func TestThePadAtTheBench(t *testing.T) {
	for pace, says := range map[float64]string{0: "", 2: "", 11: "stand for 10.", 9: "stand for 5.", 40: "stand for 10."} {
		pad := &Pad{Taps: new(counting.Taps), Gauge: Gauge{PerSecond: pace}}
		text := html(t, pad)
		assert.Equal(t, says != "", strings.Contains(text, "let a tap stand for "), "%v", pace)
		assert.Contains(t, text, says, "%v", pace)
	}
	assert.Positive(t, GaugeOf(desk.New("")).PerSecond)
	assert.NotContains(t, html(t, tapped(desk.New(""), 1, 2)), "let a tap stand for ")

	box := Box{Key: gaslog.Key(45, gaslog.Rate), ID: "bench.in.log.45.rate"}
	for _, c := range []struct {
		run          string
		taps         sound.Second
		text         string
		says, hushes []string
	}{
		{"", 31, "", []string{"Write 300 a minute into the box above", "comes out first", "Once the run is started"}, []string{"use.tap"}},
		{"v=2&run=2026-05-02T09:00", 31, "300", []string{"300 a minute stands in the box above", "use.tap"}, []string{"tap.box", "Once the run is started"}},
		{"v=2&run=2026-05-02T09:00", 20, "", nil, []string{"tap.box"}},
	} {
		pad := tapped(desk.New(c.run), 0.2, c.taps)
		pad.Bench, pad.Gauge.Box = true, box
		pad.Gauge.Box.Text = c.text
		text := html(t, pad)
		for _, s := range c.says {
			assert.Contains(t, text, s)
		}
		for _, s := range c.hushes {
			assert.NotContains(t, text, s)
		}
	}
	assert.NotContains(t, html(t, tapped(desk.New(""), 0.2, 31)), "into the box above")
}

func TestTheLogTakesARowWhenItsTimeHasCome(t *testing.T) {
	d := desk.New("")
	offers := func(pad *Pad, minute int) {
		t.Helper()
		tapping := pad.Taps.Tapping(pad.Gauge.Outlet, pad.Gauge.Bubble, pad.Gauge.Before)
		got, rate, is := pad.due(tapping, pad.Taps.Last())
		if minute == 0 {
			assert.False(t, is, "minute %d", got)
			return
		}
		assert.True(t, is)
		assert.Equal(t, minute, got)
		assert.InDelta(t, 120, rate, 1)
	}
	offers(tapped(d, 0.5, 60), 0)
	offers(tapped(d, 0.5, 299), 0)
	pad := tapped(d, 0.5, 310)
	offers(pad, 5)
	assert.Contains(t, html(t, pad), "Write 120 a minute into the log at minute 5")
	d.Edit(gaslog.Key(5, gaslog.Rate), "120")
	offers(tapped(d, 0.5, 310), 0)
	offers(tapped(d, 0.5, 605), 10)

	// Only what was counted since the row before is a pace, and not of long after the row.
	pad.Gauge = GaugeOf(d)
	_, _, is := pad.due(pad.Taps.Tapping(pad.Gauge.Outlet, pad.Gauge.Bubble, 0), 620)
	assert.False(t, is, "ten seconds since minute 5 are no pace")
	pad.Taps.Pause()
	for at := sound.Second(720); at < 760; at += 0.5 {
		pad.Taps.Tap(at)
	}
	offers(pad, 0)
	d.Edit(gaslog.KeyBefore, "5")
	offers(tapped(d, 0.5, 60), 0)
	offers(tapped(desk.New("log.before=5"), 0.5, 60), 5)
}

func TestNoGasIsToldWhereTheFunnelTouches(t *testing.T) {
	d := desk.New("log.where=touching&log.5.rate=530")
	pad := tapped(d, 0.2, 310)
	text := html(t, pad) + html(t, &hearing{Ear: heardEar(), Gauge: GaugeOf(d)}) + html(t, unfoldedGas(d, pad.Taps, heardEar()))
	assert.NotContains(t, text, "mmol”")
	for _, id := range []string{"tap.gas", "tap.left", "use.tap", "tap.log", "use.hear", "hear.log", "hear.gas", "use.log", "log.gas"} {
		assert.NotContains(t, text, `id="`+id+`"`)
	}
	assert.Contains(t, text, "A funnel that only touches makes no bubbles")
}

func TestWhatCannotBeCountedIsNotCalledCounted(t *testing.T) {
	e := heardEar()
	e.end(e.run, nil)
	assert.Equal(t, "The recording is counted.", e.said)
	e.said, e.result.Trouble = "", "This recording cannot be counted, because it is silent."
	e.end(e.run, nil)
	assert.Empty(t, e.said)
}

func TestAFloorIsNotHandedOver(t *testing.T) {
	v := soundtest.Voice{PerSecond: 8, Jitter: 0.2, Dead: 0.03, Radius: 3.1, Spread: 0.05, Loud: 0.1, LoudSpread: 0.8}
	s := soundtest.Scene{Rate: 16000, Seconds: 30, Seed: 77, Gas: soundtest.SulfurDioxide, Pascal: 101325, Voices: []soundtest.Voice{v}, Noises: []soundtest.Noise{{Kind: soundtest.White, RMS: soundtest.Under(0.1, -6)}}}
	samples, _ := s.Make()
	c, err := sound.NewCounter(s.Rate, sound.UsualSettings(sound.UsualOutlet()))
	require.NoError(t, err)
	c.Write(samples)
	e := &Ear{name: "noise.mp3", phase: earDone, result: c.Finish(), kept: counting.Keep(s.Rate), view: counting.Whole(30)}
	require.Empty(t, e.result.Trouble)
	require.True(t, e.result.LeastOnly())
	text := html(t, &hearing{Ear: e, Gauge: GaugeOf(desk.New(""))})
	assert.Contains(t, text, "only the least there were")
	assert.Contains(t, text, "at least ")
	assert.NotContains(t, text, "is trusted")
	assert.NotContains(t, text, "use.hear")
	assert.NotContains(t, text, "hear.log")
	assert.NotContains(t, text, "Inf")
	assert.NotContains(t, text, "NaN")
}

func TestTheBubbleThatIsTakenIsSaid(t *testing.T) {
	var taps counting.Taps
	says := func(fragment string) string { return html(t, unfoldedGas(desk.New(fragment), &taps, &Ear{})) }
	assert.Contains(t, says(""), "One bubble is taken as the plan has it: 0.14\u202fmL (0.10–0.20)")
	assert.Contains(t, says("log.bubble=bore&log.bore=6"), "Use in the plan: one bubble is 0.11")
	assert.NotContains(t, says("log.where=touching"), "One bubble")
}

// TestPartsOfTheSectionUnfold and fold; with a log, two of them are unfolded at first.
func TestPartsOfTheSectionUnfold(t *testing.T) {
	var taps counting.Taps
	shows := func(g *Section) string { // one that was written once is not written anew
		return html(t, &Section{View: g.View, Taps: &taps, Ear: &Ear{}, said: g.said})
	}
	g := &Section{View: ViewOf(desk.New(""))}
	assert.NotContains(t, shows(g), "Will it be countable?")
	g.fold(foldAll)
	assert.Contains(t, shows(g), "Will it be countable?")
	assert.NotContains(t, shows(g), "tap-pad")
	g.fold(foldTap)
	assert.Contains(t, shows(g), "tap-pad")
	g.fold(foldAll)
	assert.NotContains(t, shows(g), "tap-pad")
	g = &Section{View: ViewOf(desk.New("log.5.rate=530"))}
	assert.Contains(t, shows(g), `class="gaslog `)
	g.fold(foldLog)
	assert.NotContains(t, shows(g), `class="gaslog `)
}

// TestEveryKeyOfThePictureDoesSomething that a button does, or moves the mark.
func TestEveryKeyOfThePictureDoesSomething(t *testing.T) {
	for key, word := range byKey {
		if word == playStretch {
			continue // wants a browser
		}
		h := &hearing{Ear: heardEar(), Gauge: GaugeOf(desk.New(""))}
		h.Ear.view = h.Ear.view.At(300).Zoom(0.1)
		h.act(nil, nextBubble)
		was := *h.Ear
		h.act(nil, word)
		changed := was.view != h.Ear.view || len(was.result.Bubbles) != len(h.Ear.result.Bubbles) || was.said != h.Ear.said
		assert.True(t, changed, "%s: %s", key, word)
	}
}
