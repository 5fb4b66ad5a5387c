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
			Key: "slurry.water", Name: "Water in the slurry", Unit: "mL", Standing: WorkedOut, Default: quantity.Blank, Min: 0, Max: 1e6,
			Blank: "6 mL to each gram of dry cake", Why: "Enough to stir; more is only more to evaporate.",
		},
		Stage:  Slurry,
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryWater) },
	},
	{
		Field: field.Field{
			Key: "slurry.acid", Name: "Dilute acid into it, 1 mol/L", Unit: "mL", Standing: WorkedOut, Default: quantity.Blank, Min: 0, Max: 1e6,
			Blank: "as much as needed", Why: "The spent part of the oxide needs acid beside the gas.",
		},
		Stage:  Slurry,
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryAcid) },
	},
	{
		Field: field.Field{
			Key: "slurry.temperature", Name: "Keep the slurry at", Unit: "°C", Default: 20, Min: 0, Max: 95,
			Why: "Cold water takes gas well, but ice-cold, up to three quarters of its reducing power goes to a side salt (dithionate).",
		},
		Stage:  Slurry,
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryTemperature) },
	},
	{
		Field: field.Field{
			Key: "slurry.vessel", Name: "The slurry stands in", Default: float64(ClosedVessel),
			Options: field.Words("open", "an open beaker", "closed", "a closed vessel with a scrubber"),
			Why:     "Only a closed vessel, with a second empty trap, can feed a scrubber.",
		},
		Stage:  Slurry,
		choice: func(p *Plan) *Choice { return &p.SlurryVessel },
	},
	{
		Field: field.Field{
			Key: "slurry.beaker", Name: "It holds", Unit: "mL", Default: 1000, Min: 10, Max: 50000,
			Why: "Two thirds full at most, for stirring; a third where it froths.",
		},
		Stage:  Slurry,
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryBeaker) },
	},
	{
		Field: field.Field{
			Key: "slurry.dithionate", Name: "Reducing power that ends as dithionate", Unit: "%", Standing: WorkedOut, Rare: true, Default: quantity.Blank, Low: 15, High: 75, Min: 0, Max: 100,
			Blank: "follows the slurry's temperature", Why: "Only the ends are known from print: 35 to 75 in ice, a few percent hot and acid.",
		},
		Stage:  Slurry,
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryDithionate) },
	},
	{
		Field: field.Field{
			Key: "slurry.split", Name: "Spent oxide that acid alone splits", Unit: "%", Standing: Estimated, Rare: true, Default: 60, Low: 30, High: 100, Min: 0, Max: 100,
			Why: "Dilute acid dissolves half of the Mn(III) before any gas comes.",
		},
		Stage:  Slurry,
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurrySplit) },
	},
	{
		Field: field.Field{
			Key: "slurry.bases", Name: "Zinc and ammonia that take gas before the oxide", Unit: "%", Standing: Estimated, Rare: true, Default: 50, Low: 0, High: 100, Min: 0, Max: 100,
			Why: "Counts only where dilute acid is short: 0 when oxide and bases share the gas, 100 when the bases have theirs first.",
		},
		Stage:  Slurry,
		Late:   3,
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryBases) },
	},
	{
		Field: field.Field{
			Key: "slurry.reach", Name: "Oxide that can be reached at all", Unit: "%", Standing: Estimated, Rare: true, Default: 95, Low: 80, High: 100, Min: 0, Max: 100,
			Why: "Grains closed in carbon stay behind, however much gas comes.",
		},
		Stage:  Slurry,
		number: func(p *Plan) *float64 { return (*float64)(&p.SlurryReach) },
	},
}

const slurryToCake = 6.0 // mL to a gram of dry cake

var _ = constant("slurryToCake", slurryToCake, "mL/g", "water in the slurry, to dry cake", "common practice, thin enough to stir")

