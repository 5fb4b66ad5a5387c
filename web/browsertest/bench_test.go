//go:build !js

package browsertest

import (
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/scripts/page"
)

// demoSteps are the steps of the plan that the page starts with.
func demoSteps() []procedure.Step {
	p := route.NewPlan()
	return procedure.Steps(&p, new(route.Runner).Run(&p), nil)
}

func focused(p *page.Page) string {
	var id string
	p.Eval(`document.activeElement.id`, &id)
	return id
}

const arrowRight, arrowLeft = "\u0303", "\u0302"

func TestBenchViewByKeyboardAlone(t *testing.T) {
	steps := demoSteps()
	p := fresh(t, "")
	settle(p)
	p.Eval(`scrollTo({ top: 700, behavior: "instant" })`, nil)
	p.Eval(`document.getElementById('go.bench').focus({ preventScroll: true })`, nil)
	var was, is float64
	p.Eval(`scrollY`, &was)
	p.Press("\r")
	p.Wait(`document.getElementById('bench.title')`)
	assert.Equal(t, "bench.title", focused(p))
	assert.Equal(t, steps[0].Title, p.Text(`[id="bench.title"]`))
	var inputs int
	p.Eval(`[...document.querySelectorAll('input, select, textarea')].filter(e => e.offsetParent).length`, &inputs)
	assert.Zero(t, inputs, "a stray touch has nothing to change")
	var hidden bool
	p.Eval(`!document.querySelector('main').offsetParent && !document.querySelector('header').offsetParent`, &hidden)
	assert.True(t, hidden)

	p.Press(arrowLeft)
	assert.Equal(t, steps[0].Title, p.Text(`[id="bench.title"]`), "there is nothing before the first")
	for i := 1; i < len(steps); i++ {
		p.Press(arrowRight)
		require.Equal(t, steps[i].Title, p.Text(`[id="bench.title"]`))
		assert.Equal(t, "bench.title", focused(p))
		shown := p.Text(".bench")
		assert.Contains(t, shown, fmt.Sprintf("Step %d of %d", i+1, len(steps)))
		for _, text := range append([]string{steps[i].Stop, steps[i].See, steps[i].Misled, steps[i].End}, steps[i].Do...) {
			assert.Contains(t, shown, text)
		}
		for _, a := range steps[i].Take {
			number, unit := route.PrintParts(a.Value, a.Unit)
			assert.Contains(t, shown, number+"\u202f"+unit)
		}
		for _, m := range steps[i].Measure {
			assert.Contains(t, shown, m.Name)
			if quantity.Given(m.Expect) {
				assert.Contains(t, shown, "expect about "+route.Print(m.Expect, m.Unit))
			}
		}
		if steps[i].Stop != "" {
			var first bool
			p.Eval(`document.querySelector('.bench-stop').getBoundingClientRect().bottom <= (document.querySelector('.bench-take') ?? document.querySelector('.bench-watch ~ p')).getBoundingClientRect().top + 1`, &first)
			assert.True(t, first, "the stop stands before the work")
		}
	}
	p.Press(arrowRight)
	assert.Equal(t, steps[len(steps)-1].Title, p.Text(`[id="bench.title"]`))

	// The buttons keep the focus, so that Enter goes on and on.
	p.Eval(`document.getElementById('bench.back').focus()`, nil)
	p.Press("\r")
	time.Sleep(400 * time.Millisecond)
	p.Press("\r")
	assert.Equal(t, steps[len(steps)-3].Title, p.Text(`[id="bench.title"]`))
	assert.Equal(t, "bench.back", focused(p))

	p.Press(page.Escape)
	p.Wait(`!document.getElementById('bench.title')`)
	assert.Equal(t, "go.bench", focused(p))
	p.Eval(`scrollY`, &is)
	assert.InDelta(t, was, is, 1, "the page is where it was")
	p.Press("\r")
	p.Wait(`document.getElementById('bench.title')`)
	assert.Equal(t, steps[len(steps)-3].Title, p.Text(`[id="bench.title"]`), "and so is the step")
}

