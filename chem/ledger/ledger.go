// Package ledger keeps account of matter in moles, by double entry.
//
// Matter is brought in, moved from vessel to vessel, and reacted within a
// vessel; nothing else can happen to it. What all vessels hold at the end is
// therefore what was brought in, element by element; Balance gives both sums,
// which differ by rounding alone.
//
// The book is an array indexed by vessel and substance. It is made once and
// reused for the next plan, so that thousands of plans run without allocating;
// the list of bookings is kept only when asked for.
package ledger

import (
	"fmt"
	"math"
	"math/bits"

	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
)

// Vessel is a place that can hold matter.
type Vessel uint8

// The vessels, in the order in which the route uses them.
const (
	Cells Vessel = iota
	Tray
	Mix
	WashLiquor
	Reserve
	Generator
	Trap
	Slurry
	Vent
	Scrubber
	Residue
	Filtrate
	Dish
	MotherLiquor
	ProductJar
	CopperResidue
	CopperLiquor
	CopperJar
	Losses
	// Vessels is how many there are.
	Vessels = iota
)

var names = [Vessels]string{
	Cells: "cells", Tray: "can-and-rod tray", Mix: "black mix", WashLiquor: "wash liquor",
	Reserve: "reserve", Generator: "generator", Trap: "trap", Slurry: "slurry", Vent: "vent",
	Scrubber: "scrubber", Residue: "residue", Filtrate: "filtrate", Dish: "dish",
	MotherLiquor: "manganese mother liquor", ProductJar: "product jar",
	CopperResidue: "copper and sulfide filtered off", CopperLiquor: "copper mother liquor",
	CopperJar: "copper jar", Losses: "losses",
}

// String is the vessel's name, in lower case.
func (v Vessel) String() string { return names[v] }

// Kind tells what a booking did.
type Kind uint8

// The kinds of booking.
const (
	Brought Kind = iota // matter came in from outside
	Moved               // matter went from one vessel to another
	Reacted             // matter changed within a vessel
)

// Booking is one line of the book. Moles is the amount brought or moved, or
// the extent of the reaction; Stage is the one that Enter last set.
type Booking struct {
	Kind      Kind
	Stage     int
	From, To  Vessel
	Substance reaction.Substance
	Equation  *reaction.Equation
	Moles     quantity.Mole
}

// Set is a set of substances, one bit each: a loop over a vessel visits only what it may
// hold.
type Set uint64

// SetOf makes a set.
func SetOf(list ...reaction.Substance) (set Set) {
	for _, s := range list {
		set |= 1 << s
	}
	return set
}

const _ Set = 1 << reaction.Substances // does not compile if a set is too small for all

// next takes the first substance out of the set.
func (set *Set) next() reaction.Substance {
	s := bits.TrailingZeros64(uint64(*set))
	*set &= *set - 1
	return reaction.Substance(s)
}

// Book is the ledger. Its zero value is an empty book that keeps no list.
type Book struct {
	amount  [Vessels][reaction.Substances]float64
	stands  [Vessels]Set // what a vessel may hold; all else is zero there
	brought [reaction.Substances]float64
	list    []Booking
	keep    bool
	stage   int
	err     error
}

// Reset empties the book. With keep, the bookings that follow are listed.
func (b *Book) Reset(keep bool) {
	for v := range b.stands {
		if b.stands[v] != 0 {
			b.amount[v], b.stands[v] = [reaction.Substances]float64{}, 0
		}
	}
	b.brought = [reaction.Substances]float64{}
	b.list, b.keep, b.stage, b.err = b.list[:0], keep, 0, nil
}

// Enter says which stage the next bookings belong to.
func (b *Book) Enter(stage int) { b.stage = stage }

// Err is the first booking that could not be made, naming vessel and substance.
func (b *Book) Err() error { return b.err }

// Bookings are the lines kept since Reset(true); the caller must not keep them
// past the next Reset.
func (b *Book) Bookings() []Booking { return b.list }

// Amount is how much of a substance a vessel holds, never below zero.
func (b *Book) Amount(v Vessel, s reaction.Substance) quantity.Mole {
	return quantity.Mole(b.amount[v][s])
}

// Mass is how much of a substance a vessel holds, in grams.
func (b *Book) Mass(v Vessel, s reaction.Substance) quantity.Gram {
	return s.Mass(quantity.Mole(b.amount[v][s]))
}

// TotalMass is the mass of all that a vessel holds.
func (b *Book) TotalMass(v Vessel) quantity.Gram {
	sum := quantity.Gram(0)
	for set := b.stands[v]; set != 0; {
		s := set.next()
		sum += s.Mass(quantity.Mole(b.amount[v][s]))
	}
	return sum
}

// Element is how many moles of an element a vessel holds.
func (b *Book) Element(v Vessel, e reaction.Element) quantity.Mole {
	sum := 0.0
	for _, h := range e.Holders() {
		sum += b.amount[v][h.Substance] * h.Atoms
	}
	return quantity.Mole(sum)
}

