package route

import (
	"slices"

	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

const byMetabisulfite = ofWay << FromMetabisulfite

// metabisulfiteWay: Na2S2O5 + H2SO4 -> Na2SO4 + 2 SO2 + H2O.
var metabisulfiteWay = reductant{
	word: "metabisulfite", name: "gas from metabisulfite and acid",
	conditions: []string{"metabisulfite", "bisulfite"},
	inputs:     slices.Concat(generatorKeys, sulfurousKeys, []string{"gas.salt", "gas.water", "gas.warm"}),
	bought:     func(*Plan) string { return "Sodium metabisulfite" },
	called:     "metabisulfite",
	charge:     func(p *Plan) *float64 { return (*float64)(&p.GasSalt) },
	key:        "gas.salt",
	shelf:      "shelf.metabisulfite",
	used:       GasSaltUsed, needed: GasSaltNeeded,
	frees:     GasMade,
	absent:    NoMetabisulfite,
	handled:   []Substance{SodiumMetabisulfite},
	generator: metabisulfiteCharge,
	run: func(b *Runner, _ *Plan, c charge, inLiquid float64) {
		b.react(ledger.Generator, MetabisulfiteGas, quantity.Mole(inLiquid/c.perSolid))
	},
	figures:   metabisulfiteFigures,
	constants: metabisulfiteConstants,
	formulas: Formulas{
		Holding: "gas.warm",
		Define: `
			perGram | mol/g | gas that a gram of the liquid's water holds | warm.soluble/100[g]/M(SO2)
			perSolid |  | gas from a mole of metabisulfite, or of acid | 2
			perMillilitre | mol/mL | gas from a millilitre of acid | perSolid*acid.acid
			fixed | mol | gas that the water put in holds back | perGram*gas.water*liquor
			heldPerMole |  | share of the gas that the acid's own water holds back | perGram*M(H2O)/2*(acid.water/acid.acid + 1)
			added | mL | water put into the generator | gas.water
		`,
		By:       MetabisulfiteGas,
		Explains: "perSolid",
		Solid:    "Na2S2O5",
		Density:  "saltDensity",
	},
}

var metabisulfiteInputs = []Input{
	{
		Field: field.Field{
			Key: "gas.salt", Name: "Metabisulfite", Unit: "g", Standing: WorkedOut, Min: 0.01, Max: 1e5,
			Blank: "as much as needed", Why: "Sodium metabisulfite, as sold to wine makers.", Remedy: chargeRemedy,
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasSalt) },
	},
	{
		Field: field.Field{
			Key: "gas.water", Name: "Water that dilutes the generator's acid", Unit: "mL", Default: 30, Min: 0, Max: 1e4,
			Why: "With metabisulfite. Every millilitre of it holds gas back.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasWater) },
	},
	{
		Field: field.Field{
			Key: "gas.warm", Name: "The generator's liquid at the end", Unit: "°C", Standing: Estimated, Rare: true, Default: 50, Low: 25, High: 70, Min: 0, Max: 95,
			Why: "With metabisulfite. Warm the flask in hot water to drive the gas out.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasWarm) },
	},
}

var metabisulfiteFigures = []Figure{
	{ID: GasSaltUsed, Key: "gas.salt.used", Unit: "g", Name: "Metabisulfite into the generator", For: "gas.salt", Poured: true, Of: byGas | byMetabisulfite},
	{ID: GasSaltNeeded, Key: "gas.salt.needed", Unit: "g", Name: "Metabisulfite for that gas", Of: byGas | byMetabisulfite},
}

const saltDensity = 1.48 // g/mL

var metabisulfiteConstants = []Constant{
	{"saltDensity", saltDensity, "g/mL", "density of sodium metabisulfite", "Wikipedia, Sodium metabisulfite"},
}

// metabisulfiteCharge gives two moles of gas to a mole of salt or acid; the
// water, that of the acid used up and that of the reaction too, holds back what it
// dissolves at the temperature it is warmed to. The little water of acid beyond
// what the salt can use is taken to hold nothing back.
func metabisulfiteCharge(p *Plan, acid strongAcid) charge {
	held := gasSolubility(p.GasWarm, p.AirPressure) / 100 / mass(SulfurDioxide) // mol in a g of water
	return charge{
		perMillilitre: 2 * acid.acid,
		solid:         SodiumMetabisulfite,
		perSolid:      2,
		given:         p.GasSalt,
		fixed:         held * float64(p.GasWater),
		heldPerMole:   held * mass(Water) / 2 * (acid.water/acid.acid + 1),
		added:         p.GasWater,
		density:       saltDensity,
	}
}
