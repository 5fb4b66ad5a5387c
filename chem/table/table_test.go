package table_test

import (
	"errors"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/interp"

	"rosesalt/chem/table"
)

func TestAtGivesPrintedRows(t *testing.T) {
	for _, tab := range table.All() {
		for _, r := range tab.Rows() {
			y, err := tab.At(r.X)
			require.NoError(t, err, tab.Title())
			assert.Equal(t, r.Y, y, "%s at %v", tab.Title(), r.X)
		}
	}
}

// gonum's piecewise linear fit is a second opinion on our own short one.
func TestAtAgreesWithGonum(t *testing.T) {
	for _, tab := range table.All() {
		var xs, ys []float64
		for _, r := range tab.Rows() {
			xs, ys = append(xs, r.X), append(ys, r.Y)
		}
		var fit interp.PiecewiseLinear
		require.NoError(t, fit.Fit(xs, ys), tab.Title())
		low, high := tab.Range()
		for i := range 1001 {
			x := min(low+(high-low)*float64(i)/1000, high)
			y, err := tab.At(x)
			require.NoError(t, err)
			assert.InDelta(t, fit.Predict(x), y, 1e-12*math.Max(1, math.Abs(y)), "%s at %v", tab.Title(), x)
		}
	}
}

func TestInverseUndoesAt(t *testing.T) {
	for _, tab := range []*table.Table{
		table.AcidMolarity, table.GasMolarVolume, table.GasSolubility, table.WaterVapourPressure, table.AcidMixingHeat,
		table.CopperSulfateSolubility, table.ManganeseSulfateDensity, table.CopperSulfateDensity,
	} {
		low, high := tab.Range()
		for i := range 101 {
			x := min(low+(high-low)*float64(i)/100, high)
			y, err := tab.At(x)
			require.NoError(t, err)
			back, err := tab.Inverse(y)
			require.NoError(t, err)
			assert.InDelta(t, x, back, 1e-9, tab.Title())
		}
	}
}

func TestInverseRefusesTablesThatTurnBack(t *testing.T) {
	for _, tab := range []*table.Table{table.AcidDensity, table.ManganeseSulfateSolubility, table.CopperSulfateInAcid, table.DithionateShare} {
		_, err := tab.Inverse(tab.Rows()[0].Y)
		assert.ErrorIs(t, err, table.ErrNotMonotone, tab.Title())
	}
	_, err := table.AcidDensity.Inverse(1.83)
	assert.EqualError(t, err, "table: sulfuric acid density: cannot be read backwards: several x have one y")
}

func TestRangeError(t *testing.T) {
	at := func(tab *table.Table, x float64) error { _, err := tab.At(x); return err }
	inverse := func(tab *table.Table, y float64) error { _, err := tab.Inverse(y); return err }
	cases := []struct {
		name    string
		err     error
		message string
	}{
		{"above", at(table.AcidDensity, 103), "table: sulfuric acid density: 103 % is outside 0 to 100 %"},
		{"below", at(table.GasMolarVolume, -0.5), "table: sulfur dioxide molar volume: -0.5 °C is outside 0 to 40 °C"},
		{"not a number", at(table.AcidDensity, math.NaN()), "table: sulfuric acid density: a value that is not a number is outside 0 to 100 %"},
		{"infinite", at(table.AcidDensity, math.Inf(1)), "table: sulfuric acid density: +Inf % is outside 0 to 100 %"},
		{"backwards", inverse(table.AcidMolarity, 20), "table: sulfuric acid molarity: 20 mol/L is outside 0 to 18.663 mol/L"},
		{"backwards, falling", inverse(table.GasSolubility, 1), "table: sulfur dioxide solubility in water: 1 g is outside 1.44 to 23.05 g"},
		{"backwards, not a number", inverse(table.AcidMolarity, math.NaN()), "table: sulfuric acid molarity: a value that is not a number is outside 0 to 18.663 mol/L"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var e *table.RangeError
			require.True(t, errors.As(c.err, &e))
			assert.EqualError(t, c.err, c.message)
		})
	}
}

func TestBetween(t *testing.T) {
	low, high, err := table.AcidDensity.Between(97)
	require.NoError(t, err)
	assert.Equal(t, table.Row{X: 96, Y: 1.8355}, low)
	assert.Equal(t, table.Row{X: 98, Y: 1.8361}, high)

	low, high, err = table.AcidDensity.Between(98)
	require.NoError(t, err)
	assert.Equal(t, low, high, "at a printed row")

	_, _, err = table.AcidDensity.Between(101)
	assert.Error(t, err)
}

func TestReadingAllocatesNothing(t *testing.T) {
	var sum float64
	n := testing.AllocsPerRun(100, func() {
		for _, x := range []float64{0, 33.3, 97, 100} {
			y, _ := table.AcidDensity.At(x)
			sum += y
		}
		x, _ := table.AcidMolarity.Inverse(1)
		low, _, _ := table.GasSolubility.Between(21)
		sum += x + low.Y
	})
	assert.Zero(t, n)
	assert.NotZero(t, sum)
}

func TestEveryTableSaysWhereItIsFrom(t *testing.T) {
	files, err := filepath.Glob("data/*.csv")
	require.NoError(t, err)
	names := map[string]bool{"formation-heat": true} // read by FormationHeat
	for _, tab := range table.All() {
		names[tab.Name()] = true
		assert.NotEmpty(t, tab.Title())
		assert.Greater(t, len(tab.Source()), 15, tab.Title())
		assert.NotEmpty(t, tab.XName(), tab.Title())
		assert.NotEmpty(t, tab.YName(), tab.Title())
	}
	for _, f := range files {
		assert.True(t, names[strings.TrimSuffix(filepath.Base(f), ".csv")], "%s is in no list", f)
	}
	assert.Len(t, files, len(names))
}

func TestStandingsAreTheFiles(t *testing.T) {
	assert.Equal(t, table.Published, table.AcidDensity.Standing())
	assert.Equal(t, table.Derived, table.GasMolarVolume.Standing())
	assert.Equal(t, table.FromMemory, table.GasSolubility.Standing())
	assert.Equal(t, table.FromMemory, table.CopperSulfateInAcid.Standing())
	assert.Equal(t, table.FromMemory, table.AcidBoiling.Standing())
	assert.Equal(t, table.Derived, table.AcidMixingHeat.Standing())
	assert.Equal(t, table.Estimate, table.DithionateShare.Standing())
	for s, word := range []string{"published", "derived", "from memory", "estimate", "Standing(4)"} {
		assert.Equal(t, word, table.Standing(s).String())
	}
	assert.Equal(t, "Standing(-1)", table.Standing(-1).String())
}

func TestNamesAndUnits(t *testing.T) {
	assert.Equal(t, "mass fraction of H2SO4", table.AcidDensity.XName())
	assert.Equal(t, "%", table.AcidDensity.XUnit())
	assert.Equal(t, "density at 20 °C", table.AcidDensity.YName())
	assert.Equal(t, "g/mL", table.AcidDensity.YUnit())
	assert.Equal(t, "", table.DithionateShare.YUnit())
}

func TestRowsAreACopy(t *testing.T) {
	table.AcidDensity.Rows()[0].Y = 7
	assert.Equal(t, 0.9982, table.AcidDensity.Rows()[0].Y)
	list := table.All()
	list[0] = nil
	assert.NotNil(t, table.All()[0])
}

func BenchmarkAt(b *testing.B) {
	for b.Loop() {
		if _, err := table.AcidDensity.At(97.3); err != nil {
			b.Fatal(err)
		}
	}
}
