//go:build !js

package browsertest

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/sound/soundtest"
	"rosesalt/scripts/onefile"
	"rosesalt/scripts/page"
)

// axeSum is the digest of testdata/axe/axe.min.js, see the README beside it.
const axeSum = "29348999450cdf2849a8e70b7912fc2da85a849da39c0d0d5394f51d4a9ed95c"

// axe is the program that looks for faults of accessibility.
func axe(t testing.TB) string {
	t.Helper()
	root, err := onefile.Root()
	require.NoError(t, err)
	source, err := os.ReadFile(filepath.Join(root, "testdata", "axe", "axe.min.js"))
	require.NoError(t, err)
	sum := sha256.Sum256(source)
	require.Equal(t, axeSum, hex.EncodeToString(sum[:]))
	return string(source)
}

// finding is what axe says of a rule.
type finding struct {
	ID    string
	Nodes []struct{ Target, HTML, Summary string }
}

func (f finding) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %d times", f.ID, len(f.Nodes))
	for i, n := range f.Nodes {
		if i == 5 {
			break
		}
		fmt.Fprintf(&b, "\n    %s\n    %s\n      %s", n.Target, n.HTML, strings.ReplaceAll(n.Summary, "\n", "\n      "))
	}
	return b.String()
}

// standards are the rules for WCAG 2.0 to 2.2, A and AA, and what is good
// practice besides.
var standards = map[string]any{"type": "tag", "values": []string{"wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa", "best-practice"}}

// run runs axe over the page as it is shown and gives what is wrong, and what axe
// could not decide.
func run(t *testing.T, p *page.Page, source string, only map[string]any, off ...string) (wrong, unsure []finding) {
	t.Helper()
	var loaded bool
	if p.Eval(`typeof window.axe === "object"`, &loaded); !loaded {
		// What a debugger evaluates is not bound by the page's policy, which stays
		// as it is.
		p.Eval(source+"\n;0", nil)
	}
	rules := map[string]any{}
	for _, rule := range off {
		rules[rule] = map[string]bool{"enabled": false}
	}
	options, err := json.Marshal(map[string]any{"runOnly": only, "rules": rules, "resultTypes": []string{"violations", "incomplete"}, "preload": false, "iframes": false})
	require.NoError(t, err)
	// It may take longer than one answer of the browser is waited for.
	p.Eval(fmt.Sprintf(`window.axeFound = null, void axe.run(document, %s).then(r => {
		const list = f => f.map(v => ({ ID: v.id, Nodes: v.nodes.map(n => ({
			Target: n.target.join(" "), HTML: n.html.slice(0, 160), Summary: n.failureSummary ?? "",
		})) }));
		window.axeFound = { Violations: list(r.violations), Incomplete: list(r.incomplete) };
	})`, options), nil)
	var found *struct{ Violations, Incomplete []finding }
	for end := time.Now().Add(5 * time.Minute); found == nil; time.Sleep(20 * time.Millisecond) {
		require.True(t, time.Now().Before(end), "axe does not come to an end")
		p.Eval(`window.axeFound`, &found)
	}
	return found.Violations, found.Incomplete
}

