//go:build !js

package browsertest

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/long"
	"rosesalt/scripts/page"
)

// drawn opens a served page in a browser made worse and waits until all sections are there;
// the account of the run may still be under way.
func drawn(t *testing.T, before string) *page.Page {
	t.Helper()
	p := page.Load(t, page.Serve(t, page.File(t)), "v=1&cell.count=9", before)
	ready(p)
	p.Wait(`!!document.getElementById('runs.name')`)
	return p
}

// TestPageWhateverTheStorageDoes: with a storage that fails in any way, all that does not
// need one works, and what does says so.
func TestPageWhateverTheStorageDoes(t *testing.T) {
	for _, c := range long.First(3, []struct{ name, script string }{
		{"forbidden", forbidden},
		{"full", full},
		{"holds rubbish", `for (const s of [localStorage, sessionStorage]) for (const k of ["rosesalt.bench", "rosesalt.taps", "rosesalt.labels", "rosesalt.timer.a", "rosesalt.timer.__proto__", "rosesalt.run.0", "rosesalt.run.constructor", "rosesalt.run.", "rosesalt.timer."]) s.setItem(k, '+{"v":1,"version":1,"id":"__proto__","name":"\u202e<img src=x onerror=window.owned=1>"}')`},
		{"cannot read", `Storage.prototype.getItem = () => { throw new DOMException("broken", "UnknownError") }`},
		{"cannot list", `Storage.prototype.key = () => { throw new DOMException("broken", "UnknownError") }`},
		{"reads rubbish", `Storage.prototype.getItem = () => "+\u0000{\ud800"`},
		{"forgets", `Storage.prototype.setItem = () => {}`},
		{"holds a lot", `for (let i = 0; i < 400; i++) { localStorage.setItem("rosesalt.run." + i, "x".repeat(5000)); localStorage.setItem("rosesalt.timer." + i, "x".repeat(1000)); }`},
	}) {
		t.Run(c.name, func(t *testing.T) {
			p := drawn(t, c.script)
			if strings.HasSuffix(c.name, "rubbish") {
				p.Press(page.Escape) // the rubbish said that the bench view was open
				p.Wait(`!document.querySelector('.bench')`)
			}
			enter(p, "fold.labels")
			p.Wait(`!!document.querySelector('.jarlabel')`)
			enter(p, "go.bench")
			p.Wait(`document.getElementById('bench.title')`)
			for range 3 {
				p.Press(arrowRight)
			}
			assert.Equal(t, demoSteps()[3].Title, p.Text(`[id="bench.title"]`))
			p.Click(`.bench-count [data-do="timer"]`)
			p.Wait(`document.querySelector('.timer .num')`)
			p.Press(page.Escape)
			p.Wait(`!document.querySelector('.bench')`)
			press(p, "Keep this run")
			waitRows(p, "=== 1")
			works(t, p)
		})
	}
}

func TestBenchStepThatNeverWas(t *testing.T) {
	for _, kept := range long.First(1, []string{`"+__proto__"`, `"+tea"`, `"+"`, `"+\u0000\ud800\u202e"`, `"+" + "x".repeat(1 << 20)`}) {
		t.Run(kept, func(t *testing.T) {
			p := opened(t, page.Serve(t, page.File(t)), "")
			p.Eval(`sessionStorage.setItem("rosesalt.bench", `+kept+`)`, nil)
			again(p)
			p.Wait(`document.getElementById('bench.title')`)
			assert.Equal(t, demoSteps()[0].Title, p.Text(`[id="bench.title"]`))
			p.Press(arrowRight)
			assert.Equal(t, demoSteps()[1].Title, p.Text(`[id="bench.title"]`))
		})
	}
}

// clockAt makes a machine whose clock says something else when the page is loaded.
func clockAt(at time.Time) string {
	return `{
	const Real = Date, late = ` + strconv.FormatInt(at.UnixMilli(), 10) + ` - Real.now();
	window.Date = class extends Real {
		constructor(...a) { if (a.length) super(...a); else super(Real.now() + late); }
		static now() { return Real.now() + late; }
	};
}`
}

func TestMachineWithAWrongClock(t *testing.T) {
	for _, at := range long.First(2, []time.Time{
		time.UnixMilli(1000),          // never set
		time.UnixMilli(8.64e15 - 1e9), // near the last moment that a browser has
		time.Date(2001, 9, 9, 1, 46, 40, 0, time.UTC),
		time.Date(2126, 2, 28, 23, 59, 58, 0, time.UTC),
	}) {
		t.Run(at.UTC().Format("2006"), func(t *testing.T) {
			p := drawn(t, clockAt(at))
			assert.Contains(t, p.Text(".says-days"), "the work takes")
			enter(p, "go.bench")
			p.Wait(`document.getElementById('bench.title')`)
			for range 3 {
				p.Press(arrowRight)
			}
			p.Click(`.bench-count [data-do="timer"]`)
			p.Wait(`document.querySelector('.timer .num')?.textContent.startsWith('59:5')`)
			p.Press(page.Escape)
			p.Wait(`!document.querySelector('.bench')`)
			press(p, "Keep this run")
			if at.Year() > 9999 {
				p.Wait(`document.querySelector('[id="stage.Kept-runs"] [role="status"]').textContent.includes("cannot be read")`)
			} else {
				waitRows(p, "=== 1")
				assert.Contains(t, p.Text(".kept"), at.Format("2006"))
			}
			works(t, p)
		})
	}
}

func TestTimerOutlivesAClockThatWasDecadesAhead(t *testing.T) {
	p, _ := timed(t)
	p.Click(`.bench-count [data-do="timer"]`)
	p.Wait(`document.querySelector('.timer .num')`)
	const years = "47336400" // ninety, in minutes
	put(p, years)
	p.Wait(`document.querySelector('.timer.over')`)
	put(p, "-"+years)
	p.Wait(`document.querySelector('.timers').textContent.includes('put back by')`)
	p.Reload()
	p.Wait(`document.querySelector('.timer')`)
	said := p.Text(".timers")
	assert.NotContains(t, said, "damaged")
	assert.Contains(t, said, "Soak the black mix")
	assert.True(t, strings.Contains(said, "look at another clock"))
}
