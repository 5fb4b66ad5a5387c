//go:build !js

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/onefile"
	"rosesalt/scripts/page"
)

func TestMain(m *testing.M) { os.Exit(page.Run(m)) }

// bare is the shell and the loader around a program that only mounts: what is
// seen here is theirs.
func bare(t *testing.T) string {
	t.Helper()
	return page.Build(t, onefile.Job{Main: "./scripts/bench/bare", Output: "dist/loader-test.html"})
}

// written puts a changed copy of the bare page on disk.
func written(t *testing.T, name string, change func(file string) string) string {
	t.Helper()
	file, err := os.ReadFile(strings.TrimPrefix(bare(t), "file://"))
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(change(string(file))), 0o644))
	return page.Address(path)
}

func TestPageStandsWithoutNetworkAndComplaint(t *testing.T) {
	p := page.Open(t, bare(t), "")
	assert.Equal(t, "Bare", p.Text("h1"))
	assert.Equal(t, []string{bare(t)}, p.Requests())
	assert.Empty(t, p.Errors())
	var start bool
	p.Eval(`document.getElementById("start") !== null`, &start)
	assert.False(t, start, "the page before the program is still there")
}

func TestPageStandsInALesserBrowser(t *testing.T) {
	for name, lesser := range map[string]string{
		"without fromBase64":      `delete Uint8Array.fromBase64`,
		"without streaming":       `delete WebAssembly.instantiateStreaming`,
		"streaming refused":       `WebAssembly.instantiateStreaming = async () => { throw new TypeError("refused") }`,
		"storage forbidden":       `for (const s of ["localStorage", "sessionStorage"]) Object.defineProperty(window, s, { configurable: true, get() { throw new DOMException("denied", "SecurityError") } })`,
		"storage missing":         `for (const s of ["localStorage", "sessionStorage"]) Object.defineProperty(window, s, { configurable: true, value: null })`,
		"without service workers": `delete Navigator.prototype.serviceWorker`,
	} {
		t.Run(name, func(t *testing.T) {
			p := page.Load(t, bare(t), "", lesser)
			p.Ready()
			assert.Equal(t, "Bare", p.Text("h1"))
			p.Eval(`localStorage.setItem("a", "1")`, nil)
			var kept string
			p.Eval(`localStorage.getItem("a")`, &kept)
			assert.Equal(t, "1", kept)
			var lent bool
			p.Eval(`!!localStorage.lent`, &lent)
			assert.Equal(t, strings.HasPrefix(name, "storage"), lent, "a store that does not last says so")
		})
	}
}

// cautions must be readable whenever the page is not.
var cautions = []string{
	"only outdoors or in a working fume cupboard",
	"acid into water, never water into acid",
	"tube out of the water before you take the flame away",
	"cells marked R with no letter before it",
}

func TestPageSaysWhyItDoesNotStand(t *testing.T) {
	asIs := func(file string) string { return file }
	for _, c := range []struct {
		name   string
		file   string
		change func(string) string
		before string
		says   string
	}{
		{"cut within the program", "a.html", func(f string) string { return f[:len(f)/2] }, "", "incomplete"},
		{"cut one letter before the program's end", "a.html", func(f string) string { return f[:strings.LastIndex(f, "</script>")-1] }, "", "incomplete"},
		{"cut before the loader", "a.html", func(f string) string { return f[:strings.Index(f, "<script>")+900] }, "", "may be cut short"},
		{"damaged program", "a.html", func(f string) string {
			at := strings.LastIndex(f, "</script>") - 5000
			return f[:at] + strings.Repeat("A", 400) + f[at+400:]
		}, "", "damaged"},
		{"no WebAssembly", "a.html", asIs, "delete globalThis.WebAssembly", "has no WebAssembly"},
		{"no DecompressionStream", "a.html", asIs, "delete globalThis.DecompressionStream", "too old"},
		{"WebAssembly refused", "a.html", asIs, `for (const f of ["instantiate", "instantiateStreaming"]) WebAssembly[f] = async () => { throw new WebAssembly.CompileError("refused by policy") }`, "refuses WebAssembly"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := page.Load(t, written(t, c.file, c.change), "", c.before)
			p.Wait(`(document.getElementById("start-why")?.innerText ?? "").includes("` + c.says + `")`)
			said := p.Text("body")
			for _, caution := range cautions {
				assert.Contains(t, said, caution)
			}
		})
	}
}

