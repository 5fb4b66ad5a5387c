//go:build !js

package browsertest

import (
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/page"
)

// clock makes a clock that can be put forward and back, and sound that is counted.
const clock = `{
	window.late = Number(sessionStorage.getItem("late") ?? 0);
	const Real = Date;
	window.Date = class extends Real {
		constructor(...a) { if (a.length) super(...a); else super(Real.now() + window.late); }
		static now() { return Real.now() + window.late; }
	};
	window.tones = 0;
	const make = AudioContext.prototype.createOscillator;
	AudioContext.prototype.createOscillator = function () { window.tones++; return make.call(this); };
}`

// put puts the clock on by minutes, over a reload too.
func put(p *page.Page, minutes string) {
	p.Eval(`sessionStorage.setItem("late", window.late += `+minutes+` * 60000)`, nil)
}

// timed opens the bench view, served for its storage, at the soaking.
func timed(t *testing.T) (*page.Page, string) {
	t.Helper()
	address := page.Serve(t, page.File(t))
	p := page.Load(t, address, "", clock)
	ready(p)
	enter(p, "go.bench")
	p.Wait(`document.getElementById('bench.title')`)
	for range 3 {
		p.Press(arrowRight)
	}
	return p, address
}

func left(p *page.Page) []string {
	var list []string
	p.Eval(`[...document.querySelectorAll('.timer')].map(e => e.querySelector('.what').textContent + ' ' + (e.querySelector('.num')?.textContent ?? ''))`, &list)
	return list
}

func title(p *page.Page) string {
	var s string
	p.Eval(`document.title`, &s)
	return s
}

func TestAnyBrowserRunsATimer(t *testing.T) {
	p, _ := timed(t)
	p.Click(`.bench-count [aria-label="Longer"]`)
	p.Click(`.bench-count [aria-label="Shorter"]`)
	p.Click(`.bench-count [aria-label="Shorter"]`)
	p.Click(`.bench-count [data-do="timer"]`)
	p.Wait(`document.querySelector('.timer .num')?.textContent.startsWith('54:5')`)
	assert.Contains(t, title(p), " Soak the black mix · Rosesalt")
	assert.NotContains(t, p.Text(".timers"), "lets this page sound", "the touch that started it allows the sound")
	time.Sleep(2 * time.Second)
	assert.NotContains(t, p.Text(".timers"), "lets this page sound", "nor does it say so later")

	put(p, "56")
	p.Wait(`document.querySelector('.timer.over')`)
	assert.Contains(t, p.Text(".timer.over"), "over for 1\u202fmin")
	p.Wait(`document.title === 'Over: Soak the black mix · Rosesalt'`) // told at the next second
	p.Wait(`document.querySelector('.timers [role="alert"]')?.textContent.includes('the time is over')`)
	p.Wait(`window.tones === 3`)
	p.Click(`[aria-label="End timer: Soak the black mix"]`)
	p.Wait(`document.querySelector('.timers.none')`)
	assert.Equal(t, "Rosesalt", title(p))
	var kept int
	p.Eval(`Object.keys(localStorage).filter(k => k.startsWith('rosesalt.timer.')).length`, &kept)
	assert.Zero(t, kept)
}

func TestAnyBrowserKeepsTimersThroughAReloadAndAClosedLid(t *testing.T) {
	p, _ := timed(t)
	p.Click(`.bench-count [data-do="timer"]`)
	p.Press(arrowRight)
	p.Click(`.bench-count [data-do="timer"]`)
	p.Click(`.bench-count:nth-child(2) [data-do="timer"]`)
	p.Click(`.bench-count:nth-child(2) [data-do="timer"]`)
	p.Wait(`document.querySelectorAll('.timer').length === 4`)
	var names []string
	p.Eval(`[...document.querySelectorAll('.timer .what')].map(e => e.textContent)`, &names)
	assert.Equal(t, []string{"Soak the black mix", "Wash: stir", "Wash: settle", "Wash: settle (2)"}, names)
	p.Click(`[aria-label="Pause: Wash: settle (2)"]`)
	p.Wait(`document.querySelector('.timer.paused')`)
	paused := left(p)[3]

	put(p, "20")
	p.Reload()
	p.Wait(`document.querySelectorAll('.timer').length === 4`)
	list := left(p)
	assert.Regexp(t, "^Soak the black mix (39:|40:00)", list[0])
	assert.Equal(t, "Wash: stir over for 10\u202fmin", list[1])
	assert.Regexp(t, "^Wash: settle (9:|10:00)", list[2])
	assert.Equal(t, paused, list[3])
	assert.Contains(t, title(p), "Over: Wash: stir", "the one that waits longest")
	assert.Contains(t, p.Text(".timers"), "only once you have touched it")

	// They stand on the page too, and go on from there.
	p.Press(page.Escape)
	p.Wait(`!document.querySelector('.bench')`)
	p.Click(`[aria-label="Go on: Wash: settle (2)"]`)
	p.Wait(`!document.querySelector('.timer.paused')`)
	p.Click(`[aria-label="End timer: Wash: settle (2)"]`)
	p.Wait(`document.querySelector('.timers').textContent.includes('Ended: Wash: settle (2)')`)
	p.Eval(`[...document.querySelectorAll('.timers button')].find(b => b.textContent === 'Let it run on').click()`, nil)
	p.Wait(`document.querySelectorAll('.timer').length === 4 && !document.querySelector('.timers').textContent.includes('Ended: ')`)
}

