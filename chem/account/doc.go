// Package account holds the run against the plan: where it all went.
//
// A run ends with a few weighings. Their Record is held against the plan in three
// ways, from the surest to the boldest.
//
//   - Bounds: what follows with few assumptions, each of them said; Bounds.Sure says it in
//     a sentence: so much gas was made at least, all that is in the jar can have used so much
//     at most, so the rest did nothing.
//   - Contradictions: what cannot be, named with its size.
//   - Posterior: what most likely was, and why. Start begins it, and has the other two at once.
//
// # What was measured
//
// Each weighing has a half-width: that of the balance and an allowance for handling.
// A measurement errs normally around what the plan predicts, nineteen times in twenty
// by less than the half-width, so that this is two standard deviations.
//
// # The prior
//
// The plan's own uncertain inputs are drawn as package spread draws them, from the
// densities over low, median and high, independently. The chemist ran what was printed:
// charges left blank are held at what the best estimate needs. Beside what the plan
// allows for there are a few causes that no plan draws, one at a time, with prior
// weights (Causes): more or less oxide, gas lost, an early end, a cake not drained, a wet
// salt or another hydrate, a spill, no dilute acid, another charge, copper that was not
// bright, salt left in the liquor. What was said rules some of them out: another charge
// where the charge was noted, no dilute acid where it was said how much went in. Where it
// was not, any other cause may go with its lack, and a question comes before the verdict.
//
// The verdict answers two questions apart. Need anything have gone wrong (Posterior.Planned): how
// many of the runs that weigh this went as planned? And what is it most likely if something did
// (Posterior.Probability): the shares of the causes add up to one without the runs as planned,
// which are no cause. By two weighings or fewer neither a cause nor a run as planned is given more
// than nine in ten. Points as planned are drawn less often than they weigh, so that enough tell the
// causes apart, and are given their weight at the end.
//
// # The weights
//
// Draws whose predictions meet the measurements weigh more. Where a few draws carry
// all the weight they are not knowledge: then the measurements are let in by steps, the
// logarithm of the likelihood times a factor that rises from 0 to 1; after each step
// the draws are resampled in proportion to their weights, and moved, each by a step
// along the difference of two others of its cause or to another cause, which is kept as
// Metropolis would keep it
// (tempered sequential Monte Carlo: Del Moral, Doucet and Jasra, J. R. Statist. Soc. B
// 68 (2006) 411; the steps: ter Braak, Statist. Comput. 16 (2006) 239; both from
// memory). Every move is a run of the whole plan and stays between every low and high. All
// is drawn from one seed, and whatever a move hangs on is computed by sums, products,
// quotients and roots: the same record gives the same account everywhere, but for
// machines that fuse products into sums (arm64), where it is another draw of the same.
//
// Simulated runs, their truth drawn from this very prior, hold the truth in 80 of 100 of the
// 80 % intervals. The shares of the causes are those of very many plain draws to within a tenth
// or, where many causes are open, a seventh.
//
// One cause at a time: where two things went wrong the account takes the likelier. Where even
// the best point misses a weighing by more than three standard deviations, it says which does
// not go with which, and begins anew with errors so much larger, so that what it says is as
// wide as it fits badly; Fitted then holds what was found in any case.
//
// Where one run is to stand for all, it is the middling one of those points as planned, where
// that is at least as likely as not, or else of the likeliest cause (Mostly), that meet the
// weighings best, the weighed salt first (LikeliestRun): the text, the list (Shown), the picture
// of the flow, and what is printed for scripts are read off its one book. What the balance calls
// manganese sulfate is taken to hold at least some.
//
// Several runs of one bag on one setup share the uptake and the charge. Each account
// tells of them on a grid (Told): the share of its points over that of its first draws, its
// likelihood alone, whatever it began from. Combine multiplies those of several runs over
// the usual estimates, which count once, each for less than its word, since the points
// are few.
//
// A next run starts from what was learned, but not where it would make much more gas for it:
// gas that was lost is not made up for (Carry).
//
// What contradicts the bounds has no weight at all. Where no draw is left there is no
// account, and Posterior.Why says so.
package account
