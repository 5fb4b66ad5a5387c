// Package soundtest makes recordings of bubbles whose number and sizes are known, for tests.
//
// It shares no code with package sound: pitch by Minnaert (Phil. Mag. 16 (1933) 235),
// damping by the sum of radiation, thermal and viscous parts (Devin, J. Acoust. Soc. Am.
// 31 (1959) 1654, read in transcriptions), sizes and loudness drawn from lognormal
// distributions, times regular or random with a dead time. The noises are made here too.
package soundtest

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/dsp/fourier"
)

// Gas is what the bubbles are filled with.
type Gas struct {
	Stiffness   float64 // ρc²/p, of a perfect gas the ratio of heat capacities
	Gamma       float64 // ratio of heat capacities
	Diffusivity float64 // of heat, m²/s
}

// Gases at 20 °C and one atmosphere (by the equations of state of Lemmon et al. 2000 and
// Gao et al. 2016; the diffusivity, from memory, is conductivity over density and heat
// capacity).
var (
	Air           = Gas{1.40, 1.40, 2.1e-5}
	SulfurDioxide = Gas{1.261, 1.284, 5.7e-6}
)

// Voice is one tube from whose mouth bubbles come.
type Voice struct {
	PerSecond  float64
	Jitter     float64 // of regular bubbles, as a share of the interval; below zero: random ones
	Dead       float64 // least interval of random ones, seconds
	Radius     float64 // middle one, mm
	Spread     float64 // of the radius, standard deviation of its logarithm
	Loud       float64 // middle amplitude at the beginning, full scale 1
	LoudSpread float64 // standard deviation of its logarithm
	Chirp      float64 // rise of the pitch, as a share of it in the time of one decay
	Damping    float64 // factor on the published damping; zero is one
}

// Scene is a recording to be made.
type Scene struct {
	Rate    int // samples a second
	Seconds float64
	Seed    uint64
	Gas     Gas
	Pascal  float64 // at the mouth; zero is 101 325
	Voices  []Voice
	Noises  []Noise
}

// Bubble is one bubble of a scene.
type Bubble struct {
	At, Pitch, Radius float64 // s, Hz, mm
}

// Millilitres is the volume of all bubbles.
func Millilitres(bubbles []Bubble) float64 {
	v := 0.0
	for _, b := range bubbles {
		v += 4 * math.Pi / 3 * math.Pow(b.Radius/10, 3)
	}
	return v
}

const density, soundSpeed, viscosity = 998.2, 1482, 1.0e-3 // water at 20 °C, SI (from memory: CRC Handbook)

// pitch and decay (amplitude, per second) of a bubble of the radius in mm.
func (s *Scene) ring(mm float64) (hertz, decay float64) {
	r, p := mm/1000, s.Pascal
	if p == 0 {
		p = 101325
	}
	w := math.Sqrt(3*s.Gas.Stiffness*p/density) / r
	delta := w*r/soundSpeed + 3*(s.Gas.Gamma-1)/r*math.Sqrt(s.Gas.Diffusivity/(2*w)) + 4*viscosity/(density*w*r*r)
	return w / (2 * math.Pi), delta * w / 2
}

// Decay is the rate at which the amplitude of an air bubble of the radius dies, 1/s, in
// water at 20 °C and one atmosphere.
func Decay(mm float64) float64 {
	_, d := (&Scene{Gas: Air}).ring(mm)
	return d
}

// Make renders the scene and tells what is in it.
func (s Scene) Make() ([]float32, []Bubble) {
	if s.Gas == (Gas{}) {
		s.Gas = Air
	}
	r := rand.New(rand.NewPCG(s.Seed, 0x5eed))
	n := int(s.Seconds * float64(s.Rate))
	x := make([]float64, n)
	var all []Bubble
	for _, v := range s.Voices {
		for _, at := range v.times(r, s.Seconds) {
			radius := v.Radius * math.Exp(v.Spread*r.NormFloat64())
			loud := v.Loud * math.Exp(v.LoudSpread*r.NormFloat64())
			f, d := s.ring(radius)
			if v.Damping > 0 {
				d *= v.Damping
			}
			all = append(all, Bubble{at, f, radius})
			phase := 2 * math.Pi * r.Float64()
			for i := int(math.Ceil(at * float64(s.Rate))); i < n; i++ {
				t := float64(i)/float64(s.Rate) - at
				if d*t > 9 {
					break
				}
				rise := 1 - math.Exp(-t*f) // the neck breaks in about a period
				x[i] += loud * rise * math.Exp(-d*t) * math.Sin(phase+2*math.Pi*f*t*(1+v.Chirp*d*t/2))
			}
		}
	}
	for _, z := range s.Noises {
		z.add(x, s.Rate, r)
	}
	out := make([]float32, n)
	for i, y := range x {
		out[i] = float32(math.Max(-1, math.Min(1, y)))
	}
	return out, all
}

