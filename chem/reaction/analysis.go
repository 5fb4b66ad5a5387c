package reaction

import (
	"fmt"
	"strconv"
	"strings"

	"rosesalt/chem/formula"
)

// Analysis is a balanced equation between any formulas, ions among them, for what
// happens in a titration flask. Its substances need not be on the ledger.
// ParseAnalysis makes one.
type Analysis struct {
	text  string
	terms []analysisTerm
}

type analysisTerm struct {
	formula     formula.Formula
	coefficient int // negative for what is used up
}

// ParseAnalysis reads an equation such as
// "5 C2O4^2- + 2 MnO4^- + 16 H^+ -> 2 Mn^2+ + 10 CO2 + 8 H2O" and checks it. It
// fails when a side is missing, a formula cannot be read or stands twice, or when
// atoms or charge do not balance.
func ParseAnalysis(text string) (Analysis, error) {
	left, right, ok := strings.Cut(text, "->")
	if !ok {
		return Analysis{}, fmt.Errorf("reaction: no arrow in %q", text)
	}
	a := Analysis{text: text}
	seen := map[string]bool{}
	for _, side := range []struct {
		text string
		sign int
	}{{left, -1}, {right, 1}} {
		for _, word := range strings.Split(side.text, " + ") {
			n, written := 1, strings.TrimSpace(word)
			if number, rest, two := strings.Cut(written, " "); two {
				count, err := strconv.Atoi(number)
				if err != nil || count < 1 {
					return Analysis{}, fmt.Errorf("reaction: coefficient %q is not a whole number above 0 in %q", number, text)
				}
				n, written = count, rest
			}
			f, err := formula.Parse(written)
			if err != nil {
				return Analysis{}, fmt.Errorf("reaction: %w in %q", err, text)
			}
			if seen[f.String()] {
				return Analysis{}, fmt.Errorf("reaction: %v stands twice in %q", f, text)
			}
			seen[f.String()] = true
			a.terms = append(a.terms, analysisTerm{f, side.sign * n})
		}
	}
	return a, a.check()
}

func (a Analysis) check() error {
	atoms, charge := map[string]int{}, 0
	for _, t := range a.terms {
		charge += t.coefficient * t.formula.Charge()
		for _, c := range t.formula.Elements() {
			atoms[c.Symbol] += t.coefficient * c.N
		}
	}
	for symbol, n := range atoms {
		if n != 0 {
			return fmt.Errorf("reaction: %s does not balance in %q: %+d", symbol, a.text, n)
		}
	}
	if charge != 0 {
		return fmt.Errorf("reaction: charge does not balance in %q: %+d", a.text, charge)
	}
	return nil
}

// String is the equation as it was written.
func (a Analysis) String() string { return a.text }

// Per is how many moles of one formula go with one mole of another, as written in
// the equation, whichever side they stand on. A formula that takes no part is a
// programmer's error and panics.
func (a Analysis) Per(of, other string) float64 {
	return float64(a.count(of)) / float64(a.count(other))
}

func (a Analysis) count(written string) int {
	for _, t := range a.terms {
		if t.formula.String() == written {
			return max(t.coefficient, -t.coefficient)
		}
	}
	panic(fmt.Sprintf("reaction: %s takes no part in %q", written, a.text))
}

var analyses []*Analysis

func analysis(text string) *Analysis {
	a, err := ParseAnalysis(text)
	if err != nil {
		panic(err)
	}
	analyses = append(analyses, &a)
	return &a
}

// Analyses are the titration equations of the package, in the order written.
func Analyses() []*Analysis { return append([]*Analysis(nil), analyses...) }

// Available oxygen of the black mix by oxalic acid. Talbot H. P., An Introductory
// Course of Quantitative Chemical Analysis (pyrolusite, by oxalic acid). The oxide
// of manganese(III) takes half as much a manganese.
var (
	OxalateDioxide   = analysis("MnO2 + H2C2O4 + H2SO4 -> MnSO4 + 2 CO2 + 2 H2O")
	OxalateManganite = analysis("2 MnOOH + H2C2O4 + 2 H2SO4 -> 2 MnSO4 + 2 CO2 + 4 H2O")
)

// Permanganate in hot acid on what is left of the oxalate, or of iron(II).
var (
	PermanganateOxalate = analysis("5 C2O4^2- + 2 MnO4^- + 16 H^+ -> 2 Mn^2+ + 10 CO2 + 8 H2O")
	PermanganateIron    = analysis("5 Fe^2+ + MnO4^- + 8 H^+ -> 5 Fe^3+ + Mn^2+ + 4 H2O")
	IronDioxide         = analysis("MnO2 + 2 Fe^2+ + 4 H^+ -> Mn^2+ + 2 Fe^3+ + 2 H2O")
)

// PermanganateManganese is Volhard's: permanganate on manganese(II) in near-neutral
// liquor with zinc oxide. In acid it does not hold.
var PermanganateManganese = analysis("3 Mn^2+ + 2 MnO4^- + 2 H2O -> 5 MnO2 + 4 H^+")

// Edetate takes manganese and zinc alike, one to one.
var (
	EdetateManganese = analysis("Mn^2+ + C10H14N2O8^2- -> C10H12MnN2O8^2- + 2 H^+")
	EdetateZinc      = analysis("Zn^2+ + C10H14N2O8^2- -> C10H12ZnN2O8^2- + 2 H^+")
)

// Ignition drives the water out of manganese sulfate.
var Ignition = analysis("MnSO4·H2O -> MnSO4 + H2O")
