package route

import (
	"strings"

	"rosesalt/chem/figure"
	"rosesalt/chem/table"
)

// heat is what a reaction gives off, what goes in less what comes out: as a formula, in which
// h.SO2 is the heat of formation of SO2, and in kJ to a mole.
type heat struct {
	text string
	kJ   float64
}

func heatOf(text string) heat {
	return heat{text, figure.Parse(text).Eval(func(name string) float64 { return formationHeat(FormedNamed(name)) })}
}

// FormedNamed is what a heat of formation in a formula is that of, as in table.FormationHeat;
// empty where the name is none.
func FormedNamed(name string) string {
	formed, ok := strings.CutPrefix(name, "h.")
	switch {
	case !ok:
		return ""
	case formed == "Mn", formed == "Cu":
		return formed + "^2+"
	case formed == "SO4":
		return "SO4^2-"
	case formed == "HSO3":
		return "HSO3^-"
	}
	return formed
}

// The heats, kJ/mol, of reducing the oxides with gas and of dissolving anhydrous copper sulfate
// in water, from the formation heats in table.FormationHeat (CRC Handbook, "Standard
// Thermodynamic Properties of Chemical Substances"). MnOOH is counted as half an Mn2O3, with
// the acid as H+.
const (
	DioxideHeat     = "h.MnO2 + h.SO2 - h.Mn - h.SO4"
	TrivalentHeat   = "(h.Mn2O3 + h.SO2 - 2*h.Mn - h.SO4 - h.H2O)/2"
	HausmanniteHeat = "h.Mn3O4 + h.SO2 - 3*h.Mn - h.SO4 - 2*h.H2O"
	DissolvingHeat  = "h.CuSO4 - h.Cu - h.SO4"
)

var (
	heatDioxide     = heatOf(DioxideHeat).kJ
	heatTrivalent   = heatOf(TrivalentHeat).kJ
	heatHausmannite = heatOf(HausmanniteHeat).kJ
	dissolvingHeat  = heatOf(DissolvingHeat).kJ

	// heatBisulfite is how much less a pair gives off when the sulfur dioxide was in water
	// already, as HSO3^-.
	heatBisulfite = heatOf("h.HSO3 - h.SO2 - h.H2O")
)

func formationHeat(formula string) float64 {
	h, err := table.FormationHeat(formula)
	if err != nil {
		panic(err) // a formula of this package's that the table lacks
	}
	return h
}
