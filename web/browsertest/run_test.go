//go:build !js

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/page"
)

// enter presses a button by the keyboard.
func enter(p *page.Page, id string) {
	focus(p, id)
	p.Press("\r")
}

func TestRunFromStartToTheNextPlan(t *testing.T) {
	p := fresh(t, "")
	settle(p)
	planned := p.Value("gas.acid.used")
	pressTool(p, "Start this run")
	p.Wait(`!!document.querySelector('[aria-label="The run"]')`)
	p.Wait(`location.hash.includes('run=')`)

	var locked bool
	p.Eval(`document.querySelector('[name="gas.uptake"]').readOnly && document.querySelector('[name="gas.source"]').disabled && document.querySelector('[data-key="cell.size"]').disabled`, &locked)
	assert.True(t, locked, "estimates and choices belong to the plan")
	p.Eval(`document.querySelectorAll('details').forEach(d => d.open = true)`, nil)

	p.Type("batch.share", "30")
	p.Wait(`document.querySelector('[id="gas.acid.used"]').value !== '` + planned + `'`)
	assert.Contains(t, p.Text(`[id="why.gas.acid"]`), "Planned: ")
	settle(p)
	enter(p, "done.stage.Gas")
	p.Wait(`document.querySelector('[name="gas.acid"]').readOnly`)
	assert.NotEmpty(t, p.Typed("gas.acid"), "what was worked out is what was taken")
	var focus string
	p.Eval(`document.activeElement.id`, &focus)
	assert.Equal(t, "open.stage.Gas", focus, "the focus is not lost")
	p.Type("rinse.times", "3")
	p.Wait(`location.hash.includes('rinse.times=3')`)

	settle(p)
	enter(p, "done.stage.Scrub-and-waste")
	p.Wait(`document.querySelector('.run').textContent.includes('All stages are done')`)
	settle(p)
	p.Eval(`document.querySelectorAll('.measure details').forEach(d => d.open = true)`, nil)
	p.Type("found.product.empty", "84.1")
	p.Wait(`document.getElementById('why.found.product.full').textContent.includes('To expect: about')`)
	p.Type("found.product.full", "118.1")
	p.Wait(`!!document.querySelector('[name="found.product.full.2"]')`)
	p.Type("found.product.full.2", "115.1")
	p.Wait(`[...document.querySelectorAll('.measure .why')].some(e => e.textContent.includes('not dry yet'))`)
	p.Type("found.product.full.3", "115.1")
	p.Wait(`[...document.querySelectorAll('.measure .why')].some(e => e.textContent.includes('it is dry'))`)
	assert.Equal(t, "31", p.Typed("found.product"))
	p.Type("found.copper", "30")
	p.Eval(`document.querySelector('[name="notes"]').focus()`, nil)
	p.Press("Ice ran out at noon.")
	settle(p)
	p.Wait(`document.querySelector('.verdict')?.textContent.includes('in 10')`)
	settle(p)
	p.Wait(`location.hash.includes('notes=Ice')`)
	var names []string
	p.Eval(`[...document.querySelectorAll('.next figcaption')].map(f => f.textContent)`, &names)
	require.Len(t, names, 2, "planned against found, and as it most likely ran: %v", names)

	again(p)
	settle(p)
	assert.Equal(t, "31", p.Typed("found.product"), "a reload keeps the run")
	assert.Equal(t, "Ice ran out at noon.", p.Typed("notes"))

	p.Eval(`[...document.querySelectorAll('.next button')].find(b => b.textContent.startsWith('Plan the next run')).click()`, nil)
	p.Wait(`!document.querySelector('[aria-label="The run"]') && !location.hash.includes('found.')`)
	p.Settle()
	assert.Empty(t, p.Typed("gas.acid"), "charges are worked out again")
	p.Back()
	p.Wait(`!!document.querySelector('[aria-label="The run"]')`)
}
