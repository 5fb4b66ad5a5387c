//go:build !js

package browsertest

import (
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/sound/soundtest"
	"rosesalt/scripts/page"
)

// countGas opens the section of the gas, and the parts that are named.
func countGas(t *testing.T, p *page.Page, parts ...string) {
	t.Helper()
	for _, part := range append([]string{"gas"}, parts...) {
		var open string
		p.Wait(`document.getElementById('fold.` + part + `')`)
		p.Eval(`document.getElementById('fold.`+part+`').getAttribute('aria-expanded')`, &open)
		if open != "true" {
			enter(p, "fold."+part)
			p.Wait(`document.getElementById('fold.` + part + `')?.getAttribute('aria-expanded') === 'true'`)
		}
	}
	p.Settle()
}

func focus(p *page.Page, id string) {
	e := `document.getElementById('` + id + `')`
	p.Wait(`!!` + e)
	p.Reveal(e)
	p.Eval(e+`.focus()`, nil)
}

// TestTapping taps with real keys for half a minute, and hands over what came of it.
func TestTapping(t *testing.T) {
	p := fresh(t, "")
	countGas(t, p, "gas.tap")
	var high float64
	p.Eval(`Math.min(...['tap', 'tap.1', 'tap.10', 'tap.undo'].map(id => document.getElementById(id).getBoundingClientRect().height))`, &high)
	assert.GreaterOrEqual(t, high, 64.0, "to be hit with gloves on")
	var there bool
	p.Eval(`!!document.getElementById('tap.rate')`, &there)
	assert.False(t, there, "nothing is told of no taps")

	focus(p, "tap.5")
	p.Press("\r")
	focus(p, "tap")
	began := time.Now()
	for i := range 21 {
		p.Press(page.Space)
		if i%5 == 4 {
			time.Sleep(8 * time.Second) // half a minute in all, without which no pace is told
		}
	}
	took := time.Since(began).Seconds()
	p.Wait(`document.getElementById('tap').textContent.includes('100 bubbles in')`)
	rate := number(t, p, "tap.rate")
	assert.InEpsilon(t, 100/took*60, rate, 0.12, "twenty times five after the first, in that time")
	assert.InDelta(t, 0.14, number(t, p, "tap.bubble"), 1e-9, "as the plan says")

	p.Press("B") // wherever the focus is, and with Caps Lock
	p.Wait(`document.getElementById('tap').textContent.includes('105 bubbles in')`)
	focus(p, "tap.undo")
	p.Press("\r")
	p.Wait(`document.getElementById('tap').textContent.includes('100 bubbles in')`)

	// A bubble twice as large is about twice the gas.
	p.Type("log.bubble", "caught")
	assert.Contains(t, p.Text(`[id="stage.Gas-by-its-bubbles"]`), "“Bubbles caught” is still wanted")
	p.Type("log.caught", "50")
	p.Type("log.filled", "14")
	p.Wait(`document.getElementById('tap.bubble')?.value === '0.28'`)

	var due bool
	p.Eval(`!!document.getElementById('tap.log')`, &due)
	assert.False(t, due, "minute 5 has not come")
	p.Type("log.before", "5")
	focus(p, "tap.log")
	p.Press("\r")
	p.Wait(`location.hash.includes('log.5.rate=')`)
	p.Wait(`document.activeElement.id === 'tap.log.done'`)
	focus(p, "use.tap")
	var says string
	p.Eval(`document.getElementById('use.tap').textContent`, &says)
	assert.Regexp(t, `Write “Gas counted, [\d.]+ ± [\d.]+ mmol” to the account, from 100 bubbles tapped, until the last tap`, says)
	p.Press("\r")
	p.Wait(`location.hash.includes('found.gas=') && location.hash.includes('found.gas~=')`)
	p.Wait(`document.activeElement.id === 'use.tap.done'`)
	assert.NotEmpty(t, p.Typed("found.gas"))
	p.Wait(`document.getElementById('stage.After-the-run').textContent.includes('Most likely')`)

	time.Sleep(5 * time.Second) // in which more gas comes than rounding hides
	focus(p, "tap.end")
	p.Press("\r")
	p.Wait(`document.getElementById('use.tap')?.textContent.includes('until the gas stopped')`)
	focus(p, "tap.over")
	p.Press("\r")
	p.Wait(`!document.getElementById('tap.rate')`)
}

