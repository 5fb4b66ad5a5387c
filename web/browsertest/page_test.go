//go:build !js

package browsertest

import (
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/scripts/long"
	"rosesalt/scripts/page"
	"rosesalt/web/link"
)

func TestMain(m *testing.M) { os.Exit(page.Run(m)) }

func number(t *testing.T, p *page.Page, key string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(p.Value(key), 64)
	require.NoError(t, err, "figure %s", key)
	return v
}

// sheetOf computes a fragment's plan natively.
func sheetOf(fragment string) *route.Sheet {
	c, _ := link.Decode(fragment)
	plan := c.Plan
	return new(route.Runner).Run(&plan)
}

func TestEveryInputHasItsName(t *testing.T) {
	p := open(t, "")
	settle(p)
	there := map[string]bool{}
	for _, fragment := range []string{
		"v=1&cell.2.count=3", "v=1&gas.source=metabisulfite&dry.way=crystals", "v=1&gas.source=slurrysalt&cell.kind=alkaline",
		"v=1&gas.source=peroxide", "v=1&gas.source=oxalic", "v=2&iron.way=thrown",
	} {
		p.Address(fragment)
		var names []string
		p.Eval(`[...document.querySelectorAll('[name]')].map((e) => e.name)`, &names)
		for _, name := range names {
			there[name] = true
		}
	}
	for _, in := range route.Inputs() {
		if in.Row <= 2 {
			assert.True(t, there[in.Key], "input %s", in.Key)
		}
	}
}

func TestAnyBrowserTypesAndReadsAPlan(t *testing.T) {
	p := open(t, "")
	before := map[string]float64{}
	keys := []string{"mix.mass", "wash.liquor", "batch.manganese", "gas.made", "uptake.taken", "filtrate.volume", "product.mass", "copper.crop", "waste.base"}
	for _, key := range keys {
		before[key] = number(t, p, key)
	}
	p.Type("cell.count", "12")
	for _, key := range keys {
		assert.InDelta(t, 2, number(t, p, key)/before[key], 0.15, "%s doubles with the cells, near enough: of more gas in the same time more passes by", key)
	}
	p.Wait(`location.hash.includes('cell.count=12')`)
}

// TestBadInputIsToldAtItsField: of what there is to say the desk's tests hold every case.
func TestBadInputIsToldAtItsField(t *testing.T) {
	p := fresh(t, "")
	unfoldAll(p)
	for _, c := range []struct{ key, text, says, figure string }{
		{"gas.strength", "120", "above the limit of 100", "product.mass"},
		{"copper.hot", "5", "nothing would crystallise", "copper.crop"},
	} {
		p.Type(c.key, c.text)
		assert.Contains(t, p.Text(`[id="problem.`+c.key+`"]`), c.says)
		assert.Equal(t, c.text, p.Typed(c.key), "what was typed stays")
		time.Sleep(300 * time.Millisecond) // the address follows within a moment
		// Typing passes through values that are good; the last of them is in the address.
		id, _ := route.FigureByKey(c.figure)
		assert.InDelta(t, sheetOf(p.Fragment()).Value(id), number(t, p, c.figure), 1e-9, "the last good figure stays")
		var old, invalid bool
		p.Eval(`document.getElementById('`+c.figure+`').closest('.fig').classList.contains('old')`, &old)
		p.Eval(`document.querySelector('[name="`+c.key+`"]').getAttribute('aria-invalid') === 'true'`, &invalid)
		assert.True(t, old, "%s is marked as old", c.figure)
		assert.True(t, invalid, c.key)
	}
}

func TestOtherFieldsKeepWorkingBesideABadOne(t *testing.T) {
	p := fresh(t, "")
	p.Type("copper.cold", "warm")
	before := number(t, p, "product.mass")
	p.Type("cell.count", "12")
	assert.Greater(t, number(t, p, "product.mass"), 1.5*before)
	assert.NotEmpty(t, p.Text(`[id="problem.copper.cold"]`))
	p.Type("copper.cold", "5")
	var told bool
	p.Eval(`!!document.getElementById('problem.copper.cold')`, &told)
	assert.False(t, told)
}

func TestSmallFlaskProposesEqualBatches(t *testing.T) {
	p := open(t, "v=1&gas.flask=50")
	assert.Contains(t, p.Text(`[id="stage.Batch"]`), "equal batches")
	assert.Greater(t, number(t, p, "gas.batches"), 1.0)
}

func TestAnyBrowserGoesBackToThePlanAsOpened(t *testing.T) {
	p := fresh(t, "v=1&cell.count=4") // of a version that the page does not write
	opened := p.Value("product.mass")
	p.Type("cell.count", "15")
	p.Type("batch.share", "40")
	p.Wait(`location.hash.includes('batch.share=40')`)
	assert.NotEqual(t, opened, p.Value("product.mass"))
	p.Back()
	assert.Equal(t, "4", p.Typed("cell.count"))
	assert.Equal(t, opened, p.Value("product.mass"))
	p.Forward()
	assert.Equal(t, "15", p.Typed("cell.count"))
	assert.Equal(t, "40", p.Typed("batch.share"))
}

