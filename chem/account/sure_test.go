package account

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/scripts/long"
)

// firstRun is a beginner's: two cells, a small charge, no dilute acid, blue crystals that
// prove gas, and little salt.
func firstRun(t testing.TB) (spread.Case, Record) {
	t.Helper()
	c := spread.Case{Plan: route.NewPlan()}
	for key, v := range map[string]float64{
		"cell.count": 2, "batch.share": 100, "gas.acid": 15, "gas.copper": 6, "slurry.acid": 0,
	} {
		in, ok := route.InputByKey(key)
		require.True(t, ok, key)
		require.NoError(t, in.Set(&c.Plan, v))
	}
	r := NewRecord()
	r.Copper, r.Product = 12.4, 2.1
	return c, r
}

// TestSureSentence: 12.4 g / 249.68 × 0.8 / 0.92 = 43.2 mmol were made; 2.1 g / 169.02 =
// 12.42 mmol of salt, each of which took 1.6 of gas at most, six in ten of the reducing power
// gone to dithionate: 19.9. With twice as much salt some gas may have stayed as hydrogensulfite.
func TestSureSentence(t *testing.T) {
	c, r := firstRun(t)
	b := Start(c, r).Bounds
	assert.InDelta(t, 43.2, b.Made.Value, 0.05)
	assert.InDelta(t, 94.4, b.MadeMost.Value, 0.05)
	assert.InDelta(t, 19.9, b.UsedMost.Value, 0.05)
	assert.Equal(t, "At least 43\u202fmmol of gas (1\u202fL) were made; all that is in the jar can have used 20\u202fmmol at most: so 23\u202fmmol or more, over half, did no work that reached the jar.", b.Sure())

	more := r
	more.Product *= 2
	assert.InDelta(t, 2*19.9*1.5, sureBounds(c, more).UsedMost.Value, 0.1)

	crystals := r
	crystals.Product = quantity.Blank
	assert.Equal(t, "At least 43\u202fmmol of gas (1\u202fL) were made and 94\u202fmmol at most; how much of it worked only the weighed salt can tell.", sureOf(c, crystals))
	salt := r
	salt.Copper = quantity.Blank
	assert.Contains(t, sureOf(c, salt), "All that is in the jar can have used 20\u202fmmol of gas (0.47\u202fL) at most, of 94\u202fmmol that the charge could give at most")
	assert.Contains(t, sureOf(c, NewRecord()), "The charge could bring 94\u202fmmol of gas (2.2\u202fL) at most.")
}

func sureBounds(c spread.Case, r Record) *Bounds {
	b := Start(c, r).Bounds
	return &b
}

// sureOf is the sure sentence of a record.
func sureOf(c spread.Case, r Record) string {
	b := Start(c, r).Bounds
	return b.Sure()
}

// TestPrintedGrain: rounding to the grain first changes nothing of what is printed.
func TestPrintedGrain(t *testing.T) {
	g := generator(5)
	for range 2000 {
		v := math.Exp(14*g.unit() - 5)
		assert.Equal(t, route.Print(v, "mmol"), route.Print(asPrinted(v, grain(v)), "mmol"), v)
	}
	assert.Zero(t, asPrinted(0, grain(0)))
}

// TestBoundsHoldTheTruth: runs of every cause, measured without error, lie within all bounds.
func TestBoundsHoldTheTruth(t *testing.T) {
	for name, edit := range map[string]func(*spread.Case){
		"demo":        func(*spread.Case) {},
		"no acid":     func(c *spread.Case) { c.Plan.SlurryAcid = 0 },
		"little acid": func(c *spread.Case) { c.Plan.SlurryAcid = 30; c.Plan.GasAcid = 90; c.Plan.GasCopper = 40 },
		"crystals":    func(c *spread.Case) { c.Plan.DryWay = route.ToCrystals },
		"salt":        func(c *spread.Case) { c.Plan.GasSource = route.FromMetabisulfite },
	} {
		t.Run(name, func(t *testing.T) {
			c := demo()
			edit(&c)
			require.Empty(t, route.Check(&c.Plan))
			m := newModel(c, NewRecord())
			g := generator(41)
			for range long.Of(5, 40, 1000) {
				u := make([]float64, m.dim())
				for k := range u {
					u[k] = g.unit()
				}
				cause := Cause(g.below(Causes))
				o, ok := m.run(cause, u)
				if !ok || cause == OtherHydrate || o.spilt > 1-keptAtLeast { // assumed not to be
					continue
				}
				r := NewRecord()
				r.Product, r.Residue = o.found[product], o.found[residue]
				r.OxideOnCopper = cause == DarkCopper
				if route.MakesCopperSalt(&c.Plan) {
					r.Copper = o.found[crystals]
				}
				b := Start(c, r).Bounds
				had := o.made
				if !b.Made.OK() {
					had = m.brought()
				}
				for _, x := range [...]struct{ least, has, most float64 }{
					{b.Made.Value, o.made, b.MadeMost.Value},
					{b.Used.Value, o.used, quantity.Blank},
					{quantity.Blank, o.reached, b.UsedMost.Value},
					{b.Idle.Value, had - o.reached, quantity.Blank},
				} {
					if route.Gaseous(&c.Plan) && (x.least > x.has*(1+1e-9)+1e-9 || x.has > x.most*(1+1e-9)+1e-9) {
						t.Fatalf("%s: %+v", cause.Key(), x)
					}
				}
			}
		})
	}
}
