// Package page lets tests use a page as a person would, in a headless browser
// without a network: the one that package browser starts.
//
// A test binary that uses it has one browser, which [Run] closes:
//
//	func TestMain(m *testing.M) { os.Exit(page.Run(m)) }
//
//	func TestFiveCells(t *testing.T) {
//		p := page.Open(t, page.File(t), "cells=4")
//		p.Type("cells", "5")
//		require.Equal(t, "13.1", p.Value("product.mass"))
//	}
//
// Each page has a tab of its own. Pages that are open at once share their
// storage, as windows of one browser do; the first of them finds it empty. So
// tests with pages must not run in parallel. When the test ends, it fails if
// the page asked for anything but itself, or complained; a test that means it
// to says so with [Page.Forgive].
//
// A page belongs to the test or subtest that opened it, and is used by no other: it ends
// the one that it was opened by. Most tests use one that is [Shared].
package page

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp/kb"

	"rosesalt/scripts/browser"
	"rosesalt/scripts/onefile"
)

// Keys for [Page.Press] that have no letter.
const (
	Enter     = kb.Enter
	Tab       = kb.Tab
	Escape    = kb.Escape
	Space     = " "
	ArrowUp   = kb.ArrowUp
	ArrowDown = kb.ArrowDown
)

// patience is how long [Page.Wait] waits: what takes seconds takes minutes on a machine
// that is busy with other tests.
const patience = 150 * time.Second

var (
	running bool // Run is in charge
	open    int  // pages not closed yet
	start   = sync.OnceValues(browser.Start)
	atEnd   []func() // run after all tests

	builds   = map[string]func() (string, error){}
	buildsMu sync.Mutex
)

// Run runs the tests of a binary and closes its browser after them.
func Run(m *testing.M) int {
	running = true
	used := false
	begin := start
	start = func() (*browser.Browser, error) {
		used = true
		return begin()
	}
	code := m.Run()
	for _, end := range atEnd {
		end()
	}
	if used {
		if b, err := begin(); err == nil {
			b.Close()
		}
	}
	return code
}

// File builds the page from the sources as they are, once for a test binary,
// and gives the address under which it opens from disk.
func File(t testing.TB) string {
	t.Helper()
	return Build(t, onefile.Page("dist/rosesalt.html"))
}

// Build does as [File] does for another page.
func Build(t testing.TB, job onefile.Job) string {
	t.Helper()
	buildsMu.Lock()
	build := builds[job.Output]
	if build == nil {
		build = sync.OnceValues(func() (string, error) {
			root, err := onefile.Root()
			if err != nil {
				return "", err
			}
			_, err = onefile.Build(job)
			return Address(filepath.Join(root, job.Output)), err
		})
		builds[job.Output] = build
	}
	buildsMu.Unlock()
	address, err := build()
	if err != nil {
		t.Fatal(err)
	}
	return address
}

// Address gives the address under which a file opens from disk.
func Address(path string) string {
	full, err := filepath.Abs(path)
	if err != nil {
		full = path
	}
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(full)}).String()
}

// Serve serves the file at an address from disk on this machine for the time of
// a test and gives the address it has there: for what only a served page does,
// and for what is stored. (Chromium now and then shows a reloaded page from
// disk an empty storage; one that is served keeps it.) Each call is another
// origin with an empty storage.
func Serve(t testing.TB, address string) string {
	t.Helper()
	server, err := serve(address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(server.Close)
	return server.URL + "/"
}

func serve(address string) (*httptest.Server, error) {
	u, err := url.Parse(address)
	if err != nil {
		return nil, err
	}
	name := filepath.FromSlash(u.Path)
	return httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		file, err := os.ReadFile(name)
		if err != nil {
			http.Error(w, err.Error(), http.StatusNotFound)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		_, _ = w.Write(browser.Inserted("http://"+r.Host+r.URL.Path, file))
	})), nil
}

// Page is an open page of one test.
type Page struct {
	t        testing.TB
	browser  *browser.Browser
	tab      *browser.Tab
	own      string // its address without fragment
	forgiven []string
}

// Open opens an address with a fragment (without "#"; empty for none) and
// waits until the page stands: until its document has data-ready.
func Open(t testing.TB, address, fragment string) *Page {
	t.Helper()
	p := Load(t, address, fragment)
	p.Ready()
	return p
}

// Load opens an address as [Open] does but does not wait, for pages that are
// meant to fail. The scripts of before run ahead of the page's own, to take
// features away from the browser.
func Load(t testing.TB, address, fragment string, before ...string) *Page {
	t.Helper()
	return load(t, address, fragment, before, nil)
}

