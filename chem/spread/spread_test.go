package spread

import (
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/table/tabletest"
	"rosesalt/scripts/long"
)

var update = flag.Bool("update", false, "write testdata/golden/spread-demo.csv anew")

// TestMain keeps rapid from leaving files, and from drawing more plans than a
// test of seconds allows.
func TestMain(m *testing.M) {
	flag.Parse()
	asked := false
	flag.Visit(func(f *flag.Flag) { asked = asked || f.Name == "rapid.checks" })
	if err := flag.Set("rapid.nofailfile", "true"); err != nil {
		panic(err)
	}
	if !asked {
		if err := flag.Set("rapid.checks", long.Of("60", "200", "2000")); err != nil {
			panic(err)
		}
	}
	os.Exit(m.Run())
}

// entries sets numbers and words by key in a plan like the default one.
type entries map[string]any

func caseOf(t testing.TB, e entries) Case {
	t.Helper()
	c := Case{Plan: route.NewPlan()}
	for key, v := range e {
		in, ok := route.InputByKey(key)
		require.True(t, ok, key)
		switch v := v.(type) {
		case string:
			require.NoError(t, in.Choose(&c.Plan, v))
		case int:
			require.NoError(t, in.Set(&c.Plan, float64(v)))
		case float64:
			require.NoError(t, in.Set(&c.Plan, v))
		}
	}
	require.Empty(t, route.Check(&c.Plan))
	return c
}

func keys(list []Uncertain) []string {
	var all []string
	for i := range list {
		all = append(all, list[i].Input.Key)
	}
	return all
}

func find(t testing.TB, list []Uncertain, key string) *Uncertain {
	t.Helper()
	for i := range list {
		if list[i].Input.Key == key {
			return &list[i]
		}
	}
	t.Fatalf("%s is not uncertain, only %v are", key, keys(list))
	return nil
}

// TestUncertainsFollowThePlan: which inputs come and go with what is set.
func TestUncertainsFollowThePlan(t *testing.T) {
	copper := []string{"gas.hot", "gas.spare", "gas.sulfide", "copper.factor"}
	for _, c := range []struct {
		name     string
		set      entries
		has, not []string
	}{
		{
			"default", nil, append([]string{
				"cell.charge", "cell.fill", "cell.aged", "mix.carbon", "mix.inert", "mix.ammonium", "mix.zinc", "mix.water",
				"wash.held", "loss.transfer", "gas.uptake", "slurry.dithionate", "slurry.reach", "dry.rate",
			}, copper...),
			[]string{"gas.warm", "crop.held", "mix.wet", "cell.2.charge", "gas.acid", "wash.soak", "cell.count"},
		},
		{"metabisulfite", entries{"gas.source": "metabisulfite"}, []string{"gas.warm"}, copper},
		{"crystals", entries{"dry.way": "crystals"}, []string{"crop.held"}, nil},
		{"acid rinse", entries{"wash.acid": 50}, []string{"wash.split"}, nil},
		{"acid rinse of its own", nil, []string{"wash.split"}, []string{"wash.after", "wash.acid"}},
		{"no acid rinse", entries{"wash.acid": 0}, nil, []string{"wash.split"}},
		{"alkaline", entries{"cell.kind": "alkaline"}, nil, []string{"wash.split"}},
		{"weighed wet", entries{"mix.wet": 150}, []string{"mix.wet", "cell.charge"}, []string{"cell.fill"}},
		{"weighed dry", entries{"mix.wet": 150, "mix.washed": 120}, []string{"mix.washed"}, []string{"cell.fill", "mix.wet"}},
		{"assayed", entries{"mix.assay": 42}, []string{"mix.assay"}, []string{"cell.charge"}},
		{"known", entries{"gas.uptake": 85, "mix.carbon": 12, "slurry.dithionate": 30}, nil, []string{"gas.uptake", "mix.carbon", "slurry.dithionate"}},
		{"second row", entries{"cell.2.count": 3, "cell.charge": 30}, nil, []string{"cell.charge", "cell.2.charge"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := caseOf(t, c.set)
			list := Uncertains(&k)
			have := keys(list)
			assert.Subset(t, have, c.has)
			for _, key := range c.not {
				assert.NotContains(t, have, key)
			}
			for i := range list {
				u := &list[i]
				assert.Less(t, u.Low, u.High, u.Input.Key)
				assert.LessOrEqual(t, u.Low, u.Best, u.Input.Key)
				assert.LessOrEqual(t, u.Best, u.High, u.Input.Key)
				assert.GreaterOrEqual(t, u.Low, u.Input.Min, u.Input.Key)
				assert.LessOrEqual(t, u.High, u.Input.Max, u.Input.Key)
			}
		})
	}
}

