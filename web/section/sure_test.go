package section

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

func TestShelfSaysWhatChargesAllow(t *testing.T) {
	says := doctest.Text(whatIf(from("gas.acid=25&gas.copper=8")).Of...)
	for _, part := range []string{"runs out first", "would use", "of this oxide"} {
		assert.Contains(t, says, part)
	}
	assert.NotContains(t, doctest.Text(whatIf(from("")).Of...), "What you have", "with nothing given there is nothing to say")
}

// TestSureWaitsForItsDraws: first it says so, then what to measure and what the doubt
// rests on. The list of intervals keeps its place meanwhile, since one may be typing in it.
func TestSureWaitsForItsDraws(t *testing.T) {
	s := from("")
	early := sure(s)
	assert.Contains(t, doctest.Text(early.Of...), "Working out what to measure next …")
	for !s.StepBands(desk.Draws) {
	}
	for !s.StepRest(desk.Draws) {
	}
	late := sure(s)
	list := doctest.Find[doc.List](late.Of...)
	require.Len(t, list, 1)
	assert.Equal(t, "advice", list[0].Class)
	assert.Contains(t, doctest.Text(list[0].Items[0]), " becomes ")
	was, is := doctest.Find[doc.Fold](early.Of...)[0], doctest.Find[doc.Fold](late.Of...)[0]
	require.Len(t, is.Of, len(was.Of))
	assert.Contains(t, doctest.Text(is.Of[0]), "Most of the doubt comes from: ")
	assert.Equal(t, column(was.Of[1].(doc.Table), 1), column(is.Of[1].(doc.Table), 1))
	assert.NotEmpty(t, column(is.Of[1].(doc.Table), 2)[0]+column(is.Of[1].(doc.Table), 2)[1])

	s.Edit("gas.uptake~", "tea")
	problem := doctest.Find[doc.Problem](sure(s).Of...)
	says := ""
	for _, p := range problem {
		says += p.Says
	}
	assert.Equal(t, s.Problem("gas.uptake~"), says)
	require.NotEmpty(t, says)
}

func TestPinnedPlanStandsBesideThisOne(t *testing.T) {
	s := from("")
	pin := func() doc.Button { return doctest.Find[doc.Button](whatIf(s).Of...)[0] }
	assert.NotEmpty(t, pin().Value)
	assert.Empty(t, doctest.Find[doc.Table](whatIf(s).Of...))
	s.PinPlan()
	s.Edit("cell.count", "12")
	assert.Empty(t, pin().Value, "let it go")
	table := doctest.Find[doc.Table](whatIf(s).Of...)[0]
	for i, name := range column(table, 0) {
		if name == route.BatchManganese.Info().Name {
			assert.Equal(t, "+", column(table, 3)[i][:1])
		}
	}
	assert.Contains(t, column(table, 0), route.BatchManganese.Info().Name)
}
