package route

import (
	"fmt"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

// copperWay: Cu + 2 H2SO4 -> CuSO4 + SO2 + 2 H2O, and beside it
// 5 Cu + 4 H2SO4 -> 3 CuSO4 + Cu2S + 4 H2O.
var copperWay = reductant{
	word: "copper", name: "gas from copper and hot concentrated acid",
	conditions: []string{"copper"},
	inputs: keys(generatorKeys, sulfurousKeys, []string{
		"gas.copper", "gas.end", "gas.sulfide", "gas.steam",
		"copper.water", "copper.hot", "copper.cold", "copper.factor",
	}),
	bought: func(*Plan) string { return "Copper, bare" },
	called: "copper",
	charge: func(p *Plan) *float64 { return (*float64)(&p.GasCopper) },
	key:    "gas.copper",
	used:   GasCopperUsed, needed: GasCopperNeeded,
	hotAcid:    true,
	copperSalt: true,
	kept:       func(p *Plan) quantity.Percent { return p.GasUptake },
	generator:  copperCharge,
	run:        (*Bench).runCopper,
	end:        endCopper,
	check:      checkCopper,
	settle:     settleCopper,
}

// runCopper lets the copper dissolve until so much gas is made in the liquid, mol.
func (b *Bench) runCopper(p *Plan, c charge, inLiquid float64) {
	before := b.has(ledger.Generator, Water)
	b.react(ledger.Generator, CopperGas, quantity.Mole(inLiquid))
	b.react(ledger.Generator, CopperSide, quantity.Mole(inLiquid/c.perSolid*p.GasSulfide.Fraction()/5))
	steam := (b.has(ledger.Generator, Water) - before) * quantity.Mole(p.GasSteam.Fraction())
	b.book.Move(ledger.Generator, ledger.Trap, Water, greater(0, steam))
}

// endCopper lets the gas end at a share of the charge: at the strength that the acid has
// then. Where no acid is given no gas was wanted.
func endCopper(p *Plan, share float64) {
	if !quantity.Given(p.GasAcid) {
		return
	}
	acid := acidOf(p.GasStrength)
	c := copperCharge(p, acid)
	reacts := float64(p.GasAcid) * c.perMillilitre / c.perSolid // mol of copper
	if quantity.Given(p.GasCopper) {
		reacts = lesser(reacts, float64(Copper.Moles(p.GasCopper)))
	}
	used := acidPerCopper(p) * reacts * share // mol of acid, and of the water made
	free := (float64(p.GasAcid)*acid.acid - used) * mass(SulfuricAcid)
	water := (float64(p.GasAcid)*acid.water + used*(1-p.GasSteam.Fraction())) * mass(Water)
	p.GasEnd = quantity.Percent(lesser(99, 100*free/(free+water)))
}

func checkCopper(p *Plan) (list []Problem) {
	if p.GasEnd >= p.GasStrength {
		list = append(list, Problem{
			[]string{"gas.end", "gas.strength"},
			fmt.Sprintf("Acid of %s cannot weaken to %s: it would give no gas at all. The gas fades at a strength below that of the acid as bought; copper needs acid of 90 %% or more.",
				percent(p.GasStrength), percent(p.GasEnd)),
		})
	}
	if p.CopperCold >= p.CopperHot {
		list = append(list, Problem{
			[]string{"copper.cold", "copper.hot"},
			fmt.Sprintf("Crystals grown at %s °C out of a liquor made at %s °C: nothing would crystallise. Grow them colder than they were dissolved.",
				digits(float64(p.CopperCold)), digits(float64(p.CopperHot))),
		})
	}
	return list
}

// hair is by how much the end strength stays below the strength as bought.
const hair = 1e-9

func settleCopper(p *Plan) {
	if p.GasEnd >= p.GasStrength {
		p.GasEnd = p.GasStrength * (1 - hair)
	}
	if p.CopperCold >= p.CopperHot {
		p.CopperCold = greater(0, p.CopperHot-1)
	}
}