func TestGivenIntervals(t *testing.T) {
	c := caseOf(t, entries{"gas.uptake": 85, "batch.share": 50})
	c.Given = map[string]Interval{
		"gas.uptake":    {70, 200}, // known, but not so well; cut to the limit of 100
		"batch.share":   {45, 55},
		"cell.charge":   {45, 45}, // without width: known
		"gas.acid":      {50, 60}, // blank: around what stands in
		"dry.rate":      {90, 60}, // ends not in order
		"gas.source":    {0, 1},   // a choice
		"cell.2.count":  {1, 4},   // a row that is not there
		"mix.wet":       {100, 150},
		"no.such.input": {0, 1},
	}
	list := Uncertains(&c)
	u := find(t, list, "gas.uptake")
	assert.Equal(t, [3]float64{70, 85, 100}, [3]float64{u.Low, u.Best, u.High})
	assert.True(t, u.Given)
	assert.Equal(t, 50.0, find(t, list, "batch.share").Best)
	acid := find(t, list, "gas.acid")
	assert.True(t, acid.Low == 50 && acid.Best >= 50 && acid.Best <= 60)
	assert.False(t, find(t, list, "dry.rate").Given)
	for _, key := range []string{"cell.charge", "gas.source", "cell.2.count", "mix.wet"} {
		assert.NotContains(t, keys(list), key)
	}
}

// TestRecipeFollowsTheKinds: the estimate of a mixed bag lies between those of
// its kinds.
func TestRecipeFollowsTheKinds(t *testing.T) {
	of := func(e entries) float64 {
		c := caseOf(t, e)
		return find(t, Uncertains(&c), "mix.ammonium").Best
	}
	old, heavy := of(nil), of(entries{"cell.kind": "zincchloride"})
	both := of(entries{"cell.2.count": 6, "cell.2.kind": "zincchloride"})
	assert.InDelta(t, (old+heavy)/2, both, 1e-12)
	rejected := of(entries{"cell.2.count": 6, "cell.2.kind": "zincchloride", "cell.rejects": 6})
	assert.Equal(t, heavy, rejected)
}

// TestDithionateHoldsItsBest: at every temperature the printed brackets hold the
// value that the route takes.
func TestDithionateHoldsItsBest(t *testing.T) {
	last := math.Inf(1)
	for celsius := 0.0; celsius <= 95; celsius += 0.5 {
		low, high := dithionateEnds.at(celsius)
		c := caseOf(t, entries{"slurry.temperature": celsius})
		u := find(t, Uncertains(&c), "slurry.dithionate")
		assert.Equal(t, [2]float64{low, high}, [2]float64{u.Low, u.High}, "%v °C", celsius)
		assert.True(t, low < u.Best && u.Best < high, "%v °C: %v in %v to %v", celsius, u.Best, low, high)
		assert.LessOrEqual(t, high, last)
		last = high
	}
}

// TestSplitHoldsItsBest: the same of what acid splits, whatever the acid is enough for.
func TestSplitHoldsItsBest(t *testing.T) {
	last := 0.0
	for celsius := 0.0; celsius <= 95; celsius += 0.5 {
		for _, acid := range []float64{150, 400, 2000} {
			c := caseOf(t, entries{"slurry.temperature": celsius, "slurry.acid": acid})
			u := find(t, Uncertains(&c), "slurry.split")
			assert.True(t, u.Low < u.Best && u.Best < u.High, "%v °C: %v in %v to %v", celsius, u.Best, u.Low, u.High)
			if acid == 2000 {
				assert.GreaterOrEqual(t, u.Best, last, "warmer")
				last = u.Best
			}
		}
	}
}

