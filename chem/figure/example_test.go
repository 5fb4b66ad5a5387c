package figure_test

import (
	"fmt"

	"rosesalt/chem/figure"
)

// The mass of a gas from its amount.
func ExampleFormula_Eval() {
	f := figure.Parse("gas.made/1000[mmol/mol]*M(SO2)")
	grams := f.Eval(func(name string) float64 {
		return map[string]float64{"gas.made": 360, "M(SO2)": 64.064}[name]
	})
	fmt.Printf("%.2f g\n", grams)
	// Output:
	// 23.06 g
}
