package assay

import (
	"fmt"

	"rosesalt/chem/field"
	"rosesalt/chem/formula"
	"rosesalt/chem/reaction"
)

// permanganate finds the strength of the permanganate against oxalic acid or sodium
// oxalate, weighed into the flask. Procedure after the United States Pharmacopeia,
// Volumetric Solutions, and Talbot.
var permanganate = &Method{
	Key: "assay.permanganate", Name: "Permanganate", Purpose: OfTitrant, Burette: true, serves: "It goes into the titrations below.",
	Inputs: []field.Field{
		{
			Key: "assay.permanganate.known", Name: "Its strength is known", Unit: "mol/L", Min: 0.0005, Max: 0.3,
			Why: "Only if it was standardised lately. One tenth normal is 0.02 mol/L. Leave it blank to work it out below.", Remedy: "Give moles of KMnO₄ in a litre, not its normality.",
		},
		{
			Key: "assay.permanganate.standard", Name: "Standard", Options: field.Words("acid", "oxalic acid dihydrate", "salt", "sodium oxalate, dried at 110 °C"),
			Why: "The dihydrate weathers in dry air and must not be dried in an oven.",
		},
		grams("assay.permanganate.mass", "Standard, weighed", 20, "Into the flask that is titrated."),
		purity("assay.permanganate.purity", "Purity of the standard", "From its label."),
		titre("assay.permanganate.titre", "Permanganate used", firstAndLast),
		blankTitre("assay.permanganate.blank", "What the acid alone takes to turn pink."),
	},
	work: func(w *work) {
		if w.asTyped("KMnO₄", "permanganate", 0.4) {
			return
		}
		molarStandard, name := molarOxalic, "oxalic acid dihydrate"
		if w.chosen("standard") == 1 {
			molarStandard, name = molarOxalate, "sodium oxalate"
		}
		m, p, v, b := w.weighed("mass"), w.purity(), w.titre("titre"), w.blank()
		if w.stopped() {
			return
		}
		if w.x[v] == w.x[b] {
			w.blame("titre", "No permanganate was used beyond the blank. Read the burette again.")
			return
		}
		per := reaction.PermanganateOxalate.Per("MnO4^-", "C2O4^2-")
		f := func(x []float64) float64 { return x[m] * x[p] / molarStandard * per / (x[v] - x[b]) * 1000 }
		w.line(Typeset(reaction.PermanganateOxalate))
		w.line("n(oxalate) = ", typed(w.x[m]), " g × ", show(100*w.x[p], 4), " % ÷ ", show(molarStandard, 6), " g/mol = ", show(w.x[m]*w.x[p]/molarStandard*1000, 4), " mmol of ", name)
		w.line("c(KMnO₄) = 2/5 × ", show(w.x[m]*w.x[p]/molarStandard*1000, 4), " mmol ÷ ", w.used(v, b), " = ", show(f(w.x), 4), " mol/L")
		w.settle("Strength of the permanganate", "mol/L", 0.0005, 0.4, "no titrant is as strong or as weak as that: permanganate dissolves to about 0.4 mol/L.", "titre", f,
			milligrams(m))
	},
}

