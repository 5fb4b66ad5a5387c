// Package stock holds a plan against what is at hand: reagents on the shelf, what may be
// bought, the size of the vessels, the hours that a dish takes.
//
// A share of the mix that nobody set is brought within the shelf (Fit). Nothing else is
// changed: what does not suffice is named (Fitted), and what would is offered (Offers,
// Quicker). All of it is found by working plans out; there is no second model.
package stock

import (
	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Shelf is what is said of the shelf, by key, each in the unit of its field; a key that is
// not there was not said. It may be nil.
type Shelf map[string]float64

// item is something that stands on the shelf.
type item struct {
	key  string
	word string // in a sentence
	buy  string // key of whether it may be bought; "" where everybody may
	asks func(*route.Plan, *route.Sheet) float64
}

// ShareKey is the key of what becomes of a share that nobody set, and Usual its word for the
// usual share, whatever stands on the shelf; else it is as much as the shelf allows, at most
// the usual share.
const (
	ShareKey = "shelf.share"
	Usual    = "usual"

	usually = 1 // the place of Usual
)

// TakenKey is the key of whether what a run used was taken off the shelf.
const (
	TakenKey = "shelf.taken"
	taken    = 1 // the place of yes
)

// The words of whether something may be bought.
const (
	unsaid = iota
	buyable
	notToBeHad
)

var fields field.Readings

var items []item

func init() {
	add := func(key, name, unit, word, why string) {
		fields.Add(&field.Field{Key: key, Name: name, Unit: unit, Max: 1e5, Blank: "not said", Why: why, Remedy: "Give what stands on the shelf."})
		items = append(items, item{key: key, word: word, asks: ofReductant(key)})
	}
	add("shelf.acid", "Sulfuric acid", "mL", "acid", "Of the strength that the plan counts, for all its uses.")
	items[0].asks = func(p *route.Plan, s *route.Sheet) float64 { return route.StrongAcid(p, s).All() }
	add("shelf.copper", "Copper, bare", "g", "copper", "Wire or offcuts.")
	add("shelf.metabisulfite", "Metabisulfite", "g", "metabisulfite", "The sodium salt.")
	add("shelf.peroxide", "Hydrogen peroxide", "mL", "peroxide", "Of the strength that the plan counts, 3 % unless you set another.")
	add("shelf.oxalic", "Oxalic acid", "g", "oxalic acid", "The dihydrate.")
	may := func(of, name, why string) {
		key := "shelf.buy." + of
		fields.Add(&field.Field{Key: key, Name: name, Why: why, Options: field.Words("unsaid", "not said", "yes", "yes", "no", "no")})
		for i := range items {
			if items[i].key == "shelf."+of {
				items[i].buy = key
			}
		}
	}
	may("acid", "Strong sulfuric acid", "90 % or more. What shops sell freely does for dilute acid.")
	may("metabisulfite", "Metabisulfite", "")
	may("peroxide", "Peroxide", "")
	may("oxalic", "Oxalic acid", "")
	fields.Add(&field.Field{
		Key: ShareKey, Name: "The share of the mix, while you set none", Options: field.Words("within", "a quarter, or less where the shelf holds less", Usual, "a quarter, whatever the shelf holds"),
		Why: "A share that you set stands as it is.",
	})
	fields.Add(&field.Field{Key: TakenKey, Name: "What this run used", Options: field.Words("no", "still counted above", "yes", "taken off above")})
}

// Fields are the fields of the shelf, in the order of a link. The caller must not change them.
func Fields() []*field.Field { return fields.Fields }

// Form is the shelf as it is typed.
func (s Shelf) Form() field.Form { return fields.Form(field.Figures, s) }

// Says tells whether anything is said of the shelf.
func (s Shelf) Says() bool {
	for key, v := range s {
		if key != ShareKey && key != TakenKey && quantity.Given(v) {
			return true
		}
	}
	return false
}

// has is how much of something stands on the shelf; not ok where that is not said.
func (s Shelf) has(it *item) (amount float64, ok bool) {
	amount, ok = s[it.key]
	return amount, ok && quantity.Given(amount)
}

// Stands is how much of a reagent of a plan stands on the shelf, in the unit of its field, and its
// word in a sentence; not ok where that is not said.
func (s Shelf) Stands(p *route.Plan, id route.ReagentID) (word string, amount float64, ok bool) {
	it := itemOf(p, id)
	if it == nil {
		return "", 0, false
	}
	amount, ok = s.has(it)
	return it.word, amount, ok
}

// itemOf is the thing on the shelf that is a reagent of a plan; nil where none is.
func itemOf(p *route.Plan, id route.ReagentID) *item {
	for i := range items {
		it := &items[i]
		if id == route.StrongAcidReagent && i == 0 || id == route.ReductantReagent && it.key == route.ReductantOf(p).Shelf {
			return it
		}
	}
	return nil
}

// bounds is how much of something there can be for a plan: what stands on the shelf, unless more may
// be bought; not ok where nothing bounds it. Where there is no strong acid, a way that can be gone
// without takes what shops sell.
func (s Shelf) bounds(it *item, p *route.Plan) (amount float64, ok bool) {
	amount, ok = s.has(it)
	return amount, ok && s[it.buy] != buyable && (needs(p, it) || !s.none(it))
}

// none tells whether there is nothing of it, and none can be bought.
func (s Shelf) none(it *item) bool {
	amount, said := s.has(it)
	buy := s[it.buy]
	return amount == 0 && (buy == notToBeHad || said && buy != buyable)
}

// ofReductant is how much a plan takes of what goes in beside acid, where that is the thing
// of a key.
func ofReductant(key string) func(*route.Plan, *route.Sheet) float64 {
	return func(p *route.Plan, s *route.Sheet) float64 {
		if r := route.ReductantOf(p); r.Shelf == key && s.Reason(r.Used) == route.Defined {
			return s.Value(r.Used)
		}
		return 0
	}
}