func (v Voice) times(r *rand.Rand, seconds float64) []float64 {
	var at []float64
	if v.PerSecond <= 0 {
		return nil
	}
	mean := 1 / v.PerSecond
	if v.Jitter < 0 {
		for t := r.ExpFloat64() * mean; t < seconds-0.05; {
			at = append(at, t)
			t += v.Dead + r.ExpFloat64()*math.Max(0, mean-v.Dead)
		}
		return at
	}
	for t := mean * r.Float64(); t < seconds-0.05; t += mean * math.Max(0.1, 1+v.Jitter*r.NormFloat64()) {
		at = append(at, t)
	}
	return at
}

// Kind is a kind of noise.
type Kind int

// The kinds of noise.
const (
	White Kind = iota
	Pink
	Wind // falls steeply with pitch, in gusts
	Roar // of a burner: 60 to 1500 Hz, flickering
	Hum  // 50 Hz and its harmonics up to 2 kHz
	Hum60
)

// Noise is noise of one kind. Its amplitude is the root mean square between 200 and 4000 Hz,
// for wind and hum over all pitches.
type Noise struct {
	Kind Kind
	RMS  float64
}

// Under is the amplitude of a noise so many decibels under bubbles of the loudness: the
// power of the bubble's first moment against the noise's.
func Under(loud, decibel float64) float64 { return loud / math.Sqrt2 * math.Pow(10, -decibel/20) }

func (z Noise) add(x []float64, rate int, r *rand.Rand) {
	y := make([]float64, len(x))
	switch z.Kind {
	case White:
		for i := range y {
			y[i] = r.NormFloat64()
		}
	case Pink:
		pink(y, r)
	case Wind:
		wind(y, rate, r)
	case Roar:
		roar(y, rate, r)
	case Hum, Hum60:
		base := 50.0
		if z.Kind == Hum60 {
			base = 60
		}
		for k := 1.0; k*base < 2000; k++ {
			a, p := math.Exp(0.7*r.NormFloat64())/k, 2*math.Pi*r.Float64()
			for i := range y {
				y[i] += a * math.Sin(p+2*math.Pi*k*base*float64(i)/float64(rate))
			}
		}
	}
	low, high := 200.0, 4000.0
	if z.Kind == Wind || z.Kind == Hum || z.Kind == Hum60 {
		low, high = 5, float64(rate)/2
	}
	if have := bandRMS(y, rate, low, high); have > 0 {
		for i := range x {
			x[i] += y[i] * z.RMS / have
		}
	}
}

// pink by a sum of one-pole filters an octave apart.
func pink(y []float64, r *rand.Rand) {
	const poles = 10
	var s [poles]float64
	for i := range y {
		sum := 0.0
		a := 0.5
		for k := range s {
			s[k] += a * (r.NormFloat64() - s[k])
			sum += s[k] / math.Sqrt(a)
			a /= 2
		}
		y[i] = sum
	}
}

func wind(y []float64, rate int, r *rand.Rand) {
	var low, lower, gust float64
	a := 2 * math.Pi * 60 / float64(rate)
	g := 2 * math.Pi * 0.4 / float64(rate)
	for i := range y {
		low += a * (r.NormFloat64() - low)
		lower += a * (low - lower)
		gust += g * (r.NormFloat64() - gust)
		y[i] = (0.85*lower + 0.15*low) * math.Exp(1.2*gust/math.Sqrt(g/2))
	}
}

func roar(y []float64, rate int, r *rand.Rand) {
	var high, low, flicker float64
	h, l := 2*math.Pi*60/float64(rate), 2*math.Pi*600/float64(rate)
	g := 2 * math.Pi * 8 / float64(rate)
	for i := range y {
		low += l * (r.NormFloat64() - low)
		high += h * (low - high)
		flicker += g * (r.NormFloat64() - flicker)
		y[i] = (low - high) * (1 + 0.3*flicker/math.Sqrt(g/2))
	}
}

// bandRMS measures by the mean of periodograms of Hann-weighted blocks.
func bandRMS(y []float64, rate int, low, high float64) float64 {
	const n = 8192
	if len(y) < n {
		return 0
	}
	fft := fourier.NewFFT(n)
	block := make([]float64, n)
	sum, blocks := 0.0, 0
	for at := 0; at+n <= len(y) && blocks < 200; at += n * max(1, len(y)/n/200) {
		for i := range block {
			block[i] = y[at+i] * (0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/n))
		}
		for k, c := range fft.Coefficients(nil, block) {
			if f := float64(k) * float64(rate) / n; f >= low && f <= high {
				sum += 2 * (real(c)*real(c) + imag(c)*imag(c))
			}
		}
		blocks++
	}
	return math.Sqrt(sum / float64(blocks) / n / n / 0.375)
}
