package safety

import (
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Advice is what to ask for before something is bought.
type Advice struct {
	Of   string
	Text string
}

// precursors say how strong a solution the public may have in the European Union: up to free
// without a licence, up to licensed with one, and no stronger.
//
// Regulation (EU) 2019/1148, annex I, columns 2 and 3, by mass. The first column as the
// Belgian Federal Public Service Economy prints it (2022); both as a Dutch supplier
// prints them (2021). The annex itself was not at hand.
var precursors = [...]struct {
	name           string
	free, licensed quantity.Percent
	strength       func(*route.Plan) quantity.Percent // that the plan counts
}{
	{"sulfuric acid", 15, 40, func(p *route.Plan) quantity.Percent { return p.GasStrength }},
	{"peroxide", 12, 35, func(p *route.Plan) quantity.Percent { return p.PeroxideStrength }},
	{"nitric acid", 3, 10, func(*route.Plan) quantity.Percent { return 3 }}, // diluted to what is free
}

var advices = phrase.Open(&files, "buying", "of", "text")

// strengths gives texts the places "peroxide free" and "peroxide licensed", the limits, and
// "peroxide above free" and "peroxide above licensed", by how much the plan's strength passes
// them; and the same of the acids.
func strengths(t *route.Teller, name string) (route.PlaceValue, bool) {
	for _, c := range precursors {
		of, ok := strings.CutPrefix(name, c.name+" ")
		if !ok {
			continue
		}
		limit := c.free
		if strings.HasSuffix(of, "licensed") {
			limit = c.licensed
		}
		if strings.HasPrefix(of, "above ") {
			limit = c.strength(t.Plan) - limit
		}
		return route.PlaceValue{Number: float64(limit), Unit: "%"}, true
	}
	return route.PlaceValue{}, false
}

// Buying is what to ask for, and what to leave on the shelf, for a plan.
func Buying(p *route.Plan, s *route.Sheet) []Advice {
	var list []Advice
	for _, a := range advices.Of(&route.Teller{Plan: p, Sheet: s, Own: strengths}, "") {
		list = append(list, Advice{a.One("of"), a.One("text")})
	}
	return list
}
