//go:build !js

package browsertest

import (
	"testing"

	"rosesalt/scripts/page"
)

// shared is the page that most tests use, one after the other.
var shared = page.Shared{
	Stands: settled,

	// What is open is closed as a person does it, and another plan is opened in between, so
	// that the page opens the first one anew.
	Clean: `(async () => {
		const turn = () => new Promise((done) => setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(done)), 30));
		const escape = () => document.activeElement.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape", bubbles: true, cancelable: true }));
		document.adoptedStyleSheets = [];
		for (const what of ["#working", ".bench"]) if (document.querySelector(what)) { escape(); await turn(); }
		for (const e of document.querySelectorAll("details[open]")) e.open = false;
		for (let fold; fold = document.querySelector("[id^='fold.'][aria-expanded=true]");) { fold.click(); await turn(); }
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
		...[...Object.keys(localStorage), ...Object.keys(sessionStorage)].filter((key) => !/^rosesalt\.(last|tab|here|ask)/.test(key)).map((key) => "stored " + key),
	].join("\n")`,
}

// open shows the plan of a fragment on the shared page.
func open(t *testing.T, fragment string) *page.Page {
	t.Helper()
	return shared.Open(t, page.File(t), fragment)
}

// fresh opens the plan of a fragment in a page of its own, from disk: for tests of the
// start, of more than one page, and of what a page keeps until it is closed.
func fresh(t *testing.T, fragment string) *page.Page {
	t.Helper()
	return page.Open(t, page.File(t), fragment)
}
