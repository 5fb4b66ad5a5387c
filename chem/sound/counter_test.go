package sound_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
	"rosesalt/chem/sound"
	"rosesalt/chem/sound/soundtest"
)

// The scenes' seeds are none with which the thresholds were found.

const loud = 0.1

// voice is a 6 to 8 mm tube's: bubbles of 4 mm radius, 5 % of spread.
func voice(perSecond, jitter float64) soundtest.Voice {
	return soundtest.Voice{PerSecond: perSecond, Jitter: jitter, Dead: 0.03, Radius: 4, Spread: 0.05, Loud: loud, LoudSpread: 0.3, Chirp: 0.01}
}

func scene(seed uint64, seconds float64, noise soundtest.Kind, decibel float64, voices ...soundtest.Voice) soundtest.Scene {
	return soundtest.Scene{
		Rate: 16000, Seconds: seconds, Seed: seed, Gas: soundtest.SulfurDioxide,
		Pascal: float64(sound.UsualOutlet().Pressure()) * 1000, Voices: voices,
		Noises: []soundtest.Noise{{Kind: noise, RMS: soundtest.Under(loud, decibel)}},
	}
}

func hear(t testing.TB, rate int, samples []float32) sound.Result {
	t.Helper()
	c, err := sound.NewCounter(rate, sound.UsualSettings(sound.UsualOutlet()))
	require.NoError(t, err)
	c.Write(samples)
	return c.Finish()
}

// amount of SO2 in the bubbles as they were made, mmol.
func amount(t testing.TB, truth []soundtest.Bubble) float64 {
	t.Helper()
	n, err := sound.UsualOutlet().Amount(sound.Exactly(soundtest.Millilitres(truth)))
	require.NoError(t, err)
	return n.Best
}

func TestBubblesAreCountedAndSized(t *testing.T) {
	chance := voice(8, -1)
	chance.Dead = 0.002 // several mouths: bubbles hide in the ring of others
	gliding := voice(8, -1)
	gliding.Chirp = 0.03
	uneven, huge := voice(4, -1), voice(3, -1)
	uneven.Spread = 0.1
	huge.Radius = 7
	two := voice(3, -1)
	two.Radius = 2.6
	wide, thin := voice(4, -1), voice(4, -1)
	wide.Radius, thin.Radius = 6, 2
	thick := voice(4, 0.2)
	thick.Damping = 1.5
	for i, c := range []struct {
		name           string
		scene          soundtest.Scene
		count, measure float64 // relative errors allowed, of count and gas
	}{
		{"one in five seconds", scene(0, 100, soundtest.White, 20, voice(0.2, -1)), 0.05, 0.2},
		{"regular, clear", scene(0, 40, soundtest.White, 20, voice(2, 0.1)), 0.03, 0.2},
		{"random, clear", scene(0, 40, soundtest.Pink, 20, voice(4, -1)), 0.03, 0.2},
		{"fast", scene(0, 30, soundtest.Pink, 20, voice(15, 0.1)), 0.03, 0.2},
		{"fast and random", scene(0, 30, soundtest.White, 20, voice(12, -1)), 0.03, 0.2},
		{"very clear", scene(0, 30, soundtest.White, 30, voice(8, -1)), 0.03, 0.2},
		{"by chance alone", scene(0, 40, soundtest.Pink, 20, chance), 0.05, 0.2},
		{"in noise", scene(0, 40, soundtest.White, 6, voice(4, -1)), 0.1, 0.25},
		{"in pink noise", scene(0, 40, soundtest.Pink, 6, voice(4, 0.1)), 0.1, 0.25},
		{"two sizes", scene(0, 40, soundtest.Pink, 20, voice(3, -1), two), 0.03, 0.2},
		{"wide tube", scene(0, 40, soundtest.Pink, 20, wide), 0.03, 0.2},
		{"very wide tube", scene(0, 40, soundtest.Pink, 20, huge), 0.04, 0.2},
		{"uneven", scene(0, 60, soundtest.White, 20, uneven), 0.02, 0.2},
		{"thin tube", scene(0, 40, soundtest.Pink, 20, thin), 0.03, 0.2},
		{"dies faster than published", scene(0, 40, soundtest.Pink, 20, thick), 0.03, 0.2},
		{"hum", scene(0, 40, soundtest.Hum, 6, voice(4, -1)), 0.05, 0.2},
		{"hum of 60 Hz", scene(0, 40, soundtest.Hum60, 6, voice(4, -1)), 0.05, 0.2},
		{"wind", scene(0, 40, soundtest.Wind, 6, voice(4, -1)), 0.1, 0.25},
		{"few over a burner's roar", scene(0, 60, soundtest.Roar, 25, voice(1, -1)), 0.05, 0.2},
		{"gliding upwards", scene(0, 30, soundtest.White, 30, gliding), 0.03, 0.25},
		{"a burner's roar", scene(0, 40, soundtest.Roar, 20, voice(4, -1)), 0.1, 0.2},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.scene.Seed = 521 + uint64(i)
			x, truth := c.scene.Make()
			r := hear(t, c.scene.Rate, x)
			require.Empty(t, r.Trouble)
			assert.InEpsilon(t, float64(len(truth)), r.Count.Best, c.count, "bubbles")
			gas := amount(t, truth)
			assert.InEpsilon(t, gas, r.Gas.Best, c.measure, "gas")
			assert.True(t, r.Gas.Low < gas && gas < r.Gas.High, "%v does not hold %g", r.Gas, gas)
			last := r.Over[len(r.Over)-1]
			assert.InEpsilon(t, r.Gas.Best, last.Gas.Best, 1e-6, "the curve ends at the whole")
			assert.InEpsilon(t, r.Count.Best, last.Bubbles, 1e-6)
		})
	}
}

