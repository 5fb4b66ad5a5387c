package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// One litre of gas loose in 30 m³ is 33 ppm; at 0.25 ppm no more than 7.5 mL may get
// out (derived from the volumes alone, no air changed).
func TestRoomBearsNextToNothing(t *testing.T) {
	p := NewPlan()
	p.RoomChanges = 0
	p.RoomEscape = 100
	var b Runner
	s := b.Run(&p)
	litres := s.Value(VentGas) / 1000 * 8.314462618 * p.AirTemperature.Kelvin() / float64(p.AirPressure)
	assert.InEpsilon(t, litres/30*1000, s.Value(RoomPeak), 1e-9)
	assert.InEpsilon(t, s.Value(RoomPeak), s.Value(RoomMean), 1e-9, "in still air it stays")
	assert.InEpsilon(t, 100*0.0075/litres, s.Value(RoomEscape), 1e-9)

	p.RoomEscape = 10
	tenth := *b.Run(&p)
	assert.InEpsilon(t, litres/30*100, tenth.Value(RoomPeak), 1e-9)
	assert.InEpsilon(t, litres/30*100/0.25, tenth.Value(RoomTimes), 1e-9)
}

// Where the slurry stands open all that is not taken up gets out, whatever a scrubber
// would let by: by hand, one litre in 30 m³ is 33 ppm.
func TestAllOfItGetsOutOfAnOpenVessel(t *testing.T) {
	for _, entries := range [][]string{{"slurry.vessel=open"}, {"gas.source=slurrysalt"}, {"gas.source=slurrysalt", "slurry.vessel=open"}} {
		_, tenth := run(t, append(entries, "room.escape=10", "room.changes=0")...)
		litres := tenth.Value(VentGas) / 1000 * 8.314462618 * 293.15 / 101.325
		assert.InEpsilon(t, litres/30*1000, tenth.Value(RoomPeak), 1e-9, entries)
		assert.InEpsilon(t, litres/30*1000/0.25, tenth.Value(RoomTimes), 1e-9, entries)
		assert.InEpsilon(t, litres/1000/1.5/0.25e-6, tenth.Value(RoomFlow), 1e-9, "%v: in an hour and a half", entries)
		p := planOf(t, append(entries, "room.escape=10", "room.changes=0")...)
		assert.InEpsilon(t, litres/30*1000, float64(Exposures(p, tenth)[0].Mean), 1e-9, "in still air it stays")
	}
	closed := planOf(t, "room.escape=10", "room.changes=0")
	_, s := run(t, "room.escape=10", "room.changes=0")
	assert.InEpsilon(t, s.Value(RoomPeak), float64(Exposures(closed, s)[0].Mean), 1e-9)
}

// All the gas of a run, whether a generator makes it or the slurry sets it free of
// metabisulfite, two moles to a mole of 190.107 g: real gas, of 21.879 L/mol at 0 °C and one
// atmosphere (Gao et al., J. Chem. Eng. Data 2016), either way.
func TestFreedIsAllGasOfTheRun(t *testing.T) {
	freed := func(entries ...string) (float64, float64) {
		p := planOf(t, entries...)
		_, s := run(t, entries...)
		amount, litres := SulfurDioxideFreed(p, s)
		return float64(amount), litres
	}
	moles, litres := freed("gas.copper=6.3546", "gas.acid=100", "gas.sulfide=0")
	assert.InEpsilon(t, 0.1, moles, 1e-4, "a mole to a mole of copper")
	assert.InEpsilon(t, 2.3621, litres, 1e-4, "real gas at 20 °C, 23.621 L/mol")
	moles, litres = freed("gas.source=slurrysalt", "salt.charge=19.0107", "slurry.acid=500", "batch.share=100", "air.temperature=0", "air.pressure=100")
	assert.InEpsilon(t, 0.2, moles, 1e-4)
	assert.InEpsilon(t, 0.2*21.879*1.01325, litres, 1e-4, "real gas at 0 °C and 100 kPa")
	for _, source := range []string{"peroxide", "oxalic"} {
		moles, litres = freed("gas.source=" + source)
		assert.Zero(t, moles+litres, source)
	}
}

func TestRoomWithoutGas(t *testing.T) {
	p := NewPlan()
	p.GasUptake, p.GasPurge = 100, 0
	p.GasCopper, p.GasAcid = 0.01, 0.1
	var b Runner
	s := b.Run(&p)
	assert.Zero(t, s.Value(VentGas))
	assert.Equal(t, NothingVents, s.Reason(RoomPeak))
	assert.Empty(t, Exposures(&p, s))
}

// 1 mol of gas: 81 kJ into twice the soda, which keeps the carbon dioxide (−296.8 − 2·677.1
// − 285.8 + 635.5 + 2·691.1), 106 g of soda just binds it, twice that in ten times its mass of
// liquid warms by 9 K. With no more soda than the gas needs it would be 55 kJ.
func TestScrubberWarms(t *testing.T) {
	p := NewPlan()
	var b Runner
	s := b.Run(&p)
	moles := s.Value(VentGas) / 1000
	assert.InEpsilon(t, 80.9*moles, s.Value(ScrubHeat), 1e-9)
	assert.InDelta(t, 80.9e3/(4.18*2*105.99*10), s.Value(ScrubRise), 0.01)
}
