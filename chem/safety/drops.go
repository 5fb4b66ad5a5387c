package safety

import (
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
)

// Drop is a reagent of a test, used in drops, which no ledger counts.
type Drop struct {
	Name  string
	Stage route.Stage // of its test
	Words string      // its hazards, in sentences
}

var drops = phrase.Open(&files, "drops", "name", "words")

// Drops are the reagents of a plan's tests, in the order of the bench.
func Drops(p *route.Plan) []Drop {
	var list []Drop
	for stage := range route.Stage(route.Stages) {
		for _, d := range drops.Of(teller(p, nil), stage.Word()+".") {
			list = append(list, Drop{d.One("name"), stage, d.One("words")})
		}
	}
	return list
}

func statements(codes ...Code) []Statement {
	var list []Statement
	for _, c := range OnLabel(codes) {
		list = append(list, hazardOf(c).Statement)
	}
	return list
}

// sentence is statements in a row, with their codes.
func sentence(list []Statement) string {
	var words []string
	for _, s := range list {
		words = append(words, strings.TrimSuffix(s.Words, ".")+" ("+string(s.Code)+")")
	}
	return strings.Join(words, "; ") + "."
}
