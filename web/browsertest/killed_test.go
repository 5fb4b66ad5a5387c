//go:build !js

package browsertest

import (
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/browser"
	"rosesalt/scripts/page"
)

// mortal is a tab of a browser whose profile outlives it.
type mortal struct {
	t       *testing.T
	browser *browser.Browser
	tab     *browser.Tab
	profile string
}

func startMortal(t *testing.T, profile, address string) *mortal {
	t.Helper()
	b, err := browser.StartIn(profile)
	require.NoError(t, err)
	tab, err := b.Open()
	require.NoError(t, err)
	m := &mortal{t, b, tab, profile}
	require.NoError(t, tab.Go(address))
	require.NoError(t, tab.Ready())
	require.NoError(t, tab.Eval(`(async () => { `+allOpen+` })()`, nil))
	return m
}

// kill ends all processes of the browser at once, as a machine that loses its power does.
func (m *mortal) kill() {
	assert.NoError(m.t, exec.Command("pkill", "-KILL", "-f", m.profile).Run())
	m.browser.Close()
}

func (m *mortal) eval(js string) (said string) {
	m.t.Helper()
	require.NoError(m.t, m.tab.Eval(`String(`+js+`)`, &said))
	return said
}

func (m *mortal) wait(js string) {
	m.t.Helper()
	require.Eventually(m.t, func() bool { return m.eval(`!!(`+js+`)`) == "true" }, 3*time.Minute, 50*time.Millisecond, js)
}

// typeIn types as far as the page can tell.
func (m *mortal) typeIn(name, text string) {
	m.t.Helper()
	m.wait(`document.getElementsByName("` + name + `").length`)
	m.eval(`(() => { const e = document.getElementsByName("` + name + `")[0]; e.value = "` + text + `"; e.dispatchEvent(new Event("input", { bubbles: true })) })()`)
}

// written is how long a browser is given to write what is stored to its disk. Chromium and
// Firefox do so some seconds later.
const written = 15 * time.Second

// TestAnyBrowserThatIsKilledLosesNoRun: the process is ended as a dying machine ends it, in
// the middle of a run.
func TestAnyBrowserThatIsKilledLosesNoRun(t *testing.T) {
	page.Needs(t, page.Profile)
	address := page.Serve(t, page.File(t))
	profile := t.TempDir()
	m := startMortal(t, profile, address)
	m.typeIn("cell.count", "2")
	m.wait(`location.hash.includes("cell.count=2")`)
	m.eval(`[...document.querySelectorAll(".acts button")].find(b => b.textContent === "Start this run").click()`)
	m.wait(`location.hash.includes("run=")`)
	m.typeIn("found.product", "5.5")
	m.typeIn("gas.acid", "about a cup")
	time.Sleep(written)
	m.kill()

	m = startMortal(t, profile, address)
	defer m.kill()
	m.wait(offers)
	assert.Contains(t, m.eval(`document.querySelector(".left .offer p").textContent`), "2\u00a0×\u00a0R14, one weighing, one entry that cannot be read")
	m.eval(`document.querySelector(".left .offer button").click()`)
	m.wait(`document.querySelector('[aria-label="The run"]')`)
	m.wait(`document.getElementsByName("gas.acid")[0]?.value === "about a cup"`)
	m.wait(`document.getElementsByName("found.product")[0]?.value === "5.5"`)
}
