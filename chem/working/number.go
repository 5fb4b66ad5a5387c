package working

import (
	"math"
	"strconv"
	"strings"

	"rosesalt/chem/formula"
)

// thin is the narrow no-break space between a number and its unit.
const thin = "\u202f"

// figuresShown is to how many figures numbers are written in a working: enough to
// work on with, few enough to read.
const figuresShown = 6

// digits writes a number with up to six figures: as many as it has, or all six,
// zeros at the end too, where more were cut off. From a million on, and below a
// thousandth, powers of ten are split off.
func digits(v float64) string {
	a := math.Abs(v)
	if a == 0 {
		return "0"
	}
	sign := ""
	if v < 0 {
		sign = "−"
	}
	// The last digits of the arithmetic are no figures.
	if s := strconv.FormatFloat(a, 'g', 13, 64); a >= 1e-3 && a < 1e6 && !strings.Contains(s, "e") {
		if bare := strings.TrimLeft(strings.Replace(s, ".", "", 1), "0"); len(bare) <= figuresShown {
			return sign + s
		}
	}
	mantissa, power, _ := strings.Cut(strconv.FormatFloat(a, 'e', figuresShown-1, 64), "e")
	n, _ := strconv.Atoi(power)
	if n >= -3 && n < figuresShown {
		return sign + strconv.FormatFloat(a, 'f', figuresShown-1-n, 64)
	}
	return sign + mantissa + "×10" + exponents.Replace(strconv.Itoa(n))
}

var exponents = strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")

func withUnit(number, unit string) string {
	if unit == "" || unit == "×" {
		return number
	}
	return number + thin + unit
}

// written is a number with its unit.
func written(v float64, unit string) string { return withUnit(digits(v), unit) }

// lowered writes a formula, or an equation of formulas, as it is printed; a number in it keeps to
// what it counts.
func lowered(text string) string {
	list := []rune(formula.Typeset(text))
	for i := 1; i < len(list); i++ {
		if list[i] == ' ' && list[i-1] >= '0' && list[i-1] <= '9' {
			list[i] = '\u00a0'
		}
	}
	return string(list)
}

// bracketed marks a name of more than one word, so that its end can be seen.
func bracketed(name string) string {
	if strings.ContainsAny(name, " −") {
		return "[" + name + "]"
	}
	return name
}