// Heats of reaction, kJ, from the formation heats in table.FormationHeat (CRC
// Handbook, "Standard Thermodynamic Properties of Chemical Substances"). MnOOH
// is counted as half an Mn2O3, with the acid as H+.
var (
	heatDioxide   = formationHeat("MnO2") + formationHeat("SO2") - formationHeat("Mn^2+") - formationHeat("SO4^2-")
	heatTrivalent = (formationHeat("Mn2O3") + formationHeat("SO2") - 2*formationHeat("Mn^2+") - formationHeat("SO4^2-") - formationHeat("H2O")) / 2
)

func formationHeat(formula string) float64 {
	h, err := table.FormationHeat(formula)
	if err != nil {
		panic(err) // a formula of this package's that the table lacks
	}
	return h
}

// iceHeat is the heat that melts a gram of ice, kJ.
const iceHeat = 0.334

var _ = constant("iceHeat", iceHeat, "kJ/g", "heat that melts ice", "6.01 kJ/mol: CRC Handbook, Enthalpy of Fusion")

// Figures of the slurry.
var (
	SlurryWaterUsed = figure(Slurry, "slurry.water.used", "mL", "Water in the slurry")
	// SlurryAcidUsed is the 1 mol/L acid that goes in; the next two make it from
	// the strong acid.
	SlurryAcidUsed   = figure(Slurry, "slurry.acid.used", "mL", "Dilute acid into it, 1 mol/L")
	SlurryAcidStrong = figure(Slurry, "slurry.acid.strong", "mL", "Concentrated acid for the dilute acid")
	SlurryAcidWater  = figure(Slurry, "slurry.acid.water", "mL", "Water for the dilute acid, poured first")
	SlurryAcidRise   = figure(Slurry, "slurry.acid.rise", "K", "The dilute acid warms by")
	SlurryVolume     = figure(Slurry, "slurry.volume", "mL", "Slurry in all")
	SlurryBatches    = figure(Slurry, "slurry.batches", "", "Equal batches that the vessel asks for")
	// UptakeTaken is what reacted and what is still dissolved at the end;
	// VentGas is all other gas made, the purge with it.
	UptakeTaken     = figure(Slurry, "uptake.taken", "mmol", "Gas taken up")
	UptakeDissolved = figure(Slurry, "uptake.dissolved", "mmol", "Gas still dissolved at the end")
	VentGas         = figure(Slurry, "vent.gas", "mmol", "Gas not taken up")
	VentVolume      = figure(Slurry, "vent.volume", "L", "Gas not taken up, at room temperature and pressure")
	// ReduceConversion is the manganese brought to +2, of all in the batch as
	// weighed out: what was lost on the way to the slurry counts against it.
	ReduceConversion = figure(Slurry, "reduce.conversion", "%", "Manganese brought into solution")
	ReduceLeft       = figure(Slurry, "reduce.left", "g", "Oxide left")
	ReduceHeat       = figure(Slurry, "reduce.heat", "kJ", "Heat given off")
	ReduceRise       = figure(Slurry, "reduce.rise", "K", "Warming if it were not cooled")
	ReduceIce        = figure(Slurry, "reduce.ice", "g", "Ice that takes up the heat")
	// SuckBack is the most liquid that can be drawn back: the slurry of one batch, or the gas
	// room of generator and tube if that is less.
	SuckBack = figure(Slurry, "slurry.suckback", "mL", "Liquid that could be drawn back")
	// EndFirst is the share of the demand at which all oxide that can be reached is
	// used up: from there on gas stays dissolved and the paper must bleach. Where
	// gas passes by, it may bleach from the first bubble on.
	EndFirst = figure(Slurry, "end.first", "%", "The paper may bleach any time, at the latest at this share of the demand")
	// MetShare is the share of the charge at which the oxide has what it can use;
	// then the flame may go.
	MetShare   = figure(Slurry, "gas.met", "%", "The demand is met at this share of the charge")
	MetMinute  = figure(Slurry, "gas.met.minute", "min", "The demand is met after")
	MetBubbles = figure(Slurry, "gas.met.bubbles", "", "Bubbles until then")
	// AcidSaves is the gas that full dilute acid would save.
	AcidSaves = figure(Slurry, "slurry.acid.saves", "mmol", "Gas spent in place of dilute acid")
)

