// Package assay turns the readings of a titration or a weighing into what the
// plan asks for: the available oxygen of the washed black mix (mix.assay), the
// manganese of the product (found.assay), the water that it holds (found.dried).
//
// Evaluate takes all readings and works out every method whose readings are complete:
//
//	readings := assay.Readings{"assay.loss.sample": 2.00, …}
//	for _, o := range assay.Evaluate(readings, assay.Air{Pressure: 101.325}) {
//		o.Result // nil while readings are wanting or do not go together
//	}
//
// The titrants are standardised first and handed on, value and uncertainty.
//
// # Uncertainty
//
// The law of propagation, first order (JCGM 100:2008, 5.1.2), over the tolerances
// of glass and balance (file tolerance.go), with partial derivatives taken
// numerically. What a small sample may differ from the rest comes on top when a
// result is handed over.
//
// # What is refused
//
// A method refuses the conditions under which its chemistry is wrong, and results
// that cannot be: with a message at the reading that most likely did it, found by
// trying the common slips and seeing which of them makes the result possible.
//
// Everything is a pure function of its arguments.
package assay
