package route

import (
	"fmt"
	"math"
	"slices"

	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

const byCopper = ofWay << FromCopper

// copperWay: Cu + 2 H2SO4 -> CuSO4 + SO2 + 2 H2O, and beside it
// 5 Cu + 4 H2SO4 -> 3 CuSO4 + Cu2S + 4 H2O.
var copperWay = reductant{
	word: "copper", name: "gas from copper and hot concentrated acid",
	conditions: []string{"copper"},
	inputs: slices.Concat(generatorKeys, sulfurousKeys, []string{
		"gas.copper", "gas.copper.over", "gas.hot", "gas.spare", "gas.end", "gas.sulfide", "gas.steam",
		"copper.water", "copper.hot", "copper.cold", "copper.factor",
	}),
	bought: func(*Plan) string { return "Copper, bare" },
	called: "copper",
	charge: func(p *Plan) *float64 { return (*float64)(&p.GasCopper) },
	key:    "gas.copper",
	shelf:  "shelf.copper",
	used:   GasCopperUsed, needed: GasCopperNeeded,
	frees:      GasMade,
	absent:     NoCopper,
	hotAcid:    true,
	copperSalt: true,
	generator:  copperCharge,
	run:        (*Runner).runCopper,
	figures:    copperGasFigures,
	constants:  copperGasConstants,
	formulas: Formulas{
		Define: `
			perCopper |  | acid that a mole of copper uses | 2*(1 - gas.sulfide/100[%]) + 4/5*gas.sulfide/100[%]
			perSolid |  | gas from a mole of copper | 1 - gas.sulfide/100[%]
			perMillilitre | mol/mL | gas from a millilitre of acid | max(0[mol/mL], weakens)*perSolid
		`,
		Reads: []TableRead{{"boils", "strength that boils in the flask", table.AcidBoiling, "gas.hot"}},
		Either: func(p *Plan) string {
			if heated(p) {
				return `
					= gas.strength.boils | boils
					sulfate |  | copper sulfate from a mole of copper | (1 - gas.sulfide/100[%]) + 3/5*gas.sulfide/100[%]
					weakens | mol/mL | copper that a millilitre of acid takes until too little is free | acid.acid/(perCopper + gas.spare*sulfate) | what is used, and what is left beside the copper sulfate
				`
			}
			return `
				end | % | strength at which the gas fades | ` + term("gas.end", p.GasEnd, "usualEnd") + `
				steam | % | water made that boils off | ` + term("gas.steam", p.GasSteam, "usualSteam") + `
				weakens | mol/mL | copper that a millilitre of acid takes until it is too weak | ((1 - end/100[%])*acid.acid*M(H2SO4) - end/100[%]*acid.water*M(H2O))/(perCopper*((1 - end/100[%])*M(H2SO4) + (1 - steam/100[%])*end/100[%]*M(H2O))) | solved for the copper at which free acid is that share of acid and water; as much water is made as acid is used, less the steam
			`
		},
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
	{"usualEnd", usualEnd, "%", "strength at which the gas fades", "estimate; no sharp figure is published"},
	{"usualSteam", usualSteam, "%", "water made that boils off", "estimate, where the strength at the end is given"},
}

// heated tells whether the flask's temperature and the acid left over say when the gas
// fades and what leaves as steam. They do where neither the strength at the end nor the
// steam is given.
func heated(p *Plan) bool {
	return !quantity.Given(p.GasEnd) && !quantity.Given(p.GasSteam)
}

// Where only one of the strength at the end and the steam is given, the other is this, %.
const (
	usualEnd   = 75
	usualSteam = 40
)

func endStrength(p *Plan) quantity.Percent { return orElse(p.GasEnd, usualEnd) }
func steamShare(p *Plan) quantity.Percent  { return orElse(p.GasSteam, usualSteam) }

// term is what a formula calls a quantity: by the key of its input where that is given,
// else of the constant that stands in.
func term(input string, v quantity.Percent, constant string) string {
	if quantity.Given(v) {
		return input
	}
	return constant
}

// boilsAt is the mass fraction of the acid that boils at a temperature.
func boilsAt(t quantity.Celsius) float64 {
	percent, err := table.AcidBoiling.At(float64(t))
	if err != nil {
		panic(err) // the limits of gas.hot lie within the table
	}
	return percent / 100
}

// copperCharge is the gas that acid and copper give. A mole of copper, the share s of it to
// sulfide, uses a = 2(1-s) + 0.8 s of acid, makes as much water and 1 - 0.4 s of copper
// sulfate, and gives 1-s of gas.
//
// In a heated flask the gas fades when g moles of free acid are left to a mole of copper
// sulfate: from n_a of acid n_a / (a + g (1 - 0.4 s)) of copper have reacted then. Where a
// strength w_e at the end is given, or the share v of the made water that leaves as steam,
// it is the copper after which the free acid has that mass fraction, from n_w of water
// ((1-w_e) n_a M - w_e n_w M_w) / (a ((1-w_e) M + (1-v) w_e M_w)).
func copperCharge(p *Plan, acid strongAcid) charge {
	s, a := p.GasSulfide.Fraction(), acidPerCopper(p)
	copper := acid.acid / (a + p.GasSpare*sulfatePerCopper(p))
	if !heated(p) {
		w, v := endStrength(p).Fraction(), steamShare(p).Fraction()
		m, mw := mass(SulfuricAcid), mass(Water)
		copper = ((1-w)*acid.acid*m - w*acid.water*mw) / (a * ((1-w)*m + (1-v)*w*mw))
	}
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
// is made. sulfatePerCopper is the copper sulfate that it makes.
func acidPerCopper(p *Plan) float64 {
	s := p.GasSulfide.Fraction()
	return 2*(1-s) + 0.8*s
}

func sulfatePerCopper(p *Plan) float64 { return 1 - 0.4*p.GasSulfide.Fraction() }

var copperGasInputs = []Input{
	{
		Field: field.Field{
			Key: "gas.copper", Name: "Copper", Unit: "g", Standing: WorkedOut, Min: 0.01, Max: 1e5,
			Blank: "as much as needed, and what goes in over it", Why: "Bare and bright, cut small: no enamel, no tin, no plastic.", Remedy: chargeRemedy,
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasCopper) },
	},
}

var copperOver = []Input{
	{
		Field: field.Field{
			Key: "gas.copper.over", Name: "Copper beyond what the acid should take", Unit: "%", Rare: true, Default: 15, Min: 0, Max: 500,
			Why: "Where copper is left blank: so that the acid runs out first, whose strength at the end nobody knows well. What is left is rinsed and kept.",
		},
		DrawGroup: 4, Sizes: true, earlier: []float64{0},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasOver) },
	},
}

