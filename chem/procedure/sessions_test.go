package procedure_test

import (
	"errors"
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

// handed are the steps of a plan in other hands.
func handed(p *route.Plan, by procedure.Hands) []procedure.Step {
	var b route.Runner
	sheet := b.Run(p)
	return procedure.WithHands(p, sheet, procedure.Steps(p, sheet, nil), by, nil)
}

// tuesday at two begins a term of weekly sessions of a double lesson.
var tuesday = time.Date(2026, 3, 3, 14, 0, 0, 0, time.UTC)

func lessons() procedure.Session {
	return procedure.Session{From: 14 * time.Hour, Long: 90 * time.Minute, Every: 7}
}

func spans(t testing.TB, text string) []procedure.Span {
	list, err := procedure.ReadSpans(text)
	require.NoError(t, err)
	return list
}

// school is who does what where pupils are.
func school() procedure.Hands {
	return procedure.Hands{"wash": procedure.Staff, "line": procedure.Staff, "gas": procedure.ShownFirst, "filter": procedure.Staff, "dissolve": procedure.Staff, "evaporate": procedure.LeftToAir}
}

// at finds the slots of a step.
func at(list []procedure.Step, slots []procedure.Slot, key string) (found []procedure.Slot) {
	for _, s := range slots {
		if list[s.Step].Key == key {
			found = append(found, s)
		}
	}
	return found
}

func TestDemoFitsDoubleLessonsAsASchoolDoesIt(t *testing.T) {
	p := route.PlanOf(1)
	list := handed(&p, school())
	slots, err := procedure.Schedule(list, tuesday, lessons())
	require.NoError(t, err)
	for _, s := range slots {
		st := &list[s.Step]
		if s.Session == 0 {
			continue
		}
		assert.Equal(t, time.Tuesday, s.Start.Weekday(), st.Key)
		assert.False(t, s.Start.Before(s.Start.Truncate(24*time.Hour).Add(14*time.Hour)), st.Key)
		if !s.Over {
			assert.LessOrEqual(t, s.End.Sub(s.Start.Truncate(24*time.Hour)), 15*time.Hour+30*time.Minute, st.Key)
		}
		assert.False(t, s.By == procedure.Staff, "%s is not done in a session", st.Key)
	}
	gas := at(list, slots, "gas")
	require.Len(t, gas, 2)
	assert.Equal(t, procedure.ShownFirst, gas[0].By)
	assert.Equal(t, 15*time.Minute, gas[0].End.Sub(gas[0].Start))
	assert.Equal(t, 2, gas[0].Session, "shown in the session in which the slurry was made")
	assert.Equal(t, at(list, slots, "slurry")[0].Session, gas[0].Session)
	assert.True(t, gas[1].Soon, "the slurry stands to the next day at most")
	assert.Equal(t, procedure.Staff, at(list, slots, "charge")[0].By, "what must follow in one go is one person's")
	assert.Equal(t, procedure.Staff, at(list, slots, "end")[0].By)
	assert.Equal(t, 4, slots[len(slots)-2].Session)
	assert.Equal(t, 5, slots[len(slots)-1].Session)
	soak := at(list, slots, "soak")[0]
	assert.True(t, soak.Over, "it is stirred in at the end of the first session and stands for a week")
	assert.Equal(t, 1, soak.Session)
	air := at(list, slots, "evaporate")[0]
	assert.Equal(t, 5*24*time.Hour, air.End.Sub(air.Start))
	assert.False(t, at(list, slots, "dry")[0].Start.Before(air.End))
}

func TestWhatDoesNotFitIsLaidOutAllTheSame(t *testing.T) {
	p := route.PlanOf(1)
	list := steps(&p, nil)
	slots, err := procedure.Schedule(list, tuesday, lessons())
	var long procedure.TooLong
	require.ErrorAs(t, err, &long)
	assert.Equal(t, quantity.Minute(275-90), long.Needs-long.Allows)
	var burst []string
	for _, s := range slots {
		if s.Overfull {
			burst = append(burst, list[s.Step].Key)
			assert.Equal(t, 5, s.Session)
		}
	}
	assert.Equal(t, []string{"slurry", "line", "charge", "gas", "end", "filter"}, burst)
	assert.Equal(t, 185*time.Minute, at(list, slots, "filter")[0].Late, "so much it runs over at its end")
	assert.Zero(t, at(list, slots, "line")[0].Late)
	assert.Equal(t, "waste", list[slots[len(slots)-1].Step].Key)
	assert.Greater(t, at(list, slots, "dissolve")[0].Session, 5)
}

func TestDatesLeftOutHaveNoSession(t *testing.T) {
	p := route.PlanOf(1)
	session := lessons()
	session.Out = spans(t, "10 March 2026, 2026-03-20..2026-03-26")
	list := handed(&p, school())
	slots, err := procedure.Schedule(list, tuesday, session)
	require.NoError(t, err)
	var days []string
	for _, s := range slots {
		if day := s.Start.Format("2.1."); s.Session > 0 && (days == nil || days[len(days)-1] != day) {
			days = append(days, day)
			assert.Equal(t, len(days), s.Session, "sessions are counted, not weeks")
		}
	}
	assert.Equal(t, []string{"3.3.", "17.3.", "31.3.", "7.4.", "14.4."}, days)
	session.Out = spans(t, "2026-03-03")
	slots, err = procedure.Schedule(list, tuesday, session)
	require.NoError(t, err)
	assert.Equal(t, time.Tuesday, at(list, slots, "open")[0].Start.Weekday(), "what is left out does not move the day of the week")
	assert.Equal(t, 10, at(list, slots, "open")[0].Start.Day())
	finish := time.Date(2026, 5, 1, 18, 0, 0, 0, time.UTC)
	session.Out = spans(t, "2026-03-30..2026-04-10")
	start, slots, err := procedure.FinishBy(list, finish, session)
	require.NoError(t, err)
	assert.True(t, start.Before(finish))
	for _, s := range slots {
		if s.Session > 0 {
			assert.NotRegexp(t, "2026-(03-3[01]|04-0|04-10)", s.Start.Format(time.DateOnly))
		}
	}
}

func TestTheDayAfterGoesOnWithWhatCannotStand(t *testing.T) {
	p := planOf(t, "gas.source", "peroxide")
	list := steps(&p, nil)
	session := lessons()
	session.Long, session.Second = 160*time.Minute, 1
	_, err := procedure.Schedule(list, tuesday, procedure.Session{From: session.From, Long: session.Long, Every: 7})
	require.Error(t, err, "slurry, stirring in, the end and filtering need 185 minutes in one go")
	slots, err := procedure.Schedule(list, tuesday, session)
	require.NoError(t, err)
	for _, s := range slots {
		if s.Session > 0 {
			assert.Contains(t, []time.Weekday{time.Tuesday, time.Wednesday}, s.Start.Weekday())
		}
	}
	assert.Equal(t, 24*time.Hour, midnight(at(list, slots, "filter")[0].Start).Sub(midnight(at(list, slots, "end")[0].Start)))
	session.Second = 2
	_, err = procedure.Schedule(list, tuesday, session)
	require.Error(t, err, "from Tuesday to Thursday it does not stand")
}

// TestNoLaterSessionIsTakenForWhatCannotWait: what is too long for the day after is marked there,
// and not put off to where it would have had room if it could wait.
func TestNoLaterSessionIsTakenForWhatCannotWait(t *testing.T) {
	p := planOf(t, "gas.source", "peroxide")
	list := steps(&p, nil)
	session := lessons()
	session.Long, session.Second = 100*time.Minute, 1
	slots, err := procedure.Schedule(list, tuesday, session)
	var long procedure.TooLong
	require.ErrorAs(t, err, &long)
	assert.Equal(t, "stir", list[long.Step].Key)
	assert.Equal(t, quantity.Minute(155), long.Needs, "stirring in, the end, and filtering")
	stir := at(list, slots, "stir")[0]
	assert.True(t, stir.Overfull)
	assert.Equal(t, time.Wednesday, stir.Start.Weekday())
}

// TestWhatIsShownStandsBesideWhatItBelongsTo: the slurry is not begun in a session that has no
// room for what is shown of its gas.
func TestWhatIsShownStandsBesideWhatItBelongsTo(t *testing.T) {
	p := route.PlanOf(1) // four washes, and none of acid
	var b route.Runner
	sheet := b.Run(&p)
	times := procedure.Durations{"divide": 50}
	list := procedure.WithHands(&p, sheet, procedure.Steps(&p, sheet, times), school(), times)
	slots, err := procedure.Schedule(list, tuesday, lessons())
	require.NoError(t, err)
	assert.Equal(t, 2, at(list, slots, "divide")[0].Session)
	assert.Equal(t, 3, at(list, slots, "slurry")[0].Session)
	assert.Equal(t, 3, at(list, slots, "gas")[0].Session)
}

func midnight(t time.Time) time.Time { return t.Truncate(24 * time.Hour) }

func TestWhatAnAdultLeavesMustNotWaitForTheClass(t *testing.T) {
	p := route.NewPlan()
	by := procedure.Hands{"line": procedure.Staff, "gas": procedure.Staff}
	_, err := procedure.Schedule(handed(&p, by), tuesday, lessons())
	var waits procedure.TooLate
	require.ErrorAs(t, err, &waits, "made the day after the class left its slurry, the class cannot filter it six days later")
	list := handed(&p, by)
	assert.Equal(t, "filter", list[waits.Step].Key)
	assert.Equal(t, "end", list[waits.After].Key)
	assert.Contains(t, err.Error(), "let an adult do this as well")
	by["slurry"] = procedure.Staff
	list = handed(&p, by)
	slots, err := procedure.Schedule(list, tuesday, lessons())
	require.NoError(t, err, "all of it the day before, it can")
	assert.True(t, at(list, slots, "end")[0].Just)
	by["filter"] = procedure.Staff
	delete(by, "slurry")
	_, err = procedure.Schedule(handed(&p, by), tuesday, lessons())
	require.NoError(t, err)
}

// TestWhatCannotStandDoesNot: whoever does what, in whatever sessions, what stands only to the
// next day is gone on with by then, or it is told.
func TestWhatCannotStandDoesNot(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := planOf(t, "gas.source", rapid.SampledFrom(options("gas.source")).Draw(t, "source"), "dry.way", rapid.SampledFrom(options("dry.way")).Draw(t, "way"))
		by := procedure.Hands{}
		for range rapid.IntRange(0, 6).Draw(t, "hands") {
			by[rapid.SampledFrom(procedure.Keys()).Draw(t, "key")] = procedure.Hand(rapid.IntRange(1, 2).Draw(t, "hand"))
		}
		for _, key := range []string{"ready", "dilute", "cool", "blue", "grow"} {
			delete(by, key)
		}
		list := handed(&p, by)
		session := procedure.Session{
			From: time.Duration(rapid.IntRange(6*60, 18*60).Draw(t, "from")) * time.Minute, Long: time.Duration(rapid.IntRange(30, 500).Draw(t, "long")) * time.Minute,
			Every: rapid.IntRange(1, 14).Draw(t, "every"), Second: rapid.IntRange(0, 4).Draw(t, "second"),
		}
		for range rapid.IntRange(0, 3).Draw(t, "out") {
			first := midnight(tuesday).AddDate(0, 0, rapid.IntRange(0, 60).Draw(t, "first"))
			session.Out = append(session.Out, procedure.Span{First: first, Last: first.AddDate(0, 0, rapid.IntRange(0, 20).Draw(t, "days"))})
		}
		slots, err := procedure.Schedule(list, tuesday, session)
		var many procedure.TooMany
		if errors.As(err, &many) {
			return
		}
		laid := map[int]bool{}
		var class *procedure.Slot // the last of the class's
		free := false             // an adult was at it since, and chose when
		adult := 0                // steps of an adult's since
		for i := range slots {
			s := &slots[i]
			st := &list[s.Step]
			laid[s.Step] = true
			require.False(t, s.End.Before(s.Start), st.Key)
			if s.Session > 0 && !st.Eve {
				for _, out := range session.Out {
					require.False(t, !midnight(s.Start.Add(-session.From)).Before(out.First) && !midnight(s.Start.Add(-session.From)).After(out.Last) && !s.Overfull, "%s on a date left out", st.Key)
				}
			}
			switch {
			case st.Eve || st.Watch == procedure.Overnight:
			case s.By == procedure.Staff:
				adult++
				free = free || class == nil || list[class.Step].Pause.Stand == procedure.AWeek || st.Pause.Stand == procedure.AWeek
			default:
				if class != nil && err == nil && !free && list[class.Step].Pause.Stand < procedure.AWeek && !list[class.Step].Parts {
					require.LessOrEqual(t, midnight(s.Start).Sub(midnight(class.End)), time.Duration(1+adult)*24*time.Hour, "%s waits after %s", st.Key, list[class.Step].Key)
				}
				if !list[s.Step].By.Away() {
					class, free, adult = s, false, 0
				}
			}
		}
		require.Len(t, laid, len(list), "everything is laid out, whatever does not fit")
		if err == nil {
			for _, s := range slots {
				require.False(t, s.Overfull)
			}
		}
	})
}

