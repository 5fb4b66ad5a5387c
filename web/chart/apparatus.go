package chart

import (
	"math"
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
)

// VesselKind is what stands in a row of vessels.
type VesselKind uint8

// The kinds. A slurry that is not the first vessel has gas led in under a funnel.
const (
	FlaskOverFlame VesselKind = iota
	FlaskUnderFunnel
	Trap
	CountingBottle
	Slurry
	ClosedSlurry
	Scrubber
)

// Vessel is one vessel of a row.
type Vessel struct {
	Kind VesselKind
	Name string
	Full float64  // the share of it that is filled; not a number for one without a size
	Says []string // what stands under its name; empty texts are left out
}

// Apparatus is a row of vessels as they stand, drawn.
type Apparatus struct {
	Says string // the drawing in words
	d    drawing
}

// benchTop is the height at which all vessels stand, lineTop that of the tubes above
// them, in units of the drawing; em is the height of its letters.
const (
	apparatusEm = 12.0
	benchTop    = 158.0
	lineTop     = 22.0
)

// InRow draws vessels in a row, each led into the next by a tube.
func InRow(list []Vessel) Apparatus {
	l := line{d: drawing{em: apparatusEm}}
	for _, v := range list {
		width := 0.0
		switch v.Kind {
		case FlaskOverFlame, FlaskUnderFunnel:
			width = l.flask(v)
		case Trap:
			width = l.trap()
		case CountingBottle:
			width = l.counter(v)
		case Slurry, ClosedSlurry:
			width = l.slurry(v, len(l.says) > 0)
		case Scrubber:
			width = l.scrubber(v)
		}
		l.words(width, v)
	}
	l.d.width = math.Ceil(l.x)
	l.d.height = math.Ceil(l.deep + 2)
	l.d.shape("ground", "MH", 0, benchTop+1, l.x)
	for _, part := range []string{"tube", "bore"} { // a dark line, and a bright bore in it
		for _, tube := range l.tubes {
			l.d.path(part, tube)
		}
	}
	return Apparatus{Says: "The vessels in a row: " + strings.Join(l.says, "; ") + ".", d: l.d}
}

// legible is by how much the drawing is enlarged on paper, so that the letters under the
// vessels, of 11 units, are 9 pt high.
const legible = 1.1

// Draw makes the drawing's elements.
func (a Apparatus) Draw() app.UI {
	return app.Elem("div").Class("apparatus").Role("img").Aria("label", a.Says).Body(picture(&a.d, "line").Attr("width", num(legible*a.d.width)))
}

// line is a row of vessels being drawn.
type line struct {
	d     drawing
	x     float64 // where the next vessel's place begins
	deep  float64 // where the lowest text ends
	says  []string
	tubes []pen // drawn last, over the glass
	from  spot  // where the tube leaves the last vessel
}

// words writes a vessel's name and the texts under it, and goes on to the next place in the
// row.
func (l *line) words(width float64, v Vessel) {
	middle, y := l.x+width/2, benchTop+4+apparatusEm
	y = l.d.lines("head", wrap(v.Name, width-8, apparatusEm), middle, y, apparatusEm*1.15, "middle")
	told := v.Name
	for _, text := range v.Says {
		if text == "" {
			continue
		}
		told += ", " + text
		y = l.d.lines("name", wrap(text, width-8, apparatusEm*0.92), middle, y, apparatusEm*1.1, "middle")
	}
	l.deep = math.Max(l.deep, y-apparatusEm*0.8)
	l.says = append(l.says, told)
	l.x += width
}

// pipe leads from the last vessel over the line's top down to a place.
func (l *line) pipe(x, down float64) {
	l.tube("MVHV", l.from.x, l.from.y, lineTop, x, down)
}

func (l *line) tube(letters string, v ...float64) {
	var p pen
	p.add(letters, v...)
	l.tubes = append(l.tubes, p)
}

// liquid fills a vessel from its level down.
func (l *line) liquid(part string, left, right, level, bottom float64) {
	l.d.shape(part, "MHVHZ", left, level, right, bottom, left)
}

// full is how full a vessel is drawn, kept where it can be seen.
func (v *Vessel) full() float64 {
	if math.IsNaN(v.Full) {
		return 0
	}
	return math.Min(0.92, math.Max(0.06, v.Full))
}

