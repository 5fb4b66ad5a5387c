package working

import (
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// batch: the share that goes into this run, and what it can use.
func (w *Workings) batch() {
	if quantity.Given(w.plan.CakeDamp) {
		w.figure(route.BatchDamp, "batch.share/100[%]*cake.damp")
	} else {
		w.def("wetness", "liquor and salts in the washed cake", "g", w.cakeWater+"*liquor + "+w.masses("washed", route.Solubles()...))
		w.figure(route.BatchDamp, "batch.share/100[%]*(wash.cake + wetness)")
	}
	w.define(`
		pairs | mol | electron pairs that the oxide takes up | batch.share/100[%]*(n(washed, MnO2) + n(washed, MnOOH)/2 + n(washed, hetaerolite) + n(washed, Mn3O4)) | one SO₂ gives one pair; each mole of gas that ends as dithionate gives half of one
		= demand.gas | pairs*(1 + demand.dithionate/100[%])*1000[mmol/mol]
		acid.bare | mol | dilute acid that oxide and salts take with gas | batch.share/100[%]*(n(washed, MnOOH)/2 + 2*n(washed, hetaerolite) + 2*n(washed, Mn3O4) + n(washed, NH3)/2 + n(washed, diammine) + 4*n(washed, basic) + n(washed, ZnO) + n(washed, KOH)/2)
		= demand.bare | demand.gas + 2*acid.bare*1000[mmol/mol]
	`)
	w.figure(route.DemandAcid, "acid.bare*1000[mmol/mol]")
	w.stirred()
	w.def("cake.Mn", "manganese in the washed cake", "mol", w.elements("washed", reaction.Mn, everything...))
	if !route.Sulfurous(&w.plan) {
		w.figure(route.DemandDithionate, "0[%]")
	} else if quantity.Given(w.plan.SlurryDithionate) {
		w.figure(route.DemandDithionate, "slurry.dithionate")
	} else {
		w.read("dithionate.share", "share that ends as dithionate", table.DithionateShare, "slurry.temperature")
		w.figure(route.DemandDithionate, "100[%]*dithionate.share")
	}
	w.counts(route.DemandGas, reaction.ReduceDioxide, reaction.ReduceDioxideDithionate, reaction.ReduceManganite, reaction.ReduceManganiteDithionate,
		reaction.ReduceHetaerolite, reaction.ReduceHetaeroliteDithionate, reaction.ReduceHausmannite, reaction.ReduceHausmanniteDithionate)
	w.counts(route.DemandAcid, reaction.ReduceManganite, reaction.ReduceHetaerolite, reaction.ReduceHausmannite, reaction.AcidAmmonia, reaction.AcidDiammine,
		reaction.AcidBasic, reaction.AcidZincOxide)
}