// reduce makes the slurry, lets the dilute acid work, leads the gas in, and
// books what passes by.
func (b *Bench) reduce(p *Plan) {
	book := &b.book
	water := orElse(p.SlurryWater, quantity.Millilitre(slurryToCake*float64(b.carry.slurrySolids)))
	acid := quantity.Millilitre(float64(b.carry.demandAcid) * 1000)
	acid = orElse(p.SlurryAcid, acid)
	b.pour(ledger.Slurry, water+acid*quantity.Millilitre(diluteWater))
	book.Bring(ledger.Slurry, SulfuricAcid, quantity.Mole(float64(acid)/1000))

	stir := reductants[p.GasSource].stir
	if stir != nil {
		stir.bring(b, p, b.carry.stirred)
	}
	strong, first, rise := b.carry.acid.dilution(acid)
	b.set(SlurryWaterUsed, float64(water))
	b.set(SlurryAcidUsed, float64(acid))
	b.set(SlurryAcidStrong, float64(strong))
	b.set(SlurryAcidWater, float64(first))
	b.set(SlurryAcidRise, rise)
	volume := float64(b.water(ledger.Slurry)) + float64(b.carry.slurrySolids)/solidDensity
	b.set(SlurryVolume, volume)
	b.set(SlurryBatches, cuts(roomOfSlurry(p)*volume, p.SlurryBeaker))

	// What no gas can reach stands aside until the end.
	apart := 1 - p.SlurryReach.Fraction()
	oxides := [...]Substance{ManganeseDioxide, Manganite, Hetaerolite}
	kept := &b.carry.kept
	for i, s := range oxides {
		kept[i] = b.has(ledger.Slurry, s) * quantity.Mole(apart)
	}

	b.acidOnZinc(ledger.Slurry)
	heat := b.split(p.SlurrySplit.Fraction(), kept[1], kept[2])
	arrives := float64(b.carry.made-b.carry.purge) * p.GasUptake.Fraction()
	if stir != nil {
		heat += stir.act(b, p)
		b.sheet.undefined(StirredIn, SuckBack, EndFirst, MetShare, MetMinute, MetBubbles)
		b.set(StirFroth, float64(b.carry.froth)*perfectLitre(p))
	} else {
		w := b.work()
		book.Move(ledger.Generator, ledger.Slurry, SulfurDioxide, quantity.Mole(arrives))
		heat += b.leadIn(w, arrives, p.SlurryBases.Fraction()).heat(w)
		b.endpoint(p, w)
		b.set(SuckBack, lesser(volume/Runs(p), b.carry.headspace+float64(p.GasTube)))
	}
	b.otherReductants(p)

	holds := quantity.Mole(gasSolubility(p.SlurryTemperature, p.AirPressure) / 100 / mass(SulfurDioxide) * float64(b.water(ledger.Slurry)))
	if over := b.has(ledger.Slurry, SulfurDioxide) - holds; over > 0 {
		book.Move(ledger.Slurry, ledger.Vent, SulfurDioxide, over)
	}
	if stir == nil {
		book.Move(ledger.Generator, ledger.Vent, SulfurDioxide, greater(0, lesser(b.has(ledger.Generator, SulfurDioxide), b.carry.made-quantity.Mole(arrives))))
	}
	b.carry.vented = b.has(ledger.Vent, SulfurDioxide)

	b.millimoles(VentGas, b.carry.vented)
	b.set(VentVolume, float64(b.carry.vented)*b.carry.molarVolume/1000)
	b.millimoles(UptakeTaken, greater(0, b.carry.made-b.carry.vented))
	b.millimoles(UptakeDissolved, b.has(ledger.Slurry, SulfurDioxide))
	b.millimoles(SlurrySulfite, 2*(b.has(ledger.Slurry, ManganeseBisulfite)+b.has(ledger.Slurry, ZincBisulfite))+
		b.has(ledger.Slurry, AmmoniumBisulfite)+b.has(ledger.Slurry, PotassiumBisulfite))
	if stir != nil && !stir.sulfurous {
		b.sheet.undefined(NoSulfurDioxide, VentGas, VentVolume, UptakeTaken, UptakeDissolved, AcidSaves, SlurrySulfite)
	}
	left := b.book.Mass(ledger.Slurry, ManganeseDioxide) + b.book.Mass(ledger.Slurry, Manganite) + b.book.Mass(ledger.Slurry, Hetaerolite)
	b.grams(ReduceLeft, left)
	if b.carry.manganese > 0 {
		b.set(ReduceConversion, 100*float64(b.divalent()/b.carry.manganese))
	} else {
		b.sheet.undefined(NoCells, ReduceConversion)
	}
	b.set(ReduceHeat, heat)
	b.set(ReduceIce, heat/iceHeat)
	if p.GasSource == ByOxalic {
		b.sheet.undefined(KeptWarm, ReduceIce)
	}
	if g := float64(b.water(ledger.Slurry)); g > aDrop {
		b.set(ReduceRise, heat*1000/(g*waterHeat))
	} else {
		b.sheet.undefined(NoWater, ReduceRise)
	}
}

