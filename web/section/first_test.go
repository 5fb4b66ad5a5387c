package section

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

func TestFirstSentence(t *testing.T) {
	mass := func(id route.FigureID, fragment string) string {
		return route.Print(desk.New(fragment).Sheet().Value(id), "g")
	}
	for fragment, says := range map[string]string{
		"":                                "of their black mix, with , give " + mass(route.ProductMass, "") + " of raw manganese sulfate and " + mass(route.CopperCrop, "") + " of blue copper sulfate.",
		"cell.count=1":                    " cell,  of its black mix, with , gives ",
		"cell.2.count=4":                  " cells and 4 of other types, ",
		"cell.rejects=6":                  " cells, none of which is opened, give nothing.",
		"gas.source=peroxide":             "give " + mass(route.ProductMass, "gas.source=peroxide") + " of manganese sulfate.", // nearly pure
		"gas.source=peroxide&wash.acid=0": "give " + mass(route.ProductMass, "gas.source=peroxide&wash.acid=0") + " of raw manganese sulfate.",
		"batch.runs=2":                    " of their black mix, in 2 equal batches, with ",
		"cell.rejects=2":                  ", 2 of them left shut,",
		"gas.flask=50":                    "Too small for what is poured: 50\u202fmL flask.",
		"cell.size=R20&gas.acid=":         "raw",
	} {
		assert.Contains(t, doctest.Text(Sentence(from(fragment))), says, fragment)
	}
}

// TestSentenceOffersThePlansOwnShare beside the usual ones, as it was typed.
func TestSentenceOffersThePlansOwnShare(t *testing.T) {
	s := from("")
	chosen := func() (list []doc.Option) {
		for _, c := range doctest.Find[doc.Control](Sentence(s)) {
			if c.Key == "batch.share" {
				return c.Options
			}
		}
		return nil
	}
	require.Len(t, chosen(), len(shares))
	s.Edit("batch.share", "12,5")
	require.Len(t, chosen(), len(shares)+1)
	assert.Equal(t, doc.Option{Word: "12,5", Name: "12\u202f%", Chosen: true}, chosen()[len(shares)])
	s.Edit("batch.share", "100")
	assert.Equal(t, doc.Option{Word: "100", Name: "all", Chosen: true}, chosen()[0])
}

func TestCertaintyOfTheSentence(t *testing.T) {
	s := from("")
	assert.NotContains(t, doctest.Text(Certain(s)...), "Eight times")
	for !s.StepBands(desk.Draws) {
	}
	for !s.StepRest(desk.Draws) {
	}
	says := doctest.Text(Certain(s)...)
	assert.Contains(t, says, "Eight times in ten "+Read(s.Desk, route.ProductMass).Range)
	assert.Contains(t, says, "are estimates and nothing is weighed yet")
	assert.Regexp(t, `Weigh [^:]+, and the jar is known within [\d.]+–[\d.]+\x{202f}g`, says)
}

// TestGlanceSaysWhatMattersInEveryWay: what to have, what comes, what can hurt, and one verdict.
func TestGlanceSaysWhatMattersInEveryWay(t *testing.T) {
	for fragment, words := range map[string][]string{
		"":                                       {`Sulfuric acid, 96\x{202f}%, in all: \d\d\x{202f}mL`, `Copper: \d\d\x{202f}g`, `Blue copper sulfate: \d\d`, "sulfur dioxide: outdoors", "strong acid at up to", `Fits\. 250\x{202f}mL flask \d\d\x{202f}% full`, `\d{3}\x{202f}mL boil down in a 100\x{202f}mL dish, topped up, in \d\.\d\x{202f}h\.`, `\d days`},
		"gas.source=metabisulfite":               {"Metabisulfite: ", "Drip the acid onto the salt"},
		"gas.source=slurrysalt":                  {"gas in an open vessel"},
		"gas.source=peroxide":                    {"peroxide into acid"},
		"gas.source=oxalic":                      {"oxalic acid, a poison"},
		"cell.kind=alkaline&gas.source=peroxide": {"Lye under pressure"},
		"gas.flask=50":                           {TooSmallWord},
		"v=1&dry.rate=15":                        {`Two such dishes take 1\d\x{202f}h`},
		"gas.acid=20":                            {"The acid runs out at"},
		"cell.rejects=6":                         {"No cell is opened"},
		"days.long=60":                           {`does not fit into its sessions\. “Rinse with dilute acid”: it needs \d\x{202f}h\x{202f}\d\d in one go, and a session has 1\x{202f}h\x{202f}00: make the sessions longer`},
	} {
		s := from(fragment)
		for !s.StepBands(desk.Draws) {
		}
		said := doctest.Text(Glance(s)...)
		for _, word := range words {
			assert.Regexp(t, word, said, fragment)
		}
		assert.NotContains(t, said, "NaN", fragment)
	}
	assert.NotContains(t, doctest.Text(Glance(from("gas.flask=50"))...), "Fits.")
	assert.Regexp(t, `Tip\. One step more makes it .*: warmer slurry, .*\. Then the 250\x{202f}mL flask is too small, `, doctest.Text(Glance(from("cell.count=12"))...))
	assert.NotRegexp(t, `Tip\..*too small`, doctest.Text(Glance(from(""))...))
}

