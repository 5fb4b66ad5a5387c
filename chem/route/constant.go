package route

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
