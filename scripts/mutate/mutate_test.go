package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReachableIsAllButWhatNeverRan(t *testing.T) {
	measured := `mode: set
rosesalt/chem/p/a.go:10.5,12.3 2 1
rosesalt/chem/p/a.go:30.2,33.3 1 0
rosesalt/chem/p/a.go:20.8,22.4 1 0
`
	have, err := reachable(strings.NewReader(measured), "p", []string{"chem/p/a.go", "chem/p/b.go"})
	require.NoError(t, err)
	assert.Equal(t, `mode: set
rosesalt/chem/p/a.go:1.1,20.7 1 1
rosesalt/chem/p/a.go:22.4,30.1 1 1
rosesalt/chem/p/a.go:33.3,1000000.1 1 1
rosesalt/chem/p/b.go:1.1,1000000.1 1 1
`, have)
	_, err = reachable(strings.NewReader("mode: set\nnonsense\n"), "p", nil)
	assert.Error(t, err)
	_, err = reachable(strings.NewReader("mode: set\na.go:1.1 nonsense\n"), "p", nil)
	assert.Error(t, err)
}

func TestLinesProfile(t *testing.T) {
	assert.Equal(t, "mode: set\nrosesalt/chem/p/a.go:7.3,7.3 1 1\n",
		linesProfile("p", []mutant{{File: "a.go", Line: 7, Column: 3}}))
}

func TestListen(t *testing.T) {
	var heard []mutant
	rest, err := listen(strings.NewReader(`Starting...
       LIVED CONDITIONALS_BOUNDARY at gas.go:79:23
 NOT COVERED ARITHMETIC_BASE at dry.go:1:2

Killed: 1, Lived: 0, Not covered: 0
`), func(m mutant) { heard = append(heard, m) })
	require.NoError(t, err)
	assert.Equal(t, []mutant{
		{File: "gas.go", Line: 79, Column: 23, Type: "CONDITIONALS_BOUNDARY", Status: "LIVED"},
		{File: "dry.go", Line: 1, Column: 2, Type: "ARITHMETIC_BASE", Status: "NOT COVERED"},
	}, heard)
	assert.Contains(t, rest, "Killed: 1")
}

func TestLinesOfTheLog(t *testing.T) {
	log := filepath.Join(t.TempDir(), "log")
	assert.Empty(t, lineOf(log, 0), "no log yet")
	require.NoError(t, os.WriteFile(log, []byte("\nTestA\n\nloop\n"), 0o644))
	var have []string
	for n := range 4 {
		have = append(have, lineOf(log, n))
	}
	assert.Equal(t, []string{"TestA", "", "loop", ""}, have, "the second had no word: it lived, or ran out of time")
}

// A module of its own, with a package and its tests.
func inModule(t *testing.T) {
	t.Chdir(t.TempDir())
	for name, text := range map[string]string{
		"chem/p/a.go": "package p", "chem/p/b.go": "package p", "chem/p/a_test.go": "package p", "testdata/published/x.csv": "1",
	} {
		write(t, name, text)
	}
}

func write(t *testing.T, name, text string) {
	require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
}

