//go:build !js

package browsertest

import (
	"maps"
	"slices"
	"testing"
)

// A short run (-short) does each thing that a browser can be bad at once, for browsers
// in which all of it takes too long every time: of cases that are the same to the
// browser it takes the first few, and it takes no pictures to be looked at.

// few are the first n of some cases in a short run, all of them otherwise.
func few[Case any](n int, cases []Case) []Case {
	if testing.Short() && len(cases) > n {
		return cases[:n]
	}
	return cases
}

// fewNamed does as [few] for cases with names.
func fewNamed[Case any](n int, cases map[string]Case) map[string]Case {
	kept, names := maps.Clone(cases), slices.Sorted(maps.Keys(cases))
	for _, name := range names[len(few(n, names)):] {
		delete(kept, name)
	}
	return kept
}

// toBeLookedAt skips what only takes pictures.
func toBeLookedAt(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("pictures are to be looked at, and a short run takes none")
	}
}
