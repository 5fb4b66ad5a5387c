//go:build !js

package browsertest

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/page"
)

// typist uses the page by keys alone: nothing here gives the focus to anything but
// the tabulator, and what the page itself does.
type typist struct {
	t *testing.T
	p *page.Page
}

// to goes on by the tabulator, or back, until the focus stands where a JavaScript
// expression of "e" says.
func (k typist) to(where string, back bool) {
	k.t.Helper()
	for range 700 {
		var there bool
		k.p.Eval(`(e => !!(`+where+`))(document.activeElement)`, &there)
		if there {
			return
		}
		if back {
			k.p.StrokeBack()
		} else {
			k.p.Stroke(page.Tab)
		}
	}
	require.Fail(k.t, "the tabulator does not come to "+where)
}

func (k typist) toField(name string) { k.t.Helper(); k.to(`e.name === "`+name+`"`, false) }

func (k typist) toWords(words string) {
	k.t.Helper()
	k.to(`e.matches("button, summary") && e.textContent.trim().startsWith("`+words+`")`, false)
}

// fill types into a field: what is reached by the tabulator is marked and typed over.
func (k typist) fill(name, text string) {
	k.t.Helper()
	k.toField(name)
	k.p.Press(text)
	require.Equal(k.t, text, k.p.Typed(name))
}

// jump goes to a section by its line, and opens it. Escape leads from anywhere in two strokes
// to a line, and the arrows lead on.
func (k typist) jump(title string) {
	k.t.Helper()
	k.p.Press(page.Escape)
	var there, shut bool
	if k.p.Eval(onLine, &there); !there {
		k.p.Press(page.Escape)
		k.p.Eval(onLine, &there)
	}
	require.True(k.t, there, "Escape leads to a line")
	key := page.ArrowDown
	k.p.Eval(`!!(`+lines+`.findIndex(b => b.textContent === "`+title+`") < `+lines+`.indexOf(document.activeElement))`, &there)
	if there {
		key = page.ArrowUp
	}
	for range 30 {
		if k.p.Eval(`document.activeElement.textContent === "`+title+`"`, &there); there {
			break
		}
		k.p.Stroke(key)
	}
	require.True(k.t, there, "the arrows lead to "+title)
	if k.p.Eval(`document.activeElement.ariaExpanded === "false"`, &shut); shut {
		k.p.Press(page.Enter)
	}
	k.p.Wait(`document.activeElement.ariaExpanded === "true" && document.activeElement.id === "stage.` + strings.ReplaceAll(title, " ", "-") + `.title"`)
}

// place goes to a place by its button at the head of the page, to which Escape leads.
func (k typist) place(word string) {
	k.t.Helper()
	for range 3 {
		var there bool
		if k.p.Eval(`!!document.activeElement.closest("header")`, &there); there {
			break
		}
		k.p.Press(page.Escape)
	}
	k.to(`e.id === "go.`+word+`"`, false)
	k.p.Press(page.Enter)
	k.p.Wait(`!document.getElementById("place.` + word + `").hidden`)
}

// lines are the lines of the sections that are shown, and onLine tells whether the focus is on
// one.
const (
	lines  = `[...document.querySelectorAll(".place:not([hidden]) .head h2 button")]`
	onLine = `document.activeElement.matches(".head h2 button")`
)

