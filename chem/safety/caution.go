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
