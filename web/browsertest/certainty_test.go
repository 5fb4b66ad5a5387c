//go:build !js

package browsertest

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/scripts/page"
	"rosesalt/web/desk"
	"rosesalt/web/link"
)

// settled is true once the bands and all that rests on them stand.
const settled = `document.querySelector('.page') && !document.querySelector('.settling, .early, .drawing, .waiting')`

// settle waits for that.
func settle(p *page.Page) {
	p.Wait(settled)
	p.Settle()
}

func TestBandsAreTheSameHereAndNatively(t *testing.T) {
	for name, fragment := range map[string]string{
		"demo":     "",
		"weighed":  "v=1&cell.count=10&cell.size=R20&mix.wet=480&gas.uptake~=60,90",
		"no flame": "v=1&gas.source=metabisulfite&dry.way=crystals",
	} {
		t.Run(name, func(t *testing.T) {
			p := open(t, fragment)
			settle(p)
			var shown map[string][2]string
			p.Eval(`Object.fromEntries([...document.querySelectorAll('data[data-low]')].map(d => [d.id, [d.dataset.low, d.dataset.high]]))`, &shown)
			c, troubles := link.Decode(fragment)
			require.Empty(t, troubles)
			run := spread.Start(c.Case, desk.Draws).Finish()
			for i, f := range route.Figures() {
				low, high, ok := run.Band(route.FigureID(i))
				got, there := shown[f.Key]
				require.Equal(t, ok && low != high, there, f.Key)
				if !there {
					continue
				}
				for j, want := range []float64{low, high} {
					v, err := strconv.ParseFloat(got[j], 64)
					require.NoError(t, err)
					assert.Equal(t, want, v, "%s, to the last digit", f.Key)
				}
			}
		})
	}
}

func TestWhatToMeasureNext(t *testing.T) {
	p := open(t, "")
	settle(p)
	assert.Contains(t, p.Text(".advice"), "becomes")
	assert.Contains(t, p.Text(".certain"), "Eight times in ten")
}

func TestWantedMass(t *testing.T) {
	p := fresh(t, "v=1&batch.share=100")
	settle(p)
	p.Click("#ask\\.grams")
	p.Press("50")
	p.Wait(`document.getElementById('ask.answer').textContent.includes('cells would do')`) // one does for 5 g
	assert.Contains(t, p.Text(`[id="ask.answer"]`), "nine times in ten")
}

// TestWantedPurity: typed among the wishes or under the table, it is answered in both places,
// done at one touch, and taken back at one.
func TestWantedPurity(t *testing.T) {
	p := fresh(t, "")
	settle(p)
	p.Click("#ask\\.pure\\.table")
	p.Press("95")
	p.Wait(`document.getElementById('ask.pure.answer').textContent.includes('Cheapest to bring it there')`)
	hash := func() (text string) { p.Eval(`location.hash`, &text); return text }
	p.Wait(`document.getElementById('ask.pure').value == '95'`)
	assert.Contains(t, p.Text(`[id="stage.Purity"]`), "Cheapest to bring it there")
	p.Click(`[id="ask.pure.answer"] button`)
	p.Wait(`document.getElementById('ask.pure.answer').textContent.startsWith('The plan comes to 96')`)
	assert.Contains(t, hash(), "dry.way=crystals")
	p.Click("#undo")
	p.Wait(`document.getElementById('ask.pure.answer').textContent.includes('Cheapest to bring it there')`)
	assert.NotContains(t, hash(), "dry.way")
}

func TestPinnedPlanStandsBeside(t *testing.T) {
	p := fresh(t, "")
	settle(p)
	p.Click(`[id="stage.Try-a-change"] > .body > .inside > button`)
	p.Type("cell.count", "12")
	settle(p)
	p.Wait(`document.querySelector('[aria-label^="The pinned"]')?.textContent.includes('stands out')`)
	assert.Contains(t, p.Text(`[aria-label^="The pinned"]`), "Manganese sulfate in the jar")
}

func TestIntervalTypedGoesIntoTheLink(t *testing.T) {
	p := open(t, "")
	settle(p)
	p.Eval(`document.querySelectorAll('details').forEach(d => d.open = true)`, nil)
	p.Type("gas.uptake~", "79 to 81")
	p.Wait(`location.hash.includes('gas.uptake~=79,81')`)
	settle(p)
	assert.Equal(t, "79 to 81", p.Typed("gas.uptake~"))
}

func TestPicturesAreThere(t *testing.T) {
	p := open(t, "")
	settle(p)
	var titles []string
	p.Eval(`[...document.querySelectorAll('figure figcaption')].map(f => f.textContent)`, &titles)
	require.Len(t, titles, 6)
	for _, title := range titles {
		assert.NotEmpty(t, title)
	}
	var bad int
	p.Eval(`[...document.querySelectorAll('svg [d]')].filter(e => /NaN|Inf/.test(e.getAttribute('d'))).length`, &bad)
	assert.Zero(t, bad)
}

func TestEveryReferenceNamesSomethingThere(t *testing.T) {
	p := fresh(t, "")
	settle(p)
	p.Type("cell.count", "x")
	var lost []string
	p.Eval(`[...document.querySelectorAll('[aria-labelledby], [aria-describedby], label[for]')].flatMap(e =>
		['aria-labelledby', 'for'].flatMap(a => (e.getAttribute(a) || '').split(/\s+/).filter(Boolean))
	).filter(id => !document.getElementById(id))`, &lost)
	assert.Empty(t, lost)
	var nameless []string
	p.Eval(`[...document.querySelectorAll('input, select, button')].filter(e =>
		!e.labels?.length && !e.getAttribute('aria-label') && !e.textContent.trim()).map(e => e.outerHTML.slice(0, 80))`, &nameless)
	assert.Empty(t, nameless, "every control has a name")
}

func TestAccountAfterTheRun(t *testing.T) {
	p := fresh(t, "")
	settle(p)
	p.Type("found.product", "19")
	p.Type("found.copper", "45")
	p.Wait(`document.querySelector('.verdict')?.textContent.includes('in 10')`)
	settle(p)
	for _, key := range []string{"account.made.least", "account.used.least", "account.closure", "account.made", "account.used", "account.uptake"} {
		number(t, p, key)
	}
	p.Wait(`location.hash.includes('found.product=19')`)
	p.Type("found.product", "a jarful")
	p.Wait(`!!document.getElementById('problem.found.product')`)
}
