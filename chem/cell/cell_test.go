package cell_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	. "rosesalt/chem/cell"
)

// dioxide is the share of moist new mix that is MnO2, by the kind's best guess.
func dioxide(c Composition) float64 {
	return float64(100-c.Carbon) * (1 - c.Inert.Fraction()) / float64(100+c.Ammonium+c.Zinc+c.Water+c.Potash)
}

func size(t *testing.T, mark string) Size {
	t.Helper()
	for _, s := range Sizes() {
		if s.Mark == mark {
			return s
		}
	}
	require.Fail(t, "no size", mark)
	return Size{}
}

func TestEstimatesAreInOrder(t *testing.T) {
	check := func(t *testing.T, what string, e Estimate) {
		assert.LessOrEqual(t, e.Low, e.Best, what)
		assert.LessOrEqual(t, e.Best, e.High, what)
		assert.GreaterOrEqual(t, e.Low, 0.0, what)
	}
	for _, s := range Sizes() {
		t.Run(s.Mark, func(t *testing.T) {
			check(t, "cell", s.Cell)
			check(t, "mix", s.Mix)
			check(t, "can", s.Can)
			check(t, "rod", s.Rod)
			assert.Positive(t, s.Mix.Low)
			assert.Less(t, s.Mix.Best+s.Can.Best+s.Rod.Best, s.Cell.Best, "the parts fit into the cell")
			assert.Less(t, s.Mix.Low+s.Can.Low+s.Rod.Low, s.Cell.Low)
			assert.LessOrEqual(t, s.Mix.High+s.Can.High+s.Rod.High, s.Cell.High)
		})
	}
	for _, k := range Kinds() {
		t.Run(k.Word, func(t *testing.T) {
			check(t, "carbon", k.Carbon)
			check(t, "inert", k.Inert)
			check(t, "ammonium", k.Ammonium)
			check(t, "zinc", k.Zinc)
			check(t, "water", k.Water)
			check(t, "potash", k.Potash)
			assert.Less(t, k.Carbon.High, 50.0, "mostly oxide")
		})
	}
}

func TestNamesStandOnce(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range Sizes() {
		assert.False(t, seen[s.Mark] || seen[s.Letter], s.Mark)
		seen[s.Mark], seen[s.Letter] = true, true
	}
	for _, k := range Kinds() {
		assert.False(t, seen[k.Word], k.Word)
		seen[k.Word] = true
	}
	assert.Equal(t, "ammonium", Kinds()[0].Word)
	assert.Equal(t, "zincchloride", Kinds()[1].Word)
}

// TestMarks: the sizes of the model, and no mark of a cell that must stay shut.
func TestMarks(t *testing.T) {
	var marks []string
	for _, s := range Sizes() {
		marks = append(marks, s.Mark)
	}
	assert.ElementsMatch(t, []string{"R03", "R6", "R14", "R20", "3R12", "6F22", "4R25"}, marks)
}

// TestMarksOfAlkalineCells are those that the caution names as fit to be opened.
func TestMarksOfAlkalineCells(t *testing.T) {
	var marks []string
	for _, s := range Sizes() {
		for _, k := range Kinds() {
			if k.Caustic {
				marks = append(marks, s.MarkAs(&k))
			} else {
				assert.Equal(t, s.Mark, s.MarkAs(&k))
			}
		}
	}
	assert.ElementsMatch(t, []string{"LR03", "LR6", "LR14", "LR20", "3LR12", "6LF22", "4LR25"}, marks)
}

func TestLayerCellsHaveNoRod(t *testing.T) {
	assert.Equal(t, Estimate{}, size(t, "6F22").Rod)
}

// TestPublishedSheet: a maker's safety data sheet for an R03P zinc-carbon cell
// (2 September 2016), mass percent of the whole cell: MnO2 35.4, Zn 32.3, C
// 11.1, water 13.2, NH4Cl 0.5, ZnCl2 1.4. The table's estimate, with the kind
// that the sheet describes, must lie near it: the intervals of both are wide,
// and the table follows natural as well as electrolytic oxide.
func TestPublishedSheet(t *testing.T) {
	s := size(t, "R03")
	c := Kinds()[1].Composition()
	total := float64(100 + c.Ammonium + c.Zinc + c.Water)
	ofCell := func(g float64) float64 { return 100 * s.Mix.Best / s.Cell.Best * g / total }
	for _, row := range []struct {
		what                  string
		have, sheet, relative float64
	}{
		{"MnO2", ofCell(total * dioxide(c)), 35.4, 0.20},
		{"zinc", 100 * s.Can.Best / s.Cell.Best, 32.3, 0.10},
		{"carbon, rod and black", ofCell(float64(c.Carbon)) + 100*s.Rod.Best/s.Cell.Best, 11.1, 0.10},
		{"water", ofCell(float64(c.Water)), 13.2, 0.10},
	} {
		assert.InEpsilon(t, row.sheet, row.have, row.relative, row.what)
	}
	assert.InDelta(t, 0.5, ofCell(float64(c.Ammonium)), 0.5, "NH4Cl")
	assert.InDelta(t, 1.4, ofCell(float64(c.Zinc)), 1.5, "ZnCl2")

	// At the generous end, the sheet's oxide is within reach.
	k := Kinds()[1]
	most := s.Mix.High / s.Cell.High * (100 - k.Carbon.Low) * (1 - k.Inert.Low/100) / (100 + k.Ammonium.Low + k.Zinc.Low + k.Water.Low)
	assert.Greater(t, 100*most, 35.4)
}

