package account

import (
	"fmt"
	"math"
	"strconv"
	"sync"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Weighings is how many readings of a filled dish a record keeps.
const Weighings = 6

// Dish is a mass read as a balance gives it: the dish, jar or paper empty, and then
// filled, as often as it was weighed while it dried. In grams; Blank where not weighed.
type Dish struct {
	Empty float64
	Full  [Weighings]float64
}

func newDish() Dish {
	d := Dish{Empty: quantity.Blank}
	for i := range d.Full {
		d.Full[i] = quantity.Blank
	}
	return d
}

// last is the place of the last reading of the filled dish; below zero without one.
func (d *Dish) last() int {
	for i := Weighings - 1; i >= 0; i-- {
		if quantity.Given(d.Full[i]) {
			return i
		}
	}
	return -1
}

// Weighed is how many places for readings are in use, gaps included.
func (d *Dish) Weighed() int { return d.last() + 1 }

// Net is the last full reading less the empty one, in grams; Blank while either is
// missing.
func (d *Dish) Net() float64 {
	at := d.last()
	if at < 0 || !quantity.Given(d.Empty) {
		return quantity.Blank
	}
	return tidy(d.Full[at] - d.Empty)
}

// tidy takes away the dust of binary fractions: balances do not read micrograms here.
func tidy(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// Drying says how far the drying is.
type Drying uint8

// The states of a drying.
const (
	NotWeighed Drying = iota
	WeighedOnce
	StillLosing // lighter than the time before
	Gaining     // heavier than the time before
	Constant    // two weighings agree
	NoDish      // weighed twice, but the empty dish is not known
)

// agreement is the share of the net mass within which two weighings agree. The
// United States Pharmacopeia asks 0.50 mg a gram for a constant weight (quoted by a maker
// of balances), finer than a bench scale reads;
// five times that is a fortieth of one water of crystallisation in the monohydrate.
const agreement = 0.0025

// Drying compares the last two readings of the filled dish; change is the last less the
// one before, in grams, Blank where there are not two.
func (d *Dish) Drying() (state Drying, change float64) {
	at, before := d.last(), -1
	for i := range max(at, 0) {
		if quantity.Given(d.Full[i]) {
			before = i
		}
	}
	switch {
	case at < 0:
		return NotWeighed, quantity.Blank
	case before < 0:
		return WeighedOnce, quantity.Blank
	}
	net := d.Net()
	if !quantity.Given(net) { // what is dried is not known without the dish
		return NoDish, quantity.Blank
	}
	change = tidy(d.Full[at] - d.Full[before])
	switch {
	case math.Abs(change) <= agreement*net:
		return Constant, change
	case change < 0:
		return StillLosing, change
	}
	return Gaining, change
}

// vessel is what a mass may be read in.
type vessel struct {
	name, in string
	logged   bool // weighed again until it loses no more
}

// readings are the fields of the readings that make up a mass: the empty dish, then the
// full ones; nil for a measurement that takes none.
func (m *measured) readings() []*field.Field {
	return dishFields()[m.at]
}

var dishFields = sync.OnceValue(func() (all [inRecord][]*field.Field) {
	for i := range rows {
		m := &rows[i]
		if m.dish == nil {
			continue
		}
		full := 1
		if m.dish.logged {
			full = Weighings
		}
		for j := range 1 + full {
			f := &field.Field{
				Key: m.Key + ".full", Name: m.dish.name + " and " + m.dish.in, Unit: "g", Max: 2e6, Standing: field.Measured,
				Blank: notMeasured, Default: quantity.Blank, Remedy: "Weigh in grams.", Clears: m.Key,
			}
			switch {
			case j == 0:
				f.Key, f.Name, f.Why = m.Key+".empty", m.dish.name+", empty", "Clean and dry, before anything goes in."
			case j > 1:
				f.Key, f.Name = f.Key+"."+strconv.Itoa(j), f.Name+", weighing "+strconv.Itoa(j)
			}
			all[i] = append(all[i], f)
		}
	}
	return all
})

// DishInputs are the fields of the readings that make up a mass: the empty dish, then the
// full one as often as it may be weighed; nil for a field that takes none. Logged tells
// whether it is weighed again until it loses no more. The caller must not change them.
func DishInputs(key string) (inputs []*field.Field, logged bool) {
	row := inDish(key)
	if row == nil {
		return nil, false
	}
	return row.readings(), row.dish.logged
}

// inDish is the row of a mass that may be read in a dish; nil for the key of anything else.
func inDish(key string) *measured {
	if row, behind := rowOf(key); row != nil && behind == "" && row.dish != nil {
		return row
	}
	return nil
}

// Dish is the readings of a mass; nil for a field that takes none.
func (r *Record) Dish(key string) *Dish {
	row := inDish(key)
	if row == nil {
		return nil
	}
	return &r.dishes[row.at]
}

// InDish tells whether a mass follows from a dish weighed empty and full.
func (r *Record) InDish(key string) bool {
	d := r.Dish(key)
	return d != nil && quantity.Given(d.Net())
}

// reading is where a reading of the dish stands; nil where the key is of none.
func (m *measured) reading(r *Record, key string) *float64 {
	d := &r.dishes[m.at]
	for i, f := range m.readings() {
		switch {
		case f.Key != key:
		case i == 0:
			return &d.Empty
		default:
			return &d.Full[i-1]
		}
	}
	return nil
}

// weigh puts a reading into its dish, and the net mass into the record.
func (m *measured) weigh(r *Record, key string, v float64) error {
	d := &r.dishes[m.at]
	was, hung := *d, r.InDish(m.Key)
	*m.reading(r, key) = v
	net := d.Net()
	if quantity.Given(net) {
		full := d.Full[d.last()]
		err := m.Accept(net)
		if net < 0 {
			err = fmt.Errorf("Full (%s) is lighter than empty (%s). One of the two is a slip.", route.Print(full, "g"), route.Print(d.Empty, "g"))
		}
		if err != nil {
			*d = was
			return err
		}
	}
	if quantity.Given(net) || hung {
		*m.number(r) = net
	}
	return nil
}
