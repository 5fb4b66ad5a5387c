package account

import (
	"encoding/csv"
	"math"
	"os"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/reaction"
	"rosesalt/chem/spread"
	"rosesalt/scripts/long"
)

// plant is how far a cause goes in simulated runs, and how often it is the one.
type plant struct {
	cause             Cause
	weight, low, high float64
}

// plants reads testdata/account/planted.csv.
func plants(t testing.TB) (list []plant) {
	t.Helper()
	file, err := os.Open("../../testdata/account/planted.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	for _, row := range rows[1:] {
		p := plant{cause: Causes}
		for c := range Cause(Causes) {
			if c.Key() == row[0] {
				p.cause = c
			}
		}
		require.Less(t, p.cause, Cause(Causes), row[0])
		for i, v := range map[int]*float64{1: &p.weight, 3: &p.low, 4: &p.high} {
			*v, err = strconv.ParseFloat(row[i], 64)
			require.NoError(t, err)
		}
		list = append(list, p)
	}
	return list
}

// grow is a run in which what was planted went wrong, measured with errors by someone who
// says how much dilute acid went in, and whether the copper was dark.
func grow(c spread.Case, p plant, g *generator, measured ...measurement) (Record, bool) {
	return growTwo(c, p, nothingElse, nil, g, measured...)
}

// growShared is grow with some of the plan's uncertain inputs held at what the setup shares.
func growShared(c spread.Case, p plant, shared map[int]float64, g *generator, measured ...measurement) (Record, bool) {
	return growTwo(c, p, nothingElse, shared, g, measured...)
}

// growTwo is grow with a second thing that went wrong besides: no acid, another hydrate, or a
// spill, which do not change how the rest goes. Of dark copper besides it is said that it was
// dark, and it is dull.
func growTwo(c spread.Case, p, also plant, shared map[int]float64, g *generator, measured ...measurement) (Record, bool) {
	m := ground(c, p, also)
	found, ok := m.sow(p, also, shared, g)
	if !ok {
		return m.rec, false
	}
	r := m.rec
	for _, f := range measured {
		z := math.Sqrt(-2*math.Log(g.unit())) * math.Cos(2*math.Pi*g.unit())
		*ofMeasurement[f].number(&r) = math.Max(0, found[f]+z*usualHalf(measurementKeys[f], found[f])/2)
	}
	return r, true
}

// said are the causes that are told with the weighings: that no dilute acid went in, and that the
// copper was dark.
var said = [...]Cause{NoAcid, DarkCopper}

// ground is the model of runs in which two things went wrong, with what is said of them.
func ground(c spread.Case, p, also plant) *model {
	told := NewRecord()
	told.OxideOnCopper = p.cause == DarkCopper || also.cause == DarkCopper
	if told.Acid = float64(newModel(c, told).base.SlurryAcid); p.cause == NoAcid || also.cause == NoAcid {
		told.Acid = 0
	}
	return newModel(c, told)
}

