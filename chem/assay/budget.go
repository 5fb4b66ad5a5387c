package assay

import (
	"math"
	"slices"
)

// part is one quantity that a result is computed from, by its place in the budget.
type part int

// budget is the list of quantities that a result rests on, with their standard
// uncertainties, in the unit of each.
type budget struct {
	names []string
	x, u  []float64
}

func (b *budget) add(name string, value, u float64) part {
	b.names, b.x, b.u = append(b.names, name), append(b.x, value), append(b.u, u)
	return part(len(b.x) - 1)
}

// Share is how much of a result's variance comes from one quantity, 0 to 1.
type Share struct {
	Name string
	Of   float64
}

// stepShare is the step of the partial derivatives, as a share of each standard
// uncertainty: small enough that curvature does not show (a whole one, as GUM 5.1.3
// note 2 has it, would bring it in), large enough to stay clear of the last bits.
const stepShare = 1e-3

// propagate gives f at the best values and its combined standard uncertainty by the
// law of propagation, first order, uncorrelated (JCGM 100:2008, 5.1.2, equation
// (10)), with what each quantity contributes.
func (b *budget) propagate(f func(x []float64) float64) (y, u float64, shares []Share) {
	y = f(b.x)
	moved := slices.Clone(b.x)
	sum := 0.0
	for i := range b.x {
		step := stepShare * b.u[i]
		if step == 0 {
			continue
		}
		moved[i] = b.x[i] + step
		above := f(moved)
		moved[i] = b.x[i] - step
		below := f(moved)
		moved[i] = b.x[i]
		c := (above - below) / 2 / stepShare // the partial derivative times u
		sum += c * c
		shares = append(shares, Share{b.names[i], c * c})
	}
	for i := range shares {
		if sum > 0 {
			shares[i].Of /= sum
		}
	}
	return y, math.Sqrt(sum), shares
}

// root of the sum of squares.
func quadrature(u ...float64) float64 {
	sum := 0.0
	for _, v := range u {
		sum += v * v
	}
	return math.Sqrt(sum)
}
