//go:build !js

package browsertest

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"

	"rosesalt/chem/route"
	"rosesalt/chem/working"
	"rosesalt/scripts/page"
	"rosesalt/web/link"
)

// toWorking moves the focus to a figure's name, as a person does with the tabulator.
func toWorking(p *page.Page, key string) {
	p.Wait(`!!document.querySelector('.fig dt button')`)
	p.Reveal(`document.getElementById('` + key + `')`)
	p.Eval(`document.getElementById('`+key+`').closest('.fig').querySelector('button').focus()`, nil)
}

// lastStep is the result that the open working comes to, spaces made plain.
func lastStep(p *page.Page) string {
	var text string
	p.Eval(`document.querySelector('#working .last .result').textContent`, &text)
	return strings.ReplaceAll(text, "\u202f", " ")
}

// lastOf is the same, worked out natively.
func lastOf(fragment string, id route.FigureID) string {
	c, _ := link.Decode(fragment)
	steps := working.New(&c.Case).Of(id)
	return "= " + strings.ReplaceAll(steps.Steps[len(steps.Steps)-1].Result, "\u202f", " ")
}

// TestWorkingOfWhatIsBought: its number is what to buy, and the working that of what the plan
// takes. The focus comes back.
func TestWorkingOfWhatIsBought(t *testing.T) {
	p := open(t, "")
	p.Click(`.glance [data-how="gas.copper.used"]`)
	p.Wait(`document.activeElement.id === 'working.title'`)
	assert.Equal(t, lastOf("", route.GasCopperUsed), lastStep(p))
	p.Press(kb.Escape)
	p.Wait(`!document.getElementById('working')`)
	p.Wait(`document.activeElement.dataset.how === "gas.copper.used"`)
}

func TestWorkingOpensByKeyboard(t *testing.T) {
	p := open(t, "")
	toWorking(p, "gas.made")
	p.Press(kb.Enter)
	p.Wait(`document.activeElement.id === 'working.title'`)
	before := lastStep(p)
	assert.Equal(t, lastOf("", route.GasMade), before)
	var name string
	p.Eval(`document.querySelector('#working').getAttribute('aria-labelledby').split(' ').map(i => document.getElementById(i).textContent).join(' ')`, &name)
	assert.Equal(t, "How this comes about Gas made, by amount", name)
	var subs int
	p.Eval(`document.querySelectorAll('#working sub').length`, &subs)
	assert.NotZero(t, subs, "formulas are typeset")

	p.Type("cell.count", "12") // the plan changes beside it
	p.Wait(`document.querySelector('#working .last .result').textContent !== '` + strings.ReplaceAll(before, " mmol", "\u202fmmol") + `'`)
	assert.Equal(t, lastOf("v=2&cell.count=12", route.GasMade), lastStep(p))

	p.Eval(`document.getElementById('working.title').focus()`, nil) // from a field the focus would stay there
	p.Press(kb.Escape)
	p.Wait(`!document.getElementById('working')`)
	p.Wait(`document.activeElement.closest('.fig')?.querySelector('data').id === 'gas.made'`)
}

func TestWorkingLeadsOn(t *testing.T) {
	p := open(t, "")
	toWorking(p, "gas.volume")
	p.Press(kb.Enter)
	p.Wait(`!!document.querySelector('#working [data-how="gas.made"]')`)
	p.Click(`#working [data-how="gas.made"]`)
	p.Wait(`document.getElementById('working.title').textContent === 'Gas made, by amount'`)
	p.Click(`#working .bar button`) // copy
	p.Wait(`document.querySelector('#working .copied').textContent !== ''`)
	p.Press(kb.Escape)
	p.Wait(`!document.getElementById('working')`)
	// The focus is back where the first was opened.
	p.Wait(`document.activeElement.closest('.fig')?.querySelector('data').id === 'gas.volume'`)
}

func TestWorkingTellsWhyThereIsNone(t *testing.T) {
	p := open(t, "")
	p.Wait(`!!document.querySelector('.fig dt button')`)
	p.Eval(`document.getElementById('gas.salt.used').closest('details').open = true`, nil)
	p.Click(`.fig:has([id="gas.salt.used"]) dd`) // the row is the target, not only the name
	p.Wait(`!!document.getElementById('working')`)
	assert.Contains(t, p.Text("#working"), route.NoMetabisulfite.String())
}

func TestFiguresAreLargeEnoughToPress(t *testing.T) {
	p := open(t, "")
	p.Wait(`!!document.querySelector('.fig dt button')`)
	var small []string
	p.Eval(`[...document.querySelectorAll('.fig:has(dt button)')].filter(f => f.offsetHeight && f.offsetHeight < 44).map(f => f.textContent)`, &small)
	assert.Empty(t, small)
}

// TestWorkingPictures writes how it looks, as TestPictures does.
func TestWorkingPictures(t *testing.T) {
	folder := toBeLookedAt(t)
	p := open(t, "")
	toWorking(p, "copper.crop")
	p.Press(kb.Enter)
	p.Wait(`!!document.getElementById('working')`)
	for _, shot := range []struct {
		name  string
		width int
		dark  bool
	}{{"360-light", 360, false}, {"360-dark", 360, true}, {"768-light", 768, false}, {"1280-light", 1280, false}, {"1280-dark", 1280, true}} {
		file := filepath.Join(folder, "working-"+shot.name+".png")
		p.Screenshot(file, shot.width, 900, shot.dark)
		assert.FileExists(t, file)
	}
}
