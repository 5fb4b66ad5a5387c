package working

import (
	"fmt"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// wash: contact by contact, the chloride that stands in solution and the water that
// the cake holds.
func (w *Workings) wash() {
	p := &w.plan
	acid := func(b *ledger.Booking) bool {
		return b.Kind == ledger.Brought && b.To == ledger.Mix && b.Substance == reaction.SulfuricAcid
	}
	w.place("rinsing", "cake before any acid", w.first(route.Wash, acid), ledger.Cells, ledger.Mix)
	w.place("washed", "washed cake", w.start(route.Batch), ledger.Cells, ledger.Mix)
	w.place("wash", "wash liquor", w.start(route.Batch), ledger.WashLiquor)

	w.define(`
		= wash.soak.used | ` + either("wash.soak", p.WashSoak, "soakToMix*mix.dry") + `
		= wash.each.used | ` + either("wash.each", p.WashEach, "eachToMix*mix.dry") + `
		held | mL | liquor that the drained cake holds | wash.held*mix.dry
		broken | mol |  | wash.hydrolysis/100[%]*n(opened, diammine)/5
		Cl.0 | mol | chloride in solution before the soak | n(opened, NH4Cl) + 2*n(opened, ZnCl2) + 8*broken
		= wash.acid.needed | (n(rinsing, KOH)/2 + n(rinsing, NH3)/2 + n(rinsing, diammine) + 4*n(rinsing, basic) + n(rinsing, ZnO))*1000[mmol/mol]/1[mmol/mL]
		= wash.acid.used | 0[mmol]
	`)
	w.extends("broken", reaction.Hydrolysis)
	brought := "max(0[mol], n(opened, H2O) - 9*broken)*M(H2O)/liquor"
	if quantity.Given(p.MixWashed) {
		brought = "0[mL] | a mix that was weighed dry brings none"
	}
	w.define("water.0 | mL | water in the mix before the soak | " + brought)

	w.contact("1", "the soak", "0", "wash.soak.used", "held")
	last := "1"
	w.washes()
	steps := int(w.calc("wash.times.used"))
	for k := range steps {
		now, before := fmt.Sprint(k+2), fmt.Sprint(k+1)
		w.contact(now, fmt.Sprintf("wash %d", k+1), before, "wash.each.used", "held")
		if w.drains(now) {
			last = now
		}
	}
	end := fmt.Sprint(steps + 1)
	poured := "0[mL]"
	if route.Rinses(p) {
		poured = "wash.acid.needed*rinseOver"
	}
	w.figure(route.WashAcidPoured, either("wash.acid", p.WashAcid, poured))
	before, times, held := "1", "wash.times.used", "held"
	if w.calc("wash.acid.poured") > 0 {
		end, last = w.acidRinse(end, last)
		before, times, held = "acid", "wash.after.used", "held.acid"
	}
	w.def("single.all", "liquor if the water of the last washes went in at once", "mL", "water."+before+" + "+times+"*wash.each.used")
	single := "Cl." + before
	if w.is("single.all > " + held) {
		single += "*(1 - wash.mixing/100[%]*(single.all - " + held + ")/single.all)"
	}
	w.cakeWater = "water." + end
	w.define(`
		= wash.single | ` + single + `*1000[mg/g]*M(Cl)
		= wash.chloride | Cl.` + end + `*1000[mg/g]*M(Cl)
		= wash.last | drained.` + last + `
		= wash.silver |  | since wash.last > silverSees
		= wash.silver |  | since wash.last <= silverSees
		= wash.liquor.zinc | (` + w.elements("wash", reaction.Zn, everything...) + `)*M(Zn)
		= wash.liquor.manganese | (` + w.elements("wash", reaction.Mn, everything...) + `)*1000[mmol/mol]
		= wash.cake | ` + w.masses("washed", route.Insolubles()...))
}

// washes: those before any acid. Left blank they are as many as silver nitrate asks for.
func (w *Workings) washes() {
	p := &w.plan
	w.enough()
	times := "usualWashes"
	if w.sheet.Reason(route.WashEnough) == route.Defined && !route.Alkaline(p) {
		times = "wash.enough"
	}
	if route.Rinses(p) {
		times = "min(" + times + ", washesBefore)"
	}
	w.figure(route.WashTimesUsed, either("wash.times", p.WashTimes, times))
	w.figure(route.WashAfterUsed, "0")
}

// either is the input where it is given, and else the rule.
func either[T ~float64](key string, v T, rule string) string {
	if quantity.Given(v) {
		return key
	}
	return rule
}

// contact defines what adding water and draining does: the water all.N before it
// drains and water.N after, the chloride Cl.N that stays in solution, and what
// drained.N held.
func (w *Workings) contact(now, name, before, add, held string) {
	pairs := []string{"$now", now, "$name", name, "$before", before, "$add", add, "$held", held}
	w.define("all.$now | mL | liquor in the cake at $name | water.$before + $add", pairs...)
	if all := w.calc("all." + now); all-w.calc(held) > 1e-10*all { // the last digits are no liquor
		w.define(`
			water.$now | mL | liquor in the cake after $name | $held
			Cl.$now | mol | chloride in solution after $name | Cl.$before*(1 - wash.mixing/100[%]*(all.$now - $held)/all.$now)
			drained.$now | mg/L | chloride in what $name drains | wash.mixing/100[%]*Cl.$before*M(Cl)*1000[mg/g]/(all.$now/1000[mL/L])
		`, pairs...)
		return
	}
	w.define(`
		water.$now | mL | water in the cake after $name | all.$now
		Cl.$now | mol | chloride in solution after $name | Cl.$before
	`, pairs...)
}

// drains tells whether a contact drains anything.
func (w *Workings) drains(now string) bool { return w.terms["drained."+now] != nil }

// enough: the washes after the soak, looked at until one is clean enough. Once the
// cake holds what it can, each wash keeps the same share, and the rest is a logarithm.
func (w *Workings) enough() {
	if w.drains("1") && w.is("drained.1 <= wash.target") {
		w.figure(route.WashEnough, "0", "drained.1 <= wash.target")
		return
	}
	for k := 1; k <= 50; k++ {
		before, now := fmt.Sprintf("ahead%d", k-1), fmt.Sprintf("ahead%d", k)
		if k == 1 {
			before = "1"
		}
		if w.calc("wash.each.used") == 0 {
			return // it has no value then
		}
		w.contact(now, fmt.Sprintf("wash %d", k), before, "wash.each.used", "held")
		if !w.drains(now) {
			continue
		}
		this := fmt.Sprint(k)
		if w.is("drained." + now + " <= wash.target") {
			w.figure(route.WashEnough, this, "drained."+now+" <= wash.target")
			return
		}
		if w.is("water." + before + " >= held") {
			w.def("keeps", "what each wash keeps", "", "1 - wash.mixing/100[%]*wash.each.used/(wash.each.used + held)")
			w.figure(route.WashEnough, this+" + roundup(ln(drained."+now+"/wash.target)/ln(1/keeps))")
			return
		}
	}
}

// acidRinse: dilute acid, and the washes with water after it.
func (w *Workings) acidRinse(end, last string) (string, string) {
	stage := route.Wash
	for _, r := range []struct {
		symbol   string
		equation *reaction.Equation
	}{
		{"rinse.potash", reaction.AcidPotash},
		{"rinse.ammonia", reaction.AcidAmmonia},
		{"rinse.diammine", reaction.AcidDiammine},
		{"rinse.basic", reaction.AcidBasic},
		{"rinse.oxide", reaction.AcidZincOxide},
		{"rinse.split", reaction.SplitManganite},
		{"rinse.iron", reaction.AcidIron},
	} {
		w.extent(r.symbol, ledger.Mix, stage, r.equation)
	}
	w.define(`
		= wash.acid.used | (rinse.potash + rinse.ammonia + rinse.diammine + 4*rinse.basic + rinse.oxide + rinse.split + 3*rinse.iron)*1000[mmol/mol]
		held.acid | mL | liquor that the cake holds after the acid | wash.held*wash.cake
		zero | mL | nothing | 0[mL]
		Cl.freed | mol | chloride in solution with what the acid frees | Cl.$end + 2*rinse.diammine + 2*rinse.basic
		water.freed | mL | water in the cake with the water of the acid | water.$end + wash.acid.poured*acid.dilute/liquor + (2*rinse.potash + 9*rinse.basic + rinse.oxide + 2*rinse.split + 4*rinse.iron)*M(H2O)/liquor
	`, "$end", end)
	w.contact("acid", "the acid rinse", "freed", "zero", "held.acid")
	after := w.sheet.Value(route.WashAfterUsed)
	before, now := "acid", ""
	for k := 1; k <= int(after); k++ {
		now = "rinsed" + fmt.Sprint(k)
		w.contact(now, fmt.Sprintf("wash %d after the acid", k), before, "wash.each.used", "held.acid")
		if before = now; w.drains(now) {
			last = now
		}
	}
	used, clear := fmt.Sprint(after), "drained."+now+" <= wash.target"
	switch {
	case quantity.Given(w.plan.WashAfter):
		used = "wash.after"
	case w.drains(now) && w.is(clear):
		used += " | since " + clear
	}
	w.define("= wash.after.used | " + used)
	return now, last
}
