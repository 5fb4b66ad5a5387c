package account

import (
	"sync"
	"testing"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// plain is the record of BenchmarkWeigh: a run that went about as planned but lost
// half of its gas.
func plain() (spread.Case, Record) {
	c := spread.Case{Plan: route.NewPlan()}
	r := NewRecord()
	r.Product, r.Copper, r.Residue = 26, 44, 14
	return c, r
}

// weighedOnce is the account of that run, for tests that only read it.
var weighedOnce = sync.OnceValue(func() *Posterior { return Start(plain()).Finish() })

// quickly is Weigh, in a short run with an eighth of the points: for tests that ask what an
// account says, and not how near it comes.
func quickly(c spread.Case, r Record) *Posterior {
	p := Start(c, r)
	if s := p.s; testing.Short() && s != nil {
		p.s = newSampler(s.dim, s.prior, s.first/8, s.people/8, s.rounds, s.eval)
		p.s.own = s.own
	}
	return p.Finish()
}

// BenchmarkWeigh is a whole account; the next two are what it is to be held against: a
// plain pass of the plan's own draws, and the same number of bare runs.
func BenchmarkWeigh(b *testing.B) {
	c, r := plain()
	steps := 0
	for b.Loop() {
		steps = Start(c, r).Finish().Size().Steps
	}
	b.ReportMetric(float64(steps), "steps")
}

func BenchmarkPass(b *testing.B) {
	c, _ := plain()
	for b.Loop() {
		spread.Start(c, 4096).Finish()
	}
}

func BenchmarkVerdictAndBands(b *testing.B) {
	c, r := plain()
	p := Start(c, r).Finish()
	for b.Loop() {
		for id := range route.FigureID(len(route.Figures())) {
			p.Band(id)
		}
		p.Verdict()
	}
}

func BenchmarkNext(b *testing.B) {
	c, r := plain()
	p := Start(c, r).Finish()
	for b.Loop() {
		NextInto(p, p.m.c.Plan, p.Learned())
	}
}

func BenchmarkBounds(b *testing.B) {
	c, r := plain()
	for b.Loop() {
		Start(c, r)
	}
}
