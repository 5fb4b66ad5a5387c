package working

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"
)

// This file reads printed workings again: with an arithmetic of its own, in which a
// printed number is all numbers that are printed so, and with the units.

// span is an interval with a unit; size is how large the numbers were that went in.
type span struct {
	low, high, size float64
	unit            unit
}

// unit is the powers of the base units.
type unit string

// base says which units are the same for the eye of a chemist: a kelvin of
// difference is a degree.
var base = strings.NewReplacer("°C", "K", "(", "", ")", "", "a second", "1/s", "× an hour", "1/h", "×", "")

func unitOf(text string, power int) map[string]int {
	m := map[string]int{}
	for i, part := range strings.Split(base.Replace(text), "/") {
		sign := power
		if i > 0 {
			sign = -power
		}
		// In J/(g·K) all behind the stroke is below it.
		for _, one := range strings.Split(part, "·") {
			if one != "" && one != "1" {
				m[one] += sign
			}
		}
	}
	return m
}

func pack(m map[string]int) unit {
	var parts []string
	for name, power := range m {
		if power != 0 {
			parts = append(parts, fmt.Sprintf("%s^%d", name, power))
		}
	}
	sort.Strings(parts)
	return unit(strings.Join(parts, " "))
}

func (u unit) times(other unit, power int) unit {
	m := map[string]int{}
	for i, list := range []unit{u, other} {
		for _, part := range strings.Fields(string(list)) {
			name, text, _ := strings.Cut(part, "^")
			n, _ := strconv.Atoi(text)
			if i == 1 {
				n *= power
			}
			m[name] += n
		}
	}
	return pack(m)
}

type reader struct {
	text []rune
	at   int
}

type wrong string

func (r *reader) fail(format string, args ...any) {
	panic(wrong(fmt.Sprintf(format, args...) + " in " + string(r.text)))
}

func (r *reader) peek(s string) bool {
	return strings.HasPrefix(string(r.text[r.at:]), s)
}

func (r *reader) take(s string) bool {
	if !r.peek(s) {
		return false
	}
	r.at += len([]rune(s))
	return true
}

func (r *reader) sum() span {
	a := r.product()
	for {
		switch {
		case r.take(" + "):
			b := r.product()
			r.same(a, b)
			a = span{a.low + b.low, a.high + b.high, math.Max(a.size, b.size), a.unit}
		case r.take(" − "):
			b := r.product()
			r.same(a, b)
			a = span{a.low - b.high, a.high - b.low, math.Max(a.size, b.size), a.unit}
		default:
			return a
		}
	}
}

func (r *reader) same(a, b span) {
	if a.unit != b.unit {
		r.fail("%q and %q cannot be added or compared", a.unit, b.unit)
	}
}

func (r *reader) product() span {
	a := r.power()
	for {
		switch {
		case r.take(" × "):
			a = corners(a, r.power(), func(x, y float64) float64 { return x * y }, 1)
		case r.take(" / "):
			a = corners(a, r.power(), func(x, y float64) float64 { return x / y }, -1)
		default:
			return a
		}
	}
}

func corners(a, b span, f func(x, y float64) float64, power int) span {
	c := span{math.Inf(1), math.Inf(-1), f(a.size, b.size), a.unit.times(b.unit, power)}
	if power < 0 {
		c.size = a.size / math.Min(math.Abs(b.low), math.Abs(b.high))
	}
	for _, x := range []float64{a.low, a.high} {
		for _, y := range []float64{b.low, b.high} {
			c.low, c.high = math.Min(c.low, f(x, y)), math.Max(c.high, f(x, y))
		}
	}
	return c
}

func (r *reader) power() span {
	a := r.atom()
	if !r.take("^") {
		return a
	}
	b := r.atom()
	if a.unit != b.unit || a.low <= 0 {
		r.fail("only a bare number above 0 is raised to a power")
	}
	return corners(a, b, math.Pow, 1)
}

func (r *reader) atom() span {
	switch {
	case r.take("("):
		a := r.sum()
		if !r.take(")") {
			r.fail("no ) at %d", r.at)
		}
		return a
	case r.take("min("):
		return r.list(math.Min)
	case r.take("max("):
		return r.list(math.Max)
	case r.take("round up("):
		a := r.list(nil)
		return span{math.Ceil(a.low - 1e-9), math.Ceil(a.high - 1e-9), a.size, a.unit}
	case r.take("exp("):
		a := r.list(nil)
		return span{math.Exp(a.low), math.Exp(a.high), math.Exp(a.high), a.unit}
	case r.take("ln("):
		a := r.list(nil)
		return span{math.Log(a.low), math.Log(a.high), 1, a.unit}
	}
	return r.number()
}

func (r *reader) list(f func(a, b float64) float64) span {
	a := r.sum()
	for r.take("; ") {
		b := r.sum()
		r.same(a, b)
		a = span{f(a.low, b.low), f(a.high, b.high), math.Max(a.size, b.size), a.unit}
	}
	if !r.take(")") {
		r.fail("no ) at %d", r.at)
	}
	return a
}

