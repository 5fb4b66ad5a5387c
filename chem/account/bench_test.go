package account

import (
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

// BenchmarkWeigh is a whole account; the next two are what it is to be held against: a
// plain pass of the plan's own draws, and the same number of bare runs.
func BenchmarkWeigh(b *testing.B) {
	c, r := plain()
	steps := 0
	for b.Loop() {
		steps = Weigh(c, r).Size().Steps
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
	p := Weigh(c, r)
	for b.Loop() {
		for id := range route.FigureID(len(route.Figures())) {
			p.Band(id)
		}
		p.Verdict()
	}
}

func BenchmarkNext(b *testing.B) {
	c, r := plain()
	p := Weigh(c, r)
	for b.Loop() {
		Next(p)
	}
}

func BenchmarkBounds(b *testing.B) {
	c, r := plain()
	for b.Loop() {
		BoundsOf(c, r)
	}
}