func TestBenchViewIsForGloves(t *testing.T) {
	p := fresh(t, "")
	settle(p)
	enter(p, "go.bench")
	p.Wait(`document.getElementById('bench.next')`)
	for _, width := range []int{320, 360, 768, 1280} {
		p.View(width, 700, false)
		for _, s := range demoSteps() {
			require.Contains(t, p.Text("body"), s.Title)
			var low, over []string
			p.Eval(`[...document.querySelectorAll('.bench button')].filter(b => b.getBoundingClientRect().height < 64 || b.getBoundingClientRect().width < 64).map(b => b.textContent)`, &low)
			assert.Empty(t, low, "at %d px: %s", width, s.Key)
			p.Eval(`[...document.querySelectorAll('.bench *')].filter(e => !e.matches('.unseen') && e.getBoundingClientRect().right > document.documentElement.clientWidth + 1).map(e => e.className + e.textContent.slice(0, 30))`, &over)
			assert.Empty(t, over, "at %d px: %s", width, s.Key)
			p.Press(arrowRight)
		}
		for range demoSteps() {
			p.Press(arrowLeft)
		}
	}
	// Two touches at once are a tremble.
	p.Eval(`{ const b = document.getElementById('bench.next'); b.click(); b.click(); }`, nil)
	p.Wait(`document.querySelector('.bench-head b').textContent.startsWith('Step 2 ')`)
	p.Settle()
	assert.Contains(t, p.Text(".bench-head"), "Step 2 of")
	p.Eval(`new Promise(done => setTimeout(done, 400))`, nil)
	p.Click(`[id="bench.next"]`)
	assert.Contains(t, p.Text(".bench-head"), "Step 3 of")
}

func TestBenchViewSurvivesAReloadAndShowsAnotherPlan(t *testing.T) {
	p := opened(t, page.Serve(t, page.File(t)), "")
	soak := func() {
		t.Helper()
		enter(p, "go.bench")
		p.Wait(`document.getElementById('bench.title')`)
		for range 3 {
			p.Press(arrowRight)
		}
	}
	soak()
	title := p.Text(`[id="bench.title"]`)
	again(p)
	p.Wait(`document.getElementById('bench.title')`)
	assert.Equal(t, title, p.Text(`[id="bench.title"]`))
	p.Address("v=2&cell.count=12")
	p.Wait(`!document.querySelector('.bench')`)
	soak()
	assert.Equal(t, title, p.Text(`[id="bench.title"]`))
	sheet := sheetOf("v=2&cell.count=12")
	assert.Contains(t, p.Text(".bench-take"), route.Print(sheet.Value(route.WashSoakUsed), "mL"))
	p.Address("v=2&cell.rejects=6")
	p.Wait(`!document.querySelector('.bench')`)
	enter(p, "go.bench")
	p.Wait(`document.querySelector('.bench')`)
	assert.Contains(t, p.Text(".bench"), "No cell is opened")
	p.Press(page.Escape)
	p.Wait(`!document.querySelector('.bench')`)
	again(p)
	var there bool
	p.Eval(`!!document.querySelector('.bench')`, &there)
	assert.False(t, there, "left is left")
}

// TestALinkDoesNotBeginAtTheBench of the plan that the tab showed before.
func TestALinkDoesNotBeginAtTheBench(t *testing.T) {
	for _, changed := range []string{"", "v=2&cell.count=8"} {
		p := opened(t, page.Serve(t, page.File(t)), changed)
		enter(p, "go.bench")
		p.Wait(`document.getElementById('bench.title')`)
		p.Press(arrowRight)
		p.Eval(`new Promise(done => setTimeout(done, 500))`, nil)           // what is done is kept
		p.Eval("history.replaceState(null, '', '#v=2&cell.count=12')", nil) // as a link that is opened in the tab
		p.Reload()
		var there bool
		p.Eval(`!!document.querySelector('.bench')`, &there)
		assert.False(t, there)
		enter(p, "go.bench")
		p.Wait(`document.getElementById('bench.title')`)
		assert.Contains(t, p.Text(".bench-head"), "Step 1 of")
	}
}

// TestALinkOverTheBenchShutsIt: a link that is pasted over the address begins at the first screen, and
// the bench of its plan at the first step; Back is where one was.
func TestALinkOverTheBenchShutsIt(t *testing.T) {
	p := closed(t, "v=2&cell.count=8")
	settle(p)
	enter(p, "go.bench")
	p.Wait(`document.getElementById('bench.title')`)
	p.Press(arrowRight)
	assert.Contains(t, p.Text(".bench-head"), "Step 2 of")
	p.Eval(`void (location.hash = "v=2&cell.count=12")`, nil)
	p.Wait(`!document.querySelector('.bench')`)
	assert.Equal(t, "place.plan", whereIs(t, p))
	assert.Equal(t, "v=2&cell.count=12", p.Fragment())
	enter(p, "go.bench")
	p.Wait(`document.getElementById('bench.title')`)
	assert.Contains(t, p.Text(".bench-head"), "Step 1 of")
	p.Back()
	assert.Equal(t, "place.plan", whereIs(t, p))
	assert.Equal(t, "v=2&cell.count=12", p.Fragment())
	p.Back()
	p.Wait(`document.getElementById('bench.title') && location.hash === "#v=2&cell.count=8"`)
}

// forbidden makes a browser that keeps no site data.
const forbidden = `for (const s of ["localStorage", "sessionStorage"]) Object.defineProperty(window, s, { configurable: true, get() { throw new DOMException("denied", "SecurityError") } })`

