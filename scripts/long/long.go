// Package long says how much of a test is run.
//
// A test that draws at random, or tries many cases that fail for one reason, has three
// lengths: short, by the testing package's own flag -short, for whoever waits for the
// answer; usual, in each run of all checks; and full, where the variable ROSESALT_LONG
// is set, which "make long" and "make browsers" do.
package long

import (
	"os"
	"testing"
)

// Variable is the variable of the environment that asks for the full length.
const Variable = "ROSESALT_LONG"

// Full tells whether the full length is asked for.
func Full() bool { return os.Getenv(Variable) != "" && !testing.Short() }

// Of chooses between the three lengths of a test.
func Of[T any](short, usual, full T) T {
	switch {
	case testing.Short():
		return short
	case Full():
		return full
	}
	return usual
}

// First gives the first n of the cases, and all of them at the full length. What comes
// first is what each run of all checks holds.
func First[Case any](n int, cases []Case) []Case {
	if Full() || len(cases) <= n {
		return cases
	}
	return cases[:n]
}

// Only skips a test that is run at the full length alone; why says what stands for it in
// the other runs.
func Only(t testing.TB, why string) {
	t.Helper()
	if !Full() {
		t.Skipf("run by make long: %s", why)
	}
}
