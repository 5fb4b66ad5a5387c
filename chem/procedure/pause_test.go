package procedure_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

func TestEveryStepSaysHowItsWorkMayStand(t *testing.T) {
	for _, source := range options("gas.source") {
		for _, way := range options("dry.way") {
			p := planOf(t, "gas.source", source, "dry.way", way)
			p.WashAcid = 50
			for _, s := range steps(&p, nil) {
				assert.NotEmpty(t, s.Pause.How, s.Key)
				assert.Equal(t, s.Onward, s.Pause.Stand == procedure.NotAtAll, "%s: what follows at once cannot wait", s.Key)
			}
		}
	}
	p := route.NewPlan()
	list := steps(&p, nil)
	for key, want := range map[string]procedure.Stand{
		"wash": procedure.AWeek, "slurry": procedure.ToTheNextDay, "gas": procedure.NotAtAll, "end": procedure.ToTheNextDay,
		"filter": procedure.AWeek, "evaporate": procedure.AWeek, "blue": procedure.AWeek,
	} {
		assert.Equal(t, want, find(t, list, key).Pause.Stand, key)
	}
	assert.Contains(t, find(t, list, "evaporate").Pause.How, "Nothing stays in the dish")
	assert.Contains(t, find(t, list, "wash").Pause.How, "damp")
}

// weekly is a club of an evening a week.
func weekly(long time.Duration) procedure.Session {
	return procedure.Session{From: 9 * time.Hour, Long: long, Every: 7}
}

func TestWeeklyClubLetsNothingWaitThatCannot(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	_, err := procedure.Schedule(list, monday, weekly(3*time.Hour))
	var long procedure.TooLong
	require.ErrorAs(t, err, &long)
	assert.Equal(t, "slurry", list[long.Step].Key)
	filter := find(t, list, "filter").Minutes
	want := 30 + 30 + 10 + 110 + 35 + filter
	assert.Equal(t, want, long.Needs, "slurry, line, charge, gas, end and filter in one go")
	assert.Contains(t, err.Error(), "cannot stand for 7 days")
	_, err = procedure.Schedule(list, monday, procedure.Session{From: 9 * time.Hour, Long: 3 * time.Hour})
	require.NoError(t, err, "on consecutive days the slurry may stand overnight")

	slots, err := procedure.Schedule(list, monday, weekly(time.Duration(want)*time.Minute))
	require.NoError(t, err)
	at := map[string]procedure.Slot{}
	for _, s := range slots {
		if !list[s.Step].Eve && list[s.Step].Watch != procedure.Overnight {
			assert.Zero(t, (s.Day-1)%7, list[s.Step].Key)
			assert.Equal(t, time.Monday, s.Start.Weekday(), list[s.Step].Key)
		}
		at[list[s.Step].Key] = s
	}
	assert.Equal(t, at["slurry"].Day, at["filter"].Day)
	assert.Greater(t, at["evaporate"].Day, at["filter"].Day)
}

func TestWeeklyClubThatBeginsLateInItsSession(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	session := procedure.Session{From: 22 * time.Hour, Long: 8 * time.Hour, Every: 7}
	slots, err := procedure.Schedule(list, monday.Add(-8*time.Hour), session) // Monday at one: the Sunday's session
	require.NoError(t, err)
	for _, s := range slots {
		if list[s.Step].Eve || list[s.Step].Watch == procedure.Overnight {
			continue
		}
		assert.Contains(t, []time.Weekday{time.Sunday, time.Monday}, s.Start.Weekday(), list[s.Step].Key)
	}
}

// What takes no time belongs to the session that ends just then, or that ran over, not to
// one a week off; work that takes a minute does not.
func TestWhatTakesNoTimeIsNotPutOffForAWeek(t *testing.T) {
	week := procedure.Pause{Stand: procedure.AWeek}
	at := func(before procedure.Step, minutes quantity.Minute) (first, next procedure.Slot) {
		list := []procedure.Step{before, {Key: "filter", Watch: procedure.Attended, Minutes: minutes, Pause: week}}
		slots, err := procedure.Schedule(list, monday, weekly(3*time.Hour))
		require.NoError(t, err)
		require.Len(t, slots, 2)
		return slots[0], slots[1]
	}
	for _, before := range []procedure.Step{
		{Key: "end", Watch: procedure.Attended, Minutes: 180, Pause: week},
		{Key: "evaporate", Watch: procedure.Attended, Parts: true, Minutes: 180, Pause: week},
		{Key: "evaporate", Watch: procedure.Attended, Parts: true, Minutes: 190, Pause: week},
	} {
		first, next := at(before, 0)
		assert.Equal(t, 1, next.Day, before.Minutes)
		assert.Equal(t, first.End, next.Start)
		_, next = at(before, 1)
		assert.Equal(t, 8, next.Day, before.Minutes)
	}
	// After what went on by itself nobody is there any more.
	_, next := at(procedure.Step{Key: "grow", Watch: procedure.Overnight, Minutes: 180, Pause: week}, 0)
	assert.Equal(t, 8, next.Day)
	// Nor need anybody stay for what takes no time.
	slots, err := procedure.Schedule([]procedure.Step{{Key: "end", Watch: procedure.Attended, Minutes: 180, Pause: week}, {Key: "cool", Watch: procedure.Overnight, Pause: week}}, monday, weekly(3*time.Hour))
	require.NoError(t, err)
	assert.False(t, slots[1].Over)
}

