package working

import (
	"rosesalt/chem/ledger"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// slurry: dilute acid first, then the gas, as far as both go.
func (w *Workings) slurry() {
	p := &w.plan
	w.def("led", "dry solids led into the slurry", "g", "batch.dry*(1 - loss.transfer/100[%])")
	w.figure(route.SlurryWaterUsed, either("slurry.water", p.SlurryWater, "slurryToCake*led"))
	w.figure(route.SlurryAcidUsed, either("slurry.acid", p.SlurryAcid, "demand.acid/1[mmol/mL]"))
	w.dilution()

	w.place("led", "slurry before water and acid", w.start(route.Slurry), ledger.Slurry)
	w.place("acted", "slurry when the acid has worked", w.after(route.Slurry, func(b *ledger.Booking) bool {
		acts := b.Equation == reaction.AcidAmmonia || b.Equation == reaction.AcidDiammine || b.Equation == reaction.AcidBasic ||
			b.Equation == reaction.AcidPotash || b.Equation == reaction.MetabisulfiteGas ||
			b.Equation == reaction.OxalicZincOxide || b.Equation == reaction.OxalicBasic ||
			b.Equation == reaction.AcidZincOxide || b.Equation == reaction.SplitManganite || b.Equation == reaction.SplitHetaerolite
		return b.To == ledger.Slurry && (b.Kind == ledger.Brought || b.Kind == ledger.Reacted && acts)
	}), ledger.Slurry)
	w.place("reduced", "slurry at the end", w.start(route.Filter), ledger.Slurry)
	w.place("vent", "vent", w.start(route.Filter), ledger.Vent)

	w.define(`
		= slurry.acid.saves | (min(arrives, salts) + 2*max(0[mol], part*wants - have))*1000[mmol/mol]
		= end.first | min(100[%], 100[%]*useful/(demand.gas/1000[mmol/mol]))
		bill | mol | gas that all the oxide can use, with the acid that there is | salts + useful + 2*max(0[mol], wants - have)
		met | mol | gas that must be made until the demand is met | bill/(gas.uptake/100[%]) + gas.purged/1000[mmol/mol]
		= gas.met | 100[%]*min(1, met/(gas.made/1000[mmol/mol]))
	`)

	volume := "n(led, H2O)*M(H2O)/liquor + slurry.water.used + slurry.acid.used*acid.dilute/liquor + led/solidDensity"
	switch p.GasSource {
	case route.ByPeroxide:
		volume += " + (peroxide.mass - stirred*M(H2O2))/liquor"
	case route.ByOxalic:
		volume += " + 2*stirred*M(H2O)/liquor"
	}
	w.figure(route.SlurryVolume, volume)

	w.work()
	w.counts(route.AcidSaves, reaction.GasManganite, reaction.GasHetaerolite, reaction.GasAmmonia, reaction.GasDiammine, reaction.GasBasic, reaction.GasZincOxide)
	w.def("brought", "manganese brought to +2", "mol", w.elements("reduced", reaction.Mn,
		reaction.ManganeseSulfate, reaction.ManganeseDithionate, reaction.ManganeseBisulfite, reaction.ManganeseSulfite))
}

// dilution: how the dilute acid is made from the strong one.
func (w *Workings) dilution() {
	if w.calc("slurry.acid.used") == 0 {
		w.figure(route.SlurryAcidStrong, "0[mL]", "slurry.acid.used <= 0[mL]")
		w.figure(route.SlurryAcidWater, "0[mL]", "slurry.acid.used <= 0[mL]")
		w.figure(route.SlurryAcidRise, "0[K]", "slurry.acid.used <= 0[mL]")
		return
	}
	w.define(`
		= slurry.acid.strong | slurry.acid.used*1[mol/L]/1000[mL/L]/acid.acid
		= slurry.acid.water | max(0[g], slurry.acid.used*acid.dilute - slurry.acid.strong*acid.water*M(H2O))/liquor
		= slurry.acid.rise | 1[mol/L]/1000[mL/L]*(heat.dilute - heat.bought)*1000[J/kJ]/(waterHeat*acid.dilute)
	`)
	w.mixingHeat("heat.dilute", "heat from pure acid to 1 mol/L", "dilute.percent")
	w.mixingHeat("heat.bought", "heat from pure acid to the acid as bought", "gas.strength")
}

// work: what can be reached, and the share of it that the gas reduces.
func (w *Workings) work() {
	reach := func(symbol, what string) {
		w.def(symbol, lowered(route.Spoken(what).Formula())+" that the gas can reach", "mol",
			"max(0[mol], n(acted, "+what+") - (1 - slurry.reach/100[%])*n(led, "+what+"))")
	}
	reach("dioxide", "MnO2")
	reach("manganite", "MnOOH")
	reach("spinel", "hetaerolite")
	w.define(`
		salts | mol | gas that potash, ammonia and zinc salts take in place of acid | n(acted, KOH) + n(acted, NH3) + 2*n(acted, diammine) + 8*n(acted, basic) + 2*n(acted, ZnO)
		useful | mol | gas that all that oxide can use, with acid enough | (dioxide + manganite/2 + spinel)*(1 + demand.dithionate/100[%])
		wants | mol | acid that it needs besides | manganite/2 + 2*spinel
		have | mol | acid at hand | n(acted, H2SO4)
	`)
	w.warmth()
	const arrives = "gas that the slurry takes up"
	if route.Gaseous(&w.plan) {
		w.def("arrives", arrives, "mol", "max(0[mmol], gas.made - gas.purged)/1000[mmol/mol]*gas.uptake/100[%]")
		w.share()
		return
	}
	if w.plan.GasSource == route.BySalt {
		w.def("arrives", arrives, "mol", "n(acted, SO2)*salt.kept/100[%]")
	}
	w.stirShare()
	heat := "(split.one + split.two)*(2*heat.three - heat.four) + part*(dioxide*heat.four + (manganite + 2*spinel)*heat.three + reach.pairs*more)"
	if w.plan.GasSource == route.ByPeroxide {
		heat += " + 2*breaks*(peroxideFormed - h.H2O)"
	}
	w.figure(route.ReduceHeat, heat)
}

// share: two moles of gas stand in for each mole of acid that is missing.
func (w *Workings) share() {
	const name = "share of the oxide that the gas reduces"
	if w.is("arrives <= salts") || w.calc("useful") == 0 {
		w.def("part", name, "", "0")
		return
	}
	w.def("part.acid", "share of the oxide if acid were enough", "", "(arrives - salts)/useful")
	if w.is("part.acid*wants > have") {
		w.def("part", name, "", "min(1, (arrives - salts + 2*have)/(useful + 2*wants))", "part.acid*wants > have")
		return
	}
	w.def("part", name, "", "min(1, part.acid)")
}

// warmth: the heat of the reduction.
func (w *Workings) warmth() {
	w.heat("h.MnO2", "MnO2")
	w.heat("h.Mn2O3", "Mn2O3")
	w.heat("h.SO2", "SO2")
	w.heat("h.Mn", "Mn^2+")
	w.heat("h.SO4", "SO4^2-")
	w.heat("h.H2O", "H2O")
	w.define(`
		heat.four | kJ/mol | heat from a mole of MnO₂ | h.MnO2 + h.SO2 - h.Mn - h.SO4 | what goes in less what comes out
		heat.three | kJ/mol | heat from a mole of Mn(III) | (h.Mn2O3 + h.SO2 - 2*h.Mn - h.SO4 - h.H2O)/2 | MnOOH counted as half an Mn₂O₃, the acid as H⁺
		= reduce.heat | (split.one + split.two)*(2*heat.three - heat.four) + part*(dioxide*heat.four + (manganite + 2*spinel)*heat.three)
	`)
	w.extent("split.one", ledger.Slurry, route.Slurry, reaction.SplitManganite)
	w.extent("split.two", ledger.Slurry, route.Slurry, reaction.SplitHetaerolite)
}
