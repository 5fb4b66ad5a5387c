package section

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

// glanceOf is what the first screen says of a fragment.
func glanceOf(fragment string) string { return doctest.Text(Glance(from(fragment))...) }

// TestTheFirstScreenNamesWhatLimits, and says nothing of a shelf that nobody spoke of.
func TestTheFirstScreenNamesWhatLimits(t *testing.T) {
	for fragment, words := range map[string]string{
		"shelf.acid=40":                           `Shelf\. Your 40\x{202f}mL of acid is enough for 13\x{202f}% of the mix; it is what limits\. 2\d\x{202f}mL more would do for a quarter\.`,
		"shelf.acid=40&batch.share=50":            `it is what limits\. You set half, which takes \d+\x{202f}mL\.`,
		"shelf.acid=40&shelf.share=usual":         `it is what limits\. You set a quarter, which takes 64\x{202f}mL\.`,
		"shelf.acid=5":                            `Your 5\x{202f}mL of acid is not enough for any share of the mix; it is what limits\. For a quarter the plan takes 64\x{202f}mL\.`,
		"shelf.acid=500&shelf.copper=40":          `Shelf\. Enough for \d\d\x{202f}% of the mix, with nothing in reserve; copper would run out first\.`,
		"gas.source=metabisulfite&shelf.acid=500": `acid would run out first\. Metabisulfite is not said to be on the shelf\.`,
		"shelf.buy.acid=no":                       `This way needs strong acid, of which you named none on the shelf, and none may be bought here\.`,
		"gas.source=oxalic&shelf.oxalic=0":        `This way needs oxalic acid, of which none stands on the shelf\.`,
		"gas.source=peroxide&shelf.peroxide=50":   `Your 50\x{202f}mL of peroxide is enough for `,
		"dry.rate=20":                             `Long\. 251\x{202f}mL boil down in 12\x{202f}h\. .*Two such dishes take 6\.\d\x{202f}h`,
	} {
		assert.Regexp(t, words, strings.ReplaceAll(glanceOf(fragment), "\n", " "), fragment)
		assert.NotContains(t, glanceOf(fragment), "NaN", fragment)
	}
	for _, fragment := range []string{"", "shelf.oxalic=3", "shelf.share=usual", "cell.rejects=6&shelf.acid=3"} {
		assert.NotContains(t, glanceOf(fragment), "Shelf.", fragment)
	}
	s := from("shelf.acid=40")
	require.True(t, s.StartRun())
	assert.NotContains(t, doctest.Text(Glance(s)...), "Shelf.", "a run goes on as it was begun")
}

// TestEveryOfferIsFoundByItsButton, and does what it says.
func TestEveryOfferIsFoundByItsButton(t *testing.T) {
	pressed := 0
	for _, fragment := range []string{"shelf.acid=40", "shelf.acid=40&batch.share=50", "shelf.buy.acid=no", "dry.rate=20", "gas.flask=50"} {
		for _, b := range doctest.Find[doc.Button](append(atHand(from(fragment)), boiling(from(fragment))...)...) {
			s := from(fragment)
			o, ok := SuitOf(s, b.Value)
			require.True(t, ok, b.Value)
			for _, c := range o.Set {
				s.Edit(c.Key, c.Text)
				assert.Empty(t, s.Problem(c.Key), "%s: %s", fragment, o.Text)
			}
			assert.NotEqual(t, from(fragment).Fragment(), s.Fragment(), o.Text)
			assert.Empty(t, shortOf(s), "%s: %s", fragment, o.Text)
			assert.Empty(t, TooSmall(s.Desk), "%s: %s", fragment, o.Text)
			pressed++
		}
	}
	assert.Greater(t, pressed, 9)
	_, ok := SuitOf(from(""), "Take 13\u202f% of the mix")
	assert.False(t, ok, "offered no more")
}

