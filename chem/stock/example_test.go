package stock_test

import (
	"fmt"

	"rosesalt/chem/route"
	"rosesalt/chem/stock"
)

// 30 mL of strong acid on the shelf: the plan takes the largest share of its mix, in whole
// percent, for which they are enough.
func ExampleShelf_Fit() {
	shelf, plan := stock.Shelf{"shelf.acid": 30}, route.NewPlan()
	fitted := shelf.Fit(&plan, false)
	short, _ := fitted.Scarce()
	fmt.Printf("%g %% of the mix instead of %g %%: too little %s\n", float64(fitted.Share), float64(fitted.Own), short.Word)
	for plan.BatchShare = fitted.Share; plan.BatchShare <= fitted.Share+1; plan.BatchShare++ {
		acid := route.StrongAcid(&plan, new(route.Runner).Run(&plan))
		fmt.Printf("at %g %%: %.1f mL\n", float64(plan.BatchShare), acid.Generator+acid.Dilute+acid.Rinse)
	}
	// Output:
	// 9 % of the mix instead of 25 %: too little acid
	// at 9 %: 29.8 mL
	// at 10 %: 31.9 mL
}
