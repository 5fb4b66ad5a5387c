package account

import (
	"fmt"
	"math"
	"strings"
	"sync"

	"rosesalt/chem/field"
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
	KeyAcid    = "found.acid"
)

// measurement is the place of a measurement that is weighed against the plan.
type measurement uint8

const (
	product measurement = iota
	crystals
	metal
	residue
	assay
	gas
	measurements = iota
)

var measurementKeys = [measurements]string{KeyProduct, KeyCopper, KeyMetal, KeyResidue, KeyAssay, KeyGas}

const notMeasured = "not measured"

// measured is a field of the record, with the way to its number or fact.
type measured struct {
	field.Field
	at     int // its place among the rows, and of its half-width and its dish in a record
	number func(*Record) *float64
	fact   func(*Record) *bool
	figure route.FigureID // that it is held against; 0 for none
	share  float64        // of the usual half-width: of a mass beside the balance's, of others all of it; 0 for none
	dish   *vessel        // what its mass may be read in; nil for none
}

// inRecord is how many measurements and facts a record has.
const inRecord = 10

// rows are the fields of a record, in bench order.
var rows = [inRecord]measured{
	{
		Field: field.Field{
			Key: KeyAcid, Name: "Dilute acid really poured into the slurry, 1 mol/L", Unit: "mL", Min: 0, Max: 1e6,
			Why:    "0 for none. Without it little dissolves, and the account takes it for granted only when it is said.",
			Remedy: "Give millilitres of acid of 1 mol/L; of other acid, its moles by 1000.",
		},
		number: func(r *Record) *float64 { return &r.Acid },
	},
	{
		Field: field.Field{
			Key: KeyGas, Name: "Gas counted", Unit: "mmol", Min: 0, Max: 1e6,
			Why:    "Bubbles counted, times the bubble, by the molar volume. Rough, but it sees the gas alone.",
			Remedy: "Give thousandths of a mole; a litre of the gas is about 41.",
		},
		number: func(r *Record) *float64 { return &r.Gas }, figure: route.GasMade, share: gasShare,
	},
	{
		Field: field.Field{
			Key: KeyResidue, Name: "Black residue, dried and weighed", Unit: "g", Min: 0, Max: 1e5,
			Why:    "Dry it at 105 to 120 °C until it loses no more, the paper taken off.",
			Remedy: "Weigh in grams, dry; a wet cake weighs up to twice as much.",
		},
		number: func(r *Record) *float64 { return &r.Residue }, figure: route.ResidueMass, share: residueHandling,
		dish: &vessel{"Paper or dish", "residue", true},
	},
	{
		Field: field.Field{
			Key: KeyProduct, Name: "Manganese sulfate, weighed", Unit: "g", Min: 0, Max: 1e5,
			Why:    "Full less empty, once two weighings an hour apart agree.",
			Remedy: "Weigh in grams, the dish taken off.",
		},
		number: func(r *Record) *float64 { return &r.Product }, figure: route.ProductMass, share: productHandling,
		dish: &vessel{"Dish", "salt", true},
	},
	{
		Field: field.Field{
			Key: KeyDried, Name: "It was dried at", Unit: "°C", Min: 0, Max: 650,
			Why:    "Decides how much water is taken to be in it; blank means as planned.",
			Remedy: "Above 650 °C the sulfate itself breaks up.",
		},
		number: func(r *Record) *float64 { return &r.Dried },
	},
	{
		Field: field.Field{
			Key: KeyAssay, Name: "Manganese found in it", Unit: "%", Min: 0, Max: 100,
			Why:    "By mass, as weighed. The pure monohydrate holds 32.5, the anhydrous salt 36.4.",
			Remedy: "Give mass percent of manganese, not of its sulfate.",
		},
		number: func(r *Record) *float64 { return &r.Assay }, share: assayShare,
	},
	{
		Field: field.Field{
			Key: KeyMetal, Name: "Copper left, weighed", Unit: "g", Min: 0, Max: 1e5,
			Why:    "Rinsed of the black sulfide and dried.",
			Remedy: "Weigh in grams.",
		},
		number: func(r *Record) *float64 { return &r.Metal }, figure: route.CopperLeft, share: metalHandling,
		dish: &vessel{"Dish", "copper", false},
	},
	{
		Field: field.Field{
			Key: KeyCopper, Name: "Blue crystals, weighed", Unit: "g", Min: 0, Max: 1e6,
			Why:    "Of the first cooling, drained and dry to the touch. They tell what gas was made at least.",
			Remedy: "Weigh in grams, drained and dry.",
		},
		number: func(r *Record) *float64 { return &r.Copper }, figure: route.CopperCrop, share: crystalHandling,
		dish: &vessel{"Jar or dish", "crystals", false},
	},
	{
		Field: field.Field{
			Key: KeyOxide, Name: "The copper was dark scrap", Kind: field.Fact, Min: 0, Max: 1, Whole: true,
			Why: "Oxide on the copper gives blue salt without any gas.",
		},
		fact: func(r *Record) *bool { return &r.OxideOnCopper },
	},
	{
		Field: field.Field{
			Key: KeyWet, Name: "The blue crystals were weighed wet", Kind: field.Fact, Min: 0, Max: 1, Whole: true,
			Why: "Liquor between them weighs with them.",
		},
		fact: func(r *Record) *bool { return &r.WetCrystals },
	},
}

