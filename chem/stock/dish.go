package stock

import (
	"math"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// LongDish is when boiling down takes so long, in hours, that what shortens it is offered.
const LongDish = 8

// Quicker is what shortens the boiling down of a plan, where it takes long; each is worked
// out before it is offered.
func Quicker(p *route.Plan, s *route.Sheet) (list []Offer) {
	if s.Reason(route.DryHours) != route.Defined || s.Value(route.DryHours) < LongDish {
		return nil
	}
	took := s.Value(route.DryHours)
	var b route.Runner
	offer := func(text, done, says string, cost func(*route.Sheet) string, set ...field.Change) {
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
		list = append(list, Offer{text, says + then + cost(sheet) + ".", done, set})
	}
	offer("Boil down in two dishes", "Two dishes boil down side by side now.", "Two such dishes take ",
		func(*route.Sheet) string { return "; so does one 1.4 times as wide. Twice the fumes at a time" },
		field.Change{Key: "dry.rate", Text: route.Plain(2 * float64(p.DryRate))})
	salt := func(sheet *route.Sheet) string {
		now, then := route.Print(s.Value(route.ProductMass), "g"), route.Print(sheet.Value(route.ProductMass), "g")
		if now == then {
			return ", for the same " + now + " of salt"
		}
		return ", for " + then + " of salt in place of " + now
	}
	half := quantity.Percent(roundedDown(float64(p.BatchShare)/2, shareDigits))
	words := route.Print(float64(half), "%") + " of the mix"
	offer("Take "+words, "It takes "+words+" now.", "Half the share takes ", salt, share(half))
	if p.RinseTimes > 0 {
		offer("Rinse once less", "The residue is rinsed once less now.", "Less water to boil off takes ", salt, field.Change{Key: "rinse.times", Text: route.Plain(math.Max(0, p.RinseTimes-1))})
	}
	return list
}

// least are the hours by which an offer must be shorter to be one (judgement).
const least = 0.5
