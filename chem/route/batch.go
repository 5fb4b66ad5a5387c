package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

// ShareKey is the key of the share of the mix that a plan takes, and TakenKey that of the damp cake
// weighed out for it, which says the same in grams.
const (
	ShareKey = "batch.share"
	TakenKey = "cake.taken"
)

var batchInputs = []Input{
	{
		Field: field.Field{
			Key: ShareKey, Name: "Share of the washed oxide in this run", Unit: "%", Default: 25, Min: 0.1, Max: 100,
			Why:    "The rest is kept damp in a jar for later runs. Type it in place of grams weighed out.",
			Remedy: "100 takes all of it.", Clears: TakenKey,
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.BatchShare) },
	},
	{
		Field: field.Field{
			Key: "batch.runs", Name: "Worked in so many equal batches", Default: quantity.Blank, Min: 1, Max: MostBatches, Whole: true,
			Blank: "all at once", Why: "One after the other, where flask or slurry vessel is too small for all. The figures stay those of all batches together; what is poured is that of one.",
			Remedy: "Take larger vessels, or a smaller share.",
		},
		DrawGroup: 2,
		number:    func(p *Plan) *float64 { return &p.BatchRuns },
	},
	{
		Field: field.Field{
			Key: "cake.damp", Name: "All of the damp cake, weighed", Unit: "g", Standing: Measured, Min: 0.1, Max: 200000,
			Blank: "worked out from the liquor that it holds", Why: "Washed and drained, before it is divided. The share is weighed out of it.",
			Remedy: "Weigh in grams, the dish taken off.",
		},
		DrawGroup: 6,
		number:    func(p *Plan) *float64 { return (*float64)(&p.CakeDamp) },
	},
	{
		Field: field.Field{
			Key: TakenKey, Name: "Damp cake weighed out for this run", Unit: "g", Standing: Measured, Min: 0.1, Max: 200000,
			Blank: "the share counts as it is given in per cent", Why: "The share follows from this and the weight of all of the cake, whatever stands in per cent.",
			Remedy: "Weigh in grams, the dish taken off.", Clears: ShareKey,
		},
		DrawGroup: 7,
		number:    func(p *Plan) *float64 { return (*float64)(&p.CakeTaken) },
	},
	{
		Field: field.Field{
			Key: "loss.transfer", Name: "Lost at each transfer", Unit: "%", Standing: Estimated, Rare: true, Default: 2, Low: 0.5, High: 6, Min: 0, Max: 50,
			Why: "What sticks to beakers and paper, four times on the way: cake to slurry, filtrate to dish, salt to jar, copper liquor to its dish.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.LossTransfer) },
	},
}

// Figures of the batch and its demand, in the order of the page.
const (
	// BatchDamp is how much of the drained cake makes the share: of its weight, or where
	// nobody weighed it, of its solids and the liquor they hold.
	BatchDamp FigureID = endOfWash + iota
	// BatchManganese is the share's manganese before any is lost on the way to the
	// slurry.
	BatchManganese
	// DemandGas is the SO2 that brings all manganese of the batch to +2, dithionate
	// included; without shortage of acid, excess or uptake.
	DemandGas
	// DemandAcid is the H2SO4 that the same needs beside the gas, gross, before
	// slurry.acid.
	DemandAcid
	BatchDry
	BatchReserve
	// DemandDithionate is the share of the reduced equivalents that ends as
	// dithionate: slurry.dithionate, or what the slurry's temperature suggests.
	DemandDithionate
	// DemandBare is the gas that the same would take with no dilute acid at all: two
	// moles more for each mole of acid missing; DemandTimes is how many times DemandGas
	// that is: without dithionate and salts one for MnO2, three for MnOOH, five for
	// hetaerolite.
	DemandBare
	DemandTimes

	endOfBatch
)

