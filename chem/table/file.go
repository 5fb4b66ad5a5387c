package table

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// file is a data file taken apart: what stands at its head and its two
// columns, still as text.
type file struct {
	head map[string]string
	rows [][2]string
}

// keys are the words that may begin a comment line; only note may be missing.
var keys = []string{"title", "source", "standing", "x", "y", "note"}

// parseFile takes a data file apart. Comment lines "# key: text" come first
// (lines with the same key are joined by a space), then the names of the two
// columns, then one pair a line. Cells are plain: no quotes, no comma inside.
func parseFile(text string) (file, error) {
	f := file{head: make(map[string]string)}
	named := false
	number := 0
	for l := range strings.Lines(text) {
		number++
		l = strings.TrimSpace(l)
		if comment, ok := strings.CutPrefix(l, "#"); ok {
			key, value, ok := strings.Cut(comment, ":")
			key, value = strings.TrimSpace(key), strings.TrimSpace(value)
			if !ok || named || value == "" || !slices.Contains(keys, key) {
				return f, fmt.Errorf("line %d: bad comment %q", number, l)
			}
			f.head[key] = strings.TrimSpace(f.head[key] + " " + value)
			continue
		}
		x, y, ok := strings.Cut(l, ",")
		if !ok || x == "" || y == "" || strings.Contains(y, ",") {
			return f, fmt.Errorf("line %d: want two cells, have %q", number, l)
		}
		if !named {
			named = true
			continue
		}
		f.rows = append(f.rows, [2]string{x, y})
	}
	for _, key := range keys {
		if f.head[key] == "" && key != "note" {
			return f, fmt.Errorf("no %q at the head", key)
		}
	}
	return f, nil
}

// parseTable reads a table from the text of its data file and checks it: x
// rises strictly, all numbers are finite, two rows at least.
func parseTable(name, text string) (*Table, error) {
	f, err := parseFile(text)
	if err != nil {
		return nil, fmt.Errorf("table: %s: %w", name, err)
	}
	t := &Table{name: name, title: f.head["title"], source: f.head["source"], note: f.head["note"], rising: true, falling: true}
	t.xName, t.xUnit = nameAndUnit(f.head["x"])
	t.yName, t.yUnit = nameAndUnit(f.head["y"])
	if t.standing, err = parseStanding(f.head["standing"]); err != nil {
		return nil, fmt.Errorf("table: %s: %w", name, err)
	}
	for _, cells := range f.rows {
		x, err := number(cells[0])
		if err != nil {
			return nil, fmt.Errorf("table: %s: %w", name, err)
		}
		y, err := number(cells[1])
		if err != nil {
			return nil, fmt.Errorf("table: %s: %w", name, err)
		}
		if n := len(t.rows); n > 0 {
			last := t.rows[n-1]
			if x <= last.X {
				return nil, fmt.Errorf("table: %s: x does not rise at %s", name, cells[0])
			}
			t.rising = t.rising && y > last.Y
			t.falling = t.falling && y < last.Y
		}
		t.rows = append(t.rows, Row{x, y})
	}
	if len(t.rows) < 2 {
		return nil, fmt.Errorf("table: %s: %d rows are too few", name, len(t.rows))
	}
	return t, nil
}

// nameAndUnit parts "density at 20 °C, g/mL" at its last comma followed by a
// space; what has none is a plain number without a unit.
func nameAndUnit(text string) (name, unit string) {
	i := strings.LastIndex(text, ", ")
	if i < 0 {
		return text, ""
	}
	return text[:i], text[i+2:]
}

func number(cell string) (float64, error) {
	x, err := strconv.ParseFloat(cell, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		return 0, fmt.Errorf("%q is not a finite number", cell)
	}
	return x, nil
}
