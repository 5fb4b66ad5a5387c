//go:build !js

package browsertest

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/long"
	"rosesalt/scripts/page"
)

const (
	offers = `document.querySelectorAll('.left .offer').length`
	noOne  = `Object.defineProperty(navigator, "locks", { value: undefined })` // tells which tabs live
	late   = `{ const ask = LockManager.prototype.query; LockManager.prototype.query = () => { LockManager.prototype.query = ask; return new Promise(() => {}); }; }`
)

// stored waits until this browser holds a last state with a text in it, which it is given
// some moments after typing.
func stored(p *page.Page, text string) {
	quoted, _ := json.Marshal(text)
	p.Wait(`Object.entries(localStorage).some(([k, v]) => k.startsWith("rosesalt.last.") && v.includes(` + string(quoted) + `))`)
}

// pressLeft presses a button of the first thing that is offered, as a keyboard does.
func pressLeft(p *page.Page, text string) {
	p.Wait(offers)
	p.Eval(`[...document.querySelectorAll('.left button')].find(b => b.textContent === '`+text+`').focus()`, nil)
	p.Press("\r")
}

// aRun begins a run on a page, and leaves two weighings and a slip in it.
func aRun(p *page.Page) {
	settle(p)
	unfoldAll(p)
	p.Type("cell.size", "R20")
	p.Type("cell.count", "2")
	pressTool(p, "Start this run")
	p.Wait(`!!document.querySelector('[aria-label="The run"]')`)
	settle(p)
	unfoldAll(p)
	p.Type("found.copper", "12")
	p.Type("found.residue", "9,5")
	p.Type("gas.acid", "about a cup")
	stored(p, "about a cup")
}

func hasRun(t *testing.T, p *page.Page) {
	t.Helper()
	p.Wait(`!!document.querySelector('[aria-label="The run"]')`)
	settle(p)
	assert.Equal(t, "2", p.Typed("cell.count"))
	assert.Equal(t, "12", p.Typed("found.copper"))
	assert.Equal(t, "9.5", p.Typed("found.residue"))
	assert.Equal(t, "about a cup", p.Typed("gas.acid"), "what cannot be read is not lost either")
	assert.Contains(t, p.Text(`[id="problem.gas.acid"]`), "cannot be read")
}

func TestReloadBringsBackWhatCannotBeRead(t *testing.T) {
	p := opened(t, page.Serve(t, page.File(t)), "")
	aRun(p)
	name(p, "first lamp bag")
	p.Eval(`document.getElementById('runs.name').dispatchEvent(new Event('input', { bubbles: true }))`, nil)
	press(p, "Keep this run")
	waitRows(p, "=== 1")
	stored(p, "first lamp bag")
	stored(p, `"kept":`)
	again(p)
	hasRun(t, p)
	p.Wait(`document.getElementById('runs.name').value === 'first lamp bag'`)
	p.Wait(`!!` + button("Keep it in place of “first lamp bag”"))
	var n int
	p.Eval(offers, &n)
	assert.Zero(t, n, "it is here: nothing is to be gone on with")
}

func TestClosedTabIsOfferedAndTakenUp(t *testing.T) {
	for _, c := range long.First(1, []struct {
		name   string
		before []string
	}{{"a browser that tells which tabs live", nil}, {"one that does not", []string{noOne}}, {"one that tells late", []string{late}}}) {
		t.Run(c.name, func(t *testing.T) {
			address := page.Serve(t, page.File(t))
			visit := func(t *testing.T, fragment string) *page.Page {
				p := page.Load(t, address, fragment, c.before...)
				ready(p)
				return p
			}
			stays := visit(t, "") // WebKit's storage goes with its last window
			t.Run("in a tab", func(t *testing.T) {
				p := visit(t, "")
				aRun(p)
				other := visit(t, "")
				settle(other)
				other.Wait(offers + ` === 0`) // what another tab is doing is its own
			})
			p := visit(t, "")
			p.Wait(offers)
			says := p.Text(".left .offer p")
			assert.Contains(t, says, "Go on with the run of today, ")
			assert.Contains(t, says, ", 2\u00a0×\u00a0R20, two weighings, one entry that cannot be read?")
			assert.Equal(t, "v=2", fragmentOr(p, "v=2"), "nothing is put in place unasked")
			pressLeft(p, "Go on")
			hasRun(t, p)
			p.Wait(offers + ` === 0`)
			p.Click("#undo")
			p.Wait(`!document.querySelector('[aria-label="The run"]')`)
			p.Wait(offers)
			linked := visit(t, "v=2&cell.count=44")
			linked.Wait(offers)
			assert.Equal(t, "44", linked.Typed("cell.count"), "never in the place of a link")
			pressLeft(linked, "Go on")
			hasRun(t, linked)
			p.Wait(offers + ` === 0`) // it is open there now
			linked.Back()
			linked.Wait(`document.getElementsByName("cell.count")[0].value === "44"`)
			stays.Eval(offers, nil)
		})
	}
}

