package counting

import (
	"encoding/binary"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/sound"
)

// press taps every step seconds, so many times.
func press(t *Taps, from, step sound.Second, n int) sound.Second {
	for i := range n {
		t.Tap(from + sound.Second(i)*step)
	}
	return from + sound.Second(n-1)*step
}

func TestTheFirstTapStartsTheClock(t *testing.T) {
	var taps Taps
	press(&taps, 100, 0.5, 121)
	require.Len(t, taps.Sessions(), 1)
	s := taps.Sessions()[0]
	assert.Equal(t, 120, s.Bubbles())
	assert.EqualValues(t, 60, s.Until-s.From)
	assert.InDelta(t, 2, s.Rate().Best, 1e-9, "120 gaps in a minute")
	assert.Equal(t, 121, taps.Presses())
	assert.EqualValues(t, 100, taps.First())
	assert.EqualValues(t, 160, taps.Last())
}

func TestAPressMayStandForFive(t *testing.T) {
	var taps Taps
	taps.SetPerPress(5)
	press(&taps, 0, 1, 61)
	assert.InDelta(t, 5, taps.Sessions()[0].Rate().Best, 1e-9)
	taps.SetPerPress(1)
	press(&taps, 61, 0.5, 11)
	require.Len(t, taps.Sessions(), 2, "another rhythm is another session")
	assert.InDelta(t, 2, taps.Sessions()[1].Rate().Best, 1e-9)
}

func TestUndoDoesNotMixTwoRhythms(t *testing.T) {
	var taps Taps
	press(&taps, 0, 1, 4)
	taps.SetPerPress(5)
	require.True(t, taps.Undo(0))
	taps.Tap(4)
	taps.Tap(9)
	require.Len(t, taps.Sessions(), 2)
	assert.Equal(t, 2, taps.Sessions()[0].Bubbles())
	assert.Equal(t, 5, taps.Sessions()[1].Bubbles())
}

func TestAPauseIsNoLongBubble(t *testing.T) {
	var taps Taps
	end := press(&taps, 0, 0.5, 61)
	assert.True(t, taps.Counting(end+10))
	assert.False(t, taps.Counting(end+16))
	press(&taps, end+300, 0.5, 61)
	require.Len(t, taps.Sessions(), 2)
	for _, s := range taps.Sessions() {
		assert.InDelta(t, 2, s.Rate().Best, 1e-9)
	}
	taps.Pause()
	taps.Tap(end + 331)
	taps.Tap(end + 332)
	assert.Len(t, taps.Sessions(), 3)
}

func TestSlowBubblesKeepTheirSession(t *testing.T) {
	var taps Taps
	press(&taps, 0, 20, 7)
	require.Len(t, taps.Sessions(), 1)
	assert.InDelta(t, 0.05, taps.Sessions()[0].Rate().Best, 1e-9)
}

func TestUndoTakesEachTapBack(t *testing.T) {
	var taps Taps
	assert.False(t, taps.Undo(0))
	press(&taps, 0, 1, 5)
	taps.Pause()
	press(&taps, 100, 1, 2)
	want := []int{4 + 0, 4, 3, 2, 1, 0, 0}
	for i, n := range want {
		require.True(t, taps.Undo(0), i)
		sum := 0
		for _, s := range taps.Sessions() {
			sum += s.Bubbles()
			assert.Equal(t, s.Taps[len(s.Taps)-1].At, s.Until)
		}
		assert.Equal(t, n, sum, i)
	}
	assert.True(t, taps.None())
	taps.SetPerPress(10)
	taps.Reset()
	assert.Equal(t, 10, taps.PerPress())
}

