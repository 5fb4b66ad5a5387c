package formula_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/formula"
	"rosesalt/chem/table/tabletest"
)

func TestAtomicWeights(t *testing.T) {
	for _, r := range tabletest.Rows(t, "atomic-weights") {
		w, err := formula.AtomicWeight(r.Text("symbol"))
		require.NoError(t, err)
		r.Meets(t, float64(w))
	}
}

func TestAtomicWeightRefuses(t *testing.T) {
	for _, symbol := range []string{"", "Xx", "mn", "MN", "Mn2", "e"} {
		_, err := formula.AtomicWeight(symbol)
		assert.Error(t, err, symbol)
	}
}

func TestMolarMasses(t *testing.T) {
	rows := tabletest.Rows(t, "molar-masses")
	assert.GreaterOrEqual(t, len(rows), 30)
	for _, r := range rows {
		f, err := formula.Parse(r.Text("formula"))
		require.NoError(t, err)
		r.Meets(t, float64(f.MolarMass()))
		assert.InDelta(t, r.Float("uncertainty"), float64(f.Uncertainty()), 0.0006, r.Check())
	}
}

func TestMassFractions(t *testing.T) {
	for _, r := range tabletest.Rows(t, "mass-fractions") {
		r.Meets(t, 100*formula.MustParse(r.Text("formula")).MassFraction(r.Text("symbol")))
	}
}

func TestGravimetricFactors(t *testing.T) {
	for _, r := range tabletest.Rows(t, "gravimetric") {
		from, to := formula.MustParse(r.Text("from")), formula.MustParse(r.Text("to"))
		r.Meets(t, r.Float("to_units")*float64(to.MolarMass())/(r.Float("from_units")*float64(from.MolarMass())))
	}
}

// The route's own check values rest on the same masses; those that need no
// more than a ratio are met here.
func TestIgnition(t *testing.T) {
	for _, r := range tabletest.Rows(t, "ignition") {
		water := r.Float("waters") * float64(formula.MustParse("H2O").MolarMass())
		r.Meets(t, 100*water/(water+float64(formula.MustParse(r.Text("salt")).MolarMass())))
	}
}

func TestScrubberFactors(t *testing.T) {
	for _, r := range tabletest.Rows(t, "scrubber") {
		base := formula.MustParse(r.Text("substance"))
		r.Meets(t, r.Float("mole_per_mole")*float64(base.MolarMass())/float64(formula.MustParse("SO2").MolarMass()))
	}
}

func TestElementsByAtomicNumber(t *testing.T) {
	want := []formula.Count{{Symbol: "H", N: 10}, {Symbol: "O", N: 9}, {Symbol: "S", N: 1}, {Symbol: "Cu", N: 1}}
	for _, text := range []string{"CuSO4·5H2O", "(H2O)5CuSO4", "Cu(SO4)(H2O)5"} {
		assert.Equal(t, want, formula.MustParse(text).Elements(), text)
	}
}

func TestFormulaIsNeverChanged(t *testing.T) {
	f := formula.MustParse("MnO2")
	f.Elements()[0].N = 99
	assert.Equal(t, 2, f.Count("O"))
}

func TestZeroFormula(t *testing.T) {
	var f formula.Formula
	assert.Zero(t, f.MolarMass())
	assert.Zero(t, f.Uncertainty())
	assert.Zero(t, f.MassFraction("O"))
	assert.Empty(t, f.Elements())
	assert.Equal(t, "", f.String())
}

func BenchmarkMolarMass(b *testing.B) {
	f := formula.MustParse("Zn5(OH)8Cl2·H2O")
	for b.Loop() {
		f.MolarMass()
	}
}
