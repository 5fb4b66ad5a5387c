package route

import "rosesalt/chem/quantity"

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
	washes := p.WashTimes
	if p.WashAcid > 0 {
		washes++ // one more follows the acid
	}
	generator := 0.0
	if p.GasSource == FromMetabisulfite {
		generator = float64(p.GasWater)
	}
	stirred, _ := Stirred(p, s)
	strips, drops, silver := 10.0, 5.0, 2.0
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
		{"Sulfuric acid, concentrated, " + percent(p.GasStrength), acid.All(), "mL", acid.Where()},
		{"Copper, bare", v(GasCopperUsed), "g", "generator"},
		{"Sodium metabisulfite", v(GasSaltUsed), "g", "generator"},
		stirred,
		{"Soda (sodium carbonate), anhydrous", v(WasteBase) + ifScrubbed(p, v(ScrubAdvised)), "g", "making the waste safe" + scrubWord(p)},
		{"Water, distilled or rain", v(SlurryWaterUsed) + v(SlurryAcidWater) + acid.RinseWater + p.RinseTimes*v(RinseUsed) + v(CopperWaterUsed) + generator, "mL", "slurry, dilute acid, rinses, copper salt"},
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

// Between these the generator's acid gives gas with copper, °C (from memory).
const gasFromCelsius, hottestCelsius quantity.Celsius = 200, 280

// thermometerMost is where the usual thermometer ends (common practice).
const thermometerMost quantity.Celsius = 110

// hotAcid is the gear for heating strong acid. Borosilicate glass 3.3 is that of ISO 3585
// (from memory). That broken porcelain against bumping is put in before heating:
// Wikipedia, Boiling chip. That chalk froths, marks in glass, sand: common practice.
func hotAcid() []string {
	return []string{
		"Generator flask and every beaker that acid or hot liquor goes into: borosilicate glass 3.3, as the print on it says. Other glass cracks when it is heated or acid meets water in it. Held to the light: no scratch, chip or star crack, or it is not used",
		"Against bumping, when hot acid boils up all at once: the copper in turnings or short ends all over the floor, and three or four bits of broken porcelain, put in cold. Never chalk or marble; nothing is ever dropped into hot acid",
		"Sand bath for the flask in a steel dish that would hold all its acid, should it crack. No wire gauze alone, no plastic, no aluminium under it",
		"Thermometer to " + Print(float64(thermometerMost), "°C") + ", for slurry and hot liquors. It bursts in the flask, which goes to " + Print(float64(hottestCelsius), "°C") + ": none is needed there: go by the bubbles. One to 360 °C, in the sand, reads more than the acid has",
	}
}

// Gear is what else to have ready, and what for.
func Gear(p *Plan) []string {
	list := []string{
		"Goggles and face shield, apron, acid-proof gloves, running water in reach",
	}
	if p.GasSource == FromCopper {
		list = append(list, hotAcid()...)
		list = append(list, "Heat for flask and dish: hotplate or burner, tripod")
	} else {
		list = append(list,
			"Heat for the dish: hotplate or burner, tripod, sand bath",
			"Flask, beakers and dish of borosilicate glass 3.3 or porcelain, without scratches, chips or star cracks: acid meets water in them, and liquor boils",
			"Thermometer to "+Print(float64(thermometerMost), "°C")+", for slurry and hot liquors",
		)
	}
	if p.DryWay == ToDryness && p.DryTemperature > thermometerMost {
		list = append(list, "Oven with a thermometer of its own, for drying at "+Print(float64(p.DryTemperature), "°C"))
	}
	if Gaseous(p) {
		list = append(list, "Wide delivery tube without a stopcock, inverted funnel, stoppers, clamps and stand")
	}
	if Alkaline(p) {
		list = append(list, "Vinegar within reach for lye on the table")
	}
	return append(list,
		"Filter funnel and paper, stirring rods, balance to 0.1 g",
		"pH paper, for the wash and the waste",
		"Basin for the ice bath, newspaper, wet towel, bucket of sand",
		"Labels for every jar and waste bottle, and a pencil",
	)
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
