package sound_test

import (
	"testing"

	"rosesalt/chem/sound"
	"rosesalt/chem/sound/soundtest"
)

// A minute at 44.1 kHz; ten of them are what the page may have to hear in some seconds.
func BenchmarkMinute(b *testing.B) {
	x, _ := soundtest.Scene{
		Rate: 44100, Seconds: 60, Seed: 3,
		Voices: []soundtest.Voice{{PerSecond: 8, Jitter: -1, Dead: 0.03, Radius: 4, Spread: 0.08, Loud: 0.1, LoudSpread: 0.3}},
		Noises: []soundtest.Noise{{Kind: soundtest.Pink, RMS: soundtest.Under(0.1, 15)}},
	}.Make()
	for b.Loop() {
		c, err := sound.NewCounter(44100, sound.UsualSettings(sound.UsualLine()))
		if err != nil {
			b.Fatal(err)
		}
		c.Write(x)
		c.Finish()
	}
}
