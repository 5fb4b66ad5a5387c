package spread

import (
	"fmt"
	"maps"
	"math"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Answer is how much it takes to make as much as is wanted.
type Answer struct {
	Input *route.Input // what was varied
	Want  float64      // of the figure, in its unit
	// Best is the least value of the input at which the best figure reaches what is
	// wanted, and BestMakes that figure; Blank where no value does.
	Best, BestMakes float64
	// Sure is the least value at which nine draws in ten reach it, and SureMakes the
	// 10th percentile there; Blank where no value does.
	Sure, SureMakes float64
	// Nearest is the least value at which the best figure is as large as it gets, and
	// NearestMakes that figure: the nearest where Best is blank.
	Nearest, NearestMakes float64
	// SureNearest is the same of the 10th percentile, as far as it was looked at.
	SureNearest, SureNearestMakes float64
	// Why says, in a sentence, why it cannot be reached; empty where it can.
	Why string
}

// Seek looks for the least count of cells, or share of the batch, that makes as
// much as is wanted of a figure.
type Seek struct {
	c     Case       // the plan at the value at hand, which follows nothing
	own   Case       // the plan at its own size
	of    route.Plan // that as it is computed
	id    route.FigureID
	in    *route.Input
	grid  float64 // values are whole multiples of it
	first int     // the least multiple
	last  int     // the greatest

	runner route.Runner
	next   int // of the scan of the best figure
	found  int // where it first reaches; 0 for nowhere
	until  int // where it last reaches

	run      *Sampling
	draws    int
	at       int // the multiple that the run is about
	low      int // the greatest known to fall short; the least not yet tried, less one
	enough   int // the least known to do; 0 for none yet
	answer   Answer
	finished bool
}

// CellsFor seeks the least whole count of the first row, its rejects among them.
func CellsFor(c Case, id route.FigureID, want float64, draws int) *Seek {
	s := newSeek(c, "cell.count", id, want, 1, draws)
	s.first = max(s.first, int(c.Plan.Rows[0].Rejects))
	s.next = s.first
	return s
}

// shareGrid is the step of batch.share that a spoon can tell.
const shareGrid = 0.5

// ShareFor seeks the least share of the batch, in steps of half a percent, for
// cells that are already counted.
func ShareFor(c Case, id route.FigureID, want float64, draws int) *Seek {
	return newSeek(c, route.ShareKey, id, want, shareGrid, draws)
}

func newSeek(c Case, key string, id route.FigureID, want, grid float64, draws int) *Seek {
	in, _ := route.InputByKey(key)
	s := &Seek{c: c, own: c, of: c.Planned(), id: id, in: in, grid: grid, draws: draws}
	s.c.Shelf = nil
	s.own.Given = maps.Clone(c.Given)
	delete(s.own.Given, key)
	if key == route.ShareKey {
		s.own.Shelf = nil
	}
	s.first, s.last = int(math.Ceil(in.Min/grid)), int(math.Floor(in.Max/grid))
	s.next = s.first
	nothing := quantity.Blank
	s.answer = Answer{in, want, nothing, nothing, nothing, nothing, nothing, math.Inf(-1), nothing, math.Inf(-1), ""}
	return s
}

func (s *Seek) value(multiple int) float64 { return float64(multiple) * s.grid }

// with is the case at a value, which is then known.
func (s *Seek) with(multiple int) Case {
	s.sized(multiple)
	v := s.value(multiple)
	c := s.c.WithInterval(s.in.Key, Interval{v, v})
	if i, ok := c.Given["crop.water"]; ok && s.of.CropWater > 0 {
		by := float64(c.Plan.CropWater / s.of.CropWater)
		c.Given["crop.water"] = Interval{by * i.Low, by * i.High}
	}
	return c
}

// sized brings the plan to a value, with what goes in proportion, and its share within the shelf.
func (s *Seek) sized(multiple int) {
	c := s.own
	set(s.in, &c.Plan, s.value(multiple))
	s.c.Plan = c.Planned()
	s.runner.Proportion(&s.c.Plan, &s.of)
}

// WithInterval is the case with another interval of the input with a key, in the input's unit; the
// case itself stays as it is.
func (c Case) WithInterval(key string, i Interval) Case {
	given := make(map[string]Interval, len(c.Given)+1)
	maps.Copy(given, c.Given)
	given[key] = i
	c.Given = given
	return c
}

// Step runs at most about n more plans and tells whether the answer is there.
func (s *Seek) Step(n int) bool {
	for n > 0 && !s.finished {
		if s.next <= s.last {
			s.scan()
			n -= s.own.runs()
			continue
		}
		n -= s.sure(n)
	}
	return s.finished
}

// Finish runs to the end.
func (s *Seek) Finish() Answer {
	for !s.Step(math.MaxInt) {
	}
	return s.answer
}

// Answer is what is found so far; complete when Step is true.
func (s *Seek) Answer() Answer { return s.answer }

// scan looks at the best figure of the next value. All of them are looked at,
// since more cells need not always make more.
func (s *Seek) scan() {
	s.sized(s.next)
	v := s.runner.Run(&s.c.Plan).Value(s.id)
	a := &s.answer
	if v >= a.Want {
		if s.found == 0 {
			s.found = s.next
			a.Best, a.BestMakes = s.value(s.next), v
		}
		s.until = s.next
	}
	if v > a.NearestMakes+1e-9*math.Abs(v) || math.IsInf(a.NearestMakes, -1) && v == v {
		a.Nearest, a.NearestMakes = s.value(s.next), v
	}
	s.next++
	if s.next <= s.last {
		return
	}
	if s.found == 0 {
		s.giveUp()
		return
	}
	s.low, s.at = s.found-1, s.found
}

// sure goes on with the run at hand, n draws at most, and returns how many it
// made. The values double until one does, then the interval is halved.
func (s *Seek) sure(n int) int {
	c := s.with(s.at)
	switch {
	case s.run == nil:
		s.run = Start(c, s.draws)
	case s.run.done == s.run.draws:
		s.run.Restart(c)
	}
	made, done := s.run.spend(n)
	if !done {
		return made
	}
	low, ok := s.run.Quantile(s.id, bandLow)
	if !ok {
		low = math.Inf(-1)
	}
	a := &s.answer
	if low > a.SureNearestMakes {
		a.SureNearest, a.SureNearestMakes = s.value(s.at), low
	}
	if low >= a.Want {
		s.enough = s.at
		a.Sure, a.SureMakes = s.value(s.at), low
	} else {
		s.low = s.at
	}
	switch {
	case s.enough == s.low+1:
		s.finished = true
	case s.enough > 0:
		s.at = s.low + (s.enough-s.low)/2
	case s.low >= s.until:
		s.giveUp()
	default:
		s.at = min(s.until, max(s.low+1, 2*s.low))
	}
	return made
}

func (s *Seek) giveUp() {
	s.finished = true
	a := &s.answer
	what := s.id.Info()
	print := func(v float64) string { return route.Print(v, what.Unit) }
	if s.found > 0 {
		a.Why = fmt.Sprintf("At best %s is reached, but not nine times in ten: %s at most, with %s.",
			print(a.Want), print(a.SureNearestMakes), s.print(a.SureNearest))
		return
	}
	if !quantity.Given(a.Nearest) {
		sheet := s.runner.Run(&s.c.Plan)
		a.Why = fmt.Sprintf("%s has no value here: %s.", what.Name, sheet.Reason(s.id))
		return
	}
	a.Why = fmt.Sprintf("%s is the most, with %s: %s.", print(a.NearestMakes), s.print(a.Nearest), s.obstacle())
}

// obstacle is why a value beyond the nearest makes no more. At the end of the scan
// the plan holds the greatest value.
func (s *Seek) obstacle() string {
	p := &s.c.Plan
	if s.in.Key == "cell.count" && (quantity.Given(p.MixWet) || quantity.Given(p.MixWashed)) {
		return "the mix was weighed, so that the count no longer changes it"
	}
	if word := s.runner.Run(p).Word(route.GasLimit); word != "" && word != route.NeitherFirst {
		return fmt.Sprintf("the %s runs out first; give more of it, or leave its field blank", word)
	}
	if s.answer.Nearest == s.value(s.last) {
		return "the field takes no more"
	}
	return "more does not help"
}

// print writes a value of what is varied.
func (s *Seek) print(v float64) string {
	if s.in.Unit != "" {
		return route.Plain(v) + "\u202f" + s.in.Unit
	}
	if v == 1 {
		return "1 cell"
	}
	return route.Plain(v) + " cells"
}

// Allowance tells what charges at hand allow. Amounts that a plan leaves blank
// follow the others.
type Allowance struct {
	// Limit is what runs out first, as gas.limit says it.
	Limit string
	Gas   float64 // mmol that leaves the generator
	// Solid is the input of what gives gas with the acid: copper, or metabisulfite.
	Solid *route.Input
	// AcidWanted is the strong acid, mL, that would use up all the solid at hand, and
	// SolidWanted the solid, g, that would use up all the acid; Blank where the one or
	// the other is not given, or can do nothing.
	AcidWanted, SolidWanted float64
	// Share is the batch.share, %, that the gas serves with the excess of the plan. It
	// may be above 100: then there is gas for more cells. Blank where nothing needs gas.
	Share float64
	// Cells is the count of the first row, at the batch.share of the plan, that the gas
	// serves; only for a bag of one row, else Blank.
	Cells float64
}

// scaled is the plan with so many times the oxide: by a larger share, and beyond all of it by
// more cells.
func scaled(p *route.Plan, times float64) route.Plan {
	q := *p
	share := times * float64(p.BatchShare)
	q.BatchShare = quantity.Percent(math.Min(100, share))
	if more := share / 100; more > 1 {
		q.MixWet *= quantity.Gram(more)
		q.MixWashed *= quantity.Gram(more)
		for i := range q.Rows {
			row := &q.Rows[i]
			row.Count = row.Rejects + more*(row.Count-row.Rejects)
		}
	}
	return q
}

// Allows tells what the charges of a plan allow: which limits, what the other
// would need, and for how much oxide the gas is enough. It is about best values. Not
// ok where neither acid nor copper, or metabisulfite, is given.
func Allows(c Case) (a Allowance, ok bool) {
	p := c.Planned()
	charges := route.Charges(&p)
	if len(charges) < 2 { // nothing is made in a generator
		return a, false
	}
	acid, solid := charges[0], charges[1]
	hasAcid, hasSolid := quantity.Given(acid.Value(&p)), quantity.Given(solid.Value(&p))
	if !hasAcid && !hasSolid {
		return a, false
	}
	var b route.Runner
	a.Solid = solid
	a.AcidWanted, a.SolidWanted = quantity.Blank, quantity.Blank
	// The gas in the liquid is a straight line in either, so that one run with plenty
	// of the other tells it.
	inLiquid := func(p *route.Plan) float64 {
		s := b.Run(p)
		return s.Value(route.GasMade) + s.Value(route.GasHeld)
	}
	plenty := p
	set(acid, &plenty, acid.Max)
	set(solid, &plenty, solid.Max)
	perAcid, perSolid := plenty, plenty
	set(acid, &perAcid, acid.Max/1000) // with a thousand times the solid it can use
	set(solid, &perSolid, solid.Max/1000)
	acidGas, solidGas := inLiquid(&perAcid)/(acid.Max/1000), inLiquid(&perSolid)/(solid.Max/1000)
	if acidGas > 0 && hasSolid {
		a.AcidWanted = solid.Value(&p) * solidGas / acidGas
	}
	if solidGas > 0 && hasAcid {
		a.SolidWanted = acid.Value(&p) * acidGas / solidGas
	}
	// The demand must not hold back the one that is not given; where its field does not take as
	// much as would be wanted it stays blank.
	if !hasAcid {
		_ = acid.Set(&p, a.AcidWanted)
	}
	if !hasSolid {
		_ = solid.Set(&p, a.SolidWanted)
	}
	s := b.Run(&p)
	a.Limit, a.Gas = s.Word(route.GasLimit), s.Value(route.GasMade)
	a.Share, a.Cells = quantity.Blank, quantity.Blank
	// Of what is made the purge is lost, and excess and uptake are paid of the rest. A larger
	// slurry takes up more of the same gas, by a third of a power at most, so that going round
	// comes to rest.
	if each := s.Value(route.DemandGas) * (1 + p.GasExcess.Fraction()); each > 0 {
		led := math.Max(0, a.Gas-s.Value(route.GasPurged))
		times := led * s.Value(route.UptakeShare) / 100 / each
		for range 30 {
			q := scaled(&p, times)
			times = led * b.Run(&q).Value(route.UptakeShare) / 100 / each
		}
		a.Share = times * float64(p.BatchShare)
		alone := true
		for i := range p.Rows[1:] {
			alone = alone && !quantity.Given(p.Rows[1+i].Count)
		}
		if first := &p.Rows[0]; alone && !quantity.Given(p.MixWet) && !quantity.Given(p.MixWashed) {
			a.Cells = first.Rejects + math.Floor(times*(first.Count-first.Rejects)*(1+1e-9))
		}
	}
	return a, true
}
