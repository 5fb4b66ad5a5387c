//go:build !js

package browsertest

import (
	"bytes"
	"compress/zlib"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/scripts/page"
	"rosesalt/web/link"
)

// labelsOf are the labels of a fragment's plan, worked out natively.
func labelsOf(fragment string) []safety.Label {
	c, _ := link.Decode(fragment)
	plan := c.Plan
	var runner route.Runner
	sheet := *runner.Run(&plan)
	return safety.Labels(&plan, &sheet, runner.Book())
}

// showLabels opens a page and asks for its labels.
func showLabels(t *testing.T, fragment string) *page.Page {
	p := fresh(t, fragment)
	settle(p)
	enter(p, "fold.labels")
	p.Wait(`!!document.querySelector('.jarlabel')`)
	return p
}

func TestLabelsAreThereWhenAskedFor(t *testing.T) {
	p := fresh(t, "")
	settle(p)
	var there int
	p.Eval(`document.querySelectorAll('.jarlabel').length`, &there)
	assert.Zero(t, there, "the start does not pay for them")
	enter(p, "fold.labels")
	p.Wait(`!!document.querySelector('.jarlabel')`)
	want := labelsOf("")
	var names []string
	p.Eval(`[...document.querySelectorAll('.jarlabel h3')].map(h => h.textContent)`, &names)
	require.Len(t, names, len(want))
	for i, l := range want {
		assert.Equal(t, l.Name, names[i])
	}
	var drawn [][]string
	p.Eval(`[...document.querySelectorAll('.jarlabel')].map(l => [...l.querySelectorAll('svg')].map(s => s.getAttribute('aria-label').slice(0, 5)))`, &drawn)
	for i, l := range want {
		require.Len(t, drawn[i], len(l.Pictograms), l.Name)
		for j, g := range l.Pictograms {
			assert.Equal(t, string(g), drawn[i][j], l.Name)
		}
	}
	var least float64
	p.Eval(`Math.min(...[...document.querySelectorAll('.jarlabel svg')].map(s => s.getBoundingClientRect().width)) / 96 * 25.4 / Math.SQRT2`, &least)
	assert.InDelta(t, 16, least, 0.1, "mm along the side of the smallest pictogram")
	var width, height float64
	p.Eval(`Math.min(...[...document.querySelectorAll('.jarlabel')].map(s => s.getBoundingClientRect().width)) / 96 * 25.4`, &width)
	p.Eval(`Math.min(...[...document.querySelectorAll('.jarlabel')].map(s => s.getBoundingClientRect().height)) / 96 * 25.4`, &height)
	assert.GreaterOrEqual(t, width, 74.0)
	assert.GreaterOrEqual(t, height, 51.9)
}

func TestWhatIsTypedOnLabelsStays(t *testing.T) {
	p := showLabels(t, "")
	p.Eval(`document.getElementById('label.batch').focus()`, nil)
	p.Press("B7 <b>")
	p.Wait(`document.querySelector('.jarlabel').textContent.includes('B7 <b>')`)
	p.Type("cell.count", "12")
	settle(p)
	enter(p, "fold.labels")
	p.Wait(`!document.querySelector('.jarlabel')`)
	enter(p, "fold.labels")
	p.Wait(`document.getElementById('label.batch')?.value === 'B7 <b>'`)
	var kept string
	p.Eval(`document.getElementById('label.batch').value`, &kept)
	assert.Equal(t, "B7 <b>", kept)
	assert.Contains(t, p.Text(".jarlabel"), "B7 <b>")
}

