package chart

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"
	qr "github.com/piglig/go-qr"
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
// counted; not ok when the text does not fit.
func NewCode(text string, most int) (c Code, ok bool) {
	code, err := qr.EncodeText(text, qr.Medium)
	if err == nil && code.Size()+2*quiet > most {
		code, err = qr.EncodeText(text, qr.Low)
	}
	if err != nil || code.Size()+2*quiet > most {
		return Code{}, false
	}
	var p pen
	for y := range code.Size() {
		for x := 0; x < code.Size(); x++ {
			from := x
			for x < code.Size() && code.Module(x, y) {
				x++
			}
			if long := x - from; long > 0 {
				p.op('M', float64(quiet+from), float64(quiet+y)).op('h', float64(long)).op('v', 1).op('h', -float64(long)).op('Z')
			}
		}
	}
	return Code{code.Size() + 2*quiet, p.String()}, true
}

// Draw makes the code's elements.
func (c Code) Draw(label string) app.UI {
	side := num(float64(c.Side))
	return svg("svg").Attr("data-part", "code").Attr("viewBox", "0 0 "+side+" "+side).Attr("shape-rendering", "crispEdges").Role("img").Aria("label", label).Body(
		svg("path").Attr("d", c.Path),
	)
}
