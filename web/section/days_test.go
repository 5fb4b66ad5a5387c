package section

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

// timetable is the table of the steps, by the beginning of their names; and all of the
// page in words.
func timetable(s *Source) (row func(title string) []string, table doc.Table, says string) {
	made := days(s)
	table = doctest.Find[doc.Table](made.Of...)[0]
	row = func(title string) (found []string) {
		for _, cells := range table.Rows {
			if len(cells) > 1 && strings.HasPrefix(doctest.Text(cells[0]), title) {
				found = nil
				for _, cell := range cells {
					found = append(found, doctest.Text(cell))
				}
			}
		}
		return found
	}
	return row, table, doctest.HTML(made)
}

// brief are the days in a line each, with what stands until the next.
func brief(s *Source) []doc.Term {
	for _, t := range doctest.Find[doc.Terms](days(s).Of...) {
		if t.Class == "advised days" {
			return t.List
		}
	}
	return nil
}

// asks is a field of the days.
func asks(s *Source, key string) doc.Field {
	for _, f := range doctest.Find[doc.Field](days(s).Of...) {
		if f.Key == key {
			return f
		}
	}
	return doc.Field{}
}

// asksSession is the field of the length of a session.
func asksSession(s *Source) doc.Field { return asks(s, procedure.LongKey) }

// TestBeginSaysWhereItIsNotWhatWasTyped: another day is a fault at the field, an hour later a
// note; and the length of a session says when it is over.
func TestBeginSaysWhereItIsNotWhatWasTyped(t *testing.T) {
	begin := func(fragment string) doc.Field { return asks(from(fragment), procedure.StartKey) }
	assert.Contains(t, begin("days.start=2026-03-03T15:00&days.long=300").Problem, "after 14:00. So the work begins on Wednesday 4 March, 09:00.")
	assert.Empty(t, begin("days.start=2026-03-03T15:00").Problem)
	assert.Contains(t, begin("days.start=2026-03-03T15:00").Why, "If nothing is set")
	assert.Empty(t, begin("days.start=2026-03-03T09:00&days.from=15:00").Problem)
	assert.Contains(t, begin("days.start=2026-03-03T09:00&days.from=15:00").Why, "It begins at 15:00")
	assert.Contains(t, doctest.Text(days(from("days.start=2026-03-03T15:00&days.long=300")).Of...), "Begin: Nobody is at the bench on Tuesday 3 March after 14:00")
	assert.Contains(t, asksSession(from("days.from=14:00&days.long=240")).Why, "From 14:00 to 18:00, so 4\u202fh\u202f00.")
}

func TestTwoAfternoonsSayWhatDoesNotFit(t *testing.T) {
	s := from("days.start=2026-03-03T14:00&days.from=14:00&days.long=240&days.most=2")
	problem := asks(s, procedure.MostKey).Problem
	assert.Contains(t, problem, "“Wash it clear, 7 more of 8”: it comes after session 2. The work takes 6 sessions: ")
	assert.Empty(t, asksSession(s).Problem)
	for i, day := range brief(s) {
		assert.Equal(t, i == 3, strings.Contains(doctest.Text(day.More), "There are to be 2 sessions, and this is one more."), day.Name)
	}
	assert.Contains(t, doctest.HTML(days(s)), "this is one more.", "on the screen too")
	offer, ok := FitOf(s, "Take 6 days for it.")
	require.True(t, ok)
	require.NotEmpty(t, doctest.Find[doc.Button](days(s).Of...))
	for _, change := range offer.Set {
		s.Edit(change.Key, change.Text)
	}
	assert.Empty(t, asks(s, procedure.MostKey).Problem)
	assert.Empty(t, doctest.Find[doc.Button](days(s).Of...))
}

func TestWhatDoesNotFitIsToldAtTheSession(t *testing.T) {
	s := from("v=1&days.start=2026-03-07T09:00&days.long=60")
	problem := asksSession(s).Problem
	assert.Contains(t, problem, "“Charge the flask”")
	assert.Contains(t, problem, "make the sessions longer")
	marked := doctest.Text(brief(s)[8].More)
	assert.Contains(t, marked, "Does not fit. “Charge the flask” to “Judge the end”: over the end of the session by 1\u202fh\u202f35.")
	assert.Contains(t, brief(s)[len(brief(s))-1].Says, "make the waste fit to keep", "what comes after is laid out all the same")
	assert.Contains(t, doctest.Text(days(s).Of...), "The work does not fit into these sessions.\n  For so long: “Charge the flask”")
	_, _, says := timetable(from("v=1&days.finish=2026-03-09T18:00"))
	assert.Contains(t, says, "Begin at the latest on Saturday 7 March 2026")
	assert.Empty(t, doctest.Text(days(from("cell.rejects=6")).Of...))
}

