package reaction_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/formula"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table/tabletest"
)

// TestBalance adds up atoms and charge by package formula, not by the counts
// that Parse itself used.
func TestBalance(t *testing.T) {
	require.NotEmpty(t, All())
	for _, e := range All() {
		t.Run(e.String(), func(t *testing.T) {
			charge := 0.0
			atoms := map[string]float64{}
			mass := 0.0
			for _, term := range e.Terms() {
				f := formula.MustParse(term.Substance.Formula())
				charge += term.Coefficient * float64(f.Charge())
				mass += term.Coefficient * float64(f.MolarMass())
				for el := range Element(Elements) {
					atoms[el.String()] += term.Coefficient * float64(f.Count(el.String()))
				}
			}
			assert.Zero(t, charge)
			for symbol, n := range atoms {
				assert.Zero(t, n, symbol)
			}
			assert.InDelta(t, 0, mass, 1e-9, "mass, an element outside the list")
		})
	}
}

func TestEquationsStandOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, e := range All() {
		assert.False(t, seen[e.String()], e.String())
		seen[e.String()] = true
		back, err := Parse(e.String())
		require.NoError(t, err)
		assert.Equal(t, e.Terms(), back.Terms())
	}
	All()[0] = nil
	assert.NotNil(t, All()[0], "the caller holds a copy")
}

func TestParseRefuses(t *testing.T) {
	for name, c := range map[string]struct{ text, says string }{
		"nothing":              {"", "no arrow"},
		"no arrow":             {"MnO2 + SO2", "no arrow"},
		"an equals sign":       {"MnO2 + SO2 = MnSO4", "no arrow"},
		"a typeset arrow":      {"MnO2 + SO2 → MnSO4", "no arrow"},
		"no left side":         {"-> MnSO4", "not a coefficient and a formula"},
		"no right side":        {"MnO2 + SO2 ->", "not a coefficient and a formula"},
		"atoms off":            {"MnO2 + 2 SO2 -> MnSO4", "does not balance"},
		"an atom lost":         {"2 MnOOH + SO2 -> 2 MnSO4", "does not balance"},
		"another salt":         {"MnO2 + SO2 -> KMnO4", `"KMnO4" is not a substance`},
		"an ion":               {"Zn -> Zn^2+", "is not a substance"},
		"lower case":           {"mno2 + so2 -> mnso4", "is not a substance"},
		"one side, twice":      {"SO2 + SO2 + MnO2 -> MnS2O6", "SO2 stands twice"},
		"both sides, twice":    {"MnO2 + SO2 -> MnSO4 + SO2", "SO2 stands twice"},
		"no moles":             {"0 MnO2 + SO2 -> MnSO4", "not a whole number above 0"},
		"a negative":           {"-1 MnO2 + SO2 -> MnSO4", "not a whole number above 0"},
		"half a mole":          {"0.5 MnO2 + SO2 -> MnSO4", "not a whole number above 0"},
		"a word too many":      {"2 x MnO2 + SO2 -> MnSO4", "not a coefficient and a formula"},
		"plus without a space": {"MnO2+SO2 -> MnSO4", "is not a substance"},
		"a second arrow":       {"MnO2 + SO2 -> MnSO4 -> MnSO4", "not a coefficient and a formula"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Parse(c.text)
			require.Error(t, err)
			assert.Contains(t, err.Error(), c.says)
			assert.Contains(t, err.Error(), "reaction: ")
		})
	}
}

func TestParseAccepts(t *testing.T) {
	e, err := Parse("ZnMn2O4 + SO2 + 2 H2SO4 -> 2 MnSO4 + ZnSO4 + 2 H2O")
	require.NoError(t, err)
	assert.Equal(t, []Term{
		{Hetaerolite, -1},
		{SulfurDioxide, -1},
		{SulfuricAcid, -2},
		{ManganeseSulfate, 2},
		{ZincSulfate, 1},
		{Water, 2},
	}, e.Terms())
	assert.Equal(t, -2.0, e.Coefficient(SulfuricAcid))
	assert.Zero(t, e.Coefficient(Copper))

	e, err = Parse("1 MnO2 + SO2 -> 1 MnSO4")
	require.NoError(t, err, "a coefficient of one may be written")
	assert.Equal(t, []Term{{ManganeseDioxide, -1}, {SulfurDioxide, -1}, {ManganeseSulfate, 1}}, e.Terms())
}

// TestBasesTakeGas: where a base takes gas and dioxide binds the protons, a mole of gas
// brings two electrons, each of which turns one MnO2 to MnOOH, and two charges, which the
// sulfate of the base's cations holds.
func TestBasesTakeGas(t *testing.T) {
	for _, e := range []*Equation{BasePotash, BaseAmmonia, BaseDiammine, BaseBasic, BaseZincOxide} {
		gas := -e.Coefficient(SulfurDioxide)
		assert.Equal(t, 2*gas, -e.Coefficient(ManganeseDioxide), e.String())
		assert.Equal(t, 2*gas, e.Coefficient(Manganite), e.String())
		assert.Equal(t, gas, e.Coefficient(ZincSulfate)+e.Coefficient(AmmoniumSulfate)+e.Coefficient(PotassiumSulfate), e.String())
	}
}

