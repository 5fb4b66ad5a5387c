package safety

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"rosesalt/chem/phrase"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// Code is the code of a hazard or precautionary statement, such as H318, P280 or EUH031.
type Code string

// Signal is the signal word of a label; empty where none is due.
type Signal string

// The signal words. Danger takes the place of Warning.
const (
	NoSignal Signal = ""
	Warning  Signal = "Warning"
	Danger   Signal = "Danger"
)

// Pictogram is the code of a hazard pictogram; empty where none is due.
type Pictogram string

// The pictograms that this route needs.
const (
	NoPictogram Pictogram = ""
	Corrosion   Pictogram = "GHS05"
	Exclamation Pictogram = "GHS07"
	Health      Pictogram = "GHS08"
	Environment Pictogram = "GHS09"
)

// Statement is a statement with its words.
type Statement struct {
	Code  Code
	Words string
}

// hazard is a statement with what it puts on a label.
type hazard struct {
	Statement
	signal    Signal
	pictogram Pictogram
	gives     []Code // weaker statements that it makes needless
	care      []Code // precautionary statements
}

var (
	hazardTable = phrase.Open(&files, "hazards", "words", "signal", "pictogram", "gives", "care")
	classTable  = phrase.Open(&files, "classes", "statements", "from", "standing", "source")
)

// statementsOf are all statements whose codes begin so, in the order in which a label shows them;
// of precautions the most needed first.
func statementsOf(prefixes ...string) (list []hazard) {
	for _, prefix := range prefixes {
		for _, h := range hazardTable.Of(nil, prefix) {
			list = append(list, hazard{
				Statement{Code(h.Key), h.One("words")}, Signal(h.One("signal")), Pictogram(h.One("pictogram")), codesOf(h.One("gives")), codesOf(h.One("care")),
			})
		}
	}
	return list
}

var (
	hazards     = sync.OnceValue(func() []hazard { return statementsOf("H", "EUH") })
	precautions = sync.OnceValue(func() []hazard { return statementsOf("P") })
)

// codesOf are the codes in a list: "H290, H314".
func codesOf(text string) (list []Code) {
	for code := range strings.FieldsFuncSeq(text, func(c rune) bool { return c == ',' || c == ' ' }) {
		list = append(list, Code(code))
	}
	return list
}

// mostPrecautions is how many stand on a label (CLP, article 28(3): not more than six
// unless the hazard asks for them).
const mostPrecautions = 6

func hazardOf(c Code) *hazard {
	for i := range hazards() {
		if h := &hazards()[i]; h.Code == c {
			return h
		}
	}
	panic("safety: no hazard statement " + string(c))
}

// OnLabel puts codes in the order of a label, each once, and leaves out those that a
// graver one makes needless (CLP, article 27 and annex III, part 1).
func OnLabel(codes []Code) []Code {
	var list []Code
	for _, h := range hazards() {
		c := h.Code
		if slices.Contains(codes, c) && !slices.ContainsFunc(codes, func(g Code) bool { return slices.Contains(hazardOf(g).gives, c) }) {
			list = append(list, c)
		}
	}
	return list
}

// SignalOf is the signal word of codes.
func SignalOf(codes []Code) Signal {
	word := NoSignal
	for _, c := range codes {
		switch s := hazardOf(c).signal; {
		case s == Danger:
			return Danger
		case s == Warning:
			word = Warning
		}
	}
	return word
}

// PictogramsOf are the pictograms of codes. Where corrosion stands for skin or eyes, the
// exclamation mark does not stand for their irritation (CLP, article 26(1)(c)). Where it
// stands for metals alone the mark is kept: the stricter reading.
func PictogramsOf(codes []Code) []Pictogram {
	burns := slices.Contains(codes, "H314") || slices.Contains(codes, "H318")
	var list []Pictogram
	for _, p := range [...]Pictogram{Corrosion, Exclamation, Health, Environment} {
		if slices.ContainsFunc(codes, func(c Code) bool {
			return hazardOf(c).pictogram == p && !(burns && (c == "H315" || c == "H319"))
		}) {
			list = append(list, p)
		}
	}
	return list
}

// precautionsOf are a few precautionary statements for codes, in the order of their codes.
func precautionsOf(codes []Code) []Statement {
	if len(codes) == 0 {
		return nil
	}
	all := precautions()
	last := len(all) - 1 // what to do with the rest stands on every label with a hazard
	var list []Statement
	for _, p := range all[:last] {
		if len(list) < mostPrecautions-1 && slices.ContainsFunc(codes, func(c Code) bool { return slices.Contains(hazardOf(c).care, p.Code) }) {
			list = append(list, p.Statement)
		}
	}
	slices.SortFunc(list, func(a, b Statement) int { return cmp.Compare(a.Code, b.Code) })
	return append(list, all[last].Statement)
}

// Class is how a pure substance is classified, and from where.
type Class struct {
	Substance reaction.Substance
	Codes     []Code
	Source    string
	Standing  string           // "published", "from memory" or "estimate", as in testdata/published
	from      map[Code]float64 // the mass percent from which a mixture bears a statement, where it has a limit of its own
}

// limit is the mass percent from which a mixture bears a statement: the substance's own, or else
// the general one.
func (c *Class) limit(of Code, general float64) float64 {
	if own, ok := c.from[of]; ok {
		return own
	}
	return general
}

var classes = sync.OnceValue(func() (list []Class) {
	for _, told := range classTable.Of(nil, "") {
		c := Class{route.SubstanceNamed(told.Key), codesOf(told.One("statements")), told.One("source"), told.One("standing"), map[Code]float64{}}
		for _, l := range told.Lines {
			if l.Name == "from" {
				percent, err := strconv.ParseFloat(l.Text, 64)
				if err != nil {
					panic("safety: " + told.Key + ": " + err.Error())
				}
				c.from[Code(l.About)] = percent
			}
		}
		list = append(list, c)
	}
	return list
})

// Classes tells how each substance is classified. The caller must not change it.
func Classes() []Class { return classes() }

func classOf(s reaction.Substance) *Class {
	for i := range classes() {
		if c := &classes()[i]; c.Substance == s {
			return c
		}
	}
	return nil
}

// Words are the hazard statements of a pure substance in a sentence, as printed on labels,
// with their codes; empty where it bears none.
func Words(s reaction.Substance) string {
	c := classOf(s)
	if c == nil {
		return ""
	}
	return sentence(statements(c.Codes...))
}