func TestPageSaysThatItStopped(t *testing.T) {
	p := page.Open(t, bare(t), "")
	p.Forgive("exit code: 2")
	p.Forgive("Go program has already exited") // what its open timers find
	// Any panic ends the program; this one asks for an argument that is
	// not there.
	p.Eval("goappNav()", nil)
	p.Wait(`document.getElementById("stopped")`)
	assert.Contains(t, p.Text("#stopped"), "no longer follow")
}

func TestPageTakesAnyFragment(t *testing.T) {
	for _, fragment := range []string{"50%", "%", "%zz=%2", "%00%0a", "a=1#b=2", "<script>alert(1)</script>", "é", strings.Repeat("x", 100_000)} {
		name := fragment[:min(len(fragment), 20)]
		t.Run("at the start/"+name, func(t *testing.T) {
			p := page.Open(t, bare(t), fragment)
			assert.Equal(t, "Bare", p.Text("h1"))
		})
		t.Run("later/"+name, func(t *testing.T) {
			p := page.Open(t, bare(t), "")
			p.Address(fragment)
			p.Back()
			p.Forward()
			var alive bool
			p.Eval(`!document.documentElement.hasAttribute("data-failed")`, &alive)
			assert.True(t, alive)
			var parsed bool
			p.Eval(`(() => { try { decodeURIComponent(location.hash); return true } catch { return false } })()`, &parsed)
			assert.True(t, parsed || strings.Contains(fragment, "é"), "the address still holds %q", p.Fragment())
		})
	}
}

func TestPageHearsOfEveryMoveInTheHistory(t *testing.T) {
	p := page.Open(t, bare(t), "a")
	p.Eval(`{ window.heard = []; addEventListener("hashchange", () => heard.push(location.hash)); }`, nil)
	p.Eval(`history.pushState(null, "", "#b")`, nil)
	p.Eval(`history.replaceState(null, "", "#c")`, nil)
	p.Back()
	p.Forward()
	p.Address("d")
	var heard []string
	p.Eval("heard", &heard)
	assert.Equal(t, []string{"#a", "#c", "#d"}, heard)
}

func TestPageKeepsThePlanWhenALinkWithinItIsFollowed(t *testing.T) {
	p := page.Open(t, bare(t), "plan")
	p.Eval(`{
		const link = document.createElement("a"), place = document.createElement("section");
		link.href = "#gas"; link.id = "link"; link.textContent = "Gas";
		place.id = "gas"; place.textContent = "Gas"; place.style.marginTop = "3000px";
		document.querySelector("main").append(link, place);
	}`, nil)
	p.Click("#link")
	assert.Equal(t, "plan", p.Fragment())
	var at string
	p.Eval("document.activeElement.id", &at)
	assert.Equal(t, "gas", at)
	var scrolled float64
	p.Eval("scrollY", &scrolled)
	assert.Positive(t, scrolled)
}

func TestPageRefusesTheNetworkAndStringsAsHTML(t *testing.T) {
	p := page.Open(t, bare(t), "")
	p.Forgive("Content Security Policy")
	p.Forgive("TrustedHTML")
	p.Forgive("TrustedScript")
	p.Forgive("http://127.0.0.1:1/") // asked for, and stopped before it left
	var refused []string
	p.Eval(`(async () => {
		const tries = {
			fetch: () => fetch("http://127.0.0.1:1/"),
			picture: () => new Promise((done, failed) => {
				document.addEventListener("securitypolicyviolation", failed, { once: true });
				const i = new Image();
				i.onload = done;
				i.src = "http://127.0.0.1:1/a.png";
			}),
			html: () => { document.body.innerHTML = "<b>"; },
			worker: () => new Promise((done, failed) => {
				const w = new Worker("data:text/javascript,0");
				w.onerror = failed;
				w.onmessage = done;
			}),
		};
		const refused = [];
		for (const [name, t] of Object.entries(tries)) {
			try { await t(); } catch { refused.push(name); }
		}
		return refused;
	})()`, &refused)
	assert.Equal(t, []string{"fetch", "picture", "html", "worker"}, refused)
}