// TestTappingAtTheBench: one key taps once, though the section's pad is there too.
func TestTappingAtTheBench(t *testing.T) {
	p := fresh(t, "")
	countGas(t, p, "gas.tap")
	p.Eval(`document.getElementById('go.bench').focus()`, nil)
	p.Press("\r")
	for range 30 {
		var there bool
		if p.Eval(`!!document.getElementById('bench.taps')`, &there); there {
			break
		}
		p.Press(arrowRight)
	}
	focus(p, "bench.taps")
	p.Press("\r")
	p.Wait(`!!document.getElementById('bench.tap')`)
	var high float64
	p.Eval(`document.getElementById('bench.tap').getBoundingClientRect().height`, &high)
	assert.GreaterOrEqual(t, high, 64.0)
	focus(p, "bench.tap")
	p.Press(page.Space) // the key taps from the first tap on
	for range 3 {
		p.Press("b")
	}
	p.Wait(`document.getElementById('bench.tap').textContent.includes('3 bubbles')`)
	for range 32 { // a pace wants half a minute
		p.Press("b")
		time.Sleep(time.Second)
	}
	p.Wait(`!!document.getElementById('bench.tap.box')`)
	focus(p, "bench.tap.box")
	p.Press("\r")
	p.Wait(`document.activeElement.dataset.key?.endsWith('.rate') && document.activeElement.value > 0`)
	p.Press(page.Escape)
	enter(p, "go.bench")
	countGas(t, p, "gas.tap")
	p.Wait(`document.getElementById('tap').offsetParent && document.getElementById('tap').textContent.includes('35 bubbles')`)

	// An hour of counting outlives a reload, and a stray touch of "Start over".
	rate := number(t, p, "tap.rate")
	again(p)
	countGas(t, p, "gas.tap")
	settle(p)
	assert.InEpsilon(t, rate, number(t, p, "tap.rate"), 0.01)
	assert.Contains(t, p.Text(`[id="tap"]`), "Not counting")
	p.Click(`[id="tap.over"]`)
	p.Wait(`!document.getElementById('tap.rate')`)
	p.Click(`[id="tap.undo"]`)
	assert.InEpsilon(t, rate, number(t, p, "tap.rate"), 0.01)
}

func TestTheGasLog(t *testing.T) {
	p := fresh(t, "")
	countGas(t, p, "gas.log")
	product := p.Value("product.mass")
	p.Type("log.5.rate", "670")
	p.Type("log.10.celsius", "9,5")
	p.Type("log.15.rate", "330")
	p.Type("log.15.paper", "fades")
	p.Wait(`!!document.getElementById('in.log.20.rate')`)
	row := func(minute int) (text string) {
		p.Eval(`document.getElementById('in.log.`+strconv.Itoa(minute)+`.rate').closest('tr').textContent`, &text)
		return text
	}
	assert.Contains(t, row(5), "on time")
	assert.Contains(t, row(15), "behind")
	assert.Regexp(t, `At this pace the demand is met at about minute \d+ \(\d+–\d+\)`, p.Text(`[id="log.met"]`))
	p.Wait(`location.hash.includes('log.5.rate=670&log.10.celsius=9.5&log.15.rate=330&log.15.paper=fades')`)
	assert.Equal(t, product, p.Value("product.mass"), "nothing of the plan moves")

	p.Type("log.20.celsius", "200")
	assert.Contains(t, p.Text(`[id="problem.log.20.celsius"]`), "200")
	p.Type("log.20.celsius", "")
	again(p)
	p.Wait(`document.getElementById('in.log.15.rate')?.value === '330'`)
	assert.Equal(t, "fades", p.Typed("log.15.paper"))
	focus(p, "use.log")
	p.Press("\r")
	p.Wait(`location.hash.includes('found.gas=')`)
}

func TestNoBubblesWhereNothingIsLedIn(t *testing.T) {
	p := fresh(t, "v=1&gas.source=peroxide")
	p.Wait(`document.getElementById('stage.Gas-by-its-bubbles')?.textContent.includes('leads no gas in')`)
}

func TestTouchingFunnelIsToldBeforeTheRun(t *testing.T) {
	p := fresh(t, "")
	countGas(t, p)
	assert.Regexp(t, `some \d.* bubbles come in a second`, p.Text(`[id="gas.outlook"]`))
	p.Type("log.where", "touching")
	p.Wait(`document.getElementById('gas.outlook').textContent.includes('cannot be counted')`)
}

// TestGasPictures leaves pictures of the section in the folder of ROSESALT_PICTURES.
func TestGasPictures(t *testing.T) {
	folder := toBeLookedAt(t)
	p := fresh(t, "v=1&log.5.rate=670&log.5.celsius=8&log.10.rate=480&log.10.paper=keeps&log.15.rate=300")
	countGas(t, p, "gas.tap", "gas.hear", "gas.log")
	focus(p, "tap")
	for range 12 {
		p.Press(page.Space)
	}
	samples, _ := bubbling(60).Make()
	p.Choose(`[id="hear.file"]`, file(t, "bubbles.mp3", soundtest.MP3(t, samples, 44100, 1)))
	heardAll(t, p)
	focus(p, "hear.picture")
	for range 3 {
		p.Press("+")
	}
	require.NoError(t, os.MkdirAll(folder, 0o755))
	for _, shot := range []struct {
		name  string
		width int
		dark  bool
	}{{"gas-360-light", 360, false}, {"gas-360-dark", 360, true}, {"gas-768-light", 768, false}, {"gas-1280-light", 1280, false}, {"gas-1280-dark", 1280, true}} {
		p.View(shot.width, 900, shot.dark)
		p.Eval(`document.querySelectorAll('.place > section').forEach(s => { if (s.id !== 'stage.Gas-by-its-bubbles') s.hidden = true; s.style.display = s.hidden ? 'none' : '' })`, nil)
		p.Screenshot(filepath.Join(folder, shot.name+".png"), shot.width, 0, shot.dark)
	}
}
