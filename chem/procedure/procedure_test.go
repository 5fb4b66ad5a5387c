package procedure_test

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/account"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

func steps(p *route.Plan, times procedure.Durations) []procedure.Step {
	var b route.Runner
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
	var b route.Runner
	sheet := *b.Run(&p)
	list := procedure.Steps(&p, &sheet, nil)
	charge := find(t, list, "charge")
	require.Len(t, charge.Take, 2)
	assert.Equal(t, sheet.Value(route.GasCopperUsed), charge.Take[0].Value)
	assert.Equal(t, "g", charge.Take[0].Unit)
	assert.Equal(t, sheet.Value(route.GasAcidUsed), charge.Take[1].Value)
	assert.Equal(t, quantity.Minute(90+20), find(t, list, "gas").Minutes, "the plan's minutes, and the heating up")
	assert.InDelta(t, sheet.Value(route.DryHours)*60, float64(find(t, list, "evaporate").Minutes), 5, "rounded up to five minutes")
}

func TestDangerousStepsHaveTheirStop(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	for key, words := range map[string][]string{
		"ready": {"asthma", "lead", "pregnant"}, "open": {"R with no letter", "lead", "pregnant"}, "dilute": {"never water into acid"},
		"acid": {"Goggles and gloves", "No flame"}, "clear": {"Goggles and gloves"}, "charge": {"only if 2\u202fh\u202f25 remain"}, "gas": {"before you take the flame away"},
		"end": {"before you take the flame away", "fume cupboard", "never the nose"}, "dissolve": {"never water into it"}, "waste": {"down the drain"}, "divide": {"chlorine"},
	} {
		for _, word := range words {
			assert.Contains(t, find(t, list, key).Stop, word, key)
		}
	}
	assert.Equal(t, procedure.NeverLeave, find(t, list, "gas").Watch)
	for _, word := range []string{"star crack", "sand bath", "against bumping"} {
		assert.Contains(t, strings.Join(find(t, list, "charge").Do, " "), word)
	}
	assert.Contains(t, find(t, list, "gas").Misled, "Carbon stays black")
}

func TestStepsFollowTheWay(t *testing.T) {
	p := route.NewPlan()
	p.GasSource, p.DryWay = route.FromMetabisulfite, route.ToCrystals
	p.WashAcid = 0 // it warns of a flame too, for the hydrogen
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
	s := find(t, steps(&p, procedure.Durations{"soak": 7}), "soak")
	assert.Equal(t, quantity.Minute(7), s.Minutes)
	assert.True(t, s.TimeSet)
}

func TestKeysAreUniqueAndListed(t *testing.T) {
	in, _ := route.InputByKey("gas.source")
	used := map[string]bool{}
	for source := range in.Options {
		for way := range route.Choice(2) {
			p := route.NewPlan()
			p.WashAcid, p.SlurryRest, p.GasSource, p.DryWay, p.IronWay = 50, 2, route.Choice(source), way, way
			seen, last := map[string]bool{}, -1
			for _, s := range steps(&p, nil) {
				assert.False(t, seen[s.Key], s.Key)
				seen[s.Key], used[s.Key] = true, true
				assert.NotEmpty(t, s.Title)
				require.Contains(t, procedure.Keys(), s.Key)
				assert.Greater(t, slices.Index(procedure.Keys(), s.Key), last, "keys stand in the order of the steps")
				last = slices.Index(procedure.Keys(), s.Key)
			}
		}
	}
	for _, key := range procedure.Keys() {
		if key != "stir" || len(in.Options) > 2 {
			assert.True(t, used[key], "no plan has the step %s", key)
		}
	}
}

func TestFlameSaysWhatThisPlanTakes(t *testing.T) {
	p := route.NewPlan()
	assert.Contains(t, find(t, steps(&p, nil), "charge").Stop, "only if 2\u202fh\u202f25 remain, from the flame to the last test.")
	short := find(t, steps(&p, procedure.Durations{"gas": 60, "end": 30}), "charge")
	assert.True(t, strings.HasSuffix(short.Stop, "two hours remain."), short.Stop)
	assert.Equal(t, quantity.Minute(10+120), short.Room, "less than two hours is never enough for the flame")
}

