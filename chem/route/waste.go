package route

import (
	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

// Figures of the scrubber and the waste.
var (
	// ScrubSoda and ScrubHydroxide take the vented gas to sodium sulfite, without
	// excess. They are told of a generator's gas for an open vessel too, which
	// cannot feed a scrubber; see Scrubbed.
	ScrubSoda      = figure(Waste, "scrub.soda", "g", "Soda, anhydrous, that just binds the gas not taken up")
	ScrubHydroxide = figure(Waste, "scrub.hydroxide", "g", "Sodium hydroxide that does the same")
	ScrubAdvised   = figure(Waste, "scrub.soda.advised", "g", "Soda to put into the scrubber, twice that")
	ScrubLiquid    = figure(Waste, "scrub.liquid", "mL", "Liquid in the scrubber, a tenth of it soda")
	ScrubHeat      = figure(Waste, "scrub.heat", "kJ", "Heat when the soda binds the gas")
	ScrubRise      = figure(Waste, "scrub.rise", "K", "The scrubber warms by, if nothing cools it")
	// WasteBase is the soda for all liquors, by Soda; the next three are its parts. The
	// generator's liquor is the copper mother liquor or, with metabisulfite, its spent
	// liquid; the pink one is what the crystals leave.
	WasteBase       = figure(Waste, "waste.base", "g", "Soda, anhydrous, for the acid and the metals in the waste")
	WasteBaseCopper = figure(Waste, "waste.base.copper", "g", "Soda for the generator's liquor")
	WasteBaseWash   = figure(Waste, "waste.base.wash", "g", "Soda for the wash liquor")
	WasteBasePink   = figure(Waste, "waste.base.pink", "g", "Soda for the pink mother liquor")
	// WasteAcid takes up the lye of alkaline cells, half a mole to a mole: a little more
	// than brings it to pH 9, where zinc falls out.
	WasteAcid      = figure(Waste, "waste.acid", "mL", "Dilute acid for the wash lye, about, 1 mol/L; stop at pH 9")
	WasteCopper    = figure(Waste, "waste.copper", "g", "Copper in the generator's liquor")
	WasteZinc      = figure(Waste, "waste.zinc", "g", "Zinc in the wash liquor")
	WasteManganese = figure(Waste, "waste.manganese", "g", "Manganese in the residue and the liquors")
	WasteVolume    = figure(Waste, "waste.volume", "mL", "Liquor to keep for collection, the scrubber's not counted")
	WasteResidue   = figure(Waste, "waste.residue", "g", "Damp black residue to keep")
)

var (
	sodiumHydroxideMass = float64(formula.MustParse("NaOH").MolarMass())
	manganeseMass       = formula.MustParse("Mn").MolarMass()
)

// scrubberExcess: twice what the gas needs.
const scrubberExcess = 2

// ScrubberSoda is the soda in the scrubber's liquid before any gas has come, mass percent.
const ScrubberSoda quantity.Percent = 10

// scrubHeat is given off when a mole of gas meets soda in water, kJ:
// SO2 + CO3^2- -> SO3^2- + CO2.
var scrubHeat = formationHeat("SO2") + formationHeat("CO3^2-") - formationHeat("SO3^2-") - formationHeat("CO2")

var (
	_ = constant("scrubberExcess", scrubberExcess, "", "soda in the scrubber, to what the gas needs", "common practice")
	_ = constant("scrubberSoda", float64(ScrubberSoda), "%", "soda in the scrubber's liquid", "common practice, a tenth")
	_ = constant("scrubHeat", scrubHeat, "kJ/mol", "heat when soda binds a mole of gas",
		"formation heats of SO2 −296.8, CO3^2- −677.1, SO3^2- −635.5 and CO2 −393.5: CRC Handbook, as in the table of formation heats")
)

// Soda is the anhydrous soda that takes up free acid and dissolved gas in a liquor and
// turns its metals to carbonates: a mole to each of them, half a mole to hydrogen
// chloride, one to metabisulfite. Lye wants acid, not soda.
func Soda(book *ledger.Book, v ledger.Vessel) quantity.Gram {
	if book.Amount(v, Potash) > 0 {
		return 0
	}
	return SodiumCarbonate.Mass(book.Amount(v, SulfuricAcid) + book.Amount(v, HydrogenChloride)/2 +
		book.Amount(v, SulfurDioxide) + book.Amount(v, SodiumMetabisulfite) +
		book.Element(v, Cu) + book.Element(v, Zn) + book.Element(v, Mn))
}

// makeSafe leads the vented gas into the scrubber, where there is one, and works
// out the base that the waste needs.
func (b *Bench) makeSafe(p *Plan) {
	gas := b.carry.vented
	b.grams(ScrubSoda, SodiumCarbonate.Mass(gas))
	b.set(ScrubHydroxide, 2*float64(gas)*sodiumHydroxideMass)
	advised := scrubberExcess * SodiumCarbonate.Mass(gas)
	b.grams(ScrubAdvised, advised)
	liquid := float64(advised) / ScrubberSoda.Fraction()
	b.set(ScrubLiquid, liquid)
	heat := scrubHeat * float64(gas)
	b.set(ScrubHeat, heat)
	if liquid > 0 {
		b.set(ScrubRise, heat*1000/(waterHeat*liquid))
	} else {
		b.sheet.undefined(NothingVents, ScrubRise)
	}
	b.roomAir(p)
	if Scrubbed(p) {
		b.book.Move(ledger.Vent, ledger.Scrubber, SulfurDioxide, gas)
		b.book.Bring(ledger.Scrubber, SodiumCarbonate, scrubberExcess*gas)
		b.react(ledger.Scrubber, Scrub, gas)
	}

	if !Gaseous(p) {
		why := StirredIn
		if !Sulfurous(p) {
			why = NoSulfurDioxide
		}
		b.sheet.undefined(why, ScrubSoda, ScrubHydroxide, ScrubAdvised, ScrubLiquid, ScrubHeat, ScrubRise)
	}

	liquor := ledger.CopperLiquor
	if p.GasSource != FromCopper {
		liquor = ledger.Generator
	}
	w := ledger.WashLiquor
	ofCopper, ofWash, ofPink := Soda(&b.book, liquor), Soda(&b.book, w), Soda(&b.book, ledger.MotherLiquor)
	b.grams(WasteBaseCopper, ofCopper)
	b.grams(WasteBaseWash, ofWash)
	b.grams(WasteBasePink, ofPink)
	b.grams(WasteBase, ofCopper+ofWash+ofPink)
	if p.DryWay != ToCrystals {
		b.sheet.undefined(DriedNotGrown, WasteBasePink)
	}
	b.grams(WasteCopper, b.book.Element(liquor, Cu).Mass(Copper.MolarMass()))
	if b.sheet.Reason(WashLye) == Defined {
		b.millimoles(WasteAcid, b.has(w, Potash)/2)
	} else {
		b.sheet.undefined(b.sheet.Reason(WashLye), WasteAcid)
	}
	if !Gaseous(p) {
		b.sheet.undefined(StirredIn, WasteBaseCopper, WasteCopper)
	}
	b.grams(WasteZinc, b.book.Element(w, Zn).Mass(Zinc.MolarMass()))
	b.grams(WasteManganese, (b.book.Element(ledger.Residue, Mn) + b.book.Element(w, Mn) + b.book.Element(ledger.MotherLiquor, Mn)).Mass(manganeseMass))
	b.set(WasteVolume, float64(b.water(w)+b.water(liquor)+b.water(ledger.MotherLiquor)))
	b.grams(WasteResidue, b.book.TotalMass(ledger.Residue))
}
