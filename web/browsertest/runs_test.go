//go:build !js

package browsertest

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/page"
	"rosesalt/web/runs"
)

const weighed = "v=1&cell.count=9&found.product=30&found.copper=60"

// served opens a served page (storage is only sure there) and waits until its account
// stands.
func served(t *testing.T, address, fragment string, before ...string) *page.Page {
	t.Helper()
	p := page.Load(t, address, fragment, before...)
	p.Ready()
	openAll(p)
	settle(p)
	p.Wait(`!!document.getElementById('runs.name')`)
	return p
}

func button(text string) string {
	return `[...document.querySelectorAll('[id="stage.Kept-runs"] button')].find(b => b.textContent.startsWith('` + text + `'))`
}

// press presses a button of the section as a keyboard does.
func press(p *page.Page, text string) {
	p.Eval(`document.querySelectorAll('[id="stage.Kept-runs"] details').forEach(d => d.open = true)`, nil)
	p.Wait(`!!` + button(text))
	p.Eval(button(text)+`.focus()`, nil)
	p.Press(" ")
	p.Settle()
}

func rows(p *page.Page) (n int) {
	p.Eval(`document.querySelectorAll('.kept tbody tr').length`, &n)
	return n
}

func waitRows(p *page.Page, js string) {
	p.Wait(`document.querySelectorAll('.kept tbody tr').length ` + js)
}

func says(p *page.Page) string { return p.Text(`[id="stage.Kept-runs"] [role="status"]`) }

func paste(p *page.Page, text string) {
	quoted, _ := json.Marshal(text)
	p.Eval(`document.getElementById('runs.text').value = `+string(quoted), nil)
	press(p, "Bring these runs in")
}

func name(p *page.Page, text string) {
	p.Eval(`document.getElementById('runs.name').value = '`+text+`'`, nil)
}

func TestAnyBrowserKeepsARun(t *testing.T) {
	p := served(t, page.Serve(t, page.File(t)), weighed)
	name(p, "first lamp bag")
	press(p, "Keep this run")
	waitRows(p, "=== 1")
	press(p, "Keep this run")
	assert.Contains(t, says(p), "kept already")
	again(p)
	settle(p)
	waitRows(p, "=== 1")
	assert.Contains(t, p.Text(".kept"), "first lamp bag")
	assert.Contains(t, p.Text(".kept"), "30\u202fg")
	assert.Regexp(t, `\d+.–.?\d+|\d+–\d+`, p.Text(".kept tbody tr td:nth-child(7)"), "uptake with its interval")
	p.Type("cell.count", "2")
	press(p, "Open")
	p.Wait(`document.getElementsByName('cell.count')[0].value === '9'`)
	assert.Equal(t, "30", p.Typed("found.product"))
	settle(p)
	name(p, "renamed")
	press(p, "Keep it in place of “first lamp bag”")
	p.Wait(`document.querySelector('.kept').textContent.includes('renamed')`)
	assert.Equal(t, 1, rows(p))
	press(p, "Forget")
	waitRows(p, "=== 0")
	p.Wait(`document.activeElement.id === 'runs.undo'`)
	p.Press(" ")
	waitRows(p, "=== 1")
	again(p)
	settle(p)
	waitRows(p, "=== 1")
	assert.Contains(t, p.Text(".kept"), "renamed")
}

// TestRunIsKeptFromDisk: opened from disk too; it is not loaded again, see page.Serve.
func TestRunIsKeptFromDisk(t *testing.T) {
	p := served(t, page.File(t), weighed)
	name(p, "<b>lamp</b>")
	press(p, "Keep this run")
	waitRows(p, "=== 1")
	assert.NotContains(t, says(p), "did not save")
	assert.Contains(t, p.Text(".kept"), "<b>lamp</b>", "a name is never markup")
	var n int
	p.Eval(`Object.keys(localStorage).filter(k => k.startsWith('rosesalt.run.')).length`, &n)
	assert.Equal(t, 1, n)
}

