//go:build !js

package browsertest

import (
	"math"
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
	"rosesalt/scripts/page"
	"rosesalt/web/link"
)

func TestMain(m *testing.M) { os.Exit(page.Run(m)) }

func open(t *testing.T, fragment string) *page.Page {
	t.Helper()
	return page.Open(t, page.File(t), fragment)
}

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
	return new(route.Bench).Run(&plan)
}

func TestPageShowsWhatTheCoreComputes(t *testing.T) {
	for name, fragment := range fewNamed(2, map[string]string{
		"demo":          "",
		"metabisulfite": "v=1&gas.source=metabisulfite&cell.count=10&cell.size=R20&cell.kind=zincchloride",
		"crystals":      "v=1&dry.way=crystals&slurry.vessel=open&batch.share=100",
		"slurry salt":   "v=1&gas.source=slurrysalt&slurry.acid=100",
		"peroxide":      "v=1&gas.source=peroxide&peroxide.strength=6&cell.kind=alkaline",
		"oxalic":        "v=1&gas.source=oxalic&oxalic.charge=15",
	}) {
		t.Run(name, func(t *testing.T) {
			p := open(t, fragment)
			var shown map[string]string
			p.Eval(`Object.fromEntries([...document.querySelectorAll('data[id]')].map(d => [d.id, d.value]))`, &shown)
			sheet := sheetOf(fragment)
			assert.Len(t, shown, len(route.Figures()), "each figure stands on the page once")
			for i, f := range route.Figures() {
				id := route.FigureID(i)
				got, there := shown[f.Key]
				switch {
				case !assert.True(t, there, "figure %s is missing", f.Key):
				case sheet.Reason(id) != route.Defined:
					assert.Empty(t, got, f.Key)
				case f.Words != nil:
					assert.Equal(t, sheet.Word(id), got, f.Key)
				default:
					v, err := strconv.ParseFloat(got, 64)
					require.NoError(t, err, f.Key)
					assert.InDelta(t, sheet.Value(id), v, 1e-9*(1+math.Abs(v)), f.Key)
				}
			}
		})
	}
}

func TestEveryInputHasItsName(t *testing.T) {
	pages := []*page.Page{
		open(t, "v=1&gas.source=metabisulfite&dry.way=crystals&cell.2.count=3"), open(t, ""),
		open(t, "v=1&gas.source=slurrysalt&cell.kind=alkaline"), open(t, "v=1&gas.source=peroxide"), open(t, "v=1&gas.source=oxalic"),
	}
	for _, in := range route.Inputs() {
		if in.Row > 2 {
			continue
		}
		var there bool
		find := `!!document.querySelector('[name="` + in.Key + `"]')`
		for _, p := range pages {
			if p.Eval(find, &there); there {
				break
			}
		}
		assert.True(t, there, "input %s", in.Key)
	}
}

func TestTypingMovesEveryStage(t *testing.T) {
	p := open(t, "")
	before := map[string]float64{}
	keys := []string{"mix.mass", "wash.liquor", "batch.manganese", "gas.made", "uptake.taken", "filtrate.volume", "product.mass", "copper.crop", "waste.base"}
	for _, key := range keys {
		before[key] = number(t, p, key)
	}
	p.Type("cell.count", "12")
	for _, key := range keys {
		assert.InDelta(t, 2, number(t, p, key)/before[key], 0.05, "%s doubles with the cells, near enough", key)
	}
	p.Wait(`location.hash.includes('cell.count=12')`)
}

func TestForgivingNumbers(t *testing.T) {
	p := open(t, "")
	p.Type("wash.soak", "0,5 L")
	assert.Equal(t, 500.0, number(t, p, "wash.soak.used"))
	assert.Equal(t, "0,5 L", p.Typed("wash.soak"), "what was typed stays")
	p.Type("wash.soak", "1 000")
	assert.Equal(t, 1000.0, number(t, p, "wash.soak.used"))
}

