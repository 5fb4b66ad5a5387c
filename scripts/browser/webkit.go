package browser

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"
)

// listen records what the page complains about and asks for.
//
//go:embed listen.js
var listen string

// toolbarless lets MiniBrowser's hidden toolbar take no room, which would
// otherwise keep the window from being as narrow as a telephone's.
const toolbarless = `window * {
	min-width: 0; min-height: 0; padding: 0; margin: 0; border: 0; border-spacing: 0; font-size: 1px; -gtk-icon-transform: scale(0.01);
}`

// webkit is a WebKitWebDriver on a screen of its own. A page that is opened while
// no other is open gets a new session, which is a MiniBrowser with an empty
// storage; pages opened beside it are windows of that.
type webkit struct {
	address string // of the driver
	folder  string // for what is written for it

	mu      sync.Mutex
	session string
	current string // window that commands go to
	windows []string
}

func startWebKit(path, _ string) (b *Browser, err error) {
	mini, err := miniBrowser()
	if err != nil {
		return nil, err
	}
	w := &webkit{}
	var ends ends
	defer func() {
		if err != nil {
			ends.run()
		}
	}()
	if w.folder, err = os.MkdirTemp("", "rosesalt-webkit"); err != nil {
		return nil, err
	}
	ends.add(func() { _ = os.RemoveAll(w.folder) })
	if err := write(filepath.Join(w.folder, "gtk-3.0", "gtk.css"), []byte(toolbarless)); err != nil {
		return nil, err
	}
	// WebKitGTK draws on an X screen; this one is seen by nobody.
	screen, end, err := child("Xvfb", "-displayfd", "1", "-screen", "0", "1920x1600x24", "-nolisten", "tcp", "-noreset")
	if err != nil {
		return nil, err
	}
	number, err := screen.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := screen.Start(); err != nil {
		return nil, err
	}
	ends.add(end)
	display, err := announced(number, "")
	if err != nil {
		return nil, fmt.Errorf("Xvfb: %w", err)
	}
	port, err := freePort()
	if err != nil {
		return nil, err
	}
	run, end, err := child(path, fmt.Sprintf("--port=%d", port))
	if err != nil {
		return nil, err
	}
	// Drawn in layers, by a thread with OpenGL in software, it falls over once in some hours.
	run.Env = append(os.Environ(), "DISPLAY=:"+display, "XDG_CONFIG_HOME="+w.folder, "XDG_DATA_HOME="+w.folder, "XDG_CACHE_HOME="+w.folder,
		"GDK_BACKEND=x11", "WEBKIT_DISABLE_COMPOSITING_MODE=1", "NO_AT_BRIDGE=1", "LANG=C.UTF-8")
	if err := run.Start(); err != nil {
		return nil, err
	}
	ends.add(end)
	w.address = fmt.Sprintf("http://127.0.0.1:%d", port)
	for late := time.Now().Add(time.Minute); ; time.Sleep(20 * time.Millisecond) {
		r, err := http.Get(w.address + "/status")
		if err == nil {
			r.Body.Close()
			break
		}
		if time.Now().After(late) {
			return nil, err
		}
	}
	ends.add(func() { _ = w.leave() })
	return &Browser{close: ends.run, open: func(t *Tab) error { return w.open(t, mini) }}, nil
}

// miniBrowser finds the browser that WebKitGTK brings along for its driver.
func miniBrowser() (string, error) {
	const places = "/usr/lib*/{,*/}webkit2gtk-4.*/MiniBrowser"
	for _, place := range []string{"/usr/lib/*/webkit2gtk-4.*/MiniBrowser", "/usr/lib*/webkit2gtk-4.*/MiniBrowser", "/usr/libexec/webkit2gtk-4.*/MiniBrowser"} {
		if found, _ := filepath.Glob(place); len(found) > 0 {
			return found[len(found)-1], nil
		}
	}
	return "", fmt.Errorf("there is no MiniBrowser in %s", places)
}

func freePort() (int, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port, nil
}

// driverError is WebDriver's answer where a command fails.
type driverError struct {
	Code    string `json:"error"`
	Message string `json:"message"`
}

func (e *driverError) Error() string { return fmt.Sprintf("browser: %s: %s", e.Code, e.Message) }

// call sends a command to the driver and decodes its value into out, where
// there is one.
func (w *webkit) call(method, path string, in, out any) error {
	var body io.Reader
	if in != nil {
		text, err := json.Marshal(in)
		if err != nil {
			return err
		}
		body = bytes.NewReader(text)
	}
	request, err := http.NewRequest(method, w.address+path, body)
	if err != nil {
		return err
	}
	r, err := (&http.Client{Timeout: patience + 5*time.Second}).Do(request)
	if err != nil {
		return err
	}
	defer r.Body.Close()
	var answer struct{ Value json.RawMessage }
	if err := json.NewDecoder(r.Body).Decode(&answer); err != nil {
		return fmt.Errorf("browser: %s %s: %s: %w", method, path, r.Status, err)
	}
	if r.StatusCode != http.StatusOK {
		var e driverError
		if err := json.Unmarshal(answer.Value, &e); err != nil {
			return fmt.Errorf("browser: %s %s: %s", method, path, r.Status)
		}
		return &e
	}
	if out == nil {
		return nil
	}
	return json.Unmarshal(answer.Value, out)
}

