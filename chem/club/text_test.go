package club

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/phrase/phrasetest"
	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/scripts/long"
)

// TestTextsHoldInEveryPlan: they name no condition that is not there, and every sentence is
// said in some plan.
func TestTextsHoldInEveryPlan(t *testing.T) {
	who, harm, page := phrasetest.Hold(t, tasks), phrasetest.Hold(t, risks), phrasetest.Hold(t, sheet)
	r := rand.New(rand.NewPCG(5, 7))
	for i := range long.Of(60, 300, 3000) {
		p := routetest.Way(r, i)
		runner := new(route.Runner)
		figures := runner.Run(&p)
		all := teller(&p, runner.Book())
		for _, held := range []*phrasetest.Held{who, harm, page} {
			held.In(all)
		}
		for _, st := range procedure.Steps(&p, figures, nil) {
			assert.Len(t, tasks.At(st.Key, all).Lines, 1, "%s is for adults or for the code to say", st.Key)
		}
	}
	for _, held := range []*phrasetest.Held{who, harm, page} {
		held.Done()
	}
}

// TestEveryStepHasItsTask, and no task is of a step that no plan has.
func TestEveryStepHasItsTask(t *testing.T) {
	var keys []string
	for _, b := range tasks.Blocks() {
		keys = append(keys, b.Key)
	}
	assert.Equal(t, slices.Sorted(slices.Values(procedure.Keys())), slices.Sorted(slices.Values(keys)))
}

func TestEverySentenceIsAskedFor(t *testing.T) { phrasetest.Asked(t, sheet) }

// TestOffersAreThoseThatAreMade, and their places are given.
func TestOffersAreThoseThatAreMade(t *testing.T) {
	phrasetest.Matches(t, offers, routetest.Knows, "offer", "says", "add")
}
