package section

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
	"rosesalt/web/runs"
	"rosesalt/web/runs/shelftest"
)

func weighedRun(t *testing.T) *desk.Desk {
	d := desk.New("v=1&cell.count=9&found.product=30&found.copper=60")
	for !d.StepBands(desk.Draws) {
	}
	for !d.StepRest(desk.Draws) {
	}
	require.True(t, d.Account().OK())
	return d
}

func TestKeptRunsStandSideBySide(t *testing.T) {
	d := weighedRun(t)
	k := &Kept{Store: runs.Open(shelftest.New()), Counted: map[string]bool{}, Says: []string{"The run is kept."}}
	s := &Source{Desk: d, Kept: k}
	assert.Empty(t, doctest.Find[doc.Table](kept(s).Of...), "nothing is kept")

	told, err := k.Store.Keep(runs.State{
		Kept: "2026-03-14T09:30:00Z", Name: "lamp", Notes: "damp", Plan: d.Fragment(), Told: d.Account().Told(),
		Learned: map[string]runs.Interval{runs.Uptake: {60, 70, 80}},
	})
	require.NoError(t, err)
	plain, err := k.Store.Keep(runs.State{Kept: "2026-03-15T09:30:00Z", Plan: "v=1&cell.count=3"})
	require.NoError(t, err)
	k.Opened = told

	made := kept(s)
	table := doctest.Find[doc.Table](made.Of...)[0]
	require.Len(t, table.Rows, 2)
	for _, row := range table.Rows {
		require.Len(t, row, len(table.Heads))
	}
	first, second := table.Rows[0], table.Rows[1]
	assert.Equal(t, []string{"not weighed", "3 × R14", "–"}, []string{doctest.Text(first[1]), doctest.Text(first[2]), doctest.Text(first[4])})
	assert.Contains(t, doctest.Text(second...), "30\u202fg")
	assert.Contains(t, doctest.Text(second...), "70\u202f% (60–80)")
	assert.Contains(t, doctest.Text(second...), "damp")
	tick := second[1].(doc.Tick)
	assert.Equal(t, doc.Tick{Class: "tick", Label: "Count “lamp” together with others", Action: CountRun, Value: told}, tick)
	assert.Equal(t, []string{OpenRun + " " + plain, ForgetRun + " " + plain}, pressed(first[8]))
	assert.Contains(t, pressed(made.Of...), ChangeRun+" "+told)
	assert.NotContains(t, pressed(made.Of...), PlanTogether+" ")
	assert.Contains(t, doctest.HTML(made), "The run is kept.")
	assert.Equal(t, []string{"v=1&cell.count=3", d.Fragment()}, k.Plans())

	k.Counted[told] = true
	made = kept(s)
	assert.Contains(t, pressed(made.Of...), PlanTogether+" ")
	assert.Contains(t, doctest.Text(made.Of...), "From one run. They must be")
	learned, n, left := k.Together()
	assert.NotEmpty(t, learned)
	assert.Equal(t, []int{1, 0}, []int{n, left})
	assert.Contains(t, doctest.Text(made.Of...), learned[0].Input.Name+": ")

	gone, err := k.Store.Forget(plain)
	require.NoError(t, err)
	k.Undo = &gone
	assert.Contains(t, doctest.HTML(kept(s)), "back</button>")
}

// pressed lists what the buttons of nodes ask for.
func pressed(of ...doc.Node) (list []string) {
	for _, b := range doctest.Find[doc.Button](of...) {
		list = append(list, b.Action+" "+b.Value)
	}
	return list
}

func TestIntervalsReadWithTheirUnit(t *testing.T) {
	assert.Equal(t, "30.0\u202fg (28.0–33.0)", Reads(account.Interval{Low: 28, Median: 30, High: 33}, "g"))
	assert.Equal(t, "1.50\u202fkg (1.40–1.60)", Reads(account.Interval{Low: 1400, Median: 1500, High: 1600}, "g"))
}

func TestWhatWasLeftIsOffered(t *testing.T) {
	assert.Nil(t, Left("", nil), "nothing is said of nothing")
	assert.Equal(t, "Forbidden.", doctest.Text(Left("Forbidden.", nil)...))
	one := Left("", []Offer{{"a", "the plan of today"}})
	assert.Equal(t, []string{GoOn + " a", Forget + " a"}, pressed(one...))
	assert.Contains(t, doctest.Text(one...), "Go on with the plan of today?")
	three := Left("", []Offer{{"a", "1"}, {"b", "2"}, {"c", "3"}})
	fold := doctest.Find[doc.Fold](three...)[0]
	assert.Len(t, fold.Of, 2)
	assert.Len(t, pressed(three...), 6)
}

func TestPasteSaysWhyNot(t *testing.T) {
	area := func(said string) doc.Control { return doctest.Find[doc.Control](Paste(said)...)[0] }
	assert.False(t, area("").Bad)
	assert.True(t, area("no plan").Bad)
	for _, id := range strings.Fields(area("no plan").Described) {
		assert.Contains(t, doctest.HTML(doc.Section{Of: Paste("no plan")}), fmt.Sprintf("id=%q", id))
	}
	assert.Equal(t, []string{OpenPaste + " ", ShowPaste + " "}, pressed(Paste("")...))
}
