package procedure_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

func steps(p *route.Plan, times procedure.Times) []procedure.Step {
	var b route.Bench
	return procedure.Steps(p, b.Run(p), times)
}

func find(t *testing.T, list []procedure.Step, key string) procedure.Step {
	t.Helper()
	for _, s := range list {
		if s.Key == key {
			return s
		}
	}
	require.Fail(t, "no step "+key)
	return procedure.Step{}
}

func TestStepsCarryThePlansAmounts(t *testing.T) {
	p := route.NewPlan()
	var b route.Bench
	sheet := *b.Run(&p)
	list := procedure.Steps(&p, &sheet, nil)
	charge := find(t, list, "charge")
	require.Len(t, charge.Take, 2)
	assert.Equal(t, sheet.Value(route.GasCopperUsed), charge.Take[0].Value)
	assert.Equal(t, "g", charge.Take[0].Unit)
	assert.Equal(t, sheet.Value(route.GasAcidUsed), charge.Take[1].Value)
	assert.Equal(t, quantity.Minute(90+20), find(t, list, "gas").Minutes, "the plan's minutes, and the heating up")
	assert.InDelta(t, sheet.Value(route.DryHours)*60, float64(find(t, list, "evaporate").Minutes), 1)
}

func TestDangerousStepsHaveTheirStop(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	for key, word := range map[string]string{
		"ready": "asthma", "open": "R with no letter", "dilute": "never water into acid", "charge": "two hours",
		"gas": "before you take the flame away", "dissolve": "never water into it", "waste": "down the drain", "divide": "chlorine",
	} {
		assert.Contains(t, find(t, list, key).Stop, word, key)
	}
	assert.Equal(t, procedure.NeverLeave, find(t, list, "gas").Watch)
	assert.Contains(t, find(t, list, "gas").Misled, "Carbon stays black")
}

func TestStepsFollowTheWay(t *testing.T) {
	p := route.NewPlan()
	p.GasSource, p.DryWay = route.FromMetabisulfite, route.ToCrystals
	list := steps(&p, nil)
	for _, s := range list {
		assert.NotContains(t, []string{"cool", "dissolve", "blue", "drain", "dry"}, s.Key)
		assert.NotContains(t, strings.Join(s.Do, " ")+s.Stop, "flame", s.Key)
	}
	find(t, list, "grow")
	p.Rows[0].Rejects = p.Rows[0].Count
	assert.Empty(t, steps(&p, nil), "nothing is opened")
}

func TestTimesCanBeSet(t *testing.T) {
	p := route.NewPlan()
	s := find(t, steps(&p, procedure.Times{"soak": 7}), "soak")
	assert.Equal(t, quantity.Minute(7), s.Minutes)
	assert.True(t, s.Asked)
}

func TestKeysAreUnique(t *testing.T) {
	p := route.NewPlan()
	p.WashAcid = 50
	seen := map[string]bool{}
	for _, s := range steps(&p, nil) {
		assert.False(t, seen[s.Key], s.Key)
		seen[s.Key] = true
		assert.NotEmpty(t, s.Title)
	}
}

var monday = time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)

func TestDemoTakesTwoDaysAndAMorning(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	slots, err := procedure.Schedule(list, monday, procedure.Session{From: 9 * time.Hour, Long: 9 * time.Hour})
	require.NoError(t, err)
	at := map[string]procedure.Slot{}
	for _, s := range slots {
		at[list[s.Step].Key] = s
	}
	assert.Equal(t, 0, at["ready"].Day)
	assert.True(t, at["ready"].End.Before(monday))
	assert.Equal(t, monday, at["open"].Start)
	assert.True(t, at["cool"].Over, "the flask cools overnight")
	assert.False(t, at["dissolve"].Start.Before(at["cool"].End), "and is cold before it is opened")
	assert.False(t, at["drain"].Start.Before(at["blue"].End))
	assert.Equal(t, 3, at["waste"].Day, "two days, and the crystals on the third morning")
}

func TestClubCutsTheWorkIntoSessions(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	_, err := procedure.Schedule(list, monday, procedure.Session{From: 14 * time.Hour, Long: 90 * time.Minute})
	var long procedure.TooLong
	require.ErrorAs(t, err, &long)
	assert.Equal(t, "gas", list[long.Step].Key, "the flame wants two hours")
	assert.Contains(t, err.Error(), "2 h 00")
	slots, err := procedure.Schedule(list, monday, procedure.Session{From: 14 * time.Hour, Long: 150 * time.Minute})
	require.NoError(t, err)
	assert.Greater(t, slots[len(slots)-1].Day, 3)
}

func TestScheduleKeepsItsPromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := route.NewPlan()
		p.Rows[0].Count = float64(rapid.IntRange(1, 60).Draw(t, "cells"))
		p.WashTimes = float64(rapid.IntRange(0, 9).Draw(t, "washes"))
		p.GasSource = route.Choice(rapid.IntRange(0, 1).Draw(t, "source"))
		list := steps(&p, nil)
		session := procedure.Session{
			From: time.Duration(rapid.IntRange(0, 20*60).Draw(t, "from")) * time.Minute,
			Long: time.Duration(rapid.IntRange(150, 14*60).Draw(t, "long")) * time.Minute,
		}
		start := monday.Add(time.Duration(rapid.IntRange(0, 24*60).Draw(t, "start")) * time.Minute)
		slots, err := procedure.Schedule(list, start, session)
		if err != nil {
			return
		}
		inside := func(s procedure.Slot) bool {
			for d := -1; d < 400; d++ {
				from := time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC).AddDate(0, 0, d).Add(session.From)
				if !s.Start.Before(from) && !s.End.After(from.Add(session.Long)) {
					return true
				}
			}
			return false
		}
		done, before := map[int]time.Duration{}, time.Time{}
		for _, s := range slots {
			st := list[s.Step]
			done[s.Step] += s.End.Sub(s.Start)
			if st.Eve {
				continue
			}
			require.False(t, s.Start.Before(start), st.Key)
			require.False(t, s.Start.Before(before), "%s begins before what comes before it", st.Key)
			before = s.Start
			if st.Watch != procedure.Overnight {
				require.True(t, inside(s), "%s from %v to %v", st.Key, s.Start, s.End)
			}
		}
		for i, st := range list {
			require.InDelta(t, float64(st.Minutes), done[i].Minutes(), 1e-6, "%s is done in full", st.Key)
		}
	})
}

func TestFinishByIsTheLatestStart(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	session := procedure.Session{From: 9 * time.Hour, Long: 9 * time.Hour}
	finish := time.Date(2026, 3, 8, 18, 0, 0, 0, time.UTC)
	start, slots, err := procedure.FinishBy(list, finish, session)
	require.NoError(t, err)
	assert.False(t, slots[len(slots)-1].End.After(finish))
	later, err := procedure.Schedule(list, start.AddDate(0, 0, 1), session)
	require.NoError(t, err)
	assert.True(t, later[len(later)-1].End.After(finish), "a day later is too late")
	_, _, err = procedure.FinishBy(list, finish, procedure.Session{From: 9 * time.Hour, Long: time.Hour})
	assert.Error(t, err)
}