// sow is what there is to find in a run in which two things went wrong, without errors.
func (m *model) sow(p, also plant, shared map[int]float64, g *generator) (found [measurements]float64, ok bool) {
	u := make([]float64, m.dim())
	for k := range u {
		u[k] = g.unit()
	}
	for k, v := range shared {
		u[k] = v
	}
	x, v := u[len(m.uncertain):], between(p.low, p.high, g.unit())
	reach := func(low, high float64) { x[howFar] = (v - low) / (high - low) }
	cause := p.cause
	switch cause {
	case PoorOxide, OtherCharge:
		less, more := [2]float64{poorLeast, poorMost}, [2]float64{richLeast, richMost}
		if cause == OtherCharge {
			less, more = [2]float64{lessLeast, lessMost}, [2]float64{moreLeast, moreMost}
		}
		if x[howElse] = 0; v > 1 {
			x[howElse], less = 1, more
		}
		reach(less[0], less[1])
	case GasLost:
		reach(lostLeast, lostMost)
	case EarlyEnd:
		reach(endLeast, endMost)
	case Unrinsed:
		reach(soppingLeast, soppingMost)
	case Spill:
		reach(spillLeast, spillMost)
	case LiquorLeft:
		reach(leftLeast, leftMost)
	case DarkCopper:
		reach(darkLeast, darkMost)
	case OtherHydrate:
		cause = AsPlanned
	}
	o, ok := m.run(cause, u)
	if !ok {
		return found, false
	}
	if also.cause == OtherHydrate || also.cause == Spill {
		v = between(also.low, also.high, g.unit())
	}
	if also.cause == Spill {
		o.found[product] *= 1 - v
	}
	if p.cause == OtherHydrate || also.cause == OtherHydrate {
		water := v * massWater * float64(m.runner.Book().Amount(productVessel, reaction.ManganeseSulfate))
		o.found[assay] *= o.found[product] / (o.found[product] + water)
		o.found[product] += water
	}
	return o.found, true
}

// harvest is what the account says of many runs, most of them planted.
type harvest struct {
	planted, first, none int
	of                   [Causes][Causes]int // how it was, named first, in runs with one planted cause
	sown                 calibration         // of the first cause, in runs in which something went wrong
	went                 calibration         // of all having gone as planned, in all runs
}

// add counts a run that went wrong by a cause, or as planned, and its account; alone tells that
// the cause was planted by itself.
func (h *harvest) add(cause Cause, alone bool, account *Posterior) {
	planted := cause != AsPlanned && alone
	if planted {
		h.planted++
	}
	if !account.OK() {
		h.none++
		return
	}
	first := account.Ranked()[0]
	h.went.add(account.Planned(), cause == AsPlanned)
	if cause != AsPlanned {
		h.sown.add(account.Probability(first), first == cause)
	}
	if planted {
		h.of[cause][first]++
		if first == cause {
			h.first++
		}
	}
}

// pick is one of the plants, as often as each weighs.
func pick(list []plant, g *generator) (p plant) {
	total := 0.0
	for _, p := range list {
		total += p.weight
	}
	at := total * g.unit()
	for _, p = range list {
		if at -= p.weight; at < 0 {
			break
		}
	}
	return p
}

// calibration is, in each tenth of a share that was said, the sum of the shares, how often it was
// so, and how many verdicts there were.
type calibration struct {
	said            [10]float64
	right, verdicts [10]int
}

func (k *calibration) add(share float64, right bool) {
	tenth := min(9, int(10*share))
	k.said[tenth] += share
	k.verdicts[tenth]++
	if right {
		k.right[tenth]++
	}
}

// off is how far what was said lies from what was right in a tenth, and whether there are
// verdicts enough to tell.
func (k *calibration) off(tenth int) (off float64, enough bool) {
	n := float64(k.verdicts[tenth])
	return (k.said[tenth] - float64(k.right[tenth])) / math.Max(1, n), n >= 50
}

// reap simulates so many runs with a planted cause. Beside them it simulates those that the
// weights of the causes go by: runs that went as planned, and, of those who say that no dilute
// acid went in or that the copper was dark, the others, whose run went wrong by something else,
// or not at all.
func reap(t testing.TB, c spread.Case, planted int, measured ...measurement) *harvest {
	t.Helper()
	list := plants(t)
	unsaid := slices.DeleteFunc(slices.Clone(list), func(p plant) bool { return slices.Contains(said[:], p.cause) })
	runs := int(math.Round(float64(planted) / (1 - AsPlanned.Prior())))
	var h harvest
	var lock sync.Mutex
	var group sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		group.Go(func() {
			for i := w; i < runs; i += workers {
				g := generator(0x706c616e746564 + uint64(i)*7919)
				work := func(p, also plant) {
					r, ok := growTwo(c, p, also, nil, &g, measured...)
					for !ok {
						r, ok = growTwo(c, p, also, nil, &g, measured...)
					}
					account := quickly(c, r)
					lock.Lock()
					defer lock.Unlock()
					h.add(p.cause, also.cause == AsPlanned, account)
				}
				p := pick(list, &g)
				if i >= planted {
					p = nothingElse
				}
				work(p, nothingElse)
				if !slices.Contains(said[:], p.cause) {
					continue
				}
				prior := ground(c, p, nothingElse).priors()
				others := 1 - prior[p.cause]
				for range int(others/prior[p.cause] + g.unit()) {
					other := nothingElse
					if g.unit() >= prior[AsPlanned]/others {
						other = pick(unsaid, &g)
					}
					work(other, p)
				}
			}
		})
	}
	group.Wait()
	return &h
}