func fragmentOr(p *page.Page, none string) string {
	if f := p.Fragment(); f != "" {
		return f
	}
	return none
}

func TestWhatWasLeftIsForgotten(t *testing.T) {
	address := page.Serve(t, page.File(t))
	stays := opened(t, address, "")
	t.Run("in a tab", func(t *testing.T) {
		p := opened(t, address, "")
		p.Type("cell.count", "7")
		stored(p, "cell.count=7")
	})
	p := opened(t, address, "")
	pressLeft(p, "Forget it")
	p.Wait(offers + ` === 0`)
	p.Wait(`document.activeElement.id === "said"`)
	p.Click("#undo")
	p.Wait(offers)
	settle(p)
	p.Wait(`!!document.getElementById("left.forget")`)
	p.Type("cell.count", "8")
	stored(p, "cell.count=8")
	enter(p, "left.forget")
	p.Wait(offers + ` === 0`)
	p.Wait(`!Object.keys(localStorage).some(k => k.startsWith("rosesalt.last."))`)
	p.Click("#undo")
	stored(p, "cell.count=7")
	stored(p, "cell.count=8")
	stays.Eval(offers, nil)
}

// TestDoubledTabsKeepApart: a browser that doubles a tab gives both the same storage, and
// so the same name.
func TestDoubledTabsKeepApart(t *testing.T) {
	address := page.Serve(t, page.File(t))
	one := opened(t, address, "")
	one.Type("cell.count", "7")
	stored(one, "cell.count=7")
	var tab string
	one.Eval(`sessionStorage.getItem("rosesalt.tab")`, &tab)
	quoted, _ := json.Marshal(tab)
	two := page.Load(t, address, "v=2&cell.count=7", `sessionStorage.setItem("rosesalt.tab", `+string(quoted)+`)`)
	ready(two)
	two.Type("cell.count", "8")
	stored(two, "cell.count=8")
	stored(two, "cell.count=7")
}

func TestUndoBringsBackAllThatWasTakenAway(t *testing.T) {
	p := opened(t, page.Serve(t, page.File(t)), "")
	undo := func(label string) {
		t.Helper()
		p.Wait(`document.getElementById("undo")?.textContent === ` + "`" + label + "`")
		p.Click("#undo")
	}
	aRun(p)
	pressRun := func() {
		p.Eval(`document.querySelector('.run button').focus()`, nil)
		p.Press("\r")
		p.Wait(`!document.querySelector('[aria-label="The run"]')`)
	}
	pressRun()
	settle(p)
	assert.Empty(t, p.Typed("found.copper"))
	undo("Undo “Back to planning”")
	hasRun(t, p)
	undo("Undo “bring it back”")
	p.Wait(`!document.querySelector('[aria-label="The run"]')`)

	p.Click(`[id="add.row"]`)
	p.Type("cell.2.count", "3")
	p.Type("cell.2.rejects", "many")
	p.Eval(`document.querySelector('[aria-label="Take out type 2"]').click()`, nil)
	p.Wait(`!document.getElementsByName("cell.2.count").length`)
	undo("Undo “Take out type 2”")
	p.Wait(`document.getElementsByName("cell.2.rejects")[0]?.value === "many"`)
	assert.Equal(t, "3", p.Typed("cell.2.count"))

	pressTool(p, "Start over")
	p.Wait(`!document.getElementsByName("cell.2.count").length`)
	undo("Undo “Start over”")
	p.Wait(`document.getElementsByName("cell.2.rejects")[0]?.value === "many"`)
	p.Wait(`location.hash.includes("cell.2.count=3")`)
}

