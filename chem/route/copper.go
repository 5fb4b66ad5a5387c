package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

var copperInputs = []Input{
	{
		Field: field.Field{
			Key: "copper.water", Name: "Water for the generator's residue", Unit: "mL", Standing: WorkedOut, Min: 0, Max: 1e6,
			Blank: "a fifth more than dissolves it hot, and enough to keep the acid below 45 %", Why: "The cold residue goes into the water, in small portions; never the reverse.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.CopperWater) },
	},
	{
		Field: field.Field{
			Key: "copper.hot", Name: "Dissolved and filtered at", Unit: "°C", Default: 80, Min: 0, Max: 100,
			Why:    "Hot, to take up the salt; then filter off the black sulfide.",
			Remedy: "It must be above the temperature of the crystals.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.CopperHot) },
	},
	{
		Field: field.Field{
			Key: "copper.cold", Name: "Crystals grown at", Unit: "°C", Default: 10, Min: 0, Max: 100,
			Why:    "Overnight in the refrigerator of the workshop, never in one for food.",
			Remedy: "It must be below the temperature of dissolving.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.CopperCold) },
	},
	{
		Field: field.Field{
			Key: "copper.factor", Name: "Solubility in the acid liquor, of that in water", Unit: "%", Standing: WorkedOut, Rare: true, Low: 10, High: 100, Min: 1, Max: 150,
			Blank: "follows the free acid", Why: "Free acid drives the salt out. One table only, from memory.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.CopperFactor) },
	},
}

// Figures of the copper salt, in the order of the page.
const (
	CopperCrop FigureID = endOfDry + iota
	// CopperSulfatePenta is all copper sulfate made, as pentahydrate.
	CopperSulfatePenta
	CopperRise
	CopperLeft
	CopperSulfideLeft
	CopperWaterUsed
	CopperWaterLeast
	// CopperHeat is what diluting the acid and dissolving the salt give off, and
	// CopperRise what that does to the water if nothing cools it.
	CopperHeat
	CopperAcid
	CopperFactorUsed
	CopperMother
	CopperMotherAcid
	CopperVessel

	endOfCopperSalt
)

var copperFigures = []Figure{
	{ID: CopperCrop, Key: "copper.crop", Unit: "g", Name: "Blue crystals of the first cooling", Main: true, Else: TooAcid},
	{
		ID: CopperSulfatePenta, Key: "copper.sulfate", Unit: "g", Name: "Copper sulfate made, as the blue pentahydrate", Main: true,
		Formula: "n(spent, CuSO4)*(M(CuSO4) + 5*M(H2O))",
	},
	{ID: CopperRise, Key: "copper.rise", Unit: "K", Name: "Residue and water warm by at most", Main: true, Else: NoWater},
	{
		ID: CopperLeft, Key: "copper.left", Unit: "g", Name: "Copper left, kept", Main: true,
		Formula: "n(spent, Cu)*M(Cu)",
	},
	{
		ID: CopperSulfideLeft, Key: "copper.sulfide", Unit: "g", Name: "Black copper sulfide, filtered off", Main: true,
		Formula: "n(spent, Cu2S)*M(Cu2S)",
	},
	{ID: CopperWaterUsed, Key: "copper.water.used", Unit: "mL", Name: "Water for the residue", For: "copper.water", Poured: true},
	{ID: CopperWaterLeast, Key: "copper.water.least", Unit: "mL", Name: "Water that just dissolves the salt hot"},
	{ID: CopperHeat, Key: "copper.heat", Unit: "kJ", Name: "Heat when the residue meets the water"},
	{ID: CopperAcid, Key: "copper.acid", Unit: "%", Name: "Free acid in the liquor, copper left out"},
	{ID: CopperFactorUsed, Key: "copper.factor.used", Unit: "%", Name: "Solubility in that liquor, of that in water", For: "copper.factor", Else: TooAcid},
	{ID: CopperMother, Key: "copper.liquor.copper", Unit: "g", Name: "Copper left in the mother liquor"},
	{ID: CopperMotherAcid, Key: "copper.liquor.acid", Unit: "g", Name: "Acid left in the mother liquor"},
	{
		ID: CopperVessel, Key: "copper.vessel", Unit: "mL", Name: "Beaker for the copper liquor, at most half full",
		Formula: "2*(copper.water.used + gas.acid.used)", Variants: []Variant{{inBatches, "2*(copper.water.used + gas.acid.used)/batch.runs"}},
	},
}

const (
	// copperMargin is how much more water than just dissolves the salt hot.
	copperMargin = 1.2
	// acidMost is the mass fraction of free acid, copper left out, that a blank
	// copper.water dilutes to at the least.
	acidMost      = 0.45
	crystalWaters = 5
)

var copperConstants = []Constant{
	{"copperMargin", copperMargin, "", "water over what just dissolves the salt", "common practice, so that it does not set on the filter"},
	{"acidMost", acidMost, "", "most free acid in the liquor, by mass", "common practice, a little below where the pentahydrate gives way"},
}

// crystallise takes up the cooled residue of the generator, filters it, and
// grows the blue crystals.
func (b *Runner) crystallise(p *Plan) {
	if !MakesCopperSalt(p) {
		return
	}
	salt := b.has(ledger.Generator, CopperSulfate)
	acid, water := b.book.Mass(ledger.Generator, SulfuricAcid), quantity.Gram(b.water(ledger.Generator))

	total := b.dissolving(p, float64(CopperSulfate.Mass(salt)), float64(acid), float64(water))
	b.carry.hotWater = total
	b.set(CopperWaterLeast, greater(0, total-float64(water)))
	total = greater(copperMargin*total, float64(acid)*(1/acidMost-1))
	added := orElse(p.CopperWater, quantity.Millilitre(greater(0, total-float64(water))))
	b.set(CopperWaterUsed, float64(added))
	b.warming(p, float64(SulfuricAcid.Moles(acid)), float64(salt), float64(acid), float64(water), float64(added))

	b.pour(ledger.Generator, added)
	for _, s := range [...]Substance{Copper, CopperSulfide} {
		b.book.MoveShare(ledger.Generator, ledger.CopperResidue, s, 1)
	}
	b.book.MoveAll(ledger.Generator, ledger.Losses, p.LossTransfer.Fraction())
	b.book.MoveAll(ledger.Generator, ledger.CopperLiquor, 1)
	b.growCopper(p)

	b.set(CopperMother, float64(b.has(ledger.CopperLiquor, CopperSulfate))*mass(Copper))
	b.grams(CopperMotherAcid, b.book.Mass(ledger.CopperLiquor, SulfuricAcid))
}

// acidFactor is the solubility of the blue salt in acid, as a share of that in
// water. The table is at 25 °C; it is used at every temperature.
func acidFactor(p *Plan, acid, water float64) (factor, percent float64, ok bool) {
	if acid+water > 0 {
		percent = 100 * acid / (acid + water)
	}
	if quantity.Given(p.CopperFactor) {
		return p.CopperFactor.Fraction(), percent, true
	}
	_, most := table.CopperSulfateInAcid.Range()
	factor, err := table.CopperSulfateInAcid.At(lesser(percent, most))
	return factor, percent, err == nil && percent <= most
}

// dissolving is the water that just dissolves the salt hot, g. More water also
// weakens the acid and so holds more; the two meet somewhere.
func (b *Runner) dissolving(p *Plan, salt, acid, water float64) float64 {
	if salt == 0 {
		return water
	}
	s := at(table.CopperSulfateSolubility, p.CopperHot)
	short := func(w float64) float64 {
		f, _, _ := acidFactor(p, acid, w)
		return w*f*s/100 - salt
	}
	if quantity.Given(p.CopperFactor) {
		return salt * 100 / (s * p.CopperFactor.Fraction())
	}
	low := salt * 100 / s // enough if there were no acid
	below := short(low)
	if below >= 0 {
		return low
	}
	high := 2 * low
	above := short(high)
	for above < 0 { // not for long: the acid leaves a fifth of the solubility at the least
		low, below = high, above
		high *= 2
		above = short(high)
	}
	return root(short, low, below, high, above, 1e-12*salt)
}

// warming is the heat of diluting the free acid and dissolving the salt.
func (b *Runner) warming(p *Plan, acidMoles, saltMoles, acid, water, added float64) {
	heat := saltMoles * dissolvingHeat
	if acid > 0 {
		heat += acidMoles * (mixingHeat(100*acid/(acid+water+added)) - mixingHeat(100*acid/(acid+water)))
	}
	heat *= p.HeatShare.Fraction()
	b.set(CopperHeat, heat)
	if water+added > aDrop {
		b.set(CopperRise, heat*1000/(waterHeat*(water+added)))
	}
}

// growCopper takes the first crop out of the liquor.
func (b *Runner) growCopper(p *Plan) {
	salt, water := float64(b.has(ledger.CopperLiquor, CopperSulfate)), float64(b.has(ledger.CopperLiquor, Water))
	acid := float64(b.book.Mass(ledger.CopperLiquor, SulfuricAcid))
	factor, percent, ok := acidFactor(p, acid, water*mass(Water))
	b.set(CopperAcid, percent)
	if !ok {
		return
	}
	b.set(CopperFactorUsed, 100*factor)
	s := at(table.CopperSulfateSolubility, p.CopperCold)
	c := quantity.Mole(crop(salt, water, crystalWaters, s*factor, CopperSulfate))
	b.book.Move(ledger.CopperLiquor, ledger.CopperJar, CopperSulfate, c)
	b.book.Move(ledger.CopperLiquor, ledger.CopperJar, Water, lesser(crystalWaters*c, b.has(ledger.CopperLiquor, Water)))
	b.grams(CopperCrop, b.book.TotalMass(ledger.CopperJar))
}
