//go:build !js

package browsertest

import (
	"testing"

	"rosesalt/scripts/page"
)

// shared is the page that most tests use, one after the other.
var shared = page.Shared{
	Stands: settled,
	Begin:  `(async () => { ` + allOpen + ` sessionStorage.clear(); })()`,

	// What is open is closed as a person does it, and another plan is opened in between, so
	// that the page opens the first one anew.
	Clean: `(async () => {
		const turn = () => new Promise((done) => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(done)), 30));
		const escape = () => document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape", bubbles: true, cancelable: true }));
		document.adoptedStyleSheets = [];
		for (const what of ["#working", ".bench"]) if (document.querySelector(what)) { escape(); await turn(); }
		for (const e of document.querySelectorAll("details[open]")) e.open = false;
		for (let fold; fold = document.querySelector("[id^='fold.'][aria-expanded=true]");) { fold.click(); await turn(); }
		` + allOpen + `
		location.hash = "v=2&cell.count=7";
		await turn();
		location.hash = "v=2";
		await turn();
		localStorage.clear();
		sessionStorage.clear();
		document.activeElement.blur();
		scrollTo({ top: 0, behavior: "instant" });
		await turn();
	})()`,
	State: `[
		"class " + document.documentElement.className, "title " + document.title,
		...[...document.querySelectorAll("main input[name], main select, main textarea, header input, header select")].map((e) =>
			["field", e.name || e.id, e.type === "checkbox" ? e.checked : e.value, e.placeholder, e.readOnly, e.disabled].join(" ")).sort(),
		...[...document.querySelectorAll("data[id]")].map((e) => "figure " + e.id + " " + e.value).sort(),
		...[...document.querySelectorAll("details[open] > summary, [aria-expanded=true]")].map((e) => "open " + e.textContent),
		...[...document.querySelectorAll("#working, .bench, .sheet *, .jarlabel, .timer, .troubles li, .problem, .run, .kept tr, .paste *")].map((e) => "there " + e.localName + " " + (e.id || e.className) + " " + e.textContent.slice(0, 80)),
		// What a tab is doing it keeps a moment later, on purpose.
		...[...Object.keys(localStorage), ...Object.keys(sessionStorage)].filter((key) => !/^rosesalt\.(last|tab|here|ask|open)/.test(key)).map((key) => "stored " + key),
	].join("\n")`,
}

// allOpen visits all places and opens all sections there, and what keeps and sends. The places
// are all shown then, one below the other, so that what is said of the page is said of all of it.
const allOpen = `{
		const at = document.querySelector("nav [aria-current]").id, turn = () => new Promise((done) => setTimeout(done, 30));
		for (const place of ["plan", "ready", "after", "bench", at.slice(3)]) {
			if (place !== at.slice(3) && document.getElementById("place." + place).childElementCount) continue;
			document.getElementById("go." + place).click();
			while (document.getElementById("place." + place).hidden) await turn();
			if (!document.querySelector("[id='place." + place + "'] section.shut")) continue;
			document.querySelector("[id='place." + place + "'] .all [data-value=open]")?.click();
			await turn();
		}
		for (let shut; shut = document.querySelector(".place section.shut .inside");) {
			shut.dispatchEvent(new Event("beforematch", { bubbles: true }));
			if (shut.hidden || document.querySelector(".early")) await turn();
		}
		for (const place of document.querySelectorAll(".place[hidden]")) place.hidden = false;
		for (const send = document.getElementById("send"); send.ariaExpanded === "false"; await turn()) send.click();
	}
`

// openAll opens all sections, for tests that look into them.
func openAll(p *page.Page) {
	p.Eval(`(async () => { `+allOpen+` })()`, nil)
	p.Settle()
}

// ready waits until a page stands, and opens all of it.
func ready(p *page.Page) {
	p.Ready()
	openAll(p)
}

// again loads a page again, and opens all of it, whatever the browser kept of that.
func again(p *page.Page) {
	p.Reload()
	openAll(p)
}

// opened opens a page, and all of it.
func opened(t *testing.T, address, fragment string) *page.Page {
	t.Helper()
	p := page.Open(t, address, fragment)
	openAll(p)
	return p
}

// open shows the plan of a fragment on the shared page, all of which is open.
func open(t *testing.T, fragment string) *page.Page {
	t.Helper()
	return shared.Open(t, page.File(t), fragment)
}

// fresh opens the plan of a fragment in a page of its own, from disk: for tests of the
// start, of more than one page, and of what a page keeps until it is closed. All of it is open.
func fresh(t *testing.T, fragment string) *page.Page {
	t.Helper()
	return opened(t, page.File(t), fragment)
}

// closed is fresh as a person finds it, each section in its line.
func closed(t *testing.T, fragment string) *page.Page {
	t.Helper()
	return page.Open(t, page.File(t), fragment)
}
