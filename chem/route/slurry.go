package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

var slurryInputs = []Input{
	{
		Field: field.Field{
			Key: "slurry.water", Name: "Water in the slurry", Unit: "mL", Standing: WorkedOut, Min: 0, Max: 1e6,
			Blank: "6 mL to each gram of dry cake", Why: "Enough to stir; more is only more to evaporate.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryWater) },
	},
	{
		Field: field.Field{
			Key: "slurry.acid", Name: "Dilute acid into it, 1 mol/L", Unit: "mL", Standing: WorkedOut, Min: 0, Max: 1e6,
			Blank: "as much as needed", Why: "The spent part of the oxide needs acid beside the gas.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryAcid) },
	},
	{
		Field: field.Field{
			Key: "slurry.temperature", Name: "Keep the slurry at", Unit: "°C", Default: 20, Min: 0, Max: 95,
			Why: "Cold water takes gas well, but ice-cold, up to three quarters of its reducing power goes to a side salt (dithionate).",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryTemperature) },
	},
	{
		Field: field.Field{
			Key: "slurry.vessel", Name: "The slurry stands in", Default: float64(ClosedVessel),
			Options: field.Words("open", "an open beaker", "closed", "a closed vessel with a scrubber"),
			Why:     "Only a closed vessel, with a second empty trap, can feed a scrubber.",
		},
		Of:     byGas,
		choice: func(p *Plan) *Choice { return &p.SlurryVessel },
	},
	{
		Field: field.Field{
			Key: "slurry.beaker", Name: "It holds", Unit: "mL", Default: 1000, Min: 10, Max: 50000,
			Why: "Two thirds full at most, for stirring; a third where it froths.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryBeaker) },
	},
	{
		Field: field.Field{
			Key: "slurry.dithionate", Name: "Reducing power that ends as dithionate", Unit: "%", Standing: WorkedOut, Rare: true, Low: 15, High: 75, Min: 0, Max: 100,
			Blank: "follows the slurry's temperature", Why: "Only the ends are known from print: 35 to 75 in ice, a few percent hot and acid.",
		},
		Of:     bySulfurDioxide,
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryDithionate) },
	},
	{
		Field: field.Field{
			Key: "slurry.split", Name: "Spent oxide that acid alone splits", Unit: "%", Standing: WorkedOut, Rare: true, Low: 10, High: 100, Min: 0, Max: 100,
			Blank: "follows the slurry's temperature and acid", Why: "Dilute acid dissolves half of the Mn(III) before any gas comes: nearly all that it can when warm and ample.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurrySplit) },
	},
	{
		Field: field.Field{
			Key: "slurry.bases", Name: "Zinc and ammonia that take gas before the oxide", Unit: "%", Standing: Estimated, Rare: true, Default: 50, Low: 0, High: 100, Min: 0, Max: 100,
			Why: "Counts only where dilute acid is short: 0 when oxide and bases share the gas, 100 when the bases have theirs first.",
		},
		Of:        bySulfurDioxide,
		DrawGroup: 3,
		number:    func(p *Plan) *float64 { return (*float64)(&p.SlurryBases) },
	},
	{
		Field: field.Field{
			Key: "slurry.reach", Name: "Oxide that can be reached at all", Unit: "%", Standing: Estimated, Rare: true, Default: 98.5, Low: 90, High: 100, Min: 0, Max: 100,
			Why: "Grains closed in carbon stay behind, however much gas comes. Print reports 97 to 100 of ground mix, stirred for hours.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryReach) },
	},
	{
		Field: field.Field{
			Key: "slurry.rest", Name: "Leave it hot on its last oxide for", Unit: "h", Rare: true, Default: 0, Min: 0, Max: 48,
			Why: "Hot acid destroys dithionate in hours while some oxide is left to take its gas: print reports four fifths in three hours at 90 °C in acid of 1.4 mol/L. It takes dilute acid to spare.",
		},
		Of:        bySulfurDioxide,
		DrawGroup: 4,
		number:    func(p *Plan) *float64 { return &p.SlurryRest },
	},
	{
		Field: field.Field{
			Key: "slurry.rest.warm", Name: "Hot is", Unit: "°C", Rare: true, Default: 90, Min: 40, Max: 95,
			Why: "Ten degrees less take three times as long.",
		},
		Of:        bySulfurDioxide,
		DrawGroup: 4,
		number:    func(p *Plan) *float64 { return (*float64)(&p.RestWarm) },
	},
	{
		Field: field.Field{
			Key: "slurry.decay", Name: "Dithionate that breaks up at first, at 90 °C in 1 mol/L of acid", Unit: "%/h", Standing: Estimated, Rare: true, Default: 45, Low: 35, High: 70, Min: 1, Max: 500,
			Why: "From one run: more than 80 % in three hours in acid of 1.4 mol/L, oxide left.",
		},
		Of:        bySulfurDioxide,
		DrawGroup: 4,
		number:    func(p *Plan) *float64 { return &p.RestDecay },
	},
	{
		// One share for all heats, since no figure adds up heats that different tables give, save
		// that of the copper liquor. Direct calorimetry has manganese(IV) and (III) oxide 4 kJ/mol
		// nearer to the monoxide than the table does (Fritsch and Navrotsky, J. Am. Ceram. Soc., July
		// 1996, 1761, abstract), 1 to 2 % of what their reduction gives off. The oxide of a cell is
		// fine: hydrous surface holds 1.6 J/m² (Birkner and Navrotsky, Am. Mineral. 97 (2012) 1291,
		// abstract), with 20 to 90 m²/g (from memory) 3 to 13 kJ/mol, and gives that off as well. The
		// ends, for the heats of dilution too: estimate.
		Field: field.Field{
			Key: "heat.share", Name: "Heat given off, of what tables give", Unit: "%", Standing: Estimated, Rare: true, Default: 100, Low: 97, High: 106, Min: 50, Max: 200,
			Why: "Tables and measurements differ by 1 to 2 %, and the fine oxide of a cell gives off a little more.",
		},
		DrawGroup: 5,
		number:    func(p *Plan) *float64 { return (*float64)(&p.HeatShare) },
	},
}

const slurryToCake = 6.0 // mL to a gram of dry cake

var slurryConstants = []Constant{
	{"slurryToCake", slurryToCake, "mL/g", "water in the slurry, to dry cake", "common practice, thin enough to stir"},
}

// coolAt is the temperature of the slurry, °C, above which no ice goes into its bath: 25 to
// 40 are published for peroxide, where ice has to hold it there.
const coolAt = 40

// iceHeat is the heat that melts a gram of ice, kJ.
const iceHeat = 0.334

var iceConstants = []Constant{
	{"iceHeat", iceHeat, "kJ/g", "heat that melts ice", "6.01 kJ/mol: CRC Handbook, Enthalpy of Fusion"},
}

// Figures of the slurry and of what is stirred into it, in the order of the page.
const (
	SaltUsed FigureID = endOfGas + iota
	PeroxideUsed
	OxalicUsed
	// StirFroth is the oxygen or carbon dioxide that bubbles out of the slurry, as a
	// perfect gas at room temperature and pressure.
	StirFroth
	SlurryAcidStrong
	SlurryAcidWater
	// ReduceConversion is the manganese brought to +2, of all in the batch as
	// weighed out: what was lost on the way to the slurry counts against it.
	ReduceConversion
	ReduceLeft
	// UptakeTaken is what reacted and what is still dissolved at the end;
	// VentGas is all other gas made, the purge with it.
	UptakeTaken
	VentVolume
	MetMinute
	ReduceIce
	SlurryWaterUsed
	// SlurryAcidUsed is the 1 mol/L acid that goes in; SlurryAcidStrong and SlurryAcidWater make it from
	// the strong acid.
	SlurryAcidUsed
	SlurryAcidRise
	SlurryVolume
	SlurryBatches
	UptakeDissolved
	VentGas
	ReduceHeat
	ReduceRise
	// SuckBack is the most liquid that can be drawn back: the slurry of one batch, or the gas
	// room of generator and tube if that is less.
	SuckBack
	// EndFirst is the share of the demand at which all oxide that can be reached is
	// used up: from there on gas stays dissolved and the paper must bleach. Where
	// gas passes by, it may bleach from the first bubble on.
	EndFirst
	// MetShare is the share of the charge at which the oxide has what it can use;
	// then the flame may go.
	MetShare
	MetBubbles
	// AcidSaves is the gas that full dilute acid would save.
	AcidSaves
	// SlurrySulfite is the hydrogensulfite that formed where gas stood in for dilute
	// acid; boiled, half of it leaves as gas and the rest stays in the product.
	SlurrySulfite
	// StirServes is the charge as a share of what is needed with the excess.
	StirServes
	SaltNeeded
	SaltFreed
	PeroxideNeeded
	PeroxideMass
	OxalicNeeded
	OxalicLost
	// SlurrySplit is slurry.split, or what the slurry's temperature and acid suggest, at most
	// what the acid is enough for.
	SlurrySplit
	// RestGone is the share of the dithionate that the hot rest destroys.
	RestGone
	// RestFreed is the gas of it that finds no oxide.
	RestFreed

	endOfSlurry
)

var slurryFigures = []Figure{
	{ID: SlurryAcidStrong, Key: "slurry.acid.strong", Unit: "mL", Name: "Concentrated acid for the dilute acid", Main: true},
	{ID: SlurryAcidWater, Key: "slurry.acid.water", Unit: "mL", Name: "Water for the dilute acid, poured first", Main: true},
	{
		ID: ReduceConversion, Key: "reduce.conversion", Unit: "%", Name: "Manganese brought into solution", Main: true, Of: hasCells,
		Formula: "100[%]*brought/(batch.manganese/1000[mmol/mol])",
	},
	{
		ID: ReduceLeft, Key: "reduce.left", Unit: "g", Name: "Oxide left", Main: true,
		Formula: "n(reduced, MnO2)*M(MnO2) + n(reduced, MnOOH)*M(MnOOH) + n(reduced, ZnMn2O4)*M(ZnMn2O4) + n(reduced, Mn3O4)*M(Mn3O4)",
	},
	{
		ID: UptakeTaken, Key: "uptake.taken", Unit: "mmol", Name: "Gas taken up", Main: true, Of: bySulfurDioxide,
		Formula: "max(0[mmol], gas.made - vent.gas)",
	},
	{
		ID: VentVolume, Key: "vent.volume", Unit: "L", Name: "Gas not taken up, at room temperature and pressure", Main: true, Of: bySulfurDioxide,
		Formula: "vent.gas/1000[mmol/mol]*molar/1000[mL/L]",
	},
	{
		ID: MetMinute, Key: "gas.met.minute", Unit: "min", Name: "The demand is met after", Main: true, Of: byGas,
		Formula: "gas.met/100[%]*gas.minutes",
	},
	{
		ID: ReduceIce, Key: "reduce.ice", Unit: "g", Name: "Ice that takes up the heat", Main: true, Of: isCooled,
		Formula: "reduce.heat/iceHeat",
	},
	{ID: SlurryWaterUsed, Key: "slurry.water.used", Unit: "mL", Name: "Water in the slurry", For: "slurry.water", Poured: true},
	{ID: SlurryAcidUsed, Key: "slurry.acid.used", Unit: "mL", Name: "Dilute acid into it, 1 mol/L", For: "slurry.acid", Poured: true},
	{ID: SlurryAcidRise, Key: "slurry.acid.rise", Unit: "K", Name: "The dilute acid warms by"},
	{ID: SlurryVolume, Key: "slurry.volume", Unit: "mL", Name: "Slurry in all"},
	{
		ID: SlurryBatches, Key: "slurry.batches", Name: "Equal batches that the vessel asks for",
		Formula: "max(1, roundup(1.5*slurry.volume/slurry.beaker))", Variants: []Variant{{byStirring, "max(1, roundup(frothRoom*slurry.volume/slurry.beaker))"}},
	},
	{
		ID: UptakeDissolved, Key: "uptake.dissolved", Unit: "mmol", Name: "Gas still dissolved at the end", Of: bySulfurDioxide,
		Formula: "n(reduced, SO2)*1000[mmol/mol]",
	},
	{
		ID: VentGas, Key: "vent.gas", Unit: "mmol", Name: "Gas not taken up", Of: bySulfurDioxide,
		Formula: "n(vent, SO2)*1000[mmol/mol]",
	},
	{ID: ReduceHeat, Key: "reduce.heat", Unit: "kJ", Name: "Heat given off"},
	{
		ID: ReduceRise, Key: "reduce.rise", Unit: "K", Name: "Warming if it were not cooled",
		Formula: "reduce.heat*1000[J/kJ]/(n(reduced, H2O)*M(H2O)*waterHeat)",
	},
	{
		ID: SuckBack, Key: "slurry.suckback", Unit: "mL", Name: "Liquid that could be drawn back", Of: byGas,
		Formula: "min(slurry.volume, gas.headspace + gas.tube)", Variants: []Variant{{inBatches, "min(slurry.volume/batch.runs, gas.headspace + gas.tube)"}},
	},
	{ID: EndFirst, Key: "end.first", Unit: "%", Name: "The paper may bleach any time, at the latest at this share of the demand", Of: byGas, Else: NoGasNeeded},
	{ID: MetShare, Key: "gas.met", Unit: "%", Name: "The demand is met at this share of the charge", Of: byGas, Else: NotMet},
	{
		ID: MetBubbles, Key: "gas.met.bubbles", Name: "Bubbles until then", Of: byGas,
		Formula: "gas.met/100[%]*gas.made/1000[mmol/mol]*molar/gas.bubble",
	},
	{ID: AcidSaves, Key: "slurry.acid.saves", Unit: "mmol", Name: "Gas spent in place of dilute acid", Of: bySulfurDioxide},
	{ID: SlurrySplit, Key: "reduce.split", Unit: "%", Name: "Spent oxide that acid alone splits", For: "slurry.split"},
	{ID: RestGone, Key: "slurry.rest.gone", Unit: "%", Name: "Dithionate that the hot rest destroys", Of: bySulfurDioxide},
	{ID: RestFreed, Key: "slurry.rest.freed", Unit: "mmol", Name: "Gas that the hot rest sets free, for want of oxide", Of: bySulfurDioxide},
}

// reduce makes the slurry, lets the dilute acid work, leads the gas in, and
// books what passes by.
func (b *Runner) reduce(p *Plan) {
	book := &b.book
	water, acid := b.pours(p)
	b.pour(ledger.Slurry, water+acid*quantity.Millilitre(diluteWater))
	book.Bring(ledger.Slurry, SulfuricAcid, quantity.Mole(float64(acid)/1000))

	way := reducing(p)
	if way.stir != nil {
		way.stir.bring(b, p)
	}
	strong, first, rise := b.carry.acid.dilution(acid)
	b.set(SlurryWaterUsed, float64(water))
	b.set(SlurryAcidUsed, float64(acid))
	b.set(SlurryAcidStrong, float64(strong))
	b.set(SlurryAcidWater, float64(first))
	b.set(SlurryAcidRise, rise*p.HeatShare.Fraction())
	volume := float64(b.water(ledger.Slurry)) + float64(b.carry.slurrySolids)/solidDensity
	b.set(SlurryVolume, volume)

	// What no gas can reach stands aside until the end.
	apart := 1 - p.SlurryReach.Fraction()
	kept := &b.carry.kept
	for i, s := range oxides {
		kept[i] = b.has(ledger.Slurry, s) * quantity.Mole(apart)
	}

	b.acidOnZinc(ledger.Slurry)
	heat := b.split(p)
	arrives := float64(b.carry.made-b.carry.purge) * b.carry.uptake
	if way.stir != nil {
		heat += b.act(p, way)
		b.set(StirFroth, float64(b.carry.froth)*perfectLitre(p))
	} else {
		w := b.work()
		book.Move(ledger.Generator, ledger.Slurry, SulfurDioxide, quantity.Mole(arrives))
		heat += b.leadIn(w, arrives, p.SlurryBases.Fraction()).heat(w)
		b.endpoint(p, w)
	}
	b.rest(p)

	b.dissolveIron(p, ledger.Slurry)

	holds := quantity.Mole(gasSolubility(p.SlurryTemperature, p.AirPressure) / 100 / mass(SulfurDioxide) * float64(b.water(ledger.Slurry)))
	if over := b.has(ledger.Slurry, SulfurDioxide) - holds; over > 0 {
		book.Move(ledger.Slurry, ledger.Vent, SulfurDioxide, over)
	}
	if way.stir == nil {
		book.Move(ledger.Generator, ledger.Vent, SulfurDioxide, greater(0, lesser(b.has(ledger.Generator, SulfurDioxide), b.carry.made-quantity.Mole(arrives))))
	}
	b.carry.vented = b.has(ledger.Vent, SulfurDioxide)

	b.tell(broughtMn, float64(b.divalent()))
	b.set(ReduceHeat, heat*p.HeatShare.Fraction())
	if b.water(ledger.Slurry) <= aDrop {
		b.sheet.undefined(ReduceRise, NoWater)
	}
}

// rest leaves the slurry hot: dithionate breaks up, as the acid goes, and the oxide in
// reach takes the gas of it, the dioxide first. It goes by the first order, followed in
// sixteen steps with sums and products alone. Its heat, spread over hours, is not counted.
//
// The rate: RSC Adv. 10 (2020) 1430, abstract; that it goes with the acid is an estimate.
func (b *Runner) rest(p *Plan) {
	share := 0.0
	if water := b.water(ledger.Slurry); p.SlurryRest > 0 && water > aDrop {
		molar := float64(b.has(ledger.Slurry, SulfuricAcid)) * 1000 / float64(water)
		warm := at(table.DithionateDecay, p.RestWarm)
		step := 1 + p.RestDecay/100*molar*warm*p.SlurryRest/16
		fourth := step * step * step * step
		share = 1 - 1/(fourth*fourth*fourth*fourth)
	}
	b.set(RestGone, 100*share)
	gone := b.has(ledger.Slurry, ManganeseDithionate) * quantity.Mole(share)
	w := b.work()
	extents := w.extents()
	for i, e := range [...]*Equation{RestDioxide, RestManganite, RestHetaerolite, RestHausmannite} {
		gone -= b.react(ledger.Slurry, e, lesser(gone, quantity.Mole(extents[i])))
	}
	b.millimoles(RestFreed, b.react(ledger.Slurry, BoilDithionate, gone))
}

// pours is the water and the dilute acid that go to the cake.
func (b *Runner) pours(p *Plan) (water, acid quantity.Millilitre) {
	return orElse(p.SlurryWater, quantity.Millilitre(slurryToCake*float64(b.carry.slurrySolids))),
		orElse(p.SlurryAcid, quantity.Millilitre(float64(b.carry.demandAcid)*1000))
}

// slurryComes is the volume of the slurry before it is made, mL, where nothing is stirred in.
func (b *Runner) slurryComes(p *Plan) float64 {
	water, acid := b.pours(p)
	return float64(b.water(ledger.Slurry)+water+acid*quantity.Millilitre(diluteWater)) + float64(b.carry.slurrySolids)/solidDensity
}

// solidDensity counts the room that the cake's solids take, g/mL.
const solidDensity = 3.5

var solidConstants = []Constant{
	{"solidDensity", solidDensity, "g/mL", "density of the cake's solids", "estimate, between carbon, 2, and the oxide, 5 (CRC Handbook, Physical Constants of Inorganic Compounds)"},
}

// divalent is the manganese that the slurry holds in solution; the sulfite forms in
// the dish.
func (b *Runner) divalent() quantity.Mole {
	return b.has(ledger.Slurry, ManganeseSulfate) + b.has(ledger.Slurry, ManganeseDithionate) + b.has(ledger.Slurry, ManganeseBisulfite)
}

// splitAcid is the acid, of what splitting all Mn(III) takes, at which half of what ample
// acid splits is split: the last of the acid hardly works.
const splitAcid = 0.25

var splitConstants = []Constant{
	{"splitAcid", splitAcid, "", "acid at which half is split, of what all takes", "estimate: the more liquid and acid the faster (Gęga and Walkowiak, Physicochem. Probl. Miner. Process. 46 (2011) 155, abstract)"},
}

// split is what acid alone does to the Mn(III) that can be reached, as far as
// the acid goes. The heat, in kJ, is that of the whole reduction less that of the
// dioxide still to be reduced, so that splitting first changes nothing in the sum.
func (b *Runner) split(p *Plan) (heat float64) {
	w := b.work()
	all, have := quantity.Mole(w.acid), b.has(ledger.Slurry, SulfuricAcid)
	share := quantity.Mole(p.SlurrySplit.Fraction())
	if !quantity.Given(share) {
		share = 0
		if have > 0 {
			share = lesser(quantity.Mole(SplitAt(WarmthInput(p).Value(p)))*have/(have+splitAcid*all), have/all)
		}
	}
	b.set(SlurrySplit, 100*float64(share))
	if share*all == 0 {
		return 0
	}
	goes := float64(lesser(share, have/all))
	b.react(ledger.Slurry, SplitManganite, quantity.Mole(goes*w.manganite/2))
	b.react(ledger.Slurry, SplitHetaerolite, quantity.Mole(goes*w.hetaerolite))
	b.react(ledger.Slurry, SplitHausmannite, quantity.Mole(goes*w.hausmannite))
	return goes * (w.trivalentHeat() - (w.manganite/2+w.spinels())*heatDioxide)
}

// SplitAt is the share of the Mn(III) in reach, 0 to 1, that ample acid splits at a
// temperature, °C.
func SplitAt(celsius float64) float64 {
	return at(table.SplitShare, celsius)
}

// endpoint says when the oxide has what it can use.
func (b *Runner) endpoint(p *Plan, w work) {
	full := w.bill(p.SlurryBases.Fraction())
	if b.carry.demandGas > 0 {
		b.set(EndFirst, lesser(100, 100*w.gas/float64(b.carry.demandGas)))
	}
	made := float64(b.carry.made)
	met := full/b.carry.uptake + float64(b.carry.purge)
	switch {
	case full == 0:
		b.sheet.undefined(MetShare, NoGasNeeded)
	case made == 0:
		b.sheet.undefined(MetShare, NoGas)
	case met <= made*(1+1e-9):
		b.set(MetShare, 100*lesser(1, met/made))
	}
}
