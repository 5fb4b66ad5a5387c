package section

import (
	"testing"

	"rosesalt/chem/phrase/phrasetest"
	"rosesalt/chem/route/routetest"
)

// TestSentencesAreThoseThatAreAskedFor, and their places are given.
func TestSentencesAreThoseThatAreAskedFor(t *testing.T) {
	phrasetest.Matches(t, firstTexts, routetest.Knows, "glanced")
	phrasetest.Matches(t, answerTexts, routetest.Knows, "answered", "says")
}
