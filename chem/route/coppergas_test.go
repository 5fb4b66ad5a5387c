package route

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

// TestHeatedAcid: while a flask is kept hot, its acid is never weaker than what boils, and
// the gas fades when no more acid is free than the spare.
func TestHeatedAcid(t *testing.T) {
	for _, hot := range []float64{150, 204, 230, 330} {
		for _, spare := range []float64{0.05, 0.4, 3} {
			heat := []string{fmt.Sprintf("gas.hot=%g", hot), fmt.Sprintf("gas.spare=%g", spare), "gas.sulfide=20", "loss.transfer=0"}
			_, s := run(t, with(heat, "gas.acid=100", "gas.copper=500")...)
			assert.Equal(t, "acid", s.Word(GasLimit))
			acid := s.Value(CopperMotherAcid) / mass(SulfuricAcid)
			salt := s.Value(CopperSulfatePenta) / (mass(CopperSulfate) + 5*mass(Water))
			near(t, spare, acid/salt, 1e-9, "acid to copper sulfate")
			assert.GreaterOrEqual(t, s.Value(GasStrengthEnd), s.Value(GasBoils)-1e-9)
		}
	}
	// All acid used but the spare, 2.1 to 2.5 mol go to a mole of copper with spares of 0.1 to 0.5.
	_, s := run(t, "gas.sulfide=0", "gas.spare=0.1")
	near(t, 2.1, s.Value(GasAcidCopper), 1e-9, "least of the manuals")
	_, s = run(t, "gas.sulfide=0", "gas.spare=0.5")
	near(t, 2.5, s.Value(GasAcidCopper), 1e-9, "most of the manuals")
	_, s = run(t, "gas.hot=204", "gas.acid=100", "gas.copper=500")
	near(t, 80, s.Value(GasStrengthEnd), 1e-9, "80 % boils at 204 °C")
	// Before it has weakened so far nothing leaves.
	b, s := run(t, "gas.hot=204", "gas.acid=100", "gas.copper=10", "loss.transfer=0")
	assert.Zero(t, b.Book().Amount(ledger.Trap, Water))
	assert.Greater(t, s.Value(GasStrengthEnd), 80.0)
	assert.Less(t, s.Value(GasStrengthEnd), 96.0)
	// What is weaker from the start boils down to it.
	b, _ = run(t, "gas.strength=80", "gas.hot=230", "gas.acid=100", "gas.copper=0.01")
	acid := acidOf(80)
	holds := 100 * acid.acid * mass(SulfuricAcid) * (1 - boilsAt(230)) / boilsAt(230) / mass(Water)
	near(t, 100*acid.water-holds, float64(b.Book().Amount(ledger.Trap, Water)), 1e-3, "water before the gas")
}

// TestGivenEndOrSteamWins: a strength at the end, or the steam, is as it was before the
// flask had a temperature: the other one is 75 or 40 %, and the heat counts no more.
func TestGivenEndOrSteamWins(t *testing.T) {
	acid := acidOf(96)
	for _, c := range []struct {
		entries    []string
		end, steam float64
	}{
		{[]string{"gas.end=70"}, 70, 40},
		{[]string{"gas.steam=10"}, 75, 10},
		{[]string{"gas.end=80", "gas.steam=100"}, 80, 100},
	} {
		w, v := c.end/100, c.steam/100
		copper := 100 * ((1-w)*acid.acid*mass(SulfuricAcid) - w*acid.water*mass(Water)) / (1.88 * ((1-w)*mass(SulfuricAcid) + (1-v)*w*mass(Water)))
		for _, heat := range []string{"gas.hot=230", "gas.hot=180"} {
			b, s := run(t, with(c.entries, heat, "gas.acid=100", "gas.copper=500", "gas.spare=2")...)
			near(t, 900*copper, s.Value(GasMade), 1e-9, c.entries[0])
			near(t, c.end, s.Value(GasStrengthEnd), 1e-9, c.entries[0])
			near(t, v*1.88*copper, float64(b.Book().Amount(ledger.Trap, Water)), 1e-9, c.entries[0])
			assert.Equal(t, EndGiven, s.Reason(GasBoils))
			assert.False(t, Uses(planOf(t, c.entries...), "gas.hot"))
		}
	}
	assert.True(t, Uses(planOf(t), "gas.hot"))
	assert.True(t, Uses(planOf(t), "gas.spare"))
}

