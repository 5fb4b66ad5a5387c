package working

import (
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// copper: the spent generator is taken up in water, and grows its blue crystals.
func (w *Workings) copper() {
	p := &w.plan
	if !route.MakesCopperSalt(p) {
		return
	}
	w.define(`
		blue.salt | g | copper sulfate made, anhydrous | n(spent, CuSO4)*M(CuSO4)
		blue.acid | g | acid in the spent generator | n(spent, H2SO4)*M(H2SO4)
		blue.water | g | water in the spent generator | n(spent, H2O)*M(H2O)
		= copper.water.least | max(0[g], blue.least - blue.water)/liquor
		blue.all | g | water with the generator's own | blue.water + copper.water.used*liquor
		= copper.water.used | ` + either("copper.water", p.CopperWater, "max(0[g], max(copperMargin*blue.least, blue.acid*(1/acidMost - 1)) - blue.water)/liquor"))
	w.dissolving()
	w.heatOfBlue()
	w.crystals()
}

// dissolving: more water also weakens the acid, so that it holds more.
func (w *Workings) dissolving() {
	const name = "water that just dissolves the salt hot, the generator's own counted"
	if w.calc("blue.salt") == 0 {
		w.def("blue.least", name, "g", "blue.water")
		return
	}
	w.read("blue.hot", "CuSO₄ that 100 g of water hold hot", table.CopperSulfateSolubility, "copper.hot")
	if quantity.Given(w.plan.CopperFactor) {
		w.def("blue.least", name, "g", "blue.salt*100[g]/(blue.hot*copper.factor/100[%])")
		return
	}
	total := w.runner.HotWater()
	w.known("blue.trial", "that water, found by trial", "g", total, nil)
	w.define(`
		blue.strong | % | acid's strength in that water | 100[%]*blue.acid/(blue.acid + blue.trial)
		blue.least | g | ` + name + ` | blue.salt*100[g]/(blue.hot*blue.less) | the same water comes out as was put in: that is how it was found
	`)
	at := "blue.strong"
	if _, most := table.CopperSulfateInAcid.Range(); w.calc(at) > most {
		at = literal(most, "%")
	}
	w.read("blue.less", "solubility in the acid liquor, of that in water", table.CopperSulfateInAcid, at)
}

// heatOfBlue: diluting the free acid, and dissolving the salt.
func (w *Workings) heatOfBlue() {
	w.define(`
		blue.dissolves | kJ/mol | heat from a mole of CuSO₄ in water | ` + route.DissolvingHeat + `
		= copper.rise | copper.heat*1000[J/kJ]/(waterHeat*blue.all)
	`)
	heat := "n(spent, CuSO4)*blue.dissolves"
	if w.calc("blue.acid") > 0 {
		w.define(`
			blue.before | % | acid's strength before | 100[%]*blue.acid/(blue.acid + blue.water)
			blue.after | % | acid's strength after | 100[%]*blue.acid/(blue.acid + blue.all)
		`)
		w.mixingHeat("heat.before", "heat from pure acid to the strength before", "blue.before")
		w.mixingHeat("heat.after", "heat from pure acid to the strength after", "blue.after")
		heat += " + n(spent, H2SO4)*(heat.after - heat.before)"
	}
	w.figure(route.CopperHeat, "heat.share/100[%]*("+heat+")")
}

// crystals: the first crop, as with the manganese salt.
func (w *Workings) crystals() {
	w.define(`
		= copper.acid | 100[%]*blue.acid/(blue.acid + blue.all) | if blue.acid + blue.all > 0[g]
		= copper.acid | 0[%] | since blue.acid + blue.all <= 0[g]
		kept |  | share not lost on the way to the dish | 1 - loss.transfer/100[%]
		dish.salt | mol | copper sulfate in the dish | n(spent, CuSO4)*kept
		= copper.liquor.acid | blue.acid*kept
	`)
	if w.sheet.Reason(route.CopperFactorUsed) != route.Defined {
		w.figure(route.CopperMother, "dish.salt*M(Cu)")
		return
	}
	if quantity.Given(w.plan.CopperFactor) {
		w.figure(route.CopperFactorUsed, "copper.factor")
	} else {
		w.read("blue.factor", "solubility in acid of that strength, of that in water", table.CopperSulfateInAcid, "copper.acid")
		w.figure(route.CopperFactorUsed, "100[%]*blue.factor")
	}
	w.read("blue.cold", "CuSO₄ that 100 g of water hold cold", table.CopperSulfateSolubility, "copper.cold")
	w.define(`
		blue.k |  | CuSO₄ that a mole of the liquor's water holds | blue.cold*copper.factor.used/100[%]/100[g]*M(H2O)/M(CuSO4)
		blue.wet | mol | water in the dish | blue.all/M(H2O)*kept
		blue.solved | mol | crop of which the liquor left is just saturated | (dish.salt - blue.k*blue.wet)/(1 - 5*blue.k) | solved: salt − crop = k × (water − 5 × crop)
		blue.crop | mol | crystals, as CuSO₄ | min(max(0[mol], min(blue.solved, dish.salt)), blue.wet/5)
		= copper.crop | blue.crop*(M(CuSO4) + 5*M(H2O))
		= copper.liquor.copper | (dish.salt - blue.crop)*M(Cu)
	`)
}
