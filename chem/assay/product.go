package assay

import (
	"math"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
)

// boundManganese is the message that refuses an impossible result of either titration of the product.
var boundManganese = "pure anhydrous manganese sulfate holds " + show(mostManganese, 3) + ", and nothing holds less than 0."

// dissolved are the readings of a sample made up to a volume and titrated in parts.
func dissolved(key string) []field.Field {
	return []field.Field{
		grams(key+".sample", "Manganese sulfate", 100, "As it stands in the jar, about 1 g."),
		{Key: key + ".flask", Name: "Made up to", Unit: "mL", Min: 1, Max: 1000, Default: nothing, Blank: "not made up: the whole sample is titrated", Why: "The flask's mark."},
		{Key: key + ".part", Name: "Part titrated", Unit: "mL", Min: 0.1, Max: 100, Default: nothing, Blank: "not read; not wanted where the whole is titrated", Why: "Out of it, by pipette."},
		titre(key+".titre", "Titrant used", firstAndLast),
		blankTitre(key+".blank", "The same without the salt."),
	}
}

// portion is the share of the sample that was titrated, and the slips about it.
func (w *work) portion() (share func(x []float64) float64, words string, slips []slip) {
	if !w.given("flask") && !w.given("part") {
		return func([]float64) float64 { return 1 }, "", nil
	}
	flask, part := w.measured("flask", Flask), w.measured("part", Pipette)
	if w.x[flask] > 0 {
		w.tooLarge(part, flask)
	}
	return func(x []float64) float64 { return x[part] / x[flask] },
		" × " + typed(w.x[flask]) + "/" + typed(w.x[part]),
		[]slip{{"part", "the whole was titrated and not a part of it", func(x []float64) { x[part] = x[flask] }}}
}

// volhard is manganese by permanganate in near-neutral liquor, with zinc oxide.
var volhard = &Method{
	Key: "assay.volhard", Name: "Manganese by permanganate, neutral (Volhard)", Purpose: OfProduct, Burette: true,
	Inputs: append(dissolved("assay.volhard"),
		field.Field{Key: "assay.volhard.medium", Name: "The liquor was", Options: field.Words("unsaid", "not said", "neutral", "neutral, zinc oxide in it", "acid", "acid"), Why: "In acid three to two does not hold."},
		field.Field{Key: "assay.volhard.clean", Name: "Sulfur dioxide, oxalate, iron(II)", Options: field.Words("unsaid", "not said", "none", "boiled out, none in it", "some", "may be in it"), Why: "They take permanganate too."},
	),
	work: func(w *work) {
		m, v, b := w.weighed("sample"), w.titre("titre"), w.blank()
		c := w.strength(permanganate)
		share, words, slips := w.portion()
		if w.must("medium") == 2 {
			w.blame("medium", "In acid permanganate and manganese do not react three to two, or not at all: the number would mean nothing. Neutralise, add zinc oxide, heat near to boiling, and titrate again.")
		}
		if w.must("clean") == 2 {
			w.blame("clean", "Sulfur dioxide, oxalate and iron(II) take permanganate and would be counted as manganese. Boil the sulfur dioxide out first; with the others titrate by EDTA.")
		}
		if w.stopped() || w.nothingWeighed(m, "salt") {
			return
		}
		per := reaction.PermanganateManganese.Per("Mn^2+", "MnO4^-")
		moles := func(x []float64) float64 { return per * x[c] * (x[v] - x[b]) / 1000 / share(x) }
		f := func(x []float64) float64 { return 100 * moles(x) * molarMn / x[m] }
		w.line(Typeset(reaction.PermanganateManganese))
		w.line("n(Mn) = 3/2 × ", show(w.x[c], 4), " mol/L × ", w.used(v, b), words, " = ", show(moles(w.x)*1000, 4), " mmol")
		w.line("m(Mn) = that × ", show(molarMn, 5), " g/mol = ", show(moles(w.x)*molarMn, 4), " g in ", typed(w.x[m]), " g of salt")
		slips = append(w.normality(c), slips...)
		r := w.settle("Manganese in the product", "%", 0, mostManganese, boundManganese, "titre", f, slips...)
		r.Moles = quantity.Mole(moles(w.x))
		w.notes = append(w.notes, "Zinc does not count here.", "Chloride in quantity does, and sulfur dioxide out of dithionate that hot acid broke up: neutralise before heating.", "It tends to read a little low: the brown oxide holds some manganese back unless it is shaken hard.")
		asSalts(r)
		w.hand("found.assay", 0)
	},
}

