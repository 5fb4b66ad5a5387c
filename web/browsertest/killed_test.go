//go:build !js

package browsertest

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/browser"
	"rosesalt/scripts/page"
)

// mortal is a Chromium with a profile that outlives it.
type mortal struct {
	t    *testing.T
	ctx  context.Context
	kill func()
}

func startMortal(t *testing.T, profile, address string) *mortal {
	t.Helper()
	path, err := browser.Find(browser.Chromium)
	require.NoError(t, err)
	allocator, free := chromedp.NewExecAllocator(context.Background(),
		chromedp.ExecPath(path), chromedp.UserDataDir(profile), chromedp.Flag("headless", "new"), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.NoFirstRun, chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-dev-shm-usage", true),
		chromedp.Flag("proxy-server", "127.0.0.1:9"))
	ctx, end := chromedp.NewContext(allocator)
	m := &mortal{t: t, ctx: ctx}
	m.kill = func() {
		_ = chromedp.FromContext(ctx).Browser.Process().Kill()
		end()
		free()
	}
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(address)))
	m.wait(`"ready" in document.documentElement.dataset`)
	return m
}

func (m *mortal) eval(js string) string {
	m.t.Helper()
	said, err := chromedp.Run(m.ctx, chromedp.Evaluate[string](`String(`+js+`)`))
	require.NoError(m.t, err)
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

// TestKilledBrowserLosesNoRun: the process is ended as a dying machine ends it, in the
// middle of a run.
func TestKilledBrowserLosesNoRun(t *testing.T) {
	page.Needs(t, page.Protocol)
	address := page.Serve(t, page.File(t))
	profile := t.TempDir()
	m := startMortal(t, profile, address)
	m.typeIn("cell.count", "2")
	m.wait(`location.hash.includes("cell.count=2")`)
	m.eval(`[...document.querySelectorAll(".tools button")].find(b => b.textContent === "Start this run").click()`)
	m.wait(`location.hash.includes("run=")`)
	m.typeIn("found.product", "5.5")
	m.typeIn("gas.acid", "about a cup")
	// The browser writes to its disk when it likes to.
	require.Eventually(t, func() bool { return written(profile, "about a cup") }, 5*time.Minute, 100*time.Millisecond)
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

// written tells whether a profile's local storage holds a text.
func written(profile, text string) bool {
	files, _ := filepath.Glob(filepath.Join(profile, "Default", "Local Storage", "leveldb", "*"))
	for _, name := range files {
		if b, err := os.ReadFile(name); err == nil && bytes.Contains(b, []byte(text)) {
			return true
		}
	}
	return false
}
