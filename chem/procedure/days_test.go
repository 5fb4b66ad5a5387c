package procedure_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/field"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

func TestReadMinutes(t *testing.T) {
	for text, want := range map[string]quantity.Minute{
		"90": 90, "90 min": 90, "1 h 30": 90, "1\u202fh\u202f30": 90, "1h30min": 90, "1.5 h": 90, "1,5 h": 90, "1:30": 90, "2 hours": 120, " 45\u202fmin ": 45, "0": 0, "7.5": 8,
	} {
		got, err := procedure.ReadMinutes(text)
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"soon", "-5", "1:75", "1e3", "20000", "h", "5 days", strings.Repeat("9", 400)} {
		got, err := procedure.ReadMinutes(text)
		if text == "h" { // no number at all
			assert.Error(t, err)
			continue
		}
		assert.Error(t, err, "%q gave %v", text, got)
	}
	blank, err := procedure.ReadMinutes("  ")
	require.NoError(t, err)
	assert.False(t, quantity.Given(blank))
}

func TestTimesAreOfKnownSteps(t *testing.T) {
	times := procedure.Durations{}
	require.NoError(t, times.Set("gas", 75))
	assert.Error(t, times.Set("tea", 5))
	assert.Error(t, times.Set("gas", procedure.Longest+1))
	assert.Error(t, times.Set("gas", -1))
	assert.Equal(t, procedure.Durations{"gas": 75}, times)
	require.NoError(t, times.Set("gas", quantity.Minute(quantity.Blank)))
	assert.Empty(t, times)
}

func TestDaysFromStartOrToFinish(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	days := procedure.NewDays()
	start, slots, err := days.Lay(list, monday)
	require.NoError(t, err)
	assert.Equal(t, monday, start)
	end := slots[len(slots)-1].End
	days.Finish = end
	start, _, err = days.Lay(list, time.Time{})
	require.NoError(t, err)
	assert.Equal(t, monday, start, "to be over when it was over, the same start is the latest")
	days.Start, days.Finish = monday.AddDate(0, 0, 7), time.Time{}
	start, _, err = days.Lay(list, monday)
	require.NoError(t, err)
	assert.Equal(t, days.Start, start)
}

// TestBeginOutsideTheHoursIsTold: work begins when somebody is at the bench, and the days say why
// that is not when it was typed; what meets weekly goes on meeting on the weekday that was typed.
func TestBeginOutsideTheHoursIsTold(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	at := func(hour, minute int) time.Time { return time.Date(2026, 3, 3, hour, minute, 0, 0, time.UTC) } // a Tuesday
	for _, c := range []struct {
		name         string
		start, opens time.Time
		from, long   int // hours
		every        int
		out, says    string
		otherDay     bool
	}{
		{name: "within", start: at(15, 0), opens: at(15, 0), from: 9, long: 9},
		{name: "before", start: at(9, 0), opens: at(15, 0), from: 15, long: 3, says: "It begins at 15:00: before that nobody is at the bench."},
		{
			name: "behind", start: at(15, 0), opens: at(9, 0).AddDate(0, 0, 1), from: 9, long: 5, otherDay: true,
			says: "Nobody is at the bench on Tuesday 3 March after 14:00. So the work begins on Wednesday 4 March, 09:00. Begin earlier, or be at the bench from 15:00.",
		},
		{
			name: "behind, and weekly", start: at(15, 0), opens: at(9, 0).AddDate(0, 0, 7), from: 9, long: 5, every: 7, otherDay: true,
			says: "Nobody is at the bench on Tuesday 3 March after 14:00. So the work begins on Tuesday 10 March, 09:00. Begin earlier, or be at the bench from 15:00.",
		},
		{
			name: "at its end", start: at(17, 55), opens: at(9, 0).AddDate(0, 0, 1), from: 9, long: 9, otherDay: true,
			says: "After 17:55 too little is left of the session for “Open the cells”. So the work begins on Wednesday 4 March, 09:00. Begin earlier, or be at the bench for longer.",
		},
		{
			name: "left out", start: at(9, 0), opens: at(9, 0).AddDate(0, 0, 2), from: 9, long: 9, out: "2026-03-03..2026-03-04", otherDay: true,
			says: "Tuesday 3 March is left out by “Not on”. So the work begins on Thursday 5 March, 09:00.",
		},
		{name: "a night", start: at(1, 0), opens: at(1, 0), from: 22, long: 6, every: 7},
	} {
		days := procedure.NewDays()
		days.Start, days.From, days.Long, days.Every = c.start, time.Duration(c.from)*time.Hour, time.Duration(c.long)*time.Hour, c.every
		days.Out = spans(t, c.out)
		_, slots, err := days.Lay(list, monday)
		require.NoError(t, err, c.name)
		assert.Equal(t, c.opens, slots[2].Start, c.name)
		day := 1
		if c.name == "at its end" {
			day = 2 // that session is the first, though nothing is done in it
		}
		assert.Equal(t, day, slots[2].Day, c.name)
		assert.Equal(t, midnight(c.opens).AddDate(0, 0, -day), midnight(slots[0].Start), "%s: the evening before is that before the first session", c.name)
		says, otherDay := days.Later(list, slots)
		assert.Equal(t, c.says, says, c.name)
		assert.Equal(t, c.otherDay, otherDay, c.name)
		days.Start = time.Time{}
		says, _ = days.Later(list, slots)
		assert.Empty(t, says, "nobody typed a start")
	}
}