// full makes one whose storage takes nothing more.
const full = `Storage.prototype.setItem = () => { throw new DOMException("full", "QuotaExceededError") }`

func TestBenchViewAndTimersWithoutStorage(t *testing.T) {
	for name, lesser := range map[string]string{"forbidden": forbidden, "full": full} {
		t.Run(name, func(t *testing.T) {
			p := page.Load(t, page.File(t), "", lesser)
			ready(p)
			enter(p, "go.bench")
			p.Wait(`document.getElementById('bench.title')`)
			for range 3 {
				p.Press(arrowRight)
			}
			assert.Equal(t, demoSteps()[3].Title, p.Text(`[id="bench.title"]`))
			p.Click(`.bench-count [data-do="timer"]`)
			p.Wait(`/^59:5[0-7]$/.test(document.querySelector('.timer .num')?.textContent ?? '')`) // it goes on
			assert.Contains(t, p.Text(".timers"), "a reload or a closed window ends them")
		})
	}
}

// screen makes a screen whose being kept awake can be counted.
const screen = `window.asked = window.freed = 0; Object.defineProperty(Navigator.prototype, "wakeLock", { configurable: true, value: { request: (what) => {
	if (what !== "screen") throw new TypeError(what);
	window.asked++;
	return Promise.resolve({ release: () => { window.freed++; return Promise.resolve(); } });
} } })`

func TestScreenIsKeptAwake(t *testing.T) {
	p := page.Load(t, page.File(t), "", screen)
	p.Ready()
	enter(p, "go.bench")
	p.Wait(`window.asked === 1`)
	p.Wait(`document.querySelector('.bench').textContent.includes('The screen stays on')`)
	p.Eval(`document.dispatchEvent(new Event("visibilitychange"))`, nil)
	p.Wait(`window.asked === 2 && window.freed === 1`)
	p.Press(page.Escape)
	p.Wait(`window.freed === 2`)
	p.Eval(`document.dispatchEvent(new Event("visibilitychange"))`, nil)
	p.Settle()
	var asked int
	p.Eval(`window.asked`, &asked)
	assert.Equal(t, 2, asked, "the page does not need the screen")
}

func TestScreenThatCannotBeKeptAwake(t *testing.T) {
	for name, lesser := range map[string]string{
		"missing":  `delete Navigator.prototype.wakeLock`,
		"refused":  `Object.defineProperty(Navigator.prototype, "wakeLock", { value: { request: () => Promise.reject(new DOMException("no", "NotAllowedError")) } })`,
		"throwing": `Object.defineProperty(Navigator.prototype, "wakeLock", { value: { request: () => { throw new TypeError("no") } } })`,
	} {
		t.Run(name, func(t *testing.T) {
			p := page.Load(t, page.File(t), "", lesser)
			ready(p)
			enter(p, "go.bench")
			p.Wait(`document.querySelector('.bench')?.textContent.includes('The screen may go dark')`)
			p.Press(arrowRight)
			assert.Contains(t, p.Text(".bench-head"), "Step 2 of")
		})
	}
}

// TestBenchPictures writes what the bench view looks like to the folder named by
// ROSESALT_PICTURES, to be looked at.
func TestBenchPictures(t *testing.T) {
	folder := toBeLookedAt(t)
	p := fresh(t, "")
	settle(p)
	enter(p, "go.bench")
	p.Wait(`!!document.getElementById('bench.title')`)
	for range 2 {
		p.Press(arrowRight)
	}
	at := map[string]int{}
	for i, s := range demoSteps() {
		at[s.Key] = i
	}
	here := 2
	for _, key := range []string{"open", "soak", "charge", "gas"} {
		for ; here < at[key]; here++ {
			p.Press(arrowRight)
		}
		if key == "soak" {
			p.Click(`.bench-count [data-do="timer"]`)
		}
		for _, shot := range []struct {
			name  string
			width int
			dark  bool
		}{{"360-light", 360, false}, {"360-dark", 360, true}, {"768-light", 768, false}, {"1280-light", 1280, false}, {"1280-dark", 1280, true}} {
			file := filepath.Join(folder, "bench-"+key+"-"+shot.name+".png")
			p.Screenshot(file, shot.width, 800, shot.dark)
			assert.FileExists(t, file)
		}
	}
}

