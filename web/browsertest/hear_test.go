//go:build !js

package browsertest

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/sound/soundtest"
	"rosesalt/scripts/page"
)

// bubbling is a minute of bubbles in a quiet room; what is in it the counter does not know.
func bubbling(seconds float64) soundtest.Scene {
	return soundtest.Scene{
		Rate: 44100, Seconds: seconds, Seed: 11, Gas: soundtest.SulfurDioxide,
		Voices: []soundtest.Voice{{PerSecond: 3.3, Jitter: 0.2, Radius: 3.1, Spread: 0.06, Loud: 0.2, LoudSpread: 0.2}},
	}
}

// file puts a sound file where the browser can choose it.
func file(t *testing.T, name string, bytes []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, bytes, 0o644))
	return path
}

// hear opens the part for recordings, in the middle of a run, and chooses a file.
func hear(t *testing.T, path string) *page.Page {
	t.Helper()
	p := fresh(t, "v=1&log.begins=later")
	countGas(t, p, "gas.hear")
	p.Choose(`[id="hear.file"]`, path)
	return p
}

func heardAll(t *testing.T, p *page.Page) {
	t.Helper()
	p.Wait(`document.getElementById('hear.picture')`)
}

// trueGas is what the made bubbles hold, by the gas law: mmol.
func trueGas(t *testing.T, bubbles []soundtest.Bubble) float64 {
	t.Helper()
	const kelvin, pascal = 293.15, 101325 + 998*9.80665*0.03
	gas := soundtest.Millilitres(bubbles) / 1e6 * pascal / (8.314462618 * kelvin) * 1000
	require.Greater(t, gas, 0.5)
	return gas
}

// holds tells whether a figure's interval holds a value.
func holds(t *testing.T, p *page.Page, key string, value float64) {
	t.Helper()
	var low, high string
	p.Eval(`document.getElementById('`+key+`').dataset.low`, &low)
	p.Eval(`document.getElementById('`+key+`').dataset.high`, &high)
	from, err := strconv.ParseFloat(low, 64)
	require.NoError(t, err)
	to, err := strconv.ParseFloat(high, 64)
	require.NoError(t, err)
	assert.LessOrEqual(t, from, value, key)
	assert.GreaterOrEqual(t, to, value, key)
	assert.Less(t, to/from, 3.0, "an interval that says something")
}

func TestAnyBrowserCountsARecording(t *testing.T) {
	samples, bubbles := bubbling(60).Make()
	for _, path := range []string{
		file(t, "bubbles.mp3", soundtest.MP3(t, samples, 44100, 1, "-b", "96")), file(t, "bubbles.wav", soundtest.WAV(samples, 44100, 1)),
	} {
		t.Run(filepath.Ext(path), func(t *testing.T) {
			p := hear(t, path)
			heardAll(t, p)
			holds(t, p, "hear.count", float64(len(bubbles)))
			holds(t, p, "hear.gas", trueGas(t, bubbles))
			var title string
			p.Eval(`document.querySelector('.hear-picture figcaption').textContent`, &title)
			assert.Contains(t, title, "0:00.00 to 1:0")

			focus(p, "use.hear")
			p.Press("\r")
			p.Wait(`location.hash.includes('found.gas=') && location.hash.includes('found.gas~=')`)
			p.Wait(`document.getElementById('stage.After-the-run').textContent.includes('Most likely')`)
			var requests []string
			for _, r := range p.Requests() {
				if strings.HasPrefix(r, "http") {
					requests = append(requests, r)
				}
			}
			assert.Empty(t, requests, "nothing is sent anywhere")
		})
	}
}

func TestFilesThatAreNoRecordings(t *testing.T) {
	huge := file(t, "huge.wav", []byte("RIFF"))
	require.NoError(t, os.Truncate(huge, 2<<30))
	p := fresh(t, "")
	countGas(t, p, "gas.hear")
	for _, c := range []struct{ path, says string }{
		{file(t, "nothing.mp3", []byte("")), "is empty"},
		{file(t, "notes.mp3", []byte(strings.Repeat("A text that was only renamed. ", 400))), "The name ends in .mp3"},
		{file(t, "film.mp4", []byte("\x00\x00\x00\x18ftypmp42")), "is a video"},
		{huge, "more than 1 GB is not read"},
		{file(t, "tea.bin", []byte(strings.Repeat("tea", 1000))), "This holds no sound that the page or this browser can read"},
	} {
		p.Choose(`[id="hear.file"]`, c.path)
		p.Wait(`document.getElementById('problem.hear.file')?.textContent.includes('` + c.says + `')`)
		assert.Contains(t, p.Text(`[id="problem.hear.file"]`), filepath.Base(c.path))
		var invalid bool
		p.Eval(`document.getElementById('hear.file').getAttribute('aria-invalid') === 'true'`, &invalid)
		assert.True(t, invalid, c.says)
	}
	assert.NotEmpty(t, p.Value("product.mass"), "the page goes on")
}