func TestSessionIsReadByItsEnd(t *testing.T) {
	days := procedure.NewDays()
	form := days.Form()
	set := func(key, text string) error {
		f, ok := form.Find(key)
		require.True(t, ok)
		return form.Set(f, text)
	}
	require.NoError(t, set(procedure.FromKey, "14:00"))
	for text, long := range map[string]time.Duration{
		"to 18:00": 4 * time.Hour, "until 18.30": 270 * time.Minute, " To 18 ": 4 * time.Hour, "till 2": 12 * time.Hour, "to 24": 10 * time.Hour, "to 14:00": 24 * time.Hour, "4 h": 4 * time.Hour,
	} {
		require.NoError(t, set(procedure.LongKey, text), text)
		assert.Equal(t, long, days.Long, text)
	}
	for text, says := range map[string]string{
		"to 14:10": "A session of 10 min is too short", "24 to 18": "or both ends such as 14 to 18", "to 25": "its end such as to 18:00", "afternoon": "cannot be read",
	} {
		require.ErrorContains(t, set(procedure.LongKey, text), says)
	}
	require.NoError(t, set(procedure.LongKey, "13 to 17"))
	assert.Equal(t, [2]time.Duration{13 * time.Hour, 4 * time.Hour}, [2]time.Duration{days.From, days.Long}, "as in a link")
	require.NoError(t, set(procedure.LongKey, "to 18:30"))
	assert.Equal(t, "18:30", days.End().Format("15:04"))
}

// TestSessionIsReadByBothItsEnds: such a text says what stands in two fields; any other says nothing
// of the first.
func TestSessionIsReadByBothItsEnds(t *testing.T) {
	days := procedure.NewDays()
	f, ok := days.Form().Find(procedure.LongKey)
	require.True(t, ok)
	for text, both := range map[string][2]string{
		"14 to 18": {"14:00", "to 18"}, "14–18": {"14:00", "to 18"}, "14-18": {"14:00", "to 18"}, " 14:00 To 18:30 ": {"14:00", "to 18:30"},
		"from 9.15 until 12": {"09:15", "to 12"}, "22 to 2": {"22:00", "to 2"}, "0:00 – 24:00": {"00:00", "to 24:00"},
	} {
		assert.Equal(t, []field.Change{{Key: procedure.FromKey, Text: both[0]}, {Key: procedure.LongKey, Text: both[1]}}, f.Several(text), text)
	}
	for _, text := range []string{"", "240", "4 h", "4,5 h", "4,5", "to 18", "to 14 to 18", "until 14-18", "24 to 18", "14 to 25", "14 to", "14 bis 18", "9 to 12 to 14", "1 h 30"} {
		assert.Nil(t, f.Several(text), text)
	}
}

