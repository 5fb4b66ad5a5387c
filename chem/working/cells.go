package working

import (
	"fmt"
	"strings"

	"rosesalt/chem/cell"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// cells: what the opened cells hold, row by row: the mix as new, what discharge and
// ageing made of it, and the sum scaled to a weighing.
func (w *Workings) cells() {
	p := &w.plan
	var opened, refused, can, rod []string
	var rows []int
	for i := range p.Rows {
		row := &p.Rows[i]
		if !quantity.Given(row.Count) {
			continue
		}
		key, size := rowKey(i), w.sizeOf(row)
		one := fmt.Sprintf("r%d.opened", i+1)
		w.def(one, "cells opened"+ofRow(i), "", "max(0, "+key+"count - "+key+"rejects)")
		opened, refused = append(opened, one), append(refused, key+"count - "+one)
		if w.calc(one) == 0 {
			continue
		}
		rows = append(rows, i)
		part := cell.PartsOf(int(row.Size), int(row.Kind))
		w.size("size.can."+size, "zinc can of a new "+size, part.Can)
		w.size("size.rod."+size, "rod of a new "+size, part.Rod)
		w.size("size.mix."+size, "moist mix in a new "+size, part.Mix)
		rod = append(rod, one+"*size.rod."+size)
		if !cell.Kinds()[row.Kind].Caustic { // zinc powder is no can to keep
			can = append(can, one+"*size.can."+size)
		}
	}
	w.define(`
		= cell.opened | $opened
		= cell.refused | $refused
	`, "$opened", strings.Join(opened, " + "), "$refused", strings.Join(refused, " + "))
	if len(rows) == 0 {
		w.define(`
			= mix.mass | 0[g] | since cell.opened <= 0
			= mix.dry | 0[g] | since cell.opened <= 0
			= mix.manganese | 0[mmol] | since cell.opened <= 0
			= mix.oxide | 0[g] | since cell.opened <= 0
			= mix.hetaerolite | 0[g] | since cell.opened <= 0
			= can.zinc | 0[g] | since cell.opened <= 0
			= rod.carbon | 0[g] | since cell.opened <= 0
		`)
	} else {
		w.mix(rows)
		w.define(`
			can | g | zinc cans when new | $cans
			= can.zinc | max(can, bag.Zn*M(Zn)) - bag.Zn*M(Zn)
			= rod.carbon | $rods
		`, "$cans", strings.Join(append(can, "0[g]"), " + "), "$rods", strings.Join(rod, " + "))
	}
	w.place("opened", "mix before the wash", w.start(route.Wash), ledger.Cells, ledger.Mix)
}

// sizeOf is the mark of a cell.
func (w *Workings) sizeOf(row *route.Row) string {
	return cell.Sizes()[row.Size].MarkAs(&cell.Kinds()[row.Kind])
}

func rowKey(i int) string {
	if i == 0 {
		return "cell."
	}
	return fmt.Sprintf("cell.%d.", i+1)
}

func ofRow(i int) string {
	if i == 0 {
		return ""
	}
	return fmt.Sprintf(", type %d", i+1)
}

// size is a mass out of the table of sizes.
func (w *Workings) size(symbol, name string, e cell.Estimate) {
	w.known(symbol, name, "g", e.Best, &Source{
		name, withUnit(digits(e.Best), "g"),
		"estimate, " + withUnit(digits(e.Low)+" to "+digits(e.High), "g") + ", a share of the cell's mass: " + cell.MassSource,
	})
}

// usual gives the name of an input that says what the mix is made of, or of the
// kind's usual value where it is blank.
func (w *Workings) usual(key, name string, kind *cell.Kind, e cell.Estimate) string {
	in, _ := route.InputByKey(key)
	if quantity.Given(in.Value(&w.plan)) {
		return key
	}
	symbol := "kind." + kind.Word + "." + key
	if w.terms[symbol] == nil {
		name = name + ", " + kind.Name + " cells"
		w.known(symbol, name, in.Unit, e.Best, &Source{
			name, withUnit(digits(e.Best), in.Unit),
			w.estimate(in, e.Low, e.High) + " From: " + cell.KindSource,
		})
	}
	return symbol
}

// fresh defines the moles in the new mix of a row.
func (w *Workings) fresh(i int) {
	row := &w.plan.Rows[i]
	kind, size := &cell.Kinds()[row.Kind], w.sizeOf(row)
	r, of := fmt.Sprintf("r%d.", i+1), ofRow(i)
	carbon := w.usual("mix.carbon", "carbon in 100 g of oxide and carbon", kind, kind.Carbon)
	inert := w.usual("mix.inert", "gangue and bound water in the oxide", kind, kind.Inert)
	iron := w.usual("mix.iron", "iron in the gangue", kind, kind.Iron)
	water := w.usual("mix.water", "water to the 100 g", kind, kind.Water)
	// An alkaline cell has potash in place of the salts.
	potash, ammonium, zinc, salts := "0[g]", "0[g]", "0[g]", "$ammonium + $zinc"
	if kind.Caustic {
		potash, salts = w.usual("mix.potash", "caustic potash to the 100 g", kind, kind.Potash), "$potash"
	} else {
		ammonium = w.usual("mix.ammonium", "ammonium chloride to the 100 g", kind, kind.Ammonium)
		zinc = w.usual("mix.zinc", "zinc chloride to the 100 g", kind, kind.Zinc)
	}
	w.define(`
		#mix | g | mix as new$of | #opened*size.mix.$size*cell.fill/100[%]
		#parts | g | oxide and carbon with all that goes with them$of | 100[g] + `+salts+` + $water
		#MnO2 | mol | MnO₂ as new$of | #mix*(100[g] - $carbon)*(1 - $inert/100[%])/#parts/M(MnO2)
		#inert | g | gangue and bound water as new$of | #mix*(100[g] - $carbon)*$inert/100[%]/#parts
		#FeOOH | mol | iron, as FeOOH as new$of | #inert*$iron/100[%]/M(Fe)
		#SiO2 | mol | gangue, as SiO₂ as new$of | (#inert - #FeOOH*M(FeOOH))/M(SiO2)
		#C | mol | C as new$of | #mix*$carbon/#parts/M(C)
		#KOH | mol | KOH as new$of | #mix*$potash/#parts/M(KOH)
		#NH4Cl | mol | NH₄Cl as new$of | #mix*$ammonium/#parts/M(NH4Cl)
		#ZnCl2 | mol | ZnCl₂ as new$of | #mix*$zinc/#parts/M(ZnCl2)
		#H2O | mol | H₂O as new$of | #mix*$water/#parts/M(H2O)
	`, "#", r, "$of", of, "$size", size, "$carbon", carbon, "$inert", inert, "$iron", iron, "$water", water, "$potash", potash, "$ammonium", ammonium, "$zinc", zinc)
}

// changes are the reactions of discharge and ageing, each with the formula of its
// extent: # stands for the row's new mix, @ for its state of charge.
var changes = [...]struct {
	symbol   string
	equation *reaction.Equation
	extent   string
}{
	{"d1", reaction.DischargeAmmonium, "min(@left/2, #NH4Cl/2)"},
	{"d2", reaction.DischargeChloride, "max(0[mol], min((@left - 2*@d1)/8, #ZnCl2, #H2O/9))"},
	{"d3", reaction.DischargeOxide, "max(0[mol], min((@left - 2*@d1 - 8*@d2)/2, #H2O - 9*@d2))"},
	{"d4", reaction.DischargeDeep, "cell.deep/100[%]*@spoilt/6"},
	{"a1", reaction.AgeOxide, "min(@old/2, @d3 + @d4 - @gel)"},
	{"a2", reaction.AgeBasic, "max(0[mol], min((@old - 2*@a1)/8, @d2))"},
	{"a3", reaction.AgeDiammine, "max(0[mol], min((@old - 2*@a1 - 8*@a2)/2, @d1))"},
}

// discharge defines the extents in a row at a charge, in percent.
func (w *Workings) discharge(tag string, i int, charge string) {
	r := fmt.Sprintf("r%d.", i+1)
	t := tag + r
	at := ofRow(i) + map[string]string{"least.": ", all spent", "most.": ", none spent"}[tag]
	gel := "0[mol]"
	if cell.Kinds()[w.plan.Rows[i].Kind].Caustic {
		gel = "(1 - mix.gel/100[%])*(@d3 + @d4)"
	}
	pairs := []string{"#", r, "@", t, "$at", at, "$charge", charge}
	w.define(`
		@left | mol | MnO₂ that is spent$at | #MnO2*(1 - $charge/100[%])
		@spoilt | mol | MnOOH that discharge made$at | 2*@d1 + 8*@d2 + 2*@d3
		@old | mol | MnOOH that would age$at | max(0[mol], min(cell.aged/100[%]*@spoilt, @spoilt - 6*@d4))
		@gel | mol | zinc oxide that stays out with the gel$at | `+gel, pairs...)
	for _, c := range changes {
		w.define("@"+c.symbol+" | mol | $at | "+c.extent, pairs...)
		w.extends(t+c.symbol, c.equation)
	}
}

// bag defines the sums over the rows at one state of charge: moles under prefix,
// the wet and the washed mass, and what an assay finds.
func (w *Workings) bag(prefix, tag, when string, rows []int, scale string) {
	sum := func(symbol string) string {
		var parts []string
		for _, i := range rows {
			row := fmt.Sprintf("r%d.", i+1) + symbol
			if symbol[0] >= 'a' {
				row = tag + row
			}
			parts = append(parts, row)
		}
		text := strings.Join(parts, " + ")
		if scale != "" {
			text = "(" + text + ")*" + scale
		}
		return text
	}
	for _, s := range []string{"MnO2", "C", "SiO2", "NH4Cl", "ZnCl2", "H2O", "KOH", "FeOOH"} {
		w.def(prefix+s, lowered(s)+" as new, in all"+when, "mol", sum(s))
	}
	for _, c := range changes {
		w.def(prefix+c.symbol, ", in all"+when, "mol", sum(c.symbol))
		w.extends(prefix+c.symbol, c.equation)
	}
	w.define(`
		@gel | mol | zinc oxide that stays out with the gel, in all$when | $gel
		@Zn | mol | zinc that discharge took from the cans$when | @d1 + 4*@d2 + @d3 + @d4
		@spent | mol | MnO₂ that discharge spent$when | 2*@d1 + 8*@d2 + 2*@d3
		@aged | mol | MnOOH that aged$when | 2*@a1 + 8*@a2 + 2*@a3
		@wet | g | wet mix$when | @MnO2*M(MnO2) + @C*M(C) + @SiO2*M(SiO2) + @NH4Cl*M(NH4Cl) + @ZnCl2*M(ZnCl2) + @H2O*M(H2O) + @Zn*M(Zn) + @KOH*M(KOH) + @FeOOH*M(FeOOH) - @gel*M(ZnO)
		@salt | mol | basic zinc chloride after the wash$when | @d2 - @a2 + wash.hydrolysis/100[%]*(@d1 - @a3)/5
		@washed | g | washed dry mix$when | @C*M(C) + @SiO2*M(SiO2) + @FeOOH*M(FeOOH) + (@MnO2 - @spent)*M(MnO2) + max(0[mol], @spent - @aged - 6*@d4)*M(MnOOH) + @aged/2*M(hetaerolite) + 2*@d4*M(Mn3O4) + (@d3 + @d4 - @a1 - @gel)*M(ZnO) + @salt*M(basic) + (1 - wash.hydrolysis/100[%])*(@d1 - @a3)*M(diammine)
		@found | mol | what an assay finds, as MnO₂$when | @MnO2 - @spent/2 - @d4
	`, "@", prefix, "$when", when, "$gel", sum("gel"))
}

// mix defines the mix of all rows and its figures.
func (w *Workings) mix(rows []int) {
	p := &w.plan
	if quantity.Given(p.MixAssay) {
		q := 100 * route.ChargeOf(p)
		w.known("charge", "oxide still unused at which the washed mix has the assay", "%", q,
			&Source{"Oxide still unused", withUnit(digits(q), "%"), "found by trial: the one value, for all cells, at which the washed mix shows the assay; see the working of the assay to expect"})
	}
	for _, i := range rows {
		w.fresh(i)
		charge := "charge"
		if w.terms[charge] == nil {
			charge = rowKey(i) + "charge"
			if !quantity.Given(p.Rows[i].Charge) {
				charge = "cell.charge"
			}
		}
		w.discharge("", i, charge)
		w.discharge("least.", i, "0[%]")
		w.discharge("most.", i, "100[%]")
	}
	w.bag("least.", "least.", ", all spent", rows, "")
	w.bag("most.", "most.", ", none spent", rows, "")
	scale := ""
	if quantity.Given(p.MixWashed) || quantity.Given(p.MixWet) {
		weighed := "mix.washed/table.washed"
		if !quantity.Given(p.MixWashed) {
			weighed = "mix.wet/table.wet"
		}
		w.bag("table.", "", ", by the table of cells", rows, "")
		w.def("scale", "weighed, to what the table of cells says", "", weighed)
		scale = "scale"
	}
	w.bag("bag.", "", "", rows, scale)
	w.define(`
		= mix.mass | $wet
		= mix.dry | $washed
		= mix.lye | bag.KOH*M(KOH)
		= mix.manganese | bag.MnO2*1000[mmol/mol]
		= mix.oxide | bag.found*M(MnO2)
		= mix.charge | 100[%]*(1 - bag.spent/bag.MnO2)
		= mix.hetaerolite | bag.aged/2*M(hetaerolite)
		= mix.assay.least | 100[%]*least.found*M(MnO2)/least.washed
		= mix.assay.most | 100[%]*most.found*M(MnO2)/most.washed
		= cell.aged.reached | 100[%]*bag.aged/bag.spent | if bag.spent > 0[mol]
		= cell.aged.reached | 0[%] | since bag.spent <= 0[mol]
	`, "$wet", w.terms["bag.wet"].text, "$washed", w.terms["bag.washed"].text)
}