// Bring books matter that comes in from outside.
func (b *Book) Bring(to Vessel, s reaction.Substance, n quantity.Mole) {
	if !(n > 0) || math.IsInf(float64(n), 0) {
		if n != 0 {
			b.fail("brought into", to, s, float64(n))
		}
		return
	}
	b.amount[to][s] += float64(n)
	b.stands[to] |= 1 << s
	b.brought[s] += float64(n)
	b.note(Booking{Kind: Brought, From: to, To: to, Substance: s, Moles: n})
}

// Move books matter from one vessel to another. Moving more than is there is
// an error that Err reports; nothing is moved then.
func (b *Book) Move(from, to Vessel, s reaction.Substance, n quantity.Mole) {
	if n == 0 {
		return
	}
	left, ok := take(b.amount[from][s], float64(n))
	if !ok && !b.speck(from, float64(n)-b.amount[from][s]) || n < 0 {
		b.fail("moved out of", from, s, float64(n))
		return
	}
	// What arrives is what left, to the last bit, even where take rounded to zero.
	moved := b.amount[from][s] - left
	b.amount[from][s] = left
	b.amount[to][s] += moved
	b.stands[to] |= 1 << s
	b.note(Booking{Kind: Moved, From: from, To: to, Substance: s, Moles: quantity.Mole(moved)})
}

// MoveShare moves a share, 0 to 1, of a substance.
func (b *Book) MoveShare(from, to Vessel, s reaction.Substance, share float64) {
	b.Move(from, to, s, quantity.Mole(b.amount[from][s]*share))
}

// MoveAll moves a share, 0 to 1, of everything in a vessel.
func (b *Book) MoveAll(from, to Vessel, share float64) { b.MoveSet(from, to, ^Set(0), share) }

// MoveSet moves a share, 0 to 1, of each substance of a set that the vessel holds.
func (b *Book) MoveSet(from, to Vessel, set Set, share float64) {
	for set &= b.stands[from]; set != 0; {
		b.MoveShare(from, to, set.next(), share)
	}
}

// React books a reaction to the given extent, in moles of the equation as
// written. Using more than is there is an error that Err reports; nothing
// reacts then.
func (b *Book) React(v Vessel, e *reaction.Equation, extent quantity.Mole) {
	if extent == 0 {
		return
	}
	x := float64(extent)
	for _, t := range e.Terms() {
		if t.Coefficient > 0 {
			continue
		}
		if _, ok := take(b.amount[v][t.Substance], -t.Coefficient*x); !ok || x < 0 {
			b.fail("used up in", v, t.Substance, -t.Coefficient*x)
			return
		}
	}
	for _, t := range e.Terms() {
		left, _ := take(b.amount[v][t.Substance], -t.Coefficient*x)
		b.amount[v][t.Substance] = left
		b.stands[v] |= 1 << t.Substance
	}
	b.note(Booking{Kind: Reacted, From: v, To: v, Equation: e, Moles: extent})
}

// slack is the rounding error allowed in what is left, relative to the amount
// taken: a remainder below it counts as zero. A larger shortage is an error in
// the model, unless speck allows it.
const slack = 1e-12

// least is the amount below which a float64 has fewer digits than slack needs, mol.
const least = 1e-300

// speck tells whether a shortage is rounding error of what the vessel holds. Where a large
// amount has been used up almost entirely, the error is larger than the amount taken
// suggests. Only moves are allowed it, since they take no more than is there; a reaction
// would use up matter that was never brought.
func (b *Book) speck(v Vessel, short float64) bool {
	sum := 0.0
	for set := b.stands[v]; set != 0; {
		sum += b.amount[v][set.next()]
	}
	return short <= slack*sum
}

// take is what is left of an amount when n is taken from it, and whether there was
// enough.
func take(have, n float64) (left float64, ok bool) {
	left, near := have-n, slack*n+least
	if left > near {
		return left, true
	}
	return 0, left >= -near && !math.IsInf(n, 1)
}

// Balance is, for an element, the moles brought in and the moles that all
// vessels hold now.
func (b *Book) Balance(e reaction.Element) (in, out quantity.Mole) {
	for s, n := range b.brought {
		in += quantity.Mole(n * reaction.Substance(s).Atoms(e))
	}
	for v := range Vessel(Vessels) {
		out += b.Element(v, e)
	}
	return in, out
}

func (b *Book) note(line Booking) {
	if b.keep {
		line.Stage = b.stage
		b.list = append(b.list, line)
	}
}

func (b *Book) fail(what string, v Vessel, s reaction.Substance, n float64) {
	if b.err == nil {
		b.err = fmt.Errorf("ledger: %g mol of %v cannot be %s the %v, which holds %g mol",
			n, s, what, v, b.amount[v][s])
	}
}
