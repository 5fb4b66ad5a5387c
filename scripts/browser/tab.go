package browser

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// patience is how long one command may take. A page that computes is busy
// for moments; one that takes longer hangs.
const patience = 30 * time.Second

// Tab is one page.
type Tab struct {
	ctx   context.Context
	close context.CancelFunc

	mu       sync.Mutex
	errors   []string
	requests []string
}

// Open opens an empty tab.
func (b *Browser) Open() (*Tab, error) {
	t := &Tab{}
	t.ctx, t.close = chromedp.NewContext(b.ctx, chromedp.WithListener(t.hear))
	if err := chromedp.Do(t.ctx); err != nil {
		t.close()
		return nil, fmt.Errorf("browser: opening a tab: %w", err)
	}
	return t, nil
}

// Close closes the tab.
func (t *Tab) Close() { t.close() }

// GoAfresh begins to load an address as [Tab.Go] does, with nothing stored
// from before.
func (t *Tab) GoAfresh(address string) error {
	// The page itself empties its storage, before its first script.
	const empty = `try { localStorage.clear(); sessionStorage.clear(); } catch {}`
	script, err := call(t, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: empty})
	if err != nil {
		return err
	}
	if err := t.Go(address); err != nil {
		return err
	}
	_, err = call(t, page.RemoveScriptToEvaluateOnNewDocument, page.RemoveScriptToEvaluateOnNewDocumentParams(script))
	return err
}

// hear keeps what the page asks for and complains about. Warnings count:
// among them is how a Go program says that it ended.
func (t *Tab) hear(event any) {
	t.mu.Lock()
	defer t.mu.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		t.requests = append(t.requests, e.Request.URL)
	case *runtime.EventExceptionThrown:
		said := e.ExceptionDetails.Text
		if x := e.ExceptionDetails.Exception; x != nil {
			said += " " + x.Description
		}
		t.errors = append(t.errors, "exception: "+said)
	case *runtime.EventConsoleAPICalled:
		switch e.Type {
		case runtime.ConsoleAPICalledTypeError, runtime.ConsoleAPICalledTypeWarning, runtime.ConsoleAPICalledTypeAssert:
			t.errors = append(t.errors, "console "+string(e.Type)+": "+words(e.Args))
		}
	case *log.EventEntryAdded:
		switch e.Entry.Level {
		case log.EntryLevelError, log.EntryLevelWarning:
			t.errors = append(t.errors, string(e.Entry.Source)+" "+string(e.Entry.Level)+": "+e.Entry.Text)
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

// Errors gives what the page complained about so far: errors and warnings of
// the console, exceptions nobody caught, refusals of its policy.
func (t *Tab) Errors() []string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return slices.Clone(t.errors)
}

// Requests gives the addresses the page asked for so far, its own among them.
func (t *Tab) Requests() []string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return slices.Clone(t.requests)
}

// Do runs steps of chromedp for what this package has no name for.
func (t *Tab) Do(steps ...chromedp.Action[chromedp.Void]) error {
	ctx, cancel := context.WithTimeout(t.ctx, patience)
	defer cancel()
	return chromedp.Do(ctx, steps...)
}

// Go begins to load an address and returns when the browser has taken it,
// before the page stands.
func (t *Tab) Go(address string) error {
	_, err := call(t, page.Navigate, page.NavigateParams{URL: address})
	return err
}

// Reload begins to load the page again and returns when the old document is
// gone, before the new one stands.
func (t *Tab) Reload() error {
	if err := t.Eval("void (window.beforeReload = true)", nil); err != nil {
		return err
	}
	if _, err := call(t, page.Reload, page.ReloadParams{}); err != nil {
		return err
	}
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		var old bool
		// Between the documents there is none to ask: an error means not yet.
		if err := t.Eval(`"beforeReload" in window`, &old); err == nil && !old {
			return nil
		}
	}
	return fmt.Errorf("browser: the page did not reload")
}

