// Package spread says how sure each figure of a plan is.
//
// Nearly every input of the job is a guess until something is weighed. An
// uncertain input has a low, a median and a high value; many plans are drawn from
// between them, each is run whole, and the figures that come out are counted. An
// interval of a figure is where eight in ten of the draws lie (JCGM 101:2008,
// "Propagation of distributions using a Monte Carlo method").
//
//	draws := spread.Start(spread.Case{Plan: route.NewPlan()}, 4096).Finish()
//	low, high, ok := draws.Band(route.ProductMass)
//
// # What is uncertain
//
// See Uncertains. A value that the user set is known, unless an interval is given
// for it. A weighing or an assay takes the place of the estimates that it makes
// superfluous and brings its own tolerance.
//
// # Shape
//
// Every uncertain input is drawn from two halves of a triangle that meet at its median:
// half of the draws lie below it, rarer towards the low end, half above. All that is
// known of an estimate is two ends and the value that the truth is as likely to pass as
// to fall short of; this says so and no more (JCGM 101, 6.4.5 treats the symmetric case,
// which is the whole triangle). The plan is computed at the medians, so that a figure
// that rises or falls with its inputs stands in the middle of its own draws. Being
// bounded, the density needs no truncation: no draw leaves the limits that the input
// accepts, as a normal distribution's would. Its quantile is one square root, which
// IEEE 754 rounds correctly, so that a draw is the same to the last bit on every machine.
//
// A value that the user sets inside an interval of their own is its median. One that
// stands at an end of that interval, or outside, says nothing of where the truth lies in
// it; the plan is then computed at the interval's middle (Case.Planned).
//
// Two things are cut off. An end strength of the acid lies below the strength as
// bought, since weaker acid gives no gas to plan with. And where an assay is given,
// a draw of the mix that no charge from 0 to 100 % could bring to that assay is
// left out: the assay says that the mix is not so (Sampling.Kept counts the others).
//
// # Independence
//
// The inputs are drawn independently of each other. Most are properties of
// different things. Not quite independent are the salts and the water of a mix
// (one recipe), the split and the reach of the oxide (one grain size), and steam and
// the strength at which gas fades (one flame); nothing is published that would
// give a correlation, and none is invented. All cells of a bag share one draw: one
// fill, one recipe, one charge for all rows left open. That makes the intervals wider
// than independent cells would, on purpose: a bag comes from few makers.
//
// # What is decided and what is not known
//
// The chemist decides before the truth is known. A charge or a volume left blank,
// "as much as needed", is therefore held at what the best estimate needs, as the
// page prints it and as it will be measured out; the draws then tell what becomes of
// that. So gas.acid.used has no spread, and gas.acid.needed has: it tells what the
// truth would have needed. Case.Follow lifts this. gas.purge alone is never held:
// it is the room above the charge, not a decision.
//
// # What is bought
//
// What is poured follows the medians, with the excess that the plan asks for; in half of all
// runs more would be wanted. So what is to be bought is what nine draws in ten would pour, each
// as if its truth were known, with the same excess: see Buying.
//
// # Points
//
// The draws are quasi-random: a shifted lattice fills the space of the inputs evenly,
// so that 4096 draws settle an interval as well as several times as many
// pseudo-random ones. Each input has its own coordinate in every plan, so that two
// plans meet the same luck and their difference is the plans' own. The points are
// integers and the same everywhere; the first 1024 of 4096 are a lattice too. The
// core computes with sums, products, quotients and square roots only. Where the
// compiler fuses a product into a sum (arm64, not amd64 or wasm) a figure may differ
// in its sixteenth digit, never in one that is shown.
package spread
