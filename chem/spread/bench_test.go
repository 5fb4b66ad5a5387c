package spread

import (
	"testing"

	"rosesalt/chem/route"
)

// BenchmarkDraws is the whole run of 4096; the next is the same done the plain way,
// in the same run: a bench and a list of inputs for each draw.
func BenchmarkDraws(b *testing.B) {
	c := Case{Plan: route.NewPlan()}
	r := Start(c, 4096)
	b.ReportAllocs()
	for b.Loop() {
		r.Restart(c)
		r.Finish()
	}
	b.ReportMetric(4096*float64(b.N)/b.Elapsed().Seconds(), "draws/s")
}

func BenchmarkDrawsPlain(b *testing.B) {
	c := Case{Plan: route.NewPlan()}
	b.ReportAllocs()
	var out [4096]map[string]float64
	for b.Loop() {
		list := Uncertains(&c)
		base := c.Plan
		HoldCharges(&base, new(route.Runner).Run(&c.Plan))
		for i := range out {
			p := base
			for k := range list {
				in, _ := route.InputByKey(list[k].Input.Key)
				if err := in.Set(&p, list[k].At(unit(points.at(reversed(i), list[k].coordinate)))); err != nil {
					b.Fatal(err)
				}
			}
			s := new(route.Runner).Run(&p)
			out[i] = make(map[string]float64, len(route.Figures()))
			for id, f := range route.Figures() {
				out[i][f.Key] = s.Value(route.FigureID(id))
			}
		}
	}
	b.ReportMetric(4096*float64(b.N)/b.Elapsed().Seconds(), "draws/s")
}

// BenchmarkBuying is all of what is drawn to know what to buy; hold it against BenchmarkDraws.
func BenchmarkBuying(b *testing.B) {
	c := Case{Plan: route.NewPlan()}
	r := StartBuying(c)
	b.ReportAllocs()
	for b.Loop() {
		r.Restart(c)
		r.Step(BuyingDraws)
	}
}

func BenchmarkBands(b *testing.B) {
	r := Start(Case{Plan: route.NewPlan()}, 4096).Finish()
	b.ReportAllocs()
	for b.Loop() {
		clear(r.bands)
		for id := range route.FigureID(len(route.Figures())) {
			r.Band(id)
		}
	}
}

func BenchmarkShares(b *testing.B) {
	r := Start(Case{Plan: route.NewPlan()}, 4096).Finish()
	for b.Loop() {
		r.Shares(route.ProductMass)
	}
}

func BenchmarkSweep25(b *testing.B) {
	c := Case{Plan: route.NewPlan()}
	var counts []float64
	for n := range 25 {
		counts = append(counts, float64(n+1))
	}
	for b.Loop() {
		s, err := NewSweep(c, "cell.count", counts, 512, route.ProductMass, route.CopperCrop, route.GasAcidNeeded, route.DemandGas)
		if err != nil {
			b.Fatal(err)
		}
		s.Finish()
	}
}

func BenchmarkSuggest(b *testing.B) {
	r := Start(Case{Plan: route.NewPlan()}, 4096).Finish()
	for b.Loop() {
		suggest(r, route.ProductMass, 3, 1024)
	}
}

func BenchmarkCellsFor(b *testing.B) {
	c := Case{Plan: route.NewPlan()}
	for b.Loop() {
		CellsFor(c, route.ProductMass, 100, 512).Finish()
	}
}
