//go:build !js

package browsertest

import (
	"encoding/json"
	"fmt"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/scripts/page"
	"rosesalt/web/link"
)

// markup would do something if any of it were taken for more than text. So that it is
// seen, it sets what unharmed looks at.
const markup = `"'><img src=x onerror="window.owned=1"><script>window.owned=1</script><svg onload="window.owned=1"></svg><!--</script>]]>&lt;b&gt;${window.owned=1}{{window.owned=1}}`

// unharmed holds that nothing ran that is not the page's, and that no element stands on it
// that is not.
func unharmed(t *testing.T, p *page.Page) {
	t.Helper()
	var owned bool
	p.Eval(`"owned" in window || Object.prototype.polluted !== undefined`, &owned)
	assert.False(t, owned, "something ran")
	var strange []string
	p.Eval(`[...document.body.querySelectorAll('img, iframe, object, embed, script:not([src]), [onerror], [onload], b[onclick]')].filter(e => !e.matches('body > script')).map(e => e.outerHTML.slice(0, 80))`, &strange)
	assert.Empty(t, strange)
}

// works holds that the page answers what is typed.
func works(t *testing.T, p *page.Page) {
	t.Helper()
	p.Type("rinse.times", "5")
	p.Type("batch.share", "50")
	p.Wait(`location.hash.includes('rinse.times=5') && location.hash.includes('batch.share=50')`)
	assert.InDelta(t, sheetOf(p.Fragment()).Value(route.ProductMass), number(t, p, "product.mass"), 1e-9)
	unharmed(t, p)
}

// borne is how long a link may keep a page from standing, held against a plain one, which
// takes about half a second on a machine with nothing else to do.
func borne(plain time.Duration) time.Duration { return 5 * plain }

// timely opens a page and tells how long it took to stand.
func timely(t *testing.T, fragment string, before ...string) (*page.Page, time.Duration) {
	t.Helper()
	address := page.File(t)
	began := time.Now()
	p := page.Load(t, address, fragment, before...)
	p.Ready()
	return p, time.Since(began)
}

func TestHostileLinks(t *testing.T) {
	first, plain := timely(t, "")
	second, again := timely(t, "v=1&cell.count=9")
	plain = max(plain, again)
	settle(first) // and work beside nothing
	settle(second)
	many := func(n int, part func(i int) string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString("&" + part(i))
		}
		return b.String()
	}
	for _, c := range few(4, []struct{ name, fragment, says string }{
		{"a megabyte in one value", "v=1&notes=" + strings.Repeat("a", 1_000_000), "longer than"},
		{"a megabyte of percent signs", strings.Repeat("%", 1_000_000), "longer than"},
		{"a megabyte without a key", strings.Repeat("é", 1_000_000/6), "longer than"},
		{"ten thousand parts", "v=1" + many(10_000, func(i int) string { return fmt.Sprintf("a%d=%d", i, i) }), "longer than"},
		{"nine thousand short parts", "v=1" + many(9_000, func(int) string { return "a=1" }), "parts; the first 1000 were read"},
		{"every key a thousand times", "v=1" + many(1000, func(i int) string { return route.Inputs()[i%len(route.Inputs())].Key + "=1" }), "further parts were not taken"},
		{"keys that contradict each other", "v=1&cell.count=3&cell.rejects=5&cell.count=9&days.start=2026-03-02T09:00&days.finish=2026-03-05T09:00&gas.strength=70&gas.end=98", "stands twice"},
		{"a run within a run within a run", "v=1&run=" + url.QueryEscape("v=1&run="+url.QueryEscape("v=1&run=v%3D1")), "does not know “run”"},
		{"percent signs that mean nothing", "v=1&%=1&%zz=%&mix.wet=%4&%%%&gas.acid=%uD800", "not a key and a value"},
		{"what is no valid text", "v=1&%ff%fe=%c0%80&notes=%ff%00%ed%a0%80&mix.wet=%ff", "cannot be read"},
		{"nothing but zeros", "v=1&%00=%00&mix.wet=%00&cell.size=%00", "is not offered"},
		{"writing turned round", "v=1&mix.wet=" + url.QueryEscape("\u202e12\u2066") + "&" + url.QueryEscape("\u202etxt.exe") + "=1", "�12�"},
		{"names of a language's own", "v=1&__proto__=1&constructor=2&__proto__.polluted=1&toString~=1,2&hasOwnProperty=3&time.__proto__=5&run.done=constructor", "does not know “__proto__”"},
		{"numbers that are none", "v=1&mix.wet=1e999&gas.acid=0x10&gas.copper=" + url.QueryEscape("١٢") + "&wash.soak=NaN&slurry.water=Infinity&rinse.each=" + strings.Repeat("9", 5000) + "&cell.count=1e-999", "cannot be read"},
		{"markup everywhere", "v=" + url.QueryEscape(markup) + "&notes=" + url.QueryEscape(markup) + "&" + url.QueryEscape(markup) + "=1&days.start=" + url.QueryEscape(markup) + "&time.gas=" + url.QueryEscape(markup) + "&assay.glass=" + url.QueryEscape(markup) + "&gas.uptake~=" + url.QueryEscape(markup) + "&found.product=" + url.QueryEscape(markup) + "&run=" + url.QueryEscape(markup), "another version"},
	}) {
		t.Run(c.name, func(t *testing.T) {
			p, took := timely(t, c.fragment)
			assert.Less(t, took, borne(plain), "a plain link takes %v", plain)
			assert.Contains(t, p.Text(".troubles"), c.says)
			assert.Less(t, len(p.Text(".troubles")), 12_000, "and it is not drowned")
			works(t, p)
		})
	}
	// What an address bar takes and a test's own address cannot hold.
	t.Run("half a letter", func(t *testing.T) {
		p, _ := timely(t, "")
		p.Eval(`void (location.hash = "v=1&notes=\ud800x&mix.wet=\udfff")`, nil)
		p.Wait(`document.querySelector('.troubles')?.textContent.includes('cannot be read')`)
		works(t, p)
	})
	t.Run("a megabyte put over an open page", func(t *testing.T) {
		p, _ := timely(t, "")
		settle(p)
		began := time.Now()
		p.Eval(`void (location.hash = "v=1&notes=" + "a".repeat(1000000))`, nil)
		p.Wait(`document.querySelector('.troubles')?.textContent.includes('longer than')`)
		assert.Less(t, time.Since(began), borne(plain))
		works(t, p)
	})
}