func init() {
	for i := range rows {
		f := &rows[i].Field
		rows[i].at = i
		f.Standing = field.Measured
		if f.Kind != field.Fact {
			f.Blank, f.Default = notMeasured, quantity.Blank
		}
	}
}

// rowOf is the row that a key belongs to, and what stands behind the row's own key: "" for
// the measurement itself, "~" for its half-width, ".empty" or ".full.2" for a reading of its
// dish. Nil for a key of none.
func rowOf(key string) (row *measured, behind string) {
	for i := range rows {
		if behind, ok := strings.CutPrefix(key, rows[i].Key); ok {
			return &rows[i], behind
		}
	}
	return nil, key
}

// Inputs are the measurements, in bench order. The caller must not change them.
func Inputs() (list []*field.Field) {
	for i := range rows {
		list = append(list, &rows[i].Field)
	}
	return list
}

// InputByKey finds a measurement, a reading of its dish, or with a tilde behind the key of
// either its half-width.
func InputByKey(key string) (*field.Field, bool) {
	of, half := strings.CutSuffix(key, "~")
	row, behind := rowOf(of)
	if row == nil {
		return nil, false
	}
	f, ok := &row.Field, behind == ""
	if !ok {
		f, ok = field.Find(row.readings(), of)
	}
	if ok && half {
		f = halfOf(f)
	}
	return f, ok
}

// halfOf is the field of a half-width.
func halfOf(f *field.Field) *field.Field {
	half := *f
	half.Key, half.Kind = f.Key+"~", field.Number
	return &half
}

// Form is the record as it is typed: each measurement, the readings of its dish, its
// half-width. A mass that follows from its dish is written by the dish's readings.
func (r *Record) Form() field.Form {
	form := field.Form{Affects: field.Account, Fields: formFields(), Find: InputByKey}
	return form.Values(func(f *field.Field) (float64, bool) {
		v := r.own(f.Key)
		return v, quantity.Given(v) && !r.InDish(f.Key) && !(f.Kind == field.Fact && v == 0)
	}, func(f *field.Field, v float64) error { return r.Set(f.Key, v) })
}

var formFields = sync.OnceValue(func() (list []*field.Field) {
	for i := range rows {
		list = append(append(list, &rows[i].Field), rows[i].readings()...)
		if rows[i].share > 0 {
			list = append(list, halfOf(&rows[i].Field))
		}
	}
	return list
})

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
	Acid    float64 // mL of 1 mol/L that went into the slurry

	OxideOnCopper bool // the copper was dark scrap
	WetCrystals   bool // the blue crystals were weighed wet

	// By row: half-widths that were set, each in its field's unit, Blank where the usual one
	// holds; and the readings that a mass follows from.
	halves [inRecord]float64
	dishes [inRecord]Dish
}