var lowDigits = strings.NewReplacer("⁻", "-", "⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9")

// number reads a number. One of six figures stands for all that round to it, one of
// fewer for itself.
func (r *reader) number() span {
	sign := 1.0
	if r.take("−") {
		sign = -1
	}
	start := r.at
	for r.at < len(r.text) && strings.ContainsRune("0123456789.", r.text[r.at]) {
		r.at++
	}
	mantissa := string(r.text[start:r.at])
	power := 0
	if r.take("×10") {
		start := r.at
		for r.at < len(r.text) && strings.ContainsRune("⁻⁰¹²³⁴⁵⁶⁷⁸⁹", r.text[r.at]) {
			r.at++
		}
		n, err := strconv.Atoi(lowDigits.Replace(string(r.text[start:r.at])))
		if err != nil {
			r.fail("bad power")
		}
		power = n
	}
	v, err := strconv.ParseFloat(fmt.Sprintf("%se%d", mantissa, power), 64)
	if err != nil {
		r.fail("no number at %d", start)
	}
	half := 0.0
	if bare := strings.TrimLeft(strings.Replace(mantissa, ".", "", 1), "0"); len(bare) == 6 {
		decimals := 0
		if _, part, ok := strings.Cut(mantissa, "."); ok {
			decimals = len(part)
		}
		half = 0.5 * math.Pow(10, float64(power-decimals))
	}
	half += 1e-12 * v // the last digits of the arithmetic
	u := unit("")
	if r.take("\u202f") {
		start := r.at
		for r.at < len(r.text) && !strings.ContainsRune(" ;", r.text[r.at]) && !r.closes() {
			r.at++
		}
		text := string(r.text[start:r.at])
		for _, last := range []string{" second", " an hour"} {
			if r.take(last) {
				text += last
			}
		}
		u = pack(unitOf(text, 1))
	}
	a := span{sign*v - half, sign*v + half, v, u}
	return a
}

// closes tells whether a bracket here closes the formula's, not the unit's.
func (r *reader) closes() bool {
	if r.text[r.at] != ')' {
		return false
	}
	depth := 0
	for i := r.at - 1; i >= 0 && r.text[i] != '\u202f'; i-- {
		if r.text[i] == '(' {
			depth++
		}
	}
	return depth == 0 || r.text[r.at-1] == ')'
}

// expression reads all of a text; comparisons give what each side is.
func expression(text string) (a, b span, sign string) {
	r := &reader{text: []rune(text)}
	a = r.sum()
	for _, s := range []string{"<", ">", "≤", "≥"} {
		if r.take(" " + s + " ") {
			b, sign = r.sum(), s
			r.same(a, b)
			break
		}
	}
	if r.at != len(r.text) {
		r.fail("%q is left over", string(r.text[r.at:]))
	}
	return a, b, sign
}

// reread holds one step: the printed numbers, worked out, give the printed result,
// and its unit; a printed condition is true.
func reread(s *Step) (err error) {
	defer func() {
		if r := recover(); r != nil {
			why, ok := r.(wrong)
			if !ok {
				panic(r)
			}
			err = fmt.Errorf("%s", string(why))
		}
	}()
	if s.Name == "since" {
		a, b, sign := expression(s.Numbers)
		is := map[string]bool{"<": a.low < b.high, "≤": a.low <= b.high, ">": a.high > b.low, "≥": a.high >= b.low}[sign]
		if !is {
			return fmt.Errorf("not so: %s", s.Numbers)
		}
		return nil
	}
	if s.Numbers == "" {
		if s.Words == "" && s.Unit == "" {
			return nil // a word
		}
		return nil
	}
	want, _, _ := expression(s.Result)
	have, _, sign := expression(s.Numbers)
	if sign != "" {
		return fmt.Errorf("a comparison is no value: %s", s.Numbers)
	}
	if have.unit != want.unit {
		return fmt.Errorf("%s is in %q, not %q", s.Numbers, have.unit, want.unit)
	}
	slack := 1e-9*have.size + 1e-13 // the ledger's last digits of a thousand moles
	if have.high < want.low-slack || have.low > want.high+slack {
		return fmt.Errorf("%s is %v to %v, not %s", s.Numbers, have.low, have.high, s.Result)
	}
	if width := have.high - have.low; width > 1e-2*math.Max(have.size, math.Abs(want.high)) && !strings.Contains(s.Numbers, "round up") {
		return fmt.Errorf("%s says only %v to %v", s.Numbers, have.low, have.high)
	}
	return nil
}

// sizeOf is how large the numbers are that a step's result was worked out from.
func sizeOf(s *Step) float64 {
	if s.Numbers == "" {
		return math.Abs(s.Value)
	}
	a, _, _ := expression(s.Numbers)
	return a.size
}
