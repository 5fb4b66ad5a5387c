package tabletest

import (
	"path/filepath"
	"strings"
	"testing"
)

func TestEveryPublishedRowIsSound(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(Dir(t), "*.csv"))
	if err != nil || len(files) == 0 {
		t.Fatal("no files", err)
	}
	for _, f := range files {
		Rows(t, strings.TrimSuffix(filepath.Base(f), ".csv"))
	}
}

func TestCheckRefuses(t *testing.T) {
	head := []string{"check", "expected", "tolerance", "standing", "source"}
	cases := []struct {
		name    string
		rows    [][]string
		problem string
	}{
		{"sound", [][]string{{"a", "1", "0", "derived", "s"}}, ""},
		{"no source", [][]string{{"a", "1", "0", "derived", " "}}, "a: no source"},
		{"no standing", [][]string{{"a", "1", "0", "", "s"}}, "a: no known standing"},
		{"no number", [][]string{{"a", "one", "0", "derived", "s"}}, "a: expected is not a number"},
		{"NaN tolerance", [][]string{{"a", "1", "NaN", "derived", "s"}}, "a: tolerance is not a number"},
		{"negative tolerance", [][]string{{"a", "1", "-1", "derived", "s"}}, "a: tolerance below zero"},
		{"same name twice", [][]string{{"a", "1", "0", "derived", "s"}, {"a", "1", "0", "derived", "s"}}, `check "a" has no name of its own`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if _, problem := check(t, append([][]string{head}, c.rows...)); problem != c.problem {
				t.Errorf("have %q, want %q", problem, c.problem)
			}
		})
	}
}
