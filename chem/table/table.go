// Package table holds the published tables that the plan reads: densities,
// solubilities, gas volumes, heats, each with the source it was taken from.
//
// A table is one CSV file under data/, with its title, source and standing in
// the comment lines at its head, so that file and page can say where a number
// comes from. At interpolates linearly between the printed rows and never goes
// beyond them:
//
//	rho, err := table.AcidDensity.At(97) // 1.8358 g/mL
//	_, err = table.AcidDensity.At(103)
//	// table: sulfuric acid density: 103 % is outside 0 to 100 %
//
// Tables are read when the program starts and never change; all methods may be
// called from several goroutines. Reading allocates nothing.
package table

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
)

// Row is one printed pair of values, in the units of its table.
type Row struct{ X, Y float64 }

// Table is a published function of one variable, given by rows.
type Table struct {
	name, title, source, note string
	standing                  Standing
	xName, xUnit              string
	yName, yUnit              string
	rows                      []Row // by rising X, at least two
	rising, falling           bool  // strictly, in Y
}

// At gives y at x, on the straight line between the rows on either side and
// exactly the printed value at a row; the units are XUnit and YUnit. Outside
// Range, and for NaN, it gives a *RangeError.
func (t *Table) At(x float64) (float64, error) {
	low, high, err := t.Between(x)
	if err != nil {
		return 0, err
	}
	return line(low.X, low.Y, high.X, high.Y, x), nil
}

// Inverse gives the x at which the table reads y. It needs y to rise or fall
// strictly over the whole table and gives ErrNotMonotone otherwise; a y that
// the table does not reach, and NaN, give a *RangeError.
func (t *Table) Inverse(y float64) (float64, error) {
	if !t.rising && !t.falling {
		return 0, fmt.Errorf("table: %s: %w", t.title, ErrNotMonotone)
	}
	first, last := t.rows[0].Y, t.rows[len(t.rows)-1].Y
	low, high := min(first, last), max(first, last)
	if !(low <= y && y <= high) {
		return 0, &RangeError{Table: t.title, X: y, Low: low, High: high, Unit: t.yUnit}
	}
	i, _ := slices.BinarySearchFunc(t.rows, y, func(r Row, y float64) int {
		if t.falling {
			return cmp.Compare(y, r.Y)
		}
		return cmp.Compare(r.Y, y)
	})
	if t.rows[i].Y == y {
		return t.rows[i].X, nil
	}
	return line(t.rows[i-1].Y, t.rows[i-1].X, t.rows[i].Y, t.rows[i].X, y), nil
}

// Between gives the printed rows on either side of x, for a page that shows
// what it read between; at a printed x both are that row. Outside Range, and
// for NaN, it gives a *RangeError.
func (t *Table) Between(x float64) (low, high Row, err error) {
	if first, last := t.Range(); !(first <= x && x <= last) { // also catches NaN
		return Row{}, Row{}, &RangeError{Table: t.title, X: x, Low: first, High: last, Unit: t.xUnit}
	}
	i, found := slices.BinarySearchFunc(t.rows, x, func(r Row, x float64) int { return cmp.Compare(r.X, x) })
	if found {
		return t.rows[i], t.rows[i], nil
	}
	return t.rows[i-1], t.rows[i], nil
}

// line gives the ordinate at x of the straight line through two points, which
// may be one and the same.
func line(x0, y0, x1, y1, x float64) float64 {
	if x0 == x1 {
		return y0
	}
	return y0 + (y1-y0)*((x-x0)/(x1-x0))
}

// Range gives the first and the last x of the table, in XUnit.
func (t *Table) Range() (low, high float64) { return t.rows[0].X, t.rows[len(t.rows)-1].X }

// Rows gives all printed rows, by rising x. The slice is a copy.
func (t *Table) Rows() []Row { return slices.Clone(t.rows) }

// Name is the name of the table's file without its ending: "acid-density".
func (t *Table) Name() string { return t.name }

// Title says what the table is of: "sulfuric acid density".
func (t *Table) Title() string { return t.title }

// Source names the publication that the values come from.
func (t *Table) Source() string { return t.source }

// Note says what a reader of the values should know besides; may be empty.
func (t *Table) Note() string { return t.note }

// Standing tells how far the values are to be trusted.
func (t *Table) Standing() Standing { return t.standing }

// XName says what x is: "mass fraction of H2SO4".
func (t *Table) XName() string { return t.xName }

// XUnit is the unit of x: "%"; empty for a plain number.
func (t *Table) XUnit() string { return t.xUnit }

// YName says what y is: "density at 20 °C".
func (t *Table) YName() string { return t.yName }

// YUnit is the unit of y: "g/mL"; empty for a plain number.
func (t *Table) YUnit() string { return t.yUnit }

// ErrNotMonotone is the error of Inverse for a table that rises and falls: more
// than one x belongs to a y.
var ErrNotMonotone = errors.New("cannot be read backwards: several x have one y")

// RangeError tells that a value lies outside what a table covers. Tables are
// never continued beyond their ends.
type RangeError struct {
	Table     string  // the table's title
	X         float64 // the value asked for, may be NaN
	Low, High float64 // what the table covers
	Unit      string  // the unit of all three, empty for a plain number
}

// Error gives the message, such as
// "table: sulfuric acid density: 103 % is outside 0 to 100 %".
func (e *RangeError) Error() string {
	unit := e.Unit
	if unit != "" {
		unit = " " + unit
	}
	x := "a value that is not a number"
	if !math.IsNaN(e.X) {
		x = short(e.X) + unit
	}
	return "table: " + e.Table + ": " + x + " is outside " + short(e.Low) + " to " + short(e.High) + unit
}

// short writes a number with as many digits as it needs.
func short(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }
