package chart

import (
	"math"
	"strconv"
	"strings"
)

// node is one SVG element of a drawing: a path or a line of text.
type node struct {
	part   string // what it is, for the stylesheet
	d      string // of a path
	text   string
	x, y   float64
	anchor string // of text: "", "middle" or "end"
}

// drawing is a picture laid out: in units that are pixels, near enough.
type drawing struct {
	width, height float64
	em            float64 // height of the letters
	paths, texts  []node  // texts lie above
}

// The two layouts. The narrow one is shown down to 250 pixels and the wide one
// down to 560, where their letters are still 12 and 13 pixels high.
const (
	wideWidth, wideEm     = 600, 14
	narrowWidth, narrowEm = 300, 15
)

func newDrawing(wide bool) *drawing {
	if wide {
		return &drawing{width: wideWidth, em: wideEm}
	}
	return &drawing{width: narrowWidth, em: narrowEm}
}

// draw lays a picture out in one of the two layouts.
func draw(p *Picture, wide bool) *drawing {
	d := newDrawing(wide)
	switch {
	case len(p.Flows) > 0:
		d.flows(p.Flows)
	case len(p.Compared) > 0:
		d.comparisons(p.Compared)
	default:
		d.panels(p, wide)
	}
	return d
}

// line is the height of a line of text.
func (d *drawing) line() float64 { return math.Round(d.em * 1.25) }

func (d *drawing) path(part string, p pen) {
	if len(p) > 0 {
		d.paths = append(d.paths, node{part: part, d: string(p)})
	}
}

// shape is a path of its own, as pen.add writes it.
func (d *drawing) shape(part, letters string, v ...float64) {
	var p pen
	p.add(letters, v...)
	d.path(part, p)
}

// draw is a path from a place on: data whose letters are small, so that all in it is measured from
// there.
func (d *drawing) draw(part string, x, y float64, data string) {
	var p pen
	p.add("M", x, y)
	d.path(part, append(p, data...))
}

func (d *drawing) write(part, text string, x, y float64, anchor string) {
	if text != "" {
		d.texts = append(d.texts, node{part: part, text: text, x: x, y: y, anchor: anchor})
	}
}

// lines writes lines of text one below the other, the first with its foot at y, and tells
// where the next would have its foot.
func (d *drawing) lines(part string, list []string, x, y, pitch float64, anchor string) float64 {
	for _, text := range list {
		d.write(part, text, x, y, anchor)
		y += pitch
	}
	return y
}

// ticks adds strokes below a level line, and their texts as far as they find room: with a
// gap between any two, and within the drawing.
func (d *drawing) ticks(line pen, list []tick, y, gap float64) {
	end := math.Inf(-1)
	for _, t := range list {
		line.add("Mv", t.at, y, 5)
		half := length(t.text, d.em) / 2
		if middle := math.Max(half, math.Min(t.at, d.width-half)); middle-half > end {
			d.write("tick", t.text, middle, y+6+d.em, "middle")
			end = middle + half + gap
		}
	}
	d.path("axis", line)
}

// num writes a coordinate: one decimal, never anything but a number.
func num(v float64) string { return string(appendNum(nil, v)) }

func appendNum(b []byte, v float64) []byte {
	v = math.Round(v*10) / 10
	if !drawable(v) || v == 0 {
		v = 0 // no "-0"
	}
	return strconv.AppendFloat(b, v, 'f', -1, 64)
}

// pen is path data.
type pen []byte

// operands is how many numbers a letter of path data takes, in upper or lower case.
var operands = map[byte]int{'M': 2, 'L': 2, 'H': 1, 'V': 1, 'Q': 4, 'C': 6, 'A': 7, 'Z': 0}

// add writes letters of path data; each takes its numbers from the list in turn.
func (p *pen) add(letters string, v ...float64) {
	for i := range len(letters) {
		*p = append(*p, letters[i])
		n := operands[letters[i]&^0x20]
		for j, x := range v[:n] {
			if j > 0 {
				*p = append(*p, ' ')
			}
			*p = appendNum(*p, x)
		}
		v = v[n:]
	}
}

// through adds a line through points.
func (p *pen) through(points []spot) {
	for i, at := range points {
		p.add("ML"[min(i, 1):][:1], at.x, at.y)
	}
}

// spot is a place in the drawing.
type spot struct{ x, y float64 }

// dot adds a shape around a place.
func (p *pen) dot(s Shape, at spot) {
	switch s {
	case Round, Ring:
		r := 3.6
		if s == Ring {
			r = 6
		}
		p.add("MaaZ", at.x-r, at.y, r, r, 0, 1, 0, 2*r, 0, r, r, 0, 1, 0, -2*r, 0)
	case Square:
		p.add("MhvhZ", at.x-3.3, at.y-3.3, 6.6, 6.6, -6.6)
	case Diamond:
		p.add("MlllZ", at.x, at.y-5, 5, 5, -5, 5, -5, -5)
	}
}

// length estimates how wide a text is, rather too wide: the fonts of the reader's
// machine are not known.
func length(text string, em float64) float64 {
	w := 0.0
	for _, r := range text {
		switch {
		case strings.ContainsRune("iljtf.,:;’' |!()⁰¹²³⁴⁵⁶⁷⁸⁹⁻", r):
			w += 0.36
		case r == '\u202f' || r == '\u2009':
			w += 0.3
		case r == 'm' || r == 'w' || r == 'M' || r == 'W' || r == '%':
			w += 0.92
		case r >= 'A' && r <= 'Z':
			w += 0.7
		case r >= '0' && r <= '9':
			w += 0.64
		default:
			w += 0.6
		}
	}
	return w * em
}

// wrap breaks a text into lines no longer than width, at its spaces.
func wrap(text string, width, em float64) []string {
	if length(text, em) <= width {
		return []string{text}
	}
	var lines []string
	line := ""
	for _, word := range strings.Split(text, " ") {
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if line != "" && length(longer, em) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}
