package chart

import (
	"errors"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"rsc.io/qr/coding"
)

// Code is a text as a square of dark and light fields that a telephone reads (QR code,
// ISO/IEC 18004).
type Code struct {
	Side int    // in fields, with the bright rim of four that the standard asks for
	Path string // the dark fields
}

// quiet is the bright rim around a code, in fields (ISO/IEC 18004, 6.3.8).
const quiet = 4

// NewCode makes the code of a text with at most so many fields to a side, the rim
// counted; not ok when the text does not fit. It bears as much damage as fits.
func NewCode(text string, most int) (c Code, ok bool) {
	for _, level := range []coding.Level{coding.M, coding.L} {
		code, err := encode(coding.String(text), level)
		if err == nil && code.Size+2*quiet <= most {
			return drawCode(code), true
		}
	}
	return Code{}, false
}

// encode takes the smallest version that holds the text, and of the eight masks the one
// that the standard's penalties like best (ISO/IEC 18004, 7.8.3).
func encode(text coding.String, level coding.Level) (*coding.Code, error) {
	version := coding.Version(coding.MinVersion)
	for text.Bits(version) > version.DataBytes(level)*8 {
		if version++; version > coding.MaxVersion {
			return nil, errors.New("chart: the text is too long for a code")
		}
	}
	var best *coding.Code
	least := 0
	for mask := range coding.Mask(8) {
		plan, err := coding.NewPlan(version, level, mask)
		if err != nil {
			return nil, err
		}
		code, err := plan.Encode(text)
		if err != nil {
			return nil, err
		}
		if n := penalty(code); best == nil || n < least {
			best, least = code, n
		}
	}
	return best, nil
}

// penalty counts what makes a code hard to read: long runs of one colour, blocks of it,
// what looks like a corner mark, and more dark than bright or the other way round.
func penalty(c *coding.Code) int {
	sum, dark := 0, 0
	for a := range c.Size {
		for _, upright := range []bool{false, true} {
			at := func(b int) bool {
				if upright {
					return c.Black(a, b)
				}
				return c.Black(b, a)
			}
			run, seen := 0, uint(0)
			for b := range c.Size {
				if b > 0 && at(b) == at(b-1) {
					run++
				} else {
					run = 1
				}
				if run == 5 {
					sum += 3
				} else if run > 5 {
					sum++
				}
				seen = seen << 1 & 0x7ff
				if at(b) {
					seen |= 1
				}
				if b >= 10 && (seen == 0b10111010000 || seen == 0b00001011101) {
					sum += 40
				}
			}
		}
		for b := range c.Size {
			is := c.Black(a, b)
			if is {
				dark++
			}
			if a > 0 && b > 0 && is == c.Black(a-1, b) && is == c.Black(a, b-1) && is == c.Black(a-1, b-1) {
				sum += 3
			}
		}
	}
	percent := 100 * dark / (c.Size * c.Size)
	return sum + 10*(max(percent-50, 50-percent)/5)
}

func drawCode(code *coding.Code) Code {
	var p pen
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			from := x
			for x < code.Size && code.Black(x, y) {
				x++
			}
			if long := x - from; long > 0 {
				p.add("MhvhZ", float64(quiet+from), float64(quiet+y), float64(long), 1, -float64(long))
			}
		}
	}
	return Code{code.Size + 2*quiet, string(p)}
}

// Draw makes the code's elements.
func (c Code) Draw(label string) app.UI {
	side := num(float64(c.Side))
	return svg("svg").Attr("data-part", "code").Attr("viewBox", "0 0 "+side+" "+side).Attr("shape-rendering", "crispEdges").Role("img").Aria("label", label).Body(
		svg("path").Attr("d", c.Path),
	)
}
