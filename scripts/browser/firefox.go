package browser

import (
	"bufio"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// firefoxPreferences keep Firefox off the network and let windows behind
// others run. The rest of what automation wants it sets by itself.
const firefoxPreferences = `user_pref("network.proxy.type", 1);
user_pref("network.proxy.http", "127.0.0.1");
user_pref("network.proxy.http_port", 9);
user_pref("network.proxy.ssl", "127.0.0.1");
user_pref("network.proxy.ssl_port", 9);
user_pref("network.proxy.socks", "127.0.0.1");
user_pref("network.proxy.socks_port", 9);
user_pref("network.captive-portal-service.enabled", false);
user_pref("network.connectivity-service.enabled", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("app.update.disabledForTesting", true);
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.aboutwelcome.enabled", false);
user_pref("focusmanager.testmode", true);
user_pref("dom.min_background_timeout_value", 4);
user_pref("dom.timeout.enable_budget_timer_throttling", false);
user_pref("ui.useOverlayScrollbars", 1);
`

// firefox is a running Firefox.
type firefox struct {
	*bidi
	chrome string // the context of its own window, for what BiDi has no command for

	mu   sync.Mutex
	tabs map[string]*Tab // by context
}

func startFirefox(path, profile string) (b *Browser, err error) {
	var ends ends
	defer func() {
		if err != nil {
			ends.run()
		}
	}()
	if profile == "" {
		if profile, err = os.MkdirTemp("", "rosesalt-firefox"); err != nil {
			return nil, err
		}
		ends.add(func() { _ = os.RemoveAll(profile) })
	}
	if err := os.WriteFile(filepath.Join(profile, "user.js"), []byte(firefoxPreferences), 0o644); err != nil {
		return nil, err
	}
	run, end, err := child(path, "--headless", "--no-remote", "--profile", profile,
		"--remote-debugging-port=0", "--remote-allow-system-access", "about:blank")
	if err != nil {
		return nil, err
	}
	said, err := run.StderrPipe()
	if err != nil {
		return nil, err
	}
	run.Env = append(os.Environ(), "LANG=en_GB.UTF-8", "LANGUAGE=en")
	if err := run.Start(); err != nil {
		return nil, err
	}
	ends.add(end)
	address, err := announced(said, "WebDriver BiDi listening on ")
	if err != nil {
		return nil, err
	}
	f := &firefox{tabs: map[string]*Tab{}}
	if f.bidi, err = dialBidi(address+"/session", f.heard); err != nil {
		return nil, err
	}
	ends.add(f.bidi.close)
	if err := f.call("session.new", map[string]any{"capabilities": map[string]any{}}, nil); err != nil {
		return nil, err
	}
	ends.add(func() { _ = f.call("browser.close", map[string]any{}, nil) })
	if err := f.call("session.subscribe", map[string]any{"events": []string{"log.entryAdded", "network.beforeRequestSent"}}, nil); err != nil {
		return nil, err
	}
	var tree struct {
		Contexts []struct{ Context string }
	}
	if err := f.call("browsingContext.getTree", map[string]any{"moz:scope": "chrome"}, &tree); err != nil {
		return nil, err
	}
	if len(tree.Contexts) == 0 {
		return nil, errors.New("it has no window")
	}
	f.chrome = tree.Contexts[0].Context
	return &Browser{open: f.open, close: ends.run}, nil
}

// announced reads what a program says until a line that begins with words, and
// gives the rest of that line. What it says afterwards is thrown away.
func announced(said io.Reader, words string) (string, error) {
	found := make(chan string, 1)
	go func() {
		lines := bufio.NewReader(said)
		for {
			line, err := lines.ReadString('\n')
			if _, rest, is := strings.Cut(line, words); is {
				found <- strings.TrimSpace(rest)
			}
			if err != nil {
				close(found)
				return
			}
		}
	}()
	select {
	case rest, there := <-found:
		if !there {
			return "", fmt.Errorf("it ended without saying %q", words)
		}
		return rest, nil
	case <-time.After(time.Minute):
		return "", fmt.Errorf("it did not say %q for a minute", words)
	}
}

// heard keeps what pages ask for and complain about.
func (f *firefox) heard(event string, params json.RawMessage) {
	var e struct {
		Context string
		Request struct{ URL string }
		Source  struct{ Context string }
		Level   string
		Type    string
		Method  string
		Text    string
	}
	if json.Unmarshal(params, &e) != nil {
		return
	}
	f.mu.Lock()
	t := f.tabs[e.Context+e.Source.Context]
	f.mu.Unlock()
	switch {
	case t == nil:
	case event == "network.beforeRequestSent":
		if !strings.HasPrefix(e.Request.URL, "data:") { // which is no request
			t.asked(e.Request.URL)
		}
	case e.Level != "error" && e.Level != "warn":
	case e.Type == "javascript":
		t.said("exception: " + e.Text)
	default:
		t.said("console " + e.Method + ": " + e.Text)
	}
}

// refusals makes complaints of what BiDi does not hear: a refusal of the page's
// policy, and what did not load.
const refusals = `addEventListener("securitypolicyviolation", (e) => {
	console.error("policy: refused " + e.blockedURI + " by " + e.effectiveDirective);
});
addEventListener("error", (e) => {
	if (e.target !== window) console.error("did not load " + (e.target.src ?? e.target.href));
}, true);`

func (f *firefox) open(t *Tab) error {
	// Tabs behind others sleep, so pages that are open at once get windows.
	kind := "tab"
	if len(f.tabs) > 0 {
		kind = "window"
	}
	var made struct{ Context string }
	if err := f.call("browsingContext.create", map[string]any{"type": kind}, &made); err != nil {
		return err
	}
	d := &firefoxTab{firefox: f, t: t, context: made.Context}
	f.mu.Lock()
	f.tabs[d.context] = t
	f.mu.Unlock()
	t.driver = d
	if _, err := d.before(refusals); err != nil {
		d.close()
		return err
	}
	return nil
}

// firefoxTab drives a tab of Firefox.
type firefoxTab struct {
	*firefox
	t       *Tab
	context string
}

func (d *firefoxTab) close() {
	_ = d.call("browsingContext.close", map[string]any{"context": d.context}, nil)
	d.mu.Lock()
	delete(d.tabs, d.context)
	d.mu.Unlock()
}

func (d *firefoxTab) load(address string) error {
	// The network's events are of the network: a file is none of it.
	if strings.HasPrefix(address, "file:") {
		own, _, _ := strings.Cut(address, "#")
		d.t.asked(own)
	}
	if err := d.call("browsingContext.navigate", map[string]any{"context": d.context, "url": address, "wait": "none"}, nil); err != nil {
		return err
	}
	return arrive(d, `location.href !== "about:blank"`)
}

func (d *firefoxTab) reload() error {
	return d.call("browsingContext.reload", map[string]any{"context": d.context, "wait": "none"}, nil)
}

func (d *firefoxTab) eval(js string, out any) error { return d.evaluate(d.context, js, out) }

func (d *firefoxTab) before(js string) (remove func() error, err error) {
	var made struct{ Script string }
	err = d.call("script.addPreloadScript", map[string]any{
		"functionDeclaration": loaded(js), "contexts": []string{d.context},
	}, &made)
	return func() error {
		return d.call("script.removePreloadScript", map[string]any{"script": made.Script}, nil)
	}, err
}

// loaded makes the body of a script a function that leaves the empty page alone,
// which a tab has before it has another: much is refused there.
func loaded(body string) string {
	return "() => {\nif (document.URL === 'about:blank') return;\n" + body + "\n}"
}

// act gives the focus back to the page before, when the tabulator has left it for
// the window's own controls: else the page is not told which of its elements gets it.
func (d *firefoxTab) act(actions []action) error {
	var has bool
	if err := d.eval("document.hasFocus()", &has); err != nil {
		return err
	}
	if !has {
		if err := d.call("browsingContext.activate", map[string]any{"context": d.context}, nil); err != nil {
			return err
		}
		if err := d.evaluate(d.chrome, `Services.wm.getMostRecentWindow("navigator:browser").gBrowser.selectedBrowser.focus()`, nil); err != nil {
			return err
		}
	}
	return d.call("input.performActions", map[string]any{"context": d.context, "actions": actions}, nil)
}

func (d *firefoxTab) press(text string, shift bool) error { return d.act(typing(text, shift)) }

func (d *firefoxTab) click(x, y float64) error { return d.act(clicking(x, y)) }

func (d *firefoxTab) choose(selector, path string) error {
	var r struct {
		Result struct{ SharedID string }
	}
	if err := d.call("script.evaluate", map[string]any{
		"expression": fmt.Sprintf("document.querySelector(%q)", selector), "target": map[string]any{"context": d.context}, "awaitPromise": false,
	}, &r); err != nil {
		return err
	}
	return d.call("input.setFiles", map[string]any{
		"context": d.context, "element": map[string]any{"sharedId": r.Result.SharedID}, "files": []string{path},
	}, nil)
}

func (d *firefoxTab) view(width, height int) error {
	return d.call("browsingContext.setViewport", map[string]any{
		"context": d.context, "viewport": map[string]any{"width": width, "height": height}, "devicePixelRatio": 1,
	}, nil)
}

// show sets what the desktop would have told Firefox, for all its windows.
func (d *firefoxTab) show(m Media) error {
	colours, still := 1, 0 // light is 1 (modules/libpref/init/StaticPrefList.yaml)
	if m.Dark {
		colours = 0
	}
	if m.Still {
		still = 1
	}
	return d.evaluate(d.chrome, fmt.Sprintf(`Services.prefs.setIntPref("layout.css.prefers-color-scheme.content-override", %d);
		Services.prefs.setIntPref("ui.prefersReducedMotion", %d)`, colours, still), nil)
}

func (d *firefoxTab) picture(whole bool) ([]byte, error) {
	origin := "viewport"
	if whole {
		origin = "document"
	}
	return d.data("browsingContext.captureScreenshot", map[string]any{"context": d.context, "origin": origin})
}

func (d *firefoxTab) pdf(paper paper) ([]byte, error) {
	return d.data("browsingContext.print", map[string]any{
		"context": d.context, "page": map[string]any{"width": paper.width, "height": paper.height},
	})
}

// data calls a command that gives a file.
func (d *firefoxTab) data(method string, params map[string]any) ([]byte, error) {
	var r struct{ Data string }
	if err := d.call(method, params, &r); err != nil {
		return nil, err
	}
	return base64.StdEncoding.DecodeString(r.Data)
}

// gather evaluates a trivial expression: all events before its answer have arrived then.
func (d *firefoxTab) gather() error { return d.eval("0", nil) }
