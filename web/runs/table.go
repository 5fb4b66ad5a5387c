package runs

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"rosesalt/chem/account"
	"rosesalt/chem/cell"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/link"
)

// The keys of what runs of one bag and setup share.
const (
	Uptake = "gas.uptake"
	Charge = "cell.charge"
)

// Row is a kept run as the tables have it.
type Row struct {
	Cells   string  // such as "6 × R14"
	Planned float64 // g of product, or Blank
	Found   float64 // g of product, or Blank
	Yield   float64 // percent of what was planned, or Blank
	Content link.Content
	Sheet   *route.Sheet // valid until the runner runs again
}

// RowOf works a kept run's plan out.
func RowOf(s *State, runner *route.Runner) Row {
	c, _ := link.Decode(s.Plan)
	c.Case, _ = c.Sized()
	plan := c.Planned()
	sheet := runner.Run(&plan)
	r := Row{Content: c, Sheet: sheet, Planned: sheet.Value(route.ProductMass), Found: c.Found.Value(account.KeyProduct)}
	r.Yield = quantity.Blank
	if r.Planned > 0 && quantity.Given(r.Found) {
		r.Yield = 100 * r.Found / r.Planned
	}
	r.Cells = Cells(&c.Plan)
	return r
}

// Cells are the cells of a plan in short, such as "6 × R14 + 2 × R6".
func Cells(p *route.Plan) string {
	var cells []string
	for i := range p.Rows {
		row := &p.Rows[i]
		if quantity.Given(row.Count) {
			cells = append(cells, route.Plain(row.Count)+" × "+cell.Sizes()[row.Size].MarkAs(&cell.Kinds()[row.Kind]))
		}
	}
	return strings.Join(cells, " + ")
}

// tableInputs and tableFigures are the plan's columns.
var (
	tableInputs  = []string{"cell.count", "cell.size", "cell.kind", "batch.share", "gas.source", "gas.uptake", "dry.temperature"}
	tableFigures = []route.FigureID{route.ProductMass, route.CopperCrop, route.GasMade}
)

// WriteTable writes kept runs as a table of comma-separated values, a row for each: numbers in plain
// decimal in the unit that the head names, empty where there is none.
func WriteTable(w io.Writer, list []Kept) error {
	out := csv.NewWriter(w)
	var inputs []*route.Input
	head := []string{"kept", "name", "cells"}
	column := func(key, unit string) {
		if unit != "" {
			key += " (" + unit + ")"
		}
		head = append(head, key)
	}
	for _, key := range tableInputs {
		if in, ok := route.InputByKey(key); ok {
			inputs = append(inputs, in)
			column(key, in.Unit)
		}
	}
	for _, id := range tableFigures {
		column(id.Info().Key, id.Info().Unit)
	}
	for _, in := range account.Inputs() {
		column(in.Key, in.Unit)
	}
	for _, key := range []string{Uptake, Charge} {
		for _, of := range []string{"low", "likeliest", "high"} {
			column("learned "+key+" "+of, "%")
		}
	}
	head = append(head, "notes", "run", "plan")
	if err := out.Write(head); err != nil {
		return err
	}
	var runner route.Runner
	for i := range list {
		s := &list[i].State
		r := RowOf(s, &runner)
		row := []string{s.Kept, plainText(s.Name), r.Cells}
		plan, found := r.Content.Plan.Form(), r.Content.Found.Form()
		for _, in := range inputs {
			text := plan.Text(&in.Field)
			if v, ok := in.WorkedOut(&r.Content.Plan, r.Sheet); ok && text == "" {
				text = number(rounded(v))
			}
			row = append(row, text)
		}
		for _, id := range tableFigures {
			row = append(row, number(rounded(r.Sheet.Value(id))))
		}
		for _, in := range account.Inputs() {
			row = append(row, found.Text(in))
		}
		for _, key := range []string{Uptake, Charge} {
			learned, has := s.Learned[key]
			for _, v := range learned {
				if !has {
					v = quantity.Blank
				}
				row = append(row, number(v))
			}
		}
		row = append(row, plainText(s.Notes), s.RunID(), plainText(s.Plan))
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func number(v float64) string {
	if !quantity.Given(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// rounded to six digits: no plan is surer, and machines differ in the last.
func rounded(v float64) float64 {
	v, _ = strconv.ParseFloat(strconv.FormatFloat(v, 'g', 6, 64), 64)
	return v
}

// plainText keeps a spreadsheet from taking a text for a formula.
func plainText(text string) string {
	if text != "" && strings.ContainsRune("=+-@\t\r\n", rune(text[0])) {
		return "'" + text
	}
	return text
}

// Together is what chosen runs tell, each counted once: a second state of a run, or a
// second run of the very same plan and weighings, tells nothing new. Left is how many of
// them do not count.
func Together(list []Kept) (told []account.Told, left int) {
	seen := map[string]bool{}
	for i := range list {
		k := &list[i]
		if len(k.Told) == 0 || seen["run "+k.RunID()] || seen["plan "+k.Plan] {
			left++
			continue
		}
		seen["run "+k.RunID()], seen["plan "+k.Plan] = true, true
		told = append(told, k.Told)
	}
	return told, left
}
