package safety

import (
	"embed"
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
)

//go:embed text/*/*.txt
var files embed.FS

// shared are the sentences that stand alone, or in several places.
var shared = phrase.Open(&files, "shared", "text")

// Place is what stands at the places that this package gives to all texts; not ok for other
// names. Things are named as in their table.
//
//	wash liquor never with lime, ammonia     what comes of it
//	in short: wash liquor never with lime    the same in the fewest words
//	wash liquor with lime                    what comes of it, without what that does
//	statements H290, H314                    statements of hazards, in sentences
//
// The key of a sentence in the file shared stands for the sentence, as does ${no bleach} in the
// last step at the bench.
func Place(t *route.Teller, name string) (said route.PlaceValue, ok bool) {
	words := func(s string) (route.PlaceValue, bool) { return route.Words(s), true }
	if codes, ok := strings.CutPrefix(name, "statements "); ok {
		return words(sentence(statements(codesOf(codes)...)))
	}
	short, in := strings.CutPrefix(name, "in short: ")
	if one, others, ok := strings.Cut(short, " never with "); ok {
		return words(warn(thing(one), thingsOf(others), in))
	}
	if one, other, ok := strings.Cut(name, " with "); ok {
		m, _ := Meet(thing(one), thing(other))
		return words(m.gas())
	}
	return t.From(shared, name)
}

// thing is the thing of that name; one that is not there panics.
func thing(name string) Thing { return thingsOf(name)[0] }

// teller tells texts of a plan, at places of this package too. A sheet may be left out where no
// text names a figure.
func teller(p *route.Plan, s *route.Sheet) *route.Teller {
	return &route.Teller{Plan: p, Sheet: s, Own: Place}
}

// sentenceOf is a sentence of the file shared, as it reads in a plan.
func sentenceOf(key string, p *route.Plan) string { return shared.At(key, teller(p, nil)).One("text") }

// MainCaution is the caution of a plan that stays in view.
func MainCaution(p *route.Plan) string { return sentenceOf("main caution", p) }
