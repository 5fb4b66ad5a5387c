//go:build !js

package browsertest

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/page"
)

// watchStart records of each frame until the page stands how many sentences are seen of the
// plan that the file begins with, and of the page; how far down the columns are; how much moves;
// and what stood in the place of the page when it came.
const watchStart = `
	window.start = { Frames: [], Shift: 0, Demo: "", Page: "" };
	const seen = (within) => [...document.querySelectorAll(within + " .says")].filter((e) => e.getClientRects().length).length;
	let after = 0;
	const look = () => {
		if (document.body) start.Frames.push({
			Demo: seen("#demo"), Page: seen("body > .page"),
			Top: [...document.querySelectorAll(".glance")].map((e) => e.getBoundingClientRect()).find((box) => box.height)?.top ?? -1,
		});
		if ("ready" in (document.documentElement?.dataset ?? {})) after++;
		if (after < 4) requestAnimationFrame(look);
	};
	look();
	const says = (e) => e.textContent + [...e.querySelectorAll("*")].map((e) => e.localName + "." + (e.getAttribute("class") ?? "") + "#" + e.id).join(" ");
	new MutationObserver((changes) => {
		for (const c of changes) for (const e of c.removedNodes) if (e.id === "demo") {
			start.Demo = says(e.firstElementChild);
			start.Page = says(document.querySelector(".page"));
		}
	}).observe(document, { subtree: true, childList: true });
	if (PerformanceObserver.supportedEntryTypes?.includes("layout-shift")) new PerformanceObserver((list) => {
		for (const e of list.getEntries()) if (!e.hadRecentInput) start.Shift += e.value;
	}).observe({ type: "layout-shift", buffered: true });
`

type started struct {
	Frames     []struct{ Demo, Page, Top float64 }
	Shift      float64
	Demo, Page string
}

// begun loads a page and gives how it began.
func begun(t *testing.T, address, fragment string) (s started) {
	t.Helper()
	p := page.Load(t, address, fragment, watchStart)
	p.Ready()
	p.Settle()
	p.Eval(`start`, &s)
	require.NotEmpty(t, s.Frames)
	assert.Equal(t, 1.0, s.Frames[len(s.Frames)-1].Page, "the page stands")
	assert.LessOrEqual(t, s.Shift, 0.02, "something moves")
	return s
}

func TestAnyBrowserTakesOverFromTheDemo(t *testing.T) {
	s := begun(t, page.File(t), "")
	require.NotEmpty(t, s.Demo)
	assert.True(t, s.Demo == s.Page, "the program draws another page than the build:\n%s\n%s", s.Demo, s.Page)
	first := -1
	for i, f := range s.Frames {
		switch {
		case first < 0 && f.Demo == 1 && f.Top >= 0: // all that is held to its place is read
			first = i
		case first >= 0:
			assert.Equal(t, 1.0, f.Demo+f.Page, "in frame %d there is no page, or two", i)
			assert.InDelta(t, s.Frames[first].Top, f.Top, 1, "in frame %d it moved", i)
		}
	}
	assert.GreaterOrEqual(t, first, 0, "it was never seen")
}

func TestAnyBrowserShowsNoDemoWhereAnotherPlanIsOpened(t *testing.T) {
	p := caught(t, page.File(t), "v=2&cell.count=9")
	text := saveCopy(p)
	for name, open := range map[string]struct{ address, fragment string }{
		"a link":       {page.File(t), "v=2&cell.count=9"},
		"a saved copy": {onDisk(t, text), ""},
	} {
		t.Run(name, func(t *testing.T) {
			s := begun(t, open.address, open.fragment)
			for i, f := range s.Frames {
				assert.Zero(t, f.Demo, "seen in frame %d", i)
			}
		})
	}
}

func TestDemoIsReadWithoutTheProgram(t *testing.T) {
	file, err := os.ReadFile(strings.TrimPrefix(page.File(t), "file://"))
	require.NoError(t, err)
	a := &auditor{source: axe(t)}
	for name, p := range map[string]*page.Page{
		"without scripts": page.LoadUnscripted(t, page.File(t)),
		"cut short":       page.Load(t, onDisk(t, string(file[:len(file)/2])), ""),
	} {
		t.Run(name, func(t *testing.T) {
			p.Wait(`/switched off here|is incomplete/.test(document.body?.innerText ?? "")`)
			said := p.Text("body")
			for _, is := range []string{"of raw manganese sulfate", "What you need", "What you get", "What can hurt, and what does not fit", "Pour acid into water"} {
				assert.Contains(t, said, is)
			}
			assert.NotContains(t, said, "Working")
			assert.NotEmpty(t, p.Text("#demo data[data-key='product.mass']"))
			if name != "without scripts" { // those of the test need a browser that runs scripts
				a.judge(t, p, name, page.Media{}, standards)
				a.judge(t, p, name+", dark", page.Media{Dark: true}, map[string]any{"type": "rule", "values": []string{"color-contrast"}})
			}
		})
	}
}
