package formula_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/formula"
)

func TestTypeset(t *testing.T) {
	for text, want := range map[string]string{
		"":                   "",
		"H2O":                "H₂O",
		"(NH4)2SO4":          "(NH₄)₂SO₄",
		"C10H14N2":           "C₁₀H₁₄N₂",
		"MnSO4·5H2O":         "MnSO₄·5H₂O",
		"SO4^2-":             "SO₄²⁻",
		"10 CO2 + 16 H^+":    "10 CO₂ + 16 H⁺",
		"Mn^2+ -> Mn^3+":     "Mn²⁺ → Mn³⁺",
		"Zn5(OH)8Cl2·H2O":    "Zn₅(OH)₈Cl₂·H₂O",
		"2 MnOOH -> MnO2 + ": "2 MnOOH → MnO₂ + ",
	} {
		assert.Equal(t, want, formula.Typeset(text))
	}
}
