package procedure

import (
	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
)

// Spot is a test of the filtrate in drops: how it is made, what it shows, what misleads, and
// what to do then; each a sentence or some.
type Spot struct{ Name, Do, Shows, Misled, Then string }

var spots = phrase.Open(&files, "spots", "name", "do", "shows", "misled", "then")

// Spots are the tests of a plan's filtrate before it is boiled down.
func Spots(p *route.Plan) []Spot {
	var list []Spot
	for _, b := range spots.Of(&route.Teller{Plan: p}, "") {
		list = append(list, Spot{b.One("name"), b.One("do"), b.One("shows"), b.One("misled"), b.One("then")})
	}
	return list
}
