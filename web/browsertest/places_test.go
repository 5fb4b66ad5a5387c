//go:build !js

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/page"
)

// whereIs tells which place is shown, and that no other is.
func whereIs(t *testing.T, p *page.Page) (place string) {
	t.Helper()
	var shown []string
	p.Eval(`[...document.querySelectorAll(".place")].filter((e) => e.checkVisibility()).map((e) => e.id)`, &shown)
	if assert.Len(t, shown, 1) {
		place = shown[0]
	}
	return place
}

// mounted counts the elements of a place.
func mounted(p *page.Page, place string) (n int) {
	p.Eval(`document.getElementById("place.`+place+`").querySelectorAll("*").length`, &n)
	return n
}

// TestPlacesAreMountedWhenVisited and stay where they were left.
func TestPlacesAreMountedWhenVisited(t *testing.T) {
	p := closed(t, "")
	settle(p)
	assert.Equal(t, "place.plan", whereIs(t, p))
	for _, place := range []string{"ready", "bench", "after"} {
		assert.Zero(t, mounted(p, place), place)
	}
	p.Click(`[id="go.ready"]`)
	assert.Equal(t, "place.ready", whereIs(t, p))
	assert.Contains(t, p.Text("h1.place-title"), "Make ready")
	assert.Zero(t, mounted(p, "after"))
	assert.Contains(t, p.Text(`[id="stage.Buy-and-put-out"]`), "Copper", "what most come for is open")
	assert.True(t, shut(p, "The-days"))
	p.Click(`[id="go.after"]`)
	p.Type("notes", "paper grey")
	var current int
	p.Eval(`document.querySelectorAll("nav [aria-current=page]").length`, &current)
	assert.Equal(t, 1, current)
	var twice []string
	openAll(p)
	p.Eval(`(() => { const seen = {}; for (const e of document.querySelectorAll("[id]")) seen[e.id] = (seen[e.id] ?? 0) + 1; return Object.keys(seen).filter((id) => seen[id] > 1) })()`, &twice)
	assert.Empty(t, twice, "ids stand once, with all places open")
	p.Eval(`(() => { const seen = {}; for (const e of document.querySelectorAll("[name]")) seen[e.name] = (seen[e.name] ?? 0) + 1; return Object.keys(seen).filter((id) => seen[id] > 1) })()`, &twice)
	assert.Empty(t, twice, "and names")
}

// TestEachPlaceIsAnEntryOfTheHistory, no stage is, and going back through places loses nothing
// that was typed.
func TestEachPlaceIsAnEntryOfTheHistory(t *testing.T) {
	p := closed(t, "v=2&cell.count=4")
	settle(p)
	length := func() (n int) { p.Eval(`history.length`, &n); return n }
	began := length()
	p.Click(`[id="stage.Gas.title"]`)
	p.Click(`[id="stage.Dry.title"]`)
	assert.Equal(t, began, length(), "none for a stage")
	p.Click(`[id="go.ready"]`)
	p.Click(`[id="go.after"]`)
	assert.Equal(t, began+2, length())
	assert.Equal(t, "v=2&cell.count=4", p.Fragment(), "the plan's link is as it was")

	p.Type("gas.minutes", "75") // in the plan, which is one entry more; its first change another
	p.Wait(`location.hash.includes("gas.minutes=75")`)
	p.Click(`[id="go.ready"]`)
	p.Type("gas.minutes", "80")
	p.Wait(`location.hash.includes("gas.minutes=80")`)
	p.Click(`[id="go.after"]`)
	p.Back()
	assert.Equal(t, "place.plan", whereIs(t, p))
	p.Back()
	assert.Equal(t, "place.ready", whereIs(t, p))
	assert.Equal(t, "80", p.Typed("gas.minutes"), "what was typed since stays")
	assert.Contains(t, p.Fragment(), "gas.minutes=80")
	p.Back()
	assert.Equal(t, "place.plan", whereIs(t, p))
	assert.Contains(t, p.Fragment(), "gas.minutes=80")
	p.Back()
	assert.Equal(t, "v=2&cell.count=4", p.Fragment(), "behind the first change lies the plan as opened")
	assert.Equal(t, "90", p.Typed("gas.minutes"))
	p.Forward()
	assert.Equal(t, "80", p.Typed("gas.minutes"))
}

// TestPlaceOutlivesAReload and the bench has an entry too.
func TestPlaceOutlivesAReload(t *testing.T) {
	p := page.Open(t, page.Serve(t, page.File(t)), "")
	settle(p)
	p.Click(`[id="go.ready"]`)
	p.Reload()
	settle(p)
	assert.Equal(t, "place.ready", whereIs(t, p))
	p.Click(`[id="go.bench"]`)
	p.Wait(`!!document.getElementById("bench.title")`)
	assert.Equal(t, "place.bench", whereIs(t, p))
	p.Back()
	assert.Equal(t, "place.ready", whereIs(t, p))
	p.Forward()
	p.Wait(`!!document.getElementById("bench.title")`)
	p.Press(page.Escape)
	assert.Equal(t, "place.ready", whereIs(t, p), "the bench is left for where one came from")
}

// TestNumbersArePressedAndTypedOver: what is typed takes the place of what stood there.
func TestNumbersArePressedAndTypedOver(t *testing.T) {
	p := closed(t, "v=2&cell.count=15")
	settle(p)
	p.Click(".count")
	p.Press("20")
	p.Wait(`location.hash.includes("cell.count=20")`)
	var said string
	p.Eval(`document.querySelector(".count").value`, &said)
	assert.Equal(t, "20", said)
}

// TestSentenceChangesThePlanInPlace: its share and its way.
func TestSentenceChangesThePlanInPlace(t *testing.T) {
	p := closed(t, "")
	settle(p)
	choose := func(key, word string) {
		p.Eval(`{ const e = document.querySelector('.says [data-key="`+key+`"]'); e.value = "`+word+`"; e.dispatchEvent(new Event("input", { bubbles: true })) }`, nil)
		p.Settle()
	}
	choose("batch.share", "100")
	p.Wait(`location.hash.includes("batch.share=100")`)
	assert.NotContains(t, p.Text(".get"), "kept for later")
	choose("gas.source", "peroxide")
	p.Wait(`location.hash.includes("gas.source=peroxide")`)
	assert.Contains(t, p.Text(".need"), "Hydrogen peroxide")
	assert.Contains(t, p.Text(`[id="stage.Gas"] .line`), "nothing is led in")
	assert.Contains(t, p.Text(".hurt"), "never a closed vessel")
}