// Eval evaluates a JavaScript expression, waits for it when it is a promise,
// and decodes its value into out. The page's policy does not bind it. A nil
// out throws the value away.
func (t *Tab) Eval(js string, out any) error {
	ctx, cancel := context.WithTimeout(t.ctx, patience)
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
		return fmt.Errorf("browser: %.60q has no value", js)
	}
	return json.Unmarshal(value, out)
}

// Before evaluates a script in each page that is loaded from now on, before
// any script of the page.
func (t *Tab) Before(js string) error {
	_, err := call(t, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: js})
	return err
}

// NoScripts switches the scripts of the pages off that are loaded from now on; Eval
// works on.
func (t *Tab) NoScripts() error {
	_, err := call(t, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	return err
}

// Ready waits until the page has marked its document with data-ready (nil) or
// data-failed (an error that says how).
func (t *Tab) Ready() error {
	var failed string
	// Right after the navigation there may be no root element yet, so the
	// document is watched.
	err := t.Eval(`new Promise((done) => {
		const look = () => {
			const marks = document.documentElement?.dataset ?? {};
			if ("failed" in marks) done("failed: " + marks.failed);
			else if ("ready" in marks) done("");
			else return false;
			return true;
		};
		if (!look()) new MutationObserver((_, o) => { if (look()) o.disconnect(); }).observe(document, {
			subtree: true, childList: true, attributeFilter: ["data-ready", "data-failed"],
		});
	})`, &failed)
	if err != nil {
		return fmt.Errorf("browser: waiting for data-ready: %w", err)
	}
	if failed != "" {
		return fmt.Errorf("browser: the page %s", failed)
	}
	return nil
}

// Settle waits until the page has not changed for a few frames.
func (t *Tab) Settle() error {
	return t.Eval(`new Promise((done) => {
		const quiet = 60, limit = 5000, began = performance.now();
		let last = began;
		const watch = new MutationObserver(() => { last = performance.now(); });
		watch.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
		const look = () => {
			const now = performance.now();
			if (now - last < quiet && now - began < limit) return setTimeout(look, 10);
			watch.disconnect();
			done(true);
		};
		look();
	})`, nil)
}

// View sets the size of the window in CSS pixels and the colours the reader
// has asked for.
func (t *Tab) View(width, height int, dark bool) error {
	_, err := call(t, emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{
		Width: int64(width), Height: int64(height), DeviceScaleFactor: 1,
	})
	if err != nil {
		return err
	}
	colours := "light"
	if dark {
		colours = "dark"
	}
	_, err = call(t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
		Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: colours}},
	})
	return err
}

// Picture gives the page as PNG: the window, or the whole page when whole.
func (t *Tab) Picture(whole bool) ([]byte, error) {
	r, err := call(t, page.CaptureScreenshot, page.CaptureScreenshotParams{
		Format: page.CaptureScreenshotFormatPng, CaptureBeyondViewport: &whole,
	})
	if err != nil {
		return nil, err
	}
	return r.Data, nil
}

// PDF prints the page on the paper its stylesheet asks for, on A4, or Letter, when it
// asks for none.
func (t *Tab) PDF(letter bool) ([]byte, error) {
	paper := chromedp.PaperA4
	if letter {
		paper = chromedp.PaperLetter
	}
	yes := true
	r, err := call(t, page.PrintToPDF, page.PrintToPDFParams{
		PaperWidth: paper.Width, PaperHeight: paper.Height,
		PreferCSSPageSize: &yes,
	})
	if err != nil {
		return nil, err
	}
	return r.Data, nil
}

// call sends one command to the tab.
func call[P, R any](t *Tab, command cdp.Command[P, R], params P) (R, error) {
	ctx, cancel := context.WithTimeout(t.ctx, patience)
	defer cancel()
	return chromedp.Run(ctx, func(ctx context.Context, target *chromedp.Target) (R, error) {
		return cdp.Call(ctx, target, command, params)
	})
}
