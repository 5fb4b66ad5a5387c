package route

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestEveryFigureIsDeclaredOnce: each id has one row, in a list of its own stage, so that
// the figures of a stage stand together; those that answer its question stand first.
func TestEveryFigureIsDeclaredOnce(t *testing.T) {
	keys, rows := map[string]bool{}, 0
	for _, list := range figureLists {
		rows += len(list.rows)
	}
	assert.Equal(t, len(figures), rows)
	for i, f := range figures {
		assert.Equal(t, FigureID(i), f.ID, "%q", f.Key)
		assert.False(t, keys[f.Key] || f.Key == "" || f.Name == "", "%d: %q", i, f.Key)
		keys[f.Key] = true
		if i > 0 {
			before := figures[i-1]
			assert.GreaterOrEqual(t, f.Stage, before.Stage, f.Key)
			assert.False(t, f.Main && !before.Main && f.Stage == before.Stage, "%s stands behind %s", f.Key, before.Key)
		}
	}
	listed := 0
	for stage := range Stage(Stages) {
		for _, f := range FiguresOf(stage) {
			assert.Equal(t, stage, f.Stage, f.Key)
			listed++
		}
	}
	assert.Equal(t, len(figures), listed)
}

// TestOtherWays: reasons that speak of the plan's way, and none of what only this plan's
// numbers bring about.
func TestOtherWays(t *testing.T) {
	for _, r := range unmet[1:] {
		assert.True(t, r.OtherWay(), r.String())
	}
	for _, r := range []Reason{Defined, NotReached, NoCells, NoGas, NotMet, NothingVents, TooAcid} {
		assert.False(t, r.OtherWay(), r.String())
	}
}