func TestVerdictsAreKept(t *testing.T) {
	inModule(t)
	found := func() []mutant {
		return []mutant{
			{File: "b.go", Line: 1, Column: 1, Type: "X", Status: "RUNNABLE"},
			{File: "a.go", Line: 2, Column: 1, Type: "X", Status: "RUNNABLE"},
			{File: "a.go", Line: 1, Column: 1, Type: "X", Status: "RUNNABLE"},
			{File: "a.go", Line: 3, Column: 1, Type: "X", Status: "NOT COVERED"},
		}
	}
	meet := func() *record {
		r, err := load("p", options{})
		require.NoError(t, err)
		require.NoError(t, r.meet(found()))
		return r
	}
	places := func(list []mutant) (have []string) {
		for _, m := range list {
			have = append(have, m.File+":"+string(rune('0'+m.Line)))
		}
		return have
	}
	r := meet()
	assert.Equal(t, []string{"a.go:1", "a.go:2", "b.go:1"}, places(r.todo("", options{})))
	assert.Equal(t, []string{"b.go:1"}, places(r.todo("b.go", options{})))
	r.set(mutant{File: "a.go", Line: 1, Column: 1, Type: "X", Status: "KILLED", By: "TestA"})
	r.set(mutant{File: "a.go", Line: 2, Column: 1, Type: "X", Status: "LIVED"})
	r.set(mutant{File: "b.go", Line: 1, Column: 1, Type: "X", Status: "LIVED", Quick: true})
	require.NoError(t, r.save())

	r = meet()
	assert.Empty(t, r.todo("", options{quick: true}), "all is known")
	assert.Equal(t, []string{"b.go:1"}, places(r.todo("", options{})), "lived through the short tests only")
	r.set(mutant{File: "b.go", Line: 1, Column: 1, Type: "X", Status: "TIMED OUT"})
	require.NoError(t, r.save())
	assert.Equal(t, []string{"b.go:1"}, places(meet().todo("", options{})), "out of time is no verdict")

	write(t, "chem/p/a_test.go", "package p // more")
	assert.Equal(t, []string{"a.go:2", "b.go:1"}, places(meet().todo("", options{})), "new tests may kill what lived")
	write(t, "chem/p/a.go", "package p // other")
	assert.Equal(t, []string{"a.go:1", "a.go:2", "b.go:1"}, places(meet().todo("", options{})), "a file that changed")

	twins := &record{Mutants: []mutant{
		{File: "a.go", Line: 1, Column: 1, Type: "X", Status: "KILLED"},
		{File: "a.go", Line: 1, Column: 1, Type: "Y"},
		{File: "a.go", Line: 1, Column: 2, Type: "X", Status: "KILLED"},
	}}
	assert.Len(t, twins.todo("", options{}), 2, "all on one spot are tried together")

	part := 0
	for n := range 1000 {
		m := mutant{File: "a.go", Line: n, Column: 1}
		if m.draw()%5 == 0 {
			part++
		}
	}
	assert.InDelta(t, 200, part, 40, "one in five")

	r = meet()
	r.forget("b.go")
	require.NoError(t, r.meet(found()))
	assert.Contains(t, places(r.todo("", options{})), "b.go:1")
	_, err := sourcesOf("none")
	assert.Error(t, err)
}

func TestReport(t *testing.T) {
	list := func(status string, n int) (list []mutant) {
		for i := range n {
			list = append(list, mutant{File: "a.go", Line: i + 1, Type: "X", Status: status})
		}
		return list
	}
	of := func(parts ...[]mutant) []*record {
		r := &record{Package: "p"}
		for _, part := range parts {
			r.Mutants = append(r.Mutants, part...)
		}
		return []*record{r}
	}
	var out strings.Builder
	assert.True(t, report(&out, of(list("KILLED", 84), list("LOOPED", 1), list("LIVED", 10), list("NOT COVERED", 5), list("NOT VIABLE", 50)), false))
	assert.Contains(t, out.String(), "LIVED       X                      chem/p/a.go:1:0")
	assert.Regexp(t, `p +150 +85 +1 +10 +5 +0 +50 +0 +89\.5 +85\.0`, out.String())
	assert.False(t, report(&out, of(list("KILLED", 84), list("LIVED", 10), list("NOT COVERED", 6)), false), "what no test reaches counts")
	assert.False(t, report(&out, of(list("KILLED", 84), list("LIVED", 10), list("TIMED OUT", 6)), false), "so does what ran out of time")
	assert.False(t, report(&out, of(list("KILLED", 99), list("", 1)), false), "not all tried")
	assert.True(t, report(&out, of(list("KILLED", 99), list("", 1)), true), "nor should all be")
}
