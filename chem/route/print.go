package route

import (
	"math"
	"strconv"
	"strings"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
)

// thin is the narrow no-break space between a number and its unit.
const thin = "\u202f"

// larger gives the next unit up, a thousandfold, for numbers too long to read.
var larger = map[string]string{"mmol": "mol", "mg": "g", "g": "kg", "mL": "L", "kJ": "MJ"}

// PrintGiven is [Print]; "" of a number that is not given.
func PrintGiven(v float64, unit string) string {
	if !quantity.Given(v) {
		return ""
	}
	return Print(v, unit)
}

// Print writes a figure as a person reads it, in a sensible unit: two digits, three
// from a hundred on, a true minus, thin spaces. Zero is "0".
func Print(v float64, unit string) string {
	return joined(PrintParts(v, unit))
}

// joined is a number with its unit, if it has one.
func joined(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + thin + unit
}

// PrintParts is Print with number and unit apart.
func PrintParts(v float64, unit string) (number, in string) {
	if up, ok := larger[unit]; ok && math.Abs(v) >= 1000 {
		v, unit = v/1000, up
	}
	return digits(v), unit
}

// leastPrinted is the least that is not printed as 0.
const leastPrinted = 1e-9

// decimals are the places behind the point that Print writes of a value above 0, below 0 where
// it rounds to tens or more.
func decimals(a float64) int {
	switch power := int(math.Floor(math.Log10(a))); {
	case a >= 999.5:
		return 2 - power
	case a >= 9.95:
		return 0
	default:
		return 1 - power
	}
}

// Shown is a value with the digits that Print shows of it, for a button that writes into a field
// what it says.
func Shown(v float64) float64 {
	if math.Abs(v) < leastPrinted {
		return 0
	}
	places := decimals(math.Abs(v))
	if places < 0 { // no float holds a power below 1 exactly, so the one above it divides
		scale := math.Pow10(-places)
		return math.Round(v/scale) * scale
	}
	shown, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'f', places, 64), 64) // as digits rounds it
	return shown
}

func digits(v float64) string {
	a := math.Abs(v)
	if a < leastPrinted {
		return "0"
	}
	decimals := decimals(a)
	if decimals < 0 {
		a = Shown(a)
	}
	s := strconv.FormatFloat(a, 'f', max(0, decimals), 64)
	if strings.Contains(s, ".") && decimals > 0 {
		s = trimmed(s)
	}
	s = field.Grouped(s)
	if v < 0 {
		s = "−" + s
	}
	return s
}

// trimmed leaves off zeros that rounding to two digits put at the end of a whole
// number such as "4.0" for a count of four.
func trimmed(s string) string {
	if whole, part, ok := strings.Cut(s, "."); ok && strings.Trim(part, "0") == "" {
		return whole
	}
	return s
}

// Count is a whole number of things, such as "1 wash" or "2 washes"; many is the plural
// where an s behind the singular does not make it.
func Count(n float64, one string, many ...string) string {
	switch {
	case n == 1:
		return "1 " + one
	case len(many) > 0:
		return Print(n, "") + " " + many[0]
	}
	return Print(n, "") + " " + one + "s"
}

// Plain writes a number as a field takes it: decimal, all its digits, no groups.
func Plain(v float64) string { return field.Plain(v) }

// Clip keeps a message readable, whatever was pasted; see package field.
func Clip(s string, most int) string { return field.Clip(s, most) }

// Scale brings a figure to the unit that it is read in: a thousandfold one for
// numbers too long to read.
func Scale(v float64, unit string) (factor float64, in string) {
	if up, ok := larger[unit]; ok && math.Abs(v) >= 1000 {
		return 0.001, up
	}
	return 1, unit
}

// Fixed writes a number with so many decimals, grouped, with a true minus. Zeros
// that mean nothing are below zero decimals and stay.
func Fixed(v float64, decimals int) string {
	s := field.Grouped(strconv.FormatFloat(math.Abs(v), 'f', max(0, decimals), 64))
	if v < 0 && strings.Trim(s, "0.") != "" {
		s = "−" + s
	}
	return s
}
