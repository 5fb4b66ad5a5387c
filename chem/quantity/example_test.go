package quantity_test

import (
	"fmt"

	"rosesalt/chem/quantity"
)

// Manganese sulfate monohydrate has 169.01 g/mol (atomic weights of 2021): 8.45 g of it are a
// twentieth of a mole.
func Example() {
	salt := quantity.Gram(8.45)
	n := salt.Moles(169.01)
	fmt.Printf("%.1f mmol\n", n.Millimoles())
	fmt.Printf("%.2f g\n", float64(n.Mass(169.01)))
	fmt.Println(quantity.Celsius(25).Kelvin())
	// Output:
	// 50.0 mmol
	// 8.45 g
	// 298.15
}

// A value that nobody gave is blank. It is not a number, so it is asked for, never compared.
func ExampleGiven() {
	fmt.Println(quantity.Given(quantity.Gram(0)), quantity.Given(quantity.Gram(quantity.Blank)))
	// Output: true false
}
