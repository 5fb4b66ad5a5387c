package route

import (
	"math"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
)

// Resized is a plan with changes made of its share or count, or of its way as well. What it
// gives as a number for the size that it has follows in proportion, and is among the changes
// then: the water left in the dish. Not ok where the changes do not go together.
func (b *Runner) Resized(p *Plan, set []field.Change) (q Plan, all []field.Change, ok bool) {
	if q, ok = p.With(set); !ok {
		return q, nil, false
	}
	b.Proportion(&q, p)
	if q.CropWater != p.CropWater && quantity.Given(q.CropWater) {
		set = append(set[:len(set):len(set)], field.Change{Key: "crop.water", Text: Plain(float64(q.CropWater))})
	}
	return q, set, true
}

// Proportion sets the water left in the dish of a plan to that of another, where it is given
// there, by the manganese that each takes; rounded up to three digits, since less would set
// solid.
func (b *Runner) Proportion(p, of *Plan) {
	if p.DryWay != ToCrystals || !(of.CropWater > 0) {
		return
	}
	had := b.Run(of).Value(BatchManganese)
	takes := b.Run(p).Value(BatchManganese)
	if !(had > 0 && takes > 0) || had == takes {
		return
	}
	water := float64(of.CropWater) * takes / had
	scale := math.Pow10(2 - int(math.Floor(math.Log10(water))))
	in, _ := InputByKey("crop.water")
	p.CropWater = quantity.Millilitre(math.Min(math.Ceil(water*scale-1e-9)/scale, in.Max))
}
