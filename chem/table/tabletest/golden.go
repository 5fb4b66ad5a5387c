package tabletest

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"
)

// Golden holds rows under a head, the first cell of each its key, to the file of that name in
// testdata/golden, numbers to a billionth. Where it is to be written anew, rows stay where they
// stood and cells that still hold stay as they were, so that the difference is what moved.
func Golden(t testing.TB, name string, anew bool, have [][]string) {
	t.Helper()
	path := filepath.Join(Dir(t), "..", "golden", name+".csv")
	text, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer text.Close()
	want, err := csv.NewReader(text).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	place := map[string]int{}
	for i, row := range want {
		place[row[0]] = i
	}
	gone, before := len(want), 0
	for _, row := range have {
		at, ok := place[row[0]]
		if !ok {
			place[row[0]] = before // behind the row that it follows
			if !anew {
				t.Errorf("%s: %s is new", name, row[0])
			}
			continue
		}
		gone, before = gone-1, at
		for k := range row {
			switch old := want[at][k]; {
			case same(old, row[k]):
				row[k] = old
			case !anew:
				t.Errorf("%s: %s of %s was %s, is %s", name, want[0][k], row[0], old, row[k])
			}
		}
	}
	if !anew {
		if gone > 0 {
			t.Errorf("%s: %d rows are gone", name, gone)
		}
		return
	}
	slices.SortStableFunc(have, func(a, b []string) int { return place[a[0]] - place[b[0]] })
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	if err := csv.NewWriter(file).WriteAll(have); err != nil {
		t.Fatal(err)
	}
}

// same tells whether two cells say the same: words, or numbers to a billionth.
func same(a, b string) bool {
	x, errX := strconv.ParseFloat(a, 64)
	y, errY := strconv.ParseFloat(b, 64)
	if errX != nil || errY != nil {
		return a == b
	}
	return math.Abs(x-y) <= 1e-9*math.Max(math.Abs(x), 1e-6)
}
