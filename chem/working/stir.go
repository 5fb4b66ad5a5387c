package working

import (
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// stirred: what is stirred into the slurry, a reductant each, and the dilute acid that
// it takes besides.
func (w *Workings) stirred() {
	p := &w.plan
	const (
		needed = "reductant for this oxide, pure"
		used   = "reductant into the slurry, pure"
	)
	w.define(`
		= stir.serves | 100[%]*stirred/stir.need
	`)
	switch p.GasSource {
	case route.BySalt:
		w.def("stir.need", needed, "mol", "pairs/2*(1 + demand.dithionate/100[%])*(1 + stir.excess/100[%])/(salt.kept/100[%])")
		w.def("stirred", used, "mol", either("salt.charge", p.SaltCharge, "stir.need*M(Na2S2O5)")+"/M(Na2S2O5)")
		w.define(`
			= salt.needed | stir.need*M(Na2S2O5)
			= salt.used | stirred*M(Na2S2O5)
			= demand.acid | (acid.bare + stirred)*1000[mmol/mol]
		`)
		w.counts(route.SaltNeeded, reaction.MetabisulfiteGas, reaction.ReduceDioxide, reaction.ReduceDioxideDithionate)
	case route.ByPeroxide:
		w.read("peroxide.density", "density of the peroxide", table.PeroxideDensity, "peroxide.strength")
		w.def("stir.need", needed, "mol", "pairs*(1 + stir.excess/100[%])/(1 - peroxide.lost/100[%])")
		w.def("stirred", used, "mol", "stir.need")
		if quantity.Given(p.PeroxideCharge) {
			delete(w.terms, "stirred")
			w.def("stirred", used, "mol", "peroxide.charge*peroxide.density*peroxide.strength/100[%]/M(H2O2)")
		}
		w.define(`
			= peroxide.needed | stir.need*M(H2O2)/(peroxide.strength/100[%])/peroxide.density
			= peroxide.used | stirred*M(H2O2)/(peroxide.strength/100[%])/peroxide.density
			= peroxide.mass | stirred*M(H2O2)/(peroxide.strength/100[%])
			= demand.acid | (acid.bare + pairs)*1000[mmol/mol]
		`)
		w.counts(route.PeroxideNeeded, reaction.PeroxideDioxide, reaction.PeroxideManganite, reaction.PeroxideHetaerolite, reaction.PeroxideBreaks)
	case route.ByOxalic:
		w.def("stir.need", needed, "mol", "pairs*(1 - loss.transfer/100[%])*slurry.reach/100[%]*oxalic.done/100[%]")
		w.def("stirred", used, "mol", "stir.need")
		if quantity.Given(p.OxalicCharge) {
			delete(w.terms, "stirred")
			w.def("stirred", used, "mol", "oxalic.charge/(M(H2C2O4) + 2*M(H2O))")
		}
		w.define(`
			= oxalic.needed | stir.need*(M(H2C2O4) + 2*M(H2O))
			= oxalic.used | stirred*(M(H2C2O4) + 2*M(H2O))
			= demand.acid | (acid.bare + pairs)*1000[mmol/mol]
		`)
		w.counts(route.OxalicNeeded, reaction.OxalicDioxide, reaction.OxalicManganite, reaction.OxalicHetaerolite)
	}
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
	const name = "share of the oxide that is reduced"
	none := w.calc("reach.pairs") == 0
	switch w.plan.GasSource {
	case route.BySalt:
		w.extent("freed", ledger.Slurry, route.Slurry, reaction.MetabisulfiteGas)
		w.figure(route.SaltFreed, "2*freed*1000[mmol/mol]")
		w.def("more", "how much less a pair gives off with SO₂ in water", "kJ/mol", "h.HSO3 - h.SO2 - h.H2O")
		return w.lead()
	case route.ByPeroxide:
		w.extent("breaks", ledger.Slurry, route.Slurry, reaction.PeroxideBreaks)
		w.def("more", "how much more a pair gives off than with gas", "kJ/mol", "h.SO4 - h.SO2 + h.H2O2 - 2*h.H2O")
		if none {
			w.def("part", name, "", "0")
			return "", ""
		}
		w.def("part", name, "", "min(1, stirred*(1 - peroxide.lost/100[%])/reach.pairs, have/cations)")
	case route.ByOxalic:
		w.def("more", "how much more a pair gives off than with gas", "kJ/mol", "h.SO4 - h.SO2 + h.H2C2O4 - 2*h.CO2 - 2*h.H2O")
		switch {
		case none:
			w.def("part", name, "", "0")
		case w.is("n(acted, H2C2O4)/reach.pairs*cations > have"):
			w.def("part", name, "", "min((n(acted, H2C2O4) + have)/(reach.pairs + cations), oxalic.done/100[%])",
				"n(acted, H2C2O4)/reach.pairs*cations > have")
		default:
			w.def("part", name, "", "min(n(acted, H2C2O4)/reach.pairs, oxalic.done/100[%])")
		}
	}
	return "", ""
}
