package spread

import (
	"cmp"
	"math"
	"math/bits"
	"slices"

	"rosesalt/chem/field"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Cleaned is a plan with steps taken for the purity of its salt, and what that comes to.
type Cleaned struct {
	Steps   []route.Step
	Set     []field.Change // all that is changed of the plan, in bench order
	Purity  float64        // % of the jar
	Product float64        // g in the jar
	Reaches bool           // what is wanted
	Cost    Cost
	Left    []route.Need // beside the salt, g to 100 g of it, anhydrous
}

// Cost is what steps ask for that the plan does not, below zero where they spare it.
type Cost struct {
	Hours  float64 // at the bench
	Nights float64 // that something stands
	Litres float64 // of liquor to keep for collection
	Gas    float64 // L of sulfur dioxide that passes the slurry by or comes off the dish
	Grams  float64 // of salt that does not come into the jar, counted anhydrous
	Share  float64 // of the plan's salt, the same
	Blue   float64 // g of blue copper sulfate that does not come either
	Blues  float64 // of the plan's, the same; more of it is no gain, since copper and acid pay for it
	Way    bool    // it is another reductant: others to buy, other dangers
}

// What the parts of a cost are worth in hours at the bench, to tell which is the cheapest:
// judgements.
const (
	nightWorth = 1.0
	litreWorth = 1.0
	gasWorth   = 1.0  // a litre of it
	saltWorth  = 10.0 // all of it, or of the blue: a tenth is an hour
	wayWorth   = 4.0

	// Priced says in what a combination is the cheapest.
	Priced = "in hours at the bench (a night, a litre of liquor or of gas, and a tenth of the salt or of the blue each count as one, other reagents as four)"
)

// price is the cost in hours at the bench.
func (c *Cost) price() float64 {
	v := c.Hours + float64(nightWorth*c.Nights) + float64(litreWorth*c.Litres) + float64(gasWorth*c.Gas) + float64(saltWorth*(c.Share+math.Max(0, c.Blues)))
	if c.Way {
		v += wayWorth
	}
	return v
}

// Purer is how the salt of a plan comes to a wanted purity.
type Purer struct {
	Want, Now float64 // %
	// Alone is each step by itself; of washes the fewest that reach it, or the most.
	Alone []Cleaned
	// Best is the cheapest combination that reaches it; where none does, the purest there is.
	// Without steps where the plan reaches it by itself.
	Best Cleaned
	// Sure is the purity that nine draws in ten of Best reach.
	Sure float64
	// Surest is of the combinations that reach it, or are as pure as any, the one of which nine
	// draws in ten are purest, and SurestSure what they reach. Without steps where that is not
	// more than surer points above Sure.
	Surest     Cleaned
	SurestSure float64
	// Again and Keeps are the purity of Best recrystallised hot, and how much of its salt that
	// keeps, %.
	Again, Keeps float64
	Empty        bool // there is no salt in the jar, or the plan is refused (route.Check), and nothing to tell
}

// Purify looks for the steps that bring the salt of a plan to a purity, by computing the plan
// with each of them and with all that go together.
type Purify struct {
	c Case

	runner  route.Runner
	sheet   route.Sheet // of the plan
	now     work
	tries   []try
	next    int     // of the tries
	able    []int   // of the tries, those that do and have no part that does
	priced  int     // of the able
	weighed int     // of the able, how sure they are
	least   float64 // purity that they have
	run     *Run
	draws   int
	answer  Purer
}

// try is a set of steps.
type try struct {
	steps  []route.Step
	mask   uint32  // of them, by their keys
	purity float64 // Blank where no salt comes
}

// work is what a plan asks for.
type work struct{ hours, nights, litres, gas, salt, blue float64 }

// PureFor looks for a purity, in percent of what the jar holds.
func PureFor(c Case, want float64, draws int) *Purify {
	f := &Purify{c: c, draws: draws}
	p := c.Planned()
	f.sheet = *f.runner.Run(&p)
	now, _, ok := f.runner.Jar(&p)
	f.answer = Purer{Want: want, Now: now.Purity, Empty: !ok || len(route.Check(&c.Plan)) > 0}
	if f.answer.Empty {
		return f
	}
	f.now = f.asks(&p, &f.sheet, now.Salt)
	f.combine(&p)
	return f
}

// with is the plan with steps taken, as it is written and as it is computed; not ok where they
// do not go together.
func (f *Purify) with(steps []route.Step) (c Case, computed route.Plan, ok bool) {
	c = f.c
	c.Plan, ok = c.Plan.With(changes(steps))
	return c, c.Planned(), ok
}

// asks is what a plan asks for that has been run, its steps by their usual times.
func (f *Purify) asks(p *route.Plan, s *route.Sheet, salt float64) work {
	w := work{litres: s.Value(route.WasteVolume) / 1000, salt: salt}
	w.gas, w.blue = s.Amount(route.VentVolume)+s.Amount(route.DryGasVolume), s.Amount(route.CopperCrop)
	steps := procedure.Steps(p, s, nil)
	for i := range steps {
		switch st := &steps[i]; {
		case st.Watch != procedure.Overnight:
			w.hours += float64(st.Minutes) / 60
		case !st.Beside:
			w.nights++
		}
	}
	return w
}

// combine lists all combinations of steps, none first. What a step does hangs on the way and
// on the rinse, so these go before.
func (f *Purify) combine(p *route.Plan) {
	keys := map[string]uint32{}
	mask := func(steps []route.Step) (m uint32) {
		for _, st := range steps {
			if keys[st.Key] == 0 {
				keys[st.Key] = 1 << len(keys)
			}
			m |= keys[st.Key]
		}
		return m
	}
	base := route.Steps(p, &f.sheet)
	for _, way := range choices(base, route.OfWay) {
		for _, rinse := range choices(base, route.OfRinse) {
			first := slices.Concat(way, rinse)
			_, q, ok := f.with(first)
			if !ok {
				continue
			}
			steps := route.Steps(&q, f.runner.Run(&q))
			all := [][]route.Step{first}
			for _, kind := range [...]route.StepKind{route.OfWash, route.OfWarmth, route.OfIron, route.OfFinish} {
				var longer [][]route.Step
				for _, steps := range choices(steps, kind) {
					for _, before := range all {
						longer = append(longer, slices.Concat(before, steps))
					}
				}
				all = longer
			}
			for _, steps := range all {
				f.tries = append(f.tries, try{steps: steps, mask: mask(steps), purity: quantity.Blank})
			}
		}
	}
}

// choices are the steps of a kind, one at most: none first.
func choices(steps []route.Step, kind route.StepKind) [][]route.Step {
	list := [][]route.Step{nil}
	for _, st := range steps {
		if st.Kind == kind {
			list = append(list, []route.Step{st})
		}
	}
	return list
}

// changes are all that steps change.
func changes(steps []route.Step) (all []field.Change) {
	for _, st := range steps {
		all = append(all, st.Set...)
	}
	return all
}

// Step computes at most about n more plans and tells whether the answer is there.
func (f *Purify) Step(n int) bool {
	for n > 0 && !f.answer.Empty {
		switch {
		case f.next < len(f.tries):
			f.compute(&f.tries[f.next])
			if f.next++; f.next == len(f.tries) {
				f.alone()
				f.sift()
			}
			n--
		case f.priced < len(f.able):
			f.price(f.able[f.priced])
			if f.priced++; f.priced == len(f.able) {
				f.settle()
			}
			n -= 10 // the steps at the bench are written for it
		case f.run.done < f.run.draws:
			made, done := f.run.spend(n)
			n -= made
			if done {
				f.judge()
			}
		default:
			return true
		}
	}
	return f.answer.Empty || f.finished()
}

// finished tells whether all is known of how sure the combinations are.
func (f *Purify) finished() bool { return f.run != nil && f.run.done == f.run.draws }

// judge takes note of how sure the combination is that the run is about, the best first, and
// goes on to the next of the able.
func (f *Purify) judge() {
	a := &f.answer
	low, ok := f.run.Quantile(route.ProductPurity, bandLow)
	if f.weighed == 0 {
		a.Sure = low
	} else if ok && low > a.Sure+surer && (len(a.Surest.Steps) == 0 || low > a.SurestSure) {
		if c, ok := f.clean(f.tries[f.able[f.weighed-1]].steps); ok {
			a.Surest, a.SurestSure = c, low
		}
	}
	if f.weighed == len(f.able) || len(a.Best.Steps) == 0 {
		return
	}
	c, _, _ := f.with(f.tries[f.able[f.weighed]].steps)
	f.weighed++
	f.run.Restart(c)
}

// surer is by how many points nine draws in ten must be purer for another combination to be
// told beside the cheapest (judgement).
const surer = 5.0

// Finish computes to the end.
func (f *Purify) Finish() Purer {
	for !f.Step(math.MaxInt) {
	}
	return f.answer
}

// Answer is what is found; complete when Step is true.
func (f *Purify) Answer() Purer { return f.answer }

// compute tells how pure the salt comes.
func (f *Purify) compute(t *try) {
	_, q, ok := f.with(t.steps)
	if !ok {
		return
	}
	f.runner.Run(&q)
	if now, _, ok := f.runner.Jar(&q); ok {
		t.purity = now.Purity
	}
}

// clean is the plan with steps taken; not ok where they do not go together, or no salt comes.
func (f *Purify) clean(steps []route.Step) (c Cleaned, ok bool) {
	k, q, ok := f.with(steps)
	if !ok {
		return c, false
	}
	s := f.runner.Run(&q)
	now, _, ok := f.runner.Jar(&q)
	if !ok {
		return c, false
	}
	w := f.asks(&q, s, now.Salt)
	lost := f.now.salt - w.salt
	cost := Cost{
		Hours: w.hours - f.now.hours, Nights: w.nights - f.now.nights, Litres: w.litres - f.now.litres, Gas: w.gas - f.now.gas,
		Grams: lost, Share: lost / f.now.salt, Blue: f.now.blue - w.blue, Way: q.GasSource != f.c.Plan.GasSource,
	}
	if f.now.blue > 0 {
		cost.Blues = cost.Blue / f.now.blue
	}
	return Cleaned{
		Steps: steps, Set: f.c.Plan.Changes(&k.Plan), Purity: now.Purity, Product: now.Product, Reaches: now.Purity >= f.answer.Want, Left: now.Remains(), Cost: cost,
	}, true
}

// alone tells of each step by itself. The steps of one name are ways to do the same, from the
// slightest on.
func (f *Purify) alone() {
	list := &f.answer.Alone
	for i := range f.tries {
		t := &f.tries[i]
		if len(t.steps) != 1 || !quantity.Given(t.purity) {
			continue
		}
		c, ok := f.clean(t.steps)
		if !ok {
			continue
		}
		at := slices.IndexFunc(*list, func(o Cleaned) bool { return o.Steps[0].Kind == route.OfWash && c.Steps[0].Kind == route.OfWash })
		switch {
		case at < 0:
			*list = append(*list, c)
		case !(*list)[at].Reaches && c.Purity > (*list)[at].Purity:
			(*list)[at] = c
		}
	}
	slices.SortStableFunc(*list, func(a, b Cleaned) int { return cmp.Compare(a.Steps[0].Kind, b.Steps[0].Kind) })
}

// sift finds the combinations to be priced: those that reach what is wanted, or where none
// does, that are as pure as any; and have no part that is.
func (f *Purify) sift() {
	most := math.Inf(-1)
	for i := range f.tries {
		if v := f.tries[i].purity; v > most {
			most = v
		}
	}
	if f.least = f.answer.Want; most < f.least {
		f.least = most - nearly
	}
	for i := range f.tries {
		if t := &f.tries[i]; t.purity >= f.least && !f.part(t) {
			f.able = append(f.able, i)
		}
	}
}

// nearly is the purity, in points, that makes no difference.
const nearly = 0.05

// part tells whether a part of the steps does as much.
func (f *Purify) part(t *try) bool {
	for i := range f.tries {
		if o := &f.tries[i]; o.purity >= f.least && o.mask != t.mask && o.mask&t.mask == o.mask {
			return true
		}
	}
	return false
}

// price takes a combination where it is cheaper than the best so far.
func (f *Purify) price(i int) {
	c, ok := f.clean(f.tries[i].steps)
	if ok && (f.answer.Best.Purity == 0 || f.cheaper(&c, &f.answer.Best)) {
		f.answer.Best = c
	}
}

// cheaper tells whether a combination costs less than another, or as much in fewer steps.
func (f *Purify) cheaper(c, than *Cleaned) bool {
	return cmp.Or(cmp.Compare(c.Cost.price(), than.Cost.price()), cmp.Compare(len(c.Steps), len(than.Steps))) < 0
}

// settle takes the cheapest part of the best, by its own amounts, that does as much, and begins
// to tell how sure it is.
func (f *Purify) settle() {
	best := &f.answer.Best
	steps := best.Steps
	for m := range uint(1) << len(steps) {
		var part []route.Step
		for i := range steps {
			if m>>i&1 == 1 {
				part = append(part, steps[i])
			}
		}
		if bits.OnesCount(m) == len(steps) {
			continue
		}
		if c, ok := f.clean(part); ok && c.Purity >= f.least && f.cheaper(&c, best) {
			*best = c
		}
	}
	c, q, _ := f.with(best.Steps)
	f.runner.Run(&q)
	_, again, _ := f.runner.Jar(&q)
	f.answer.Again, f.answer.Keeps = again.Purity, again.Keeps
	f.run = Start(c, f.draws)
}