func TestCountingIsCancelled(t *testing.T) {
	samples, bubbles := bubbling(20).Make()
	var long []float32
	for range 30 {
		long = append(long, samples...)
	}
	path := file(t, "long.mp3", soundtest.MP3(t, long, 44100, 1, "-b", "64"))
	p := hear(t, path)
	p.Wait(`!!document.getElementById('hear.cancel')`)
	// The page answers while it counts: how soon, is for "make bench".
	time.Sleep(1500 * time.Millisecond)
	focus(p, "hear.cancel")
	p.Press("\r")
	p.Wait(`!document.getElementById('hear.cancel')`)
	p.Wait(`document.getElementById('hear.said').textContent.includes('Cancelled')`)
	time.Sleep(500 * time.Millisecond)
	var there bool
	p.Eval(`!!document.getElementById('hear.picture')`, &there)
	assert.False(t, there, "dropped work stays dropped")

	began := time.Now()
	p.Choose(`[id="hear.file"]`, path)
	heardAll(t, p)
	t.Logf("ten minutes of MP3 are counted in %.1f s", time.Since(began).Seconds())
	holds(t, p, "hear.count", float64(30*len(bubbles)))
}

func TestTheCountIsCorrectedByKeyboard(t *testing.T) {
	samples, _ := bubbling(60).Make()
	p := hear(t, file(t, "bubbles.wav", soundtest.WAV(samples, 44100, 1)))
	heardAll(t, p)
	count := func() (n int) {
		v, err := strconv.Atoi(strings.Fields(strings.Split(p.Text(`[id="use.hear"]`), "from ")[1])[0])
		require.NoError(t, err)
		return v
	}
	was, gas := count(), number(t, p, "hear.gas")
	focus(p, "hear.picture")
	p.Press("+")
	p.Press("+")
	p.Press("+")
	p.Press("+")
	var title string
	p.Eval(`document.querySelector('.hear-picture figcaption').textContent`, &title)
	assert.NotContains(t, title, "to 1:00", "a stretch is shown")
	p.Press("n")
	p.Wait(`document.getElementById('hear.mark').textContent.includes('on a bubble')`)
	p.Press("\u007f") // Delete
	p.Wait(`document.getElementById('hear.said').textContent.includes('taken away')`)
	assert.Equal(t, was-1, count())
	assert.Less(t, number(t, p, "hear.gas"), gas)
	p.Press("\r")
	p.Wait(`document.getElementById('hear.said').textContent.includes('is added')`)
	assert.Equal(t, was, count())
	p.Press("\r")
	p.Wait(`document.getElementById('hear.said').textContent.includes('one already')`)
	assert.Equal(t, was, count(), "not two at one time")
	p.Press(arrowRight)
	p.Press("\r")
	p.Wait(`document.getElementById('hear.said').textContent.includes('is added')`)
	assert.Equal(t, was+1, count())
	focus(p, "hear.undo")
	p.Press("\r")
	assert.Equal(t, was, count())
	focus(p, "hear.undoall")
	p.Press("\r")
	p.Wait(`document.getElementById('hear.said').textContent.includes('All corrections')`)
	assert.Equal(t, was, count())
	assert.InDelta(t, gas, number(t, p, "hear.gas"), 1e-9)

	// With the mouse: a bubble that was touched is at the mark.
	p.Click(`.hear-picture svg[data-part="wide"]`)
	p.Wait(`document.getElementById('hear.mark').textContent.startsWith('Mark at')`)

	// What is shown is heard.
	focus(p, "hear.play")
	p.Press("\r")
	p.Wait(`document.getElementById('hear.play').textContent === 'Stop listening'`)
	p.Press("\r")
	p.Wait(`document.getElementById('hear.play').textContent === 'Listen to this stretch'`)
}
