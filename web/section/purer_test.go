package section

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

// wanting is a desk with a purity wanted, worked out.
func wanting(fragment, purity string) *Source {
	s := from(fragment)
	s.WantPure(purity)
	for !s.StepBands(desk.Draws) {
	}
	for !s.StepRest(desk.Draws) {
	}
	return s
}

// TestPurityWantedComesAtOneTouch: the button does what the sentence says, with nothing else
// changed, and the plan then says that it reaches it.
func TestPurityWantedComesAtOneTouch(t *testing.T) {
	s := wanting("", "95")
	says := doctest.Text(pureAnswer(s)...)
	assert.Contains(t, says, "Cheapest to bring it there, in hours at the bench ")
	buttons := doctest.Find[doc.Button](whatIf(s).Of...)
	var do doc.Button
	for _, b := range buttons {
		if b.Action == Purer {
			do = b
		}
	}
	require.NotEmpty(t, do.Value)
	c, ok := PurerOf(s, do.Value)
	require.True(t, ok)
	for _, change := range c.Set {
		in, _ := route.InputByKey(change.Key)
		assert.Contains(t, says, "“"+in.Name+"” to ")
		s.Edit(change.Key, change.Text)
	}
	assert.InDelta(t, c.Purity, s.Sheet().Value(route.ProductPurity), 1e-9)
	assert.Empty(t, doctest.Find[doc.Button](pureAnswer(s)...), "what is not worked out is not offered")
	_, ok = PurerOf(s, do.Value)
	assert.False(t, ok)

	again := wanting(s.Fragment(), "95")
	assert.Regexp(t, `^The plan comes to 9[56]\.\d`, doctest.Text(pureAnswer(again)...))
	assert.Nil(t, purerTable(again))
}

// TestPurityOutOfReachSaysSo, with the best and with what limits it; all of it in the copied
// text too.
func TestPurityOutOfReachSaysSo(t *testing.T) {
	s := wanting("", "99.5")
	says := PlanText(s)
	for _, part := range []string{"No steps bring it there.", "at most to about ", "What limits it is ", "zinc salts", "recrystallised hot comes to ", "99.5", "does not help", "acid"} {
		assert.Contains(t, says, part)
	}
	table := doctest.Find[doc.Table](purerTable(s))
	require.Len(t, table, 1)
	assert.NotContains(t, doctest.Text(table[0]), "enough")
	assert.Contains(t, doctest.Text(purity(s).Of...), "No steps bring it there.")

	assert.Contains(t, doctest.Text(BenchSheet(s, "")...), "is wanted pure; the plan comes to 81.8")

	none := PlanText(wanting("", ""))
	assert.NotContains(t, none, "No steps")
	assert.Contains(t, doctest.Text(purity(wanting("", "pure")).Of...), "cannot be read")
}

// TestPurityOfARunIsToldAndNotOffered: a plan at the bench is fixed.
func TestPurityOfARunIsToldAndNotOffered(t *testing.T) {
	s := from("")
	s.StartRun()
	s.WantPure("95")
	for !s.StepBands(desk.Draws) {
	}
	for !s.StepRest(desk.Draws) {
	}
	assert.Contains(t, doctest.Text(pureAnswer(s)...), "Cheapest")
	for _, b := range doctest.Find[doc.Button](append(pureAnswer(s), purerTable(s))...) {
		assert.NotEqual(t, Purer, b.Action)
	}
	w := s.Pure()
	_, ok := PurerOf(s, stepsKeys(&w.Answer.Best))
	assert.False(t, ok)
}

// TestPurityIsNeverPrintedAsMoreThanItIs: what falls short of what is wanted does not read as
// enough.
func TestPurityIsNeverPrintedAsMoreThanItIs(t *testing.T) {
	assert.True(t, strings.HasPrefix(pure(94.99), "94.9"))
	assert.True(t, strings.HasPrefix(pure(95), "95.0"))
}

// TestTheSurestIsToldBesideTheCheapest, each with its cost and its button; what is cheapest says
// in what.
func TestTheSurestIsToldBesideTheCheapest(t *testing.T) {
	s := wanting("", "95")
	says := doctest.Text(pureAnswer(s)...)
	assert.Regexp(t, `Cheapest to bring it there, in hours at the bench \(.*\): .* It then comes to 9\d\.\d\x{202f}% at the best guess, nine times in ten to `, says)
	assert.Regexp(t, `Surest: another way \(.*\); .* It then comes to 9\d\.\d\x{202f}% at the best guess, nine times in ten to 9\d\.\d\x{202f}% or more\. Against the plan that is .*other reagents to buy\.`, says)
	buttons := doctest.Find[doc.Button](pureAnswer(s)...)
	require.Len(t, buttons, 2)
	for _, b := range buttons {
		c, ok := PurerOf(s, b.Value)
		require.True(t, ok)
		done := from(s.Fragment())
		for _, change := range c.Set {
			done.Edit(change.Key, change.Text)
		}
		assert.InDelta(t, c.Purity, done.Sheet().Value(route.ProductPurity), 1e-9)
	}
	assert.Contains(t, doctest.Text(pureAnswer(wanting("", "97.5"))...), "by what its fields can change at most to about 96.4")
	assert.Regexp(t, `Recrystallising is beyond the plan’s fields: that jar recrystallised hot comes to 97\.\d\x{202f}%, which is enough`, doctest.Text(pureAnswer(wanting("", "97.5"))...))
}
