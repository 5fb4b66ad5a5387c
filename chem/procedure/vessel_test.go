package procedure_test

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
)

const randomPlans = 2000

// mayHold are the vessels of a plan by the bare rules, by the step that fills them.
func mayHold(p *route.Plan, s *route.Sheet) map[string]routetest.Holds {
	m := map[string]routetest.Holds{}
	for _, h := range routetest.Vessels(p, s) {
		m[h.Step] = h
	}
	return m
}

// TestNoStepPoursMoreThanItsVesselHolds without saying so, and none warns of a vessel that
// holds all. The equal batches that it speaks of fit, and so does the size.
func TestNoStepPoursMoreThanItsVesselHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 1))
	told, cut, larger := 0, 0, 0
	for i := range randomPlans {
		p := routetest.Plan(r)
		s := *new(route.Runner).Run(&p)
		holds := mayHold(&p, &s)
		for _, st := range procedure.Steps(&p, &s, nil) {
			h, sized := holds[st.Key]
			require.Equal(t, sized && h.TooMuch(), st.Full != "", "plan %d, %s: %v; says %q", i, st.ID, h, st.Full)
			if st.Full == "" {
				require.Zero(t, st.Equal)
				continue
			}
			told++
			require.Contains(t, st.Full, route.Print(h.Brings, "mL"), st.ID)
			if st.Equal > 0 {
				cut++
				require.Len(t, st.OfOne, len(st.Take))
				for k, a := range st.Take {
					require.InEpsilon(t, a.Value*route.BatchCount(&p), st.OfOne[k].Value*float64(st.Equal), 1e-12, a.Name)
				}
				q := p
				q.BatchRuns = float64(st.Equal)
				again := mayHold(&q, new(route.Runner).Run(&q))[st.Key]
				require.False(t, again.TooMuch(), "plan %d, %s: %d batches still do not fit", i, st.ID, st.Equal)
			}
			for _, v := range route.Vessels(&p, &s) {
				if v.Step != st.Key || v.Takes == 0 {
					continue
				}
				larger++
				q := p
				in, _ := route.InputByKey(v.Key)
				require.NoError(t, in.Set(&q, float64(v.Takes)))
				again := mayHold(&q, new(route.Runner).Run(&q))[st.Key]
				require.False(t, again.TooMuch(), "plan %d, %s: %v mL are not enough either", i, st.ID, v.Takes)
			}
		}
	}
	assert.Greater(t, told, 1000, "the plans try it")
	assert.Greater(t, cut, 500)
	assert.Greater(t, larger, 500)
}

// perBatch are the figures that speak of one batch; all others are those of all together.
var perBatch = map[route.FigureID]bool{route.GasFlaskLeast: true, route.GasHeadspace: true, route.CopperVessel: true, route.SuckBack: true}

// TestBatchesAddUp: in so many batches the figures stay what they are, the steps of each
// take its part, and what is done once takes all.
func TestBatchesAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 2))
	for i := range randomPlans {
		p := routetest.Plan(r)
		p.BatchRuns = quantity.Blank
		s := *new(route.Runner).Run(&p)
		q := p
		q.BatchRuns = float64(2 + r.IntN(4))
		cut := *new(route.Runner).Run(&q)
		for id := range route.FigureID(len(route.Figures())) {
			if perBatch[id] {
				continue
			}
			require.Equal(t, s.Reason(id), cut.Reason(id), id.Info().Key)
			if s.Reason(id) == route.Defined {
				require.Equal(t, s.Value(id), cut.Value(id), "plan %d: %s", i, id.Info().Key)
			}
		}
		whole, parts, count := map[string]float64{}, map[string]float64{}, map[string]int{}
		for _, st := range procedure.Steps(&p, &s, nil) {
			require.Equal(t, st.Key, st.ID)
			require.Equal(t, st.Name, st.Title)
			for _, a := range st.Take {
				whole[st.Key+" "+a.Name] = a.Value
			}
		}
		ids := map[string]bool{}
		for _, st := range procedure.Steps(&q, &cut, nil) {
			require.False(t, ids[st.ID], st.ID)
			ids[st.ID] = true
			if st.Batch > 0 {
				count[st.Key]++
				require.Contains(t, st.Title, ", batch "+strconv.Itoa(st.Batch)+" of "+strconv.Itoa(int(q.BatchRuns)))
			}
			require.True(t, st.Needs == "" || ids[st.Needs], "%s waits for %s, which comes before it", st.ID, st.Needs)
			for _, a := range st.Take {
				parts[st.Key+" "+a.Name] += a.Value
			}
		}
		for what, v := range whole {
			require.InEpsilon(t, v, parts[what], 1e-9, "plan %d in %v: %s", i, q.BatchRuns, what)
		}
		for key, n := range count {
			require.Equal(t, int(q.BatchRuns), n, key)
		}
	}
}

// TestBatchesFollowEachOther: a flask is cold and empty before it is charged again, and
// the gas of all batches together takes the plan's minutes.
func TestBatchesFollowEachOther(t *testing.T) {
	p := route.NewPlan()
	p.BatchRuns = 2
	list := steps(&p, nil)
	place := map[string]int{}
	for i, st := range list {
		place[st.ID] = i
	}
	assert.Less(t, place["dissolve"], place["charge.2"])
	assert.Equal(t, "cool.2", list[place["dissolve.2"]].Needs)
	assert.Equal(t, "blue.2", list[place["drain"]].Needs)
	assert.Contains(t, list[place["line.2"]].Stop, "cold, emptied, rinsed and dry")
	assert.Equal(t, quantity.Minute(45+20), list[place["gas"]].Minutes)
	slots, err := procedure.Schedule(list, monday, procedure.NewDays().Session)
	require.NoError(t, err)
	start := map[string]procedure.Slot{}
	for _, s := range slots {
		start[list[s.Step].ID] = s
	}
	assert.False(t, start["charge.2"].Start.Before(start["cool"].End), "the next batch waits for the cold flask")

	// A time that the user gives a step is that of each batch.
	list = steps(&p, procedure.Durations{"gas": 33})
	for _, st := range list {
		if st.Key == "gas" {
			assert.Equal(t, quantity.Minute(33), st.Minutes)
		}
	}
}

// TestOneFlaskTakesABatchADay: before hot acid goes into it again it has cooled, and there is time
// to empty, rinse and dry it.
func TestOneFlaskTakesABatchADay(t *testing.T) {
	p := route.NewPlan()
	p.BatchRuns = 3
	list := steps(&p, nil)
	slots, err := procedure.Schedule(list, monday, procedure.Session{From: 0, Long: 24 * time.Hour})
	require.NoError(t, err)
	cold := time.Time{}
	for _, s := range slots {
		st := &list[s.Step]
		switch {
		case st.Key == "cool":
			cold = s.End
		case st.Key == "line" && st.Batch == 1:
			assert.Equal(t, quantity.Minute(30), st.Minutes)
		case st.Key == "line":
			assert.Equal(t, quantity.Minute(60), st.Minutes)
			assert.Contains(t, strings.Join(st.Do, " "), "First rinse the emptied flask of the last batch")
			assert.False(t, s.Start.Before(cold), "%s begins at %s, and the flask is cold at %s", st.ID, s.Start, cold)
		}
	}
}
