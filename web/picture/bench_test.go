package picture

import (
	"testing"

	"rosesalt/chem/route"
	"rosesalt/web/chart"
)

// The pictures are redrawn while someone types: data and layout each have a millisecond at
// most, natively.

func BenchmarkData(b *testing.B) {
	p := route.NewPlan()
	s, ledger := new(route.Runner).Run(&p), ran(&p).Book()
	for name, do := range map[string]func(){
		"chloride":    func() { chloride(&p) },
		"acid":        func() { acid(&p) },
		"temperature": func() { temperature(&p) },
		"solubility":  func() { Solubility(&p, s) },
		"flows":       func() { Flows(ledger) },
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				do()
			}
		})
	}
}

func BenchmarkFile(b *testing.B) {
	for name, pic := range all(b, route.NewPlan()) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				chart.File(pic)
			}
		})
	}
}
