package route

import (
	"slices"

	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

const bySalt = ofWay << BySalt

var saltInputs = []Input{
	{
		Field: field.Field{
			Key: "salt.charge", Name: "Metabisulfite into the slurry", Unit: "g", Standing: WorkedOut, Min: 0.01, Max: 1e5,
			Blank: "as much as needed", Why: "Sodium metabisulfite, by the spoonful, into the acid slurry; each waits for the last.", Remedy: "Leave the field blank for as much as is needed.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.SaltCharge) },
	},
	{
		Field: field.Field{
			Key: "salt.kept", Name: "Gas of the salt that the slurry keeps", Unit: "%", Standing: Estimated, Default: 85, Low: 60, High: 97, Min: 1, Max: 100,
			Why: "Acid sets the gas free at once. Small portions, stirred under, lose little of it.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.SaltKept) },
	},
}

// Figures of metabisulfite in the slurry.
var saltFigures = []Figure{
	{ID: SaltUsed, Key: "salt.used", Unit: "g", Name: "Metabisulfite into the slurry", Main: true, For: "salt.charge", Poured: true, Of: bySalt},
	{ID: SaltNeeded, Key: "salt.needed", Unit: "g", Name: "Metabisulfite for this oxide", Of: bySalt},
	{ID: SaltFreed, Key: "salt.freed", Unit: "mmol", Name: "Sulfur dioxide that the acid sets free", Of: bySalt},
}

// saltWay: 2 MnO2 + Na2S2O5 + H2SO4 -> 2 MnSO4 + Na2SO4 + H2O, by way of the
// gas, which does in the slurry what gas led in does. The sodium stays in the
// liquor.
var saltWay = reductant{
	word: "slurrysalt", name: "metabisulfite stirred into the acid slurry",
	conditions: []string{"salt", "bisulfite"},
	inputs:     slices.Concat(sulfurousKeys, []string{"stir.excess", "salt.charge", "salt.kept"}),
	bought:     func(*Plan) string { return "Sodium metabisulfite" },
	charge:     func(p *Plan) *float64 { return (*float64)(&p.SaltCharge) },
	key:        "salt.charge",
	shelf:      "shelf.metabisulfite",
	used:       SaltUsed, needed: SaltNeeded,
	frees:   SaltFreed,
	handled: []Substance{SodiumMetabisulfite},
	kept:    func(p *Plan) quantity.Percent { return p.SaltKept },
	stir:    &saltStirred,
	says:    func(*Plan, *Sheet) []string { return []string{"stir.sodium"} },
	forms:   map[FigureID]string{UptakeTaken: "max(0[mmol], salt.freed - vent.gas)"},
	figures: saltFigures,
	formulas: Formulas{
		Need:  "pairs/2*(1 + demand.dithionate/100[%])*(1 + stir.excess/100[%])/(salt.kept/100[%])",
		Given: "salt.charge/M(Na2S2O5)",
		Blank: "stir.need*M(Na2S2O5)/M(Na2S2O5)",
		Define: `
			= salt.needed | stir.need*M(Na2S2O5)
			= salt.used | stirred*M(Na2S2O5)
			= salt.freed | 2*freed*1000[mmol/mol]
			= demand.acid | (acid.bare + stirred)*1000[mmol/mol]
		`,
		Counts:  []*Equation{MetabisulfiteGas, ReduceDioxide, ReduceDioxideDithionate},
		Acts:    []*Equation{MetabisulfiteGas},
		By:      MetabisulfiteGas,
		Extent:  "freed",
		More:    "h.HSO3 - h.SO2 - h.H2O",
		Arrives: "n(acted, SO2)*salt.kept/100[%]",
	},
}

var saltStirred = stirred{
	inputs:      saltInputs,
	acidPerMole: 1,
	gasPerMole:  2,
	pure:        func(_ *Plan, g float64) quantity.Mole { return SodiumMetabisulfite.Moles(quantity.Gram(g)) },
	needs: func(b *Runner, p *Plan, pairs quantity.Mole) quantity.Mole {
		return pairs * quantity.Mole(0.5*(1+b.carry.dithionate)*(1+p.StirExcess.Fraction())/p.SaltKept.Fraction())
	},
	bought: func(_ *Plan, n quantity.Mole) float64 { return float64(SodiumMetabisulfite.Mass(n)) },
	bring: func(b *Runner, _ *Plan, n quantity.Mole) {
		b.book.Bring(ledger.Slurry, SodiumMetabisulfite, n)
	},
	act: (*Runner).freeGas,
}

// heatBisulfite is how much less a pair gives off when the sulfur dioxide was in
// water already, as HSO3^-, kJ. The heat of dissolving the salt is left out.
var heatBisulfite = formationHeat("HSO3^-") + formationHeat("H^+") - formationHeat("SO2") - formationHeat("H2O")

// freeGas lets the acid set the gas free, as far as it goes; what the slurry does
// not keep escapes, the rest does its work.
func (b *Runner) freeGas(p *Plan) (heat float64) {
	freed := 2 * b.react(ledger.Slurry, MetabisulfiteGas, unlimited)
	b.carry.made = freed
	b.millimoles(SaltFreed, freed)
	b.book.MoveShare(ledger.Slurry, ledger.Vent, SulfurDioxide, 1-p.SaltKept.Fraction())
	arrives := float64(b.has(ledger.Slurry, SulfurDioxide))
	w := b.work()
	l := b.leadIn(w, arrives, p.SlurryBases.Fraction())
	return l.heat(w) + (l.pairs(w)+l.saved)*heatBisulfite
}