// ask sends a command of the session. Where its process has ended, the test fails, and
// the next page that is opened gets a session of its own.
func (w *webkit) ask(method, path string, in, out any) error {
	err := w.call(method, w.session+path, in, out)
	if e, ok := errors.AsType[*driverError](err); ok && e.Code == "invalid session id" {
		w.forget()
	}
	return err
}

// forget ends the use of a session: the next page that is opened gets a new one.
func (w *webkit) forget() { w.session, w.windows, w.current = "", nil, "" }

func (w *webkit) leave() error {
	if w.session == "" {
		return nil
	}
	err := w.call("DELETE", w.session, nil, nil)
	w.forget()
	return err
}

func (w *webkit) open(t *Tab, mini string) error {
	w.mu.Lock()
	defer w.mu.Unlock()
	d := &webkitTab{webkit: w, t: t}
	if len(w.windows) == 0 {
		var made struct{ SessionID string }
		err := w.call("POST", "/session", map[string]any{"capabilities": map[string]any{"alwaysMatch": map[string]any{
			"pageLoadStrategy": "none",
			"timeouts":         map[string]any{"script": patience.Milliseconds()},
			"webkitgtk:browserOptions": map[string]any{"binary": mini, "args": []string{
				"--automation", "--full-screen", "--proxy=http://127.0.0.1:9", "--ignore-host=127.0.0.1",
			}},
		}}}, &made)
		if err != nil {
			return err
		}
		w.session = "/session/" + made.SessionID
		if err := w.ask("GET", "/window", nil, &d.window); err != nil {
			return errors.Join(err, w.leave())
		}
		w.current = d.window
	} else {
		// A window is opened from another that is still there.
		if err := w.turn(w.windows[0]); err != nil {
			return err
		}
		var made struct{ Handle string }
		if err := w.ask("POST", "/window/new", map[string]any{"type": "window"}, &made); err != nil {
			return err
		}
		d.window = made.Handle
	}
	w.windows = append(w.windows, d.window)
	d.within = w.session
	t.driver = d
	return nil
}

// webkitTab drives a window of WebKit.
//
// The driver has no command for scripts before the page's own, and tells
// nothing of complaints and requests. So the page is given a first element: a
// script that listens, does what comes before, and takes itself away. A file is
// opened as a copy with that element; a served page gets it by [Inserted].
type webkitTab struct {
	*webkit
	t       *Tab
	within  string // the session
	closed  bool
	window  string
	first   []*string // scripts to run before the page's own
	address string    // without fragment, as asked for
	copied  string    // under which it opened
}

func (d *webkitTab) close() {
	d.mu.Lock()
	defer d.mu.Unlock()
	defer func() { d.closed = true }()
	if d.within != d.session {
		return
	}
	if d.windows = slices.DeleteFunc(d.windows, func(window string) bool { return window == d.window }); len(d.windows) == 0 {
		_ = d.leave()
		return
	}
	_ = d.do("DELETE", "/window", nil, nil)
	d.current = ""
}

// turn makes the driver send the next commands to a window.
func (w *webkit) turn(window string) error {
	if w.current == window {
		return nil
	}
	if err := w.ask("POST", "/window", map[string]any{"handle": window}, nil); err != nil {
		return err
	}
	w.current = window
	return nil
}

// do sends a command to this window.
func (d *webkitTab) do(method, path string, in, out any) error {
	if d.closed {
		return errors.New("browser: the tab is closed")
	}
	if d.within != d.session {
		return errors.New("browser: the session is over")
	}
	if err := d.turn(d.window); err != nil {
		return err
	}
	return d.ask(method, path, in, out)
}

// inserts are the elements for pages that are served, by address.
var inserts sync.Map

// Inserted puts the element for the tab that loads an address into a served page.
// Only WebKit needs one.
func Inserted(address string, page []byte) []byte {
	element, there := inserts.Load(address)
	if !there {
		return page
	}
	return insert(page, element.(string))
}

// insert puts an element into the head, where it leaves no trace once it is gone,
// and in front of all but the document's type where no head is written.
func insert(page []byte, element string) []byte {
	const head = "<head>"
	at := bytes.IndexByte(page, '>') + 1
	if early := bytes.Index(page[:min(len(page), 500)], []byte(head)); early >= 0 {
		at = early + len(head)
	}
	return append(append(bytes.Clone(page[:at]), element...), page[at:]...)
}

// place makes the page ready to be loaded with what comes before it, and gives
// the address to load.
func (d *webkitTab) place() (string, error) {
	element := "<script>" + listen
	for _, js := range d.first {
		// Each in a block of its own, so that they may use the same names.
		element += "{\n" + *js + "\n}\n"
	}
	element += "document.currentScript.remove()</script>"
	u, err := url.Parse(d.address)
	if err != nil {
		return "", err
	}
	if u.Scheme != "file" {
		inserts.Store(d.address, element)
		return d.address, nil
	}
	page, err := os.ReadFile(filepath.FromSlash(u.Path))
	if err != nil {
		return "", err
	}
	path := filepath.Join(d.folder, d.window, filepath.Base(u.Path))
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(path)}).String(), write(path, insert(page, element))
}

