package route

import (
	"fmt"
	"math"

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
	bought:     "Copper, bare",
	called:     "copper",
	charge:     &copperGrams,
	shelf:      "shelf.copper",
	used:       GasCopperUsed, needed: GasCopperNeeded,
	frees:      GasMade,
	absent:     NoCopper,
	hotAcid:    true,
	copperSalt: true,
	gas:        copperGenerator,
	figures:    copperGasFigures,
	constants:  copperGasConstants,
	end:        endCopper,
	check:      checkCopper,
	settle:     settleCopper,
	says: func(p *Plan, s *Sheet) (keys []string) {
		if s.Value(GasBoils) > float64(p.GasStrength) {
			keys = append(keys, "gas.boils")
		}
		if s.Value(GasAcidCopper) > manualsMost {
			keys = append(keys, "gas.ratio")
		}
		return keys
	},
}

// manualsMost is the acid, mol to a mole of copper that dissolves, above which too much was taken;
// manuals print 2.1 to 2.5 (judgement).
const manualsMost = 3

var copperGenerator = newGenerator(generator{
	solid:   Copper,
	density: &copperDensity,
	by:      CopperGas,
	side:    CopperSide,
	aside:   &copperSulfide,
	over:    &copperOver,
	fades:   copperTaken,
	tells:   copperTold,
	reads:   []TableRead{{"boils", "strength that boils in the flask", table.AcidBoiling, "gas.hot"}},
	steams:  copperSteams,
	strict:  func(p *Plan) { p.GasEnd, p.GasSteam, p.GasSulfide = 0, 100, 0 },
})

var copperDensity = Constant{"copperDensity", 8.96, "g/mL", "density of copper", "CRC Handbook, Physical Constants of Inorganic Compounds"}

var copperGasConstants = []Constant{
	copperDensity,
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
	return at(table.AcidBoiling, t) / 100
}

// The copper, mol, that a millilitre of acid takes until the gas fades, printed and worked out
// by the same formulas. Takes is the acid that a mole of copper uses, and the water that it
// makes; sulfate is the copper sulfate of it.
//
// In a heated flask the gas fades when gas.spare moles of free acid are left to a mole of
// copper sulfate. Where the strength at the end is given, or the share of the made water that
// leaves as steam, it fades when the free acid is so much of acid and water.
var (
	untilSpare = compute("acid.acid/(takes + gas.spare*sulfate)", "acid.acid", "takes", "gas.spare", "sulfate")
	untilEnd   = compute("((1 - end/100[%])*acid.acid*M(H2SO4) - end/100[%]*acid.water*M(H2O))/(takes*((1 - end/100[%])*M(H2SO4) + (1 - steam/100[%])*end/100[%]*M(H2O)))",
		"acid.acid", "acid.water", "takes", "end", "steam")
)

func copperTaken(g *generator, p *Plan, acid strongAcid) float64 {
	takes := g.per(p, SulfuricAcid)
	if heated(p) {
		return untilSpare.of(acid.acid, takes, p.GasSpare, g.per(p, CopperSulfate))
	}
	return untilEnd.of(acid.acid, acid.water, takes, float64(endStrength(p)), float64(steamShare(p)))
}

func copperTold(g *generator, p *Plan) string {
	if heated(p) {
		return `
			= gas.strength.boils | boils
			sulfate |  | copper sulfate from a mole of copper | ` + g.perText(CopperSulfate) + `
			weakens | mol/mL | copper that a millilitre of acid takes until too little is free | ` + untilSpare.text + ` | what is used, and what is left beside the copper sulfate
		`
	}
	return `
		end | % | strength at which the gas fades | ` + term("gas.end", p.GasEnd, "usualEnd") + `
		steam | % | water made that boils off | ` + term("gas.steam", p.GasSteam, "usualSteam") + `
		weakens | mol/mL | copper that a millilitre of acid takes until it is too weak | ` + untilEnd.text + ` | solved for the copper at which free acid is that share of acid and water; as much water is made as acid is used, less the steam
	`
}

var (
	copperGrams = Input{
		Field: field.Field{
			Key: "gas.copper", Name: "Copper", Unit: "g", Standing: WorkedOut, Min: 0.01, Max: 1e5,
			Blank: "as much as needed, and what goes in over it", Why: "Bare and bright, cut small: no enamel, no tin, no plastic.", Remedy: chargeRemedy,
		},
		Of:     byCopper,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasCopper) },
	}

	copperGasInputs = []Input{copperGrams}
)

