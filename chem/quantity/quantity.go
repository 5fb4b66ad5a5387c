// Package quantity names the units that the rest of the core computes in.
//
// A quantity is a named float64: the unit is said once, in the type, and the
// compiler refuses a gram where a mole is wanted. Conversions between units of
// one kind are methods; conversions that need a property of a substance (a
// molar mass, a density) are made where that property is known. Each is one product,
// quotient or sum and rounds once, so there and back may differ in the last digit.
//
//	salt := quantity.Gram(8.45)
//	n := salt.Moles(169.009) // 0.0500 mol
//	salt.Moles(n)            // does not compile: an amount is no molar mass
package quantity

import (
	"math"
	"time"
)

// Gram is a mass in grams.
type Gram float64

// Mole is an amount of substance in moles.
type Mole float64

// GramPerMole is a molar mass.
type GramPerMole float64

// Millilitre is a volume in millilitres (cubic centimetres).
type Millilitre float64

// MillilitrePerGram is a volume held by a mass, as of liquor by a drained cake.
type MillilitrePerGram float64

// MillilitrePerHour is a rate at which a liquid leaves, as in evaporating.
type MillilitrePerHour float64

// GramPerMillilitre is a density.
type GramPerMillilitre float64

// MilligramPerLitre is a concentration in a dilute liquor.
type MilligramPerLitre float64

// Celsius is a temperature in degrees Celsius.
type Celsius float64

// Kilopascal is a pressure.
type Kilopascal float64

// Minute is a duration in minutes.
type Minute float64

// Percent is a share in hundredths; 100 is the whole.
type Percent float64

// Atmosphere is the standard atmosphere, exact by definition
// (10th CGPM, 1954: 101 325 Pa).
const Atmosphere Kilopascal = 101.325

// Duration gives the time as package time counts it.
func (m Minute) Duration() time.Duration { return time.Duration(float64(m) * float64(time.Minute)) }

// Fraction gives the share as a number of which 1 is the whole.
func (p Percent) Fraction() float64 { return float64(p) / 100 }

// Millimoles gives the amount in thousandths of a mole.
func (n Mole) Millimoles() float64 { return float64(n) * 1000 }

// Mass is what an amount of substance weighs at the given molar mass.
func (n Mole) Mass(m GramPerMole) Gram { return Gram(float64(n) * float64(m)) }

// Moles is the amount of substance in a mass at the given molar mass.
func (g Gram) Moles(m GramPerMole) Mole { return Mole(float64(g) / float64(m)) }

// Kelvin gives the temperature on the absolute scale
// (273.15 K at 0 °C, exact by definition; SI Brochure, 9th ed., 2.3.1).
func (t Celsius) Kelvin() float64 { return float64(t) + 273.15 }

// Blank marks an input that the user has left open: "as much as needed", or
// "follow the rule". It is not a number, so that it cannot be computed with by
// mistake; ask Given before use.
var Blank = math.NaN()

// Given tells whether a value was given, that is, is not Blank.
func Given[T ~float64](x T) bool { return !math.IsNaN(float64(x)) }