func TestEveryRateOfSamplesGivesTheCount(t *testing.T) {
	for _, rate := range []int{8000, 11025, 12000, 22050, 32000, 44100, 48000, 96000} {
		s := scene(700+uint64(rate), 25, soundtest.Pink, 20, voice(4, -1))
		s.Rate = rate
		x, truth := s.Make()
		r := hear(t, rate, x)
		assert.InEpsilon(t, float64(len(truth)), r.Count.Best, 0.03, rate)
		assert.InEpsilon(t, amount(t, truth), r.Gas.Best, 0.2, rate)
	}
}

// text is of no importance, only long.
const text = "The glass must stand firmly. Pour the acid slowly, and never the water into the acid. " +
	"When the gas comes, lower the flame; sixty six seasick sailors say so. Put the funnel down to the surface " +
	"but not below. Count the bubbles while you wait, and write down when the colour goes from black to rose. "

// No bubble may be found where there is none: a minute each of speech, of noises, of a
// tone, of knocks, of silence.
func TestNothingIsFoundWhereNothingBubbles(t *testing.T) {
	none := func(t *testing.T, rate int, x []float32) {
		t.Helper()
		r := hear(t, rate, x)
		assert.Empty(t, r.Bubbles)
		assert.True(t, strings.HasPrefix(r.Trouble, "This recording cannot be counted, because "), r.Trouble)
		assert.Zero(t, r.Count)
		assert.Zero(t, r.Gas)
	}
	for _, speaker := range []string{"en", "en+f3", "de+m3"} {
		t.Run("speech "+speaker, func(t *testing.T) {
			x, rate := soundtest.Speech(t, speaker, strings.Repeat(text, 6))
			require.Greater(t, len(x), 60*rate)
			none(t, rate, x[:60*rate])
		})
	}
	for kind, name := range map[soundtest.Kind]string{
		soundtest.White: "white noise", soundtest.Pink: "pink noise", soundtest.Wind: "wind",
		soundtest.Roar: "roar", soundtest.Hum: "hum", soundtest.Hum60: "hum of 60 Hz",
	} {
		t.Run(name, func(t *testing.T) {
			x, _ := scene(900+uint64(kind), 60, kind, 0).Make()
			none(t, 16000, x)
		})
	}
	t.Run("silence", func(t *testing.T) { none(t, 16000, make([]float32, 60*16000)) })
	t.Run("tone", func(t *testing.T) {
		x := make([]float32, 60*16000)
		for i := range x {
			x[i] = float32(0.2 * math.Sin(2*math.Pi*800*float64(i)/16000))
		}
		none(t, 16000, x)
	})
	t.Run("beeps", func(t *testing.T) {
		x, _ := scene(951, 60, soundtest.Pink, 40).Make()
		for i := range x {
			if s := float64(i) / 16000; math.Mod(s, 0.7) < 0.15 {
				x[i] += float32(0.1 * math.Sin(2*math.Pi*800*s))
			}
		}
		none(t, 16000, x)
	})
	// As low as the range goes nothing is taken for bubbles: rumble crowds there.
	t.Run("thumps", func(t *testing.T) {
		thump := voice(2, -1)
		thump.Radius = 10.3
		x, _ := scene(952, 60, soundtest.Pink, 20, thump).Make()
		none(t, 16000, x)
	})
	t.Run("knocks", func(t *testing.T) {
		x, _ := scene(950, 60, soundtest.Pink, 40).Make()
		for i := 8000; i < len(x); i += 12345 {
			for k := range 40 {
				x[i+k] += float32(0.5 * math.Exp(-float64(k)/8))
			}
		}
		none(t, 16000, x)
	})
}

