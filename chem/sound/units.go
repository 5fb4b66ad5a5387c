package sound

import "math"

// Second is a time in seconds, from the beginning of a recording or of the gas.
type Second float64

// Hertz is a pitch.
type Hertz float64

// Millimetre is a length.
type Millimetre float64

// Decibel is a level; 0 is full scale of the recording, louder is not possible.
type Decibel float64

// Band is a value with the interval in which it lies eight times in ten. The unit is the
// field's.
type Band struct{ Low, Best, High float64 }

// Exactly is a band without width.
func Exactly(x float64) Band { return Band{x, x, x} }

// By multiplies two independent bands: on each side the squares of the logarithmic widths
// add up, which is exact for lognormal factors. A band that reaches zero keeps zero as its
// end.
func (b Band) By(c Band) Band {
	best := b.Best * c.Best
	if best <= 0 {
		return Band{b.Low * c.Low, best, b.High * c.High}
	}
	side := func(end, mid, end2, mid2 float64) float64 {
		if end <= 0 || end2 <= 0 {
			return 0
		}
		return math.Hypot(math.Log(end/mid), math.Log(end2/mid2))
	}
	low := best * math.Exp(-side(b.Low, b.Best, c.Low, c.Best))
	if b.Low <= 0 || c.Low <= 0 {
		low = 0
	}
	return Band{low, best, best * math.Exp(side(b.High, b.Best, c.High, c.Best))}
}

// Whole is a band of whole numbers, as counts are told, that holds the band.
func (b Band) Whole() Band { return Band{math.Floor(b.Low), math.Round(b.Best), math.Ceil(b.High)} }

// Times scales a band by a number that is not below zero.
func (b Band) Times(x float64) Band { return Band{b.Low * x, b.Best * x, b.High * x} }