// NewRecord is a record of nothing measured.
func NewRecord() Record {
	b := quantity.Blank
	r := Record{Product: b, Dried: b, Copper: b, Metal: b, Residue: b, Assay: b, Gas: b, Acid: b}
	for i := range rows {
		r.halves[i], r.dishes[i] = b, newDish()
	}
	return r
}

// place is where a number of the record stands: a measurement, a reading of a dish, or the
// half-width that was set; nil for a fact, and for a key of none.
func (r *Record) place(key string) *float64 {
	row, behind := rowOf(key)
	switch {
	case row == nil:
	case behind == "" && row.number != nil:
		return row.number(r)
	case behind == "~" && row.share > 0:
		return &r.halves[row.at]
	case row.dish != nil:
		return row.reading(r, key)
	}
	return nil
}

// own is what the record holds: Blank where nothing was measured or set, 0 or 1 for a fact.
func (r *Record) own(key string) float64 {
	if v := r.place(key); v != nil {
		return *v
	}
	if row, behind := rowOf(key); row == nil || behind != "" || row.fact == nil {
		return quantity.Blank
	} else if *row.fact(r) {
		return 1
	}
	return 0
}

// Value is what the record holds: Blank where nothing was measured, 0 or 1 for a fact.
// With a tilde behind the key it is the half-width, see Half.
func (r *Record) Value(key string) float64 {
	if of, is := strings.CutSuffix(key, "~"); is {
		return r.Half(of)
	}
	return r.own(key)
}

// Set puts a number into the record, Blank included; a fact takes 0 or 1. With a tilde
// behind the key it sets the half-width; Blank brings back the usual one. It refuses,
// and changes nothing, what the field does not take, with a sentence for the user.
func (r *Record) Set(key string, v float64) error {
	f, ok := InputByKey(key)
	row, behind := rowOf(key)
	of, half := strings.CutSuffix(key, "~")
	switch {
	case half && r.place(key) == nil:
		return fmt.Errorf("“%s” takes no tolerance", of)
	case half && quantity.Given(v) && !(v > 0 && v < math.Inf(1)):
		return fmt.Errorf("A tolerance is a half-width above 0. Leave it blank for the usual one.")
	case half:
		*r.place(key) = v
		return nil
	case !ok:
		return fmt.Errorf("“%s” is not measured here", key)
	case r.InDish(key):
		return fmt.Errorf("This follows from the dish weighed empty and full. Clear those to type the mass itself.")
	}
	if err := f.Accept(v); err != nil {
		return err
	}
	switch {
	case row.fact != nil:
		*row.fact(r) = v == 1
	case behind != "":
		return row.weigh(r, key, v)
	default:
		*row.number(r) = v
	}
	return nil
}

// Empty tells whether nothing was measured that could be held against the plan.
func (r *Record) Empty() bool {
	for f := range measurement(measurements) {
		if quantity.Given(r.at(f)) {
			return false
		}
	}
	return true
}

// FigureOf is the figure that a measurement is held against; not ok for none.
func FigureOf(key string) (id route.FigureID, ok bool) {
	if row, behind := rowOf(key); row != nil && behind == "" {
		id = row.figure
	}
	return id, id > 0
}

func (r *Record) at(f measurement) float64 { return *ofMeasurement[f].number(r) }

// ofMeasurement are the rows of the measurements that are held against the plan.
var ofMeasurement = func() (list [measurements]*measured) {
	for f, key := range measurementKeys {
		list[f], _ = rowOf(key)
	}
	return list
}()

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
	own := r.OwnHalf(key)
	if quantity.Given(own) || r.place(key+"~") == nil {
		return own
	}
	if v := r.own(key); quantity.Given(v) {
		return usualHalf(key, v)
	}
	return quantity.Blank
}

func usualHalf(key string, v float64) float64 {
	row, _ := rowOf(key)
	half := row.share * v
	if row.Unit == "g" {
		half += math.Min(balanceGrams, balanceShare*v)
	}
	return math.Max(half, leastHalf)
}

// OwnHalf is the half-width that the record itself sets for a measurement; Blank where the
// usual one holds.
func (r *Record) OwnHalf(key string) float64 { return r.own(key + "~") }

func (r *Record) half(f measurement) float64 { return r.Half(measurementKeys[f]) }
