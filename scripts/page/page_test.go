package page_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"image"
	_ "image/png"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/browser"
	"rosesalt/scripts/page"
)

func TestMain(m *testing.M) { os.Exit(page.Run(m)) }

var fixture = page.Address("testdata/fixture.html")

func TestPageIsUsedAsByAPerson(t *testing.T) {
	p := page.Open(t, fixture, "cells=3")
	assert.Equal(t, "Twice", p.Text("h1"))
	assert.Equal(t, "6", p.Value("twice.cells"))
	assert.Equal(t, "3", p.Typed("cells"))

	p.Type("cells", "8")
	assert.Equal(t, "16", p.Value("twice.cells"))
	assert.Equal(t, "cells=8", p.Fragment())
	p.Press("1")
	assert.Equal(t, "81", p.Typed("cells"))

	p.Back()
	p.Back()
	assert.Equal(t, "cells=3", p.Fragment())
	assert.Equal(t, "6", p.Value("twice.cells"))
	p.Forward()
	assert.Equal(t, "16", p.Value("twice.cells"))
	p.Address("cells=5")
	p.Wait(`document.getElementById("twice.cells").value === "10"`)

	p.Type("size", "D")
	var title string
	p.Eval("document.title", &title)
	assert.Equal(t, "D", title)

	assert.Equal(t, []string{fixture}, p.Requests())
	assert.Empty(t, p.Errors())
}

func TestWhatMovesUnderThePointerIsClickedAgain(t *testing.T) {
	p := page.Open(t, fixture, "")
	for _, moving := range []string{"mousemove", "mousedown"} {
		p.Eval(`(() => {
			const pressed = document.createElement("button"), above = document.createElement("div");
			pressed.textContent = "Pressed";
			pressed.id = "by.`+moving+`";
			pressed.onclick = () => { document.title = pressed.id; };
			pressed.addEventListener("`+moving+`", () => { above.style.height = "200px"; });
			document.body.prepend(above, pressed);
		})()`, nil)
		p.Click(`[id="by.` + moving + `"]`)
		var title string
		p.Eval("document.title", &title)
		assert.Equal(t, "by."+moving, title)
	}
}

func TestAnyBrowserKeepsWhatServedPagesStore(t *testing.T) {
	// Twice, so that the second would find what the first left.
	for range 2 {
		address := page.Serve(t, fixture)
		p := page.Open(t, address, "cells=3")
		assert.Equal(t, "6", p.Value("twice.cells"))
		assert.Equal(t, "1", visits(p))
		p.Reload()
		assert.Equal(t, "2", visits(p))
		assert.Equal(t, "3", visits(page.Open(t, address, "")))
	}
}

func TestPageFromDiskBeginsWithNothingStored(t *testing.T) {
	for range 2 {
		t.Run("", func(t *testing.T) {
			assert.Equal(t, "1", visits(page.Open(t, fixture, "")))
		})
	}
}

func visits(p *page.Page) (visits string) {
	p.Eval("localStorage.visits", &visits)
	return visits
}

// record stands in for a test that must fail.
type record struct {
	testing.TB
	failed []string
	ends   []func()
}

func (r *record) Helper()                   {}
func (r *record) Cleanup(f func())          { r.ends = append(r.ends, f) }
func (r *record) Errorf(f string, _ ...any) { r.failed = append(r.failed, f) }
func (r *record) Failed() bool              { return len(r.failed) > 0 }

func TestPageFailsTheTestOnARequestAndAComplaint(t *testing.T) {
	r := &record{TB: t}
	p := page.Open(r, fixture, "")
	p.Click("#ask")
	// The browser gives up on the name in its own time.
	assert.Eventually(t, func() bool { return len(p.Strays()) > 0 && len(p.Errors()) > 0 }, 10*time.Second, 50*time.Millisecond)
	assert.Equal(t, []string{"http://rosesalt.invalid/"}, p.Strays())
	assert.NotEmpty(t, p.Errors())
	end(r)
	assert.Contains(t, r.failed, "page: asked for %.200q")
	assert.Contains(t, r.failed, "page: %s")
}

