// Package reaction holds the substances that the ledger counts and the
// balanced equations between them.
//
// An equation is written as a chemist writes it, in one line of text, and
// compiled once into signed coefficients. Every equation of the package is
// checked for atoms and charge by its tests; Parse makes the same check for
// any other.
package reaction

import (
	"rosesalt/chem/formula"
	"rosesalt/chem/quantity"
)

// Substance is one of the pure substances that the ledger counts.
type Substance uint8

// The substances, oxides first, in the order in which the route meets them.
const (
	ManganeseDioxide Substance = iota
	Manganite
	Hetaerolite
	Carbon
	Gangue
	Water
	AmmoniumChloride
	ZincChloride
	Zinc
	ZincOxide
	BasicZincChloride
	ZincDiammine
	Ammonia
	SulfuricAcid
	SulfurDioxide
	ManganeseSulfate
	ManganeseDithionate
	ManganeseBisulfite
	ManganeseSulfite
	ZincSulfate
	ZincBisulfite
	ZincSulfite
	AmmoniumSulfate
	AmmoniumBisulfite
	HydrogenChloride
	Copper
	CopperSulfide
	CopperSulfate
	SodiumMetabisulfite
	SodiumSulfate
	SodiumCarbonate
	SodiumSulfite
	CarbonDioxide
	Potash
	PotassiumSulfate
	PotassiumBisulfite
	HydrogenPeroxide
	Oxygen
	OxalicAcid
	ManganeseOxalate
	ZincOxalate
	IronHydroxide
	FerrousSulfate
	FerricSulfate
	Hausmannite
	// Substances is how many there are.
	Substances = iota
)

// pure lists formula and trade name of each substance. Gangue is counted as
// silica: only its mass matters, and the formula keeps the element sums exact. Rust and
// the iron of ores are counted as FeOOH.
var pure = [Substances]struct{ formula, name string }{
	ManganeseDioxide:    {"MnO2", "manganese dioxide"},
	Manganite:           {"MnOOH", "manganese(III) oxide hydroxide"},
	Hetaerolite:         {"ZnMn2O4", "hetaerolite"},
	Carbon:              {"C", "carbon"},
	Gangue:              {"SiO2", "gangue, counted as silica"},
	Water:               {"H2O", "water"},
	AmmoniumChloride:    {"NH4Cl", "ammonium chloride"},
	ZincChloride:        {"ZnCl2", "zinc chloride"},
	Zinc:                {"Zn", "zinc"},
	ZincOxide:           {"ZnO", "zinc oxide"},
	BasicZincChloride:   {"Zn5(OH)8Cl2·H2O", "basic zinc chloride"},
	ZincDiammine:        {"Zn(NH3)2Cl2", "zinc diammine chloride"},
	Ammonia:             {"NH3", "ammonia"},
	SulfuricAcid:        {"H2SO4", "sulfuric acid"},
	SulfurDioxide:       {"SO2", "sulfur dioxide"},
	ManganeseSulfate:    {"MnSO4", "manganese(II) sulfate"},
	ManganeseDithionate: {"MnS2O6", "manganese(II) dithionate"},
	ManganeseBisulfite:  {"Mn(HSO3)2", "manganese(II) hydrogensulfite"},
	ManganeseSulfite:    {"MnSO3", "manganese(II) sulfite"},
	ZincSulfate:         {"ZnSO4", "zinc sulfate"},
	ZincBisulfite:       {"Zn(HSO3)2", "zinc hydrogensulfite"},
	ZincSulfite:         {"ZnSO3", "zinc sulfite"},
	AmmoniumSulfate:     {"(NH4)2SO4", "ammonium sulfate"},
	AmmoniumBisulfite:   {"NH4HSO3", "ammonium hydrogensulfite"},
	HydrogenChloride:    {"HCl", "hydrogen chloride"},
	Copper:              {"Cu", "copper"},
	CopperSulfide:       {"Cu2S", "copper(I) sulfide"},
	CopperSulfate:       {"CuSO4", "copper(II) sulfate"},
	SodiumMetabisulfite: {"Na2S2O5", "sodium metabisulfite"},
	SodiumSulfate:       {"Na2SO4", "sodium sulfate"},
	SodiumCarbonate:     {"Na2CO3", "sodium carbonate"},
	SodiumSulfite:       {"Na2SO3", "sodium sulfite"},
	CarbonDioxide:       {"CO2", "carbon dioxide"},
	Potash:              {"KOH", "caustic potash"},
	PotassiumSulfate:    {"K2SO4", "potassium sulfate"},
	PotassiumBisulfite:  {"KHSO3", "potassium hydrogensulfite"},
	HydrogenPeroxide:    {"H2O2", "hydrogen peroxide"},
	Oxygen:              {"O2", "oxygen"},
	OxalicAcid:          {"H2C2O4", "oxalic acid"},
	ManganeseOxalate:    {"MnC2O4", "manganese(II) oxalate"},
	ZincOxalate:         {"ZnC2O4", "zinc oxalate"},
	IronHydroxide:       {"FeOOH", "iron(III) oxide hydroxide"},
	FerrousSulfate:      {"FeSO4", "iron(II) sulfate"},
	FerricSulfate:       {"Fe2(SO4)3", "iron(III) sulfate"},
	Hausmannite:         {"Mn3O4", "hausmannite"},
}

