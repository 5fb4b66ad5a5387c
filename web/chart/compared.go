package chart

import "math"

// Span is an interval with its middle.
type Span struct{ Low, Median, High float64 }

// Comparison is a quantity as it was planned, as it was found, and as an account of both
// has it, all in one unit.
type Comparison struct {
	Says                string // what stands above the row
	Planned             Span   // Median above zero
	Found, Account      Span
	IsFound, HasAccount bool
}

// widestComparison bounds the scale, in parts of the plan: a slip of the decimal point
// would press all else to a line.
const widestComparison = 4.0

// comparisons lays the rows out, all to one scale on which the plan is 100 %.
func (d *drawing) comparisons(list []Comparison) {
	most := 1.2
	for _, c := range list {
		most = math.Max(most, c.Planned.High/c.Planned.Median)
		if c.IsFound {
			most = math.Max(most, c.Found.High/c.Planned.Median)
		}
		if c.HasAccount {
			most = math.Max(most, c.Account.High/c.Planned.Median)
		}
	}
	most = math.Min(most*1.03, widestComparison)
	left, right, top := 4.0, d.width-8, 0.0
	for _, c := range list {
		x := func(v float64) float64 {
			return left + (right-left)*math.Max(0, math.Min(1, v/c.Planned.Median/most))
		}
		top = d.lines("name", wrap(c.Says, d.width, d.em), 0, top+d.em, d.line(), "") - d.em
		y := top + 13
		d.shape("grid", "MH", left, y, right)
		low, high := x(c.Planned.Low), x(c.Planned.High)
		d.shape("band zinc", "MHVHZ", low, y-8, high, y+8, low)
		d.shape("limit", "Mv", x(c.Planned.Median), y-11, 22)
		if c.HasAccount {
			d.shape("line ochre", "MH", x(c.Account.Low), y+12, x(c.Account.High))
		}
		if c.IsFound {
			low := x(c.Found.Low)
			d.shape("line rose", "MvMHmv", low, y-4, 8, low, y, x(c.Found.High), 0, -4, 8)
			var dot pen
			dot.dot(Round, spot{x(c.Found.Median), y})
			d.path("dots rose", dot)
		}
		top += d.line() + 18
	}
	var ticks []tick
	for share := 0.0; share <= math.Min(most, widestComparison-0.5); share += 0.5 {
		ticks = append(ticks, tick{left + (right-left)*share/most, Fixed(100*share, 0)})
	}
	var line pen
	line.add("MH", left, top, right)
	d.ticks(line, ticks, top, 8)
	d.write("name", "% of what was to expect", right, top+6+d.em+d.line(), "end")
	d.height = top + 6 + 2*d.line() + 10
}
