package route

import (
	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	. "rosesalt/chem/reaction"
)

// Figures of the scrubber and the waste.
var (
	// ScrubSoda and ScrubHydroxide take the vented gas to sodium sulfite, without
	// excess. They are told for an open vessel too, which cannot feed a scrubber.
	ScrubSoda      = figure(Waste, "scrub.soda", "g", "Soda, anhydrous, that just binds the gas not taken up")
	ScrubHydroxide = figure(Waste, "scrub.hydroxide", "g", "Sodium hydroxide that does the same")
	ScrubAdvised   = figure(Waste, "scrub.soda.advised", "g", "Soda to put into the scrubber, twice that")
	ScrubLiquid    = figure(Waste, "scrub.liquid", "mL", "Liquid in the scrubber, a tenth of it soda")
	// WasteBase is the soda that takes up the acid in the copper mother liquor (or,
	// with metabisulfite, the acid, the dissolved gas and the salt left in the generator's liquid) and turns the metals of that
	// and of the wash liquor to carbonates; the next two are its parts.
	WasteBase       = figure(Waste, "waste.base", "g", "Soda, anhydrous, for the acid and the metals in the waste")
	WasteBaseCopper = figure(Waste, "waste.base.copper", "g", "Soda for the generator's liquor")
	WasteBaseWash   = figure(Waste, "waste.base.wash", "g", "Soda for the wash liquor")
	WasteCopper     = figure(Waste, "waste.copper", "g", "Copper in the generator's liquor")
	WasteZinc       = figure(Waste, "waste.zinc", "g", "Zinc in the wash liquor")
	WasteManganese  = figure(Waste, "waste.manganese", "g", "Manganese in the residue and the liquors")
	WasteVolume     = figure(Waste, "waste.volume", "mL", "Liquor to keep for collection, the scrubber's not counted")
	WasteResidue    = figure(Waste, "waste.residue", "g", "Damp black residue to keep")
)

var (
	sodiumHydroxideMass = float64(formula.MustParse("NaOH").MolarMass())
	manganeseMass       = formula.MustParse("Mn").MolarMass()
)

// scrubberExcess: twice what the gas needs, and a tenth of soda in the liquid.
const (
	scrubberExcess   = 2
	scrubberStrength = 0.1
)

var (
	_ = constant("scrubberExcess", scrubberExcess, "", "soda in the scrubber, to what the gas needs", "common practice")
	_ = constant("scrubberStrength", scrubberStrength, "g/mL", "soda in the scrubber's liquid", "common practice, a tenth")
)

// makeSafe leads the vented gas of a closed vessel into the scrubber, and works
// out the base that the waste needs.
func (b *Bench) makeSafe(p *Plan) {
	gas := b.carry.vented
	b.grams(ScrubSoda, SodiumCarbonate.Mass(gas))
	b.set(ScrubHydroxide, 2*float64(gas)*sodiumHydroxideMass)
	advised := scrubberExcess * SodiumCarbonate.Mass(gas)
	b.grams(ScrubAdvised, advised)
	b.set(ScrubLiquid, float64(advised)/scrubberStrength)
	if p.SlurryVessel == ClosedVessel {
		b.book.Move(ledger.Vent, ledger.Scrubber, SulfurDioxide, gas)
		b.book.Bring(ledger.Scrubber, SodiumCarbonate, scrubberExcess*gas)
		b.react(ledger.Scrubber, Scrub, gas)
	}

	liquor := ledger.CopperLiquor
	if p.GasSource != FromCopper {
		liquor = ledger.Generator
	}
	ofCopper := b.has(liquor, SulfuricAcid) + b.has(liquor, CopperSulfate) +
		b.has(liquor, SulfurDioxide) + b.has(liquor, SodiumMetabisulfite)
	w := ledger.WashLiquor
	ofWash := b.has(w, SulfuricAcid) + b.book.Element(w, Zn) + b.book.Element(w, Mn)
	b.grams(WasteBaseCopper, SodiumCarbonate.Mass(ofCopper))
	b.grams(WasteBaseWash, SodiumCarbonate.Mass(ofWash))
	b.grams(WasteBase, SodiumCarbonate.Mass(ofCopper+ofWash))
	b.grams(WasteCopper, b.book.Element(liquor, Cu).Mass(Copper.MolarMass()))
	b.grams(WasteZinc, b.book.Element(w, Zn).Mass(Zinc.MolarMass()))
	b.grams(WasteManganese, (b.book.Element(ledger.Residue, Mn) + b.book.Element(w, Mn) + b.book.Element(ledger.MotherLiquor, Mn)).Mass(manganeseMass))
	b.set(WasteVolume, float64(b.water(w)+b.water(liquor)+b.water(ledger.MotherLiquor)))
	b.grams(WasteResidue, b.book.TotalMass(ledger.Residue))
}
