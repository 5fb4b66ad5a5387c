//go:build !js

package browsertest

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/page"
)

// TestWhatIsLookedAtStaysWhereItIs while the intervals and pictures come, which takes
// seconds and makes the page more than twice as long.
func TestWhatIsLookedAtStaysWhereItIs(t *testing.T) {
	for _, stage := range few(1, []string{"Slurry", "Gas", "Copper-salt"}) {
		t.Run(stage, func(t *testing.T) {
			p := page.Load(t, page.File(t), "", `new MutationObserver((_, watch) => {
				if (!("ready" in document.documentElement.dataset)) return;
				watch.disconnect();
				window.stage = document.getElementById("stage.`+stage+`");
				stage.scrollIntoView({ block: "start", behavior: "instant" });
				window.begun = { Top: stage.getBoundingClientRect().top, Scrolled: scrollY, Settling: !!document.querySelector(".settling") };
			}).observe(document, { subtree: true, attributes: true, attributeFilter: ["data-ready"] })`)
			p.Ready()
			settle(p)
			var begun, stands struct {
				Top, Scrolled float64
				Settling      bool
			}
			p.Eval("window.begun", &begun)
			p.Eval("({ Top: stage.getBoundingClientRect().top, Scrolled: scrollY })", &stands)
			assert.True(t, begun.Settling)
			assert.Greater(t, stands.Scrolled, begun.Scrolled+50, "something came above it")
			assert.InDelta(t, begun.Top, stands.Top, 1, "in CSS pixels")
		})
	}
}

func TestWhatHasTheFocusStaysWhereItIs(t *testing.T) {
	p := open(t, "")
	settle(p)
	for name, c := range map[string]struct {
		first, come string  // what is done before something of 100 pixels comes, and where that comes
		field, page float64 // how far the field moves in the window, and the page is scrolled
	}{
		"out of sight":        {"", `document.querySelector("main").prepend(thing)`, 0, 100},
		"in sight":            {"", `field.closest(".body > *").before(thing)`, 0, 100},
		"below":               {"", `field.closest("section").append(thing)`, 0, 0},
		"no longer in sight":  {`scrollBy({ top: 2000, behavior: "instant" })`, `field.closest("section").before(thing)`, 0, 100},
		"at the page's start": {`scrollTo({ top: 0, behavior: "instant" })`, `document.querySelector("main").prepend(thing)`, 100, 0},
	} {
		t.Run(name, func(t *testing.T) {
			var by struct{ Field, Page float64 }
			p.Eval(`(async () => {
				// Longer than a page that glides is left alone.
				const still = () => new Promise((done) => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(done)), 200));
				const field = document.getElementsByName("gas.copper")[0], box = () => field.getBoundingClientRect();
				field.focus();
				field.scrollIntoView({ block: "center", behavior: "instant" });
				`+c.first+`;
				await still();
				const top = box().top, scrolled = scrollY, thing = document.createElement("div");
				thing.style.height = "100px";
				`+c.come+`;
				await still();
				const by = { Field: box().top - top, Page: scrollY - scrolled };
				thing.remove();
				await still();
				return by;
			})()`, &by)
			assert.InDelta(t, c.field, by.Field, 1)
			assert.InDelta(t, c.page, by.Page, 1)
		})
	}
}
