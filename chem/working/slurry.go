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
	w.place("acted", "slurry when the gas comes", w.after(route.Slurry, func(b *ledger.Booking) bool {
		acts := b.Equation == reaction.AcidAmmonia || b.Equation == reaction.AcidDiammine || b.Equation == reaction.AcidBasic ||
			b.Equation == reaction.AcidZincOxide || b.Equation == reaction.SplitManganite || b.Equation == reaction.SplitHetaerolite
		return b.To == ledger.Slurry && (b.Kind == ledger.Brought || b.Kind == ledger.Reacted && acts)
	}), ledger.Slurry)
	w.place("reduced", "slurry at the end", w.start(route.Filter), ledger.Slurry)
	w.place("vent", "not taken up", w.start(route.Filter), ledger.Vent)

	w.figure(route.SlurryVolume, "n(led, H2O)*M(H2O)/liquor + slurry.water.used + slurry.acid.used*acid.dilute/liquor + led/solidDensity")
	w.figure(route.SlurryBatches, "max(1, roundup(1.5*slurry.volume/slurry.beaker))")
	w.figure(route.SuckBack, "min(slurry.volume, gas.headspace + gas.tube)")

	w.work()
	w.figure(route.AcidSaves, "(min(arrives, salts) + 2*max(0[mol], part*wants - have))*1000[mmol/mol]")
	w.counts(route.AcidSaves, reaction.GasManganite, reaction.GasHetaerolite, reaction.GasAmmonia, reaction.GasDiammine, reaction.GasBasic, reaction.GasZincOxide)
	w.figure(route.VentGas, "n(vent, SO2)*1000[mmol/mol]")
	w.figure(route.VentVolume, "vent.gas/1000[mmol/mol]*molar/1000[mL/L]")
	w.figure(route.UptakeTaken, "max(0[mmol], gas.made - vent.gas)")
	w.figure(route.UptakeDissolved, "n(reduced, SO2)*1000[mmol/mol]")
	w.figure(route.ReduceLeft, w.masses("reduced", reaction.ManganeseDioxide, reaction.Manganite, reaction.Hetaerolite))
	w.def("brought", "manganese brought to +2", "mol", w.elements("reduced", reaction.Mn,
		reaction.ManganeseSulfate, reaction.ManganeseDithionate, reaction.ManganeseBisulfite, reaction.ManganeseSulfite))
	w.figure(route.ReduceConversion, "100[%]*brought/(batch.manganese/1000[mmol/mol])")
	w.warmth()

	w.figure(route.EndFirst, "min(100[%], 100[%]*useful/(demand.gas/1000[mmol/mol]))")
	w.def("bill", "gas that all the oxide can use, with the acid that there is", "mol", "salts + useful + 2*max(0[mol], wants - have)")
	w.def("met", "gas that must be made until the demand is met", "mol", "bill/(gas.uptake/100[%]) + gas.purged/1000[mmol/mol]")
	w.figure(route.MetShare, "100[%]*min(1, met/(gas.made/1000[mmol/mol]))")
	w.figure(route.MetMinute, "gas.met/100[%]*gas.minutes")
	w.figure(route.MetBubbles, "gas.met/100[%]*gas.made/1000[mmol/mol]*molar/gas.bubble")
}

// dilution: how the dilute acid is made from the strong one.
func (w *Workings) dilution() {
	if w.calc("slurry.acid.used") == 0 {
		w.figure(route.SlurryAcidStrong, "0[mL]", "slurry.acid.used <= 0[mL]")
		w.figure(route.SlurryAcidWater, "0[mL]", "slurry.acid.used <= 0[mL]")
		w.figure(route.SlurryAcidRise, "0[K]", "slurry.acid.used <= 0[mL]")
		return
	}
	w.figure(route.SlurryAcidStrong, "slurry.acid.used*1[mol/L]/1000[mL/L]/acid.acid")
	w.figure(route.SlurryAcidWater, "max(0[g], slurry.acid.used*acid.dilute - slurry.acid.strong*acid.water*M(H2O))/liquor")
	w.mixingHeat("heat.dilute", "heat from pure acid to 1 mol/L", "dilute.percent")
	w.mixingHeat("heat.bought", "heat from pure acid to the acid as bought", "gas.strength")
	w.figure(route.SlurryAcidRise, "1[mol/L]/1000[mL/L]*(heat.dilute - heat.bought)*1000[J/kJ]/(waterHeat*acid.dilute)")
}

// work: what can be reached, and the share of it that the gas reduces.
func (w *Workings) work() {
	reach := func(symbol, what string) {
		w.def(symbol, lowered(substance(what).Formula())+" that the gas can reach", "mol",
			"max(0[mol], n(acted, "+what+") - (1 - slurry.reach/100[%])*n(led, "+what+"))")
	}
	reach("dioxide", "MnO2")
	reach("manganite", "MnOOH")
	reach("spinel", "hetaerolite")
	w.def("salts", "gas that the ammonia and zinc salts take in place of acid", "mol",
		"n(acted, NH3) + 2*n(acted, diammine) + 8*n(acted, basic) + 2*n(acted, ZnO)")
	w.def("useful", "gas that all that oxide can use, with acid enough", "mol", "(dioxide + manganite/2 + spinel)*(1 + demand.dithionate/100[%])")
	w.def("wants", "acid that it needs besides", "mol", "manganite/2 + 2*spinel")
	w.def("have", "acid at hand", "mol", "n(acted, H2SO4)")
	w.def("arrives", "gas that the slurry takes up", "mol", "max(0[mmol], gas.made - gas.purged)/1000[mmol/mol]*gas.uptake/100[%]")
	w.share()
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
	w.def("heat.four", "heat from a mole of MnO₂", "kJ/mol", "h.MnO2 + h.SO2 - h.Mn - h.SO4")
	w.note("heat.four", "what goes in less what comes out")
	w.def("heat.three", "heat from a mole of Mn(III)", "kJ/mol", "(h.Mn2O3 + h.SO2 - 2*h.Mn - h.SO4 - h.H2O)/2")
	w.note("heat.three", "MnOOH counted as half an Mn₂O₃, the acid as H⁺")
	w.extent("split.one", ledger.Slurry, route.Slurry, reaction.SplitManganite)
	w.extent("split.two", ledger.Slurry, route.Slurry, reaction.SplitHetaerolite)
	w.figure(route.ReduceHeat, "(split.one + split.two)*(2*heat.three - heat.four) + part*(dioxide*heat.four + (manganite + 2*spinel)*heat.three)")
	w.figure(route.ReduceIce, "reduce.heat/iceHeat")
	w.figure(route.ReduceRise, "reduce.heat*1000[J/kJ]/(n(reduced, H2O)*M(H2O)*waterHeat)")
}
