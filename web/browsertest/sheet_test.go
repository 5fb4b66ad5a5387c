//go:build !js

package browsertest

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/scripts/page"
	"rosesalt/web/chart"
	"rosesalt/web/link"
)

// sheetPages are the pages of the bench sheet itself, without the card, which stands on
// a page of its own.
const sheetPages = 3

// openSheet opens a plan and asks for the bench sheet; the browser's own dialogue is
// replaced by a note that it was asked for.
func openSheet(t *testing.T, fragment string) *page.Page {
	t.Helper()
	p := page.Load(t, page.File(t), fragment, `window.print = () => { window.asked = document.documentElement.classList.contains('sheeted') }`)
	ready(p)
	pressTool(p, "Print the bench sheet")
	p.Wait(`window.asked !== undefined`)
	return p
}

func TestSheetIsThereOnlyForPrinting(t *testing.T) {
	p := openSheet(t, "")
	var asked, shown bool
	p.Eval(`window.asked`, &asked)
	assert.True(t, asked, "the class stands when the browser prints")
	p.Eval(`document.querySelector('.sheet').offsetParent !== null`, &shown)
	assert.False(t, shown, "no screen shows the sheet")
	p.Eval(`dispatchEvent(new Event('afterprint'))`, nil)
	p.Wait(`!document.documentElement.classList.contains('sheeted')`)
	p.Wait(`document.querySelectorAll('.sheet *').length === 0`)
}

// TestServedSheetHasItsAddress: on paper a link must be whole, where there is one.
func TestServedSheetHasItsAddress(t *testing.T) {
	address := page.Serve(t, page.File(t))
	p := page.Load(t, address, "v=2&cell.count=9", `window.print = () => { window.asked = true }`)
	ready(p)
	pressTool(p, "Print the bench sheet")
	p.Wait(`window.asked`)
	var link, path string
	p.Eval(`document.querySelector('.sheet-link code').textContent`, &link)
	assert.Equal(t, address+"#v=2&cell.count=9", link)
	p.Eval(`document.querySelector('.sheet-code path').getAttribute('d')`, &path)
	code, ok := chart.NewCode(link, 80)
	require.True(t, ok)
	assert.Equal(t, code.Path, path, "the code is that of the whole address")
}

func TestAnyBrowserPrintsTheSheetOnThreePages(t *testing.T) {
	page.Needs(t, page.PDF)
	folder := pictures(t)
	for name, fragment := range map[string]string{
		"demo":          "",
		"alkaline":      "v=2&cell.kind=alkaline", // the card has one more entry
		"closed":        "v=2&slurry.vessel=closed&days.start=2026-03-07T09:00",
		"open":          "v=2&slurry.vessel=open&wash.acid=50&batch.share=100&gas.flask=1000&slurry.beaker=2000", // of vessels that are too small there is more to say
		"metabisulfite": "v=2&gas.source=metabisulfite&dry.way=crystals",
	} {
		for _, letter := range []bool{false, true} {
			p := openSheet(t, fragment)
			file := filepath.Join(folder, "sheet-"+name+"-a4.pdf")
			if letter {
				file = filepath.Join(folder, "sheet-"+name+"-letter.pdf")
				p.Letter(file)
			} else {
				p.PDF(file)
			}
			n := pages(t, file)
			assert.LessOrEqual(t, n, sheetPages+1, "%s: the sheet, and the card on its own page", file)
			assert.Greater(t, n, 1, file)
		}
	}
}

// TestSheetsAreLegible: no letter of a printed sheet is smaller than 9 pt, those of the
// drawing, which is fitted to the paper, among them.
func TestSheetsAreLegible(t *testing.T) {
	smallest := func(p *page.Page, of string) (small []string) {
		p.Eval(`[...document.styleSheets].flatMap(s => [...s.cssRules]).filter(r => r instanceof CSSMediaRule && r.media.mediaText === 'print').forEach(r => { r.media.mediaText = 'all' })`, nil)
		p.Eval(`(() => { const sheet = document.querySelector('`+of+`'); sheet.style.width = '190mm'; // A4 less its margins
			const walk = document.createTreeWalker(sheet, NodeFilter.SHOW_TEXT), small = []; let seen = 0;
			for (let n; n = walk.nextNode();) {
				const e = n.parentElement;
				if (!n.data.trim() || !e.checkVisibility()) continue;
				seen++;
				const size = parseFloat(getComputedStyle(e).fontSize) * (e.getScreenCTM ? e.getScreenCTM().a : 1) * 72 / 96;
				if (size < 8.99) small.push(size.toFixed(2) + ' ' + n.data.slice(0, 30));
			}
			return seen > 20 ? small : ['only ' + seen + ' texts']; })()`, &small)
		return small
	}
	for _, fragment := range []string{"", "v=1&slurry.vessel=open&gas.flask=50", "v=1&gas.source=peroxide"} {
		assert.Empty(t, smallest(openSheet(t, fragment), ".sheet:not(.club-sheet)"), fragment)
	}
}