func TestBadInputIsToldAtItsField(t *testing.T) {
	cases := map[string]struct{ key, text, says string }{
		"empty":               {"cell.count", "", "Nothing is given"},
		"minus":               {"cell.count", "-3", "−3 is below the least"},
		"none":                {"cell.count", "0 cells", "0 is below the least"},
		"too many":            {"cell.count", "1e9", "above the limit of 2000"},
		"a half":              {"cell.count", "1,5", "not a whole number"},
		"a sentence":          {"gas.acid", "about as much as last time", "cannot be read as a number in mL"},
		"strength above 100":  {"gas.strength", "120", "above the limit of 100"},
		"end above the start": {"gas.end", "98", "cannot weaken"},
		"hot below cold":      {"copper.hot", "5", "nothing would crystallise"},
		"no charge":           {"gas.copper", "0", "no gas is made"},
		"no uptake":           {"gas.uptake", "0", "no charge is large enough"},
	}
	p := open(t, "")
	unfoldAll(p)
	for name, c := range cases {
		pressTool(p, "Start over")
		p.Wait(`!document.querySelector('.problem, .fig.old')`)
		figure := "product.mass"
		if strings.HasPrefix(c.key, "copper") {
			figure = "copper.crop"
		}
		p.Type(c.key, c.text)
		assert.Contains(t, p.Text(`[id="problem.`+c.key+`"]`), c.says, name)
		assert.Equal(t, c.text, p.Typed(c.key), "%s: what was typed stays", name)
		time.Sleep(300 * time.Millisecond) // the address follows within a moment
		// Typing passes through values that are good; the last of them is in the address.
		id, _ := route.FigureByKey(figure)
		assert.InDelta(t, sheetOf(p.Fragment()).Value(id), number(t, p, figure), 1e-9, "%s: the last good figure stays", name)
		var old, invalid bool
		p.Eval(`document.getElementById('`+figure+`').closest('.fig').classList.contains('old')`, &old)
		p.Eval(`document.querySelector('[name="`+c.key+`"]').getAttribute('aria-invalid') === 'true'`, &invalid)
		assert.True(t, old, "%s: the figure is marked as old", name)
		assert.True(t, invalid, name)
	}
}

func TestOtherFieldsKeepWorkingBesideABadOne(t *testing.T) {
	p := open(t, "")
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

func TestBackReturnsToThePlanAsOpened(t *testing.T) {
	p := open(t, "v=1&cell.count=4")
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
	p := open(t, "")
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
	p := open(t, "v="+evil+"&"+strings.Join(parts, "&"))
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

func TestKeyboardReachesEverythingInOrder(t *testing.T) {
	p := open(t, "")
	settle(p)
	p.Eval(`document.querySelectorAll('details').forEach(d => d.open = true)`, nil)
	p.Settle() // what is made when it is opened
	var want int
	p.Eval(`[...document.querySelectorAll('button, input, select, summary')].filter(e => e.offsetParent).length`, &want)
	// The parts of a field for a day tell nobody outside that they have the focus.
	p.Eval(`window.hit = new Set(); for (const event of ['focusin', 'keyup']) document.addEventListener(event, () => hit.add(document.activeElement)); 0`, nil)
	for range want + 40 { // a field for a day has a stop for each of its parts
		p.Stroke(page.Tab)
	}
	var missed []string
	p.Eval(`[...document.querySelectorAll('button, input, select, summary')].filter(e => e.offsetParent && !hit.has(e)).map(e => e.outerHTML.slice(0, 120))`, &missed)
	assert.Empty(t, missed)
	assert.Greater(t, want, 300)
}

func TestNothingOverflows(t *testing.T) {
	p := open(t, "")
	for _, width := range []int{320, 360, 768, 1280} {
		p.Screenshot(filepath.Join(t.TempDir(), "p.png"), width, 900, false)
		var over []string
		p.Eval(`(() => { const w = document.documentElement.clientWidth;
			return [...document.querySelectorAll('main *, header *, .says *, .strip > *')]
				.filter(e => !e.closest('.scroll, nav, .spine') && e.getBoundingClientRect().right > w + 1)
				.map(e => e.tagName + '.' + e.className + ' ' + e.textContent.slice(0, 30)).slice(0, 5) })()`, &over)
		assert.Empty(t, over, "at %d px", width)
	}
}

// TestPictures writes what the page looks like to the folder named by
// ROSESALT_PICTURES, to be looked at; without it, it only sees that the page can
// be drawn and printed.
func TestPictures(t *testing.T) {
	toBeLookedAt(t)
	folder := pictures(t)
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