func TestTheGasStopsWhenSaid(t *testing.T) {
	var taps Taps
	taps.End(5)
	assert.True(t, taps.None(), "nothing came, so nothing stopped")
	end := press(&taps, 0, 1, 11)
	assert.EqualValues(t, 100, taps.Until(100))
	taps.End(end + 20)
	assert.EqualValues(t, end+20, taps.Until(100))
	assert.False(t, taps.Counting(end+21))
	require.True(t, taps.Undo(0))
	_, ended := taps.Ended()
	assert.False(t, ended)
	assert.Equal(t, 10, taps.Sessions()[0].Bubbles(), "no tap went with it")
	taps.End(end + 20)
	taps.Tap(end + 30)
	_, ended = taps.Ended()
	assert.False(t, ended, "one more bubble: it goes on")
}

func TestTapsAreReckonedSinceTheGasBegan(t *testing.T) {
	var taps Taps
	end := press(&taps, 1000, 1, 61)
	y, err := taps.Tapping(sound.UsualOutlet(), sound.Exactly(0.1), 120).At(end)
	require.NoError(t, err)
	assert.Equal(t, 60, y.Counted)
	assert.InDelta(t, 180, y.Passed.Best, 1e-6, "two minutes before, and the minute")
}

func tone(rate int, seconds, hertz, loud float64) []float32 {
	list := make([]float32, int(float64(rate)*seconds))
	for i := range list {
		list[i] = float32(loud * math.Sin(2*math.Pi*hertz*float64(i)/float64(rate)))
	}
	return list
}

func TestSoundIsKeptAsItWas(t *testing.T) {
	for _, rate := range []int{8000, 16000, 44100, 48000} {
		k := Keep(rate)
		in := tone(rate, 2, 700, 0.5)
		for i := 0; i < len(in); i += 777 {
			k.Write(in[i:min(len(in), i+777)])
		}
		assert.InDelta(t, 2, float64(k.Length()), 0.001, rate)
		wav := k.WAV(0.4, 0.9)
		require.Equal(t, "RIFF", string(wav[:4]))
		assert.Equal(t, len(wav), int(binary.LittleEndian.Uint32(wav[40:]))+44)
		assert.InDelta(t, 0.5, float64(len(wav)-44)/2/float64(k.Rate), 0.001)
		off := 0.0
		for i := 0; i < (len(wav)-44)/2; i++ {
			got := float64(int16(binary.LittleEndian.Uint16(wav[44+2*i:]))) / math.MaxInt16
			// The mean over so many samples stands for their middle.
			at := 0.4 + (float64(i)+0.5-0.5/float64(rate/k.Rate))/float64(k.Rate)
			off = math.Max(off, math.Abs(got-0.5*math.Sin(2*math.Pi*700*at)))
		}
		assert.Less(t, off, 0.05, rate)
	}
}

func TestPeaksShowTheBubbleAndNotTheRumble(t *testing.T) {
	const rate = 44100
	in := tone(rate, 4, 20, 0.3)
	for i, s := range tone(rate, 0.02, 900, 0.3) {
		in[2*rate+i] += s
	}
	k := Keep(rate)
	k.Write(in)
	p := k.Peaks(0, 4, 80)
	require.Len(t, p, 80)
	assert.Greater(t, float64(p[40]), -14.0, "the bubble at 2 s")
	assert.Less(t, float64(p[20]), -28.0, "the rumble beside it")
	zoomed := k.Peaks(1.9, 2.1, 40)
	assert.Greater(t, float64(zoomed[21]), -14.0)
	for c := range 10 {
		assert.Less(t, float64(k.Peaks(1.762, 1.962, 40)[c]), -28.0, "no click where the stretch begins, on the crest of the rumble")
	}
	assert.EqualValues(t, Silence, Keep(rate).Peaks(0, 1, 3)[1])
}

func TestALongRecordingIsKeptInPart(t *testing.T) {
	k := Keep(11025)
	silence := make([]float32, 11025)
	for range int(MostKept) + 5 {
		k.Write(silence)
	}
	assert.Equal(t, MostKept, k.Length())
	assert.Len(t, k.WAV(MostKept-1, MostKept+10), 44+2*11025)
}

