package safety_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

func words(stage route.Stage, p *route.Plan) string {
	var b strings.Builder
	for _, c := range safety.Cautions(stage, p) {
		b.WriteString(c.Lead + " " + c.Text + "\n")
	}
	return b.String()
}

func TestEveryStageHasItsCaution(t *testing.T) {
	p := route.NewPlan()
	for stage := range route.Stage(route.Stages) {
		require.NotEmpty(t, safety.Cautions(stage, &p), "stage %d", stage)
		for _, c := range safety.Cautions(stage, &p) {
			assert.NotEmpty(t, c.Lead)
			assert.NotContains(t, c.Lead+c.Text, "safe to", "nothing is promised")
		}
	}
}

func TestHarmsAreNamedWhereTheyAre(t *testing.T) {
	p := route.NewPlan()
	for stage, harms := range map[route.Stage][]string{
		route.Cells:      {"FR and CR are lithium", "1997", "mercury", "gloves", "pregnant"},
		route.Wash:       {"ammonia", "silver", "burns eyes"},
		route.Batch:      {"chlorine"},
		route.Gas:        {"asthma", "goggles", "fume cupboard"},
		route.Slurry:     {"drawn back", "before you take the flame away", "Bleached paper"},
		route.Dry:        {"hurts eyes", "harms nerves"},
		route.CopperSalt: {"Never water into acid", "zinc", "eyes for good", "no vomiting"},
		route.Waste:      {"down the drain", "sulfur dioxide, which comes back"},
	} {
		for _, harm := range harms {
			assert.Contains(t, words(stage, &p), harm, "stage %d", stage)
		}
	}
}

func TestCautionsFollowTheSourceOfGas(t *testing.T) {
	p := route.NewPlan()
	p.GasSource = route.FromMetabisulfite
	assert.NotContains(t, words(route.Gas, &p), "spirit lamp")
	assert.Contains(t, words(route.Gas, &p), "Drip the diluted acid")
	assert.NotContains(t, words(route.Slurry, &p), "flame")
	assert.Empty(t, safety.Cautions(route.CopperSalt, &p))
}

func TestCautionsFollowTheReductant(t *testing.T) {
	for source, c := range map[route.Choice]struct{ says, silent []string }{
		route.BySalt:     {[]string{"spoonful", "asthma", "Bleached paper"}, []string{"flame", "tube"}},
		route.ByPeroxide: {[]string{"drops", "closed vessel", "oxygen"}, []string{"tube", "Bleached paper"}},
		route.ByOxalic:   {[]string{"poisonous", "carbon monoxide", "closed vessel"}, []string{"tube", "Bleached paper"}},
	} {
		p := route.NewPlan()
		p.GasSource = source
		for _, word := range c.says {
			assert.Contains(t, words(route.Slurry, &p), word, source)
		}
		for _, word := range c.silent {
			assert.NotContains(t, words(route.Slurry, &p), word, source)
		}
		assert.NotContains(t, words(route.Gas, &p), "asthma", "no gas is led in")
		assert.Equal(t, source == route.BySalt, strings.Contains(safety.MainCaution(&p), "Sulfur dioxide"))
		assert.NotContains(t, words(route.Waste, &p), "Scrubber", "what is stirred in is not scrubbed")
	}
	p := route.NewPlan()
	assert.Contains(t, words(route.Waste, &p), "Scrubber")
	p.SlurryVessel = route.OpenVessel
	assert.NotContains(t, words(route.Waste, &p), "Scrubber")
	assert.Contains(t, safety.MainCaution(&p), "Sulfur dioxide")
}

// TestEveryWaySaysWhatHurtsMost, and has a caution where its reductant goes in.
func TestEveryWaySaysWhatHurtsMost(t *testing.T) {
	source, _ := route.InputByKey("gas.source")
	for _, o := range source.Options {
		p := route.NewPlan()
		require.NoError(t, source.Choose(&p, o.Word))
		assert.NotEmpty(t, safety.Harms(&p, new(route.Runner).Run(&p)), o.Word)
		assert.NotEmpty(t, safety.Cautions(route.ReductantOf(&p).Used.Info().Stage, &p), o.Word)
	}
}

// TestWhatHurtsMostIsThatOfOneBatch: the hand meets the amounts of a vessel, not those of the plan.
func TestWhatHurtsMostIsThatOfOneBatch(t *testing.T) {
	source, _ := route.InputByKey("gas.source")
	for _, o := range source.Options {
		p := route.NewPlan()
		require.NoError(t, source.Choose(&p, o.Word))
		sheet := new(route.Runner).Run(&p)
		of := []route.FigureID{route.ReductantOf(&p).Used}
		if route.Gaseous(&p) {
			of = []route.FigureID{route.GasVolume}
			if route.HotAcid(&p) {
				of = append(of, route.GasAcidUsed)
			}
		}
		for _, batches := range []float64{1, 3} {
			p.BatchRuns = batches
			says := strings.Join(safety.Harms(&p, sheet), " ")
			for _, id := range of {
				assert.Contains(t, says, route.Print(sheet.Value(id)/batches, id.Info().Unit)+" of ", o.Word)
			}
			assert.Equal(t, batches > 1, strings.Contains(says, "in each batch"), o.Word)
		}
	}
}

func TestAlkalineCellsHaveTheirOwnCautions(t *testing.T) {
	p := route.NewPlan()
	p.Rows[0].Kind = 2
	for _, word := range []string{"LR", "potash", "face shield", "running water", "Never in one batch", "lithium", "1997", "hydrogen"} {
		assert.Contains(t, words(route.Cells, &p), word)
	}
	assert.NotContains(t, words(route.Cells, &p), "R with no letter before it")
	assert.Contains(t, words(route.Wash, &p), "lye")
	assert.NotContains(t, words(route.Wash, &p), "ammonium")
	first := route.NewPlan()
	assert.NotContains(t, words(route.Cells, &first), "potash", "off by default")
}