var batchFigures = []Figure{
	{ID: BatchDamp, Key: "batch.damp", Unit: "g", Name: "Damp cake to weigh out", Main: true},
	{
		ID: BatchManganese, Key: "batch.manganese", Unit: "mmol", Name: "Manganese in this run", Main: true,
		Formula: "batch.share/100[%]*cake.Mn*1000[mmol/mol]",
	},
	{ID: DemandGas, Key: "demand.gas", Unit: "mmol", Name: "Gas that the oxide can use", Main: true, Of: bySulfurDioxide},
	{ID: DemandAcid, Key: "demand.acid", Unit: "mmol", Name: "Dilute acid that it needs besides", Main: true},
	{
		ID: BatchDry, Key: "batch.dry", Unit: "g", Name: "That cake, if it were dry",
		Formula: "batch.share/100[%]*wash.cake",
	},
	{
		ID: BatchReserve, Key: "batch.reserve", Unit: "mmol", Name: "Manganese kept for later",
		Formula: "(1 - batch.share/100[%])*cake.Mn*1000[mmol/mol]",
	},
	{ID: DemandDithionate, Key: "demand.dithionate", Unit: "%", Name: "Gas lost to the side salt, of the reducing power", For: "slurry.dithionate"},
	{ID: DemandBare, Key: "demand.bare", Unit: "mmol", Name: "Gas that it would take without any dilute acid", Of: byGas},
	{
		ID: DemandTimes, Key: "demand.bare.times", Name: "That is so many times the gas", Of: byGas,
		Formula: "demand.bare/demand.gas", Else: NoPairs,
	},
}

// divide weighs out the batch, puts the rest by, and works out what the batch
// demands. The demand is that of the batch as weighed out, the losses of the
// transfer not taken off.
func (b *Runner) divide(p *Plan) {
	share := p.BatchShare.Fraction()
	damp := p.CakeDamp
	if !quantity.Given(damp) {
		damp = b.book.TotalMass(ledger.Mix)
	}
	b.grams(BatchDamp, quantity.Gram(share)*damp)
	b.tell(cakeMn, float64(b.book.Element(ledger.Mix, Mn)))

	b.demand(p, quantity.Mole(share))

	b.book.MoveAll(ledger.Mix, ledger.Reserve, 1-share)
	b.book.MoveAll(ledger.Mix, ledger.Losses, p.LossTransfer.Fraction())
	b.keepBack(p)
	b.book.MoveAll(ledger.Mix, ledger.Slurry, 1)
	b.carry.slurrySolids = b.solids(ledger.Slurry)
}

// AllOfCake is what all of the damp cake weighs: as weighed, or where nobody did, as the plan makes it.
func (p *Plan) AllOfCake() quantity.Gram {
	if quantity.Given(p.CakeDamp) {
		return p.CakeDamp
	}
	var b Runner
	return quantity.Gram(b.Run(p).Value(BatchDamp) / p.BatchShare.Fraction())
}

// ShareWeighed is the share of the cake that CakeTaken is, which must be given. A plan is computed by
// its BatchShare: who holds it sets that to this.
func (p *Plan) ShareWeighed() quantity.Percent {
	return quantity.Percent(lesser(100, 100*float64(p.CakeTaken/p.AllOfCake())))
}

// demand follows one rule for every solid (derived from the electrons): with n
// electrons to bring its manganese to +2 and m divalent cations, n/2 of SO2,
// times 1 + d where the share d of the equivalents ends as dithionate, and
// m - n/2 of H2SO4; one more for two NH3 held, one less for two chlorides that
// stay.
func (b *Runner) demand(p *Plan, share quantity.Mole) {
	has := func(s Substance) quantity.Mole { return share * b.has(ledger.Mix, s) }
	d := 0.0
	if Sulfurous(p) {
		d = p.SlurryDithionate.Fraction()
		if !quantity.Given(d) {
			d = dithionateAt(p.SlurryTemperature)
		}
	}
	b.carry.dithionate = d
	b.set(DemandDithionate, 100*d)

	pairs := has(ManganeseDioxide) + has(Manganite)/2 + has(Hetaerolite) + has(Hausmannite)
	b.carry.demandGas = pairs * quantity.Mole(1+d)
	b.carry.demandAcid = has(Manganite)/2 + 2*(has(Hetaerolite)+has(Hausmannite)) + has(Ammonia)/2 +
		has(ZincDiammine) + 4*has(BasicZincChloride) + has(ZincOxide) + has(Potash)/2
	b.millimoles(DemandGas, b.carry.demandGas)
	b.bare()
	if !Gaseous(p) {
		b.charge(p, reducing(p), pairs)
	}
	b.millimoles(DemandAcid, b.carry.demandAcid)
}

// reached is the share of the oxide weighed out that comes into the slurry within reach.
func (p *Plan) reached() float64 { return (1 - p.LossTransfer.Fraction()) * p.SlurryReach.Fraction() }

// bare is the bill of gas where no dilute acid goes in.
func (b *Runner) bare() {
	b.millimoles(DemandBare, b.carry.demandGas+2*b.carry.demandAcid)
}

// dithionateAt is the share that the slurry's temperature suggests, an estimate
// of which print anchors only the two ends (table.DithionateShare).
func dithionateAt(t quantity.Celsius) float64 {
	return at(table.DithionateShare, t)
}
