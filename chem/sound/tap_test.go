package sound_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/sound"
)

// session taps once a bubble at the given times.
func session(from, until sound.Second, each int, at ...sound.Second) sound.Session {
	s := sound.Session{From: from, Until: until}
	for _, x := range at {
		s.Taps = append(s.Taps, sound.Tap{At: x, Bubbles: each})
	}
	return s
}

func TestOneSessionGivesRateGasAndMinutesLeft(t *testing.T) {
	var at []sound.Second
	for i := range 20 {
		at = append(at, sound.Second(3*(i+1)))
	}
	tapping := sound.Tapping{
		Outlet: sound.UsualOutlet(), Bubble: sound.Band{Low: 0.1, Best: 0.14, High: 0.2},
		Sessions: []sound.Session{session(0, 60, 5, at...)},
	}
	y, err := tapping.At(60)
	require.NoError(t, err)
	assert.Equal(t, 100, y.Counted)
	assert.InDelta(t, 100/60.0, y.Rate.Best, 1e-9)
	// Poisson at 100: 87.4 to 114.1 at eight in ten; the ends add 0.7 %.
	assert.InDelta(t, 87.4/60, y.Rate.Low, 0.01)
	assert.InDelta(t, 114.1/60, y.Rate.High, 0.01)
	// What was counted is counted: only the bubble's size is open.
	assert.InDelta(t, 100, y.Passed.Low, 1e-9)
	assert.InDelta(t, 100, y.Passed.High, 1e-9)
	assert.InDelta(t, 14, y.Volume.Best, 1e-9)
	assert.InDelta(t, 10, y.Volume.Low, 1e-9)
	assert.InDelta(t, 14*0.0420, y.Gas.Best, 0.005)
	left := y.Left(10 * y.Gas.Best)
	assert.InDelta(t, 9, left.Best, 0.01)
	assert.Less(t, left.Low, left.Best)
	assert.Greater(t, left.High, left.Best)
	assert.Equal(t, sound.Band{}, y.Left(0))
	half, err := tapping.At(30)
	require.NoError(t, err)
	assert.Equal(t, 50, half.Counted)
}

// The stream of the first minute is nearly all air; by hand 530 bubbles of 0.14 mL in 61 s are
// 3.06 mmol a minute, and 232 mmol of it take 76 minutes. 500 mL of air take 6.8 min more.
func TestTheAirIsSweptOutUntilTheDemandIsMet(t *testing.T) {
	var at []sound.Second
	for i := range 530 {
		at = append(at, 61*sound.Second(i+1)/530)
	}
	l := sound.UsualOutlet()
	l.Displaced = 500
	tapping := sound.Tapping{Outlet: l, Bubble: sound.Band{Low: 0.1, Best: 0.14, High: 0.2}, Sessions: []sound.Session{session(0, 61, 1, at...)}}
	y, err := tapping.At(61)
	require.NoError(t, err)
	left := y.Left(232)
	perMinute := 530 * 0.14 / 61 * 60 * 0.0420
	assert.InDelta(t, 232/perMinute+500/(530*0.14/61*60)-61/60.0, left.Best, 0.5)
	assert.Less(t, left.Low, 65.0, "with larger bubbles")
	assert.Greater(t, left.High, 105.0, "with smaller ones")
	// It holds what At says later.
	at = nil
	for i := range int(left.Best*60) * 530 / 61 {
		at = append(at, 61+61*sound.Second(i+1)/530)
	}
	until := 61 + sound.Second(left.Best*60)
	tapping.Sessions = append(tapping.Sessions, session(61, until, 1, at...))
	y, err = tapping.At(until)
	require.NoError(t, err)
	assert.InEpsilon(t, 232, y.Gas.Best, 0.002)
}

func TestAFewTapsTellNoPace(t *testing.T) {
	assert.False(t, session(0, 60, 1, 20, 40, 60).LongEnough())
	assert.False(t, session(0, 6, 10, 2, 4, 6).LongEnough())
	assert.True(t, session(0, 30, 5, 15, 30).LongEnough())
}

func TestSessionsNowAndThenSpanTheTimeBetween(t *testing.T) {
	var one, two []sound.Second
	for i := range 60 {
		one = append(one, 300+sound.Second(i)/2)
	}
	for i := range 30 {
		two = append(two, 900+sound.Second(i))
	}
	tapping := sound.Tapping{
		Outlet: sound.UsualOutlet(), Bubble: sound.Exactly(0.14),
		Sessions: []sound.Session{session(300, 330, 1, one...), session(900, 930, 1, two...)},
	}
	y, err := tapping.At(1200)
	require.NoError(t, err)
	// Two a second until half-way between them, then one.
	assert.InDelta(t, 2*615+585, y.Passed.Best, 1)
	assert.Less(t, y.Passed.Low, y.Passed.Best-50)
	assert.Greater(t, y.Passed.High, y.Passed.Best+50)
	assert.InDelta(t, 1, y.Rate.Best, 1e-9)
}

func TestNothingTappedIsNothingSure(t *testing.T) {
	tapping := sound.Tapping{Outlet: sound.UsualOutlet(), Bubble: sound.Exactly(0.14)}
	y, err := tapping.At(100)
	require.NoError(t, err)
	assert.Zero(t, y.Gas)
	assert.True(t, math.IsInf(y.Left(5).Best, 1))
	tapping.Sessions = []sound.Session{session(0, 60, 1)}
	y, err = tapping.At(60)
	require.NoError(t, err)
	assert.Zero(t, y.Rate.Best)
	assert.InDelta(t, 2.303/60, y.Rate.High, 0.001)
	assert.True(t, math.IsInf(y.Left(5).Best, 1))
	assert.False(t, math.IsInf(y.Left(5).Low, 1))
}

func TestTapsThatDoNotFitAreNamed(t *testing.T) {
	good := sound.Tapping{Outlet: sound.UsualOutlet(), Bubble: sound.Exactly(0.14)}
	for name, bad := range map[string]sound.Tapping{
		"bubble":   {Outlet: sound.UsualOutlet()},
		"line":     {Bubble: sound.Exactly(0.14)},
		"order":    {Outlet: good.Outlet, Bubble: good.Bubble, Sessions: []sound.Session{session(10, 5, 1)}},
		"overlap":  {Outlet: good.Outlet, Bubble: good.Bubble, Sessions: []sound.Session{session(0, 50, 1), session(40, 60, 1)}},
		"outside":  {Outlet: good.Outlet, Bubble: good.Bubble, Sessions: []sound.Session{session(0, 50, 1, 60)}},
		"no count": {Outlet: good.Outlet, Bubble: good.Bubble, Sessions: []sound.Session{session(0, 50, 0, 10)}},
	} {
		_, err := bad.At(100)
		assert.ErrorContains(t, err, "sound: ", name)
	}
}

// For random bubbles the true rate lies in the interval eight times in ten, or a little
// oftener, as an exact interval does.
func TestRatesHoldAsOftenAsTheySay(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 7))
	const runs = 4000
	for _, rate := range []float64{0.1, 0.5, 2} {
		held := 0
		for range runs {
			s := sound.Session{Until: 60}
			for at := r.ExpFloat64() / rate; at < 60; at += r.ExpFloat64() / rate {
				s.Taps = append(s.Taps, sound.Tap{At: sound.Second(at), Bubbles: 1})
			}
			if b := s.Rate(); b.Low <= rate && rate <= b.High {
				held++
			}
		}
		share := float64(held) / runs
		assert.Greater(t, share, 0.79, rate)
		assert.Less(t, share, 0.9, rate)
	}
}
