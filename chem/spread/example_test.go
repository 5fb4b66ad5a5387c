package spread_test

import (
	"fmt"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// The two numbers that the Guide to the Expression of Uncertainty in Measurement (JCGM
// 100:2008, 7.2.6) rounds: 10.47 mΩ up to 11, 28.05 kHz to 28.
func ExampleHalfWidth() {
	fmt.Println(spread.HalfWidth(10.47), spread.HalfWidth(28.05))
	// Output: 11 28
}

// What is weighed narrows a figure: the band of the product with the mix weighed lies within
// the band without.
func Example() {
	band := func(c spread.Case) float64 {
		low, high, _ := spread.Start(c, 1024).Finish().Band(route.ProductMass)
		return high - low
	}
	guessed := spread.Case{Plan: route.NewPlan()}
	weighed := guessed
	weighed.Plan.MixWet = 140 // g
	fmt.Println(band(weighed) < band(guessed))
	// Output: true
}
