// Package browser opens pages in a headless Chromium that has no network, and
// keeps a record of what they ask for and complain about.
//
// It is the ground under package page (tests) and the bench program. A
// [Browser] is one process with a profile of its own; a [Tab] is one page.
package browser

import (
	"context"
	"fmt"
	"os/exec"
	"time"

	"github.com/chromedp/chromedp"
)

// names are the commands Chromium goes by, in the order scripts/browser.sh
// looks for them.
var names = []string{"chromium", "chromium-browser", "google-chrome"}

// Find gives the path of a Chromium on this machine.
func Find() (string, error) {
	for _, name := range names {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", fmt.Errorf("browser: none of %q is on this machine; run scripts/browser.sh", names)
}

// Browser is a running Chromium.
type Browser struct {
	ctx   context.Context
	close func()
}

// Start starts a Chromium with a fresh profile and no way to a network: what
// is not a file or the loopback goes to a port where nobody listens, and no
// name resolves.
func Start() (*Browser, error) {
	path, err := Find()
	if err != nil {
		return nil, err
	}
	allocator, freeAllocator := chromedp.NewExecAllocator(context.Background(),
		chromedp.ExecPath(path),
		chromedp.Flag("headless", "new"),
		chromedp.NoSandbox, // so that it runs as root in a container
		chromedp.DisableGPU,
		chromedp.NoFirstRun,
		chromedp.NoDefaultBrowserCheck,
		chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true),
		chromedp.Flag("disable-dev-shm-usage", true),
		chromedp.Flag("disable-extensions", true),
		chromedp.Flag("disable-features", "Translate"),
		// A tab in the background of another test must run at full speed.
		chromedp.Flag("disable-background-timer-throttling", true),
		chromedp.Flag("disable-backgrounding-occluded-windows", true),
		chromedp.Flag("disable-renderer-backgrounding", true),
		chromedp.Flag("force-color-profile", "srgb"),
		chromedp.Flag("hide-scrollbars", true),
		chromedp.Flag("proxy-server", "127.0.0.1:9"),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"),
	)
	ctx, closeBrowser := chromedp.NewContext(allocator)
	b := &Browser{ctx: ctx, close: func() {
		closeBrowser()
		freeAllocator()
	}}
	// The first run starts the process; a timeout on it would end the
	// browser, so it is watched from outside.
	started := make(chan error, 1)
	go func() { started <- chromedp.Do(ctx) }()
	select {
	case err = <-started:
	case <-time.After(time.Minute):
		err = fmt.Errorf("%s did not answer for a minute", path)
	}
	if err != nil {
		b.close()
		return nil, fmt.Errorf("browser: starting %s: %w", path, err)
	}
	return b, nil
}

// Close ends the browser and removes its profile.
func (b *Browser) Close() { b.close() }
