package chart

import (
	"bytes"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v9/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/safety"
)

var pathTokens = regexp.MustCompile(`[A-Z]|-?[0-9.]+`)

// spotsOf are the points of absolute path data, those that bend it too.
func spotsOf(t *testing.T, d string) []spot {
	t.Helper()
	sizes := map[string]int{"M": 2, "L": 2, "C": 6, "S": 4, "H": 1, "V": 1, "A": 7, "Z": 0}
	var spots []spot
	var at spot
	var op string
	var args []float64
	for _, token := range pathTokens.FindAllString(d, -1) {
		if _, ok := sizes[token]; ok {
			require.Empty(t, args, "an operation has all its numbers: %s", d)
			op = token
			continue
		}
		v, err := strconv.ParseFloat(token, 64)
		require.NoError(t, err)
		args = append(args, v)
		if len(args) < sizes[op] {
			continue
		}
		switch op {
		case "H":
			at.x = args[0]
		case "V":
			at.y = args[0]
		case "A":
			at = spot{args[5], args[6]}
		default:
			for i := 0; i < len(args); i += 2 {
				at = spot{args[i], args[i+1]}
				spots = append(spots, at)
			}
		}
		spots, args = append(spots, at), nil
	}
	return spots
}

func TestPictogramsAreDrawnWithinTheirFrame(t *testing.T) {
	for _, code := range []safety.Pictogram{safety.Corrosion, safety.Exclamation, safety.Health, safety.Environment} {
		s, ok := symbols[string(code)]
		require.True(t, ok, code)
		require.NotEmpty(t, s.name)
		paths := []string{s.fill}
		for _, l := range s.lines {
			paths = append(paths, l.d)
		}
		black := 0
		for _, d := range paths {
			for _, at := range spotsOf(t, d) {
				// From the middle to the inner edge of the frame it is 42.6 along the axes.
				assert.LessOrEqual(t, math.Abs(at.x-50)+math.Abs(at.y-50), 42.6, "%s at %v", code, at)
				black++
			}
		}
		assert.Greater(t, black, 8, code)
	}
	assert.Nil(t, Pictogram("GHS99"))
}

func TestPictogramSaysWhatItIs(t *testing.T) {
	var b bytes.Buffer
	app.PrintHTML(&b, Pictogram("GHS09"))
	assert.Contains(t, b.String(), `aria-label="GHS09, environment"`)
	assert.Equal(t, 3, strings.Count(b.String(), `data-part="hazard-`)-len(symbols["GHS09"].lines))
}
