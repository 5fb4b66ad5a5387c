// Package room computes the concentration of gas in the air of a room into which a part
// of it escapes.
//
// The room is one well-mixed volume with a steady change of air, V dC = G dt − Q C dt
// (University of Toledo, Industrial Ventilation, formulae of ch. X; the same balance in
// Engineering ToolBox, "Pollution Concentration in Rooms"). Real rooms mix worse: near
// the leak the concentration is several times higher. The result shows why the work belongs
// outdoors or in a fume cupboard; it does not show that a room is safe.
package room

import "math"

// PartPerMillion is a share of the air by volume, in millionths.
type PartPerMillion float64

// CubicMetre is a volume of air.
type CubicMetre float64

// CubicMetrePerHour is a flow of gas or air.
type CubicMetrePerHour float64

// PerHour is how often an hour the air of a room is changed.
type PerHour float64

// Hour is a time in hours.
type Hour float64

// GasConstant in J/(mol·K), exact by definition (SI Brochure, 9th ed., 2.2: k and N_A).
const GasConstant = 8.314462618

// MolarVolume is that of an ideal gas, which a trace in air is, in litres a mole, at a
// temperature in kelvin and a pressure in kilopascals, both above zero. 24.45 L/mol at 25 °C and one
// atmosphere, 24.05 at 20 °C.
func MolarVolume(kelvin, kilopascal float64) float64 { return GasConstant * kelvin / kilopascal }

// Release is pure gas that escapes at a steady flow for some time.
type Release struct {
	Gas     CubicMetrePerHour // not below zero
	Lasting Hour              // above zero
}

// Room is a volume of air that is renewed at a steady rate. Volume is above zero, Changes
// not below zero.
type Room struct {
	Volume  CubicMetre
	Changes PerHour
}

// build is (1 − e^−nt)/n, which is t where the air stands still.
func build(n, t float64) float64 {
	if n*t < 1e-9 {
		return t
	}
	return -math.Expm1(-n*t) / n
}

// At is the concentration at a time after the beginning of the release. The air was clean
// before it, and the air from outside is.
func (r Room) At(g Release, t Hour) PartPerMillion {
	n, perHour := float64(r.Changes), float64(g.Gas)/float64(r.Volume)*1e6
	if t <= g.Lasting {
		return PartPerMillion(perHour * build(n, float64(t)))
	}
	return PartPerMillion(perHour * build(n, float64(g.Lasting)) * math.Exp(-n*float64(t-g.Lasting)))
}

// Peak is the highest concentration, which is that at the end of the release.
func (r Room) Peak(g Release) PartPerMillion { return r.At(g, g.Lasting) }

// HighestMean is the highest mean over a window of time, which is above zero. The window
// with the highest mean begins and ends at the same concentration, before and after the end
// of the release.
func (r Room) HighestMean(g Release, window Hour) PartPerMillion {
	n, w, last := float64(r.Changes), float64(window), float64(g.Lasting)
	from := last // in still air what is there stays
	if n*last > 1e-6 {
		if last >= w { // the same, without the large powers
			from = last - w + math.Log(-math.Expm1(-n*last)+math.Exp(n*(w-last)))/n
		} else {
			from = math.Log1p(math.Expm1(n*last)*math.Exp(-n*w)) / n
		}
	}
	return PartPerMillion((r.dose(g, from+w) - r.dose(g, from)) / w)
}

// dose is the concentration summed over time from the beginning, in ppm·h.
func (r Room) dose(g Release, t float64) float64 {
	n, last := float64(r.Changes), float64(g.Lasting)
	perHour := float64(g.Gas) / float64(r.Volume) * 1e6
	rising := math.Min(t, last)
	sum := rising * rising / 2
	if n*rising > 1e-6 {
		sum = (rising - build(n, rising)) / n
	}
	if t > last {
		sum += build(n, last) * build(n, t-last)
	}
	return perHour * sum
}

// FreshAir is the flow of clean air that keeps a steady release at a concentration for
// good, G/C, with air that mixes at once. Handbooks ask three to ten times that in an
// ordinary room (ACGIH, Industrial Ventilation, the factor K; from memory).
func FreshAir(gas CubicMetrePerHour, limit PartPerMillion) CubicMetrePerHour {
	return CubicMetrePerHour(float64(gas) / float64(limit) * 1e6)
}

// MilligramPerCubicMetre turns a concentration into a mass in a volume at a molar volume
// in litres a mole. Limits are printed in both; each jurisdiction has its temperature.
func (c PartPerMillion) MilligramPerCubicMetre(gramPerMole, litrePerMole float64) float64 {
	return float64(c) * gramPerMole / litrePerMole
}
