package sound_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/quantity"
	"rosesalt/chem/sound"
	"rosesalt/chem/sound/soundtest"
	"rosesalt/chem/table/tabletest"
)

func at(kilopascal float64) sound.Outlet {
	return sound.Outlet{Liquid: 20, Air: quantity.Kilopascal(kilopascal), Density: 1}
}

func TestPitchMeetsPublishedValues(t *testing.T) {
	for _, row := range tabletest.Rows(t, "bubble-pitch") {
		air := 0.0
		if row.Text("gas") == "air" {
			air = 1
		}
		row.Meets(t, float64(at(row.Float("kilopascal")).Pitch(sound.Millimetre(row.Float("radius_mm")), air)))
	}
}

func TestSurfaceTensionMeetsPublishedValues(t *testing.T) {
	for _, row := range tabletest.Rows(t, "surface-tension") {
		s, err := sound.SurfaceTension(quantity.Celsius(row.Float("celsius")))
		require.NoError(t, err)
		row.Meets(t, s*1000)
	}
	_, err := sound.SurfaceTension(-1)
	assert.EqualError(t, err, "sound: surface tension: -1 °C is outside 0 to 370 °C")
}

func TestTateMeetsPublishedVolumes(t *testing.T) {
	for _, row := range tabletest.Rows(t, "bubble-volume") {
		l := at(101.325)
		l.Liquid = quantity.Celsius(row.Float("celsius"))
		v, err := sound.Detached(sound.Millimetre(row.Float("bore_mm")), l)
		require.NoError(t, err)
		row.Meets(t, v.Best)
		assert.InEpsilon(t, 0.7, v.Low/v.Best, 1e-9)
		assert.InEpsilon(t, 1.3, v.High/v.Best, 1e-9)
	}
	_, err := sound.Detached(0, at(101.325))
	assert.ErrorContains(t, err, "bore 0 mm")
}

func TestCountsMeetPublishedIntervals(t *testing.T) {
	for _, row := range tabletest.Rows(t, "poisson-interval") {
		b := sound.PoissonAt(int(row.Float("count")), row.Float("confidence"))
		if row.Text("end") == "low" {
			row.Meets(t, b.Low)
		} else {
			row.Meets(t, b.High)
		}
	}
}

// The generator's damping, as the tests' recordings are no better than it.
func TestGeneratedBubblesDieAsPublished(t *testing.T) {
	for _, row := range tabletest.Rows(t, "bubble-damping") {
		row.Meets(t, soundtest.Decay(row.Float("radius_mm")))
	}
}

func TestRadiusTurnsPitchRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := sound.Outlet{
			Liquid: 20, Air: quantity.Kilopascal(rapid.Float64Range(50, 110).Draw(t, "air")),
			Depth: sound.Millimetre(rapid.Float64Range(0, 1000).Draw(t, "depth")), Density: 1.2,
		}
		r := sound.Millimetre(rapid.Float64Range(0.5, 12).Draw(t, "radius"))
		air := rapid.Float64Range(0, 1).Draw(t, "share of air")
		if back := l.Radius(l.Pitch(r, air), air); math.Abs(float64(back-r)) > 1e-9 {
			t.Fatalf("%g became %g", r, back)
		}
		// More pressure, more air, a smaller bubble: higher.
		deeper := l
		deeper.Depth += 10
		if deeper.Pitch(r, air) <= l.Pitch(r, air) || l.Pitch(r, 1) < l.Pitch(r, air) || l.Pitch(r, air) <= l.Pitch(r+0.1, air) {
			t.Fatal("pitch goes the wrong way")
		}
	})
}

func TestSurfaceAndWallHaveTheirPublishedEnds(t *testing.T) {
	assert.InDelta(t, math.Sqrt2, sound.SurfaceFactor(4, 4), 1e-12)
	assert.InDelta(t, math.Sqrt(2.0/3), sound.WallFactor(4, 4), 1e-12)
	assert.InDelta(t, 1, sound.SurfaceFactor(4, 1e6), 1e-5)
	assert.InDelta(t, 1, sound.WallFactor(4, 1e6), 1e-5)
	deep, shallow := sound.UsualOutlet(), sound.UsualOutlet()
	deep.Depth, shallow.Depth = 200, 5
	assert.Greater(t, shallow.VolumeUncertainty().High, deep.VolumeUncertainty().High)
}

