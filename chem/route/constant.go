package route

import (
	"slices"

	"rosesalt/chem/reaction"
)

// Constant is a fixed number that figures are computed with, and what it rests on.
// The number itself stands where it is used, and its row beside it.
type Constant struct {
	Key    string // as in formulas
	Value  float64
	Unit   string
	Name   string
	Source string // a publication, or "common practice", "from memory", "estimate"
}

// Constants are all constants that have a row, in no order.
func Constants() []Constant {
	list := slices.Concat(
		liquorConstants, acidConstants, silverConstants, washConstants, slurryConstants, splitConstants, iceConstants, solidConstants,
		vesselConstants, filterConstants, ironConstants, cropConstants, hydrateConstants,
		uptakeConstants, steamConstants, copperConstants, wasteConstants, roomConstants,
	)
	for _, way := range reductants {
		list = append(list, way.constants...)
	}
	return list
}

// Insolubles are the solids that make up a cake. The caller must not change them.
func Insolubles() []reaction.Substance { return insoluble[:] }

// Oxides are those of manganese that the slurry may hold. The caller must not change them.
func Oxides() []reaction.Substance { return oxides[:] }

// Solubles are the substances that go where the liquor goes. The caller must not
// change them.
func Solubles() []reaction.Substance { return soluble[:] }
