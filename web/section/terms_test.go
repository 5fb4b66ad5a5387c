package section

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/route"
	"rosesalt/web/doc"
)

// A stage explains the words of the trade that it uses, and no others.
func TestStagesExplainTheirWords(t *testing.T) {
	named := map[route.Stage]string{}
	for stage, made := range Stages(from(""), new(Pictures), false, nil) {
		for _, n := range made.Of {
			if fold, ok := n.(doc.Fold); ok && fold.Class == "terms" {
				named[route.Stage(stage)] = fold.Title
				for _, term := range fold.Of[0].(doc.Terms).List {
					assert.NotEmpty(t, term.Says, term.Name)
				}
			}
		}
	}
	assert.Equal(t, "In plain words: hetaerolite, gangue, oxidising power, assay", named[route.Cells])
	assert.Contains(t, named[route.Wash], "diammine")
	assert.Contains(t, named[route.Slurry], "dithionate")
	assert.NotContains(t, named, route.Batch)
}
