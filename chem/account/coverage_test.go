package account

import (
	"math"
	"runtime"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// weighed is a plan whose mix was washed, dried, weighed and titrated: with it the
// weighings after the run can tell the causes apart.
func weighed(t testing.TB) spread.Case {
	t.Helper()
	c := spread.Case{Plan: route.NewPlan()}
	var b route.Runner
	s := *b.Run(&c.Plan)
	for key, id := range map[string]route.FigureID{"mix.washed": route.MixDry, "mix.assay": route.MixAssay} {
		in, ok := route.InputByKey(key)
		require.True(t, ok)
		require.NoError(t, in.Set(&c.Plan, math.Round(s.Value(id))))
	}
	require.Empty(t, route.Check(&c.Plan))
	return c
}

// truth is a run whose every part is known.
type truth struct {
	cause   Cause
	record  Record
	figures map[string]float64
}

// simulate draws a run under a cause, or one drawn by the priors where cause is beyond
// them, and measures it with normal errors.
func simulate(m *model, cause Cause, g *generator, measured ...measurement) (truth, bool) {
	u := make([]float64, m.dim())
	for k := range u {
		u[k] = g.unit()
	}
	if cause >= Causes {
		at := g.unit()
		for c, p := range m.priors() {
			if at -= p; at < 0 {
				cause = Cause(c)
				break
			}
		}
	}
	o, ok := m.run(cause, u)
	if !ok {
		return truth{}, false
	}
	r := NewRecord()
	for _, f := range measured {
		// Box and Muller.
		z := math.Sqrt(-2*math.Log(g.unit())) * math.Cos(2*math.Pi*g.unit())
		*ofMeasurement[f].number(&r) = math.Max(0, o.found[f]+z*usualHalf(measurementKeys[f], o.found[f])/2)
	}
	s := m.sheet
	figures := map[string]float64{
		KeyMade: o.made, KeyUsed: o.used, KeyUptake: o.uptake,
		KeyCake: s.Value(route.ResidueMn),
	}
	for _, id := range watched {
		figures[id.Info().Key] = o.figure(s, id)
	}
	return truth{cause, r, figures}, true
}

var watched = []route.FigureID{
	route.MixManganese, route.MixCharge, route.GasMade, route.UptakeTaken, route.VentGas, route.ReduceConversion,
	route.DemandDithionate, route.ProductMass, route.ProductAnhydrous, route.CopperCrop, route.CopperSulfatePenta, route.ResidueMass,
}

var everything = []measurement{product, crystals, metal, residue, assay, gas}

// tally is what many simulated runs came to.
type tally struct {
	runs    int
	holds   map[string]int // how often the interval held the truth
	verdict [Causes][Causes]int
	weight  [Causes][Causes]float64
	failed  int
	steps   int
}

func simulated(t testing.TB, c spread.Case, cause Cause, runs int, measured ...measurement) *tally {
	t.Helper()
	sum := &tally{holds: map[string]int{}}
	var lock sync.Mutex
	var group sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		group.Go(func() {
			m := newModel(c, NewRecord())
			for i := w; i < runs; i += workers {
				g := generator(0x1234567 + uint64(i)*7919 + uint64(cause)*104729)
				var now truth
				for ok := false; !ok; {
					now, ok = simulate(m, cause, &g, measured...)
				}
				p := quickly(c, now.record)
				lock.Lock()
				sum.runs++
				if !p.OK() {
					sum.failed++
					lock.Unlock()
					continue
				}
				sum.steps += p.s.stages
				sum.verdict[now.cause][p.Ranked()[0]]++
				for q := range Cause(Causes) {
					sum.weight[now.cause][q] += p.Probability(q)
				}
				for key, v := range now.figures {
					var in Interval
					var ok bool
					if id, is := route.FigureByKey(key); is {
						in, ok = p.Interval(id)
					} else {
						in, ok = p.Account(key)
					}
					if !quantity.Given(v) {
						ok = true // a figure that is not defined has no interval to be held by
						in = Interval{math.Inf(-1), 0, math.Inf(1)}
					}
					if slack := 1e-9 * math.Abs(v); ok && v >= in.Low-slack && v <= in.High+slack {
						sum.holds[key]++
					}
				}
				lock.Unlock()
			}
		})
	}
	group.Wait()
	return sum
}
