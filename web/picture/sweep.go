package picture

import (
	"math"
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/chart"
)

// Sweep shows the product against one input of the plan, with its interval, and a mark
// wherever the charge that runs out first becomes another one. Own is the plan's value of
// the input. Without a sweep, or with one that is not done, the picture waits.
func Sweep(in *route.Input, own float64, sweep *spread.Sweep, done bool) chart.Picture {
	s := swept{
		input: chart.Axis{Name: phrase.Lower(in.Name), Unit: in.Unit, Whole: in.Whole, Free: !in.Whole},
		own:   own, waiting: !done,
	}
	if in.Key == "cell.count" {
		s.input, s.things = chart.Axis{Name: "cells in the bag", Whole: true}, "cells"
	}
	if sweep != nil {
		s.points, s.turns = sweep.Line(0), sweep.Turns()
		for i := range s.points {
			s.limits = append(s.limits, sweep.Limit(i))
		}
	}
	return s.picture()
}

// figure is the axis of what is read, in every sweep.
var figure = chart.Axis{Name: "manganese sulfate in the jar", Unit: "g"}

// swept is what the picture of a sweep is made of.
type swept struct {
	input   chart.Axis
	things  string // what the input counts, "cells"; "" where it has a unit
	own     float64
	points  []spread.Point
	limits  []string // beside points, as route.GasLimit says it: "acid", "copper", route.NeitherFirst, or ""
	turns   []spread.Turn
	waiting bool
}

func (s *swept) picture() chart.Picture {
	pic := chart.Picture{Name: "sweep", X: s.input, Waiting: s.waiting}
	if s.things != "" {
		pic.Name = s.things
	}
	line := chart.Series{Role: chart.Rose}
	for _, q := range s.points {
		at := chart.At(q.At, q.Best)
		if at.OK && sure(q) {
			at.Low, at.High, line.Interval = q.Low, q.High, "eight times in ten"
		}
		line.Points = append(line.Points, at)
	}
	if len(line.Points) <= 15 {
		line.Dots = chart.Round
	}
	panel := chart.Panel{Y: figure, Series: []chart.Series{line}}
	const most = 3 // more marks than that say nothing
	for _, t := range s.turns[:min(len(s.turns), most)] {
		panel.Limits = append(panel.Limits, chart.Limit{At: t.At, Upright: true, Text: "from " + s.bare(t.At) + " on " + runsOut(t.To)})
	}
	own := s.makes(s.own)
	if quantity.Given(own) {
		panel.Marks = []chart.Mark{thisPlan(s.own, own, figure.Unit, chart.Rose)}
	}
	pic.Panels, pic.Table, pic.Title = []chart.Panel{panel}, s.table(line.Interval), s.title(own)
	return pic
}

func sure(q spread.Point) bool { return quantity.Given(q.Low) && quantity.Given(q.High) }

func runsOut(limit string) string {
	if limit == route.NeitherFirst {
		return "no charge runs short"
	}
	return "the " + limit + " runs out first"
}

// of writes a value of the input with what it is.
func (s *swept) of(x float64) string {
	if s.things == "" {
		return s.bare(x)
	}
	return route.Count(x, strings.TrimSuffix(s.things, "s"))
}

// bare writes a value of the input with its unit, without what it counts.
func (s *swept) bare(x float64) string { return route.Print(x, strings.TrimSuffix(s.input.Unit, "×")) }

// gives says what the plan itself gives.
func (s *swept) gives(own float64) string {
	what := s.of(s.own) + " give "
	switch {
	case s.things == "":
		what = chart.Capital(s.input.Name) + ": " + s.bare(s.own) + " gives "
	case s.own == 1:
		what = s.of(s.own) + " gives "
	}
	return what + route.Print(own, figure.Unit)
}

// makes reads the product at x, between points where it must; blank where it is not known.
func (s *swept) makes(x float64) float64 {
	for i, q := range s.points {
		if q.At == x && quantity.Given(q.Best) {
			return q.Best
		}
		if i > 0 && s.points[i-1].At < x && x < q.At {
			if a := s.points[i-1]; quantity.Given(a.Best) && quantity.Given(q.Best) {
				return a.Best + (q.Best-a.Best)*(x-a.At)/(q.At-a.At)
			}
		}
	}
	return quantity.Blank
}

// table has a column for the interval and for the limit where any value has one.
func (s *swept) table(interval string) chart.Table {
	limited := strings.Join(s.limits, "") != ""
	t := chart.Table{Head: []string{chart.Capital(s.input.Title()), chart.Capital(figure.Title())}}
	if interval != "" {
		t.Head = append(t.Head, chart.Capital(interval)+" between")
	}
	if limited {
		t.Head = append(t.Head, "What runs out first")
	}
	for i, q := range s.points {
		best, between := "–", "–"
		if quantity.Given(q.Best) {
			best = route.Print(q.Best, "")
			if sure(q) {
				between = route.Print(q.Low, "") + " and " + route.Print(q.High, "")
			}
		}
		row := []string{route.Print(q.At, ""), best}
		if interval != "" {
			row = append(row, between)
		}
		if limited {
			row = append(row, s.limits[i])
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// title says what another value would give: the farthest that is known, but not beyond
// twice the plan's own.
func (s *swept) title(own float64) string {
	known, found, same := quantity.Given(own), false, true
	var other spread.Point
	for _, q := range s.points {
		if !quantity.Given(q.Best) || q.At == s.own {
			continue
		}
		if !found || q.At <= 2*s.own {
			other, found = q, true
		}
		same = same && math.Abs(q.Best-own) < 1e-3*math.Abs(own)
	}
	would := " would give " + route.Print(other.Best, figure.Unit)
	switch {
	case s.waiting || !found && !known:
		return chart.Capital(figure.Name) + " against " + s.input.Name
	case !found:
		return s.gives(own)
	case len(s.turns) > 0:
		return "From " + s.of(s.turns[0].At) + " on " + runsOut(s.turns[0].To) + "; " + s.of(other.At) + would
	case same:
		return chart.Capital(s.input.Name) + ": anything here gives " + route.Print(own, figure.Unit)
	case known:
		return s.gives(own) + "; " + s.bare(other.At) + would
	}
	return s.of(other.At) + would
}