func TestTheViewStaysInTheRecording(t *testing.T) {
	v := Whole(600)
	assert.EqualValues(t, 600, v.Width())
	v = v.At(599).Zoom(0.1)
	assert.InDelta(t, 60, float64(v.Width()), 1e-9)
	assert.InDelta(t, 600, float64(v.Until), 1e-9+1)
	assert.EqualValues(t, 599, v.Mark)
	mid := Whole(600).At(100).Zoom(0.5)
	assert.InDelta(t, 100, float64(mid.Mark), 1e-9)
	assert.InDelta(t, 50, float64(mid.From), 1e-9, "the mark keeps its place on the screen")
	v = v.Move(1)
	assert.EqualValues(t, 600, v.Until)
	v = v.Move(-20)
	assert.EqualValues(t, 0, v.From)
	for range 40 {
		v = v.Zoom(0.5)
	}
	assert.InDelta(t, float64(Shortest), float64(v.Width()), 1e-9)
	v = v.At(300)
	assert.GreaterOrEqual(t, float64(v.Until), 300.0)
	assert.LessOrEqual(t, float64(v.From), 300.0)
	assert.EqualValues(t, 0.1, Whole(0.1).Zoom(0.5).Width(), "a recording shorter than the least stretch")
}

func TestTheMarkGoesFromBubbleToBubble(t *testing.T) {
	r := &sound.Result{Bubbles: []sound.Bubble{{At: 1}, {At: 2}, {At: 2.5}}}
	v := Whole(10)
	at, ok := v.Next(r, false)
	require.True(t, ok)
	assert.EqualValues(t, 1, at)
	v = v.At(at)
	assert.Equal(t, 0, v.Chosen(r))
	at, _ = v.Next(r, false)
	assert.EqualValues(t, 2, at)
	v = v.At(2.5)
	_, ok = v.Next(r, false)
	assert.False(t, ok)
	at, _ = v.Next(r, true)
	assert.EqualValues(t, 2, at)
	assert.Equal(t, -1, v.At(1.5).Chosen(r))
}

// tapsOf draws taps as a hand makes them: presses, pauses, other steps, an end.
func tapsOf(t *rapid.T) *Taps {
	var taps Taps
	at := sound.Second(rapid.IntRange(0, 1e7).Draw(t, "first")) / 1000
	for range rapid.IntRange(0, 30).Draw(t, "acts") {
		switch rapid.IntRange(0, 9).Draw(t, "act") {
		case 0:
			taps.Pause()
		case 1:
			taps.SetPerPress(rapid.SampledFrom(PerPressChoices[:]).Draw(t, "each"))
		case 2:
			taps.End(at)
		case 3:
			taps.Undo(0)
		case 4:
			at += sound.Second(rapid.IntRange(0, 1e6).Draw(t, "long")) / 1000
		default:
			at += sound.Second(rapid.IntRange(0, 3000).Draw(t, "gap")) / 1000
			taps.Tap(at)
		}
	}
	return &taps
}

func TestTapsOutliveAReload(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		taps := tapsOf(t)
		first := sound.Second(1.8e9 + float64(rapid.IntRange(0, 1e6).Draw(t, "opened"))/7)
		ended, _ := taps.Ended()
		later := max(taps.Last(), ended) + sound.Second(rapid.IntRange(0, 3590).Draw(t, "reload"))
		again, err := Read(taps.Write(first, later), first+later)
		require.NoError(t, err)
		require.Equal(t, taps.PerPress(), again.PerPress())
		require.Equal(t, taps.Presses(), again.Presses())
		require.False(t, again.Counting(0), "bubbles may have come while nobody tapped")
		wasEnd, was := taps.Ended()
		isEnd, is := again.Ended()
		require.Equal(t, was, is)
		if was {
			require.InDelta(t, float64(wasEnd-later), float64(isEnd), 0.002, "ms, on the new clock")
		}
		require.Len(t, again.Sessions(), len(taps.Sessions()))
		for i, s := range taps.Sessions() {
			k := again.Sessions()[i]
			require.InDelta(t, float64(s.From-later), float64(k.From), 0.002)
			require.InDelta(t, float64(s.Until-later), float64(k.Until), 0.002)
			require.Equal(t, s.Bubbles(), k.Bubbles())
			require.Equal(t, k.Taps[len(k.Taps)-1].At, k.Until)
		}
		third, err := Read(again.Write(first+later, 0), first+later)
		require.NoError(t, err)
		require.Equal(t, again, third, "and the next one, to the millisecond")
	})
}

