package procedure_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

func TestReadMinutes(t *testing.T) {
	for text, want := range map[string]quantity.Minute{
		"90": 90, "90 min": 90, "1 h 30": 90, "1h30min": 90, "1.5 h": 90, "1,5 h": 90, "1:30": 90, "2 hours": 120, " 45\u202fmin ": 45, "0": 0, "7.5": 8,
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
