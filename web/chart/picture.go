package chart

import "math"

// Role is what a line or a band stands for; it picks the colour.
type Role string

// The roles, as in the page's stylesheet.
const (
	Ink   Role = "ink"
	Rose  Role = "rose"  // the product
	Blue  Role = "blue"  // the copper salt
	Ochre Role = "ochre" // gas
	Zinc  Role = "zinc"  // what is kept, left over or lost
)

// Dash tells lines apart where colour cannot.
type Dash string

// The dashes.
const (
	Solid  Dash = ""
	Dashed Dash = "dashed"
	Dotted Dash = "dotted"
)

// Shape is how single points are drawn.
type Shape uint8

// The shapes. A Ring is for the plan's own point.
const (
	None Shape = iota
	Round
	Square
	Diamond
	Ring
)

// Axis is one axis. It holds all that is drawn along it, and zero unless Free.
type Axis struct {
	Name, Unit string
	Log        bool   // decades; what is not above zero is a gap
	Whole      bool   // ticks at whole numbers only
	Free       bool   // need not begin at zero
	Zero       string // in place of "0"
}

// Point is one value, with its interval where it has one. A Point that is not OK
// is a gap.
type Point struct {
	X, Y, Low, High float64
	OK              bool
}

// Series is a line through points.
type Series struct {
	Label    string // written beside the line
	Role     Role
	Dash     Dash
	Dots     Shape
	Interval string // written in the band between Low and High; "" for no band
	Points   []Point
}

// Mark is a place in the picture with words.
type Mark struct {
	X, Y  float64
	Shape Shape
	Text  string
	Role  Role
}

// Limit is a straight line across the picture with words: level at a Y, or
// upright at an X.
type Limit struct {
	At      float64
	Upright bool
	Text    string
}

// Panel is a field with a Y axis. Panels of a picture stand one above the other
// on one X axis.
type Panel struct {
	Y      Axis
	Series []Series
	Limits []Limit
	Marks  []Mark
}

// Table holds the numbers of a picture as text. The first cell of a row names it.
type Table struct {
	Head []string
	Rows [][]string
}

// Picture is one picture. It has Panels, Flows or Compared.
type Picture struct {
	Name     string // of the file to save, and unique on the page
	Title    string // a sentence that says what this plan shows
	Note     string // what the reader should know besides; may be empty
	Why      string // why there is nothing to draw, or ""
	X        Axis
	Panels   []Panel
	Flows    []Flow
	Compared []Comparison
	Table    Table
	// Waiting says that the numbers are being worked out: the picture keeps its
	// height, and its last drawing, pale, where it has one.
	Waiting bool
}

// farthest bounds what is drawn: beyond it coordinates would lose their digits.
const farthest = 1e15

func drawable(v float64) bool { return math.Abs(v) <= farthest } // false for NaN

// At makes a point; what cannot be drawn is a gap, as where a value is not a number.
func At(x, y float64) Point {
	switch {
	case !drawable(x):
		return Point{}
	case !drawable(y):
		return Point{X: x}
	}
	return Point{X: x, Y: y, Low: y, High: y, OK: true}
}

// empty tells whether there is nothing to draw.
func (p *Picture) empty() bool {
	for i := range p.Panels {
		for _, s := range p.Panels[i].Series {
			for _, q := range s.Points {
				if q.OK {
					return false
				}
			}
		}
	}
	return len(p.Flows) == 0 && len(p.Compared) == 0
}
