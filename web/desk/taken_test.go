package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

// What a hand takes in a run, by key: a new input must be put on one side.
func TestTakenIsWhatAHandMeasures(t *testing.T) {
	taken := map[string]bool{}
	inputs := route.Inputs()
	for i := range inputs {
		if in := &inputs[i]; in.Row <= 1 && desk.Taken(in) {
			taken[in.Key] = true
		}
	}
	for _, key := range []string{
		"cell.count", "mix.wet", "mix.washed", "wash.each", "wash.acid", "batch.share", "gas.acid", "gas.copper", "gas.salt",
		"gas.minutes", "slurry.water", "slurry.temperature", "rinse.times", "dry.temperature", "copper.cold", "peroxide.charge", "oxalic.charge", "salt.charge",
	} {
		assert.True(t, taken[key], key)
	}
	for _, key := range []string{"gas.uptake", "gas.excess", "stir.excess", "gas.source", "cell.charge", "mix.carbon", "room.volume", "room.limit", "wash.target", "slurry.dithionate", "slurry.beaker"} {
		assert.False(t, taken[key], key)
	}
}
