package safety_test

import (
	"fmt"

	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

// Sulfuric acid burns from 15 % on and irritates skin and eyes from 5 % (CLP, annex VI
// 016-020-00-8), so that 1 mol/L of it, 9.2 %, irritates. H290 is for metals.
func ExampleMixtureCodes() {
	for _, percent := range []quantity.Percent{4, 9.2, 20} {
		fmt.Println(percent, safety.MixtureCodes([]safety.Share{{Substance: reaction.SulfuricAcid, Percent: percent}}))
	}
	// Output:
	// 4 [H290]
	// 9.2 [H290 H315 H319]
	// 20 [H290 H314]
}

// What the wash liquor of the usual plan must never meet, the gravest first.
func ExampleNever() {
	plan := route.NewPlan()
	for _, line := range safety.Never("wash liquor", &plan, 2) {
		fmt.Println(line)
	}
	// Output:
	// chlorine bleach: chloramines, which burn the lungs
	// caustic drain cleaner or lime: ammonia, which chokes
}
