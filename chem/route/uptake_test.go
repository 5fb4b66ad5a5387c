package route

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"rosesalt/chem/quantity"
)

// TestUptakeGoesOneWay: slower gas, a deeper tube, finer bubbles, a colder slurry and a
// further vessel are never taken up less, and never want more gas; with charges given they
// never bring less manganese into solution.
func TestUptakeGoesOneWay(t *testing.T) {
	var b Runner
	better := []struct {
		name string
		do   func(t *rapid.T, p *Plan)
	}{
		{"slower", func(t *rapid.T, p *Plan) {
			p.GasMinutes = quantity.Minute(rapid.Float64Range(float64(p.GasMinutes), 1000).Draw(t, "minutes"))
		}},
		{"deeper", func(t *rapid.T, p *Plan) { p.GasDepth = rapid.Float64Range(p.GasDepth, 50).Draw(t, "depth") }},
		{"finer", func(t *rapid.T, p *Plan) {
			p.GasBubble = quantity.Millilitre(rapid.Float64Range(0.005, float64(p.GasBubble)).Draw(t, "bubble"))
		}},
		{"colder", func(t *rapid.T, p *Plan) {
			p.SlurryTemperature = quantity.Celsius(rapid.Float64Range(0, float64(p.SlurryTemperature)).Draw(t, "temperature"))
		}},
		{"one more vessel", func(_ *rapid.T, p *Plan) { p.GasVessels++ }},
	}
	rapid.Check(t, func(t *rapid.T) {
		p := drawGasPlan(t)
		p.GasUptake = quantity.Percent(quantity.Blank)
		p.SlurryDithionate, p.SlurrySplit = 30, 60 // else they follow the temperature
		s := b.Run(p)
		share, needed, solution := s.Value(UptakeShare), s.Value(GasNeeded), s.Value(ReduceConversion)
		given := quantity.Given(p.GasAcid) && quantity.Given(reducing(p).charge.Value(p))
		q := *p
		way := better[rapid.IntRange(0, len(better)-1).Draw(t, "way")]
		way.do(t, &q)
		s = b.Run(&q)
		if now := s.Value(UptakeShare); now < share*(1-tiny) {
			t.Fatalf("%s: %v to %v %% taken up\nplan:%s", way.name, share, now, link(p))
		}
		if now := s.Value(GasNeeded); now > needed*(1+tiny) {
			t.Fatalf("%s: %v to %v mmol needed\nplan:%s", way.name, needed, now, link(p))
		}
		if now := s.Value(ReduceConversion); given && now < solution*(1-tiny)-tiny {
			t.Fatalf("%s: %v to %v %% in solution\nplan:%s", way.name, solution, now, link(p))
		}
	})
}

// TestUptakeAgreesWithItsStream: the uptake is that of the stream which it makes needed.
func TestUptakeAgreesWithItsStream(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawGasPlan(t)
		p.GasUptake = quantity.Percent(quantity.Blank)
		s := b.Run(p)
		share, rate := s.Value(UptakeShare), s.Value(GasRate)
		want := 100.0
		if rate > 0 {
			want = math.Max(1, 100*(1-math.Exp(-Absorbers(p)*(p.GasDepth*BubbleUnits(p)+SurfaceUnits(p)*math.Sqrt(math.Pow(s.Value(SlurryVolume)/Absorbers(p)/325, 2./3)*75/rate)))))
		}
		if math.Abs(share-want) > 1e-7*want {
			t.Fatalf("%v %% at %v mL/min, which takes %v %%\nplan:%s", share, rate, want, link(p))
		}
	})
}

// TestUptakeByHand: the transfer units, worked out on paper.
func TestUptakeByHand(t *testing.T) {
	var b Runner
	pressed := 0
	p := planOf(t, "gas.bubble=0.14")
	// 0.14 mL are 0.6442 cm wide; D at 20 °C 1.83e-5·exp(2160·(1/298.15 - 1/293.15)) = 1.617e-5 cm²/s;
	// clean 1.13·√(1.617e-5·23/0.5788) = 0.02864 cm/s; a mL dissolves 0.1063/64.058·24055 = 39.92 mL.
	near(t, 6*0.02864*0.42*39.92/(0.6442*23), BubbleUnits(p), 1e-3, "bubbles")
	near(t, 1.4, SurfaceUnits(p), 1e-12, "the surface is told at 20 °C")
	assert.Less(t, 6*BubbleUnits(planOf(t, "gas.bubble=1")), 6*BubbleUnits(p))
	// Given or learned, it is as given.
	_, s := run(t, "gas.uptake=61", "gas.minutes=500")
	assert.InDelta(t, 61, s.Value(UptakeShare), 1e-12)
	// The demo's charge is taken up by about four fifths; twice the time, or a second vessel,
	// brings it near all.
	_, s = run(t)
	assert.InDelta(t, 80, s.Value(UptakeShare), 1)
	_, s = run(t, "gas.minutes=180")
	assert.Greater(t, s.Value(UptakeShare), 88.0)
	_, s = run(t, "gas.vessels=2")
	assert.Greater(t, s.Value(UptakeShare), 93.0)

	_, open := run(t, "gas.vessels=2", "slurry.vessel=open")
	_, one := run(t, "slurry.vessel=open")
	assert.Equal(t, one.Value(UptakeShare), open.Value(UptakeShare), "an open beaker leads no gas on")

	// What is pressed does what it says.
	p = planOf(t, "gas.minutes=30")
	s = b.Run(p)
	for _, n := range Notices(p, s) {
		if n.Key != "gas.passes" {
			continue
		}
		pressed = len(n.Mends)
		for _, m := range n.Mends {
			q := *p
			assert.NoError(t, input(t, m.Key).Set(&q, m.Value))
			assert.Contains(t, n.Text, Print(100-b.Run(&q).Value(UptakeShare), "%"), m.Text)
		}
	}
	assert.Equal(t, 2, pressed)

	low, high := UptakeBetween(80)
	assert.InDelta(t, 47.5, low, 0.1)
	assert.InDelta(t, 96, high, 1e-9)
	low, high = UptakeBetween(100)
	assert.Equal(t, [2]float64{100, 100}, [2]float64{low, high})
}
