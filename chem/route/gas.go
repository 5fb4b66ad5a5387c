package route

import (
	"math"
	"slices"

	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

// The most that a plan may have of them.
const (
	mostMinutes = 1000
	mostVessels = 4
)

const chargeRemedy = "Without it no gas is made; leave the field blank for as much as is needed."

var gasInputs = slices.Concat([]Input{
	{
		Field: field.Field{
			Key: "gas.source", Name: "The oxide is reduced by", Default: 0, Options: reductantOptions(),
			Why: "Copper gives a second salt; metabisulfite needs no flame; the last three need no gas tube.",
		},
		choice: func(p *Plan) *Choice { return &p.GasSource },
	},
	{
		Field: field.Field{
			Key: "gas.strength", Name: "Strength of the sulfuric acid as bought", Unit: "%", Default: 96, Min: 10, Max: 100,
			Why:    "By mass, from the label. A density cannot tell 94 from 100 %.",
			Remedy: "Strength is a percentage by mass; read it off the label.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasStrength) },
	},
	{
		Field: field.Field{
			Key: "gas.acid", Name: "Acid into the generator", Unit: "mL", Standing: WorkedOut, Min: 0.1, Max: 1e5,
			Blank: "as much as needed", Why: "Concentrated sulfuric acid, as bought.", Remedy: chargeRemedy,
		},
		Of:     byGas,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasAcid) },
	},
}, copperGasInputs, metabisulfiteInputs, []Input{
	{
		Field: field.Field{
			Key: "gas.uptake", Name: "Gas that the slurry takes up", Unit: "%", Standing: WorkedOut, Low: 50, High: 95, Min: 1, Max: 100,
			Blank:  "follows from how it is led in",
			Why:    "A funnel that just meets a well-stirred cold slurry takes most of it; of a slower stream more.",
			Remedy: "Where nothing is taken up no charge is large enough; a funnel at the surface takes 50 to 95.",
		},
		Of:     byGas,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasUptake) },
	},
	{
		Field: field.Field{
			Key: "gas.excess", Name: "Excess over the demand", Unit: "%", Default: 30, Min: 0, Max: 500,
			// With 30 % and copper over, the gas of the plan that the page starts with is enough in
			// 78 of 100 draws, with 10 % in 57, without copper over in 53, with 50 % in 89. From
			// 10 % without copper over to 30 % it takes 9 mL more acid, 8 g of copper of which
			// nearly half comes back, and 5 g of soda in the scrubber.
			Why: "So that the oxide, not the gas, runs out first: 30 % is enough in nearly eight runs of ten, 10 % in little more than half. What is over passes by.",
		},
		Of:    byGas,
		Sizes: true, earlier: []float64{10},
		number: func(p *Plan) *float64 { return (*float64)(&p.GasExcess) },
	},
	{
		Field: field.Field{
			Key: "gas.minutes", Name: "Time to pass the gas", Unit: "min", Default: 90, Min: 1, Max: mostMinutes,
			Why: "Slow gas is taken up better than fast. Batches share it.",
		},
		Of:     bySulfurDioxide,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasMinutes) },
	},
	{
		Field: field.Field{
			Key: "gas.vessels", Name: "Slurry vessels, one behind the other", Default: 1, Min: 1, Max: mostVessels, Whole: true,
			Why: "A second one, behind a closed one, takes up most of what passes the first. The cake is shared out.",
		},
		Of:        byGas,
		DrawGroup: 4,
		means:     closed,
		number:    func(p *Plan) *float64 { return &p.GasVessels },
	},
	{
		Field: field.Field{
			Key: "gas.depth", Name: "The gas comes out so deep in the slurry", Unit: "cm", Rare: true, Default: 1, Min: 0, Max: 50,
			Why: "About 1 under a funnel that just meets it. A dipping tube takes up more, and is drawn full more easily.",
		},
		Of:        byGas,
		DrawGroup: 4,
		number:    func(p *Plan) *float64 { return &p.GasDepth },
	},
	{
		Field: field.Field{
			Key: "gas.flask", Name: "The generator's flask", Unit: "mL", Default: 250, Min: 5, Max: 20000,
			Why: "Never more than half full: the paste froths.",
		},
		Of:     byGas,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasFlask) },
	},
	{
		Field: field.Field{
			Key: "gas.trap", Name: "The empty trap holds", Unit: "mL", Rare: true, Default: quantity.Blank, Min: 5, Max: 50000,
			Blank: "as large as it takes", Why: "All of the slurry may be drawn back into it, and stays below its tubes.",
		},
		Of:        byGas,
		DrawGroup: 2,
		number:    func(p *Plan) *float64 { return (*float64)(&p.GasTrap) },
	},
}, copperEstimates, copperOverInputs, []Input{
	{
		Field: field.Field{
			Key: "gas.tube", Name: "Room in the tube and the empty trap", Unit: "mL", Rare: true, Default: 30, Min: 0, Max: 20000,
			Why: "Its air comes over first.",
		},
		Of:     byGas,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasTube) },
	},
	{
		Field: field.Field{
			Key: "gas.purge", Name: "Gas that drives the air out", Unit: "mL", Standing: WorkedOut, Rare: true, Min: 0, Max: 50000,
			Blank: "headspace and tube", Why: "The first gas comes over mixed with air and is poorly taken up.",
		},
		Of:     byGas,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasPurge) },
	},
	{
		Field: field.Field{
			Key: "gas.bubble", Name: "One bubble", Unit: "mL", Standing: Estimated, Rare: true, Default: 0.14, Low: 0.1, High: 0.2, Min: 0.005, Max: 5,
			Why: "0.14 mL leaves a 6 mm tube, within a third. Catch fifty under water in a cylinder to know.",
		},
		Of:     byGas,
		number: func(p *Plan) *float64 { return (*float64)(&p.GasBubble) },
	},
	{
		Field: field.Field{
			Key: "air.temperature", Name: "Air at the bench", Unit: "°C", Rare: true, Default: 20, Min: 0, Max: 40,
			Why: "For gas volumes.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.AirTemperature) },
	},
	{
		Field: field.Field{
			Key: "air.pressure", Name: "Its pressure", Unit: "kPa", Rare: true, Default: 101.325, Min: 50, Max: 110,
			Why: "At the place, not reduced to sea level.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.AirPressure) },
	},
})

