package spread

import "rosesalt/chem/route"

// BuyingDraws settle what nine in ten draws do with to about a hundredth of it.
const BuyingDraws = 1024

// Buying finds what to buy of each reagent so that it is enough in nine runs of ten: what nine
// draws in ten would take if the chemist knew each truth beforehand. That all are enough at once
// is told of none: in the plan that the page opens with they are in seven of ten. Charges and volumes left
// blank follow each draw there (Case.Follow), with all the excess that the plan asks for;
// those that are given are as given.
type Buying struct {
	run   *Sampling
	takes sample
	more  route.Amounts
}

// StartBuying prepares the draws of a case.
func StartBuying(c Case) *Buying {
	c.Follow = true
	return &Buying{run: Start(c, BuyingDraws), takes: newSample(len(route.Amounts{}), BuyingDraws)}
}

// Restart begins anew with another case, in the same memory.
func (b *Buying) Restart(c Case) {
	c.Follow = true
	b.run.Restart(c)
}

// Step does at most n more draws and tells whether all are done.
func (b *Buying) Step(n int) bool {
	r := b.run
	if r.done == r.draws {
		return true
	}
	for end := min(r.draws, r.done+n); r.done < end; r.done++ {
		s := r.drawn(r.done)
		if contradicts(&r.plan, s) {
			b.takes.leaveOut(r.done)
			continue
		}
		r.kept++
		for id, v := range route.Takes(&r.plan, s) {
			b.takes.put(id, r.done, v)
		}
	}
	if r.done < r.draws {
		return false
	}
	for id, best := range route.Takes(&r.c.Plan, &r.best) {
		q := [1]float64{bandHigh}
		b.more[id] = 1
		if b.takes.quantiles(b.takes.column(id, r.done), q[:]) > 0 && q[0] > best*(1+lastDigits) && best > 0 {
			b.more[id] = q[0] / best
		}
	}
	return true
}

// More is, of each reagent, what nine draws in ten do with, to what the plan takes; 1 where
// that is no more. Complete when Step is true.
func (b *Buying) More() route.Amounts { return b.more }
