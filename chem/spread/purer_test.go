package spread

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/scripts/long"
)

// typed is a case with changes typed into the fields of its plan, one after the other.
func typed(t require.TestingT, c Case, set []field.Change) Case {
	form := c.Plan.Form()
	for _, change := range set {
		f, ok := form.Find(change.Key)
		require.True(t, ok, change.Key)
		require.NoError(t, form.Set(f, change.Text), change.Key)
	}
	require.Empty(t, route.Check(&c.Plan))
	return c
}

// purityOf is what a case computes.
func purityOf(c Case) (purity, mass, salt float64) {
	p := c.Planned()
	var b route.Runner
	s := b.Run(&p)
	now, _, _ := b.Jar(&p)
	return s.Value(route.ProductPurity), s.Value(route.ProductMass), now.Salt
}

// told are the combinations that an answer tells of.
func (f *Purer) told() []Cleaned {
	if len(f.Surest.Steps) == 0 {
		return []Cleaned{f.Best}
	}
	return []Cleaned{f.Best, f.Surest}
}

// holdsPurer holds what was found to the plan with it typed in.
func holdsPurer(t require.TestingT, c Case, want float64, found *Purer) {
	if found.Empty {
		return
	}
	now, _, was := purityOf(c)
	plan := c.Planned()
	before := new(Purify).asks(&plan, new(route.Runner).Run(&plan), was)
	assert.InDelta(t, now, found.Now, 1e-9)
	assert.Equal(t, now >= want, len(found.Best.Steps) == 0 && found.Best.Reaches, "nothing is proposed where nothing is asked for")
	for _, one := range append(found.told(), found.Alone...) {
		done := typed(t, c, one.Set)
		purity, mass, salt := purityOf(done)
		assert.InDelta(t, purity, one.Purity, 1e-9)
		assert.InDelta(t, mass, one.Product, 1e-9*mass)
		assert.InDelta(t, was-salt, one.Cost.Grams, 1e-6*was)
		assert.InDelta(t, (was-salt)/was, one.Cost.Share, 1e-9)
		p := done.Planned()
		s := new(route.Runner).Run(&p)
		after := new(Purify).asks(&p, s, salt)
		assert.InDelta(t, after.hours-before.hours, one.Cost.Hours, 1e-9)
		assert.Equal(t, after.nights-before.nights, one.Cost.Nights)
		assert.InDelta(t, after.litres-before.litres, one.Cost.Litres, 1e-9)
		assert.InDelta(t, after.gas-before.gas, one.Cost.Gas, 1e-9)
		assert.InDelta(t, before.blue-after.blue, one.Cost.Blue, 1e-9)
		if before.blue > 0 {
			assert.InDelta(t, one.Cost.Blue/before.blue, one.Cost.Blues, 1e-9)
		}
		if s.Reason(route.VentVolume) != route.Defined {
			assert.LessOrEqual(t, one.Cost.Gas, 1e-9, "no gas is led in, and the dish gives none off")
		}
		assert.Equal(t, purity >= want, one.Reaches)
		assert.True(t, found.Best.Reaches || one.Purity <= found.Best.Purity+nearly, "purer than the best, which falls short")
		changed := map[string]bool{}
		for _, change := range one.Set {
			changed[change.Key] = true
		}
		inputs := route.Inputs()
		for i := range inputs {
			in := &inputs[i]
			a, b := in.Value(&c.Plan), in.Value(&done.Plan)
			assert.Equal(t, !changed[in.Key], a == b || !quantity.Given(a) && !quantity.Given(b), "%s is changed and not said, or said and not changed", in.Key)
		}
	}
	if !found.Best.Reaches {
		return
	}
	price := found.Best.Cost.price()
	for _, one := range found.Alone {
		assert.True(t, !one.Reaches || one.Cost.price() >= price-1e-9 || len(found.Best.Steps) == 0, "%s is cheaper", one.Steps[0].Key)
	}
	assert.True(t, len(found.Surest.Steps) == 0 || found.Surest.Reaches && found.SurestSure > found.Sure+surer && found.Surest.Cost.price() >= price-1e-9, "the surest")
	// No cheaper part of it reaches what is wanted.
	steps := found.Best.Steps
	f := &Purify{c: c}
	p := c.Planned()
	f.now = f.asks(&p, f.runner.Run(&p), was)
	for m := range 1<<len(steps) - 1 {
		var part []route.PurityStep
		for i := range steps {
			if m>>i&1 == 1 {
				part = append(part, steps[i])
			}
		}
		if less, ok := f.clean(part); ok && less.Purity >= want {
			assert.GreaterOrEqual(t, less.Cost.price(), price-1e-9, "%v", less.Set)
		}
	}
}