func reductantOptions() []field.Option {
	var words []string
	for _, r := range reductants {
		words = append(words, r.word, r.name)
	}
	return field.Words(words...)
}

// Figures of the gas, in the order of the page.
const (
	GasVolume FigureID = endOfBatch + iota
	// GasMade is the SO2 that leaves the generator's liquid when the charge is run
	// to its end.
	GasMade
	// GasLimit names the charge that is used up first; NeitherFirst where one is worked out
	// from the demand, and that is met.
	GasLimit
	// GasStrengthEnd is the acid's strength, as H2SO4 in H2SO4 and water, copper
	// sulfate left out, when the charge has run to its end.
	GasStrengthEnd
	// GasFlaskLeast is the flask for one batch's charge.
	GasFlaskLeast
	GasBubbles
	// UptakeShare is the part of the gas led in that the slurry can take up.
	UptakeShare
	GasAcidUsed
	GasCopperUsed
	GasSaltUsed
	GasMass
	// The needed figures meet the demand with excess, uptake, purge, sulfide and
	// what the generator's liquid holds back.
	GasNeeded
	GasAcidNeeded
	GasAcidMass
	GasCopperNeeded
	// GasAcidCopper is the acid to a mole of the copper that dissolves, mol.
	GasAcidCopper
	// GasBoils is the strength of the acid that boils at the flask's temperature.
	GasBoils
	GasSaltNeeded
	GasHeld
	GasPurged
	GasPurgeUsed
	// GasHeadspace is the air above one batch's charge.
	GasHeadspace
	// GasBatches is into how many equal batches the charge must be cut so that the
	// flask is at most half full.
	GasBatches
	GasRate

	endOfGas
)

