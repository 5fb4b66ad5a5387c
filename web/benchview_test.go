package web

import (
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

func TestBenchBeginsWhereTheWorkIs(t *testing.T) {
	list := stepsOf(desk.New(""))
	key := func(at atBench, done route.Stage) string { return list[at.place(list, done)].Key }
	assert.Equal(t, "ready", key(atBench{}, 0), "the evening before")
	assert.Equal(t, "soak", key(atBench{}, route.Wash), "a run has opened its cells")
	assert.Equal(t, "waste", key(atBench{}, route.Stages), "all is done")
	assert.Equal(t, "gas", key(atBench{step: "gas"}, route.Wash), "where one was")
	assert.Equal(t, "ready", key(atBench{step: "grow"}, 0), "a step that this plan does not have")
}

func TestBenchShowsAllOfEveryStep(t *testing.T) {
	for _, fragment := range []string{"", "gas.source=metabisulfite&dry.way=crystals&wash.acid=50", "slurry.vessel=open"} {
		d := desk.New(fragment)
		for i, st := range stepsOf(d) {
			v := benchStepOf(d, &atBench{step: st.Key})
			assert.Equal(t, i+1, v.Place)
			assert.Len(t, v.Take, len(st.Take), st.Key)
			assert.Len(t, v.Measure, len(st.Measure), st.Key)
			assert.Equal(t, st.Watch == procedure.NeverLeave, v.Never)
			assert.NotContains(t, html(t, &benchView{View: v}), "NaN", st.Key)
		}
	}
	assert.Zero(t, benchStepOf(desk.New("cell.rejects=6"), &atBench{}).Of)
}

func TestTimerLengthsGoUpAndDownTheSameWay(t *testing.T) {
	for _, from := range []float64{1, 10, 20, 30, 60, 90, 480} {
		b := &benchView{View: benchStep{Key: "soak"}}
		c := procedure.Count{Name: "Soak", Minutes: quantity.Minute(from)}
		b.onLength(c, 1)(nil, app.Event{})
		up := b.length(c)
		require.Greater(t, float64(up), from)
		c.Minutes = up
		b.onLength(c, -1)(nil, app.Event{})
		assert.Equal(t, from, float64(b.length(c)), "from %v to %v and back", from, up)
	}
}
