package spread

import (
	"math"

	"rosesalt/chem/figure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Sampling draws plans and counts their figures. It owns the memory that this needs;
// one Sampling must not be used from two goroutines.
type Sampling struct {
	c         Case
	base      route.Plan // with what is held
	plan      route.Plan // of the draw
	best      route.Sheet
	runner    route.Runner
	uncertain []Uncertain

	sample
	done, kept int
	places     []int        // of a sheet's numbers
	sheet      *route.Sheet // of the last draw
	derived    []int        // how many draws the column of a figure that follows from others holds
	columns    figure.Columns
	bands      []band
}

type band struct {
	low, high float64
	at        int // after how many draws
	ok        bool
}

// Start prepares draws of a case, 1 to 2^20; 4096 give the ends of a band to
// about a hundredth of its width, and powers of two are best. It runs the plan
// once, as it stands; the first draw allocates the memory of the draws.
func Start(c Case, draws int) *Sampling {
	figures := len(route.Figures())
	r := &Sampling{
		sample:    sample{draws: min(max(draws, 1), mostDraws)},
		derived:   make([]int, figures),
		places:    route.NumberPlaces(),
		bands:     make([]band, figures),
		uncertain: make([]Uncertain, 0, len(route.Inputs())),
	}
	r.Restart(c)
	return r
}

// Restart begins anew with another case, in the same memory: nothing more is
// allocated, and everything comes out as from Start.
func (r *Sampling) Restart(c Case) {
	r.c, r.done, r.kept = c, 0, 0
	r.c.Plan = r.c.Planned()
	clear(r.bands)
	clear(r.derived)
	r.sheet = r.runner.Run(&r.c.Plan)
	r.best = *r.sheet
	r.uncertain = uncertains(r.uncertain[:0], &r.c, &r.best)
	r.base = r.c.Plan
	if !c.Follow {
		HoldCharges(&r.base, &r.best)
	}
}

// HoldCharges sets the charges and volumes that are blank to what the best figures took: the
// chemist measures them out as the page prints them. A charge of nothing is below the
// least that may be set; it stays blank, which comes to the same.
func HoldCharges(p *route.Plan, best *route.Sheet) {
	for _, f := range route.Figures() {
		if !f.Poured {
			continue
		}
		in, _ := route.InputByKey(f.For)
		if quantity.Given(in.Value(p)) {
			continue
		}
		if v, ok := in.WorkedOut(p, best); ok && v >= in.Min && v <= in.Max {
			set(in, p, v)
		}
	}
}

// set puts a value that is known to be within the limits into a plan.
func set(in *route.Input, p *route.Plan, v float64) {
	if err := in.Set(p, v); err != nil {
		panic(err)
	}
}

// Step does at most n more draws and tells whether all are done, so that a page
// can give way to typing.
func (r *Sampling) Step(n int) bool {
	for end := min(r.draws, r.done+n); r.done < end; r.done++ {
		r.draw(r.done)
	}
	return r.done == r.draws
}

// spend is Step that tells how many draws it made, one at least, so that who counts them down
// comes to an end.
func (r *Sampling) spend(n int) (made int, done bool) {
	before := r.done
	done = r.Step(n)
	return max(1, r.done-before), done
}

// Finish does all draws that are left, and returns the run.
func (r *Sampling) Finish() *Sampling {
	r.Step(r.draws)
	return r
}

func (r *Sampling) draw(point int) { r.keep(point, r.drawn(point)) }

// drawn runs the plan of a point.
func (r *Sampling) drawn(point int) *route.Sheet {
	r.plan = r.base
	at := reversed(point)
	for k := range r.uncertain {
		u := &r.uncertain[k]
		set(u.Input, &r.plan, u.At(unit(points.at(at, u.coordinate))))
	}
	route.Reconcile(&r.plan)
	return r.runner.Run(&r.plan)
}

// keep stores the numbers that the figures of the plan that was drawn follow from.
func (r *Sampling) keep(point int, s *route.Sheet) {
	if r.values == nil {
		r.sample = newSample(route.Numbers, r.draws)
	}
	if contradicts(&r.plan, s) {
		r.leaveOut(point)
		return
	}
	r.kept++
	for _, place := range r.places {
		r.put(place, point, s.Number(place))
	}
}

// contradicts tells whether the mix that was drawn could not give the assay.
func contradicts(p *route.Plan, s *route.Sheet) bool {
	a := float64(p.MixAssay)
	return quantity.Given(a) && (a < s.Value(route.AssayLeast) || a > s.Value(route.AssayMost))
}

// Draws is how many draws the run makes, Done how many it has made, and Kept how
// many of those were not left out.
func (r *Sampling) Draws() int { return r.draws }

// Done is how many draws have been made.
func (r *Sampling) Done() int { return r.done }

// Kept is how many of the draws made do not contradict an assay.
func (r *Sampling) Kept() int { return r.kept }

// Best are the figures of the plan as it stands, charges left blank as they are.
// The caller must only read them.
func (r *Sampling) Best() *route.Sheet { return &r.best }

// Case is what the run was started with, the plan as computed.
func (r *Sampling) Case() Case { return r.c }

// Uncertains are the inputs that are drawn. The caller must only read them, and
// not after Restart.
func (r *Sampling) Uncertains() []Uncertain { return r.uncertain }

// Input is the value that an uncertain input, by its place in Uncertains, has in
// a draw.
func (r *Sampling) Input(k, draw int) float64 {
	u := &r.uncertain[k]
	return u.At(unit(points.at(reversed(draw), u.coordinate)))
}

// Figure is a figure in all draws made, side by side; not a number where it has
// no value or the draw was left out. A word is its place. The caller must only read
// it, and not after Restart.
func (r *Sampling) Figure(id route.FigureID) []float64 {
	if r.done == 0 {
		return nil
	}
	out := r.column(int(id), r.done)
	have := r.derived[id]
	program := r.sheet.Program(id)
	if program == nil || have == r.done {
		return out
	}
	r.derived[id] = r.done
	r.columns.Run(program, func(place int) []float64 { return r.column(place, r.done)[have:] }, out[have:])
	if route.HasMeaning(id, 0) {
		return out
	}
	met := r.column(route.ConditionsPlace, r.done)
	meant, last := true, math.NaN()
	for k := have; k < r.done; k++ {
		if met[k] != last {
			last = met[k]
			meant = route.HasMeaning(id, last)
		}
		if !meant {
			out[k] = quantity.Blank
		}
	}
	return out
}

// The band leaves a tenth of the draws below and a tenth above.
const (
	bandLow  = 0.1
	bandHigh = 0.9
)

// Band is where eight in ten of the draws lie: the 10th and the 90th percentile.
// Not ok for words, for figures that more than half of the draws leave undefined,
// and before the first draw.
//
// The best figure seldom lies outside. It stands above the middle where it is the most
// that can be: of gas, acid and oxide the scarcest limits the product, and more ways of
// being wrong leave one of them short than leave more of all.
func (r *Sampling) Band(id route.FigureID) (low, high float64, ok bool) {
	b := &r.bands[id]
	if b.at != r.done {
		b.at = r.done
		q := [2]float64{bandLow, bandHigh}
		b.ok = r.quantiles(id, q[:])
		b.low, b.high = q[0], q[1]
		if b.high-b.low <= lastDigits*math.Abs(b.high) {
			if best := r.best.Value(id); quantity.Given(best) {
				b.low = best
			}
			b.high = b.low
		}
	}
	return b.low, b.high, b.ok
}

// lastDigits is how wide a band may be, in parts of the figure, by the last digits of the
// arithmetic alone: then no draw differs, and both ends are one.
const lastDigits = 1e-12

// quantiles turns the shares in q into the quantiles of a figure.
func (r *Sampling) quantiles(id route.FigureID, q []float64) bool {
	if id.Info().Words != nil || r.kept == 0 {
		return blank(q)
	}
	if n := r.sample.quantiles(r.Figure(id), q); n == 0 || 2*n < r.kept {
		return blank(q)
	}
	return true
}

func blank(q []float64) bool {
	for i := range q {
		q[i] = quantity.Blank
	}
	return false
}

// Quantile is the value below which the share p, 0 to 1, of the draws lies; not
// ok as for Band.
func (r *Sampling) Quantile(id route.FigureID, p float64) (v float64, ok bool) {
	q := [1]float64{p}
	ok = r.quantiles(id, q[:])
	return q[0], ok
}

// Difference is the band of a figure of b less that of a, draw by draw: both met
// the same luck, so that what they share falls out. The plans differ for certain,
// nine times in ten, when zero lies outside. Not ok for words, and where fewer than
// half of the draws define both.
func Difference(a, b *Sampling, id route.FigureID) (low, high float64, ok bool) {
	n := min(a.done, b.done)
	if id.Info().Words != nil || n == 0 {
		return quantity.Blank, quantity.Blank, false
	}
	less := make([]float64, n)
	x, y := a.Figure(id), b.Figure(id)
	for i := range less {
		less[i] = y[i] - x[i]
	}
	q := [2]float64{bandLow, bandHigh}
	scratch := newSample(0, n)
	if defined := scratch.quantiles(less, q[:]); 2*defined < n {
		return quantity.Blank, quantity.Blank, false
	}
	return q[0], q[1], true
}
