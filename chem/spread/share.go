package spread

import (
	"cmp"
	"math/bits"
	"slices"

	"rosesalt/chem/route"
)

// Share is how much of a figure's variance an input explains by itself, of 1.
type Share struct {
	Input *route.Input
	Of    float64
}

// Shares are the first-order shares of a figure's variance by input, the largest
// first, those that explain nothing at the end: by how much the variance would fall,
// in the mean, if the input became known (Sobol', Math. Comput. Simul. 55 (2001)
// 271). What is missing to 1 belongs to inputs acting together. Nil for words and
// for a figure without spread.
//
// The share is the correlation ratio: the draws are put in order by the input,
// cut into bins of equal count, and the variance of the bins' means is held against
// the whole, less what chance would give without any effect.
func (r *Sampling) Shares(id route.FigureID) []Share {
	if id.Info().Words != nil || r.kept == 0 {
		return nil
	}
	column := r.Figure(id)
	list := make([]Share, 0, len(r.uncertain))
	for k := range r.uncertain {
		u := &r.uncertain[k]
		of, ok := shareOf(column, u.coordinate)
		if !ok {
			return nil
		}
		list = append(list, Share{u.Input, of})
	}
	slices.SortStableFunc(list, func(a, b Share) int { return cmp.Compare(b.Of, a.Of) })
	return list
}

// mostBins bounds the bins of a correlation ratio.
const mostBins = 32

// shareOf is the correlation ratio of a column to a coordinate of the points; not
// ok where the column has no spread.
func shareOf(column []float64, coordinate int) (float64, bool) {
	// 2^5 bins for 4096 draws, one less power for each quarter of them: half the root.
	power := min(max(bits.Len(uint(len(column)))/2-1, 1), bits.Len(mostBins)-1)
	bins := 1 << power
	var sums, counts [mostBins]float64
	n, sum := 0.0, 0.0
	for i, v := range column {
		if v == v {
			b := points.at(reversed(i), coordinate) >> (64 - power)
			sums[b] += v
			counts[b]++
			n++
			sum += v
		}
	}
	mean := sum / n
	total, between, filled := 0.0, 0.0, 0.0
	for _, v := range column {
		if v == v {
			total += float64((v - mean) * (v - mean))
		}
	}
	for b := range bins {
		if counts[b] > 0 {
			d := sums[b]/counts[b] - mean
			between += float64(counts[b] * d * d)
			filled++
		}
	}
	// Rounding alone gives a constant a variance of 1e-32 of its square; below the
	// least normal number there are no digits to go by.
	if !(total > 1e-24*n*mean*mean+0x1p-1000) || n <= filled {
		return 0, false
	}
	chance := (total - between) * (filled - 1) / (n - filled)
	return min(1, max(0, (between-chance)/total)), true
}
