//go:build !js

package browsertest

import (
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestTheShelfSizesAFirstRun: what is typed bounds the share that nobody set, what limits is
// named, and a share that was set is brought back by one touch, which can be undone.
func TestTheShelfSizesAFirstRun(t *testing.T) {
	p := closed(t, "")
	settle(p)
	p.Click(`[id="stage.What-I-have-on-the-shelf.title"]`)
	p.Wait(`!!document.getElementById('in.shelf.acid')`)
	p.Type("shelf.acid", "40")
	p.Wait(`document.querySelector('.hurt').textContent.includes('is enough for 13\u202f% of the mix; it is what limits.')`)
	assert.Contains(t, p.Text(".hurt"), "Your 40\u202fmL of acid")
	p.Wait(`document.querySelector('.says [data-key="batch.share"]').value === '13'`)
	p.Wait(`location.hash.includes('shelf.acid=40') && !location.hash.includes('batch.share')`)

	p.Eval(`(() => { const e = document.querySelector('.says [data-key="batch.share"]'); e.value = '50'; e.dispatchEvent(new Event('input', {bubbles: true})) })()`, nil)
	p.Wait(`document.querySelector('.hurt').textContent.includes('You set half')`)
	p.Wait(`location.hash.includes('batch.share=50')`)
	p.Click(`.hurt .suits .do`)
	p.Wait(`location.hash.includes('batch.share=13')`)
	p.Wait(`!document.querySelector('.hurt').textContent.includes('limits')`)
	assert.Contains(t, p.Text(".hurt"), "Enough for 13\u202f% of the mix, with nothing in reserve; acid would run out first.")
	p.Wait(`document.activeElement.id === 'said'`)
	p.Click(`.undo button`)
	p.Wait(`location.hash.includes('batch.share=50')`)
}

// TestTheShelfFitsAPhone: nothing of it is wider than 360 pixels.
func TestTheShelfFitsAPhone(t *testing.T) {
	p := open(t, "shelf.acid=20&shelf.buy.peroxide=no&batch.share=60&dry.rate=20")
	settle(p)
	p.View(360, 640, false)
	var over []string
	p.Eval(`(() => { const w = document.documentElement.clientWidth;
		return [...document.querySelectorAll('.glance *, [id="stage.What-I-have-on-the-shelf"] *')].filter(e => !e.closest('.scroll') && e.getClientRects().length && e.getBoundingClientRect().right > w + 1).map(e => e.textContent) })()`, &over)
	assert.Empty(t, over, "wider than the phone")
	assert.NotZero(t, p.Text(".suits"))
	p.View(1280, 900, false)
}

// TestNamesOfWhatToBuyKeepTheirWidth beside what is said of the shelf: half of their line on a phone.
func TestNamesOfWhatToBuyKeepTheirWidth(t *testing.T) {
	p := open(t, "shelf.acid=70&shelf.copper=40")
	settle(p)
	p.View(390, 844, false)
	p.Click(`[id="go.ready"]`)
	p.Wait(`[...document.querySelectorAll('.amounts dd small')].some(e => e.checkVisibility() && e.textContent.includes('stand on the shelf'))`)
	var narrow []string
	p.Eval(`[...document.querySelectorAll('.amounts dt')].filter(e => e.checkVisibility() && e.getBoundingClientRect().width < e.parentElement.clientWidth / 2).map(e => e.textContent)`, &narrow)
	assert.Empty(t, narrow)
	p.View(1280, 900, false)
}

// TestShelfPictures leaves pictures of plans that the shelf bounds.
func TestShelfPictures(t *testing.T) {
	folder := toBeLookedAt(t)
	for name, fragment := range map[string]string{
		"blank": "", "scarce": "shelf.acid=40&shelf.copper=60", "shut": "shelf.buy.acid=no&shelf.metabisulfite=20", "long": "dry.rate=30&batch.share=60&shelf.acid=60&gas.flask=100",
	} {
		p := closed(t, fragment)
		settle(p)
		for _, shot := range []struct {
			width int
			dark  bool
		}{{360, false}, {768, true}, {1280, false}} {
			p.Screenshot(filepath.Join(folder, "shelf-"+name+"-"+strconv.Itoa(shot.width)+".png"), shot.width, 1300, shot.dark)
		}
		if name != "scarce" {
			continue
		}
		p.View(1280, 900, false)
		p.Click(`[id="stage.What-I-have-on-the-shelf.title"]`)
		p.Wait(`!!document.getElementById('in.shelf.acid')`)
		p.Eval(`document.getElementById('stage.What-I-have-on-the-shelf').scrollIntoView({behavior: 'instant'})`, nil)
		for _, width := range []int{360, 768, 1280} {
			p.Screenshot(filepath.Join(folder, "shelf-open-"+strconv.Itoa(width)+".png"), width, 1400, width == 768)
		}
	}
}
