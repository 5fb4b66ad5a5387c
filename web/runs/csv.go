package runs

import (
	"encoding/csv"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/link"
)

// Column is a further column of the table.
type Column struct {
	Head  string
	Value func(Run) float64 // quantity.Blank leaves the cell empty
}

// Expected is the column of a figure as the run's plan foretells it, such as
// "product.mass". The cell is empty where the plan cannot be read whole or gives
// the figure no value.
func Expected(key string) Column {
	var bench route.Bench
	id, ok := route.FigureByKey(key)
	return Column{key, func(r Run) float64 {
		c, troubles := link.Decode(r.Plan)
		if !ok || len(troubles) > 0 {
			return quantity.Blank
		}
		return bench.Run(&c.Plan).Value(id)
	}}
}

// WriteCSV writes a table of the runs, newest first: kept, name, the expected
// mass of product, what was found, further columns, flags, notes, id and plan.
// Units are those of the keys. A spreadsheet takes no text of it for a formula.
func (b *Book) WriteCSV(w io.Writer, more ...Column) error {
	list := b.List()
	found := map[string]bool{}
	for _, r := range list {
		for key := range r.Found {
			found[key] = true
		}
	}
	keys := slices.Sorted(maps.Keys(found))
	columns := []Column{Expected("product.mass")}
	for _, key := range keys {
		columns = append(columns, Column{key, func(r Run) float64 {
			if v, ok := r.Found[key]; ok {
				return v
			}
			return quantity.Blank
		}})
	}
	columns = append(columns, more...)

	out := csv.NewWriter(w)
	head := []string{"kept", "name"}
	for _, c := range columns {
		head = append(head, harmless(c.Head))
	}
	if err := out.Write(append(head, "flags", "notes", "id", "plan")); err != nil {
		return err
	}
	for _, r := range list {
		row := []string{harmless(r.Kept), harmless(r.Name)}
		for _, c := range columns {
			cell := ""
			if v := c.Value(r); quantity.Given(v) && !math.IsInf(v, 0) {
				cell = strconv.FormatFloat(v, 'f', -1, 64)
			}
			row = append(row, cell)
		}
		row = append(row, harmless(strings.Join(r.Flags, "; ")), harmless(r.Notes), r.ID, harmless(r.Plan))
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// harmless puts an apostrophe before text that a spreadsheet would compute. Some
// skip blanks and control characters first, and some take wide signs.
func harmless(s string) string {
	rest := strings.TrimLeftFunc(s, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r)
	})
	for _, sign := range []string{"=", "+", "-", "@", "＝", "＋", "－", "＠"} {
		if strings.HasPrefix(rest, sign) {
			return "'" + s
		}
	}
	return s
}