// TestHalvesMeetAtTheMedian: half of the draws lie below the best value, wherever it stands
// between the ends; where it stands in their middle the two halves are one triangle.
func TestHalvesMeetAtTheMedian(t *testing.T) {
	in, _ := route.InputByKey("gas.uptake")
	p := route.NewPlan()
	for _, best := range []float64{51, 72.5, 80, 94} {
		u := Uncertain{Input: in, Low: 50, Best: best, High: 95}
		require.True(t, u.shape(&p))
		assert.Equal(t, best, u.At(0.5))
		assert.Equal(t, 50.0, u.At(0))
		assert.Equal(t, 95.0, u.At(1))
		below := distuv.NewTriangle(50, 2*best-50, best, nil)
		above := distuv.NewTriangle(2*best-95, 95, best, nil)
		for q := 0.001; q < 0.5; q += 0.001 {
			assert.InDelta(t, below.Quantile(q), u.At(q), 1e-9)
			assert.InDelta(t, above.Quantile(1-q), u.At(1-q), 1e-9)
		}
	}
	count, _ := route.InputByKey("cell.count")
	for best := 5.0; best < 9; best++ {
		whole := Uncertain{Input: count, Low: 4, Best: best, High: 9}
		require.True(t, whole.shape(&p))
		most, least := 0, 0
		for q := 0.0005; q < 1; q += 0.001 {
			v := whole.At(q)
			require.Equal(t, math.Round(v), v)
			if v <= best {
				most++
			}
			if v >= best {
				least++
			}
		}
		assert.GreaterOrEqual(t, most, 500)
		assert.GreaterOrEqual(t, least, 500)
	}
}

// TestTheMedianStandsInsideItsEnds: of every estimate, in plans of every kind; and in an
// interval of the user's own, whose middle stands in for a value at its end.
func TestTheMedianStandsInsideItsEnds(t *testing.T) {
	inputs := route.Inputs()
	for i := range inputs {
		if in := &inputs[i]; in.Standing == route.Estimated {
			assert.True(t, in.Low < in.Default && in.Default < in.High, in.Key)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		c := Case{Plan: p, Given: map[string]Interval{}}
		for _, key := range []string{"gas.uptake", "cell.charge", "wash.times", "gas.acid", "slurry.reach"} {
			in, _ := route.InputByKey(key)
			a, b := rapid.Float64Range(in.Min, math.Min(in.Max, 200)).Draw(t, key), rapid.Float64Range(in.Min, math.Min(in.Max, 200)).Draw(t, key)
			c.Given[key] = Interval{math.Min(a, b), math.Max(a, b)}
		}
		planned := c.Planned()
		for _, u := range Uncertains(&c) {
			in := u.Input
			v := in.Value(&p)
			switch {
			case in.Standing == route.Measured && (v <= in.Min || v >= in.Max):
			case in.Whole && u.High-u.Low <= 1:
			case in.Most(&p) < in.Max: // below the strength of the acid as bought
			case !(u.Low < u.Best && u.Best < u.High):
				t.Fatalf("%s: %v in %v to %v", in.Key, u.Best, u.Low, u.High)
			case !u.Given && !sameIn(in, &p, &planned):
				t.Fatalf("%s is %v, was %v", in.Key, in.Value(&planned), v)
			case u.Given && u.Low < v && v < u.High && !sameIn(in, &p, &planned):
				t.Fatalf("%s is %v, was %v inside its interval", in.Key, in.Value(&planned), v)
			}
		}
		again := Case{Plan: planned, Given: c.Given}
		if twice := again.Planned(); !samePlan(&twice, &planned) {
			t.Fatal("planned twice is planned otherwise")
		}
	})
}

func sameIn(in *route.Input, a, b *route.Plan) bool {
	v, w := in.Value(a), in.Value(b)
	return v == w || v != v && w != w
}

func samePlan(a, b *route.Plan) bool {
	inputs := route.Inputs()
	for i := range inputs {
		if !sameIn(&inputs[i], a, b) {
			return false
		}
	}
	return true
}

