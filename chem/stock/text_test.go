package stock

import (
	"testing"

	"rosesalt/chem/phrase/phrasetest"
	"rosesalt/chem/route/routetest"
)

// TestSentencesAreThoseThatAreAskedFor, and their places are given.
func TestSentencesAreThoseThatAreAskedFor(t *testing.T) {
	phrasetest.Matches(t, texts, routetest.Knows, "tell", "says", "try")
}