func TestTimersOfTwoOpenPages(t *testing.T) {
	p, address := timed(t)
	p.Click(`.bench-count [data-do="timer"]`)
	other := page.Load(t, address, "", clock)
	other.Ready()
	other.Wait(`document.querySelectorAll('.timer').length === 1`)
	p.Press(arrowRight)
	p.Click(`.bench-count [data-do="timer"]`)
	other.Wait(`document.querySelectorAll('.timer').length === 2`)
	other.Click(`[aria-label="Pause: Wash: stir"]`)
	p.Wait(`document.querySelector('.timer.paused')`)
	other.Click(`[aria-label="End timer: Soak the black mix"]`)
	p.Wait(`document.querySelectorAll('.timer').length === 1`)
	// The page in which it was not stopped does not bring it back when it is closed.
	p.Reload()
	p.Wait(`document.querySelector('.timer')`)
	assert.Len(t, left(p), 1)
	assert.Contains(t, left(p)[0], "Wash: stir")
}

func TestClockPutBackIsTold(t *testing.T) {
	p, _ := timed(t)
	p.Click(`.bench-count [data-do="timer"]`)
	put(p, "10")
	p.Wait(`document.querySelector('.timer .num').textContent.startsWith('49:5')`)
	put(p, "-180")
	p.Wait(`document.querySelector('.timers').textContent.includes('put back by 2')`)
	assert.Regexp(t, "49:", left(p)[0], "it goes on from where it stood")
	put(p, "-60")
	p.Reload()
	p.Wait(`document.querySelector('.timers').textContent.includes('put back by 3')`)
	assert.Regexp(t, "49:", left(p)[0])
}

func TestDamagedTimersAreTold(t *testing.T) {
	p, _ := timed(t)
	p.Eval(`localStorage.setItem("rosesalt.timer.a", "{"); localStorage.setItem("rosesalt.timer.b", '{"v":9}'); 0`, nil)
	p.Reload()
	p.Wait(`document.querySelector('.timer')`)
	assert.Contains(t, p.Text(".timers"), "timer")
	var kept []string
	p.Eval(`Object.keys(localStorage).filter(k => k.startsWith("rosesalt.timer."))`, &kept)
	assert.Equal(t, []string{"rosesalt.timer.b"}, kept, "what another version wrote is left alone")
}

func TestTickingDrawsTheTimersOnly(t *testing.T) {
	p, _ := timed(t)
	p.Click(`.bench-count [data-do="timer"]`)
	p.Press(page.Escape)
	p.Wait(`!document.querySelector('.bench')`)
	settle(p)
	var moved []string
	p.Eval(`new Promise((done) => {
		const moved = [];
		const watch = new MutationObserver((list) => { for (const m of list) { const e = m.target.nodeType === 1 ? m.target : m.target.parentElement; if (e && !e.closest('.timers, title')) moved.push(e.className + e.textContent.slice(0, 40)); } });
		watch.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
		setTimeout(() => { watch.disconnect(); done(moved); }, 2500);
	})`, &moved)
	assert.Empty(t, moved)
}

// TestTimerPictures writes what timers look like on the page to the folder named by
// ROSESALT_PICTURES, to be looked at.
func TestTimerPictures(t *testing.T) {
	folder := toBeLookedAt(t)
	p, _ := timed(t)
	p.Click(`.bench-count [data-do="timer"]`)
	p.Press(arrowRight)
	p.Click(`.bench-count [data-do="timer"]`)
	p.Click(`.bench-count:nth-child(2) [data-do="timer"]`)
	put(p, "20")
	p.Wait(`document.querySelector('.timer.over')`)
	put(p, "-65")
	p.Wait(`document.querySelector('.timers').textContent.includes('put back')`)
	for _, where := range []string{"bench", "page"} {
		for _, shot := range []struct {
			name  string
			width int
			dark  bool
		}{{"360-light", 360, false}, {"768-dark", 768, true}, {"1280-light", 1280, false}, {"1280-dark", 1280, true}} {
			file := filepath.Join(folder, "timers-"+where+"-"+shot.name+".png")
			p.Screenshot(file, shot.width, 800, shot.dark)
			require.FileExists(t, file)
		}
		p.Press(page.Escape)
	}
}
