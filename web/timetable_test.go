package web

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

func TestTheStartIsTheNextSaturday(t *testing.T) {
	saturday := time.Date(2026, 3, 7, 9, 0, 0, 0, time.UTC)
	for day := 28 - 31; day <= 3; day++ { // Saturday 28 February to Friday 6 March
		now := time.Date(2026, 3, day+3, 23, 30, 0, 0, time.UTC)
		if now.Weekday() == time.Saturday {
			continue
		}
		assert.Equal(t, saturday, theStart(now, 9*time.Hour), "from %s", now.Format("Monday 2 January"))
	}
	assert.Equal(t, saturday.AddDate(0, 0, 7), theStart(saturday, 9*time.Hour), "on a Saturday, the next one")
}

func TestWhatDoesNotFitIsToldAtTheSession(t *testing.T) {
	v := daysOf(desk.New("days.start=2026-03-07T09:00&days.long=60"))
	problem := ""
	for _, f := range v.Fields {
		if f.Key == procedure.LongKey {
			problem = f.Problem
		}
	}
	assert.Contains(t, problem, "“Charge the flask”")
	assert.Contains(t, problem, "make the sessions longer")
	assert.Empty(t, v.Days)
	v = daysOf(desk.New("days.finish=2026-03-09T18:00"))
	assert.Contains(t, v.Says, "Begin at the latest on Saturday 7 March 2026")
	assert.True(t, daysOf(desk.New("cell.rejects=6")).Nothing)
}

func TestDaysTellWhatMayStand(t *testing.T) {
	v := daysOf(desk.New("days.start=2026-03-07T09:00&time.gas=100"))
	require.Len(t, v.Days, 4, "the evening before and three days")
	assert.Contains(t, v.Days[0].Title, "The evening before, Friday 6 March")
	found := map[string]slotView{}
	for _, d := range v.Days {
		for _, s := range d.Slots {
			found[s.Key] = s
		}
	}
	assert.Equal(t, "never leave it", found["gas"].Watch)
	assert.Contains(t, found["gas"].Rule, "Light the flame only if two hours remain")
	assert.True(t, found["gas"].Asked)
	assert.Equal(t, "100", found["gas"].Usual)
	assert.Equal(t, "may stand overnight", found["cool"].Watch)
	assert.Contains(t, found["cool"].At, "(Sun)", "an end on another day says which")
}

func TestSheetSaysTimesOnlyWhenADayIsSet(t *testing.T) {
	plain := sheetOf(desk.New(""), "")
	assert.NotContains(t, plain.Steps[2].When, ":")
	assert.Equal(t, "#v=1", plain.Link)
	dated := sheetOf(desk.New("days.start=2026-03-07T09:00"), "https://example.org/r.html")
	assert.Contains(t, dated.Steps[2].When, "Sat 09:00")
	assert.Contains(t, dated.Link, "https://example.org/r.html#v=1")
	assert.NotZero(t, dated.Code.Side)
	assert.Contains(t, plain.Plan, "6 dead R14")
}

func TestWeeklySessionsSayWhatStands(t *testing.T) {
	v := daysOf(desk.New("days.start=2026-03-07T14:00&days.from=14:00&days.long=300&days.every=7"))
	require.NotEmpty(t, v.Days)
	assert.Contains(t, v.Days[1].Title, "Session 1, Saturday 7 March")
	assert.Contains(t, v.Days[2].Title, "Session 2, Saturday 14 March")
	assert.Contains(t, v.Days[1].Until, "Saturday 14 March, 14:00")
	assert.Contains(t, v.Days[1].Stand, "may wait a week")
	assert.Contains(t, v.Days[1].Stand, "damp")
	assert.Contains(t, v.Says, "sessions over")
	out := html(t, &days{View: v})
	assert.Contains(t, out, "Until Saturday 14 March, 14:00: may wait a week")
	told := daysOf(desk.New("days.start=2026-03-07T14:00&days.from=14:00&days.long=180&days.every=7"))
	for _, f := range told.Fields {
		if f.Key == procedure.LongKey {
			assert.Contains(t, f.Problem, "“Make the slurry”")
			assert.Contains(t, f.Problem, "“Make the slurry” to “Filter and rinse”: without a pause they need 4 h 35 in one go")
			assert.Contains(t, f.Problem, "cannot stand for 7 days")
		}
	}
	assert.Empty(t, told.Days)
	section := &days{View: told, open: true}
	out = html(t, section)
	for _, key := range []string{"slurry", "gas", "filter"} {
		assert.Contains(t, out, `name="`+procedure.TimePrefix+key+`"`, "a time can be made shorter though nothing fits")
	}
}

