package account

import (
	"fmt"
	"math"
	"slices"

	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// mostMore is how many times the gas of the plan before, and the charge for it, a plan may
// take for what was learned: gas that was lost is not made up for with more gas. An estimate:
// what the weighings of a run leave open is as much.
const mostMore = 1.3

// HeldBack is a learned value that the next plan does not start from, since it would make so much
// more gas for it. The plan keeps its own.
type HeldBack struct {
	Learned
	Keeps float64 // in the input's unit; Blank where the plan has none
}

const uptakeKey = "gas.uptake"

// Sentence says that the plan does not make more gas for the value, and what to do instead.
func (h *HeldBack) Sentence() string {
	in := h.Input
	found, keeps := route.Print(h.Median, in.Unit), ""
	if quantity.Given(h.Keeps) {
		keeps = " and keeps " + route.Print(h.Keeps, in.Unit)
	}
	if in.Key == uptakeKey {
		little := "Little of the gas was taken up"
		if h.Median >= 50 {
			little = "Less of the gas than planned was taken up"
		}
		return fmt.Sprintf("%s, %s; the next plan does not make more gas for that%s: %s", little, found, keeps, phrase.Lower(remedies[GasLost].say))
	}
	say := fmt.Sprintf("%s: %s, learned, would take far more gas; the next plan does not make more gas for that%s.", in.Name, found, keeps)
	if in.Stage < route.Gas {
		say += " " + remedies[PoorOxide].say
	}
	return say
}

// Carry parts what was learned into what the next plan starts from and what it does not: an
// uptake below what the way of leading the gas in suggests, and then, while the plan would take
// more than mostMore times the gas, whatever asks for most of it.
func Carry(from spread.Case, learned []Learned) (carried []Learned, held []HeldBack) {
	plan := from.Planned()
	was := new(route.Runner).Run(&plan)
	hold := func(l Learned) { held = append(held, HeldBack{l, l.before(&plan, was)}) }
	for _, l := range learned {
		if least, _ := route.UptakeBetween(was.Value(route.UptakeShare)); l.Input.Key == uptakeKey && l.Median < least {
			hold(l)
			continue
		}
		carried = append(carried, l)
	}
	for len(carried) > 0 && more(was, put(from, carried)) > mostMore {
		least, at := math.Inf(1), 0
		for i := range carried {
			if m := more(was, put(from, slices.Delete(slices.Clone(carried), i, i+1))); m < least {
				least, at = m, i
			}
		}
		hold(carried[at])
		carried = slices.Delete(carried, at, at+1)
	}
	return carried, held
}

// more is how many times the gas, or the charge for it, a case takes of what was taken before.
func more(was *route.Sheet, c spread.Case) (times float64) {
	plan := c.Planned()
	now := new(route.Runner).Run(&plan)
	for _, id := range [...]route.FigureID{route.GasMade, route.GasAcidUsed, route.ReductantOf(&plan).Used} {
		if t := now.Value(id) / was.Value(id); t > times { // false where neither is defined
			times = t
		}
	}
	return times
}

// heldChanges tell what is held as changes of the next run, which are none.
func heldChanges(held []HeldBack) (list []Change) {
	for i := range held {
		h := &held[i]
		list = append(list, Change{h.Input.Key, h.Input.Name, h.Input.Unit, h.Keeps, h.Keeps, quantity.Blank, quantity.Blank, h.Sentence()})
	}
	return list
}
