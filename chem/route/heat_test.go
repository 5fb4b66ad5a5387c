package route

import (
	"testing"

	"github.com/stretchr/testify/assert"

	. "rosesalt/chem/reaction"
)

// formed are the parts of a substance whose formation heats stand for it: ions in solution, an
// oxide and water; none for an element.
var formed = map[Substance][]string{
	SulfuricAcid:     {"SO4^2-"},
	ManganeseSulfate: {"Mn^2+", "SO4^2-"},
	CopperSulfate:    {"Cu^2+", "SO4^2-"},
	Oxygen:           {},
}

// given is the heat that an equation gives off, kJ.
func given(e *Equation) (heat float64) {
	for _, t := range e.Terms() {
		parts, ok := formed[t.Substance]
		if !ok {
			parts = []string{t.Substance.Formula()}
		}
		for _, part := range parts {
			heat -= t.Coefficient * formationHeat(part)
		}
	}
	return heat
}

// TestHeatsFollowTheEquations that the ways and the slurry count by.
func TestHeatsFollowTheEquations(t *testing.T) {
	assert.InDelta(t, given(ReduceDioxide), heatDioxide, 1e-9)
	assert.InDelta(t, given(ReduceHausmannite), heatHausmannite, 1e-9)
	for _, way := range reductants {
		if s := way.stir; s != nil && s.kept == nil {
			assert.InDelta(t, given(s.oxides[0])-given(ReduceDioxide), s.more.kJ, 1e-9, way.word)
			if s.breaks.text != "" {
				assert.InDelta(t, given(s.after), s.breaks.kJ, 1e-9, way.word)
			}
		}
	}
}
