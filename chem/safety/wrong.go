package safety

import (
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// Mishap is something that goes wrong at the bench, and what to do, in that order.
type Mishap struct {
	Name string
	Sign string // how one sees it
	Do   []string
	Not  string // what makes it worse
}

// Bicarbonate is how much heavier baking soda is than anhydrous soda, for the same acid:
// two moles of NaHCO3 for one of Na2CO3.
const Bicarbonate = 1.585

// SodaFor is the anhydrous soda that takes up a volume of sulfuric acid of a strength
// between 0 and 100 %, mole for mole; more is wanted at the bench, until it froths no
// more. A strength outside the table of densities is an error.
func SodaFor(acid quantity.Millilitre, strength quantity.Percent) (quantity.Gram, error) {
	density, err := table.AcidDensity.At(float64(strength))
	if err != nil {
		return 0, err
	}
	pure := quantity.Gram(float64(acid) * density * strength.Fraction())
	return reaction.SodiumCarbonate.Mass(reaction.SulfuricAcid.Moles(pure)), nil
}

var mishaps = phrase.Open(&files, "mishaps", "name", "sign", "do", "not")

// Mishaps are the card for the wall: what can go wrong in a plan and what to do then, with
// the amounts of one batch.
func Mishaps(p *route.Plan, s *route.Sheet) []Mishap {
	t := &route.Teller{Plan: p, Sheet: s, Own: ofMishaps}
	var list []Mishap
	for _, m := range mishaps.Of(t, "") {
		list = append(list, Mishap{m.One("name"), m.One("sign"), m.All("do"), m.One("not")})
	}
	return list
}

// pasteWater is how much of the slurry's water to add to a paste at most, an estimate:
// more only has to be boiled off again.
const pasteWater = 0.5

// gravest is how many of the things that must never meet are named on the card.
const gravest = 1

// ofMishaps are the places of the card.
func ofMishaps(t *route.Teller, name string) (route.PlaceValue, bool) {
	grams := func(g quantity.Gram) (route.PlaceValue, bool) {
		return route.PlaceValue{Number: float64(g), Unit: "g"}, true
	}
	soda := func(acid float64) quantity.Gram {
		g, err := SodaFor(quantity.Millilitre(acid), t.Plan.GasStrength)
		if err != nil {
			return 0
		}
		return g
	}
	const charge = "gas.acid.used per batch" // of the generator
	if liquor, ok := strings.CutPrefix(name, "the gravest of "); ok {
		return route.Words(strings.Join(Never(thing(liquor), t.Plan, gravest), "; and ")), true
	}
	switch name {
	case "minute": // when the demand is met, as the clock shows it
		return route.PlaceValue{Number: t.At("gas.met.minute per batch").Number}, true
	case "water for the paste":
		return route.PlaceValue{Number: pasteWater * t.At("slurry.water.used per batch").Number, Unit: "mL"}, true
	case "soda for 10 mL":
		return grams(soda(10))
	case "soda for the charge":
		return grams(soda(t.At(charge).Number))
	case "baking soda for the charge":
		return grams(Bicarbonate * soda(t.At(charge).Number))
	case "soda for the dilute acid":
		return grams(reaction.SodiumCarbonate.Mass(0.1)) // 100 mL of 1 mol/L
	}
	return Place(t, name)
}