// TestHeatAndSpareGoOneWay: more heat never leaves weaker acid nor less steam, and never
// changes the gas; more spare acid never gives more gas from a charge.
func TestHeatAndSpareGoOneWay(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		p.GasSource = FromCopper
		p.GasEnd, p.GasSteam = quantity.Percent(quantity.Blank), quantity.Percent(quantity.Blank)
		p.GasAcid, p.GasCopper = quantity.Millilitre(rapid.Float64Range(1, 500).Draw(t, "acid")), quantity.Gram(rapid.Float64Range(1, 500).Draw(t, "copper"))
		if p.GasStrength <= usualEnd {
			p.GasStrength = 96
		}
		state := func() (strength, steam, made float64) {
			s := b.Run(p)
			return s.Value(GasStrengthEnd), float64(b.Book().Amount(ledger.Trap, Water)), s.Value(GasMade)
		}
		strength, steam, made := state()
		p.GasHot = quantity.Celsius(rapid.Float64Range(float64(p.GasHot), 330).Draw(t, "hotter"))
		strong, more, same := state()
		if strong < strength-1e-9 || more < steam*(1-tiny)-1e-15 || same != made {
			t.Fatalf("hotter: %v to %v %%, %v to %v mol of steam, %v to %v mmol of gas\nplan:%s", strength, strong, steam, more, made, same, link(p))
		}
		p.GasSpare = rapid.Float64Range(p.GasSpare, 20).Draw(t, "more spare")
		if _, _, less := state(); less > made*(1+tiny) {
			t.Fatalf("more left over: %v to %v mmol of gas\nplan:%s", made, less, link(p))
		}
	})
}

// TestMoreGasIsNeverLessSalt: with more of acid and copper the slurry gets no less gas, and
// the jar no less manganese.
func TestMoreGasIsNeverLessSalt(t *testing.T) {
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		p.GasSource = FromCopper
		if p.GasStrength <= usualEnd {
			p.GasStrength = 96
		}
		Reconcile(p)
		p.GasAcid, p.GasCopper = quantity.Millilitre(rapid.Float64Range(0.1, 300).Draw(t, "acid")), quantity.Gram(rapid.Float64Range(0.01, 300).Draw(t, "copper"))
		if quantity.Given(float64(p.SlurryWater)) { // where water itself runs short, more gas can use it up for less
			p.SlurryWater = max(p.SlurryWater, 20)
		}
		s := b.Run(p)
		taken, salt := s.Value(UptakeTaken), s.Value(ReduceConversion)
		p.GasAcid *= quantity.Millilitre(rapid.Float64Range(1, 3).Draw(t, "more acid"))
		p.GasCopper *= quantity.Gram(rapid.Float64Range(1, 3).Draw(t, "more copper"))
		s = b.Run(p)
		if more := s.Value(UptakeTaken); more < taken*(1-tiny)-1e-9 {
			t.Fatalf("%v mmol taken up, with more charge %v\nplan:%s", taken, more, link(p))
		}
		if more := s.Value(ReduceConversion); more < salt*(1-tiny)-1e-9 {
			t.Fatalf("%v %% in solution, with more charge %v\nplan:%s", salt, more, link(p))
		}
	})
}

// TestEarlyEnd: a charge of which only a share works has given that share of the gas,
// heated or with a given end.
func TestEarlyEnd(t *testing.T) {
	for _, entries := range [][]string{{"gas.copper=10"}, {"gas.copper=500"}, {"gas.copper=500", "gas.end=70"}} {
		p := planOf(t, with(entries, "gas.acid=100")...)
		var b Runner
		all := b.Run(p).Value(GasMade)
		EndAt(p, 0.3)
		near(t, 0.3*all, b.Run(p).Value(GasMade), 1e-9, entries[0])
	}
}
