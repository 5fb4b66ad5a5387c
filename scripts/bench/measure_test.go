package main

import (
	"go/build"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/onefile"
)

// TestTheShippedPageHasNoBenchmarks: what is built without the tag has no functions for
// benchmarks.
func TestTheShippedPageHasNoBenchmarks(t *testing.T) {
	context := build.Default
	context.GOOS, context.GOARCH = "js", "wasm"
	for _, tags := range [][]string{nil, {measuredTag}} {
		context.BuildTags = tags
		web, err := context.ImportDir("../../web", 0)
		require.NoError(t, err)
		assert.Equal(t, tags != nil, slices.Contains(web.GoFiles, "benchmark.go"), tags)
	}
	assert.Empty(t, onefile.Page("page.html").Tags)
}

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
