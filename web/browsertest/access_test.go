//go:build !js

package browsertest

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/long"
	"rosesalt/scripts/page"
)

// stand is where the focus stands after a step of the tabulator.
type stand struct {
	What   string  // none when the focus left the page
	Hidden string  // what lies over it, where something does
	Y      float64 // in the page; of what stays in view, -1
	Back   bool    // before the one before, in the order of the elements
	Again  bool    // where the walk began
}

// standing tells where the focus stands. Every point that is looked at, of a net
// over the element as far as the window holds it, must be the element's own: WCAG
// asks only that not all of it is hidden.
const standing = `(() => {
	const e = document.activeElement;
	if (!e || e === document.body) return { What: "" };
	const before = window.stoodAt; window.stoodAt = e;
	const again = e === window.began; window.began ??= e;
	const say = (e) => (e.id || e.getAttribute("aria-label") || e.name || e.className || e.textContent || e.localName).trim().slice(0, 50);
	let hidden = "";
	const box = e.getBoundingClientRect(), w = document.documentElement.clientWidth, h = innerHeight;
	const tall = box.height > h / 3 || e.localName === "textarea"; // of which the line with the caret is brought into view
	// Of what is longer than the window, the part that is in it is looked at.
	const from = tall ? Math.max(box.top, 0) : box.top, long = tall ? Math.min(box.bottom, h) - from : box.height;
	let seen = 0;
	// Firefox is content when a part of what has the focus is in the window.
	const partly = navigator.userAgent.includes("Firefox");
	// WebKit's scrollbars lie over the edge of what they scroll.
	const thin = navigator.userAgent.includes("WebKit") && !navigator.userAgent.includes("Chrome") ? e.parentElement.closest("nav, .timers") : null;
	if (!tall && !partly && (box.top < -1 || box.bottom > h + 1)) hidden = "the edge of the window, at " + Math.round(box.top);
	for (const fx of [.08, .5, .92]) for (const fy of [.15, .5, .85]) {
		const x = box.left + box.width * fx, y = from + long * fy;
		if (x < 0 || x >= w || y < 0 || y >= h) continue;
		const top = document.elementFromPoint(x, y);
		if (top && (e.contains(top) || top === thin || top.contains(e) && !top.matches(".strip, .strip *, .timers, .working"))) seen++;
		else if (!tall) hidden ||= say(top);
	}
	if (!seen) hidden ||= "everything";
	const still = e.closest(".strip, .timers, .working, .bench-go");
	return { What: say(e), Again: again, Hidden: hidden, Y: still ? -1 : box.top + scrollY,
		Back: !!before && before !== e && before.isConnected && !!(before.compareDocumentPosition(e) & Node.DOCUMENT_POSITION_PRECEDING) };
})()`

// walk goes through the page by the tabulator, once, and gives all places where it
// stood.
func walk(t *testing.T, p *page.Page) (list []stand) {
	t.Helper()
	p.Eval(`{
		window.stoodAt = window.began = undefined;
		[...document.querySelectorAll("button, input, select, summary, [tabindex]")].find(e => e.tabIndex >= 0 && !e.disabled && e.checkVisibility()).focus();
	}`, nil)
	for range 1200 {
		s := at(p)
		if s.What == "" || s.Again {
			return list
		}
		list = append(list, s)
		p.Stroke(page.Tab)
	}
	require.Fail(t, "the focus does not come out of the page")
	return nil
}

// hold says which stands are hidden or out of order.
func hold(t *testing.T, list []stand, where string, column bool) {
	t.Helper()
	var hidden, order []string
	last := 0.0
	for _, s := range list {
		if s.Hidden != "" {
			hidden = append(hidden, s.What+" under "+s.Hidden)
		}
		if s.Back {
			order = append(order, s.What+" comes after what stands behind it")
		}
		// In one column what comes later stands lower, or beside.
		if column && s.Y >= 0 {
			if s.Y < last-30 {
				order = append(order, fmt.Sprintf("%s stands %.0f px above the one before", s.What, last-s.Y))
			}
			last = s.Y
		}
	}
	assert.Empty(t, hidden, "%s: hidden focus", where)
	assert.Empty(t, order, "%s: order", where)
}