// contrast tells of all text that is shown which is too pale on what lies behind
// it: 4.5 to 1, or 3 to 1 where it is large (WCAG 2.2, 1.4.3). It also sees what
// axe leaves open: text in pictures, over lines of a background, single letters.
// Text of what is disabled is let off.
const contrast = `(() => {
	const paint = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
	const known = new Map();
	const parse = (colour) => {
		if (!known.has(colour)) {
			paint.clearRect(0, 0, 1, 1); paint.fillStyle = colour; paint.fillRect(0, 0, 1, 1);
			const [r, g, b, a] = paint.getImageData(0, 0, 1, 1).data;
			known.set(colour, [r, g, b, a / 255]);
		}
		return known.get(colour);
	};
	const over = (top, under) => top.slice(0, 3).map((c, i) => c * top[3] + under[i] * (1 - top[3]));
	const light = (c) => { const [r, g, b] = c.map(v => (v /= 255) <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
	const ratio = (a, b) => { const [x, y] = [light(a), light(b)].sort((p, q) => q - p); return (x + 0.05) / (y + 0.05); };
	const styles = new Map();
	const style = (e) => { if (!styles.has(e)) styles.set(e, getComputedStyle(e)); return styles.get(e); };
	const behind = (e) => {
		const layers = [];
		for (; e; e = e.parentElement) { const c = parse(style(e).backgroundColor); if (c[3] > 0) layers.push(c); if (c[3] === 1) break; }
		return layers.reverse().reduce((under, top) => over(top, under), parse("Canvas").slice(0, 3));
	};
	const pale = [];
	const judge = (e, text, colour, css) => {
		let alpha = 1;
		for (let a = e; a; a = a.parentElement) alpha *= Number(style(a).opacity);
		const ground = behind(e), c = parse(colour);
		const size = parseFloat(css.fontSize), large = size >= 24 || size >= 18.66 && Number(css.fontWeight) >= 700;
		const r = ratio(over([...c.slice(0, 3), c[3] * alpha], ground), ground);
		if (r < (large ? 3 : 4.5)) pale.push(r.toFixed(2) + " " + (e.getAttribute("data-part") ?? (e.id || e.className || e.localName)) + " " + JSON.stringify(text.trim().slice(0, 40)));
	};
	const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
	for (let n; n = walk.nextNode();) {
		const e = n.parentElement;
		if (!n.data.trim() || e.closest(".unseen, script, style, title, option, noscript, :disabled, [aria-disabled=true]") || !e.checkVisibility({ visibilityProperty: true })) continue;
		judge(e, n.data, e.namespaceURI.endsWith("svg") ? style(e).fill : style(e).color, style(e));
	}
	for (const e of document.querySelectorAll("input, select, textarea")) {
		if (!e.checkVisibility() || e.disabled || e.type === "checkbox") continue;
		const hint = e.localName === "input" && !e.value && e.placeholder;
		const css = hint ? getComputedStyle(e, "::placeholder") : style(e);
		judge(e, hint || e.value || "x", css.color, css);
	}
	return [...new Set(pale)];
})()`

// undecided are the rules whose open ends are looked into here, by other means:
// contrast above; that the words on a button stand in its name, where axe knows no
// words in "+" and "−"; and headers of groups of rows, which it does not know.
var undecided = []string{"color-contrast", "label-content-name-mismatch", "th-has-data-cells"}

// auditor counts the states that were looked at.
type auditor struct {
	source string
	states []string
	whole  bool // the whole page was looked at
}

// look holds a page in a state against that. Where only some sections are another than in
// states before, they are named, and the others are put out of sight: axe takes seconds over
// a whole page, and so it is asked for one once. In the dark the elements are the same and
// only colours differ, so contrast alone is asked for.
func (a *auditor) look(t *testing.T, p *page.Page, state string, only ...string) {
	t.Helper()
	a.states = append(a.states, state)
	var missing []string
	p.Eval(fmt.Sprintf(`(() => {
		const css = new CSSStyleSheet(), only = %s;
		// The strip and the timers stay in view over whatever the page is scrolled to; what they
		// cover for a moment would be told as too small a target.
		let rules = ".strip, .timers { position: static !important }";
		if (only.length) rules += ' .place > section:not(' + only.map(id => '[id="stage.' + id + '"]').join() + ') { display: none }';
		css.replaceSync(rules);
		document.adoptedStyleSheets = [css];
		return only.filter((id) => !document.getElementById("stage." + id));
	})()`, list(only)), &missing)
	require.Empty(t, missing, "sections that are not there")
	a.judge(t, p, state+", light", page.Media{}, standards)
	if p.Can(page.Dark) {
		p.Show(1280, 900, page.Media{Dark: true})
		pale(t, p, state+", dark")
	}
	if only == nil && !a.whole { // in a narrow window more is scrolled
		a.whole = true
		p.Show(320, 640, page.Media{})
		wrong, _ := run(t, p, a.source, map[string]any{"type": "rule", "values": []string{"scrollable-region-focusable", "target-size", "meta-viewport"}})
		for _, f := range wrong {
			t.Errorf("%s, narrow: %s", state, f)
		}
	}
	p.Eval(`void (document.adoptedStyleSheets = [])`, nil)
	p.Show(1280, 900, page.Media{})
}

