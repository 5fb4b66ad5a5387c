// Package safety holds what can hurt: the cautions that stand at each stage of
// the route, where the hand is. Its sentences stand in text/en.
//
// They are the usual cautions of the trade in plain words. They defer to local
// codes, the supplier's safety data sheet and licensed practice, and promise
// nothing.
package safety

import (
	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
)

// Caution is one warning: a lead that says what to do, and why.
type Caution struct {
	Stage route.Stage
	Lead  string
	Text  string
}

// Deference says that local codes, data sheets and licensed practice come before the program.
// It stands once on the page and once on paper.
func Deference() string { return shared.At("deference", nil).One("text") }

var cautions = phrase.Open(&files, "cautions", "lead", "text")

// Cautions are those of a stage in this plan, the most harmful first.
func Cautions(stage route.Stage, p *route.Plan) []Caution {
	var list []Caution
	for _, c := range cautions.Of(teller(p, nil), stage.Word()+".") {
		list = append(list, Caution{stage, c.One("lead"), c.One("text")})
	}
	return list
}
