package section

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/field"
	"rosesalt/chem/route"
	"rosesalt/chem/stock"
	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

// TestEveryWayTellsBeforeWhatDoesNotFitAfter: the table of ways names the vessels that are too small
// once that way is the plan.
func TestEveryWayTellsBeforeWhatDoesNotFitAfter(t *testing.T) {
	small := 0
	source, _ := route.InputByKey("gas.source")
	for _, fragment := range []string{"", "cell.count=4", "slurry.beaker=400", "cell.count=20&gas.flask=2000", "shelf.peroxide=100"} {
		s := from(fragment)
		table := doctest.Find[doc.Table](ways(s).Of...)[0]
		for row := range table.Rows {
			if doctest.Text(table.Rows[row][0]) != "Vessels" {
				continue
			}
			for i, o := range source.Options {
				cell := doctest.Text(table.Rows[row][i+1])
				pressed := from(fragment)
				pressed.Edit("gas.source", o.Word)
				says := stock.Unfit(pressed.Plan(), pressed.Sheet())
				if says == "" {
					assert.Equal(t, "all vessels hold it", cell, fragment)
					assert.Empty(t, TooSmall(pressed.Desk))
				} else {
					assert.Equal(t, says, cell, fragment)
					small++
				}
			}
		}
	}
	assert.Greater(t, small, 5)
}

// TestChangesTellWhatDoesNotFitAfterThem, and nothing where that is so already.
func TestChangesTellWhatDoesNotFitAfterThem(t *testing.T) {
	peroxide := []field.Change{{Key: "gas.source", Text: "peroxide"}}
	assert.Contains(t, unfitAfter(from(""), peroxide), "Then the 1\u202fL slurry vessel is too small, ")
	assert.Empty(t, unfitAfter(from("slurry.beaker=3000"), peroxide))
	assert.Empty(t, unfitAfter(from("slurry.beaker=100"), []field.Change{{Key: "batch.share", Text: "25"}}), "it is so already")
	assert.Empty(t, unfitAfter(from(""), []field.Change{{Key: "gas.source", Text: "nothing"}}))
}
