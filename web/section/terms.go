package section

import (
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/safety"
	"rosesalt/web/doc"
)

// withTerms is a section with the words of the trade that it uses explained at its end.
func withTerms(made doc.Section) doc.Section {
	used := safety.TermsIn(made.Words())
	if len(used) == 0 {
		return made
	}
	terms, names := doc.Terms{Class: "advised"}, make([]string, len(used))
	for i, t := range used {
		names[i] = t.Word
		terms.List = append(terms.List, doc.Term{Name: phrase.Capital(t.Word), Says: t.Says})
	}
	made.Of = append(made.Of, doc.Fold{Class: "terms", Title: "In plain words: " + strings.Join(names, ", "), Of: doc.Nodes{terms}, Late: true})
	return made
}