// Where someone talks over the bubbles that part is not trusted, and the rate beside it
// stands for it.
func TestSpeechOverBubblesIsLeftOut(t *testing.T) {
	said, rate := soundtest.Speech(t, "en", strings.Repeat(text, 2))
	s := scene(811, 60, soundtest.Pink, 25, voice(4, -1))
	s.Rate = rate
	x, truth := s.Make()
	for i := range min(len(said), 20*rate) {
		x[20*rate+i] += said[i]
	}
	r := hear(t, rate, x)
	require.Empty(t, r.Trouble)
	assert.InEpsilon(t, float64(len(truth)), r.Count.Best, 0.15)
	assert.Less(t, r.Trusted(), 0.8)
	assert.Greater(t, r.Trusted(), 0.5)
	assert.True(t, r.Count.Low < float64(len(truth)) && float64(len(truth)) < r.Count.High)
	end := sound.Second(0)
	for _, span := range r.Spans {
		assert.Equal(t, end, span.From, "end to end")
		end = span.Until
	}
	assert.InDelta(t, 60, float64(end), 0.01)
}

// In noise as loud as they are many bubbles are lost. The result says so.
func TestFaintBubblesWidenTheInterval(t *testing.T) {
	for _, noise := range []soundtest.Kind{soundtest.White, soundtest.Pink} {
		x, truth := scene(881, 40, noise, 0, voice(4, -1)).Make()
		r := hear(t, 16000, x)
		require.Empty(t, r.Trouble)
		n := float64(len(truth))
		assert.Less(t, r.Count.Low, n)
		assert.True(t, r.LeastOnly() || n < r.Count.High, "%v does not hold %g", r.Count, n)
		require.NotEmpty(t, r.Notices)
		assert.Contains(t, r.Notices[0], "hardly louder than the noise")
	}
}

// Where they are of every loudness, noise hides most of them and overdriving the rest. An
// interval holds the truth, or the count is no more than a floor.
func TestManyLostBubblesLeaveAFloor(t *testing.T) {
	floors := 0
	for i, decibel := range []float64{-6, -3, 0, 3, 6, 10} {
		for _, gain := range []float32{0.3, 4} {
			v := voice(8.6, 0.2)
			v.LoudSpread = 0.8
			x, truth := scene(1051+uint64(i), 30, soundtest.White, decibel, v).Make()
			for k := range x {
				x[k] = max(-1, min(1, gain*x[k]))
			}
			r := hear(t, 16000, x)
			require.Empty(t, r.Trouble)
			n := float64(len(truth))
			assert.LessOrEqual(t, r.Count.Low, n)
			if r.LeastOnly() {
				floors++
				continue
			}
			assert.Greater(t, r.Count.High, n, "%g dB, gain %g: %v", decibel, gain, r.Count)
		}
	}
	assert.Positive(t, floors)

	x, truth := scene(897, 30, soundtest.White, 20, voice(4, -1)).Make()
	assert.False(t, hear(t, 16000, x).LeastOnly())
	assert.NotEmpty(t, truth)
	for k := range x {
		x[k] = max(-1, min(1, 60*x[k]))
	}
	assert.True(t, hear(t, 16000, x).LeastOnly(), "overdriven")
}

func TestChunksDoNotMatter(t *testing.T) {
	x, _ := scene(821, 20, soundtest.Pink, 20, voice(4, -1)).Make()
	whole := hear(t, 16000, x)
	c, err := sound.NewCounter(16000, sound.UsualSettings(sound.UsualOutlet()))
	require.NoError(t, err)
	for at, n := 0, 1; at < len(x); at, n = at+n, n*7%1009+1 {
		c.Write(x[at:min(len(x), at+n)])
	}
	assert.InDelta(t, 20, float64(c.Progress().Heard), 1e-9)
	assert.Positive(t, c.Progress().Bubbles)
	assert.Equal(t, whole, c.Finish())
}