// LoadUnscripted opens an address in a browser that runs no script of the page.
func LoadUnscripted(t testing.TB, address string) *Page {
	t.Helper()
	return load(t, address, "", nil, (*browser.Tab).NoScripts)
}

func load(t testing.TB, address, fragment string, before []string, prepare func(*browser.Tab) error) *Page {
	t.Helper()
	if !running {
		t.Fatal("page: TestMain must run the tests: os.Exit(page.Run(m))")
	}
	b, err := start()
	if err != nil {
		// Not a reason to skip: a page that was not looked at is not tested.
		t.Fatal(err)
	}
	tab, err := b.Open()
	must(t, err)
	p := &Page{t: t, browser: b, tab: tab, own: address}
	open++
	t.Cleanup(p.end)
	p.must(tab.View(1280, 900, false))
	for _, js := range before {
		p.must(tab.Before(js))
	}
	if prepare != nil {
		p.must(prepare(tab))
	}
	if fragment != "" {
		address += "#" + fragment
	}
	visit := tab.Go
	if open == 1 {
		visit = tab.GoAfresh
	}
	p.must(visit(address))
	return p
}

// end checks the page's record when the test is over.
func (p *Page) end() {
	defer p.tab.Close()
	open--
	p.record()
}

// record fails the test for what the page asked for and complained about.
func (p *Page) record() {
	p.t.Helper()
	for _, r := range p.Strays() {
		p.t.Errorf("page: asked for %.200q", r)
	}
	for _, e := range p.Errors() {
		p.t.Errorf("page: %s", e)
	}
}

// Ready waits until the document has data-ready.
func (p *Page) Ready() {
	p.t.Helper()
	if err := p.tab.Ready(); err != nil {
		p.t.Fatalf("%v\n%s", err, strings.Join(p.tab.Errors(), "\n"))
	}
}

// Forgive says that complaints and requests that contain words are meant to
// happen.
func (p *Page) Forgive(words string) { p.forgiven = append(p.forgiven, words) }

// Errors gives what the page complained about so far and was not forgiven:
// errors and warnings of the console, exceptions nobody caught, refusals of
// its policy.
func (p *Page) Errors() []string {
	return slices.DeleteFunc(p.tab.Errors(), p.meant)
}

func (p *Page) meant(said string) bool {
	return slices.ContainsFunc(p.forgiven, func(words string) bool { return strings.Contains(said, words) })
}

// Requests gives every address the page asked for so far, its own first.
func (p *Page) Requests() []string { return p.tab.Requests() }

// Strays gives the requests for anything but the page itself and what it
// carries, those that the policy stopped too, that were not forgiven.
func (p *Page) Strays() []string {
	return slices.DeleteFunc(p.Requests(), func(r string) bool {
		bare, _, _ := strings.Cut(r, "#")
		return bare == p.own || strings.HasPrefix(r, "data:") || strings.HasPrefix(r, "blob:") || p.meant(r)
	})
}

// Eval evaluates a JavaScript expression, waits for it when it is a promise,
// and decodes its value into out; nil throws it away.
func (p *Page) Eval(js string, out any) {
	p.t.Helper()
	p.must(p.tab.Eval(js, out))
}

// Wait waits until a JavaScript expression is true.
func (p *Page) Wait(js string) {
	p.t.Helper()
	for end := time.Now().Add(patience); ; time.Sleep(20 * time.Millisecond) {
		var is bool
		p.Eval("!!("+js+")", &is)
		if is {
			return
		}
		if time.Now().After(end) {
			p.t.Fatalf("page: %s did not become true", js)
		}
	}
}

// Settle waits until the page has stopped changing. What acts on the page
// does so by itself.
func (p *Page) Settle() {
	p.t.Helper()
	p.must(p.tab.Settle())
}

// Text gives the text a reader sees in the first element that matches a
// selector.
func (p *Page) Text(selector string) string {
	p.t.Helper()
	return p.read("innerText", fmt.Sprintf("document.querySelector(%s)", quote(selector)), selector)
}

// Value gives the value of the figure with this identifier, as its data
// element carries it.
func (p *Page) Value(id string) string {
	p.t.Helper()
	return p.read("value", fmt.Sprintf("document.getElementById(%s)", quote(id)), id)
}

// Typed gives what stands in the input with this name.
func (p *Page) Typed(name string) string {
	p.t.Helper()
	return p.read("value", input(name), name)
}