// TestPointsFillEachCoordinate: of 2^m points each 2^m-th part of a coordinate
// holds one, and each quarter of a square of two coordinates its share.
func TestPointsFillEachCoordinate(t *testing.T) {
	const m = 10
	for c := range generator {
		seen := map[uint64]int{}
		for i := range 1 << m {
			// The shift turns all points alike; taken back, they lie on the grid.
			seen[(points.at(reversed(i), c)-points.shift[c])>>(64-m)]++
		}
		assert.Len(t, seen, 1<<m, "coordinate %d", c)
	}
	for a := range 30 {
		for b := range a {
			n := [16]int{}
			for i := range 1 << 12 {
				n[points.at(reversed(i), a)>>62<<2|points.at(reversed(i), b)>>62]++
			}
			for _, k := range n {
				assert.InDelta(t, 256, k, 40, "coordinates %d and %d", a, b)
			}
		}
	}
	for _, u := range []uint64{0, 1, math.MaxUint64} {
		assert.True(t, unit(u) > 0 && unit(u) < 1)
	}
}

// TestPointsBeatChance: the ends of the bands of 4096 draws lie nearer to those of
// 2^16 than pseudo-random ones do, by half; in a short run those of 1024 to those of 2^14, at
// all.
func TestPointsBeatChance(t *testing.T) {
	ids := []route.FigureID{route.ProductMass, route.GasNeeded, route.CopperCrop, route.WashLast}
	ends := func(draws int, u func(point, coordinate int) float64) (list []float64) {
		r := Start(Case{Plan: route.PlanOf(1)}, draws) // with a rinse of its own the figures have more bends
		drawBy(r, u)
		for _, id := range ids {
			low, high, ok := r.Band(id)
			require.True(t, ok)
			list = append(list, low, high)
		}
		return list
	}
	by := func(l *lattice) func(point, coordinate int) float64 {
		return func(point, coordinate int) float64 { return unit(l.at(reversed(point), coordinate)) }
	}
	draws := long.Of(1024, 4096, 4096)
	want := ends(16*draws, by(&points))
	miss := func(have []float64) (sum float64) {
		for i := range have {
			d := (have[i] - want[i]) / (want[i|1] - want[i&^1])
			sum += d * d
		}
		return sum / float64(len(have))
	}
	quasi, pseudo := 0.0, 0.0
	const times = 8
	for k := range uint64(times) {
		l := newLattice(k)
		quasi += miss(ends(draws, by(&l))) / times
		random := rand.New(rand.NewPCG(k, 7))
		pseudo += miss(ends(draws, func(int, int) float64 { return random.Float64() })) / times
	}
	t.Logf("root mean square miss, of the band's width: lattice %.4f, pseudo-random %.4f", math.Sqrt(quasi), math.Sqrt(pseudo))
	assert.Less(t, long.Of(1.0, 2, 2)*quasi, pseudo)
}

// drawBy makes all draws of a run by other points.
func drawBy(r *Sampling, u func(point, coordinate int) float64) {
	for ; r.done < r.draws; r.done++ {
		r.plan = r.base
		for k := range r.uncertain {
			set(r.uncertain[k].Input, &r.plan, r.uncertain[k].At(u(r.done, r.uncertain[k].coordinate)))
		}
		route.Reconcile(&r.plan)
		r.keep(r.done, r.runner.Run(&r.plan))
	}
}

// TestCoverage: several hundred runs of different plans, whose truth is drawn
// from the same inputs by a pseudo-random generator, done as the page says: the
// interval holds the truth in 75 to 85 of a hundred; the few of a short run, in 60 at least.
func TestCoverage(t *testing.T) {
	runs, slack := long.Of(40, 800, 4000), long.Of(0.20, 0.05, 0.05)
	ids := []route.FigureID{route.ProductMass, route.GasMade, route.GasNeeded, route.CopperCrop, route.WashLast, route.ProductPurity, route.VentGas}
	random := rand.New(rand.NewPCG(20, 26))
	r := Start(Case{Plan: route.NewPlan()}, 1024)
	hits, of := make([]int, len(ids)), make([]int, len(ids))
	flat := make([]int, len(ids))
	for range runs {
		c := Case{Plan: anyPlan(t, random)}
		r.Restart(c)
		r.Finish()
		for kind, count := range [][]int{hits, flat} {
			p := r.base
			for k := range r.uncertain {
				u := &r.uncertain[k]
				v := u.At(random.Float64())
				if kind == 1 {
					v = u.Low + random.Float64()*(u.High-u.Low)
				}
				set(u.Input, &p, v)
			}
			route.Reconcile(&p)
			var b route.Runner
			s := b.Run(&p)
			for i, id := range ids {
				low, high, ok := r.Band(id)
				v := s.Value(id)
				if !ok || math.IsNaN(v) {
					continue
				}
				if kind == 0 {
					of[i]++
				}
				if low <= v && v <= high {
					count[i]++
				}
			}
		}
	}
	for i, id := range ids {
		share := float64(hits[i]) / float64(of[i])
		t.Logf("%-16s %.1f %% of %d; were the truth anywhere alike between low and high: %.1f %%",
			id.Info().Key, 100*share, of[i], 100*float64(flat[i])/float64(of[i]))
		assert.InDelta(t, 0.80, share, slack, id.Info().Key)
	}
}