func TestLabelTextsOutliveAReloadAndGoIntoACopy(t *testing.T) {
	p := caught(t, page.Serve(t, page.File(t)), "v=1&cell.count=9")
	settle(p)
	enter(p, "fold.labels")
	p.Wait(`!!document.querySelector('.jarlabel')`)
	p.Type("label.who", "the lamp desk")
	p.Wait(`document.querySelector('.jarlabel').textContent.includes('the lamp desk')`)
	assert.NotContains(t, p.Fragment(), "lamp", "a name is in no link")
	again(p)
	settle(p)
	enter(p, "fold.labels")
	p.Wait(`document.getElementById('label.who')?.value === 'the lamp desk'`)
	assert.Contains(t, p.Text(".jarlabel"), "the lamp desk")
	text := saveCopy(p)
	assert.Contains(t, text, `"label.who":"the lamp desk"`)

	q := caught(t, onDisk(t, text), "")
	settle(q)
	enter(q, "fold.labels")
	q.Wait(`document.getElementById('label.who')?.value === 'the lamp desk'`)
	assert.Contains(t, q.Text(".jarlabel"), "the lamp desk")
	assert.Contains(t, saveCopy(q), `"label.who":"the lamp desk"`, "a copy of the copy carries it too")
}

func TestAnyBrowserPrintsLabelsWithoutThePlan(t *testing.T) {
	folder := pictures(t)
	page.Needs(t, page.PDF)
	p := showLabels(t, "")
	p.Eval(`window.print = () => { window.printed = true }; 0`, nil)
	whole := filepath.Join(folder, "page.pdf")
	p.PDF(whole)
	enter(p, "labels.print")
	p.Wait(`window.printed`)
	labels := filepath.Join(folder, "labels.pdf")
	p.PDF(labels)
	assert.Less(t, pages(t, labels), pages(t, whole), "the plan is not printed with the labels")
	p.Wait(`!document.documentElement.classList.contains('labels-only')`)
}

func TestOnlyTickedLabelsArePrinted(t *testing.T) {
	p := showLabels(t, "")
	p.Eval(`window.print = () => { window.printed = (window.printed || 0) + 1 }; 0`, nil)
	shown := func() []string {
		var names []string
		p.Eval(`[...document.querySelectorAll('.labels-item:not(.off) h3')].map(h => h.textContent)`, &names)
		return names
	}
	all := shown()
	p.Eval(`document.querySelector('.labels-tick input').focus()`, nil)
	p.Press(" ")
	p.Wait(`document.querySelectorAll('.labels-item.off').length === 1`)
	assert.Equal(t, all[1:], shown())

	enter(p, "labels.print")
	p.Wait(`window.printed === 1`)
	var onRoot bool
	p.Eval(`document.documentElement.classList.contains('labels-only')`, &onRoot)
	assert.True(t, onRoot)
	p.Eval(`dispatchEvent(new Event('afterprint'))`, nil)
	p.Wait(`!document.documentElement.classList.contains('labels-only')`)

	p.Eval(`[...document.querySelectorAll('.labels-do button')].find(b => b.textContent === 'Tick none').click()`, nil)
	p.Wait(`document.querySelectorAll('.labels-item:not(.off)').length === 0`)
	p.Wait(`[...document.querySelectorAll('.labels-tick input')].every(i => !i.checked)`)
	enter(p, "labels.print")
	p.Wait(`document.getElementById('stage.Jar-labels').textContent.includes('No label is ticked')`)
	var printed int
	p.Eval(`window.printed`, &printed)
	assert.Equal(t, 1, printed)
	p.Eval(`[...document.querySelectorAll('.labels-do button')].find(b => b.textContent === 'Tick all').click()`, nil)
	p.Wait(`[...document.querySelectorAll('.labels-tick input')].every(i => i.checked)`)

	// The rules for paper, put on the screen to see what they leave.
	p.Eval(`[...document.styleSheets].flatMap(s => [...s.cssRules]).filter(r => r instanceof CSSMediaRule && r.media.mediaText === 'print').forEach(r => { r.media.mediaText = 'all' })`, nil)
	var seen []string
	p.Eval(`[...document.querySelectorAll('.jarlabel')].filter(e => e.checkVisibility()).map(e => e.textContent)`, &seen)
	assert.Empty(t, seen, "the plan is printed without labels")
	p.Eval(`document.documentElement.classList.add('labels-only')`, nil)
	p.Eval(`[...document.querySelectorAll('.jarlabel')].filter(e => e.checkVisibility()).map(e => e.querySelector('h3').textContent)`, &seen)
	assert.Equal(t, all, seen)
	p.Eval(`[...document.querySelectorAll('body *')].filter(e => !e.closest('.jarlabel') && e.checkVisibility() && [...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())).map(e => e.textContent.slice(0, 60))`, &seen)
	assert.Empty(t, seen, "nothing else is on paper")
}

