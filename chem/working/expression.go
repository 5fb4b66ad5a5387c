package working

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// node is a part of a formula. Its kind is one of the operators "+-*/^<>", or
// num, ref or call.
type node struct {
	kind  byte
	value float64 // of a num
	unit  string  // of a num
	name  string  // of a ref, a call
	sub   []*node
}

const (
	num  = 'n'
	ref  = 'r'
	call = 'c'
)

// parse reads a formula: sums, products, powers, brackets, one comparison
// (< > <= >=, written with < and >; "<=" is kept as 'l', ">=" as 'g'), numbers
// with their unit in square brackets, names, and functions of names. A formula is
// the program's own: one that cannot be read is the programmer's error.
func parse(text string) *node {
	p := &parser{text: text}
	n := p.sum()
	p.space()
	for _, sign := range []struct {
		text string
		kind byte
	}{{"<=", 'l'}, {">=", 'g'}, {"<", '<'}, {">", '>'}} {
		if strings.HasPrefix(p.text[p.at:], sign.text) {
			p.at += len(sign.text)
			n = &node{kind: sign.kind, sub: []*node{n, p.sum()}}
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
	panic(fmt.Sprintf("working: cannot read %q at %q", p.text, p.text[p.at:]))
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

func (p *parser) sum() *node {
	n := p.product()
	for {
		sign := p.next("+-")
		if sign == 0 {
			return n
		}
		n = &node{kind: sign, sub: []*node{n, p.product()}}
	}
}

func (p *parser) product() *node {
	n := p.power()
	for {
		sign := p.next("*/")
		if sign == 0 {
			return n
		}
		n = &node{kind: sign, sub: []*node{n, p.power()}}
	}
}

func (p *parser) power() *node {
	n := p.atom()
	if p.next("^") != 0 {
		n = &node{kind: '^', sub: []*node{n, p.atom()}}
	}
	return n
}

func (p *parser) atom() *node {
	if p.next("(") != 0 {
		n := p.sum()
		if p.next(")") == 0 {
			p.fail()
		}
		return n
	}
	p.space()
	start := p.at
	for p.at < len(p.text) && (isWord(p.text[p.at]) || p.text[p.at] == '.') {
		p.at++
	}
	word := p.text[start:p.at]
	switch {
	case word == "":
		p.fail()
	case word[0] >= '0' && word[0] <= '9':
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			p.fail()
		}
		return &node{kind: num, value: v, unit: p.inside('[', ']')}
	case word == "M" || word == "n":
		return &node{kind: ref, name: word + "(" + p.inside('(', ')') + ")"}
	case p.next("(") != 0:
		n := &node{kind: call, name: word, sub: []*node{p.sum()}}
		for p.next(",") != 0 {
			n.sub = append(n.sub, p.sum())
		}
		if p.next(")") == 0 {
			p.fail()
		}
		return n
	}
	return &node{kind: ref, name: word}
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

// isName tells whether a formula is a single name.
func isName(text string) bool {
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

// eval works a formula out; value gives the value of a name.
func (n *node) eval(value func(string) float64) float64 {
	switch n.kind {
	case num:
		return n.value
	case ref:
		return value(n.name)
	}
	v := make([]float64, len(n.sub))
	for i, s := range n.sub {
		v[i] = s.eval(value)
	}
	switch n.kind {
	case '+':
		return v[0] + v[1]
	case '-':
		return v[0] - v[1]
	case '*':
		return v[0] * v[1]
	case '/':
		return v[0] / v[1]
	case '^':
		return math.Pow(v[0], v[1])
	case '<':
		return truth(v[0] < v[1])
	case '>':
		return truth(v[0] > v[1])
	case 'l':
		return truth(v[0] <= v[1])
	case 'g':
		return truth(v[0] >= v[1])
	}
	switch n.name {
	case "min":
		return fold(v, math.Min)
	case "max":
		return fold(v, math.Max)
	case "roundup":
		// So near to a whole number is that number.
		return math.Ceil(v[0] - 1e-9)
	case "exp":
		return math.Exp(v[0])
	case "ln":
		return math.Log(v[0])
	}
	panic("working: no function " + n.name)
}

func truth(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

func fold(v []float64, f func(a, b float64) float64) float64 {
	x := v[0]
	for _, y := range v[1:] {
		x = f(x, y)
	}
	return x
}

// signs are how operators are printed.
var signs = map[byte]string{'+': " + ", '-': " − ", '*': " × ", '/': " / ", '<': " < ", '>': " > ", 'l': " ≤ ", 'g': " ≥ "}

func (n *node) rank() int {
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

// print writes the formula; leaf writes a name.
func (n *node) print(leaf func(string) string) string {
	switch n.kind {
	case num:
		return withUnit(digits(n.value), n.unit)
	case ref:
		return leaf(n.name)
	case call:
		parts := make([]string, len(n.sub))
		for i, s := range n.sub {
			parts[i] = s.print(leaf)
		}
		name := n.name
		if name == "roundup" {
			name = "round up"
		}
		return name + "(" + strings.Join(parts, "; ") + ")"
	}
	left, right := n.sub[0].print(leaf), n.sub[1].print(leaf)
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

// names calls f for every name in the formula, in reading order.
func (n *node) names(f func(string)) {
	if n.kind == ref {
		f(n.name)
	}
	for _, s := range n.sub {
		s.names(f)
	}
}