// TestAnyBrowserGivesValues: as JSON has them, whatever a browser's own writing of values is.
func TestAnyBrowserGivesValues(t *testing.T) {
	p := page.Open(t, fixture, "")
	for js, want := range map[string]string{
		"null": "null", "true": "true", "0.1": "0.1", "[NaN, -Infinity]": "[null,null]", "[]": "[]",
		`"a\u202fb"`:                        `"a\u202fb"`,
		"[undefined, 1]":                    "[null,1]",
		"({ a: [null], b: undefined })":     `{"a":[null]}`,
		"Promise.resolve({ late: [1, 2] })": `{"late":[1,2]}`,
	} {
		var got json.RawMessage
		p.Eval(js, &got)
		assert.JSONEq(t, want, string(got), js)
	}
}

// TestAnyBrowserTellsItsComplaints: in each browser, by whatever way it is heard there.
func TestAnyBrowserTellsItsComplaints(t *testing.T) {
	strict := filepath.Join(t.TempDir(), "strict.html")
	file, err := os.ReadFile("testdata/fixture.html")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(strict, bytes.Replace(file, []byte("<title>"),
		[]byte(`<meta http-equiv="Content-Security-Policy" content="img-src data:"><title>`), 1), 0o644))
	const image = `void (document.body.append(Object.assign(new Image(), { src: "lost.png" })))`
	for name, c := range map[string]struct{ address, says, js string }{
		"warned":   {fixture, "warned", `console.warn("warned", 1)`},
		"asserted": {fixture, "asserted", `console.assert(false, "asserted")`},
		// WebKit tells a file no more of it than that.
		"thrown": {fixture, "thrown|Script error", `void (document.head.append(Object.assign(document.createElement("script"), {
			textContent: "setTimeout(() => { throw new Error('thrown') })" })))`},
		"rejected":  {fixture, "rejected", `void Promise.reject(new Error("rejected"))`},
		"not there": {fixture, `lost\.png`, image},
		// A browser says what it refused, or by which rule.
		"refused": {page.Address(strict), `lost\.png|img-src`, image},
	} {
		t.Run(name, func(t *testing.T) {
			r := &record{TB: t}
			p := page.Open(r, c.address, "")
			p.Eval(c.js, nil)
			says := regexp.MustCompile(c.says)
			assert.Eventually(t, func() bool {
				return slices.ContainsFunc(append(p.Errors(), p.Strays()...), says.MatchString)
			}, 5*time.Second, 50*time.Millisecond)
			t.Logf("%q %q", p.Errors(), p.Strays())
			end(r)
			assert.NotEmpty(t, r.failed)
		})
	}
}

func TestScriptsRunBeforeThePageAndAgain(t *testing.T) {
	for name, address := range map[string]string{"from disk": fixture, "served": page.Serve(t, fixture)} {
		t.Run(name, func(t *testing.T) {
			p := page.Load(t, address, "", `const a = document.querySelector("h1"); window.early = !a`, `const a = 1; window.second = a`)
			p.Ready()
			for range 2 {
				var early []any
				p.Eval(`[window.early, window.second, document.scripts.length]`, &early)
				assert.Equal(t, []any{true, 1.0, 1.0}, early, "and leave nothing behind")
				p.Reload()
			}
		})
	}
}

func TestPagesOpenAtOnceHearOfEachOther(t *testing.T) {
	address := page.Serve(t, fixture)
	one, two := page.Open(t, address, ""), page.Open(t, address, "")
	one.Eval(`void addEventListener("storage", (e) => { window.heard = e.newValue })`, nil)
	two.Eval(`void (localStorage.word = "rose")`, nil)
	one.Wait(`window.heard === "rose"`)
	var seen string
	one.Eval(`document.visibilityState`, &seen)
	assert.Equal(t, "visible", seen, "a page behind another runs on")
}

