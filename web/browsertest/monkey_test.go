//go:build !js

package browsertest

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/long"
	"rosesalt/scripts/page"
	"rosesalt/web/desk"
)

// monkey uses a page at random, by its seed, until it is told to stop: it presses, chooses and
// types, goes from place to place, back and forth, to other plans, and sets the clock. It
// leaves alone what ends the page or writes files. A number that it typed must stand in its
// field as long as it does nothing else.
const monkey = `window.monkey = async (seed) => {
	const random = () => { // mulberry32
		seed = (seed + 0x6D2B79F5) | 0;
		let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
		t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
		return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
	};
	const one = (list) => list[Math.floor(random() * list.length)];
	const rest = (most) => new Promise((done) => setTimeout(done, random() * most));
	const shown = (what) => [...document.querySelectorAll(what)].filter((e) => e.offsetParent && !e.disabled && !e.readOnly);
	const typed = "main input[name]:is([type=text], :not([type])), main textarea[name]";
	const first = navigation.currentEntry.index;
	const acts = {
		press() { one(shown("button, summary").filter((e) => !/print|sav|copy|send|file|picture|listen|keep/i.test(e.textContent + e.id)))?.click(); },
		open() { one(shown("section h2 button"))?.click(); },
		place() { one(shown("nav button"))?.click(); },
		choose() {
			const e = one(shown("select"));
			if (!e) return;
			e.value = one([...e.options]).value;
			e.dispatchEvent(new Event("input", { bubbles: true }));
		},
		async number() {
			const e = one(shown(typed));
			if (!e) return;
			const text = one(["1", "2", "3", "7", "12", "40", "0.5", "90"]);
			e.focus();
			e.value = text;
			e.dispatchEvent(new Event("input", { bubbles: true }));
			await rest(400);
			if (e.isConnected && document.activeElement === e && e.value !== text) window.lost.push(e.name + ": " + e.value + " in place of " + text);
		},
		rubbish() {
			const e = one(shown(typed));
			if (!e) return;
			e.value = one(["", "-", "1,5", "lots", "1e9", "5 to 3", "\u202e7", "x".repeat(300)]);
			e.dispatchEvent(new Event("input", { bubbles: true }));
		},
		// A second step back, before the first was made, would leave the page.
		async back() { if (navigation.currentEntry.index > first) await navigation.back().finished.catch(() => {}); },
		async forward() { if (navigation.canGoForward) await navigation.forward().finished.catch(() => {}); },
		address() { location.hash = one(["v=2", "v=2&cell.count=" + Math.ceil(40 * random()), "v=1&cell.size=R20", "v=2&gas.source=peroxide", "v=2&dry.way=crystals", "v=2&cell.kind=alkaline", "v=2&found.product=30&found.residue=9", "v=2&days.every=7&days.long=90"]); },
		key() { document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key: one(["Escape", "ArrowDown", "ArrowUp", "ArrowRight", "ArrowLeft", "Home", "End"]), bubbles: true, cancelable: true })); },
		clock() { window.late += (random() - 0.5) * 4 * 3600e3; },
		scroll() { scrollTo({ top: random() * document.body.scrollHeight, behavior: "instant" }); },
	};
	const often = ["press", "press", "press", "press", "open", "open", "place", "place", "choose", "choose", "number", "number", "number", "number", "rubbish", "back", "forward", "address", "key", "clock", "scroll"];
	window.lost ??= [], window.done ??= 0, window.enough = window.rests = false;
	while (!window.enough) {
		const act = one(often);
		window.now = act;
		await acts[act]();
		await rest(250);
		window.done++;
	}
	window.rests = true;
};`

// tidy brings the page back to what it is compared by: the first place, all sections shut, no
// timer, the usual plan.
const tidy = `(async () => {
	const turn = () => new Promise((done) => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(done)), 100));
	for (const what of ["#working", ".bench"]) if (document.querySelector(what)) { document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape", bubbles: true, cancelable: true })); await turn(); }
	for (const place of ["ready", "after", "bench", "plan"]) {
		document.getElementById("go." + place).click();
		await turn();
		document.querySelector("[id='place." + place + "'] .all [data-value='']")?.click();
		await turn();
	}
	for (let timer; timer = document.querySelector("[aria-label^='End timer']"); await turn()) timer.click();
	location.hash = "v=2&cell.count=7";
	await turn();
	location.hash = "v=2";
	await turn();
	scrollTo({ top: 0, behavior: "instant" });
})()`

// linear tells how much memory the program has taken from the browser, which it never gives
// back, and whether its worker was given up, whose work then takes memory of the page.
const linear = `{
	const end = Worker.prototype.terminate;
	Worker.prototype.terminate = function () { window.alone = true; end.call(this); };
	const of = (program) => { window.linear = (program.instance ?? program).exports.mem; return program; };
	for (const how of ["instantiate", "instantiateStreaming"]) {
		const was = WebAssembly[how];
		WebAssembly[how] = (...what) => was.apply(WebAssembly, what).then(of);
	}
}`

// TestTwoTabsOfAMonkey: however long two tabs on one run are used, nothing fails, no typing is
// lost, and what they hold stops growing.
func TestTwoTabsOfAMonkey(t *testing.T) {
	page.Needs(t, page.Protocol)
	rounds, each := long.Of(1, 2, 10), long.Of(5*time.Second, 10*time.Second, time.Minute)
	d := desk.New("v=2&cell.count=4")
	d.StartRun()
	address := page.Serve(t, page.File(t))
	type tab struct {
		*page.Page
		held    []page.Held
		program []float64 // bytes
	}
	var tabs []*tab
	for range 2 {
		p := page.Load(t, address, d.Fragment(), clock, linear, monkey)
		p.Forgive("Throttling navigation")
		p.Forgive("AudioContext was not allowed") // a script's press is no person's
		p.Ready()
		settle(p)
		tabs = append(tabs, &tab{Page: p})
	}
	for round := range rounds {
		for i, p := range tabs {
			p.Eval(fmt.Sprintf(`void monkey(%d)`, 1+2*round+i), nil)
		}
		time.Sleep(each)
		for i, p := range tabs {
			p.Eval(`void (window.enough = true)`, nil)
			p.Wait(`window.rests`)
			p.Eval(tidy, nil)
			settle(p.Page)
			var size, acts float64
			p.Eval(`window.linear.buffer.byteLength`, &size)
			p.Eval(`window.done`, &acts)
			h := p.Held()
			p.held, p.program = append(p.held, h), append(p.program, size)
			t.Logf("tab %d after %3.0f acts: program %.1f MB, scripts %.2f MB, %.0f nodes, %.0f listeners", i, acts, size/1e6, h.Scripts/1e6, h.Nodes, h.Listeners)
		}
	}
	for _, p := range tabs {
		var lost []string
		p.Eval(`window.lost`, &lost)
		assert.Empty(t, lost)
		require.Empty(t, p.Errors())
		openAll(p.Page)
		works(t, p.Page)
		if !long.Full() {
			continue
		}
		const third = 2
		then, end := p.held[third], p.held[rounds-1]
		assert.LessOrEqual(t, end.Scripts, 1.25*then.Scripts)
		assert.LessOrEqual(t, end.Listeners, 1.25*then.Listeners)
		assert.LessOrEqual(t, end.Nodes, 4*then.Nodes, "some sections stay open where a fault opened them")
		var alone bool
		if p.Eval(`!!window.alone`, &alone); !alone {
			assert.LessOrEqual(t, p.program[rounds-1], 1.5*p.program[third])
		}
	}
}