// controls are what the tabulator stops at; what else is in the way of it has a tabindex.
const controls = `[...document.querySelectorAll("button, input, select, textarea, summary, a[href], [tabindex]")].filter((e) => e.tabIndex >= 0 && !e.disabled && e.checkVisibility({ visibilityProperty: true }))`

// stops gives the focus to one control after the other, as the tabulator does but without
// its key, which takes a tenth of the time.
func stops(p *page.Page) (list []stand) {
	p.Eval(`(async () => {
		const list = [];
		window.stoodAt = window.began = undefined;
		for (const e of `+controls+`) {
			dispatchEvent(new KeyboardEvent("keydown", { key: "Tab" })); // the page brings into view what it reaches
			e.focus();
			let is = `+standing+`;
			for (let frames = 0; is.Hidden && frames < 60; frames++) {
				await new Promise(requestAnimationFrame);
				window.stoodAt = e;
				is = `+standing+`;
			}
			list.push(is);
		}
		return list;
	})()`, &list)
	return list
}

// TestFocusIsSeenAndFollowsThePage walks through the whole page by the tabulator's own key,
// at one size and with all unfolded: it reaches every control, in the order of the page,
// and nothing that has the focus lies under what stays in view. The other sizes and the
// folded page are asked by a script, and in a long run walked too.
func TestFocusIsSeenAndFollowsThePage(t *testing.T) {
	for i, c := range []struct {
		name          string
		width, height int
		unfolded      bool
		least         int // places where it stands
	}{
		{"telephone, all unfolded", 360, 640, true, 120},
		{"laptop, all unfolded", 1280, 800, true, 120},
		{"telephone", 360, 640, false, 120},
		{"400 % zoom", 320, 200, false, 120},
		{"telephone, in lines", 360, 640, false, 30},
		{"400 % zoom, in lines", 320, 200, false, 30},
	} {
		t.Run(c.name, func(t *testing.T) {
			show := open
			if strings.HasSuffix(c.name, "in lines") {
				show = closed
			}
			p := show(t, "v=1&cell.2.count=3&found.product=30&found.copper=40")
			settle(p)
			if c.unfolded {
				unfoldAll(p)
				settle(p)
			}
			p.Show(c.width, c.height, calm(p))
			var list []stand
			if i == 0 || long.Full() {
				// The parts of a field for a day tell nobody outside that they have the focus.
				p.Eval(`window.hit = new Set(); for (const event of ['focusin', 'keyup']) document.addEventListener(event, () => hit.add(document.activeElement)); 0`, nil)
				list = walk(t, p)
				var missed []string
				p.Eval(controls+`.filter((e) => !hit.has(e)).map((e) => e.outerHTML.slice(0, 120))`, &missed)
				assert.Empty(t, missed, "the tabulator does not come to all")
			} else {
				list = stops(p)
			}
			assert.Greater(t, len(list), c.least)
			hold(t, list, c.name, c.width < 700)
			t.Logf("%d places", len(list))
		})
	}
}

// TestFocusIsSeenBesideTimersAndAtTheBench: timers stay in view at the foot of the page,
// and at the bench above and below.
func TestFocusIsSeenBesideTimersAndAtTheBench(t *testing.T) {
	p, _ := timed(t)
	for range 4 {
		p.Eval(`document.querySelector('.bench-count [data-do="timer"]').focus()`, nil)
		p.Press("\r")
	}
	p.Wait(`document.querySelectorAll('.timer').length === 4`)
	for _, at := range []string{"bench", "timers"} {
		for _, size := range [][2]int{{360, 640}, {1280, 800}} {
			p.Show(size[0], size[1], calm(p))
			list := stops(p)
			assert.GreaterOrEqual(t, len(list), map[string]int{"bench": 14, "timers": 120}[at])
			hold(t, list, fmt.Sprint(at, " at ", size), false)
		}
		if at == "bench" {
			p.Press(page.Escape)
			p.Wait(`!document.querySelector('.bench')`)
			settle(p)
		}
	}
}