// print holds what is printed against it: nothing on paper is touched or scrolled.
func (a *auditor) print(t *testing.T, p *page.Page, state string, off ...string) {
	t.Helper()
	if !p.Can(page.Paper) {
		return
	}
	a.states = append(a.states, state)
	a.judge(t, p, state+", on paper", page.Media{Paper: true}, standards, append(off, "target-size", "scrollable-region-focusable", "color-contrast")...)
	p.Show(1280, 900, page.Media{})
}

func (a *auditor) judge(t *testing.T, p *page.Page, where string, m page.Media, rules map[string]any, off ...string) {
	t.Helper()
	p.Show(1280, 900, m)
	// Nothing lies under what stays in view, and nothing moves while axe measures: intervals
	// that come make rows higher.
	p.Eval(`(async () => {
		document.body.offsetHeight;
		scrollTo({ top: 0, behavior: "instant" });
		let before = "", is = "?";
		for (let tries = 0; tries < 100 && (is !== before || document.querySelector(".settling, .drawing, .waiting")); tries++) {
			before = is;
			await new Promise((done) => setTimeout(() => requestAnimationFrame(done), 50));
			is = [...document.querySelectorAll("button, input")].map((e) => { const box = e.getBoundingClientRect(); return [box.x, box.y]; }).join();
		}
	})()`, nil)
	wrong, unsure := run(t, p, a.source, rules, off...)
	for _, f := range wrong {
		t.Errorf("%s: %s", where, f)
	}
	for _, f := range unsure {
		if !slices.Contains(undecided, f.ID) {
			t.Errorf("%s, undecided: %s", where, f)
		}
	}
	pale(t, p, where)
}

func pale(t *testing.T, p *page.Page, where string) {
	t.Helper()
	var bad []string
	p.Eval(contrast, &bad)
	assert.Empty(t, bad, "%s: too little contrast", where)
}

// list writes words as a list of JavaScript.
func list(words []string) string {
	if words == nil {
		return "[]"
	}
	b, err := json.Marshal(words)
	if err != nil {
		panic(err) // words always have a JSON form
	}
	return string(b)
}

// unfoldAll opens all that is folded.
func unfoldAll(p *page.Page) {
	p.Eval(`document.querySelectorAll('details').forEach(d => d.open = true)`, nil)
	p.Settle()
}

// pressTool presses one of the buttons below the first screen, or of those that keep and send.
func pressTool(p *page.Page, text string) {
	button := `[...document.querySelectorAll('.acts button, .tools button')].find(b => b.textContent === '` + text + `')`
	var there bool
	if p.Eval(`!!`+button, &there); !there {
		enter(p, "send")
		p.Wait(`!!` + button)
	}
	p.Reveal(button)
	p.Eval(button+`.focus()`, nil)
	p.Press("\r")
}

// look is [auditor.look] of a tour's test, and print [auditor.print].
type look func(p *page.Page, state string, only ...string)

