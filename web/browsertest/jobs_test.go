//go:build !js

package browsertest

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/scripts/page"
)

// person does a job from start to end by what is seen, and counts what it takes: presses,
// fields that are typed into, and screens scrolled by to what is read or pressed next.
type person struct {
	t                       *testing.T
	p                       *page.Page
	presses, typed, screens int
}

// sees scrolls until an element is in view.
func (h *person) sees(selector string) {
	h.t.Helper()
	h.p.Wait(`!!document.querySelector(` + strconv.Quote(selector) + `)?.checkVisibility()`)
	var off float64
	h.p.Eval(`(() => {
		const r = document.querySelector(`+strconv.Quote(selector)+`).getBoundingClientRect();
		return r.top < 0 ? -r.top / innerHeight : Math.max(0, Math.min(r.bottom, r.top + 100) - innerHeight) / innerHeight;
	})()`, &off)
	if off > 0 {
		h.screens += int(math.Ceil(off))
		h.p.Eval(`document.querySelector(`+strconv.Quote(selector)+`).scrollIntoView({ block: "center", behavior: "instant" })`, nil)
	}
}

// presses something.
func (h *person) press(selector string) {
	h.t.Helper()
	h.sees(selector)
	h.presses++
	h.p.Click(selector)
}

// fill types into a field.
func (h *person) fill(name, text string) {
	h.t.Helper()
	h.sees(`[name="` + name + `"]`)
	h.typed++
	h.p.Type(name, text)
}

// reads waits until words stand where they are looked for.
func (h *person) reads(selector, words string) {
	h.t.Helper()
	h.p.Wait(`document.querySelector(` + strconv.Quote(selector) + `)?.textContent.includes(` + strconv.Quote(words) + `)`)
	h.sees(selector)
}

// takes holds a job to what it took when it was last looked at.
func (h *person) takes(presses, typed, screens int) {
	h.t.Helper()
	h.t.Logf("%d presses, %d fields, %d screens", h.presses, h.typed, h.screens)
	assert.LessOrEqual(h.t, h.presses, presses, "presses")
	assert.LessOrEqual(h.t, h.typed, typed, "fields")
	assert.LessOrEqual(h.t, h.screens, screens, "screens scrolled by")
}

// TestJobWhatIfOnAPhone: a friend's link, two more cells, half of the mix, what another mass
// would take, and the link sent on.
func TestJobWhatIfOnAPhone(t *testing.T) {
	p := closed(t, "v=2&cell.size=R20&cell.count=4")
	p.View(390, 844, false)
	settle(p)
	h := &person{t: t, p: p}
	h.reads(".says", route.Print(sheetOf("v=2&cell.size=R20&cell.count=4").Value(route.ProductMass), "g"))
	h.press(`.says [aria-label="One cell more"]`)
	h.press(`.says [aria-label="One cell more"]`)
	h.reads(".says", route.Print(sheetOf("v=2&cell.size=R20&cell.count=6").Value(route.ProductMass), "g"))
	h.press(`[id="stage.Try-a-change.title"]`)
	h.sees(`[id="ask.grams"]`)
	h.typed++
	p.Eval(`document.getElementById("ask.grams").focus()`, nil)
	p.Press("100")
	h.reads(`[id="ask.answer"]`, "times in ten")
	h.press("#send")
	h.sees(`[id="save.copy"]`)
	h.takes(4, 1, 8)
}

// TestJobClub: six groups in lessons of ninety minutes, what that asks for, and the sheet.
func TestJobClub(t *testing.T) {
	p := page.Load(t, page.Serve(t, page.File(t)), "", `window.print = () => { window.asked = document.documentElement.classList.contains("sheeted") }`)
	p.Ready()
	p.Show(1280, 800, calm(p))
	settle(p)
	h := &person{t: t, p: p}
	h.press(`[id="go.ready"]`)
	h.press(`[id="stage.With-a-club.title"]`)
	h.fill("club.groups", "6")
	h.reads(`[id="stage.With-a-club"] .inside`, "36 cells to open in all")
	h.press(`[id="stage.The-days.title"]`)
	h.fill("days.long", "90")
	h.fill("days.every", "7")
	h.reads(`[id="stage.The-days"] .inside`, "does not fit")
	h.press(`[id="club.print"]`)
	p.Wait(`window.asked === true`)
	h.takes(4, 3, 7)
}

// TestJobRunAtTheBench: the run begun, each step worked through with its weighings typed where
// the hand is, and the account read.
func TestJobRunAtTheBench(t *testing.T) {
	p := closed(t, "v=2&gas.source=peroxide")
	settle(p)
	h := &person{t: t, p: p}
	h.press(`main [data-do="run.start"]`)
	p.Wait(`location.hash.includes("run=")`)
	h.press(`[id="go.bench"]`)
	p.Wait(`document.activeElement.id === "bench.title"`)
	weighed := map[string]string{"mix.wet": "160", "found.residue": "20", "found.product": "30"}
	for range 60 {
		for key, mass := range weighed {
			field, here := `.bench [data-key="`+key+`"]`, false
			if p.Eval(`!!document.querySelector('`+field+`')`, &here); here {
				h.press(field)
				h.typed++
				p.Press(mass)
				delete(weighed, key)
			}
		}
		var last bool
		if p.Eval(`document.getElementById("bench.next").ariaDisabled === "true"`, &last); last {
			break
		}
		h.press(`[id="bench.next"]`)
		p.Eval(`new Promise((done) => setTimeout(done, 350))`, nil) // two at once count as one
	}
	require.Empty(t, weighed, "each is asked for in its step")
	h.press(`[id="bench.leave"]`)
	h.press(`[id="go.after"]`)
	h.reads(`[id="stage.After-the-run"] .verdict`, "in 10")
	assert.Equal(t, "30", p.Typed("found.product"))
	h.takes(22, 3, 4)
}

// TestJobTheWeekAfter: the jar is dry at last, its mass is typed, the account read, and the next
// run planned from it.
func TestJobTheWeekAfter(t *testing.T) {
	p := closed(t, "v=2&run=2026-05-02T09:00&found.copper=60")
	settle(p)
	h := &person{t: t, p: p}
	h.press(`[id="go.after"]`)
	h.fill("found.product", "24")
	h.reads(".verdict", "in 10")
	h.press(`[data-do="next"]`)
	p.Wait(`!location.hash.includes("found.")`)
	h.sees(".says")
	h.takes(2, 1, 4)
}