// asSalts writes the manganese as the salts that it may be.
func asSalts(r *Result) {
	for _, s := range []struct{ name, formula string }{
		{"Written as MnSO₄·H₂O", "MnSO4·H2O"}, {"Written as MnSO₄", "MnSO4"},
	} {
		factor := molar(s.formula) / molarMn
		r.Others = append(r.Others, Other{Name: s.name, Unit: "%", Value: factor * r.Value, U: factor * r.U})
	}
}

// zincShare is the half-width of a zinc content that was typed, as a share of it (estimate).
const zincShare = 0.1

// The ways in which EDTA's zinc is accounted for, in the order of its choice.
const (
	zincUnknown = iota
	zincNone
	zincKnown
	zincWanted
)

// chelate is manganese, and zinc, by EDTA. United States Pharmacopeia, monograph
// Manganese Sulfate, for the titration; zinc goes with it one to one.
var chelate = &Method{
	Key: "assay.chelate", Name: "Manganese by EDTA", Purpose: OfProduct, Burette: true,
	Inputs: append(dissolved("assay.chelate"),
		field.Field{
			Key: "assay.chelate.zinc", Name: "Zinc in the product", Options: field.Words("unsaid", "not accounted for", "none", "none: no battery salt", "known", "known, below", "wanted", "wanted: manganese known, below"),
			Why: "EDTA counts zinc as manganese, and salt out of cells holds zinc.",
		},
		field.Field{Key: "assay.chelate.percent", Name: "Zinc, by mass", Unit: "%", Max: 40, Default: nothing, Blank: "not read; wanted where zinc is known", Why: "By another method; taken to be right within a tenth of it.", Remedy: "Give mass percent of zinc."},
		field.Field{Key: "assay.chelate.manganese", Name: "Manganese, by mass", Unit: "%", Max: 36.4, Default: nothing, Blank: "as titrated by permanganate above", Why: "Where zinc is wanted.", Remedy: "Give mass percent of manganese."},
	),
	work: func(w *work) {
		m, v, b := w.weighed("sample"), w.titre("titre"), w.blank()
		c := w.strength(edetate)
		share, words, slips := w.portion()
		way := w.chosen("zinc")
		var known part
		switch way {
		case zincUnknown:
			w.blame("zinc", "EDTA takes zinc like manganese, one to one, and salt out of cells holds zinc: the sum would be read as manganese. Say how much zinc there is, or titrate the manganese by permanganate and find the zinc here.")
		case zincKnown:
			z := w.number("percent")
			known = w.add("the zinc", z, rectangular(zincShare*z))
		case zincWanted:
			if r := w.known[volhard.Key]; r != nil && !w.given("manganese") {
				known = w.add("the manganese", r.Value, r.U)
			} else {
				mn := w.number("manganese")
				known = w.add("the manganese", mn, rectangular(knownShare*mn))
			}
		}
		if w.stopped() || w.nothingWeighed(m, "salt") {
			return
		}
		total := func(x []float64) float64 { return x[c] * (x[v] - x[b]) / 1000 / share(x) }
		w.line(Typeset(reaction.EdetateManganese))
		w.line("n(Mn + Zn) = ", show(w.x[c], 4), " mol/L × ", w.used(v, b), words, " = ", show(total(w.x)*1000, 4), " mmol")
		if way == zincWanted {
			f := func(x []float64) float64 { return 100 * (total(x) - x[known]/100*x[m]/molarMn) * molarZn / x[m] }
			w.line("n(Mn) = ", show(w.x[known], 4), " % of ", typed(w.x[m]), " g ÷ ", show(molarMn, 5), " g/mol = ", show(w.x[known]/100*w.x[m]/molarMn*1000, 4), " mmol")
			r := w.settle("Zinc in the product", "%", 0, 100*molarZn/molar("ZnSO4"), "zinc sulfate itself holds 40.5, and nothing holds less than 0.", "titre", f, slips...)
			r.NoHandover = "The plan takes no zinc that was found; compare it with the impurities of the stage Dry."
			return
		}
		zinc := func(x []float64) float64 {
			if way == zincKnown {
				return x[known] / 100 * x[m] / molarZn
			}
			return 0
		}
		moles := func(x []float64) float64 { return total(x) - zinc(x) }
		f := func(x []float64) float64 { return 100 * moles(x) * molarMn / x[m] }
		if way == zincKnown {
			w.line("n(Zn) = ", show(w.x[known], 3), " % of ", typed(w.x[m]), " g ÷ ", show(molarZn, 4), " g/mol = ", show(zinc(w.x)*1000, 4), " mmol, taken off")
		}
		w.line("m(Mn) = ", show(moles(w.x)*1000, 4), " mmol × ", show(molarMn, 5), " g/mol = ", show(moles(w.x)*molarMn, 4), " g in ", typed(w.x[m]), " g of salt")
		r := w.settle("Manganese in the product", "%", 0, mostManganese, boundManganese, "titre", f, slips...)
		r.Moles = quantity.Mole(moles(w.x))
		w.notes = append(w.notes, "Copper, calcium, magnesium and lead would count too: hard water will not do.")
		asSalts(r)
		w.hand("found.assay", 0)
	},
}

