package route

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/phrase/phrasetest"
)

// TestEveryStageHasItsLine in whatever plan.
func TestEveryStageHasItsLine(t *testing.T) {
	held := phrasetest.Hold(t, lineTexts)
	for _, words := range [][]string{
		{},
		{"gas.source=metabisulfite", "dry.way=crystals"},
		{"gas.source=slurrysalt", "wash.times=0"},
		{"gas.source=peroxide", "cell.kind=alkaline"},
		{"gas.source=oxalic", "batch.share=100"},
		{"batch.runs=3"},
		{"gas.acid=0.1", "rinse.times=0"},
		{"cell.rejects=6"},
		{"cell.rejects=6", "dry.way=crystals", "gas.source=oxalic"},
	} {
		p := planOf(t, words...)
		s := new(Runner).Run(p)
		held.In(&Teller{Plan: p, Sheet: s})
		for stage := range Stage(Stages) {
			line := LineOf(stage, p, s)
			assert.NotEmpty(t, line.Parts, "stage %d, %v", stage, words)
		}
	}
	held.Done()
}

func TestLineSaysWhatIsPouredAndWhatComes(t *testing.T) {
	p := planOf(t)
	s := new(Runner).Run(p)
	line := LineOf(Gas, p, s)
	assert.Equal(t, ": "+Print(s.Value(GasVolume), "L")+" of gas", line.Parts[1].Text)
	assert.Equal(t, "ochre", line.Parts[1].Name)
	assert.Contains(t, line.Parts[0].Text, Print(s.Value(GasAcidUsed), "mL"))
	assert.Equal(t, "hot acid, poison gas", line.Stop)
}
