package account

import (
	"cmp"
	"math"
	"slices"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// How many points an account takes: of each cause to begin with, and kept afterwards. An
// empty record draws the plan as package spread does, so many times. With a quarter of the
// first draws, two thirds of the points and larger steps the shares of the causes were off by
// more than a third where three weighings leave five causes open; now it is a seventh
// (TestSharesByBruteForce).
const (
	firstDraws = 1024
	people     = 960
	rounds     = 2 // of moves after each step
	emptyDraws = 4096
)

// plannedDrawn is how many times fewer points than its weight gives it are spent on a run as
// planned while points are moved, so that enough are left to tell the causes apart where most
// say that nothing went wrong. What it loses is given back at the end. An estimate.
const plannedDrawn = 0.5

// Interval is where eight in ten of the points lie, and the one in their middle.
type Interval struct{ Low, Median, High float64 }

// The keys of what the account tells beside the plan's own figures.
const (
	KeyMade   = "account.made"   // mmol: gas that left the generator
	KeyUsed   = "account.used"   // mmol: gas that reacted in the slurry
	KeyUptake = "account.uptake" // %: of the gas led in, what the slurry can take up
	KeyLost   = "account.lost"   // mmol: manganese spilt or stuck on the way
	KeyCake   = "account.cake"   // mmol: manganese in the residue, reduced or not
	KeyIntact = "account.intact" // mmol: manganese in the residue that was never brought into solution
)

const (
	made = iota
	used
	uptake
	lost
	cake
	intact
	amounts = iota
)

// amount describes a figure of the account.
var amountFigures = [amounts]route.Figure{
	made:   {Key: KeyMade, Unit: "mmol", Name: "Gas made", Stage: route.Gas},
	used:   {Key: KeyUsed, Unit: "mmol", Name: "Gas that worked", Stage: route.Slurry},
	uptake: {Key: KeyUptake, Unit: "%", Name: "Gas that the slurry took up", Stage: route.Slurry},
	lost:   {Key: KeyLost, Unit: "mmol", Name: "Manganese lost in handling", Stage: route.Dry},
	cake:   {Key: KeyCake, Unit: "mmol", Name: "Manganese in the black residue", Stage: route.Filter},
	intact: {Key: KeyIntact, Unit: "mmol", Name: "Manganese that was never dissolved", Stage: route.Slurry},
}

// Figures describe what the account tells beside the plan's own figures. The caller
// must not change them.
func Figures() []route.Figure { return amountFigures[:] }

// Posterior is the account of a run: what most likely was. It owns its memory; one must
// not be used from two goroutines.
type Posterior struct {
	Bounds         Bounds
	Contradictions []Contradiction

	m      *model
	empty  *spread.Sampling // the plan's own draws, where nothing was measured
	s      *sampler
	priors []float64
	sd     [measurements]float64 // zero where not measured
	wide   float64               // how many times larger the errors are taken than was said, since nothing fits better
	missed []Miss
	tries  int // how often they were made larger

	early   [measurements][]float64 // what the draws as planned would have found
	prior   grids                   // of what several runs share, before the record
	columns []float64
	stride  int
	at      int // of the final runs
	done    bool
	planned float64         // how likely it is that nothing went wrong
	shares  [Causes]float64 // of the causes, where something did
	none    float64         // how likely it is that no dilute acid went in, where nobody said
	noneOf  [Causes]float64
	ranks   []float64
}

// figuresAt, and so on: where the columns of the account begin.
func (p *Posterior) column(i int) []float64 {
	n := len(p.s.label)
	return p.columns[i*p.stride : i*p.stride+n : i*p.stride+n]
}

func (p *Posterior) amountAt(a int) int { return len(route.Figures()) + a }
func (p *Posterior) foundAt(f measurement) int {
	return len(route.Figures()) + amounts + int(f)
}

func (p *Posterior) inputAt(k int) int {
	return len(route.Figures()) + amounts + measurements + k
}

// Start prepares the account of a run: the plan as it was, with the intervals that were
// given for it, and what was measured. The plan must be in order: route.Check has
// nothing to say about it. Bounds and Contradictions stand at once.
func Start(c spread.Case, rec Record) *Posterior {
	m := newModel(c, rec)
	p := &Posterior{m: m, priors: m.priors()}
	p.Bounds = m.bounds()
	p.Contradictions = m.contradictions(&p.Bounds)
	if rec.Empty() {
		p.empty = spread.Start(m.c, emptyDraws)
		p.planned = p.priors[AsPlanned]
		for c := AsPlanned + 1; c < Causes; c++ {
			p.shares[c] = p.priors[c] / (1 - p.planned)
		}
		return p
	}
	for f := range measurement(measurements) {
		if quantity.Given(rec.at(f)) && m.meant(f) {
			p.sd[f] = rec.half(f) / 2
		}
	}
	p.wide = 1
	p.begin()
	return p
}

// begin draws from the start.
func (p *Posterior) begin() {
	weights := slices.Clone(p.priors)
	weights[AsPlanned] *= plannedDrawn
	for c := range weights {
		weights[c] /= 1 - (1-plannedDrawn)*p.priors[AsPlanned]
	}
	p.s = newSampler(p.m.dim(), weights, firstDraws, people, rounds, p.weigh)
	p.s.own = beyond
}

// part tells a run as planned from the causes, and those from each other, by the points, and
// then gives a run as planned the points that its weight asks for.
func (p *Posterior) part() {
	planned, wrong := 0.0, 0.0
	p.shares = [Causes]float64{}
	for _, l := range p.s.label {
		if Cause(l) == AsPlanned {
			planned += 1 / plannedDrawn
			continue
		}
		p.shares[l]++
		wrong++
	}
	if p.planned = planned / (planned + wrong); wrong == 0 { // no point tells one from the other
		copy(p.shares[1:], p.priors[1:])
		wrong = 1 - p.priors[AsPlanned]
	}
	for c := range p.shares {
		p.shares[c] /= wrong
	}
	p.humble()
	if planned > 0 {
		p.s.count(func(label uint8) float64 {
			if Cause(label) == AsPlanned {
				return 1 / plannedDrawn
			}
			return 1
		})
	}
}

// mostTries is how often the errors are made larger before what fits badly is left as it is.
const mostTries = 2

// widen begins anew with errors so many times larger: where even the best points miss a
// weighing, what is said is to be as wide as it fits badly.
func (p *Posterior) widen(times float64) bool {
	if p.tries == mostTries {
		return false
	}
	p.tries++
	p.wide *= times
	p.begin()
	p.at = 0
	return true
}

// uncovered tells whether a weighing, with its half-width, lies outside of where eight in ten
// of the points put it.
func (p *Posterior) uncovered() bool {
	for f, sd := range p.sd {
		if sd == 0 {
			continue
		}
		i, ok := p.interval(p.foundAt(measurement(f)))
		if v := p.m.rec.at(measurement(f)); ok && (v+2*sd < i.Low || v-2*sd > i.High) {
			return true
		}
	}
	return false
}

// Miss is a weighing that the account does not meet.
type Miss struct {
	Key    string
	Found  float64
	Fitted float64 // what the best point gives in its place
	Halves float64 // how many half-widths it lies above that
}

// Misses are the weighings that even the best point misses, the worst first. Empty where all
// fits.
func (p *Posterior) Misses() []Miss { return p.missed }

// farOff is from how many half-widths on a weighing counts as missed: three standard
// deviations. One in twenty lies beyond one half-width by chance.
const farOff = 1.5

func (p *Posterior) misses() (list []Miss) {
	if len(p.s.label) == 0 {
		return nil
	}
	best := 0
	for i, l := range p.s.log {
		if l > p.s.log[best] {
			best = i
		}
	}
	o, _ := p.m.run(Cause(p.s.label[best]), p.s.point(best))
	for f, sd := range p.sd {
		if sd == 0 {
			continue
		}
		v := p.m.rec.at(measurement(f))
		if halves := (v - o.found[f]) / (2 * sd); math.Abs(halves) > farOff {
			list = append(list, Miss{measurementKeys[f], v, o.found[f], halves})
		}
	}
	slices.SortStableFunc(list, func(a, b Miss) int { return cmp.Compare(math.Abs(b.Halves), math.Abs(a.Halves)) })
	return list
}

// Step runs the plan at most n times more and tells whether the account stands, so that
// a page can give way to typing.
func (p *Posterior) Step(n int) bool {
	if p.done {
		return true
	}
	if p.empty != nil {
		p.done = p.empty.Step(n)
		return p.done
	}
	if p.s.phase != over {
		if !p.s.step(n) {
			return false
		}
		if p.tries == 0 {
			if p.missed = p.misses(); len(p.missed) > 0 && p.widen(math.Abs(p.missed[0].Halves)) {
				return false
			}
		}
		if len(p.s.label) > 0 {
			p.part()
		}
		if p.room(); p.stride == 0 {
			p.stand()
		}
		return p.done
	}
	for end := min(len(p.s.label), p.at+n); p.at < end; p.at++ {
		p.keep(p.at)
	}
	if p.at == len(p.s.label) {
		if p.tries > 0 && p.uncovered() && p.widen(1.6) {
			return false
		}
		p.stand()
	}
	return p.done
}

// count tells in which share of the points no dilute acid went in, of all and of each cause.
func (p *Posterior) count() {
	var of, none [Causes]float64
	p.none = 0
	for i, l := range p.s.label {
		of[l]++
		if p.m.none(Cause(l), p.s.point(i)) {
			none[l]++
			p.none += 1 / float64(len(p.s.label))
		}
	}
	for c := range of {
		p.noneOf[c] = none[c] / math.Max(1, of[c])
	}
}

// sureOfTwo is the most that a cause, or that none was needed, is given by two weighings or
// fewer: there is always something that no cause here stands for. An estimate.
const sureOfTwo = 0.9

// humble shares what a cause has beyond sureOfTwo among the others, by what they had before.
func (p *Posterior) humble() {
	told := 0
	for _, sd := range p.sd {
		if sd > 0 {
			told++
		}
	}
	if told > 2 {
		return
	}
	p.planned = math.Min(p.planned, sureOfTwo)
	first := p.Ranked()[0]
	over := p.shares[first] - sureOfTwo
	rest := 1 - p.priors[AsPlanned] - p.priors[first]
	if over <= 0 || rest <= 0 {
		return
	}
	for c := AsPlanned + 1; c < Causes; c++ {
		p.shares[c] += over * p.priors[c] / rest
	}
	p.shares[first] = sureOfTwo
}

// room makes the memory for what the points give.
func (p *Posterior) room() {
	p.stride = len(p.s.label)
	p.columns = make([]float64, p.inputAt(len(p.m.uncertain))*p.stride)
	p.ranks = make([]float64, p.stride)
}

// stand ends the work.
func (p *Posterior) stand() {
	p.done = true
	p.count()
}

// Finish does all that is left, and returns the account.
func (p *Posterior) Finish() *Posterior {
	for !p.Step(math.MaxInt32) {
	}
	return p
}

// weigh is the logarithm of the likelihood of a point.
func (p *Posterior) weigh(label int, u []float64) (log float64, allowed bool) {
	o, ok := p.m.run(Cause(label), u)
	if p.s.phase == drawing && p.tries == 0 {
		if Cause(label) == AsPlanned && ok {
			for f := range o.found {
				p.early[f] = append(p.early[f], o.found[f])
			}
		}
		p.prior.add(&p.m.learns, p.priors[label]/float64(firstDraws))
	}
	if !ok {
		return math.Inf(-1), false
	}
	for f, sd := range p.sd {
		if sd > 0 {
			z := (p.m.rec.at(measurement(f)) - o.found[f]) / (sd * p.wide)
			log -= float64(z*z) / 2
		}
	}
	// A point beyond a bound may not stand in the end; on the way it weighs less the
	// farther it is, so that the others find back.
	allowed = true
	for _, b := range [...]struct{ least, has, most float64 }{
		{p.Bounds.Made.Value, o.made, p.Bounds.MadeMost.Value},
		{p.Bounds.Used.Value, o.used, quantity.Blank},
		{quantity.Blank, o.reached, p.Bounds.UsedMost.Value},
		{p.salt(&o), o.manganese, quantity.Blank},
	} {
		for _, beyond := range [...]float64{(b.least - b.has) / b.least, (b.has - b.most) / b.most} {
			if beyond > hair {
				allowed = false
				z := beyond / 0.01
				log -= float64(z*z) / 2
			}
		}
	}
	return log, allowed
}

// salt is the manganese, mmol, that a jar that was weighed must hold to be called what it is;
// Blank where none was weighed.
func (p *Posterior) salt(o *outcome) float64 {
	if p.sd[product] == 0 {
		return quantity.Blank
	}
	return 1000 * leastSalt * o.found[product] / massSalt
}

// keep runs a point of the account once more and keeps all that it gives.
func (p *Posterior) keep(i int) {
	from := i
	if i > 0 && p.s.label[i] == p.s.label[i-1] && slices.Equal(p.s.point(i), p.s.point(i-1)) {
		from = i - 1
		for c := range len(p.columns) / p.stride {
			p.columns[c*p.stride+i] = p.columns[c*p.stride+from]
		}
		return
	}
	put := func(column int, v float64) { p.columns[column*p.stride+i] = v }
	o, _ := p.m.run(Cause(p.s.label[i]), p.s.point(i))
	s := p.m.sheet
	for id := range route.FigureID(len(route.Figures())) {
		put(int(id), o.figure(s, id))
	}
	put(p.amountAt(made), o.made)
	put(p.amountAt(used), o.used)
	put(p.amountAt(uptake), o.uptake)
	batch, residue := s.Value(route.BatchManganese), s.Value(route.ResidueManganese)
	liquor := s.Value(route.CropLeft)
	if liquor != liquor {
		liquor = 0
	}
	if Cause(p.s.label[i]) == LiquorLeft { // that is where the salt is, not lost
		liquor += o.manganese * o.spilt / (1 - o.spilt)
	}
	put(p.amountAt(lost), math.Max(0, batch-o.manganese-residue-liquor))
	put(p.amountAt(cake), residue)
	left, _ := undissolved(p.m.runner.Book())
	put(p.amountAt(intact), left.Millimoles())
	for f := range measurement(measurements) {
		put(p.foundAt(f), o.found[f])
	}
	for k := range p.m.uncertain {
		put(p.inputAt(k), p.m.uncertain[k].Input.Value(&p.m.learns))
	}
}

// figure is a figure of the plan with what a spill or another hydrate did to the jar.
func (o *outcome) figure(s *route.Sheet, id route.FigureID) float64 {
	v := s.Value(id)
	switch id {
	case route.ProductMass:
		return o.found[product]
	case route.ProductAnhydrous, route.ProductMono, route.ProductTetra, route.ProductPenta, route.ProductYield,
		route.ProductZinc, route.ProductAmmonium, route.ProductDithionate, route.ProductSulfite, route.ProductAcid, route.ProductChloride:
		return v * (1 - o.spilt)
	case route.ProductPurity:
		if dry := s.Value(route.ProductMass); dry+o.water > 0 {
			return 100 * math.Min(1, (v/100*dry+o.water)/(dry+o.water))
		}
	case route.ProductWaters:
		if o.water != 0 {
			// The water that came is shared out over what holds it.
			if salt := v*massWater + massSalt; salt > 0 {
				pure := s.Value(route.ProductMass) * s.Value(route.ProductPurity) / 100 / salt
				return v + o.water/massWater/pure
			}
		}
	}
	return v
}

// OK tells whether there is an account; Why says why not.
func (p *Posterior) OK() bool { return p.done && (p.empty != nil || len(p.s.label) > 0) }

// Why says why there is no account, in a sentence; empty where there is one.
func (p *Posterior) Why() string {
	switch {
	case !p.done:
		return "The account is not worked out yet."
	case p.OK():
		return ""
	case len(p.Contradictions) > 0:
		return "No run within this plan's limits gives these weighings. " + p.Contradictions[0].Message
	}
	return "No run within this plan's limits gives these weighings. Weigh again, or widen the estimates."
}

// Empty tells whether nothing was measured: the account is the plan then.
func (p *Posterior) Empty() bool { return p.empty != nil }

// Planned is how likely it is that nothing went wrong: of runs that weigh this, so many went as
// planned. None did where it was said that no dilute acid went in, and the plan wants some.
func (p *Posterior) Planned() float64 { return p.planned }

// Probability is how likely it is that a cause was the one if something did go wrong; all sum to
// one, and AsPlanned, which is none, has nothing.
func (p *Posterior) Probability(c Cause) float64 { return p.shares[c] }

// Mostly is how the run most likely went: as planned, where that is at least as likely as not,
// else by the likeliest cause.
func (p *Posterior) Mostly() Cause {
	if p.planned >= 0.5 {
		return AsPlanned
	}
	return p.Ranked()[0]
}

// Ranked are the causes, the likeliest first, without AsPlanned.
func (p *Posterior) Ranked() []Cause {
	list := make([]Cause, Causes-1)
	for i := range list {
		list[i] = AsPlanned + 1 + Cause(i)
	}
	slices.SortStableFunc(list, func(a, b Cause) int { return cmp.Compare(p.shares[b], p.shares[a]) })
	return list
}

// Size says how much the account rests on.
type Size struct {
	Draws  int     // runs of the plan weighed at first
	Plain  float64 // their effective number, weighted
	Steps  int     // by which the measurements were let in; 0 where the plain weights did
	Points float64 // effective number of different points that the account is made of
	Lines  float64 // of the first draws that those come from
}

// Size is how much the account rests on; all zero where there is none.
func (p *Posterior) Size() Size {
	if p.s == nil {
		if p.empty == nil {
			return Size{}
		}
		n := float64(p.empty.Kept())
		return Size{Draws: p.empty.Draws(), Plain: n, Points: n, Lines: n}
	}
	points, lines := p.s.distinct()
	return Size{p.s.first * p.live(), p.s.plain, p.s.stages, points, lines}
}

func (p *Posterior) live() (n int) {
	for _, w := range p.priors {
		if w > 0 {
			n++
		}
	}
	return n
}

// Band is where eight in ten of the points lie; not ok for words and for figures that
// more than half of the points leave undefined.
func (p *Posterior) Band(id route.FigureID) (low, high float64, ok bool) {
	i, ok := p.Interval(id)
	return i.Low, i.High, ok
}

// Interval is Band with the middle.
func (p *Posterior) Interval(id route.FigureID) (Interval, bool) {
	if !p.OK() || id.Info().Words != nil {
		return blankInterval, false
	}
	if p.empty != nil {
		low, high, ok := p.empty.Band(id)
		middle, _ := p.empty.Quantile(id, 0.5)
		return Interval{low, middle, high}, ok
	}
	return p.interval(int(id))
}

// Points is a figure in all points, side by side; nil where there are none or nothing
// was measured. The caller must only read it.
func (p *Posterior) Points(id route.FigureID) []float64 {
	if !p.OK() || p.empty != nil {
		return nil
	}
	return p.column(int(id))
}

var blankInterval = Interval{quantity.Blank, quantity.Blank, quantity.Blank}

// Account is a figure of the account by its key; not ok where there is none. Those of
// an empty record are the plan's, where the plan has them.
func (p *Posterior) Account(key string) (Interval, bool) {
	if !p.OK() {
		return blankInterval, false
	}
	if p.empty != nil {
		switch key {
		case KeyMade:
			return p.Interval(route.GasMade)
		case KeyCake:
			return p.Interval(route.ResidueManganese)
		case KeyUptake:
			return p.Input(uptakeKey)
		}
		return blankInterval, false
	}
	if a := amountOf(key); a >= 0 {
		return p.interval(p.amountAt(a))
	}
	return blankInterval, false
}

// amountOf is the place of a figure among the amounts; below 0 where it is none.
func amountOf(key string) int {
	return slices.IndexFunc(amountFigures[:], func(f route.Figure) bool { return f.Key == key })
}

// Shown is Account with the figure of the run that stands for all (LikeliestRun) for its middle,
// so that it is one wherever it is told. An end that it lies beyond is moved to it.
func (p *Posterior) Shown(key string) (Interval, bool) {
	i, ok := p.Account(key)
	a := amountOf(key)
	if !ok || a < 0 {
		return i, ok
	}
	if at, is := p.likeliest(); is {
		if v := p.column(p.amountAt(a))[at]; quantity.Given(v) {
			i = Interval{math.Min(i.Low, v), v, math.Max(i.High, v)}
		}
	}
	return i, true
}

// Input is what was learned of an uncertain input; not ok where the plan does not draw
// it.
func (p *Posterior) Input(key string) (Interval, bool) {
	if !p.OK() {
		return blankInterval, false
	}
	for k := range p.m.uncertain {
		u := &p.m.uncertain[k]
		if u.Input.Key != key {
			continue
		}
		if p.empty != nil {
			return Interval{u.At(0.1), u.At(0.5), u.At(0.9)}, true
		}
		return p.interval(p.inputAt(k))
	}
	return blankInterval, false
}

// Fitted is what the account says a measurement should have shown, Expected what the
// plan said: where eight in ten of the points, or of the draws as planned, put it. Not
// ok for a key that is not weighed against the plan.
func (p *Posterior) Fitted(key string) (Interval, bool) {
	f := slices.Index(measurementKeys[:], key)
	if f < 0 || !p.OK() || p.empty != nil {
		return blankInterval, false
	}
	i, ok := p.interval(p.foundAt(measurement(f)))
	if v := p.m.rec.at(measurement(f)); ok && p.tries > 0 && p.sd[f] > 0 {
		// What no run of this plan gives was found all the same.
		i.Low, i.High = math.Min(i.Low, v), math.Max(i.High, v)
	}
	return i, ok
}

// Expected is what the plan said that a measurement would show; see Fitted.
func (p *Posterior) Expected(key string) (Interval, bool) {
	f := slices.Index(measurementKeys[:], key)
	if f < 0 || len(p.early[max(f, 0)]) == 0 {
		return blankInterval, false
	}
	return middling(slices.Sorted(slices.Values(p.early[f]))), true
}

// Likeliest is the run as it most likely was; not ok where nothing was measured. Of the points
// of the way in which it mostly went (Mostly) that meet the measurements best, the weighed salt
// first, it is the middling one.
func (p *Posterior) Likeliest() (plan route.Plan, cause Cause, spilt float64, ok bool) {
	at, ok := p.likeliest()
	if !ok {
		return plan, cause, 0, false
	}
	cause = Cause(p.s.label[at])
	o, _ := p.m.run(cause, p.s.point(at))
	return p.m.plan, cause, o.spilt, true
}

// saltFirst is how many times the weighed salt counts where one point is to stand for all:
// beside a jar that was weighed none is shown that holds something else. An estimate.
const saltFirst = 10

// asGood is by how much the logarithm of a point's likelihood may lie below the best one's for
// the point to meet the measurements as well: less than one standard deviation off. An estimate.
const asGood = 0.5

func (p *Posterior) likeliest() (at int, ok bool) {
	if !p.OK() || p.empty != nil {
		return 0, false
	}
	cause, best := p.Mostly(), math.Inf(-1)
	log := slices.Clone(p.s.log)
	for i, l := range p.s.label {
		if sd := p.sd[product]; sd > 0 {
			z := (p.m.rec.at(product) - p.column(p.foundAt(product))[i]) / (sd * p.wide)
			log[i] -= saltFirst * float64(z*z) / 2
		}
		if Cause(l) == cause {
			best = math.Max(best, log[i])
		}
	}
	var middle [amounts]Interval
	for a := range middle {
		middle[a], _ = p.interval(p.amountAt(a))
	}
	at = -1
	least := math.Inf(1)
	for i, l := range p.s.label {
		if Cause(l) != cause || log[i] < best-asGood {
			continue
		}
		off := 0.0
		for a, m := range middle {
			if d := math.Abs(p.column(p.amountAt(a))[i]-m.Median) / (m.High - m.Low); d > 0 && !math.IsInf(d, 1) {
				off += d
			}
		}
		if off < least {
			at, least = i, off
		}
	}
	return at, at >= 0
}

// LikeliestRun runs the plan as it most likely ran, with its bookings, and books what was spilt or
// left in a liquor out of the jar: what is shown of that run is all of this one book. Nil
// where nothing was measured.
func (p *Posterior) LikeliestRun() *route.Runner {
	plan, cause, spilt, ok := p.Likeliest()
	if !ok {
		return nil
	}
	runner := &route.Runner{Keep: true}
	runner.Run(&plan)
	if spilt > 0 {
		to := ledger.Losses
		if cause == LiquorLeft {
			to = ledger.MotherLiquor
		}
		runner.Book().MoveAll(ledger.ProductJar, to, spilt)
	}
	return runner
}

func (p *Posterior) sorted(column int) []float64 {
	sorted := p.ranks[:0]
	for _, v := range p.column(column) {
		if v == v {
			sorted = append(sorted, v)
		}
	}
	slices.Sort(sorted)
	return sorted
}

func (p *Posterior) interval(column int) (Interval, bool) {
	sorted := p.sorted(column)
	if 2*len(sorted) < len(p.s.label) || len(sorted) == 0 {
		return blankInterval, false
	}
	return middling(sorted), true
}

// middling is where eight in ten of sorted values lie, and their middle.
func middling(sorted []float64) Interval {
	return Interval{quantile(sorted, 0.1), quantile(sorted, 0.5), quantile(sorted, 0.9)}
}

// quantile is by Hazen's rule, as in package spread.
func quantile(sorted []float64, q float64) float64 {
	rank := q*float64(len(sorted)) - 0.5
	k := int(math.Floor(rank))
	switch {
	case k < 0:
		return sorted[0]
	case k >= len(sorted)-1:
		return sorted[len(sorted)-1]
	}
	return sorted[k] + (rank-float64(k))*(sorted[k+1]-sorted[k])
}
