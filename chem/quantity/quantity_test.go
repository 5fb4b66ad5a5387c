package quantity_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/quantity"
)

func TestMassAndAmountComeBack(t *testing.T) {
	water := quantity.GramPerMole(18.015)
	assert.InDelta(t, 36.03, float64(quantity.Mole(2).Mass(water)), 1e-12)
	assert.InDelta(t, 2, float64(quantity.Gram(36.03).Moles(water)), 1e-12)
	assert.InDelta(t, 1500, quantity.Mole(1.5).Millimoles(), 1e-12)
}

func TestScalesAreThoseOfTheSI(t *testing.T) {
	// SI Brochure, 9th ed., 2.3.1: 0 °C is 273.15 K; 10th CGPM, 1954: 101 325 Pa.
	assert.Equal(t, 273.15, quantity.Celsius(0).Kelvin())
	assert.Equal(t, quantity.Kilopascal(101.325), quantity.Atmosphere)
	assert.Equal(t, 0.25, quantity.Percent(25).Fraction())
}

func TestBlankIsNotGiven(t *testing.T) {
	assert.False(t, quantity.Given(quantity.Blank))
	assert.True(t, quantity.Given(quantity.Gram(0)), "nothing of it is something given")
	assert.True(t, math.IsNaN(quantity.Blank*2), "it cannot be computed with by mistake")
}
