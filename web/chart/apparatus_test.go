package chart

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	qr "github.com/piglig/go-qr"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"rosesalt/chem/route"
)

func apparatus(p route.Plan) Apparatus {
	var b route.Bench
	s := b.Run(&p)
	return Line(&p, s)
}

func wordsOf(a Apparatus) string {
	var list []string
	for _, n := range a.d.texts {
		list = append(list, n.text)
	}
	return strings.Join(list, " ")
}

func TestApparatusSaysWhatThePlanNeeds(t *testing.T) {
	p := route.NewPlan()
	var b route.Bench
	s := b.Run(&p)
	p.SlurryVessel = route.OpenVessel
	open := apparatus(p)
	for _, word := range []string{"Flask,", "Empty trap,", "Counting", "inverted funnel", "ice", route.Print(s.Value(route.SlurryVolume), "mL"), route.Print(s.Value(route.GasAcidUsed), "mL")} {
		assert.Contains(t, wordsOf(open), word)
	}
	assert.NotContains(t, wordsOf(open), "Scrubber", "an open vessel cannot feed one")
	p.SlurryVessel = route.ClosedVessel
	closed := apparatus(p)
	assert.Contains(t, wordsOf(closed), "Second")
	assert.Contains(t, wordsOf(closed), "its outlet stays open")
	assert.Less(t, strings.Index(closed.Says, "Slurry"), strings.Index(closed.Says, "Second empty trap"))
	assert.Less(t, strings.Index(closed.Says, "Second empty trap"), strings.Index(closed.Says, "Scrubber"))
	assert.Greater(t, closed.d.width, open.d.width)
	p.GasSource = route.FromMetabisulfite
	assert.Contains(t, wordsOf(apparatus(p)), "dilute acid drips in")
}

// TestApparatusStaysInItsFrame draws plans from all over the limits: no word outside, no
// coordinate that is not a number.
func TestApparatusStaysInItsFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := route.NewPlan()
		p.Rows[0].Count = float64(rapid.IntRange(0, 2000).Draw(t, "cells"))
		p.GasSource = route.Choice(rapid.IntRange(0, 1).Draw(t, "source"))
		p.SlurryVessel = route.Choice(rapid.IntRange(0, 1).Draw(t, "vessel"))
		a := apparatus(p)
		for _, n := range a.d.paths {
			require.NotContains(t, n.d, "NaN", n.part)
			require.NotContains(t, n.d, "Inf", n.part)
		}
		for _, n := range a.d.texts {
			require.False(t, math.IsNaN(n.x+n.y), n.text)
			half := length(n.text, apparatusEm) / 2
			require.GreaterOrEqual(t, n.x-half, -4.0, n.text)
			require.LessOrEqual(t, n.x+half, a.d.width+4, n.text)
			require.LessOrEqual(t, n.y, a.d.height, n.text)
		}
	})
}

// TestSuckBackStaysInTheTrap: the tube from the flask ends above the one to the slurry,
// or liquid drawn back would go on to the flask.
func TestSuckBackStaysInTheTrap(t *testing.T) {
	var l line
	p := route.NewPlan()
	var b route.Bench
	l.p, l.s = &p, b.Run(&p)
	l.trap("Empty trap", "Empty trap", "")
	in := l.tube[0]
	var x0, y0, top, x, down float64
	_, err := numbers(in, &x0, &y0, &top, &x, &down)
	require.NoError(t, err)
	assert.Less(t, down, l.from.y)
}

// numbers reads the numbers of path data.
func numbers(path string, into ...*float64) (int, error) {
	path = strings.Map(func(r rune) rune {
		if r >= 'A' {
			return ' '
		}
		return r
	}, path)
	list := make([]any, len(into))
	for i := range into {
		list[i] = into[i]
	}
	return fmt.Sscan(path, list...)
}

// read is a code as a picture, three dots to a field.
type read struct {
	side int
	dark map[[2]int]bool
}

func (r read) ColorModel() color.Model { return color.GrayModel }
func (r read) Bounds() image.Rectangle { return image.Rect(0, 0, 3*r.side, 3*r.side) }
func (r read) At(x, y int) color.Color {
	if r.dark[[2]int{x / 3, y / 3}] {
		return color.Black
	}
	return color.White
}

// TestCodeIsRead has a reader of other make read the codes.
func TestCodeIsRead(t *testing.T) {
	for _, text := range []string{"#v=1", "https://example.org/rosesalt.html#v=1&gas.source=metabisulfite&cell.count=12&days.start=2026-03-02T09:00"} {
		c, ok := NewCode(text, 80)
		require.True(t, ok)
		r := read{c.Side, map[[2]int]bool{}}
		for _, run := range strings.Split(strings.TrimSuffix(c.Path, "Z"), "Z") {
			var x, y, long, one, back float64
			_, err := numbers(run, &x, &y, &long, &one, &back)
			require.NoError(t, err)
			for i := range int(long) {
				r.dark[[2]int{int(x) + i, int(y)}] = true
			}
		}
		segment, err := qr.MakeBytes([]byte(text))
		require.NoError(t, err)
		other, err := qr.EncodeSegments([]*qr.QrSegment{segment}, qr.Medium, 1, 40, -1, false)
		require.NoError(t, err)
		require.Equal(t, other.Size()+2*quiet, c.Side)
		for y := range c.Side {
			for x := range c.Side {
				require.Equal(t, other.Module(x-quiet, y-quiet), r.dark[[2]int{x, y}], "%d, %d: another's code, mask and all", x, y)
			}
		}
		got, err := qr.Decode(r)
		require.NoError(t, err)
		assert.Equal(t, text, got)
	}
	c, ok := NewCode(strings.Repeat("a=1&", 100), 80)
	assert.True(t, ok && c.Side <= 80, "400 letters fit")
	_, ok = NewCode(strings.Repeat("a=1&", 400), 80)
	assert.False(t, ok, "a code too fine to be read is none")
}