func TestRunsAreCountedTogether(t *testing.T) {
	p := served(t, page.Serve(t, page.File(t)), weighed)
	press(p, "Keep this run")
	p.Type("found.product", "34")
	settle(p)
	press(p, "Keep this run")
	waitRows(p, "=== 2")
	for i := range 2 {
		p.Eval(`document.querySelectorAll('.tick input')[`+[]string{"0", "1"}[i]+`].click()`, nil)
		p.Settle()
	}
	p.Wait(`document.getElementById('runs.together')?.children.length === 2`)
	var ticked int
	p.Eval(`document.querySelectorAll('.tick input:checked').length`, &ticked)
	assert.Equal(t, 2, ticked)
	assert.Contains(t, p.Text(`[id="stage.Kept-runs"]`), "From 2 runs, multiplied")
	press(p, "Plan the next run from these")
	p.Wait(`location.hash.includes('gas.uptake~=')`)
	assert.Empty(t, p.Typed("found.product"), "nothing is weighed yet")
	settle(p)
	p.Eval(`document.querySelectorAll('.tick input').forEach(i => i.click())`, nil)
	p.Wait(`!document.getElementById('runs.together')`)
	p.Eval(`document.querySelectorAll('.tick input:checked').length`, &ticked)
	assert.Zero(t, ticked)
}

func TestFileComesOnceAndBadOnesChangeNothing(t *testing.T) {
	address := page.Serve(t, page.File(t))
	p := served(t, address, weighed)
	press(p, "Keep this run")
	waitRows(p, "=== 1")
	press(p, "Write the file into the box")
	var file string
	p.Eval(`document.getElementById('runs.text').value`, &file)
	states, troubles := runs.Decode([]byte(file))
	require.Empty(t, troubles)
	require.Len(t, states, 1)
	require.NoError(t, states[0].Told.Check())
	require.Contains(t, states[0].Learned, runs.Uptake)
	for range 2 {
		paste(p, file)
		assert.Contains(t, says(p), "1 here already")
		assert.Equal(t, 1, rows(p))
	}
	paste(p, file[:len(file)/2])
	assert.Contains(t, says(p), "Nothing was brought in.")
	assert.Contains(t, says(p), "It is damaged at byte")
	paste(p, "tea")
	assert.Contains(t, says(p), "does not say before that it holds runs")
	paste(p, "")
	assert.Contains(t, says(p), "There is nothing to bring in")
	paste(p, strings.Replace(file, `"version":1`, `"version":2`, 1))
	assert.Contains(t, says(p), "written by version 2")
	assert.Equal(t, 1, rows(p))
	// By choosing a file.
	quoted, _ := json.Marshal(`{"format":"rosesalt-runs","version":1,"runs":[{"kept":"2026-03-14T09:30:00Z","name":"by hand","plan":"v=1&cell.count=3"}]}`)
	p.Eval(`(() => { const d = new DataTransfer(); d.items.add(new File([`+string(quoted)+`], 'a.json')); const f = document.getElementById('runs.file');
		f.files = d.files; f.dispatchEvent(new Event('input', { bubbles: true })) })()`, nil)
	waitRows(p, "=== 2")
	assert.Contains(t, p.Text(".kept"), "by hand")
	assert.Contains(t, p.Text(".kept"), "not weighed")
}

func TestAnyBrowserKeepsRunsOfTwoPages(t *testing.T) {
	address := page.Serve(t, page.File(t))
	one := served(t, address, weighed)
	two := served(t, address, weighed+"&found.residue=12")
	name(one, "one")
	press(one, "Keep this run")
	waitRows(two, "=== 1")
	name(two, "two")
	press(two, "Keep this run")
	waitRows(one, "=== 2")
	one.Eval(`document.querySelector('[aria-label="Forget “one”"]').click()`, nil)
	waitRows(two, "=== 1")
	assert.Contains(t, two.Text(".kept"), "two")
	press(one, "Bring “one” back")
	waitRows(two, "=== 2")
	// Both open the same run, and each changes it.
	for _, p := range []*page.Page{one, two} {
		p.Eval(`document.querySelector('[aria-label="Open “one”"]').click()`, nil)
		settle(p)
	}
	name(one, "one of one")
	press(one, "Keep it in place of")
	two.Wait(`document.querySelector('.kept').textContent.includes('one of one')`)
	name(two, "one of two")
	press(two, "Keep it in place of")
	for _, p := range []*page.Page{one, two} {
		waitRows(p, "=== 3")
		assert.Contains(t, p.Text(".kept"), "one of one")
		assert.Contains(t, p.Text(".kept"), "one of two")
		assert.Contains(t, p.Text(".kept"), "Changed on two pages: both are kept.")
	}
}

