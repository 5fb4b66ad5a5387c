package section

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/web/doc"
	"rosesalt/web/doc/doctest"
)

const titrated = "assay.permanganate.mass=0.2&assay.permanganate.titre=31.5&assay.oxalate.sample=0.5&assay.oxalate.mass=0.5&assay.oxalate.titre=24.1"

// opened are the keys of the folds that are open from the first.
func opened(s *Source) (keys []string) {
	for _, f := range doctest.Find[doc.Fold](assays(s).Of...) {
		if f.Key != "" && f.Open {
			keys = append(keys, f.Key)
		}
	}
	return keys
}

func TestAssaysBegunAreOpen(t *testing.T) {
	assert.Empty(t, opened(from("")))
	assert.Equal(t, []string{"assays", "burette", "assay.permanganate", "assay.oxalate"}, opened(from(titrated)))
	assert.Equal(t, []string{"assays", "assay.loss"}, opened(from("assay.loss.sample=2")))
}

func TestAssayIsHandedOver(t *testing.T) {
	s := from(titrated)
	hand := func() (use []doc.Button, html string) {
		made := assays(s)
		return doctest.Find[doc.Button](made.Of...), doctest.HTML(doc.Section{Of: assaysFold(made, "assay.oxalate").Of})
	}
	use, says := hand()
	require.Len(t, use, 1, "the strength of a titrant is handed over to nothing")
	assert.Equal(t, doc.Button{Class: "do", ID: "use.assay.oxalate", Text: "Use this in the plan", Action: Use, Value: "assay.oxalate"}, use[0])
	assert.Contains(t, says, "Puts 47.6\u202f% (")
	require.True(t, s.UseAssay(use[0].Value))
	_, says = hand()
	assert.Contains(t, says, "Used: 47.6\u202f%")
}

func assaysFold(made doc.Section, key string) doc.Fold {
	for _, f := range doctest.Find[doc.Fold](made.Of...) {
		if f.Key == key {
			return f
		}
	}
	return doc.Fold{}
}

func TestAssaysAreToldOnceBegun(t *testing.T) {
	assert.Empty(t, doctest.Text(assays(from("")).Of...))
	says := doctest.Text(assays(from(titrated + "&assay.loss.sample=2")).Of...)
	for _, part := range []string{"By oxalic acid and permanganate:\n    ", ": 48\u202f%, the range is that of balance and glass", "Still wanted: "} {
		assert.Contains(t, says, part)
	}
	assert.NotContains(t, says, "EDTA", "a method that nobody began")
	assert.Equal(t, 1, strings.Count(says, "By the gas lost, on a balance"))
}
