package route

import (
	"slices"

	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
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
	acid := StrongAcid(p, s)
	washes := v(WashTimesUsed) + v(WashAfterUsed)
	generator := 0.0
	if Gaseous(p) {
		generator = float64(reducing(p).generator(p, acidOf(p.GasStrength)).added)
	}
	reductant := ReductantOf(p)
	strips, drops, silver := 10.0, 5.0, 2.0
	if !Sulfurous(p) {
		strips = 0
	}
	if slices.Contains(reductant.Handled, reaction.HydrogenPeroxide) {
		drops = 0 // it is at hand
	}
	if Alkaline(p) {
		silver = 0 // the washes are judged by pH
	}
	list := []Need{
		{"Sulfuric acid, concentrated, " + percent(p.GasStrength), acid.All(), "mL", acid.Where()},
		reductant.Need(p, s),
		{"Soda (sodium carbonate), anhydrous", v(WasteBase) + ifScrubbed(p, v(ScrubAdvised)), "g", "making the waste safe" + scrubWord(p)},
		{"Water, distilled or rain", v(SlurryWaterUsed) + v(SlurryAcidWater) + acid.RinseWater + p.RinseTimes*v(RinseUsed) + v(CopperWaterUsed) + generator, "mL", "slurry, dilute acid, rinses, copper salt"},
		{"Water, tap", v(WashSoakUsed) + washes*v(WashEachUsed), "mL", "soak and washes"},
		{"Ice", v(ReduceIce), "g", "bath of the slurry"},
		{"Silver nitrate, 1 to 2 %, and dilute nitric acid", silver, "mL", "chloride test, in drops"},
		{"Permanganate paper", strips, "", "end point and vent, strips"},
		{"Hydrogen peroxide, 3 %", drops, "mL", "end point and spot tests, in drops"},
		{"Ammonium thiocyanate, hexacyanoferrate, ammonia, caustic soda", 2, "mL", "spot tests of the filtrate, in drops of each"},
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

// Between these the generator's acid gives gas with copper, °C (from memory).
const gasFromCelsius, hottestCelsius quantity.Celsius = 200, 280

// thermometerMost is where the usual thermometer ends (common practice).
const thermometerMost quantity.Celsius = 110

var gearTexts = phrase.Open(&files, "gear", "item")

// Gear is what else to have ready, and what for.
func Gear(p *Plan) []string {
	t := Teller{Plan: p, Own: func(t *Teller, name string) (Said, bool) {
		if name != "oven" { // how hot it must be, where a thermometer as usual would burst
			return Said{}, false
		}
		if p.DryWay == ToDryness && p.DryTemperature > thermometerMost {
			return t.At("dry.temperature"), true
		}
		return Words(""), true
	}}
	return gearTexts.At("gear", &t).All("item")
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
