package account

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// Several runs of one bag share the uptake, which is the setup's, and the charge, which
// is the cells'. Each run tells of them on a grid of fixed places; its likelihood is
// what the account makes of a place over what the first draws made of it, and the
// likelihoods of runs that know nothing of each other multiply.
const places = 50 // of 2 % each

var sharedKeys = [...]string{uptakeKey, "cell.charge"}

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

// Told is what a run tells of the inputs that several runs share, by the input's key, and
// leaves out what was thought of them before: the logarithm of its likelihood in
// hundredths, below that of the likeliest place, which has 0. One number for each of
// Places places, 2 % wide, from 0 to 100 %. It is plain data, to be kept with the run.
type Told map[string][]int

// Places is how many places a Told has for an input.
const Places = places

// LeastTold is the lowest number in a Told: so few points cannot tell a place that is hit once
// in a thousand from one that is never hit.
const LeastTold = -700

// roughly is by how much the errors of likelihoods that so few points make, which are each
// run's own and add up, widen what many runs tell: the logarithms count for so much less.
// Estimate, from simulated runs in which whatever went wrong but lost gas and poor oxide: with
// it the 80 % intervals of uptake and charge held the truth in 52 and 49 of 60 setups of two
// runs, and in 49 and 50 of 56 setups of ten; without it, of 32 of those, in 23 and 28 in place
// of 26 and 29. What the next run gave was as told in 200 of 256, 8 of each.
const roughly = 1.0

// scarce is the share of the first draws below which a place was hardly tried.
const scarce = 2e-4

// Told is what the account tells of what several runs share, to be combined with others'.
// It is what the weighings say alone: an account that began from narrowed estimates tells
// the same, as far as those reach, and beyond them what it tells at their edge. Nil
// where there is no account or nothing was measured.
func (p *Posterior) Told() Told {
	if !p.OK() || p.empty != nil {
		return nil
	}
	var told Told
	for k, key := range sharedKeys {
		for i := range p.m.uncertain {
			if p.m.uncertain[i].Input.Key != key {
				continue
			}
			if told == nil {
				told = Told{}
			}
			told[key] = likelihood(p.column(p.inputAt(i)), p.prior.of[k])
		}
	}
	return told
}

// likelihood is what the points of an account make of each place over what the first
// draws made of it.
func likelihood(points []float64, prior grid) []int {
	var after grid
	for _, v := range points {
		after.add(v, 1/float64(len(points)))
	}
	after, before := after.smooth(), prior.smooth()
	var log grid
	first, last, top := -1, 0, math.Inf(-1)
	for i := range log {
		if before[i] < scarce {
			continue
		}
		if first < 0 {
			first = i
		}
		last = i
		log[i] = math.Log(after[i]/before[i] + 1e-9)
		top = math.Max(top, log[i])
	}
	list := make([]int, places)
	if first < 0 {
		return list
	}
	held := first
	for i := range list {
		if before[i] >= scarce && i <= last {
			held = i
		}
		list[i] = max(LeastTold, int(math.Round(100*(log[held]-top))))
	}
	return list
}

// Check tells what keeps a Told that was read from somewhere from being one.
func (t Told) Check() error {
	for key, list := range t {
		if !slices.Contains(sharedKeys[:], key) {
			return fmt.Errorf("account: “%s” is not shared by runs", route.Clip(key, 40))
		}
		if len(list) != places {
			return fmt.Errorf("account: %s has %d places; there are %d", key, len(list), places)
		}
		for _, v := range list {
			if v > 0 || v < LeastTold {
				return fmt.Errorf("account: %s holds %d; the limits are %d and 0", key, v, LeastTold)
			}
		}
	}
	return nil
}

// Combine is what runs from one bag on one setup tell together of what they share. The
// usual estimates, those of a new plan, count once; then the runs' likelihoods multiply.
// Only runs that were weighed anew may be given, each once. Empty where none tells
// anything.
func Combine(runs ...Told) []Learned {
	var list []Learned
	for k, key := range sharedKeys {
		var sum grid
		n, told := 0.0, false // of those that say anything
		for _, run := range runs {
			if of := run[key]; len(of) == places {
				for i, v := range of {
					sum[i] += float64(v) / 100
				}
				told = true
				if slices.Min(of) < 0 {
					n++
				}
			}
		}
		if !told {
			continue
		}
		trust := 1 / (1 + roughly*(1-1/math.Max(n, 1)))
		for i, v := range usual()[k] {
			sum[i] = v + trust*sum[i]
		}
		top := slices.Max(sum[:])
		total := 0.0
		for i := range sum {
			sum[i] = math.Exp(sum[i] - top)
			total += sum[i]
		}
		in, _ := route.InputByKey(key)
		list = append(list, Learned{in, Interval{
			sum.quantile(0.1 * total), sum.quantile(0.5 * total), sum.quantile(0.9 * total),
		}})
	}
	return list
}

// usual is the logarithm of what a new plan thinks of the shared inputs, gas that may
// be lost included as in the account. Worked out when it is wanted: the page's start is not
// to wait for it.
var usual = sync.OnceValue(func() (log [len(sharedKeys)]grid) {
	const steps, fine = 200, 20
	c := spread.Case{Plan: route.NewPlan()}
	for _, u := range spread.Uncertains(&c) {
		k := slices.Index(sharedKeys[:], u.Input.Key)
		if k < 0 {
			continue
		}
		lost := 0.0
		if u.Input.Key == uptakeKey {
			lost = GasLost.Prior()
		}
		var g grid
		for i := range steps {
			v := u.At((float64(i) + 0.5) / steps)
			g.add(v, (1-lost)/steps)
			for j := range fine {
				g.add(v*between(lostLeast, lostMost, (float64(j)+0.5)/fine), lost/steps/fine)
			}
		}
		g = g.smooth()
		for i := range g {
			log[k][i] = math.Log(g[i] + 1e-9)
		}
	}
	return log
})

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