// TestTheShelfAsksForNothingTwice: flask, slurry vessel, dish and hours have their names
// elsewhere.
func TestTheShelfAsksForNothingTwice(t *testing.T) {
	s := from("shelf.acid=40")
	made := shelf(s)
	html := doctest.HTML(made)
	for _, key := range []string{"gas.flask", "slurry.beaker", "dry.dish", "days.long"} {
		assert.Contains(t, html, `data-key="`+key+`"`)
		assert.NotContains(t, html, `name="`+key+`"`)
		assert.NotContains(t, html, `id="in.`+key+`"`)
	}
	assert.Contains(t, html, `name="shelf.acid"`)
	text := doctest.Text(made.Of...)
	assert.Contains(t, text, "13\u202f% of the mix")
	ways, _ := route.InputByKey("gas.source")
	for _, o := range ways.Options {
		assert.Contains(t, strings.ToLower(text), o.Name)
	}
	assert.NotContains(t, doctest.Text(shelf(from("")).Of...), "leaves open", "nothing is said, all is open")
	assert.Equal(t, "by the shelf", Field(s.Desk, shareInput()).Tag)
	assert.NotEqual(t, "by the shelf", Field(from("").Desk, shareInput()).Tag)
}

func shareInput() *route.Input {
	in, _ := route.InputByKey("batch.share")
	return in
}

// TestTablesOfOtherPlansAreOfTheShareThatFollows: a way costs other amounts of what is scarce, and
// so does a rinse with acid; each stands with the share that the plan then has.
func TestTablesOfOtherPlansAreOfTheShareThatFollows(t *testing.T) {
	for _, fragment := range []string{"v=2&shelf.acid=30", "v=2&shelf.acid=40&shelf.metabisulfite=10", "v=2"} {
		s := from(fragment)
		table := doctest.Find[doc.Table](ways(s).Of...)[0]
		pressed := 0
		for i, head := range table.Heads {
			for _, b := range doctest.Find[doc.Button](head) {
				then := from(fragment)
				key, text, _ := strings.Cut(b.Value, "=")
				then.Edit(key, text)
				for _, row := range table.Rows {
					if doctest.Text(row[0]) == "In the jar" {
						assert.Equal(t, route.Print(then.Sheet().Value(route.ProductMass), "g"), doctest.Text(row[i]), b.Value)
						pressed++
					}
				}
			}
		}
		assert.Positive(t, pressed)

		found := 0
		for _, step := range route.PuritySteps(s.Plan(), s.Sheet()) {
			then := from(fragment)
			for _, change := range step.Set {
				then.Edit(change.Key, change.Text)
			}
			for _, row := range doctest.Find[doc.Table](purity(s).Of...)[0].Rows {
				if name := doctest.Text(row[0]); strings.HasPrefix(name, step.Name) && strings.Contains(name, step.How) {
					found++
					assert.Equal(t, route.Print(then.Sheet().Value(route.ProductMass), "g"), doctest.Text(row[1]), name)
					assert.Equal(t, route.Print(then.Sheet().Value(route.ProductPurity), "%"), doctest.Text(row[2]), name)
				}
			}
		}
		assert.Greater(t, found, 2)
	}
}

// TestOtherPlansSayThatTheirShareFollowsTheShelf, where it does.
func TestOtherPlansSayThatTheirShareFollowsTheShelf(t *testing.T) {
	for fragment, want := range map[string]bool{"v=2&shelf.acid=30": true, "v=2&shelf.acid=30&batch.share=9": false, "v=2&shelf.acid=30&shelf.share=usual": false, "v=2": false} {
		s := from(fragment)
		for _, made := range []doc.Section{whatIf(s), purity(s), ways(s)} {
			assert.Equal(t, want, strings.Contains(doctest.Text(made.Of...), "The share of the mix follows the shelf"), fragment)
		}
	}
}

