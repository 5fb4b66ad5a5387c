// Package charttest checks drawings, for the tests of all that makes pictures. It reads
// them as SVG, not as the drawing code's own data.
package charttest

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/stretchr/testify/require"
)

// Numbers gives the numbers in path data; they must be finite.
func Numbers(t require.TestingT, d string) (list []float64) {
	for _, word := range strings.FieldsFunc(d, func(r rune) bool { return r == ' ' || r == ',' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' }) {
		v, err := strconv.ParseFloat(word, 64)
		require.NoError(t, err, "in %q", d)
		require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "in %q", d)
		list = append(list, v)
	}
	require.NotContains(t, d, "NaN")
	require.NotContains(t, d, "Inf")
	return list
}

var (
	element   = regexp.MustCompile(`<(path|text)( [^>]*)>([^<]*)`)
	attribute = regexp.MustCompile(` ([a-zA-Z-]+)="([^"]*)"`)
)

// Part is one path or text of a drawing.
type Part struct {
	Is, Path, Text string // Is tells the stylesheet what it is
	X, Y           float64
}

// Drawing is one SVG element of a page.
type Drawing struct {
	Width, Height float64
	Parts         []Part
}

// Drawings reads the SVG elements of a piece of the page, the wide layout of a picture
// first, and checks them: finite numbers, and no text that begins beyond the edges.
func Drawings(t require.TestingT, html string) (list []Drawing) {
	for _, piece := range strings.Split(html, "<svg")[1:] {
		inside, _, _ := strings.Cut(piece, "</svg>")
		size := Numbers(t, attributes(piece[:strings.Index(piece, ">")])["viewBox"])
		require.Len(t, size, 4)
		d := Drawing{Width: size[2], Height: size[3]}
		require.Less(t, d.Height, 3000.0)
		for _, m := range element.FindAllStringSubmatch(inside, -1) {
			has := attributes(m[2])
			p := Part{Is: has["data-part"], Path: has["d"], Text: m[3]}
			if m[1] == "path" {
				require.NotEmpty(t, Numbers(t, p.Path))
			} else {
				p.X, p.Y = Numbers(t, has["x"])[0], Numbers(t, has["y"])[0]
				require.GreaterOrEqual(t, p.X, -0.01, p.Text)
				require.LessOrEqual(t, p.X, d.Width+0.01, p.Text)
				require.LessOrEqual(t, p.Y, d.Height, p.Text)
				require.NotContains(t, p.Text, "NaN")
			}
			d.Parts = append(d.Parts, p)
		}
		list = append(list, d)
	}
	return list
}

func attributes(tag string) map[string]string {
	has := map[string]string{}
	for _, a := range attribute.FindAllStringSubmatch(tag, -1) {
		has[a[1]] = a[2]
	}
	return has
}

// File reads a saved picture as XML and checks that every number in it is finite and that
// it needs nothing from outside.
func File(t require.TestingT, text string) {
	r := xml.NewDecoder(strings.NewReader(text))
	depth := 0
	for {
		token, err := r.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		switch e := token.(type) {
		case xml.StartElement:
			depth++
			require.Equal(t, "http://www.w3.org/2000/svg", e.Name.Space)
			seen := map[string]bool{}
			for _, a := range e.Attr {
				require.False(t, seen[a.Name.Local], "%s twice", a.Name.Local)
				seen[a.Name.Local] = true
				switch a.Name.Local {
				case "d", "x", "y", "viewBox", "stroke-width", "font-size", "stroke-dasharray":
					Numbers(t, a.Value)
				case "href", "style", "class":
					require.Fail(t, "a file needs nothing else", a.Name.Local)
				}
			}
		case xml.EndElement:
			depth--
		}
	}
	require.Zero(t, depth)
}
