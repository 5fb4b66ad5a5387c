package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

var benchPlans = map[string][]string{
	"default":       nil,
	"metabisulfite": {"gas.source=metabisulfite"},
	"assay":         {"mix.assay=55"},
	"slurry salt":   {"gas.source=slurrysalt"},
	"peroxide":      {"gas.source=peroxide"},
	"oxalic":        {"gas.source=oxalic", "slurry.acid=10"},
	"alkaline":      {"cell.kind=alkaline"},
	"crystals":      {"dry.way=crystals"},
	"eight rows": {
		"cell.2.count=3", "cell.3.count=3", "cell.4.count=3", "cell.5.count=3", "cell.6.count=3", "cell.7.count=3", "cell.8.count=3",
		"wash.times=50", "wash.acid=50", "rinse.times=20", "slurry.acid=5", "slurry.vessel=closed",
	},
	"no cells": {"cell.rejects=6"},
}

// TestRunAllocatesNothing: thousands of plans are drawn for every keystroke.
func TestRunAllocatesNothing(t *testing.T) {
	for name, entries := range benchPlans {
		t.Run(name, func(t *testing.T) {
			p := planOf(t, entries...)
			var b Runner
			assert.Zero(t, testing.AllocsPerRun(100, func() { b.Run(p) }))
		})
	}
}

func benchmark(b *testing.B, keep bool, entries ...string) {
	p := planOf(b, entries...)
	runner := Runner{Keep: keep}
	b.ReportAllocs()
	for b.Loop() {
		runner.Run(p)
	}
}

func BenchmarkRun(b *testing.B)              { benchmark(b, false) }
func BenchmarkRunKeep(b *testing.B)          { benchmark(b, true) }
func BenchmarkRunMetabisulfite(b *testing.B) { benchmark(b, false, benchPlans["metabisulfite"]...) }
func BenchmarkRunAssay(b *testing.B)         { benchmark(b, false, benchPlans["assay"]...) }
func BenchmarkRunCrystals(b *testing.B)      { benchmark(b, false, benchPlans["crystals"]...) }