func (h *harvest) log(t testing.TB) {
	t.Helper()
	t.Logf("%d runs with a planted cause, named first in %.1f %%; no account of %d", h.planted, 100*float64(h.first)/float64(h.planted), h.none)
	for c := range Cause(Causes) {
		if sum := h.of[c]; sum != [Causes]int{} {
			t.Logf("%-8s %v", c.Key(), sum)
		}
	}
	for what, k := range map[string]*calibration{"cause": &h.sown, "as planned": &h.went} {
		for i, n := range k.verdicts {
			if n > 0 {
				t.Logf("%s, tenth %d: %d verdicts, said %.2f, right %.2f", what, i, n, k.said[i]/float64(n), float64(k.right[i])/float64(n))
			}
		}
	}
}

// How often the account names the planted cause first, with three weighings and with two.
const (
	namedByThree = 0.80
	namedByTwo   = 0.60
)

// TestPlantedCauses: runs in which one thing went wrong, as often and as far as the file of
// plants says. It guards that the account says what it knows: in each tenth of the verdicts'
// weight the share that is right is within ten points of what was said, and a standard error.
//
// Of 1320 such runs 82 of 100 had their cause named first by salt, crystals and residue, and of
// 1144 of them 61 by salt and crystals (standard errors 1.1 and 1.4), where nothing could name
// more than 88 and 67 (TestBestPossible). Most that did not are an early end taken for a small
// charge or the other way, salt left in a liquor for a spill or the other way, and a cake or a wet
// salt that did so little that anything could have done it. Without the residue too little oxide,
// lost gas and what was lost behind the filter look alike.
//
// Verdicts by three weighings were right at most 5 of 100 more often or 8 less often than they
// said in any tenth with fifty of them, those by two at most 9 more often and 7 less. Were nobody
// simulated who says that no dilute acid went in, or that the copper was dark, and whose run went
// wrong by something else, what is said would give the cause away, which the account cannot know:
// then verdicts from 0.7 to 0.9 are right 7 to 9 of 100 more often than said by three weighings,
// and 14 to 19 by two.
func TestPlantedCauses(t *testing.T) {
	for _, c := range []struct {
		name     string
		often    float64 // named first, and no less often than three standard errors below
		measured []measurement
	}{
		{"careful", namedByThree, []measurement{product, crystals, residue}},
		{"two", namedByTwo, []measurement{product, crystals}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := reap(t, demo(), long.Of(5, 40, 1000), c.measured...)
			h.log(t)
			require.Zero(t, h.none)
			n := float64(h.planted)
			assert.Greater(t, float64(h.first)/n, c.often-3*math.Sqrt(c.often*(1-c.often)/n))
			for what, k := range map[string]*calibration{"cause": &h.sown, "as planned": &h.went} {
				for tenth, verdicts := range k.verdicts {
					if off, enough := k.off(tenth); enough {
						assert.InDelta(t, 0, off, 0.10+0.5/math.Sqrt(float64(verdicts)), "%s, tenth %d", what, tenth)
					}
				}
			}
		})
	}
}

