package route

import (
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

// metabisulfiteWay: Na2S2O5 + H2SO4 -> Na2SO4 + 2 SO2 + H2O.
var metabisulfiteWay = reductant{
	word: "metabisulfite", name: "gas from metabisulfite and acid",
	conditions: []string{"metabisulfite", "bisulfite"},
	inputs:     keys(generatorKeys, sulfurousKeys, []string{"gas.salt", "gas.water", "gas.warm"}),
	bought:     func(*Plan) string { return "Sodium metabisulfite" },
	called:     "metabisulfite",
	charge:     func(p *Plan) *float64 { return (*float64)(&p.GasSalt) },
	key:        "gas.salt",
	used:       GasSaltUsed, needed: GasSaltNeeded,
	handled:   []Substance{SodiumMetabisulfite},
	kept:      func(p *Plan) quantity.Percent { return p.GasUptake },
	generator: metabisulfiteCharge,
	run: func(b *Bench, _ *Plan, c charge, inLiquid float64) {
		b.react(ledger.Generator, MetabisulfiteGas, quantity.Mole(inLiquid/c.perSolid))
	},
}