func TestTapsOfAGasThatIsOver(t *testing.T) {
	for _, c := range []struct {
		gone, pause sound.Second
		past        bool
	}{{3590, 0, false}, {3601, 0, true}, {86400, 0, true}, {3700, 3600, false}} {
		var taps Taps
		end := press(&taps, 0, 0.5, 61)
		again, err := Read(taps.Write(1.8e9, end+c.pause), 1.8e9+end+c.gone)
		require.NoError(t, err)
		assert.Equal(t, c.past, again.GasOver())
		at, ended := again.Ended()
		assert.Equal(t, c.past, ended)
		if !c.past {
			continue
		}
		assert.Equal(t, again.Last(), at, "nothing is counted of the time since")
		again.End(5)
		at, _ = again.Ended()
		assert.Equal(t, again.Last(), at)
		press(&again, 10, 1, 4)
		require.Len(t, again.Sessions(), 1, "anew")
		assert.Equal(t, 3, again.Sessions()[0].Bubbles())
		again, err = Read(again.Write(1.9e9, 14), 1.9e9+15)
		require.NoError(t, err)
		for range 4 {
			require.True(t, again.Undo(0))
		}
		assert.True(t, again.None())
		assert.False(t, again.Empty())
		require.True(t, again.Undo(0), "what was before comes again, after a reload too")
		assert.Equal(t, 60, again.Sessions()[0].Bubbles())
		assert.True(t, again.GasOver())
		require.True(t, again.Undo(0), "it is not over")
		again, err = Read(again.Write(1.9e9, 16), 1.9e9+20)
		require.NoError(t, err)
		assert.False(t, again.GasOver(), "which a reload remembers")
		again.Tap(20)
		assert.Equal(t, 61, again.Presses()-1)
	}
	var taps Taps
	press(&taps, 0, 0.5, 61)
	taps.Reset()
	again, err := Read(taps.Write(1.8e9, 40), 1.8e9+86400)
	require.NoError(t, err)
	assert.True(t, again.None())
	require.True(t, again.Undo(0))
	assert.True(t, again.GasOver(), "what Start over took is over as well")
	assert.Equal(t, again.Last(), again.Until(0))
}

// TestUndoLeavesTheHoleOpen: whoever takes something back after a pause, a reload or a start
// over did not press meanwhile, so the next press joins no session.
func TestUndoLeavesTheHoleOpen(t *testing.T) {
	for name, hole := range map[string]func(taps *Taps){
		"pause": func(taps *Taps) { taps.Pause() },
		"reload": func(taps *Taps) {
			again, err := Read(taps.Write(1.8e9, 5), 1.8e9+6)
			require.NoError(t, err)
			*taps = again
		},
		"another session, taken back": func(taps *Taps) {
			taps.Pause()
			taps.Tap(6)
			taps.Undo(0)
		},
	} {
		var taps Taps
		press(&taps, 0, 0.5, 11)
		hole(&taps)
		require.True(t, taps.Undo(0), name)
		taps.Tap(8)
		taps.Tap(8.5)
		assert.Len(t, taps.Sessions(), 2, name)
	}
	var slow Taps
	press(&slow, 0, 5, 3)
	assert.False(t, slow.Counting(40))
	require.True(t, slow.Undo(40))
	slow.Tap(42)
	slow.Tap(43)
	assert.Len(t, slow.Sessions(), 2, "too late to be counted before it")
	var taps Taps
	press(&taps, 0, 0.5, 11)
	taps.Reset()
	require.True(t, taps.Undo(0))
	taps.Tap(8)
	taps.Tap(8.5)
	assert.Len(t, taps.Sessions(), 2, "start over")
}

