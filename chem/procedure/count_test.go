package procedure_test

import (
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
	p := route.NewPlan()
	p.GasSource, p.DryWay, p.WashTimes = route.FromMetabisulfite, route.ToCrystals, 0
	for _, s := range steps(&p, nil) {
		for _, c := range procedure.Counts(&p, &s) {
			assert.NotEmpty(t, c.Name, s.Key)
			assert.True(t, c.Minutes >= 1 && c.Minutes <= procedure.Longest, s.Key)
		}
	}
}