// TestWhatIsMeasuredIsTypedInItsStep: it feeds the account, or the plan; a plan is not changed
// by what belongs to a run before there is one; and the card of mishaps is a touch away.
func TestWhatIsMeasuredIsTypedInItsStep(t *testing.T) {
	p := closed(t, "")
	settle(p)
	toField := func(key string) {
		t.Helper()
		require.True(t, stepTo(p, `.bench [data-key="`+key+`"]`), "no step has "+key)
	}
	typeIn := func(key, text string) {
		t.Helper()
		p.Eval(`document.querySelector('.bench [data-key="`+key+`"]').focus()`, nil)
		p.Press(text)
	}
	p.Click(`[id="go.bench"]`)
	p.Wait(`!!document.getElementById('bench.title')`)
	toField("mix.wet")
	typeIn("mix.wet", "155")
	p.Wait(`location.hash.includes('mix.wet=155')`)
	p.Press(arrowLeft) // the caret
	assert.Contains(t, p.Text(".bench h1"), "Open the cells")
	p.Eval(`document.getElementById('bench.title').focus()`, nil)
	p.Click(`[id="bench.wrong"]`)
	assert.Contains(t, p.Text(".bench-card"), "eye")
	p.Click(`[id="bench.wrong"]`)
	var there bool
	p.Eval(`document.getElementById('bench.card').childElementCount > 0`, &there)
	assert.False(t, there)

	p.Press(page.Escape)
	pressTool(p, "Start this run")
	p.Wait(`location.hash.includes('run=')`)
	p.Click(`[id="go.bench"]`)
	p.Wait(`!!document.getElementById('bench.title')`)
	toField("gas.acid") // which belongs to a run
	toField("found.product.empty")
	var low []string
	p.Eval(`[...document.querySelectorAll('.bench .in')].filter(e => e.getBoundingClientRect().height < 64).map(e => e.textContent)`, &low)
	assert.Empty(t, low)
	typeIn("found.product.empty", "84.1")
	p.Eval(`document.getElementById('bench.title').focus()`, nil)
	toField("found.product.full") // a step later
	typeIn("found.product.full", "tea")
	assert.Contains(t, p.Text(`[id="problem.bench.found.product.full"]`), "tea")
	typeIn("found.product.full", "114.1")
	p.Wait(`location.hash.includes('found.product.empty=84.1')`)
	p.Press(page.Escape)
	p.Click(`[id="go.after"]`)
	settle(p)
	assert.Equal(t, "84.1", p.Typed("found.product.empty"))
}

// stepTo goes on at the bench to the first step that shows something; not there where none does.
func stepTo(p *page.Page, selector string) (there bool) {
	for range demoSteps() {
		if p.Eval("!!document.querySelector('"+selector+"')", &there); there {
			break
		}
		p.Press(arrowRight)
	}
	return there
}

// TestTheRunIsStartedAtTheBench: where its boxes are missed, by keys alone, and taken back there.
func TestTheRunIsStartedAtTheBench(t *testing.T) {
	p := closed(t, "")
	settle(p)
	enter(p, "go.bench")
	p.Wait(`!!document.getElementById('bench.title')`)
	require.True(t, stepTo(p, `[id="bench.start"]`))
	title := p.Text(".bench h1")
	enter(p, "bench.start")
	p.Wait(`location.hash.includes('run=')`)
	p.Wait(`document.activeElement.matches('.bench-measure input')`)
	assert.Equal(t, title, p.Text(".bench h1"))
	p.Press("45")
	p.Wait(`location.hash.includes('=45')`)
	enter(p, "bench.undo")
	p.Wait(`!location.hash.includes('run=') && location.hash.includes('=45')`) // what was typed since stays
	p.Wait(`document.activeElement.id === 'bench.title'`)
	assert.Equal(t, title, p.Text(".bench h1"))
	p.Wait(`!!document.getElementById('bench.start')`)
}

// TestTheCakeIsWeighedOutAtTheBench, by keys alone: grams are typed there and their share is said;
// a share that is typed takes their place.
func TestTheCakeIsWeighedOutAtTheBench(t *testing.T) {
	p := closed(t, "")
	settle(p)
	enter(p, "go.bench")
	p.Wait(`!!document.getElementById('bench.title')`)
	require.True(t, stepTo(p, `.bench [data-key="cake.taken"]`))
	enter(p, "bench.start")
	p.Wait(`document.activeElement.dataset.key === 'cake.damp'`)
	p.Press("400")
	p.Press("\t")
	p.Press("95")
	p.Wait(`location.hash.includes('cake.damp=400&cake.taken=95')`)
	p.Wait(`document.querySelector('.bench-measure').textContent.includes('of all of the damp cake, 400')`)
	p.Press("\t")
	p.Wait(`document.activeElement.dataset.key === 'batch.share' && document.activeElement.value === '23.75'`)
	p.Press("30") // over it
	p.Wait(`location.hash.includes('batch.share=30&cake.damp=400') && !location.hash.includes('cake.taken')`)
	p.Wait(`document.querySelector('.bench [data-key="cake.taken"]').value === ''`)
}
