package spread

import "math"

// Rounded is a value and its interval, rounded to the same place.
type Rounded struct {
	Best, Low, High float64
	// Decimals are the digits behind the point; below zero, the zeros before it that
	// mean nothing.
	Decimals int
}

// Round rounds a value and its interval so that the last digit means something:
// of half the interval's width no more than two significant digits are kept
// (GUM, JCGM 100:2008, 7.2.6), and one only where the first is four or more, since a
// tenth part of so wide a step tells nothing (as the Particle Data Group rounds,
// Review of Particle Physics, Phys. Rev. D 98 (2018) 030001, Introduction, 5.3, read in a
// quotation: two digits from 100 to 354, one to 949). An interval without width is no reason for more than four
// significant digits of the value.
func Round(best, low, high float64) Rounded {
	d := Decimals(low, high)
	if !(low < high) {
		d = 3 - exponent(best)
	}
	return Rounded{to(best, d), to(low, d), to(high, d), d}
}

// Decimals is the place that Round rounds to; 0 for an interval without width.
func Decimals(low, high float64) int {
	half := (high - low) / 2
	if !(half > 0) || math.IsInf(half, 0) {
		return 0
	}
	e := exponent(half)
	if shifted(half, 2-e) >= 354.5 {
		return -e // one digit, or what rounds up to 1.0 of the next power
	}
	return 1 - e
}

// HalfWidth rounds a half-width to two significant digits: up, where the nearest
// would make it smaller by more than a hundredth, as 10.47 to 11, else to the
// nearest, as 28.05 to 28 (the two examples of GUM 7.2.6).
func HalfWidth(u float64) float64 {
	if !(u > 0) || math.IsInf(u, 0) {
		return u
	}
	d := 1 - exponent(u)
	nearest := to(u, d)
	if nearest < u*0.99 {
		return unshifted(math.Ceil(shifted(u, d)), d)
	}
	return nearest
}

// exponent is the power of ten of the first digit, without a logarithm, whose
// last bit is not the same everywhere.
func exponent(v float64) int {
	v = math.Abs(v)
	if v == 0 || v != v || math.IsInf(v, 0) {
		return 0
	}
	e := 0
	for e < 300 && v >= math.Pow10(e+1) {
		e++
	}
	for e > -300 && v < math.Pow10(e) {
		e--
	}
	return e
}

func shifted(v float64, decimals int) float64 {
	if decimals >= 0 {
		return v * math.Pow10(decimals)
	}
	return v / math.Pow10(-decimals)
}

func unshifted(v float64, decimals int) float64 { return shifted(v, -decimals) }

func to(v float64, decimals int) float64 {
	return unshifted(math.Round(shifted(v, decimals)), decimals)
}