func TestSheetHasAllThatIsToBeMeasured(t *testing.T) {
	p := openSheet(t, "")
	plan := route.NewPlan()
	var b route.Runner
	steps := procedure.Steps(&plan, b.Run(&plan), nil)
	var blanks, titles, stops []string
	p.Eval(`[...document.querySelectorAll('.sheet .blank')].map(e => e.querySelector('span').textContent)`, &blanks)
	p.Eval(`[...document.querySelectorAll('.sheet-step h2')].map(e => e.textContent)`, &titles)
	p.Eval(`[...document.querySelectorAll('.sheet-stop')].map(e => e.textContent)`, &stops)
	require.Len(t, titles, len(steps))
	var want []string
	told := strings.Join(stops, "\n")
	for i, st := range steps {
		assert.Contains(t, titles[i], st.Title)
		for _, m := range st.Measure {
			want = append(want, m.Name)
		}
		assert.Contains(t, told, st.Stop, st.Key)
	}
	assert.Equal(t, want, blanks, "a blank for everything to be measured, in the order of the work")
	var lines, ticks int
	p.Eval(`[...document.querySelectorAll('.sheet .blank i')].length`, &lines)
	p.Eval(`document.querySelectorAll('.sheet-step .sheet-tick').length`, &ticks)
	assert.Equal(t, len(want), lines)
	assert.Equal(t, len(steps), ticks)
	var text string
	p.Eval(`document.querySelector('.sheet-link').textContent`, &text)
	assert.Contains(t, text, "#v=2")
	p.Eval(`document.querySelector('.sheet').textContent`, &text)
	for _, word := range []string{"If it goes wrong", "The flame goes out", "Empty trap", "Signed", "Second person"} {
		assert.Contains(t, text, word)
	}
}

func TestDaysGoIntoTheLinkAndBack(t *testing.T) {
	p := open(t, "")
	settle(p)
	p.Eval(`document.getElementById('stage.The-days').querySelector('details').open = true`, nil)
	p.Wait(`!!document.querySelector('[name="time.gas"]')`)
	var product string
	p.Eval(`document.getElementById('product.mass').value`, &product)
	set := func(name, value string) {
		p.Eval(`(() => { const e = document.getElementsByName('`+name+`')[0]; e.focus(); e.value = '`+value+`'; e.dispatchEvent(new Event('input', { bubbles: true })); })()`, nil)
		p.Settle()
	}
	set("days.start", "2026-03-07T10:00")
	set("days.from", "10:00")
	p.Type("days.long", "8 h")
	p.Type("time.gas", "1 h 40")
	p.Wait(`location.hash.includes('days.start=2026-03-07T10:00&days.from=10:00&days.long=480&time.gas=100')`)
	p.Wait(`document.getElementById('stage.The-days').textContent.includes('Saturday 7 March 2026, 10:00')`)
	c, troubles := link.Decode(p.Fragment())
	require.Empty(t, troubles)
	assert.Equal(t, procedure.Durations{"gas": 100}, c.Times)
	assert.Equal(t, product, p.Value("product.mass"), "the plan is what it was")

	p.Type("days.long", "90")
	p.Wait(`!!document.getElementById('problem.days.long')`)
	told := p.Text(`[id="problem.days.long"]`)
	assert.Contains(t, told, "Charge the flask")
	assert.Contains(t, told, "make the sessions longer")
	p.Type("days.long", "8 h")
	p.Wait(`!document.getElementById('problem.days.long')`)

	p.Type("days.long", "14 to 18")
	p.Wait(`location.hash.includes('days.from=14:00&days.long=240') && document.getElementsByName('days.from')[0].value === '14:00'`)
	set("days.from", "10:00")
	p.Type("days.long", "8 h")
	p.Wait(`location.hash.includes('days.from=10:00&days.long=480')`)

	again(p)
	settle(p)
	assert.Equal(t, "2026-03-07T10:00", p.Typed("days.start"))
	assert.Equal(t, "480", p.Typed("days.long"))
	p.Eval(`document.getElementById('stage.The-days').querySelector('details').open = true`, nil)
	p.Wait(`document.querySelector('[name="time.gas"]')?.value === '100'`)
	set("days.finish", "2026-03-15T18:00")
	p.Wait(`location.hash.includes('days.finish=2026-03-15T18:00') && !location.hash.includes('days.start')`)
	assert.Empty(t, p.Typed("days.start"))
}
