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
	chains int       // of them, from how many the others are reached by moves
	found  []float64 // what was measured
	sd     []float64 // the standard deviations of its errors
	// eval says what would have been measured at a point, whether it may stand in the
	// end, and what else there is to its likelihood, as a logarithm.
	eval func(label int, u, y []float64) (log float64, allowed bool)

	u       []float64 // the points' coordinates
	z       []float64 // the same as normal scores, once they move
	y       []float64 // the outcomes
	label   []uint8
	log     []float64 // by how much the sought density exceeds that drawn from
	base    []float64 // that drawn from
	allowed []bool
	weight  []float64
	line    []int32 // the draw that it comes from

	random generator
	phase  phase
	at     int // within the phase
	beta   float64
	plain  float64 // effective sample size of the plain weights
	stages int
	tried  int
	taken  int
	pools  [][]int32
	order  []int32
	own    int // the last coordinates, which are the label's own
	fits   []fit
	drawn  []fit // what the points are drawn from, once it is not the prior
	share  []float64
	noise  []float64
	trial  []float64
	trialZ []float64
	trialY []float64
	spare  population
}

type population struct {
	u, y    []float64
	label   []uint8
	log     []float64
	base    []float64
	allowed []bool
	line    []int32
}

type phase uint8

const (
	drawing phase = iota
	moving
	over
)

// enough is the effective sample size that needs no tempering.
const enough = 200.0

// mostStages stops a likelihood that no population can follow; the account of a record
// so far from every draw is near its end by then.
const mostStages = 60

func newSampler(dim int, prior []float64, first, people, chains int, found, sd []float64, eval func(int, []float64, []float64) (float64, bool)) *sampler {
	s := &sampler{dim: dim, prior: prior, first: first, people: people, chains: chains, found: found, sd: sd, eval: eval, random: seed}
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
	s.y = make([]float64, len(s.label)*len(found), most*len(found))
	s.trialY = make([]float64, len(found))
	s.log, s.base = make([]float64, len(s.label), most), make([]float64, len(s.label), most)
	s.allowed = make([]bool, len(s.label), most)
	s.trial, s.trialZ, s.noise = make([]float64, dim), make([]float64, dim), make([]float64, dim)
	s.pools = make([][]int32, len(prior))
	s.spread()
	return s
}

// spread puts the first draws of each label into the cube so that each coordinate is
// filled evenly (Latin hypercube: McKay, Beckman and Conover, Technometrics 21 (1979)
// 239, from memory).
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

func (s *sampler) outcome(i int) []float64 {
	m := len(s.found)
	return s.y[i*m : (i+1)*m : (i+1)*m]
}

// look is the logarithm of the likelihood at a point.
func (s *sampler) look(label uint8, u, y []float64) (log float64, allowed bool) {
	log, allowed = s.eval(int(label), u, y)
	for k, found := range s.found {
		z := (found - y[k]) / s.sd[k]
		log -= float64(z*z) / 2
	}
	return log, allowed
}

func (s *sampler) scores(i int) []float64 { return s.z[i*s.dim : (i+1)*s.dim : (i+1)*s.dim] }
func (s *sampler) point(i int) []float64  { return s.u[i*s.dim : (i+1)*s.dim : (i+1)*s.dim] }

