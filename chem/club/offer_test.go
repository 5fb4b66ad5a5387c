package club_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/club"
	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
)

// lessons is the demo plan in double lessons of 90 minutes on Tuesdays.
func lessons() club.Work {
	days := procedure.NewDays()
	days.Start = time.Date(2026, 3, 3, 14, 0, 0, 0, time.UTC)
	days.From, days.Long, days.Every = 14*time.Hour, 90*time.Minute, 7
	return club.Work{Plan: route.PlanOf(1), Times: procedure.Times{}, Hands: procedure.Hands{}, Days: days, Club: club.Club{Groups: 8, AtOnce: 1, Pupils: 24}}
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
		planned, given, days, groups := w.Plan.Form(), w.Hands.Form(), w.Days.Form(), w.Club.Form()
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
	sheet := b.Run(&w.Plan)
	steps := procedure.Handed(&w.Plan, sheet, procedure.Steps(&w.Plan, sheet, w.Times), w.Hands, w.Times)
	_, slots, err := w.Days.Lay(steps, w.Start)
	for _, s := range slots {
		sessions = max(sessions, s.Session)
	}
	return sessions, err
}

func TestDoubleLessonsGetAPlanAtOneTouch(t *testing.T) {
	w := lessons()
	_, err := fits(w)
	require.Error(t, err)
	list := w.Offers()
	require.NotEmpty(t, list)
	school := list[0]
	require.True(t, school.Fits)
	assert.Contains(t, school.Text, "as a school would")
	assert.Contains(t, school.Gives, "4 sessions, over on Tuesday 24 March")
	assert.Contains(t, school.Cost, "one batch for all groups, 5.5\u202fg of salt for each in place of 44\u202fg")
	assert.Contains(t, school.Cost, "“Wash 4 times”")
	assert.Contains(t, school.Cost, "trays")
	then := take(t, w, school)
	sessions, err := fits(then)
	require.NoError(t, err)
	assert.LessOrEqual(t, sessions, 8, "eight Tuesdays are enough")
	assert.EqualValues(t, club.One, then.Club.Batch)
	adult := map[string]bool{}
	var b route.Runner
	sheet := *b.Run(&then.Plan)
	steps := procedure.Steps(&then.Plan, &sheet, nil)
	for i, task := range club.Tasks(&then.Plan, b.Book(), steps) {
		adult[steps[i].Key] = task.Adult
	}
	for _, st := range procedure.Handed(&then.Plan, &sheet, steps, then.Hands, nil) {
		if adult[st.Key] && !st.Eve && st.Watch != procedure.Overnight {
			assert.True(t, st.By.Away(), "%s is not for pupils", st.Key)
		}
	}
	assert.Equal(t, procedure.Shown, then.Hands["gas"])
	assert.NotContains(t, then.Hands, "slurry", "what pupils may do stays with them")
}

func TestEveryOfferKeepsItsWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := lessons()
		source, _ := route.InputByKey("gas.source")
		require.NoError(t, source.Choose(&w.Plan, rapid.SampledFrom(sources).Draw(t, "source")))
		w.Days.Long = time.Duration(rapid.IntRange(45, 300).Draw(t, "long")) * time.Minute
		w.Days.Every = rapid.SampledFrom([]int{1, 2, 7, 14}).Draw(t, "every")
		w.Club.Batch = float64(rapid.IntRange(0, 1).Draw(t, "batch"))
		if rapid.Bool().Draw(t, "handed") {
			w.Hands["gas"], w.Hands["line"] = procedure.Shown, procedure.Staff
		}
		before, err := fits(w)
		for _, o := range w.Offers() {
			assert.NotEmpty(t, o.Cost, o.Text)
			assert.NotEmpty(t, o.Gives, o.Text)
			sessions, after := fits(take(t, w, o))
			assert.Equal(t, o.Fits, after == nil, "%s %s", o.Text, o.Gives)
			if o.Fits && err == nil {
				assert.Less(t, sessions, before, o.Text)
			}
			assert.NotContains(t, o.Text+o.Cost+o.Gives, "NaN")
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
			assert.Contains(t, o.Cost, "25 h 40 of an adult's time between sessions, for 8 groups one after the other")
		}
	}
	w.Hands = procedure.Hands{"line": procedure.Staff, "gas": procedure.Shown, "filter": procedure.Staff}
	list := w.Offers()
	texts = strings.Join(begin(list), "; ")
	for _, kind := range []string{"Leave the washing", "Boil down in", "Let the air", "Let an adult", "Work a smaller"} {
		assert.Contains(t, texts, kind, "what fits can still take fewer sessions")
	}
	for _, o := range list {
		if strings.HasPrefix(o.Text, "Let an adult boil") {
			assert.Contains(t, o.Cost, "4 h 25", "its own time, not that of the trays")
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
	c := club.Club{Groups: 8, AtOnce: 3, Batch: club.One}
	assert.Equal(t, 1.0, c.Turns())
	assert.Equal(t, 1.0, c.Running())
	assert.Empty(t, c.Trouble())
	assert.Equal(t, "3", club.Club{Groups: 8, Pupils: 24}.Each())
	assert.Equal(t, "3 to 4", club.Club{Groups: 8, Pupils: 25}.Each())
	for i, n := range c.Reagents(route.Reagents(p, s)) {
		assert.Equal(t, route.Reagents(p, s)[i].Amount, n.All)
	}
	for _, v := range c.Vessels(p, s) {
		assert.Equal(t, 1.0, v.Count, v.Name)
	}
	assert.Equal(t, club.Club{Groups: 1, AtOnce: 1}.Waste(p, b.Book(), s), c.Waste(p, b.Book(), s))
}
