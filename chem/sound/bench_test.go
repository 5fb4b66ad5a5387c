package sound_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"rosesalt/chem/sound"
	"rosesalt/chem/sound/soundtest"
)

// minute is one at 44.1 kHz; ten of them are what the page may have to hear in some seconds.
func minute() []float32 {
	x, _ := soundtest.Scene{
		Rate: 44100, Seconds: 60, Seed: 3,
		Voices: []soundtest.Voice{{PerSecond: 8, Jitter: -1, Dead: 0.03, Radius: 4, Spread: 0.08, Loud: 0.1, LoudSpread: 0.3}},
		Noises: []soundtest.Noise{{Kind: soundtest.Pink, RMS: soundtest.Under(0.1, 15)}},
	}.Make()
	return x
}

func counter(b *testing.B) *sound.Counter {
	c, err := sound.NewCounter(44100, sound.UsualSettings(sound.UsualOutlet()))
	require.NoError(b, err)
	return c
}

func BenchmarkMinute(b *testing.B) {
	x := minute()
	for b.Loop() {
		c := counter(b)
		c.Write(x)
		c.Finish()
	}
}

// A chunk is what the page writes before it looks at the time.
func BenchmarkChunk(b *testing.B) {
	x := minute()
	c := counter(b)
	at := 0
	for b.Loop() {
		c.Write(x[at : at+4096])
		at = (at + 4096) % (len(x) - 4096)
	}
}

// The end of half an hour, where all starts are judged at once: the longest step between two
// pauses is reported beside the whole.
func BenchmarkFinish(b *testing.B) {
	x := minute()
	longest := time.Duration(0)
	for b.Loop() {
		b.StopTimer()
		c := counter(b)
		for range 30 {
			c.Write(x)
		}
		b.StartTimer()
		last := time.Now()
		c.Pause = func() {
			longest = max(longest, time.Since(last))
			last = time.Now()
		}
		c.Finish()
		c.Pause()
	}
	b.ReportMetric(float64(longest.Microseconds())/1000, "ms/step")
}
