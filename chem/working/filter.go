package working

import (
	"fmt"

	"rosesalt/chem/ledger"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// filter: the residue drains as it is; each rinse then mixes as a wash does.
func (w *Workings) filter() {
	out := func(b *ledger.Booking) bool { return b.Kind == ledger.Moved && b.From == ledger.Filtrate }
	w.place("filtrate", "filtrate and rinses", w.first(route.Filter, out), ledger.Filtrate)
	w.place("residue", "rinsed residue", w.start(route.Dry), ledger.Slurry, ledger.Residue)

	slurry := "reduced"
	if route.ThrowsIronDown(&w.plan) {
		settles := func(b *ledger.Booking) bool { return b.Kind == ledger.Reacted || b.From == ledger.Slurry }
		slurry = "settled"
		w.place(slurry, "slurry with its iron thrown down", w.after(route.Filter, settles), ledger.Slurry, ledger.Residue)
		w.extent("soda.acts", ledger.Residue, route.Filter, reaction.SodaOnAcid)
		w.figure(route.IronSoda, "soda.acts*M(Na2CO3)")
	}
	w.figure(route.ResidueMass, w.masses(slurry, route.Insolubles()...))
	w.figure(route.RinseUsed, either("rinse.each", w.plan.RinseEach, "rinseToResidue*residue.mass"))
	w.define(`
		residue.holds | mL | liquor that the drained residue can hold | wash.held*residue.mass
		slurry.water.end | mL | liquor of the slurry at the end | n(` + slurry + `, H2O)*M(H2O)/liquor
		= residue.held | min(residue.holds, slurry.water.end + rinse.times*rinse.each.used)
		= filtrate.volume | n(filtrate, H2O)*M(H2O)/liquor
		= filtrate.strength | 100[%]*n(filtrate, MnSO4)*M(MnSO4)/(n(filtrate, MnSO4)*M(MnSO4) + filtrate.volume*liquor)
		= filtrate.iron | (` + w.elements("filtrate", reaction.Fe, everything...) + `)*M(Fe)*1000[mg/g]*1000[mL/L]/filtrate.volume
	`)
	if w.sheet.Reason(route.SpotIron) == route.Defined {
		since := "filtrate.iron <= thiocyanateSees"
		if w.is("filtrate.iron > thiocyanateSees") {
			since = "filtrate.iron > thiocyanateSees"
		}
		w.pick(route.SpotIron, "", since)
	}
	w.rinses()
	w.figure(route.ResidueManganese, "("+w.elements("residue", reaction.Mn, everything...)+")*1000[mmol/mol]")
	if w.sheet.Reason(route.FiltrateDensity) == route.Defined {
		w.read("filtrate.dense", "density at that strength", table.ManganeseSulfateDensity, "filtrate.strength")
		w.figure(route.FiltrateDensity, "filtrate.dense")
	}
}

// rinses: what is left in the cake after none to three.
func (w *Workings) rinses() {
	ids := []route.FigureID{route.RinseLeft0, route.RinseLeft1, route.RinseLeft2, route.RinseLeft3}
	if w.is("slurry.water.end > residue.holds") {
		w.figure(ids[0], "100[%]*residue.holds/slurry.water.end")
	} else {
		w.figure(ids[0], "100[%]", "slurry.water.end <= residue.holds")
	}
	w.def("cake.0", "liquor in the residue, not rinsed", "mL", "min(slurry.water.end, residue.holds)")
	for k := 1; k < len(ids); k++ {
		all, last := fmt.Sprintf("rinsed.%d", k), ids[k-1].Info().Key
		w.def(all, fmt.Sprintf("liquor at rinse %d", k), "mL", fmt.Sprintf("cake.%d + rinse.each.used", k-1))
		w.def(fmt.Sprintf("cake.%d", k), fmt.Sprintf("liquor in the residue after rinse %d", k), "mL", "min("+all+", residue.holds)")
		if w.is(all + " > residue.holds") {
			w.figure(ids[k], last+"*(1 - wash.mixing/100[%]*("+all+" - residue.holds)/"+all+")")
		} else {
			w.figure(ids[k], last, all+" <= residue.holds")
		}
	}
}