// elements are all that the substances are made of.
var elements = [...]string{"H", "C", "N", "O", "Na", "Si", "S", "Cl", "K", "Mn", "Fe", "Cu", "Zn"}

// Element is one of the elements that the substances are made of.
type Element uint8

// The elements, in the order of atomic number.
const (
	H Element = iota
	C
	N
	O
	Na
	Si
	S
	Cl
	K
	Mn
	Fe
	Cu
	Zn
	// Elements is how many there are.
	Elements = iota
)

// String is the symbol of the element.
func (e Element) String() string { return elements[e] }

// facts is what follows from the formulas, computed once at the start.
type facts struct {
	molarMasses [Substances]quantity.GramPerMole
	atoms       [Substances][Elements]float64
	byFormula   map[string]Substance
	holders     [Elements][]Holder
}

var known = learn()

// learn works the facts out.
func learn() *facts {
	k := &facts{byFormula: make(map[string]Substance, Substances)}
	for s := range Substance(Substances) {
		f := formula.MustParse(pure[s].formula)
		k.molarMasses[s] = f.MolarMass()
		for e, symbol := range elements {
			n := float64(f.Count(symbol))
			k.atoms[s][e] = n
			if n > 0 {
				k.holders[e] = append(k.holders[e], Holder{s, n})
			}
		}
		k.byFormula[pure[s].formula] = s
	}
	return k
}

// ByFormula finds a substance by its formula as printed.
func ByFormula(formula string) (s Substance, ok bool) {
	s, ok = known.byFormula[formula]
	return s, ok
}

// Formula is the formula as printed.
func (s Substance) Formula() string { return pure[s].formula }

// Name is the trade name, in lower case.
func (s Substance) Name() string { return pure[s].name }

// String is the formula, as in messages.
func (s Substance) String() string { return pure[s].formula }

// MolarMass is computed from the standard atomic weights of package formula.
func (s Substance) MolarMass() quantity.GramPerMole { return known.molarMasses[s] }

// Atoms is how many atoms of an element one formula unit holds.
func (s Substance) Atoms(e Element) float64 { return known.atoms[s][e] }

// Holder is a substance that holds an element, and how many atoms of it.
type Holder struct {
	Substance Substance
	Atoms     float64
}

// Holders are the substances that hold the element. The caller must not change
// them.
func (e Element) Holders() []Holder { return known.holders[e] }

// Mass is what an amount of the substance weighs.
func (s Substance) Mass(n quantity.Mole) quantity.Gram { return n.Mass(known.molarMasses[s]) }

// Moles is the amount of the substance in a mass of it.
func (s Substance) Moles(g quantity.Gram) quantity.Mole { return g.Moles(known.molarMasses[s]) }