// edetate finds the strength of the EDTA solution: against zinc metal, or from what
// was weighed.
var edetate = &Method{
	Key: "assay.edetate", Name: "EDTA solution", Purpose: OfTitrant, Burette: true, serves: "It goes into the titration below.",
	Inputs: []field.Field{
		{
			Key: "assay.edetate.known", Name: "Its strength is known", Unit: "mol/L", Min: 0.0005, Max: 0.5,
			Why: "Only if it was standardised lately. Leave it blank to work it out below.", Remedy: "Give moles in a litre.",
		},
		{Key: "assay.edetate.way", Name: "Found by", Options: field.Words("zinc", "zinc metal", "salt", "weighing the disodium salt dihydrate"), Why: "Zinc is the surer."},
		grams("assay.edetate.mass", "Weighed", 200, "The zinc, or the disodium salt."),
		purity("assay.edetate.purity", "Purity of it", "From its label."),
		{Key: "assay.edetate.flask", Name: "Made up to", Unit: "mL", Min: 1, Max: 1000, Why: "The flask's mark.", Remedy: "The largest flask listed holds a litre."},
		{Key: "assay.edetate.part", Name: "Part titrated", Unit: "mL", Min: 0.1, Max: 100, Default: nothing, Blank: "not read; not wanted for the weighed salt", Why: "Out of the flask of zinc, by pipette."},
		{Key: "assay.edetate.titre", Name: "EDTA used", Unit: "mL", Max: 1000, Default: nothing, Blank: "not read; not wanted for the weighed salt", Why: firstAndLast},
		blankTitre("assay.edetate.blank", "Water, buffer and dye alone."),
	},
	work: func(w *work) {
		if w.asTyped("EDTA", "EDTA", 0.5) {
			return
		}
		m, p, flask := w.weighed("mass"), w.purity(), w.measured("flask", Flask)
		if w.chosen("way") == 1 {
			if w.stopped() {
				return
			}
			f := func(x []float64) float64 { return x[m] * x[p] / molarEdetate / x[flask] * 1000 }
			w.line("c(EDTA) = ", typed(w.x[m]), " g × ", show(100*w.x[p], 4), " % ÷ ", show(molarEdetate, 6), " g/mol ÷ ", typed(w.x[flask]), " mL = ", show(f(w.x), 4), " mol/L")
			w.settle("Strength of the EDTA", "mol/L", 0.0005, 0.5, "no titrant is as strong or as weak as that.", "mass", f,
				milligrams(m))
			return
		}
		a, v, b := w.measured("part", Pipette), w.titre("titre"), w.blank()
		if w.stopped() {
			return
		}
		if w.tooLarge(a, flask) {
			return
		}
		if w.x[v] == w.x[b] {
			w.blame("titre", "No EDTA was used beyond the blank. Read the burette again.")
			return
		}
		f := func(x []float64) float64 {
			return x[m] * x[p] / molarZn * x[a] / x[flask] / (x[v] - x[b]) * 1000
		}
		w.line(Typeset(reaction.EdetateZinc))
		w.line("n(Zn) = ", typed(w.x[m]), " g × ", show(100*w.x[p], 4), " % ÷ ", show(molarZn, 4), " g/mol × ", typed(w.x[a]), "/", typed(w.x[flask]), " = ", show(w.x[m]*w.x[p]/molarZn*w.x[a]/w.x[flask]*1000, 4), " mmol")
		w.line("c(EDTA) = that ÷ ", w.used(v, b), " = ", show(f(w.x), 4), " mol/L")
		w.settle("Strength of the EDTA", "mol/L", 0.0005, 0.5, "no titrant is as strong or as weak as that.", "titre", f,
			slip{"part", "the part and the flask in each other's field", func(x []float64) { x[a], x[flask] = x[flask], x[a] }},
			milligrams(m))
	},
}

// normality is the slip of typing the permanganate's normality for its molarity: five
// times too much. There is none where it was standardised here.
func (w *work) normality(c part) []slip {
	if !w.given(permanganate.Key + ".known") {
		return nil
	}
	return []slip{{permanganate.Key + ".known", "the permanganate's normality typed for its molarity, five times too much", func(x []float64) { x[c] /= 5 }}}
}

// asTyped takes a titrant's strength as it was typed; false where none was.
func (w *work) asTyped(formula, name string, most float64) bool {
	if !w.given("known") {
		return false
	}
	v := w.number("known")
	c := w.add("the strength as typed", v, rectangular(knownShare*v))
	w.line("c("+formula+") = ", typed(v), " mol/L, as typed; taken to be right within ", show(100*knownShare, 2), " %")
	w.settle("Strength of the "+name, "mol/L", 0, most, "", "known", func(x []float64) float64 { return x[c] })
	return true
}

// Recipe is how a solution is made up.
type Recipe struct {
	Name, Formula string
	Molarity      float64 // mol/L
	How           string
}

// Mass is what to weigh in g for a volume in mL.
func (r Recipe) Mass(millilitres float64) float64 {
	return r.Molarity * millilitres / 1000 * float64(formula.MustParse(r.Formula).MolarMass())
}

// String is the recipe for half a litre in a sentence.
func (r Recipe) String() string {
	return fmt.Sprintf("%s, %s mol/L: %s g of %s to half a litre. %s", r.Name, typed(r.Molarity), show(r.Mass(500), 3), formula.Typeset(r.Formula), r.How)
}

// Recipes are the solutions that the methods ask for. Strengths and handling: Talbot,
// Introductory Course of Quantitative Chemical Analysis, 6th ed. (that permanganate is
// boiled, stands, is filtered free of oxide and kept from light), and the United States
// Pharmacopeia, Volumetric Solutions (from memory but for the equivalents that the tests
// hold); the buffer: common practice.
func Recipes() []Recipe {
	return []Recipe{
		{"Permanganate", "KMnO4", 0.02, "Boil it for a quarter of an hour, let it stand two days in the dark, pour it off its sediment through glass wool, not paper. Standardise it, and again after a month."},
		{"Oxalic acid", "H2C2O4·2H2O", 0.05, "Weigh it as it comes out of a closed jar. Poisonous. It keeps for weeks in the dark."},
		{"Iron(II) solution", "(NH4)2Fe(SO4)2·6H2O", 0.1, "In dilute sulfuric acid (1 part into 19 of water). Air turns it: titrate it by itself on the same day."},
		{"EDTA", "C10H14N2Na2O8·2H2O", 0.05, "It dissolves slowly; keep it in plastic. Standardise it against zinc."},
		{"Buffer of pH 10, its ammonium chloride", "NH4Cl", 1.26, "With 285 mL of strong ammonia in the half litre, outdoors: it bites the eyes and lungs."},
	}
}
