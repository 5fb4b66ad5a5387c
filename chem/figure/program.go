package figure

import "math"

// Program is a formula made ready to be worked out many times: a flat list of
// operations on a stack. Names are places in a list of numbers.
type Program struct {
	steps []step
	open  bool // it divides by what may be nothing, or the like: there may be no result
}

// step puts a number on the stack, or takes one or two off it and puts their result there.
type step struct {
	op    op
	place int     // of load
	value float64 // of push
}

type op uint8

const (
	push op = iota
	load
	add
	subtract
	multiply
	divide
	power
	below
	above
	atMost
	atLeast
	least
	most
	roundUp
	exponential
	logarithm
)

var operators = map[byte]op{
	'+': add, '-': subtract, '*': multiply, '/': divide, '^': power, '<': below, '>': above, 'l': atMost, 'g': atLeast,
}

var functions = map[string]op{"min": least, "max": most, "roundup": roundUp, "exp": exponential, "ln": logarithm}

// op is the operation of a formula that is neither a number nor a name.
func (n *Formula) op() op {
	if n.kind != call {
		return operators[n.kind]
	}
	o, ok := functions[n.name]
	if !ok {
		panic("figure: no function " + n.name)
	}
	return o
}

// one is the result of an operation on one number.
func (o op) one(v float64) float64 {
	switch o {
	case roundUp:
		// So near to a whole number is that number.
		return math.Ceil(v - 1e-9)
	case exponential:
		return math.Exp(v)
	case logarithm:
		return math.Log(v)
	}
	return v // the least or the most of one
}

// two is the result of an operation on two numbers; not a number where either is none.
func (o op) two(a, b float64) float64 {
	switch o {
	case add:
		return a + b
	case subtract:
		return a - b
	case multiply:
		return a * b
	case divide:
		return a / b
	case power:
		return math.Pow(a, b)
	case below:
		return truth(a < b)
	case above:
		return truth(a > b)
	case atMost:
		return truth(a <= b)
	case atLeast:
		return truth(a >= b)
	case least:
		if b < a || b != b {
			return b
		}
	case most:
		if b > a || b != b {
			return b
		}
	}
	return a
}

