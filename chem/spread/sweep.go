package spread

import (
	"fmt"
	"math"
	"slices"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Point is a figure at one value of the input that is swept. Not a number where
// it is not defined; Low and High also where there is no band.
type Point struct{ At, Best, Low, High float64 }

// Turn is where what runs out first changes, at best values: from one word of
// gas.limit to another.
type Turn struct {
	At       float64
	From, To string
}

// Sweep runs a plan over values of one input.
type Sweep struct {
	c       Case
	in      *route.Input
	values  []float64
	figures []route.FigureID
	draws   int

	run      *Sampling
	runner   route.Runner
	at       int
	lines    [][]Point
	limits   []string
	turns    []Turn
	finished bool
}

// NewSweep prepares a sweep of an input over values, each with as many draws. The
// swept value is known at each point. An input that is a choice, and an unknown key,
// is refused.
func NewSweep(c Case, key string, values []float64, draws int, figures ...route.FigureID) (*Sweep, error) {
	in, ok := route.InputByKey(key)
	if !ok {
		return nil, fmt.Errorf("spread: no input %q to sweep", key)
	}
	if in.IsChoice() {
		return nil, fmt.Errorf("spread: %s is a choice of words and cannot be swept", key)
	}
	if key == route.ShareKey {
		c.Shelf = nil
	}
	s := &Sweep{c: c, in: in, values: slices.Clone(values), figures: slices.Clone(figures), draws: draws}
	s.lines = make([][]Point, len(figures))
	for i := range s.lines {
		s.lines[i] = make([]Point, 0, len(values))
	}
	return s, nil
}

// with is the case at a value, which is then known, if its plan accepts that.
func (s *Sweep) with(v float64) (c Case, ok bool) {
	c = s.c
	ok = s.in.Set(&c.Plan, v) == nil && len(route.Check(&c.Plan)) == 0
	return c.WithInterval(s.in.Key, Interval{v, v}), ok
}

// Step does at most about n more draws and tells whether the sweep is done.
func (s *Sweep) Step(n int) bool {
	for n > 0 && s.at < len(s.values) {
		n -= s.point(n)
	}
	if s.at == len(s.values) && !s.finished {
		s.findTurns()
		s.finished = true
	}
	return s.finished
}

// Finish runs to the end and returns the sweep.
func (s *Sweep) Finish() *Sweep {
	s.Step(math.MaxInt)
	return s
}

// point goes on with the value at hand and returns how many draws it made.
func (s *Sweep) point(n int) int {
	v := s.values[s.at]
	if s.run == nil || s.run.done == s.run.draws {
		c, ok := s.with(v)
		if !ok {
			for i := range s.lines {
				s.lines[i] = append(s.lines[i], Point{v, quantity.Blank, quantity.Blank, quantity.Blank})
			}
			s.limits = append(s.limits, "")
			s.at++
			return 1
		}
		if s.run == nil {
			s.run = Start(c, s.draws)
		} else {
			s.run.Restart(c)
		}
	}
	made, done := s.run.spend(n)
	if done {
		for i, id := range s.figures {
			low, high, _ := s.run.Band(id)
			s.lines[i] = append(s.lines[i], Point{v, s.run.best.Value(id), low, high})
		}
		s.limits = append(s.limits, s.run.best.Word(route.GasLimit))
		s.at++
	}
	return made
}

// findTurns halves each interval in which the limit changes, until a thousandth
// of it is left, or for whole numbers until the next one.
func (s *Sweep) findTurns() {
	for i := 1; i < len(s.values); i++ {
		from, to := s.limits[i-1], s.limits[i]
		if from == to || from == "" || to == "" {
			continue
		}
		a, b := s.values[i-1], s.values[i]
		least := math.Abs(b-a) / 1000
		if s.in.Whole {
			least = 1
		}
		for math.Abs(b-a) > least {
			m := a + (b-a)/2
			if s.in.Whole {
				m = math.Floor(m)
			}
			c, ok := s.with(m)
			if !ok {
				break
			}
			p := c.Planned()
			if s.runner.Run(&p).Word(route.GasLimit) == from {
				a = m
			} else {
				b = m
			}
		}
		s.turns = append(s.turns, Turn{b, from, to})
	}
}

// Input is what is swept.
func (s *Sweep) Input() *route.Input { return s.in }

// Line is a figure, by its place among those asked for, at all values done.
func (s *Sweep) Line(i int) []Point { return s.lines[i] }

// Limit is what runs out first at a value, by its place, at best values; empty
// where that is not known yet.
func (s *Sweep) Limit(i int) string {
	if i >= len(s.limits) {
		return ""
	}
	return s.limits[i]
}

// Turns are where the limit changes; empty before the sweep is done.
func (s *Sweep) Turns() []Turn { return s.turns }

// Found is what a sweep has found so far, as plain data, for another sweep of the same
// case, input, values and figures.
type Found struct {
	Lines  [][]Point // of each figure
	Limits []string  // what runs out first at each value
	Turns  []Turn
	Done   bool
}

// Found is what the sweep has found so far. The caller must not change it, and use it
// before the next Step.
func (s *Sweep) Found() Found { return Found{s.lines, s.limits, s.turns, s.finished} }

// Take goes on from what another sweep has found.
func (s *Sweep) Take(f Found) {
	s.lines, s.limits, s.turns, s.finished = f.Lines, f.Limits, f.Turns, f.Done
	s.at, s.run = len(f.Limits), nil
}
