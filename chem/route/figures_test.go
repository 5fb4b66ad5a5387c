package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	. "rosesalt/chem/reaction"
)

// extents sums up how far each reaction of a stage went, in moles.
func extents(t *testing.T, stage Stage, entries ...string) map[*Equation]float64 {
	t.Helper()
	p := planOf(t, entries...)
	require.Empty(t, Check(p))
	b := Bench{Keep: true}
	b.Run(p)
	require.NoError(t, b.Err())
	sum := map[*Equation]float64{}
	for _, line := range b.Book().Bookings() {
		if line.Equation != nil && Stage(line.Stage) == stage {
			sum[line.Equation] += float64(line.Moles)
		}
	}
	return sum
}

// TestSlurryVolume: the water put in, that of the dilute acid and that which the cake
// holds, and the room of its solids. A litre of 1 mol/L acid is 9.25 % and weighs
// 1061 g (CRC Handbook, Concentrative Properties): 963 g of it are water.
func TestSlurryVolume(t *testing.T) {
	base := with(pureDioxide, "wash.held=0.05", "slurry.water=1000")
	_, none := run(t, with(base, "slurry.acid=0")...)
	near(t, 1000+none.Value(BatchDry)*(0.05+1/3.5), none.Value(SlurryVolume), 1e-9, "mL")
	_, litre := run(t, with(base, "slurry.acid=1000")...)
	near(t, 963, litre.Value(SlurryVolume)-none.Value(SlurryVolume), 1e-3, "with a litre of acid")
}

// TestShortageOfTheSalts: gas that does not even take up the zinc salts, ammonia and
// lye serves them alike: twice the gas does twice as much to each, and none reaches
// the oxide.
func TestShortageOfTheSalts(t *testing.T) {
	for kind, copper := range map[string][2]string{"ammonium": {"gas.copper=1", "gas.copper=2"}, "alkaline": {"gas.copper=0.5", "gas.copper=1"}} {
		base := with(spentPlan, "cell.kind="+kind, "slurry.acid=0", "gas.acid=500", "gas.end=20", "wash.times=0", "wash.soak=100", "cell.aged=0")
		once, twice := extents(t, Slurry, with(base, copper[0])...), extents(t, Slurry, with(base, copper[1])...)
		salts := []*Equation{GasAmmonia, GasDiammine, GasBasic, GasZincOxide}
		if kind == "alkaline" {
			salts = []*Equation{GasPotash, GasZincOxide}
		}
		for _, e := range salts {
			require.Positive(t, once[e], e.String())
			near(t, 2*once[e], twice[e], 1e-9, e.String())
		}
		assert.Len(t, twice, len(salts), "nothing else happens")
	}
}