// TestCapacity: what a new cell delivers cannot exceed what its oxide can give,
// 308.29 mAh a gram for one electron (26 801.5 mAh a mole by 86.936 g/mol). The
// charges delivered are upper bounds, starting drain times hours, from the
// Battery Reference Book, Table 30.4, carbon-zinc cells; that of the 6F22 is
// from memory. A pack counts by the cell: 3R12 three of R12, 4R25 four of size
// F, 6F22 six.
func TestCapacity(t *testing.T) {
	const milliampHours = 308.29
	for _, row := range []struct {
		mark  string
		cells float64
		mAh   float64
	}{
		{"R03", 1, 700},
		{"R6", 1, 1350},
		{"R14", 1, 2875},
		{"R20", 1, 6250},
		{"3R12", 3, 2125},
		{"4R25", 4, 10125},
		{"6F22", 6, 400},
	} {
		for _, k := range Kinds() {
			if k.Caustic {
				continue // the charges are those of zinc-carbon cells
			}
			t.Run(row.mark+" "+k.Word, func(t *testing.T) {
				oxide := size(t, row.mark).Mix.Best * dioxide(k.Composition()) / row.cells
				assert.Greater(t, oxide*milliampHours, row.mAh)
				assert.Less(t, oxide*milliampHours, 3*row.mAh, "nor should most of it lie idle")
			})
		}
	}
}

// TestZincIsEnough: the can must outlast the oxide, 819.87 mAh a gram of zinc
// (2 electrons, 65.38 g/mol), or a dead cell would have no can.
func TestZincIsEnough(t *testing.T) {
	for i, s := range Sizes() {
		for j, k := range Kinds() {
			part := PartsOf(i, j)
			assert.Greater(t, part.Can.Best*819.87, part.Mix.Best*dioxide(k.Composition())*308.29, "%s %s", s.Mark, k.Word)
		}
	}
}

// TestWeightTellsAlkaline: an alkaline cell of the same size weighs more than
// the heaviest zinc-carbon cell, by a maker's product table (R03 11.0, R6 23.8,
// R14 69.0, R20 139, 6F22 45 g).
func TestWeightTellsAlkaline(t *testing.T) {
	for mark, grams := range map[string]float64{"R03": 11.0, "R6": 23.8, "R14": 69.0, "R20": 139, "6F22": 45} {
		s := size(t, mark)
		assert.Greater(t, grams, s.Cell.High, mark)
		assert.Equal(t, LikelyAlkaline, s.Weigh(grams), mark)
		assert.Equal(t, LikelyZincCarbon, s.Weigh(s.Cell.Best), mark)
		assert.Equal(t, Unsure, s.Weigh(s.Cell.Best/2), "%s: not this size", mark)
		assert.Equal(t, Unsure, s.Weigh(2*grams), "%s: not this size", mark)
	}
	r6 := size(t, "R6")
	assert.Equal(t, Unsure, r6.Weigh((r6.Alkaline.Low+r6.Cell.High)/2), "both ranges hold it")
}

// TestAlkalineSheet: makers' safety data sheets, mass percent of the whole cell.
// LR20 (2015): MnO2 41.8, zinc 17.4, carbon 3.4; LR6 (2015): MnO2 40.0, zinc 17.8,
// carbon 3.0, KOH 6.3. Part of the potash leaves with the gel.
func TestAlkalineSheet(t *testing.T) {
	j := len(Kinds()) - 1
	k := Kinds()[j]
	require.True(t, k.Caustic)
	assert.Equal(t, "alkaline", k.Word)
	c := k.Composition()
	for i, s := range Sizes() {
		part := PartsOf(i, j)
		share := 100 * part.Mix.Best / part.Cell.Best
		total := float64(100 + c.Water + c.Potash)
		assert.InEpsilon(t, 41, share*dioxide(c), 0.08, "%s: MnO2", s.Mark)
		assert.InEpsilon(t, 17.4, 100*part.Can.Best/part.Cell.Best, 0.03, "%s: zinc", s.Mark)
		assert.InDelta(t, 4, share*float64(c.Carbon)/total, 1.5, "%s: carbon", s.Mark)
		potash := share * float64(c.Potash) / total
		assert.Less(t, potash, 7.0, "%s: not more potash than the cell holds", s.Mark)
		assert.Greater(t, potash, 3.5, "%s: the rings hold half of it or more", s.Mark)
		assert.Zero(t, part.Rod.High)
	}
}

func TestCompositionIsTheBestGuess(t *testing.T) {
	for _, k := range Kinds() {
		c := k.Composition()
		assert.Equal(t, k.Carbon.Best, float64(c.Carbon))
		assert.Equal(t, k.Inert.Best, float64(c.Inert))
		assert.Equal(t, k.Ammonium.Best, float64(c.Ammonium))
		assert.Equal(t, k.Zinc.Best, float64(c.Zinc))
		assert.Equal(t, k.Water.Best, float64(c.Water))
		assert.Equal(t, k.Potash.Best, float64(c.Potash))
	}
}
