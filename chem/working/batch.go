package working

import (
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// batch: the share that goes into this run, and what it can use.
func (w *Workings) batch() {
	w.define(`
		wetness | g | liquor and salts in the washed cake | ` + w.cakeWater + `*liquor + ` + w.masses("washed", route.Solubles()...) + `
		= batch.damp | batch.share/100[%]*(wash.cake + wetness)
		pairs | mol | electron pairs that the oxide takes up | batch.share/100[%]*(n(washed, MnO2) + n(washed, MnOOH)/2 + n(washed, hetaerolite) + n(washed, Mn3O4)) | one SO₂ gives one pair; each mole of gas that ends as dithionate gives half of one
		= demand.gas | pairs*(1 + demand.dithionate/100[%])*1000[mmol/mol]
		acid.bare | mol | dilute acid that oxide and salts take with gas | batch.share/100[%]*(n(washed, MnOOH)/2 + 2*n(washed, hetaerolite) + 2*n(washed, Mn3O4) + n(washed, NH3)/2 + n(washed, diammine) + 4*n(washed, basic) + n(washed, ZnO) + n(washed, KOH)/2)
		= demand.bare | demand.gas + 2*acid.bare*1000[mmol/mol]
		= demand.acid | acid.bare*1000[mmol/mol]
		cake.Mn | mol | manganese in the washed cake | ` + w.elements("washed", reaction.Mn, everything...))
	w.stirred()
	ends := "0[%]"
	if route.Sulfurous(&w.plan) {
		if ends = "slurry.dithionate"; !quantity.Given(w.plan.SlurryDithionate) {
			w.read("dithionate.share", "share that ends as dithionate", table.DithionateShare, "slurry.temperature")
			ends = "100[%]*dithionate.share"
		}
	}
	w.figure(route.DemandDithionate, ends)
	w.counts(route.DemandGas, reaction.ReduceDioxide, reaction.ReduceDioxideDithionate, reaction.ReduceManganite, reaction.ReduceManganiteDithionate,
		reaction.ReduceHetaerolite, reaction.ReduceHetaeroliteDithionate, reaction.ReduceHausmannite, reaction.ReduceHausmanniteDithionate)
	w.counts(route.DemandAcid, reaction.ReduceManganite, reaction.ReduceHetaerolite, reaction.ReduceHausmannite, reaction.AcidAmmonia, reaction.AcidDiammine,
		reaction.AcidBasic, reaction.AcidZincOxide)
}