// TestNothingHasTheFocusUnderTheBar of the bench view: in each step, what lies under the bar when it
// gets the focus comes out of it.
func TestNothingHasTheFocusUnderTheBar(t *testing.T) {
	p := opened(t, page.Serve(t, page.File(t)), "")
	enter(p, "go.bench")
	p.Wait(`document.getElementById('bench.title')`)
	for _, size := range [][2]int{{1280, 800}, {390, 800}} {
		p.Show(size[0], size[1], calm(p))
		moved := 0
		for range demoSteps() {
			var found struct {
				Hidden []string
				Moved  int
			}
			p.Eval(`(async () => {
				const bar = document.querySelector('.bench-go'), found = { Hidden: [], Moved: 0 };
				const under = (e) => e.getBoundingClientRect().bottom > bar.getBoundingClientRect().top + .5;
				for (const e of document.querySelectorAll('.bench button, .bench input')) {
					if (bar.contains(e)) continue;
					document.activeElement.blur();
					scrollBy({ top: e.getBoundingClientRect().top - innerHeight + 90, behavior: 'instant' });
					const was = under(e);
					e.focus();
					for (let frames = 0; under(e) && frames < 60; frames++) await new Promise(requestAnimationFrame);
					if (under(e)) found.Hidden.push(e.id || e.textContent);
					else if (was) found.Moved++;
				}
				document.activeElement.blur(); // the arrows would move its caret
				return found;
			})()`, &found)
			assert.Empty(t, found.Hidden, "%s at %v", p.Text(".bench-head"), size)
			moved += found.Moved
			p.Press(arrowRight)
		}
		require.Contains(t, p.Text(".bench-head"), fmt.Sprintf("Step %[1]d of %[1]d", len(demoSteps())))
		assert.Positive(t, moved, "nothing lay under the bar at %v", size)
		for range demoSteps() {
			p.Press(arrowLeft)
		}
	}
}

// TestOpenWorkingHidesNoFocus: a working lies over a part of the page, and the plan can
// be changed beside it. Where it covers what has the focus, Escape takes it away and
// leaves the focus where it is.
func TestOpenWorkingHidesNoFocus(t *testing.T) {
	p := open(t, "")
	settle(p)
	for _, size := range [][2]int{{360, 640}, {1280, 800}} {
		p.Show(size[0], size[1], calm(p))
		toWorking(p, "product.mass")
		p.Press(page.Enter)
		p.Wait(`document.activeElement.id === 'working.title'`)
		hold(t, []stand{at(p)}, "the working", false)
		p.Eval(`document.getElementById('in.rinse.times').focus()`, nil)
		p.Press(page.Escape)
		p.Wait(`!document.getElementById('working')`)
		var id string
		p.Eval(`document.activeElement.id`, &id)
		assert.Equal(t, "in.rinse.times", id, "the focus stays where one was typing")
		hold(t, []stand{at(p)}, "what lay behind", false)
	}
}

// calm keeps the page from moving where the browser can be made to; elsewhere each
// stand is waited for.
func calm(p *page.Page) page.Media { return page.Media{Still: p.Can(page.Still)} }

func at(p *page.Page) (s stand) {
	p.Eval(standing, &s)
	// A browser may scroll smoothly, and after the key.
	for range 100 {
		if s.Hidden == "" {
			break
		}
		time.Sleep(50 * time.Millisecond)
		var later stand
		p.Eval(standing, &later)
		s.Hidden, s.Y = later.Hidden, later.Y
	}
	return s
}

