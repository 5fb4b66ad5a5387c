package route

import (
	"fmt"
	"math"

	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

const byCopper = ofWay << FromCopper

// copperWay: Cu + 2 H2SO4 -> CuSO4 + SO2 + 2 H2O, and beside it
// 5 Cu + 4 H2SO4 -> 3 CuSO4 + Cu2S + 4 H2O.
var copperWay = reductant{
	word: "copper", name: "gas from copper and hot concentrated acid",
	conditions: []string{"copper"},
	inputs: keys(generatorKeys, sulfurousKeys, []string{
		"gas.copper", "gas.copper.over", "gas.end", "gas.sulfide", "gas.steam",
		"copper.water", "copper.hot", "copper.cold", "copper.factor",
	}),
	bought: func(*Plan) string { return "Copper, bare" },
	called: "copper",
	charge: func(p *Plan) *float64 { return (*float64)(&p.GasCopper) },
	key:    "gas.copper",
	used:   GasCopperUsed, needed: GasCopperNeeded,
	frees:      GasMade,
	absent:     NoCopper,
	hotAcid:    true,
	copperSalt: true,
	kept:       func(p *Plan) quantity.Percent { return p.GasUptake },
	generator:  copperCharge,
	run:        (*Runner).runCopper,
	figures:    copperGasFigures,
	constants:  copperGasConstants,
	formulas: Formulas{
		Define: `
			perCopper |  | acid that a mole of copper uses | 2*(1 - gas.sulfide/100[%]) + 4/5*gas.sulfide/100[%]
			weakens | mol/mL | copper that a millilitre of acid takes until it is too weak | ((1 - gas.end/100[%])*acid.acid*M(H2SO4) - gas.end/100[%]*acid.water*M(H2O))/(perCopper*((1 - gas.end/100[%])*M(H2SO4) + (1 - gas.steam/100[%])*gas.end/100[%]*M(H2O))) | solved for the copper at which free acid is that share of acid and water; as much water is made as acid is used, less the steam
			perSolid |  | gas from a mole of copper | 1 - gas.sulfide/100[%]
			perMillilitre | mol/mL | gas from a millilitre of acid | max(0[mol/mL], weakens)*perSolid
		`,
		Counts:   []*Equation{CopperGas, CopperSide},
		By:       CopperGas,
		Explains: "perCopper",
		Solid:    "Cu",
		Over:     "(1 + gas.copper.over/100[%])",
		Density:  "copperDensity",
	},
	end:    endCopper,
	check:  checkCopper,
	settle: settleCopper,
}

const copperDensity = 8.96 // g/mL

var copperGasConstants = []Constant{
	{"copperDensity", copperDensity, "g/mL", "density of copper", "CRC Handbook, Physical Constants of Inorganic Compounds"},
}

// copperCharge follows the acid as it weakens. A mole of copper, the share s of
// it to sulfide, uses a = 2(1-s) + 0.8 s of acid and makes as much water, of
// which the share v leaves as steam; it gives 1-s of gas. From n_a of acid and
// n_w of water the free acid has the mass fraction w_e when
// ((1-w_e) n_a M - w_e n_w M_w) / (a ((1-w_e) M + (1-v) w_e M_w)) of copper has
// reacted.
func copperCharge(p *Plan, acid strongAcid) charge {
	s, a := p.GasSulfide.Fraction(), acidPerCopper(p)
	w, v := p.GasEnd.Fraction(), p.GasSteam.Fraction()
	m, mw := mass(SulfuricAcid), mass(Water)
	copper := ((1-w)*acid.acid*m - w*acid.water*mw) / (a * ((1-w)*m + (1-v)*w*mw))
	return charge{
		perMillilitre: greater(0, copper) * (1 - s),
		solid:         Copper,
		perSolid:      1 - s,
		given:         p.GasCopper,
		over:          p.GasOver.Fraction(),
		density:       copperDensity,
	}
}

// acidPerCopper is the acid that a mole of reacting copper uses; as much water
// is made.
func acidPerCopper(p *Plan) float64 {
	s := p.GasSulfide.Fraction()
	return 2*(1-s) + 0.8*s
}

var copperGasInputs = []Input{
	{
		Field: field.Field{
			Key: "gas.copper", Name: "Copper", Unit: "g", Standing: WorkedOut, Default: quantity.Blank, Min: 0.01, Max: 1e5,
			Blank: "as much as needed, and what goes in over it", Why: "Bare and bright, cut small: no enamel, no tin, no plastic.", Remedy: chargeRemedy,
		},
		Stage:  Gas,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasCopper) },
	},
}

