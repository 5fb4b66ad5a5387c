package main

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"
)

// kept is where the verdicts lie.
const kept = "dist/mutants"

// mutant is a change at a place, and what came of it.
type mutant struct {
	File         string
	Line, Column int
	Type         string // gremlins' name of the change
	Status       string // gremlins' word, or LOOPED; empty while unknown
	By           string `json:",omitempty"` // the test that noticed it
	Quick        bool   `json:",omitempty"` // judged by the short tests only
	Tests        string `json:",omitempty"` // digest of the tests that it lived through
}

func (m *mutant) sameAs(o mutant) bool {
	return m.File == o.File && m.Line == o.Line && m.Column == o.Column && m.Type == o.Type
}

func (m *mutant) spot() string { return fmt.Sprintf("%s:%d:%d", m.File, m.Line, m.Column) }

// draw is a number by which the mutants are spread.
func (m *mutant) draw() uint32 {
	h := fnv.New32a()
	io.WriteString(h, m.spot())
	return h.Sum32()
}

// record is what is known of a package's mutants.
type record struct {
	Package string
	Seconds float64           // spent so far, by the clock
	Sources map[string]string // digest by file
	Mutants []mutant

	name  string
	tests string // digest of the tests as they are
}

func load(pkg string, o options) (*record, error) {
	r := &record{Package: pkg, Sources: map[string]string{}}
	r.name = filepath.Join(kept, pkg+".json")
	if o.more {
		r.name = filepath.Join(kept, pkg+"-more.json")
	}
	text, err := os.ReadFile(r.name)
	if errors.Is(err, fs.ErrNotExist) {
		return r, nil
	}
	if err != nil {
		return nil, err
	}
	if err := json.Unmarshal(text, r); err != nil {
		return nil, fmt.Errorf("mutate: %s: %w", r.name, err)
	}
	return r, nil
}

// save writes the record in one stroke, so that a stop leaves it whole.
func (r *record) save() error {
	if err := os.MkdirAll(kept, 0o755); err != nil {
		return err
	}
	text, err := json.MarshalIndent(r, "", " ")
	if err != nil {
		return err
	}
	if err := os.WriteFile(r.name+".new", text, 0o644); err != nil {
		return err
	}
	return os.Rename(r.name+".new", r.name)
}

// forget drops the verdicts on a file, on all files where it is empty.
func (r *record) forget(file string) {
	for name := range r.Sources {
		if file == "" || name == file {
			delete(r.Sources, name)
		}
	}
}

// meet takes the mutants that there are now, and keeps the verdicts on those
// whose file is as it was.
func (r *record) meet(found []mutant) error {
	sources, err := sourcesOf(r.Package)
	if err != nil {
		return err
	}
	digests := map[string]string{}
	for _, name := range sources {
		if digests[filepath.Base(name)], err = digest(name); err != nil {
			return err
		}
	}
	for i := range found {
		m := &found[i]
		if m.Status == "NOT COVERED" {
			continue
		}
		m.Status = ""
		if r.Sources[m.File] != digests[m.File] {
			continue
		}
		if j := slices.IndexFunc(r.Mutants, m.sameAs); j >= 0 && r.Mutants[j].Status != "NOT COVERED" {
			*m = r.Mutants[j]
		}
	}
	slices.SortFunc(found, func(a, b mutant) int {
		return cmp.Or(strings.Compare(a.File, b.File), a.Line-b.Line, a.Column-b.Column, strings.Compare(a.Type, b.Type))
	})
	r.Mutants, r.Sources = found, digests
	tests, err := filepath.Glob(filepath.Join("chem", r.Package, "*_test.go"))
	if err != nil {
		return err
	}
	published, err := filepath.Glob("testdata/published/*")
	if err != nil {
		return err
	}
	r.tests, err = digest(append(tests, published...)...)
	return err
}

// todo lists the mutants still to be tried, of one file or, where that is
// empty, of all. Gremlins tries all that stand on one spot.
func (r *record) todo(file string, o options) []mutant {
	spots := map[string]bool{}
	for _, m := range r.Mutants {
		if file != "" && m.File != file || o.every > 1 && m.draw()%uint32(o.every) != 0 {
			continue
		}
		switch m.Status {
		case "":
		case "LIVED", "TIMED OUT":
			if m.Tests == r.tests && m.Status == "LIVED" && (o.quick || !m.Quick) {
				continue
			}
		default:
			continue
		}
		spots[m.spot()] = true
	}
	var list []mutant
	for _, m := range r.Mutants {
		if spots[m.spot()] {
			list = append(list, m)
		}
	}
	return list
}

func (r *record) set(m mutant) {
	if m.Status == "LIVED" {
		m.Tests = r.tests
	}
	if i := slices.IndexFunc(r.Mutants, m.sameAs); i >= 0 {
		r.Mutants[i] = m
	}
}

func digest(names ...string) (string, error) {
	sum := sha256.New()
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(sum, "%s %d\n", name, len(text))
		sum.Write(text)
	}
	return hex.EncodeToString(sum.Sum(nil)[:8]), nil
}

// sourcesOf lists the files of a package but for its tests.
func sourcesOf(pkg string) ([]string, error) {
	names, err := filepath.Glob(filepath.Join("chem", pkg, "*.go"))
	if err == nil && len(names) == 0 {
		err = fmt.Errorf("mutate: no package chem/%s", pkg)
	}
	return slices.DeleteFunc(names, func(name string) bool { return strings.HasSuffix(name, "_test.go") }), err
}

// tally counts verdicts by status.
type tally map[string]int

// efficacy is the share of the mutants tried that were killed; withUncovered
// counts against the tests what they never reach and what ran out of time too.
func (n tally) efficacy() float64 { return share(n.dead(), n["LIVED"]) }

func (n tally) withUncovered() float64 {
	return share(n.dead(), n["LIVED"]+n["NOT COVERED"]+n["TIMED OUT"])
}

func (n tally) dead() int { return n["KILLED"] + n["LOOPED"] }

func share(part, rest int) float64 {
	if part+rest == 0 {
		return 100
	}
	return 100 * float64(part) / float64(part+rest)
}

// report lists what lived, then a row for each package, and tells whether all
// packages are good enough; in part, by what was tried.
func report(out io.Writer, records []*record, part bool) (good bool) {
	good = true
	rows := tabwriter.NewWriter(out, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(rows, "package\tmutants\tkilled\tof them looped\tlived\tnot covered\ttimed out\tnot viable\tuntried\tefficacy %\tall covered %\tminutes\t")
	for _, r := range records {
		n := tally{}
		for _, m := range r.Mutants {
			n[m.Status]++
			if m.Status == "LIVED" || m.Status == "NOT COVERED" || m.Status == "TIMED OUT" {
				fmt.Fprintf(out, "%-11s %-22s chem/%s/%s:%d:%d\n", m.Status, m.Type, r.Package, m.File, m.Line, m.Column)
			}
		}
		fmt.Fprintf(rows, "%s\t%d\t%d\t%d\t%d\t%d\t%d\t%d\t%d\t%.1f\t%.1f\t%.1f\t\n", r.Package, len(r.Mutants), n.dead(), n["LOOPED"],
			n["LIVED"], n["NOT COVERED"], n["TIMED OUT"], n["NOT VIABLE"], n[""], n.efficacy(), n.withUncovered(), r.Seconds/60)
		good = good && n.withUncovered() >= enough && (part || n[""] == 0)
	}
	fmt.Fprintln(out)
	rows.Flush()
	return good
}