func TestReadSpans(t *testing.T) {
	for text, want := range map[string]string{
		"":                               "",
		"2026-04-03":                     "2026-04-03",
		"3 April 2026, 1.5.2026":         "2026-04-03,2026-05-01",
		"3 to 9 April 2026":              "2026-04-03..2026-04-09",
		"3.–9.4.2026":                    "2026-04-03..2026-04-09",
		"20 July to 30 August 2026":      "2026-07-20..2026-08-30",
		"20 July 2026 – 30 August 2026":  "2026-07-20..2026-08-30",
		"20.7. – 30.8.2026; 2026-04-03":  "2026-04-03,2026-07-20..2026-08-30",
		"2026-12-23..2027-01-05":         "2026-12-23..2027-01-05",
		"2026-04-03..2026-04-03":         "2026-04-03",
		" 2026-04-03 ,\n2026-04-10 , ,":  "2026-04-03,2026-04-10",
		"3 Apr 2026 until 10 April 2026": "2026-04-03..2026-04-10",
	} {
		list, err := procedure.ReadSpans(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, procedure.WriteSpans(list), text)
		again, err := procedure.ReadSpans(want)
		require.NoError(t, err)
		assert.Equal(t, list, again)
	}
	for text, says := range map[string]string{
		"easter": "no date", "3/4/2026": "no date", "2026-02-30": "no date", "2026-04-03..": "no date", "1026-01-01": "no date",
		"2026-04-10..2026-04-03": "ends before it begins", "2026-01-01..2028-12-31": "730 is the limit", strings.Repeat("2026-04-03,", 41): "40 is the limit",
	} {
		_, err := procedure.ReadSpans(text)
		require.ErrorContains(t, err, says, text)
	}
}

