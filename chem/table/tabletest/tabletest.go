// Package tabletest reads the published check values in testdata/published,
// for tests. It refuses a row that does not say where its value comes from.
package tabletest

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Row is one check value with its inputs, as the file has it.
type Row struct {
	t     testing.TB
	cells map[string]string
}

// Rows reads the file of the given name, "crops" for crops.csv. The test fails
// at once if the file cannot be read, holds no row, repeats a check's name, or
// has a row without a source, a standing, or a finite expected value and
// tolerance.
func Rows(t testing.TB, name string) []Row {
	t.Helper()
	f, err := os.Open(filepath.Join(Dir(t), name+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(lines) < 2 {
		t.Fatalf("%s: no rows", name)
	}
	rows, problem := check(t, lines)
	if problem != "" {
		t.Fatalf("%s: %s", name, problem)
	}
	return rows
}

// check turns lines into rows and names the first thing wrong with them.
func check(t testing.TB, lines [][]string) (rows []Row, problem string) {
	head, seen := lines[0], make(map[string]bool)
	for _, l := range lines[1:] {
		cells := make(map[string]string, len(head))
		for i, column := range head {
			cells[column] = strings.TrimSpace(l[i])
		}
		id := cells["check"]
		switch cells["standing"] {
		case "published", "derived", "from memory", "estimate":
		default:
			return nil, id + ": no known standing"
		}
		if id == "" || seen[id] {
			return nil, "check " + strconv.Quote(id) + " has no name of its own"
		}
		seen[id] = true
		if cells["source"] == "" {
			return nil, id + ": no source"
		}
		for _, column := range []string{"expected", "tolerance"} {
			if x, err := strconv.ParseFloat(cells[column], 64); err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
				return nil, id + ": " + column + " is not a number"
			}
		}
		if strings.HasPrefix(cells["tolerance"], "-") {
			return nil, id + ": tolerance below zero"
		}
		rows = append(rows, Row{t, cells})
	}
	return rows, ""
}

// Dir finds testdata/published from the directory of any package.
func Dir(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(dir, "testdata", "published")
		}
		up := filepath.Dir(dir)
		if up == dir {
			t.Fatal("no go.mod above the working directory")
		}
		dir = up
	}
}

// Check is the row's name, unique in its file, good for a subtest's name.
func (r Row) Check() string { return r.cells["check"] }

// Source says where the expected value comes from.
func (r Row) Source() string { return r.cells["source"] }

// Expected is the value to be met, Tolerance how closely, in the same unit.
func (r Row) Expected() float64 { return r.Float("expected") }

// Tolerance is how far from Expected a value may be, in the same unit.
func (r Row) Tolerance() float64 { return r.Float("tolerance") }

// Text gives a cell as it stands, "" where it is blank; a column that the file
// does not have fails the test.
func (r Row) Text(column string) string {
	r.t.Helper()
	text, ok := r.cells[column]
	if !ok {
		r.t.Fatalf("%s: no column %q", r.Check(), column)
	}
	return text
}

// Float gives a cell as a number; anything else fails the test.
func (r Row) Float(column string) float64 {
	r.t.Helper()
	x, err := strconv.ParseFloat(r.Text(column), 64)
	if err != nil {
		r.t.Fatalf("%s: %s: %v", r.Check(), column, err)
	}
	return x
}

// Meets fails the test where the value is not within Tolerance of Expected.
// A hair is allowed for the last bit of the comparison itself.
func (r Row) Meets(t testing.TB, have float64) {
	t.Helper()
	want, tolerance := r.Expected(), r.Tolerance()
	if !(math.Abs(have-want) <= tolerance+1e-12*math.Abs(want)) {
		t.Errorf("%s: have %.8g, want %.8g within %.2g (%s)", r.Check(), have, want, tolerance, r.Source())
	}
}
