package procedure_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

func TestCountsBeginWithTheStepsMinutes(t *testing.T) {
	for _, source := range options("gas.source") {
		p := planOf(t, "gas.source", source)
		list := steps(&p, nil)
		counts := func(key string) []procedure.Countdown {
			s := find(t, list, key)
			return procedure.Countdowns(&p, &s)
		}
		assert.Equal(t, []procedure.Countdown{{"Soak the black mix", 60}}, counts("soak"), source)
		assert.Equal(t, []procedure.Countdown{{"Wash: stir", 10}, {"Wash: settle", 30}}, counts("wash"), "of one wash, not of all")
		assert.Equal(t, find(t, list, "evaporate").Minutes, counts("evaporate")[0].Minutes, source)
		some, none := []string{"filter", "dry"}, []string{"slurry", "divide"}
		if route.Gaseous(&p) {
			enough := quantity.Minute(math.Floor(new(route.Runner).Run(&p).Value(route.MetMinute)))
			assert.Less(t, enough, p.GasMinutes, source)
			assert.Equal(t, []procedure.Countdown{{"Make the gas", p.GasMinutes}, {"Gas, until it is enough by the plan", enough}}, counts("gas"), "without the heating up")
			none = append(none, "charge")
		}
		if route.Sulfurous(&p) {
			assert.Equal(t, quantity.Minute(15), counts("end")[0].Minutes, "as the test asks")
		}
		if p.GasSource == route.FromCopper {
			some = append(some, "cool", "blue", "drain")
		}
		for _, key := range some {
			assert.NotEmpty(t, counts(key), "%s: %s", source, key)
		}
		for _, key := range none {
			assert.Empty(t, counts(key), "%s: %s", source, key)
		}
	}
}

func TestCountsFollowTheTimeThatWasSet(t *testing.T) {
	for _, source := range options("gas.source") {
		p := planOf(t, "gas.source", source)
		p.WashTimes = 4
		list := steps(&p, procedure.Durations{"wash": quantity.Minute(90 * p.WashTimes), "gas": 40, "soak": 0.2, "filter": 200, "end": 90})
		counts := func(key string) []procedure.Countdown {
			s := find(t, list, key)
			return procedure.Countdowns(&p, &s)
		}
		assert.Equal(t, []procedure.Countdown{{"Wash: stir", 20}, {"Wash: settle", 60}}, counts("wash"), source)
		assert.Empty(t, counts("soak"), "%s: less than a minute", source)
		assert.Equal(t, []procedure.Countdown{{"Filter and rinse", 200}, {"One rinse", 15}}, counts("filter"), "a rinse stays as long")
		if route.Gaseous(&p) {
			assert.Equal(t, []procedure.Countdown{{"Make the gas", 40}}, counts("gas"), "%s: all of it is less than the plan asks for", source)
		}
		if route.Sulfurous(&p) {
			assert.Equal(t, quantity.Minute(15), counts("end")[0].Minutes, "the stopper stays as long")
		}
	}
}

func TestCountsAreSomethingToWaitFor(t *testing.T) {
	for _, source := range options("gas.source") {
		for _, way := range options("dry.way") {
			p := planOf(t, "gas.source", source, "dry.way", way)
			p.WashTimes = 0
			counted := 0
			for _, s := range steps(&p, nil) {
				for _, c := range procedure.Countdowns(&p, &s) {
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
		counts := procedure.Countdowns(&p, &end)
		require.Len(t, counts, 1, source)
		assert.Equal(t, !open, strings.Contains(counts[0].Name, "stopper"), source)
		assert.Equal(t, route.PinchApart, counts[0].Minutes, source)
	}
}
