package section

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/web/doc/doctest"
)

// TestALargeFlaskDoesNotFitABench: where the acid is more than a bench takes, the first screen
// says so and not that it fits; in the batches that it offers it fits.
func TestALargeFlaskDoesNotFitABench(t *testing.T) {
	s := from("v=2&cell.size=R20&cell.count=12&batch.share=50&gas.flask=2000&slurry.beaker=20000")
	said := doctest.Text(Glance(s)...)
	assert.Contains(t, said, "no longer work for a bench")
	assert.NotContains(t, said, "Fits.")
	for _, n := range s.Notices() {
		for _, m := range n.Mends {
			if n.Key == "gas.acid" {
				Mend(s.Desk, m)
			}
		}
	}
	said = doctest.Text(Glance(s)...)
	assert.NotContains(t, said, "no longer work for a bench")
	assert.Contains(t, said, "Fits.")
}