var copperOver = []Input{
	{
		Field: field.Field{
			Key: "gas.copper.over", Name: "Copper beyond what the acid should take", Unit: "%", Rare: true, Default: 15, Min: 0, Max: 500,
			Why: "Where copper is left blank: so that the acid runs out first, whose strength at the end nobody knows well. What is left is rinsed and kept.",
		},
		Stage: Gas, Late: 4, Sizes: true, earlier: []float64{0},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasOver) },
	},
}

// What is only estimated of how copper dissolves.
var copperEstimates = []Input{
	{
		Field: field.Field{
			Key: "gas.end", Name: "Strength at which the gas fades", Unit: "%", Standing: Estimated, Rare: true, Default: 75, Low: 65, High: 85, Min: 1, Max: 99,
			Why:    "Copper stops giving gas when its water has weakened the acid. No sharp figure is published.",
			Remedy: "It must lie below the strength as bought.",
		},
		Stage:  Gas,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasEnd) },
		below:  func(p *Plan) float64 { return float64(p.GasStrength) },
	},
	{
		Field: field.Field{
			Key: "gas.sulfide", Name: "Copper lost to the sulfide reaction", Unit: "%", Standing: Estimated, Rare: true, Default: 10, Low: 3, High: 20, Min: 0, Max: 90,
			Why: "It gives no gas; two fifths of it end as black sulfide.",
		},
		Stage:  Gas,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasSulfide) },
	},
	{
		Field: field.Field{
			Key: "gas.steam", Name: "Water made that boils off as steam", Unit: "%", Standing: Estimated, Rare: true, Default: 40, Low: 10, High: 80, Min: 0, Max: 100,
			Why: "It leaves for the trap and keeps the acid strong.",
		},
		Stage:  Gas,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasSteam) },
	},
}

var copperGasFigures = []Figure{
	{ID: GasCopperUsed, Key: "gas.copper.used", Unit: "g", Name: "Copper into the generator", For: "gas.copper", Poured: true, Of: byGas | byCopper},
	{ID: GasCopperNeeded, Key: "gas.copper.needed", Unit: "g", Name: "Copper for that gas", Of: byGas | byCopper},
}

// runCopper lets the copper dissolve until so much gas is made in the liquid, mol.
func (b *Runner) runCopper(p *Plan, c charge, inLiquid float64) {
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

// dissolvingSteps is into how many equal parts AlongCopper cuts the copper.
const dissolvingSteps = 16

// Dissolved is the generator when so much copper has dissolved.
type Dissolved struct {
	Copper   float64 // g
	Strength float64 // % of the acid
	Gas      float64 // L made
}

// Dissolving is the generator's acid as it weakens.
type Dissolving struct {
	Steps  []Dissolved // in equal parts of copper, from none to where the gas fades; none where this acid gives no gas
	Own    Dissolved   // when the plan's generator stops
	Left   float64     // g of the plan's copper that stays
	Fades  float64     // % of the acid, when the gas does
	Enough float64     // the share of the plan's gas that the oxide takes; blank where that is not known
}

// AlongCopper runs the plan's acid with more and more copper; nil where the plan makes
// no gas from copper.
func AlongCopper(p *Plan) *Dissolving {
	if reducing(p) != &copperWay {
		return nil
	}
	var b Runner
	q := *p
	s := b.Run(&q)
	acid, copper := s.Value(GasAcidUsed), s.Value(GasCopperUsed)
	d := &Dissolving{Own: dissolved(s), Fades: float64(p.GasEnd), Enough: quantity.Blank}
	if !(acid > 0) || !d.Own.known() {
		return nil
	}
	d.Left = copper - d.Own.Copper
	if s.Reason(MetShare) == Defined {
		d.Enough = s.Value(MetShare) / 100
	}
	// More copper than any acid of this plan can dissolve: all that dissolves, does.
	q.GasAcid, q.GasCopper = quantity.Millilitre(acid), quantity.Gram(math.Max(2*copper, 20*acid))
	fade := dissolved(b.Run(&q))
	if !(fade.Copper > 0) || !fade.known() {
		return d
	}
	d.Steps = []Dissolved{{Strength: float64(p.GasStrength)}}
	for i := 1; i <= dissolvingSteps; i++ {
		q.GasCopper = quantity.Gram(fade.Copper * float64(i) / dissolvingSteps)
		d.Steps = append(d.Steps, dissolved(b.Run(&q)))
	}
	return d
}

func dissolved(s *Sheet) Dissolved {
	return Dissolved{s.Value(GasCopperUsed) - s.Value(CopperLeft), s.Value(GasStrengthEnd), s.Value(GasVolume)}
}

func (d Dissolved) known() bool {
	return quantity.Given(d.Copper) && quantity.Given(d.Strength) && quantity.Given(d.Gas)
}
