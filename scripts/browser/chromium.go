package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

func startChromium(path, profile string) (*Browser, error) {
	options := []chromedp.ExecAllocatorOption{
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
	}
	if profile != "" { // an empty one would be the profile of whoever runs the tests
		options = append(options, chromedp.UserDataDir(profile))
	}
	allocator, freeAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, closeBrowser := chromedp.NewContext(allocator)
	b := &Browser{
		open: func(t *Tab) error { return openChromium(ctx, t) },
		close: func() {
			closeBrowser()
			freeAllocator()
		},
	}
	// The first run starts the process; a timeout on it would end the
	// browser, so it is watched from outside.
	started := make(chan error, 1)
	go func() { started <- chromedp.Do(ctx) }()
	var err error
	select {
	case err = <-started:
	case <-time.After(time.Minute):
		err = fmt.Errorf("it did not answer for a minute")
	}
	if err != nil {
		b.close()
		return nil, err
	}
	return b, nil
}

// chromium drives a tab by Chromium's own protocol.
type chromium struct {
	t      *Tab
	cancel context.CancelFunc
}

func openChromium(ctx context.Context, t *Tab) error {
	d := &chromium{t: t}
	t.ctx, d.cancel = chromedp.NewContext(ctx, chromedp.WithListener(d.hear))
	if err := chromedp.Do(t.ctx); err != nil {
		d.cancel()
		return err
	}
	t.driver = d
	return nil
}

func (d *chromium) close() { d.cancel() }

// hear records what the page asks for and complains about. Warnings count, since
// a Go program reports its end by one.
func (d *chromium) hear(event any) {
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		d.t.asked(e.Request.URL)
	case *runtime.EventExceptionThrown:
		said := e.ExceptionDetails.Text
		if x := e.ExceptionDetails.Exception; x != nil {
			said += " " + x.Description
		}
		d.t.said("exception: " + said)
	case *runtime.EventConsoleAPICalled:
		switch e.Type {
		case runtime.ConsoleAPICalledTypeError, runtime.ConsoleAPICalledTypeWarning, runtime.ConsoleAPICalledTypeAssert:
			d.t.said("console " + string(e.Type) + ": " + words(e.Args))
		}
	case *log.EventEntryAdded:
		switch e.Entry.Level {
		case log.EntryLevelError, log.EntryLevelWarning:
			d.t.said(string(e.Entry.Source) + " " + string(e.Entry.Level) + ": " + e.Entry.Text)
		}
	}
}

// words gives the arguments of a console call as text.
func words(args []*runtime.RemoteObject) string {
	said := make([]string, len(args))
	for i, a := range args {
		said[i] = a.Description
		var s string
		if json.Unmarshal(a.Value, &s) == nil {
			said[i] = s
		} else if said[i] == "" {
			said[i] = string(a.Value)
		}
	}
	return strings.Join(said, " ")
}

// gather does nothing: Chromium's events come at once.
func (d *chromium) gather() error { return nil }

func (d *chromium) load(address string) error {
	_, err := call(d.t, page.Navigate, page.NavigateParams{URL: address})
	return err
}

func (d *chromium) reload() error {
	_, err := call(d.t, page.Reload, page.ReloadParams{})
	return err
}

func (d *chromium) eval(js string, out any) error {
	ctx, cancel := context.WithTimeout(d.t.ctx, patience)
	defer cancel()
	if out == nil {
		_, err := chromedp.Run(ctx, chromedp.Evaluate[chromedp.Void](js, chromedp.EvalAwaitPromise))
		return err
	}
	value, err := chromedp.Run(ctx, chromedp.Evaluate[[]byte](js, chromedp.EvalAwaitPromise))
	if err != nil {
		return err
	}
	if len(value) == 0 {
		return noValue(js)
	}
	return json.Unmarshal(value, out)
}

func (d *chromium) before(js string) (remove func() error, err error) {
	// A block of its own, so that no two scripts share their names.
	script, err := call(d.t, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: "{\n" + js + "\n}"})
	if err != nil {
		return nil, err
	}
	return func() error {
		_, err := call(d.t, page.RemoveScriptToEvaluateOnNewDocument, page.RemoveScriptToEvaluateOnNewDocumentParams(script))
		return err
	}, nil
}

func (d *chromium) press(text string, shift bool) error {
	if shift {
		return d.t.Do(chromedp.KeyEvent(text, chromedp.KeyModifiers(chromedp.ModifierShift)))
	}
	return d.t.Do(chromedp.KeyEvent(text))
}

func (d *chromium) click(x, y float64) error { return d.t.Do(chromedp.MouseClickXY(x, y)) }

func (d *chromium) choose(selector, path string) error {
	return d.t.Do(chromedp.SetUploadFiles(chromedp.CSS(selector), []string{path}))
}

func (d *chromium) view(width, height int) error {
	_, err := call(d.t, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
		Width: int64(width), Height: int64(height), DeviceScaleFactor: 1,
	})
	return err
}

func (d *chromium) show(m Media) error {
	word := func(is bool, yes, no string) string {
		if is {
			return yes
		}
		return no
	}
	_, err := call(d.t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Media: word(m.Paper, "print", ""),
		Features: []*emulation.MediaFeature{
			{Name: "prefers-color-scheme", Value: word(m.Dark, "dark", "light")},
			{Name: "forced-colors", Value: word(m.Forced, "active", "none")},
			{Name: "prefers-reduced-motion", Value: word(m.Still, "reduce", "no-preference")},
		},
	})
	return err
}

func (d *chromium) picture(whole bool) ([]byte, error) {
	r, err := call(d.t, page.CaptureScreenshot, page.CaptureScreenshotParams{
		Format: page.CaptureScreenshotFormatPng, CaptureBeyondViewport: &whole,
	})
	if err != nil {
		return nil, err
	}
	return r.Data, nil
}

func (d *chromium) pdf(paper paper) ([]byte, error) {
	yes := true
	r, err := call(d.t, page.PrintToPDF, page.PrintToPDFParams{
		PaperWidth: paper.width / inch, PaperHeight: paper.height / inch,
		PreferCSSPageSize: &yes,
	})
	if err != nil {
		return nil, err
	}
	return r.Data, nil
}

// call sends one command of Chromium's protocol to the tab.
func call[P, R any](t *Tab, command cdp.Command[P, R], params P) (R, error) {
	if t.ctx == nil {
		var none R
		return none, t.kind.cannot(Protocol)
	}
	ctx, cancel := context.WithTimeout(t.ctx, patience)
	defer cancel()
	return chromedp.Run(ctx, func(ctx context.Context, target *chromedp.Target) (R, error) {
		return cdp.Call(ctx, target, command, params)
	})
}

// Do runs steps of chromedp that this package has no method for.
func (t *Tab) Do(steps ...chromedp.Action[chromedp.Void]) error {
	if t.ctx == nil {
		return t.kind.cannot(Protocol)
	}
	ctx, cancel := context.WithTimeout(t.ctx, patience)
	defer cancel()
	return chromedp.Do(ctx, steps...)
}