func TestWhatTheBrowserCannotDoIsSkippedWithTheReason(t *testing.T) {
	p := page.Open(t, fixture, "")
	for _, f := range []browser.Feature{page.Dark, page.Still, page.Forced, page.Paper, page.PDF, page.Pictured, page.Protocol} {
		r := &skipped{TB: t}
		page.Needs(r, f)
		assert.Equal(t, !p.Can(f), r.why != nil)
		if r.why != nil {
			assert.ErrorIs(t, r.why, errors.ErrUnsupported)
			assert.Contains(t, r.why.Error(), string(f))
		}
	}
}

// skipped stands in for a test that may be skipped.
type skipped struct {
	testing.TB
	why error
}

func (s *skipped) Helper()         {}
func (s *skipped) Skip(why ...any) { s.why, _ = why[0].(error) }

func TestPageForgivesWhatIsMeantToHappen(t *testing.T) {
	r := &record{TB: t}
	p := page.Open(r, fixture, "")
	p.Eval(`console.error("meant")`, nil)
	p.Forgive("meant")
	end(r)
	assert.Empty(t, r.failed)
}

func TestPageIsPictured(t *testing.T) {
	page.Needs(t, page.Pictured)
	for name, dark := range map[string]bool{"light": false, "dark": true} {
		t.Run(name, func(t *testing.T) {
			p := page.Open(t, fixture, "")
			path := filepath.Join(t.TempDir(), "page.png")
			p.Screenshot(path, 320, 400, dark)
			f, err := os.Open(path)
			require.NoError(t, err)
			defer f.Close()
			picture, _, err := image.Decode(f)
			require.NoError(t, err)
			assert.Equal(t, image.Pt(320, 400), picture.Bounds().Size())
			_, g, _, _ := picture.At(300, 390).RGBA()
			assert.Equal(t, dark, g == 0)
		})
	}
}

func TestPageIsPrinted(t *testing.T) {
	p := page.Open(t, fixture, "")
	path := filepath.Join(t.TempDir(), "page.pdf")
	p.PDF(path)
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "%PDF", string(b[:4]))
}

// sharing uses the fixture, whose only state is its field and its fragment.
func sharing() *page.Shared {
	return &page.Shared{
		Stands: `document.readyState === "complete"`,
		Clean:  `(localStorage.clear(), location.hash = "cells=2", new Promise((done) => setTimeout(done, 30)))`,
		State:  `["field " + document.getElementsByName("cells")[0].value, "title " + document.title].join("\n")`,
	}
}

func TestSharedPageIsOneForAllTestsAndCleanForEach(t *testing.T) {
	s := sharing()
	r := &record{TB: t}
	p := s.Open(r, fixture, "cells=1")
	p.Eval("void (window.first = true)", nil)
	p.Type("cells", "8")
	assert.Equal(t, "16", p.Value("twice.cells"))
	end(r)
	require.Empty(t, r.failed)

	r = &record{TB: t}
	p = s.Open(r, fixture, "cells=3")
	assert.Equal(t, "6", p.Value("twice.cells"))
	var same bool
	p.Eval("!!window.first", &same)
	assert.True(t, same)
	p.Eval(`document.title = "left behind"`, nil)
	end(r)
	assert.Equal(t, []string{"page: the test leaves the shared page changed: %s"}, r.failed)

	r = &record{TB: t}
	p = s.Open(r, fixture, "cells=1")
	p.Eval(`console.error("of this test alone")`, nil)
	end(r)
	assert.Equal(t, []string{"page: %s"}, r.failed)

	r = &record{TB: t}
	s.Open(r, fixture, "cells=1")
	end(r)
	assert.Empty(t, r.failed, "what one test did does not fail the next")
}

func end(r *record) {
	for _, end := range r.ends {
		end()
	}
}
