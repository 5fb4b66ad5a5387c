package working

import (
	"strings"

	"rosesalt/chem/ledger"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// dry: boiled, then baked or left to crystallise; the jar is read off the ledger.
func (w *Workings) dry() {
	grown := w.plan.DryWay == route.ToCrystals
	boils := func(b *ledger.Booking) bool {
		switch b.Equation {
		case nil:
			return false
		case reaction.BoilDithionate, reaction.BoilManganese, reaction.BoilZinc, reaction.BoilAmmonium, reaction.OxalateFalls:
			return true
		}
		return false
	}
	end := w.start(route.CopperSalt)
	w.place("boiled", "dish when the gas is off", w.after(route.Dry, boils), ledger.Dish)
	w.place("fumes", "vented fumes", end, ledger.Dish, ledger.Vent)
	w.place("jar", "jar", end, ledger.Filtrate, ledger.Dish, ledger.ProductJar)
	w.place("mother", "mother liquor", end, ledger.MotherLiquor)

	w.waters(map[bool]string{true: "crop.cold", false: "dry.temperature"}[grown])
	gas, water := "n(boiled, SO2)", "n(boiled, H2O) - n(jar, H2O)"
	if route.ThrowsIronDown(&w.plan) {
		gas = "(n(boiled, SO2) + n(reduced, SO2))"
	}
	if grown {
		water += " - n(mother, H2O)"
	}
	w.define(`
		= dry.gas | ` + gas + `*1000[mmol/mol]
		= dry.water | max(0[mol], ` + water + `)*M(H2O)/liquor
		jar.Mn | mol | manganese in the jar | ` + w.elements("jar", reaction.Mn, everything...))
	mass := "0[g]" // less than can be told
	if w.sheet.Value(route.ProductMass) != 0 {
		mass = w.masses("jar", everything...)
	}
	w.figure(route.ProductMass, mass)
	w.shortOfWater()
	if grown {
		w.grow()
	}
}

// shortOfWater: where the dish had less water than its solids bind, they share it.
func (w *Workings) shortOfWater() {
	if w.sheet.Value(route.ProductWaters) == w.calc("hydrate") {
		return
	}
	w.figure(route.ProductWaters, "hydrate*n(jar, H2O)/binds")
	w.note("binds", "the dish has less, and the solids share it")
}

// waters: how much water the salt holds, by the temperature, and what all solids bind.
func (w *Workings) waters(at string) {
	for _, is := range [][2]string{
		{"7", "since $at < heptahydrateEnds"},
		{"5", "since $at < pentahydrateEnds | if $at >= heptahydrateEnds"},
		{"1", "since $at < crustDries | if $at >= pentahydrateEnds"},
		{"1", "since $at >= crustDries | since $at <= monohydrateEnds"},
		{"(anhydrousFrom - $at)/(anhydrousFrom - monohydrateEnds)", "since $at > monohydrateEnds | since $at < anhydrousFrom"},
		{"0", "since $at >= anhydrousFrom"},
	} {
		w.define(strings.NewReplacer("$n", is[0], "$since", is[1]).Replace(`
			hydrate |  | water that a manganese sulfate takes at this temperature | $n | $since
			= product.form |  | $since
			= product.water | $n | $since
		`), "$at", at)
	}
	_, zinc, sodium := route.BoundWater(&w.plan)
	binds := "hydrate*(n(jar, MnSO4) + n(jar, FeSO4)) + " + literal(zinc, "") + "*n(jar, ZnSO4)"
	if sodium > 0 {
		binds += " + " + literal(sodium, "") + "*n(jar, Na2SO4)"
	}
	w.def("binds", "water that the solids of the jar take", "mol", binds)
}

// grow: the crop is what a liquor saturated when cold cannot hold, the water of the
// crystals taken off it.
func (w *Workings) grow() {
	w.define(`
		dish.water | mL | water in the boiling dish | n(boiled, H2O)*M(H2O)/liquor
		= crop.water.used | min(` + either("crop.water", w.plan.CropWater, "cropWaterToSalt*n(boiled, MnSO4)*M(MnSO4)") + `, dish.water)
		crop.k |  | MnSO₄ that a mole of water holds | crop.s/100[g]*M(H2O)/M(MnSO4)
		crop.left | mol | water left | crop.water.used*liquor/M(H2O)
		crop.solved | mol | crop of which the liquor left is just saturated | (n(boiled, MnSO4) - crop.k*crop.left)/(1 - crop.k*crop.host) | solved: salt − crop = k × (water − water of crystals × crop)
		crop.liquor | mL | mother liquor before the crystals are drained | max(0[mol], crop.left - crop.host*crop)*M(H2O)/liquor
		crop.zinc.most | mol | ZnSO₄ that grows in with all of the salt | min(n(boiled, ZnSO4), crop.taken/100[%]*(n(boiled, ZnSO4) + n(boiled, ZnCl2)))
		crop.iron.most | mol | FeSO₄ that grows in with all of the salt | crop.taken/100[%]*n(boiled, FeSO4)
		crop.ammonium.most | mol | ammonium sulfate that grows in with all of the salt | min(n(boiled, (NH4)2SO4), crop.taken/100[%]*(n(boiled, (NH4)2SO4) + n(boiled, NH4Cl)/2))
		crop.host |  | water in the crystals to a mole of MnSO₄ | hydrate*(1 + (crop.zinc.most + crop.iron.most)/n(boiled, MnSO4)) | if n(boiled, MnSO4) > 0[mol]
		crop.host |  | water in the crystals to a mole of MnSO₄ | hydrate | if n(boiled, MnSO4) <= 0[mol]
		crop.share |  | share of the salt that grows | crop/n(boiled, MnSO4) | if n(boiled, MnSO4) > 0[mol]
		crop.share |  | share of the salt that grows | 0 | if n(boiled, MnSO4) <= 0[mol]
	`)
	w.read("crop.s", "MnSO₄ that 100 g of water hold", table.ManganeseSulfateSolubility, "crop.cold")
	most := "n(boiled, MnSO4)"
	if w.calc("hydrate") > 0 {
		most += ", crop.left/crop.host"
	}
	solved := "crop.solved"
	if w.calc("crop.k*crop.host") >= 1 {
		solved = "n(boiled, MnSO4)" // the liquor left only holds the less
		if w.calc("n(boiled, MnSO4) - crop.k*crop.left") <= 0 {
			solved = "0[mol]"
		}
	}
	w.define(`
		crop | mol | crystals, as MnSO₄ | min(max(0[mol], min(` + solved + `, n(boiled, MnSO4))), ` + most + `)
		crop.solids | g | what fell out while it boiled | ` + w.masses("boiled", reaction.ManganeseSulfite, reaction.ZincSulfite, reaction.ManganeseOxalate, reaction.ZincOxalate) + `
		crop.zinc | mol | ZnSO₄ in the crystals | crop.share*crop.zinc.most
		crop.iron | mol | FeSO₄ in the crystals | crop.share*crop.iron.most
		crop.ammonium | mol | ammonium sulfate in the crystals | crop.share*crop.ammonium.most
		crop.mass | g | drained crystals, dry | crop*M(MnSO4) + crop.host*crop*M(H2O) + crop.zinc*M(ZnSO4) + crop.iron*M(FeSO4) + crop.ammonium*M((NH4)2SO4) + crop.solids
	`)
	if w.calc("crop.liquor") < 1e-9 {
		w.figure(route.CropLeft, "n(mother, MnSO4)*1000[mmol/mol]")
		return
	}
	w.define(`
		crop.wet |  | share of the mother liquor that the crystals hold | min(1, crop.held*crop.mass/crop.liquor)
		= crop.liquor.manganese | (dish.Mn - crop)*(1 - crop.wet)*1000[mmol/mol]
		dish.Mn | mol | manganese in solution in the dish | ` + w.elements("boiled", reaction.Mn, route.Solubles()...))
}
