//go:build !js

package browsertest

import (
	"fmt"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestStreamHasNoSeams: where one section's part of the stream meets the next one's,
// nothing of the ground shows between, wherever on the pixels the sections begin.
func TestStreamHasNoSeams(t *testing.T) {
	p := open(t, "")
	settle(p)
	var joints int
	p.Eval(`document.querySelectorAll('[data-part="joint"]').length`, &joints)
	require.Greater(t, joints, 2)
	for _, lower := range []string{"0px", "0.3px", "0.6px"} {
		p.Eval(`document.querySelector("main").style.marginTop = "`+lower+`"`, nil)
		for i := range joints {
			var at struct{ X, Y float64 }
			p.Eval(fmt.Sprintf(`(() => {
				const j = document.querySelectorAll('[data-part="joint"]')[%d];
				scrollTo({ top: j.getBoundingClientRect().top + scrollY - 450, behavior: "instant" });
				const box = j.getBoundingClientRect(), next = j.querySelector('[data-part="matter"]').getBBox();
				return { X: box.left + Math.min(8, next.width / 2), Y: box.top };
			})()`, i), &at)
			file := filepath.Join(t.TempDir(), "joint.png")
			p.Screenshot(file, 1280, 900, false)
			f, err := os.Open(file)
			require.NoError(t, err)
			defer f.Close()
			picture, err := png.Decode(f)
			require.NoError(t, err)
			var seen []color.Color
			for _, y := range []float64{-6, -2, -1, 0, 1, 6, 92, 94, 95, 96, 97, 98, 102} {
				c := picture.At(int(at.X), int(at.Y+y))
				if len(seen) == 0 || seen[len(seen)-1] != c {
					seen = append(seen, c)
				}
			}
			assert.Len(t, seen, 1, "joint %d, %s lower: one colour down the stream", i, lower)
		}
	}
}
