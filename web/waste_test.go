package web

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestKeptRunsPourIntoTheSameBottles(t *testing.T) {
	one, two := running([]string{"v=1"}), running([]string{"v=1", "v=1"})
	require.Equal(t, len(one), len(two))
	require.NotEmpty(t, one)
	assert.Equal(t, "Wash liquor", one[0][0])
	assert.Contains(t, one[0][1], "1.9\u202fL")
	assert.Contains(t, two[0][1], "3.8\u202fL", "twice 1.88")
	assert.Empty(t, running(nil))
}
