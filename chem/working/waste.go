package working

import (
	"rosesalt/chem/ledger"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// waste: the scrubber, and the soda that takes up acid and metals.
func (w *Workings) waste() {
	liquor, name := ledger.CopperLiquor, "copper mother liquor"
	if w.plan.GasSource != route.FromCopper {
		liquor, name = ledger.Generator, "generator at the end"
	}
	at := w.start(route.Waste)
	w.place("blue", name, at, liquor)
	w.place("mothers", "manganese mother liquor", at, ledger.MotherLiquor)
	w.place("black", "black residue", at, ledger.Residue)

	w.define(`
		= scrub.soda | vent.gas/1000[mmol/mol]*M(Na2CO3)
		= scrub.hydroxide | 2*vent.gas/1000[mmol/mol]*M(NaOH)
		= scrub.soda.advised | scrubberExcess*scrub.soda
		= scrub.liquid | scrub.soda.advised/(scrubberSoda/100[%])/liquor
		= waste.base.copper | (n(blue, H2SO4) + n(blue, CuSO4) + n(blue, SO2) + n(blue, Na2S2O5))*M(Na2CO3)
		= waste.base.wash | (n(wash, H2SO4) + wash.Zn + wash.Mn)*M(Na2CO3)
		= scrub.heat | scrubHeat*n(vent, SO2)
		= scrub.rise | scrub.heat*1000[J/kJ]/(waterHeat*scrub.liquid*liquor)
		= waste.acid | n(wash, KOH)/2*1000[mmol/mol]/1[mmol/mL]
		= waste.zinc | wash.Zn*M(Zn)
		= waste.manganese | (residue.manganese/1000[mmol/mol] + wash.Mn + mothers.Mn)*M(Mn)
		= waste.volume | wash.liquor + (n(blue, H2O) + n(mothers, H2O))*M(H2O)/liquor
	`)
	base := "waste.base.copper + waste.base.wash"
	if !route.Gaseous(&w.plan) {
		base = "waste.base.wash" // there is no generator
	}
	w.figure(route.WasteBase, base)
	w.room()
	w.counts(route.ScrubSoda, reaction.Scrub)
	w.def("wash.Zn", "zinc in the wash liquor", "mol", w.elements("wash", reaction.Zn, everything...))
	w.def("wash.Mn", "manganese in the wash liquor", "mol", w.elements("wash", reaction.Mn, everything...))
	w.figure(route.WasteCopper, "("+w.elements("blue", reaction.Cu, everything...)+")*M(Cu)")
	w.def("mothers.Mn", "manganese in the mother liquor", "mol", w.elements("mothers", reaction.Mn, everything...))
	w.figure(route.WasteResidue, "residue.held*liquor + "+w.masses("black", everythingDry...))
}
