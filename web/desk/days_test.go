package desk_test

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

func TestTimesMoveTheDaysAndNotThePlan(t *testing.T) {
	d := desk.New("")
	saturday := time.Date(2026, 3, 7, 9, 0, 0, 0, time.UTC)
	before, err := d.Timetable(saturday)
	require.NoError(t, err)
	product := d.Sheet().Value(route.ProductMass)
	d.Edit("time.soak", "2 h")
	assert.Equal(t, "2 h", d.Text("time.soak"), "what was typed stays")
	after, err := d.Timetable(saturday)
	require.NoError(t, err)
	assert.Equal(t, saturday, after.Start)
	assert.Equal(t, product, d.Sheet().Value(route.ProductMass))
	for i, st := range after.Steps {
		if st.Key == "soak" {
			assert.Equal(t, quantity.Minute(120), st.Minutes)
			assert.True(t, st.TimeSet)
		}
		if st.Key == "wash" {
			i := slotOf(after.Slots, i)
			assert.Equal(t, time.Hour, after.Slots[i].Start.Sub(before.Slots[i].Start))
		}
	}
	assert.Equal(t, "v=2&time.soak=120", d.Fragment())
	d.Edit("time.soak", "a while")
	assert.Contains(t, d.Problem("time.soak"), "cannot be read as minutes")
	assert.Equal(t, "v=2&time.soak=120", d.Fragment(), "the last good one stays")
	d.Edit("time.soak", "")
	assert.Equal(t, "v=2", d.Fragment())
}

// TestBothHoursOfASessionAreTypedAtOnce: each goes to its field, and what is typed into the other
// afterwards counts there.
func TestBothHoursOfASessionAreTypedAtOnce(t *testing.T) {
	d := desk.New("v=2&days.every=7")
	d.Edit(procedure.FromKey, "10:00")
	for _, text := range []string{"14", "14 to", "14 to 1", "14 to 18"} { // key by key
		d.Edit(procedure.LongKey, text)
	}
	assert.Equal(t, "v=2&days.from=14:00&days.long=240&days.every=7", d.Fragment())
	assert.Equal(t, "14:00", d.Text(procedure.FromKey))
	assert.Equal(t, "to 18", d.Text(procedure.LongKey))
	assert.Zero(t, d.FaultCount())
	d.Edit(procedure.FromKey, "15:00")
	assert.Equal(t, "v=2&days.from=15:00&days.long=180&days.every=7", d.Fragment(), "it is over when it was to be")
	d.Edit(procedure.LongKey, "14 to 14:10")
	assert.Contains(t, d.Problem(procedure.LongKey), "A session of 10 min")
}

func slotOf(slots []procedure.Slot, step int) int {
	for i, s := range slots {
		if s.Step == step {
			return i
		}
	}
	return -1
}

func TestStartAndFinishTakeEachOthersPlace(t *testing.T) {
	d := desk.New("days.start=2026-03-02T09:00")
	d.Edit("days.finish", "2026-03-08T18:00")
	assert.Equal(t, "v=2&days.finish=2026-03-08T18:00", d.Fragment())
	assert.Empty(t, d.Text("days.start"))
	d.Edit("days.start", "2026-03-05T09:30")
	assert.Empty(t, d.Text("days.finish"))
	days, err := d.Timetable(time.Time{})
	require.NoError(t, err)
	assert.Equal(t, time.Date(2026, 3, 5, 9, 30, 0, 0, time.UTC), days.Start)
	d.Edit("days.long", "9 min")
	assert.Contains(t, d.Problem("days.long"), "30 to 1440")
}

func TestTheNextRunKeepsTheTimes(t *testing.T) {
	d := desk.New("time.filter=200&days.start=2026-03-02T09:00")
	require.True(t, d.StartRun())
	assert.Contains(t, d.Fragment(), "days.start=2026-03-02T09:00")
	d.Edit("time.soak", "90")
	assert.Contains(t, d.Fragment(), "time.soak=90", "times are no part of the fixed plan")
	d.DropRun()
	assert.Contains(t, d.Fragment(), "time.filter=200")
}