func (d *webkitTab) load(address string) (err error) {
	var fragment string
	d.address, fragment, _ = strings.Cut(address, "#")
	if d.copied, err = d.place(); err != nil {
		return err
	}
	d.t.asked(d.address)
	target := d.copied
	if fragment != "" {
		target += "#" + fragment
	}
	if err := d.do("POST", "/url", map[string]any{"url": target}, nil); err != nil {
		return err
	}
	return arrive(d, `location.href !== "about:blank" && !!window.rosesaltRecord`)
}

func (d *webkitTab) reload() error {
	if err := d.gather(); err != nil {
		return err
	}
	if _, err := d.place(); err != nil {
		return err
	}
	// WebDriver's own command would wait until the page stands.
	err := d.eval("void location.reload()", nil)
	if _, ok := errors.AsType[*driverError](err); ok {
		// The document may be gone before its answer; that it is, is seen by the caller.
		return nil
	}
	return err
}

// eval runs a function whose body is an expression, and whose body is
// statements where that cannot be read.
func (d *webkitTab) eval(js string, out any) error {
	err := d.await("return (\n"+js+"\n)", out)
	var e *driverError
	if errors.As(err, &e) && e.Code == "javascript error" && out == nil {
		// What the expression throws is answered, so this is how it reads.
		return d.await(js, nil)
	}
	return err
}

func (d *webkitTab) await(body string, out any) error {
	keep := "v"
	if out == nil {
		keep = "null"
	}
	var got struct {
		Value json.RawMessage
		Fault string
	}
	err := d.do("POST", "/execute/async", map[string]any{"args": []any{}, "script": fmt.Sprintf(`const done = arguments[0];
		(async () => { %s })().then(
			(v) => done({ Value: JSON.stringify(%s) ?? "" }),
			(fault) => done({ Fault: String(fault) }),
		)`, body, keep)}, &got)
	switch {
	case err != nil:
		return err
	case got.Fault != "":
		return fmt.Errorf("browser: %s in %.200s", got.Fault, body)
	case out == nil:
		return nil
	}
	return decode(got.Value, body, out) // the driver's own writing of values drops what is undefined
}

func (d *webkitTab) before(js string) (remove func() error, err error) {
	d.first = append(d.first, &js)
	return func() error { js = ""; return nil }, nil
}

func (d *webkitTab) act(actions []action) error {
	return d.do("POST", "/actions", map[string]any{"actions": actions}, nil)
}

func (d *webkitTab) press(text string, shift bool) error { return d.act(typing(text, shift)) }

func (d *webkitTab) click(x, y float64) error { return d.act(clicking(x, y)) }

func (d *webkitTab) choose(selector, path string) error {
	var found map[string]string
	if err := d.do("POST", "/element", map[string]any{"using": "css selector", "value": selector}, &found); err != nil {
		return err
	}
	// The key is WebDriver's mark of an element (section 12.2, "web element identifier").
	return d.do("POST", "/element/"+found["element-6066-11e4-a52e-4f735466cecf"]+"/value", map[string]any{"text": path}, nil)
}

// view makes the window larger than asked for by the size of its frame.
func (d *webkitTab) view(width, height int) error {
	w, h := width, height
	var is struct{ W, H int }
	for end := time.Now().Add(patience); time.Now().Before(end); {
		if err := d.do("POST", "/window/rect", map[string]any{"width": w, "height": h}, nil); err != nil {
			return err
		}
		// The page hears of its new size a moment later.
		for range 20 {
			if err := d.eval("({ W: innerWidth, H: innerHeight })", &is); err != nil {
				return err
			}
			if is.W == width && is.H == height {
				return nil
			}
			time.Sleep(20 * time.Millisecond)
		}
		w, h = max(w+width-is.W, 1), max(h+height-is.H, 1)
	}
	return fmt.Errorf("browser: the window is %d by %d, not %d by %d", is.W, is.H, width, height)
}

// show does nothing: WebKit can show pages in one way only.
func (d *webkitTab) show(Media) error { return nil }

func (d *webkitTab) picture(bool) ([]byte, error) { return nil, WebKit.cannot(Pictured) }

func (d *webkitTab) pdf(paper) ([]byte, error) { return nil, WebKit.cannot(PDF) }

// gather reads the record that the inserted script has made in the page.
func (d *webkitTab) gather() error {
	var record struct{ Said, Asked []string }
	if err := d.eval("window.rosesaltRecord?.() ?? {}", &record); err != nil {
		return err
	}
	for _, words := range record.Said {
		d.t.said(words)
	}
	for _, address := range record.Asked {
		if address == d.copied {
			address = d.address
		}
		d.t.asked(address)
	}
	return nil
}

func write(path string, b []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	return os.WriteFile(path, b, 0o644)
}