func TestTheAirNeedsTraysAndDays(t *testing.T) {
	p := route.NewPlan()
	list := handed(&p, procedure.Hands{"evaporate": procedure.LeftToAir})
	air := find(t, list, "evaporate")
	text := strings.Join(air.Do, " ")
	var b route.Runner
	sheet := b.Run(&p)
	assert.Contains(t, text, route.Print(sheet.Value(route.DryWater)*2, "cm²"), "half a centimetre deep, a millilitre covers two")
	assert.Contains(t, text, "5\u202fdays")
	assert.Equal(t, procedure.Overnight, air.Watch)
	assert.NotContains(t, text, "Simmer")
	given := procedure.WithHands(&p, sheet, procedure.Steps(&p, sheet, procedure.Durations{"evaporate": 3 * 24 * 60}), procedure.Hands{"evaporate": procedure.LeftToAir}, procedure.Durations{"evaporate": 3 * 24 * 60})
	assert.Equal(t, quantity.Minute(3*24*60), find(t, given, "evaporate").Minutes, "who knows better says so")
}

// TestWhatIsShownFirstIsMadeBefore: what an adult does before the first session can be shown
// in it.
func TestWhatIsShownFirstIsMadeBefore(t *testing.T) {
	p := route.NewPlan()
	list := handed(&p, procedure.Hands{"open": procedure.ShownFirst, "soak": procedure.Staff})
	slots, _ := procedure.Schedule(list, tuesday, lessons())
	open := at(list, slots, "open")
	require.Len(t, open, 2)
	assert.Equal(t, procedure.Staff, open[0].By)
	assert.True(t, open[0].Start.Before(tuesday))
	assert.Equal(t, procedure.ShownFirst, open[1].By)
	assert.Equal(t, tuesday, open[1].Start)
	assert.Zero(t, at(list, slots, "soak")[0].Session)
	assert.Equal(t, 2, at(list, slots, "wash")[0].Session)
}

