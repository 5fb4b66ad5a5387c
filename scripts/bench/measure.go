package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"sort"
	"time"

	"rosesalt/chem/account"
	"rosesalt/scripts/browser"
	"rosesalt/web/runs"
)

// stamp is a script that records when the document is marked ready, in milliseconds
// after the navigation began, what stands then, and how much of the window moves by itself.
const stamp = `{
	window.stood = { Shift: 0 };
	new MutationObserver((_, watch) => {
		if (!document.documentElement || !("ready" in document.documentElement.dataset)) return;
		watch.disconnect();
		stood.At = performance.now();
		stood.Elements = document.querySelectorAll("*").length;
	}).observe(document, { subtree: true, childList: true, attributeFilter: ["data-ready"] });
	new PerformanceObserver((list) => {
		for (const e of list.getEntries()) if (!e.hadRecentInput) stood.Shift += e.value;
	}).observe({ type: "layout-shift", buffered: true });
}`

// start is how a page begins.
type start struct {
	Paint    float64 // first paint of a content, ms after the navigation began
	At       float64 // when the page was marked ready
	Elements float64 // at that time
	Height   float64 // px of the whole page, once it has settled
	Shift    float64 // layout shift until then, by the browser's own score
}

// starts loads two pages in turn, each time in a new tab and with an empty
// storage. A first load of each warms
// the machine's caches and is not counted. The order is turned round each time
// and the tab before is given a moment to go, so that neither page always runs
// in the other's wake.
func starts(b *browser.Browser, one, other string, loads int) (ones, others []start, err error) {
	pages := []struct {
		address string
		starts  *[]start
	}{{one, &ones}, {other, &others}}
	for i := range loads + 1 {
		for _, p := range pages {
			s, err := started(b, p.address, 1280, `true`)
			if err != nil {
				return nil, nil, err
			}
			if i > 0 {
				*p.starts = append(*p.starts, s)
			}
			time.Sleep(300 * time.Millisecond)
		}
		slices.Reverse(pages)
	}
	return ones, others, nil
}

// started loads a page in a window so wide, and waits until it stands and a script is true.
func started(b *browser.Browser, address string, width int, settled string) (s start, err error) {
	tab, err := readyIn(b, address, width)
	if err != nil {
		return s, err
	}
	defer tab.Close()
	return s, tab.Eval(`(async () => {
		while (!(`+settled+`)) await new Promise((done) => setTimeout(done, 50));
		await new Promise((done) => setTimeout(done, 100));
		stood.Paint = performance.getEntriesByName("first-contentful-paint")[0]?.startTime ?? 0;
		stood.Height = document.documentElement.scrollHeight;
		return stood;
	})()`, &s)
}

// each is one number of all starts.
func each(list []start, of func(*start) float64) (all []float64) {
	for i := range list {
		all = append(all, of(&list[i]))
	}
	return all
}

// ready gives a tab in which the page has loaded.
func ready(b *browser.Browser, address string) (*browser.Tab, error) {
	return readyIn(b, address, 1280)
}

// readyIn is ready in a window so wide.
func readyIn(b *browser.Browser, address string, width int) (*browser.Tab, error) {
	tab, err := b.Open()
	if err != nil {
		return nil, err
	}
	for _, step := range []func() error{
		func() error { return tab.View(width, 900, false) },
		func() error { return tab.Before(stamp) },
		func() error { return tab.GoAfresh(address) },
		tab.Ready,
		tab.Settle,
	} {
		if err := step(); err != nil {
			tab.Close()
			return nil, err
		}
	}
	return tab, nil
}

// keystrokes types two texts in turn and gives the milliseconds from each
// input event until the figure's value had changed. The library changes the
// page in one go, and an observer hears of it after the whole of it, so the
// page is finished by then.
//
// Between keystrokes is a pause as between a person's, in which the library's
// clock slows down as it does in use.
func keystrokes(tab *browser.Tab, input, figure, first, second string, times int) ([]float64, error) {
	script := fmt.Sprintf(`(async (name, id, texts, times) => {
		const input = document.querySelector('[name="' + name + '"], input[data-key="' + name + '"]'), figure = document.querySelector('data[id="' + id + '"], data[data-key="' + id + '"]');
		if (!input) throw new Error("no input named " + name);
		if (!figure) throw new Error("no figure called " + id);
		const type = Object.getOwnPropertyDescriptor(Object.getPrototypeOf(input), "value").set;
		const press = (text) => new Promise((done, failed) => {
			const before = figure.value;
			const late = setTimeout(() => failed(new Error(id + " did not change from " + before + " on " + text)), 5000);
			const watch = new MutationObserver(() => {
				if (figure.value === before) return;
				const now = performance.now();
				clearTimeout(late);
				watch.disconnect();
				done(now - began);
			});
			watch.observe(figure, { attributes: true });
			type.call(input, text);
			const began = performance.now();
			input.dispatchEvent(new Event("input", { bubbles: true }));
		});
		const all = [];
		for (let i = 0; i < times + 2; i++) {
			const ms = await press(texts[i %% 2]);
			if (i >= 2) all.push(ms);
			await new Promise((done) => setTimeout(done, 60 + 40 * (i %% 4)));
		}
		return all;
	})(%s, %s, %s, %d)`, js(input), js(figure), js([]string{first, second}), batch)

	return collect(tab, script, times)
}

