package club_test

import (
	"fmt"

	"rosesalt/chem/club"
	"rosesalt/chem/route"
)

// Three groups, each with its own batch, of which two make gas at a time: two turns at the gas,
// and three times the reagents.
func Example() {
	c := club.New()
	c.Groups, c.AtOnce = 3, 2
	plan := route.NewPlan()
	fmt.Println(c.Batches(), "batches in", c.Turns(), "turns")
	for _, r := range c.Reagents(route.Reagents(&plan, new(route.Runner).Run(&plan))) {
		if r.ID == route.StrongAcidReagent {
			fmt.Printf("strong acid: %.0f %s, %.0f times a group's\n", r.Buy, r.Unit, r.Buy/r.Amount)
		}
	}
	// Output:
	// 3 batches in 2 turns
	// strong acid: 193 mL, 3 times a group's
}