func TestTheAirMakesNoCrystals(t *testing.T) {
	p := planOf(t, "dry.way", "crystals")
	st := find(t, handed(&p, procedure.Hands{"evaporate": procedure.LeftToAir}), "evaporate")
	assert.Equal(t, procedure.InSession, st.By, "it is boiled down to a volume, and no further")
	assert.Contains(t, strings.Join(st.Do, " "), "Simmer")
}

func TestShelfHoldsWhatStands(t *testing.T) {
	p := route.NewPlan()
	var b route.Runner
	sheet := b.Run(&p)
	list := handed(&p, school())
	slots, err := procedure.Schedule(list, tuesday, lessons())
	require.NoError(t, err)
	on := func(next int) (keys []string) {
		for _, thing := range procedure.Shelf(&p, sheet, list, slots, next) {
			keys = append(keys, thing.Key)
			assert.NotEmpty(t, thing.Name)
			assert.NotEmpty(t, thing.Keep, thing.Key)
			assert.NotEmpty(t, thing.Harm, thing.Key)
			assert.Less(t, thing.Since, next)
			assert.GreaterOrEqual(t, thing.Until, next)
		}
		return keys
	}
	first := func(key string) int {
		for i, s := range slots {
			if list[s.Step].Key == key {
				return i
			}
		}
		return -1
	}
	assert.Nil(t, on(0))
	assert.Equal(t, []string{"dilute bottle", "mix", "wash liquor"}, on(first("wash")))
	assert.Equal(t, []string{"slurry", "wash liquor"}, on(first("line")))
	assert.Equal(t, []string{"trays", "blue liquor", "wash liquor", "residue"}, on(first("dry")))
	assert.Equal(t, []string{"salt", "blue liquor", "wash liquor", "residue"}, on(first("dry")+1), "what is being dried is in no tray any more")
	assert.Equal(t, []string{"wash liquor", "residue"}, on(first("waste")))
	assert.Nil(t, on(len(slots)))

	p.BatchRuns = 2
	sheet = b.Run(&p)
	list = handed(&p, nil)
	slots, _ = procedure.Schedule(list, tuesday, weekly(6*time.Hour))
	assert.Equal(t, []string{"dilute bottle", "cake", "flask", "rose liquor", "wash liquor", "residue"}, on(first("filter")+1), "there is cake for the second batch, and no slurry yet")
}
