package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestPercentile(t *testing.T) {
	times := []float64{5, 1, 4, 2, 3}
	assert.Equal(t, 3.0, median(times))
	assert.Equal(t, 2.5, median([]float64{4, 1, 2, 3}))
	assert.InDelta(t, 4.8, percentile(times, 95), 1e-12)
	assert.Equal(t, 5.0, percentile(times, 100))
	assert.Equal(t, 7.0, percentile([]float64{7}, 95))
	assert.True(t, math.IsNaN(median(nil)))
	assert.Equal(t, []float64{5, 1, 4, 2, 3}, times, "the times were put in order")
}