// A beaker without water is no reason to fall over: the days are laid out all the same.
func TestDaysStandWithoutWater(t *testing.T) {
	for _, fragment := range []string{"v=2&copper.water=0", "v=2&slurry.water=0&slurry.acid=0", "v=2&slurry.water=0", "v=2&gas.source=oxalic&slurry.water=0&slurry.acid=0"} {
		d := desk.New(fragment)
		assert.NotPanics(t, func() {
			assert.NotEmpty(t, d.Steps())
			procedure.Evening(d.Plan(), d.Sheet(), d.Reagents())
		}, fragment)
	}
}

func TestTimetableBeginsAtWhatIsLeft(t *testing.T) {
	d := desk.New("days.start=2026-03-07T09:00")
	require.True(t, d.StartRun())
	keys := func() (list []string) {
		days, err := d.Timetable(time.Time{})
		require.NoError(t, err)
		for _, s := range days.Slots {
			list = append(list, days.Steps[s.Step].Key)
		}
		return list
	}
	all := keys()
	assert.Contains(t, all, "ready")
	require.True(t, d.StageDone(route.Batch))
	left := keys()
	assert.Less(t, len(left), len(all))
	for _, done := range []string{"ready", "open", "soak", "wash", "divide"} {
		assert.NotContains(t, left, done)
	}
	days, err := d.Timetable(time.Time{})
	require.NoError(t, err)
	first := days.Slots[slotOf(days.Slots, place(days.Steps, "slurry"))]
	assert.Equal(t, days.Start, first.Start, "the first of the day is what is left")
	require.True(t, d.StageDone(route.Slurry))
	left = keys()
	assert.Contains(t, left, "cool", "the residue is not dissolved before the flask is cold")
	assert.NotContains(t, left, "gas")
	require.True(t, d.StageDone(route.CopperSalt))
	assert.NotContains(t, keys(), "cool")
	require.True(t, d.StageDone(route.Waste))
	days, err = d.Timetable(time.Time{})
	require.NoError(t, err)
	assert.Zero(t, days.Left)
	assert.NotEmpty(t, days.Steps, "the sheet still has them all")
}

func place(steps []procedure.Step, key string) int {
	for i, s := range steps {
		if s.Key == key {
			return i
		}
	}
	return -1
}

// TestRefusalNamesTheStepAmongAll: what does not fit is named by its own name, also when
// steps before it are done.
func TestRefusalNamesTheStepAmongAll(t *testing.T) {
	d := desk.New("days.long=60")
	require.True(t, d.StartRun())
	require.True(t, d.StageDone(route.Batch))
	days, err := d.Timetable(time.Date(2026, 3, 7, 9, 0, 0, 0, time.UTC))
	long, ok := errors.AsType[procedure.TooLong](err)
	require.True(t, ok)
	assert.Equal(t, "charge", days.Steps[long.Step].Key)
}

// TestStepsFollowWhatIsTyped: they are made once for all that ask, and anew for every change
// of the plan, of the times and of the hands.
func TestStepsFollowWhatIsTyped(t *testing.T) {
	d := desk.New("")
	print := func(d *desk.Desk) string { return fmt.Sprint(d.Steps()) } // what is not a number equals nothing
	for _, c := range [][2]string{
		{"cell.count", "9"},
		{"time.soak", "2 h"},
		{"time.soak", "a while"},
		{"time.soak", ""},
		{"by.wash", "staff"},
		{"batch.share", "40"},
		{"cell.count", "nine"},
		{"gas.acid", "31"},
		{"cell.count", "0"},
		{"cell.count", "4"},
	} {
		before := print(d)
		d.Edit(c[0], c[1])
		require.True(t, print(desk.New(d.Fragment())) == print(d), c)
		if c[1] == "9" || c[1] == "2 h" || c[1] == "staff" {
			require.True(t, before != print(d), c)
		}
	}
	d.Reset()
	require.True(t, print(desk.New("")) == print(d))
}
