package working

import (
	"strconv"

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
	w.define(`
		= residue.mass | ` + w.masses(slurry, route.Insolubles()...) + `
		= rinse.each.used | ` + either("rinse.each", w.plan.RinseEach, "rinseToResidue*residue.mass") + `
		residue.holds | mL | liquor that the drained residue can hold | wash.held*residue.mass
		slurry.water.end | mL | liquor of the slurry at the end | n(` + slurry + `, H2O)*M(H2O)/liquor
		= residue.held | min(residue.holds, slurry.water.end + rinse.times*rinse.each.used)
		= filtrate.volume | n(filtrate, H2O)*M(H2O)/liquor
		= filtrate.strength | 100[%]*n(filtrate, MnSO4)*M(MnSO4)/(n(filtrate, MnSO4)*M(MnSO4) + filtrate.volume*liquor)
		= filtrate.iron | (` + w.elements("filtrate", reaction.Fe, everything...) + `)*M(Fe)*1000[mg/g]*1000[mL/L]/filtrate.volume
		= spot.iron |  | since filtrate.iron > thiocyanateSees
		= spot.iron |  | since filtrate.iron <= thiocyanateSees
		= residue.manganese | (` + w.elements("residue", reaction.Mn, everything...) + `)*1000[mmol/mol]
	`)
	w.rinses()
	if w.sheet.Reason(route.FiltrateDensity) == route.Defined {
		w.read("filtrate.dense", "density at that strength", table.ManganeseSulfateDensity, "filtrate.strength")
		w.figure(route.FiltrateDensity, "filtrate.dense")
	}
}

// rinses: what is left in the cake after none to three.
func (w *Workings) rinses() {
	w.define(`
		= rinse.left.0 | 100[%]*residue.holds/slurry.water.end | if slurry.water.end > residue.holds
		= rinse.left.0 | 100[%] | since slurry.water.end <= residue.holds
		cake.0 | mL | liquor in the residue, not rinsed | min(slurry.water.end, residue.holds)
	`)
	for k := 1; k <= 3; k++ {
		w.define(`
			rinsed.$k | mL | liquor at rinse $k | cake.$before + rinse.each.used
			cake.$k | mL | liquor in the residue after rinse $k | min(rinsed.$k, residue.holds)
			= rinse.left.$k | rinse.left.$before*(1 - wash.mixing/100[%]*(rinsed.$k - residue.holds)/rinsed.$k) | if rinsed.$k > residue.holds
			= rinse.left.$k | rinse.left.$before | since rinsed.$k <= residue.holds
		`, "$k", strconv.Itoa(k), "$before", strconv.Itoa(k-1))
	}
}
