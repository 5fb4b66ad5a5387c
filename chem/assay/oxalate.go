package assay

import (
	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
)

// The reductants of the back-titration, in the order of its choice.
const (
	acidWeighed = iota
	saltWeighed
	acidSolution
	ironSolution
)

// oxalate is the available oxygen by oxalic acid, or iron(II), and permanganate for
// what is left of it. Talbot, Introductory Course of Quantitative Chemical Analysis
// (oxalic acid); Lunge's method in Villavecchia, Treatise on Applied Analytical
// Chemistry, vol. 1, p. 75 (iron; the author's name from memory).
var oxalate = &Method{
	Key: "assay.oxalate", Name: "By oxalic acid and permanganate", Purpose: OfMix, Burette: true,
	Inputs: []field.Field{
		grams("assay.oxalate.sample", "Washed mix, dry", 20, "About half a gram."),
		{
			Key: "assay.oxalate.reductant", Name: "Reduced by", Options: field.Words("acid", "oxalic acid dihydrate, weighed", "salt", "sodium oxalate, weighed", "solution", "oxalic acid solution", "iron", "iron(II) solution"),
			Why: "In excess: about 0.2 g of oxalic acid more than the oxide takes.",
		},
		{Key: "assay.oxalate.mass", Name: "Of it, weighed", Unit: "g", Max: 50, Default: nothing, Blank: "not read; not wanted for a solution", Why: "For a weighed reductant.", Remedy: "Weigh in grams."},
		{Key: "assay.oxalate.purity", Name: "Its purity", Unit: "%", Min: 1, Max: 100, Default: 99.5, Blank: "99.5 %", Rare: true, Why: "Of a weighed reductant, from its label.", Remedy: "Give mass percent."},
		{Key: "assay.oxalate.portion", Name: "Of it, measured", Unit: "mL", Max: 1000, Default: nothing, Blank: "not read; not wanted where it is weighed", Why: "For a solution.", Remedy: "Measure in millilitres."},
		{Key: "assay.oxalate.molarity", Name: "Its strength", Unit: "mol/L", Min: 0.001, Max: 2, Default: nothing, Blank: "not read; not wanted where it is weighed, or was titrated by itself", Why: "For a solution.", Remedy: "Give moles in a litre."},
		{Key: "assay.oxalate.full", Name: "Permanganate for it alone", Unit: "mL", Max: 1000, Default: nothing, Blank: "not titrated by itself", Why: "The same portion without mix: surer than its strength.", Remedy: "Read in millilitres."},
		titre("assay.oxalate.titre", "Permanganate used", "For what the mix left over."),
		blankTitre("assay.oxalate.blank", "What the acid alone takes to turn pink."),
	},
	work: func(w *work) {
		m, v, b := w.weighed("sample"), w.titre("titre"), w.blank()
		c := w.strength(permanganate)
		reductant := w.chosen("reductant")
		iron := reductant == ironSolution
		// left is moles of reductant to one of permanganate; takes of it to one of MnO2.
		left, takes := reaction.PermanganateOxalate.Per("C2O4^2-", "MnO4^-"), reaction.OxalateDioxide.Per("H2C2O4", "MnO2")
		equation, titration, name := reaction.OxalateDioxide, reaction.PermanganateOxalate, "oxalate"
		if iron {
			left, takes = reaction.PermanganateIron.Per("Fe^2+", "MnO4^-"), reaction.IronDioxide.Per("Fe^2+", "MnO2")
			equation, titration, name = reaction.IronDioxide, reaction.PermanganateIron, "iron"
		}
		var given func(x []float64) float64 // moles of reductant
		var words string
		var slips []slip
		at := "mass"
		switch {
		case reductant == acidWeighed || reductant == saltWeighed:
			weight, other := molarOxalic, molarOxalate
			if reductant == saltWeighed {
				weight, other = other, weight
			}
			g, p := w.weighed("mass"), w.purity()
			per := w.add("", weight, 0)
			given = func(x []float64) float64 { return x[g] * x[p] / x[per] }
			words = typed(w.x[g]) + " g × " + show(100*w.x[p], 4) + " % ÷ " + show(weight, 6) + " g/mol"
			slips = append(slips,
				milligrams(g),
				slip{"reductant", "the other oxalate weighed", func(x []float64) { x[per] = other }})
		case w.given("full"):
			at = "full"
			full := w.titre("full")
			given = func(x []float64) float64 { return left * x[c] * (x[full] - x[b]) / 1000 }
			words = show(left, 2) + " × " + show(w.x[c], 4) + " mol/L × " + w.used(full, b)
			slips = append(slips, slip{"full", "the two titrations in each other's field", func(x []float64) { x[full], x[v] = x[v], x[full] }})
		default:
			at = "portion"
			portion := w.measured("portion", Pipette)
			s := w.number("molarity")
			strength := w.add(w.title("molarity"), s, rectangular(knownShare*s))
			given = func(x []float64) float64 { return x[portion] * x[strength] / 1000 }
			words = typed(w.x[portion]) + " mL × " + typed(s) + " mol/L"
			slips = append(slips, slip{"molarity", "a normality typed for the molarity of the oxalic acid", func(x []float64) {
				if !iron {
					x[strength] /= 2
				}
			}})
		}
		if w.stopped() || w.nothingWeighed(m, "dry mix") {
			return
		}
		if w.x[v]-w.x[b] <= 0 {
			w.blame("titre", "No permanganate was used: the "+name+" was all used up by the oxide, and the result would only be the least. Begin again with more of it.")
			return
		}
		rest := func(x []float64) float64 { return left * x[c] * (x[v] - x[b]) / 1000 }
		moles := func(x []float64) float64 { return (given(x) - rest(x)) / takes }
		f := func(x []float64) float64 { return 100 * moles(x) * molarDioxide / x[m] }
		w.line(Typeset(equation))
		w.line(Typeset(titration))
		w.line("n(", name, ", put in) = ", words, " = ", show(given(w.x)*1000, 4), " mmol")
		w.line("n(", name, ", left) = ", show(left, 2), " × ", show(w.x[c], 4), " mol/L × ", w.used(v, b), " = ", show(rest(w.x)*1000, 4), " mmol")
		w.line("n(MnO₂) = (", show(given(w.x)*1000, 4), " − ", show(rest(w.x)*1000, 4), ") ÷ ", show(takes, 1), " = ", show(moles(w.x)*1000, 4), " mmol = ", show(moles(w.x)*molarDioxide, 4), " g in ", typed(w.x[m]), " g of mix")
		slips = append(w.normality(c), slips...)
		r := w.settle("Available oxygen of the mix, as MnO₂", "%", 0, 100, "nothing holds more than 100 or less than 0.", at, f, slips...)
		r.Moles = quantity.Mole(moles(w.x))
		w.notes = append(w.notes, "Counts one mole for each of manganese(IV), half for each of manganese(III): what the plan means by its assay.")
		w.hand("mix.assay", 1)
	},
}
