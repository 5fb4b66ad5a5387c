package page_test

import (
	"image"
	_ "image/png"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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

func TestServedPagesKeepWhatTheyStore(t *testing.T) {
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

func TestPageFailsTheTestOnARequestAndAComplaint(t *testing.T) {
	r := &record{TB: t}
	p := page.Open(r, fixture, "")
	p.Click("#ask")
	p.Wait("true")
	assert.Equal(t, []string{"http://rosesalt.invalid/"}, p.Strays())
	assert.NotEmpty(t, p.Errors())
	for _, end := range r.ends {
		end()
	}
	assert.Contains(t, r.failed, "page: asked for %.200q")
	assert.Contains(t, r.failed, "page: %s")
}

func TestPageForgivesWhatIsMeantToHappen(t *testing.T) {
	r := &record{TB: t}
	p := page.Open(r, fixture, "")
	p.Eval(`console.error("meant")`, nil)
	p.Forgive("meant")
	for _, end := range r.ends {
		end()
	}
	assert.Empty(t, r.failed)
}

func TestPageIsPictured(t *testing.T) {
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
