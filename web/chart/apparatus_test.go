package chart

import (
	"fmt"
	"image"
	"image/color"
	"strings"
	"testing"

	qr "github.com/piglig/go-qr"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSuckBackStaysInTheTrap: the tube from the flask ends above the one to the slurry,
// or liquid drawn back would go on to the flask.
func TestSuckBackStaysInTheTrap(t *testing.T) {
	var l line
	l.trap()
	in := string(l.tubes[0])
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