// How twelve presses follow each other.
const (
	oneByOne = `shown()`                                                                                  // each once the page shows the one before
	atOnce   = `new Promise((done) => { channel.port1.onmessage = done; channel.port2.postMessage(0); })` // as fast as the browser hands them on
	held     = `wait(33)`                                                                                 // as those of a key that is held down
)

// bursts presses twelve keys, each setting another count of cells, and gives the milliseconds
// until the figure is that of the last: from the first press, or, of a key that is held down,
// from the last, since the others take their time whatever the page does.
func bursts(tab *browser.Tab, input, figure, pace string, times int) ([]float64, error) {
	script := fmt.Sprintf(`(async (name, id, held, times) => {
		const input = document.querySelector('[name="' + name + '"], input[data-key="' + name + '"]'), figure = document.querySelector('data[id="' + id + '"], data[data-key="' + id + '"]');
		const write = Object.getOwnPropertyDescriptor(Object.getPrototypeOf(input), "value").set;
		const wait = (ms) => new Promise((done) => setTimeout(done, ms));
		const channel = new MessageChannel();
		let before;
		const press = (text) => {
			before = figure.value;
			write.call(input, text);
			input.dispatchEvent(new Event("input", { bubbles: true }));
		};
		const until = (is) => new Promise((done) => {
			if (is()) return done();
			const watch = new MutationObserver(() => {
				if (!is()) return;
				watch.disconnect();
				done();
			});
			watch.observe(figure, { attributes: true });
		});
		const shown = () => until(() => figure.value !== before);
		const all = [];
		press("15");
		await wait(2500);
		const last = figure.value;
		for (let i = 0; i < times; i++) {
			press("3");
			await wait(1500);
			let began = performance.now();
			for (let count = 4; count <= 15; count++) {
				if (held && count === 15) began = performance.now();
				press(String(count));
				if (count < 15) await %s;
			}
			await until(() => figure.value === last);
			all.push(performance.now() - began);
		}
		return all;
	})(%s, %s, %t, %d)`, pace, js(input), js(figure), pace == held, times)
	var all []float64
	return all, tab.Eval(script, &all)
}

// bands types two texts in turn and gives the milliseconds from each input
// event until the page has drawn the first intervals of the new plan.
func bands(tab *browser.Tab, input, first, second string, times int) ([]float64, error) {
	return standing(tab, input, first, second, `!page.classList.contains("settling")`,
		`{ attributes: true, attributeFilter: ["class"], attributeOldValue: true }`, `/settling|drawing/.test(change.oldValue + change.target.className)`, times)
}

// verdicts types two masses in turn and gives the milliseconds from each input event
// until the account of the run stands.
func verdicts(tab *browser.Tab, input, first, second string, times int) ([]float64, error) {
	// It is typed where the account stands, which is there once that place is visited.
	const there = `(async () => {
		document.getElementById("go.after").click();
		while (!document.getElementsByName("found.product").length) await new Promise((done) => setTimeout(done, 30));
	})()`
	if err := tab.Eval(there, nil); err != nil {
		return nil, err
	}
	return standing(tab, input, first, second, `!!page.querySelector(".verdict")`,
		`{ childList: true, characterData: true, subtree: true }`,
		`change.target.parentElement?.closest(".verdict") || [...change.removedNodes].some((gone) => gone.matches?.(".verdict") || gone.querySelector?.(".verdict"))`, times)
}

// standing types two texts in turn and gives the milliseconds from each input event
// until what it undoes stands again: stands tells, watched is where to look for a change of
// it, and undone tells whether a change undid it, since what is done again at once is never
// seen undone.
func standing(tab *browser.Tab, input, first, second, stands, watched, undone string, times int) ([]float64, error) {
	script := fmt.Sprintf(`(async (name, texts, times) => {
		const input = document.querySelector('[name="' + name + '"], input[data-key="' + name + '"]');
		const type = Object.getOwnPropertyDescriptor(Object.getPrototypeOf(input), "value").set;
		const page = document.querySelector(".page");
		const stands = () => %s, undone = (change) => %s;
		const all = [];
		for (let i = 0; i < times + 2; i++) {
			type.call(input, texts[i %% 2]);
			const began = performance.now();
			await new Promise((done, failed) => {
				const late = setTimeout(() => failed(new Error("it never stood again")), 8000);
				let begun = !stands();
				const watch = new MutationObserver((changes) => {
					if (!stands() || changes.some(undone)) begun = true;
					if (!begun || !stands()) return;
					clearTimeout(late);
					watch.disconnect();
					done();
				});
				watch.observe(page, %s);
				input.dispatchEvent(new Event("input", { bubbles: true }));
			});
			if (i > 1) all.push(performance.now() - began);
			await new Promise((done) => setTimeout(done, 900));
		}
		return all;
	})(%s, %s, %d)`, stands, undone, watched, js(input), js([]string{first, second}), batch/4+1)
	return collect(tab, script, times)
}

