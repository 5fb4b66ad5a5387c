package chart

import (
	"testing"

	"rosesalt/chem/route"
)

// The pictures are redrawn while someone types: data and layout each have a
// millisecond at most, natively.

func BenchmarkData(b *testing.B) {
	p := route.NewPlan()
	for name, do := range map[string]func(){
		"chloride":   func() { Chloride(&p) },
		"acid":       func() { Acid(&p) },
		"solubility": func() { Solubility(&p) },
		"flows":      func() { flowsOf(&p) },
		"swept":      func() { swept(&p) },
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				do()
			}
		})
	}
}

func BenchmarkDraw(b *testing.B) {
	for name, pic := range all(route.NewPlan()) {
		for _, wide := range []bool{true, false} {
			size := "/narrow"
			if wide {
				size = "/wide"
			}
			b.Run(name+size, func(b *testing.B) {
				for b.Loop() {
					draw(&pic, wide)
				}
			})
		}
	}
}
