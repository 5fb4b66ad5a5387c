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
	var b Bench
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

func TestRoomWithoutGas(t *testing.T) {
	p := NewPlan()
	p.GasUptake, p.GasPurge = 100, 0
	p.GasCopper, p.GasAcid = 0.01, 0.1
	var b Bench
	s := b.Run(&p)
	assert.Zero(t, s.Value(VentGas))
	assert.Equal(t, NothingVents, s.Reason(RoomPeak))
}

// 1 mol of gas: 55 kJ into soda (derived from the NBS tables, from memory), 106 g of
// soda just binds it, twice that in ten times its mass of liquid warms by 6 K.
func TestScrubberWarms(t *testing.T) {
	p := NewPlan()
	var b Bench
	s := b.Run(&p)
	moles := s.Value(VentGas) / 1000
	assert.InEpsilon(t, 55.1*moles, s.Value(ScrubHeat), 1e-9)
	assert.InDelta(t, 55.1e3/(4.18*2*105.99*10), s.Value(ScrubRise), 0.01)
}