// flask is the generator: round over a flame, or under a dropping funnel. As all that
// draw a vessel, it tells how wide its place is.
func (l *line) flask(v Vessel) (width float64) {
	const r, neck = 34.0, 8.0
	flame := v.Kind == FlaskOverFlame
	x, y := l.x+62, benchTop-2-r
	if flame {
		y -= 34
	}
	mouth := y - r - 18
	// The level, as a share of the height: near enough the share of the volume.
	level := y + r - 2*r*v.full()
	half := math.Sqrt(math.Max(0, r*r-(level-y)*(level-y)))
	large := 0.0
	if level < y {
		large = 1
	}
	l.d.shape("liquor", "MHAZ", x-half, level, x+half, r, r, 0, large, 1, x-half, level)
	l.d.draw("glass", x-neck, mouth, "v19a34 34 0 1 0 16 0v-19") // down the neck, around, and up again
	l.stopper(x, mouth, neck)
	l.from = spot{x, mouth + 8}
	if flame {
		l.d.draw("glass", x-44, y+r+4, "h88m-82 0l-8 32m84 -32l8 32") // the stand
		l.d.draw("glass", x, y+r+9, "q9 10 0 17q-9 -7 0 -17zm-7 27v-5h14v5")
		for i := range 5 {
			l.d.draw("solid", x-16+float64(i)*8-3, y+r-5-float64(i%2)*3, "h6")
		}
		return 132
	}
	// The dropping funnel, with its tap: its stem stands beside the tube.
	stem := x - 20
	l.d.draw("glass", stem-4, mouth-9, "h8")
	l.d.draw("glass", stem, y-10, "v-56m-10 -22h20l-5 18q-5 5 -10 0z")
	return 132
}

func (l *line) stopper(x, mouth, half float64) {
	l.d.shape("solid", "MhlhZ", x-half-2, mouth-5, 2*half+4, -2, 12, -2*half)
}

// jar is a stoppered vessel with a narrow neck.
func (l *line) jar(x, wide, neck, top, shoulder, floor float64) {
	l.d.shape("glass", "MVLVHVLV", x-neck, top, top+10, x-wide/2, shoulder, floor, x+wide/2, shoulder, x+neck, top+10, top)
	l.stopper(x, top, neck)
}

// bottle is a jar with two tubes: it tells their places and the level.
func (l *line) bottle(x, wide, high, full float64, liquor string) (in, out, level float64) {
	top, neck := benchTop-high, wide*0.3
	level = benchTop - 2 - (high-18)*full
	if full > 0 {
		l.liquid(liquor, x-wide/2+1, x+wide/2-1, level, benchTop-1)
	}
	l.jar(x, wide, neck, top, top+18, benchTop)
	return x - neck*0.55, x + neck*0.55, level
}

// trap is an empty bottle: the tube from the flask ends high in it, that to the liquid
// low, so that what is drawn back stays in it and is pressed out again.
func (l *line) trap() (width float64) {
	const high = 84.0
	in, out, _ := l.bottle(l.x+46, 54, high, 0, "")
	l.pipe(in, benchTop-high+24)
	l.from = spot{out, benchTop - 8}
	return 92
}

// counter is a bottle in which bubbles can be counted.
func (l *line) counter(v Vessel) (width float64) {
	const high = 66.0
	in, out, level := l.bottle(l.x+44, 36, high, v.full(), "liquor")
	l.pipe(in, level+6)
	l.from = spot{out, benchTop - high + 18}
	return 88
}

// slurry is the vessel in its bath, under a funnel where gas is led in.
func (l *line) slurry(v Vessel, gas bool) (width float64) {
	const wide, high, floor = 70.0, 88.0, benchTop - 6
	closed := v.Kind == ClosedSlurry
	x := l.x + 70
	left, right := x-wide/2, x+wide/2
	l.liquid("water", left-14, right+14, benchTop-44, benchTop-1)
	l.d.draw("glass", left-14, benchTop-52, "v52h98v-52")
	level := floor - (high-20)*v.full()
	l.liquid("mud", left+1, right-1, level, floor-1)
	if closed {
		l.jar(x, wide, 22, floor-high-8, floor-high+12, floor)
	} else {
		l.d.draw("glass", left-4, floor-high, "l4 4v84h70v-84l4 -4")
	}
	if gas {
		at := x
		if closed {
			at -= 9
		}
		// The rim only just meets the liquid.
		l.funnel(at, level, 18, 20)
		l.from = spot{x + 14, floor - high + 14}
	}
	return 140
}

// funnel ends the tube from the last vessel, so high over a level and so wide to a side.
func (l *line) funnel(x, level, high, half float64) {
	l.pipe(x, level-high+1)
	l.d.shape("funnel", "MLHLZ", x-3, level-high, x-half, level+2, x+half, x+3, level-high)
}

// scrubber takes up what passes the closed vessel; its way out stays open.
func (l *line) scrubber(v Vessel) (width float64) {
	const high = 78.0
	in, out, level := l.bottle(l.x+55, 56, high, v.full(), "water")
	l.funnel(in, level, 10, 9)
	l.tube("MVh", out, benchTop-high+16, benchTop-high-14, 16)
	return 110
}