func TestTypingDoesNotFillTheHistory(t *testing.T) {
	p := fresh(t, "")
	var before, after int
	p.Eval(`history.length`, &before)
	for _, n := range []string{"3", "31", "8", "9", "10"} {
		p.Type("cell.count", n)
	}
	p.Eval(`history.length`, &after)
	assert.LessOrEqual(t, after-before, 1)
}

func TestLinkPutOverThePage(t *testing.T) {
	p := open(t, "")
	p.Address("v=1&cell.count=9")
	assert.Equal(t, "9", p.Typed("cell.count"))
	assert.InDelta(t, sheetOf("v=1&cell.count=9").Value(route.ProductMass), number(t, p, "product.mass"), 1e-9)
}

func TestBrokenLinkIsToldPartByPart(t *testing.T) {
	p := open(t, "v=7&cell.count=9&gas.strength=120&room.view=sea&gas.uptake&wash.times=2&wash.times=3&cell.size=LR6")
	told := p.Text(".troubles")
	for _, part := range []string{"v=7", "gas.strength=120", "room.view=sea", "gas.uptake", "wash.times=3", "cell.size=LR6", "another kind of cell"} {
		assert.Contains(t, told, part)
	}
	assert.Equal(t, "9", p.Typed("cell.count"), "the rest stands")
	assert.Equal(t, "2", p.Typed("wash.times"))
}

func TestHostileLinkIsOnlyText(t *testing.T) {
	evil := url.QueryEscape(`"><img src=x onerror="document.title='owned'"><script>document.title='owned'</script>`)
	var parts []string
	for _, in := range route.Inputs() {
		parts = append(parts, in.Key+"="+evil)
	}
	parts = append(parts, evil+"="+evil, evil)
	p := fresh(t, "v="+evil+"&"+strings.Join(parts, "&"))
	var images, scripts int
	var title string
	p.Eval(`document.querySelectorAll('img').length`, &images)
	p.Eval(`document.querySelectorAll('#plan script, .troubles script').length`, &scripts)
	p.Eval(`document.title`, &title)
	assert.Zero(t, images)
	assert.Zero(t, scripts)
	assert.Equal(t, "Rosesalt", title)
	assert.InDelta(t, sheetOf("").Value(route.ProductMass), number(t, p, "product.mass"), 1e-9)
	p.Type("cell.count", `<b onclick="x">7</b>`)
	assert.Contains(t, p.Text(`[id="problem.cell.count"]`), `<b onclick="x">7</b>`)
}

func TestRowsOfTheBag(t *testing.T) {
	p := open(t, "")
	one := number(t, p, "mix.mass")
	p.Click(`[id="stage.Cells"] .inputs > button`)
	p.Type("cell.2.size", "R20")
	p.Type("cell.2.count", "6")
	assert.Greater(t, number(t, p, "mix.mass"), 2.5*one)
	p.Wait(`location.hash.includes('cell.2.count=6')`)
	p.Click(`.bagtitle button`)
	assert.InDelta(t, one, number(t, p, "mix.mass"), 1e-9)
}

func TestStepping(t *testing.T) {
	p := open(t, "")
	p.Click(`[aria-label="One cell more"]`)
	assert.Equal(t, "7", p.Typed("cell.count"))
	p.Click(`[aria-label="One cell fewer"]`)
	p.Click(`[aria-label="One cell fewer"]`)
	assert.Equal(t, "5", p.Typed("cell.count"))
}

// toBeLookedAt gives the folder for pictures that a person looks at. Where none is asked
// for, only a long run sees that they can be taken.
func toBeLookedAt(t *testing.T) string {
	t.Helper()
	if os.Getenv("ROSESALT_PICTURES") == "" {
		long.Only(t, "pictures are to be looked at")
	}
	page.Needs(t, page.Pictured)
	return pictures(t)
}

// TestPictures writes what the page looks like to the folder named by
// ROSESALT_PICTURES, to be looked at; without it, it only sees that the page can
// be drawn and printed.
func TestPictures(t *testing.T) {
	folder := toBeLookedAt(t)
	p := open(t, "")
	for _, shot := range []struct {
		name  string
		width int
		dark  bool
	}{{"360-light", 360, false}, {"360-dark", 360, true}, {"768-light", 768, false}, {"1280-light", 1280, false}, {"1280-dark", 1280, true}} {
		file := filepath.Join(folder, shot.name+".png")
		p.Screenshot(file, shot.width, 0, shot.dark)
		assert.FileExists(t, file)
	}
	p.PDF(filepath.Join(folder, "print.pdf"))
	assert.FileExists(t, filepath.Join(folder, "print.pdf"))
}

// TestNoControlsAmongWordsThatAreBrokenPrettily: WebKit’s process ends while it lays out such a
// paragraph at some widths.
func TestNoControlsAmongWordsThatAreBrokenPrettily(t *testing.T) {
	p := open(t, "")
	var found []string
	p.Eval(`[...document.querySelectorAll("*")].filter((e) => getComputedStyle(e).textWrapStyle === "pretty" && e.querySelector("button, input, select")).map((e) => e.localName + "." + e.className)`, &found)
	assert.Empty(t, found)
	var pretty int
	p.Eval(`[...document.querySelectorAll("*")].filter((e) => getComputedStyle(e).textWrapStyle === "pretty").length`, &pretty)
	assert.Positive(t, pretty, "it is looked for where it can be found")
}