// broken makes a browser whose storage refuses in a way.
const (
	fullStorage      = `Storage.prototype.setItem = function () { throw new DOMException('exceeded the quota', 'QuotaExceededError') }`
	forbiddenStorage = `Object.defineProperty(window, 'localStorage', { configurable: true, get() { throw new DOMException('denied', 'SecurityError') } })`
	noStorage        = `Object.defineProperty(window, 'localStorage', { configurable: true, value: null })`
)

func TestAnyBrowserMayRefuseItsStorage(t *testing.T) {
	for why, c := range map[string]struct{ script, says string }{
		"full":      {fullStorage, "its storage is full"},
		"forbidden": {forbiddenStorage, "its storage is forbidden or switched off"},
		"none":      {noStorage, "its storage is forbidden or switched off"},
	} {
		t.Run(why, func(t *testing.T) {
			p := served(t, page.Serve(t, page.File(t)), weighed, c.script)
			press(p, "Keep this run")
			waitRows(p, "=== 1")
			assert.Contains(t, says(p), "did not save one run or change")
			assert.Contains(t, says(p), c.says)
			assert.Contains(t, says(p), "save the runs as a file")
			press(p, "Write the file into the box")
			p.Wait(`document.getElementById('runs.text').value.includes('found.product=30')`)
			press(p, "Forget")
			waitRows(p, "=== 0")
		})
	}
	t.Run("full for a while", func(t *testing.T) {
		p := served(t, page.Serve(t, page.File(t)), weighed, `window.kept = Storage.prototype.setItem; `+fullStorage)
		press(p, "Keep this run")
		waitRows(p, "=== 1")
		p.Eval(`Storage.prototype.setItem = window.kept`, nil)
		name(p, "another")
		press(p, "Keep this run")
		waitRows(p, "=== 2")
		assert.NotContains(t, says(p), "did not save")
		var n int
		p.Eval(`Object.keys(localStorage).filter(k => k.startsWith('rosesalt.run.')).length`, &n)
		assert.Equal(t, 2, n)
	})
}

func TestDamagedAndNewerEntriesStay(t *testing.T) {
	p := served(t, page.Serve(t, page.File(t)), weighed)
	press(p, "Keep this run")
	waitRows(p, "=== 1")
	p.Eval(`(() => { localStorage.setItem('rosesalt.run.0', '{"version":1,"id'); localStorage.setItem('rosesalt.run.1', '{"version":2,"tea":1}') })()`, nil)
	again(p)
	settle(p)
	waitRows(p, "=== 1")
	assert.Contains(t, says(p), "One kept entry could not be read; it is left as it is.")
	assert.Contains(t, says(p), "written by a newer version of this page")
	name(p, "more")
	press(p, "Keep this run")
	waitRows(p, "=== 2")
	var left []string
	p.Eval(`[localStorage.getItem('rosesalt.run.0'), localStorage.getItem('rosesalt.run.1')]`, &left)
	assert.Equal(t, []string{`{"version":1,"id`, `{"version":2,"tea":1}`}, left)
}

func TestKeptRunsAreLargeEnoughToTouch(t *testing.T) {
	p := served(t, page.Serve(t, page.File(t)), weighed)
	press(p, "Keep this run")
	waitRows(p, "=== 1")
	press(p, "Save as a table") // opens what is folded
	var small []string
	p.Eval(`[...document.querySelectorAll('[id="stage.Kept-runs"] :is(button, summary, .tick, textarea, input:not([type=checkbox]))')].map(e => e.closest('section .head') ?? e)
		.filter(e => e.getBoundingClientRect().height < 42 || e.getBoundingClientRect().width < 42).map(e => e.outerHTML.slice(0, 90))`, &small)
	assert.Empty(t, small)
}
