package route

import (
	"math/bits"
	"slices"
	"sync"

	"rosesalt/chem/cell"
)

// FigureID is the place of a figure on the sheet. Figures of a stage stand together,
// in the order of the page; stages stand in bench order.
type FigureID int

// figureCount is how many figures a sheet holds.
const figureCount = endOfWaste

// Figure declares one figure of the sheet. Its row stands in the file of its stage, or
// of the reductant that it belongs to.
type Figure struct {
	ID    FigureID
	Key   string
	Unit  string
	Name  string
	Stage Stage // set by the list that it stands in
	Main  bool  // it answers the question of its stage; others are for those who want to know more
	Of    Condition
	// For is the key of the input that the figure stands in for while that is blank; what
	// is Poured is then measured out at the bench as it is printed.
	For    string
	Poured bool
	// Formula is how the figure follows from other figures, from quantities, inputs,
	// constants and molar masses; empty where the stage sets it. The first of the Variants
	// whose condition is met takes its place. Else is why there is no value where the
	// formula gives none, since it divides by nothing, or where the stage sets none.
	Formula  string
	Variants []Variant
	Else     Reason
	Words    []string // for a figure that is a word: the words that its number picks
}

// Variant is the formula of a figure in plans that meet a condition.
type Variant struct {
	When    Condition
	Formula string
}

// figureLists are the rows of all figures but those of the ways to reduce, a list for each
// stage, with what a plan must have for all of a list to have a meaning.
var figureLists = [...]struct {
	stage Stage
	of    Condition
	rows  []Figure
}{
	{Cells, 0, cellsFigures},
	{Wash, 0, washFigures},
	{Batch, 0, batchFigures},
	{Gas, byGas, gasFigures},
	{Slurry, 0, slurryFigures},
	{Slurry, 0, stirFigures},
	{Filter, 0, filterFigures},
	{Dry, 0, dryFigures},
	{CopperSalt, leavesCopperSalt, copperFigures},
	{Waste, 0, wasteFigures},
	{Waste, 0, roomFigures},
}

// figures by their ids.
var figures = buildFigures()

// buildFigures puts the figures of all stages and ways in order.
func buildFigures() (all [figureCount]Figure) {
	for _, list := range figureLists {
		for _, f := range list.rows {
			f.Stage, f.Of = list.stage, f.Of|list.of
			all[f.ID] = f
		}
	}
	for i, way := range reductants {
		for _, f := range way.figures {
			f.Stage, f.Of = way.stage(), ofWay<<i
			if way.stir == nil {
				f.Of |= byGas
			}
			all[f.ID] = f
		}
		for id, formula := range way.forms {
			all[id].Variants = append(all[id].Variants, Variant{ofWay << i, formula})
		}
	}
	return all
}

// Figures describes all figures; a FigureID is a place in it. The caller must
// not change it.
func Figures() []Figure { return figures[:] }

// FiguresOf are the figures of a stage, in the order of the page. The caller must not
// change them.
func FiguresOf(stage Stage) []Figure {
	from := slices.IndexFunc(figures[:], func(f Figure) bool { return f.Stage >= stage })
	upto := slices.IndexFunc(figures[:], func(f Figure) bool { return f.Stage > stage })
	if upto < 0 {
		upto = len(figures)
	}
	return figures[from:upto]
}

// FigureByKey finds a figure by its key.
func FigureByKey(key string) (FigureID, bool) {
	id, ok := figureIndex()[key]
	return id, ok
}

var figureIndex = sync.OnceValue(func() map[string]FigureID {
	index := make(map[string]FigureID, len(figures))
	for i := range figures {
		index[figures[i].Key] = FigureID(i)
	}
	return index
})

// figureFor finds the figure that stands in for an input.
func figureFor(key string) (FigureID, bool) {
	for i := range figures {
		if figures[i].For == key {
			return FigureID(i), true
		}
	}
	return 0, false
}

// Info describes the figure.
func (id FigureID) Info() *Figure { return &figures[id] }

// Reason says why a figure has no value.
type Reason uint8

// The reasons. Defined is the reason of a figure that has a value.
const (
	Defined Reason = iota
	NotReached
	NoCopper
	NoMetabisulfite
	NothingDrains
	NoWashWater
	NeverEnough
	NoGas
	NoGasNeeded
	NotMet
	DriedNotGrown
	NoProduct
	TooConcentrated
	TooAcid
	NoWater
	NoCells
	AllHeld
	NothingVents
	StirredIn
	OtherReductant
	NoSulfurDioxide
	NoPotash
	NoPairs
	KeptWarm
	EndGiven
	IronLeftIn
)

