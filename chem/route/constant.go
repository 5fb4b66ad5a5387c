package route

import "rosesalt/chem/reaction"

// Constant is a fixed number that the stages compute with, and what it rests on.
// The number itself stands where it is used.
type Constant struct {
	Key    string // as in the formulas of package working
	Value  float64
	Unit   string
	Name   string
	Source string // a publication, or "common practice", "from memory", "estimate"
}

var constants []Constant

// constant names a number for those who show how a figure comes about.
func constant(key string, value float64, unit, name, source string) struct{} {
	constants = append(constants, Constant{key, value, unit, name, source})
	return struct{}{}
}

// Constants are all that are named, in no order. The caller must not change them.
func Constants() []Constant { return constants }

// Insolubles are the solids that make up a cake. The caller must not change them.
func Insolubles() []reaction.Substance { return insoluble[:] }

// Solubles are the substances that go where the liquor goes. The caller must not
// change them.
func Solubles() []reaction.Substance { return soluble[:] }
