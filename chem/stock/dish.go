package stock

import (
	"math"

	"rosesalt/chem/field"
	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// LongDish is when boiling down takes so long, in hours, that what shortens it is offered.
const LongDish = 8

// Boils says how much a plan boils down, and in how long.
func Boils(p *route.Plan, s *route.Sheet) string { return says("long", p, s) }

// Quicker is what shortens the boiling down of a plan, where it takes long; each is worked
// out before it is offered.
func Quicker(p *route.Plan, s *route.Sheet) (list []Offer) {
	if s.Reason(route.DryHours) != route.Defined || s.Value(route.DryHours) < LongDish {
		return nil
	}
	took := s.Value(route.DryHours)
	var b route.Runner
	try := func(key string, set ...field.Change) {
		q, set, ok := b.Resized(p, set)
		if !ok {
			return
		}
		sheet := b.Run(&q)
		if sheet.Reason(route.DryHours) != route.Defined || pure(sheet) == 0 {
			return
		}
		then := route.Print(sheet.Value(route.DryHours), "h")
		if sheet.Value(route.DryHours) > took-least || then == route.Print(took, "h") {
			return
		}
		salt := func(s *route.Sheet) (grams, pure string) {
			return route.Print(s.Value(route.ProductMass), "g"), route.Print(s.Value(route.ProductPurity), "%")
		}
		was, wasPure := salt(s)
		now, nowPure := salt(sheet)
		told := tell(key, &q, sheet, "hours", then, "share", percent(q.BatchShare), "unfit", UnfitThen(&q, sheet, p, s),
			"salt", says("salt", &q, sheet, "was", phrase.Otherwise(was, now), "was pure", phrase.Otherwise(wasPure, nowPure)))
		list = append(list, offer(told, set))
	}
	try("dishes", field.Change{Key: "dry.rate", Text: route.Plain(2 * float64(p.DryRate))})
	try("half", share(quantity.Percent(roundedDown(float64(p.BatchShare)/2, shareDigits))))
	if p.RinseTimes > 0 {
		try("rinse", field.Change{Key: "rinse.times", Text: route.Plain(math.Max(0, p.RinseTimes-1))})
	}
	return list
}

// least are the hours by which an offer must be shorter to be one (judgement).
const least = 0.5
