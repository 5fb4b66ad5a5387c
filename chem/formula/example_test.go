package formula_test

import (
	"fmt"

	"rosesalt/chem/formula"
)

func ExampleParse() {
	salt, err := formula.Parse("MnSO4·H2O")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s weighs %.3f ± %.3f g/mol and is %.2f %% manganese\n",
		salt, salt.MolarMass(), salt.Uncertainty(), 100*salt.MassFraction("Mn"))

	_, err = formula.Parse("XxO")
	fmt.Println(err)
	// Output:
	// MnSO4·H2O weighs 169.009 ± 0.021 g/mol and is 32.51 % manganese
	// formula: unknown element "Xx" in "XxO"
}

func ExampleFormula_Elements() {
	for _, c := range formula.MustParse("Zn5(OH)8Cl2·H2O").Elements() {
		fmt.Print(c.Symbol, " ", c.N, "; ")
	}
	// Output: H 10; O 9; Cl 2; Zn 5;
}