var gasFigures = []Figure{
	{
		ID: GasVolume, Key: "gas.volume", Unit: "L", Name: "Gas made, at room temperature and pressure", Main: true,
		Formula: "gas.made/1000[mmol/mol]*molar/1000[mL/L]",
	},
	{ID: GasMade, Key: "gas.made", Unit: "mmol", Name: "Gas made, by amount", Main: true},
	{ID: GasLimit, Key: "gas.limit", Name: "What runs out first", Main: true, Words: []string{"acid", "copper", "metabisulfite", NeitherFirst}},
	{
		ID: GasStrengthEnd, Key: "gas.strength.end", Unit: "%", Name: "Acid's strength at the end", Main: true,
		Formula: "100[%]*n(spent, H2SO4)*M(H2SO4)/(n(spent, H2SO4)*M(H2SO4) + n(spent, H2O)*M(H2O))", Else: NoGas,
	},
	{
		ID: GasFlaskLeast, Key: "gas.flask.least", Unit: "mL", Name: "Flask, at most half full", Main: true,
		Formula: "2*filled", Variants: []Variant{{inBatches, "2*filled/batch.runs"}},
	},
	{
		ID: GasBubbles, Key: "gas.bubbles", Unit: "a second", Name: "Bubbles", Main: true,
		Formula: "gas.rate/60[s/min]/gas.bubble",
	},
	{ID: UptakeShare, Key: "uptake.share", Unit: "%", Name: "Gas that the slurry takes up", Main: true, For: "gas.uptake"},
	{ID: GasAcidUsed, Key: "gas.acid.used", Unit: "mL", Name: "Concentrated acid into the generator", For: "gas.acid", Poured: true},
	{
		ID: GasMass, Key: "gas.mass", Unit: "g", Name: "Gas made, by mass",
		Formula: "gas.made/1000[mmol/mol]*M(SO2)",
	},
	{ID: GasNeeded, Key: "gas.needed", Unit: "mmol", Name: "Gas to make"},
	{ID: GasAcidNeeded, Key: "gas.acid.needed", Unit: "mL", Name: "Concentrated acid for that gas", Else: AllHeld},
	{
		ID: GasAcidMass, Key: "gas.acid.mass", Unit: "g", Name: "Concentrated acid into the generator, weighed",
		Formula: "gas.acid.used*acid.density",
	},
	{ID: GasHeld, Key: "gas.held", Unit: "mmol", Name: "Gas that the generator's liquid holds back"},
	{
		ID: GasPurged, Key: "gas.purged", Unit: "mmol", Name: "Gas that drives the air out",
		Formula: "min(gas.made, gas.purge.used/molar*1000[mmol/mol])",
	},
	{ID: GasPurgeUsed, Key: "gas.purge.used", Unit: "mL", Name: "Gas that drives the air out, by volume", For: "gas.purge"},
	{ID: GasHeadspace, Key: "gas.headspace", Unit: "mL", Name: "Air above the charge"},
	{
		ID: GasBatches, Key: "gas.batches", Name: "Equal batches that the flask asks for",
		Formula: "max(1, roundup(gas.flask.least/gas.flask))", Variants: []Variant{{inBatches, "max(1, roundup(2*filled/gas.flask))"}},
	},
	{
		ID: GasRate, Key: "gas.rate", Unit: "mL/min", Name: "Mean stream of gas",
		Formula: "gas.made/1000[mmol/mol]*molar/gas.minutes",
	},
}

// charge is a way of making the gas, for the stage's common work.
type charge struct {
	perMillilitre float64 // mol SO2 in the liquid that a mL of strong acid can give
	solid         Substance
	perSolid      float64             // mol SO2 in the liquid from a mole of the solid
	given         quantity.Gram       // of the solid; Blank as needed
	over          float64             // how much more of the solid goes in where it is left blank, of 1
	fixed         float64             // mol SO2 held back by the water put in
	heldPerMole   float64             // mol SO2 held back by the acid's water, a mole made
	added         quantity.Millilitre // water put in
	density       float64             // of the solid, g/mL
}

