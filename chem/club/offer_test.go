package club_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/club"
	"rosesalt/chem/phrase"
	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/chem/stock"
)

// lessons is a demo plan in double lessons of 90 minutes on Tuesdays; one without an acid rinse,
// so that the work is short.
func lessons() club.Work { return inLessons(route.PlanOf(1)) }

func inLessons(p route.Plan) club.Work {
	days := procedure.NewDays()
	days.Start = time.Date(2026, 3, 3, 14, 0, 0, 0, time.UTC)
	days.From, days.Long, days.Every = 14*time.Hour, 90*time.Minute, 7
	return club.Work{Case: spread.Case{Plan: p}, Times: procedure.Durations{}, Hands: procedure.Hands{}, Days: days, Club: club.Club{Groups: 8, AtOnce: 1, Pupils: 24}}
}

// begin are the beginnings of offers.
func begin(list []club.Offer) (texts []string) {
	for _, o := range list {
		texts = append(texts, strings.Join(strings.Fields(o.Text)[:3], " "))
	}
	return texts
}

// take makes the changes of an offer.
func take(t require.TestingT, w club.Work, o club.Offer) club.Work {
	hands := procedure.Hands{}
	for key, hand := range w.Hands {
		hands[key] = hand
	}
	w.Hands = hands
	for _, change := range o.Set {
		done := false
		planned, given, days, groups := w.Case.Plan.Form(), w.Hands.Form(), w.Days.Form(), w.Club.Form()
		for _, find := range []func() error{
			func() error {
				f, ok := planned.Find(change.Key)
				if done = ok; !ok {
					return nil
				}
				return planned.Set(f, change.Text)
			}, func() error {
				f, ok := given.Find(change.Key)
				if done = done || ok; !ok {
					return nil
				}
				return given.Set(f, change.Text)
			}, func() error {
				f, ok := days.Find(change.Key)
				if done = done || ok; !ok {
					return nil
				}
				return days.Set(f, change.Text)
			}, func() error {
				f, ok := groups.Find(change.Key)
				if done = done || ok; !ok {
					return nil
				}
				return groups.Set(f, change.Text)
			},
		} {
			require.NoError(t, find(), change.Key)
		}
		require.True(t, done, change.Key)
	}
	return w
}

// fits lays a work out.
func fits(w club.Work) (sessions int, err error) {
	var b route.Runner
	sheet := b.Run(&w.Case.Plan)
	steps := procedure.WithHands(&w.Case.Plan, sheet, procedure.Steps(&w.Case.Plan, sheet, w.Times), w.Hands, w.Times)
	_, slots, err := w.Days.Lay(steps, w.Start)
	for _, s := range slots {
		sessions = max(sessions, s.Session)
	}
	return sessions, err
}

func TestDoubleLessonsGetAPlanAtOneTouch(t *testing.T) {
	for name, c := range map[string]struct {
		plan               route.Plan
		gives, each, given string
	}{
		"four washes":       {route.PlanOf(1), "4 sessions, over on Tuesday 24 March", "5.5\u202fg of salt for each in place of 44\u202fg", "“Wash 4 times”"},
		"as the page opens": {route.NewPlan(), "5 sessions, over on Tuesday 31 March", "4.3\u202fg of salt for each in place of 34\u202fg", "“Wash once”, “Wash it clear, 7 more of 8”"},
	} {
		t.Run(name, func(t *testing.T) { atOneTouch(t, inLessons(c.plan), c.gives, c.each, c.given) })
	}
}

func atOneTouch(t *testing.T, w club.Work, gives, each, given string) {
	_, err := fits(w)
	require.Error(t, err)
	list := w.Offers()
	require.NotEmpty(t, list)
	school := list[0]
	require.True(t, school.Fits)
	assert.Contains(t, school.Text, "as a school would")
	assert.Contains(t, school.Gives, gives)
	assert.Contains(t, school.Cost, "one batch for all groups, "+each)
	assert.Contains(t, school.Cost, given)
	assert.Contains(t, school.Cost, "most of the washing waiting while it settles")
	assert.Contains(t, school.Cost, "trays")
	then := take(t, w, school)
	sessions, err := fits(then)
	require.NoError(t, err)
	assert.LessOrEqual(t, sessions, 8, "eight Tuesdays are enough")
	assert.EqualValues(t, club.SharedBatch, then.Club.Batch)
	adult := map[string]bool{}
	var b route.Runner
	sheet := *b.Run(&then.Case.Plan)
	steps := procedure.Steps(&then.Case.Plan, &sheet, nil)
	for i, task := range club.Tasks(&then.Case.Plan, b.Book(), steps) {
		adult[steps[i].Key] = task.Adult
	}
	for _, st := range procedure.WithHands(&then.Case.Plan, &sheet, steps, then.Hands, nil) {
		if adult[st.Key] && !st.Eve && st.Watch != procedure.Overnight {
			assert.True(t, st.By.Away(), "%s is not for pupils", st.Key)
		}
	}
	assert.Equal(t, procedure.ShownFirst, then.Hands["gas"])
	assert.NotContains(t, then.Hands, "slurry", "what pupils may do stays with them")
	assert.NotContains(t, then.Hands, "acid")
	for _, o := range then.Offers() {
		assert.NotEqual(t, school.Text, o.Text)
	}
}

