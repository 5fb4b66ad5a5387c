package sound

import "math"

// decimator lowers the rate of samples by a whole factor after a low pass, streamed.
type decimator struct {
	factor int
	taps   []float64
	line   []float64 // the last len(taps) samples, twice, so that a window is one slice
	at     int       // where the next sample goes
	phase  int
}

// newDecimator lowers a rate to no less than least, both in samples a second. It keeps
// pitches up to pass; aliases fall above it only.
func newDecimator(rate, least int, pass float64) *decimator {
	d := &decimator{factor: max(1, rate/least)}
	if d.factor == 1 {
		return d
	}
	out := float64(rate) / float64(d.factor)
	width := math.Max(out-2*pass, out/10) // between pass and what would fold onto it
	// Hamming: 3.3 over the relative width (common practice).
	n := int(3.3*float64(rate)/width) | 1
	d.taps = make([]float64, n)
	cut := out / 2 / float64(rate)
	sum := 0.0
	for i := range d.taps {
		x := float64(i - n/2)
		s := 2 * cut
		if x != 0 {
			s = math.Sin(2*math.Pi*cut*x) / (math.Pi * x)
		}
		d.taps[i] = s * (0.54 + 0.46*math.Cos(2*math.Pi*x/float64(n)))
		sum += d.taps[i]
	}
	for i := range d.taps {
		d.taps[i] /= sum
	}
	d.line = make([]float64, 2*n)
	return d
}

// push takes a sample; ok tells whether it completes one of the lower rate.
func (d *decimator) push(x float64) (y float64, ok bool) {
	if d.factor == 1 {
		return x, true
	}
	n := len(d.taps)
	d.line[d.at], d.line[d.at+n] = x, x
	d.at++
	if d.at == n {
		d.at = 0
	}
	d.phase++
	if d.phase < d.factor {
		return 0, false
	}
	d.phase = 0
	window := d.line[d.at : d.at+n]
	for i, t := range d.taps {
		y += t * window[i]
	}
	return y, true
}

// delay is that of the filter, in seconds, at the given input rate.
func (d *decimator) delay(rate int) float64 { return float64(len(d.taps)/2) / float64(rate) }
