package route

import (
	"math"

	"rosesalt/chem/quantity"
	"rosesalt/chem/room"
)

// MaxRows is how many sorts of cell one bag may hold.
const MaxRows = 8

// Choice is the place of the chosen word in an input's list of options.
type Choice uint8

// Row is one sort of cell in the bag. A row whose Count is blank is not there;
// the first row always is.
type Row struct {
	Size, Kind Choice
	Count      float64          // all cells of the row, the rejects among them
	Rejects    float64          // leaking, swollen or unmarked: counted, never opened
	Charge     quantity.Percent // manganese still Mn(IV); blank follows the first row
	Weight     quantity.Gram    // of one cell: tells alkaline from zinc-carbon
}

// What brings the oxide to Mn(II), in the order of gas.source: gas out of a
// generator, or something stirred straight into the slurry.
const (
	FromCopper Choice = iota
	FromMetabisulfite
	BySalt
	ByPeroxide
	ByOxalic
)

// The slurry vessels, in the order of slurry.vessel.
const (
	OpenVessel Choice = iota
	ClosedVessel
)

// What is done about iron, in the order of iron.way.
const (
	IronLeft Choice = iota
	IronThrownDown
)

// The ways to a solid, in the order of dry.way.
const (
	ToDryness Choice = iota
	ToCrystals
)

// Plan is everything that the user can set. Its keys, limits and meanings are
// in Inputs; NewPlan gives the defaults. A field that is Blank follows the rule
// that its input names.
type Plan struct {
	Rows [MaxRows]Row

	Fill        quantity.Percent // mix in a new cell, of the table's mass
	Aged        quantity.Percent // of the MnOOH
	Deep        quantity.Percent // of the MnOOH, gone on to hausmannite
	MixCarbon   quantity.Gram    // to 100 g fresh dry oxide and carbon, as the next four
	MixInert    quantity.Percent // of the fresh oxide
	MixAmmonium quantity.Gram
	MixZinc     quantity.Gram
	MixWater    quantity.Gram
	MixPotash   quantity.Gram    // alkaline cells only, as the next
	MixGel      quantity.Percent // of the zinc oxide, that comes along with the rings
	MixIron     quantity.Percent // of what MixInert says
	MixWet      quantity.Gram
	MixWashed   quantity.Gram
	MixAssay    quantity.Percent

	WashSoak       quantity.Millilitre
	WashTimes      float64
	WashEach       quantity.Millilitre
	WashHeld       quantity.MillilitrePerGram
	WashMixing     quantity.Percent
	WashAcid       quantity.Millilitre // of 1 mol/L H2SO4
	WashAfter      float64
	WashSplit      quantity.Percent
	WashHydrolysis quantity.Percent
	WashTarget     quantity.MilligramPerLitre

	BatchShare quantity.Percent
	BatchRuns  float64       // equal batches, one after the other; see Runs
	CakeDamp   quantity.Gram // all of the washed cake, drained
	CakeTaken  quantity.Gram // weighed out of it; see ShareWeighed

	GasSource   Choice
	GasStrength quantity.Percent // mass percent H2SO4
	GasAcid     quantity.Millilitre
	GasCopper   quantity.Gram
	GasSalt     quantity.Gram
	GasWater    quantity.Millilitre
	GasWarm     quantity.Celsius
	GasExcess   quantity.Percent
	GasOver     quantity.Percent // of the copper that the acid takes
	GasEnd      quantity.Percent // mass percent H2SO4; blank with GasSteam follows GasHot and GasSpare
	GasSulfide  quantity.Percent // of the copper
	GasSteam    quantity.Percent // of the water made
	GasHot      quantity.Celsius // of the paste in the generator
	GasSpare    float64          // mol of free acid left to a mole of copper sulfate
	GasUptake   quantity.Percent
	GasDepth    float64 // cm under the slurry's surface
	GasVessels  float64 // of slurry, one behind the other
	GasMinutes  quantity.Minute
	GasFlask    quantity.Millilitre
	GasTrap     quantity.Millilitre
	GasTube     quantity.Millilitre
	GasPurge    quantity.Millilitre
	GasBubble   quantity.Millilitre

	SlurryWater       quantity.Millilitre
	SlurryTemperature quantity.Celsius
	SlurryAcid        quantity.Millilitre // of 1 mol/L H2SO4
	SlurryDithionate  quantity.Percent    // of the reduced equivalents
	SlurrySplit       quantity.Percent    // of the Mn(III)
	SlurryBases       quantity.Percent    // of what bases want of the gas, before the oxide takes its share
	SlurryReach       quantity.Percent    // of the oxide
	SlurryRest        float64             // h, hot, when the reduction is over
	RestWarm          quantity.Celsius
	HeatShare         quantity.Percent // heats given off, of what the tables give
	RestDecay         float64          // %/h of the dithionate, at first, at 90 °C in acid of 1 mol/L
	SlurryVessel      Choice
	SlurryBeaker      quantity.Millilitre

	// What is stirred in, in the ways without a generator.
	StirExcess       quantity.Percent
	SaltCharge       quantity.Gram
	SaltKept         quantity.Percent    // of the gas set free
	PeroxideCharge   quantity.Millilitre // as bought
	PeroxideStrength quantity.Percent    // by mass
	PeroxideLost     quantity.Percent    // broken up by the oxide
	OxalicCharge     quantity.Gram       // of the dihydrate
	OxalicWarm       quantity.Celsius
	OxalicDone       quantity.Percent // of the oxide that can be reached
	OxalicFalls      quantity.Percent // of what is not used up

	IronDissolves quantity.Percent // of the rust, by dilute acid
	IronWay       Choice
	IronKept      quantity.Percent // of the batch's cake, kept back for the iron

	RinseTimes   float64
	RinseEach    quantity.Millilitre
	LossTransfer quantity.Percent

	DryWay         Choice
	DryTemperature quantity.Celsius
	DryRate        quantity.MillilitrePerHour
	DryDish        quantity.Millilitre
	CropVessel     quantity.Millilitre
	DryDithionate  quantity.Percent // left
	CropWater      quantity.Millilitre
	CropCold       quantity.Celsius
	CropHeld       quantity.MillilitrePerGram
	CropTaken      quantity.Percent // of zinc's and ammonium's even share

	CopperWater  quantity.Millilitre
	CopperHot    quantity.Celsius
	CopperCold   quantity.Celsius
	CopperFactor quantity.Percent

	AirTemperature quantity.Celsius
	AirPressure    quantity.Kilopascal

	RoomVolume  room.CubicMetre
	RoomChanges room.PerHour
	RoomEscape  quantity.Percent // of the gas not taken up
	RoomLimit   Choice           // place in room.Limits
}

// NewPlan is the plan that links of the present version are read against (PlanOf, for others):
// six R14 cells out of bicycle lamps that a repair café collected, a quarter of their oxide in
// the first run, nothing weighed yet.
func NewPlan() Plan {
	var p Plan
	for i := range inputs {
		inputs[i].reset(&p)
	}
	return p
}

// present tells whether the row is in the bag.
func (r *Row) present() bool { return quantity.Given(r.Count) }

// opened is how many cells of the row are opened.
func (r *Row) opened() float64 { return math.Max(0, r.Count-r.Rejects) }