var reasons = [...]string{
	Defined:         "",
	NotReached:      "an earlier step could not be booked",
	NoCopper:        "no copper goes into this way of making the gas",
	NoMetabisulfite: "no metabisulfite goes into this way of making the gas",
	NothingDrains:   "nothing drains: the mix holds all the water it was given",
	NoWashWater:     "the washes have no water",
	NeverEnough:     "not within 50 washes of this size",
	NoGas:           "no gas is made",
	NoGasNeeded:     "nothing needs gas",
	NotMet:          "this charge does not make enough gas to meet the demand",
	DriedNotGrown:   "the liquor is dried down, not crystallised",
	NoProduct:       "there is no product",
	TooConcentrated: "too strong for the density table, which ends at 36 %",
	TooAcid:         "above 50 % of acid in the liquor the blue pentahydrate no longer forms; add water",
	NoWater:         "there is no liquor",
	NoCells:         "no cell is opened",
	AllHeld:         "this acid's own water would hold all the gas: take stronger acid, or warm the flask",
	NothingVents:    "no gas passes by",
	StirredIn:       "no gas is led in: the reductant is stirred into the slurry",
	OtherReductant:  "another reductant does the work in this plan",
	NoSulfurDioxide: "no sulfur dioxide comes into this plan",
	NoPotash:        "no alkaline cells are opened",
	KeptWarm:        "this slurry is kept warm, not cooled",
	NoPairs:         "there is nothing to reduce",
	EndGiven:        "the strength at the end, or the steam, is given",
	IronLeftIn:      "the iron is left in solution",
}

// String is the reason in words, empty for Defined.
func (r Reason) String() string { return reasons[r] }

// Condition says what a plan must have, or must be, for a figure to have a meaning. The
// bits add up: all must be met.
type Condition uint32

// The conditions; where several are not met, the first gives the reason.
const (
	hasCells         Condition = 1 << iota // a cell is opened
	hasLye                                 // of an alkaline cell
	bySulfurDioxide                        // led in or set free in the slurry
	byGas                                  // led in from a generator
	byStirring                             // something is stirred into the slurry
	leavesCopperSalt                       // in the generator
	isCooled                               // the slurry
	isCrystallised                         // the product
	isIronThrown                           // down, before the slurry is filtered
	inBatches                              // the run is worked in more than one
	ofWay                                  // the first way of gas.source; shifted by its place, each other
)

// unmet are the reasons of the conditions, in their order.
var unmet = [...]Reason{
	NoCells, NoPotash, NoSulfurDioxide, StirredIn, OtherReductant, NoCopper, KeptWarm, DriedNotGrown, IronLeftIn,
}

// why is the reason where a plan does not meet the first of some conditions.
func (c Condition) why() Reason {
	first := bits.TrailingZeros32(uint32(c))
	if way := first - bits.TrailingZeros32(uint32(ofWay)); way >= 0 {
		return reductants[way].lacking()
	}
	return unmet[first]
}

// OtherWay tells whether a figure has no value only because the plan goes another way.
func (r Reason) OtherWay() bool {
	return slices.Contains(unmet[1:], r) || slices.ContainsFunc(reductants, func(way *reductant) bool { return way.lacking() == r })
}

// conditionsOf are those that a plan meets.
func conditionsOf(p *Plan) Condition {
	c := ofWay << p.GasSource
	for i := range p.Rows {
		if row := &p.Rows[i]; row.present() && row.opened() > 0 {
			c |= hasCells
			if kind := &cell.Kinds()[row.Kind]; kind.Caustic && orElse(p.MixPotash, kind.Composition().Potash) > 0 {
				c |= hasLye
			}
		}
	}
	if Sulfurous(p) {
		c |= bySulfurDioxide
	}
	if Gaseous(p) {
		c |= byGas
	} else {
		c |= byStirring
	}
	if MakesCopperSalt(p) {
		c |= leavesCopperSalt
	}
	if !WorksWarm(p) && p.SlurryTemperature <= coolAt {
		c |= isCooled
	}
	if p.DryWay == ToCrystals {
		c |= isCrystallised
	}
	if ThrowsIronDown(p) {
		c |= isIronThrown
	}
	if BatchCount(p) > 1 {
		c |= inBatches
	}
	return c
}
