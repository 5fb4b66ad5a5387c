package procedure_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

func TestCountsBeginWithTheStepsMinutes(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	counts := func(key string) []procedure.Count {
		s := find(t, list, key)
		return procedure.Counts(&p, &s)
	}
	assert.Equal(t, []procedure.Count{{"Soak the black mix", 60}}, counts("soak"))
	assert.Equal(t, []procedure.Count{{"Wash: stir", 10}, {"Wash: settle", 30}}, counts("wash"), "of one wash, not of all")
	assert.Equal(t, []procedure.Count{{"Make the gas", p.GasMinutes}}, counts("gas"), "without the heating up")
	assert.Equal(t, quantity.Minute(15), counts("end")[0].Minutes, "as the test asks")
	assert.Equal(t, find(t, list, "evaporate").Minutes, counts("evaporate")[0].Minutes)
	assert.Empty(t, counts("charge"))
	for _, key := range []string{"cool", "filter", "blue", "dry", "drain"} {
		assert.NotEmpty(t, counts(key), key)
	}
}

func TestCountsFollowTheTimeThatWasSet(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, procedure.Times{"wash": quantity.Minute(90 * p.WashTimes), "gas": 40, "soak": 0.2})
	s := find(t, list, "wash")
	assert.Equal(t, []procedure.Count{{"Wash: stir", 20}, {"Wash: settle", 60}}, procedure.Counts(&p, &s))
	s = find(t, list, "gas")
	assert.Equal(t, quantity.Minute(40), procedure.Counts(&p, &s)[0].Minutes)
}

func TestCountsAreSomethingToWaitFor(t *testing.T) {
	for _, source := range options("gas.source") {
		for _, way := range options("dry.way") {
			p := planOf(t, "gas.source", source, "dry.way", way)
			p.WashTimes = 0
			counted := 0
			for _, s := range steps(&p, nil) {
				for _, c := range procedure.Counts(&p, &s) {
					assert.NotEmpty(t, c.Name, s.Key)
					assert.True(t, c.Minutes >= 1 && c.Minutes <= procedure.Longest, s.Key)
					assert.NotEqual(t, "wash", s.Key, "there is none")
					counted++
				}
			}
			assert.GreaterOrEqual(t, counted, 3, "%s, %s: soak, filter and dish at the least", source, way)
		}
	}
}

func TestNoStopperIsTimedWhereNoneMayBe(t *testing.T) {
	for _, source := range options("gas.source") {
		p := planOf(t, "gas.source", source)
		end := find(t, steps(&p, nil), "end")
		open := strings.Contains(end.Stop, "Do not stopper")
		assert.Equal(t, source == "peroxide" || source == "oxalic", open, source)
		assert.Equal(t, open, len(procedure.Counts(&p, &end)) == 0, source)
	}
}
