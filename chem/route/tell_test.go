package route

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/phrase"
	"rosesalt/chem/phrase/phrasetest"
)

var places = regexp.MustCompile(`\$\{([^}]*)\}`)

// TestTextsNameWhatIsThere: every condition is one of the table, every place a figure, an input,
// one of the teller, or one that the code beside it gives.
func TestTextsNameWhatIsThere(t *testing.T) {
	p := NewPlan()
	s := new(Runner).Run(&p)
	for _, c := range []struct {
		book *phrase.Book
		code string
	}{{noticeTexts, "notice.go"}, {companionTexts, "notice.go"}, {gearTexts, "shopping.go"}, {fillTexts, "shopping.go"}, {sinceTexts, "defaults.go"}} {
		code, err := os.ReadFile(c.code)
		require.NoError(t, err)
		teller := &Teller{Plan: &p, Sheet: s, Own: func(_ *Teller, name string) (PlaceValue, bool) {
			return Words("x"), strings.Contains(string(code), `"`+name+`"`)
		}}
		for _, b := range c.book.Blocks() {
			b.When.Holds(teller)
			for _, part := range b.Parts {
				for _, one := range append(part.More, part) {
					for _, term := range one.When {
						assert.NotPanics(t, func() { teller.Holds(term.Of) }, "%s: %s", b.Key, term.Of)
					}
					for _, place := range places.FindAllStringSubmatch(one.Text, -1) {
						name := strings.ToLower(place[1][:1]) + place[1][1:]
						assert.NotPanics(t, func() { teller.At(name) }, "%s: ${%s}", b.Key, name)
					}
				}
			}
		}
	}
}

func TestEveryNoticeIsAskedFor(t *testing.T) { phrasetest.Asked(t, noticeTexts, gearTexts, fillTexts) }

func TestCompanionsAreFigures(t *testing.T) {
	for _, b := range companionTexts.Blocks() {
		_, ok := FigureByKey(b.Key)
		assert.True(t, ok, b.Key)
	}
}

func TestTellerKnowsThePlan(t *testing.T) {
	p := *planOf(t, "batch.runs=2", "gas.source=metabisulfite", "copper.water=0")
	s := new(Runner).Run(&p)
	teller := &Teller{Plan: &p, Sheet: s, Own: func(_ *Teller, name string) (PlaceValue, bool) {
		return Words(""), name == "nothing"
	}}
	assert.Equal(t, Print(s.Value(GasSaltUsed)/2, "g"), teller.Place("gas.salt.used per batch"))
	assert.Equal(t, "90\u202fmin", teller.Place("gas.minutes"))
	assert.Equal(t, s.Word(GasLimit), teller.Place("gas.limit"))
	assert.Empty(t, teller.Place("copper.crop"), "no number stands for what has no meaning")
	assert.Empty(t, teller.Place("nothing"))
	for condition, holds := range map[string]bool{
		"metabisulfite": true, "copper": false, "gas": true, "bisulfite": true, "several batches": true, "zinc-carbon": true, "alkaline": false,
		"has gas.salt.used": true, "has copper.crop": false, "has copper.water": false, "known copper.water": true, "known copper.crop": false,
		"has nothing": false, "uses gas.salt": true, "uses gas.copper": false,
	} {
		assert.Equal(t, holds, teller.Holds(condition), condition)
	}
	for _, unknown := range []string{"coper", "uses gas.sal", "has gas.sal", "known gas.sal", ""} {
		assert.Panics(t, func() { teller.Holds(unknown) }, unknown)
	}
	assert.Panics(t, func() { teller.Place("gas.sal per batch") })
}
