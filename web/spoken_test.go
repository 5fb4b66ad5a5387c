package web

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/web/desk"
)

func TestWhatIsSpokenOfAChange(t *testing.T) {
	p := &page{desk: desk.New("")}
	say := func(key, text string) string {
		p.desk.Edit(key, text)
		p.touched = key
		return p.spoken()
	}
	assert.Contains(t, say("cell.count", "9"), "Product ")
	assert.Contains(t, say("gas.strength", "120"), "above the limit of 100")
	summary := say("rinse.times", "2")
	assert.Contains(t, summary, "Product ")
	assert.Contains(t, summary, "Fields that want attention: 1.", "of another field only that there is something")
	say("gas.strength", "96")
	assert.Contains(t, say("found.product", "a jarful"), "cannot be read")

	assert.Equal(t, "Still wanted: “Permanganate used”.", say("assay.permanganate.mass", "0.200"))
	assert.Contains(t, say("assay.permanganate.titre", "31.50"), "0.020")
	assert.Contains(t, say("assay.permanganate.titre", "tea"), "cannot be read")

	say("log.5.rate", "90")
	assert.Contains(t, say("log.5.rate", "tea"), "cannot be read")
	assert.Empty(t, say("log.5.rate", "90"))
}