// TestHotFlaskIsNotLeftForAWeek: where it cools past the end of a session, and the next
// is days off, the days say who must see to it, and when.
func TestHotFlaskIsNotLeftForAWeek(t *testing.T) {
	cool := func(link string) (slot slotView, stand string) {
		for _, d := range daysOf(desk.New(link)).Days {
			for _, s := range d.Slots {
				if s.Key == "cool" {
					slot, stand = s, d.Stand
				}
			}
		}
		require.NotEmpty(t, slot.Title)
		return slot, stand
	}
	slot, stand := cool("days.start=2026-03-07T18:00&days.from=18:00&days.long=300&days.every=7")
	_, end, _ := strings.Cut(slot.At, "–")
	at := end[:len("05:35")] + " on Sunday"
	for _, text := range []string{slot.Rule, stand} {
		assert.Contains(t, text, at)
		assert.Contains(t, text, "stays or comes back")
		assert.Contains(t, text, "not left like that")
	}
	assert.Equal(t, "somebody comes back", slot.Watch)
	slot, _ = cool("days.start=2026-03-07T09:00&days.from=09:00&days.long=300")
	assert.Empty(t, slot.Rule, "the next day somebody is there")
	slot, stand = cool("days.start=2026-03-07T06:00&days.from=06:00&days.long=1080&days.every=7")
	assert.Empty(t, slot.Rule, "it is cold before the session ends")
	assert.NotContains(t, stand, "not left like that")
}

func TestDaysSayThatTheyAreOneGroups(t *testing.T) {
	v := daysOf(desk.New("club.groups=6&club.atonce=2"))
	assert.Contains(t, v.Club, "With the 6 groups of “With a club”, the gas takes 3 turns, 7 h 45 in all in place of 2 h 35: plan for 5 h 10 more")
	assert.Contains(t, html(t, &days{View: v}), "These days are those of one group.")
	assert.Empty(t, daysOf(desk.New("")).Club, "nobody spoke of a club")
	assert.Empty(t, daysOf(desk.New("club.groups=2&club.atonce=2")).Club, "all make gas at once")
	assert.Contains(t, daysOf(desk.New("days.every=7&gas.source=peroxide")).Club, "stirring in takes 4 turns")
}

// TestBeginFollowsTheSession: the start that is counted from is one at which a session
// begins.
func TestBeginFollowsTheSession(t *testing.T) {
	d := desk.New("days.from=14:30")
	assert.Contains(t, fieldText(d, procedure.StartKey), "T14:30")
	assert.Contains(t, daysOf(d).Says, "14:30")
}

func TestDoneRunHasNoDaysLeft(t *testing.T) {
	d := desk.New("")
	require.True(t, d.StartRun())
	require.True(t, d.StageDone(route.Gas))
	v := daysOf(d)
	assert.Contains(t, v.Says, "what is left takes")
	assert.Equal(t, "Go on", v.Fields[0].Name)
	require.True(t, d.StageDone(route.Waste))
	assert.True(t, daysOf(d).Over)
	assert.Contains(t, html(t, &days{View: daysOf(d)}), "nothing is left")
}
