//go:build !js

package browsertest

import (
	"encoding/binary"
	"math"
	"os"
	"os/exec"
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

// wave writes samples as WAV, 16 bits, one channel.
func wave(t *testing.T, rate int, samples []float32) string {
	t.Helper()
	b := make([]byte, 44+2*len(samples))
	copy(b, "RIFF")
	binary.LittleEndian.PutUint32(b[4:], uint32(len(b)-8))
	copy(b[8:], "WAVEfmt ")
	binary.LittleEndian.PutUint32(b[16:], 16)
	binary.LittleEndian.PutUint16(b[20:], 1)
	binary.LittleEndian.PutUint16(b[22:], 1)
	binary.LittleEndian.PutUint32(b[24:], uint32(rate))
	binary.LittleEndian.PutUint32(b[28:], uint32(2*rate))
	binary.LittleEndian.PutUint16(b[32:], 2)
	binary.LittleEndian.PutUint16(b[34:], 16)
	copy(b[36:], "data")
	binary.LittleEndian.PutUint32(b[40:], uint32(2*len(samples)))
	for i, s := range samples {
		binary.LittleEndian.PutUint16(b[44+2*i:], uint16(int16(s*math.MaxInt16)))
	}
	path := filepath.Join(t.TempDir(), "bubbles.wav")
	require.NoError(t, os.WriteFile(path, b, 0o644))
	return path
}

// mp3 has a WAV file made into an MP3 by lame, which “make sound” installs.
func mp3(t *testing.T, wav string) string {
	t.Helper()
	lame, err := exec.LookPath("lame")
	require.NoError(t, err, "make sound installs lame")
	path := strings.TrimSuffix(wav, ".wav") + ".mp3"
	out, err := exec.Command(lame, "--quiet", "-b", "96", wav, path).CombinedOutput()
	require.NoError(t, err, string(out))
	return path
}

// hear opens the part for recordings, in the middle of a run, and chooses a file.
func hear(t *testing.T, path string) *page.Page {
	t.Helper()
	p := open(t, "v=1&log.begins=later")
	countGas(t, p, "gas.hear")
	p.Choose(`[id="hear.file"]`, path)
	return p
}

func heardAll(t *testing.T, p *page.Page) {
	t.Helper()
	longWait(t, p, `document.getElementById('hear.picture')`)
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

func TestARecordingGivesTheGasWithinItsInterval(t *testing.T) {
	samples, bubbles := bubbling(60).Make()
	wav := wave(t, 44100, samples)
	for _, path := range []string{mp3(t, wav), wav} {
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
			longWait(t, p, `document.getElementById('stage.After-the-run').textContent.includes('Most likely')`)
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
	folder := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		return path
	}
	huge := filepath.Join(folder, "huge.wav")
	require.NoError(t, os.WriteFile(huge, []byte("RIFF"), 0o644))
	require.NoError(t, os.Truncate(huge, 2<<30))
	p := open(t, "")
	countGas(t, p, "gas.hear")
	for _, c := range []struct{ path, says string }{
		{file("nothing.mp3", ""), "is empty"},
		{file("notes.mp3", strings.Repeat("A text that was only renamed. ", 400)), "the name ends in .mp3"},
		{file("film.mp4", "\x00\x00\x00\x18ftypmp42"), "is a video"},
		{huge, "more than 1 GB is not read"},
		{file("tea.bin", strings.Repeat("tea", 1000)), "no sound that the page or this browser can read"},
	} {
		p.Choose(`[id="hear.file"]`, c.path)
		longWait(t, p, `document.getElementById('problem.hear.file')?.textContent.includes('`+c.says+`')`)
		assert.Contains(t, p.Text(`[id="problem.hear.file"]`), filepath.Base(c.path))
		var invalid bool
		p.Eval(`document.getElementById('hear.file').getAttribute('aria-invalid') === 'true'`, &invalid)
		assert.True(t, invalid, c.says)
	}
	assert.NotEmpty(t, p.Value("product.mass"), "the page goes on")
}

func TestCountingIsCancelled(t *testing.T) {
	samples, _ := bubbling(20).Make()
	var long []float32
	for range 30 {
		long = append(long, samples...)
	}
	p := hear(t, mp3(t, wave(t, 44100, long)))
	p.Wait(`!!document.getElementById('hear.cancel')`)
	// The page answers while it counts.
	p.Eval(`window.slowest = 0; window.last = performance.now(); window.look = setInterval(() => { const now = performance.now(); slowest = Math.max(slowest, now - last); last = now; }, 5); 0`, nil)
	time.Sleep(1500 * time.Millisecond)
	focus(p, "hear.cancel")
	var slowest float64
	p.Eval(`clearInterval(look); slowest`, &slowest)
	t.Logf("the longest the page did not answer: %.0f ms", slowest)
	assert.Less(t, slowest, 400.0)
	p.Press("\r")
	p.Wait(`!document.getElementById('hear.cancel')`)
	p.Wait(`document.getElementById('hear.said').textContent.includes('Cancelled')`)
	time.Sleep(500 * time.Millisecond)
	var there bool
	p.Eval(`!!document.getElementById('hear.picture')`, &there)
	assert.False(t, there, "dropped work stays dropped")
}

func TestTheCountIsCorrectedByKeyboard(t *testing.T) {
	samples, _ := bubbling(60).Make()
	p := hear(t, wave(t, 44100, samples))
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
