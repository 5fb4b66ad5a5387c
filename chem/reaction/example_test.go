package reaction_test

import (
	"fmt"

	"rosesalt/chem/reaction"
)

// The dissolution of spent oxide by sulfur dioxide balances; without the acid it does not.
func ExampleParse() {
	e, err := reaction.Parse("2 MnOOH + SO2 + H2SO4 -> 2 MnSO4 + 2 H2O")
	fmt.Println(e, err)
	_, err = reaction.Parse("2 MnOOH + SO2 -> 2 MnSO4 + H2O")
	fmt.Println(err)
	// Output:
	// 2 MnOOH + SO2 + H2SO4 -> 2 MnSO4 + 2 H2O <nil>
	// reaction: O does not balance in "2 MnOOH + SO2 -> 2 MnSO4 + H2O": +3
}
