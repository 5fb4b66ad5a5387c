package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"syscall"
)

// Gremlins calls "go test" for every mutant and judges by its exit status. That
// misleads: a mutant that does not compile ends like one that a test noticed,
// and on a machine that is busy a mutant runs out of time that would have
// lived. It also asks the coverage, which knows nothing of package-level values
// and of the conditions of a switch, what is worth trying. So gremlins finds
// this program under the name of go.

// What the stand-in needs to know, in its environment.
const (
	envGo      = "MUTATE_GO"      // the real go
	envProfile = "MUTATE_PROFILE" // the profile to hand over
	envLog     = "MUTATE_LOG"     // gets a line for each mutant: what noticed it
	envDry     = "MUTATE_DRY"     // not empty: nothing will be tried
	envQuick   = "MUTATE_QUICK"   // not empty: short tests only
)

// The exit statuses as gremlins reads them.
const (
	lived     = 0
	killed    = 1
	notViable = 2
)

// skipped are tests that say nothing about mutants: Golden holds whatever
// numbers the code gave before, and a build without inlining allocates.
const skipped = "Golden|Allocat"

// Processor time for the tests, in seconds, however long that takes: about ten
// times of what they need, the short ones and all of them.
const (
	shortLimit = 15
	longLimit  = 120
)

func standIn(args []string) int {
	goTool := os.Getenv(envGo)
	if args[0] != "test" {
		return pass(goTool, args)
	}
	if profile := slices.Index(args, "-coverprofile"); profile >= 0 {
		// The unchanged code must pass the tests as mutants are run; gremlins
		// takes its limit of time from how long that took.
		if os.Getenv(envDry) == "" {
			dir := strings.TrimSuffix(args[len(args)-1], "/...")
			if status, noticed := try(goTool, dir); status != lived {
				fmt.Printf("mutate: the tests fail without any change: %s\n", noticed)
				return 1
			}
		}
		return copyFile(os.Getenv(envProfile), args[profile+1])
	}
	log, err := os.OpenFile(os.Getenv(envLog), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return lived
	}
	defer log.Close()
	fmt.Fprintln(log) // at once: whoever runs out of time has a line too
	status, noticed := try(goTool, ".")
	fmt.Fprint(log, noticed)
	return status
}

func pass(goTool string, args []string) int {
	cmd := exec.Command(goTool, args...)
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	if cmd.Run() != nil {
		return 1
	}
	return 0
}

func copyFile(from, to string) int {
	text, err := os.ReadFile(from)
	if err == nil {
		err = os.WriteFile(to, text, 0o644)
	}
	if err != nil {
		fmt.Println(err)
		return 1
	}
	return 0
}

var firstFailure = regexp.MustCompile(`(?m)^\s*--- FAIL: (\S+)`)

// try builds and runs the tests of the package in dir, and tells what noticed a
// fault: a test's name, "loop" when the processor time ran out, "panic" when
// the program stopped outside any test.
//
// Most of the time goes into compiling, so little is optimised and nothing vetted
// or kept for a debugger.
func try(goTool, dir string) (status int, noticed string) {
	work, err := os.MkdirTemp("", "mutant")
	if err != nil {
		return lived, err.Error()
	}
	defer os.RemoveAll(work)
	binary := filepath.Join(work, "tests")
	build := exec.Command(goTool, "test", "-c", "-vet=off", "-gcflags=-l -dwarf=false", "-ldflags=-s -w", "-o", binary, ".")
	build.Dir = dir
	build.Env = append(os.Environ(), "GOGC=off")
	if out, err := build.CombinedOutput(); err != nil {
		lines := strings.SplitN(string(out), "\n", 3)
		return notViable, lines[min(1, len(lines)-1)]
	}
	status, noticed = runTests(binary, dir, shortLimit, "-test.short")
	if status == lived && os.Getenv(envQuick) == "" {
		status, noticed = runTests(binary, dir, longLimit)
	}
	return status, noticed
}

func runTests(binary, dir string, limit int, flags ...string) (status int, noticed string) {
	args := append([]string{"-test.failfast", "-test.timeout=30m", "-test.skip=" + skipped}, flags...)
	if draws(dir) {
		args = append(args, "-rapid.nofailfile", "-rapid.shrinktime=1ms") // that it fails is enough
	}
	// The limits keep a mutant without end from taking the machine with it.
	limited := fmt.Sprintf(`ulimit -t %d; ulimit -v 8000000 2>/dev/null; exec "$0" "$@"`, limit)
	cmd := exec.Command("sh", append([]string{"-c", limited, binary}, args...)...)
	cmd.Dir = dir
	var out bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &out
	err := cmd.Run()
	if err == nil {
		return lived, ""
	}
	if w, ok := cmd.ProcessState.Sys().(syscall.WaitStatus); ok && w.Signaled() {
		return killed, "loop"
	}
	if m := firstFailure.FindSubmatch(out.Bytes()); m != nil {
		return killed, string(m[1])
	}
	return killed, "panic"
}

// draws tells whether the package's tests make random draws, so that their
// binary knows the flags for it.
func draws(dir string) bool {
	names, _ := filepath.Glob(filepath.Join(dir, "*_test.go"))
	for _, name := range names {
		if text, err := os.ReadFile(name); err == nil && bytes.Contains(text, []byte(`"pgregory.net/rapid"`)) {
			return true
		}
	}
	return false
}
