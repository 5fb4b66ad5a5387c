package route

import (
	"rosesalt/chem/field"
	. "rosesalt/chem/reaction"
)

var (
	saltCharge = Input{
		Field: field.Field{
			Key: "salt.charge", Name: "Metabisulfite into the slurry", Unit: "g", Standing: WorkedOut, Min: 0.01, Max: 1e5,
			Blank: "as much as needed", Why: "Sodium metabisulfite, by the spoonful, into the acid slurry; each waits for the last.", Remedy: "Leave the field blank for as much as is needed.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.SaltCharge) },
	}
	saltKept = Input{
		Field: field.Field{
			Key: "salt.kept", Name: "Gas of the salt that the slurry keeps", Unit: "%", Standing: Estimated, Default: 85, Low: 60, High: 97, Min: 1, Max: 100,
			Why: "Acid sets the gas free at once. Small portions, stirred under, lose little of it.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.SaltKept) },
	}

	saltInputs = []Input{saltCharge, saltKept}
)

var saltFigures = []Figure{
	{ID: SaltUsed, Key: "salt.used", Unit: "g", Name: "Metabisulfite into the slurry", Main: true, For: "salt.charge", Poured: true},
	{ID: SaltNeeded, Key: "salt.needed", Unit: "g", Name: "Metabisulfite for this oxide"},
	{ID: SaltFreed, Key: "salt.freed", Unit: "mmol", Name: "Sulfur dioxide that the acid sets free"},
}

// saltWay: 2 MnO2 + Na2S2O5 + H2SO4 -> 2 MnSO4 + Na2SO4 + H2O, by way of the
// gas, which does in the slurry what gas led in does. The sodium stays in the
// liquor.
var saltWay = reductant{
	word: "slurrysalt", name: "metabisulfite stirred into the acid slurry",
	conditions: []string{"salt", "bisulfite"},
	bought:     "Sodium metabisulfite",
	charge:     &saltCharge,
	shelf:      "shelf.metabisulfite",
	used:       SaltUsed, needed: SaltNeeded,
	frees:   SaltFreed,
	handled: []Substance{SodiumMetabisulfite},
	stir: newStirred(stirred{
		inputs: saltInputs,
		pure:   SodiumMetabisulfite,
		excess: &stirExcess,
		frees:  MetabisulfiteGas,
		kept:   &saltKept,
		// The sulfur dioxide was in water already; the heat of dissolving the salt is left out.
		more: heatBisulfite,
	}),
	says:    func(*Plan, *Sheet) []string { return []string{"stir.sodium"} },
	forms:   map[FigureID]string{UptakeTaken: "max(0[mmol], salt.freed - vent.gas)"},
	figures: saltFigures,
}
