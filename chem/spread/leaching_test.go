package spread

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/cell"
	"rosesalt/chem/formula"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table/tabletest"
)

// leached is the solid of a published run, in g; nothing hangs on it.
const leached = 100

var manganeseMass = float64(formula.MustParse("Mn").MolarMass())

// published is a row of the table of published runs, put in as a plan.
type published struct {
	t   *testing.T
	row tabletest.Row
	Case
}

func (r *published) set(key string, v float64) {
	r.t.Helper()
	in, ok := route.InputByKey(key)
	require.True(r.t, ok, key)
	require.NoError(r.t, in.Set(&r.Plan, v), key)
}

func (r *published) choose(key, word string) {
	r.t.Helper()
	in, ok := route.InputByKey(key)
	require.True(r.t, ok, key)
	require.NoError(r.t, in.Choose(&r.Plan, word), key)
}

// ends are those of a cell of the table, a number or "low to high".
func (r *published) ends(column string) (low, high float64) {
	r.t.Helper()
	from, to, wide := strings.Cut(r.row.Text(column), " to ")
	if !wide {
		to = from
	}
	low, err := strconv.ParseFloat(from, 64)
	require.NoError(r.t, err, column)
	high, err = strconv.ParseFloat(to, 64)
	require.NoError(r.t, err, column)
	return low, high
}

// between draws an input between two values.
func (r *published) between(key string, low, high float64) {
	r.set(key, (low+high)/2)
	if low < high {
		r.Given[key] = Interval{low, high}
	}
}

func (r *published) assume(key, column string) {
	low, high := r.ends(column)
	r.between(key, low, high)
}

