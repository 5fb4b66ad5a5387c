package chart

import (
	"math"
	"strconv"
	"strings"
)

// step is the least of 1, 2 and 5 times a power of ten that divides a span into
// at most n parts.
func step(span float64, n int) float64 {
	if !(span > 0) || n < 1 {
		return 1
	}
	least := span / float64(n)
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, m := range [...]float64{1, 2, 5, 10} {
		if m*power >= least*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// scale takes values along an axis to 0..1.
type scale struct {
	axis      Axis
	low, high float64 // of a log axis, their logarithms
	step      float64 // between ticks; of a log axis, in decades
}

// newScale fits an axis to values from low to high; where high is below low there
// are none, and the axis has no ticks. A linear axis that is rounded ends at
// ticks; another ends where the values do.
func newScale(a Axis, low, high float64, n int, rounded bool) scale {
	if high < low {
		return scale{axis: a, low: 0, high: 1}
	}
	if a.Log {
		if !(low > 0) {
			low, high = 1, 10
		}
		l, h := math.Log10(low)-0.15, math.Log10(high)+0.15
		if math.Floor(h)-math.Ceil(l) < 1 { // two decades at least, to read it by
			l, h = math.Floor(l), math.Ceil(h)
		}
		return scale{a, l, h, math.Max(1, math.Ceil((h-l)/float64(n)))}
	}
	if !drawable(low) || !drawable(high) {
		low, high = 0, 1
	}
	if !a.Free {
		low, high = math.Min(low, 0), math.Max(high, 0)
	}
	if high-low <= 1e-9*math.Max(math.Abs(high), math.Abs(low)) {
		// All equal: leave some room on the sides of it.
		room := math.Max(math.Abs(high)*0.05, 0)
		if room == 0 {
			low, high = 0, 1
		} else {
			low, high = low-room, high+room
		}
	}
	s := scale{axis: a, low: low, high: high, step: step(high-low, n)}
	if a.Whole {
		s.step = math.Max(1, s.step)
	}
	if rounded {
		s.low = s.step * math.Floor(low/s.step+1e-9)
		s.high = s.step * math.Ceil(high/s.step-1e-9)
		if s.high <= s.low {
			s.high = s.low + s.step
		}
	}
	return s
}

// place is where a value lies, 0 to 1, and whether it can be drawn.
func (s scale) place(v float64) (float64, bool) {
	if s.axis.Log {
		if !(v > 0) {
			return 0, false
		}
		v = math.Log10(v)
	}
	t := (v - s.low) / (s.high - s.low)
	return t, t >= -1e-6 && t <= 1+1e-6
}

// tick is a round value of an axis and how it is written.
type tick struct {
	at   float64
	text string
}

// ticks are the round values within the axis.
func (s scale) ticks() []tick {
	var list []tick
	if s.step == 0 {
		return nil
	}
	first, last := math.Ceil(s.low/s.step-1e-9), math.Floor(s.high/s.step+1e-9)
	power := int(math.Floor(math.Log10(s.step) + 1e-9))
	for k := first; k <= last && len(list) < 60; k++ {
		v := k*s.step + 0 // no "-0"
		value := v
		if s.axis.Log {
			value = math.Pow(10, v)
		}
		if _, within := s.place(value); !within {
			continue
		}
		switch {
		case s.axis.Log:
			list = append(list, tick{value, decade(int(v))})
		case v == 0 && s.axis.Zero != "":
			list = append(list, tick{0, s.axis.Zero})
		case v != 0 && (power > 5 || power < -5): // all digits would take the room of the field
			list = append(list, tick{v, Fixed(v/math.Pow10(power), 0) + "·" + decade(power)})
		default:
			list = append(list, tick{v, Fixed(v, max(0, -power))})
		}
	}
	return list
}

// Fixed writes a number with so many decimals, in the page's way.
func Fixed(v float64, decimals int) string {
	if v == 0 {
		return "0"
	}
	if decimals == 0 && math.Abs(v) >= 10000 {
		return grouped(v)
	}
	return strings.Replace(strconv.FormatFloat(v, 'f', decimals, 64), "-", "−", 1)
}

func grouped(v float64) string {
	s := strconv.FormatFloat(math.Abs(v), 'f', 0, 64)
	out := ""
	for len(s) > 3 {
		out = "\u202f" + s[len(s)-3:] + out
		s = s[:len(s)-3]
	}
	if v < 0 {
		s = "−" + s
	}
	return s + out
}

var raised = strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")

// decade writes a power of ten.
func decade(n int) string {
	switch {
	case n >= 0 && n <= 5:
		return Fixed(math.Pow10(n), 0)
	case n < 0 && n >= -3:
		return Fixed(math.Pow10(n), -n)
	}
	return "10" + raised.Replace(strconv.Itoa(n))
}

// Title is the axis' name with its unit.
func (a Axis) Title() string {
	if a.Unit == "" {
		return a.Name
	}
	return a.Name + ", " + a.Unit
}
