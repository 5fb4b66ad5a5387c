package sound

import "math"

// Ratios of heat capacities.
const (
	gammaSulfurDioxide = 1.29 // from memory: CRC Handbook, 20 °C
	gammaAir           = 1.40 // from memory: CRC Handbook, 20 °C
)

// gamma of a mixture: heat capacities add by moles, cv = R/(γ-1).
func gamma(air float64) float64 {
	return 1 + 1/((1-air)/(gammaSulfurDioxide-1)+air/(gammaAir-1))
}

// Pitch of a bubble of the radius in mm, of SO2 with a share of air (0 to 1), at the
// mouth of the line: f = (1/2πr)·√(3γp/ρ) (Minnaert 1933).
func (l Line) Pitch(radius Millimetre, air float64) Hertz {
	p, rho := float64(l.Pressure())*1000, float64(l.Density)*1000
	return Hertz(math.Sqrt(3*gamma(air)*p/rho) / (2 * math.Pi * float64(radius) / 1000))
}

// Radius in mm of the bubble that rings at the pitch: Pitch turned round.
func (l Line) Radius(pitch Hertz, air float64) Millimetre {
	return Millimetre(l.Pitch(1, air) / pitch)
}

// Millilitres is the volume of a sphere.
func (r Millimetre) Millilitres() float64 {
	x := float64(r) / 10
	return 4 * math.Pi / 3 * x * x * x
}
