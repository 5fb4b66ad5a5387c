package account

import (
	"math"
	"slices"
)

// generator makes integers by SplitMix64 (Steele, Lea and Flood, OOPSLA 2014); its own
// so that no other user of chance can move an account.
type generator uint64

const seed generator = 0x6163636f756e7421

func (g *generator) next() uint64 {
	*g += 0x9e3779b97f4a7c15
	z := uint64(*g)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// unit is above 0 and below 1.
func (g *generator) unit() float64 { return (float64(g.next()>>12) + 0.5) * 0x1p-52 }

// below is a whole number from 0 to n-1; n is small, so that what the remainder favours
// is below 2^-40.
func (g *generator) below(n int) int { return int(g.next() % uint64(n)) }

// sampler weighs points of a cube by a likelihood, and where few carry the weight lets
// it in by steps: see the package. A point is a label and coordinates from 0 to 1, all
// equally likely beforehand but for the labels' weights. It knows nothing of plans.
type sampler struct {
	dim    int
	prior  []float64 // of each label
	first  int       // draws of each label to begin with
	people int       // points kept afterwards
	rounds int       // of moves after each step, once and a half as many at the end
	// eval is the logarithm of the likelihood at a point, and whether the point may
	// stand in the end.
	eval func(label int, u []float64) (log float64, allowed bool)

	population
	weight []float64

	random generator
	phase  phase
	at     int // within the phase
	sweeps int // left
	beta   float64
	plain  float64 // effective sample size of the plain weights
	stages int
	tried  int
	taken  int
	pools  [][]int32
	order  []int32
	own    int // the last coordinates, which are the label's own
	trial  []float64
	spare  population
}

// population is points, and what is known of each.
type population struct {
	u       []float64 // the coordinates, side by side
	label   []uint8
	log     []float64
	allowed []bool
	line    []int32 // the draw that it comes from
}

type phase uint8

const (
	drawing phase = iota
	moving
	over
)

// enough is the effective sample size that needs no tempering.
const enough = 200.0

// carries is the share of the points that still carries the weight after a step. Many small
// steps with a move each keep the shares of the labels better than a few large ones.
const carries = 0.7

// mostStages stops a likelihood that no population can follow; the account of a record
// so far from every draw is near its end by then.
const mostStages = 100

func newSampler(dim int, prior []float64, first, people, rounds int, eval func(int, []float64) (float64, bool)) *sampler {
	s := &sampler{dim: dim, prior: prior, first: first, people: people, rounds: rounds, eval: eval, random: seed}
	most := people
	for l, p := range prior {
		if p <= 0 {
			continue
		}
		for range first {
			s.label = append(s.label, uint8(l))
			s.weight = append(s.weight, p/float64(first))
			s.line = append(s.line, int32(len(s.line)))
		}
	}
	most = max(most, len(s.label))
	s.u = make([]float64, len(s.label)*dim, most*dim)
	s.log = make([]float64, len(s.label), most)
	s.allowed = make([]bool, len(s.label), most)
	s.trial = make([]float64, dim)
	s.pools = make([][]int32, len(prior))
	s.spread()
	return s
}

// spread puts the first draws of each label into the cube so that each coordinate is
// filled evenly (Latin hypercube: McKay, Beckman and Conover, Technometrics 21 (1979)
// 239, by its citations).
func (s *sampler) spread() {
	order := make([]int32, s.first)
	for from := 0; from < len(s.label); from += s.first {
		for k := range s.dim {
			for i := range order {
				order[i] = int32(i)
			}
			for i := len(order) - 1; i > 0; i-- {
				j := s.random.below(i + 1)
				order[i], order[j] = order[j], order[i]
			}
			for i, o := range order {
				s.u[(from+i)*s.dim+k] = (float64(o) + s.random.unit()) / float64(s.first)
			}
		}
	}
}

func (s *sampler) point(i int) []float64 { return s.u[i*s.dim : (i+1)*s.dim : (i+1)*s.dim] }

// step does at most n evaluations and tells whether all are done.
func (s *sampler) step(n int) bool {
	for ; n > 0 && s.phase != over; n-- {
		switch s.phase {
		case drawing:
			s.log[s.at], s.allowed[s.at] = s.eval(int(s.label[s.at]), s.point(s.at))
		case moving:
			s.move(s.at)
		}
		if s.at++; s.at < len(s.label) {
			continue
		}
		s.at = 0
		if s.phase == moving {
			if s.sweeps--; s.sweeps > 0 {
				s.gather()
				continue
			}
			if s.beta == 1 {
				s.finish()
				continue
			}
		}
		s.advance()
	}
	return s.phase == over
}

// size is the effective sample size if the likelihood were let in further by so much:
// the square of the sum of the weights over the sum of their squares (Kish).
func (s *sampler) size(by float64) float64 {
	most := s.most()
	sum, squares := 0.0, 0.0
	for i, l := range s.log {
		if w := s.weight[i] * exp(by*(l-most)); w > 0 {
			sum += w
			squares += float64(w * w)
		}
	}
	if squares == 0 {
		return 0
	}
	return sum * sum / squares
}

func (s *sampler) most() float64 {
	most := math.Inf(-1)
	for _, l := range s.log {
		if l > most {
			most = l
		}
	}
	return most
}

// advance lets the likelihood in as far as enough of the points carry the weight.
func (s *sampler) advance() {
	if math.IsInf(s.most(), -1) {
		s.phase = over
		s.shrink(0)
		return
	}
	left := 1 - s.beta
	full := s.size(left)
	if s.stages == 0 {
		s.plain = full
		if full >= enough {
			s.beta = 1
			s.reweigh(left)
			s.resample()
			s.finish()
			return
		}
	}
	by, target := left, carries*float64(s.people)
	if s.stages++; full < target && s.stages < mostStages {
		low, high := 0.0, left
		for range 40 {
			by = (low + high) / 2
			if s.size(by) >= target {
				low = by
			} else {
				high = by
			}
		}
	}
	s.reweigh(by)
	if s.beta += by; by == left {
		s.beta = 1
	}
	s.resample()
	s.phase, s.sweeps = moving, s.rounds
	if s.beta == 1 {
		s.sweeps += (s.rounds + 1) / 2
	}
	s.gather()
}

func (s *sampler) reweigh(by float64) {
	most := s.most()
	for i, l := range s.log {
		s.weight[i] *= exp(by * (l - most))
	}
}

// resample draws the points anew in proportion to their weights, systematically and
// label by label, so that the labels keep their shares to a point each.
func (s *sampler) resample() {
	total := 0.0
	for _, w := range s.weight {
		total += w
	}
	n := s.people
	t := &s.spare
	t.u = append(t.u[:0], make([]float64, n*s.dim)...)
	t.label, t.log, t.allowed, t.line = t.label[:0], t.log[:0], t.allowed[:0], t.line[:0]
	step := total / float64(n)
	s.gather()
	order := s.order[:0]
	for _, pool := range s.pools {
		order = append(order, pool...)
	}
	s.order = order
	next, k := step*s.random.unit(), 0
	sum := s.weight[order[0]]
	for i := range n {
		for sum <= next && k < len(order)-1 {
			k++
			sum += s.weight[order[k]]
		}
		from := int(order[k])
		next += step
		copy(t.u[i*s.dim:(i+1)*s.dim], s.point(from))
		t.label = append(t.label, s.label[from])
		t.log = append(t.log, s.log[from])
		t.allowed = append(t.allowed, s.allowed[from])
		t.line = append(t.line, s.line[from])
	}
	s.population, s.spare = s.spare, s.population
	s.weight = s.weight[:0]
	for range n {
		s.weight = append(s.weight, 1/float64(n))
	}
}

// gather lists the points of each label.
func (s *sampler) gather() {
	for l := range s.pools {
		s.pools[l] = s.pools[l][:0]
	}
	for i, l := range s.label {
		s.pools[l] = append(s.pools[l], int32(i))
	}
}

// move tries a step of a point along the difference of two others of its label; one in
// five tries another label, drawn by its prior, with coordinates of its own anew.
func (s *sampler) move(i int) {
	if s.own > 0 && s.random.below(5) == 0 {
		s.trade(i)
		return
	}
	at, pool := s.point(i), s.pools[s.label[i]]
	a, b := at, at
	if len(pool) > 3 {
		a = s.point(int(pool[s.random.below(len(pool))]))
		b = s.point(int(pool[s.random.below(len(pool))]))
	}
	// Half of the steps change all coordinates, the others about a quarter of them.
	all := s.random.next()>>63 == 0
	often := uint64(math.MaxUint64)
	changed := float64(s.dim)
	if !all {
		often /= 4
		changed /= 4
	}
	stride := 2.38 / math.Sqrt(2*math.Max(1, changed)) * (0.5 + s.random.unit())
	if s.random.below(10) == 0 {
		stride = 1 // from one hill to the other
	}
	for k, v := range at {
		if all || s.random.next() < often {
			v += stride*(a[k]-b[k]) + 0.03*(2*s.random.unit()-1)
		}
		s.trial[k] = reflect(v)
	}
	s.accept(i, s.label[i])
}

func (s *sampler) trade(i int) {
	copy(s.trial, s.point(i))
	for k := s.dim - s.own; k < s.dim; k++ {
		s.trial[k] = s.random.unit()
	}
	label, at := 0, s.random.unit()
	for l, p := range s.prior {
		if p > 0 {
			label = l
			if at -= p; at < 0 {
				break
			}
		}
	}
	s.accept(i, uint8(label))
}

// accept moves a point to the trial as Metropolis would. Trials are as likely from
// there as from here, or drawn by the prior, so that the likelihood alone decides.
func (s *sampler) accept(i int, label uint8) {
	log, allowed := s.eval(int(label), s.trial)
	s.tried++
	if log >= s.log[i] || s.random.unit() < exp(s.beta*(log-s.log[i])) {
		copy(s.point(i), s.trial)
		s.label[i], s.log[i], s.allowed[i] = label, log, allowed
		s.taken++
	}
}

// reflect throws a coordinate that leaves the cube back into it, as a mirror would, so
// that a step and its way back are equally likely.
func reflect(v float64) float64 {
	if v < 0 {
		v = -v
	}
	if v -= 2 * math.Floor(v/2); v > 1 {
		v = 2 - v
	}
	return math.Min(math.Max(v, 0x1p-53), 1-0x1p-53)
}

// count draws the points of an ended work anew, each as often as its label counts.
func (s *sampler) count(times func(label uint8) float64) {
	for i, l := range s.label {
		s.weight[i] = times(l)
	}
	s.resample()
}

// finish drops what may not stand.
func (s *sampler) finish() {
	s.phase = over
	kept := 0
	for i := range s.label {
		if !s.allowed[i] || math.IsInf(s.log[i], -1) {
			continue
		}
		copy(s.point(kept), s.point(i))
		s.label[kept], s.log[kept], s.line[kept], s.allowed[kept] = s.label[i], s.log[i], s.line[i], true
		kept++
	}
	s.shrink(kept)
}

func (s *sampler) shrink(n int) {
	s.u, s.label, s.log = s.u[:n*s.dim], s.label[:n], s.log[:n]
	s.allowed, s.line, s.weight = s.allowed[:n], s.line[:n], s.weight[:n]
}

// distinct is the effective number of different points that are left, and lines that
// of the first draws that they come from.
func (s *sampler) distinct() (points, lines float64) {
	n := len(s.label)
	squares, run := 0.0, 0.0
	for i := range n {
		if i > 0 && !slices.Equal(s.point(i), s.point(i-1)) {
			squares += run * run
			run = 0
		}
		run++
	}
	if n == 0 {
		return 0, 0
	}
	points = float64(n) * float64(n) / (squares + run*run)
	counts := map[int32]float64{}
	for _, l := range s.line {
		counts[l]++
	}
	squares = 0
	for _, c := range counts {
		squares += c * c
	}
	return points, float64(n) * float64(n) / squares
}

// exp is the exponential by sums and products alone, the same to the last bit on every
// machine that does not fuse them: where one move more or less is let pass, all that
// follows is another draw. By e^x = 2^k e^r, r within ln 2 / 2, and its series; better
// than 1e-15 of the value.
func exp(x float64) float64 {
	const high, low = 0x1.62e42feep-1, 0x1.a39ef35793c76p-33 // ln 2 in two parts
	switch {
	case x != x:
		return x
	case x < -745:
		return 0
	case x > 709:
		return math.Inf(1)
	}
	k := math.Floor(x/(high+low) + 0.5)
	r := float64(x-float64(k*high)) - float64(k*low)
	sum := 1.0
	for n := 14.0; n > 0; n-- {
		sum = 1 + float64(sum*r)/n
	}
	return math.Ldexp(sum, int(k))
}
