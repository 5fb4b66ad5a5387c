package safety

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/phrase"
	"rosesalt/chem/phrase/phrasetest"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/route/routetest"
	"rosesalt/scripts/long"
)

// TestTextsHoldInEveryPlan: every file of texts is read; it names no condition, place or thing
// that is not there; where a condition holds, its places have something; and every sentence is
// said in some plan.
func TestTextsHoldInEveryPlan(t *testing.T) {
	books := []*phrase.Book{shared, cautions, mishaps, advices, bottles, labels, drops, glance, things}
	var held []*phrasetest.Held
	for _, book := range books {
		held = append(held, phrasetest.Hold(t, book))
	}
	r := rand.New(rand.NewPCG(3, 5))
	peroxides := []quantity.Percent{10.5, 28, 45.5}
	for i := range long.Of(60, 300, 3000) {
		p := routetest.Way(r, i)
		// By these the law sorts what is bought.
		if i < 3 {
			p.GasStrength = []quantity.Percent{12, 20, 60}[i]
		}
		if i == 3 {
			p.WashTimes, p.WashAcid = 0, 0
		}
		if i >= 4 && i < 34 { // every way in one batch and in two
			p.BatchRuns = float64(1 + i%2)
		}
		if p.GasSource == route.ByPeroxide && len(peroxides) > 0 {
			p.PeroxideStrength, peroxides = peroxides[0], peroxides[1:]
		}
		runner := new(route.Runner)
		sheet := runner.Run(&p)
		m := labelling{p: &p, s: sheet, book: runner.Book()}
		for j, own := range []func(*route.Teller, string) (route.PlaceValue, bool){Place, Place, ofMishaps, strengths, Place, m.places, Place, Place, nil} {
			held[j].In(&route.Teller{Plan: &p, Sheet: sheet, Own: own})
		}
	}
	for _, h := range held {
		h.Done()
	}
}

func TestEverySentenceIsAskedFor(t *testing.T) { phrasetest.Asked(t, shared, bottles, labels) }

// TestWeakPeroxideBearsNothing: what the drops say of peroxide as shops sell it.
func TestWeakPeroxideBearsNothing(t *testing.T) {
	assert.Empty(t, MixtureCodes([]Share{{reaction.HydrogenPeroxide, 3}}))
}

// TestTermsAreWords: a term is told where a word begins with it, not where one holds it.
func TestTermsAreWords(t *testing.T) {
	assert.Empty(t, TermsIn("Put the microphone nearer."))
	for _, text := range []string{"A crop.", "crops", "The first (crop)", "microphone and crop"} {
		list := TermsIn(text)
		require.Len(t, list, 1, text)
		assert.Equal(t, "crop", list[0].Word)
	}
}

// TestTermsSayWhatBurns: what a term says of harm is not milder than the hazard table, which
// counts the diammine as zinc chloride (H314).
func TestTermsSayWhatBurns(t *testing.T) {
	list := TermsIn("diammine")
	require.Len(t, list, 1)
	assert.Contains(t, list[0].Says, "burns")
	assert.NotContains(t, list[0].Says, "irritates")
}

// TestOnlyThingsOfTheTableMeet: a name that is not there is a mistake of a text.
func TestOnlyThingsOfTheTableMeet(t *testing.T) {
	p := route.NewPlan()
	for _, name := range []string{"wash liquor never with lemons", "lemons never with lime", "wash liquor with lemons"} {
		assert.PanicsWithValue(t, "safety: no thing lemons", func() { Place(teller(&p, nil), name) }, name)
	}
	assert.Panics(t, func() { Thing("lemons").In(&p) })
}
