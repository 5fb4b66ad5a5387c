package working

import (
	"slices"
	"strings"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// slurry: dilute acid first, then the gas, as far as both go.
func (w *Workings) slurry() {
	p := &w.plan
	formulas := w.way()
	led := "batch.dry*(1 - loss.transfer/100[%])"
	if route.ThrowsIronDown(p) {
		led += "*(1 - iron.kept/100[%])"
	}
	w.def("led", "dry solids led into the slurry", "g", led)
	w.figure(route.SlurryWaterUsed, either("slurry.water", p.SlurryWater, "slurryToCake*led"))
	w.figure(route.SlurryAcidUsed, either("slurry.acid", p.SlurryAcid, "demand.acid/1[mmol/mL]"))
	w.dilution()

	w.place("led", "slurry before water and acid", w.start(route.Slurry), ledger.Slurry)
	bound := func(b *ledger.Booking) bool {
		return b.Equation == reaction.AcidAmmonia || b.Equation == reaction.AcidDiammine || b.Equation == reaction.AcidBasic ||
			b.Equation == reaction.AcidPotash || b.Equation == reaction.AcidZincOxide
	}
	w.place("soaked", "slurry when the acid has taken the bases", w.after(route.Slurry, func(b *ledger.Booking) bool {
		return b.To == ledger.Slurry && (b.Kind == ledger.Brought || b.Kind == ledger.Reacted && bound(b))
	}), ledger.Slurry)
	w.place("acted", "slurry when the acid has worked", w.after(route.Slurry, func(b *ledger.Booking) bool {
		acts := bound(b) || slices.Contains(formulas.Acts, b.Equation) ||
			b.Equation == reaction.SplitManganite || b.Equation == reaction.SplitHetaerolite || b.Equation == reaction.SplitHausmannite
		return b.To == ledger.Slurry && (b.Kind == ledger.Brought || b.Kind == ledger.Reacted && acts)
	}), ledger.Slurry)
	w.place("reduced", "slurry at the end", w.start(route.Filter), ledger.Slurry)
	w.place("vent", "vent", w.start(route.Filter), ledger.Vent)

	w.define(`
		= end.first | min(100[%], 100[%]*useful/(demand.gas/1000[mmol/mol]))
		met | mol | gas that must be made until the demand is met | bill/(uptake.share/100[%]) + gas.purged/1000[mmol/mol]
		= gas.met | 100[%]*min(1, met/(gas.made/1000[mmol/mol]))
	`)

	volume := "n(led, H2O)*M(H2O)/liquor + slurry.water.used + slurry.acid.used*acid.dilute/liquor + led/solidDensity"
	if formulas.Brings != "" {
		volume += " + " + formulas.Brings
	}
	w.figure(route.SlurryVolume, volume)

	if route.Sulfurous(&w.plan) {
		w.rest()
	}
	w.work()
	w.counts(route.AcidSaves, reaction.GasManganite, reaction.GasHetaerolite, reaction.GasHausmannite, reaction.GasPotash, reaction.GasAmmonia, reaction.GasDiammine, reaction.GasBasic, reaction.GasZincOxide)
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
		= slurry.acid.rise | heat.share/100[%]*1[mol/L]/1000[mL/L]*(heat.dilute - heat.bought)*1000[J/kJ]/(waterHeat*acid.dilute)
	`)
	w.mixingHeat("heat.dilute", "heat from pure acid to 1 mol/L", "dilute.percent")
	w.mixingHeat("heat.bought", "heat from pure acid to the acid as bought", "gas.strength")
}

// split: the share of the Mn(III) that acid splits before anything else reduces it.
func (w *Workings) split() {
	if quantity.Given(w.plan.SlurrySplit) {
		w.figure(route.SlurrySplit, "slurry.split")
		return
	}
	w.define(`
		split.all | mol | acid that splitting all Mn(III) in reach would take | max(0[mol], n(soaked, MnOOH) - (1 - slurry.reach/100[%])*n(led, MnOOH))/2 + 2*max(0[mol], n(soaked, hetaerolite) - (1 - slurry.reach/100[%])*n(led, hetaerolite)) + 2*max(0[mol], n(soaked, Mn3O4) - (1 - slurry.reach/100[%])*n(led, Mn3O4))
		split.have | mol | acid that is there for it | n(soaked, H2SO4)
	`)
	if w.calc("split.have") <= 0 {
		w.figure(route.SlurrySplit, "0[%]", "split.have <= 0[mol]")
		return
	}
	w.read("split.ample", "share of the Mn(III) that ample acid splits", table.SplitShare, route.WarmthInput(&w.plan).Key)
	w.figure(route.SlurrySplit, "100[%]*split.have/max(split.all, (split.have + splitAcid*split.all)/split.ample)")
}

// resting are the reactions of the hot rest, and of the iron after it.
var resting = []*reaction.Equation{
	reaction.RestDioxide, reaction.RestManganite, reaction.RestHetaerolite, reaction.RestHausmannite, reaction.BoilDithionate,
	reaction.ReduceFerric, reaction.ReduceIron, reaction.AcidIron,
}

// rest: the share of the dithionate that is gone when the hot slurry has stood.
func (w *Workings) rest() {
	w.extent("rest.freed", ledger.Slurry, route.Slurry, reaction.BoilDithionate)
	w.define(`
		= slurry.rest.freed | rest.freed*1000[mmol/mol]
	`)
	w.place("hot", "slurry when the gas is over", w.after(route.Slurry, func(b *ledger.Booking) bool {
		return b.To == ledger.Slurry && (b.Kind == ledger.Brought || b.Kind == ledger.Reacted && !slices.Contains(resting, b.Equation))
	}), ledger.Slurry)
	if w.plan.SlurryRest == 0 || w.is("n(hot, H2O)*M(H2O) <= 0.05[g]") {
		w.figure(route.RestGone, "0[%]")
		return
	}
	w.read("rest.warm", "rate at which dithionate breaks up, of that at 90 °C", table.DithionateDecay, "slurry.rest.warm")
	w.define(`
		rest.acid | mol/L | acid that is left | n(hot, H2SO4)/(n(hot, H2O)*M(H2O)/liquor)*1000[mL/L]
		rest.rate | %/h | rate at which dithionate breaks up at first | slurry.decay*rest.acid/1[mol/L]*rest.warm
		rest.step |  | by how much a sixteenth of that time divides it | 1 + rest.rate/100[%]*slurry.rest/16
		rest.four |  | and four of them | rest.step*rest.step*rest.step*rest.step
		= slurry.rest.gone | 100[%]*(1 - 1/(rest.four*rest.four*rest.four*rest.four))
	`)
}

// work: what can be reached, and the share of it that the gas reduces.
func (w *Workings) work() {
	reach := func(symbol, what string) {
		w.def(symbol, lowered(route.SubstanceNamed(what).Formula())+" that the gas can reach", "mol",
			"max(0[mol], n(acted, "+what+") - (1 - slurry.reach/100[%])*n(led, "+what+"))")
	}
	reach("dioxide", "MnO2")
	reach("manganite", "MnOOH")
	reach("zinc.spinel", "hetaerolite")
	reach("deep.spinel", "Mn3O4")
	w.def("spinel", "both of these", "mol", "zinc.spinel + deep.spinel")
	w.define(`
		bases | mol | acid that potash, ammonia and zinc salts still want | n(acted, KOH)/2 + n(acted, NH3)/2 + n(acted, diammine) + 4*n(acted, basic) + n(acted, ZnO)
		useful | mol | gas that all that oxide can use, with acid enough | (dioxide + manganite/2 + spinel)*(1 + demand.dithionate/100[%])
		wants | mol | acid that it needs besides | manganite/2 + 2*spinel
		have | mol | acid at hand | n(acted, H2SO4)
	`)
	bill := "useful + 2*max(0[mol], wants + bases - have)"
	if w.calc("bases") > 0 && w.calc("dioxide") > 0 {
		w.define(`
			all.first | mol | pairs of charges that bases bind first, gas enough | min(slurry.bases/100[%]*bases, dioxide/2)
			all.still | mol | MnO₂ that is left after these | dioxide - 2*all.first
			all.full | mol | MnO₂ and twice the bases left | all.still + 2*(bases - all.first)
		`)
		direct, bound := "0[mol]", "all.first"
		if w.is("all.still > 0[mol]") {
			direct, bound = "all.still*all.still/all.full", "all.first + all.still*(bases - all.first)/all.full"
		}
		w.def("all.direct", "MnO₂ that gas dissolves without acid, gas enough", "mol", direct)
		w.def("all.bound", "pairs of charges that bases bind while MnO₂ is there", "mol", bound)
		if w.is("all.direct < demand.dithionate/100[%]*(all.direct + all.bound)") {
			bill += " + all.direct - demand.dithionate/100[%]*(all.direct + all.bound)"
		}
	}
	w.def("bill", "gas that all the oxide can use, with the acid that there is", "mol", bill)
	w.warmth()
	const arrives = "gas that the slurry takes up"
	heat := "(split.one + split.two)*(2*heat.three - heat.four) + split.deep*(heat.deep - heat.four) + part*(dioxide*heat.four + (manganite + 2*zinc.spinel)*heat.three + deep.spinel*heat.deep)"
	if route.Gaseous(&w.plan) {
		w.def("arrives", arrives, "mol", "max(0[mmol], gas.made - gas.purged)/1000[mmol/mol]*uptake.share/100[%]")
		more, _ := w.lead()
		w.figure(route.ReduceHeat, "heat.share/100[%]*("+heat+more+")")
		return
	}
	formulas := w.way()
	if formulas.Arrives != "" {
		w.def("arrives", arrives, "mol", formulas.Arrives)
	}
	more, pairs := w.stirShare()
	heat += more + " + (part*reach.pairs" + pairs + ")*more"
	if formulas.Heat != "" {
		heat += " + " + formulas.Heat
	}
	w.figure(route.ReduceHeat, "heat.share/100[%]*("+heat+")")
}

// lead: what the gas does, in three steps: with the dilute acid, then with dioxide and
// bases, then in place of the acid. Each is told only where it comes to it. It gives the
// terms of the heat, and of the pairs of electrons, beyond those of the first.
func (w *Workings) lead() (heat, pairs string) {
	w.figure(route.AcidSaves, "0[mmol]")
	const part, name = "part", "share of the oxide reduced while dilute acid lasts"
	const enough = "share of the oxide that the acid is enough for"
	bases := w.calc("bases") > 0
	switch {
	case w.calc("useful") == 0 && !bases:
		w.def(part, name, "", "0")
		return "", ""
	case bases:
		w.def("enough", enough, "", "0", "bases > 0[mol]")
	case w.is("wants <= have"):
		w.def(part, name, "", "min(1, arrives/useful)", "wants <= have")
		return "", ""
	default:
		w.def("enough", enough, "", "have/wants")
	}
	switch {
	case w.calc("arrives") == 0:
		w.def(part, name, "", "0")
		return "", ""
	case w.is("arrives <= enough*useful"):
		w.def(part, name, "", "arrives/useful", "arrives <= enough*useful")
		return "", ""
	}
	w.def(part, name, "", "enough")
	w.define(`
		over | mol | gas after that | arrives - enough*useful
		waits | mol | MnO₂ after that | (1 - enough)*dioxide
	`)
	spent, used, manganite := "", "0[mol]", "(1 - enough)*manganite"
	if w.calc("waits") > 0 {
		const direct, aside = "MnO₂ that gas dissolves without acid", "of the gas, what ends as dithionate besides"
		heat, pairs, spent, used = " + direct*heat.four", " + direct", " - direct - aside", "direct"
		if bases {
			w.onBases(direct)
			w.def("aside", aside, "mol", "min(direct, demand.dithionate/100[%]*(direct + bound))")
			heat, pairs, spent, used = heat+" + 2*bound*(heat.four - heat.three)", pairs+" + bound", spent+" - bound", used+" + 2*bound"
			manganite += " + 2*bound"
		} else {
			w.def("direct", direct, "mol", "min(waits, over/(1 + demand.dithionate/100[%]))")
			w.def("aside", aside, "mol", "demand.dithionate/100[%]*direct")
		}
		if w.is(used + " < waits*0.9999999999") {
			return heat, pairs
		}
	}
	w.def("after", "gas when the MnO₂ is gone", "mol", "max(0[mol], over"+spent+")")
	var saved []string
	left := "after"
	if bases {
		free := "bases"
		if w.terms["bound"] != nil {
			free = "bases - bound"
		}
		w.def("two", "pairs of charges that bases bind then, two moles of gas each", "mol", "min("+free+", after/2)")
		left, saved = "after - 2*two", []string{"2*two"}
	}
	w.define(`
		manganite.left | mol | MnOOH when the MnO₂ is gone | ` + manganite + `
		spinel.left | mol | hetaerolite and hausmannite when the MnO₂ is gone | (1 - enough)*spinel
		bring | mol | gas that reducing these would take, its protons brought by gas | (manganite.left/2 + spinel.left)*(1 + demand.dithionate/100[%]) + manganite.left + 4*spinel.left
	`)
	if w.calc("bring") > 0 {
		w.def("late", "share of these that is reduced", "", "max(0, min(1, ("+left+")/bring))")
		heat += " + late*(manganite.left + 2*(1 - enough)*zinc.spinel)*heat.three + late*(1 - enough)*deep.spinel*heat.deep"
		pairs += " + late*(manganite.left/2 + spinel.left)"
		saved = append(saved, "late*(manganite.left + 4*spinel.left)")
	}
	if saved != nil {
		heat += " + slurry.acid.saves/1000[mmol/mol]*(h.SO2 + h.H2O - h.HSO3)"
		pairs += " + slurry.acid.saves/1000[mmol/mol]"
		w.figure(route.AcidSaves, "("+strings.Join(saved, " + ")+")*1000[mmol/mol]")
	}
	return heat, pairs
}

// onBases: how MnO2 and the bases share the gas.
func (w *Workings) onBases(direct string) {
	w.define(`
		before | mol | pairs of charges that bases bind first | min(slurry.bases/100[%]*bases, waits/2, over)
		still | mol | MnO₂ that is left after these | waits - 2*before
		full | mol | MnO₂ and twice the bases left | still + 2*(bases - before)
	`)
	const bound = "pairs of charges that bases bind while MnO₂ is there"
	if w.is("still <= 0[mol]") || w.is("over <= before") {
		w.def("direct", direct, "mol", "0[mol]")
		w.def("bound", bound, "mol", "before")
		return
	}
	w.define(`
		direct.most | mol | MnO₂ that dissolves until it is gone | still*still/full
		bound.most | mol | pairs of charges that bases bind until then | still*(bases - before)/full
		going |  | how far that goes | max(0, min(1, max((over - before)/(2*direct.most + bound.most), (over - (1 + demand.dithionate/100[%])*before)/((1 + demand.dithionate/100[%])*(direct.most + bound.most)))))
	`)
	w.def("direct", direct, "mol", "going*direct.most")
	w.def("bound", bound, "mol", "before + going*bound.most")
}

// warmth: the heat of the reduction.
func (w *Workings) warmth() {
	w.define(`
		heat.four | kJ/mol | heat from a mole of MnO₂ | ` + route.DioxideHeat + ` | what goes in less what comes out
		heat.three | kJ/mol | heat from a mole of Mn(III) | ` + route.TrivalentHeat + ` | MnOOH counted as half an Mn₂O₃, the acid as H⁺
		heat.deep | kJ/mol | heat from a mole of Mn₃O₄ | ` + route.HausmanniteHeat + `
	`)
	w.split()
	w.extent("split.one", ledger.Slurry, route.Slurry, reaction.SplitManganite)
	w.extent("split.two", ledger.Slurry, route.Slurry, reaction.SplitHetaerolite)
	w.extent("split.deep", ledger.Slurry, route.Slurry, reaction.SplitHausmannite)
}