// anyPlan is a plan as a person might have it.
func anyPlan(t testing.TB, random *rand.Rand) route.Plan {
	t.Helper()
	p := route.NewPlan()
	put := func(key string, low, high float64) {
		in, _ := route.InputByKey(key)
		v := low + random.Float64()*(high-low)
		if in.Whole {
			v = math.Round(v)
		}
		require.NoError(t, in.Set(&p, v))
	}
	maybe := func(key string, low, high float64) {
		if random.IntN(2) == 0 {
			put(key, low, high)
		}
	}
	put("cell.count", 2, 40)
	put("batch.share", 10, 100)
	put("slurry.temperature", 0, 60)
	put("wash.times", 1, 8)
	maybe("gas.strength", 92, 98)
	maybe("gas.excess", 0, 40)
	maybe("gas.acid", 20, 120)
	maybe("gas.copper", 5, 40)
	maybe("gas.uptake", 60, 95)
	maybe("slurry.acid", 0, 200)
	if random.IntN(4) == 0 {
		p.GasSource = route.FromMetabisulfite
	}
	require.Empty(t, route.Check(&p))
	return p
}

// TestRestartIsAFreshStart: to the last bit, whatever the run did before.
func TestRestartIsAFreshStart(t *testing.T) {
	first := caseOf(t, entries{"gas.source": "metabisulfite", "dry.way": "crystals"})
	second := caseOf(t, entries{"mix.assay": 42, "cell.2.count": 4, "cell.2.kind": "zincchloride"})
	second.Given = map[string]Interval{"batch.share": {20, 30}}
	again := Start(first, 512).Finish()
	again.Band(route.ProductMass)
	again.Restart(second)
	for !again.Step(37) {
		again.Band(route.ProductMass)
	}
	fresh := Start(second, 512).Finish()
	assert.Equal(t, fresh.Kept(), again.Kept())
	assert.Equal(t, keys(fresh.Uncertains()), keys(again.Uncertains()))
	for id := range route.FigureID(len(route.Figures())) {
		a, b := fresh.Figure(id), again.Figure(id)
		for i := range a {
			if math.Float64bits(a[i]) != math.Float64bits(b[i]) && !(math.IsNaN(a[i]) && math.IsNaN(b[i])) {
				t.Fatalf("%s in draw %d is %v, was %v", id.Info().Key, i, b[i], a[i])
			}
		}
		lowA, highA, okA := fresh.Band(id)
		lowB, highB, okB := again.Band(id)
		if okA != okB || okA && (lowA != lowB || highA != highB) {
			t.Fatalf("band of %s: %v to %v, was %v to %v", id.Info().Key, lowB, highB, lowA, highA)
		}
	}
}

func TestDrawsAllocateNothing(t *testing.T) {
	for name, e := range map[string]entries{
		"default": nil, "assay": {"mix.assay": 42}, "metabisulfite": {"gas.source": "metabisulfite"}, "crystals": {"dry.way": "crystals"},
	} {
		c := caseOf(t, e)
		r := Start(c, 4096)
		assert.Zero(t, testing.AllocsPerRun(500, func() { r.Step(1) }), name)
		assert.Zero(t, testing.AllocsPerRun(20, func() {
			r.Restart(c)
			r.Step(8)
			for id := range route.FigureID(len(route.Figures())) {
				r.Band(id)
			}
		}), name)
	}
}

// wordShares are, for a figure of words, the shares of the draws that pick each word.
func wordShares(r *Sampling, id route.FigureID) []float64 {
	shares := make([]float64, len(id.Info().Words))
	column := r.Figure(id)
	for _, v := range column {
		if v == v {
			shares[int(v)] += 1 / float64(len(column))
		}
	}
	return shares
}