// TestTwoAfternoonsAreTooFew: all is laid out, what lies beyond them is marked, and the error says
// how many sessions it takes, and whether hours are short or what stands overnight.
func TestTwoAfternoonsAreTooFew(t *testing.T) {
	p := route.NewPlan()
	list := steps(&p, nil)
	days := procedure.NewDays()
	days.Start, days.From, days.Long, days.Most = monday.Add(5*time.Hour), 14*time.Hour, 4*time.Hour, 2
	_, slots, err := days.Lay(list, monday)
	var few procedure.TooFew
	require.ErrorAs(t, err, &few)
	assert.Equal(t, "clear", list[few.Step].Key)
	assert.Equal(t, 6, few.Needs)
	assert.Equal(t, quantity.Minute(8*60), few.Has)
	work := quantity.Minute(0)
	for _, st := range list {
		if !st.Eve && st.Watch != procedure.Overnight {
			work += st.Minutes
		}
	}
	assert.InDelta(t, float64(work), float64(few.Work), 1)
	spent := procedure.TimeOf(list, slots)
	assert.InDelta(t, float64(few.Work), float64(spent.AtIt+spent.Waits), 1)
	assert.ErrorContains(t, err, "it comes after session 2. The work takes 6 sessions: "+procedure.Hours(spent.AtIt)+" at the bench and "+procedure.Hours(spent.Waits)+" while something settles or runs through, and 2 have 8\u202fh\u202f00 in all")
	for _, s := range slots {
		assert.Equal(t, s.Session > 2 && list[s.Step].Watch != procedure.Overnight, s.Beyond, list[s.Step].Key)
	}
	assert.Equal(t, "waste", list[slots[len(slots)-1].Step].Key)
	days.Most = few.Needs
	_, slots, err = days.Lay(list, monday)
	require.NoError(t, err)
	assert.False(t, slots[len(slots)-1].Beyond)
	days.Most, days.Long = 2, 14*time.Hour
	_, _, err = days.Lay(list, monday)
	assert.ErrorContains(t, err, "cannot be broken off")
}

func eveningBefore(p *route.Plan, s *route.Sheet) []procedure.Ready {
	return procedure.Evening(p, s, route.Reagents(p, s))
}

func TestEveningBefore(t *testing.T) {
	p := route.NewPlan()
	var b route.Runner
	list := eveningBefore(&p, b.Run(&p))
	require.Len(t, list, 3)
	text := func(i int) string { return strings.Join(list[i].List, "; ") }
	assert.Contains(t, text(0), "Copper, bare, 29\u202fg")
	assert.Contains(t, text(1), "Dilute acid")
	assert.Contains(t, text(2), "Ice")
	assert.Contains(t, text(2), "residue")
	assert.NotContains(t, text(0), "Ice")
	p.Rows[0].Rejects = p.Rows[0].Count
	assert.Empty(t, eveningBefore(&p, b.Run(&p)))
}

func TestEveningBeforeFollowsTheWay(t *testing.T) {
	for source, want := range map[string]struct {
		bought          string
		paper, residues bool
	}{
		"copper":        {"Copper, bare, ", true, true},
		"metabisulfite": {"Sodium metabisulfite, ", true, false},
		"slurrysalt":    {"Sodium metabisulfite, ", true, false},
		"peroxide":      {"Hydrogen peroxide, ", false, false},
		"oxalic":        {"Oxalic acid dihydrate, ", false, false},
	} {
		p := planOf(t, "gas.source", source)
		var b route.Runner
		sheet := b.Run(&p)
		list := eveningBefore(&p, sheet)
		assert.NotEmpty(t, beginning(list, want.bought), source)
		assert.NotEmpty(t, beginning(list, "Dilute acid, 1 mol/L"), source)
		assert.Equal(t, want.paper, len(beginning(list, "Permanganate paper")) == 1, source)
		assert.Equal(t, want.residues, len(beginning(list, "Water for the flask's residue")) == 1, source)
		assert.Equal(t, []string{"Water for the slurry, " + route.Print(sheet.Value(route.SlurryWaterUsed), "mL")}, beginning(list, "Water for the slurry"), source)
	}
}

// TestWorkThatWaitsForTheFlaskBlamesNoHours: of a run whose gas is done the flask is left to cool
// first, and what waits for it begins late for that, not for the hours of the day.
func TestWorkThatWaitsForTheFlaskBlamesNoHours(t *testing.T) {
	p := route.NewPlan()
	var left []procedure.Step
	for _, st := range steps(&p, nil) {
		if st.Key == "cool" || st.Key == "dissolve" || st.Stage > route.CopperSalt {
			left = append(left, st)
		}
	}
	require.Equal(t, left[0].ID, left[1].Needs)
	for start, says := range map[int]string{
		7:  "“Dissolve the flask's residue” waits for “Let the flask cool”, which is over on Tuesday 3 March, 15:00 at the earliest.",
		9:  "",
		20: "“Dissolve the flask's residue” waits for “Let the flask cool”, which is over on Wednesday 4 March, 04:00 at the earliest.",
	} {
		days := procedure.NewDays()
		days.Start = time.Date(2026, 3, 3, start, 0, 0, 0, time.UTC)
		_, slots, err := days.Lay(left, monday)
		require.NoError(t, err)
		told, otherDay := days.Later(left, slots)
		assert.Equal(t, says, told)
		assert.False(t, otherDay)
	}
}