// TestLittleIsNotPutOffForAWeek: what is left of a step done in parts is a quarter of an
// hour at least, or the session runs over by it.
func TestLittleIsNotPutOffForAWeek(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		minutes := rapid.IntRange(1, 700).Draw(t, "minutes")
		long := rapid.IntRange(30, 300).Draw(t, "long")
		list := []procedure.Step{{Key: "evaporate", Parts: true, Watch: procedure.Attended, Minutes: quantity.Minute(minutes)}, {Key: "waste", Watch: procedure.Attended, Minutes: 20}}
		slots, err := procedure.Schedule(list, monday, weekly(time.Duration(long)*time.Minute))
		require.NoError(t, err)
		sum := time.Duration(0)
		for _, s := range slots[:len(slots)-1] {
			sum += s.End.Sub(s.Start)
			require.Less(t, s.Late, 15*time.Minute)
			require.LessOrEqual(t, s.End.Sub(s.Start)-s.Late, time.Duration(long)*time.Minute)
			if s.Part > 1 {
				require.GreaterOrEqual(t, s.End.Sub(s.Start), 15*time.Minute)
			}
		}
		require.Equal(t, time.Duration(minutes)*time.Minute, sum)
		require.False(t, slots[len(slots)-1].Start.Before(slots[len(slots)-2].End))
	})
	list := []procedure.Step{{Key: "evaporate", Parts: true, Watch: procedure.Attended, Minutes: 305}}
	slots, err := procedure.Schedule(list, monday, weekly(5*time.Hour))
	require.NoError(t, err)
	require.Len(t, slots, 1)
	assert.Equal(t, 5*time.Minute, slots[0].Late)
	slots, err = procedure.Schedule(list, monday, procedure.Session{From: 9 * time.Hour, Long: 5 * time.Hour})
	require.NoError(t, err)
	require.Len(t, slots, 2, "the next day five minutes are no trouble")
}

func TestFinishOfAWeeklyClub(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	session := weekly(6 * time.Hour)
	finish := time.Date(2026, 6, 3, 18, 0, 0, 0, time.UTC)
	start, slots, err := procedure.FinishBy(list, finish, session)
	require.NoError(t, err)
	assert.False(t, slots[len(slots)-1].End.After(finish))
	later, err := procedure.Schedule(list, start.AddDate(0, 0, 1), session)
	require.NoError(t, err)
	assert.True(t, later[len(later)-1].End.After(finish), "begun a day later it is over too late")
}

func TestSessionsApartKeepTheirPromise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := planOf(t, "gas.source", rapid.SampledFrom(options("gas.source")).Draw(t, "source"), "dry.way", rapid.SampledFrom(options("dry.way")).Draw(t, "way"))
		list := steps(&p, procedure.Durations{"filter": quantity.Minute(rapid.IntRange(0, 200).Draw(t, "filter"))})
		session := procedure.Session{
			From: time.Duration(rapid.IntRange(0, 23*60).Draw(t, "from")) * time.Minute,
			Long: time.Duration(rapid.IntRange(200, 24*60).Draw(t, "long")) * time.Minute, Every: rapid.IntRange(2, procedure.MostApart).Draw(t, "every"),
		}
		slots, err := procedure.Schedule(list, monday.Add(time.Duration(rapid.IntRange(-600, 600).Draw(t, "start"))*time.Minute), session)
		if err != nil {
			return
		}
		var last procedure.Slot
		for _, s := range slots {
			st := list[s.Step]
			if st.Eve || st.Watch == procedure.Overnight {
				continue
			}
			if !last.End.IsZero() && list[last.Step].Pause.Stand < procedure.AWeek {
				require.Less(t, s.Start.Sub(last.End), 24*time.Hour, "%s waits after %s", st.Key, list[last.Step].Key)
			}
			last = s
		}
	})
}
