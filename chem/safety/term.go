package safety

import (
	"strings"

	"rosesalt/chem/phrase"
)

// Term is a word of the trade and what it means to somebody who never met it: what the thing
// is, whether it is harmful, whether it matters.
type Term struct{ Word, Says string }

var terms = phrase.Open(&files, "terms", "text")

// TermsIn are the terms that a text uses, in the order of their file.
func TermsIn(text string) (list []Term) {
	text = strings.ToLower(text)
	for _, block := range terms.Blocks() {
		if strings.Contains(text, block.Key) {
			list = append(list, Term{block.Key, block.Parts[0].Text})
		}
	}
	return list
}