func TestAWeekOfAWeekIsRefused(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, procedure.Durations{"open": procedure.Longest, "evaporate": procedure.Longest})
	_, err := procedure.Schedule(list, monday, procedure.Session{From: 9 * time.Hour, Long: 3 * time.Hour})
	var many procedure.TooMany
	require.ErrorAs(t, err, &many)
	assert.Contains(t, err.Error(), "60 days")
}

var monday = time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)

func TestDemoTakesThreeDaysAndAMorning(t *testing.T) {
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
	assert.Equal(t, 4, at["waste"].Day, "three days, and the crystals on the fourth morning")
	p = route.PlanOf(1)
	list = steps(&p, nil)
	slots, err = procedure.Schedule(list, monday, procedure.Session{From: 9 * time.Hour, Long: 9 * time.Hour})
	require.NoError(t, err)
	assert.Equal(t, 3, slots[len(slots)-1].Day, "with four washes and no acid rinse a day less")
}

func TestClubCutsTheWorkIntoSessions(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	_, err := procedure.Schedule(list, monday, procedure.Session{From: 14 * time.Hour, Long: 90 * time.Minute})
	var long procedure.TooLong
	require.ErrorAs(t, err, &long)
	assert.Equal(t, "charge", list[long.Step].Key, "once charged, gas and its last test follow in the same session")
	assert.Equal(t, quantity.Minute(10+90+20+35), long.Needs)
	assert.Contains(t, err.Error(), "2\u202fh\u202f35")
	slots, err := procedure.Schedule(list, monday, procedure.Session{From: 14 * time.Hour, Long: 155 * time.Minute})
	require.NoError(t, err)
	assert.Greater(t, slots[len(slots)-1].Day, 3)
	at := map[string]procedure.Slot{}
	for _, s := range slots {
		at[list[s.Step].Key] = s
	}
	assert.Equal(t, at["charge"].Day, at["end"].Day)
	assert.Equal(t, at["charge"].End, at["gas"].Start)
	assert.Equal(t, at["gas"].End, at["end"].Start)
	assert.Equal(t, monday.AddDate(0, 0, -1).Add(9*time.Hour), at["ready"].Start, "six in the evening before")
}

