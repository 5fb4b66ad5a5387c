package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

const byPeroxide = ofWay << ByPeroxide

var peroxideInputs = []Input{
	{
		Field: field.Field{
			Key: "peroxide.charge", Name: "Hydrogen peroxide, as bought", Unit: "mL", Standing: WorkedOut, Min: 0, Max: 1e6,
			Blank: "as much as needed", Why: "In drops, into the acid slurry: it froths. 0 is dilute acid alone.", Remedy: "Leave the field blank for as much as is needed.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.PeroxideCharge) },
	},
	{
		Field: field.Field{
			Key: "peroxide.strength", Name: "Its strength", Unit: "%", Default: 3, Min: 0.5, Max: 35,
			Why:    "By mass, from the label; “10 volumes” is 3 %. It weakens in an old bottle.",
			Remedy: "Stronger than 35 % is not for this bench; 3 to 12 % is what shops sell.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.PeroxideStrength) },
	},
	{
		Field: field.Field{
			Key: "peroxide.lost", Name: "Peroxide that the oxide only breaks up", Unit: "%", Standing: Estimated, Default: 25, Low: 5, High: 50, Min: 0, Max: 95,
			Why: "The oxide is a catalyst for it, but in ample acid print reports less than half lost, at 60 °C too. In drops and well stirred loses least.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.PeroxideLost) },
	},
}

// Figures of the peroxide.
var peroxideFigures = []Figure{
	{ID: PeroxideUsed, Key: "peroxide.used", Unit: "mL", Name: "Hydrogen peroxide into the slurry, as bought", Main: true, For: "peroxide.charge", Poured: true, Of: byPeroxide},
	{ID: PeroxideNeeded, Key: "peroxide.needed", Unit: "mL", Name: "Hydrogen peroxide for this oxide, as bought", Of: byPeroxide},
	{ID: PeroxideMass, Key: "peroxide.mass", Unit: "g", Name: "That peroxide, weighed", Of: byPeroxide},
}

// peroxideWay: MnO2 + H2O2 + H2SO4 -> MnSO4 + O2 + 2 H2O. Each cation takes its
// sulfate from dilute acid, where gas would have brought one to a pair.
var peroxideWay = reductant{
	word: "peroxide", name: "hydrogen peroxide and dilute acid",
	conditions: []string{"peroxide"},
	inputs:     []string{"slurry.temperature", "stir.excess", "peroxide.charge", "peroxide.strength", "peroxide.lost"},
	bought:     func(p *Plan) string { return "Hydrogen peroxide, " + percent(p.PeroxideStrength) },
	charge:     func(p *Plan) *float64 { return (*float64)(&p.PeroxideCharge) },
	key:        "peroxide.charge",
	shelf:      "shelf.peroxide",
	used:       PeroxideUsed, needed: PeroxideNeeded,
	handled: []Substance{HydrogenPeroxide},
	stir:    &peroxideStirred,
	figures: peroxideFigures,
	formulas: Formulas{
		Reads: []TableRead{{"peroxide.density", "density of the peroxide", table.PeroxideDensity, "peroxide.strength"}},
		Need:  "pairs*(1 - loss.transfer/100[%])*slurry.reach/100[%]*(1 + stir.excess/100[%])/(1 - peroxide.lost/100[%])",
		Given: "peroxide.charge*peroxide.density*peroxide.strength/100[%]/M(H2O2)",
		Blank: "stir.need",
		Define: `
			= peroxide.needed | stir.need*M(H2O2)/(peroxide.strength/100[%])/peroxide.density
			= peroxide.used | stirred*M(H2O2)/(peroxide.strength/100[%])/peroxide.density
			= peroxide.mass | stirred*M(H2O2)/(peroxide.strength/100[%])
			= demand.acid | (acid.bare + pairs)*1000[mmol/mol]
		`,
		Counts: []*Equation{PeroxideDioxide, PeroxideManganite, PeroxideHetaerolite, PeroxideHausmannite, PeroxideBreaks},
		Brings: "(peroxide.mass - stirred*M(H2O2))/liquor",
		By:     PeroxideBreaks,
		Extent: "breaks",
		More:   "h.SO4 - h.SO2 + h.H2O2 - 2*h.H2O",
		Heat:   "2*breaks*(h.H2O2 - h.H2O)",
		Part:   "min(1, stirred*(1 - peroxide.lost/100[%])/reach.pairs, have/cations)",
	},
	says: func(p *Plan, _ *Sheet) []string {
		if p.PeroxideStrength > 12 {
			return []string{"stir.warm", "stir.strong"}
		}
		return []string{"stir.warm"}
	},
}

var peroxideStirred = stirred{
	inputs:      peroxideInputs,
	acidPerPair: 1,
	pure: func(p *Plan, ml float64) quantity.Mole {
		return HydrogenPeroxide.Moles(quantity.Gram(ml * peroxideDensity(p) * p.PeroxideStrength.Fraction()))
	},
	// The charge at the best yield, dilute acid given enough, with the excess: what the oxide
	// in reach takes, and what is lost beside it.
	needs: func(_ *Runner, p *Plan, pairs quantity.Mole) quantity.Mole {
		return pairs * quantity.Mole(p.reached()*(1+p.StirExcess.Fraction())/(1-p.PeroxideLost.Fraction()))
	},
	bought: func(p *Plan, n quantity.Mole) float64 {
		return float64(HydrogenPeroxide.Mass(n)) / p.PeroxideStrength.Fraction() / peroxideDensity(p)
	},
	bring: func(b *Runner, p *Plan, n quantity.Mole) {
		pure := HydrogenPeroxide.Mass(n)
		whole := pure / quantity.Gram(p.PeroxideStrength.Fraction())
		b.book.Bring(ledger.Slurry, HydrogenPeroxide, n)
		b.book.Bring(ledger.Slurry, Water, Water.Moles(whole-pure))
		b.grams(PeroxideMass, whole)
	},
	act: (*Runner).stirPeroxide,
}

func peroxideDensity(p *Plan) float64 {
	d, err := table.PeroxideDensity.At(float64(p.PeroxideStrength))
	if err != nil {
		panic(err) // the limits of peroxide.strength lie within the table
	}
	return d
}

// How much more than gas a pair gives off with peroxide, and what a mole of peroxide
// gives off when it breaks up, kJ.
var (
	heatPeroxide = formationHeat("SO4^2-") - formationHeat("SO2") + formationHeat("H2O2") - 2*formationHeat("H2O")
	heatBreaks   = formationHeat("H2O2") - formationHeat("H2O")
)

// stirPeroxide lets the peroxide that is not lost reduce what it can reach, as far
// as acid goes; the rest breaks up, on the oxide or at the latest on boiling.
func (b *Runner) stirPeroxide(p *Plan) (heat float64) {
	w := b.work()
	share, useful := 0.0, float64(b.carry.stirred)*(1-p.PeroxideLost.Fraction())
	if w.pairs() > 0 {
		share = lesser(1, lesser(useful/w.pairs(), w.have/w.cations()))
	}
	b.onOxides(w, share, PeroxideDioxide, PeroxideManganite, PeroxideHetaerolite, PeroxideHausmannite)
	broken := 2 * b.react(ledger.Slurry, PeroxideBreaks, unlimited)
	b.froths(Oxygen)
	return w.heat(share, heatPeroxide) + float64(broken)*heatBreaks
}
