package route

import (
	"math"

	"rosesalt/chem/table"
)

// lesser and greater are min and max of two numbers. The builtins look after
// NaN and signed zero, which no amount here is, and in WebAssembly that is a call
// for each; these are a comparison.

func lesser[T ~float64](a, b T) T {
	if a < b {
		return a
	}
	return b
}

func greater[T ~float64](a, b T) T {
	if a > b {
		return a
	}
	return b
}

// at is a table's value at a number that the limits of the inputs keep within it.
func at[T ~float64](t *table.Table, x T) float64 {
	y, err := t.At(float64(x))
	if err != nil {
		panic(err)
	}
	return y
}

// root finds where f is zero between low, where it is below, and high, where it is
// above: by the secant, halving the weight of an end that stays twice (the
// Illinois rule, Dowell and Jarratt, BIT 11 (1971) 168, from memory), and every
// third step by halving the interval, since f may stand still over a part of it.
// It is near enough when f is within enough of zero.
func root(f func(float64) float64, low, below, high, above, enough float64) float64 {
	side := 0
	for i := range 150 {
		x := (low*above - high*below) / (above - below)
		if i%3 == 2 {
			x, side = (low+high)/2, 0
		}
		y := f(x)
		switch {
		case math.Abs(y) <= enough || high-low <= 1e-15*high:
			return x
		case y < 0:
			low, below = x, y
			if side < 0 {
				above /= 2
			}
			side = -1
		default:
			high, above = x, y
			if side > 0 {
				below /= 2
			}
			side = 1
		}
	}
	return (low + high) / 2
}
