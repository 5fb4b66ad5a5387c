//go:build !js

package browsertest

import (
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/scripts/page"
	"rosesalt/web/link"
)

// large is a bag that the usual flask and slurry vessel do not hold.
const large = "v=1&cell.size=R20&cell.count=12"

// stepsOf are the steps of a fragment's plan.
func stepsOf(fragment string) []procedure.Step {
	c, _ := link.Decode(fragment)
	plan := c.Plan
	return procedure.Steps(&plan, new(route.Runner).Run(&plan), nil)
}

// toStep goes on at the bench to a step of the large bag.
func toStep(p *page.Page, id string) {
	for i, st := range stepsOf(large) {
		if st.ID == id {
			return
		}
		p.Press(arrowRight)
		p.Wait(`document.querySelector('.bench-head b').textContent.startsWith('Step ` + strconv.Itoa(i+2) + ` of')`)
	}
}

// TestVesselsAreMendedAtOneTouch: said where the sentence stands, mended by a press, and
// then nothing is said any more; at the bench the amounts are those of one batch.
func TestVesselsAreMendedAtOneTouch(t *testing.T) {
	p := fresh(t, large)
	settle(p)
	assert.Contains(t, p.Text(".says"), "250\u202fmL flask")
	p.View(360, 640, false)
	assert.Contains(t, p.Text(".strip .item.stop"), "250\u202fmL flask", "on a phone too")
	var over []string
	p.Eval(`(() => { const w = document.documentElement.clientWidth;
		return [...document.querySelectorAll('.strip .item, .small-vessels, .small-vessels *')].filter(e => e.getClientRects().length && e.getBoundingClientRect().right > w + 1).map(e => e.textContent) })()`, &over)
	assert.Empty(t, over, "wider than the phone")
	p.View(1280, 900, false)

	enter(p, "go.bench")
	p.Wait(`!!document.getElementById('bench.title')`)
	toStep(p, "charge")
	assert.Contains(t, p.Text(".bench"), "Make 2 equal batches, 90\u202fmin of gas for each, or take a flask of 500\u202fmL")
	assert.Regexp(t, `(?s)43\x{202f}g.*86\x{202f}g`, p.Text(".bench-take"))
	p.Press(page.Escape)
	p.Wait(`!document.getElementById('bench.title')`)

	p.Click(`.small-vessels .do`)
	p.Wait(`location.hash.includes('batch.runs=2')`)
	p.Wait(`!document.querySelector('.small-vessels .do')`)
	assert.Equal(t, "Worked in 2 equal batches now, 90\u202fmin of gas for each.", p.Text("#said"))
	p.Wait(`document.activeElement.id === 'said'`)
	assert.NotContains(t, p.Text(".says"), "Too small")
	assert.Equal(t, "2", p.Typed("batch.runs"))
}

// TestVesselPictures leaves pictures of a plan that does not fit its vessels.
func TestVesselPictures(t *testing.T) {
	folder := toBeLookedAt(t)
	for name, fragment := range map[string]string{"small": large, "batches": large + "&batch.runs=2"} {
		p := fresh(t, fragment)
		settle(p)
		for _, width := range []int{360, 1280} {
			p.Screenshot(filepath.Join(folder, "vessel-"+name+"-page-"+strconv.Itoa(width)+".png"), width, 800, false)
			for _, id := range []string{"stage.Gas", "stage.Buy-and-put-out"} {
				p.Eval(`document.getElementById('`+id+`').scrollIntoView({behavior: 'instant'})`, nil)
				p.Screenshot(filepath.Join(folder, "vessel-"+name+"-"+id+"-"+strconv.Itoa(width)+".png"), width, 1400, false)
			}
			p.Eval(`scrollTo({top: 0, behavior: 'instant'})`, nil)
		}
		enter(p, "go.bench")
		p.Wait(`!!document.getElementById('bench.title')`)
		for _, st := range stepsOf(fragment) {
			switch st.Key {
			case "slurry", "charge", "evaporate":
				for _, width := range []int{360, 1280} {
					p.Screenshot(filepath.Join(folder, "vessel-"+name+"-bench-"+st.ID+"-"+strconv.Itoa(width)+".png"), width, 800, false)
				}
			}
			p.Press(arrowRight)
		}
		if p.Can(page.PDF) {
			openSheet(t, fragment).PDF(filepath.Join(folder, "vessel-"+name+"-sheet.pdf"))
		}
	}
}