// collect runs a script that gives some times until there are enough: one command to the
// browser must not take long.
func collect(tab *browser.Tab, script string, times int) ([]float64, error) {
	var all []float64
	for len(all) < times {
		var some []float64
		if err := tab.Eval(script, &some); err != nil {
			return nil, fmt.Errorf("bench: %w", err)
		}
		all = append(all, some...)
	}
	return all, nil
}

// batch is how many keystrokes one command times.
const batch = 20

// measuredTag is the build tag of the page that can be asked for its own speed
// (web/benchmark.go).
const measuredTag = "benchmark"

// plansPerSecond asks a page built with measuredTag how many plans it works out in a
// second.
func plansPerSecond(tab *browser.Tab) (plans float64, err error) {
	return plans, tab.Eval("window.rosesaltPlans()", &plans)
}

// runsKept is how many runs are kept for keptRuns.
const runsKept = 50

// shelf is storage for the runs that keptRuns makes.
type shelf map[string]string

func (s shelf) Keys() ([]string, error)         { return slices.Collect(maps.Keys(s)), nil }
func (s shelf) Load(key string) (string, error) { return s[key], nil }
func (s shelf) Save(key, text string) error     { s[key] = text; return nil }
func (s shelf) Remove(key string) error         { delete(s, key); return nil }

// keptTexts are runs with all that a weighed run is kept with, as they lie in storage.
func keptTexts() (shelf, error) {
	texts := shelf{}
	store := runs.Open(texts)
	for i := range runsKept {
		told := account.Told{}
		for _, key := range []string{runs.Uptake, runs.Charge} {
			list := make([]int, account.Places)
			for j := range list {
				list[j] = max(account.LeastTold, -(j-20-i%10)*(j-20-i%10))
			}
			told[key] = list
		}
		_, err := store.Keep(runs.State{
			Kept: time.Date(2026, 3, 14, 9, i, 0, 0, time.UTC).Format(time.RFC3339), Name: fmt.Sprintf("lamp bag, run %d", i+1),
			Plan:    fmt.Sprintf("v=1&cell.count=%d&cell.size=R20&gas.acid=60&found.product=%d&found.copper=44&found.residue=14", 4+i%9, 20+i),
			Learned: map[string]runs.Interval{runs.Uptake: {51.5, 64.25, 77.125}, runs.Charge: {31.5, 44.25, 57.125}},
			Told:    told,
		})
		if err != nil {
			return nil, err
		}
	}
	return texts, nil
}

type keptTimes struct{ all, pass float64 } // ms

// keptRuns puts runs into the page's storage and gives the times to load and combine
// them, and of one plain pass of the draws, in turn.
func keptRuns(tab *browser.Tab) (keptTimes, error) {
	texts, err := keptTexts()
	if err != nil {
		return keptTimes{}, err
	}
	if err := tab.Eval(fmt.Sprintf(`Object.entries(%s).forEach(([k, v]) => localStorage.setItem(k, v))`, js(texts)), nil); err != nil {
		return keptTimes{}, err
	}
	var all, pass []float64
	for range 11 {
		var got []float64
		if err := tab.Eval("window.rosesaltKeptRuns()", &got); err != nil {
			return keptTimes{}, err
		}
		if len(got) != 3 || got[0] != runsKept {
			return keptTimes{}, fmt.Errorf("bench: of %d kept runs %v were loaded and combined", runsKept, got)
		}
		all, pass = append(all, got[1]), append(pass, got[2])
	}
	return keptTimes{median(all), median(pass)}, nil
}

// js writes a value as JavaScript.
func js(v any) string {
	b, err := json.Marshal(v)
	if err != nil {
		panic(err) // strings and lists of them always have a JSON form
	}
	return string(b)
}

func median(times []float64) float64 { return percentile(times, 50) }

// percentile gives the value below which p in a hundred of times lie, between
// the two nearest where none is exact.
func percentile(times []float64, p float64) float64 {
	if len(times) == 0 {
		return math.NaN()
	}
	sorted := append([]float64(nil), times...)
	sort.Float64s(sorted)
	at := p / 100 * float64(len(sorted)-1)
	below := int(at)
	if below+1 == len(sorted) {
		return sorted[below]
	}
	part := at - float64(below)
	return sorted[below]*(1-part) + sorted[below+1]*part
}