// TestHeldAndFollowed: a charge left blank is what the page prints, and has no
// spread; let follow, the gas always meets the demand.
func TestHeldAndFollowed(t *testing.T) {
	c := caseOf(t, nil)
	r := Start(c, 1024).Finish()
	for _, id := range []route.FigureID{route.GasAcidUsed, route.GasCopperUsed, route.SlurryWaterUsed, route.WashSoakUsed, route.CopperWaterUsed} {
		low, high, ok := r.Band(id)
		assert.True(t, ok)
		assert.Equal(t, r.Best().Value(id), low, id.Info().Key)
		assert.Equal(t, low, high, id.Info().Key)
	}
	low, high, _ := r.Band(route.GasAcidNeeded)
	assert.Less(t, low, high)
	limit := wordShares(r, route.GasLimit)
	assert.InDelta(t, 1, limit[0]+limit[1]+limit[3], 1e-9)
	assert.Less(t, limit[3], 0.01)

	c.Follow = true
	r.Restart(c)
	r.Finish()
	low, high, _ = r.Band(route.GasAcidUsed)
	assert.Less(t, low, high)
	assert.Equal(t, 1.0, wordShares(r, route.GasLimit)[3])
}

// TestAssayLeavesOut: draws of the mix that could not give the assay are left
// out, and those that stay do give it.
func TestAssayLeavesOut(t *testing.T) {
	c := caseOf(t, entries{"mix.assay": 70})
	r := Start(c, 1024).Finish()
	assert.Less(t, r.Kept(), 1024)
	assert.Greater(t, r.Kept(), 100)
	place := slices.Index(keys(r.Uncertains()), "mix.assay")
	expected, kept := r.Figure(route.MixAssay), 0
	for i, v := range expected {
		if v == v {
			kept++
			assert.InDelta(t, r.Input(place, i), v, 1e-6)
		}
	}
	assert.Equal(t, r.Kept(), kept)
	_, _, ok := r.Band(route.ProductMass)
	assert.True(t, ok)
}

// TestBandsOfAnyPlan: for random plans that the page accepts, a band is finite
// and in order, and words and undefined figures have none.
func TestBandsOfAnyPlan(t *testing.T) {
	r := Start(Case{Plan: route.NewPlan()}, 64)
	rapid.Check(t, func(t *rapid.T) {
		c := Case{Plan: drawPlan(t), Follow: rapid.Bool().Draw(t, "follow")}
		inputs := route.Inputs()
		c.Given = map[string]Interval{}
		for range rapid.IntRange(0, 6).Draw(t, "intervals") {
			in := &inputs[rapid.IntRange(0, len(inputs)-1).Draw(t, "of")]
			c.Given[in.Key] = Interval{rapid.Float64Range(in.Min, in.Max).Draw(t, "low"), rapid.Float64Range(in.Min, in.Max).Draw(t, "high")}
		}
		r.Restart(c)
		r.Finish()
		for i := range r.Uncertains() {
			u := &r.Uncertains()[i]
			if !(u.Low <= u.Best && u.Best <= u.High && u.Low >= u.Input.Min && u.High <= u.Input.Max) {
				t.Fatalf("%s: %v, %v, %v", u.Input.Key, u.Low, u.Best, u.High)
			}
		}
		for id := range route.FigureID(len(route.Figures())) {
			low, high, ok := r.Band(id)
			switch {
			case ok && id.Info().Words != nil:
				t.Fatalf("%s is a word", id.Info().Key)
			case ok && !(low <= high && !math.IsInf(low, 0) && !math.IsInf(high, 0)):
				t.Fatalf("%s: %v to %v", id.Info().Key, low, high)
			case !ok && !(math.IsNaN(low) && math.IsNaN(high)):
				t.Fatalf("%s has no band, but %v to %v", id.Info().Key, low, high)
			}
			for _, s := range r.Shares(id) {
				if !(s.Of >= 0 && s.Of <= 1) {
					t.Fatalf("%s: share %v of %s", id.Info().Key, s.Of, s.Input.Key)
				}
			}
		}
	})
}