// TestOneLabelIsPrintedAlone: whoever spoiled one needs no sheet of all, and what was ticked
// stays ticked.
func TestOneLabelIsPrintedAlone(t *testing.T) {
	p := showLabels(t, "")
	p.Eval(`window.print = () => { window.printed = [...document.querySelectorAll('.labels-item:not(.off) h3')].map(h => h.textContent) }; 0`, nil)
	p.Eval(`document.querySelector('.labels-tick input').click()`, nil)
	p.Wait(`document.querySelectorAll('.labels-item.off').length === 1`)
	p.Eval(`document.querySelectorAll('.labels-item')[2].querySelector('button').click()`, nil)
	p.Wait(`!!window.printed`)
	var printed []string
	p.Eval(`window.printed`, &printed)
	assert.Equal(t, []string{labelsOf("")[2].Name}, printed)
	p.Eval(`dispatchEvent(new Event('afterprint'))`, nil)
	p.Wait(`!document.documentElement.classList.contains('labels-only')`)
	p.Wait(`document.querySelectorAll('.labels-item.off').length === 1`)
}

// labelPages is the most pages that the demo's labels may take: two columns without gaps.
const labelPages = 4

func TestLabelsFillTheirPages(t *testing.T) {
	page.Needs(t, page.PDF)
	p := showLabels(t, "")
	p.Eval(`window.print = () => { window.printed = true }; 0`, nil)
	enter(p, "labels.print")
	p.Wait(`window.printed`)
	file := filepath.Join(pictures(t), "labels-filled.pdf")
	p.PDF(file)
	assert.LessOrEqual(t, pages(t, file), labelPages)
}

func TestLabelsFitNarrowScreens(t *testing.T) {
	p := showLabels(t, "v=1&cell.count=60&batch.share=50")
	folder := pictures(t)
	for _, width := range []int{320, 768, 1280} {
		p.Screenshot(filepath.Join(folder, "labels-"+strconv.Itoa(width)+".png"), width, 900, width == 1280 && p.Can(page.Dark))
		var over []string
		p.Eval(`(() => { const w = document.documentElement.clientWidth;
			return [...document.querySelectorAll('.jarlabels *')].filter(e => !e.closest('.scroll') && e.getBoundingClientRect().right > w + 1)
				.map(e => e.tagName + '.' + (e.getAttribute('class') || '') + ' ' + e.textContent.slice(0, 30)).slice(0, 5) })()`, &over)
		assert.Empty(t, over, "at %d px", width)
	}
	var spill []string
	p.Eval(`[...document.querySelectorAll('.jarlabel')].filter(l => l.scrollWidth > l.clientWidth + 1).map(l => l.textContent.slice(0, 40))`, &spill)
	assert.Empty(t, spill, "nothing sticks out of a label")
	var nameless []string
	p.Eval(`[...document.querySelectorAll('.jarlabels input, .jarlabels button')].filter(e => !e.labels?.length && !e.textContent.trim()).map(e => e.outerHTML)`, &nameless)
	assert.Empty(t, nameless)
}

var (
	pdfPage   = regexp.MustCompile(`/Type\s*/Page[^s]`)
	pdfStream = regexp.MustCompile(`(?s)stream\r?\n(.*?)endstream`)
)

// pages counts the pages of a PDF, those too that are told of in packed streams,
// as Firefox writes them.
func pages(t *testing.T, file string) (n int) {
	t.Helper()
	b, err := os.ReadFile(file)
	require.NoError(t, err)
	n = len(pdfPage.FindAll(b, -1))
	for _, stream := range pdfStream.FindAllSubmatch(b, -1) {
		r, err := zlib.NewReader(bytes.NewReader(stream[1]))
		if err != nil {
			continue // a stream of another kind
		}
		text, _ := io.ReadAll(r) // as far as it goes
		n += len(pdfPage.FindAll(text, -1))
	}
	return n
}
