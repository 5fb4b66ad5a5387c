package account

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// TestOneRunStandsForAll: what the text says of the manganese and what the book of the run
// as it most likely was holds is one thing, and its jar holds what the balance said.
func TestOneRunStandsForAll(t *testing.T) {
	acid, wet := demo(), demo()
	acid.Plan.SlurryAcid = 108
	first, record := firstRun(t)
	wet.Plan.DryWay = route.ToCrystals
	for name, c := range map[string]struct {
		spread.Case
		product, copper, residue float64
	}{
		"gas lost":   {acid, 26, 44, 14},
		"spilt":      {acid, 18, 48, 7},
		"a good run": {acid, 41, 47, 7.5},
		"wet":        {acid, 61, 49, 7},
		"first run":  {first, record.Product, record.Copper, quantity.Blank},
		"crystals":   {wet, 22, 47, 7.5},
		"much gas":   {demo(), 12, 60, quantity.Blank},
		"acid noted": {acid, 12, 60, quantity.Blank},
	} {
		t.Run(name, func(t *testing.T) {
			r := NewRecord()
			r.Product, r.Copper, r.Residue = c.product, c.copper, c.residue
			p := quickly(c.Case, r)
			require.True(t, p.OK(), p.Why())
			book := p.LikeliestRun().Book()
			require.NoError(t, book.Err())
			jar := book.Element(ledger.ProductJar, reaction.Mn).Millimoles()
			assert.Contains(t, p.Verdict().Missing, route.Print(jar, "mmol")+" reached the jar")
			left := func(x reaction.Substance) float64 { return book.Amount(ledger.Residue, x).Millimoles() }
			intact := left(reaction.ManganeseDioxide) + left(reaction.Manganite) + 2*left(reaction.Hetaerolite) + 3*left(reaction.Hausmannite)
			assert.Contains(t, p.Verdict().Missing, route.Print(intact, "mmol")+" was never dissolved")
			for key, n := range map[string]float64{KeyIntact: intact, KeyCake: book.Element(ledger.Residue, reaction.Mn).Millimoles(), KeyLost: book.Element(ledger.Losses, reaction.Mn).Millimoles()} {
				shown, ok := p.Shown(key)
				require.True(t, ok, key)
				assert.InDelta(t, n, shown.Median, 1e-6*n+1e-9, "the list and the book: %s", key)
				if within, _ := p.Account(key); !testing.Short() { // few points have rough ends
					assert.LessOrEqual(t, within.Low, n+1e-9, key)
					assert.GreaterOrEqual(t, within.High, n-1e-9, key)
				}
			}
			at, _ := p.likeliest()
			assert.InDelta(t, p.column(p.foundAt(product))[at], c.product, r.Half(KeyProduct), "the jar that is shown is the jar that was weighed")
			o, _ := p.m.run(Cause(p.s.label[at]), p.s.point(at))
			assert.InDelta(t, o.manganese, jar, 1e-6*jar)
		})
	}
}

// TestLeftInTheLiquorIsNotLost: salt in a liquor that was poured off stands there in the book, and
// the list does not count it as lost.
func TestLeftInTheLiquorIsNotLost(t *testing.T) {
	c, r := plain()
	p := Start(c, r).Finish()
	p.shares = [Causes]float64{LiquorLeft: 1}
	book := p.LikeliestRun().Book()
	require.Greater(t, book.Element(ledger.MotherLiquor, reaction.Mn).Millimoles(), 5.0)
	shown, ok := p.Shown(KeyLost)
	require.True(t, ok)
	assert.InDelta(t, book.Element(ledger.Losses, reaction.Mn).Millimoles(), shown.Median, 1e-6)
}

// TestWideWhereItFitsBadly: two weighings that cannot go together are named, and what the
// account says of both is wide enough to hold them.
func TestWideWhereItFitsBadly(t *testing.T) {
	c := weighed(t) // what the mix holds is known
	c.Plan.SlurryAcid, c.Plan.GasAcid, c.Plan.GasCopper = 108, 50, 20
	r := NewRecord()
	r.Product, r.Copper, r.Residue = 40, 48, 25
	p := quickly(c, r)
	require.True(t, p.OK(), p.Why())
	v := p.Verdict()
	require.True(t, v.Misfit, v.Sentence)
	assert.Contains(t, v.Sentence, "does not go with")
	assert.Contains(t, v.Sentence, "“Black residue, dried and weighed”")
	assert.Contains(t, v.Sentence, "“Manganese sulfate, weighed”")
	for _, key := range []string{KeyProduct, KeyCopper, KeyResidue} {
		fitted, _ := p.Fitted(key)
		assert.Less(t, fitted.Low-r.Half(key), r.Value(key), key)
		assert.Greater(t, fitted.High+r.Half(key), r.Value(key), "%s %v", key, fitted)
	}
	// What fits is as narrow as its error.
	r.Residue = 7.5
	q := quickly(c, r)
	require.Empty(t, q.Misses())
	assert.Equal(t, 1.0, q.wide)
	narrow, _ := q.Fitted(KeyProduct)
	wide, _ := p.Fitted(KeyProduct)
	assert.Greater(t, wide.High-wide.Low, 1.2*(narrow.High-narrow.Low))
}

// TestSharesAddUpAsPrinted: tenths add up to ten.
func TestSharesAddUpAsPrinted(t *testing.T) {
	g := generator(77)
	for range 200 {
		shares, sum := make([]float64, 1+g.below(9)), 0.0
		for i := range shares {
			shares[i] = math.Pow(g.unit(), 3)
			sum += shares[i]
		}
		for i := range shares {
			shares[i] /= sum
		}
		tenths := 0
		for i, n := range apportion(shares) {
			tenths += n
			assert.InDelta(t, 10*shares[i], n, 1)
		}
		assert.Equal(t, 10, tenths)
	}
}