func TestStorageThatRefusesIsToldBeforeARun(t *testing.T) {
	for why, c := range map[string]struct{ script, says string }{
		"full":      {fullStorage, "its storage is full"},
		"forbidden": {forbiddenStorage, "its storage is forbidden or switched off"},
	} {
		t.Run(why, func(t *testing.T) {
			p := page.Load(t, page.Serve(t, page.File(t)), "", c.script)
			ready(p)
			p.Wait(`!!document.getElementById("keeps.nothing")`)
			said := p.Text("#keeps\\.nothing")
			assert.Contains(t, said, c.says)
			assert.Contains(t, said, "“Save a copy”")
			pressTool(p, "Start this run")
			p.Wait(`!!document.querySelector('[aria-label="The run"]')`)
			p.Wait(`location.hash.includes("run=")`)
		})
	}
}

// filled leaves no room in either storage, to the last character; freed takes it back.
const (
	filled = `for (const s of [localStorage, sessionStorage]) for (let size = 1 << 22, n = 0; size >= 1;) try { s.setItem("filling." + n++, "x".repeat(size)); } catch { size = Math.floor(size / 2); }`
	freed  = `for (const s of [localStorage, sessionStorage]) for (const key of Object.keys(s)) if (key.startsWith("filling.")) s.removeItem(key);`
)

func TestStorageThatFillsUpIsToldAndUsedAgain(t *testing.T) {
	p := opened(t, page.Serve(t, page.File(t)), "")
	p.Type("cell.count", "7")
	stored(p, "cell.count=7")
	p.Eval(filled, nil)
	p.Type("notes", "Ice ran out at noon, and the second bag of it was half water.")
	p.Wait(`!!document.getElementById("keeps.nothing")`)
	assert.Contains(t, p.Text("#keeps\\.nothing"), "its storage is full")
	enter(p, "go.bench")
	p.Wait(`document.getElementById('bench.title')`)
	for range 3 {
		p.Press(arrowRight)
	}
	p.Click(`.bench-count [data-do="timer"]`)
	p.Wait(`document.querySelector('.timer .num')`) // it runs, though it is kept nowhere
	p.Press(page.Escape)
	p.Wait(`!document.querySelector('.bench')`)
	works(t, p)
	p.Eval(freed, nil)
	p.Type("cell.count", "8")
	stored(p, "cell.count=8")
	p.Wait(`!document.getElementById("keeps.nothing")`)
	again(p)
	assert.Equal(t, "8", p.Typed("cell.count"))
	assert.Contains(t, p.Typed("notes"), "half water")
}

func init() {
	tours["what was left"] = func(t *testing.T, look, _ look) {
		address := page.Serve(t, page.File(t))
		stays := opened(t, address, "")
		for _, n := range []string{"7", "8"} {
			t.Run("in a tab", func(t *testing.T) {
				p := opened(t, address, "")
				p.Type("cell.count", n)
				stored(p, "cell.count="+n)
			})
		}
		p := opened(t, address, "")
		p.Wait(offers + ` === 2`)
		settle(p)
		look(p, "two plans that were left")
		p.Click(".left summary")
		pressLeft(p, "Go on")
		p.Wait(`!!document.getElementById("undo")`)
		settle(p)
		look(p, "gone on with, and what can be undone", "Kept-runs")
		stays.Eval("1", nil)
		q := page.Load(t, page.Serve(t, page.File(t)), "", forbiddenStorage)
		ready(q)
		settle(q)
		look(q, "nothing is kept", "Kept-runs")
	}
}