// TestATechnicianWashesOnlyWhereThatSavesALesson: pupils wash where there is room for it.
func TestATechnicianWashesOnlyWhereThatSavesALesson(t *testing.T) {
	for long, given := range map[int]bool{90: true, 180: false} {
		w := inLessons(route.NewPlan())
		w.Days.Long = time.Duration(long) * time.Minute
		then := take(t, w, w.Offers()[0])
		assert.Equal(t, given, then.Hands["wash"] == procedure.Staff, "in sessions of %d minutes", long)
		assert.Equal(t, procedure.Staff, then.Hands["clear"], "it takes a session and three quarters")
	}
}

// TestFewerWashesAreOfferedWithTheirCost once the work fits: without those that hardly make
// the salt purer, and without the rinse, which does.
func TestFewerWashesAreOfferedWithTheirCost(t *testing.T) {
	w := inLessons(route.NewPlan())
	w = take(t, w, w.Offers()[0])
	list := w.Offers()
	find := func(begins string) club.Offer {
		for _, o := range list {
			if strings.HasPrefix(o.Text, begins) {
				return o
			}
		}
		require.Fail(t, begins)
		return club.Offer{}
	}
	fewer := find("Let no more than 5 washes follow the acid rinse, in place of 8.")
	assert.Contains(t, fewer.Cost, "Hardly less pure: 82\u202f% of what is weighed is manganese sulfate.")
	assert.Contains(t, fewer.Cost, "the last wash shows 31\u202fmg/L")
	assert.Contains(t, fewer.Gives, "5 sessions")
	assert.Contains(t, fewer.Gives, "It spares an adult 2\u202fh\u202f15.")
	none := find("Leave out the acid rinse, and take 4 washes with water alone.")
	assert.Contains(t, none.Cost, "65\u202f% of what is weighed is manganese sulfate, in place of 82\u202f%.")
	assert.Contains(t, none.Gives, "4 sessions")
	assert.False(t, func() bool { p := take(t, w, none).Case.Plan; return route.Rinses(&p) }())
	w.Fixed = true
	for _, o := range w.Offers() {
		assert.NotContains(t, o.Text, "wash", "a run under way is washed as it was begun")
	}
	w = lessons()
	w.Case.Plan.WashTimes = 12
	list = take(t, w, w.Offers()[0]).Offers()
	assert.Contains(t, find("Take no more than 4 washes behind the soak, in place of 12.").Gives, "It spares an adult 6\u202fh\u202f00.")
}

func TestEveryOfferKeepsItsWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := inLessons(rapid.SampledFrom([]route.Plan{route.PlanOf(1), route.NewPlan()}).Draw(t, "plan"))
		source, _ := route.InputByKey("gas.source")
		require.NoError(t, source.Choose(&w.Case.Plan, rapid.SampledFrom(sources).Draw(t, "source")))
		w.Days.Long = time.Duration(rapid.IntRange(45, 300).Draw(t, "long")) * time.Minute
		w.Days.Every = rapid.SampledFrom([]int{1, 2, 7, 14}).Draw(t, "every")
		w.Club.Batch = float64(rapid.IntRange(0, 1).Draw(t, "batch"))
		if rapid.Bool().Draw(t, "handed") {
			w.Hands["gas"], w.Hands["line"] = procedure.ShownFirst, procedure.Staff
		}
		before, err := fits(w)
		for _, o := range w.Offers() {
			assert.NotEmpty(t, o.Cost, o.Text)
			assert.NotEmpty(t, o.Gives, o.Text)
			sessions, after := fits(take(t, w, o))
			assert.Equal(t, o.Fits, after == nil, "%s %s", o.Text, o.Gives)
			if o.Fits && err == nil && sessions >= before {
				assert.Equal(t, before, sessions, o.Text)
				assert.Contains(t, o.Gives, "It spares an adult ", o.Text)
			}
			assert.NotContains(t, o.Text+o.Cost+o.Gives, "NaN")
			then := take(t, w, o)
			p, q := w.Case.Planned(), then.Case.Planned()
			if unfit := stock.UnfitThen(&q, new(route.Runner).Run(&q), &p, new(route.Runner).Run(&p)); unfit != "" {
				assert.Contains(t, o.Cost, phrase.Capital(unfit), o.Text)
			}
			if strings.HasPrefix(o.Text, "Take another way") {
				pure := new(route.Runner).Run(&q).Value(route.ProductPurity)
				assert.Contains(t, o.Cost, route.Print(pure, "%")+" pure", o.Text)
				water := func(p *route.Plan) string {
					return route.Print(new(route.Runner).Run(p).Value(route.DryWater), "mL")
				}
				assert.Equal(t, water(&p) != water(&q), strings.Contains(o.Cost, "to boil off in place of "+water(&p)), o.Cost)
			}
		}
	})
}

