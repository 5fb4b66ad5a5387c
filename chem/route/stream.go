package route

import (
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
)

// Leaving is matter that goes out of the main stream at a stage.
type Leaving struct {
	To    ledger.Vessel
	Moles quantity.Mole
}

// Leg is the main stream of one element through one stage: what comes in, what
// leaves, and what goes on.
type Leg struct {
	Stage  Stage
	In     quantity.Mole
	Leaves []Leaving
	Out    quantity.Mole
}

// onward are the vessels that the product passes through; matter in any other
// has left the stream.
var onward = map[ledger.Vessel]bool{
	ledger.Cells: true, ledger.Mix: true, ledger.Slurry: true, ledger.Filtrate: true, ledger.Dish: true, ledger.ProductJar: true,
}

// Stream follows the manganese from the cells to the jar, out of the bookings of
// the last run, which must have been kept. The residue passes through the
// filter: what drains from it again counts as never having left, and cake that was kept
// back for the iron leaves only there.
func (b *Runner) Stream() []Leg {
	out := make([][ledger.Vessels]float64, Stages)
	for _, line := range b.book.Bookings() {
		if line.Kind != ledger.Moved {
			continue
		}
		n := float64(line.Moles) * line.Substance.Atoms(reaction.Mn)
		from, to := onward[line.From], onward[line.To]
		switch {
		case line.From == ledger.Mix && line.To == ledger.Residue:
			out[Filter][ledger.Residue] += n
		case from && !to:
			out[line.Stage][line.To] += n
		case !from && to:
			out[line.Stage][line.From] -= n
		}
	}
	legs := make([]Leg, 0, Stages)
	whole := b.broughtManganese()
	in := whole
	for stage := range Stage(Dry + 1) {
		leg := Leg{Stage: stage, In: quantity.Mole(in)}
		for v, n := range out[stage] {
			if n > 1e-9*whole { // not of what goes on, which may be the last digits of nothing
				leg.Leaves = append(leg.Leaves, Leaving{ledger.Vessel(v), quantity.Mole(n)})
			}
			in -= n
		}
		leg.Out = quantity.Mole(in)
		legs = append(legs, leg)
	}
	return legs
}

func (b *Runner) broughtManganese() float64 {
	sum := 0.0
	for _, line := range b.book.Bookings() {
		if line.Kind == ledger.Brought {
			sum += float64(line.Moles) * line.Substance.Atoms(reaction.Mn)
		}
	}
	return sum
}
