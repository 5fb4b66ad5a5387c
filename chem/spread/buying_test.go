package spread

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/scripts/long"
)

// TestWhatIsBoughtIsEnoughNineTimesInTen: over random plans of every way, in draws of chance
// that the buying has not seen, and that a little less is not.
func TestWhatIsBoughtIsEnoughNineTimesInTen(t *testing.T) {
	plans, fresh := long.Of(6, 60, 600), 2000
	random := rand.New(rand.NewPCG(9, 10))
	bought := StartBuying(Case{Plan: route.NewPlan()})
	sum, of := map[route.ReagentID]float64{}, map[route.ReagentID]float64{}
	for k := range plans {
		p := anyPlan(t, random)
		p.GasSource = route.Choice(k % int(route.ByOxalic+1))
		if len(route.Check(&p)) > 0 {
			continue
		}
		bought.Restart(Case{Plan: p})
		require.True(t, bought.Step(math.MaxInt))
		if bought.run.kept < BuyingDraws/2 {
			continue // too few draws agree with an assay
		}
		more := bought.More()
		list := more.Enough(route.Reagents(&bought.run.c.Plan, &bought.run.best))

		enough, nearly, draws := map[route.ReagentID]float64{}, map[route.ReagentID]float64{}, 0.0
		for range fresh {
			q := bought.run.base
			for k := range bought.run.uncertain {
				u := &bought.run.uncertain[k]
				set(u.Input, &q, u.At(random.Float64()))
			}
			route.Settle(&q)
			var b route.Runner
			s := b.Run(&q)
			if contradicts(&q, s) {
				continue
			}
			draws++
			takes := route.Takes(&q, s)
			for _, r := range list {
				if takes[r.ID] <= r.Buy*(1+1e-9) {
					enough[r.ID]++
				}
				if takes[r.ID] <= r.Amount*more[r.ID]*(1-1e-6) {
					nearly[r.ID]++
				}
			}
		}
		for _, r := range list {
			assert.GreaterOrEqual(t, r.Buy, r.Amount, r.Name)
			assert.GreaterOrEqual(t, enough[r.ID]/draws, 0.87, "%s: %v of %v", r.Name, r.Buy, r.Amount)
			if r.Buy == r.Amount {
				continue
			}
			assert.LessOrEqual(t, nearly[r.ID]/draws, 0.93, "%s: %v of %v", r.Name, r.Buy, r.Amount)
			assert.LessOrEqual(t, r.Buy, 1.1*r.Amount*more[r.ID], r.Name)
			sum[r.ID] += enough[r.ID] / draws
			of[r.ID]++
		}
	}
	for id, n := range of {
		assert.GreaterOrEqual(t, sum[id]/n, 0.9, "reagent %d over %v plans", id, n)
	}
	assert.GreaterOrEqual(t, len(of), 6, "the reagents that have a spread")
}

// TestChargesThatWereGivenAreBoughtAsGiven: nothing about them is uncertain.
func TestChargesThatWereGivenAreBoughtAsGiven(t *testing.T) {
	p := route.NewPlan()
	for key, v := range map[string]float64{"gas.acid": 51.3, "gas.copper": 31.7, "slurry.acid": 60, "wash.acid": 0} {
		in, _ := route.InputByKey(key)
		require.NoError(t, in.Set(&p, v))
	}
	b := StartBuying(Case{Plan: p})
	b.Step(math.MaxInt)
	more := b.More()
	for _, r := range more.Enough(route.Reagents(&p, b.run.Best())) {
		switch r.ID {
		case route.StrongAcidReagent, route.ReductantReagent:
			assert.Equal(t, r.Amount, r.Buy, r.Name)
		case route.SodaReagent:
			assert.Greater(t, r.Buy, r.Amount, r.Name)
		}
	}
	given := map[string]Interval{"gas.acid": {40, 60}}
	b.Restart(Case{Plan: p, Given: given})
	b.Step(math.MaxInt)
	assert.Greater(t, b.More()[route.StrongAcidReagent], 1.05, "but for a charge that is not known")
}

// TestEachIsEnoughNotAll: of each reagent by itself what is bought is enough in nine draws of
// ten, of all at once in fewer, so that nothing may promise that.
func TestEachIsEnoughNotAll(t *testing.T) {
	b := StartBuying(Case{Plan: route.NewPlan()})
	require.True(t, b.Step(math.MaxInt))
	list := b.more.Enough(route.Reagents(&b.run.c.Plan, &b.run.best))
	each, all := make([]float64, len(list)), 0.0
	for point := range b.run.draws {
		takes := route.Takes(&b.run.plan, b.run.drawn(point))
		enough := 0
		for i, r := range list {
			if takes[r.ID] <= r.Buy*(1+1e-9) {
				each[i] += 1 / float64(b.run.draws)
				enough++
			}
		}
		if enough == len(list) {
			all += 1 / float64(b.run.draws)
		}
	}
	for i, r := range list {
		assert.GreaterOrEqual(t, each[i], 0.899, r.Name)
	}
	assert.InDelta(t, 0.7, all, 0.05, "see Buying")
}
