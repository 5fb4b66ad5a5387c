//go:build !js

package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/long"
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

// runtime begins the script that comes with the toolchain.
const runtime = "// Copyright 2018 The Go Authors"

// written puts a changed copy of the bare page on disk.
func written(t *testing.T, name string, change func(file string) string) string {
	t.Helper()
	file, err := os.ReadFile(strings.TrimPrefix(bare(t), "file://"))
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(change(string(file))), 0o644))
	return page.Address(path)
}

func TestAnyBrowserLoadsThePageWithoutNetworkAndComplaint(t *testing.T) {
	p := page.Open(t, bare(t), "")
	assert.Equal(t, "Bare", p.Text("h1"))
	assert.Equal(t, []string{bare(t)}, p.Requests())
	assert.Empty(t, p.Errors())
	var start bool
	p.Eval(`document.getElementById("start") !== null`, &start)
	assert.False(t, start, "the page before the program is still there")
}

func TestAnyBrowserLoadsThePageThoughItLacksThings(t *testing.T) {
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

// forgivePolicy lets the browser say, in its own words, that it kept to the page's policy.
func forgivePolicy(p *page.Page) {
	for _, words := range []string{"Content Security Policy", "Content-Security-Policy", "policy: refused"} {
		p.Forgive(words)
	}
}

// cautions must be readable whenever the page is not.
var cautions = []string{
	"only outdoors or in a working fume cupboard",
	"acid into water, never water into acid",
	"tube out of the water before you take the flame away",
	"cells marked R with no letter before it",
}

func TestAnyBrowserLoadsNoPageWithoutSayingWhy(t *testing.T) {
	asIs := func(file string) string { return file }
	for _, c := range []struct {
		name   string
		file   string
		change func(string) string
		before string
		says   string
	}{
		{"cut within the program", "a.html", func(f string) string { return f[:len(f)/2] }, "", "incomplete"},
		{"cut one letter before the program's end", "a.html", func(f string) string { return f[:strings.LastIndex(f, "</template>")-1] }, "", "incomplete"},
		{"cut before the loader", "a.html", func(f string) string { return f[:strings.Index(f, runtime)+900] }, "", "may be cut short"},
		{"damaged program", "a.html", func(f string) string {
			at := strings.LastIndex(f, "</template>") - 5000
			return f[:at] + strings.Repeat("A", 400) + f[at+400:]
		}, "", "damaged"},
		{"no WebAssembly", "a.html", asIs, "delete globalThis.WebAssembly", "has no WebAssembly"},
		{"no DecompressionStream", "a.html", asIs, "delete globalThis.DecompressionStream", "too old"},
		{"WebAssembly refused", "a.html", asIs, `for (const f of ["instantiate", "instantiateStreaming"]) WebAssembly[f] = async () => { throw new WebAssembly.CompileError("refused by policy") }`, "refuses WebAssembly"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := page.Load(t, written(t, c.file, c.change), "", c.before)
			p.Forgive("ReadableStream") // what Firefox says of a program that does not unpack
			p.Wait(`(document.getElementById("start-why")?.innerText ?? "").includes("` + c.says + `")`)
			said := p.Text("body")
			for _, caution := range cautions {
				assert.Contains(t, said, caution)
			}
		})
	}
}

// dressed is the bare page with the stylesheets of the real one, and a saved copy's part
// in it: all that a file may be cut in.
func dressed(t *testing.T) string {
	t.Helper()
	address := page.Build(t, onefile.Job{Main: "./scripts/bench/bare", Styles: onefile.Styles, Output: "dist/loader-dressed-test.html"})
	file, err := os.ReadFile(strings.TrimPrefix(address, "file://"))
	require.NoError(t, err)
	text := string(file)
	at := strings.LastIndex(text, "<template ")
	return text[:at] + `<script type="application/json" id="saved">{"version":1,"plan":"v=1\u0026cell.count=9"}</script>` + "\n" + text[at:]
}

func onDisk(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "a.html")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return page.Address(path)
}