func truth(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

// Leaf is what a name of a formula stands for: a formula of its own, a number that is
// fixed, or else a place in the list of numbers.
type Leaf struct {
	Formula *Formula
	Fixed   bool
	Value   float64
	Place   int
}

// Compile makes a program of a formula. What only hangs on fixed numbers is worked out
// now.
func Compile(n *Formula, leaf func(name string) Leaf) *Program {
	p := new(Program)
	p.compile(n, leaf)
	depth := 0
	for i, s := range p.steps {
		switch {
		case s.op <= load:
			depth++
		case s.op < roundUp:
			depth--
		}
		if depth > len(stack{}) {
			panic("figure: a formula needs a deeper stack")
		}
		switch s.op {
		case divide:
			p.open = p.open || p.steps[i-1].op != push || p.steps[i-1].value == 0
		case power, exponential, logarithm:
			p.open = true
		}
	}
	return p
}

func (p *Program) compile(n *Formula, leaf func(name string) Leaf) {
	switch n.kind {
	case num:
		p.steps = append(p.steps, step{value: n.value})
		return
	case ref:
		switch l := leaf(n.name); {
		case l.Formula != nil:
			p.compile(l.Formula, leaf)
		case l.Fixed:
			p.steps = append(p.steps, step{value: l.Value})
		default:
			p.steps = append(p.steps, step{op: load, place: l.Place})
		}
		return
	}
	o := n.op()
	p.compile(n.sub[0], leaf)
	if len(n.sub) == 1 {
		if last := &p.steps[len(p.steps)-1]; last.op == push {
			last.value = o.one(last.value)
		} else if o >= roundUp {
			p.steps = append(p.steps, step{op: o})
		}
		return
	}
	for _, s := range n.sub[1:] {
		p.compile(s, leaf)
		if k := len(p.steps); p.steps[k-1].op == push && p.steps[k-2].op == push {
			p.steps[k-2].value = o.two(p.steps[k-2].value, p.steps[k-1].value)
			p.steps = p.steps[:k-1]
		} else {
			p.steps = append(p.steps, step{op: o})
		}
	}
}

// Places calls f for the place of every number that the program takes, in reading order.
func (p *Program) Places(f func(place int)) {
	for _, s := range p.steps {
		if s.op == load {
			f(s.place)
		}
	}
}

type stack [8]float64

// Run works the formula out. A result that is no number or without bounds is not a number.
func (p *Program) Run(numbers []float64) float64 {
	var at stack
	top := -1
	for i := range p.steps {
		switch s := &p.steps[i]; {
		case s.op == push:
			top++
			at[top] = s.value
		case s.op == load:
			top++
			at[top] = numbers[s.place]
		case s.op < roundUp:
			top--
			at[top] = s.op.two(at[top], at[top+1])
		default:
			at[top] = s.op.one(at[top])
		}
	}
	return bounded(at[0])
}

// bounded turns what has no bounds into what is not a number.
func bounded(v float64) float64 {
	if v-v != 0 {
		return math.NaN()
	}
	return v
}

// block is how many rows are worked out at once: they stay in the cache, and each
// operation is a short loop.
const block = 256

// Columns works the formula out for many rows of numbers, which stand in columns; each
// row comes out as Run gives it, to the last bit.
type Columns struct{ at [len(stack{})][block]float64 }

// Run fills out; column gives the numbers of a place, as many as out has room for.
func (c *Columns) Run(p *Program, column func(place int) []float64, out []float64) {
	for from := 0; from < len(out); from += block {
		n := min(block, len(out)-from)
		top := -1
		for i := 0; i < len(p.steps); i++ {
			s := &p.steps[i]
			if s.op >= roundUp {
				for k, v := range c.at[top][:n] {
					c.at[top][k] = s.op.one(v)
				}
				continue
			}
			if s.op > load {
				top--
				two(s.op, c.at[top][:n], c.at[top+1][:n])
				continue
			}
			// What is taken off the stack at once need not be put there.
			next := push
			if i+1 < len(p.steps) && p.steps[i+1].op < roundUp {
				next = p.steps[i+1].op
			}
			switch {
			case next > load && s.op == push:
				withFixed(next, c.at[top][:n], s.value)
				i++
			case next > load:
				two(next, c.at[top][:n], column(s.place)[from:from+n])
				i++
			case s.op == push:
				top++
				for k := range c.at[top][:n] {
					c.at[top][k] = s.value
				}
			default:
				top++
				copy(c.at[top][:n], column(s.place)[from:])
			}
		}
		if !p.open {
			copy(out[from:], c.at[0][:n])
			continue
		}
		for k, v := range c.at[0][:n] {
			out[from+k] = bounded(v)
		}
	}
}

// two does an operation row by row, into a. The usual ones have loops of their own.
func two(o op, a, b []float64) {
	b = b[:len(a)]
	switch o {
	case add:
		for k := range a {
			a[k] += b[k]
		}
	case subtract:
		for k := range a {
			a[k] -= b[k]
		}
	case multiply:
		for k := range a {
			a[k] *= b[k]
		}
	case divide:
		for k := range a {
			a[k] /= b[k]
		}
	case least:
		for k, v := range b {
			if v < a[k] || v != v {
				a[k] = v
			}
		}
	default:
		for k := range a {
			a[k] = o.two(a[k], b[k])
		}
	}
}

// withFixed does the same with one number for all rows.
func withFixed(o op, a []float64, b float64) {
	switch o {
	case multiply:
		for k := range a {
			a[k] *= b
		}
	case divide:
		for k := range a {
			a[k] /= b
		}
	default:
		for k := range a {
			a[k] = o.two(a[k], b)
		}
	}
}
