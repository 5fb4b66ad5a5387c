package formula

import (
	"fmt"

	"rosesalt/chem/quantity"
)

// WeightsSource is where the atomic weights were published.
const WeightsSource = "standard atomic weights 2021, abridged: Prohaska T. et al., IUPAC Technical Report, Pure Appl. Chem. 94 (2022) 573-600, doi 10.1515/pac-2019-0603, Table 1"

// weight is a row of the table of standard atomic weights.
type weight struct {
	symbol                string
	z                     int
	standard, uncertainty quantity.GramPerMole
}

// weights are the standard atomic weights 2021 of IUPAC's commission (CIAAW),
// abridged to five figures, by rising atomic number, for the elements that can
// occur in this work. The uncertainty covers the spread of natural samples:
// lead's is large because lead differs from ore to ore.
//
// Source: WeightsSource.
var weights = [...]weight{
	{"H", 1, 1.0080, 0.0002},
	{"C", 6, 12.011, 0.002},
	{"N", 7, 14.007, 0.001},
	{"O", 8, 15.999, 0.001},
	{"Na", 11, 22.990, 0.001},
	{"Mg", 12, 24.305, 0.002},
	{"Al", 13, 26.982, 0.001},
	{"Si", 14, 28.085, 0.001},
	{"P", 15, 30.974, 0.001},
	{"S", 16, 32.06, 0.02},
	{"Cl", 17, 35.45, 0.01},
	{"K", 19, 39.098, 0.001},
	{"Ca", 20, 40.078, 0.004},
	{"Cr", 24, 51.996, 0.001},
	{"Mn", 25, 54.938, 0.001},
	{"Fe", 26, 55.845, 0.002},
	{"Co", 27, 58.933, 0.001},
	{"Ni", 28, 58.693, 0.001},
	{"Cu", 29, 63.546, 0.003},
	{"Zn", 30, 65.38, 0.02},
	{"As", 33, 74.922, 0.001},
	{"Ag", 47, 107.87, 0.01},
	{"Cd", 48, 112.41, 0.01},
	{"Sn", 50, 118.71, 0.01},
	{"Sb", 51, 121.76, 0.01},
	{"I", 53, 126.90, 0.01},
	{"Ba", 56, 137.33, 0.01},
	{"Ce", 58, 140.12, 0.01},
	{"Hg", 80, 200.59, 0.01},
	{"Pb", 82, 207.2, 1.1},
}

// find gives the row of the element and its place, -1 where there is none.
// Thirty rows are searched as fast as a map would find them.
func find(symbol string) (weight, int) {
	for i, w := range weights {
		if w.symbol == symbol {
			return w, i
		}
	}
	return weight{}, -1
}

// AtomicWeight gives the abridged standard atomic weight of the element in
// g/mol, for 30 elements from H (1.0080) to Pb (207.2); Formula.Uncertainty
// tells how sure it is. Any other symbol is an error. Source: IUPAC/CIAAW
// 2021 (Prohaska et al., Pure Appl. Chem. 94 (2022) 573-600, Table 1).
func AtomicWeight(symbol string) (quantity.GramPerMole, error) {
	w, i := find(symbol)
	if i < 0 {
		return 0, fmt.Errorf("formula: unknown element %q", symbol)
	}
	return w.standard, nil
}