func TestAnyBrowserLoadsNoFileThatIsCutShort(t *testing.T) {
	file := dressed(t)
	within := func(begin, end string, share float64) int {
		from := strings.Index(file, begin)
		require.GreaterOrEqual(t, from, 0, begin)
		to := from + strings.Index(file[from:], end)
		require.Greater(t, to, from, end)
		return from + int(share*float64(to-from))
	}
	program := strings.Index(file, `id="program"`)
	for _, c := range long.First(6, []struct {
		name string
		at   int
		says string
	}{
		{"behind the words", strings.Index(file, "</main>"), "may be cut short"},
		{"in the middle of the look", within("</main>", "</style>", 0.5), "may be cut short"},
		{"in the middle of the loader", within("Starts the program", "</script>", 0.5), "may be cut short"},
		{"behind the loader", within("Starts the program", "</script>", 1) + len("</script>"), "incomplete"},
		{"in what is saved", within(`<script type="application/json"`, "</script>", 0.7), "incomplete"},
		{"at nine tenths of the program", program + (len(file)-program)*9/10, "incomplete"},
		{"at the beginning of the look", within("</main>", "</style>", 0.05), "may be cut short"},
		{"at the beginning of the runtime", within(runtime, "</script>", 0.01), "may be cut short"},
		{"in the middle of the runtime", within(runtime, "</script>", 0.5), "may be cut short"},
		{"one letter before the end of the runtime", within(runtime, "</script>", 1) - 1, "may be cut short"},
		{"one letter before the end of the loader", within("Starts the program", "</script>", 1) - 1, "may be cut short"},
		{"in the tag of what is saved", within(`<script type="application/json"`, "</script>", 0.2), "incomplete"},
		{"behind what is saved", within(`<script type="application/json"`, "</script>", 1) + len("</script>"), "incomplete"},
		{"in the tag of the program", program, "incomplete"},
		{"in the length of the program", strings.Index(file, "data-length") + len(`data-length="1`), "incomplete"},
		{"at the first letter of the program", program + strings.Index(file[program:], ">") + 2, "incomplete"},
		{"at a hundredth of the program", program + (len(file)-program)/100, "incomplete"},
		{"one letter before the end of the program", strings.LastIndex(file, "</template>") - 1, "incomplete"},
	}) {
		t.Run(c.name, func(t *testing.T) {
			p := page.Load(t, onDisk(t, file[:c.at]), "")
			forgivePolicy(p) // half a stylesheet is not the one that was allowed
			p.Wait(`document.body?.innerText.includes("` + c.says + `")`)
			said := p.Text("body")
			for _, caution := range cautions {
				assert.Contains(t, said, caution)
			}
		})
	}
	for name, behind := range map[string]string{"behind the program": "", "in the last tag that counts": "</temp", "behind it": "</template>"} {
		t.Run(name, func(t *testing.T) {
			p := page.Open(t, onDisk(t, file[:strings.LastIndex(file, "</template>")+len(behind)]), "")
			assert.Equal(t, "Bare", p.Text("h1"), "nothing of it is missing")
		})
	}
	// Before the words there is nothing to say them with; the first of them comes soon.
	t.Run("in the words", func(t *testing.T) {
		at := strings.Index(file, "<h1>Rosesalt</h1>") + len("<h1>Rosesalt</h1>")
		assert.Less(t, at, 2500)
		p := page.Load(t, onDisk(t, file[:at]), "")
		p.Wait(`document.body?.innerText.includes("Rosesalt")`)
	})
}

func TestAnyBrowserLoadsNoFileThatWasChanged(t *testing.T) {
	file := dressed(t)
	begin := strings.LastIndex(file, ">H4sI") + 1 // the first letters of what gzip made
	require.Positive(t, begin)
	end := strings.LastIndex(file, "</template>")
	for _, c := range long.First(5, []struct {
		name string
		at   int
		to   byte
	}{
		{"a letter of the head that nobody needs", begin + 6, 'B'},
		{"a letter in the middle", (begin + end) / 2, 'A'},
		{"a letter in the middle, to no text", (begin + end) / 2, 0xff},
		{"a letter of the sum at the end", end - 10, 'A'},
		{"a letter of the loader", strings.Index(file, "Starts the program") + 400, '~'},
		{"the first letter", begin, 'I'},
		{"a letter near the beginning", begin + 60, 'A'},
		{"a letter in the middle, to a sign", (begin + end) / 2, '<'},
		{"a letter in the middle, to a space", (begin + end) / 2, ' '},
		{"a letter in the middle, to an end", (begin + end) / 2, '='},
		{"a letter in the middle, to nothing", (begin + end) / 2, 0},
		{"a letter of the runtime", strings.Index(file, runtime) + 400, '~'},
		{"a digit of the length", strings.Index(file, "data-length") + len(`data-length="`), '9'},
	}) {
		t.Run(c.name, func(t *testing.T) {
			if file[c.at] == c.to {
				c.to++
			}
			p := page.Load(t, onDisk(t, file[:c.at]+string([]byte{c.to})+file[c.at+1:]), "")
			forgivePolicy(p)                       // runs no script that was changed
			p.Forgive("byte stream was erroneous") // Firefox, of what is no text
			p.Forgive("ReadableStream")            // what Firefox says of a program that does not unpack
			p.Wait(`"ready" in (document.documentElement?.dataset ?? {}) || /damaged|incomplete|cut short/.test(document.body?.innerText ?? "")`)
			var stands bool
			p.Eval(`"ready" in document.documentElement.dataset`, &stands)
			if stands {
				assert.Equal(t, "Bare", p.Text("h1"))
				assert.Contains(t, c.name, "nobody needs")
				return
			}
			said := p.Text("body")
			for _, caution := range cautions {
				assert.Contains(t, said, caution)
			}
		})
	}
}