// The ends of what ignition may be done at, °C. The last water leaves between 200 and
// 400 (Su et al., CIESC J. 59 (2008) 359); the pharmacopoeias ignite at 450 to 500; the
// sulfate breaks up from about 700 (melting point 700 °C, CRC Handbook), with a margin.
const (
	ignitesFrom = 400
	ignitesTo   = 600
)

// form is a hydrate that the jar may hold, and the temperature of drying that leaves it by the
// plan's account of hydrates (route, Dry).
type form struct {
	waters  float64
	name    string
	celsius float64 // not given where the plan has no such drying
}

var forms = []form{
	{0, "anhydrous, MnSO₄", 450},
	{1, "the monohydrate, MnSO₄·H₂O", 110},
	{4, "the tetrahydrate, MnSO₄·4H₂O", nothing},
	{5, "the pentahydrate, MnSO₄·5H₂O", 20},
	{7, "the heptahydrate, MnSO₄·7H₂O", 5},
}

// near is by how many waters a salt may differ from a hydrate and still be called by its name
// (estimate).
const near = 0.15

// ignition is the water of the salt, by what it loses at 450 °C. United States
// Pharmacopeia, monograph Manganese Sulfate, loss on ignition.
var ignition = &Method{
	Key: "assay.ignition", Name: "Water by loss on ignition", Purpose: OfProduct,
	Inputs: []field.Field{
		grams("assay.ignition.dish", "Dish, empty", 2000, "Heated before and cold."),
		grams("assay.ignition.before", "Dish with the salt", 2000, "Before the fire."),
		grams("assay.ignition.after", "After the fire", 2000, "Dish and salt, cold."),
		grams("assay.ignition.again", "After half an hour more", 2000, "Shows that it loses no more."),
		{Key: "assay.ignition.celsius", Name: "It was kept at", Unit: "°C", Max: 1200, Why: "450 °C is the pharmacopoeia's.", Remedy: "Give degrees Celsius."},
		balanceStep("assay.ignition.step"),
	},
	work: func(w *work) {
		step := w.orZero("step")
		dish, before, after, again, celsius := w.number("dish"), w.number("before"), w.number("after"), w.number("again"), w.number("celsius")
		if w.stopped() {
			return
		}
		switch {
		case celsius < ignitesFrom:
			w.blame("celsius", typed(celsius)+" °C is below the least, 400 °C: the last water leaves between 200 and 400 °C. Heat it to 450 °C.")
		case celsius > ignitesTo:
			w.blame("celsius", typed(celsius)+" °C is above the limit of 600 °C: near 700 °C the sulfate itself breaks up and its loss would be read as water. Keep it at 450 °C.")
		case before <= dish:
			w.blame("before", "There is no salt: dish and salt weigh "+typed(before)+" g, the dish alone "+typed(dish)+" g. Likely the two are in each other's field.")
		case again > before || after > before:
			w.blame("after", "It weighs more after the fire ("+typed(math.Max(after, again))+" g) than before ("+typed(before)+" g): no hydrate can. Likely the two are in each other's field.")
		case again <= dish:
			w.blame("again", typed(again)+" g is no more than the dish alone: no salt would be left. Likely the salt without its dish was typed, or another dish.")
		case math.Abs(after-again) > 2*step:
			w.blame("again", "It still changed by "+show(math.Abs(after-again), 2)+" g, more than two steps of the balance: not at constant mass. Heat it half an hour more and type the last two weighings.")
		}
		if w.stopped() {
			return
		}
		m := w.add("the salt weighed in", before-dish, weighing(step))
		lost := w.add("what it lost", before-again, weighing(step))
		share := func(x []float64) float64 { return 100 * x[lost] / x[m] }
		perWater := molarSulfate / molarWater
		f := func(x []float64) float64 { return share(x) / (100 - share(x)) * perWater }
		w.line(Typeset(reaction.Ignition), ", and so for each water")
		w.line("loss = (", typed(before), " − ", typed(again), ") ÷ (", typed(before), " − ", typed(dish), ") g = ", show(share(w.x), 4), " %")
		w.line("n = ", show(share(w.x), 4), " × ", show(molarSulfate, 6), " ÷ ((100 − ", show(share(w.x), 4), ") × ", show(molarWater, 5), ") = ", show(f(w.x), 3), " H₂O to one MnSO₄")
		r := w.settle("Water to one manganese sulfate", "H₂O", 0, 7, "the most that any hydrate holds is 7, a loss of 45.5 %.", "before", f)
		if w.problems[w.key("before")] != "" {
			w.problems[w.key("before")] = "It lost " + show(share(w.x), 3) + " %; the hydrate with most water, MnSO₄·7H₂O, can lose only 45.5 %. Likely the salt was wet or held free acid or ammonium salts, or the dish is not the one weighed empty."
		}
		r.Moles = quantity.Mole(w.x[lost] / molarWater)
		y, u, _ := w.propagate(share)
		r.Others = append(r.Others, Other{"Loss on ignition", "%", y, u},
			Other{"Manganese, if all that stayed is its sulfate", "%", mostManganese * (100 - y) / 100, mostManganese * u / 100})
		w.notes = append(w.notes, "Zinc sulfate stays and counts as manganese sulfate; ammonium sulfate, free acid and dithionate's sulfur dioxide leave and count as water.")
		n := math.Max(0, r.Value)
		r.NoHandover = "The plan knows no drying that leaves " + show(n, 3) + " H₂O."
		for _, is := range forms {
			if math.Abs(r.Value-is.waters) <= math.Max(near, 2*r.U) && quantity.Given(is.celsius) {
				w.notes = append(w.notes, "This is "+is.name+".")
				r.Handover = &Handover{Key: "found.dried", Value: is.celsius, Low: is.celsius, High: is.celsius}
				break
			}
		}
		if r.Handover == nil && n < 1 {
			// The plan's straight line: one water at 200 °C, none at 400.
			t := math.Round(400 - 200*n)
			w.notes = append(w.notes, "Between monohydrate and anhydrous.")
			r.Handover = &Handover{Key: "found.dried", Value: t, Low: t, High: t}
		}
		if r.Handover != nil {
			r.NoHandover = ""
		}
	},
}
