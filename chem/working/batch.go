package working

import (
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// batch: the share that goes into this run, and what it can use.
func (w *Workings) batch() {
	w.def("wetness", "liquor and salts in the washed cake", "g", w.cakeWater+"*liquor + "+w.masses("washed", route.Solubles()...))
	w.figure(route.BatchDamp, "batch.share/100[%]*(wash.cake + wetness)")
	w.figure(route.BatchDry, "batch.share/100[%]*wash.cake")
	w.def("cake.Mn", "manganese in the washed cake", "mol", w.elements("washed", reaction.Mn, everything...))
	w.figure(route.BatchManganese, "batch.share/100[%]*cake.Mn*1000[mmol/mol]")
	w.figure(route.BatchReserve, "(1 - batch.share/100[%])*cake.Mn*1000[mmol/mol]")
	if quantity.Given(w.plan.SlurryDithionate) {
		w.figure(route.DemandDithionate, "slurry.dithionate")
	} else {
		w.read("dithionate.share", "share that ends as dithionate", table.DithionateShare, "slurry.temperature")
		w.figure(route.DemandDithionate, "100[%]*dithionate.share")
	}
	w.def("pairs", "electron pairs that the oxide takes up", "mol", "batch.share/100[%]*(n(washed, MnO2) + n(washed, MnOOH)/2 + n(washed, hetaerolite))")
	w.note("pairs", "one SO₂ gives one pair; each mole of gas that ends as dithionate gives half of one")
	w.figure(route.DemandGas, "pairs*(1 + demand.dithionate/100[%])*1000[mmol/mol]")
	w.figure(route.DemandAcid, "batch.share/100[%]*(n(washed, MnOOH)/2 + 2*n(washed, hetaerolite) + n(washed, NH3)/2 + n(washed, diammine)"+
		" + 4*n(washed, basic) + n(washed, ZnO))*1000[mmol/mol]")
	w.counts(route.DemandGas, reaction.ReduceDioxide, reaction.ReduceDioxideDithionate, reaction.ReduceManganite, reaction.ReduceManganiteDithionate,
		reaction.ReduceHetaerolite, reaction.ReduceHetaeroliteDithionate)
	w.counts(route.DemandAcid, reaction.ReduceManganite, reaction.ReduceHetaerolite, reaction.AcidAmmonia, reaction.AcidDiammine,
		reaction.AcidBasic, reaction.AcidZincOxide)
}