func TestDaysTellWhatMayStand(t *testing.T) {
	s := from("v=1&days.start=2026-03-07T09:00&time.gas=100")
	list := brief(s)
	require.Len(t, list, 4, "the evening before and three days")
	assert.Contains(t, list[0].Name, "The evening before, Friday 6 March")
	row, table, _ := timetable(s)
	gas := row("Make the gas")
	assert.Equal(t, "never leave it", gas[3])
	assert.Contains(t, gas[0], "Light the flame only if 2\u202fh\u202f15 remain, from the flame to the last test.")
	cool := row("Let the flask cool")
	assert.Equal(t, "may stand overnight", cool[3])
	assert.Contains(t, cool[1], "(Sun)", "an end on another day says which")
	times := map[string]doc.Control{}
	for _, c := range doctest.Find[doc.Control](table) {
		times[c.Key] = c
	}
	assert.Equal(t, "100", times["time.gas"].Usual)
	assert.Equal(t, "set", times["time.gas"].Line)
	assert.Equal(t, "guess", times["time.filter"].Line)
	assert.Contains(t, doctest.Text(days(s).Of...), "Make the gas: 1\u202fh\u202f40, by you")
}

func TestWeeklySessionsSayWhatStands(t *testing.T) {
	s := from("days.start=2026-03-07T14:00&days.from=14:00&days.long=300&days.every=7")
	list := brief(s)
	require.NotEmpty(t, list)
	assert.Contains(t, list[1].Name, "Session 1, Saturday 7 March")
	assert.Contains(t, list[2].Name, "Session 2, Saturday 14 March")
	stand := doctest.Text(list[1].More)
	assert.Contains(t, stand, "Until Saturday 14 March, 14:00: may wait a week")
	assert.Contains(t, stand, "damp")
	_, _, says := timetable(s)
	assert.Contains(t, says, "sessions over")
	assert.Equal(t, 1, strings.Count(says, "Until Saturday 14 March, 14:00: may wait a week"), "the table is not there until it is opened")
	_, _, says = timetable(from("days.start=2026-03-07T09:00"))
	assert.NotContains(t, says, "Until ", "from day to day only the table says it")
	assert.Contains(t, doctest.Text(days(from("days.start=2026-03-07T09:00")).Of...), "Until Sunday 8 March, 09:00: may")

	s = from("v=1&days.start=2026-03-07T14:00&days.from=14:00&days.long=180&days.every=7")
	problem := asksSession(s).Problem
	assert.Contains(t, problem, "“Make the slurry” to “Filter and rinse”: without a pause they need 4\u202fh\u202f35 in one go")
	assert.Contains(t, problem, "cannot stand for 7 days")
	list = brief(s)
	assert.Contains(t, doctest.Text(list[3].More), "“Make the slurry” to “Filter and rinse”: over the end of the session by 1\u202fh\u202f35.")
	assert.NotContains(t, doctest.Text(list[2].More), "Does not fit", "the sessions that fit are shown as they are")
	_, table, _ := timetable(s)
	times := map[string]bool{}
	for _, c := range doctest.Find[doc.Control](table) {
		times[c.Key] = true
	}
	for _, key := range []string{"slurry", "gas", "filter"} {
		assert.True(t, times[procedure.TimePrefix+key], "a time can be made shorter though nothing fits: %s", key)
	}
}

