package safety

import "rosesalt/chem/route"

// Meetings are all of the table, the gravest first.
func Meetings() []Meeting { return meetings() }

// Things are all things of the table, in the order of their file.
func Things() (list []Thing) {
	for _, b := range things.Blocks() {
		list = append(list, Thing(b.Key))
	}
	return list
}

// Warn is a sentence: what a thing never meets, and what would come of it.
func Warn(t Thing, with ...Thing) string { return warn(t, with, false) }

// NoBleach says what chlorine bleach would make of what a plan has.
func NoBleach(p *route.Plan) string { return sentenceOf("no bleach", p) }