// TestEveryControlTellsItsName asks the browser what it tells a screen reader.
func TestEveryControlTellsItsName(t *testing.T) {
	page.Needs(t, page.Protocol)
	p := fresh(t, "v=1&cell.2.count=3&found.product=30&found.copper=40&gas.strength=96")
	settle(p)
	unfoldAll(p)
	p.Type("gas.flask", "tea")
	settle(p)
	controls, names := 0, map[string]int{}
	described := false
	for _, h := range p.Listen() {
		switch h.Role {
		case "RootWebArea", "heading", "paragraph": // take the focus only when it is put there
			continue
		case "option", "spinbutton": // parts of a list and of a date
			continue
		}
		if !h.Focusable || strings.Contains(h.Name, "date and time picker") {
			continue
		}
		controls++
		name := strings.Join(strings.Fields(h.Name), " ")
		assert.Regexp(t, `\pL{2}`, name, "a %s is called %q (%s)", h.Role, h.Name, h.Description)
		names[h.Within+h.Role+" “"+name+"”"]++
		described = described || strings.Contains(h.Description, "cannot be read as a number")
	}
	assert.Greater(t, controls, 300)
	assert.True(t, described, "what is wrong with a field is told with it")
	var twice []string
	for name, n := range names {
		if n > 1 {
			twice = append(twice, fmt.Sprintf("%s %d times", name, n))
		}
	}
	slices.Sort(twice)
	assert.Empty(t, twice, "two controls that do different things are called the same")
}

// listen notes what live regions say from now on, as a screen reader would: the text
// of what was put in or changed.
const listen = `window.heard = []; window.ear?.disconnect(); window.ear = new MutationObserver((list) => {
	const spoken = new Map();
	for (const m of list) {
		const at = m.target.nodeType === 1 ? m.target : m.target.parentElement;
		const places = [at, ...[...m.addedNodes].filter(n => n.nodeType === 1).flatMap(n => [n, ...n.querySelectorAll("*")])];
		for (const e of places) {
			const live = e?.closest("[aria-live]:not([aria-live=off]), [role=status], [role=alert]");
			if (live && live.checkVisibility()) spoken.set(live, live.textContent.trim());
		}
	}
	for (const text of spoken.values()) if (text) heard.push(text);
}); ear.observe(document.body, { subtree: true, childList: true, characterData: true }); 0`

func heard(p *page.Page) (list []string) {
	p.Eval(`window.heard.splice(0)`, &list)
	return list
}

// TestChangesAreToldOnce: typing is followed by one sentence once it pauses, not by one
// a key, nor one a figure.
func TestChangesAreToldOnce(t *testing.T) {
	p := fresh(t, "v=1&found.product=30&found.copper=40")
	settle(p)
	p.Eval(listen, nil)
	pause := func() []string {
		settle(p)
		time.Sleep(1500 * time.Millisecond) // longer than the page waits
		settle(p)
		return heard(p)
	}
	assert.Empty(t, pause(), "a page that stands says nothing")

	// A busy machine may press keys so slowly that the page takes it for a pause.
	p.Eval(`window.typed = []; addEventListener('input', () => typed.push(performance.now()), true)`, nil)
	unhurried := func(typing func()) (list []string) {
		for try := range 3 {
			if try > 0 { // what was told is not told again
				p.Type("gas.strength", "80")
				pause()
			}
			p.Eval(`typed.length = 0`, nil)
			typing()
			list = pause()
			var gap float64
			p.Eval(`Math.max(0, ...typed.slice(1).map((at, i) => at - typed[i]))`, &gap)
			if gap < 700 { // ms; the page waits for 900
				break
			}
		}
		return list
	}

	list := unhurried(func() { p.Type("gas.strength", "90") })
	plan := slices.IndexFunc(list, func(s string) bool { return strings.Contains(s, "Product ") })
	require.GreaterOrEqual(t, plan, 0, "%q", list)
	assert.Contains(t, list[plan], "Gas ")
	var others []string
	for i, s := range list {
		if i != plan {
			others = append(others, s)
		}
	}
	assert.LessOrEqual(t, len(others), 1, "but for the account, which is worked out anew: %q", others)
	for _, s := range list {
		assert.Less(t, len(s), 400, "nobody listens for so long: %q", s)
	}

	list = unhurried(func() {
		p.Eval(`document.getElementsByName('gas.strength')[0].select()`, nil)
		for _, key := range []string{"9", "9", "9", "9"} {
			p.Stroke(key)
			time.Sleep(150 * time.Millisecond)
		}
	})
	list = slices.DeleteFunc(list, func(s string) bool { return strings.Contains(s, "went as planned") }) // 9 % and 99 % are strengths
	require.Len(t, list, 1, "%q", list)
	assert.Contains(t, list[0], "above the limit of 100")

	p.Type("gas.strength", "96")
	pause()
	pressTool(p, "Copy plan text")
	assert.Equal(t, []string{"Plan copied as text."}, pause())
}

