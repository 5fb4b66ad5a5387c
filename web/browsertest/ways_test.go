//go:build !js

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
)

// TestAnotherWayBecomesThePlan: one touch, and address, fields and figures are those of
// the other reductant; Back brings the old ones back.
func TestAnotherWayBecomesThePlan(t *testing.T) {
	p := open(t, "")
	settle(p)
	assert.Contains(t, p.Text(`[id="stage.Other-ways"]`), "This is the plan.")
	for _, word := range []string{"peroxide", "slurrysalt", "oxalic", "copper"} {
		p.Click(`[id="way.` + word + `"]`)
		p.Wait(`document.querySelector('[name="gas.source"]').value === '` + word + `'`)
		settle(p)
		p.Wait(`!document.getElementById('way.` + word + `')`)
		sheet := sheetOf("v=2&gas.source=" + word)
		for _, id := range []route.FigureID{route.ProductMass, route.ProductPurity, route.DemandAcid, route.ReduceHeat, route.ProductSodium} {
			assert.InDelta(t, sheet.Value(id), number(t, p, id.Info().Key), 1e-9*(1+sheet.Value(id)), "%s, %s", word, id.Info().Key)
		}
		var flame bool
		p.Eval(`!!document.querySelector('[name="gas.copper"]')`, &flame)
		assert.Equal(t, word == "copper", flame, "fields of other ways do not stand in the way")
	}
	p.Click(`[id="way.peroxide"]`)
	p.Wait(`location.hash.includes('gas.source=peroxide')`)
	assert.Equal(t, "", p.Value("gas.made"), "no gas is made")
	assert.Contains(t, p.Text(".strip"), "never a closed vessel")
}

func TestAlkalineCellsOnThePage(t *testing.T) {
	p := open(t, "v=1&cell.kind=alkaline&cell.weight=46")
	settle(p)
	cells := p.Text(`[id="stage.Cells"]`)
	assert.Contains(t, cells, "caustic potash under pressure")
	assert.Contains(t, cells, "likely zinc-carbon")
	p.Eval(`document.querySelectorAll('details').forEach(d => d.open = true)`, nil)
	number(t, p, "mix.lye")
	p.Click(`[id="add.row"]`)
	p.Type("cell.2.count", "3")
	p.Wait(`document.body.textContent.includes('never go into one batch')`)
}

func TestPurityTable(t *testing.T) {
	p := open(t, "")
	settle(p)
	var rows [][]string
	p.Eval(`[...document.querySelectorAll('[id="stage.Purity"] tbody tr')].map(r => [...r.children].map(c => c.textContent))`, &rows)
	require.Greater(t, len(rows), 5)
	assert.Contains(t, p.Text(`[id="stage.Purity"]`), "zinc salts")
	assert.Contains(t, p.Text(`[id="stage.Purity"]`), "still leave")
}
