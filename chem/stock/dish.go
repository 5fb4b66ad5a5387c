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
	add := func(o Offer, cost func(*route.Sheet) string) {
		q, set, ok := b.Resized(p, o.Set)
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
		o.Gives, o.Set = o.Gives+then+cost(sheet)+".", set
		list = append(list, o)
	}
	set := func(key string, v float64) []field.Change { return []field.Change{{Key: key, Text: route.Plain(v)}} }
	add(Offer{"Boil down in two dishes", "Two such dishes take ", "Two dishes boil down side by side now.", set("dry.rate", 2*float64(p.DryRate))},
		func(*route.Sheet) string { return "; so does one 1.4 times as wide. Twice the fumes at a time" })
	salt := func(sheet *route.Sheet) string {
		now, then := route.Print(s.Value(route.ProductMass), "g"), route.Print(sheet.Value(route.ProductMass), "g")
		if now == then {
			return ", for the same " + now + " of salt"
		}
		return ", for " + then + " of salt in place of " + now
	}
	half := quantity.Percent(roundedDown(float64(p.BatchShare)/2, shareDigits))
	add(taking(half, "", "Half the share takes ", []field.Change{share(half)}), salt)
	if p.RinseTimes > 0 {
		add(Offer{"Rinse once less", "Less water to boil off takes ", "The residue is rinsed once less now.", set("rinse.times", math.Max(0, p.RinseTimes-1))}, salt)
	}
	return list
}

// least are the hours by which an offer must be shorter to be one (judgement).
const least = 0.5