// charges is the gas, in the liquid, that acid and solid can each give. A charge
// left blank is as much as is needed, but no more than its given partner can use; what of
// the solid goes in over that is left out.
func (c charge) charges(p *Plan, needed float64) (inAcid, inSolid float64) {
	inAcid, inSolid = needed, needed
	if quantity.Given(p.GasAcid) {
		inAcid = float64(p.GasAcid) * c.perMillilitre
	}
	if quantity.Given(c.given) {
		inSolid = float64(c.solid.Moles(c.given)) * c.perSolid
	}
	if !quantity.Given(p.GasAcid) {
		inAcid = lesser(needed, inSolid)
	}
	if !quantity.Given(c.given) {
		inSolid = lesser(needed, inAcid)
	}
	return inAcid, inSolid
}

// poured is the strong acid that goes in: as given, or what gives so much gas.
func (c charge) poured(p *Plan, inAcid float64) quantity.Millilitre {
	switch {
	case quantity.Given(p.GasAcid):
		return p.GasAcid
	case c.perMillilitre == 0:
		return 0
	}
	return quantity.Millilitre(inAcid / c.perMillilitre)
}

// leaves is the gas that leaves the liquid when so much is made in it.
func (c charge) leaves(inLiquid float64) float64 {
	return greater(0, inLiquid*(1-c.heldPerMole)-c.fixed)
}

// inLiquid is how much must be made in the liquid for so much to leave; nothing
// does where the acid's own water would hold all of it.
func (c charge) inLiquid(leaves float64) float64 {
	if c.heldPerMole >= 1 || leaves == 0 {
		return 0
	}
	return (leaves + c.fixed) / (1 - c.heldPerMole)
}

// gasSolubility is the g of SO2 that 100 g of water hold under pure moist SO2 at
// the air's pressure, by Henry's law from the table at one atmosphere.
func gasSolubility(t quantity.Celsius, air quantity.Kilopascal) float64 {
	return at(table.GasSolubility, t) * greater(0, float64(air)-at(table.WaterVapourPressure, t)) / float64(quantity.Atmosphere)
}

// gasMillilitre is the mL of real SO2 a mole at room temperature and pressure. The table is at
// one atmosphere; between 50 and 110 kPa Boyle's law is good to 1 %.
func gasMillilitre(p *Plan) float64 {
	return at(table.GasMolarVolume, p.AirTemperature) * 1000 * float64(quantity.Atmosphere/p.AirPressure)
}

// makeGas works out the charge, runs it to its end in the generator, and leaves
// the gas there for the slurry.
func (b *Runner) makeGas(p *Plan) {
	acid := acidOf(p.GasStrength)
	b.carry.acid, b.carry.molarVolume = acid, gasMillilitre(p)
	b.tell(acidDensity, acid.density)
	b.tell(molarVolume, b.carry.molarVolume)
	if !Gaseous(p) {
		return
	}
	r := reducing(p)
	c := r.gas.charge(p, acid, r.charge)

	demand := float64(b.carry.demandGas) * (1 + p.GasExcess.Fraction())
	uptake := b.uptake(p, func(uptake float64) float64 {
		needed, _ := b.needed(p, c, demand/uptake)
		return c.leaves(lesser(c.charges(p, c.inLiquid(needed))))
	})
	b.carry.uptake = uptake
	b.set(UptakeShare, 100*uptake)
	needed, neededAcid := b.needed(p, c, demand/uptake)
	neededSolid := c.solid.Mass(quantity.Mole(c.inLiquid(needed) / c.perSolid))
	inAcid, inSolid := c.charges(p, c.inLiquid(needed))
	inLiquid := lesser(inAcid, inSolid)
	poured, solid := c.poured(p, inAcid), c.solid.Mass(quantity.Mole(inSolid/c.perSolid))
	if !quantity.Given(c.given) {
		solid *= quantity.Gram(1 + c.over)
	}
	b.carry.poured = poured

	made := c.leaves(inLiquid)
	b.carry.made = quantity.Mole(made)
	headspace := greater(0, float64(p.GasFlask-poured-c.added))
	b.carry.purge = quantity.Mole(lesser(made, b.purge(p, headspace)))

	b.bookGenerator(p, c, inLiquid, solid)

	b.set(GasNeeded, needed*1000)
	b.set(GasAcidUsed, float64(poured))
	b.set(GasMade, made*1000)
	b.set(GasHeld, (inLiquid-made)*1000)
	b.set(GasPurgeUsed, b.purge(p, headspace)*b.carry.molarVolume)
	b.set(GasHeadspace, greater(0, float64(p.GasFlask)-float64(poured+c.added)/BatchCount(p)))
	b.tell(chargeRoom, float64(poured+c.added)+float64(solid)/c.density)
	b.grams(r.used, solid)
	if c.heldPerMole < 1 {
		b.set(GasAcidNeeded, float64(neededAcid))
		b.grams(r.needed, neededSolid)
	}
	b.limit(p, inAcid, inSolid, made < needed*(1-1e-9))
}

