package figure

import (
	"fmt"
	"strconv"
	"strings"
)

// Formula is a formula, or a part of one. Its kind is one of the operators "+-*/^<>lg",
// or num, ref or call.
type Formula struct {
	kind  byte
	value float64 // of a num
	unit  string  // of a num
	name  string  // of a ref, a call
	sub   []*Formula
}

const (
	num  = 'n'
	ref  = 'r'
	call = 'c'
)

// Parse reads a formula: sums, products, powers, brackets, one comparison
// (< > <= >=, written with < and >; "<=" is kept as 'l', ">=" as 'g'), numbers
// with their unit in square brackets, names, and functions of names. A formula is
// the program's own: one that cannot be read is the programmer's error.
func Parse(text string) *Formula {
	p := &parser{text: text}
	n := p.sum()
	p.space()
	for _, sign := range []struct {
		text string
		kind byte
	}{{"<=", 'l'}, {">=", 'g'}, {"<", '<'}, {">", '>'}} {
		if strings.HasPrefix(p.text[p.at:], sign.text) {
			p.at += len(sign.text)
			n = &Formula{kind: sign.kind, sub: []*Formula{n, p.sum()}}
			break
		}
	}
	if p.space(); p.at != len(text) {
		p.fail()
	}
	return n
}

type parser struct {
	text string
	at   int
}

func (p *parser) fail() {
	panic(fmt.Sprintf("figure: cannot read %q at %q", p.text, p.text[p.at:]))
}

func (p *parser) space() {
	for p.at < len(p.text) && p.text[p.at] == ' ' {
		p.at++
	}
}

// next takes one of the signs, and gives 0 where none stands.
func (p *parser) next(signs string) byte {
	p.space()
	if p.at < len(p.text) && strings.IndexByte(signs, p.text[p.at]) >= 0 {
		p.at++
		return p.text[p.at-1]
	}
	return 0
}

func (p *parser) sum() *Formula {
	n := p.product()
	for {
		sign := p.next("+-")
		if sign == 0 {
			return n
		}
		n = &Formula{kind: sign, sub: []*Formula{n, p.product()}}
	}
}

func (p *parser) product() *Formula {
	n := p.power()
	for {
		sign := p.next("*/")
		if sign == 0 {
			return n
		}
		n = &Formula{kind: sign, sub: []*Formula{n, p.power()}}
	}
}

func (p *parser) power() *Formula {
	n := p.atom()
	if p.next("^") != 0 {
		n = &Formula{kind: '^', sub: []*Formula{n, p.atom()}}
	}
	return n
}

func (p *parser) atom() *Formula {
	if p.next("(") != 0 {
		n := p.sum()
		if p.next(")") == 0 {
			p.fail()
		}
		return n
	}
	p.space()
	word := p.word()
	switch {
	case word == "":
		p.fail()
	case word[0] >= '0' && word[0] <= '9':
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			p.fail()
		}
		return &Formula{kind: num, value: v, unit: p.inside('[', ']')}
	case word == "M" || word == "n":
		return &Formula{kind: ref, name: word + "(" + p.inside('(', ')') + ")"}
	case p.next("(") != 0:
		n := &Formula{kind: call, name: word, sub: []*Formula{p.sum()}}
		for p.next(",") != 0 {
			n.sub = append(n.sub, p.sum())
		}
		if p.next(")") == 0 {
			p.fail()
		}
		return n
	}
	return &Formula{kind: ref, name: word}
}

// word takes a name or a number.
func (p *parser) word() string {
	start := p.at
	for p.at < len(p.text) && (isWord(p.text[p.at]) || p.text[p.at] == '.') {
		p.at++
	}
	return p.text[start:p.at]
}

// inside takes what stands between brackets, brackets in it included; nothing
// where none opens.
func (p *parser) inside(open, shut byte) string {
	if p.at == len(p.text) || p.text[p.at] != open {
		return ""
	}
	start, depth := p.at+1, 0
	for ; p.at < len(p.text); p.at++ {
		switch p.text[p.at] {
		case open:
			depth++
		case shut:
			if depth--; depth == 0 {
				p.at++
				return p.text[start : p.at-1]
			}
		}
	}
	p.fail()
	return ""
}

// IsName tells whether a formula is a single name.
func IsName(text string) bool {
	for i := range len(text) {
		if !isWord(text[i]) && text[i] != '.' {
			return false
		}
	}
	return text[0] < '0' || text[0] > '9'
}

func isWord(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_'
}

// Eval works a formula out; value gives the value of a name.
func (n *Formula) Eval(value func(string) float64) float64 {
	switch n.kind {
	case num:
		return n.value
	case ref:
		return value(n.name)
	}
	v := n.sub[0].Eval(value)
	if len(n.sub) == 1 {
		return n.op().one(v)
	}
	for _, s := range n.sub[1:] {
		v = n.op().two(v, s.Eval(value))
	}
	return v
}

// signs are how operators are printed.
var signs = map[byte]string{'+': " + ", '-': " − ", '*': " × ", '/': " / ", '<': " < ", '>': " > ", 'l': " ≤ ", 'g': " ≥ "}

func (n *Formula) rank() int {
	switch n.kind {
	case '<', '>', 'l', 'g':
		return 0
	case '+', '-':
		return 1
	case '*', '/':
		return 2
	case '^':
		return 3
	}
	return 4
}

// Print writes the formula; leaf writes a name, number a number with its unit.
func (n *Formula) Print(leaf func(string) string, number func(v float64, unit string) string) string {
	switch n.kind {
	case num:
		return number(n.value, n.unit)
	case ref:
		return leaf(n.name)
	case call:
		parts := make([]string, len(n.sub))
		for i, s := range n.sub {
			parts[i] = s.Print(leaf, number)
		}
		name := n.name
		if name == "roundup" {
			name = "round up"
		}
		return name + "(" + strings.Join(parts, "; ") + ")"
	}
	left, right := n.sub[0].Print(leaf, number), n.sub[1].Print(leaf, number)
	if n.sub[0].rank() < n.rank() {
		left = "(" + left + ")"
	}
	// a − (b + c), a / (b × c)
	if r := n.sub[1].rank(); r < n.rank() || r == n.rank() && (n.kind == '-' || n.kind == '/') {
		right = "(" + right + ")"
	}
	if strings.HasPrefix(right, "−") {
		right = "(" + right + ")"
	}
	if n.kind == '^' {
		return left + "^" + right
	}
	return left + signs[n.kind] + right
}

// Number is a formula that is a number.
func Number(v float64, unit string) *Formula { return &Formula{kind: num, value: v, unit: unit} }

// Name is a formula that is a name.
func Name(name string) *Formula { return &Formula{kind: ref, name: name} }

// Join is a sum, difference or product of two formulas, by its sign.
func Join(a *Formula, sign byte, b *Formula) *Formula {
	return &Formula{kind: sign, sub: []*Formula{a, b}}
}

// Names calls f for every name in the formula, in reading order.
func (n *Formula) Names(f func(string)) {
	if n.kind == ref {
		f(n.name)
	}
	for _, s := range n.sub {
		s.Names(f)
	}
}
