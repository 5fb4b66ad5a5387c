package soundtest

import (
	"math"
	"math/rand/v2"
)

// Other is a sound that is no gas, and might be taken for it.
type Other int

// The sounds that are no gas.
const (
	Melody  Other = iota // plucked notes of a scale, with overtones
	Flute                // the same with no overtones, which begin softly
	Drips                // one drop a second from a tap: a tick, then the bubble that it shuts in
	Keys                 // a keyboard that is typed on
	Boiling              // a pot that boils: bubbles of all sizes, hundreds a second
	Bells                // glasses that touch: high partials that ring on
)

// Make gives the sound at a rate in samples a second, about as loud as the bubbles of a
// scene of loudness 0.1, over a quiet room.
func (o Other) Make(rate int, seconds float64, seed uint64) []float32 {
	r := rand.New(rand.NewPCG(seed, uint64(o)+77))
	x := make([]float64, int(seconds*float64(rate)))
	// strike adds a partial that rises in rise seconds and decays at a rate, 1/s.
	strike := func(at, hertz, size, decay, rise float64) {
		phase := 2 * math.Pi * r.Float64()
		for i := int(math.Ceil(at * float64(rate))); i < len(x); i++ {
			t := float64(i)/float64(rate) - at
			if decay*t > 9 {
				break
			}
			x[i] += size * (1 - math.Exp(-t/rise)) * math.Exp(-decay*t) * math.Sin(phase+2*math.Pi*hertz*t)
		}
	}
	// click adds a burst of noise of so many seconds.
	click := func(at, size, long float64) {
		for i := int(math.Ceil(at * float64(rate))); i < len(x); i++ {
			t := float64(i)/float64(rate) - at
			if t > 9*long {
				break
			}
			x[i] += size * r.NormFloat64() * math.Exp(-t/long)
		}
	}
	scale := [...]float64{0, 2, 4, 5, 7, 9, 11, 12} // semitones above the lowest note
	base := 350 * math.Pow(2, 2*r.Float64())        // Hz
	pace := 2 + 4*r.Float64()                       // a second
	decay := math.Exp(math.Log(3) + r.Float64()*math.Log(8))
	for at := 0.2; at < seconds; {
		switch o {
		case Melody, Flute:
			f := base * math.Pow(2, scale[r.IntN(len(scale))]/12)
			partials, rise := 4, 0.002
			if o == Flute {
				partials, rise = 1, 0.01
			}
			for k := 1; k <= partials; k++ {
				strike(at, f*float64(k), 0.1/float64(k*k), decay*math.Sqrt(float64(k)), rise)
			}
			at += math.Ceil(2*r.Float64()) / pace
		case Drips:
			click(at, 0.03, 0.001)
			f := 1.4 * base * math.Exp(0.05*r.NormFloat64())
			strike(at+0.02+0.005*r.Float64(), f, 0.1, (0.13+0.0072*math.Sqrt(f/3.26))*f/3.26, 1/f)
			at += 1 + 0.02*r.NormFloat64()
		case Keys:
			for _, late := range [...]float64{0, 0.08 + 0.03*r.Float64()} { // pressed, let go
				click(at+late, 0.1, 0.002+0.003*r.Float64())
				for range 3 {
					strike(at+late, 400*math.Pow(2, 3*r.Float64()), 0.04, 150+200*r.Float64(), 0.0005)
				}
			}
			at += 0.09 + r.ExpFloat64()/pace
		case Boiling:
			f := 300 * math.Pow(2, 3.3*r.Float64())
			strike(at, f, 0.03*math.Exp(0.7*r.NormFloat64()), (0.13+0.0072*math.Sqrt(f/3.26))*f/3.26, 1/f)
			at += r.ExpFloat64() / (30 * pace)
		case Bells:
			for k, ratio := range [...]float64{1, 2.3, 4.1} {
				strike(at, 2*base*ratio, 0.1/float64(k+1), 4+6*r.Float64(), 0.0005)
			}
			at += 0.3 + r.ExpFloat64()/pace
		}
	}
	Noise{Kind: Pink, RMS: Under(0.1, 30)}.add(x, rate, r)
	out := make([]float32, len(x))
	for i, y := range x {
		out[i] = float32(math.Max(-1, math.Min(1, y)))
	}
	return out
}
