package route

import (
	"math"
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

// ReagentID is the place of a reagent in the list of what to have.
type ReagentID int

// The reagents, in the order of the list.
const (
	StrongAcidReagent ReagentID = iota // as bought, for all its uses
	ReductantReagent                   // what does the work beside acid and water
	SodaReagent
	cleanWater
	tapWater
	ice
	silverNitrate
	permanganatePaper
	peroxideDrops
	spotReagents

	reagentCount
)

// InHouse tells whether a house has a reagent without its being bought.
func (id ReagentID) InHouse() bool { return id >= cleanWater && id <= ice }

// InDrops tells whether a reagent is for tests alone, a few drops or strips of it.
func (id ReagentID) InDrops() bool { return id >= silverNitrate }

// Amounts are numbers of all reagents by their places.
type Amounts [reagentCount]float64

// Reagent is one line of the reagents to have: Amount is what the plan takes, Buy what by
// itself is enough in nine runs of ten, in the same unit and never less; [quantity.Blank] where that is
// not known yet.
type Reagent struct {
	Need
	ID  ReagentID
	Buy float64
}

// ToBuy is how much of it to buy, as read; until that is known dots keep its place, since what the plan
// takes is another thing.
func (r *Reagent) ToBuy() (number, unit string) {
	if !quantity.Given(r.Buy) {
		_, unit = PrintParts(r.Amount, r.Unit)
		return "…", unit
	}
	return PrintParts(r.Buy, r.Unit)
}

// ToBuyText is [Reagent.ToBuy] in one.
func (r *Reagent) ToBuyText() string {
	return joined(r.ToBuy())
}

// Takes is what a plan takes of every reagent as bought, all uses of one together, each in its
// unit.
func Takes(p *Plan, s *Sheet) (r Amounts) {
	v := s.Amount
	acid, way := StrongAcid(p, s), reducing(p)
	washes := v(WashTimesUsed) + v(WashAfterUsed)
	clean := cleanWashes(s) * v(WashEachUsed)
	r[StrongAcidReagent] = acid.All()
	r[ReductantReagent] = v(way.used)
	r[SodaReagent] = v(WasteBase)
	if Scrubbed(p) {
		r[SodaReagent] += v(ScrubAdvised)
	}
	r[cleanWater] = v(SlurryWaterUsed) + v(SlurryAcidWater) + acid.RinseWater + p.RinseTimes*v(RinseUsed) + v(CopperWaterUsed) + clean
	if way.gas != nil && way.gas.water != nil {
		r[cleanWater] += way.gas.water.Value(p)
	}
	r[tapWater] = v(WashSoakUsed) + washes*v(WashEachUsed) - clean
	if Scrubbed(p) {
		r[tapWater] += v(ScrubLiquid)
	}
	r[ice] = v(ReduceIce)
	if !Alkaline(p) { // those are judged by pH
		r[silverNitrate] = 2
	}
	if Sulfurous(p) {
		r[permanganatePaper] = 10
	}
	if !slices.Contains(way.handled, reaction.HydrogenPeroxide) { // else it is at hand
		r[peroxideDrops] = 5
	}
	r[spotReagents] = 2
	return r
}

// Reagents lists every reagent that a plan takes; of each as much to buy, while nothing else is
// known.
func Reagents(p *Plan, s *Sheet) (list []Reagent) {
	takes, reductant, acid, ofSoda, ofTap := Takes(p, s), ReductantOf(p), StrongAcid(p, s), "making the waste safe", "soak and first washes"
	if Scrubbed(p) {
		ofSoda, ofTap = ofSoda+", and the scrubber", "soak, first washes, scrubber"
	}
	for id, need := range [reagentCount]Need{
		StrongAcidReagent: {"Sulfuric acid, concentrated, " + percent(p.GasStrength), 0, "mL", acid.Where()},
		ReductantReagent:  reductant.Need(p, s),
		SodaReagent:       {"Soda (sodium carbonate), anhydrous", 0, "g", ofSoda},
		cleanWater:        {"Distilled water or rain", 0, "mL", "last washes, slurry, dilute acid, rinses, copper salt"},
		tapWater:          {"Tap water", 0, "mL", ofTap},
		ice:               {"Ice", 0, "g", "bath of the slurry"},
		silverNitrate:     {"Silver nitrate, 1 to 2 %, and dilute nitric acid", 0, "mL", "chloride test, in drops"},
		permanganatePaper: {"Permanganate paper", 0, "", "end point and vent, strips"},
		peroxideDrops:     {"Hydrogen peroxide, 3 %", 0, "mL", "end point and spot tests, in drops"},
		spotReagents:      {"Ammonium thiocyanate, hexacyanoferrate, ammonia, caustic soda", 0, "mL", "spot tests of the filtrate, in drops of each"},
	} {
		need.Amount = takes[id]
		if need.Amount > 0 {
			list = append(list, Reagent{need, ReagentID(id), need.Amount})
		}
	}
	return list
}

var fillTexts = phrase.Open(&files, "fills", "name", "text")

// Fills are the liquids that are made up before they are used, or only stand in the gas line: how much
// of each, for what, and from what.
func Fills(p *Plan, s *Sheet) (list []Need) {
	acid, v := StrongAcid(p, s), s.Amount
	add := func(key string, amount float64, places ...string) {
		if amount > 0 {
			told := Tell(fillTexts, key, p, s, places...)
			list = append(list, Need{told.One("name"), amount, "mL", told.One("text")})
		}
	}
	if strong := acid.Dilute + acid.Rinse; strong > 0 {
		add("dilute", v(SlurryAcidUsed)+v(WashAcidPoured), "strong", Print(strong, "mL"), "water", Print(v(SlurryAcidWater)+acid.RinseWater, "mL"))
	}
	if Scrubbed(p) {
		add("scrubber", v(ScrubLiquid))
	}
	add("counting", acid.Counting)
	return list
}

// Enough sets what is to be bought of a list, rounded up to two digits, by what nine draws in
// ten do with, to what the plan takes of each; see package spread.
func (more *Amounts) Enough(list []Reagent) []Reagent {
	for i := range list {
		if r := &list[i]; more[r.ID] > 1 {
			r.Buy = roundUp(r.Amount * more[r.ID])
		}
	}
	return list
}

// Between these the generator's acid gives gas with copper, °C (from memory).
const gasFromCelsius, hottestCelsius quantity.Celsius = 200, 280

// thermometerMost is where the usual thermometer ends (common practice).
const thermometerMost quantity.Celsius = 110

var gearTexts = phrase.Open(&files, "gear", "item")

// Gear is what else to have ready, and what for.
func Gear(p *Plan) []string {
	t := Teller{Plan: p, Own: func(t *Teller, name string) (PlaceValue, bool) {
		if name != "oven" { // how hot it must be, where a thermometer as usual would burst
			return PlaceValue{}, false
		}
		if driedDown(p) && p.DryTemperature > thermometerMost {
			return t.At("dry.temperature"), true
		}
		return Words(""), true
	}}
	return gearTexts.At("gear", &t).All("item")
}

// roundUp rounds an amount above 0 up to two digits. What is above them by the last digits of
// the arithmetic alone does not count.
func roundUp(v float64) float64 {
	e := 0
	for v >= math.Pow10(e+2) {
		e++
	}
	for v < math.Pow10(e+1) && e > -300 {
		e--
	}
	if e < 0 {
		return math.Ceil(v*math.Pow10(-e)*(1-1e-9)) / math.Pow10(-e)
	}
	return math.Ceil(v/math.Pow10(e)*(1-1e-9)) * math.Pow10(e)
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
