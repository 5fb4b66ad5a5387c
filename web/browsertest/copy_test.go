//go:build !js

package browsertest

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/onefile"
	"rosesalt/scripts/page"
)

// catch takes what the page hands to the browser as a file.
const catch = `{
	window.files = [];
	const blobs = new Map(), make = URL.createObjectURL;
	URL.createObjectURL = (blob) => { const a = make.call(URL, blob); blobs.set(a, blob); return a; };
	const click = HTMLAnchorElement.prototype.click;
	HTMLAnchorElement.prototype.click = function () {
		if (this.download) window.files.push({ name: this.download, blob: blobs.get(this.href) }); else click.call(this);
	};
}`

// caught opens a page whose files are caught.
func caught(t *testing.T, address, fragment string) *page.Page {
	t.Helper()
	p := page.Load(t, address, fragment, catch)
	ready(p)
	return p
}

// saveCopy saves a copy and gives its bytes.
func saveCopy(p *page.Page) string {
	pressTool(p, "Save a copy")
	p.Wait(`window.files.length > 0`)
	var text string
	p.Eval(`window.files.pop().blob.text()`, &text)
	return text
}

func onDisk(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "copy.html")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return page.Address(path)
}

func TestAnyBrowserSavesACopyThatOpensAsItsPlan(t *testing.T) {
	p := caught(t, page.File(t), "v=2&cell.count=9&gas.uptake~=60,90")
	p.Type("rinse.times", "3")
	pressTool(p, "Start this run")
	p.Wait(`location.hash.includes('run=') && document.activeElement.id === 'said'`)
	p.Type("batch.share", "31")
	p.Wait(`location.hash.includes('batch.share=31')`)
	text := saveCopy(p)
	assert.Contains(t, p.Text(".copied"), "opens as this plan")
	fragment := p.Fragment()
	assert.Contains(t, text, strings.ReplaceAll(fragment, "&", `\u0026`))

	built, err := os.ReadFile(strings.TrimPrefix(page.File(t), "file://"))
	require.NoError(t, err)
	_, err = onefile.Unpack([]byte(text))
	require.NoError(t, err)
	plain := regexp.MustCompile(`<script type="application/json"[^<]*</script>`).ReplaceAllString(text, "")
	assert.Contains(t, plain, `<html lang="en" data-other="">`)
	plain = strings.Replace(plain, ` data-other=""`, "", 1)
	assert.True(t, strings.Join(strings.Fields(string(built)), "") == strings.Join(strings.Fields(plain), ""), "but for white space and what is saved, it is the file as built")

	q := caught(t, onDisk(t, text), "")
	assert.Empty(t, q.Fragment())
	assert.Equal(t, "9", q.Typed("cell.count"))
	assert.Equal(t, "31", q.Typed("batch.share"))
	assert.Equal(t, p.Value("product.mass"), q.Value("product.mass"))
	assert.Contains(t, q.Text(".run"), "A run is under way")
	again := saveCopy(q)
	assert.True(t, text == again, "a copy of a copy is the same, to the byte")

	// A change goes into the address; Back returns to the plan of the copy.
	settle(q)
	q.Type("batch.share", "44")
	q.Wait(`location.hash.includes('batch.share=44')`)
	assert.Contains(t, saveCopy(q), `batch.share=44`)
	q.Back()
	assert.Equal(t, "31", q.Typed("batch.share"))
	assert.Equal(t, "9", q.Typed("cell.count"))

	// A link's plan goes before the copy's.
	r := caught(t, onDisk(t, text), "v=2&cell.count=5")
	assert.Equal(t, "5", r.Typed("cell.count"))
	pressTool(r, "Start over")
	r.Wait(`location.hash === '#v=2'`)
	assert.Equal(t, "6", r.Typed("cell.count"), "starting over is a new plan, not the copy's")
}

func TestCopyOfAnotherVersionSaysWhatItCouldNotRead(t *testing.T) {
	text := saveCopy(caught(t, page.File(t), "v=2&cell.count=9"))
	for name, c := range map[string]struct{ from, to, says string }{
		"newer plan":  {`"plan":"v=2\u0026`, `"plan":"v=2\u0026mix.smell=3\u0026`, "mix.smell"},
		"older plan":  {`"plan":"v=2\u0026`, `"plan":"v=0\u0026`, "another version"},
		"newer copy":  {`{"version":1,`, `{"version":2,`, "another version"},
		"more inside": {`{"version":1,`, `{"version":1,"more":{"songs":["a"]},`, "songs"},
	} {
		t.Run(name, func(t *testing.T) {
			require.Contains(t, text, c.from)
			p := caught(t, onDisk(t, strings.Replace(text, c.from, c.to, 1)), "")
			assert.Contains(t, p.Text(".troubles"), c.says)
			assert.Equal(t, "9", p.Typed("cell.count"), "the rest stands")
			if again := saveCopy(p); name == "more inside" {
				assert.Contains(t, again, `"songs":["a"]`, "what this version does not know is not lost")
			}
		})
	}
	t.Run("damaged", func(t *testing.T) {
		p := caught(t, onDisk(t, strings.Replace(text, `{"version":1,`, `{"version`, 1)), "")
		assert.Contains(t, p.Text(".troubles"), "damaged")
		assert.Equal(t, "6", p.Typed("cell.count"))
	})
}

func TestNothingInACopyIsMarkup(t *testing.T) {
	p := caught(t, page.File(t), "v=2&notes=%3C%2Fscript%3E%3Cimg+src%3Dx+onerror%3Dalert(1)%3E%3C!--%3Cscript%3E")
	text := saveCopy(p)
	q := caught(t, onDisk(t, text), "")
	settle(q)
	q.Eval(`document.querySelectorAll('details').forEach(d => d.open = true)`, nil)
	assert.Equal(t, `</script><img src=x onerror=alert(1)><!--<script>`, q.Typed("notes"))
	var images int
	q.Eval(`document.querySelectorAll('img').length`, &images)
	assert.Zero(t, images)
}

func TestCopyCarriesTheKeptRuns(t *testing.T) {
	p := served(t, page.Serve(t, page.File(t)), weighed, catch)
	name(p, "lamp </script> bag")
	press(p, "Keep this run")
	waitRows(p, "=== 1")
	text := saveCopy(p)
	// Served anew is another browser: its storage is empty.
	address := page.Serve(t, onDisk(t, text))
	q := served(t, address, "", catch)
	waitRows(q, "=== 1")
	assert.Contains(t, q.Text(".kept"), "lamp </script> bag")
	assert.Contains(t, says(q), "From the saved copy")
	assert.True(t, text == saveCopy(q), "and they go into the next copy")
	press(q, "Forget")
	waitRows(q, "=== 0")
	again(q)
	settle(q)
	q.Wait(`!!document.getElementById('runs.name')`)
	waitRows(q, "=== 0")
	assert.Contains(t, text, `"more":{"runs":`)
	assert.NotContains(t, saveCopy(q), `"more"`)
}
