package sound

import (
	"fmt"
	"math"

	"rosesalt/chem/quantity"
)

// SurfaceTension of water against air in N/m, 0.01 to 370 °C (IAPWS R1-76(2014), eq. 1).
func SurfaceTension(t quantity.Celsius) (float64, error) {
	if !(t >= 0 && t <= 370) {
		return 0, fmt.Errorf("sound: surface tension: %g °C is outside 0 to 370 °C", float64(t))
	}
	tau := 1 - t.Kelvin()/647.096
	return 0.2358 * math.Pow(tau, 1.256) * (1 - 0.625*tau), nil
}

// Detached is the volume in mL of a bubble that slowly leaves a tube of a bore in mm, by
// Tate's law V = π·d·σ/(Δρ·g), times a shape factor between 0.6 and 1 (from memory: Harkins
// and Brown, J. Am. Chem. Soc. 41 (1919) 499). A wide mouth, a thick rim that is wetted
// late, soap and a fast stream change it by up to a third.
func Detached(bore Millimetre, l Outlet) (Band, error) {
	if !(bore > 0 && bore <= 50) {
		return Band{}, fmt.Errorf("sound: bore %g mm is outside 0 to 50", float64(bore))
	}
	if err := l.Check(); err != nil {
		return Band{}, err
	}
	sigma, err := SurfaceTension(l.Liquid)
	if err != nil {
		return Band{}, err
	}
	ideal := math.Pi * float64(bore) / 1000 * sigma / (float64(l.Density) * 1000 * gravity) * 1e6
	const shape = 0.8
	return Band{ideal * shape * 0.7, ideal * shape, ideal * shape * 1.3}, nil
}

// Caught is the volume in mL of one bubble, when a number of them filled a cylinder up to a
// mark. The count may be off by one, the mark by reading, in mL (half a division).
func Caught(bubbles int, millilitres, reading float64) (Band, error) {
	if bubbles < 1 {
		return Band{}, fmt.Errorf("sound: %d bubbles are too few to calibrate", bubbles)
	}
	if !(millilitres > 0) || !(reading >= 0) {
		return Band{}, fmt.Errorf("sound: caught volume %g ± %g mL is not above zero", millilitres, reading)
	}
	each := millilitres / float64(bubbles)
	off := math.Hypot(reading/millilitres, 1/float64(bubbles))
	return Band{each / (1 + off), each, each * (1 + off)}, nil
}
