package spread

import "math"

// sample holds the outcomes of draws, all draws of one outcome side by side.
type sample struct {
	outcomes, draws int
	stride          int
	values          []float64
	scratch         []float64

	// Of the column that is looked at: see tally.
	least, scale float64
	counts       [pots]int32
	sorting      []float64
}

func newSample(outcomes, draws int) sample {
	// Columns a power of two apart would fall on the same lines of the cache when a
	// draw is written across them.
	stride := draws + 8
	return sample{
		outcomes: outcomes, draws: draws, stride: stride,
		values:  make([]float64, outcomes*stride),
		scratch: make([]float64, draws),
		sorting: make([]float64, draws),
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

// quantiles turns the shares in q into quantiles of the numbers in a column, and
// says how many those are. The value of rank k of n stands for the share (k - 1/2)/n,
// between two it goes straight (Hazen's rule; JCGM 101, 7.7 takes the nearest rank,
// which 4096 draws do not tell apart).
func (s *sample) quantiles(column, q []float64) int {
	all := s.scratch[:0]
	least, most := math.Inf(1), math.Inf(-1)
	for _, v := range column {
		if v == v {
			all = append(all, v)
			// By hand: in wasm the builtin min and max of floats are calls.
			if v < least {
				least = v
			}
			if v > most {
				most = v
			}
		}
	}
	n := len(all)
	if n == 0 {
		return 0
	}
	s.tally(all, least, most)
	for i, p := range q {
		rank := float64(p*float64(n)) - 0.5
		k := int(math.Floor(rank))
		switch {
		case k < 0:
			q[i] = least
		case k >= n-1:
			q[i] = most
		case least == most:
			q[i] = least
		default:
			v, next := s.ranked(all, k)
			q[i] = v + float64((rank-float64(k))*(next-v))
		}
	}
	return n
}

// pots is into how many parts the range of a column is cut. To find a rank the
// numbers in each pot are counted, and only those of one pot are put in order: a few
// passes without branches, where a plain selection has a branch at each number that
// no machine foresees.
const pots = 256

// pot is where a number falls; a larger number never falls in a lesser pot, however
// the product rounds.
func (s *sample) pot(v float64) int {
	if s.scale == 0 {
		return 0
	}
	i := int((v - s.least) * s.scale)
	if i > pots-1 {
		return pots - 1
	}
	return i
}

func (s *sample) tally(all []float64, least, most float64) {
	s.least, s.scale = least, pots/(most-least)
	if !(s.scale > 0 && s.scale < math.MaxFloat64) {
		s.scale = 0 // no width, or too much or too little to divide: one pot for all
	}
	clear(s.counts[:])
	for _, v := range all {
		s.counts[s.pot(v)]++
	}
}

// ranked is the k-th smallest of what was tallied, from 0, and the one after it.
func (s *sample) ranked(all []float64, k int) (v, next float64) {
	at, before := 0, 0
	for before+int(s.counts[at]) <= k {
		before += int(s.counts[at])
		at++
	}
	pot := s.sorting[:0]
	for _, v := range all {
		if s.pot(v) == at {
			pot = append(pot, v)
		}
	}
	k -= before
	v = sel(pot, k)
	next = math.Inf(1)
	for _, w := range pot[k+1:] {
		if w < next {
			next = w
		}
	}
	if k+1 == len(pot) {
		for _, w := range all {
			if w < next && s.pot(w) > at {
				next = w
			}
		}
	}
	return v, next
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
