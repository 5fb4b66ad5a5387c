package reaction

import (
	"fmt"
	"strconv"
	"strings"
)

// Term is one substance of an equation with its signed coefficient: negative
// for what is used up, positive for what is formed.
type Term struct {
	Substance   Substance
	Coefficient float64
}

// Equation is a balanced reaction between substances. Its extent is in moles
// of the equation as written.
type Equation struct {
	text  string
	terms []Term
}

// String is the equation as it was written, with "->" between the sides.
func (e Equation) String() string { return e.text }

// Terms are the signed coefficients, in the order written. The caller must not
// change them.
func (e Equation) Terms() []Term { return e.terms }

// Coefficient is the signed coefficient of a substance, 0 when it takes no part.
func (e Equation) Coefficient(s Substance) float64 {
	for _, t := range e.terms {
		if t.Substance == s {
			return t.Coefficient
		}
	}
	return 0
}

// Parse reads an equation such as "2 MnOOH + SO2 + H2SO4 -> 2 MnSO4 + 2 H2O"
// and checks it. It fails when a side is missing, a substance is not one that
// the ledger counts, stands twice, or when atoms do not balance.
func Parse(text string) (Equation, error) {
	left, right, ok := strings.Cut(text, "->")
	if !ok {
		return Equation{}, fmt.Errorf("reaction: no arrow in %q", text)
	}
	e := Equation{text: text}
	for _, side := range []struct {
		text string
		sign float64
	}{{left, -1}, {right, 1}} {
		for _, word := range strings.Split(side.text, " + ") {
			t, err := parseTerm(word)
			if err != nil {
				return Equation{}, fmt.Errorf("reaction: %w in %q", err, text)
			}
			if e.Coefficient(t.Substance) != 0 {
				return Equation{}, fmt.Errorf("reaction: %v stands twice in %q", t.Substance, text)
			}
			t.Coefficient *= side.sign
			e.terms = append(e.terms, t)
		}
	}
	return e, e.check()
}

func parseTerm(word string) (Term, error) {
	fields := strings.Fields(word)
	coefficient := 1.0
	if len(fields) == 2 {
		n, err := strconv.Atoi(fields[0])
		if err != nil || n < 1 {
			return Term{}, fmt.Errorf("coefficient %q is not a whole number above 0", fields[0])
		}
		coefficient, fields = float64(n), fields[1:]
	}
	if len(fields) != 1 {
		return Term{}, fmt.Errorf("%q is not a coefficient and a formula", strings.TrimSpace(word))
	}
	s, ok := ByFormula(fields[0])
	if !ok {
		return Term{}, fmt.Errorf("%q is not a substance of the ledger", fields[0])
	}
	return Term{s, coefficient}, nil
}

// check adds up atoms; whole coefficients make the sums exact. No substance of
// the ledger has a charge, so that balances too.
func (e Equation) check() error {
	for el := range Element(Elements) {
		sum := 0.0
		for _, t := range e.terms {
			sum += t.Coefficient * t.Substance.Atoms(el)
		}
		if sum != 0 {
			return fmt.Errorf("reaction: %v does not balance in %q: %+g", el, e.text, sum)
		}
	}
	return nil
}

var all []*Equation

// equation is Parse for the package's own list, where a fault is a
// programmer's error that the first test finds.
func equation(text string) *Equation {
	e, err := Parse(text)
	if err != nil {
		panic(err)
	}
	all = append(all, &e)
	return &e
}

// All are the equations of the package, in the order of the route.
func All() []*Equation { return append([]*Equation(nil), all...) }
