package working

import (
	"strings"

	"rosesalt/chem/ledger"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// waste: the scrubber, and the soda that takes up acid and metals.
func (w *Workings) waste() {
	liquor, name := ledger.CopperLiquor, "copper mother liquor"
	if !route.MakesCopperSalt(&w.plan) {
		liquor, name = ledger.Generator, "generator at the end"
	}
	at := w.start(route.Waste)
	w.place("blue", name, at, liquor)
	w.place("mothers", "manganese mother liquor", at, ledger.MotherLiquor)
	w.place("black", "black residue", at, ledger.Residue)

	w.define(`
		= waste.zinc | wash.Zn*M(Zn)
		= waste.manganese | (residue.manganese/1000[mmol/mol] + wash.Mn + mothers.Mn)*M(Mn)
		= waste.volume | wash.liquor + (n(blue, H2O) + n(mothers, H2O))*M(H2O)/liquor
		= waste.copper | (` + w.elements("blue", reaction.Cu, everything...) + `)*M(Cu)
		= waste.residue | residue.held*liquor + ` + w.masses("black", everythingDry...) + `
		wash.Zn | mol | zinc in the wash liquor | ` + w.elements("wash", reaction.Zn, everything...) + `
		wash.Mn | mol | manganese in the wash liquor | ` + w.elements("wash", reaction.Mn, everything...) + `
		mothers.Mn | mol | manganese in the mother liquor | ` + w.elements("mothers", reaction.Mn, everything...))
	w.soda(route.WasteBaseWash, "wash")
	if route.Gaseous(&w.plan) {
		w.soda(route.WasteBaseCopper, "blue")
	}
	if w.plan.DryWay == route.ToCrystals {
		w.soda(route.WasteBasePink, "mothers")
	}
	w.room()
	w.counts(route.ScrubSoda, reaction.Scrub)
}

// soda is that for a liquor: a mole to each of acid, gas, salt and metal in it, half as
// much again to iron(III).
func (w *Workings) soda(id route.FigureID, at string) {
	if w.calc("n("+at+", KOH)") > 0 {
		w.figure(id, "0[g]", "n("+at+", KOH) > 0[mol]") // lye wants acid
		return
	}
	var parts []string
	for _, each := range []string{"n($at, H2SO4)", "n($at, SO2)", "n($at, Na2S2O5)", "n($at, HCl)/2", "n($at, Fe2(SO4)3)"} {
		if n := strings.ReplaceAll(each, "$at", at); w.calc(n) > 0 {
			parts = append(parts, n)
		}
	}
	for _, e := range []reaction.Element{reaction.Cu, reaction.Zn, reaction.Mn, reaction.Fe} {
		if n := w.elements(at, e, everything...); n != "0[mol]" {
			parts = append(parts, n)
		}
	}
	if parts == nil {
		parts = []string{"0[mol]"}
	}
	w.figure(id, "("+strings.Join(parts, " + ")+")*M(Na2CO3)")
}