// TestWhatIsBoughtIsToldAlike: on the first screen, where things are made ready, for the evening
// before, in the plan text and for a club, with what the plan takes beside it; before it is
// known there are dots in every place but paper, which waits for nothing, and charges that were given are
// told as the plan takes them.
func TestWhatIsBoughtIsToldAlike(t *testing.T) {
	for _, source := range []string{"copper", "metabisulfite", "slurrysalt", "peroxide", "oxalic"} {
		s := from("v=2&club.groups=3&gas.source=" + source)
		glance := func() string { return doctest.Text(Glance(s)...) }
		for _, r := range s.Reagents() {
			assert.False(t, quantity.Given(r.Buy), r.Name)
		}
		assert.Contains(t, glance(), "How much to buy is being worked out.")
		for _, list := range doctest.Find[doc.Figures](Glance(s)[0]) {
			for _, f := range list {
				if f.Name != "Time" {
					assert.Equal(t, "…", f.Number, "%s: the plan's amount stands in no place of what to buy", f.Name)
					assert.Contains(t, f.For, "the plan takes ")
				}
			}
		}
		assert.Contains(t, doctest.HTML(doc.Section{Of: Glance(s)}), "…\u202fL of tap water")
		words := func(of doc.Section) string { return of.Words() }
		assert.Contains(t, words(ready(s)), ": …\u202fmL, the plan takes ")
		assert.Contains(t, words(days(s)), "Sulfuric acid, concentrated, 96\u202f%, …\u202fmL; ")
		assert.Regexp(t, `Sulfuric acid, concentrated, 96\x{202f}%: [\d.]+\x{202f}mL; …\x{202f}mL`, words(groups(s)))
		paper := from("v=2&club.groups=3&gas.source=" + source)
		paper.SettleBuying()
		sheet := doctest.Text(ClubSheet(paper)...)
		assert.NotContains(t, glance(), "nine runs")
		for !s.StepBands(desk.Draws) {
		}
		assert.Contains(t, glance(), "So much of each is enough in nine runs of ten.")
		assert.True(t, slices.ContainsFunc(doctest.Find[doc.Button](Glance(s)...), func(b doc.Button) bool { return b.Action == Jump && b.Value == ID(ReadyTitle) }), "all of it at one press")
		assert.Equal(t, s.Reagents(), paper.Reagents(), "paper says at once what the draws say")
		assert.NotContains(t, sheet, "…")
		all := map[string]string{"ready": words(ready(s)), "evening": words(days(s)), "text": PlanText(s), "club": words(groups(s)), "club sheet": doctest.Text(ClubSheet(s)...)}
		for _, r := range s.Reagents() {
			buy, takes := route.Print(r.Buy, r.Unit), route.Print(r.Amount, r.Unit)
			if r.ID <= route.SodaReagent {
				assert.Greater(t, r.Buy, r.Amount, r.Name)
				assert.Contains(t, glance(), ": "+buy, r.Name)
				assert.Contains(t, doctest.HTML(doc.Section{Of: Glance(s)}), "the plan takes "+takes, r.Name)
			} else {
				said := phrase.Lower(r.Name)
				if r.ID.InHouse() {
					said = buy + " of " + said
				} else {
					assert.True(t, r.ID.InDrops(), r.Name)
				}
				assert.Contains(t, doctest.HTML(doc.Section{Of: Glance(s)}), said, "whole")
			}
			for where, text := range all {
				said := r.Name + ", " + buy
				switch where {
				case "ready", "text":
					said = r.Name + " (" + r.For + "): " + buy
					if r.Buy > r.Amount {
						said += ", the plan takes " + takes
					}
				case "club", "club sheet":
					said = r.Name + ": " + takes + "; " + route.Print(3*r.Buy, r.Unit)
				case "evening":
					if r.Name == "Ice" || r.Name == "Permanganate paper" {
						continue
					}
				}
				assert.Contains(t, text, said, where)
			}
		}
	}
	s := from("v=2&gas.acid=51.3&gas.copper=31.7&slurry.acid=60&wash.acid=0")
	for !s.StepBands(desk.Draws) {
	}
	said := doctest.Text(Glance(s)...)
	assert.Contains(t, said, "in all: 55\u202fmL")
	assert.Contains(t, said, "Copper: 32\u202fg")
	for _, r := range s.Reagents()[:2] {
		assert.Equal(t, r.Amount, r.Buy, r.Name)
	}
	assert.Greater(t, s.Reagents()[2].Buy, s.Reagents()[2].Amount, "soda")
}

// TestNumbersOfTheFirstScreenHaveTheirPlaceAtAStage: no id stands twice.
func TestNumbersOfTheFirstScreenHaveTheirPlaceAtAStage(t *testing.T) {
	html := doctest.HTML(doc.Section{ID: "first", Of: append(Glance(from("")), Sentence(from("")))})
	assert.Contains(t, html, `data-key="product.mass"`)
	assert.NotContains(t, html, `id="product.mass"`)
	assert.False(t, strings.Contains(html, `name="`), "nor a field's name")
}

// TestLinesTellWhatWantsAttention: faults first.
func TestLinesTellWhatWantsAttention(t *testing.T) {
	s := from("gas.flask=50")
	s.Edit("gas.strength", "tea")
	says, marks := line(s.Desk, route.Gas)
	require.NotEmpty(t, marks)
	assert.Equal(t, doc.Mark{Class: "bad", Text: "fields to mend: 1"}, marks[0])
	assert.Equal(t, doc.Mark{Class: "stop", Text: "too small: 50\u202fmL flask"}, marks[1])
	assert.Equal(t, "old", says[0].(doc.Span).Class, "the figures are those of before")
	s = from("")
	require.True(t, s.StartRun())
	require.True(t, s.StageDone(route.Cells))
	_, marks = line(s.Desk, route.Cells)
	assert.Equal(t, "done", marks[0].Class)
	_, marks = line(from("gas.acid=20").Desk, route.Gas)
	assert.Contains(t, marks, doc.Mark{Class: "mind", Text: "1 to mind"})
}