func TestScheduleKeepsItsPromises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := planOf(t, "gas.source", rapid.SampledFrom(options("gas.source")).Draw(t, "source"), "dry.way", rapid.SampledFrom(options("dry.way")).Draw(t, "way"))
		p.Rows[0].Count = float64(rapid.IntRange(1, 60).Draw(t, "cells"))
		p.WashTimes = float64(rapid.IntRange(0, 9).Draw(t, "washes"))
		list := steps(&p, nil)
		session := procedure.Session{
			From: time.Duration(rapid.IntRange(0, 20*60).Draw(t, "from")) * time.Minute,
			Long: time.Duration(rapid.IntRange(155, 14*60).Draw(t, "long")) * time.Minute,
		}
		start := monday.Add(time.Duration(rapid.IntRange(0, 24*60).Draw(t, "start")) * time.Minute)
		slots, err := procedure.Schedule(list, start, session)
		if err != nil {
			mustBeTooLong(t, err, list, session)
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

// mustBeTooLong checks that a timetable was refused for a step that needs more in one go
// than a session has, or for work of more days than it may take.
func mustBeTooLong(t require.TestingT, err error, list []procedure.Step, session procedure.Session) {
	var many procedure.TooMany
	if errors.As(err, &many) {
		return
	}
	var long procedure.TooLong
	require.ErrorAs(t, err, &long)
	st := list[long.Step]
	require.Equal(t, max(st.Minutes, st.Room), long.Needs, st.Key)
	require.Greater(t, float64(long.Needs), session.Long.Minutes(), st.Key)
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

func TestStirredWaysTakeTheirReductant(t *testing.T) {
	source, _ := route.InputByKey("gas.source")
	for word, id := range map[string]route.FigureID{"slurrysalt": route.SaltUsed, "peroxide": route.PeroxideUsed, "oxalic": route.OxalicUsed} {
		p := route.NewPlan()
		require.NoError(t, source.Choose(&p, word))
		var b route.Runner
		sheet := *b.Run(&p)
		list := procedure.Steps(&p, &sheet, nil)
		stir := find(t, list, "stir")
		require.NotEmpty(t, stir.Take, word)
		assert.Equal(t, sheet.Value(id), stir.Take[0].Value, word)
		assert.NotEmpty(t, stir.Stop, word)
		for _, s := range list {
			assert.NotContains(t, []string{"charge", "gas", "line", "cool", "blue"}, s.Key, word)
		}
		end := find(t, list, "end")
		assert.Equal(t, route.Sulfurous(&p), strings.Contains(strings.Join(end.Do, " "), "permanganate"), "%s: paper tells only of sulfur dioxide", word)
	}
}

func TestAlkalineCellsHaveTheirOwnStop(t *testing.T) {
	p := route.NewPlan()
	kind, _ := route.InputByKey("cell.kind")
	require.NoError(t, kind.Choose(&p, "alkaline"))
	open := find(t, steps(&p, nil), "open")
	assert.Contains(t, open.Stop, "lye")
	assert.NotContains(t, open.Stop, "no letter before it")
}

// expected are the steps that expect a blank's reading, and what they expect.
func expected(list []procedure.Step, name string) map[string]float64 {
	found := map[string]float64{}
	for _, s := range list {
		for _, b := range s.Measure {
			if b.Name == name {
				found[s.Key] = b.Expect
			}
		}
	}
	return found
}

func TestSlurryNamesOnlyATemperatureOfItsWay(t *testing.T) {
	for source, want := range map[string]map[string]float64{
		"copper": {"slurry": 73}, "metabisulfite": {"slurry": 73}, "slurrysalt": {"slurry": 73}, "peroxide": {"slurry": 73}, "oxalic": {"stir": 66},
	} {
		p := planOf(t, "gas.source", source)
		p.SlurryTemperature, p.OxalicWarm = 73, 66
		list := steps(&p, nil)
		assert.Equal(t, want, expected(list, "Temperature of the slurry"), source)
		for _, s := range list {
			text := strings.Join(s.Do, " ")
			assert.Equal(t, want[s.Key] == 73, strings.Contains(text, "73\u202f°C"), "%s: %s", source, text)
			assert.Equal(t, want[s.Key] == 66, strings.Contains(text, "66\u202f°C"), "%s: %s", source, text)
		}
	}
}

func TestDryMeansTheSameAsInTheAccount(t *testing.T) {
	p := route.NewPlan()
	assert.Contains(t, find(t, steps(&p, nil), "dry").End, "within a quarter of a percent of the salt")
	for change, want := range map[float64]account.Drying{0.24: account.Constant, 0.26: account.StillLosing} {
		dish := account.Dish{Empty: 50, Full: [account.Weighings]float64{150 + change, 150}}
		for i := 2; i < account.Weighings; i++ {
			dish.Full[i] = quantity.Blank
		}
		got, _ := dish.Drying()
		assert.Equal(t, want, got, "100 g of salt, lighter by %g g", change)
	}
}

func TestSlurryNamesOnlyWhatGoesIn(t *testing.T) {
	do := func(water, acid quantity.Millilitre) string {
		p := route.NewPlan()
		p.SlurryWater, p.SlurryAcid = water, acid
		return find(t, steps(&p, nil), "slurry").Do[0]
	}
	assert.Contains(t, do(300, 100), "into the water, add the acid")
	assert.NotContains(t, do(0, 100), "water")
	assert.Contains(t, do(0, 100), "the acid to the cake")
	assert.NotContains(t, do(300, 0), "acid")
	assert.NotContains(t, do(0, 0), "water")
}

// TestTheEndCanBeReached: some oxide is never reached (slurry.reach) and froths to the last,
// so each way compares two pinches, a quarter of an hour apart, and asks for both.
func TestTheEndCanBeReached(t *testing.T) {
	for _, source := range options("gas.source") {
		p := planOf(t, "gas.source", source)
		require.Less(t, float64(p.SlurryReach), 100.0, "else it would stop frothing one day")
		end := find(t, steps(&p, nil), "end")
		assert.Contains(t, strings.ToLower(end.End), route.PinchTest, source)
		do := strings.Join(end.Do, " ")
		first, stir, second := strings.Index(do, "Keep a rinsed pinch"), strings.Index(do, "quarter of an hour"), strings.Index(do, "second pinch")
		assert.True(t, 0 <= first && first < stir && stir < second, "%s: %s", source, do)
		if !route.Sulfurous(&p) { // the paper shows that something is left to work, else it must be put in
			more := strings.Index(do, "one small portion more")
			assert.True(t, first < more && more < stir, "%s: %s", source, do)
		}
		assert.GreaterOrEqual(t, end.Minutes, route.PinchApart, source)
		for _, st := range steps(&p, nil) {
			assert.NotRegexp(t, `no longer froths?|does not froth|[Nn]o froth`, st.End+st.See+st.Misled+strings.Join(st.Do, " "), "%s %s", source, st.Key)
		}
	}
}

// TestTheEndSaysWhatToDoWithoutGas: of gas out of a flask, which may end before the oxide.
func TestTheEndSaysWhatToDoWithoutGas(t *testing.T) {
	for source := range 5 {
		p := route.NewPlan()
		p.GasSource = route.Choice(source)
		for _, st := range steps(&p, nil) {
			if st.Key == "end" {
				assert.Equal(t, route.Gaseous(&p), strings.Contains(st.End, "gives none any more, filter all the same"), "%d: %s", source, st.End)
			}
		}
	}
}

// TestAcidRinseTakesItsWashAlong: the step has the time and the timers for both.
func TestAcidRinseTakesItsWashAlong(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	rinse, wash := find(t, list, "acid"), find(t, list, "wash")
	assert.Equal(t, 2*wash.Minutes/quantity.Minute(wash.Repeats), rinse.Minutes)
	assert.Equal(t, procedure.Countdowns(&p, &wash), procedure.Countdowns(&p, &rinse))
}

// TestTheEmptyDishIsWeighedBeforeItIsFilled, whoever dries the liquor.
func TestTheEmptyDishIsWeighedBeforeItIsFilled(t *testing.T) {
	p := route.NewPlan()
	s := new(route.Runner).Run(&p)
	for _, by := range []procedure.Hands{nil, {"evaporate": procedure.LeftToAir}} {
		list := procedure.WithHands(&p, s, procedure.Steps(&p, s, nil), by, nil)
		assert.Contains(t, expected(list, "Dish, empty"), "evaporate")
		assert.Len(t, expected(list, "Dish, empty"), 1)
		assert.Contains(t, strings.Join(find(t, list, "evaporate").Do, " "), "Weigh the dish empty")
	}
	for _, st := range steps(new(planOf(t, "dry.way", "crystals")), nil) {
		assert.NotContains(t, strings.Join(st.Do, " "), "Weigh the dish empty", st.Key)
	}
}

// TestWhatIsNotTypedIsNotAskedFor: a dried spoonful tells of the washed mix only where no acid
// took of it.
func TestWhatIsNotTypedIsNotAskedFor(t *testing.T) {
	for _, acid := range []quantity.Millilitre{0, 50} {
		p := route.NewPlan()
		p.WashAcid = acid
		divide := find(t, steps(&p, nil), "divide")
		asked := slices.ContainsFunc(divide.Measure, func(e procedure.Entry) bool { return e.Field == "mix.washed" })
		assert.Equal(t, asked, strings.Contains(strings.Join(divide.Do, " "), "spoonful"), acid)
		assert.Equal(t, acid == 0, asked)
	}
}

// TestTheScrubberIsFilledWhereTheLineIsBuilt: once, for all batches, and only where there is one.
func TestTheScrubberIsFilledWhereTheLineIsBuilt(t *testing.T) {
	p := route.NewPlan()
	p.BatchRuns = 2
	sheet := *new(route.Runner).Run(&p)
	soda, liquid := route.Print(sheet.Value(route.ScrubAdvised), "g"), route.Print(sheet.Value(route.ScrubLiquid), "mL")
	list := steps(&p, nil)
	said := func(id string) string {
		for _, st := range list {
			if st.ID == id {
				return strings.Join(append(takes(st), st.Do...), " ")
			}
		}
		return ""
	}
	filled := "Soda, into the scrubber: " + soda + " The scrubber, made up with water to: " + liquid
	assert.Contains(t, said("line"), filled)
	assert.Contains(t, said("line"), "One filling of the scrubber does for all batches.")
	assert.Contains(t, said("line.2"), "Press air")
	assert.NotContains(t, strings.ToLower(said("line.2")), "soda")
	p.BatchRuns = quantity.Blank
	list = steps(&p, nil)
	assert.Contains(t, said("line"), filled)
	assert.NotContains(t, said("line"), "all batches")
	p.SlurryVessel = route.OpenVessel
	list = steps(&p, nil)
	assert.NotContains(t, strings.ToLower(said("line")), "soda")
}

// TestTheSodaIsToldBottleByBottle, as the bottles' cards have it, and the acid for lye.
func TestTheSodaIsToldBottleByBottle(t *testing.T) {
	for _, pairs := range [][]string{{}, {"dry.way", "crystals"}, {"gas.source", "metabisulfite"}, {"gas.source", "peroxide", "dry.way", "crystals"}, {"cell.kind", "alkaline"}} {
		p := planOf(t, pairs...)
		runner := new(route.Runner)
		sheet := runner.Run(&p)
		var want, got []float64
		for _, b := range safety.Bottles(&p, runner.Book(), sheet) {
			for _, v := range []float64{float64(b.Soda), float64(b.Acid)} {
				if v > 0 {
					want = append(want, v)
				}
			}
		}
		for _, a := range find(t, procedure.Steps(&p, sheet, nil), "waste").Take {
			if a.Name != "Soda, anhydrous, in all" {
				got = append(got, a.Value)
			}
		}
		assert.InDeltaSlice(t, slices.Sorted(slices.Values(want)), slices.Sorted(slices.Values(got)), 1e-9, pairs)
	}
}

// takes lists the amounts of a step as they are read.
func takes(st procedure.Step) (list []string) {
	for _, a := range st.Take {
		list = append(list, a.Name+": "+a.Text())
	}
	return list
}

// TestAcidThatIsDilutedStandsAmongTheAmounts: acid and its water are measured out, so they are
// read where the hand finds amounts, whatever they are diluted for.
func TestAcidThatIsDilutedStandsAmongTheAmounts(t *testing.T) {
	p := route.NewPlan()
	p.WashAcid = 50
	s := new(route.Runner).Run(&p)
	acid := route.StrongAcid(&p, s)
	assert.Equal(t, []string{
		"Water, first: " + route.Print(s.Value(route.SlurryAcidWater), "mL"),
		"Strong acid, into it: " + route.Print(s.Value(route.SlurryAcidStrong), "mL"),
		"Water for the acid rinse, first: " + route.Print(acid.RinseWater, "mL"),
		"Strong acid, into that: " + route.Print(acid.Rinse, "mL"),
	}, takes(find(t, steps(&p, nil), "dilute")))
	p = planOf(t, "gas.source", "metabisulfite")
	assert.Equal(t, "Water, cold, for the dilute acid: "+route.Print(float64(p.GasWater), "mL"), takes(find(t, steps(&p, nil), "charge"))[0])
}

// TestTheFirstStepOfTheDaySaysWhatStandsReady of what the evening before makes and cools.
func TestTheFirstStepOfTheDaySaysWhatStandsReady(t *testing.T) {
	for _, source := range options("gas.source") {
		p := planOf(t, "gas.source", source)
		for _, acid := range []float64{0, 100} {
			p.WashAcid, p.SlurryAcid = quantity.Millilitre(acid), quantity.Millilitre(acid)
			list := steps(&p, nil)
			says := find(t, list, "open").Do[0]
			assert.Contains(t, says, "stands ready", source)
			made := slices.ContainsFunc(list, func(st procedure.Step) bool { return st.Key == "dilute" })
			assert.Equal(t, made, strings.Contains(says, "the dilute acid"), "%s, %g: %s", source, acid, says)
			assert.Equal(t, route.Sulfurous(&p), strings.Contains(says, "refrigerator"), source)
		}
	}
}