func TestPageWithoutScripts(t *testing.T) {
	for name, address := range map[string]string{"whole": bare(t), "cut": onDisk(t, dressed(t)[:200_000])} {
		t.Run(name, func(t *testing.T) {
			p := page.LoadUnscripted(t, address)
			p.Wait(`document.body?.innerText.includes("switched off here")`)
			said := p.Text("body")
			assert.NotContains(t, said, "Working")
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
	p.Forgive("Script error.")                 // all that WebKit tells a file of that
	// Any panic ends the program; this one asks for an argument that is
	// not there.
	p.Eval("goappNav()", nil)
	p.Wait(`document.getElementById("stopped")`)
	assert.Contains(t, p.Text("#stopped"), "no longer follow")
}

func TestPageTakesAnyFragment(t *testing.T) {
	for _, fragment := range long.First(3, []string{"%zz=%2", "<script>alert(1)</script>", strings.Repeat("x", 100_000), "50%", "%", "%00%0a", "a=1#b=2", "é"}) {
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

func TestAnyBrowserTellsOfEveryMoveInTheHistory(t *testing.T) {
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

func TestAnyBrowserRefusesTheNetworkAndStringsAsHTML(t *testing.T) {
	p := page.Open(t, bare(t), "")
	forgivePolicy(p)
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

// TestAnyBrowserLoadsNoScriptButThePagesOwn: the one policy for addresses of scripts is the
// loader's, and lets through what the loader made, once.
func TestAnyBrowserLoadsNoScriptButThePagesOwn(t *testing.T) {
	p := page.Open(t, bare(t), "")
	forgivePolicy(p)
	for _, words := range []string{"TrustedScript", "TrustedTypePolicy", "trustedTypes", "createPolicy"} {
		p.Forgive(words)
	}
	var known bool
	p.Eval(`!!window.trustedTypes`, &known)
	if !known {
		t.Skip("this browser knows no trusted types, and refuses scripts by their hashes alone")
	}
	var refused []string
	p.Eval(`(async () => {
		const evil = URL.createObjectURL(new Blob(["postMessage('evil')"], { type: "text/javascript" }));
		// The page's own, whose address is overheard.
		const make = URL.createObjectURL;
		let own = "";
		URL.createObjectURL = (blob) => own = make.call(URL, blob);
		window.rosesaltWorker().terminate();
		URL.createObjectURL = make;
		const tries = {
			"a worker": () => new Worker(evil),
			"a shared worker": () => new SharedWorker(evil),
			"a script's address": () => { document.head.append(Object.assign(document.createElement("script"), { src: evil })); },
			"a script's text": () => { document.head.append(Object.assign(document.createElement("script"), { textContent: "window.owned = 1" })); },
			"the policy once more": () => trustedTypes.createPolicy("rosesalt", { createScriptURL: (u) => u }),
			"another policy": () => trustedTypes.createPolicy("evil", { createScriptURL: (u) => u }),
			"the default policy": () => trustedTypes.createPolicy("default", { createScriptURL: (u) => u }),
			"the own address again": () => new Worker(own),
			"another worker": () => window.rosesaltWorker(),
		};
		const refused = [];
		for (const [name, t] of Object.entries(tries)) {
			try { await t(); } catch { refused.push(name); }
		}
		return refused;
	})()`, &refused)
	assert.Equal(t, []string{
		"a worker", "a shared worker", "a script's address", "a script's text", "the policy once more", "another policy", "the default policy",
		"the own address again", "another worker",
	}, refused)
	var owned bool
	p.Eval(`!!window.owned`, &owned)
	assert.False(t, owned)
}
