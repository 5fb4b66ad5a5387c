package route

import (
	"strconv"

	"rosesalt/chem/phrase"
)

// Defaults is the version of the defaults of decisions that NewPlan gives. A link holds only
// what differs from them, so those that it was written by count for as long as it is read.
// Estimates belong to no version: a better one is better for old plans too.
const Defaults = 2

// PlanOf is NewPlan with the defaults of a version, the first of which is 1. For a version
// that this program does not know yet it is NewPlan.
func PlanOf(version int) Plan {
	p := NewPlan()
	for i := range inputs {
		in := &inputs[i]
		if at := max(version, 1) - 1; at < len(in.earlier) {
			*in.number(&p) = in.earlier[at]
		}
	}
	return p
}

var sinceTexts = phrase.Open(&files, "since", "change")

// ChangesSince says what moved the figures of a plan since a version of the defaults; none for
// the present one.
func ChangesSince(p *Plan, version int) (changes []string) {
	for v := max(version, 1); v < Defaults; v++ {
		changes = append(changes, sinceTexts.At(strconv.Itoa(v), &Teller{Plan: p}).All("change")...)
	}
	return changes
}
