package route

import (
	"math"

	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/room"
	"rosesalt/chem/table"
)

// What the slurry takes up is counted in transfer units: N of them take up 1 - exp(-N) of
// the gas that is led in, and leave the rest. The gas passes through the slurry as bubbles,
// as long as they rise, and then stands over its surface, under the funnel, as long as the
// stream gives it time. The oxide uses up what dissolves, so the liquor is counted as empty.
const (
	// A bubble of 2 to 20 mm rises in water at 0.2 to 0.35 m/s (from memory).
	bubbleRises = 23.0 // cm/s
	// dirtOnBubbles is what the films on a bubble in slurry leave of the transfer of a clean
	// one: the middle, by ratio, between none and a rigid surface, which leaves a fifth (estimate).
	dirtOnBubbles = 0.42
	// diffusion is that of SO2 in water at 25 °C, and diffusionRises how it rises with heat,
	// as the exponent of 1/T; both from the rows at 20 to 35 °C.
	diffusion      = 1.83e-5 // cm²/s
	diffusionRises = 2160.0  // K
	// surfaceTakes are the transfer units of the stirred surface of the usual slurry, at 20 °C
	// and at the usual stream, so that a funnel that just meets it takes four fifths of the
	// gas: estimate. It is some 1.6e-5 m/s of water renewed under a funnel of
	// 6 cm, such as is found of stirred surfaces (from memory).
	surfaceTakes = 1.4
	usualStream  = 75.0  // mL/min
	usualSlurry  = 325.0 // mL
	// slowerTakes is the power by which the surface's units rise when less gas passes over a
	// part of it: 1 if the gas only had more time, 0 if a faster stream stirred the surface as
	// much. The surface goes as the slurry's volume to two thirds.
	slowerTakes  = 0.5
	surfaceGrows = 2.0 / 3
	// leastUptake keeps a charge finite where next to nothing is taken up.
	leastUptake = 0.01
	// Of the transfer units, what they may be in truth (estimates).
	unitsLow, unitsHigh = 0.4, 2.0
)

var uptakeConstants = []Constant{
	{"usualStream", usualStream, "mL/min", "the usual stream of gas", "estimate: what the surface's share is told at"},
	{"usualSlurry", usualSlurry, "mL", "the slurry for which it is told", "estimate: that of the plan which the page starts with"},
	{"surfaceGrows", surfaceGrows, "", "power of its volume by which a slurry's surface grows", "geometry"},
	{"slowerTakes", slowerTakes, "", "power by which a slower stream is taken up better", "estimate: half of what more time alone would do"},
	{"leastUptake", leastUptake * 100, "%", "least that is counted as taken up", "estimate"},
}

// Absorbers is how many slurry vessels the gas passes, one behind the other: one
// where it is open.
func Absorbers(p *Plan) float64 {
	if p.SlurryVessel == OpenVessel {
		return 1
	}
	return p.GasVessels
}

// BubbleUnits are the transfer units of the bubbles that rise through a centimetre of the
// slurry, and SurfaceUnits those of its surface at the usual stream.
//
// The transfer of a clean bubble d cm wide is 1.13 (D v / (0.45 + 0.2 d))^½ cm/s (Johnson
// et al., Can. J. Chem. Eng. 47 (1969) 559, eq. 42), that of a rigid one a fifth (Clift, Grace
// and Weber, Bubbles, Drops, and Particles, 1978, Table 5.4); both were read in an open
// program that uses them, not in print.
func BubbleUnits(p *Plan) float64 {
	wide := math.Cbrt(6 * float64(p.GasBubble) / math.Pi)
	transfer := 1.13 * math.Sqrt(diffusionAt(p.SlurryTemperature)*bubbleRises/(0.45+0.2*wide)) * dirtOnBubbles
	return 6 * transfer * dissolves(p.SlurryTemperature) / (wide * bubbleRises)
}

// SurfaceUnits are the transfer units of the slurry's surface at the usual stream.
func SurfaceUnits(p *Plan) float64 {
	const usual = quantity.Celsius(20)
	return surfaceTakes * dissolves(p.SlurryTemperature) / dissolves(usual) *
		math.Sqrt(diffusionAt(p.SlurryTemperature)/diffusionAt(usual))
}

// diffusionAt is the diffusion coefficient of SO2 in water, cm²/s: CRC Handbook, Diffusion
// of Gases in Water.
func diffusionAt(t quantity.Celsius) float64 {
	// Expm1, since Exp has other last digits in the browser.
	return diffusion * (1 + math.Expm1(diffusionRises*(1/298.15-1/t.Kelvin())))
}

// dissolves is the mL of gas that a mL of water dissolves at its own pressure.
func dissolves(t quantity.Celsius) float64 {
	return at(table.GasSolubility, t) / 100 / mass(SulfurDioxide) * 1000 * room.MolarVolume(t.Kelvin(), float64(quantity.Atmosphere))
}

// uptake is the share of the gas led in that the slurry takes up, 0 to 1: as given, or as
// the way it is led in suggests. What is made of gas for an uptake is made; the slower it
// comes the more is taken up, and the less has to be made. From all taken up on down, the
// first share that agrees with itself is the one.
func (b *Runner) uptake(p *Plan, made func(uptake float64) float64) float64 {
	if quantity.Given(p.GasUptake) {
		return p.GasUptake.Fraction()
	}
	vessels := Absorbers(p)
	bubbles := p.GasDepth * BubbleUnits(p)
	// With slowerTakes and surfaceGrows as powers; Pow has other last digits in the browser.
	// The slurry is that of all batches, since no total hangs on their number.
	surface := SurfaceUnits(p) * math.Cbrt(b.slurryComes(p)/vessels/usualSlurry)
	share := 1.0
	for range 100 {
		stream := made(share) * b.carry.molarVolume / float64(p.GasMinutes)
		if stream == 0 {
			return 1
		}
		units := vessels * (bubbles + surface*math.Sqrt(usualStream/stream))
		next := greater(leastUptake, -math.Expm1(-units))
		if share-next < 1e-15 {
			break
		}
		share = next
	}
	return share
}

// UptakeBetween is how far the truth may lie from what the way of leading the gas in
// suggests, all in percent.
func UptakeBetween(uptake float64) (low, high float64) {
	units := -math.Log1p(-uptake / 100)
	return -100 * math.Expm1(-unitsLow*units), -100 * math.Expm1(-unitsHigh*units)
}
