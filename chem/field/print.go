package field

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Plain writes a number as a field takes it: decimal, all its digits, no groups.
func Plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// thin is the narrow no-break space between a number and its unit.
const thin = "\u202f"

// Print is a value with its unit, in all its digits, as a message names it.
func (f *Field) Print(v float64) string {
	s := strconv.FormatFloat(math.Abs(v), 'g', -1, 64)
	if a := math.Abs(v); a >= 1e4 && a < 1e15 {
		s = Grouped(strconv.FormatFloat(a, 'f', -1, 64))
	}
	if v < 0 {
		s = "−" + s
	}
	if f.Unit == "" {
		return s
	}
	return s + thin + f.Unit
}

// Grouped puts thin spaces between groups of three from five digits on.
func Grouped(s string) string {
	whole, part, dot := strings.Cut(s, ".")
	if len(whole) < 5 {
		return s
	}
	out := ""
	for len(whole) > 3 {
		out = thin + whole[len(whole)-3:] + out
		whole = whole[:len(whole)-3]
	}
	out = whole + out
	if dot {
		out += "." + part
	}
	return out
}

// Clip keeps a message readable, whatever was pasted: no more than so many letters, and
// a mark in place of those that are not seen but break the line or turn the direction
// of what follows.
func Clip(s string, most int) string {
	var b strings.Builder
	for _, r := range s {
		if most--; most < 0 {
			return b.String() + "…"
		}
		if unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) {
			r = utf8.RuneError
		}
		b.WriteRune(r) // what is no valid text is RuneError already
	}
	return b.String()
}

// clip is Clip for the messages at a field.
func clip(s string) string { return Clip(s, 40) }