func TestBadSoundGivesAnAnswer(t *testing.T) {
	assert.Equal(t, "This recording cannot be counted, because it is empty.", hear(t, 16000, nil).Trouble)
	assert.Contains(t, hear(t, 16000, make([]float32, 8000)).Trouble, "it lasts 0.5 s")
	assert.Contains(t, hear(t, 16000, make([]float32, 80000)).Trouble, "it is silent")

	x, truth := scene(831, 30, soundtest.White, 20, voice(4, -1)).Make()
	for i := 0; i < len(x); i += 16000 {
		x[i], x[i+1], x[i+2] = float32(math.NaN()), float32(math.Inf(1)), 1e30
	}
	assert.InEpsilon(t, float64(len(truth)), hear(t, 16000, x).Count.Best, 0.05, "what is no number is silence")

	x, _ = scene(832, 30, soundtest.White, 20, voice(4, -1)).Make()
	for i := range x {
		x[i] = max(-1, min(1, 30*x[i]))
	}
	assert.Contains(t, hear(t, 16000, x).Notices, "The recording is overdriven: move the microphone away.")

	for _, bad := range []int{0, 7999, 192001} {
		_, err := sound.NewCounter(bad, sound.UsualSettings(sound.UsualOutlet()))
		assert.ErrorContains(t, err, "samples a second")
	}
	s := sound.UsualSettings(sound.UsualOutlet())
	s.Scale = sound.Band{}
	_, err := sound.NewCounter(16000, s)
	assert.ErrorContains(t, err, "scale 0")
}

func TestBubblesAreAddedAndRemovedByHand(t *testing.T) {
	x, truth := scene(841, 30, soundtest.White, 20, voice(2, 0.2)).Make()
	r := hear(t, 16000, x)
	i, ok := r.Nearest(sound.Second(truth[5].At), 0.02)
	require.True(t, ok)
	less := r.Remove(i)
	assert.Len(t, less.Bubbles, len(r.Bubbles)-1)
	assert.InDelta(t, r.Count.Best-1, less.Count.Best, 0.02) // fewer hide others, too
	assert.Less(t, less.Gas.Best, r.Gas.Best)
	_, ok = less.Nearest(sound.Second(truth[5].At), 0.02)
	assert.False(t, ok)
	more := less.Add(sound.Second(truth[5].At))
	assert.InDelta(t, r.Count.Best, more.Count.Best, 0.02)
	j, ok := more.Nearest(sound.Second(truth[5].At), 0.001)
	require.True(t, ok)
	assert.True(t, more.Bubbles[j].ByHand)
	assert.InEpsilon(t, r.Sizes.Volume.Best, float64(more.Bubbles[j].Volume), 0.01, "of the middle size")
	assert.Len(t, r.Bubbles, len(less.Bubbles)+1, "the first result is as it was")
}

func TestDemandIsMetWhenTheGasIsThere(t *testing.T) {
	x, truth := scene(851, 60, soundtest.White, 20, voice(4, 0.1)).Make()
	r := hear(t, 16000, x)
	minutes, ok := r.Met(amount(t, truth) / 2)
	require.True(t, ok)
	assert.InDelta(t, 0.5, minutes.Best, 0.05)
	assert.Less(t, minutes.Low, minutes.Best)
	assert.Greater(t, minutes.High, minutes.Best)
	_, ok = r.Met(2 * amount(t, truth))
	assert.False(t, ok)
}

// At first air comes over, which rings higher: a bubble of it must not count as smaller.
func TestAirThatComesFirstIsTakenOff(t *testing.T) {
	s := scene(861, 60, soundtest.White, 20, voice(4, 0.1))
	s.Gas = soundtest.Air
	x, truth := s.Make()
	l := sound.UsualOutlet()
	l.Displaced = quantityOf(truth) * 100
	c, err := sound.NewCounter(16000, sound.UsualSettings(l))
	require.NoError(t, err)
	c.Write(x)
	r := c.Finish()
	assert.InEpsilon(t, float64(quantityOf(truth)), r.Volume.Best, 0.05, "volume, as of air")
	assert.Less(t, r.Gas.Best, 0.02*amount(t, truth), "but hardly any sulfur dioxide")
}

func TestPictureFollowsTheBubbles(t *testing.T) {
	x, truth := scene(871, 30, soundtest.White, 25, voice(1, 0.1)).Make()
	r := hear(t, 16000, x)
	require.LessOrEqual(t, len(r.Levels), sound.MostLevels)
	require.Len(t, r.Levels, 1500)
	col := func(at float64) sound.Level { return r.Levels[int(at/0.02)] }
	for _, b := range truth[:20] {
		with := max(col(b.At).BubbleBand, col(b.At+0.02).BubbleBand)
		assert.Greater(t, with, col(b.At-0.2).BubbleBand+8, b.At)
		assert.GreaterOrEqual(t, col(b.At).Peak, col(b.At).Mean-3)
		i, ok := r.Nearest(sound.Second(b.At), 0.02)
		require.True(t, ok)
		// A tenth of full scale is -20 dB at the first moment; a window sees the mean of 17 ms.
		assert.InDelta(t, -24, float64(r.Bubbles[i].Loudness), 9)
	}
}

func quantityOf(truth []soundtest.Bubble) quantity.Millilitre {
	return quantity.Millilitre(soundtest.Millilitres(truth))
}