func TestTimersAreToldOnce(t *testing.T) {
	p, _ := timed(t)
	p.Eval(listen, nil)
	p.Eval(`document.querySelector('.bench-count [data-do="timer"]').focus()`, nil)
	p.Press("\r")
	p.Wait(`!!document.querySelector('.timer')`)
	time.Sleep(2500 * time.Millisecond)
	list := heard(p)
	require.Len(t, list, 1, "not at every tick: %q", list)
	assert.Contains(t, list[0], "Soak the black mix")
	put(p, "61")
	p.Wait(`!!document.querySelector('.timer.over')`)
	p.Settle()
	assert.Equal(t, []string{"Soak the black mix: the time is over."}, heard(p))
	p.Press(arrowRight)
	list = heard(p)
	require.Len(t, list, 1)
	assert.True(t, strings.HasPrefix(list[0], "Step 5 of"), list[0])
}

// spacing is the spacing of text that WCAG 2.2, 1.4.12 says a reader may set.
const spacing = `{ const css = new CSSStyleSheet(); css.replaceSync('* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important } p { margin-bottom: 2em !important }'); document.adoptedStyleSheets = [css]; }`

// cut tells what does not fit: what stands out of the window, what is cut off by its
// own box, and controls that lie over each other. Tables stack their rows rather than be
// scrolled, save where the reader spaces the text; the list of stages may be.
const cut = `(() => {
	const w = document.documentElement.clientWidth, bad = [];
	if (document.documentElement.scrollWidth > w) bad.push("the page is " + document.documentElement.scrollWidth + " px wide");
	const say = (e) => e.localName + "." + (e.id || e.className) + " " + JSON.stringify(e.textContent.trim().slice(0, 30));
	const shown = (e) => e.checkVisibility({ visibilityProperty: true }) && !e.closest(".unseen, svg, .spine, .apparatus, .labels-grid") && e.closest("thead")?.clientWidth !== 1;
	for (const e of document.querySelectorAll("body *")) {
		if (!shown(e)) continue;
		const box = e.getBoundingClientRect();
		if (!e.closest(".scroll, nav") && (box.right > w + 1 || box.left < -1)) bad.push("out: " + say(e));
		// A field scrolls what is typed, but figures as long as most are seen whole.
		if (e.matches(".row .in input") && !document.adoptedStyleSheets.length && (e.value || e.placeholder).length <= 7 && e.scrollWidth > e.clientWidth + 1) bad.push("cut: " + e.name + " " + (e.value || e.placeholder));
		const css = getComputedStyle(e);
		if (e.matches("select") ? e.scrollWidth > e.clientWidth + 1 : !e.matches("input") && // a field scrolls what is typed
			css.overflowX !== "visible" && !e.matches(".scroll, nav, textarea, .timers, .working") && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1)) bad.push("cut: " + say(e));
		if (e.matches(".scroll") && !document.adoptedStyleSheets.length && e.scrollWidth > e.clientWidth + 1) bad.push("scrolls: " + (e.ariaLabel || say(e)));
		if (css.display.startsWith("inline") && css.display !== "inline") continue;
		if (css.overflowX === "visible" && e.children.length === 0 && e.textContent.trim() && !e.closest(".scroll, nav") && e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0) bad.push("wider than its box: " + say(e));
	}
	const controls = [...document.querySelectorAll("button, input, select, summary, textarea, a[href]")].filter(shown).filter(e => !e.closest("nav, .strip, .timers, .working, .bench-go"));
	const boxes = controls.map(e => e.getBoundingClientRect());
	for (let i = 0; i < boxes.length; i++) for (let j = i + 1; j < boxes.length; j++) {
		const a = boxes[i], b = boxes[j];
		if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1) bad.push("over each other: " + say(controls[i]) + ", " + say(controls[j]));
	}
	return bad.slice(0, 12);
})()`