// drawPlan draws a plan within all limits, in order.
func drawPlan(t *rapid.T) route.Plan {
	p := route.NewPlan()
	inputs := route.Inputs()
	rows := rapid.IntRange(1, route.MaxRows).Draw(t, "rows")
	for i := range inputs {
		in := &inputs[i]
		if in.Row > rows || rapid.IntRange(0, 3).Draw(t, in.Key) > 0 {
			continue
		}
		if in.IsChoice() {
			if err := in.Choose(&p, rapid.SampledFrom(in.Options).Draw(t, "word").Word); err != nil {
				t.Fatal(err)
			}
			continue
		}
		v := rapid.Float64Range(in.Min, in.Max).Draw(t, "value")
		if in.Low < in.High && rapid.Bool().Draw(t, "likely") {
			v = in.Low + (in.High-in.Low)*rapid.Float64Range(0, 1).Draw(t, "between")
		}
		if in.Whole {
			v = math.Round(v)
		}
		if err := in.Set(&p, v); err != nil {
			t.Fatal(err)
		}
	}
	for i := range p.Rows {
		row := &p.Rows[i]
		if row.Rejects > row.Count {
			row.Rejects = math.Floor(row.Count / 2)
		}
		if p.Rows[0].Kind == 2 || row.Kind == 2 {
			row.Kind = p.Rows[0].Kind // alkaline cells only among their own
		}
	}
	route.Reconcile(&p)
	if p.CopperCold >= p.CopperHot {
		p.CopperCold, p.CopperHot = 10, 80
	}
	if len(route.Check(&p)) > 0 {
		p.MixAssay = quantity.Percent(quantity.Blank)
	}
	if len(route.Check(&p)) > 0 {
		p.CakeTaken = quantity.Gram(quantity.Blank)
	}
	if problems := route.Check(&p); len(problems) > 0 {
		t.Fatal(problems)
	}
	return p
}

// TestQuantilesAreThoseOfASortedColumn, with gaps in it.
func TestQuantilesAreThoseOfASortedColumn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		column := rapid.SliceOfN(rapid.OneOf(rapid.Float64Range(-5, 5), rapid.Map(rapid.IntRange(-2, 2), func(i int) float64 { return float64(i) }),
			rapid.Just(math.NaN())), 1, 200).Draw(t, "column")
		s := newSample(1, len(column))
		var sorted []float64
		for _, v := range column {
			if v == v {
				sorted = append(sorted, v)
			}
		}
		slices.Sort(sorted)
		shares := []float64{0, 0.1, 0.1, 0.33, 0.5, 0.9, 1}
		q := slices.Clone(shares)
		if n := s.quantiles(column, q); n != len(sorted) {
			t.Fatalf("%d numbers, not %d", n, len(sorted))
		} else if n == 0 {
			return
		}
		for i, p := range shares {
			rank := min(max(p*float64(len(sorted))-0.5, 0), float64(len(sorted)-1))
			k := int(rank)
			want := sorted[k]
			if k+1 < len(sorted) {
				want += (rank - float64(k)) * (sorted[k+1] - sorted[k])
			}
			if math.Abs(q[i]-want) > 1e-12 {
				t.Fatalf("quantile %v is %v, not %v, of %v", p, q[i], want, sorted)
			}
		}
	})
}

func TestWordsAndConstantsAndGaps(t *testing.T) {
	r := Start(caseOf(t, nil), 256)
	_, _, ok := r.Band(route.ProductMass)
	assert.False(t, ok, "before the first draw")
	assert.Nil(t, r.Shares(route.ProductMass))
	r.Finish()
	_, _, ok = r.Band(route.GasLimit)
	assert.False(t, ok, "a word")
	_, _, ok = r.Band(route.GasSaltUsed)
	assert.False(t, ok, "never defined")
	low, high, ok := r.Band(route.CellsOpened)
	assert.True(t, ok && low == 6 && high == 6, "certain")
	assert.Nil(t, r.Shares(route.CellsOpened))
	q, ok := r.Quantile(route.ProductMass, 0.5)
	l, h, _ := r.Band(route.ProductMass)
	assert.True(t, ok && l < q && q < h)
	mean, _ := moments(r.Figure(route.ProductMass))
	assert.True(t, l < mean && mean < h)
}