func TestHostileTexts(t *testing.T) {
	p := served(t, page.Serve(t, page.File(t)), weighed)
	p.Eval(`document.querySelectorAll('details').forEach(d => d.open = true)`, nil)
	p.Settle()
	put := func(find, text string) {
		quoted, err := json.Marshal(text)
		require.NoError(t, err)
		p.Eval(`{ const e = `+find+`; e.focus(); e.value = `+string(quoted)+`; e.dispatchEvent(new Event('input', { bubbles: true })); e.dispatchEvent(new Event('change', { bubbles: true })); }`, nil)
		p.Settle()
	}
	var names []string
	p.Eval(`[...document.querySelectorAll('input[type=text][name], textarea[name]')].map(e => e.name)`, &names)
	require.Greater(t, len(names), 40)
	for _, name := range names[:10] {
		put(`document.getElementsByName(`+string(must(json.Marshal(name)))+`)[0]`, markup)
	}
	for _, text := range []string{"\x00", "\u202e\u2066", strings.Repeat("9", 100_000), "0x10", "١٢", "−1", "1e999", "½", "1\u00a0000\u00a0000\u00a0000"} {
		put(`document.getElementsByName("mix.wet")[0]`, text)
		assert.Less(t, len(p.Text(`[id="problem.mix.wet"]`)), 300, "%.20q", text)
	}
	p.Eval(`{ const e = document.getElementsByName("mix.wet")[0]; e.value = "half a letter \ud800"; e.dispatchEvent(new Event("input", { bubbles: true })); }`, nil)
	p.Settle()
	assert.Contains(t, p.Text(`[id="problem.mix.wet"]`), "half a letter")
	put(`document.getElementsByName("mix.wet")[0]`, "−1")
	assert.Contains(t, p.Text(`[id="problem.mix.wet"]`), "−1\u202fg is below the least")
	put(`document.getElementsByName("notes")[0]`, markup)
	put(`document.getElementById("runs.name")`, markup)
	press(p, "Keep this run")
	waitRows(p, "=== 1")
	assert.Contains(t, p.Text(".kept"), markup[:60])
	press(p, "Forget")
	waitRows(p, "=== 0")
	assert.Contains(t, says(p), markup[:60])
	paste(p, `{"format":"rosesalt-runs","version":1,"__proto__":{"polluted":1},"runs":[{"kept":"2026-03-14T09:30:00Z","name":`+string(must(json.Marshal(markup+"\u202e\u0000\ufeff")))+`,"notes":`+string(must(json.Marshal(markup)))+`,"plan":"v=1&notes=`+url.QueryEscape(markup)+`"}]}`)
	waitRows(p, "=== 1")
	press(p, "Open")
	p.Wait(`document.getElementsByName("notes")[0].value.includes("owned")`)
	enter(p, "labels.show")
	p.Wait(`!!document.getElementById("label.batch")`)
	for _, id := range []string{"label.batch", "label.date", "label.who"} {
		put(`document.getElementById("`+id+`")`, markup[:60])
	}
	assert.Contains(t, p.Text(".jarlabel"), markup[:60])
	unharmed(t, p)
	works(t, p)
}

func must(b []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return b
}

// TestLinkIsReadInTime holds natively what the page is given a link's time for.
func TestLinkIsReadInTime(t *testing.T) {
	for name, fragment := range map[string]string{
		"one value":           "v=1&notes=" + strings.Repeat("%ff", 1<<20),
		"short parts":         strings.Repeat("a=1&", 1<<18),
		"as long as is read":  "v=1&notes=" + strings.Repeat("%ff", (link.MaxLength-10)/3),
		"as many as are read": strings.Repeat("cell.count=٣&", link.MaxLength/14),
		"one interval":        "gas.uptake~=" + strings.Repeat("1-", link.MaxLength/2-10),
	} {
		began := time.Now()
		link.Decode(fragment)
		assert.Less(t, time.Since(began), 300*time.Millisecond, name)
	}
}
