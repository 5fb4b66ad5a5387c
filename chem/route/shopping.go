package route

import (
	"math"
	"slices"

	"rosesalt/chem/quantity"
)

// Need is one line of what to have ready: a reagent as bought, or a vessel with
// the volume that it must hold.
type Need struct {
	Name   string
	Amount float64
	Unit   string
	For    string
}

// Reagents lists every reagent as bought, all uses of one together.
func Reagents(p *Plan, s *Sheet) []Need {
	v := func(id FigureID) float64 {
		if s.Reason(id) != Defined {
			return 0
		}
		return s.Value(id)
	}
	acid := acidOf(p.GasStrength)
	rinse, rinseWater, _ := acid.dilution(p.WashAcid)
	washes := p.WashTimes
	if p.WashAcid > 0 {
		washes++ // one more follows the acid
	}
	generator := 0.0
	if p.GasSource == FromMetabisulfite {
		generator = float64(p.GasWater)
	}
	stirred, _ := Stirred(p, s)
	acidFor, strips, drops, silver := "generator, and the dilute acid made from it", 10.0, 5.0, 2.0
	if !Gaseous(p) {
		acidFor = "the dilute acid"
	}
	if !Sulfurous(p) {
		strips = 0
	}
	if p.GasSource == ByPeroxide {
		drops = 0 // it is at hand
	}
	if Alkaline(p) {
		silver = 0 // the washes are judged by pH
	}
	list := []Need{
		{"Sulfuric acid, concentrated, " + percent(p.GasStrength), v(GasAcidUsed) + v(SlurryAcidStrong) + float64(rinse), "mL", acidFor},
		{"Copper, bare", v(GasCopperUsed), "g", "generator"},
		{"Sodium metabisulfite", v(GasSaltUsed), "g", "generator"},
		stirred,
		{"Soda (sodium carbonate), anhydrous", v(WasteBase) + ifScrubbed(p, v(ScrubAdvised)), "g", "making the waste safe" + scrubWord(p)},
		{"Water, distilled or rain", v(SlurryWaterUsed) + v(SlurryAcidWater) + float64(rinseWater) + p.RinseTimes*v(RinseUsed) + v(CopperWaterUsed) + generator, "mL", "slurry, dilute acid, rinses, copper salt"},
		{"Water, tap", v(WashSoakUsed) + washes*v(WashEachUsed), "mL", "soak and washes"},
		{"Ice", v(ReduceIce), "g", "bath of the slurry"},
		{"Silver nitrate, 1 to 2 %, and dilute nitric acid", silver, "mL", "chloride test, in drops"},
		{"Permanganate paper", strips, "", "end point and vent, strips"},
		{"Hydrogen peroxide, 3 %", drops, "mL", "end point, in drops"},
	}
	return present(list)
}

func ifScrubbed(p *Plan, soda float64) float64 {
	if Scrubbed(p) {
		return soda
	}
	return 0
}

func scrubWord(p *Plan) string {
	if Scrubbed(p) {
		return ", and the scrubber"
	}
	return ""
}

// frothRoom is how much larger than its slurry a vessel is in which oxygen or carbon
// dioxide froths.
const frothRoom = 3

var _ = constant("frothRoom", frothRoom, "", "vessel for a slurry that froths, to the slurry", "common practice")

// dishful is what a dish of 10 cm holds, mL (common practice).
const dishful = 100

// Gear is what else lies ready.
func Gear(p *Plan) []string {
	list := []string{
		"Goggles and face shield, apron, acid-proof gloves, running water in reach",
		"Heat for flask and dish: hotplate or burner, tripod, sand bath",
	}
	if Gaseous(p) {
		list = append(list, "Wide delivery tube without a stopcock, inverted funnel, stoppers, clamps and stand")
	}
	if Alkaline(p) {
		list = append(list, "Vinegar within reach for lye on the table")
	}
	return append(list,
		"Filter funnel and paper, stirring rods, thermometer to 100 °C, balance to 0.1 g",
		"pH paper, for the wash and the waste",
		"Basin for the ice bath, newspaper, wet towel, bucket of sand",
		"Labels for every jar and waste bottle, and a pencil",
	)
}

