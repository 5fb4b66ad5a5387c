package route

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestLeadOnPaper: worked by hand from electrons and charges, in mol.
func TestLeadOnPaper(t *testing.T) {
	oxide := func(dioxide, manganite, hetaerolite, bases, have, d float64) work {
		w := work{dioxide: dioxide, manganite: manganite, hetaerolite: hetaerolite, bases: bases, have: have, dithionate: d}
		w.gas = (dioxide + manganite/2 + hetaerolite) * (1 + d)
		w.acid = manganite/2 + 2*hetaerolite
		return w
	}
	for _, c := range []struct {
		name       string
		w          work
		gas, first float64
		dissolved  float64 // Mn at +2
		saved      float64
		used       float64
	}{
		// 10 MnO2 with 2 ZnO, nothing else: shared 10 to 2, so 6 of gas dissolve 5 of the
		// dioxide, and 1 binds ZnO and makes 2 MnOOH.
		{"shared", oxide(10, 0, 0, 2, 0, 0), 6, 0, 5, 0, 6},
		// The bases first: 2 of gas bind both ZnO and make 4 MnOOH, 4 dissolve dioxide.
		{"bases first", oxide(10, 0, 0, 2, 0, 0), 6, 1, 4, 0, 6},
		// In full: 2 for ZnO, 6 for what dioxide is left, then 4 MnOOH by 2 MnOOH + 3 SO2.
		{"in full", oxide(10, 0, 0, 2, 0, 0), 100, 1, 10, 4, 14},
		// 4 MnO2 and 4 MnOOH, acid for half of the MnOOH: half of all by 3 of gas with the
		// acid, then 2 of dioxide by 2, and Mn(III) waits.
		{"acid for half", oxide(4, 4, 0, 0, 1, 0), 5, 0, 2 + 2 + 2, 0, 5},
		// One more of gas meets the last 2 MnOOH, which would take 3.
		{"then the rest", oxide(4, 4, 0, 0, 1, 0), 6, 0, 6 + 2./3, 2. / 3, 6},
		// Half of it ends as dithionate: 3 of gas dissolve 2 MnO2.
		{"dithionate", oxide(10, 2, 0, 0, 0, 0.5), 3, 0, 2, 0, 3},
		// 1 MnO2 cannot keep up with 5 ZnO: half a base goes with it, the rest takes two each.
		{"more bases than oxide", oxide(1, 0, 0, 5, 0, 0), 0.5 + 9, 1, 0, 9, 9.5},
	} {
		l := c.w.lead(c.gas, c.first)
		dissolved := l.share*(c.w.dioxide+c.w.manganite+2*c.w.hetaerolite) + l.dioxide + l.oxideShare*(l.manganiteLeft+2*l.spinelLeft)
		assert.InDelta(t, c.dissolved, dissolved, 1e-12, c.name)
		assert.InDelta(t, c.saved, l.saved, 1e-12, c.name)
		assert.InDelta(t, c.used, l.used, 1e-12, c.name)
	}
}

// TestLeadAddsUp: whatever the shares, all of the oxide takes the same gas: one mole to
// two electrons, half as much again at a half of dithionate, and two for each mole of acid
// that is missing. More gas never does less, and none is used before it is there.
func TestLeadAddsUp(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 4))
	for range 20000 {
		w := work{dioxide: draw.Float64(), manganite: draw.Float64(), hetaerolite: draw.Float64() * draw.Float64(), dithionate: draw.Float64() * 0.4}
		w.gas = (w.dioxide + w.manganite/2 + w.hetaerolite) * (1 + w.dithionate)
		w.acid = w.manganite/2 + 2*w.hetaerolite
		if draw.IntN(2) == 0 {
			w.bases = draw.Float64() * w.dioxide / 4
		} else {
			w.have = draw.Float64() * 2
		}
		first := draw.Float64()
		want := w.gas + 2*greater(0, w.acid+w.bases-w.have)
		require.InDelta(t, want, w.bill(first), 1e-9, "%+v first %v", w, first)
		before := lead{}
		for i := range 50 {
			gas := want * float64(i) / 40
			l := w.lead(gas, first)
			require.InDelta(t, min(gas, want), l.used, 1e-9, "%+v first %v gas %v", w, first, gas)
			require.GreaterOrEqual(t, l.pairs(w), before.pairs(w)-1e-9)
			require.GreaterOrEqual(t, l.saved, before.saved-1e-9)
			before = l
		}
	}
}

// TestNoDeadEnd: without any dilute acid gas dissolves manganese all the same, as is
// common practice. Two cells R14, all of their oxide, 97 mmol of gas taken up: by the
// books of electrons and charges between a tenth and a quarter dissolves, least where the
// bases have their gas first.
func TestNoDeadEnd(t *testing.T) {
	at := func(first string) float64 {
		_, s := run(t, "cell.count=2", "batch.share=100", "slurry.acid=0", "loss.transfer=0", "slurry.dithionate=0", "slurry.reach=95", "cell.deep=0", "slurry.bases="+first,
			"gas.uptake=100", "gas.purge=0", "gas.sulfide=0", "gas.flask=5000", "slurry.beaker=5000", "gas.copper=6.163962")
		near(t, 97, s.Value(GasMade), 1e-6, "mmol")
		return s.Value(ReduceConversion)
	}
	shared, between, after := at("0"), at("50"), at("100")
	assert.InDelta(t, 22, shared, 1)
	assert.InDelta(t, 10.5, after, 1)
	assert.Greater(t, shared, between)
	assert.Greater(t, between, after)
}

// TestHydrogensulfiteGivesOffHeat: SO2 and water to hydrogensulfite and H+ give off
// 626.2 - 296.8 - 285.8 = 43.6 kJ a mole (formation heats of the CRC Handbook).
func TestHydrogensulfiteGivesOffHeat(t *testing.T) {
	w := work{bases: 1}
	l := w.lead(5, 0)
	assert.Equal(t, 2.0, l.saved)
	assert.InDelta(t, 87.2, l.heat(w), 0.1)
}

// TestAcidSplitsNoMoreThanItCan: where acid is short it splits what it is enough for, and that is
// what is told: two moles of MnOOH, or a mole of hetaerolite or of Mn3O4 with half of what both
// take, to a mole.
func TestAcidSplitsNoMoreThanItCan(t *testing.T) {
	p := NewPlan()
	alter(t, &p, "cell.size=R20", "cell.count=3", "batch.share=100", "slurry.acid=20")
	var b Runner
	s := b.Run(&p)
	all := 264.396 * 0.98 * 0.985 // mmol: the demand, less what is lost on the way and out of reach
	assert.InEpsilon(t, 100*20/all, s.Value(SlurrySplit), 1e-4)
	p.SlurryAcid = 1000
	assert.InDelta(t, 65.0*1000/(1000+0.25*all), b.Run(&p).Value(SlurrySplit), 0.01, "ample acid, at 20 °C")
}
