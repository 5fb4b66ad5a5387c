package field

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"rosesalt/chem/quantity"
)

// aliases are the units that a field understands beside its own, with the factor
// that brings them to it. Lower case; the field's own unit is understood as it
// stands.
var aliases = map[string]map[string]float64{
	"mL":   {"ml": 1, "cc": 1, "cm3": 1, "cm³": 1, "l": 1000, "litre": 1000, "litres": 1000, "liter": 1000, "liters": 1000},
	"g":    {"gram": 1, "grams": 1, "gramme": 1, "grammes": 1, "kg": 1000, "mg": 0.001},
	"%":    {"percent": 1, "per cent": 1},
	"°C":   {"c": 1, "degc": 1, "deg c": 1, "℃": 1, "°": 1},
	"min":  {"minute": 1, "minutes": 1, "h": 60, "hour": 60, "hours": 60},
	"kPa":  {"hpa": 0.1, "mbar": 0.1, "bar": 100},
	"mL/h": {"ml/hour": 1, "ml per hour": 1},
	"mL/g": {"ml per g": 1},
	"mg/L": {"ppm": 1},
	"×":    {"x": 1, "times": 1},
	"":     {"cell": 1, "cells": 1, "pcs": 1},
}

// maxTyped is the longest text that is taken for a number: the smallest float64
// in plain decimal fits.
const maxTyped = 400

// number makes a number of what was typed or pasted: a decimal comma or point,
// spaces between thousands, a true minus, the field's unit or a common relation
// of it behind the number. Nothing at all is Blank. The error names what was
// typed and what is wanted; limits are Accept's concern.
func (f *Field) number(text string) (float64, error) {
	s := strings.Map(func(r rune) rune {
		switch r {
		case '−', '–':
			return '-'
		case '\u00a0', '\u202f', '\u2009', '\t', '\n', '\r':
			return ' '
		}
		return r
	}, text)
	s = strings.TrimSpace(s)
	if s == "" {
		return quantity.Blank, nil
	}
	number, unit := splitNumber(s)
	v, err := strconv.ParseFloat(number, 64)
	factor, ok := f.factor(unit)
	v *= factor
	switch {
	case len(s) > maxTyped || !ok || err != nil && !isRange(err) || math.IsInf(v, 0):
		return 0, f.unread(text)
	case thousands(s, ","):
		return 0, twoWays(s, strings.Replace(s, ",", ".", 1), strings.Replace(s, ",", "", 1))
	case thousands(s, ".") && strings.HasSuffix(number, "0") && math.Abs(v)*1000 <= f.Max:
		// A last figure that is not zero was read off a balance.
		return 0, twoWays(s, strings.Replace(s, number, number[:len(number)-1], 1), strings.Replace(s, ".", "", 1))
	}
	return v, nil
}

// betweenDigits finds a hyphen that parts two numbers and is no sign.
var betweenDigits = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[^-]*[0-9%] *(-) *[0-9]`) })

// Ends parts "50-95", "50 to 95" or "50–95", whatever stands at the two ends, by the first of the
// signs that parts it into two: those that always part, and then the others given.
func Ends(text string, others ...string) (low, high string, ok bool) {
	if hyphen := betweenDigits().FindStringSubmatchIndex(text); hyphen != nil {
		text = text[:hyphen[2]] + " to " + text[hyphen[3]:]
	}
	for _, sign := range append([]string{" to ", " until ", " till ", "–", "…"}, others...) {
		if ends := strings.Split(text, sign); len(ends) == 2 {
			return ends[0], ends[1], true
		}
	}
	return "", "", false
}

func twoWays(s, one, other string) error {
	return fmt.Errorf("“%s” may be one and a bit or a thousand and more. Type %s or %s.", clip(s), clip(one), clip(other))
}

func isRange(err error) bool {
	e, ok := err.(*strconv.NumError)
	return ok && e.Err == strconv.ErrRange
}

func (f *Field) unread(text string) error {
	what := "a number"
	if f.Unit != "" && f.Unit != "×" {
		what += " in " + f.Unit
	}
	example := f.Default
	if !quantity.Given(example) {
		example = 10
	}
	return fmt.Errorf("“%s” cannot be read as %s. Type one such as %s%s.", clip(strings.TrimSpace(text)), what, f.Print(example), f.orBlank())
}

func (f *Field) orBlank() string {
	if f.Blank == "" {
		return ""
	}
	return ", or leave it blank: " + f.Blank
}

func (f *Field) factor(unit string) (float64, bool) {
	if unit == "" || strings.EqualFold(unit, f.Unit) {
		return 1, true
	}
	by, ok := aliases[f.Unit][strings.ToLower(unit)]
	return by, ok
}

// splitNumber takes the number off the front, brings its decimal mark to a
// point, and leaves the unit.
func splitNumber(s string) (number, unit string) {
	end := 0
	for end < len(s) && strings.IndexByte("+-0123456789., ", s[end]) >= 0 {
		end++
	}
	if end > 0 && end < len(s) && (s[end] == 'e' || s[end] == 'E') {
		exponent := end + 1
		if exponent < len(s) && (s[exponent] == '-' || s[exponent] == '+') {
			exponent++
		}
		digits := exponent
		for digits < len(s) && s[digits] >= '0' && s[digits] <= '9' {
			digits++
		}
		if digits > exponent {
			end = digits
		}
	}
	number, unit = s[:end], strings.TrimSpace(s[end:])
	number = closeGroups(strings.TrimSpace(number))
	switch {
	case strings.Count(number, ",") == 1 && !strings.Contains(number, "."):
		number = strings.Replace(number, ",", ".", 1)
	case strings.Contains(number, ",") && strings.LastIndex(number, ".") > strings.LastIndex(number, ","):
		number = strings.ReplaceAll(number, ",", "")
	}
	return number, unit
}

// thousands tells whether a comma or a point stands where it may part thousands as well as
// decimals: behind one to three digits, the first not 0, and before just three.
func thousands(s, mark string) bool {
	whole, rest, ok := strings.Cut(s, mark)
	whole = strings.TrimLeft(whole, "+-")
	if !ok || len(whole) == 0 || len(whole) > 3 || whole[0] == '0' {
		return false
	}
	digits := 0
	for digits < len(rest) && rest[digits] >= '0' && rest[digits] <= '9' {
		digits++
	}
	return digits == 3 && (len(rest) == 3 || strings.IndexByte(".,", rest[3]) < 0)
}

// closeGroups takes out spaces that part thousands; any other space stays, and
// makes the text unreadable, as two numbers beside each other should be.
func closeGroups(s string) string {
	head, rest, ok := strings.Cut(s, " ")
	for ok {
		var group string
		group, rest, ok = strings.Cut(rest, " ")
		whole, _, _ := strings.Cut(strings.Replace(group, ",", ".", 1), ".")
		if len(whole) != 3 {
			return s
		}
		head += group
	}
	return head
}
