package club_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
)

// TestCrystalsGrownHotAreOfferedToAnAdult: somebody keeps the heat up, so that it is a step like
// others, and what is offered for it can be done.
func TestCrystalsGrownHotAreOfferedToAnAdult(t *testing.T) {
	p := route.NewPlan()
	for _, c := range [][2]string{{"dry.way", "crystals"}, {"crop.cold", "90"}} {
		form := p.Form()
		f, ok := form.Find(c[0])
		require.True(t, ok)
		require.NoError(t, form.Set(f, c[1]))
	}
	w := inLessons(p)
	w.Days.Long = 60 * time.Minute // shorter than the step takes
	given := false
	for _, o := range w.Offers() {
		for _, c := range o.Set {
			given = given || c.Key == procedure.HandPrefix+"grow"
			if key, is := c.Key[:min(len(c.Key), 3)], procedure.Hands.Form(nil); key == procedure.HandPrefix {
				_, ok := is.Find(c.Key)
				assert.True(t, ok, "%s: %s", o.Text, c.Key)
			}
		}
		t.Log(o.Text, o.Set, o.Gives)
	}
	assert.True(t, given)
}
