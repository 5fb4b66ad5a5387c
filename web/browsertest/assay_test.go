//go:build !js

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/page"
)

// unfold opens folds by the keyboard: a click may miss while the layout moves.
func unfold(p *page.Page, keys ...string) {
	for _, key := range keys {
		enter(p, "fold."+key)
		p.Wait(`document.getElementById('fold.` + key + `')?.getAttribute('aria-expanded') === 'true'`)
	}
	p.Settle()
}

func TestTitrationTypedAndHandedOver(t *testing.T) {
	p := fresh(t, "")
	settle(p)
	before := number(t, p, "product.mass")
	unfold(p, "assays", "burette", "assay.permanganate", "assay.oxalate")
	p.Type("assay.permanganate.mass", "0.200")
	p.Type("assay.permanganate.titre", "31.50")
	assert.InDelta(t, 0.020045, number(t, p, "assay.permanganate"), 1e-5)
	p.Type("assay.oxalate.sample", "0.500")
	p.Type("assay.oxalate.mass", "0.500")
	assert.Contains(t, p.Text(`[id="stage.Assays"]`), "Still wanted: “Permanganate used”")
	p.Type("assay.oxalate.titre", "24,10")
	assert.InDelta(t, 47.6, number(t, p, "assay.oxalate"), 0.2)
	assert.Equal(t, before, number(t, p, "product.mass"), "nothing moves before it is used")
	enter(p, "use.assay.oxalate")
	settle(p)
	assert.NotEqual(t, before, number(t, p, "product.mass"))
	p.Wait(`location.hash.includes('mix.assay=') && location.hash.includes('mix.assay~=')`)
	assert.Contains(t, p.Text(`[id="stage.Assays"]`), "Used: ")
	assert.Equal(t, "24,10", p.Typed("assay.oxalate.titre"), "what was typed stays")
	assert.NotEmpty(t, p.Typed("mix.assay"))

	// A bad reading is told at its field; the rest of the page goes on.
	p.Type("assay.oxalate.blank", "30")
	assert.Contains(t, p.Text(`[id="problem.assay.oxalate.blank"]`), "above the reading")
	p.Type("cell.count", "12")
	assert.Greater(t, number(t, p, "product.mass"), 1.5*before)
	assert.Equal(t, "30", p.Typed("assay.oxalate.blank"))
	assert.Equal(t, "0.200", p.Typed("assay.permanganate.mass"))
}

func TestReadingsComeBackWithTheLink(t *testing.T) {
	p := fresh(t, "v=1&assay.ignition.dish=31.2&assay.ignition.before=36.2&assay.ignition.after=35.66&assay.ignition.again=35.66&assay.ignition.celsius=450")
	settle(p)
	assert.Equal(t, "36.2", p.Typed("assay.ignition.before"))
	assert.InDelta(t, 1.0148, number(t, p, "assay.ignition"), 1e-3)
	enter(p, "use.assay.ignition")
	p.Wait(`location.hash.includes('found.dried=110')`)
}

func TestGasLostOnABalance(t *testing.T) {
	p := fresh(t, "")
	settle(p)
	unfold(p, "assays", "assay.loss")
	for _, r := range [][2]string{
		{"sample", "2.00"},
		{"oxalic", "3.00"},
		{"acid", "60"},
		{"kind", "strong"},
		{"before", "185.30"},
		{"after", "184.25"},
		{"blank", "0.03"},
		{"celsius", "50"},
	} {
		p.Type("assay.loss."+r[0], r[1])
	}
	assert.Contains(t, p.Text(`[id="problem.assay.loss.kind"]`), "carbon monoxide")
	p.Type("assay.loss.kind", "dilute")
	assert.InDelta(t, 48.25, number(t, p, "assay.loss"), 0.1)
	assert.Equal(t, "dilute", p.Typed("assay.loss.kind"))
}