// TestCoreRule holds every reduction to one rule, derived from the electrons:
// with n_e electrons that bring its manganese to +2 and n_M divalent cations, a
// solid takes SO2 = n_e/2 (1 + d) and H2SO4 = n_M - n_e/2, where the share d of
// the equivalents ends as dithionate. Where no acid is given, two moles of gas
// bring the protons of each mole of it.
func TestCoreRule(t *testing.T) {
	solids := map[Substance]struct{ electrons, cations float64 }{
		ManganeseDioxide: {2, 1}, Manganite: {1, 1}, Hetaerolite: {2, 3},
	}
	reductions := 0
	for _, e := range All() {
		gas := -e.Coefficient(SulfurDioxide)
		for solid, has := range solids {
			moles := -e.Coefficient(solid)
			if moles <= 0 || gas <= 0 || e.Coefficient(Manganite) > 0 {
				continue
			}
			reductions++
			t.Run(e.String(), func(t *testing.T) {
				electrons, cations := moles*has.electrons, moles*has.cations
				dithionate := e.Coefficient(ManganeseDithionate)
				d := dithionate / (electrons / 2)
				acid := cations - electrons/2
				given := -e.Coefficient(SulfuricAcid)
				if given == 0 {
					assert.Equal(t, electrons/2*(1+d)+2*acid, gas)
				} else {
					assert.Equal(t, electrons/2*(1+d), gas)
					assert.Equal(t, acid, given)
				}
				assert.True(t, d == 0 || d == 1, "all one way or all the other")
			})
		}
	}
	assert.Equal(t, 10, reductions, "six with acid (or none wanted) and four without")
}

// TestAcidRule does the same for what takes acid and no gas: H2SO4 is one a
// divalent cation, one more for two NH3 held, one less for two Cl that stay.
// What splits manganese(III) keeps the demand of what is left.
func TestAcidRule(t *testing.T) {
	// acid is the H2SO4 that a solid takes in all, gas beside it or not.
	acid := map[Substance]float64{
		ManganeseDioxide: 0, Manganite: 0.5, Hetaerolite: 2,
		ZincOxide: 1, BasicZincChloride: 5 - 1, ZincDiammine: 1 + 1 - 1, Ammonia: 0.5,
	}
	for _, e := range []*Equation{
		AcidAmmonia, AcidDiammine, AcidBasic, AcidZincOxide, SplitManganite, SplitHetaerolite,
	} {
		t.Run(e.String(), func(t *testing.T) {
			sum := 0.0
			for _, term := range e.Terms() {
				sum -= term.Coefficient * acid[term.Substance]
			}
			assert.Equal(t, sum, -e.Coefficient(SulfuricAcid))
			assert.Zero(t, e.Coefficient(SulfurDioxide))
		})
	}
	// Gas in its place: two moles for one.
	for e, solid := range map[*Equation]Substance{
		GasAmmonia: Ammonia, GasDiammine: ZincDiammine, GasBasic: BasicZincChloride, GasZincOxide: ZincOxide,
	} {
		t.Run(e.String(), func(t *testing.T) {
			assert.Equal(t, -2*acid[solid], e.Coefficient(SulfurDioxide))
		})
	}
}

// TestElectrons counts the electrons that discharge takes: one a manganese.
func TestElectrons(t *testing.T) {
	for _, e := range []*Equation{DischargeAmmonium, DischargeChloride, DischargeOxide} {
		assert.Equal(t, e.Coefficient(ManganeseDioxide), 2*e.Coefficient(Zinc), e.String())
		assert.Equal(t, e.Coefficient(Manganite), -e.Coefficient(ManganeseDioxide), e.String())
	}
}

// TestMolarMasses reads the published list (testdata/published, sources in
// each row) for the substances that are on it.
func TestMolarMasses(t *testing.T) {
	rows := tabletest.Rows(t, "molar-masses")
	found := 0
	for _, r := range rows {
		for s := range Substance(Substances) {
			if s.Formula() == r.Text("formula") {
				r.Meets(t, float64(s.MolarMass()))
				found++
			}
		}
	}
	assert.Greater(t, found, 10)
}

func TestSubstances(t *testing.T) {
	formulas, names := map[string]bool{}, map[string]bool{}
	for s := range Substance(Substances) {
		assert.NotEmpty(t, s.Formula())
		assert.NotEmpty(t, s.Name())
		assert.Equal(t, s.Formula(), s.String())
		assert.False(t, formulas[s.Formula()], s.Formula())
		assert.False(t, names[s.Name()], s.Name())
		formulas[s.Formula()], names[s.Name()] = true, true
		assert.InEpsilon(t, 2.5, float64(s.Moles(s.Mass(2.5))), 1e-14)
		// No atom of the formula is missing from the list of elements.
		sum := 0.0
		for el := range Element(Elements) {
			sum += s.Atoms(el) * float64(formula.MustParse(el.String()).MolarMass())
		}
		assert.InEpsilon(t, float64(s.MolarMass()), sum, 1e-12, s.Formula())
	}
	assert.Equal(t, 8.0, BasicZincChloride.Atoms(H)-2)
	assert.Equal(t, 2.0, ZincDiammine.Atoms(N))
}

// TestHolders: an element's holders are all the substances that have it, and no others.
func TestHolders(t *testing.T) {
	for el := range Element(Elements) {
		var want []Holder
		for s := range Substance(Substances) {
			if n := formula.MustParse(s.Formula()).Count(el.String()); n != 0 {
				want = append(want, Holder{Substance: s, Atoms: float64(n)})
			}
		}
		assert.NotEmpty(t, want, el.String())
		assert.Equal(t, want, el.Holders(), el.String())
	}
}
