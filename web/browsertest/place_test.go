//go:build !js

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/long"
	"rosesalt/scripts/page"
)

// TestWhatIsLookedAtStaysWhereItIs while the intervals and pictures come, which takes
// seconds and makes the page more than twice as long.
func TestWhatIsLookedAtStaysWhereItIs(t *testing.T) {
	const line = `parseFloat(getComputedStyle(document.documentElement).scrollPaddingTop)`
	// to brings what look gives to some pixels below the line.
	to := func(below string) string {
		return `scrollBy({ top: look().getBoundingClientRect().top - ` + line + ` - ` + below + `, behavior: "instant" })`
	}
	for _, c := range long.First(3, []struct{ name, look, begin string }{
		{"the beginning of a section", `document.getElementById("stage.Slurry")`, to("0")},
		{"a caution below a picture that comes", `document.querySelector('[id="stage.Gas"] .stop')`, to("10")},
		{"the line of a section", `document.getElementById("stage.Copper-salt.title")`, to("0")},
		{"a second caution", `document.querySelectorAll('[id="stage.Slurry"] .stop')[1]`, to("10")},
		{"a figure within a section with a jar", `document.getElementById("product.mass")`, to("30")},
		{"a field", `document.getElementsByName("slurry.water")[0]`, to("5")},
	}) {
		t.Run(c.name, func(t *testing.T) {
			p := page.Load(t, page.File(t), "", `window.look = () => `+c.look+`;
			new MutationObserver((_, watch) => {
				if (!("ready" in document.documentElement.dataset)) return;
				watch.disconnect();
				`+c.begin+`;
				window.begun = { Top: look().getBoundingClientRect().top, Scrolled: scrollY, Settling: !!document.querySelector(".settling") };
			}).observe(document, { subtree: true, attributes: true, attributeFilter: ["data-ready"] })`)
			ready(p)
			settle(p)
			p.Reload() // with all open, as it was left
			settle(p)
			var begun, stands struct {
				Top, Scrolled float64
				Settling      bool
			}
			p.Eval("window.begun", &begun)
			p.Eval("({ Top: look().getBoundingClientRect().top, Scrolled: scrollY })", &stands)
			assert.True(t, begun.Settling)
			assert.Greater(t, stands.Scrolled, begun.Scrolled+50, "something came above it")
			assert.InDelta(t, begun.Top, stands.Top, 1, "in CSS pixels")
		})
	}
}

func TestWhatHasTheFocusStaysWhereItIs(t *testing.T) {
	for _, c := range long.First(3, []struct {
		name        string
		first, come string  // what is done before something of 100 pixels comes, and where that comes
		field, page float64 // how far the field moves in the window, and the page is scrolled
	}{
		{"out of sight", "", `document.querySelector("main").prepend(thing)`, 0, 100},
		{"in sight", "", `field.closest(".inside > *").before(thing)`, 0, 100},
		{"below", "", `field.closest("section").append(thing)`, 0, 0},
		{"no longer in sight", `scrollBy({ top: 2000, behavior: "instant" })`, `field.closest("section").before(thing)`, 0, 100},
		{"at the page's start", `scrollTo({ top: 50, behavior: "instant" })`, `document.querySelector("main").prepend(thing)`, 100, 0},
	}) {
		t.Run(c.name, func(t *testing.T) {
			p := open(t, "")
			settle(p)
			var by struct{ Field, Page float64 }
			p.Eval(`(async () => {
				const still = () => new Promise((done) => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(done)), 100));
				const field = document.getElementsByName("gas.copper")[0], box = () => field.getBoundingClientRect();
				field.focus({ preventScroll: true }); // which WebKit does late
				field.scrollIntoView({ block: "center", behavior: "instant" });
				`+c.first+`;
				await still();
				const thing = document.createElement("div");
				thing.style.height = "100px";
				const top = box().top, scrolled = scrollY;
				`+c.come+`;
				await still();
				const by = { Field: box().top - top, Page: scrollY - scrolled };
				thing.remove();
				return by;
			})()`, &by)
			assert.InDelta(t, c.field, by.Field, 1)
			assert.InDelta(t, c.page, by.Page, 1)
		})
	}
}

func TestWhatHasTheFocusStaysInANarrowerWindow(t *testing.T) {
	p := open(t, "")
	settle(p)
	field := func() (is struct{ Top, Scrolled float64 }) {
		p.Eval(`({ Top: document.getElementsByName("gas.copper")[0].getBoundingClientRect().top, Scrolled: scrollY })`, &is)
		return is
	}
	p.Eval(`{ const e = document.getElementsByName("gas.copper")[0]; e.focus(); e.scrollIntoView({ block: "center", behavior: "instant" }) }`, nil)
	p.Settle()
	wide := field()
	p.View(700, 900, false)
	narrow := field()
	assert.Greater(t, narrow.Scrolled, wide.Scrolled+100)
	assert.InDelta(t, wide.Top, narrow.Top, 60, "a window may take several steps, and the field itself is laid out anew")
}
