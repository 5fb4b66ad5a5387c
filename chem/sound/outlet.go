package sound

import (
	"fmt"
	"math"

	"rosesalt/chem/quantity"
	"rosesalt/chem/table"
)

// Outlet is where the gas comes out.
type Outlet struct {
	Liquid  quantity.Celsius           // the liquid that the gas bubbles into, 0 to 40 °C
	Air     quantity.Kilopascal        // pressure of the air above it, 50 to 110 kPa
	Depth   Millimetre                 // of the tube's mouth or the funnel's rim below the surface, 0 to 1000
	Density quantity.GramPerMillilitre // of the liquid, 0.9 to 1.9 g/mL
	// Displaced is the air in flask and tube when the gas began, which comes out of the
	// tube too, at first nearly pure. Not below zero.
	Displaced quantity.Millilitre
}

// UsualOutlet is a tube 3 cm deep in water at 20 °C and one atmosphere, with no air in the line.
func UsualOutlet() Outlet {
	return Outlet{Liquid: 20, Air: quantity.Atmosphere, Depth: 30, Density: 1}
}

// Check gives an error that names the first field out of its range.
func (l Outlet) Check() error {
	for _, c := range []struct {
		name, unit     string
		have, low, top float64
	}{
		{"liquid", "°C", float64(l.Liquid), 0, 40},
		{"air", "kPa", float64(l.Air), 50, 110},
		{"depth", "mm", float64(l.Depth), 0, 1000},
		{"density", "g/mL", float64(l.Density), 0.9, 1.9},
		{"displaced air", "mL", float64(l.Displaced), 0, 1e6},
	} {
		if !(c.have >= c.low && c.have <= c.top) {
			return fmt.Errorf("sound: %s %g %s is outside %g to %g", c.name, c.have, c.unit, c.low, c.top)
		}
	}
	return nil
}

// gravity in m/s² (standard acceleration, exact by the 3rd CGPM, 1901).
const gravity = 9.80665

// Pressure is that at the tube's mouth: of the air and of the liquid above it.
func (l Outlet) Pressure() quantity.Kilopascal {
	return l.Air + quantity.Kilopascal(float64(l.Density)*gravity*float64(l.Depth)/1000)
}

// perMillilitre is the mmol of SO2 that a millilitre of bubble holds, taken as full of
// gas and water vapour at the mouth's pressure. The best value is half-way between dry
// gas and gas full of the liquid's vapour: a bubble hangs for a tenth of a second.
func (l Outlet) perMillilitre() (Band, error) {
	if err := l.Check(); err != nil {
		return Band{}, err
	}
	atOne, err := table.GasMolarVolume.At(float64(l.Liquid))
	if err != nil {
		return Band{}, err
	}
	vapour, err := table.WaterVapourPressure.At(float64(l.Liquid))
	if err != nil {
		return Band{}, err
	}
	p := float64(l.Pressure())
	// Between 50 and 120 kPa Boyle's law is good to 1 %.
	dry := p / float64(quantity.Atmosphere) / atOne
	wet := dry * (p - vapour) / p
	return Band{wet, (wet + dry) / 2, dry}, nil
}

// Amount is the SO2 in mmol in a volume of bubbles, in mL, after the displaced air is
// subtracted. How the air leaves is not known: the best value takes the flask to be well
// mixed, the low end takes all the air to come first.
func (l Outlet) Amount(volume Band) (Band, error) {
	per, err := l.perMillilitre()
	if err != nil {
		return Band{}, err
	}
	return Band{
		l.without(volume.Low, true), l.without(volume.Best, false), l.without(volume.High, false),
	}.By(per), nil
}

// without subtracts the air from a volume of gas that has passed since the beginning.
func (l Outlet) without(millilitres float64, plug bool) float64 {
	air := float64(l.Displaced)
	if air <= 0 {
		return millilitres
	}
	if plug {
		return math.Max(0, millilitres-air)
	}
	return millilitres + air*math.Expm1(-millilitres/air)
}

// volumeOf is the gas in mL, air and all, that has passed when so many mL of it are not air;
// the inverse of without, for what is above zero.
func (l Outlet) volumeOf(millilitres float64, plug bool) float64 {
	air := float64(l.Displaced)
	if air <= 0 || plug {
		return millilitres + air
	}
	// No more than all the air stands before it.
	low, high := millilitres, millilitres+air
	for range 60 {
		if middle := (low + high) / 2; l.without(middle, false) < millilitres {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// airShare is how much of the gas that comes over after so many mL is still air.
func (l Outlet) airShare(millilitres float64) float64 {
	if l.Displaced <= 0 {
		return 0
	}
	return math.Exp(-millilitres / float64(l.Displaced))
}