// carbon is the share of carbon at which the washed dry mix holds a mass percent of
// manganese.
func (r *published) carbon(manganese float64) float64 {
	var b route.Runner
	low, high := 0.0, 60.0
	for range 40 {
		middle := (low + high) / 2
		r.set("mix.carbon", middle)
		s := b.Run(&r.Plan)
		if s.Value(route.MixManganese)/10*manganeseMass > manganese*s.Value(route.MixDry) {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// solid puts in what was leached: washed alkaline mix, since its zinc can be set apart from
// its manganese, carbon for all that is neither; all of it leached, none lost on the way.
func (r *published) solid() {
	r.choose("cell.kind", "alkaline")
	for key, v := range map[string]float64{
		"cell.count": 100, "mix.potash": 0, "mix.inert": 0, "mix.washed": leached, "batch.share": 100, "loss.transfer": 0, "wash.acid": 0,
	} {
		r.set(key, v)
	}
	r.Given["mix.washed"] = Interval{leached, leached}
	r.assume("cell.charge", "tetravalent")
	r.assume("cell.deep", "hausmannite")
	least, most := r.ends("manganese")
	if least < 25 {
		r.set("mix.inert", 30)
	}
	zinc, _ := r.ends("zinc")
	if low, high := r.ends("zinc"); low < high {
		zinc = (low + high) / 2
	}
	pairs := zinc / float64(reaction.Zinc.MolarMass()) / ((least + most) / 2 / manganeseMass)
	r.set("mix.gel", min(100, 100*pairs/((1-float64(r.Plan.Rows[0].Charge)/100)/2)))
	r.between("mix.carbon", r.carbon(most), r.carbon(least))
}

// slurry puts in the liquid, its acid and its temperature. The acid is made up at 1 mol/L,
// whatever it was.
func (r *published) slurry() {
	acid, _ := r.ends("acid")
	liquid, _ := r.ends("liquid")
	r.set("slurry.acid", acid*leached)
	r.set("slurry.water", max(0, (liquid-acid)*leached))
	celsius, _ := r.ends("celsius")
	r.set("slurry.temperature", celsius)
	r.set("oxalic.warm", celsius)
}

// reductant puts it in. What is no way of the plan stands as peroxide of which nothing is
// lost, a mole for each pair of electrons.
func (r *published) reductant() {
	low, high := r.ends("amount")
	const strength = 35
	switch what := r.row.Text("reductant"); what {
	case "metabisulfite":
		r.choose("gas.source", "slurrysalt")
		r.between("salt.charge", low/1000*leached*190.1, high/1000*leached*190.1)
	case "oxalic acid":
		r.choose("gas.source", "oxalic")
		r.between("oxalic.charge", low/1000*leached*126.07, high/1000*leached*126.07)
	default:
		r.choose("gas.source", "peroxide")
		r.set("peroxide.strength", strength)
		millilitre := func(mmol float64) float64 { return mmol / 1000 * leached * 34.01 / (strength / 100.0) / 1.1312 }
		r.between("peroxide.charge", millilitre(low), millilitre(high))
		if what != "peroxide" {
			r.set("peroxide.lost", 0)
		}
	}
}

// of the published cell: any of the sizes, zinc-carbon of either kind.
func ofCell(t *testing.T, row tabletest.Row) (low, middle, high float64) {
	kinds, sizes := []string{"zincchloride", "ammonium"}, []int{0, 1, 2, 3, 5}
	if row.Text("solid") == "alkaline" {
		kinds, sizes = []string{"alkaline"}, []int{1}
	}

	all := newSample(1, 1024*len(kinds)*len(sizes))
	column := all.column(0, 0)
	for _, kind := range kinds {
		for _, size := range sizes {
			r := published{t, row, Case{Plan: route.NewPlan()}}
			r.set("cell.count", 1)
			r.choose("cell.kind", kind)
			r.choose("cell.size", cell.Sizes()[size].Mark)
			run := Start(r.Case, 1024).Finish()
			grams := cell.PartsOf(size, int(r.Plan.Rows[0].Kind)).Cell.Best
			for _, mmol := range run.Figure(route.MixManganese) {
				column = append(column, mmol/10*manganeseMass/grams)
			}
		}
	}
	q := [3]float64{bandLow, 0.5, bandHigh}
	all.quantiles(column, q[:])
	return q[0], q[1], q[2]
}

// predict is the interval of what a row of the table finds, eight draws in ten.
func predict(t *testing.T, row tabletest.Row) (low, middle, high float64) {
	r := published{t, row, Case{Plan: route.NewPlan(), Given: map[string]Interval{}}}
	figure := route.ReduceConversion
	switch row.Text("finds") {
	case "of the cell":
		return ofCell(t, row)
	case "dithionate":
		celsius, _ := r.ends("celsius")
		r.set("slurry.temperature", celsius)
		figure = route.DemandDithionate
	case "destroyed":
		// The plan's acid is 1 mol/L, of which so much of it leaves all; the run had 1.4.
		for key, v := range map[string]float64{"slurry.acid": 50000, "slurry.water": 0, "batch.share": 1} {
			r.set(key, v)
		}
		hours, _ := r.ends("hours")
		celsius, _ := r.ends("celsius")
		r.set("slurry.rest", 1.4*hours)
		r.set("slurry.rest.warm", celsius)
		figure = route.RestGone
	default:
		r.solid()
		r.slurry()
		r.reductant()
	}
	require.Empty(t, route.Check(&r.Plan))
	run := Start(r.Case, 4096).Finish()
	low, high, ok := run.Band(figure)
	require.True(t, ok)
	middle, _ = run.Quantile(figure, 0.5)
	return low, middle, high
}

// astray are the rows that only check and that the plan does not meet, with what may be why.
var astray = map[string]string{
	"acid.burnt":       "2 points above the interval: more dissolves than Mn3O4 in half of the spent oxide explains; the valence of the powder is not printed, nor crumbs of metal",
	"oxalic.ore":       "2 points above the interval: nearly all of it dissolves, and no oxalate falls out; which oxalic acid, and how much ore to a litre, is not printed",
	"peroxide.roasted": "6 points above the interval: the manganese of the powder is not printed; with 27 % and less it comes out",
}

// outcome is a published run beside what the plan predicts of it, in percent.
type outcome struct {
	row               tabletest.Row
	low, middle, high float64
}

// met tells whether what was found lies in the interval, or beyond the middle where only a
// bound is printed.
func (o *outcome) met() bool {
	value, tolerance := o.row.Expected(), o.row.Tolerance()
	switch o.row.Text("bound") {
	case "at least":
		return o.middle >= value-tolerance
	case "at most":
		return o.middle <= value+tolerance
	}
	return o.low <= value+tolerance && o.high >= value-tolerance
}

// narrow tells whether the interval is one to plan by.
func (o *outcome) narrow() bool { return o.high-o.low <= 30 }

// outside is by how many points what was found lies beyond the interval.
func (o *outcome) outside() float64 {
	value, tolerance := o.row.Expected(), o.row.Tolerance()
	below, above := o.low-tolerance-value, value-tolerance-o.high
	switch o.row.Text("bound") {
	case "at least":
		below = 0
	case "at most":
		above = 0
	}
	return max(0, below, above)
}

// wider is the outcome with so many points more on either side.
func (o outcome) wider(points float64) outcome {
	o.low, o.high = max(0, o.low-points), min(100, o.high+points)
	return o
}

// beyond is the points by which an interval must be wider on either side for eight in ten of
// the mending rows that tell how much dissolves to lie in it: what solids and laboratories
// differ by, and no input of a plan tells.
func beyond(all []outcome) float64 {
	var points []float64
	for i := range all {
		if all[i].row.Text("use") == "mend" && all[i].row.Text("finds") == "dissolved" {
			points = append(points, all[i].outside())
		}
	}
	slices.Sort(points)
	return points[int(math.Ceil(0.8*float64(len(points))))-1]
}

// TestPublishedRuns holds the plan to what was published of such work. Rows that only check
// were parted from those that estimates rest on before any was computed.
//
// The mending rows ask for a spread between laboratories of some 15 points on either side:
// acid alone brought 20, 50, 60 and 95 % of the manganese of spent powders into solution.
// With that the rows astray lie inside, but in intervals of 33 to 47 points, too wide to plan by;
// and where a reductant is ample, the mending rows lie within 3 points of the middle. So no
// estimate of a plan holds it.
func TestPublishedRuns(t *testing.T) {
	var all []outcome
	inside, checks := 0, 0
	for _, row := range tabletest.Rows(t, "leaching") {
		t.Run(row.Check(), func(t *testing.T) {
			low, middle, high := predict(t, row)
			o := outcome{row, low, middle, high}
			all = append(all, o)
			t.Logf("%-5s %-18s %5.1f to %5.1f, middle %5.1f; published %s %g; met %v narrow %v", row.Text("use"), row.Check(), low, high, middle, row.Text("bound"), row.Expected(), o.met(), o.narrow())
			if row.Text("use") != "check" {
				return
			}
			checks++
			if o.met() && o.narrow() {
				inside++
			} else {
				assert.Contains(t, astray, row.Check())
			}
		})
	}
	t.Logf("%d of the %d that only check", inside, checks)
	assert.GreaterOrEqual(t, inside, checks-len(astray))

	points := beyond(all)
	t.Logf("%.1f points more on either side hold eight in ten of the mending rows", points)
	assert.InDelta(t, 15, points, 2)
	for _, o := range all {
		if _, is := astray[o.row.Check()]; is {
			w := o.wider(points)
			t.Logf("%-18s then %5.1f to %5.1f", o.row.Check(), w.low, w.high)
			assert.Zero(t, w.outside(), o.row.Check())
			assert.False(t, w.narrow(), o.row.Check())
		}
	}
}