// TestAnyBrowserDoesTheWholeJobByTheKeyboardAlone: from a new page to the plan of the next run.
func TestAnyBrowserDoesTheWholeJobByTheKeyboardAlone(t *testing.T) {
	p := page.Load(t, page.Serve(t, page.File(t)), "", clock, `window.print = () => { window.printed = document.documentElement.classList.contains("sheeted") }`)
	p.Ready()
	settle(p)
	p.Show(1280, 800, calm(p))
	k := typist{t, p}

	// The cells, and the reductant.
	k.to(`e.matches(".count")`, false)
	p.Press("9")
	k.jump("Cells")
	assert.Equal(t, "9", p.Typed("cell.count"))
	k.jump("Gas")
	k.toField("gas.source")
	for _, way := range []string{"metabisulfite", "slurrysalt"} {
		p.Press(page.ArrowDown)
		require.Equal(t, way, p.Typed("gas.source"))
	}
	p.Press(page.ArrowUp)
	p.Press(page.ArrowUp)
	require.Equal(t, "copper", p.Typed("gas.source"))

	// A figure's working, and back.
	k.to(`e.closest(".fig")?.querySelector("[id='gas.made']")`, false)
	p.Press(page.Enter)
	p.Wait(`document.activeElement.id === "working.title"`)
	k.to(`e.textContent === "Close"`, true)
	p.Press(page.Enter)
	p.Wait(`!document.getElementById("working")`)
	p.Wait(`!!document.activeElement.closest(".fig")?.querySelector("[id='gas.made']")`)

	// How sure, and an interval of one's own.
	k.jump("How sure")
	k.toWords("What the doubt rests on")
	p.Press(page.Enter)
	k.fill("gas.uptake~", "75 to 85")
	p.Wait(`location.hash.includes("gas.uptake~=75,85")`)
	settle(p)

	// The bench sheet.
	p.Press(page.Escape)
	k.to(`e.textContent === "Print the bench sheet"`, true)
	p.Press(page.Enter)
	p.Wait(`window.printed === true`)
	p.Eval(`void dispatchEvent(new Event("afterprint"))`, nil)
	p.Wait(`!document.querySelector(".sheet *")`)

	// The run: started, what was poured, stages done.
	k.to(`e.textContent === "Start this run"`, true)
	p.Press(page.Enter)
	p.Wait(`location.hash.includes("run=")`)
	p.Wait(`document.activeElement.id === "said"`)
	settle(p)
	k.jump("Batch")
	k.fill("batch.share", "30")
	k.to(`e.id === "done.stage.Batch"`, false)
	p.Press(page.Enter)
	p.Wait(`document.activeElement.id === "open.stage.Batch"`)
	k.fill("gas.acid", "70")
	k.to(`e.id === "done.stage.Gas"`, false)
	p.Press(page.Space)
	p.Wait(`document.activeElement.id === "open.stage.Gas"`)

	// At the bench, a timer, and back.
	p.Press(page.Escape)
	k.to(`e.id === "go.bench"`, true)
	p.Press(page.Enter)
	p.Wait(`document.activeElement.id === "bench.title"`)
	for range 40 {
		var counts bool
		if p.Eval(`!!document.querySelector(".bench-count [data-do='timer']")`, &counts); counts {
			break
		}
		p.Press(arrowRight)
	}
	k.to(`e.matches(".bench-count [data-do='timer']")`, false)
	p.Press(page.Enter)
	p.Wait(`!!document.querySelector(".timer")`)
	k.to(`e.closest(".timer") && e.textContent === "End"`, false)
	p.Press(page.Space)
	p.Wait(`!document.querySelector(".timer [role=timer]")`)
	var lost bool
	p.Eval(`document.activeElement === document.body`, &lost)
	assert.False(t, lost, "the focus goes on from what is gone")
	p.Press(page.Escape)
	p.Wait(`document.activeElement.id === "go.bench"`)
	settle(p)

	// Weighed, accounted for, kept, and the next one planned.
	k.jump("Scrub and waste")
	k.to(`e.id === "done.stage.Scrub-and-waste"`, false)
	p.Press(page.Enter)
	p.Wait(`document.querySelector(".run").textContent.includes("All stages are done")`)
	settle(p)
	k.place("after")
	k.jump("After the run")
	k.fill("found.product", "31")
	k.fill("found.copper", "80")
	p.Wait(`document.querySelector(".verdict")?.textContent.includes("in 10")`)
	settle(p)
	k.toWords("The numbers behind it")
	p.Press(page.Enter)
	p.Wait(`document.activeElement.parentElement.open && document.activeElement.parentElement.checkVisibility()`)
	k.jump("Kept runs")
	k.to(`e.id === "runs.name"`, false)
	p.Press("lamps of March")
	k.toWords("Keep this run")
	p.Press(page.Enter)
	waitRows(p, "=== 1")
	assert.Contains(t, p.Text(".kept"), "lamps of March")
	k.jump("After the run")
	k.toWords("Plan the next run with new cells")
	p.Press(page.Enter)
	p.Wait(`!document.querySelector("[aria-label='The run']") && !location.hash.includes("found.")`)
	p.Wait(`document.activeElement.id === "said"`)
}
