package gaslog

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/sound"
	"rosesalt/chem/spread"
)

var usual = sound.Band{Best: 0.14, Low: 0.10, High: 0.20}

func demo(t *testing.T) (*route.Plan, *route.Sheet) {
	t.Helper()
	p := route.NewPlan()
	return &p, new(route.Runner).Run(&p)
}

// evenly is the plan's own pace, written into so many rows.
func evenly(t *testing.T, p *route.Plan, s *route.Sheet, rows int) Readings {
	t.Helper()
	each, err := Made(Readings{}.Outlet(p, s), sound.Exactly(usual.Best))
	require.NoError(t, err)
	r := Readings{}
	for i := 1; i <= rows; i++ {
		r[Key(i*Each, Rate)] = s.Value(route.GasMade) / float64(p.GasMinutes) / each.Best
	}
	return r
}

func TestThePlansOwnPaceIsOnTime(t *testing.T) {
	p, s := demo(t)
	log, err := Evaluate(evenly(t, p, s, 18), usual, p, s)
	require.NoError(t, err)
	require.Len(t, log.Rows, 18)
	for _, row := range log.Rows {
		assert.InDelta(t, 0, float64(row.Ahead), 0.1, "minute %d", row.Minute)
		assert.InEpsilon(t, row.Planned, row.Gas.Best, 0.002)
	}
	assert.InEpsilon(t, s.Value(route.GasMade), log.Made.Best, 0.002, "at its end all the gas is made")
	assert.InEpsilon(t, s.Value(route.GasMade)-s.Value(route.GasPurged), log.Gas.Best, 0.02, "and but for what stays in the flask led in")
	assert.True(t, log.Reached)
	assert.InDelta(t, s.Value(route.MetMinute), log.Met.Best, 1.5)
}

func TestTheDemandIsForeseen(t *testing.T) {
	p, s := demo(t)
	log, err := Evaluate(evenly(t, p, s, 6), usual, p, s)
	require.NoError(t, err)
	assert.False(t, log.Reached)
	assert.InDelta(t, s.Value(route.MetMinute), log.Met.Best, 2)
	assert.Less(t, log.Met.Low, log.Met.Best-5, "with larger bubbles it is sooner")
	assert.Greater(t, log.Met.High, log.Met.Best+5)
}

func TestHalfThePaceIsBehind(t *testing.T) {
	p, s := demo(t)
	r := evenly(t, p, s, 12)
	for key := range r {
		r[key] /= 2
	}
	log, err := Evaluate(r, usual, p, s)
	require.NoError(t, err)
	assert.InDelta(t, -30, float64(log.Rows[11].Ahead), 0.3)
}

// TestUnevenRowsByHand: 600 a minute at 5, nothing read at 10, 1800 at 15.
func TestUnevenRowsByHand(t *testing.T) {
	p, s := demo(t)
	log, err := Evaluate(Readings{Key(5, Rate): 600, Key(10, Celsius): 8, Key(15, Rate): 1800, Key(20, Paper): Bleaches}, usual, p, s)
	require.NoError(t, err)
	require.Len(t, log.Rows, 4)
	// 600 a minute until half-way between minute 5 and minute 14, then 1800: 5700 and 9900
	// bubbles of 0.14 mL; a mole fills 23.7 L at 20 °C, and some 1 % of it is water vapour.
	assert.InEpsilon(t, 15600*0.14/23.7*0.99, log.Made.Best, 0.01)
	assert.Less(t, log.Gas.Best, log.Made.Best-5, "the air of the flask is no gas")
	assert.Equal(t, 15, log.Last)
	assert.Zero(t, log.Rows[1].Gas.Best)
	assert.False(t, quantity.Given(float64(log.Rows[1].Ahead)), "a row without a rate does not say how far it is")
	assert.Equal(t, Bleaches, log.Rows[3].Paper)
}

func TestPassedBetweenRowsIsEven(t *testing.T) {
	from := sound.Tally{At: 300, Gas: sound.Band{Low: 40, Best: 50, High: 60}}
	to := sound.Tally{At: 600, Gas: sound.Band{Low: 80, Best: 100, High: 120}}
	met := passes(unknown, from, to, 90)
	assert.InDelta(t, 7.5, met.Low, 1e-9)
	assert.InDelta(t, 9, met.Best, 1e-9)
	assert.False(t, quantity.Given(met.High), "by the least gas not yet")
}

