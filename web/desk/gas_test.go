package desk

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/chem/gaslog"
	"rosesalt/chem/route"
	"rosesalt/chem/sound"
)

func TestTheGasLogStaysBesideThePlan(t *testing.T) {
	d := New("")
	product := d.Sheet().Value(route.ProductMass)
	d.Edit(gaslog.Key(5, gaslog.Rate), "480")
	d.Edit(gaslog.Key(5, gaslog.Celsius), "8,5")
	d.Edit(gaslog.Key(10, gaslog.Rate), "about 500")
	d.Edit(gaslog.Key(10, gaslog.Paper), "fades")
	assert.Equal(t, product, d.Sheet().Value(route.ProductMass))
	assert.Contains(t, d.Problem(gaslog.Key(10, gaslog.Rate)), "cannot be read")
	assert.Equal(t, "about 500", d.Text(gaslog.Key(10, gaslog.Rate)), "what was typed stays")
	log, err := d.GasLog()
	require.NoError(t, err)
	require.Len(t, log.Rows, 2)
	assert.Equal(t, 5, log.Last)
	assert.Equal(t, "v=2&log.5.rate=480&log.5.celsius=8.5&log.10.paper=fades", d.Fragment())

	again := New(d.Fragment())
	assert.Empty(t, again.Troubles())
	assert.Equal(t, d.Fragment(), again.Fragment())
	assert.Equal(t, "8.5", again.Text(gaslog.Key(5, gaslog.Celsius)))
	assert.Equal(t, "fades", again.Text(gaslog.Key(10, gaslog.Paper)))
	assert.Equal(t, "none", again.Text(gaslog.Key(15, gaslog.Paper)))
}

func TestBadRowsOfALinkAreNamed(t *testing.T) {
	d := New("v=2&log.5.celsius=400&log.7.rate=10&log.10.paper=green&log.bore=6")
	require.Len(t, d.Troubles(), 3)
	assert.Equal(t, "6", d.Text(gaslog.KeyBore))
}

func TestTheBubbleNeedsItsReading(t *testing.T) {
	d := New("")
	b, err := d.GasBubble()
	require.NoError(t, err)
	assert.Equal(t, sound.Band{Low: 0.1, Best: 0.14, High: 0.2}, b)
	d.Edit(gaslog.KeyWay, "caught")
	_, err = d.GasBubble()
	assert.Equal(t, gaslog.MissingReading(gaslog.KeyCaught), err)
	d.Edit(gaslog.KeyCaught, "50")
	d.Edit(gaslog.KeyFilled, "8 mL")
	b, err = d.GasBubble()
	require.NoError(t, err)
	assert.InDelta(t, 0.16, b.Best, 1e-9)
	require.True(t, d.UseBubble(b))
	assert.InDelta(t, 0.16, float64(d.Plan().GasBubble), 1e-9)
	assert.Contains(t, d.Fragment(), "gas.bubble~=")
	require.True(t, d.StartRun())
	assert.False(t, d.UseBubble(b), "a run has its plan fixed")
}

func TestCountedGasIsHandedOverWithItsInterval(t *testing.T) {
	d := New("")
	made := sound.Band{Low: 221.4, Best: 253.37, High: 290.2}
	d.UseGas(made)
	assert.Equal(t, 253.0, d.Record().Gas)
	assert.Equal(t, 37.0, d.Record().OwnHalf(account.KeyGas), "the wider side of the two")
	assert.NotNil(t, d.Account(), "the account begins")
	assert.Contains(t, d.Fragment(), "found.gas=253&found.gas~=37")
	d.UseGas(sound.Exactly(100))
	assert.Contains(t, d.Fragment(), "found.gas=100")
	assert.NotContains(t, d.Fragment(), "found.gas~", "the usual one holds again")
}

func TestTheNextRunKeepsTheTubeAndDropsTheRows(t *testing.T) {
	d := New("v=2&log.bubble=bore&log.bore=6&log.5.rate=480&cell.count=9")
	require.True(t, d.StartRun())
	d.DropRun()
	assert.Contains(t, d.Fragment(), "log.bore=6")
	assert.NotContains(t, d.Fragment(), "log.5")
}