// TestAnyBrowserFitsThePageIntoNarrowWindowsAndWideText: 320 pixels are a window of 1280 at 400 %. It
// leaves pictures in the folder named by ROSESALT_PICTURES, to be looked at.
func TestAnyBrowserFitsThePageIntoNarrowWindowsAndWideText(t *testing.T) {
	folder := os.Getenv("ROSESALT_PICTURES")
	fits := func(t *testing.T, p *page.Page, state string) {
		t.Helper()
		for _, spaced := range []bool{false, true} {
			p.Eval(`document.adoptedStyleSheets = []`, nil)
			if spaced {
				p.Eval(spacing, nil)
			}
			for _, size := range long.First(2, [][2]int{{320, 256}, {1280, 800}, {320, 640}, {640, 512}}) {
				p.Show(size[0], size[1], page.Media{})
				var bad []string
				p.Eval(cut, &bad)
				assert.Empty(t, bad, "%s, at %d px, spaced %t", state, size[0], spaced)
				if folder != "" {
					p.Picture(filepath.Join(folder, fmt.Sprintf("fit-%s-%d-%d-%t.png", state, size[0], size[1], spaced)), size[1] != 256)
				}
			}
		}
		p.Eval(`document.adoptedStyleSheets = []`, nil)
	}
	t.Run("plan", func(t *testing.T) {
		p := fresh(t, "v=1&cell.2.count=3&found.product=30&found.copper=40")
		settle(p)
		fits(t, p, "plan")
		unfoldAll(p)
		p.Type("gas.flask", "about as much as last time")
		settle(p)
		fits(t, p, "unfolded")
	})
	t.Run("lines", func(t *testing.T) {
		p := closed(t, large)
		settle(p)
		fits(t, p, "lines")
		for _, place := range []string{"ready", "after"} {
			p.Click(`[id="go.` + place + `"]`)
			enter(p, "send")
			settle(p)
			fits(t, p, place)
		}
	})
	t.Run("run", func(t *testing.T) {
		p := fresh(t, "v=7&cell.size=LR6")
		settle(p)
		pressTool(p, "Start this run")
		p.Wait(`!!document.querySelector('[aria-label="The run"]')`)
		enter(p, "done.stage.Gas")
		p.Wait(`document.querySelector('[name="gas.acid"]').readOnly`)
		settle(p)
		fits(t, p, "run")
	})
	t.Run("assays and labels", func(t *testing.T) {
		p := showLabels(t, "")
		unfold(p, "assays", "burette", "assay.permanganate", "assay.oxalate", "assay.loss")
		fits(t, p, "assays")
	})
	t.Run("bench", func(t *testing.T) {
		p, _ := timed(t)
		for range 2 {
			p.Eval(`document.querySelector('.bench-count [data-do="timer"]').focus()`, nil)
			p.Press("\r")
		}
		p.Wait(`document.querySelectorAll('.timer').length === 2`)
		fits(t, p, "bench")
		p.Press(page.Escape)
		settle(p)
		fits(t, p, "timers")
	})
	t.Run("working", func(t *testing.T) {
		p := fresh(t, "")
		settle(p)
		toWorking(p, "gas.made")
		p.Press(page.Enter)
		p.Wait(`!!document.getElementById('working')`)
		fits(t, p, "working")
	})
}