func TestPurerDoesWhatItSays(t *testing.T) {
	reached, short, together := 0, 0, 0
	r := rand.New(rand.NewPCG(17, 8))
	for i := range long.Of(40, 150, 2000) {
		c := Case{Plan: routetest.Way(r, i)}
		want := 60 + 40*r.Float64()
		found := PureFor(c, want, 64).Finish()
		holdsPurer(t, c, want, &found)
		switch {
		case found.Empty || len(found.Best.Steps) == 0:
		case found.Best.Reaches:
			reached++
			if len(found.Best.Steps) > 1 {
				together++
			}
		default:
			short++
		}
	}
	t.Logf("%d reached, %d of them by several steps; %d fall short", reached, together, short)
	assert.NotZero(t, reached)
	assert.NotZero(t, together)
	assert.NotZero(t, short)
}

// TestPurerOfAnyPlan: of plans as wild as the fields allow, and with intervals.
func TestPurerOfAnyPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Case{Plan: drawPlan(t), Given: map[string]Interval{}}
		if rapid.Bool().Draw(t, "interval") {
			low := rapid.Float64Range(0, 300).Draw(t, "low")
			c.Given["dry.temperature"] = Interval{low, low + 100}
			c.Given["slurry.temperature"] = Interval{5, 30}
		}
		want := rapid.Float64Range(1, 100).Draw(t, "want")
		found := PureFor(c, want, 16).Finish()
		holdsPurer(t, c, want, &found)
	})
}

// TestPurerOfTheFirstPlan: with 95 % wanted several steps go together, and it says how sure
// that is, and what recrystallising on top would do; with more than any reaches, what is left.
func TestPurerOfTheFirstPlan(t *testing.T) {
	c := Case{Plan: route.PlanOf(route.Defaults)}
	found := PureFor(c, 95, 1024).Finish()
	require.True(t, found.Best.Reaches)
	assert.Greater(t, len(found.Best.Steps), 1)
	done := typed(t, c, found.Best.Set)
	run := Start(done, 1024).Finish()
	low, _, _ := run.Band(route.ProductPurity)
	assert.Equal(t, low, found.Sure)
	assert.Greater(t, found.Again, found.Best.Purity)
	require.NotEmpty(t, found.Surest.Steps, "the cheapest is not sure, and another is")
	run = Start(typed(t, c, found.Surest.Set), 1024).Finish()
	low, _, _ = run.Band(route.ProductPurity)
	assert.Equal(t, low, found.SurestSure)
	assert.Greater(t, low, found.Sure+surer)
	assert.True(t, found.Surest.Cost.Way)
	reached := PureFor(typed(t, c, found.Surest.Set), 95, 64).Finish()
	assert.Empty(t, reached.Surest.Steps, "nothing is proposed where nothing is asked for")
	assert.Less(t, found.Keeps, 100.0)

	found = PureFor(c, 99.9, 64).Finish()
	assert.False(t, found.Best.Reaches)
	require.NotEmpty(t, found.Best.Left)
	assert.Equal(t, "zinc salts", found.Best.Left[0].Name)

	c.Plan.Rows[0].Rejects = c.Plan.Rows[0].Count
	assert.True(t, PureFor(c, 95, 64).Finish().Empty)

	c = Case{Plan: route.NewPlan()}
	c.Plan.Rows[1].Count, c.Plan.Rows[1].Rejects = 2, 5
	require.NotEmpty(t, route.Check(&c.Plan))
	assert.True(t, PureFor(c, 95, 64).Finish().Empty, "a plan that is refused")
}

func TestPurerGivesWay(t *testing.T) {
	c := Case{Plan: route.PlanOf(route.Defaults)}
	want := PureFor(c, 95, 256).Finish()
	f, steps := PureFor(c, 95, 256), 0
	for !f.Step(20) {
		steps++
	}
	assert.Greater(t, steps, 20)
	assert.Equal(t, want, f.Answer())
}
