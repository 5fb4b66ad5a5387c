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
		route.Cells:      {"FR and CR are lithium", "1997", "mercury", "gloves"},
		route.Wash:       {"ammonia", "silver"},
		route.Batch:      {"chlorine"},
		route.Gas:        {"asthma", "goggles", "fume cupboard"},
		route.Slurry:     {"drawn back", "before you take the flame away", "Bleached paper"},
		route.CopperSalt: {"Never water into acid", "zinc"},
		route.Waste:      {"down the drain", "gas comes back"},
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