// TestTargetsAreLargeEnough: 44 pixels where gloves tap, and 24 elsewhere (WCAG 2.2,
// 2.5.8). A figure's name is no target of its own, nor a line's: the
// row is.
func TestTargetsAreLargeEnough(t *testing.T) {
	const small = `[...document.querySelectorAll("button, input, select, summary, textarea, a[href]")]
		.filter(e => e.checkVisibility() && !e.closest(".unseen")).map(e => e.closest(".tick, .labels-tick, section .head") ?? (e.closest("dt") ? e.closest(".fig") : e))
		.filter(e => { const b = e.getBoundingClientRect(), glove = e.closest(".bench, .timers, .run, .step-done, .step"), least = glove ? 44 : 24; return b.width < least - .5 || b.height < least - .5; })
		.map(e => (e.id || e.className || e.localName) + " " + e.textContent.slice(0, 30) + " " + JSON.stringify(e.getBoundingClientRect()))`
	p := fresh(t, "v=1&cell.2.count=3&found.product=30&found.copper=40")
	settle(p)
	pressTool(p, "Start this run")
	p.Wait(`!!document.querySelector('[aria-label="The run"]')`)
	settle(p)
	enter(p, "done.stage.Gas")
	p.Wait(`document.querySelector('[name="gas.acid"]').readOnly`)
	unfoldAll(p)
	timers, _ := timed(t)
	timers.Eval(`document.querySelector('.bench-count [data-do="timer"]').focus()`, nil)
	timers.Press("\r")
	timers.Wait(`!!document.querySelector('.timer')`)
	lines := closed(t, "v=2&gas.flask=50")
	enter(lines, "send")
	settle(lines)
	for _, width := range []int{320, 360, 768, 1280} {
		for _, q := range []*page.Page{p, timers, lines} {
			q.Show(width, 800, page.Media{})
			var list []string
			q.Eval(small, &list)
			assert.Empty(t, list, "at %d px", width)
		}
	}
}

// TestNothingMovesForThoseWhoAskedForThat: no scrolling that glides, nothing that fades
// or turns.
func TestNothingMovesForThoseWhoAskedForThat(t *testing.T) {
	const moving = `(() => {
		const list = [];
		for (const e of document.querySelectorAll("*")) for (const part of ["", "::before", "::after"]) {
			const css = getComputedStyle(e, part || null), long = (s) => s.split(",").some(d => parseFloat(d) > 0);
			if (long(css.transitionDuration) || css.animationName !== "none" && long(css.animationDuration) || css.scrollBehavior === "smooth") list.push(e.localName + "." + e.className + part);
		}
		return [...list, ...document.getAnimations().map(a => a.animationName)];
	})()`
	page.Needs(t, page.Still)
	p := open(t, "")
	settle(p)
	var list []string
	p.Show(1280, 800, page.Media{})
	p.Eval(moving, &list)
	assert.Equal(t, []string{"html."}, list, "only scrolling glides")
	p.Show(1280, 800, page.Media{Still: true})
	p.Eval(moving, &list)
	assert.Empty(t, list)
	p.Eval(`scrollTo(0, 1e6)`, nil)
	var there, later float64
	p.Eval(`scrollY`, &there)
	time.Sleep(300 * time.Millisecond)
	p.Eval(`scrollY`, &later)
	assert.Greater(t, there, 1000.0, "a jump is one step")
	assert.Equal(t, there, later)
}

