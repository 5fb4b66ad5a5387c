package section

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/account"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
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
	for _, says := range []string{"At least 43", "was dilute acid poured in?", " reached the jar, ", "What to change next time:", "Pour in the dilute acid"} {
		at := strings.Index(text, says)
		assert.Greater(t, at, place, "%s, in its order", says)
		place = at
	}
	var answers []string
	for _, b := range doctest.Find[doc.Button](made.Of...) {
		if strings.HasPrefix(b.Value, account.KeyAcid) {
			require.Equal(t, Edit, b.Action)
			answers = append(answers, b.Value)
			if text, planned := strings.CutPrefix(b.Text, "As planned, "); planned {
				assert.Equal(t, account.KeyAcid+"="+strings.TrimSuffix(text, "\u202fmL"), b.Value, "as it is read")
			}
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
	changes, ok := d.PlanNext(desk.Next{})
	require.True(t, ok)
	require.NotEmpty(t, changes)
	assert.Contains(t, changes[0].Sentence, "Learned from this run: no dilute acid went in; besides, ")
	assert.False(t, quantity.Given(d.Record().Acid))
	assert.False(t, quantity.Given(float64(d.Plan().SlurryAcid)), "as much as is needed")
}

// TestAcidThatIsSaidIsNotAskedAbout, neither in the record nor in the plan.
func TestAcidThatIsSaidIsNotAskedAbout(t *testing.T) {
	for _, said := range []string{"&found.acid=108", "&slurry.acid=108"} {
		d := accountedDesk("v=1&found.product=26&found.copper=44" + said)
		assert.NotContains(t, doctest.Text(after(&Source{Desk: d}).Of...), "was dilute acid poured in?", said)
	}
}

// TestWhoDidNotSayWhatWasChargedIsLedThere, to the first field that is blank.
func TestWhoDidNotSayWhatWasChargedIsLedThere(t *testing.T) {
	for fragment, key := range map[string]string{
		"found.product=20": "gas.acid", "found.product=20&gas.acid=40": "gas.copper", "found.product=20&gas.acid=40&gas.copper=20": "",
		"found.product=20&gas.source=peroxide": "peroxide.charge",
	} {
		to := ""
		for _, b := range doctest.Find[doc.Button](after(&Source{Desk: accountedDesk(fragment)}).Of...) {
			if b.Action == Jump {
				to = b.Value
			}
		}
		assert.Equal(t, key, to, fragment)
	}
}

// TestAllAsPlannedNotesEveryCharge at once, with the numbers that it says, and is gone then.
func TestAllAsPlannedNotesEveryCharge(t *testing.T) {
	for fragment, notes := range map[string]int{
		"found.product=20": 3, "found.product=20&found.acid=108": 2, "found.product=20&found.acid=108&gas.acid=40": 1,
		"found.product=20&gas.acid=40&gas.copper=20&found.acid=108": 0, "found.product=20&gas.source=peroxide&found.acid=108": 1,
	} {
		d := accountedDesk(fragment)
		press := func() (of []doc.Button) {
			for _, b := range doctest.Find[doc.Button](after(&Source{Desk: d}).Of...) {
				if b.Action == AsPlanned {
					of = append(of, b)
				}
			}
			return of
		}
		made := press()
		if notes == 0 {
			assert.Empty(t, made, fragment)
			continue
		}
		require.Len(t, made, 1, fragment)
		edits := strings.Split(made[0].Value, "\n")
		require.Len(t, edits, notes, fragment)
		says := strings.Split(strings.TrimPrefix(made[0].Text, "All as planned: "), "; ")
		require.Len(t, says, notes, fragment)
		for i, e := range edits {
			key, value, ok := strings.Cut(e, "=")
			require.True(t, ok)
			assert.Contains(t, says[i], " "+value+"\u202f", "as it is read")
			d.Edit(key, value)
		}
		for !d.Accounted() {
			d.StepRest(desk.Draws)
		}
		assert.Empty(t, press(), fragment)
		assert.Empty(t, d.Account().Verdict().Unsaid, fragment)
	}
}

// TestOneNumberForOneThing: the manganese that was never dissolved is one number in the sentence,
// the list and the book of the picture, and the picture says where it differs from the plan.
func TestOneNumberForOneThing(t *testing.T) {
	d := accountedDesk("v=2&run=2026-05-02T09:00&found.product=12&found.copper=60")
	made := after(&Source{Desk: d})
	shown, ok := d.Account().Shown(account.KeyIntact)
	require.True(t, ok)
	says := route.Print(shown.Median, "mmol")
	assert.Contains(t, doctest.Text(made.Of...), says+" was never dissolved")
	for _, list := range doctest.Find[doc.Figures](made.Of...) {
		for _, f := range list {
			switch f.Key {
			case account.KeyIntact:
				assert.Equal(t, says, f.Number+doc.Unit(f.Unit))
			case account.KeyCake:
				residue := d.Account().LikeliestRun().Book().Element(ledger.Residue, reaction.Mn).Millimoles()
				assert.Equal(t, route.Print(residue, "mmol"), f.Number+doc.Unit(f.Unit))
			}
		}
	}
	flow := likeliestFlow(&Source{Desk: d}, d.Account())
	assert.Contains(t, flow.Note, "As the account has it, ")
	assert.Contains(t, flow.Note, "; the plan has 816\u202fmmol.")
}

// TestPictureSaysWhoseItIs where two causes are as good as likely, and the list of numbers too.
func TestPictureSaysWhoseItIs(t *testing.T) {
	for fragment, close := range map[string]bool{"found.product=20&found.copper=60": true, "found.product=12&found.copper=60": false} {
		d := accountedDesk(fragment)
		says, is := d.Account().Close()
		require.Equal(t, close, is, fragment)
		flow := likeliestFlow(&Source{Desk: d}, d.Account())
		text := doctest.Text(after(&Source{Desk: d}).Of...)
		if !is {
			assert.True(t, strings.HasPrefix(flow.Title, "Most likely, "), flow.Title)
			assert.NotContains(t, text, "by a hair")
			continue
		}
		assert.True(t, strings.HasPrefix(flow.Title, says), flow.Title)
		assert.NotContains(t, flow.Note, "As it most likely ran")
		assert.Contains(t, text, says+"of ")
		assert.Contains(t, text, "The middle numbers hold if ")
	}
}

// TestLostGasIsNotMadeUpFor: the list of what the next run starts from says so, and the plan
// that comes of it keeps its gas.
func TestLostGasIsNotMadeUpFor(t *testing.T) {
	d := accountedDesk("v=2&run=2026-05-02T09:00&found.product=12&found.copper=60")
	html := doctest.HTML(after(&Source{Desk: d}))
	for _, says := range []string{"What the next run may start from", "Little of the gas was taken up, ", "the next plan does not make more gas for that and keeps 73", ": lead the gas slower"} {
		assert.Contains(t, html, says)
	}
	assert.NotContains(t, html, "Gas that the slurry takes up: ")
	was := d.Sheet().Value(route.GasMade)
	said := ""
	changes, _ := d.PlanNext(desk.Next{})
	for _, c := range changes {
		said += c.Sentence + " "
	}
	assert.LessOrEqual(t, d.Sheet().Value(route.GasMade), 1.3*was)
	assert.NotContains(t, d.Fragment(), "gas.uptake")
	assert.Equal(t, 1, strings.Count(strings.ToLower(said), "lead the gas slower"), said)
}