// TestHotFlaskIsNotLeftForAWeek: where it cools past the end of a session, and the next
// is days off, the days say who must see to it, and when.
func TestHotFlaskIsNotLeftForAWeek(t *testing.T) {
	cool := func(fragment string) (row []string, stand string) {
		s := from(fragment)
		find, _, _ := timetable(s)
		for _, day := range brief(s) {
			if strings.Contains(day.Says, "let the flask cool") {
				stand = doctest.Text(day.More)
			}
		}
		require.NotNil(t, find("Let the flask cool"))
		return find("Let the flask cool"), stand
	}
	row, stand := cool("days.start=2026-03-07T18:00&days.from=18:00&days.long=300&days.every=7")
	_, end, _ := strings.Cut(row[1], "–")
	at := end[:len("05:35")] + " on Sunday"
	for _, text := range []string{row[0], stand} {
		assert.Contains(t, text, at)
		assert.Contains(t, text, "stays or comes back")
		assert.Contains(t, text, "not left like that")
	}
	assert.Equal(t, "somebody comes back", row[3])
	row, _ = cool("days.start=2026-03-07T09:00&days.from=09:00&days.long=300")
	assert.Equal(t, "Let the flask cool", row[0], "the next day somebody is there")
	row, stand = cool("v=1&days.start=2026-03-07T06:00&days.from=06:00&days.long=1080&days.every=7")
	assert.Equal(t, "Let the flask cool", row[0], "it is cold before the session ends")
	assert.NotContains(t, stand, "not left like that")
}

func TestDaysSayThatTheyAreOneGroups(t *testing.T) {
	says := func(fragment string) string { return doctest.HTML(days(from(fragment))) }
	assert.Contains(t, says("club.groups=6&club.atonce=2"), "These days are those of one group. With the 6 groups of “With a club”, the gas takes 3 turns, 7\u202fh\u202f45 in all in place of 2\u202fh\u202f35: plan for 5\u202fh\u202f10 more")
	assert.NotContains(t, says(""), "one group", "nobody spoke of a club")
	assert.NotContains(t, says("club.groups=2&club.atonce=2"), "one group", "all make gas at once")
	assert.Contains(t, says("days.every=7&gas.source=peroxide"), "stirring in takes 4 turns")
}

func TestDoneRunHasNoDaysLeft(t *testing.T) {
	s := from("")
	require.True(t, s.StartRun())
	require.True(t, s.StageDone(route.Gas))
	_, _, says := timetable(s)
	assert.Contains(t, says, "what is left takes")
	assert.Equal(t, "Go on", doctest.Find[doc.Field](days(s).Of...)[0].Name)
	require.True(t, s.StageDone(route.Waste))
	assert.Contains(t, doctest.Text(days(s).Of...), "nothing is left")
}

// school is eight Tuesdays of 90 minutes, as a school does them.
const school = "v=1&days.start=2026-03-03T14:00&days.from=14:00&days.long=90&days.every=7&by.wash=staff&by.line=staff&by.gas=shown&by.filter=staff&by.dissolve=staff&by.evaporate=air&club.groups=8&club.batch=one&club.pupils=24"

func TestSchoolWeeksComeOut(t *testing.T) {
	s := from(school)
	require.Empty(t, s.Troubles())
	require.Empty(t, asksSession(s).Problem)
	list := brief(s)
	var names []string
	for _, day := range list {
		names = append(names, day.Name)
	}
	assert.Equal(t, []string{
		"The evening before, Monday 2 March 2026",
		"Session 1, Tuesday 3 March 2026", "Between sessions 1 and 2, by an adult",
		"Session 2, Tuesday 10 March 2026", "Between sessions 2 and 3, by an adult",
		"Session 3, Tuesday 17 March 2026", "Session 4, Tuesday 24 March 2026", "Session 5, Tuesday 31 March 2026",
	}, names)
	assert.Equal(t, "Wash 4 times, 3\u202fh\u202f00.", list[2].Says)
	assert.Contains(t, list[3].Says, "make the gas, shown")
	assert.Contains(t, list[4].Says, "make the gas, 1\u202fh\u202f50")
	assert.NotContains(t, list[4].Says, "03:", "an adult's hours are their own")
	assert.Contains(t, list[4].Says, "leave the liquor to dry, about 5 days")
	assert.Contains(t, doctest.Text(list[4].More), "Begun the same day or the day after")
	assert.Contains(t, doctest.Text(list[3].More), "On the shelf: acid slurry; wash liquor.")
	assert.Contains(t, doctest.Text(list[4].More), "On the shelf: liquor in trays, drying; blue crystals, growing; wash liquor; black residue of the filter.")
	row, table, says := timetable(s)
	assert.Contains(t, says, "the work takes 5 sessions over 29 days")
	assert.Contains(t, says, "Between sessions an adult works 7\u202fh\u202f45")
	assert.Equal(t, "between sessions", row("Wash")[1])
	by := map[string]string{}
	for _, c := range doctest.Find[doc.Control](table) {
		for _, o := range c.Options {
			if o.Chosen {
				by[c.Key] = o.Word
			}
		}
	}
	assert.Equal(t, "staff", by["by.wash"])
	assert.Equal(t, "shown", by["by.gas"])
	assert.Equal(t, "class", by["by.open"])
	assert.Equal(t, "air", by["by.evaporate"])
	assert.NotContains(t, by, "by.cool")
	assert.NotContains(t, by, "by.ready")
}

