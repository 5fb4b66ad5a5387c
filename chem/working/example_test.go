package working_test

import (
	"fmt"
	"strings"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/chem/working"
)

// The air above 50 mL of acid in a flask of 250 mL.
func Example() {
	plan := route.NewPlan()
	plan.GasFlask, plan.GasAcid = 250, 50 // mL
	steps := working.New(&spread.Case{Plan: plan}).Of(route.GasHeadspace)
	fmt.Print(strings.ReplaceAll(steps.Text(), "\u202f", " ")) // narrow spaces before units
	// Output:
	// Air above the charge
	//
	// Air above the charge
	//   = max(0 mL; [The generator's flask] − [Concentrated acid into the generator] − [water put into the generator])
	//   = max(0 mL; 250 mL − 50 mL − 0 mL)
	//   = 200 mL
	//
	// Where the numbers come from
	//   The generator's flask, 250 mL: chosen, as the plan starts
}