// TestDifference: a plan against itself does not differ, however wide its bands;
// a closed tap of losses does.
func TestDifference(t *testing.T) {
	a := Start(caseOf(t, nil), 512).Finish()
	b := Start(caseOf(t, nil), 512).Finish()
	low, high, ok := Difference(a, b, route.ProductMass)
	assert.True(t, ok && low == 0 && high == 0)
	more := Start(caseOf(t, entries{"cell.count": 7}), 512).Finish()
	low, high, ok = Difference(a, more, route.ProductMass)
	assert.True(t, ok && low > 0 && high > low)
	lowA, highA, _ := a.Band(route.ProductMass)
	assert.Greater(t, highA-lowA, high-low, "what the plans share falls out")
	_, _, ok = Difference(a, b, route.GasLimit)
	assert.False(t, ok)
}

// TestGolden holds the bands of the default plan to the last ones that were
// looked at. After a change that is meant:
//
//	go test ./chem/spread -run Golden -update
func TestGolden(t *testing.T) {
	r := Start(caseOf(t, nil), 4096).Finish()
	have := [][]string{{"key", "best", "low", "high", "unit"}}
	number := func(v float64) string {
		if math.IsNaN(v) {
			return ""
		}
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	for id := range route.FigureID(len(route.Figures())) {
		if low, high, ok := r.Band(id); ok {
			have = append(have, []string{id.Info().Key, number(r.Best().Value(id)), number(low), number(high), id.Info().Unit})
		}
	}
	tabletest.Golden(t, "spread-demo", *update, have)
}

// TestColumnsAreTheSheets: what stands in the columns is, to the bit, what the sheet of
// each draw says; also where only some of the draws were made before.
func TestColumnsAreTheSheets(t *testing.T) {
	for _, e := range []entries{
		nil,
		{"batch.runs": 2, "slurry.acid": 0},
		{"gas.source": "metabisulfite", "dry.way": "crystals"},
		{"gas.source": "slurrysalt"},
		{"gas.source": "oxalic"},
		{"cell.rejects": 6},
	} {
		const draws = 300
		figures := len(route.Figures())
		r := Start(caseOf(t, nil), draws).Finish()
		for id := range figures {
			r.Figure(route.FigureID(id)) // nothing of it is left after Restart
		}
		r.Restart(caseOf(t, e))
		want := make([][draws]float64, figures)
		for point := range draws {
			r.Step(1)
			for id := range route.FigureID(figures) {
				if want[id][point] = r.sheet.Value(id); r.sheet.Reason(id) != route.Defined {
					want[id][point] = math.NaN()
				}
				if point%7 == 0 {
					r.Figure(id)
				}
			}
		}
		for id := range route.FigureID(figures) {
			for point, have := range r.Figure(id) {
				if w := want[id][point]; w != have && (w == w || have == have) {
					t.Fatalf("%v: %s of draw %d is %v, in the column %v", e, id.Info().Key, point, w, have)
				}
			}
		}
	}
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		best, low, high, wantBest, wantLow, wantHigh float64
		decimals                                     int
	}{
		{18.34, 12.1, 27.2, 18, 12, 27, 0},                        // half-width 7.55: one digit
		{18.34, 16.12, 20.49, 18.3, 16.1, 20.5, 1},                // 2.185: two
		{10.05762, 10.03062, 10.08462, 10.058, 10.031, 10.085, 3}, // GUM 7.2.6: 27 mohm
		{1234, 1000, 1500, 1230, 1000, 1500, -1},                  // 250
		{1234, 400, 2400, 1200, 400, 2400, -2},                    // 1000: two
		{0.004321, 0.004321, 0.004321, 0.004321, 0.004321, 0.004321, 6},
		{5, 4.02, 5.97, 5, 4, 6, 1}, // 0.975 rounds to 1.0
		{0, 0, 0, 0, 0, 0, 3},
	} {
		r := Round(c.best, c.low, c.high)
		assert.Equal(t, Rounded{c.wantBest, c.wantLow, c.wantHigh, c.decimals}, r, "%v (%v to %v)", c.best, c.low, c.high)
	}
	assert.Equal(t, 0, Decimals(1, 1))
	assert.Equal(t, 0, Decimals(math.NaN(), 1))
	assert.Equal(t, 0.0, HalfWidth(0))
	assert.InDelta(t, 0.0012, HalfWidth(0.00115), 1e-12)
}
