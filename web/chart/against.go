package chart

import (
	"math"

	"rosesalt/chem/route"
)

// Span is an interval with its middle.
type Span struct{ Low, Median, High float64 }

// Lot is a quantity as it was planned, as it was found, and as the account has it.
type Lot struct {
	Name, Unit          string
	Planned             Span // Median above zero
	Found, Account      Span
	IsFound, HasAccount bool
}

// Against sets what was found against what was planned: a row for each quantity, all
// to one scale on which the plan is 100 %.
func Against(lots []Lot) Picture {
	pic := Picture{
		Name:  "against",
		Lots:  lots,
		Note:  "Pale: to expect, eight times in ten. Dot: found, and how far the reading may be off. Thin line: as the account has it, eight times in ten.",
		Table: Table{Head: []string{"Weighed", "To expect", "Eight times in ten between", "Found", "As the account has it"}},
	}
	if len(lots) == 0 {
		pic.Why = "Nothing is to expect that could be weighed."
		return pic
	}
	for _, l := range lots {
		row := []string{l.Name, route.Print(l.Planned.Median, l.Unit), between(l.Planned, ""), "–", "–"}
		if l.IsFound {
			row[3] = route.Print(l.Found.Median, l.Unit)
		}
		if l.HasAccount {
			row[4] = between(l.Account, l.Unit)
		}
		pic.Table.Rows = append(pic.Table.Rows, row)
	}
	pic.Title = againstTitle(lots)
	return pic
}

func between(s Span, unit string) string {
	return route.Print(s.Low, "") + " and " + route.Print(s.High, unit)
}

// againstTitle names the quantity that came out farthest from its plan.
func againstTitle(lots []Lot) string {
	var most *Lot
	off := 0.0
	for i := range lots {
		l := &lots[i]
		if !l.IsFound {
			continue
		}
		if now := math.Abs(l.Found.Median/l.Planned.Median - 1); most == nil || now > off {
			most, off = l, now
		}
	}
	if most == nil {
		return "What the plan says that the balance will show"
	}
	name := most.Name
	share := route.Print(100*most.Found.Median/most.Planned.Median, "%")
	inside := "outside"
	if most.Found.Median >= most.Planned.Low && most.Found.Median <= most.Planned.High {
		inside = "within"
	}
	return name + ": " + share + " of what was to expect, " + inside + " what is seen eight times in ten"
}

// widestLot bounds the scale, in parts of the plan: a slip of the decimal point would
// press all else to a line.
const widestLot = 4.0

// lots lays the rows out.
func (d *drawing) lots(p *Picture) {
	most := 1.2
	for _, l := range p.Lots {
		best := l.Planned.Median
		most = math.Max(most, l.Planned.High/best)
		if l.IsFound {
			most = math.Max(most, l.Found.High/best)
		}
		if l.HasAccount {
			most = math.Max(most, l.Account.High/best)
		}
	}
	most = math.Min(most*1.03, widestLot)
	left, right := 4.0, d.width-8
	top := 0.0
	bars := d.line() + 6
	for _, l := range p.Lots {
		place := func(v float64) float64 {
			return left + (right-left)*math.Max(0, math.Min(1, v/l.Planned.Median/most))
		}
		says := l.Name + ": to expect " + route.Print(l.Planned.Median, l.Unit)
		if l.IsFound {
			says += ", found " + route.Print(l.Found.Median, l.Unit)
		}
		for _, line := range wrap(says, d.width, d.em) {
			d.write("name", line, 0, top+d.em, "")
			top += d.line()
		}
		middle := top + 13
		var band, mark, whisker, dot, thin, axis pen
		band.op('M', place(l.Planned.Low), middle-8).op('H', place(l.Planned.High)).op('V', middle+8).op('H', place(l.Planned.Low)).op('Z')
		mark.op('M', place(l.Planned.Median), middle-11).op('v', 22)
		axis.op('M', left, middle).op('H', right)
		if l.HasAccount {
			thin.op('M', place(l.Account.Low), middle+12).op('H', place(l.Account.High))
		}
		if l.IsFound {
			whisker.op('M', place(l.Found.Low), middle-4).op('v', 8).op('M', place(l.Found.Low), middle).op('H', place(l.Found.High)).op('m', 0, -4).op('v', 8)
			dot.dot(Round, spot{place(l.Found.Median), middle})
		}
		d.path("grid", axis.String())
		d.path("band zinc", band.String())
		d.path("limit", mark.String())
		d.path("line ochre", thin.String())
		d.path("line rose", whisker.String())
		d.path("dots rose", dot.String())
		top += bars + 12
	}
	var ticks pen
	ticks.op('M', left, top).op('H', right)
	end := math.Inf(-1)
	for _, share := range [...]float64{0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5} {
		if share > most {
			break
		}
		x := left + (right-left)*share/most
		ticks.op('M', x, top).op('v', 5)
		text := route.Print(100*share, "")
		half := length(text, d.em) / 2
		if at := math.Max(half, math.Min(x, d.width-half)); at-half > end {
			d.write("tick", text, at, top+6+d.em, "middle")
			end = at + half + 8
		}
	}
	d.path("axis", ticks.String())
	d.write("name", "% of what was to expect", right, top+6+d.em+d.line(), "end")
	d.height = top + 6 + 2*d.line() + 10
}