// TestWhatStandsOnTheShelfIsSaidWhereItIsBought, with how much more would make it sure; nothing is
// said of it where it was not said.
func TestWhatStandsOnTheShelfIsSaidWhereItIsBought(t *testing.T) {
	drawn := func(fragment string) *Source {
		s := from(fragment)
		for !s.StepBands(desk.Draws) {
		}
		return s
	}
	s := drawn("shelf.acid=40")
	words := `[oO]f the acid 40\x{202f}mL stand on the shelf, and \d\.?\d?\x{202f}mL more would make it sure`
	glance := doctest.Text(Glance(s)...)
	assert.Regexp(t, words, glance)
	assert.Regexp(t, words, doctest.Text(ready(s).Of...))
	assert.Contains(t, doctest.Text(Glance(drawn("shelf.acid=900"))...), "Of the acid 900\u202fmL stand on the shelf, which is enough.")
	assert.Regexp(t, `Of the peroxide 50\x{202f}mL stand on the shelf, and `, doctest.Text(Glance(drawn("gas.source=peroxide&shelf.peroxide=50"))...))
	for _, fragment := range []string{"", "shelf.oxalic=3", "shelf.copper=20&gas.source=peroxide"} {
		says := doctest.Text(Glance(drawn(fragment))...)
		assert.NotContains(t, says, "stand on the shelf", fragment)
		assert.Contains(t, says, "So much of each is enough in nine runs of ten.", fragment)
	}
	assert.NotContains(t, doctest.Text(Glance(from("shelf.acid=40"))...), "make it sure", "what to buy is not known yet")
}

// TestARunThatIsOverOffersToTakeOffWhatItUsed, on the first screen and beside what was weighed.
func TestARunThatIsOverOffersToTakeOffWhatItUsed(t *testing.T) {
	s := from("shelf.acid=100")
	require.True(t, s.StartRun())
	assert.Empty(t, doctest.Find[doc.Button](atHand(s)...))
	s.Edit("found.product", "12")
	buttons := doctest.Find[doc.Button](Glance(s)...)
	at := slices.IndexFunc(buttons, func(b doc.Button) bool { return b.Action == Suit })
	require.GreaterOrEqual(t, at, 0)
	o, ok := SuitOf(s, buttons[at].Value)
	require.True(t, ok)
	assert.Equal(t, "shelf.acid", o.Set[0].Key)
	assert.Contains(t, doctest.HTML(shelf(s)), `name="shelf.taken"`)
	assert.NotContains(t, doctest.HTML(shelf(from("shelf.acid=100"))), `name="shelf.taken"`)
}

// TestWhatTheShelfShutsIsNotOffered: no way for which nothing is at hand, neither in the table of ways,
// nor for the purity, nor for the sessions.
func TestWhatTheShelfShutsIsNotOffered(t *testing.T) {
	const shut = "shelf.metabisulfite=0&shelf.peroxide=0&shelf.oxalic=0"
	offered := func(fragment string) (list []string) {
		s := wanting("v=2&days.every=7&days.long=90&"+fragment, "97")
		for _, b := range doctest.Find[doc.Button](ways(s).Of...) {
			list = append(list, "table "+b.Value)
		}
		a := s.Pure().Answer
		for _, c := range append([]spread.Cleaned{a.Best, a.Surest}, a.Alone...) {
			for _, st := range c.Steps {
				if st.Kind == route.OfWay {
					list = append(list, "purity "+st.Key)
				}
			}
		}
		for _, o := range s.Work(time.Date(2026, 3, 7, 9, 0, 0, 0, time.UTC)).Offers() {
			if o.Set[0].Key == "gas.source" {
				list = append(list, "sessions "+o.Set[0].Text)
			}
		}
		return list
	}
	open := strings.Join(offered(""), " ")
	for _, kind := range []string{"table", "purity", "sessions"} {
		assert.Contains(t, open, kind)
	}
	assert.Empty(t, offered(shut))
	assert.Contains(t, doctest.Text(ways(from(shut)).Of...), "This way needs peroxide, of which none stands on the shelf.")
	assert.NotContains(t, offered("shelf.peroxide=0"), "table gas.source=peroxide")
}
