package main

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
)

// A line of a coverage profile: file:line.column,line.column statements count.
const profileLine = "rosesalt/chem/%s/%s:%d.%d,%d.%d 1 1\n"

type place struct{ line, column int }

func (p place) compare(q place) int { return cmp.Or(p.line-q.line, p.column-q.column) }

type stretch struct{ from, to place }

// reachable turns a measured profile into one of all that the tests may reach:
// every file but the blocks that never ran. A profile knows blocks of
// statements only; package-level values and the conditions of a switch lie in
// none, and would pass for code that no test reaches.
func reachable(measured io.Reader, pkg string, sources []string) (string, error) {
	missed := map[string][]stretch{}
	lines := bufio.NewScanner(measured)
	for lines.Scan() {
		if strings.HasPrefix(lines.Text(), "mode:") {
			continue
		}
		colon := strings.LastIndex(lines.Text(), ":")
		if colon < 0 {
			return "", fmt.Errorf("mutate: no line of a profile: %q", lines.Text())
		}
		var s stretch
		var statements, count int
		if _, err := fmt.Sscanf(lines.Text()[colon+1:], "%d.%d,%d.%d %d %d", &s.from.line, &s.from.column,
			&s.to.line, &s.to.column, &statements, &count); err != nil {
			return "", fmt.Errorf("mutate: %q of a profile: %w", lines.Text(), err)
		}
		if count == 0 {
			file := filepath.Base(lines.Text()[:colon])
			missed[file] = append(missed[file], s)
		}
	}
	if err := lines.Err(); err != nil {
		return "", err
	}
	text := "mode: set\n"
	for _, name := range sources {
		file := filepath.Base(name)
		slices.SortFunc(missed[file], func(a, b stretch) int { return a.from.compare(b.from) })
		from := place{1, 1}
		for _, s := range missed[file] {
			if from.compare(s.from) < 0 {
				text += fmt.Sprintf(profileLine, pkg, file, from.line, from.column, s.from.line, s.from.column-1)
			}
			if from.compare(s.to) < 0 {
				from = s.to
			}
		}
		text += fmt.Sprintf(profileLine, pkg, file, from.line, from.column, 1_000_000, 1)
	}
	return text, nil
}

// linesProfile is a profile that makes gremlins try these mutants, and those on
// the same spot, but no others.
func linesProfile(pkg string, list []mutant) string {
	text := "mode: set\n"
	for _, m := range list {
		text += fmt.Sprintf(profileLine, pkg, m.File, m.Line, m.Column, m.Line, m.Column)
	}
	return text
}
