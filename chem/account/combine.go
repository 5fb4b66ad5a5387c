package account

import (
	"math"

	"rosesalt/chem/route"
)

// Several runs of one bag share the uptake, which is the setup's, and the charge, which
// is the cells'. Each run tells of them on a grid of fixed places; its likelihood is
// what the account makes of a place over what the first draws made of it, and the
// likelihoods of runs that know nothing of each other multiply.
const places = 50 // of 2 % each

var sharedKeys = [...]string{"gas.uptake", "cell.charge"}

type grid [places]float64

func (g *grid) add(v, weight float64) {
	if v == v {
		g[min(places-1, max(0, int(v/100*places)))] += weight
	}
}

// smooth spreads each place over its neighbours, so that a place that no point hit by
// chance is not impossible: a normal of one and a half places.
func (g *grid) smooth() grid {
	const wide = 1.5
	var out grid
	for i, w := range g {
		if w == 0 {
			continue
		}
		norm := 0.0
		var k grid
		for j := range k {
			d := float64(i-j) / wide
			k[j] = math.Exp(-d * d / 2)
			norm += k[j]
		}
		for j := range k {
			out[j] += w * k[j] / norm
		}
	}
	return out
}

type grids struct{ of [len(sharedKeys)]grid }

// add notes a point that has just been run.
func (g *grids) add(p *route.Plan, weight float64) {
	g.of[0].add(float64(p.GasUptake), weight)
	g.of[1].add(float64(p.Rows[0].Charge), weight)
}

// Combine is what several runs from one bag tell together of what they share. Each
// account must begin from the plan's own estimates, not from what an earlier one of
// them learned, or that would count twice. Nil where none of them tells anything.
func Combine(runs ...*Posterior) []Learned {
	var list []Learned
	for k, key := range sharedKeys {
		in, _ := route.InputByKey(key)
		var sum grid
		drawn, told := false, false
		for _, p := range runs {
			if !p.OK() || p.empty != nil {
				continue
			}
			column := -1
			for i := range p.m.uncertain {
				if p.m.uncertain[i].Input.Key == key {
					column = p.inputAt(i)
				}
			}
			if column < 0 {
				continue
			}
			var after grid
			points := p.column(column)
			for _, v := range points {
				after.add(v, 1/float64(len(points)))
			}
			after = after.smooth()
			before := p.prior.of[k].smooth()
			if !drawn { // the prior counts once
				for i := range sum {
					sum[i] = math.Log(before[i] + 1e-9)
				}
				drawn = true
			}
			for i := range sum {
				sum[i] += math.Log(after[i]+1e-9) - math.Log(before[i]+1e-9)
			}
			told = true
		}
		if !told {
			continue
		}
		top := math.Inf(-1)
		for _, v := range sum {
			top = math.Max(top, v)
		}
		total := 0.0
		for i := range sum {
			sum[i] = math.Exp(sum[i] - top)
			total += sum[i]
		}
		list = append(list, Learned{in, Interval{
			sum.quantile(0.1 * total), sum.quantile(0.5 * total), sum.quantile(0.9 * total),
		}})
	}
	return list
}

// quantile is the place below which so much of the weight lies, in percent.
func (g *grid) quantile(weight float64) float64 {
	for i, w := range g {
		if weight <= w && w > 0 {
			return (float64(i) + weight/w) * 100 / places
		}
		weight -= w
	}
	return 100
}
