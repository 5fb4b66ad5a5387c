package route

import (
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
)

// Runner runs plans. It owns the memory that a run needs, so that running it
// again allocates nothing; one Runner must not be used from two goroutines.
type Runner struct {
	// Keep lists the bookings of the next run, for pictures and for readers who ask
	// where a figure comes from. It allocates.
	Keep bool

	book    ledger.Book
	sheet   Sheet
	carry   carry
	without meaningless
}

// carry is what one stage hands to the next beside the ledger: properties of
// the matter, not amounts of it.
type carry struct {
	slurrySolids quantity.Gram              // dry, as led into the slurry, before acid and gas
	dithionate   float64                    // share of the reduced equivalents
	demandGas    quantity.Mole              // for all manganese in the batch
	demandAcid   quantity.Mole              // the same, H2SO4
	made         quantity.Mole              // SO2 that leaves the generator's liquid
	uptake       float64                    // share of the gas led in that the slurry can take up
	purge        quantity.Mole              // SO2 that drives the air out
	molarVolume  float64                    // mL of SO2 a mole at room temperature and pressure
	acid         strongAcid                 // as bought
	poured       quantity.Millilitre        // strong acid into the generator
	vented       quantity.Mole              // SO2 past the slurry
	hotWater     float64                    // g that just dissolve the copper salt hot
	kept         [len(oxides)]quantity.Mole // of each oxide in the slurry: out of reach
	stirred      quantity.Mole              // of the reductant that is stirred in
	froth        quantity.Mole              // oxygen or carbon dioxide out of the slurry
}

// Run computes the plan. The sheet belongs to the runner and is overwritten by
// the next run. Figures that have no meaning in the plan say why.
func (b *Runner) Run(p *Plan) *Sheet {
	b.book.Reset(b.Keep)
	b.sheet.reset(p)
	b.carry = carry{}
	for stage, do := range stages {
		b.book.Enter(stage)
		do(b, p)
		b.sheet.read(Stage(stage), &b.book)
	}
	for _, f := range b.without.find(b.sheet.met) {
		b.sheet.undefined(f.id, f.why)
	}
	return &b.sheet
}

// stages in bench order; each may use what the ones before it booked.
var stages = [Stages]func(*Runner, *Plan){
	Cells:      (*Runner).openCells,
	Wash:       (*Runner).wash,
	Batch:      (*Runner).divide,
	Gas:        (*Runner).makeGas,
	Slurry:     (*Runner).reduce,
	Filter:     (*Runner).filter,
	Dry:        (*Runner).dry,
	CopperSalt: (*Runner).crystallise,
	Waste:      (*Runner).makeSafe,
}

// Book is the ledger of the last run. The caller must only read it.
func (b *Runner) Book() *ledger.Book { return &b.book }

// Err is the first booking of the last run that could not be made: a fault of
// the model, not of the user.
func (b *Runner) Err() error { return b.book.Err() }

// HotWater is the water, g, that just dissolves the copper salt hot, the
// generator's own counted; found by trial.
func (b *Runner) HotWater() float64 { return b.carry.hotWater }

func (b *Runner) has(v ledger.Vessel, s reaction.Substance) quantity.Mole {
	return b.book.Amount(v, s)
}

func (b *Runner) set(id FigureID, v float64)         { b.sheet.set(id, v) }
func (b *Runner) tell(q Quantity, v float64)         { b.sheet.numbers[firstQuantity+int(q)] = v }
func (b *Runner) grams(id FigureID, g quantity.Gram) { b.sheet.set(id, float64(g)) }
func (b *Runner) millimoles(id FigureID, n quantity.Mole) {
	b.sheet.set(id, n.Millimoles())
}

// water is how much water stands in a vessel, which is how its volume is counted.
func (b *Runner) water(v ledger.Vessel) quantity.Millilitre {
	return quantity.Millilitre(b.book.Mass(v, reaction.Water))
}

// pour brings water into a vessel.
func (b *Runner) pour(v ledger.Vessel, ml quantity.Millilitre) {
	b.book.Bring(v, reaction.Water, reaction.Water.Moles(quantity.Gram(ml)))
}

// soluble are the substances that go where the liquor goes.
var soluble = [...]reaction.Substance{
	reaction.AmmoniumChloride, reaction.ZincChloride, reaction.Ammonia, reaction.SulfuricAcid,
	reaction.SulfurDioxide, reaction.ManganeseSulfate, reaction.ManganeseDithionate,
	reaction.ManganeseBisulfite, reaction.ZincSulfate, reaction.ZincBisulfite,
	reaction.AmmoniumSulfate, reaction.AmmoniumBisulfite,
	reaction.Potash, reaction.PotassiumSulfate, reaction.PotassiumBisulfite,
	reaction.SodiumMetabisulfite, reaction.SodiumSulfate, reaction.OxalicAcid,
	reaction.FerrousSulfate, reaction.FerricSulfate,
}

// speck is the share of a volume below which it is the last digits of the arithmetic,
// and no liquor that drains.
const speck = 1e-10

var solubles = ledger.SetOf(soluble[:]...)

// drain lets a wet cake drip until it holds no more than held, and says how much
// came off. With mixing below 1 the liquor that drains carries only that part of
// the salt that full mixing would give it: a contact with V of water leaves
// 1 - mixing·V/(V + held) of the salt in the cake, the textbook stage when
// mixing is 1.
func (b *Runner) drain(from, to ledger.Vessel, held quantity.Millilitre, mixing float64) quantity.Millilitre {
	total := b.water(from)
	off := total - held
	if off <= speck*total {
		return 0
	}
	share := float64(off / total)
	b.book.MoveShare(from, to, reaction.Water, share)
	b.book.MoveSet(from, to, solubles, mixing*share)
	return off
}

// chloride is the moles of chloride that stand in a vessel in solution.
func (b *Runner) chloride(v ledger.Vessel) quantity.Mole {
	return b.has(v, reaction.AmmoniumChloride) + 2*b.has(v, reaction.ZincChloride)
}

// react books a reaction until one of its solids or the acid is used up, but no
// further than the limit, and returns the extent.
func (b *Runner) react(v ledger.Vessel, e *reaction.Equation, limit quantity.Mole) quantity.Mole {
	extent := limit
	for _, t := range e.Terms() {
		if extent <= 0 {
			return 0
		}
		if t.Coefficient < 0 {
			extent = lesser(extent, b.has(v, t.Substance)/quantity.Mole(-t.Coefficient))
		}
	}
	b.book.React(v, e, extent)
	return extent
}

const unlimited = quantity.Mole(1e300)
