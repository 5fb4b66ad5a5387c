package account

import (
	"fmt"
	"math"
	"strconv"

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

// dishes are the masses that may be read in a dish, and what to call it and what lies in
// it. Logged ones are weighed again until they lose no more.
var dishes = [...]struct {
	key, vessel, in string
	logged          bool
}{
	{KeyResidue, "Paper or dish", "residue", true},
	{KeyProduct, "Dish", "salt", true},
	{KeyMetal, "Dish", "copper", false},
	{KeyCopper, "Jar or dish", "crystals", false},
}

// dishInputs describe the readings of each dish: the empty one, then the full ones.
var dishInputs = func() (all [len(dishes)][1 + Weighings]route.Input) {
	for i, d := range dishes {
		stage := route.Dry
		for k := range inputs {
			if inputs[k].Key == d.key {
				stage = inputs[k].Stage
			}
		}
		for j := range all[i] {
			in := &all[i][j]
			*in = route.Input{
				Unit: "g", Stage: stage, Max: 2e6, Standing: route.Measured,
				Blank: notMeasured, Default: quantity.Blank, Remedy: "Weigh in grams.",
			}
			switch j {
			case 0:
				in.Key, in.Name = d.key+".empty", d.vessel+", empty"
				in.Why = "Clean and dry, before anything goes in."
			case 1:
				in.Key, in.Name = d.key+".full", d.vessel+" and "+d.in
			default:
				in.Key, in.Name = d.key+".full."+strconv.Itoa(j), d.vessel+" and "+d.in+", weighing "+strconv.Itoa(j)
			}
		}
	}
	return all
}()

// DishInputs describe the readings that make up a mass: the empty dish, then the full
// one as often as it may be weighed; nil for a field that takes none. Logged tells
// whether it is weighed again until it loses no more. The caller must not change them.
func DishInputs(key string) (inputs []route.Input, logged bool) {
	for i, d := range dishes {
		if d.key != key {
			continue
		}
		if d.logged {
			return dishInputs[i][:], true
		}
		return dishInputs[i][:2], false
	}
	return nil, false
}

// DishOf is the mass that a reading belongs to: "found.product" of "found.product.full.2".
func DishOf(key string) (of string, ok bool) {
	dish, _, ok := dishPlace(key)
	if !ok {
		return "", false
	}
	return dishes[dish].key, true
}

// dishPlace finds a reading: which dish, and which of its inputs.
func dishPlace(key string) (dish, at int, ok bool) {
	for i := range dishes {
		list, _ := DishInputs(dishes[i].key)
		for j := range list {
			if list[j].Key == key {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// Dish is the readings of a mass; nil for a field that takes none.
func (r *Record) Dish(key string) *Dish {
	for i := range dishes {
		if dishes[i].key == key {
			return &r.dishes[i]
		}
	}
	return nil
}

// InDish tells whether a mass follows from a dish weighed empty and full.
func (r *Record) InDish(key string) bool {
	d := r.Dish(key)
	return d != nil && quantity.Given(d.Net())
}

func (r *Record) reading(dish, at int) *float64 {
	if at == 0 {
		return &r.dishes[dish].Empty
	}
	return &r.dishes[dish].Full[at-1]
}

// setReading puts a reading into its dish, and the net mass into the record.
func (r *Record) setReading(dish, at int, v float64) error {
	in := &dishInputs[dish][at]
	if err := in.Accept(v); err != nil {
		return err
	}
	of, _ := InputByKey(dishes[dish].key)
	was, hung := r.dishes[dish], r.InDish(of.Key)
	*r.reading(dish, at) = v
	net := r.dishes[dish].Net()
	if quantity.Given(net) {
		if net < 0 {
			d := r.dishes[dish]
			r.dishes[dish] = was
			return fmt.Errorf("Full (%s) is lighter than empty (%s). One of the two is a slip.", route.Print(d.Full[d.last()], "g"), route.Print(d.Empty, "g"))
		}
		if err := of.Accept(net); err != nil {
			r.dishes[dish] = was
			return err
		}
	}
	if quantity.Given(net) || hung {
		*r.number(of.Key) = net
	}
	return nil
}