// faintDrawings tells what of the drawings cannot be seen on the reader's own ground: 3 to 1
// (WCAG 2.2, 1.4.11) for what is drawn as a line or, without one, as a filling.
const faintDrawings = `(() => {
	const paint = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
	const parse = (c) => { paint.clearRect(0, 0, 1, 1); paint.fillStyle = c; paint.fillRect(0, 0, 1, 1); return [...paint.getImageData(0, 0, 1, 1).data]; };
	const light = (c) => { const [r, g, b] = c.map(v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
	const canvas = light(parse("Canvas")), ratio = (c) => { const x = light(parse(c)); return (Math.max(x, canvas) + .05) / (Math.min(x, canvas) + .05); };
	const bad = new Set();
	for (const e of document.querySelectorAll("svg :is(path, circle, text, rect)")) {
		if (!e.checkVisibility() || e.closest(".jarlabel, .sheet") || e.matches('[data-part="grid"], [data-part~="halo"]')) continue;
		const css = getComputedStyle(e);
		const line = css.stroke !== "none" && e.localName !== "text" ? ratio(css.stroke) : 0, fill = css.fill !== "none" ? ratio(css.fill) : 0;
		if (Math.max(line, fill) < 3) bad.add(e.closest("svg").dataset.part + ": " + e.dataset.part + " " + css.stroke + " " + css.fill);
	}
	// Words are set in the reader's colour, on a plate of the reader's ground: on another
	// ground they must be let off.
	const ink = light(parse("CanvasText"));
	for (const e of document.querySelectorAll("body *")) {
		const css = getComputedStyle(e), ground = parse(css.backgroundColor);
		if (ground[3] < 255 || css.forcedColorAdjust === "none" || !e.checkVisibility()) continue;
		const x = light(ground);
		if ((Math.max(x, ink) + .05) / (Math.min(x, ink) + .05) < 4.5) bad.add("words on their own colour: " + (e.id || e.className));
	}
	return [...bad];
})()`

// TestForcedColoursLeaveAllToSee: focus, what is chosen, lines and signs, where the
// reader's own colours stand in the place of the page's.
func TestForcedColoursLeaveAllToSee(t *testing.T) {
	folder := pictures(t)
	page.Needs(t, page.Forced)
	p := fresh(t, "v=1&found.product=30&found.copper=40&gas.strength=120")
	settle(p)
	bench, _ := timed(t)
	bench.Eval(`document.querySelector('.bench-count [data-do="timer"]').focus()`, nil)
	bench.Press("\r")
	bench.Wait(`!!document.querySelector('.timer')`)
	lines := closed(t, "v=2&gas.flask=50")
	settle(lines)
	for _, dark := range []bool{false, true} {
		m, how := page.Media{Forced: true, Dark: dark}, "light"
		if dark {
			how = "dark"
		}
		for name, q := range map[string]*page.Page{"page": p, "lines": lines, "bench": bench} {
			q.Show(1280, 900, m)
			q.Picture(filepath.Join(folder, "forced-"+name+"-"+how+".png"), true)
			var bad []string
			q.Eval(faintDrawings, &bad)
			assert.Empty(t, bad, "%s, %s", name, how)
			q.Eval(contrast, &bad)
			assert.Empty(t, bad, "%s, %s: text", name, how)
			// Every kind of control has a ring of its own when it has the focus.
			q.Eval(`(() => {
				const bad = new Set();
				for (const e of document.querySelectorAll("button, input, select, summary, textarea, h2[tabindex], .scroll[tabindex]")) {
					if (!e.checkVisibility() || e.disabled) continue;
					e.focus({ preventScroll: true, focusVisible: true });
					const ring = [e, e.closest(".in")].filter(Boolean).map(x => getComputedStyle(x)).some(c => c.outlineStyle !== "none" && parseFloat(c.outlineWidth) >= 2);
					if (!ring) bad.add(e.outerHTML.slice(0, 80));
				}
				return [...bad].slice(0, 8);
			})()`, &bad)
			assert.Empty(t, bad, "%s, %s: no ring around the focus", name, how)
		}
	}
	// What can be changed has an edge, since its ground is the page's own.
	var bare []string
	p.Eval(`[...document.querySelectorAll('main input, main select')].filter(e => e.checkVisibility() && !e.readOnly && !['checkbox', 'file'].includes(e.type))
		.filter(e => { const c = getComputedStyle(e.closest('.in, .set') ?? e); return !(parseFloat(c.borderBottomWidth) >= 1 && c.borderBottomStyle !== 'none'); }).map(e => e.outerHTML.slice(0, 80))`, &bare)
	assert.Empty(t, bare)
}
