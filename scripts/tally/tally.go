package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"sort"
	"strings"
)

// Count is how the tests of a run ended. A test with subtests counts through
// them; it counts itself only when it failed and none of them did. A package
// that failed without a failed test (it did not compile, it ended early)
// counts as one failure.
type Count struct {
	Passed, Failed, Skipped int
}

// event is a line of go test -json; see go doc test2json.
type event struct {
	Action      string
	Package     string
	ImportPath  string // of a build event, in place of Package
	Test        string
	Output      string
	FailedBuild string
}

// test is a test of one package while it runs and after.
type test struct {
	began  bool   // false for a mere part of a name, as "a" in "T/a/b" when the subtest is called "a/b"
	ended  string // pass, fail, skip; empty while it runs
	output []string
	parent bool
}

// packageRun is a package's run.
type packageRun struct {
	tests  map[string]*test
	output []string // outside any test
}

// Tally counts the events of in and writes the output of failed tests, and a
// line for each package, to out.
func Tally(in io.Reader, out io.Writer) (Count, error) {
	var count Count
	packages := map[string]*packageRun{}
	builds := map[string][]string{}
	lines := bufio.NewReader(in)
	for {
		line, err := lines.ReadString('\n')
		if line != "" {
			var e event
			if json.Unmarshal([]byte(line), &e) != nil || e.Action == "" {
				// What go itself says, as on a pattern it cannot match.
				fmt.Fprint(out, line)
			} else {
				take(e, packages, builds, &count, out)
			}
		}
		if err == io.EOF {
			break
		}
		if err != nil {
			return count, fmt.Errorf("tally: %w", err)
		}
	}
	// A package that never ended was cut off.
	for name, p := range packages {
		fmt.Fprintf(out, "FAIL\t%s\tnever ended\n", name)
		count.add(p.close(true, out))
	}
	return count, nil
}

func (c *Count) add(d Count) {
	c.Passed += d.Passed
	c.Failed += d.Failed
	c.Skipped += d.Skipped
}

func take(e event, packages map[string]*packageRun, builds map[string][]string, count *Count, out io.Writer) {
	if e.Action == "build-output" {
		builds[e.ImportPath] = append(builds[e.ImportPath], e.Output)
		return
	}
	if e.Package == "" {
		return
	}
	p := packages[e.Package]
	if p == nil {
		p = &packageRun{tests: map[string]*test{}}
		packages[e.Package] = p
	}
	if e.Test == "" {
		switch e.Action {
		case "output":
			p.output = append(p.output, e.Output)
		case "pass", "skip", "fail":
			for _, said := range builds[e.FailedBuild] {
				fmt.Fprint(out, said)
			}
			count.add(p.close(e.Action == "fail", out))
			delete(packages, e.Package)
		}
		return
	}
	t := p.test(e.Test)
	switch e.Action {
	case "run":
		t.began = true
		// Of a test that is run again the last time counts, unless it had failed.
		if t.ended != "fail" {
			t.ended = ""
		}
	case "output":
		t.output = append(t.output, e.Output)
	case "pass", "fail", "skip":
		if t.ended != "fail" {
			t.ended = e.Action
		}
	}
}

// test finds or makes the test called name and marks the tests above it.
func (p *packageRun) test(name string) *test {
	t := p.tests[name]
	if t != nil {
		return t
	}
	t = &test{}
	p.tests[name] = t
	if i := strings.LastIndex(name, "/"); i >= 0 {
		p.test(name[:i]).parent = true
	}
	return t
}

// close counts a package that has ended and says how.
func (p *packageRun) close(failed bool, out io.Writer) Count {
	var c Count
	names := make([]string, 0, len(p.tests))
	for name := range p.tests {
		names = append(names, name)
	}
	// Subtests before the test above them, which counts by what they did.
	sort.Slice(names, func(i, j int) bool { return names[i] > names[j] })
	below := map[string]bool{} // tests with a failure below them
	var reports []string
	for _, name := range names {
		t := p.tests[name]
		fell := t.ended == "fail" || t.began && t.ended == ""
		switch {
		case fell && !below[name]:
			c.Failed++
		case t.parent: // counted through its subtests
		case t.ended == "pass":
			c.Passed++
		case t.ended == "skip":
			c.Skipped++
		}
		if !fell && t.ended != "skip" {
			continue
		}
		if fell {
			for i := strings.LastIndex(name, "/"); i >= 0; i = strings.LastIndex(name[:i], "/") {
				below[name[:i]] = true
			}
		}
		reports = append(reports, strings.Join(t.output, ""))
	}
	for i := len(reports) - 1; i >= 0; i-- {
		fmt.Fprint(out, reports[i])
	}
	if failed && c.Failed == 0 {
		c.Failed = 1
	}
	for _, line := range p.output {
		if failed || strings.HasPrefix(line, "ok ") || strings.HasPrefix(line, "?") || strings.HasPrefix(line, "again: ") {
			fmt.Fprint(out, line)
		}
	}
	return c
}