// tours lead through the states of the page.
var tours = map[string]func(t *testing.T, look, print look){
	"plan": func(t *testing.T, look, _ look) {
		p := fresh(t, "")
		settle(p)
		look(p, "the plan that the page starts with", "Cells", "Gas", "Try-a-change", "How-sure", "Other-ways", "The-days")
		// It lasts for moments only, so it is held still.
		p.Eval(`document.querySelector('.page').classList.add('settling', 'stale'), document.querySelectorAll('.pic-draw, .advice').forEach(e => e.classList.add('waiting'))`, nil)
		look(p, "figures being worked out anew", "Wash", "The-days", "How-sure", "Try-a-change")
		p.Eval(`document.querySelector('.page').classList.remove('settling', 'stale'), document.querySelectorAll('.pic-draw, .advice').forEach(e => e.classList.remove('waiting'))`, nil)
		unfoldAll(p)
		look(p, "all unfolded")
		p.Click(`[id="add.row"]`)
		p.Type("cell.2.count", "3")
		p.Type("gas.uptake~", "60 to 90")
		p.Type("mix.wet", "150")
		settle(p)
		look(p, "two types of cell, things weighed and set", "Cells", "Wash", "How-sure")
		p.Type("gas.strength", "120")
		p.Type("cell.count", "x")
		p.Type("wash.soak", "")
		p.Type("gas.uptake~", "tea")
		look(p, "wrong inputs", "Cells", "Wash", "Gas", "How-sure")
		pressTool(p, "Start this run")
		look(p, "a run that cannot be started", "Cells")
	},
	"lines": func(t *testing.T, look, print look) {
		p := closed(t, "")
		settle(p)
		look(p, "the plan as it opens")
		print(p, "the plan in lines") // which a browser's print opens
		p.Click(`[id="stage.Gas.title"]`)
		look(p, "a stage open among lines")
		p.Click(`[id="go.ready"]`)
		enter(p, "send")
		look(p, "what to make ready, and what sends it")
		p.Click(`[id="go.after"]`)
		look(p, "afterwards")
		p.Click(`[id="go.bench"]`)
		p.Wait(`!!document.getElementById('bench.title')`)
		p.Click(`[id="bench.wrong"]`)
		look(p, "the card of mishaps at the bench")
	},
	"shelf": func(t *testing.T, look, _ look) {
		p := closed(t, "shelf.acid=40&shelf.buy.peroxide=no&dry.rate=20&batch.share=60")
		settle(p)
		p.Click(`[id="stage.What-I-have-on-the-shelf.title"]`)
		p.Wait(`!!document.getElementById('in.shelf.acid')`)
		settle(p)
		look(p, "a shelf that is not enough, and what would suit", "What-I-have-on-the-shelf")
		p.Type("shelf.acid", "some")
		p.Wait(`!!document.getElementById('problem.shelf.acid')`)
		look(p, "a shelf that cannot be read", "What-I-have-on-the-shelf")
	},
	"school weeks": func(t *testing.T, look, _ look) {
		p := fresh(t, schoolWeeks+"&days.second=9")
		settle(p)
		p.Wait(`!!document.querySelector('.offers')`)
		p.Eval(`document.querySelectorAll('[id="stage.The-days"] details').forEach(d => d.open = true)`, nil)
		p.Wait(`!!document.querySelector('[name="by.gas"]')`)
		look(p, "sessions that the work does not fit, and what would", "The-days", "With-a-club")
		p.Click(`[id="stage.The-days"] .offers button`)
		p.Wait(`location.hash.includes('by.gas=shown')`)
		settle(p)
		look(p, "sessions as a school does them", "The-days", "With-a-club")
	},
	"working and questions": func(t *testing.T, look, _ look) {
		p := fresh(t, "v=1&gas.flask=50")
		settle(p)
		toWorking(p, "product.mass")
		p.Press(page.Enter)
		p.Wait(`!!document.getElementById('working')`)
		p.Click(`#working .bar button`)
		look(p, "a working open", "Dry")
		p.Press(page.Escape)
		p.Click("#ask\\.grams")
		p.Press("50")
		p.Wait(`document.getElementById('ask.answer').textContent.includes('nine times in ten')`)
		p.Click(`[id="stage.Try-a-change"] > .body > .inside > button`)
		p.Type("cell.count", "12")
		settle(p)
		p.Wait(`document.querySelector('[aria-label^="The pinned"]')?.textContent.includes('stands out')`)
		look(p, "a wish, and a pinned plan", "Try-a-change")
		p.Click("#ask\\.pure\\.table")
		p.Press("95")
		p.Wait(`document.getElementById('ask.pure.answer').textContent.includes('bring it there')`)
		look(p, "a purity wanted", "Try-a-change")
		look(p, "the steps to it", "Purity")
		pressTool(p, "Copy plan text")
		look(p, "plan copied", "Cells")
		pressTool(p, "Save a copy")
		look(p, "a copy saved", "Cells")
	},
	"reductants": func(t *testing.T, look, _ look) {
		p := open(t, "v=1&gas.source=metabisulfite&dry.way=crystals")
		settle(p)
		look(p, "metabisulfite in the flask", "Gas", "Slurry", "Dry", "Copper-salt", "Buy-and-put-out")
		for _, way := range []string{"slurrysalt", "peroxide", "oxalic"} {
			p.Address("v=1&gas.source=" + way)
			settle(p)
			look(p, way+" stirred in", "Gas", "Slurry", "Filter", "Dry", "Copper-salt", "Scrub-and-waste", "Buy-and-put-out")
		}
	},
	"alkaline": func(t *testing.T, look, _ look) {
		p := fresh(t, "v=1&cell.kind=alkaline&cell.weight=46&gas.source=peroxide")
		settle(p)
		look(p, "alkaline cells", "Cells", "Wash", "Slurry", "Buy-and-put-out", "Waste-bottles")
		p.Address("v=1&cell.rejects=6")
		settle(p)
		look(p, "no cell opened", "Cells", "The-days", "Where-it-goes")
	},
	"vessels": func(t *testing.T, look, _ look) {
		p := fresh(t, large+"&dry.dish=50")
		settle(p)
		look(p, "vessels that are too small", "Batch", "Gas", "Slurry", "Dry", "Buy-and-put-out")
		enter(p, "go.bench")
		p.Wait(`!!document.getElementById('bench.title')`)
		toStep(p, "charge")
		look(p, "a step that pours too much", "Cells")
	},
	"links": func(t *testing.T, look, _ look) {
		p := fresh(t, "v=7&cell.count=9&gas.strength=120&room.view=sea&gas.uptake&wash.times=2&wash.times=3&cell.size=LR6")
		settle(p)
		look(p, "a broken link", "Cells")
	},
	"run": func(t *testing.T, look, _ look) {
		p := fresh(t, "")
		settle(p)
		pressTool(p, "Start this run")
		p.Wait(`!!document.querySelector('[aria-label="The run"]')`)
		settle(p)
		p.Type("batch.share", "30")
		look(p, "a run started", "Cells", "Wash", "Batch", "Gas", "Slurry", "How-sure", "Other-ways")
		enter(p, "done.stage.Gas")
		p.Wait(`document.querySelector('[name="gas.acid"]').readOnly`)
		settle(p)
		look(p, "stages done", "Cells", "Gas", "Slurry")
		enter(p, "done.stage.Scrub-and-waste")
		p.Wait(`document.querySelector('.run').textContent.includes('All stages are done')`)
		settle(p)
		unfoldAll(p)
		p.Type("found.product.empty", "84.1")
		p.Type("found.product.full", "118.1")
		p.Type("found.product.full.2", "115.1")
		p.Type("found.copper", "30")
		p.Wait(`document.querySelector('.verdict')?.textContent.includes('in 10')`)
		settle(p)
		unfoldAll(p)
		look(p, "the account of the run", "After-the-run", "Scrub-and-waste")
		p.Eval(`[...document.querySelectorAll('.next button')].find(b => b.textContent.startsWith('Plan the next run')).focus()`, nil)
		p.Press("\r")
		p.Wait(`!document.querySelector('[aria-label="The run"]')`)
		settle(p)
		look(p, "the next run planned", "Cells", "After-the-run")
	},
	"contradictions": func(t *testing.T, look, _ look) {
		p := fresh(t, "v=1&found.product=190&found.copper=400&found.metal=0&found.residue=500")
		settle(p)
		p.Wait(`document.querySelectorAll('[id="stage.After-the-run"] .note.mind').length > 0`)
		unfoldAll(p)
		look(p, "contradictions", "After-the-run")
		p.Type("found.product", "a jarful")
		look(p, "a measurement that cannot be read", "After-the-run")
	},
	"kept runs": func(t *testing.T, look, _ look) {
		p := served(t, page.Serve(t, page.File(t)), weighed+"&notes=Ice+ran+out+at+noon.")
		name(p, "first lamp bag")
		press(p, "Keep this run")
		waitRows(p, "=== 1")
		look(p, "a run kept", "Kept-runs")
		name(p, "")
		p.Type("found.product", "34")
		settle(p)
		press(p, "Keep this run")
		waitRows(p, "=== 2")
		p.Eval(`document.querySelectorAll('.tick input').forEach(i => i.click())`, nil)
		p.Wait(`document.getElementById('runs.together')?.children.length === 2`)
		press(p, "Open")
		settle(p)
		look(p, "runs counted together, one opened", "Kept-runs")
		press(p, "Forget")
		waitRows(p, "=== 1")
		look(p, "a run forgotten", "Kept-runs")
		press(p, "Write the file into the box")
		paste(p, "tea")
		look(p, "runs that cannot be brought in", "Kept-runs")
	},
	"storage": func(t *testing.T, look, _ look) {
		p := served(t, page.Serve(t, page.File(t)), weighed, fullStorage)
		press(p, "Keep this run")
		waitRows(p, "=== 1")
		look(p, "a storage that is full", "Kept-runs")
	},
	"assays": func(t *testing.T, look, _ look) {
		p := fresh(t, "")
		settle(p)
		unfold(p, "assays", "burette", "assay.permanganate", "assay.oxalate", "assay.loss")
		p.Type("assay.permanganate.mass", "0.200")
		p.Type("assay.permanganate.titre", "31.50")
		p.Type("assay.oxalate.sample", "0.500")
		p.Type("assay.oxalate.mass", "0.500")
		p.Type("assay.oxalate.titre", "24,10")
		p.Type("assay.loss.kind", "strong")
		look(p, "assays unfolded, with a result", "Assays")
		p.Click(`[id="use.assay.oxalate"]`)
		settle(p)
		p.Type("assay.oxalate.blank", "30")
		look(p, "an assay used, a reading that is wrong", "Assays", "Cells")
	},
	"gas by its bubbles": func(t *testing.T, look, _ look) {
		p := fresh(t, "")
		settle(p)
		unfold(p, "gas", "gas.tap", "gas.hear", "gas.log")
		look(p, "gas to be counted", "Gas-by-its-bubbles")
		p.Click(`[id="tap.10"]`)
		for range 4 {
			p.Click(`[id="tap"]`)
		}
		p.Click(`[id="tap.pause"]`)
		p.Type("log.5.rate", "90")
		p.Type("log.10.rate", "tea")
		look(p, "bubbles tapped and logged, a count that cannot be read", "Gas-by-its-bubbles")
	},
	"a recording": func(t *testing.T, look, _ look) {
		samples, _ := bubbling(20).Make()
		p := hear(t, file(t, "bubbles.wav", soundtest.WAV(samples, 44100, 1)))
		heardAll(t, p)
		look(p, "a recording counted", "Gas-by-its-bubbles")
		focus(p, "hear.picture")
		for _, key := range []string{"+", "+", "n", "\u007f"} {
			p.Press(key)
		}
		p.Wait(`document.getElementById('hear.said').textContent.includes('taken away')`)
		look(p, "a count corrected", "Gas-by-its-bubbles")
		p.Choose(`[id="hear.file"]`, file(t, "tea.bin", []byte(strings.Repeat("tea", 1000))))
		p.Wait(`!!document.getElementById('problem.hear.file')`)
		look(p, "a file that is no recording", "Gas-by-its-bubbles")
	},
	"a club": func(t *testing.T, look, print look) {
		p := openClubSheet(t, "v=1&club.groups=6&club.atonce=3")
		settle(p)
		look(p, "a club", "With-a-club")
		print(p, "the club sheet")
		p.Type("club.groups", "2")
		p.Wait(`!!document.getElementById('problem.club.atonce')`)
		look(p, "more generators than groups", "With-a-club")
		p.Type("club.groups", "99")
		p.Wait(`!!document.getElementById('problem.club.groups')`)
		look(p, "more groups than a club has", "With-a-club")
	},
	"pasting": func(t *testing.T, look, _ look) {
		p := fresh(t, "v=1&cell.count=4")
		settle(p)
		enter(p, "paste.show")
		p.Wait(`document.activeElement.id === 'paste.text'`)
		look(p, "a text to be pasted", "Cells")
		p.Eval(`document.getElementById('paste.text').value = "please find attached"`, nil)
		enter(p, "paste.open")
		p.Wait(`!!document.getElementById('problem.paste')`)
		look(p, "a pasted text that is no plan", "Cells")
		p.Eval(`document.getElementById('paste.text').value = '#v=2&cell.count=7&mix.smell=3'`, nil)
		enter(p, "paste.open")
		p.Wait(`!document.getElementById('paste.text') && document.querySelector('.troubles li')`)
		look(p, "a pasted plan of another version", "Cells")
	},
	"labels": func(t *testing.T, look, print look) {
		p := showLabels(t, "")
		p.Eval(`document.querySelector('.labels-tick input').click()`, nil)
		p.Settle()
		look(p, "jar labels", "Jar-labels")
		p.Eval(`document.documentElement.classList.add('labels-only')`, nil)
		print(p, "jar labels alone", "page-has-heading-one") // labels to be cut out have no title over them
	},
	"bench sheet": func(t *testing.T, look, print look) {
		p := openSheet(t, "")
		print(p, "the bench sheet")
	},
	"days": func(t *testing.T, look, _ look) {
		p := fresh(t, "v=1&days.start=2026-03-07T10:00&days.from=10:00&days.long=480&time.gas=100")
		settle(p)
		unfoldAll(p)
		p.Wait(`!!document.querySelector('[name="time.gas"]')`)
		look(p, "the days, in sessions", "The-days")
		p.Type("time.gas", "tea")
		look(p, "a time that cannot be read", "The-days")
		p.Type("days.long", "90")
		p.Wait(`!!document.getElementById('problem.days.long')`)
		look(p, "days that do not fit", "The-days")
		p.Address("v=1&days.finish=2026-03-15T18:00")
		settle(p)
		look(p, "the days, done by a time", "The-days")
	},
	"bench view": func(t *testing.T, look, _ look) {
		p := fresh(t, "")
		settle(p)
		enter(p, "go.bench")
		p.Wait(`!!document.getElementById('bench.title')`)
		steps := demoSteps()
		for i, s := range steps {
			switch s.Key {
			case "open", "soak", "charge", "gas", steps[len(steps)-1].Key:
				require.Equal(t, s.Title, p.Text(`[id="bench.title"]`))
				look(p, "at the bench: "+s.Title)
			}
			if i == 0 {
				look(p, "at the bench, the first step")
			}
			p.Press(arrowRight)
		}
		p.Press(page.Escape)
		p.Address("v=1&cell.rejects=6")
		enter(p, "go.bench")
		p.Wait(`!!document.querySelector('.bench')`)
		look(p, "at the bench with nothing to do")
	},
	"timers": func(t *testing.T, look, _ look) {
		p, _ := timed(t)
		p.Click(`.bench-count [data-do="timer"]`)
		p.Press(arrowRight)
		p.Click(`.bench-count [data-do="timer"]`)
		p.Click(`.bench-count:nth-child(2) [data-do="timer"]`)
		p.Click(`.bench-count:nth-child(2) [data-do="timer"]`)
		p.Wait(`document.querySelectorAll('.timer').length === 4`)
		p.Click(`[aria-label="Pause: Wash: settle (2)"]`)
		look(p, "timers at the bench, one paused")
		put(p, "20")
		p.Wait(`!!document.querySelector('.timer.over')`)
		put(p, "-65")
		p.Wait(`document.querySelector('.timers').textContent.includes('put back')`)
		p.Click(`[aria-label="End timer: Wash: settle (2)"]`)
		p.Wait(`document.querySelector('.timers').textContent.includes('Ended: ')`)
		look(p, "a timer over, one stopped, the clock put back")
		p.Press(page.Escape)
		p.Wait(`!document.querySelector('.bench')`)
		look(p, "timers on the page", "Cells")
	},
	"copies": func(t *testing.T, look, _ look) {
		text := saveCopy(caught(t, page.File(t), "v=1&cell.count=9"))
		p := caught(t, onDisk(t, strings.Replace(text, `{"version":1,`, `{"version":2,"more":{"songs":["a"]},`, 1)), "")
		settle(p)
		look(p, "a copy of another version", "Cells")
		p = caught(t, onDisk(t, strings.Replace(text, `{"version":1,`, `{"version`, 1)), "")
		settle(p)
		look(p, "a damaged copy", "Cells")
	},
	"a page that does not start": func(t *testing.T, look, _ look) {
		file, err := os.ReadFile(strings.TrimPrefix(page.File(t), "file://"))
		require.NoError(t, err)
		for state, c := range map[string]struct{ text, before string }{
			"WebAssembly refused": {string(file), "delete globalThis.WebAssembly"},
			"a file cut short":    {string(file[:len(file)/2]), ""},
		} {
			// The plan of the file stands behind what is said, or is not shown for another.
			for _, link := range []string{"", "v=1&cell.count=9"} {
				p := page.Load(t, onDisk(t, c.text), link, "localStorage.clear(); sessionStorage.clear(); "+c.before)
				p.Wait(`document.documentElement?.dataset.failed`)
				var other bool
				p.Eval(`"other" in document.documentElement.dataset`, &other)
				require.Equal(t, link != "", other)
				look(p, strings.TrimSpace(state+" "+link))
			}
		}
		// What a browser shows that runs no scripts, for axe is one.
		still := regexp.MustCompile(`(?s)<script.*?</script>`).ReplaceAllString(string(file), "")
		still = regexp.MustCompile(`<meta http-equiv="?Content-Security-Policy[^>]*>`).ReplaceAllString(still, "") // the styles are changed
		still = strings.NewReplacer("<noscript>", "<div>", "</noscript>", "</div>", "(scripting: none)", "all").Replace(still)
		p := page.Load(t, onDisk(t, still), "")
		p.Wait(`document.body?.innerText.includes('switched off here') && document.getElementById('start-word')?.checkVisibility() === false`)
		look(p, "scripts switched off")
		for _, link := range []string{"", "v=1&cell.count=9"} {
			p = page.Load(t, page.File(t), link, `WebAssembly.instantiateStreaming = WebAssembly.instantiate = () => new Promise(() => {})`)
			p.Wait(`document.getElementById('start-word')`)
			look(p, strings.TrimSpace("a page that is starting "+link))
		}
		p = page.Open(t, page.File(t), "")
		p.Forgive("exit code: 2")
		p.Forgive("Go program has already exited")
		p.Forgive("Script error.") // WebKit's words for that in a file
		settle(p)
		p.Eval("goappNav()", nil) // a panic ends the program
		p.Wait(`document.getElementById("stopped")`)
		look(p, "a page that stopped", "Cells")
	},
}

// TestNoStateOfThePageFailsAxe leads through every state of the page that one can
// think of, by light and dark, and the sheets as print shows them.
func TestNoStateOfThePageFailsAxe(t *testing.T) {
	a := &auditor{source: axe(t)}
	order := []string{"plan", "run", "bench view"} // most of what there is comes first
	for _, tour := range slices.Sorted(maps.Keys(tours)) {
		if !slices.Contains(order, tour) {
			order = append(order, tour)
		}
	}
	for _, tour := range order {
		t.Run(tour, func(t *testing.T) {
			tours[tour](t,
				func(p *page.Page, state string, only ...string) { a.look(t, p, state, only...) },
				func(p *page.Page, state string, off ...string) { a.print(t, p, state, off...) })
		})
	}
	assert.True(t, a.whole, "the whole page was never looked at")
	t.Run("dark", func(t *testing.T) { page.Needs(t, page.Dark) })
	t.Run("print", func(t *testing.T) { page.Needs(t, page.Paper) })
	t.Logf("%d states:\n  %s", len(a.states), strings.Join(a.states, "\n  "))
}