// step does at most n evaluations and tells whether all are done.
func (s *sampler) step(n int) bool {
	for ; n > 0 && s.phase != over; n-- {
		switch s.phase {
		case drawing:
			s.log[s.at], s.allowed[s.at] = s.look(s.label[s.at], s.point(s.at), s.outcome(s.at))
			if s.drawn != nil {
				more, base := s.against(s.label[s.at], s.scores(s.at))
				s.log[s.at] += more
				s.base[s.at] = base
			}
		case moving:
			if s.at%s.chains == 0 {
				s.adapt()
			}
			s.move(s.at)
		}
		if s.at++; s.at < len(s.label) {
			continue
		}
		s.at = 0
		if s.phase == moving && s.beta == 1 {
			s.finish()
			continue
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
		if w := s.weight[i] * math.Exp(by*(l-most)); w > 0 {
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

// advance lets the likelihood in as far as half of the points carry the weight.
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
			s.resample(s.people)
			s.finish()
			return
		}
	}
	by := left
	target := float64(s.people) / 2
	if s.stages == 0 {
		target = enough
	}
	if full < target && s.stages < mostStages {
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
	if s.stages++; s.stages == 1 {
		s.reweigh(by)
		s.propose()
		return
	}
	s.reweigh(by)
	if s.beta += by; by == left {
		s.beta = 1
	}
	s.gather()
	s.z = resized(s.z, len(s.u))
	for i, v := range s.u {
		s.z[i] = toScore(v)
	}
	s.fitAll()
	s.resample(s.chains)
	// Room for all that the chains will visit.
	n := s.people
	s.u, s.z, s.y = resized(s.u, n*s.dim), resized(s.z, n*s.dim), resized(s.y, n*len(s.found))
	for i, v := range s.u[:s.chains*s.dim] {
		s.z[i] = toScore(v)
	}
	s.label, s.log, s.base, s.allowed = resized(s.label, n), resized(s.log, n), resized(s.base, n), resized(s.allowed, n)
	s.line, s.weight = resized(s.line, n), resized(s.weight, n)
	for i := range s.weight {
		s.weight[i] = 1 / float64(n)
	}
	for l := range s.pools {
		s.pools[l] = s.pools[l][:0]
	}
	for i, l := range s.label[:s.chains] {
		s.pools[l] = append(s.pools[l], int32(i))
	}
	s.phase, s.at = moving, s.chains
}

// propose draws the points anew from what the first draws suggest: of each label the
// distribution that the measurements leave by the straight line through the draws that
// come nearest. From there on the likelihood is let in over and above that.
func (s *sampler) propose() {
	s.gather()
	s.z = resized(s.z, len(s.u))
	for i, v := range s.u {
		s.z[i] = toScore(v)
	}
	s.fitAll()
	s.drawn = make([]fit, len(s.fits))
	s.share = make([]float64, len(s.fits))
	total := 0.0
	for _, w := range s.weight {
		total += w
	}
	for l := range s.fits {
		f, g := &s.fits[l], &s.drawn[l]
		*g = fit{d: f.d, mean: slices.Clone(f.mean), root: slices.Clone(f.root)}
		for i := range g.root {
			g.root[i] /= tv[1] // wider than suggested, so that nothing is missed
		}
		for k := range g.d {
			g.size += math.Log(g.root[k*g.d+k])
		}
		for _, i := range s.pools[l] {
			s.share[l] += s.weight[i] / total
		}
		if s.prior[l] > 0 {
			s.share[l] = 0.7*s.share[l] + 0.3*s.prior[l]
		}
	}
	n := s.people
	s.u, s.z, s.y = resized(s.u, n*s.dim), resized(s.z, n*s.dim), resized(s.y, n*len(s.found))
	s.label, s.log, s.base, s.allowed = resized(s.label, n), resized(s.log, n), resized(s.base, n), resized(s.allowed, n)
	s.line, s.weight = resized(s.line, n), resized(s.weight, n)
	l, sum := 0, s.share[0]
	for i := range n {
		for at := (float64(i) + 0.5) / float64(n); at > sum && l < len(s.share)-1; {
			l++
			sum += s.share[l]
		}
		g := &s.drawn[l]
		z := s.scores(i)
		s.normals(z)
		g.draw(z)
		for k := range z {
			z[k] += g.mean[k]
			s.u[i*s.dim+k] = fromScore(z[k])
		}
		s.label[i], s.line[i], s.weight[i] = uint8(l), int32(i), 1/float64(n)
	}
	s.phase, s.at, s.beta = drawing, 0, 0
}

// over tells how much the prior of a label and its scores exceeds what is drawn from,
// and that itself; logarithms.
func (s *sampler) against(label uint8, z []float64) (more, base float64) {
	if s.drawn == nil {
		return 0, 0
	}
	g := &s.drawn[label]
	base = math.Log(s.share[label]) + g.size - g.energy(z)
	prior := math.Log(s.prior[label])
	for _, v := range z {
		prior -= v * v / 2
	}
	return prior - base, base
}

// resized is a slice of that length, with what it held.
func resized[T any](x []T, n int) []T {
	return slices.Grow(x, max(0, n-len(x)))[:n]
}

func (s *sampler) reweigh(by float64) {
	most := s.most()
	for i, l := range s.log {
		s.weight[i] *= math.Exp(by * (l - most))
	}
}

// resample draws the points anew in proportion to their weights, systematically and
// label by label, so that the labels keep their shares to a point each.
func (s *sampler) resample(n int) {
	total := 0.0
	for _, w := range s.weight {
		total += w
	}
	t := &s.spare
	t.u, t.y = resized(t.u, n*s.dim), resized(t.y, n*len(s.found))
	t.label, t.log, t.base, t.allowed, t.line = t.label[:0], t.log[:0], t.base[:0], t.allowed[:0], t.line[:0]
	step := total / float64(n)
	s.gather()
	order := s.order[:0] // the pools hold all
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
		copy(t.y[i*len(s.found):(i+1)*len(s.found)], s.outcome(from))
		t.label = append(t.label, s.label[from])
		t.log = append(t.log, s.log[from])
		t.base = append(t.base, s.base[from])
		t.allowed = append(t.allowed, s.allowed[from])
		t.line = append(t.line, s.line[from])
	}
	now := population{s.u, s.y, s.label, s.log, s.base, s.allowed, s.line}
	s.u, s.y, s.label, s.log, s.base, s.allowed, s.line = t.u, t.y, t.label, t.log, t.base, t.allowed, t.line
	s.spare = now
	s.weight = s.weight[:0]
	for range n {
		s.weight = append(s.weight, 1/float64(n))
	}
}

// gather lists the points of each label.
func (s *sampler) gather() {
	s.order = s.order[:0]
	for l := range s.pools {
		s.pools[l] = s.pools[l][:0]
	}
	for i, l := range s.label {
		s.pools[l] = append(s.pools[l], int32(i))
		s.order = append(s.order, int32(i))
	}
}

// move takes a point on from that of its chain before. One step in eight tries another
// label, drawn by its prior, with coordinates of its own anew.
//
// The others forget part of where the point is, and put in its place a draw of the
// normal distribution that the points of its label suggest, in normal scores: reversible
// with respect to that distribution, so that Metropolis needs the ratio of the sought
// density to it (preconditioned Crank-Nicolson steps: Cotter, Roberts, Stuart and White,
// Statist. Sci. 28 (2013) 424; Rudolf and Sprungk, Found. Comput. Math. 18 (2018) 309;
// both from memory).
func (s *sampler) move(i int) {
	s.carry(i, i-s.chains)
	if s.own > 0 && s.random.below(8) == 0 {
		s.trade(i)
		return
	}
	l := s.label[i]
	f := &s.fits[l]
	if pool := s.pools[l]; len(pool) > 8 && s.random.unit() < s.along(f) {
		s.stride(i, pool)
		return
	}
	forget := f.forget
	keep := math.Sqrt(1 - forget*forget)
	s.normals(s.noise)
	f.draw(s.noise)
	z := s.scores(i)
	for k, v := range s.noise {
		s.trialZ[k] = f.mean[k] + keep*(z[k]-f.mean[k]) + forget*v
		s.trial[k] = fromScore(s.trialZ[k])
	}
	f.tried++
	if s.accept(i, l, f.energy(s.trialZ)-f.energy(z)) {
		f.taken++
	}
}

// along is how often a point steps along the difference of two others in place: seldom
// while the fit is good, often where what it draws is not taken.
func (s *sampler) along(f *fit) float64 {
	if f.forget > 0.5 {
		return 0.15
	}
	return 0.5
}

// stride steps along the difference of two of the points that the chains began from
// (ter Braak, Statist. Comput. 16 (2006) 239, from memory).
func (s *sampler) stride(i int, pool []int32) {
	a := s.scores(int(pool[s.random.below(len(pool))]))
	b := s.scores(int(pool[s.random.below(len(pool))]))
	// Half of the steps change all coordinates, the others about a quarter of them.
	all := s.random.next()>>63 == 0
	changed := float64(s.dim)
	if !all {
		changed /= 4
	}
	by := 2.38 / math.Sqrt(2*math.Max(1, changed)) * (0.3 + s.random.unit())
	for k, z := range s.scores(i) {
		v := z
		if all || s.random.next()>>62 == 0 {
			v += by*(a[k]-b[k]) + 0.05*(2*s.random.unit()-1)
		}
		s.trialZ[k] = v
		s.trial[k] = fromScore(v)
	}
	s.accept(i, s.label[i], 0)
}

// adapt lengthens or shortens the steps after each round of the chains.
func (s *sampler) adapt() {
	for l := range s.fits {
		f := &s.fits[l]
		if f.tried < 10 {
			continue
		}
		switch share := float64(f.taken) / float64(f.tried); {
		case share < 0.1:
			f.forget /= 2
		case share < 0.25:
			f.forget *= 0.7
		case share > 0.5:
			f.forget = math.Min(0.98, f.forget*1.4)
		}
		f.tried, f.taken = 0, 0
	}
}

// carry copies a point.
func (s *sampler) carry(to, from int) {
	copy(s.point(to), s.point(from))
	copy(s.scores(to), s.scores(from))
	copy(s.outcome(to), s.outcome(from))
	s.label[to], s.log[to], s.base[to], s.allowed[to], s.line[to] = s.label[from], s.log[from], s.base[from], s.allowed[from], s.line[from]
}

// fit is a normal distribution of scores: what the measurements would leave of the
// standard one if the outcomes were straight in the scores, as they nearly are among
// points of one label. Only so many directions as there are measurements differ from the
// prior; the covariance of the points themselves would be noise in all others.
type fit struct {
	mean []float64
	root []float64 // lower triangle; times its transpose it is the inverse of the covariance
	d    int
	size float64 // the logarithm of the root's determinant

	forget       float64 // how much of a point a step forgets
	tried, taken int
}

// draw turns standard normal numbers into a draw about zero.
func (f *fit) draw(x []float64) {
	for k := f.d - 1; k >= 0; k-- {
		v := x[k] / f.root[k*f.d+k]
		x[k] = v
		for j, l := range f.root[k*f.d : k*f.d+k] {
			x[j] -= l * v
		}
	}
}

// energy is minus the logarithm of the density, but for a constant.
func (f *fit) energy(z []float64) float64 {
	var t [64]float64
	for k := range f.d {
		v := z[k] - f.mean[k]
		for j, l := range f.root[k*f.d : k*f.d+k+1] {
			t[j] += l * v
		}
	}
	sum := 0.0
	for _, v := range t[:f.d] {
		sum += v * v
	}
	return sum / 2
}

// tooFew points, effectively, of a label take what all points suggest.
const tooFew = 50

// fitAll finds the distributions.
func (s *sampler) fitAll() {
	if s.fits == nil {
		s.fits = make([]fit, len(s.prior))
	}
	for l := range s.fits {
		f := &s.fits[l]
		if f.mean == nil {
			f.d, f.mean, f.root, f.forget = s.dim, make([]float64, s.dim), make([]float64, s.dim*s.dim), 0.9
		}
		pool := s.pools[l]
		if s.sizeOf(pool) < tooFew {
			pool = s.order
		}
		s.fitTo(f, pool)
	}
}

// sizeOf is the effective number of some points.
func (s *sampler) sizeOf(pool []int32) float64 {
	sum, squares := 0.0, 0.0
	for _, i := range pool {
		sum += s.weight[i]
		squares += s.weight[i] * s.weight[i]
	}
	if squares == 0 {
		return 0
	}
	return sum * sum / squares
}

// fitTo lays a straight line through the outcomes of some points (weighted least
// squares, held to nothing by a ridge where the points do not tell), and takes what the
// measurements leave by it (the linear-Gaussian case in closed form).
func (s *sampler) fitTo(f *fit, pool []int32) {
	d, m, n := s.dim, len(s.found), 0.0
	for _, i := range pool {
		n += s.weight[i]
	}
	mean, off, ys := f.mean, s.noise, make([]float64, m)
	clear(mean)
	for _, i := range pool {
		w := s.weight[i] / n
		for k, v := range s.scores(int(i)) {
			mean[k] += w * v
		}
		for k, v := range s.outcome(int(i)) {
			ys[k] += w * v
		}
	}
	squares := f.root
	clear(squares)
	cross := make([]float64, m*d)
	spread := make([]float64, m)
	for _, i := range pool {
		w := s.weight[i] / n
		if w < 1e-7 {
			continue
		}
		for k, v := range s.scores(int(i)) {
			off[k] = v - mean[k]
		}
		for k, v := range off {
			v *= w
			row := squares[k*d : k*d+k+1]
			for j, x := range off[:k+1] {
				row[j] += v * x
			}
		}
		for o, y := range s.outcome(int(i)) {
			y -= ys[o]
			spread[o] += w * y * y
			for k, v := range off {
				cross[o*d+k] += w * y * v
			}
		}
	}
	for k := range d {
		squares[k*d+k] += 0.03
	}
	cholesky(squares, d)
	slope := make([]float64, m*d)
	for o := range m {
		b := slope[o*d : (o+1)*d]
		copy(b, cross[o*d:])
		solve(squares, d, b)
	}
	// The precision, and what it makes of the measurements.
	right := make([]float64, d)
	clear(squares)
	for k := range d {
		squares[k*d+k] = 1
	}
	for o := range m {
		b := slope[o*d : (o+1)*d]
		lack := spread[o]
		at := s.found[o] - ys[o]
		for k, v := range b {
			lack -= v * cross[o*d+k]
			at += v * mean[k]
		}
		p := 1 / (s.sd[o]*s.sd[o] + math.Max(0, lack))
		for k, v := range b {
			right[k] += p * v * at
			row := squares[k*d : k*d+k+1]
			for j, x := range b[:k+1] {
				row[j] += p * v * x
			}
		}
	}
	cholesky(squares, d)
	solve(squares, d, right)
	copy(mean, right)
}

// cholesky turns the lower triangle of a positive matrix into its root, in place.
func cholesky(a []float64, d int) {
	for k := range d {
		row := a[k*d : k*d+k+1]
		for j := range k {
			other := a[j*d : j*d+j+1]
			v := row[j]
			for x, w := range other[:j] {
				v -= row[x] * w
			}
			row[j] = v / other[j]
		}
		v := row[k]
		for _, w := range row[:k] {
			v -= w * w
		}
		row[k] = math.Sqrt(math.Max(v, 1e-9))
	}
}

// solve solves the equations whose matrix has that root, in place.
func solve(root []float64, d int, x []float64) {
	for k := range d {
		v := x[k]
		for j, l := range root[k*d : k*d+k] {
			v -= l * x[j]
		}
		x[k] = v / root[k*d+k]
	}
	for k := d - 1; k >= 0; k-- {
		v := x[k] / root[k*d+k]
		x[k] = v
		for j, l := range root[k*d : k*d+k] {
			x[j] -= l * v
		}
	}
}

// normals fills a slice with standard normal numbers (Box and Muller).
func (s *sampler) normals(x []float64) {
	for i := 0; i < len(x); i += 2 {
		r := math.Sqrt(-2 * math.Log(s.random.unit()))
		sin, cos := math.Sincos(2 * math.Pi * s.random.unit())
		x[i] = r * cos
		if i+1 < len(x) {
			x[i+1] = r * sin
		}
	}
}

func toScore(u float64) float64 { return -math.Sqrt2 * math.Erfcinv(2*u) }
func fromScore(z float64) float64 {
	u := math.Erfc(-z/math.Sqrt2) / 2
	return math.Min(math.Max(u, 0x1p-53), 1-0x1p-53)
}

func (s *sampler) trade(i int) {
	copy(s.trialZ, s.scores(i))
	copy(s.trial, s.point(i))
	more := math.Log(s.prior[s.label[i]])
	for k := s.dim - s.own; k < s.dim; k++ {
		was := s.trialZ[k]
		s.trial[k] = s.random.unit()
		s.trialZ[k] = toScore(s.trial[k])
		more += (s.trialZ[k]*s.trialZ[k] - was*was) / 2
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
	s.accept(i, uint8(label), more-math.Log(s.prior[label]))
}

// accept moves a point to the trial as Metropolis would, given by how much more the
// trial is sought for, beside its likelihood, than it is tried.
func (s *sampler) accept(i int, label uint8, more float64) bool {
	log, allowed := s.look(label, s.trial, s.trialY)
	s.tried++
	over, base := s.against(label, s.trialZ)
	log += over
	if by := s.beta*(log-s.log[i]) + base - s.base[i] + more; by >= 0 || s.random.unit() < math.Exp(by) {
		copy(s.point(i), s.trial)
		copy(s.scores(i), s.trialZ)
		copy(s.outcome(i), s.trialY)
		s.label[i], s.log[i], s.base[i], s.allowed[i] = label, log, base, allowed
		s.taken++
		return true
	}
	return false
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

var tv = []float64{0, 1.15}
