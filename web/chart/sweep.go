package chart

import (
	"math"
	"strings"

	"rosesalt/chem/route"
)

// Try is the plan with another value of one input: the figure's best value, its
// interval where Sure, and the charge that runs out first.
type Try struct {
	X, Best, Low, High float64
	OK                 bool   // the figure is defined
	Sure               bool   // Low and High are known
	Limit              string // as route.GasLimit says it: "acid", "copper", "neither"
}

// Sweep is a figure of the plan against one of its inputs.
type Sweep struct {
	Name    string // of the picture: "sweep" if empty
	Input   Axis   // what is swept: "cells", with Whole
	Figure  Axis   // what is read: "manganese sulfate in the jar", "g"
	Role    Role   // of the figure
	Things  string // what the input counts, "cells"; "" where it has a unit
	Own     float64
	Tries   []Try  // by rising X
	Turns   []Turn // where the limit changes; those between Tries if nil
	Waiting bool
}

// Turn is where another charge begins to run out first.
type Turn struct {
	At float64
	To string // as Try.Limit
}

// ByCells is the sweep of the product over the number of cells.
func ByCells(own float64, tries []Try, waiting bool) Sweep {
	return Sweep{
		Name:   "cells",
		Input:  Axis{Name: "cells in the bag", Whole: true},
		Figure: Axis{Name: "manganese sulfate in the jar", Unit: "g"},
		Things: "cells", Role: Rose, Own: own, Tries: tries, Waiting: waiting,
	}
}

// Swept makes the picture of a sweep, with a mark wherever the charge that runs
// out first becomes another one.
func Swept(s Sweep) Picture {
	pic := Picture{Name: s.Name, X: s.Input, Waiting: s.Waiting}
	if pic.Name == "" {
		pic.Name = "sweep"
	}
	points := make([]Point, 0, len(s.Tries))
	sure, limits := false, false
	for _, t := range s.Tries {
		q := at(t.X, t.Best, t.OK)
		if q.OK && t.Sure && drawable(t.Low) && drawable(t.High) {
			q.Low, q.High, sure = t.Low, t.High, true
		}
		limits = limits || t.Limit != ""
		points = append(points, q)
	}
	line := Series{Role: s.Role, Points: points}
	if len(points) <= 15 {
		line.Dots = Round
	}
	if sure {
		line.Interval = "eight times in ten"
	}
	panel := Panel{Y: s.Figure, Series: []Series{line}}
	turned := s.turns(&panel)
	own, ok := s.value(points, s.Own)
	if ok {
		panel.Marks = append(panel.Marks, Mark{X: s.Own, Y: own, Shape: Ring, Role: s.Role, Text: "this plan: " + route.Print(own, s.Figure.Unit)})
	}
	pic.Panels = []Panel{panel}
	pic.Table = s.table(points, sure, limits)
	pic.Title = s.title(points, own, ok, turned)
	return pic
}

// turns marks where the limiting charge changes, and says the first of them.
func (s *Sweep) turns(panel *Panel) string {
	list := s.Turns
	if list == nil {
		before := ""
		for _, t := range s.Tries {
			if t.Limit == "" || !t.OK {
				continue
			}
			if before != "" && t.Limit != before {
				list = append(list, Turn{t.X, t.Limit})
			}
			before = t.Limit
		}
	}
	const most = 3 // more marks than that say nothing
	said := ""
	for _, t := range list[:min(len(list), most)] {
		panel.Limits = append(panel.Limits, Limit{At: t.At, Upright: true, Text: "from " + s.bare(t.At) + " on " + runsOut(t.To)})
		if said == "" {
			said = "From " + s.of(t.At) + " on " + runsOut(t.To)
		}
	}
	return said
}

func runsOut(limit string) string {
	if limit == "neither" {
		return "no charge runs short"
	}
	return "the " + limit + " runs out first"
}

// of writes a value of the input with what it is.
func (s *Sweep) of(x float64) string {
	switch {
	case s.Things == "":
		return s.bare(x)
	case x == 1:
		return s.bare(x) + " " + strings.TrimSuffix(s.Things, "s")
	}
	return s.bare(x) + " " + s.Things
}

// bare writes a value of the input with its unit, without what it counts.
func (s *Sweep) bare(x float64) string {
	if s.Input.Unit == "×" {
		return route.Print(x, "")
	}
	return route.Print(x, s.Input.Unit)
}

// gives says what the plan itself gives.
func (s *Sweep) gives(own float64) string {
	what := s.of(s.Own) + " give "
	switch {
	case s.Things == "":
		what = capital(s.Input.Name) + ": " + s.bare(s.Own) + " gives "
	case s.Own == 1:
		what = s.of(s.Own) + " gives "
	}
	return what + route.Print(own, s.Figure.Unit)
}

// value reads the figure at x, between points where it must.
func (s *Sweep) value(points []Point, x float64) (float64, bool) {
	for i, q := range points {
		switch {
		case q.OK && q.X == x:
			return q.Y, true
		case i > 0 && q.OK && points[i-1].OK && points[i-1].X < x && x < q.X:
			a := points[i-1]
			return a.Y + (q.Y-a.Y)*(x-a.X)/(q.X-a.X), true
		}
	}
	return 0, false
}

func (s *Sweep) table(points []Point, sure, limits bool) Table {
	t := Table{Head: []string{capital(s.Input.title()), capital(s.Figure.title())}}
	if sure {
		t.Head = append(t.Head, "Eight times in ten between")
	}
	if limits {
		t.Head = append(t.Head, "What runs out first")
	}
	for i, q := range points {
		row := []string{route.Print(q.X, ""), "–"}
		if q.OK {
			row[1] = route.Print(q.Y, "")
		}
		if sure {
			between := "–"
			if q.OK && s.Tries[i].Sure {
				between = route.Print(q.Low, "") + " and " + route.Print(q.High, "")
			}
			row = append(row, between)
		}
		if limits {
			row = append(row, s.Tries[i].Limit)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// title says what another value would give: the farthest that is known, but not
// beyond twice the plan's own.
func (s *Sweep) title(points []Point, own float64, ok bool, turned string) string {
	unit := s.Figure.Unit
	other, same := Point{}, true
	for _, q := range points {
		if !q.OK || q.X == s.Own {
			continue
		}
		if !other.OK || q.X <= 2*s.Own {
			other = q
		}
		same = same && ok && math.Abs(q.Y-own) < 1e-3*math.Abs(own)
	}
	switch {
	case s.Waiting || !other.OK && !ok:
		return capital(s.Figure.Name) + " against " + s.Input.Name
	case !other.OK:
		return s.gives(own)
	case turned != "":
		return turned + "; " + s.of(other.X) + " would give " + route.Print(other.Y, unit)
	case same:
		return capital(s.Input.Name) + ": anything here gives " + route.Print(own, unit)
	case ok:
		return s.gives(own) + "; " + s.bare(other.X) + " would give " + route.Print(other.Y, unit)
	}
	return s.of(other.X) + " would give " + route.Print(other.Y, unit)
}