func TestOffersAreOfEveryKind(t *testing.T) {
	w := lessons()
	texts := strings.Join(begin(w.Offers()), "; ")
	for _, kind := range []string{"Do it as", "Let an adult", "The same, and", "Make the sessions", "Meet on the", "Take another way:", "Work a smaller"} {
		assert.Contains(t, texts, kind)
	}
	for _, o := range w.Offers() {
		if strings.HasPrefix(o.Text, "Let an adult do") {
			assert.Contains(t, o.Text, "“Filter and rinse”", "its liquor gives off gas: that is no work for pupils")
			assert.NotContains(t, o.Text, "Make the slurry")
			assert.Contains(t, o.Cost, "25\u202fh\u202f40 of an adult's time between sessions, for 8 groups one after the other")
		}
	}
	w.Hands = procedure.Hands{"line": procedure.Staff, "gas": procedure.ShownFirst, "filter": procedure.Staff}
	list := w.Offers()
	texts = strings.Join(begin(list), "; ")
	for _, kind := range []string{"Leave the washing", "Boil down in", "Let the air", "Let an adult", "Work a smaller"} {
		assert.Contains(t, texts, kind, "what fits can still take fewer sessions")
	}
	for _, o := range list {
		if strings.HasPrefix(o.Text, "Let an adult boil") {
			assert.Contains(t, o.Cost, "4\u202fh\u202f25", "its own time, not that of the trays")
		}
		assert.NotContains(t, o.Text, "cool", "nobody does what goes on by itself")
	}
	w.Fixed = true
	for _, o := range w.Offers() {
		for _, change := range o.Set {
			_, plan := route.InputByKey(change.Key)
			assert.False(t, plan, "a plan that is fixed is not changed: %s", change.Key)
		}
	}
	w.Days = procedure.NewDays()
	assert.Nil(t, w.Offers(), "working days need none")
}

func TestOneBatchIsCountedOnce(t *testing.T) {
	p, b, s := planOf(t, "copper")
	c := club.Club{Groups: 8, AtOnce: 3, Batch: club.SharedBatch}
	assert.Equal(t, 1.0, c.Turns())
	assert.Equal(t, 1.0, c.Running())
	assert.Empty(t, c.Trouble())
	assert.Equal(t, "3", club.Club{Groups: 8, Pupils: 24}.Each())
	assert.Equal(t, "3 to 4", club.Club{Groups: 8, Pupils: 25}.Each())
	for i, n := range c.Reagents(route.Reagents(p, s)) {
		assert.Equal(t, route.Reagents(p, s)[i].Amount, n.Buy)
	}
	for _, v := range c.Vessels(p, s) {
		assert.Equal(t, 1.0, v.Count, v.Name)
	}
	assert.Equal(t, club.Club{Groups: 1, AtOnce: 1}.Waste(p, b.Book(), s), c.Waste(p, b.Book(), s))
}

// TestTooFewSessionsAreOfferedWhatSparesThem: each change at one touch brings the work into fewer
// sessions, or spares an hour at the bench, as it says; what fits stands first.
func TestTooFewSessionsAreOfferedWhatSparesThem(t *testing.T) {
	days := procedure.NewDays()
	days.Start = time.Date(2026, 3, 3, 14, 0, 0, 0, time.UTC)
	days.From, days.Long, days.Most = 14*time.Hour, 4*time.Hour, 4
	w := club.Work{Case: spread.Case{Plan: route.NewPlan()}, Times: procedure.Durations{}, Hands: procedure.Hands{}, Days: days, Club: club.New()}
	lay := func(w club.Work) error {
		sheet := new(route.Runner).Run(&w.Case.Plan)
		_, _, err := w.Days.Lay(procedure.Steps(&w.Case.Plan, sheet, nil), w.Start)
		return err
	}
	var was procedure.TooFew
	require.ErrorAs(t, lay(w), &was)
	list := w.Offers()
	assert.Empty(t, w.Least(list), "in longer sessions it fits four")
	assert.Equal(t, []string{"Take 6 days", "Make the sessions"}, begin(list)[:2])
	assert.Contains(t, begin(list), "Let no more", "fewer washes")
	for _, o := range list {
		err := lay(take(t, w, o))
		assert.Equal(t, o.Fits, err == nil, o.Text)
		var now procedure.TooFew
		if errors.As(err, &now) {
			assert.True(t, now.Needs < was.Needs || now.Work <= was.Work*9/10, o.Text)
			assert.Contains(t, o.Gives, "the steps "+procedure.Hours(now.Work))
		}
	}
	few := w
	few.Days.Most = 2
	list = few.Offers()
	assert.Equal(t, "Nothing here fits 2 days: the least is 6 days.", few.Least(list))
	for _, o := range list {
		assert.NotContains(t, o.Text, "smaller share", "less salt in as many days")
	}
	w.Fixed = true
	for _, o := range w.Offers() {
		for _, change := range o.Set {
			_, plan := route.InputByKey(change.Key)
			assert.False(t, plan, change.Key)
		}
	}
}