// purge is the moles of SO2 that drive the air out of headspace and tube, at one
// filling of the flask, however many batches there are: the totals do not hang on their
// number, and a notice says what the further fillings cost. The solid's room is not taken
// off.
func (b *Runner) purge(p *Plan, headspace float64) float64 {
	return float64(orElse(p.GasPurge, quantity.Millilitre(headspace)+p.GasTube)) / b.carry.molarVolume
}

// needed is the gas that must leave the generator so that the demand reaches the
// slurry, and the acid for it. The headspace shrinks as the acid grows, and the
// purge with it, so the two are solved together; both are straight lines.
func (b *Runner) needed(p *Plan, c charge, demand float64) (gas float64, acid quantity.Millilitre) {
	if demand == 0 || c.perMillilitre == 0 || c.heldPerMole >= 1 {
		return demand, 0
	}
	millilitres := func(gas float64) float64 { return c.inLiquid(gas) / c.perMillilitre }
	// As if the flask had no headspace: right when it is full to the brim.
	gas = demand + b.purge(p, 0)
	if quantity.Given(p.GasPurge) {
		return gas, quantity.Millilitre(millilitres(gas))
	}
	room := float64(p.GasFlask - c.added)
	if quantity.Given(p.GasAcid) {
		gas += greater(0, room-float64(p.GasAcid)) / b.carry.molarVolume
		return gas, quantity.Millilitre(millilitres(gas))
	}
	if spare := room - millilitres(gas); spare > 0 {
		// Each mole more of gas takes slope mL from the headspace.
		slope := 1 / (c.perMillilitre * (1 - c.heldPerMole))
		gas += spare / (b.carry.molarVolume + slope)
	}
	return gas, quantity.Millilitre(millilitres(gas))
}

// NeitherFirst is the word for it where no charge runs out before the gas is enough: one that
// is worked out goes as far as the demand does, the other further, and copper over the demand
// is left.
const NeitherFirst = "neither, before the gas is enough"

// limit names what runs out first.
func (b *Runner) limit(p *Plan, inAcid, inSolid float64, short bool) {
	const acid, neither = 0, 3
	solid := float64(slices.Index(GasLimit.Info().Words, reducing(p).called))
	together := math.Abs(inAcid-inSolid) <= 1e-9*greater(inAcid, inSolid)
	both := quantity.Given(p.GasAcid) && quantity.Given(reducing(p).charge.Value(p))
	switch {
	case !short && (together || !both):
		b.set(GasLimit, neither)
	case together && quantity.Given(p.GasAcid):
		b.set(GasLimit, acid)
	case together:
		b.set(GasLimit, solid)
	case inAcid < inSolid:
		b.set(GasLimit, acid)
	default:
		b.set(GasLimit, solid)
	}
}

// bookGenerator charges the generator and runs it. What gas leaves the liquid
// stands in the generator until the slurry or the vent takes it.
func (b *Runner) bookGenerator(p *Plan, c charge, inLiquid float64, solid quantity.Gram) {
	book := &b.book
	acid, poured := b.carry.acid, float64(b.carry.poured)
	book.Bring(ledger.Generator, SulfuricAcid, quantity.Mole(poured*acid.acid))
	book.Bring(ledger.Generator, Water, quantity.Mole(poured*acid.water))
	b.pour(ledger.Generator, c.added)
	book.Bring(ledger.Generator, c.solid, c.solid.Moles(solid))
	reducing(p).gas.run(b, p, c, inLiquid)
}
