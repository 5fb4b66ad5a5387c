// Package formula reads chemical formulas and gives their molar masses.
//
// A formula is written as on paper: Zn5(OH)8Cl2·H2O. Brackets (round, square
// or curly) may be nested, a dot joins the parts of a hydrate or double salt,
// and a charge follows a caret:
//
//	salt, _ := formula.Parse("MnSO4·H2O")
//	salt.MolarMass()  // 169.009 g/mol
//	salt.Count("O")   // 5
//	formula.MustParse("MnO4^-").Charge() // -1
//
// Molar masses rest on the abridged standard atomic weights of 2021. They are
// good to about 0.01 %; what limits them in a sulfate is the natural spread of
// sulfur, so more than five figures of a molar mass are not worth showing.
//
// Everything here is a pure function of its arguments.
package formula

import (
	"math"
	"slices"

	"rosesalt/chem/quantity"
)

// Formula is a chemical formula that has been read and understood. It never
// changes; the zero Formula is empty, weighs nothing and has no charge.
type Formula struct {
	text   string
	counts []Count // by atomic number, each N > 0
	charge int
}

// Count is how many atoms of one element a formula unit holds.
type Count struct {
	Symbol string // as in the periodic table: "Mn"
	N      int    // at least 1
}

// Count gives the number of atoms of the element in one formula unit, 0 where
// the formula has none of it or the symbol names no element.
func (f Formula) Count(symbol string) int {
	for _, c := range f.counts {
		if c.Symbol == symbol {
			return c.N
		}
	}
	return 0
}

// Elements lists the elements with their counts, by rising atomic number: two
// ways of writing one composition give the same list. The slice is a copy.
func (f Formula) Elements() []Count { return slices.Clone(f.counts) }

// Charge gives the charge of one formula unit in elementary charges: 0 for a
// salt, 2 for Mn^2+, -1 for MnO4^-.
func (f Formula) Charge() int { return f.charge }

// MolarMass gives the mass of one mole in g/mol, from the abridged standard
// atomic weights (see AtomicWeight). The electrons that an ion lacks or has
// over are not counted: they weigh 0.0005 g/mol each.
func (f Formula) MolarMass() quantity.GramPerMole {
	var sum quantity.GramPerMole
	for _, c := range f.counts {
		w, _ := find(c.Symbol)
		sum += quantity.GramPerMole(c.N) * w.standard
	}
	return sum
}

// Uncertainty gives the uncertainty of MolarMass in g/mol: the abridged
// uncertainty of each element times its count, the elements combined as the
// root of the sum of squares.
//
// Atoms of one element come from one source and are wrong together, so their
// share grows with the count and not with its square root.
func (f Formula) Uncertainty() quantity.GramPerMole {
	var sum float64
	for _, c := range f.counts {
		w, _ := find(c.Symbol)
		u := float64(c.N) * float64(w.uncertainty)
		sum += u * u
	}
	return quantity.GramPerMole(math.Sqrt(sum))
}

// MassFraction gives the share of the mass that the element makes up, from 0
// to 1; 0 where the formula has none of it.
func (f Formula) MassFraction(symbol string) float64 {
	n := f.Count(symbol)
	if n == 0 {
		return 0
	}
	w, _ := find(symbol)
	return float64(n) * float64(w.standard) / float64(f.MolarMass())
}

// String gives the formula as it was written, but with "·" for every dot and
// a caret before every charge, so that Parse reads it back to the same.
func (f Formula) String() string { return f.text }
