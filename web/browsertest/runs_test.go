//go:build !js

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/page"
)

// measured opens a served page (storage is only sure there) with a run measured.
func measured(t *testing.T) *page.Page {
	p := page.Open(t, page.Serve(t, page.File(t)), "v=1&cell.count=9&found.product=30&found.copper=60")
	settle(p)
	p.Wait(`!!document.querySelector('.verdict')`)
	return p
}

const keepButton = `[...document.querySelectorAll('button')].find(b => b.textContent.startsWith('Keep this run'))`

func TestRunIsKeptThroughAReload(t *testing.T) {
	p := measured(t)
	p.Eval(keepButton+`.click()`, nil)
	p.Wait(`!!document.querySelector('[aria-label="Runs kept"] tbody tr')`)
	p.Reload()
	settle(p)
	p.Wait(`!!document.querySelector('[aria-label="Runs kept"] tbody tr')`)
	assert.Contains(t, p.Text(`[aria-label="Runs kept"]`), "30\u202fg")
	p.Type("cell.count", "2")
	p.Click(`[aria-label^="Open the run"]`)
	p.Wait(`document.getElementsByName('cell.count')[0].value === '9'`)
	assert.Equal(t, "30", p.Typed("found.product"))
	p.Click(`[aria-label^="Forget the run"]`)
	p.Wait(`!document.querySelector('[aria-label="Runs kept"]')`)
}

func TestPastedRunsComeOnce(t *testing.T) {
	p := measured(t)
	p.Eval(keepButton+`.click()`, nil)
	p.Wait(`!!document.querySelector('[aria-label="Runs kept"] tbody tr')`)
	p.Eval(`(() => { document.getElementById('runs.text').value = localStorage.getItem('rosesalt.runs');
		[...document.querySelectorAll('button')].find(b => b.textContent.startsWith('Bring these')).click() })()`, nil)
	p.Wait(`!!document.querySelector('.next .note.mind')`)
	var rows int
	p.Eval(`document.querySelectorAll('[aria-label="Runs kept"] tbody tr').length`, &rows)
	assert.Equal(t, 1, rows, "the same run twice is one run")
	p.Eval(`(() => { document.getElementById('runs.text').value = 'not a file';
		[...document.querySelectorAll('button')].find(b => b.textContent.startsWith('Bring these')).click() })()`, nil)
	p.Settle()
	p.Eval(`document.querySelectorAll('[aria-label="Runs kept"] tbody tr').length`, &rows)
	assert.Equal(t, 1, rows, "what was kept stays")
}
