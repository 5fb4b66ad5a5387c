package route

import (
	"rosesalt/chem/field"
	. "rosesalt/chem/reaction"
)

const byMetabisulfite = ofWay << FromMetabisulfite

var (
	metabisulfiteGrams = Input{
		Field: field.Field{
			Key: "gas.salt", Name: "Metabisulfite", Unit: "g", Standing: WorkedOut, Min: 0.01, Max: 1e5,
			Blank: "as much as needed", Why: "Sodium metabisulfite, as sold to wine makers.", Remedy: chargeRemedy,
		},
		Of:     byMetabisulfite,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasSalt) },
	}
	metabisulfiteWater = Input{
		Field: field.Field{
			Key: "gas.water", Name: "Water that dilutes the generator's acid", Unit: "mL", Default: 30, Min: 0, Max: 1e4,
			Why: "With metabisulfite. Every millilitre of it holds gas back.",
		},
		Of:     byMetabisulfite,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasWater) },
	}
	metabisulfiteWarm = Input{
		Field: field.Field{
			Key: "gas.warm", Name: "The generator's liquid at the end", Unit: "°C", Standing: Estimated, Rare: true, Default: 50, Low: 25, High: 70, Min: 0, Max: 95,
			Why: "With metabisulfite. Warm the flask in hot water to drive the gas out.",
		},
		Of:     byMetabisulfite,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasWarm) },
	}

	metabisulfiteInputs = []Input{metabisulfiteGrams, metabisulfiteWater, metabisulfiteWarm}
)

var metabisulfiteFigures = []Figure{
	{ID: GasSaltUsed, Key: "gas.salt.used", Unit: "g", Name: "Metabisulfite into the generator", For: "gas.salt", Poured: true},
	{ID: GasSaltNeeded, Key: "gas.salt.needed", Unit: "g", Name: "Metabisulfite for that gas", Else: AllHeld},
}

var saltDensity = Constant{"saltDensity", 1.48, "g/mL", "density of sodium metabisulfite", "Wikipedia, Sodium metabisulfite"}

// metabisulfiteWay: Na2S2O5 + H2SO4 -> Na2SO4 + 2 SO2 + H2O.
var metabisulfiteWay = reductant{
	word: "metabisulfite", name: "gas from metabisulfite and acid",
	conditions: []string{"metabisulfite", "bisulfite"},
	bought:     "Sodium metabisulfite",
	called:     "metabisulfite",
	charge:     &metabisulfiteGrams,
	shelf:      "shelf.metabisulfite",
	used:       GasSaltUsed, needed: GasSaltNeeded,
	frees:   GasMade,
	absent:  NoMetabisulfite,
	handled: []Substance{SodiumMetabisulfite},
	gas: newGenerator(generator{
		solid:   SodiumMetabisulfite,
		density: &saltDensity,
		by:      MetabisulfiteGas,
		water:   &metabisulfiteWater,
		warm:    &metabisulfiteWarm,
	}),
	figures:   metabisulfiteFigures,
	constants: []Constant{saltDensity},
}