func (p *Page) read(property, element, name string) string {
	p.t.Helper()
	var got *string
	p.Eval(fmt.Sprintf("%s?.%s ?? null", element, property), &got)
	if got == nil {
		p.t.Fatalf("page: no %q on the page", name)
	}
	return *got
}

// Reveal brings out what a JavaScript expression gives, where it lies in a hidden part of the
// page: by pressing the control that says it controls that part.
func (p *Page) Reveal(element string) {
	p.t.Helper()
	for range 3 {
		var pressed bool
		p.Eval(fmt.Sprintf(`(() => {
			const hidden = (%s)?.closest("[hidden]"), by = hidden && document.querySelector('[aria-controls~="' + hidden.id + '"]');
			by?.focus();
			return !!by;
		})()`, element), &pressed)
		if !pressed {
			return
		}
		p.Press(Enter)
	}
}

// Type puts text in the place of what stands in the input with this name, key
// by key. In a list of options it chooses the one with this value.
func (p *Page) Type(name, text string) {
	p.t.Helper()
	p.Reveal(input(name))
	var kind string
	p.Eval(fmt.Sprintf(`(() => {
		const el = %s;
		if (!el) return "";
		el.scrollIntoView({ block: "center" });
		el.focus();
		if (el.select) el.select();
		return el.localName;
	})()`, input(name)), &kind)
	switch kind {
	case "":
		p.t.Fatalf("page: no input named %q", name)
	case "select":
		p.Eval(fmt.Sprintf(`(() => {
			const el = %s;
			el.value = %s;
			el.dispatchEvent(new Event("input", { bubbles: true }));
			el.dispatchEvent(new Event("change", { bubbles: true }));
		})()`, input(name), quote(text)), nil)
	default:
		if text == "" {
			text = kb.Delete
		}
		p.must(p.tab.Press(text))
	}
	p.Settle()
}

// Press presses keys on whatever has the focus.
func (p *Page) Press(keys string) {
	p.t.Helper()
	p.must(p.tab.Press(keys))
	p.Settle()
}

// Choose gives a file of this machine to the field for files that matches a selector.
func (p *Page) Choose(selector, path string) {
	p.t.Helper()
	p.must(p.tab.Choose(selector, path))
}

// Click clicks, with a real pointer, the first element that matches a
// selector, as soon as it stands still: a page that is working things out moves.
// Where it moved away all the same, it clicks again, and the page hears nothing of
// the click that went astray.
func (p *Page) Click(selector string) {
	p.t.Helper()
	p.Reveal("document.querySelector(" + quote(selector) + ")")
	for range 3 {
		if p.clickOnce(selector) {
			break
		}
	}
	p.Settle()
}

// clickOnce tells whether the pointer met the element.
func (p *Page) clickOnce(selector string) (met bool) {
	p.t.Helper()
	var at *struct{ X, Y float64 }
	p.Eval(fmt.Sprintf(`(async () => {
		let at = null, before = "", el = null, aimed = null;
		for (let tries = 0; tries < 40; tries++) {
			el = aimed = document.querySelector(%s);
			if (!el) return null;
			el.scrollIntoView({ block: "center", behavior: "instant" });
			const box = el.getBoundingClientRect();
			at = { X: box.x + box.width / 2, Y: box.y + box.height / 2 };
			const now = [box.x, box.y, box.width, box.height].join(), hit = document.elementFromPoint(at.X, at.Y);
			// What takes no presses itself leaves them to what it stands in.
			if (hit?.contains(el)) aimed = hit;
			if (now === before && aimed.contains(hit)) break;
			before = now;
			await new Promise((done) => setTimeout(done, 50));
		}
		window.pointerWatch?.abort();
		window.pointerWatch = new AbortController();
		window.pointerMissed = true;
		const watched = { capture: true, once: true, signal: window.pointerWatch.signal };
		// What moves between press and release is pressed and not clicked.
		for (const event of ["mousedown", "click"]) addEventListener(event, (e) => {
			window.pointerMissed = !aimed.contains(e.target);
			if (!window.pointerMissed) return;
			e.preventDefault();
			e.stopImmediatePropagation();
		}, watched);
		return at;
	})()`, quote(selector)), &at)
	if at == nil {
		p.t.Fatalf("page: no %q on the page", selector)
	}
	p.must(p.tab.Click(at.X, at.Y))
	var missed bool
	p.Eval("!!window.pointerMissed", &missed)
	return !missed
}

