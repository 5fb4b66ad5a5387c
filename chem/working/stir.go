package working

import (
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// way is how the figures of the plan's way of reducing the oxide follow.
func (w *Workings) way() *route.Formulas {
	r := route.ReductantOf(&w.plan)
	return r.Formulas(&w.plan)
}

// stirred: what is stirred into the slurry, and the dilute acid that it takes besides.
func (w *Workings) stirred() {
	w.define(`
		= stir.serves | 100[%]*stirred/stir.need
	`)
	if route.Gaseous(&w.plan) {
		return
	}
	r := route.ReductantOf(&w.plan)
	f := w.way()
	w.reads(f)
	used := "stir.need"
	if quantity.Given(r.Charge.Value(&w.plan)) {
		used = f.Given
	}
	w.def("stir.need", "reductant for this oxide, pure", "mol", f.Need)
	w.def("stirred", "reductant into the slurry, pure", "mol", used)
	w.define(f.Define)
	w.counts(r.Needed, f.Counts...)
}

// stirShare: what the reductant in the slurry reduces. It gives the terms of the heat, and
// of the pairs of electrons, beyond those of part.
func (w *Workings) stirShare() (heat, pairs string) {
	w.define(`
		perfect | L/mol | volume of a mole of perfect gas at the bench | gasConstant*(air.temperature + 273.15[K])/air.pressure
		reach.pairs | mol | electron pairs that the oxide in reach takes up | dioxide + manganite/2 + spinel
		cations | mol | sulfate that it takes | dioxide + manganite + 3*spinel
		= stir.froth | (n(vent, O2) + n(vent, CO2))*perfect
	`)
	f := w.way()
	if f.Extent != "" {
		w.extent(f.Extent, ledger.Slurry, route.Slurry, f.By)
	}
	if route.Sulfurous(&w.plan) {
		w.def("more", "how much less a pair gives off with SO₂ in water", "kJ/mol", f.More)
		return w.lead()
	}
	w.def("more", "how much more a pair gives off than with gas", "kJ/mol", f.More)
	const name = "share of the oxide that is reduced"
	switch {
	case w.calc("reach.pairs") == 0:
		w.def("part", name, "", "0")
	case f.ShortIf != "" && w.is(f.ShortIf):
		w.def("part", name, "", f.ShortPart, f.ShortIf)
	default:
		w.def("part", name, "", f.Part)
	}
	return "", ""
}
