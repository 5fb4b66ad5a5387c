package spread

import "math"

// sample holds the outcomes of draws, all draws of one outcome side by side.
type sample struct {
	outcomes, draws int
	stride          int
	values          []float64
	scratch         []float64
}

func newSample(outcomes, draws int) sample {
	// Columns a power of two apart would fall on the same lines of the cache when a
	// draw is written across them.
	stride := draws + 8
	return sample{
		outcomes: outcomes, draws: draws, stride: stride,
		values:  make([]float64, outcomes*stride),
		scratch: make([]float64, draws),
	}
}

func (s *sample) put(outcome, draw int, v float64) { s.values[outcome*s.stride+draw] = v }

func (s *sample) leaveOut(draw int) {
	for k := range s.outcomes {
		s.put(k, draw, math.NaN())
	}
}

// column is an outcome in the first n draws.
func (s *sample) column(outcome, n int) []float64 {
	from := outcome * s.stride
	return s.values[from : from+n : from+n]
}

// quantiles turns the shares in q, which must not fall, into quantiles of the
// numbers in a column, and says how many those are. The value of rank k of n stands
// for the share (k - 1/2)/n, between two it goes straight (Hazen's rule; JCGM 101,
// 7.7 takes the nearest rank, which 4096 draws do not tell apart).
func (s *sample) quantiles(column, q []float64) int {
	all := s.scratch[:0]
	least, most := math.Inf(1), math.Inf(-1)
	for _, v := range column {
		if v == v {
			all = append(all, v)
			least, most = min(least, v), max(most, v)
		}
	}
	n := len(all)
	if n == 0 {
		return 0
	}
	from := 0 // what stands before it is in place
	for i, p := range q {
		if least == most {
			q[i] = least
			continue
		}
		rank := p*float64(n) - 0.5
		k := int(math.Floor(rank))
		switch {
		case k < 0:
			q[i] = least
		case k >= n-1:
			q[i] = most
		default:
			from = min(from, k)
			v := sel(all[from:], k-from)
			next := most
			for _, w := range all[k+1:] {
				next = min(next, w)
			}
			q[i] = v + float64((rank-float64(k))*(next-v))
			from = k
		}
	}
	return n
}

// sel puts the k-th smallest in its place, smaller ones before and larger ones
// after it, and returns it: quickselect (Hoare, Comm. ACM 4 (1961) 321) with the
// middle of three as pivot.
func sel(a []float64, k int) float64 {
	low, high := 0, len(a)-1
	for low < high {
		middle := low + (high-low)/2
		x, y, z := a[low], a[middle], a[high]
		pivot := max(min(x, y), min(max(x, y), z))
		i, j := low, high
		for i <= j {
			for a[i] < pivot {
				i++
			}
			for a[j] > pivot {
				j--
			}
			if i <= j {
				a[i], a[j] = a[j], a[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			high = j
		case k >= i:
			low = i
		default:
			return a[k]
		}
	}
	return a[k]
}
