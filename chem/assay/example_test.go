package assay_test

import (
	"fmt"

	"rosesalt/chem/assay"
	"rosesalt/chem/quantity"
)

// Talbot H. P., An Introductory Course of Quantitative Chemical Analysis, 6th ed., problem 51:
// 0.6000 g of pyrolusite, 0.9000 g of oxalic acid, 23.95 mL of permanganate, of which 1 mL takes
// 0.03038 g of FeSO4·7H2O. It prints 84.47 % of MnO2; the atomic weights are those of 2021 here.
func ExampleEvaluate() {
	readings := assay.Readings{
		"assay.permanganate.known": 0.02185567, // mol/L, a fifth of 0.03038 g in 278.0 g/mol
		"assay.oxalate.sample":     0.6000,
		"assay.oxalate.mass":       0.9000,
		"assay.oxalate.purity":     100,
		"assay.oxalate.titre":      23.95,
	}
	for _, o := range assay.Evaluate(readings, assay.Air{Pressure: quantity.Atmosphere}) {
		if o.Result != nil {
			fmt.Printf("%s: %.4g %s\n", o.Result.Name, o.Result.Value, o.Result.Unit)
		}
	}
	// Output:
	// Strength of the permanganate: 0.02186 mol/L
	// Available oxygen of the mix, as MnO₂: 84.48 %
}
