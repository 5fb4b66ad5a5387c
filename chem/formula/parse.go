package formula

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Limits of what Parse accepts, far above any real salt: a page pasted by mistake
// is refused quickly, and no count overflows.
const (
	MaxLength  = 200       // MaxLength is the longest formula in characters.
	MaxNesting = 10        // MaxNesting is the deepest nesting of brackets.
	MaxCount   = 1_000_000 // MaxCount is the most atoms of one element in a formula unit.
	MaxCharge  = 99        // MaxCharge is the largest charge, of either sign.
)

// Parse reads a formula such as "Zn5(OH)8Cl2·H2O", "K4[Fe(CN)6]" or "SO4^2-".
//
// The parts of a hydrate or double salt are joined by "·", "*" or "."; each
// part after the first may begin with a multiplier, as in "CuSO4·5H2O". A
// charge ends the formula: a caret, a number if it is not 1, and a sign. The
// caret may be left out only where nothing can be misread, after a symbol or a
// bracket ("H+", "OH-"): "SO42-" is refused rather than read as 42 oxygens.
//
// Counts are whole numbers from 1 to MaxCount, without leading zeros. Spaces
// around the formula are dropped; inside it they are refused. The error names
// the place and the text.
func Parse(text string) (Formula, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return Formula{}, fmt.Errorf("formula: empty")
	}
	if n := utf8.RuneCountInString(text); n > MaxLength {
		return Formula{}, fmt.Errorf("formula: %d characters are more than %d", n, MaxLength)
	}
	p := parser{text: text}
	f, err := p.formula()
	if err != nil {
		return Formula{}, fmt.Errorf("formula: %w in %q", err, text)
	}
	return f, nil
}

// MustParse is Parse for formulas written in the program; it panics on what
// Parse refuses.
func MustParse(text string) Formula {
	f, err := Parse(text)
	if err != nil {
		panic(err)
	}
	return f
}

// atoms counts atoms by their place in the list of weights.
type atoms [len(weights)]int

// add puts n times the other atoms to these, and tells whether all counts
// stay within MaxCount.
func (a *atoms) add(other *atoms, n int) bool {
	for i, k := range other {
		a[i] += k * n // both at most MaxCount: no overflow
		if a[i] > MaxCount {
			return false
		}
	}
	return true
}

// parser reads text from left to right; at is the next byte.
type parser struct {
	text string
	at   int
}

func (p *parser) formula() (Formula, error) {
	var sum atoms
	for part := 0; ; part++ {
		n, err := p.count()
		if err != nil {
			return Formula{}, err
		}
		if part == 0 && n != 0 {
			return Formula{}, fmt.Errorf("number %d before the formula", n)
		}
		atoms, err := p.group(0)
		if err != nil {
			return Formula{}, err
		}
		if !sum.add(&atoms, max(n, 1)) {
			return Formula{}, errTooMany
		}
		if !p.dot() {
			break
		}
	}
	body := p.text[:p.at]
	charge, err := p.charge()
	if err != nil {
		return Formula{}, err
	}
	f := Formula{text: dots.Replace(body) + chargeText(charge), charge: charge}
	for i, n := range sum {
		if n > 0 {
			f.counts = append(f.counts, Count{weights[i].symbol, n})
		}
	}
	return f, nil
}

var errTooMany = fmt.Errorf("more than %d atoms of one element", MaxCount)

// closing gives the bracket that closes the given one, 0 where it opens none.
func closing(open byte) byte {
	switch open {
	case '(':
		return ')'
	case '[':
		return ']'
	case '{':
		return '}'
	}
	return 0
}

// group reads symbols and brackets, each with its count, up to whatever is
// neither.
func (p *parser) group(depth int) (atoms, error) {
	var sum atoms
	start := p.at
	for p.at < len(p.text) {
		var one atoms
		c := p.text[p.at]
		switch {
		case 'A' <= c && c <= 'Z':
			symbol := p.symbol()
			_, i := find(symbol)
			if i < 0 {
				return sum, fmt.Errorf("unknown element %q", symbol)
			}
			one[i] = 1
		case closing(c) != 0:
			if depth == MaxNesting {
				return sum, fmt.Errorf("brackets nested deeper than %d", MaxNesting)
			}
			p.at++
			inner, err := p.group(depth + 1)
			if err != nil {
				return sum, err
			}
			if p.at == len(p.text) || p.text[p.at] != closing(c) {
				return sum, fmt.Errorf("bracket %q is not closed", c)
			}
			p.at++
			one = inner
		default:
			return sum, p.ended(start, depth)
		}
		n, err := p.count()
		if err != nil {
			return sum, err
		}
		if !sum.add(&one, max(n, 1)) {
			return sum, errTooMany
		}
	}
	return sum, p.ended(start, depth)
}