// Fragment gives the part of the address after "#", as the browser has it.
func (p *Page) Fragment() string {
	p.t.Helper()
	var hash string
	p.Eval("location.hash", &hash)
	return strings.TrimPrefix(hash, "#")
}

// Address puts a fragment into the address as a person would in the address
// bar.
func (p *Page) Address(fragment string) {
	p.t.Helper()
	p.Eval("void (location.hash = "+quote(fragment)+")", nil)
	p.Settle()
}

// Back goes back in the history of the tab.
func (p *Page) Back() {
	p.t.Helper()
	p.travel("back")
}

// Forward goes forward in the history of the tab.
func (p *Page) Forward() {
	p.t.Helper()
	p.travel("forward")
}

// travel waits for the move itself, which the browser makes in its own time.
func (p *Page) travel(way string) {
	p.t.Helper()
	p.Eval(fmt.Sprintf(`new Promise((done, failed) => {
		const late = setTimeout(() => failed(new Error("nothing to go %[1]s to")), 25000);
		addEventListener("popstate", () => { clearTimeout(late); setTimeout(done); }, { capture: true, once: true });
		for (const event of ["hashchange", "travelled"]) addEventListener(event, () => { clearTimeout(late); setTimeout(done); }, { capture: true, once: true });
		history.%[1]s();
	})`, way), nil)
	p.Settle()
}

// Reload loads the page again, with the storage it has filled, and waits until
// it stands.
func (p *Page) Reload() {
	p.t.Helper()
	p.must(p.tab.Reload())
	p.Ready()
}

// View sets the size of the window in CSS pixels and the colours the reader
// has asked for.
func (p *Page) View(width, height int, dark bool) {
	p.t.Helper()
	p.must(p.tab.View(width, height, dark))
	p.Settle()
}

// Screenshot writes a picture (PNG) of the page in a window of this size; a
// height of 0 takes the whole length of the page. Where the browser takes no pictures,
// the window has that size all the same.
func (p *Page) Screenshot(path string, width, height int, dark bool) {
	p.t.Helper()
	window := height
	if window == 0 {
		window = 900
	}
	p.View(width, window, dark)
	p.Picture(path, height == 0)
}

// PDF prints the page to a file, on A4.
func (p *Page) PDF(path string) {
	p.t.Helper()
	p.print(path, false)
}

// Letter prints the page to a file, on paper of the size Letter.
func (p *Page) Letter(path string) {
	p.t.Helper()
	p.print(path, true)
}

func (p *Page) print(path string, letter bool) {
	p.t.Helper()
	b, err := p.tab.PDF(letter)
	p.must(err)
	p.must(write(path, b))
}

// Features for [Page.Needs] and [Page.Can].
const (
	Dark     = browser.Dark
	Still    = browser.Still
	Forced   = browser.Forced
	Paper    = browser.Paper
	PDF      = browser.PDF
	Pictured = browser.Pictured
	Profile  = browser.Profile
	Protocol = browser.Protocol
)

// Needs ends the test as skipped, and says why, where the browser cannot be
// made to do what the test needs; it does so before a page is opened. What asks
// a page for such a thing does so by itself.
func Needs(t testing.TB, what ...browser.Feature) {
	t.Helper()
	kind, err := browser.Chosen()
	if err != nil {
		t.Fatal(err)
	}
	if err := kind.Can(what...); err != nil {
		t.Skip(err)
	}
}

// Can says whether the browser can be made to do all that. A test that leaves
// something out for it says so in a subtest of its own, by [Needs].
func (p *Page) Can(what ...browser.Feature) bool { return p.browser.Kind.Can(what...) == nil }

// must ends the test on an error that is the machinery's, not the page's; as
// skipped where the browser cannot be made to do what was asked.
func (p *Page) must(err error) {
	p.t.Helper()
	must(p.t, err)
}

func must(t testing.TB, err error) {
	t.Helper()
	if errors.Is(err, errors.ErrUnsupported) {
		t.Skip(err)
	}
	if err != nil {
		t.Fatalf("page: %v", err)
	}
}

func write(path string, b []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, b, 0o644)
}

// input is the JavaScript that finds an input by its name.
func input(name string) string {
	return fmt.Sprintf("document.getElementsByName(%s)[0]", quote(name))
}

// quote writes a string as JavaScript.
func quote(s string) string {
	b, err := json.Marshal(s)
	if err != nil {
		panic(err) // a string always has a JSON form
	}
	return string(b)
}
