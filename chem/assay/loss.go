package assay

import (
	"math"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/room"
	"rosesalt/chem/table"
)

const (
	// molarAir is that of dry air in g/mol, as handbooks of air conditioning tabulate it.
	molarAir = 28.965
	// heldCarbon is the carbon dioxide, g in a mL of water under one atmosphere of it at
	// 25 °C (3.4e-4 mol/(m3 Pa): Sander, Atmos. Chem. Phys. 23 (2023) 10901).
	heldCarbon = 3.4e-4 * 101.325 * 44.009 / 1000
	// coolsBy is by how many kelvins the gas in the neck is cooler than the flask was at its
	// warmest; the half-width of that is as much (estimate).
	coolsBy = 5
	// warmest is the temperature of the flask, °C, up to which the allowance for water vapour
	// holds (estimate: there it is a quarter of the gas, and the table's straight line 8 % high).
	warmest = 60
	// sweptLeft is the share of the gas in the flask that sweeping may leave there (estimate).
	sweptLeft = 0.05
)

// loss is the assay without a burette: the carbon dioxide that oxalic acid makes of
// the oxide, by what the flask loses. After Fresenius and Will (in Fresenius,
// Anleitung zur quantitativen chemischen Analyse: two equivalents of carbon dioxide to
// one of dioxide, by the loss of a weighed apparatus swept with air), for a balance of
// 0.01 g and with dilute acid.
var loss = &Method{
	Key: "assay.loss", Name: "By the gas lost, on a balance", Purpose: OfMix,
	Inputs: []field.Field{
		grams("assay.loss.sample", "Washed mix, dry", 100, "Two to five grams for a balance of 0.01 g."),
		grams("assay.loss.oxalic", "Oxalic acid dihydrate", 200, "One and a half times the mix is always enough."),
		{Key: "assay.loss.acid", Name: "Dilute acid, as 1 mol/L", Unit: "mL", Max: 2000, Why: "25 mL to a gram of mix. Sulfuric acid; of 2 mol/L give twice the volume.", Remedy: "Give millilitres of acid of 1 mol/L."},
		{Key: "assay.loss.kind", Name: "The acid was", Options: field.Words("unsaid", "not said", "dilute", "dilute, at most 2 mol/L", "strong", "stronger"), Why: "Strong acid breaks oxalic acid up by itself."},
		grams("assay.loss.before", "Everything, before", 5000, "Flask, plug, acid, mix, oxalic acid, boats."),
		grams("assay.loss.after", "Everything, after", 5000, "The same things, cold, swept and dry outside."),
		{Key: "assay.loss.blank", Name: "Lost by the blank", Unit: "g", Max: 100, Why: "Without it evaporation would be counted as gas.", Remedy: "Give what it lost in grams; 0 if nothing."},
		{Key: "assay.loss.celsius", Name: "Warmest the flask got", Unit: "°C", Max: 100, Why: "Gas out of warm liquor takes water along that the blank does not show.", Remedy: "Give degrees Celsius."},
		{Key: "assay.loss.way", Name: "The gas left through", Options: field.Words("open", "cotton wool", "tube", "a drying tube weighed along"), Why: "A drying tube holds the water back: no allowance then."},
		{Key: "assay.loss.swept", Name: "Air was drawn through", Options: field.Words("yes", "yes", "no", "no"), Why: "Carbon dioxide left in flask and liquor weighs; unswept the result is rough."},
		{Key: "assay.loss.head", Name: "Air space of the flask", Unit: "mL", Max: 5000, Default: 150, Blank: "150 mL", Rare: true, Why: "Counts only when it was not swept."},
		balanceStep("assay.loss.step"),
	},
	work: func(w *work) {
		step := w.orZero("step")
		mass := func(name string) part { return w.add(w.title(name), w.number(name), weighing(step)) }
		m, oxalic, acid := mass("sample"), w.number("oxalic"), w.number("acid")
		kind := w.must("kind")
		// Both weighings are on the same pan near the same load, so they count as one difference.
		before, after := w.number("before"), w.number("after")
		lost := w.add("what the flask lost", before-after, weighing(step))
		blank := mass("blank")
		celsius := w.number("celsius")
		dry, unswept := w.chosen("way") == 1, w.chosen("swept") == 1
		if kind == 2 {
			w.blame("kind", "Strong sulfuric acid breaks oxalic acid up into carbon monoxide and dioxide without any oxide: the loss would mean nothing. Use acid of 2 mol/L at most.")
		}
		if w.stopped() {
			return
		}
		warm := w.add("how warm the gas left", celsius, rectangular(coolsBy))
		left, u := 0.0, sweptLeft
		if unswept {
			left, u = 0.5, 0.5
		}
		staying := w.add("gas left in the flask", left, rectangular(u))
		pressure := float64(w.air.Pressure)
		switch {
		case before-after <= 0:
			w.blame("after", "Nothing was lost: "+typed(after)+" g after, "+typed(before)+" g before. Likely the two are in each other's field, or the mix was not on the pan the first time.")
		case w.x[blank] > before-after:
			w.blame("blank", "The blank lost "+typed(w.x[blank])+" g, more than the sample with "+show(before-after, 3)+" g. Likely a weighing typed for a loss, or the two in each other's field.")
		case !dry && celsius > warmest:
			w.blame("celsius", typed(celsius)+" °C is above the limit of 60 °C: so much water leaves with the gas that the result would be its guess. Keep it below, or lead the gas through a drying tube weighed along.")
		case w.x[m] == 0:
			w.blame("sample", "Nothing was weighed in. Give the grams of dry mix.")
		case !(pressure > 30):
			w.blame("celsius", "The plan's air pressure is too low to tell how much water leaves.")
		}
		if w.stopped() {
			return
		}
		vapour := func(t float64) float64 {
			if dry {
				return 0
			}
			t = math.Max(0, math.Min(100, t-coolsBy))
			p, err := table.WaterVapourPressure.At(t)
			if err != nil {
				return math.NaN()
			}
			return molarWater / molarCarbon * p / (pressure - p)
		}
		head := w.orZero("head")
		density := 1 / room.MolarVolume(quantity.Celsius(25).Kelvin(), pressure) / 1000 // mol/mL
		stays := head*density*(molarCarbon-molarAir) + acid*heldCarbon
		gas := func(x []float64) float64 {
			return (x[lost] - x[blank] + x[staying]*stays) / (1 + vapour(x[warm]))
		}
		perGas := reaction.OxalateDioxide.Per("MnO2", "CO2") * molarDioxide / molarCarbon
		f := func(x []float64) float64 { return 100 * gas(x) * perGas / x[m] }
		w.line(Typeset(reaction.OxalateDioxide))
		w.line("lost = ", typed(before), " − ", typed(after), " g − ", typed(w.x[blank]), " g by the blank = ", show(w.x[lost]-w.x[blank], 3), " g")
		if !dry {
			w.line("water with the gas: saturated at about ", show(celsius-coolsBy, 3), " °C it is ", show(100*vapour(celsius), 3), " % of the carbon dioxide's mass")
		}
		if unswept {
			w.line("not swept: between nothing and ", show(stays, 2), " g of it stayed in flask and liquor; half is taken")
		}
		w.line("CO₂ = ", show(gas(w.x), 3), " g; MnO₂ = that × 86.936 ÷ (2 × 44.009) = ", show(gas(w.x)*perGas, 3), " g in ", typed(w.x[m]), " g of mix")
		r := w.settle("Available oxygen of the mix, as MnO₂", "%", 0, 100, "nothing holds more than 100 or less than 0.", "after", f,
			slip{"before", "the flask weighed before without the mix in it", func(x []float64) { x[lost] += x[m] }},
			slip{"before", "the flask weighed before without mix and oxalic acid", func(x []float64) { x[lost] += x[m] + oxalic }},
			slip{"blank", "the whole loss typed as the blank", func(x []float64) { x[blank] = 0 }})
		moles := gas(w.x) * perGas / molarDioxide
		r.Moles = quantity.Mole(moles)
		most := oxalic / molarOxalic
		switch needed := moles * reaction.OxalateDioxide.Per("H2C2O4", "MnO2"); {
		case len(w.problems) > 0:
		case needed > most*1.05:
			w.blame("oxalic", typed(oxalic)+" g of oxalic acid can give "+show(2*most*molarCarbon, 3)+" g of gas, and "+show(gas(w.x), 3)+" g left. Something else was lost (spray, drops on the outside), or the grams are wrong.")
		case needed > most*0.95:
			w.blame("oxalic", typed(oxalic)+" g of oxalic acid was all used up: oxide is left, and the result is only the least. Take at least "+show(1.2*needed*molarOxalic, 2)+" g and begin again.")
		}
		// A mole of Mn(IV) takes one of sulfuric acid, the two of Mn(III) that count for one take two.
		if need := moles * 1000; len(w.problems) == 0 && acid < need {
			w.blame("acid", typed(acid)+" mL of acid of 1 mol/L is less than the "+show(need, 2)+" mL that the oxide takes at the least: oxalate of manganese falls out, and oxide stays. Take "+show(2.5*need, 2)+" mL.")
		} else if acid < 2*need {
			w.notes = append(w.notes, "Acid was short if much of the manganese is trivalent: make sure that nothing brown or black but carbon is left.")
		}
		r.Others = append(r.Others, Other{Name: "Without the allowance for water vapour it would read", Unit: "%", Value: f(w.x) * (1 + vapour(celsius)), U: r.U})
		w.hand("mix.assay", 1)
	},
}