// ended checks what a group stopped at: a group must hold something, and only
// a dot, a charge or, inside brackets, the closing bracket may follow it.
func (p *parser) ended(start, depth int) error {
	if p.at == len(p.text) {
		if p.at == start && depth == 0 {
			return fmt.Errorf("nothing after %q", p.text[:p.at])
		}
		return nil // an open bracket is noticed by the group outside
	}
	rest := p.text[p.at:]
	r, size := utf8.DecodeRuneInString(rest)
	if strings.ContainsRune(")]}", r) {
		switch {
		case depth == 0:
			return fmt.Errorf("bracket %q was not opened", r)
		case p.at == start:
			return fmt.Errorf("empty brackets")
		}
		return nil
	}
	if strings.ContainsRune("·*.^+-", r) && p.at > start {
		return nil
	}
	return fmt.Errorf("unexpected %q", rest[:size])
}

// symbol reads a capital and the small letters after it.
func (p *parser) symbol() string {
	start := p.at
	for p.at++; p.at < len(p.text) && 'a' <= p.text[p.at] && p.text[p.at] <= 'z'; p.at++ {
	}
	return p.text[start:p.at]
}

// count reads a whole number; 0 means that none is there.
func (p *parser) count() (int, error) {
	start := p.at
	for p.at < len(p.text) && '0' <= p.text[p.at] && p.text[p.at] <= '9' {
		p.at++
	}
	digits := p.text[start:p.at]
	if digits == "" {
		return 0, nil
	}
	if digits[0] == '0' {
		return 0, fmt.Errorf("count %s", digits)
	}
	n, err := strconv.Atoi(digits)
	if err != nil || n > MaxCount {
		return 0, fmt.Errorf("count %s is over %d", digits, MaxCount)
	}
	return n, nil
}

// dots writes every sign for the dot of a hydrate as the one that is printed.
var dots = strings.NewReplacer("*", "·", ".", "·")

// dot steps over the sign that joins two parts, if one is next.
func (p *parser) dot() bool {
	for _, d := range []string{"·", "*", "."} {
		if strings.HasPrefix(p.text[p.at:], d) {
			p.at += len(d)
			return true
		}
	}
	return false
}

// charge reads the charge that ends the text; 0 means that none is there.
func (p *parser) charge() (int, error) {
	if p.at == len(p.text) {
		return 0, nil
	}
	rest := p.text[p.at:]
	if rest[0] != '^' {
		// Only a bare sign can be next; after a digit it may be half of a
		// charge whose number was read as a count.
		if before := p.text[p.at-1]; '0' <= before && before <= '9' {
			return 0, fmt.Errorf("charge without ^ after a number")
		}
	}
	digits, sign := strings.TrimPrefix(rest, "^"), 0
	switch {
	case strings.HasSuffix(digits, "+"):
		sign = 1
	case strings.HasSuffix(digits, "-"):
		sign = -1
	default:
		return 0, fmt.Errorf("charge %q without a sign at its end", rest)
	}
	digits = digits[:len(digits)-1]
	if digits == "" {
		return sign, nil
	}
	n, err := strconv.Atoi(digits)
	if err != nil || digits[0] < '1' || digits[0] > '9' || n > MaxCharge {
		return 0, fmt.Errorf("charge %q is not a number from 1 to %d and a sign", rest, MaxCharge)
	}
	return sign * n, nil
}

// chargeText writes a charge as Parse reads it.
func chargeText(charge int) string {
	switch {
	case charge == 0:
		return ""
	case charge == 1:
		return "^+"
	case charge == -1:
		return "^-"
	case charge > 0:
		return fmt.Sprintf("^%d+", charge)
	}
	return fmt.Sprintf("^%d-", -charge)
}
