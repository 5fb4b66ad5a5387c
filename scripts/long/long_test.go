package long_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/long"
)

func TestLengthIsChosenByFlagAndVariable(t *testing.T) {
	t.Setenv(long.Variable, "")
	assert.False(t, long.Full())
	assert.Equal(t, map[bool]int{true: 1, false: 2}[testing.Short()], long.Of(1, 2, 3))
	assert.Equal(t, []int{1, 2}, long.First(2, []int{1, 2, 3}))
	assert.Equal(t, []int{1}, long.First(2, []int{1}))
	t.Run("skipped", func(t *testing.T) {
		long.Only(t, "this line")
		t.Error("it was run")
	})

	t.Setenv(long.Variable, "1")
	assert.Equal(t, !testing.Short(), long.Full(), "-short goes before")
	assert.Equal(t, map[bool]int{true: 1, false: 3}[testing.Short()], long.Of(1, 2, 3))
	if long.Full() {
		assert.Equal(t, []int{1, 2, 3}, long.First(2, []int{1, 2, 3}))
		long.Only(t, "nothing")
	}
}
