package route

import "rosesalt/chem/quantity"

// FigureID is the place of a figure on the sheet.
type FigureID int

// Figure describes one figure of the sheet.
type Figure struct {
	Key   string
	Unit  string
	Name  string
	Stage Stage
	Words []string // for a figure that is a word: the words that its number picks
}

// maxFigures bounds the sheet, so that a sheet is one flat piece of memory.
const maxFigures = 192

var figures []Figure

func figure(stage Stage, key, unit, name string) FigureID {
	if len(figures) == maxFigures {
		panic("route: more figures than the sheet has room for")
	}
	figures = append(figures, Figure{Key: key, Unit: unit, Name: name, Stage: stage})
	return FigureID(len(figures) - 1)
}

func wordFigure(stage Stage, key, name string, words ...string) FigureID {
	id := figure(stage, key, "", name)
	figures[id].Words = words
	return id
}

// Figures describes all figures; a FigureID is a place in it. The caller must
// not change it.
func Figures() []Figure { return figures }

// FigureByKey finds a figure by its key.
func FigureByKey(key string) (FigureID, bool) {
	for i := range figures {
		if figures[i].Key == key {
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
	NothingDissolved
	TooConcentrated
	NoSolubility
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
)

var reasons = [...]string{
	Defined:          "",
	NotReached:       "an earlier step could not be booked",
	NoCopper:         "no copper goes into this way of making the gas",
	NoMetabisulfite:  "no metabisulfite goes into this way of making the gas",
	NothingDrains:    "nothing drains: the mix holds all the water it was given",
	NoWashWater:      "the washes have no water",
	NeverEnough:      "not within 50 washes of this size",
	NoGas:            "no gas is made",
	NoGasNeeded:      "nothing needs gas",
	NotMet:           "this charge does not make enough gas to meet the demand",
	DriedNotGrown:    "the liquor is dried down, not crystallised",
	NoProduct:        "there is no product",
	NothingDissolved: "no copper dissolved",
	TooConcentrated:  "too strong for the density table, which ends at 36 %",
	NoSolubility:     "outside the solubility table",
	TooAcid:          "above 50 % of acid in the liquor the blue pentahydrate no longer forms; add water",
	NoWater:          "there is no liquor",
	NoCells:          "no cell is opened",
	AllHeld:          "this acid's own water would hold all the gas: take stronger acid, or warm the flask",
	NothingVents:     "no gas passes by",
	StirredIn:        "no gas is led in: the reductant is stirred into the slurry",
	OtherReductant:   "another reductant does the work in this plan",
	NoSulfurDioxide:  "no sulfur dioxide comes into this plan",
	NoPotash:         "no alkaline cells are opened",
	KeptWarm:         "this slurry is kept warm, not cooled",
	NoPairs:          "there is nothing to reduce",
}

// String is the reason in words, empty for Defined.
func (r Reason) String() string { return reasons[r] }

// Sheet holds the figures of one plan.
type Sheet struct {
	values  [maxFigures]float64
	reasons [maxFigures]Reason
}

func (s *Sheet) reset() {
	for i := range figures {
		s.values[i], s.reasons[i] = quantity.Blank, NotReached
	}
}

func (s *Sheet) set(id FigureID, v float64) {
	s.values[id], s.reasons[id] = v, Defined
}

func (s *Sheet) undefined(r Reason, ids ...FigureID) {
	for _, id := range ids {
		s.values[id], s.reasons[id] = quantity.Blank, r
	}
}

// Value is the figure in its unit; not a number where it is not defined. For a
// word it is the place of the word.
func (s *Sheet) Value(id FigureID) float64 { return s.values[id] }

// Reason is why the figure has no value, or Defined.
func (s *Sheet) Reason(id FigureID) Reason { return s.reasons[id] }

// Word is the word that a figure of words picks; empty where not defined.
func (s *Sheet) Word(id FigureID) string {
	if s.reasons[id] != Defined {
		return ""
	}
	return figures[id].Words[int(s.values[id])]
}
