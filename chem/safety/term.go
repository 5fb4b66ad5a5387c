package safety

import (
	"strings"
	"unicode"
	"unicode/utf8"

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
		if begins(text, block.Key) {
			list = append(list, Term{block.Key, block.Parts[0].Text})
		}
	}
	return list
}

// begins tells whether a word of a text begins with a term, as assays does with assay; a
// microphone holds no crop.
func begins(text, term string) bool {
	for {
		before, after, found := strings.Cut(text, term)
		if last, _ := utf8.DecodeLastRuneInString(before); !found || !unicode.IsLetter(last) {
			return found
		}
		text = after
	}
}
