//go:build !js

package browsertest

import (
	"encoding/json"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/route"
	"rosesalt/scripts/page"
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

// TestHostileLinks: what is told of each kind the link's own tests hold; here it is that the
// page stands in time and goes on.
func TestHostileLinks(t *testing.T) {
	many := func(n int, part func(i int) string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString("&" + part(i))
		}
		return b.String()
	}
	// One that is long, one of many parts, and one that would do something.
	for _, c := range []struct{ name, fragment, says string }{
		{"a megabyte of percent signs", strings.Repeat("%", 1_000_000), "longer than"},
		{"every key a thousand times", "v=1" + many(1000, func(i int) string { return route.Inputs()[i%len(route.Inputs())].Key + "=1" }), "further parts were not taken"},
		{"markup everywhere", "v=" + url.QueryEscape(markup) + "&notes=" + url.QueryEscape(markup) + "&" + url.QueryEscape(markup) + "=1&days.start=" + url.QueryEscape(markup) + "&time.gas=" + url.QueryEscape(markup) + "&assay.glass=" + url.QueryEscape(markup) + "&gas.uptake~=" + url.QueryEscape(markup) + "&found.product=" + url.QueryEscape(markup) + "&run=" + url.QueryEscape(markup), "no version"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := fresh(t, c.fragment)
			assert.Contains(t, p.Text(".troubles"), c.says)
			assert.Less(t, len(p.Text(".troubles")), 12_000, "and it is not drowned")
			works(t, p)
		})
	}
	t.Run("put over an open page", func(t *testing.T) {
		p := fresh(t, "")
		settle(p)
		// Half a letter is what an address bar takes and a test's own address cannot hold.
		p.Eval(`void (location.hash = "v=1&notes=\ud800x&mix.wet=\udfff")`, nil)
		p.Wait(`document.querySelector('.troubles')?.textContent.includes('cannot be read')`)
		works(t, p)
		p.Eval(`void (location.hash = "v=1&notes=" + "a".repeat(1000000))`, nil)
		p.Wait(`document.querySelector('.troubles')?.textContent.includes('longer than')`)
		works(t, p)
	})
}

func TestAnyBrowserTakesHostileTextsAsText(t *testing.T) {
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
	enter(p, "fold.labels")
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
