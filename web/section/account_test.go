package section

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/chem/quantity"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

func accountedDesk(fragment string) *desk.Desk {
	d := desk.New(fragment)
	for !d.Accounted() {
		d.StepRest(desk.Draws)
	}
	return d
}

// TestDiluteAcidIsAskedAbout: a beginner's run of which nobody said whether dilute acid went
// in reads: what is sure, a question with its answers to press, what is likely, what to do.
func TestDiluteAcidIsAskedAbout(t *testing.T) {
	d := accountedDesk("v=1&cell.count=2&batch.share=100&gas.acid=15&gas.copper=6&found.copper=12.4&found.product=2.1")
	made := after(&Source{Desk: d})
	text := doctest.Text(made.Of...)
	place := -1
	for _, says := range []string{"At least 43", "was dilute acid poured in?", " reached the jar, ", "Next time: pour in the dilute acid"} {
		at := strings.Index(text, says)
		assert.Greater(t, at, place, "%s, in its order", says)
		place = at
	}
	var answers []string
	for _, b := range doctest.Find[doc.Button](made.Of...) {
		if strings.HasPrefix(b.Value, account.KeyAcid) {
			require.Equal(t, Edit, b.Action)
			answers = append(answers, b.Value)
		}
	}
	require.Len(t, answers, 2)
	key, value, _ := strings.Cut(answers[0], "=")
	d.Edit(key, value)
	for !d.Accounted() {
		d.StepRest(desk.Draws)
	}
	made = after(&Source{Desk: d})
	text = doctest.Text(made.Of...)
	assert.NotContains(t, text, "was dilute acid poured in?")
	assert.Contains(t, text, "Without dilute acid the best estimate is")
	assert.Contains(t, text, "No dilute acid went in; besides, ")
	assert.NotContains(t, text, " 0\u202fmmol reached the jar")

	// One press pours it in next time, and says first what was learned.
	changes := d.PlanNext()
	require.NotEmpty(t, changes)
	assert.Contains(t, changes[0].Sentence, "Learned from this run: no dilute acid went in; besides, ")
	assert.False(t, quantity.Given(d.Found().Acid))
	assert.False(t, quantity.Given(float64(d.Plan().SlurryAcid)), "as much as is needed")
}

// TestAcidThatIsSaidIsNotAskedAbout, neither in the record nor in the plan.
func TestAcidThatIsSaidIsNotAskedAbout(t *testing.T) {
	for _, said := range []string{"&found.acid=108", "&slurry.acid=108"} {
		d := accountedDesk("v=1&found.product=26&found.copper=44" + said)
		assert.NotContains(t, doctest.Text(after(&Source{Desk: d}).Of...), "was dilute acid poured in?", said)
	}
}
