package route

import (
	"rosesalt/chem/figure"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
)

// Sheet holds the figures of one plan: those that the stages set as numbers, the others
// as formulas that are worked out when they are asked for.
type Sheet struct {
	numbers [Numbers]float64
	reasons [figureCount]Reason
	met     Condition
	derived *derivations
}

// meaningless are the figures that have no meaning in plans that meet some conditions and
// no others.
type meaningless struct {
	met  Condition
	list []lacking
}

type lacking struct {
	id  FigureID
	why Reason
}

// find lists them anew where the plan before met others.
func (m *meaningless) find(met Condition) []lacking {
	if m.met == met && m.list != nil {
		return m.list
	}
	m.met, m.list = met, m.list[:0]
	for i := range figures {
		if short := figures[i].Of &^ met; short != 0 {
			m.list = append(m.list, lacking{FigureID(i), short.why()})
		}
	}
	return m.list
}

// reset empties the sheet.
func (s *Sheet) reset(p *Plan) {
	s.met, s.derived = conditionsOf(p), derived()
	s.numbers, s.reasons = s.derived.numbers, s.derived.reasons
	s.numbers[ConditionsPlace] = float64(s.met)
	for k, in := range s.derived.inputs {
		s.numbers[firstInput+k] = in.Value(p)
	}
}

// read takes the amounts that formulas name as they stand after a stage.
func (s *Sheet) read(stage Stage, book *ledger.Book) {
	for _, a := range s.derived.amounts[stage] {
		s.numbers[a.place] = float64(book.Amount(a.vessel, a.substance))
	}
}

func (s *Sheet) set(id FigureID, v float64) {
	s.numbers[id], s.reasons[id] = v, Defined
}

// undefined is for a reason that the figure's row does not say.
func (s *Sheet) undefined(id FigureID, why Reason) {
	s.numbers[id], s.reasons[id] = quantity.Blank, why
}

// program is that of a figure which follows from others; nil for one that was set, or
// has no meaning.
func (s *Sheet) program(id FigureID) *figure.Program {
	if s.reasons[id] != NotReached {
		return nil
	}
	return s.Program(id)
}

// Value is the figure in its unit; not a number where it is not defined. For a
// word it is the place of the word.
func (s *Sheet) Value(id FigureID) float64 {
	if p := s.program(id); p != nil {
		return p.Run(s.numbers[:])
	}
	return s.numbers[id]
}

// Amount is the figure in its unit; 0 where it is not defined.
func (s *Sheet) Amount(id FigureID) float64 {
	if s.Reason(id) != Defined {
		return 0
	}
	return s.Value(id)
}

// Reason is why the figure has no value, or Defined.
func (s *Sheet) Reason(id FigureID) Reason {
	p := s.program(id)
	if p == nil {
		return s.reasons[id]
	}
	why := Defined
	p.Places(func(place int) {
		if why == Defined && place < int(figureCount) {
			why = s.reasons[place]
		}
	})
	if why == Defined && !quantity.Given(s.Value(id)) {
		why = max(figures[id].Else, NotReached)
	}
	return why
}

// Word is the word that a figure of words picks; empty where not defined.
func (s *Sheet) Word(id FigureID) string {
	if s.reasons[id] != Defined {
		return ""
	}
	return figures[id].Words[int(s.numbers[id])]
}

// Formula is the formula of a figure in plans such as the sheet's; empty where the
// stages set it.
func (s *Sheet) Formula(id FigureID) string {
	for _, f := range formsOf(&figures[id]) {
		if f.When&^s.met == 0 {
			return f.Formula
		}
	}
	return ""
}

// Numbers is how many numbers a sheet holds from which all of its figures follow.
const Numbers = firstAmount + mostAmounts

// Number is one of the numbers from which the figures follow; those of the stages' figures
// stand at their ids.
func (s *Sheet) Number(place int) float64 { return s.numbers[place] }

// NumberPlaces lists those of the numbers that a sheet holds: there are fewer than room for.
// The caller must not change it.
func NumberPlaces() []int { return derived().held }

// Program is how a figure follows, in plans that reduce, batch and finish as the sheet's,
// from numbers at their places; nil where the stages set it.
func (s *Sheet) Program(id FigureID) *figure.Program {
	for _, f := range s.derived.forms[id] {
		if f.when&^s.met == 0 {
			return f.program
		}
	}
	return nil
}

// ConditionsPlace is the place of the number that says which conditions a plan meets.
const ConditionsPlace = firstQuantity + int(conditionsMet)

// HasMeaning tells whether a figure has a meaning in plans that meet the conditions of a number
// (see ConditionsPlace); with 0, whether it has one in all plans.
func HasMeaning(id FigureID, met float64) bool { return figures[id].Of&^Condition(met) == 0 }