// Vessel is a vessel with the volume that it must hold at least.
type Vessel struct {
	Need
	Line bool // part of the gas line, which groups can share in turn

	sizes []quantity.Millilitre
}

// Sizes that vessels are sold in, mL: beakers and flasks as in ISO 3819 and ISO 4797
// (from memory), pails and jars by common practice.
var (
	beakerSizes = []quantity.Millilitre{50, 100, 150, 250, 400, 600, 1000, 2000, 3000, 5000}
	flaskSizes  = []quantity.Millilitre{50, 100, 250, 500, 1000, 2000, 4000, 6000}
	jarSizes    = []quantity.Millilitre{50, 100, 250, 500, 1000, 2000, 5000, 10e3}
	pailSizes   = []quantity.Millilitre{500, 1000, 2000, 5000, 10e3, 20e3, 30e3, 60e3}
)

// Common is the next size in which such a vessel is sold; 0 where none is so large, and
// the work wants several.
func (v Vessel) Common() quantity.Millilitre {
	for _, size := range v.sizes {
		if float64(size) >= v.Amount*(1-1e-9) {
			return size
		}
	}
	return 0
}

// Vessels lists every vessel with the volume that it must hold.
func Vessels(p *Plan, s *Sheet) []Vessel {
	v := func(id FigureID) float64 {
		if s.Reason(id) != Defined {
			return 0
		}
		return s.Value(id)
	}
	mix := v(MixDry) / solidDensity
	flask, trap := 0.0, 0.0
	if Gaseous(p) {
		flask, trap = math.Max(v(GasFlaskLeast), float64(p.GasFlask)), 1.5*v(SlurryVolume)
	}
	slurry, full := 1.5, "two thirds full at most"
	if v(StirFroth) > 0 {
		slurry, full = frothRoom, "a third full at most: it froths"
	}
	ml := func(name string, volume float64, why string) Need { return Need{name, volume, "mL", why} }
	list := []Vessel{
		{ml("Basin for soaking and washing", 1.5*(v(WashSoakUsed)+mix), "two thirds full at most"), false, pailSizes},
		{ml("Can for the wash liquor", 1.1*v(WashLiquor), "kept for collection"), false, pailSizes},
		{ml("Generator flask", flask, "half full at most; it needs "+Print(v(GasFlaskLeast), "mL")), true, flaskSizes},
		{ml("Empty trap", trap, "takes the whole slurry if it is drawn back"), true, flaskSizes},
		{ml("Slurry vessel", slurry*v(SlurryVolume), full), false, beakerSizes},
		{ml("Beaker for the filtrate and rinses", 1.2*v(FiltrateVol), ""), false, beakerSizes},
		{ml("Evaporating dish", math.Min(v(FiltrateVol), dishful), "filled up in portions"), false, jarSizes},
		{ml("Jar for the manganese salt", 2*v(ProductMass), "dry, with a lid"), false, jarSizes},
		{ml("Beaker for the copper liquor", v(CopperVessel), "half full at most"), false, beakerSizes},
		{ml("Jar for the mother liquor and its soda", 2*(v(WasteVolume)-v(WashLiquor)), "it froths; lid loose overnight"), false, jarSizes},
	}
	if Scrubbed(p) {
		list = append(list,
			Vessel{ml("Second empty trap", 1.5*v(ScrubLiquid), "between slurry and scrubber"), true, flaskSizes},
			Vessel{ml("Scrubber bottle", 1.5*v(ScrubLiquid), "never sealed: it gives off carbon dioxide"), true, flaskSizes},
		)
	}
	return slices.DeleteFunc(list, func(v Vessel) bool { return !(v.Amount > 0) })
}

// present leaves out what is not needed in this plan.
func present(list []Need) []Need {
	kept := list[:0]
	for _, n := range list {
		if n.Amount > 0 {
			kept = append(kept, n)
		}
	}
	return kept
}