// TestNamesTheCause: each cause is planted, all is weighed, and it is named more often than
// any other. It guards the verdict against two causes that look alike. What was spilt and
// what stayed in a liquor no weighing tells apart: either will do. A cake that held little and
// copper that was hardly dull do so little harm that the run may count as planned, or as
// another slight one: of them the weight has to rise.
func TestNamesTheCause(t *testing.T) {
	c := demo()
	for _, p := range plants(t) {
		var named [Causes]int
		runs, weight, before := long.Of(1, 12, 48), 0.0, 0.0
		g := generator(0x1234567 + uint64(p.cause)*104729)
		for range runs {
			r, ok := grow(c, p, &g, everything...)
			for !ok {
				r, ok = grow(c, p, &g, everything...)
			}
			account := quickly(c, r)
			require.True(t, account.OK(), account.Why())
			weight += account.Probability(p.cause) / float64(runs)
			before += account.priors[p.cause] / float64(runs)
			first := account.Ranked()[0]
			if p.cause == Spill && first == LiquorLeft || p.cause == LiquorLeft && first == Spill {
				first = p.cause
			}
			named[first]++
		}
		t.Logf("%-8s %.2f to %.2f named %v", p.cause.Key(), p.low, p.high, named)
		if p.cause == Unrinsed || p.cause == DarkCopper {
			assert.Greater(t, weight, 1.5*before, p.cause.Key())
			continue
		}
		for other, n := range named {
			if Cause(other) != p.cause {
				assert.Greater(t, named[p.cause], n, "%s taken for %s: %v", p.cause.Key(), Cause(other).Key(), named)
			}
		}
	}
}

// TestPlantedPairs: two things went wrong in one run, of which the account, that knows one at
// a time, is to name one first. What no dilute acid does besides is known, so there the other
// one is to be named.
func TestPlantedPairs(t *testing.T) {
	list := plants(t)
	of := func(c Cause) (of []plant) {
		for _, p := range list {
			if p.cause == c {
				of = append(of, p)
			}
		}
		return of
	}
	all, right := 0, 0
	for _, second := range []Cause{NoAcid, OtherHydrate, Spill} {
		also := of(second)[0]
		for _, first := range []Cause{PoorOxide, GasLost, EarlyEnd, Unrinsed, OtherCharge}[:long.Of(2, 5, 5)] {
			g := generator(0x7061697273 + 31*uint64(first) + uint64(second))
			named, runs := 0, long.Of(1, 3, 40)
			for range runs {
				p := of(first)[g.below(len(of(first)))]
				r, ok := growTwo(demo(), p, also, nil, &g, product, crystals, residue)
				for !ok {
					r, ok = growTwo(demo(), p, also, nil, &g, product, crystals, residue)
				}
				account := quickly(demo(), r)
				if !account.OK() {
					continue
				}
				if top := account.Ranked()[0]; top == first || top == second || second == Spill && top == LiquorLeft {
					named++
				}
			}
			t.Logf("%s and %s: one of them named in %d of %d", first.Key(), second.Key(), named, runs)
			all, right = all+runs, right+named
		}
	}
	assert.Greater(t, right, all/2)
}

// TestTwoWeighingsAreNotCertain: with two weighings no cause is given more than nine in ten,
// whatever they are.
func TestTwoWeighingsAreNotCertain(t *testing.T) {
	g := generator(0x74776f)
	for _, p := range plants(t)[:long.Of(5, 12, 12)] {
		for range long.Of(1, 2, 20) {
			r, ok := grow(demo(), p, &g, product, crystals)
			if !ok {
				continue
			}
			account := quickly(demo(), r)
			sum := 0.0
			for c := range Cause(Causes) {
				assert.LessOrEqual(t, account.Probability(c), sureOfTwo+1e-12, "%s for %s", c.Key(), p.cause.Key())
				sum += account.Probability(c)
			}
			assert.InDelta(t, 1, sum, 1e-9)
		}
	}
}
