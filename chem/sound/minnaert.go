package sound

import "math"

// Stiffness of the gases against a quick change of volume, ρc²/p, at 20 °C and one
// atmosphere, by equations of state (coefficients read in an open transcription). It is γ of
// a perfect gas. Sulfur dioxide is not quite one: its heat capacities have the ratio 1.284.
const (
	gammaSulfurDioxide = 1.261 // Gao et al., J. Chem. Eng. Data (2016), as table.GasMolarVolume
	gammaAir           = 1.40  // 1.401, Lemmon et al., J. Phys. Chem. Ref. Data (2000)
)

// gamma of a mixture: heat capacities add by moles, cv = R/(γ-1).
func gamma(air float64) float64 {
	return 1 + 1/((1-air)/(gammaSulfurDioxide-1)+air/(gammaAir-1))
}

// Pitch is that of a bubble of a radius in mm, of SO2 with a share of air, 0 to 1, at the
// mouth of the line: f = (1/2πr)·√(3γp/ρ) (Minnaert 1933).
func (l Outlet) Pitch(radius Millimetre, air float64) Hertz {
	p, rho := float64(l.Pressure())*1000, float64(l.Density)*1000
	return Hertz(math.Sqrt(3*gamma(air)*p/rho) / (2 * math.Pi * float64(radius) / 1000))
}

// Radius is that of the bubble that rings at a pitch, in mm; the inverse of Pitch.
func (l Outlet) Radius(pitch Hertz, air float64) Millimetre {
	return Millimetre(l.Pitch(1, air) / pitch)
}

// Millilitres is the volume of a sphere.
func (r Millimetre) Millilitres() float64 {
	x := float64(r) / 10
	return 4 * math.Pi / 3 * x * x * x
}

// SurfaceFactor is the pitch of a bubble whose centre lies at a depth, in mm, over that far
// from the surface: 1/√(1 − r/2h), with an image of opposite sign (Strasberg, J. Acoust.
// Soc. Am. 25 (1953) 536: √2 for a bubble that touches it, h = r; read in a transcription).
func SurfaceFactor(radius, depth Millimetre) float64 {
	return 1 / math.Sqrt(1-math.Min(0.5, float64(radius/(2*depth))))
}

// WallFactor is the pitch of a bubble whose centre lies at a distance from a rigid wall, in
// mm, over that far from it: 1/√(1 + r/2h), with an image of like sign (the same source, from
// memory). Glass of a thin beaker is less than rigid.
func WallFactor(radius, distance Millimetre) float64 {
	return 1 / math.Sqrt(1+math.Min(0.5, float64(radius/(2*distance))))
}

// decay is the rate, 1/s, at which the amplitude of a bubble's ring dies that has a pitch in
// Hz: 0.13/r + 0.0072/r^1.5 with r in m (van den Doel, ACM Trans. Appl. Percept. 2 (2005) 534,
// eq. 5, read in transcriptions), for air in water, of which r·f is 3.26 m/s.
func decay(pitch float64) float64 {
	r := 3.26 / pitch
	return 0.13/r + 0.0072/math.Pow(r, 1.5)
}
