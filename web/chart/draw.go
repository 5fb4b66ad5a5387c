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

// draw lays a picture out.
func draw(p *Picture, wide bool) *drawing {
	d := newDrawing(wide)
	switch {
	case len(p.Flows) > 0:
		d.flows(p)
	case len(p.Lots) > 0:
		d.lots(p)
	default:
		d.panels(p, wide)
	}
	return d
}

// line is the height of a line of text.
func (d *drawing) line() float64 { return math.Round(d.em * 1.25) }

func (d *drawing) path(part, data string) {
	if data != "" {
		d.paths = append(d.paths, node{part: part, d: data})
	}
}

func (d *drawing) write(part, text string, x, y float64, anchor string) {
	if text != "" {
		d.texts = append(d.texts, node{part: part, text: text, x: x, y: y, anchor: anchor})
	}
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

// pen writes path data.
type pen []byte

func (p *pen) op(letter byte, v ...float64) *pen {
	*p = append(*p, letter)
	for i, x := range v {
		if i > 0 {
			*p = append(*p, ' ')
		}
		*p = appendNum(*p, x)
	}
	return p
}

func (p pen) String() string { return string(p) }

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
		p.op('M', at.x-r, at.y).op('a', r, r, 0, 1, 0, 2*r, 0).op('a', r, r, 0, 1, 0, -2*r, 0).op('Z')
	case Square:
		p.op('M', at.x-3.3, at.y-3.3).op('h', 6.6).op('v', 6.6).op('h', -6.6).op('Z')
	case Diamond:
		p.op('M', at.x, at.y-5).op('l', 5, 5).op('l', -5, 5).op('l', -5, -5).op('Z')
	}
}

// length guesses how wide a text is, rather too wide: a reader's fonts are not
// known here.
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
