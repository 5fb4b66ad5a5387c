package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

func input(t *testing.T, key string) *route.Input {
	t.Helper()
	in, ok := route.InputByKey(key)
	require.True(t, ok, key)
	return in
}

func TestBadTextKeepsTheLastGoodValue(t *testing.T) {
	d := desk.New("cell.count=4")
	good := d.Sheet().Value(route.ProductMass)
	d.Edit("cell.count", "four")
	assert.Equal(t, "four", d.Text(input(t, "cell.count")))
	assert.Contains(t, d.Problem("cell.count"), "“four” cannot be read")
	assert.Equal(t, good, d.Sheet().Value(route.ProductMass))
	assert.Equal(t, route.Cells, d.OldFrom())
	assert.Equal(t, "v=1&cell.count=4", d.Fragment())

	d.Edit("cell.count", "8")
	assert.Empty(t, d.Problem("cell.count"))
	assert.Equal(t, route.Stage(route.Stages), d.OldFrom())
	assert.InDelta(t, 2*good, d.Sheet().Value(route.ProductMass), 0.05*good)
}

func TestPairsThatDoNotGoTogetherBlameWhatWasTyped(t *testing.T) {
	d := desk.New("")
	d.Edit("gas.strength", "70")
	assert.Contains(t, d.Problem("gas.strength"), "cannot weaken")
	assert.Empty(t, d.Problem("gas.end"))
	d.Edit("gas.end", "60")
	assert.Empty(t, d.Problem("gas.strength"), "with the other half typed the pair is good")
	assert.Equal(t, 70.0, float64(d.Plan().GasStrength))
}

func TestSeveralBadFieldsAtOnce(t *testing.T) {
	d := desk.New("")
	d.Edit("copper.cold", "x")
	d.Edit("gas.flask", "-1")
	d.Edit("cell.count", "12")
	assert.Equal(t, 2, d.Wrong())
	assert.Equal(t, 12.0, d.Plan().Rows[0].Count)
	assert.Equal(t, route.Gas, d.OldFrom())
}

func TestRows(t *testing.T) {
	d := desk.New("cell.3.count=2")
	assert.Equal(t, []int{1, 3}, d.Rows())
	require.True(t, d.AddRow())
	assert.Equal(t, []int{1, 2, 3}, d.Rows())
	d.Edit("cell.2.count", "")
	assert.Equal(t, []int{1, 2, 3}, d.Rows(), "a row being typed in stays")
	d.Clear(2)
	assert.Equal(t, []int{1, 3}, d.Rows())
	for range route.MaxRows - 2 {
		require.True(t, d.AddRow())
	}
	assert.False(t, d.AddRow(), "the bag is full")
}

func TestOpenForgetsTexts(t *testing.T) {
	d := desk.New("")
	d.Edit("cell.count", "seven")
	d.Open("v=1&cell.count=3")
	assert.Equal(t, "3", d.Text(input(t, "cell.count")))
	assert.Zero(t, d.Wrong())
}

func TestUnknownKeyChangesNothing(t *testing.T) {
	d := desk.New("")
	d.Edit("tea.sugar", "2")
	assert.Equal(t, "v=1", d.Fragment())
}
