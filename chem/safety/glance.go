package safety

import (
	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
)

var glance = phrase.Open(&files, "glance", "stop")

// Harms are what can hurt most in a plan, the most harmful first.
func Harms(p *route.Plan, s *route.Sheet) []string {
	return glance.At("harm", teller(p, s)).All("stop")
}