func TestTapsOnAClockPutBack(t *testing.T) {
	var taps Taps
	end := press(&taps, 0, 0.5, 61)
	again, err := Read(taps.Write(1.8e9, end), 1.8e9-3600)
	require.NoError(t, err)
	assert.Equal(t, 60, again.Sessions()[0].Bubbles())
	assert.InDelta(t, float64(end), float64(again.Last()-again.First()), 1e-9)
	assert.Zero(t, again.Last(), "no time in between")
	for _, clock := range []sound.Second{0.5, 8.64e12 - 1e6} {
		once, err := Read(again.Write(clock, 0), clock+1)
		require.NoError(t, err, "whatever the clock shows: %v", clock)
		assert.Equal(t, 60, once.Sessions()[0].Bubbles())
		assert.InDelta(t, -1, float64(once.Last()), 0.002)
	}
}

var noTaps = []string{
	"", "null", "[]", `{"each":2}`, `{"sessions":[{"from":1,"each":1}]}`,
	`{"each":1,"sessions":[{"from":5,"gaps":[-1],"each":1}]}`,
	`{"each":1,"sessions":[{"from":5,"gaps":[1],"each":3}]}`,
	`{"each":1,"sessions":[{"from":5,"each":1},{"from":4,"each":1}]}`,
	`{"each":1,"sessions":[{"from":9223372036854775807,"each":1}]}`,
	`{"each":1,"sessions":[{"from":-9223372036854775807,"each":1}]}`,
	`{"each":1,"sessions":[{"from":5,"gaps":[9223372036854775807,9],"each":1}]}`,
	`{"each":1,"sessions":[{"from":5,"gaps":[7],"each":1}],"ended":11}`,
	`{"each":1,"ended":11}`, `{"each":1,"sessions":[{"from":5,"gaps":[1.5],"each":1}]}`,
}

func TestTextsThatHoldNoTaps(t *testing.T) {
	for _, text := range noTaps {
		_, err := Read([]byte(text), 1.8e9)
		assert.ErrorIs(t, err, errTaps, text)
	}
}

// FuzzRead: what is read of taps is written so that it reads the same, and tells of no
// bubble at a time to come.
func FuzzRead(f *testing.F) {
	for _, text := range noTaps {
		f.Add(text, 1.8e9)
	}
	var taps Taps
	press(&taps, 0, 0.5, 5)
	taps.SetPerPress(5)
	press(&taps, 10, 2, 3)
	taps.End(20)
	f.Add(string(taps.Write(1.8e9, 21)), 1.8e9)
	f.Fuzz(func(t *testing.T, text string, opened float64) {
		if !(opened >= 0 && opened < 8.64e12) {
			return // no browser's clock
		}
		now := sound.Second(opened)
		taps, err := Read([]byte(text), now)
		if err != nil {
			return
		}
		require.LessOrEqual(t, taps.Last(), sound.Second(0))
		again, err := Read(taps.Write(now, 0), now)
		require.NoError(t, err)
		require.Equal(t, taps.Presses(), again.Presses())
		for i, s := range taps.Sessions() {
			require.Equal(t, s.Bubbles(), again.Sessions()[i].Bubbles())
			require.InDelta(t, float64(s.Until), float64(again.Sessions()[i].Until), 0.01)
		}
	})
}

func TestAllTapsTakenBackComeAgain(t *testing.T) {
	var taps Taps
	taps.Reset()
	assert.False(t, taps.Undo(0), "there were none")
	press(&taps, 0, 1, 11)
	taps.End(20)
	taps.Reset()
	taps.Reset()
	assert.True(t, taps.None())
	taps.Tap(30)
	assert.True(t, taps.Undo(0))
	assert.True(t, taps.None())
	assert.True(t, taps.Undo(0))
	assert.Equal(t, 10, taps.Sessions()[0].Bubbles())
	at, ended := taps.Ended()
	assert.True(t, ended)
	assert.EqualValues(t, 20, at)
}