func TestTheBubbleByEachWay(t *testing.T) {
	p, s := demo(t)
	c := &spread.Case{Plan: *p, Given: map[string]spread.Interval{}}
	line := Readings{}.Outlet(p, s)
	b, err := Readings{}.Bubble(c, line)
	require.NoError(t, err)
	assert.Equal(t, usual, b, "as planned, with the estimate's interval")
	c.Given["gas.bubble"] = spread.Interval{Low: 0.13, High: 0.15}
	b, err = Readings{}.Bubble(c, line)
	require.NoError(t, err)
	assert.Equal(t, sound.Band{Low: 0.13, Best: 0.14, High: 0.15}, b)

	_, err = Readings{KeyWay: FromBore}.Bubble(c, line)
	assert.Equal(t, MissingReading(KeyBore), err)
	six, err := Readings{KeyWay: FromBore, KeyBore: 6}.Bubble(c, line)
	require.NoError(t, err)
	three, err := Readings{KeyWay: FromBore, KeyBore: 3}.Bubble(c, line)
	require.NoError(t, err)
	assert.InDelta(t, 2, six.Best/three.Best, 0.2, "about as the bore")

	_, err = Readings{KeyWay: Caught, KeyCaught: 50}.Bubble(c, line)
	assert.Equal(t, MissingReading(KeyFilled), err)
	b, err = Readings{KeyWay: Caught, KeyCaught: 50, KeyFilled: 8}.Bubble(c, line)
	require.NoError(t, err)
	assert.InDelta(t, 0.16, b.Best, 1e-12)
	assert.Less(t, b.High, 0.17)
}

func TestTheLineFollowsThePlan(t *testing.T) {
	p, s := demo(t)
	l := Readings{KeyDepth: 45}.Outlet(p, s)
	assert.EqualValues(t, 45, l.Depth)
	assert.Equal(t, p.SlurryTemperature, l.Liquid)
	assert.InDelta(t, s.Value(route.GasPurgeUsed), float64(l.Displaced), 1e-9)
	p.AirTemperature = p.SlurryTemperature + 7
	assert.Equal(t, p.AirTemperature, Readings{KeyWhere: InBottle}.Outlet(p, s).Liquid)
}

func TestNoGasComesIsNeverMet(t *testing.T) {
	p, s := demo(t)
	log, err := Evaluate(Readings{Key(5, Rate): 0}, usual, p, s)
	require.NoError(t, err)
	assert.True(t, math.IsInf(log.Met.Best, 1))
}

func TestNothingReadIsAnEmptyLog(t *testing.T) {
	p, s := demo(t)
	log, err := Evaluate(nil, usual, p, s)
	require.NoError(t, err)
	assert.Empty(t, log.Rows)
	assert.False(t, quantity.Given(log.Met.Best))
	_, err = Evaluate(nil, sound.Band{}, p, s)
	assert.Error(t, err)
}

func TestStirredInHasNoPace(t *testing.T) {
	p := route.NewPlan()
	in, _ := route.InputByKey("gas.source")
	require.NoError(t, in.Choose(&p, "peroxide"))
	log, err := Evaluate(Readings{Key(5, Rate): 60}, usual, &p, new(route.Runner).Run(&p))
	require.NoError(t, err)
	assert.False(t, quantity.Given(log.Rows[0].Planned))
	assert.False(t, quantity.Given(log.Met.Best))
}

func TestEveryKeyIsFoundAndRead(t *testing.T) {
	assert.Len(t, Inputs(), 8+3*Longest/Each)
	for _, in := range Inputs() {
		assert.True(t, inputs.Has(in.Key))
		if in.Options != nil {
			for i, o := range in.Options {
				v, err := in.Take(o.Word)
				require.NoError(t, err)
				assert.EqualValues(t, i, v)
				assert.Equal(t, o.Word, in.Write(v))
			}
		}
	}
	minute, ok := Minute(Key(45, Paper))
	assert.True(t, ok)
	assert.Equal(t, 45, minute)
	_, ok = Minute(KeyBore)
	assert.False(t, ok)
	in, _ := InputByKey(Key(5, Celsius))
	_, err := in.Take("120")
	assert.ErrorContains(t, err, "120")
}

func TestTheTubeOutlastsTheRun(t *testing.T) {
	kept := Readings{KeyWay: FromBore, KeyBore: 6, Key(5, Rate): 100}.Tube()
	assert.Equal(t, Readings{KeyWay: FromBore, KeyBore: 6}, kept)
}
