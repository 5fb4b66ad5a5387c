package reaction_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/formula"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table/tabletest"
)

// TestAnalysesBalance reads each equation again, which checks it.
func TestAnalysesBalance(t *testing.T) {
	require.Len(t, Analyses(), 9)
	for _, a := range Analyses() {
		back, err := ParseAnalysis(a.String())
		require.NoError(t, err)
		assert.Equal(t, *a, back)
	}
	Analyses()[0] = nil
	assert.NotNil(t, Analyses()[0], "the caller holds a copy")
}

// TestFactorsOfAnalysis meets printed factors by ratios of moles and molar masses.
func TestFactorsOfAnalysis(t *testing.T) {
	molar := func(text string) float64 { return float64(formula.MustParse(text).MolarMass()) }
	factors := map[string]float64{
		"usp.edta":             0.05 * EdetateManganese.Per("Mn^2+", "C10H14N2O8^2-") * molar("MnSO4·H2O"),
		"volhard.factor.exact": 0.02 * PermanganateManganese.Per("Mn^2+", "MnO4^-") * molar("Mn"),
		"volhard.iron": PermanganateManganese.Per("Mn^2+", "MnO4^-") / PermanganateIron.Per("Fe^2+", "MnO4^-") *
			molar("Mn") / molar("Fe"),
		"gas.factor": OxalateDioxide.Per("CO2", "MnO2") * molar("CO2") / molar("MnO2"),
		// A millilitre of N/2 permanganate that iron(II) lost to the oxide saves.
		"lunge.factor.mL": 0.1 * PermanganateIron.Per("Fe^2+", "MnO4^-") / IronDioxide.Per("Fe^2+", "MnO2") * molar("MnO2"),
	}
	for _, r := range tabletest.Rows(t, "assays") {
		if have, ok := factors[r.Check()]; ok {
			r.Meets(t, have)
			delete(factors, r.Check())
		}
	}
	assert.Empty(t, factors, "no such rows")
	for _, r := range tabletest.Rows(t, "gravimetric") {
		if r.Check() == "gravimetric.permanganate" {
			r.Meets(t, PermanganateOxalate.Per("MnO4^-", "C2O4^2-")*molar("KMnO4")/molar("Na2C2O4"))
			return
		}
	}
	t.Error("no row of permanganate on oxalate")
}

func TestPerRefuses(t *testing.T) {
	assert.PanicsWithValue(t, `reaction: KMnO4 takes no part in "MnSO4·H2O -> MnSO4 + H2O"`, func() { Ignition.Per("KMnO4", "H2O") })
	assert.Panics(t, func() { Ignition.Per("H2O", "KMnO4") })
}

func TestParseAnalysisRefuses(t *testing.T) {
	for name, c := range map[string]struct{ text, says string }{
		"nothing":           {"", "no arrow"},
		"no left side":      {"-> Mn^2+", "formula: empty"},
		"no right side":     {"Mn^2+ ->", "formula: empty"},
		"no element":        {"Xx -> Xx", `unknown element "Xx"`},
		"atoms off":         {"2 Zn + Cu^2+ -> Zn^2+ + Cu", "Zn does not balance in \"2 Zn + Cu^2+ -> Zn^2+ + Cu\": -1"},
		"charge off":        {"Mn^2+ -> Mn^3+", "charge does not balance in \"Mn^2+ -> Mn^3+\": +1"},
		"electrons for all": {"3 Fe^2+ + Mn -> 3 Fe^3+ + Mn^2+", "charge does not balance in \"3 Fe^2+ + Mn -> 3 Fe^3+ + Mn^2+\": +5"},
		"twice":             {"Mn^2+ + Zn -> Zn + Mn^2+", "stands twice"},
		"no moles":          {"0 Zn -> Zn", "not a whole number above 0"},
		"a negative":        {"-1 Zn -> Zn", "not a whole number above 0"},
		"half a mole":       {"0.5 H2O -> H2O", "not a whole number above 0"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := ParseAnalysis(c.text)
			require.Error(t, err)
			assert.Contains(t, err.Error(), "reaction: ")
			assert.Contains(t, err.Error(), c.says)
		})
	}
	_, err := ParseAnalysis("2 Fe^3+ + Zn -> 2 Fe^2+ + Zn^2+")
	assert.NoError(t, err)
	_, err = ParseAnalysis("1 Zn + 1 Cu^2+ -> 1 Zn^2+ + 1 Cu")
	assert.NoError(t, err, "a coefficient of one may be written")
}

// TestSubstancesAreNeutral: balanced atoms are enough for the equations of the
// ledger, since no substance on it has a charge.
func TestSubstancesAreNeutral(t *testing.T) {
	for s := range Substance(Substances) {
		assert.Zero(t, formula.MustParse(s.Formula()).Charge(), s.Formula())
	}
}
