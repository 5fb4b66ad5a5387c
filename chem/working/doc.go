// Package working shows how each figure of a plan comes about: the formula in
// words, the same with the plan's numbers and units, the result, the balanced
// equations, and what every constant and input rests on.
//
//	w := working.New(&spread.Case{Plan: plan})
//	steps := w.Of(route.ProductMass)
//	fmt.Println(steps.Text())
//
// A figure's formula is one line of text beside its stage. It names other
// figures and inputs by their keys, the constants of package route, molar
// masses M(SO2), amounts on the ledger n(jar, MnSO4), tables, and quantities
// defined on the way, each of which becomes a step of its own. What stands in a
// vessel is the sum of the bookings that brought it there.
//
// Formulas are worked out by themselves, not copied from the stages: the tests
// hold them to the stages' figures, and what is printed to what they give, for
// plans drawn at random.
package working
