package route

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	. "rosesalt/chem/reaction"
)

// TestRestDestroysDithionate: hot, with acid to spare and oxide left, hours destroy
// dithionate, and each mole of it dissolves one more of dioxide; without acid or hours
// nothing goes. Where no dioxide is left its gas stays dissolved or comes off.
func TestRestDestroysDithionate(t *testing.T) {
	base := []string{"batch.share=100", "loss.transfer=0", "slurry.acid=3000", "gas.excess=0", "gas.uptake=60", "gas.copper=20", "gas.acid=80", "slurry.beaker=50000"}
	_, none := run(t, base...)
	assert.Zero(t, none.Value(RestGone))
	last := none
	for _, hours := range []float64{1, 3, 9, 48} {
		entries := with(base, fmt.Sprintf("slurry.rest=%g", hours))
		_, s := run(t, entries...)
		assert.Greater(t, s.Value(RestGone), last.Value(RestGone), "%v h", hours)
		assert.Greater(t, s.Value(ReduceConversion), last.Value(ReduceConversion), "%v h", hours)
		assert.Less(t, s.Value(ProductDithionate), last.Value(ProductDithionate)+1e-12, "%v h", hours)
		assert.InDelta(t, none.Value(VentGas), s.Value(VentGas), 1e-9, "oxide takes the gas")
		gone := extents(t, Slurry, entries...)[RestDioxide]
		near(t, none.Value(ReduceConversion)/100*none.Value(BatchManganese)+1000*gone, s.Value(ReduceConversion)/100*s.Value(BatchManganese), 1e-9, "and dissolves")
		last = s
	}
	require.Greater(t, last.Value(RestGone), 95.0)
	_, cool := run(t, with(base, "slurry.rest=3", "slurry.rest.warm=50")...)
	assert.Less(t, cool.Value(RestGone), 5.0)

	// By the print: four fifths in three hours, in acid 1.4 times as strong as the plan's.
	_, s := run(t, "batch.share=0.1", "slurry.water=0", "slurry.acid=50000", "slurry.rest=4.2")
	assert.InDelta(t, 84, s.Value(RestGone), 3)

	// All oxide in reach used up: the gas of what breaks up is left over.
	full := []string{"gas.excess=60", "slurry.reach=100", "slurry.acid=900"}
	_, before := run(t, full...)
	_, after := run(t, with(full, "slurry.rest=10")...)
	assert.Greater(t, after.Value(RestGone), 10.0)
	assert.Greater(t, after.Value(VentGas)+after.Value(UptakeDissolved), before.Value(VentGas)+before.Value(UptakeDissolved)+1)
	assert.Positive(t, after.Value(RestFreed))
	near(t, before.Value(ReduceConversion), after.Value(ReduceConversion), 1e-9, "no oxide is left to dissolve")
}