// 23.621 L a mole at 20 °C and one atmosphere (gas-molar-volume), so 42.3 mmol a litre
// when dry, 41.4 when full of vapour.
func TestAmountKnowsVapourPressureAndAir(t *testing.T) {
	l := at(101.325)
	n, err := l.Amount(sound.Exactly(1000))
	require.NoError(t, err)
	assert.InDelta(t, 42.34, n.High, 0.01)
	assert.InDelta(t, 41.36, n.Low, 0.02)
	l.Depth = 100 // 0.98 kPa more
	deep, err := l.Amount(sound.Exactly(1000))
	require.NoError(t, err)
	assert.InEpsilon(t, n.High*(101.325+0.980665)/101.325, deep.High, 1e-6)

	l.Displaced = 200
	mixed, err := l.Amount(sound.Exactly(1000))
	require.NoError(t, err)
	// A stirred flask gives nearly all of its air in five fillings.
	assert.InEpsilon(t, deep.Best*(1000-200*(1-math.Exp(-5)))/1000, mixed.Best, 1e-6)
	early, err := l.Amount(sound.Exactly(100))
	require.NoError(t, err)
	assert.Zero(t, early.Low, "a plug of air comes first")
	assert.Positive(t, early.Best)

	l.Liquid = 41
	_, err = l.Amount(sound.Exactly(1))
	assert.EqualError(t, err, "sound: liquid 41 °C is outside 0 to 40")
}

func TestCaughtBubbles(t *testing.T) {
	v, err := sound.Caught(50, 7, 0.1)
	require.NoError(t, err)
	assert.InDelta(t, 0.14, v.Best, 1e-12)
	assert.InDelta(t, math.Hypot(0.02, 0.1/7), v.High/v.Best-1, 1e-9)
	for _, bad := range [][2]float64{{0, 7}, {50, 0}, {50, math.NaN()}} {
		_, err := sound.Caught(int(bad[0]), bad[1], 0.1)
		assert.Error(t, err)
	}
}

func TestBandsMultiplyAsLogarithms(t *testing.T) {
	b := sound.Band{Low: 8, Best: 10, High: 12.5}.By(sound.Band{Low: 8, Best: 10, High: 12.5})
	assert.InDelta(t, 100, b.Best, 1e-9)
	assert.InDelta(t, 100*math.Exp(math.Sqrt2*math.Log(1.25)), b.High, 1e-9)
	assert.InDelta(t, 10000, b.Low*b.High, 1e-6)
	zero := sound.Band{Low: 0, Best: 2, High: 4}.By(sound.Exactly(3))
	assert.Equal(t, 0.0, zero.Low)
	assert.InDelta(t, 12, zero.High, 1e-9)
}

func TestOutlookKnowsFastSlowAndTouching(t *testing.T) {
	bubble := sound.Band{Low: 0.1, Best: 0.14, High: 0.2}
	slow := sound.Foresee(10, bubble, false)
	assert.Equal(t, sound.Yes, slow.ByTapping)
	assert.Equal(t, sound.Yes, slow.ByRecording)
	assert.Empty(t, slow.Helps)
	assert.InDelta(t, 10/60.0/0.14, slow.Rate.Best, 1e-9)

	// Seven litres in forty minutes: twenty bubbles a second.
	fast := sound.Foresee(7000/40.0, bubble, false)
	assert.Equal(t, sound.No, fast.ByTapping)
	assert.Equal(t, sound.No, fast.ByRecording)
	assert.Len(t, fast.Helps, 3)

	middle := sound.Foresee(40, bubble, false)
	assert.Equal(t, sound.Barely, middle.ByTapping)
	assert.Equal(t, sound.Yes, middle.ByRecording)

	touching := sound.Foresee(10, bubble, true)
	assert.Equal(t, sound.No, touching.ByRecording)
	assert.Contains(t, touching.Helps[0], "counting bottle")
	assert.Equal(t, sound.No, sound.Foresee(math.NaN(), bubble, false).ByTapping)
	assert.Equal(t, sound.No, sound.Foresee(10, sound.Band{}, false).ByTapping)
}