var (
	copperOver = Input{
		Field: field.Field{
			Key: "gas.copper.over", Name: "Copper beyond what the acid should take", Unit: "%", Rare: true, Default: 15, Min: 0, Max: 500,
			Why: "Where copper is left blank: so that the acid runs out first, whose strength at the end nobody knows well. What is left is rinsed and kept.",
		},
		Of:        byCopper,
		DrawGroup: 4, Sizes: true, earlier: []float64{0},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasOver) },
	}

	copperOverInputs = []Input{copperOver}
)

var copperSulfide = Input{
	Field: field.Field{
		Key: "gas.sulfide", Name: "Copper lost to the sulfide reaction", Unit: "%", Standing: Estimated, Rare: true, Default: 10, Low: 3, High: 20, Min: 0, Max: 90,
		Why: "It gives no gas; two fifths of it end as black sulfide.",
	},
	Of:     byCopper,
	number: func(p *Plan) *float64 { return (*float64)(&p.GasSulfide) },
}

// What is only estimated of how copper dissolves.
var copperEstimates = []Input{
	{
		Field: field.Field{
			Key: "gas.hot", Name: "The paste in the flask is kept at", Unit: "°C", Standing: Estimated, Rare: true, Default: 230, Low: 180, High: 280, Min: 150, Max: 330,
			Why:    "No acid is weaker than what boils at that heat: water that would weaken it more leaves as steam.",
			Remedy: "Copper hardly acts below it, and above it the acid itself boils off.",
		},
		Of:        byCopper,
		DrawGroup: 4,
		means:     heated,
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
		Of:        byCopper,
		DrawGroup: 4,
		means:     heated,
		number:    func(p *Plan) *float64 { return &p.GasSpare },
	},
	{
		Field: field.Field{
			Key: "gas.end", Name: "Strength at which the gas fades", Unit: "%", Standing: WorkedOut, Rare: true, Low: 65, High: 85, Min: 1, Max: 99,
			Blank:  "follows from heat and spare acid",
			Why:    "Where you know it: how weak the acid was when the gas ended.",
			Remedy: "It must lie below the strength as bought.",
		},
		Of:     byCopper,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasEnd) },
		usual:  func(p *Plan) (float64, bool) { return usualEnd, !heated(p) },
		below:  func(p *Plan) float64 { return float64(p.GasStrength) },
	},
	copperSulfide,
	{
		Field: field.Field{
			Key: "gas.steam", Name: "Water made that boils off as steam", Unit: "%", Standing: WorkedOut, Rare: true, Low: 10, High: 80, Min: 0, Max: 100,
			Blank: "follows from the heat", Why: "Where you weighed the trap: its water came over as steam.",
		},
		Of:     byCopper,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasSteam) },
		usual:  func(p *Plan) (float64, bool) { return usualSteam, !heated(p) },
	},
}

var copperGasFigures = []Figure{
	{ID: GasCopperUsed, Key: "gas.copper.used", Unit: "g", Name: "Copper into the generator", For: "gas.copper", Poured: true},
	{ID: GasCopperNeeded, Key: "gas.copper.needed", Unit: "g", Name: "Copper for that gas"},
	{ID: GasBoils, Key: "gas.strength.boils", Unit: "%", Name: "Acid that boils at that heat", Else: EndGiven},
	{
		// Vulte, Laboratory Manual of Inorganic Preparations (1895) 76: 2.1; Laboratory Methods
		// of Inorganic Chemistry, 2nd English ed. (1928) 57: 2.5.
		ID: GasAcidCopper, Key: "gas.acid.copper", Unit: "mol/mol", Name: "Acid to a mole of copper that dissolves; manuals print 2.1 to 2.5",
		Formula: "gas.acid.used*acid.density*gas.strength/100[%]/M(H2SO4)/(copper.sulfate/M(CuSO4·5H2O) + 2*copper.sulfide/M(Cu2S))", Else: NoGas,
	},
}

// copperSteams lets so much of the water made leave as the acid, in a heated flask, cannot
// hold at its heat.
func copperSteams(b *Runner, p *Plan, made quantity.Mole) {
	steam := made * quantity.Mole(steamShare(p).Fraction())
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
	c := copperGenerator.charge(p, acid, &copperGrams)
	reacts := float64(p.GasAcid) * c.perMillilitre / c.perSolid // mol of copper
	if quantity.Given(p.GasCopper) {
		reacts = lesser(reacts, float64(Copper.Moles(p.GasCopper)))
	}
	used := copperGenerator.per(p, SulfuricAcid) * reacts * share // mol of acid, and of the water made
	if heated(p) {
		p.GasSpare = (float64(p.GasAcid)*acid.acid - used) / (copperGenerator.per(p, CopperSulfate) * reacts * share)
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
