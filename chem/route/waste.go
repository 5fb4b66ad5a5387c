package route

import (
	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

// Figures of the scrubber, the room and the waste, in the order of the page.
const (
	// WasteBase is the soda for all liquors, by Soda; WasteBaseCopper, WasteBaseWash and WasteBasePink are its parts. The
	// generator's liquor is the copper mother liquor or, with metabisulfite, its spent
	// liquid; the pink one is what the crystals leave.
	WasteBase FigureID = endOfCopperSalt + iota
	WasteVolume
	WasteResidue
	// ScrubSoda and ScrubHydroxide take the vented gas to sodium sulfite, without
	// excess. They are told of a generator's gas for an open vessel too, which
	// cannot feed a scrubber; see Scrubbed.
	ScrubSoda
	ScrubHydroxide
	WasteBaseCopper
	WasteBaseWash
	WasteBasePink
	// WasteAcid takes up the lye of alkaline cells, half a mole to a mole: a little more
	// than brings it to pH 9, where zinc falls out.
	WasteAcid
	WasteCopper
	WasteZinc
	WasteManganese
	ScrubAdvised
	ScrubLiquid
	ScrubHeat
	ScrubRise
	RoomPeak
	RoomMean
	RoomTimes
	RoomFlow
	RoomEscape

	endOfWaste
)

var wasteFigures = []Figure{
	{
		ID: WasteBase, Key: "waste.base", Unit: "g", Name: "Soda, anhydrous, for the acid and the metals in the waste", Main: true,
		Formula: "waste.base.wash", Variants: []Variant{{byGas | isCrystallised, "waste.base.wash + waste.base.copper + waste.base.pink"}, {byGas, "waste.base.wash + waste.base.copper"}, {isCrystallised, "waste.base.wash + waste.base.pink"}},
	},
	{ID: WasteVolume, Key: "waste.volume", Unit: "mL", Name: "Liquor to keep for collection, the scrubber's not counted", Main: true},
	{ID: WasteResidue, Key: "waste.residue", Unit: "g", Name: "Damp black residue to keep", Main: true},
	{
		ID: ScrubSoda, Key: "scrub.soda", Unit: "g", Name: "Soda, anhydrous, that just binds the gas not taken up", Main: true, Of: bySulfurDioxide | byGas,
		Formula: "vent.gas/1000[mmol/mol]*M(Na2CO3)",
	},
	{
		ID: ScrubHydroxide, Key: "scrub.hydroxide", Unit: "g", Name: "Sodium hydroxide that does the same", Main: true, Of: bySulfurDioxide | byGas,
		Formula: "2*vent.gas/1000[mmol/mol]*M(NaOH)",
	},
	{ID: WasteBaseCopper, Key: "waste.base.copper", Unit: "g", Name: "Soda for the generator's liquor", Of: byGas},
	{ID: WasteBaseWash, Key: "waste.base.wash", Unit: "g", Name: "Soda for the wash liquor"},
	{ID: WasteBasePink, Key: "waste.base.pink", Unit: "g", Name: "Soda for the pink mother liquor", Of: isCrystallised},
	{
		ID: WasteAcid, Key: "waste.acid", Unit: "mL", Name: "Dilute acid for the wash lye, about, 1 mol/L; stop at pH 9", Of: hasCells | hasLye,
		Formula: "n(wash, KOH)/2*1000[mmol/mol]/1[mmol/mL]",
	},
	{ID: WasteCopper, Key: "waste.copper", Unit: "g", Name: "Copper in the generator's liquor", Of: byGas},
	{ID: WasteZinc, Key: "waste.zinc", Unit: "g", Name: "Zinc in the wash liquor"},
	{ID: WasteManganese, Key: "waste.manganese", Unit: "g", Name: "Manganese in the residue and the liquors"},
	{
		ID: ScrubAdvised, Key: "scrub.soda.advised", Unit: "g", Name: "Soda to put into the scrubber, twice that", Of: bySulfurDioxide | byGas,
		Formula: "scrubberExcess*scrub.soda",
	},
	{
		ID: ScrubLiquid, Key: "scrub.liquid", Unit: "mL", Name: "Liquid in the scrubber, a tenth of it soda", Of: bySulfurDioxide | byGas,
		Formula: "scrub.soda.advised/(scrubberSoda/100[%])/liquor",
	},
	{
		ID: ScrubHeat, Key: "scrub.heat", Unit: "kJ", Name: "Heat when the soda binds the gas", Of: bySulfurDioxide | byGas,
		Formula: "heat.share/100[%]*scrubHeat*n(vent, SO2)",
	},
	{
		ID: ScrubRise, Key: "scrub.rise", Unit: "K", Name: "The scrubber warms by, if nothing cools it", Of: bySulfurDioxide | byGas,
		Formula: "scrub.heat*1000[J/kJ]/(waterHeat*scrub.liquid*liquor)", Else: NothingVents,
	},
}

var manganeseMass = formula.MustParse("Mn").MolarMass()

// scrubberExcess: twice what the gas needs.
const scrubberExcess = 2

// ScrubberSoda is the soda in the scrubber's liquid before any gas has come, mass percent.
const ScrubberSoda quantity.Percent = 10

// scrubHeat is given off when a mole of gas meets soda in water, kJ. With twice the soda that
// the gas needs the carbon dioxide stays, as hydrogencarbonate:
// SO2 + 2 CO3^2- + H2O -> SO3^2- + 2 HCO3^-.
var scrubHeat = formationHeat("SO2") + 2*formationHeat("CO3^2-") + formationHeat("H2O") - formationHeat("SO3^2-") - 2*formationHeat("HCO3^-")

var wasteConstants = []Constant{
	{"scrubberExcess", scrubberExcess, "", "soda in the scrubber, to what the gas needs", "common practice"},
	{"scrubberSoda", float64(ScrubberSoda), "%", "soda in the scrubber's liquid", "common practice, a tenth"},
	{"scrubHeat", scrubHeat, "kJ/mol", "heat when twice the soda binds a mole of gas", "formation heats of SO2 −296.8, CO3^2- −677.1, H2O −285.8, SO3^2- −635.5 and HCO3^- −691.1, as in the table of formation heats"},
}

// Soda is the anhydrous soda that takes up free acid and dissolved gas in a liquor and
// turns its metals to carbonates, iron(III) to its hydroxide: a mole to each of them, half
// a mole more to iron(III), half a mole to hydrogen chloride, one to metabisulfite. Lye wants acid, not soda.
func Soda(book *ledger.Book, v ledger.Vessel) quantity.Gram {
	if book.Amount(v, Potash) > 0 {
		return 0
	}
	return SodiumCarbonate.Mass(book.Amount(v, SulfuricAcid) + book.Amount(v, HydrogenChloride)/2 +
		book.Amount(v, SulfurDioxide) + book.Amount(v, SodiumMetabisulfite) +
		book.Element(v, Cu) + book.Element(v, Zn) + book.Element(v, Mn) + book.Element(v, Fe) + book.Amount(v, FerricSulfate))
}

// makeSafe leads the vented gas into the scrubber, where there is one, and works
// out the base that the waste needs.
func (b *Runner) makeSafe(p *Plan) {
	gas := b.carry.vented
	b.roomAir(p)
	if Scrubbed(p) {
		b.book.Move(ledger.Vent, ledger.Scrubber, SulfurDioxide, gas)
		b.book.Bring(ledger.Scrubber, SodiumCarbonate, scrubberExcess*gas)
		b.react(ledger.Scrubber, Scrub, gas)
	}

	liquor := ledger.CopperLiquor
	if !MakesCopperSalt(p) {
		liquor = ledger.Generator
	}
	w := ledger.WashLiquor
	ofCopper, ofWash, ofPink := Soda(&b.book, liquor), Soda(&b.book, w), Soda(&b.book, ledger.MotherLiquor)
	b.grams(WasteBaseCopper, ofCopper)
	b.grams(WasteBaseWash, ofWash)
	b.grams(WasteBasePink, ofPink)
	b.grams(WasteCopper, b.book.Element(liquor, Cu).Mass(Copper.MolarMass()))
	b.grams(WasteZinc, b.book.Element(w, Zn).Mass(Zinc.MolarMass()))
	b.grams(WasteManganese, (b.book.Element(ledger.Residue, Mn) + b.book.Element(w, Mn) + b.book.Element(ledger.MotherLiquor, Mn)).Mass(manganeseMass))
	b.set(WasteVolume, float64(b.water(w)+b.water(liquor)+b.water(ledger.MotherLiquor)))
	b.grams(WasteResidue, b.book.TotalMass(ledger.Residue))
}