// What is only estimated of how copper dissolves.
var copperEstimates = []Input{
	{
		Field: field.Field{
			Key: "gas.hot", Name: "The paste in the flask is kept at", Unit: "°C", Standing: Estimated, Rare: true, Default: 230, Low: 180, High: 280, Min: 150, Max: 330,
			Why:    "No acid is weaker than what boils at that heat: water that would weaken it more leaves as steam.",
			Remedy: "Copper hardly acts below it, and above it the acid itself boils off.",
		},
		DrawGroup: 4,
		number:    func(p *Plan) *float64 { return (*float64)(&p.GasHot) },
	},
	{
		Field: field.Field{
			// Manuals end between these: 180 mL of strong acid to 100 g of copper (Vulte,
			// Laboratory Manual of Inorganic Preparations, 1895, p. 76) leave 0.2, and 200 g to
			// 50 g (Laboratory Methods of Inorganic Chemistry, 2nd English ed., 1928, p. 57) 0.6,
			// if all the copper dissolves. The high end is that of a paste not stirred: estimate.
			Key: "gas.spare", Name: "Acid left over, to a mole of copper sulfate", Unit: "mol/mol", Standing: Estimated, Rare: true, Default: 0.4, Low: 0.1, High: 1.2, Min: 0.01, Max: 20,
			Why:    "The gas fades when the paste has too little free acid to wet the copper.",
			Remedy: "Some acid is always left in the paste; manuals come to 0.2 to 0.6.",
		},
		DrawGroup: 4,
		number:    func(p *Plan) *float64 { return &p.GasSpare },
	},
	{
		Field: field.Field{
			Key: "gas.end", Name: "Strength at which the gas fades", Unit: "%", Standing: WorkedOut, Rare: true, Low: 65, High: 85, Min: 1, Max: 99,
			Blank:  "follows from heat and spare acid",
			Why:    "Where you know it: how weak the acid was when the gas ended.",
			Remedy: "It must lie below the strength as bought.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasEnd) },
		usual:  func(p *Plan) (float64, bool) { return usualEnd, !heated(p) },
		below:  func(p *Plan) float64 { return float64(p.GasStrength) },
	},
	{
		Field: field.Field{
			Key: "gas.sulfide", Name: "Copper lost to the sulfide reaction", Unit: "%", Standing: Estimated, Rare: true, Default: 10, Low: 3, High: 20, Min: 0, Max: 90,
			Why: "It gives no gas; two fifths of it end as black sulfide.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasSulfide) },
	},
	{
		Field: field.Field{
			Key: "gas.steam", Name: "Water made that boils off as steam", Unit: "%", Standing: WorkedOut, Rare: true, Low: 10, High: 80, Min: 0, Max: 100,
			Blank: "follows from the heat", Why: "Where you weighed the trap: its water came over as steam.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasSteam) },
		usual:  func(p *Plan) (float64, bool) { return usualSteam, !heated(p) },
	},
}

var copperGasFigures = []Figure{
	{ID: GasCopperUsed, Key: "gas.copper.used", Unit: "g", Name: "Copper into the generator", For: "gas.copper", Poured: true, Of: byGas | byCopper},
	{ID: GasCopperNeeded, Key: "gas.copper.needed", Unit: "g", Name: "Copper for that gas", Of: byGas | byCopper},
	{ID: GasBoils, Key: "gas.strength.boils", Unit: "%", Name: "Acid that boils at that heat", Of: byGas | byCopper},
	{
		// Vulte, Laboratory Manual of Inorganic Preparations (1895) 76: 2.1; Laboratory Methods
		// of Inorganic Chemistry, 2nd English ed. (1928) 57: 2.5.
		ID: GasAcidCopper, Key: "gas.acid.copper", Unit: "mol/mol", Name: "Acid to a mole of copper that dissolves; manuals print 2.1 to 2.5", Of: byGas | byCopper,
		Formula: "gas.acid.used*acid.density*gas.strength/100[%]/M(H2SO4)/(copper.sulfate/M(CuSO4·5H2O) + 2*copper.sulfide/M(Cu2S))", Else: NoGas,
	},
}

// runCopper lets the copper dissolve until so much gas is made in the liquid, mol.
func (b *Runner) runCopper(p *Plan, c charge, inLiquid float64) {
	before := b.has(ledger.Generator, Water)
	if !heated(p) {
		b.sheet.undefined(EndGiven, GasBoils)
	}
	b.react(ledger.Generator, CopperGas, quantity.Mole(inLiquid))
	b.react(ledger.Generator, CopperSide, quantity.Mole(inLiquid/c.perSolid*p.GasSulfide.Fraction()/5))
	steam := (b.has(ledger.Generator, Water) - before) * quantity.Mole(steamShare(p).Fraction())
	if heated(p) {
		w := boilsAt(p.GasHot)
		b.set(GasBoils, 100*w)
		holds := b.has(ledger.Generator, SulfuricAcid) * quantity.Mole((1-w)/w*mass(SulfuricAcid)/mass(Water))
		steam = b.has(ledger.Generator, Water) - holds
	}
	b.book.Move(ledger.Generator, ledger.Trap, Water, greater(0, steam))
}

// endCopper lets the gas end at a share of the charge: with the acid that is left then, or
// at its strength. Where no acid is given no gas was wanted.
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
	if heated(p) {
		p.GasSpare = (float64(p.GasAcid)*acid.acid - used) / (sulfatePerCopper(p) * reacts * share)
		return
	}
	free := (float64(p.GasAcid)*acid.acid - used) * mass(SulfuricAcid)
	water := (float64(p.GasAcid)*acid.water + used*(1-steamShare(p).Fraction())) * mass(Water)
	p.GasEnd = quantity.Percent(lesser(99, 100*free/(free+water)))
}

func checkCopper(p *Plan) (list []Problem) {
	switch end := endStrength(p); {
	case end < p.GasStrength:
	case heated(p):
		list = append(list, Problem{
			[]string{"gas.strength"},
			fmt.Sprintf("Acid of %s boils before it is hot enough for copper, and gives no gas until its water has left. Copper needs acid of 90 %% or more.", percent(p.GasStrength)),
		})
	default:
		list = append(list, Problem{
			[]string{"gas.end", "gas.strength"},
			fmt.Sprintf("Acid of %s cannot weaken to %s: it would give no gas at all. The gas fades at a strength below that of the acid as bought; copper needs acid of 90 %% or more.",
				percent(p.GasStrength), percent(end)),
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

// hair is by how much the strength at the end stays below that as bought.
const hair = 1e-9

func settleCopper(p *Plan) {
	switch {
	case endStrength(p) < p.GasStrength:
	case heated(p):
		p.GasStrength = usualEnd * (1 + hair)
	default:
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
	Fades  float64     // % of the acid, when the gas does; blank where it gives none
	Boils  float64     // % of the acid that boils at the flask's heat; blank where the end or the steam is given
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
	d := &Dissolving{Own: dissolved(s), Boils: s.Value(GasBoils), Enough: quantity.Blank}
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
	d.Fades = fade.Strength
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