func TestWhatWouldFitIsOfferedAtOneTouch(t *testing.T) {
	s := from("days.start=2026-03-03T14:00&days.from=14:00&days.long=90&days.every=7&club.groups=8")
	made := days(s)
	assert.NotContains(t, made.Plain(), "Do this", "a text has nothing to press")
	var asks []doc.Button
	for _, b := range doctest.Find[doc.Button](made.Of...) {
		if b.Action == Fit {
			asks = append(asks, b)
		}
	}
	require.NotEmpty(t, asks)
	offer, ok := FitOf(s, asks[0].Value)
	require.True(t, ok)
	for _, change := range offer.Set {
		s.Edit(change.Key, change.Text)
	}
	assert.Empty(t, asksSession(s).Problem, "one touch, and it fits")
	_, ok = FitOf(s, "anything else")
	assert.False(t, ok)
	assert.Empty(t, doctest.Find[doc.Button](days(from("days.start=2026-03-03T09:00")).Of...), "working days need none")
}

func TestASecondSessionMustComeBeforeTheNext(t *testing.T) {
	problem := func(fragment string) string {
		for _, f := range doctest.Find[doc.Field](days(from(fragment)).Of...) {
			if f.Key == procedure.SecondKey {
				return f.Problem
			}
		}
		return "no field"
	}
	assert.Contains(t, problem("days.every=7&days.second=9"), "after 7 days anyway")
	assert.Empty(t, problem("days.every=7&days.second=2"))
	assert.Empty(t, problem(""))
}

// TestOffersOfARunLeaveItsPlan: what is fixed is not offered to be changed, and what is done is
// not given to anybody.
func TestOffersOfARunLeaveItsPlan(t *testing.T) {
	s := from("days.start=2026-03-03T14:00&days.from=14:00&days.long=90&days.every=7")
	require.True(t, s.StartRun())
	require.True(t, s.StageDone(route.Batch))
	list := s.Work(s.Begin).Offers()
	require.NotEmpty(t, list)
	for _, o := range list {
		for _, change := range o.Set {
			_, plan := route.InputByKey(change.Key)
			assert.False(t, plan, change.Key)
			assert.NotEqual(t, "by.wash", change.Key, "it is washed")
		}
	}
}

// TestDaysSayHowOftenTheFlaskIsCharged: in a plan of batches how many turns and how many a day, and
// what the flask wants between them; for groups that each has one, where it holds hot acid.
func TestDaysSayHowOftenTheFlaskIsCharged(t *testing.T) {
	says := func(fragment string) string { return doctest.HTML(days(from(fragment))) }
	assert.Contains(t, says("batch.runs=3"), "The gas is made in 3 turns with one flask, at most 1 a day: between two of them it is left to cool for 8\u202fh\u202f00, emptied, rinsed and dried before hot acid goes in again.")
	assert.Contains(t, says("batch.runs=3&gas.source=metabisulfite"), "in 3 turns with one flask, at most 2 a day: between two of them it is emptied outdoors")
	assert.NotContains(t, says(""), "turns")
	assert.NotContains(t, says("batch.runs=3&gas.source=peroxide"), "flask")
	club := func(fragment string) string { return doctest.HTML(groups(from("club.groups=8&" + fragment))) }
	const own = "Every turn has a flask of its own: one that held hot acid is left to cool for 8\u202fh\u202f00, emptied, rinsed and dried"
	assert.Contains(t, club(""), own)
	assert.Contains(t, says("club.groups=8"), own)
	assert.NotContains(t, club("gas.source=metabisulfite"), "flask of its own:")
	assert.NotContains(t, club("club.atonce=8"), "flask of its own:")
}
