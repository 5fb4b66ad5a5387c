package route_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/chem/club"
	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/chem/safety"
	"rosesalt/chem/spread"
	"rosesalt/chem/working"
)

// TestNothingFallsOverInASixthWay: steps, cautions, words, intervals and workings ask what
// a way is capable of, so that one which none of them knows has them too.
func TestNothingFallsOverInASixthWay(t *testing.T) {
	word := route.AddSixth(t)
	source, _ := route.InputByKey("gas.source")
	place := len(source.Options) - 1
	require.Equal(t, word, source.Options[place].Word)
	random := rand.New(rand.NewPCG(6, 1))
	for range 40 {
		p := routetest.Way(random, place)
		require.EqualValues(t, place, p.GasSource)
		if p.Rows[0].Rejects >= p.Rows[0].Count {
			continue
		}
		var b route.Runner
		b.Keep = true
		s := b.Run(&p)
		assert.False(t, route.Gaseous(&p))
		assert.False(t, route.MakesCopperSalt(&p))
		assert.EqualValues(t, p.SaltKept, route.Uptake(&p, new(route.Runner).Run(&p)))

		reductant := route.ReductantOf(&p)
		assert.Equal(t, "sulfur dioxide in water, "+route.Print(float64(p.PeroxideStrength), "%"), reductant.Name)
		need := reductant.Need(&p, s)
		assert.Positive(t, need.Amount)
		assert.Contains(t, route.Reagents(&p, s), route.Reagent{Need: need, ID: route.ReductantReagent, Buy: need.Amount})
		assert.True(t, slices.ContainsFunc(route.Notices(&p, s), func(n route.Notice) bool { return n.Key == "stir.straight" }))
		assert.NotEmpty(t, route.Gear(&p))
		ways := route.Ways(&p, func(p *route.Plan) route.Plan { return *p })
		assert.Equal(t, word, ways[place].Word)
		assert.Empty(t, ways[place].Problem)

		steps := procedure.Steps(&p, s, nil)
		for _, key := range []string{"slurry", "end", "filter"} { // its own step would stand in a text
			assert.True(t, slices.ContainsFunc(steps, func(st procedure.Step) bool { return st.Key == key && len(st.Do) > 0 }), key)
		}
		assert.NotEmpty(t, safety.Cautions(route.Slurry, &p))
		assert.NotEmpty(t, safety.Mishaps(&p, s))
		assert.NotEmpty(t, safety.Bottles(&p, b.Book(), s))
		assert.NotEmpty(t, safety.Labels(&p, s, b.Book()))
		assert.NotEmpty(t, safety.Buying(&p, s))
		assert.NotEmpty(t, club.Risks(&p))
		assert.NotEmpty(t, club.Tasks(&p, b.Book(), steps))

		c := spread.Case{Plan: p}
		_, _, ok := spread.Start(c, 32).Finish().Band(route.ReduceConversion)
		assert.True(t, ok)
		w := working.New(&c)
		for id := range route.FigureID(len(route.Figures())) {
			w.Of(id)
		}
		record := account.NewRecord()
		require.NoError(t, record.Set(account.KeyProduct, max(1, s.Value(route.ProductMass))))
		account.Start(c, record)
	}
}
