package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

var dryInputs = []Input{
	{
		Field: field.Field{
			Key: "dry.way", Name: "The filtrate is", Default: 0,
			Options: field.Words("dry", "boiled down and dried", "crystals", "boiled down and left to crystallise"),
			Why:     "Crystals are cleaner and fewer; most of what is dissolved beside them stays in the mother liquor.",
		},
		choice: func(p *Plan) *Choice { return &p.DryWay },
	},
	{
		Field: field.Field{
			Key: "dry.temperature", Name: "Dried at", Unit: "°C", Default: 120, Min: 0, Max: 650,
			Why:    "The temperature decides how much water stays in the salt. “Dry” on a water bath is not anhydrous.",
			Remedy: "Above 650 °C the sulfate itself breaks up.",
		},
		means:  driedDown,
		number: func(p *Plan) *float64 { return (*float64)(&p.DryTemperature) },
	},
	{
		Field: field.Field{
			Key: "dry.rate", Name: "The dish evaporates", Unit: "mL/h", Standing: Estimated, Default: 76, Low: 30, High: 150, Min: 0.5, Max: 5000,
			Why: "Weigh the dish, wait a quarter of an hour, weigh again: four times the loss. A 10 cm dish at 90 °C loses about 76.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.DryRate) },
	},
	{
		Field: field.Field{
			Key: "dry.dish", Name: "The dish holds", Unit: "mL", Rare: true, Default: quantity.Blank, Min: 5, Max: 50000,
			Blank: "as large as it takes", Why: "It is topped up as it boils down, two thirds full at most, but must hold the salt and its last liquor.",
		},
		DrawGroup: 2,
		number:    func(p *Plan) *float64 { return (*float64)(&p.DryDish) },
	},
	{
		Field: field.Field{
			Key: "crop.vessel", Name: "The crystallising vessel holds", Unit: "mL", Rare: true, Default: quantity.Blank, Min: 5, Max: 50000,
			Blank: "as large as it takes", Why: "For the blue salt, and for the pink one where it crystallises; half full at most.",
		},
		DrawGroup: 2,
		number:    func(p *Plan) *float64 { return (*float64)(&p.CropVessel) },
	},
	{
		Field: field.Field{
			Key: "dry.dithionate", Name: "Dithionate that outlives the boiling", Unit: "%", Standing: Estimated, Rare: true, Default: 40, Low: 5, High: 90, Min: 0, Max: 100,
			Why: "Hot and acid it breaks up to sulfate and gas; how far is not published.",
		},
		Of:     bySulfurDioxide,
		number: func(p *Plan) *float64 { return (*float64)(&p.DryDithionate) },
	},
	{
		Field: field.Field{
			Key: "crop.water", Name: "Boiled down until this much water is left", Unit: "mL", Standing: WorkedOut, Rare: true, Min: 0, Max: 1e6,
			Blank: "1 mL to each gram of anhydrous salt", Why: "When crystallising. Below 0.6 mL to the gram, or more with much zinc in it, it sets solid. Type it anew with another share.",
		},
		Of:     isCrystallised,
		number: func(p *Plan) *float64 { return (*float64)(&p.CropWater) },
	},
	{
		Field: field.Field{
			Key: "crop.held", Name: "Mother liquor held by the drained crystals", Unit: "mL/g", Standing: Estimated, Rare: true, Default: 0.1, Low: 0.05, High: 0.3, Min: 0, Max: 2,
			Why: "When crystallising, and in the table of what comes with the salt. What is in it dries on the crystals.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.CropHeld) },
	},
	{
		Field: field.Field{
			Key: "crop.taken", Name: "Zinc and ammonium that grow into the crystals", Unit: "%", Standing: Estimated, Rare: true, Default: 50, Low: 10, High: 100, Min: 0, Max: 100,
			Why: "When crystallising, and in the table of what comes with the salt. 100 % is the share of them that manganese has of its own. Their sulfates form mixed crystals and double salts with it, from memory; how far, no print at hand says.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.CropTaken) },
	},
	{
		Field: field.Field{
			Key: "crop.cold", Name: "Crystals grown and drained at", Unit: "°C", Rare: true, Default: 15, Min: 0, Max: 100,
			Why: "When crystallising, and in the table of what comes with the salt. Above 25 °C it comes as monohydrate, and from 30 °C on dissolves the less the hotter it is.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.CropCold) },
	},
}

const cropWaterToSalt = 1.0 // mL to a gram of anhydrous salt

var cropConstants = []Constant{
	{"cropWaterToSalt", cropWaterToSalt, "mL/g", "water left, to anhydrous salt", "common practice, a thick but moving crop"},
}

// The temperatures, °C, that decide which solid manganese sulfate is.
const (
	// heptahydrateEnds: 7 to 5 water in contact with liquor.
	heptahydrateEnds = 9
	// pentahydrateEnds: 5 to 1 water in contact with liquor. The tetrahydrate is
	// metastable throughout (Khimicheskaya entsiklopediya, manganese sulfate: it falls at
	// 26 to 27 °C) and is not what an evaporated liquor leaves.
	pentahydrateEnds = 25
	// crustDries: below it a monohydrate crust keeps liquor in its pores.
	crustDries = 110
	// monohydrateEnds and anhydrousFrom: the last water leaves between them.
	monohydrateEnds = 200
	anhydrousFrom   = 400
	// dithionateEnds: dithionates break up dry at 258 °C (that of the potassium salt,
	// from a school encyclopaedia of chemistry).
	dithionateEnds = 258
	// ammoniumChlorideEnds: it leaves as fume from 338 °C (ICSC 1051).
	ammoniumChlorideEnds = 338
	// acidEnds: sulfuric acid boils at 337 °C (CRC Handbook, Physical Constants of
	// Inorganic Compounds).
	acidEnds = 337
	// ammoniumSulfateEnds: it is gone at 450 °C (common practice in assays).
	ammoniumSulfateEnds = 450
	// zincHeptahydrateEnds: zinc sulfate drops from 7 water at 39 °C, to 6, and to 1 at
	// 60 (a maker's page of 2017).
	zincHeptahydrateEnds = 39
	// decahydrateEnds: sodium sulfate drops its ten water at 32.4 °C (a maker's page; its
	// melting point in Hawley's and Merck's dictionaries, quoted, is 33).
	decahydrateEnds = 32.4
)

var hydrateConstants = []Constant{
	{"heptahydrateEnds", heptahydrateEnds, "°C", "heptahydrate gives way to pentahydrate", "stable below 9 °C by a Russian chemical encyclopaedia, below 8.6 °C by Khimicheskaya entsiklopediya, manganese sulfate; both read in transcriptions"},
	{"pentahydrateEnds", pentahydrateEnds, "°C", "pentahydrate gives way to monohydrate", "pentahydrate stable from 9 to 25 °C by a Russian chemical encyclopaedia, read in a transcription; 27 °C, as commonly tabulated, is the metastable tetrahydrate's"},
	{"crustDries", crustDries, "°C", "the crust dries through", "common practice: oven at 105 to 120 °C to constant mass"},
	{"monohydrateEnds", monohydrateEnds, "°C", "monohydrate begins to lose its water", "Su et al., CIESC J. 59 (2008) 359"},
	{"anhydrousFrom", anhydrousFrom, "°C", "the last water is gone", "Su et al., CIESC J. 59 (2008) 359"},
}

// Form is which solid the product is.
const (
	heptahydrate = iota
	pentahydrate
	monohydrateDamp
	monohydrate
	betweenForms
	anhydrous
)

// Figures of evaporating and drying, in the order of the page.
const (
	// ProductMass is what the balance will show: as dried, companions included.
	ProductMass FigureID = endOfFilter + iota
	ProductForm
	// ProductYield is the recovered manganese of that in the batch as weighed out.
	ProductYield
	// ProductPurity is the share of the jar that is manganese sulfate in the form
	// dried to.
	ProductPurity
	DryWater
	DryHours
	DryGasVolume
	// ProductAnhydrous and its hydrates are all recovered manganese written as that
	// pure salt, whatever it was dried to.
	ProductAnhydrous
	ProductMono
	ProductTetra
	ProductPenta
	ProductWaters
	ProductZinc
	ProductAmmonium
	ProductChloride
	ProductDithionate
	ProductSulfite
	ProductAcid
	// ProductSodium comes of metabisulfite in the slurry, ProductPotassium of the lye
	// of alkaline cells, ProductOxalate of oxalic acid.
	ProductSodium
	ProductPotassium
	ProductOxalate
	ProductIron
	DryEnergy
	// DryGas is the SO2 that comes off the dish: what was dissolved, and what
	// dithionate and hydrogensulfite give up on boiling.
	DryGas
	DryFumes
	CropWaterUsed
	// CropLeft is the manganese that stays in the mother liquor when the salt is
	// crystallised instead of dried down.
	CropLeft

	endOfDry
)

var dryFigures = []Figure{
	{ID: ProductMass, Key: "product.mass", Unit: "g", Name: "Manganese sulfate in the jar", Main: true},
	{ID: ProductForm, Key: "product.form", Name: "The salt in the jar is", Main: true, Words: []string{"the heptahydrate, MnSO₄·7H₂O", "the pentahydrate, MnSO₄·5H₂O", "the monohydrate, MnSO₄·H₂O, with liquor in its pores", "the monohydrate, MnSO₄·H₂O", "between monohydrate and anhydrous", "anhydrous, MnSO₄"}},
	{
		ID: ProductYield, Key: "product.yield", Unit: "%", Name: "Yield on the manganese in this run", Main: true, Of: hasCells,
		Formula: "100[%]*jar.Mn/(batch.manganese/1000[mmol/mol])",
	},
	{
		ID: ProductPurity, Key: "product.purity", Unit: "%", Name: "Manganese sulfate in what is weighed", Main: true,
		Formula: "100[%]*min(1, n(jar, MnSO4)*(M(MnSO4) + product.water*M(H2O))/product.mass)", Else: NoProduct,
	},
	{ID: DryWater, Key: "dry.water", Unit: "mL", Name: "Water to boil off", Main: true},
	{
		ID: DryHours, Key: "dry.hours", Unit: "h", Name: "Boiling off takes", Main: true,
		Formula: "dry.water/dry.rate",
	},
	{
		ID: DryGasVolume, Key: "dry.gas.volume", Unit: "L", Name: "Sulfur dioxide off the dish", Main: true,
		Formula: "dry.gas/1000[mmol/mol]*molar/1000[mL/L]",
	},
	{
		ID: ProductAnhydrous, Key: "product.anhydrous", Unit: "g", Name: "Recovered manganese, as anhydrous sulfate",
		Formula: "jar.Mn*M(MnSO4)",
	},
	{
		ID: ProductMono, Key: "product.mono", Unit: "g", Name: "Recovered manganese, as monohydrate",
		Formula: "jar.Mn*(M(MnSO4) + M(H2O))",
	},
	{
		ID: ProductTetra, Key: "product.tetra", Unit: "g", Name: "Recovered manganese, as tetrahydrate",
		Formula: "jar.Mn*(M(MnSO4) + 4*M(H2O))",
	},
	{
		ID: ProductPenta, Key: "product.penta", Unit: "g", Name: "Recovered manganese, as pentahydrate",
		Formula: "jar.Mn*(M(MnSO4) + 5*M(H2O))",
	},
	{ID: ProductWaters, Key: "product.water", Name: "Water to one manganese sulfate"},
	{
		ID: ProductZinc, Key: "product.zinc", Unit: "g", Name: "Zinc sulfate and chloride in the jar",
		Formula: "n(jar, ZnSO4)*M(ZnSO4) + n(jar, ZnCl2)*M(ZnCl2)",
	},
	{
		ID: ProductAmmonium, Key: "product.ammonium", Unit: "g", Name: "Ammonium salts in the jar",
		Formula: "n(jar, (NH4)2SO4)*M((NH4)2SO4) + n(jar, NH4Cl)*M(NH4Cl)",
	},
	{
		ID: ProductChloride, Key: "product.chloride", Unit: "g", Name: "Chloride in the jar, as the ion",
		Formula: "(n(jar, NH4Cl) + 2*n(jar, ZnCl2))*M(Cl)",
	},
	{
		ID: ProductDithionate, Key: "product.dithionate", Unit: "g", Name: "Dithionate in the jar",
		Formula: "n(jar, MnS2O6)*M(MnS2O6)",
	},
	{
		ID: ProductSulfite, Key: "product.sulfite", Unit: "g", Name: "Sulfites in the jar",
		Formula: "n(jar, MnSO3)*M(MnSO3) + n(jar, ZnSO3)*M(ZnSO3) + n(jar, Na2S2O5)*M(Na2S2O5)",
	},
	{
		ID: ProductAcid, Key: "product.acid", Unit: "g", Name: "Free acid in the jar, keeps it sticky",
		Formula: "n(jar, H2SO4)*M(H2SO4)",
	},
	{
		ID: ProductSodium, Key: "product.sodium", Unit: "g", Name: "Sodium sulfate in the jar",
		Formula: "n(jar, Na2SO4)*M(Na2SO4)",
	},
	{
		ID: ProductPotassium, Key: "product.potassium", Unit: "g", Name: "Potassium salts in the jar",
		Formula: "n(jar, K2SO4)*M(K2SO4) + n(jar, KHSO3)*M(KHSO3) + n(jar, KOH)*M(KOH)",
	},
	{
		ID: ProductOxalate, Key: "product.oxalate", Unit: "g", Name: "Oxalates in the jar",
		Formula: "n(jar, MnC2O4)*M(MnC2O4) + n(jar, ZnC2O4)*M(ZnC2O4) + n(jar, H2C2O4)*M(H2C2O4)",
	},
	{
		ID: ProductIron, Key: "product.iron", Unit: "g", Name: "Iron sulfates in the jar",
		Formula: "n(jar, FeSO4)*M(FeSO4) + n(jar, Fe2(SO4)3)*M(Fe2(SO4)3)",
	},
	{
		ID: DryEnergy, Key: "dry.energy", Unit: "kJ", Name: "Heat to boil it off",
		Formula: "dry.water*liquor*(steamHeat + waterHeat*(100[°C] - air.temperature)/1000[J/kJ])",
	},
	{ID: DryGas, Key: "dry.gas", Unit: "mmol", Name: "Sulfur dioxide off the dish, by amount"},
	{
		ID: DryFumes, Key: "dry.hydrochloric", Unit: "mmol", Name: "Hydrogen chloride that comes off when dried",
		Formula: "n(fumes, HCl)*1000[mmol/mol]",
	},
	{ID: CropWaterUsed, Key: "crop.water.used", Unit: "mL", Name: "Water left when boiled down", For: "crop.water", Poured: true, Of: isCrystallised},
	{ID: CropLeft, Key: "crop.liquor.manganese", Unit: "mmol", Name: "Manganese left in the mother liquor", Of: isCrystallised},
}

// waters is how many water a manganese sulfate holds when dried at t, and which
// solid that is. Between 200 and 400 °C it is only known to fall from one to
// none; the straight line between is an estimate.
func waters(t quantity.Celsius) (n float64, form int) {
	switch {
	case t < heptahydrateEnds:
		return 7, heptahydrate
	case t < pentahydrateEnds:
		return 5, pentahydrate
	case t < crustDries:
		return 1, monohydrateDamp
	case t <= monohydrateEnds:
		return 1, monohydrate
	case t < anhydrousFrom:
		return float64(anhydrousFrom-t) / (anhydrousFrom - monohydrateEnds), betweenForms
	}
	return 0, anhydrous
}

// turns are the temperatures at which the solid in the jar becomes another, or a companion
// leaves, so that its mass steps.
var turns = [...]quantity.Celsius{
	heptahydrateEnds, pentahydrateEnds, decahydrateEnds, zincHeptahydrateEnds,
	dithionateEnds, acidEnds, ammoniumChlorideEnds, ammoniumSulfateEnds,
}

// How far the salt may be from what the thermometer says, K: in an oven or a dish, and in a
// vessel that stands (estimates).
const (
	dryWithin  = 5
	cropWithin = 2
)

// TransitionNear is the temperature at which the solid turns that is so near to one of the plan's,
// dry.temperature or crop.cold, that it may be either side of it, and the interval of the
// salt's own: between 200 and 400 °C, where the water leaves little by little, all of that.
// Not ok where none is near.
func TransitionNear(p *Plan, key string) (at, low, high quantity.Celsius, ok bool) {
	t, within := p.DryTemperature, quantity.Celsius(dryWithin)
	switch {
	case key == "crop.cold":
		if t, within = p.CropCold, cropWithin; p.DryWay != ToCrystals {
			return 0, 0, 0, false
		}
	case key != "dry.temperature":
		return 0, 0, 0, false
	case t > monohydrateEnds && t < anhydrousFrom:
		return t, monohydrateEnds, anhydrousFrom, true
	}
	for _, turn := range turns {
		if t > turn-within && t < turn+within {
			return turn, t - within, t + within, true
		}
	}
	return 0, 0, 0, false
}

// zincWaters is the same for zinc sulfate, whose last water goes where
// manganese sulfate's does, near enough for a companion.
func zincWaters(t quantity.Celsius) float64 {
	if t < zincHeptahydrateEnds {
		return 7
	}
	n, _ := waters(t)
	return n
}

// hydration is the water that solids bind, in mol to a mole, and which solid the
// manganese sulfate is.
type hydration struct {
	manganese, zinc, sodium float64
	form                    int
}

// hydrationAt is that of a temperature. In crystals that grew together the zinc takes as
// much as the manganese.
func hydrationAt(t quantity.Celsius, grown bool) hydration {
	n, form := waters(t)
	h := hydration{manganese: n, zinc: zincWaters(t), form: form}
	if grown {
		h.zinc = n
	}
	if t < decahydrateEnds {
		h.sodium = 10
	}
	return h
}

// hydrationOf is that of the temperature at which the plan dries or crystallises.
func hydrationOf(p *Plan) hydration {
	if p.DryWay == ToCrystals {
		return hydrationAt(p.CropCold, true)
	}
	return hydrationAt(p.DryTemperature, false)
}

// BoundWater is the water that manganese (and iron(II)), zinc and sodium sulfate bind at the
// temperature at which the plan dries or crystallises, mol to a mole.
func BoundWater(p *Plan) (manganese, zinc, sodium float64) {
	h := hydrationOf(p)
	return h.manganese, h.zinc, h.sodium
}

// binds is the water that what stands in a vessel binds when it dries, mol.
func (b *Runner) binds(v ledger.Vessel, h hydration) quantity.Mole {
	return quantity.Mole(h.manganese)*(b.has(v, ManganeseSulfate)+b.has(v, FerrousSulfate)) + quantity.Mole(h.zinc)*b.has(v, ZincSulfate) +
		quantity.Mole(h.sodium)*b.has(v, SodiumSulfate)
}

// keeps is the water that what stands in a vessel keeps when it dries, mol, and whether that
// is less than it binds.
func (b *Runner) keeps(v ledger.Vessel, h hydration) (water quantity.Mole, short bool) {
	has, binds := b.has(v, Water), b.binds(v, h)
	return lesser(binds, has), has < binds*(1-speck)
}

// dust is the amount in the jar, in mol of water and in g of all, below which it is the last
// digits of the ledger.
const dust = 1e-9

// dishSolids are what falls out of the dish while it boils and does not dissolve again.
var dishSolids = ledger.SetOf(ManganeseSulfite, ZincSulfite, ManganeseOxalate, ZincOxalate)

// dry boils the filtrate down, dries it or lets it crystallise, and fills the
// jar.
func (b *Runner) dry(p *Plan) {
	b.boil(p)
	water := b.water(ledger.Dish)
	h, short := hydrationOf(p), false
	if p.DryWay == ToCrystals {
		short = b.grow(p, h)
	} else {
		short = b.bake(p, h)
	}
	gas := b.has(ledger.Vent, SulfurDioxide) - b.carry.vented // what was boiled off for the iron is of the dish too
	b.millimoles(DryGas, gas)
	off := greater(0, float64(water-b.water(ledger.ProductJar)-b.water(ledger.MotherLiquor)))
	b.set(DryWater, off)
	if binds := b.binds(ledger.ProductJar, h); short && binds > dust { // the solids share what there is
		h.manganese *= float64(lesser(1, b.has(ledger.ProductJar, Water)/binds))
	}
	b.jar(h)
}

// steamHeat is the heat that turns a gram of boiling water to steam, kJ.
const steamHeat = 2.257

var steamConstants = []Constant{
	{"steamHeat", steamHeat, "kJ/g", "heat that boils water off", "steam tables, 2257 kJ/kg at 100 °C"},
}

// boil drives the gas off the dish.
func (b *Runner) boil(p *Plan) {
	left := p.DryDithionate.Fraction()
	if driedDown(p) && p.DryTemperature >= dithionateEnds {
		left = 0
	}
	b.react(ledger.Dish, BoilDithionate, b.has(ledger.Dish, ManganeseDithionate)*quantity.Mole(1-left))
	b.react(ledger.Dish, OxalateFalls, unlimited)
	b.react(ledger.Dish, BoilManganese, unlimited)
	b.react(ledger.Dish, BoilZinc, unlimited)
	b.react(ledger.Dish, BoilAmmonium, unlimited)
	for _, gas := range [...]Substance{SulfurDioxide, Ammonia} {
		b.book.MoveShare(ledger.Dish, ledger.Vent, gas, 1)
	}
}

// bake dries the dish at the chosen temperature. Short is whether there is
// less water than the solids bind.
func (b *Runner) bake(p *Plan, h hydration) (short bool) {
	t := p.DryTemperature
	if t >= crustDries {
		b.react(ledger.Dish, AcidOnZincChloride, unlimited)
		b.react(ledger.Dish, AcidOnAmmoniumChloride, unlimited)
		b.book.MoveShare(ledger.Dish, ledger.Vent, HydrogenChloride, 1)
	}
	for _, gone := range [...]struct {
		from quantity.Celsius
		what Substance
	}{{ammoniumChlorideEnds, AmmoniumChloride}, {acidEnds, SulfuricAcid}, {ammoniumSulfateEnds, AmmoniumSulfate}} {
		if t >= gone.from {
			b.book.MoveShare(ledger.Dish, ledger.Vent, gone.what, 1)
		}
	}
	kept, short := b.keeps(ledger.Dish, h)
	b.book.Move(ledger.Dish, ledger.Vent, Water, b.has(ledger.Dish, Water)-kept)
	b.book.MoveAll(ledger.Dish, ledger.Losses, p.LossTransfer.Fraction())
	b.book.MoveAll(ledger.Dish, ledger.ProductJar, 1)
	return short
}

// crop is how many moles of a hydrate with n water form from so much anhydrous
// salt in so many moles of water, when the liquor left holds s grams to 100 g of
// water: salt - c = s/100 (water - n c), in moles. Never more than there is salt
// or water for: all of that where crystals take so much water that the liquor left only
// holds the less.
func crop(salt, water, n, s float64, formula Substance) float64 {
	k := s / 100 * mass(Water) / mass(formula) // mol of salt that a mole of water holds
	c := 0.0
	switch over := salt - k*water; {
	case over <= 0:
	case k*n < 1:
		c = lesser(over/(1-k*n), salt)
	default:
		c = salt
	}
	if n > 0 {
		c = lesser(c, water/n)
	}
	return c
}

// grow boils the dish down and lets the salt crystallise. Zinc, iron(II) and ammonium go
// into the crystals to a part of their even share, as sulfates, the metals with as much
// water as the manganese. What fell out while it boiled stays with the crystals; everything else is
// taken to stay in the mother liquor. Short is whether there is less water than the
// solids bind.
func (b *Runner) grow(p *Plan, h hydration) (short bool) {
	salt := b.has(ledger.Dish, ManganeseSulfate)
	left := orElse(p.CropWater, quantity.Millilitre(cropWaterToSalt*float64(ManganeseSulfate.Mass(salt))))
	left = lesser(left, b.water(ledger.Dish))
	b.set(CropWaterUsed, float64(left))
	b.book.Move(ledger.Dish, ledger.Vent, Water, greater(0, b.has(ledger.Dish, Water)-Water.Moles(quantity.Gram(left))))

	s := at(table.ManganeseSulfateSolubility, p.CropCold)
	zinc := b.growsIn(p, ZincSulfate, ZincChloride, 1)
	ammonium := b.growsIn(p, AmmoniumSulfate, AmmoniumChloride, 2)
	iron := quantity.Mole(p.CropTaken.Fraction()) * b.has(ledger.Dish, FerrousSulfate)
	host := hostWaters(h.manganese, float64(salt), float64(zinc+iron))
	c := quantity.Mole(crop(float64(salt), float64(b.has(ledger.Dish, Water)), host, s, ManganeseSulfate))
	bound := lesser(quantity.Mole(host)*c, b.has(ledger.Dish, Water))
	if c > 0 {
		b.book.Move(ledger.Dish, ledger.Filtrate, ZincSulfate, zinc*c/salt)
		b.book.Move(ledger.Dish, ledger.Filtrate, AmmoniumSulfate, ammonium*c/salt)
		b.book.Move(ledger.Dish, ledger.Filtrate, FerrousSulfate, iron*c/salt)
	}
	b.book.Move(ledger.Dish, ledger.Filtrate, ManganeseSulfate, lesser(c, salt))
	b.book.Move(ledger.Dish, ledger.Filtrate, Water, bound)
	b.book.MoveSet(ledger.Dish, ledger.Filtrate, dishSolids, 1)
	// The crystals hold some of the mother liquor, which dries on them; its salts keep the
	// water that they bind.
	holds := float64(p.CropHeld) * float64(b.book.TotalMass(ledger.Filtrate))
	if liquor := float64(b.water(ledger.Dish)); liquor > 0 {
		share := lesser(1, holds/liquor)
		var kept quantity.Mole
		kept, short = b.keeps(ledger.Dish, h)
		b.book.Move(ledger.Dish, ledger.Filtrate, Water, quantity.Mole(share)*kept)
		b.book.MoveSet(ledger.Dish, ledger.Filtrate, solubles, share)
	} else {
		b.book.MoveAll(ledger.Dish, ledger.Filtrate, 1)
		_, short = b.keeps(ledger.Filtrate, h)
	}
	b.book.MoveAll(ledger.Filtrate, ledger.Losses, p.LossTransfer.Fraction())
	b.book.MoveAll(ledger.Filtrate, ledger.ProductJar, 1)
	b.book.MoveAll(ledger.Dish, ledger.MotherLiquor, 1)
	b.millimoles(CropLeft, b.book.Element(ledger.MotherLiquor, Mn))
	return short
}

// handWarm is the warmth, °C, up to which crystals may be left to grow by themselves: a
// judgement.
const handWarm = 40

// driedDown tells whether the filtrate is boiled down to dryness.
func driedDown(p *Plan) bool { return p.DryWay == ToDryness }

// GrownHot tells whether the crystals grow at a heat that somebody must keep up.
func GrownHot(p *Plan) bool { return p.DryWay == ToCrystals && p.CropCold > handWarm }

// growsIn is what of a companion would grow into the crystals with all of the salt: a part
// of all there is of it, as far as the book has it as sulfate, of which one mole holds as
// much as so many of its chloride.
func (b *Runner) growsIn(p *Plan, sulfate, chloride Substance, chlorides quantity.Mole) quantity.Mole {
	has := b.has(ledger.Dish, sulfate)
	return lesser(has, quantity.Mole(p.CropTaken.Fraction())*(has+b.has(ledger.Dish, chloride)/chlorides))
}

// hostWaters is the water that crystals take to a mole of manganese sulfate, n of its own
// and as much for each mole of zinc and iron that grows in, of which there are so many with all of
// the salt.
func hostWaters(n, salt, zinc float64) float64 {
	if salt == 0 {
		return n
	}
	return n * (1 + zinc/salt)
}

// jar reads the product off the ledger.
func (b *Runner) jar(h hydration) {
	b.tell(jarMn, float64(b.book.Element(ledger.ProductJar, Mn)))
	mass := b.book.TotalMass(ledger.ProductJar)
	if mass < dust {
		mass = 0
	}
	b.grams(ProductMass, mass)
	b.set(ProductForm, float64(h.form))
	b.set(ProductWaters, h.manganese)
}
