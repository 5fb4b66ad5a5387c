package account

import (
	"fmt"
	"math"
	"strings"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// The keys of the record.
const (
	KeyProduct = "found.product"
	KeyDried   = "found.dried"
	KeyCopper  = "found.copper"
	KeyMetal   = "found.metal"
	KeyResidue = "found.residue"
	KeyAssay   = "found.assay"
	KeyGas     = "found.gas"
	KeyOxide   = "found.oxide"
	KeyWet     = "found.wet"
)

// field is the place of a measurement that is weighed against the plan.
type field uint8

const (
	product field = iota
	crystals
	metal
	residue
	assay
	gas
	fields = iota
)

var fieldKeys = [fields]string{KeyProduct, KeyCopper, KeyMetal, KeyResidue, KeyAssay, KeyGas}

const notMeasured = "not measured"

// inputs of the record, in bench order. They describe: limits, words, Accept. The
// values are kept in a Record, not in a plan, so Set, Value and Copy of route.Input
// are not for them.
var inputs = []route.Input{
	{
		Key: KeyGas, Name: "Gas counted", Unit: "mmol", Stage: route.Gas, Min: 0, Max: 1e6,
		Why:    "Bubbles counted, times the bubble, by the molar volume. Rough, but it sees the gas alone.",
		Remedy: "Give thousandths of a mole; a litre of the gas is about 41.",
	},
	{
		Key: KeyResidue, Name: "Black residue, dried and weighed", Unit: "g", Stage: route.Filter, Min: 0, Max: 1e5,
		Why:    "Dry it at 105 to 120 °C until it loses no more, the paper taken off.",
		Remedy: "Weigh in grams, dry; a wet cake weighs up to twice as much.",
	},
	{
		Key: KeyProduct, Name: "Manganese sulfate, weighed", Unit: "g", Stage: route.Dry, Min: 0, Max: 1e5,
		Why:    "Full less empty, once two weighings an hour apart agree.",
		Remedy: "Weigh in grams, the dish taken off.",
	},
	{
		Key: KeyDried, Name: "It was dried at", Unit: "°C", Stage: route.Dry, Min: 0, Max: 650,
		Why:    "Decides how much water is taken to be in it; blank means as planned.",
		Remedy: "Above 650 °C the sulfate itself breaks up.",
	},
	{
		Key: KeyAssay, Name: "Manganese found in it", Unit: "%", Stage: route.Dry, Min: 0, Max: 100,
		Why:    "By mass, as weighed. The pure monohydrate holds 32.5, the anhydrous salt 36.4.",
		Remedy: "Give mass percent of manganese, not of its sulfate.",
	},
	{
		Key: KeyMetal, Name: "Copper left, weighed", Unit: "g", Stage: route.CopperSalt, Min: 0, Max: 1e5,
		Why:    "Rinsed of the black sulfide and dried.",
		Remedy: "Weigh in grams.",
	},
	{
		Key: KeyCopper, Name: "Blue crystals, weighed", Unit: "g", Stage: route.CopperSalt, Min: 0, Max: 1e6,
		Why:    "Of the first cooling, drained and dry to the touch. They tell what gas was made at least.",
		Remedy: "Weigh in grams, drained and dry.",
	},
	{
		Key: KeyOxide, Name: "The copper was dark scrap", Stage: route.CopperSalt, Min: 0, Max: 1, Whole: true, Default: 0,
		Why: "Oxide on the copper gives blue salt without any gas.",
	},
	{
		Key: KeyWet, Name: "The blue crystals were weighed wet", Stage: route.CopperSalt, Min: 0, Max: 1, Whole: true, Default: 0,
		Why: "Liquor between them weighs with them.",
	},
}

func init() {
	for i := range inputs {
		in := &inputs[i]
		in.Standing = route.Measured
		if in.Key == KeyOxide || in.Key == KeyWet {
			continue
		}
		in.Blank, in.Default = notMeasured, quantity.Blank
	}
}

// Inputs describe the fields of a record, in bench order. The caller must not change
// them, and must read and set values by the methods of Record: those of route.Input
// that take a plan do not work on them.
func Inputs() []route.Input { return inputs }

// InputByKey finds the description of a field, or of a reading of its dish.
func InputByKey(key string) (*route.Input, bool) {
	for i := range inputs {
		if inputs[i].Key == key {
			return &inputs[i], true
		}
	}
	if dish, at, ok := dishPlace(key); ok {
		return &dishInputs[dish][at], true
	}
	return nil, false
}

// IsFact tells whether a field is a tick box: 0 or 1.
func IsFact(key string) bool { return key == KeyOxide || key == KeyWet }

// Tolerances are half-widths of the weighings, each in its field's unit; Blank where
// the usual one holds.
type Tolerances struct{ Product, Copper, Metal, Residue, Assay, Gas float64 }

// Record is what was measured of a run; Blank where it was not. Begin with NewRecord:
// in a zero Record everything was found to be nothing.
type Record struct {
	Product float64 // g of manganese sulfate as weighed
	Dried   float64 // °C at which it was dried; Blank as planned
	Copper  float64 // g of blue crystals
	Metal   float64 // g of copper left
	Residue float64 // g of dry residue
	Assay   float64 // mass percent manganese in the product
	Gas     float64 // mmol

	OxideOnCopper bool // the copper was dark scrap
	WetCrystals   bool // the blue crystals were weighed wet

	Tolerance Tolerances

	dishes [len(dishes)]Dish // the readings that a mass follows from
}

// NewRecord is a record of nothing measured.
func NewRecord() Record {
	b := quantity.Blank
	r := Record{b, b, b, b, b, b, b, false, false, Tolerances{b, b, b, b, b, b}, [len(dishes)]Dish{}}
	for i := range r.dishes {
		r.dishes[i] = newDish()
	}
	return r
}

func (r *Record) number(key string) *float64 {
	switch key {
	case KeyProduct:
		return &r.Product
	case KeyDried:
		return &r.Dried
	case KeyCopper:
		return &r.Copper
	case KeyMetal:
		return &r.Metal
	case KeyResidue:
		return &r.Residue
	case KeyAssay:
		return &r.Assay
	case KeyGas:
		return &r.Gas
	}
	return nil
}

func (r *Record) tolerance(key string) *float64 {
	t := &r.Tolerance
	switch key {
	case KeyProduct:
		return &t.Product
	case KeyCopper:
		return &t.Copper
	case KeyMetal:
		return &t.Metal
	case KeyResidue:
		return &t.Residue
	case KeyAssay:
		return &t.Assay
	case KeyGas:
		return &t.Gas
	}
	return nil
}

func (r *Record) fact(key string) *bool {
	switch key {
	case KeyOxide:
		return &r.OxideOnCopper
	case KeyWet:
		return &r.WetCrystals
	}
	return nil
}

// Value is what the record holds: Blank where nothing was measured, 0 or 1 for a fact.
// With a tilde behind the key it is the half-width, see Half.
func (r *Record) Value(key string) float64 {
	if of, is := strings.CutSuffix(key, "~"); is {
		return r.Half(of)
	}
	if b := r.fact(key); b != nil {
		if *b {
			return 1
		}
		return 0
	}
	if v := r.number(key); v != nil {
		return *v
	}
	if dish, at, ok := dishPlace(key); ok {
		return *r.reading(dish, at)
	}
	return quantity.Blank
}

// Set puts a number into the record, Blank included; a fact takes 0 or 1. With a tilde
// behind the key it sets the half-width; Blank brings back the usual one. It refuses,
// and changes nothing, what the field does not take, with a sentence for the user.
func (r *Record) Set(key string, v float64) error {
	if of, is := strings.CutSuffix(key, "~"); is {
		t := r.tolerance(of)
		switch {
		case t == nil:
			return fmt.Errorf("“%s” takes no tolerance", of)
		case quantity.Given(v) && !(v > 0 && v < math.Inf(1)):
			return fmt.Errorf("A tolerance is a half-width above 0. Leave it blank for the usual one.")
		}
		*t = v
		return nil
	}
	if dish, at, ok := dishPlace(key); ok {
		return r.setReading(dish, at, v)
	}
	in, ok := InputByKey(key)
	if !ok {
		return fmt.Errorf("“%s” is not measured here", key)
	}
	if r.InDish(key) {
		return fmt.Errorf("This follows from the dish weighed empty and full. Clear those to type the mass itself.")
	}
	if err := in.Accept(v); err != nil {
		return err
	}
	if b := r.fact(key); b != nil {
		*b = v == 1
		return nil
	}
	*r.number(key) = v
	return nil
}

// Inputs describe the fields; see the function of the same name.
func (r *Record) Inputs() []route.Input { return inputs }

// Empty tells whether nothing was measured that could be held against the plan.
func (r *Record) Empty() bool {
	for f := range field(fields) {
		if quantity.Given(r.at(f)) {
			return false
		}
	}
	return true
}

func (r *Record) at(f field) float64 { return *r.number(fieldKeys[f]) }

// The usual half-widths. The balance: a kitchen balance reads to 1 g and errs by two of
// its steps (common practice); for little a pocket scale is taken, so that it never
// costs more than 4 %, as in package spread. Handling, all estimates: the salt creeps
// and draws water while it cools; crystals stay on the glass or hold a drop; black
// sulfide sticks to the copper; fines go through the paper. The assay: burette, end
// point and a gram that may not be like the rest. The gas: bubbles miscounted, and each a
// fifth larger or smaller than thought.
const (
	balanceGrams    = 2.0
	balanceShare    = 0.04
	productHandling = 0.02
	crystalHandling = 0.05
	metalHandling   = 0.02
	residueHandling = 0.04
	assayShare      = 0.03
	gasShare        = 0.20
	leastHalf       = 0.05 // g, mmol or percent: below it nothing here can be read
)

// Half is the half-width of a measurement: what the record sets, or the usual one at
// the value found. Blank where nothing was measured and nothing is set, and for a
// field without one.
func (r *Record) Half(key string) float64 {
	t := r.tolerance(key)
	if t == nil {
		return quantity.Blank
	}
	if quantity.Given(*t) {
		return *t
	}
	v := *r.number(key)
	if !quantity.Given(v) {
		return quantity.Blank
	}
	return usualHalf(key, v)
}

func usualHalf(key string, v float64) float64 {
	half := math.Min(balanceGrams, balanceShare*v)
	switch key {
	case KeyProduct:
		half += productHandling * v
	case KeyCopper:
		half += crystalHandling * v
	case KeyMetal:
		half += metalHandling * v
	case KeyResidue:
		half += residueHandling * v
	case KeyAssay:
		half = assayShare * v
	case KeyGas:
		half = gasShare * v
	}
	return math.Max(half, leastHalf)
}

// OwnHalf is the half-width that the record itself sets for a measurement; Blank where the
// usual one holds.
func (r *Record) OwnHalf(key string) float64 {
	if t := r.tolerance(key); t != nil {
		return *t
	}
	return quantity.Blank
}

func (r *Record) half(f field) float64 { return r.Half(fieldKeys[f]) }