// solidDensity counts the room that the cake's solids take, g/mL.
const solidDensity = 3.5

var _ = constant("solidDensity", solidDensity, "g/mL", "density of the cake's solids",
	"estimate, between carbon, 2, and the oxide, 5 (CRC Handbook, Physical Constants of Inorganic Compounds)")

// divalent is the manganese that the slurry holds in solution; the sulfite forms in
// the dish.
func (b *Bench) divalent() quantity.Mole {
	return b.has(ledger.Slurry, ManganeseSulfate) + b.has(ledger.Slurry, ManganeseDithionate) + b.has(ledger.Slurry, ManganeseBisulfite)
}

// split is what acid alone does to the Mn(III) that can be reached, as far as
// the acid goes. The heat, in kJ, is that of the whole reduction less that of the
// dioxide still to be reduced, so that splitting first changes nothing in the sum.
func (b *Bench) split(share float64, keptManganite, keptHetaerolite quantity.Mole) (heat float64) {
	reach := func(s Substance, kept quantity.Mole) quantity.Mole {
		return greater(0, b.has(ledger.Slurry, s)-kept) * quantity.Mole(share)
	}
	manganite, hetaerolite := reach(Manganite, keptManganite), reach(Hetaerolite, keptHetaerolite)
	wants := manganite/2 + 2*hetaerolite
	if wants == 0 {
		return 0
	}
	goes := lesser(1, b.has(ledger.Slurry, SulfuricAcid)/wants)
	formed := b.react(ledger.Slurry, SplitManganite, goes*manganite/2)
	formed += b.react(ledger.Slurry, SplitHetaerolite, goes*hetaerolite)
	return float64(formed) * (2*heatTrivalent - heatDioxide)
}

// endpoint says when the oxide has what it can use.
func (b *Bench) endpoint(p *Plan, w work) {
	full := w.bill(p.SlurryBases.Fraction())
	if b.carry.demandGas > 0 {
		b.set(EndFirst, lesser(100, 100*w.gas/float64(b.carry.demandGas)))
	} else {
		b.sheet.undefined(NoGasNeeded, EndFirst)
	}
	made := float64(b.carry.made)
	met := full/p.GasUptake.Fraction() + float64(b.carry.purge)
	switch {
	case full == 0:
		b.sheet.undefined(NoGasNeeded, MetShare, MetMinute, MetBubbles)
	case made == 0:
		b.sheet.undefined(NoGas, MetShare, MetMinute, MetBubbles)
	case met > made*(1+1e-9):
		b.sheet.undefined(NotMet, MetShare, MetMinute, MetBubbles)
	default:
		share := lesser(1, met/made)
		b.set(MetShare, 100*share)
		b.set(MetMinute, share*float64(p.GasMinutes))
		b.set(MetBubbles, share*made*b.carry.molarVolume/float64(p.GasBubble))
	}
}
