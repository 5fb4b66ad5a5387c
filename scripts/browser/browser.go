// Package browser opens pages in a browser that nobody sees and that has no
// network, and keeps a record of what they ask for and complain about.
//
// Package page (for tests) and the bench program are built on it. A
// [Browser] is one process with a profile of its own; a [Tab] is one page. The
// variable ROSESALT_BROWSER names the browser: Chromium, which is driven by its
// own protocol and can do everything, Firefox, driven by WebDriver BiDi, or
// WebKit, driven by the older WebDriver. What a browser cannot be made to do is
// a [Feature] that it lacks, and an error that wraps [errors.ErrUnsupported].
package browser

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
	"time"
)

// Kind is a browser by the engine that draws its pages.
type Kind string

// The kinds, as ROSESALT_BROWSER names them.
const (
	Chromium Kind = "chromium"
	Firefox  Kind = "firefox"
	WebKit   Kind = "webkit"
)

// Variable is the environment's variable that chooses the [Kind]; Chromium
// where it is empty.
const Variable = "ROSESALT_BROWSER"

// Feature is what not every browser can be made to do.
type Feature string

// The features, worded to follow "cannot be made to".
const (
	Dark     Feature = "show a reader's wish for dark colours"
	Still    Feature = "show a reader's wish for no motion"
	Forced   Feature = "put a reader's own colours in the place of the page's"
	Paper    Feature = "lay a page out on the screen as for paper"
	PDF      Feature = "print to a file"
	Pictured Feature = "take a picture of the page"
	Profile  Feature = "keep a profile on disk"
	Protocol Feature = "do what only Chromium's own protocol asks for"
)

// lacks says what a kind cannot do, and why.
var lacks = map[Kind]map[Feature]string{
	Firefox: {
		Forced:   noCommand,
		Paper:    noCommand,
		Protocol: noCommand,
	},
	WebKit: {
		Dark:     noCommand + ", and it asks the desktop's theme",
		Still:    noCommand + ", and it asks the desktop's theme",
		Forced:   noCommand,
		Paper:    noCommand,
		PDF:      noCommand,
		Pictured: "it draws without layers in tests, and then only what changes meanwhile",
		Profile:  "what it stores in a session of its driver goes with that",
		Protocol: noCommand,
	},
}

const noCommand = "its driver has no command for it"

// cannot is the error of a kind that lacks a feature; nil where it has it.
func (k Kind) cannot(f Feature) error {
	why, lacking := lacks[k][f]
	if !lacking {
		return nil
	}
	return fmt.Errorf("%s cannot be made to %s: %s: %w", k, f, why, errors.ErrUnsupported)
}

// Chosen gives the kind that the environment asks for.
func Chosen() (Kind, error) {
	switch k := Kind(os.Getenv(Variable)); k {
	case "":
		return Chromium, nil
	case Chromium, Firefox, WebKit:
		return k, nil
	default:
		return "", fmt.Errorf("browser: %s=%q; it must be %s, %s or %s", Variable, k, Chromium, Firefox, WebKit)
	}
}

// programs are the commands each kind goes by, in the order
// scripts/browser.sh looks for them; of WebKit it is the driver's.
var programs = map[Kind][]string{
	Chromium: {"chromium", "chromium-browser", "google-chrome"},
	Firefox:  {"firefox-esr", "firefox"},
	WebKit:   {"WebKitWebDriver"},
}

// Find gives the path of a browser on this machine.
func Find(k Kind) (string, error) {
	for _, name := range programs[k] {
		if path, err := exec.LookPath(name); err == nil {
			return path, nil
		}
	}
	return "", fmt.Errorf("browser: none of %q is on this machine; run scripts/browser.sh %s", programs[k], k)
}

// Browser is a running browser.
type Browser struct {
	Kind  Kind
	open  func(*Tab) error // gives the tab its driver
	close func()
}

// Start starts the browser that the environment asks for, with a fresh profile
// and no way to a network: what is not a file or the loopback goes to a port
// where nobody listens.
func Start() (*Browser, error) { return StartIn("") }

// StartIn is [Start] with the profile in a folder, which is kept; with a fresh profile
// where the folder's name is empty.
func StartIn(profile string) (*Browser, error) {
	k, err := Chosen()
	if err != nil {
		return nil, err
	}
	path, err := Find(k)
	if err != nil {
		return nil, err
	}
	if profile != "" {
		if err := k.cannot(Profile); err != nil {
			return nil, err
		}
	}
	start := map[Kind]func(path, profile string) (*Browser, error){
		Chromium: startChromium, Firefox: startFirefox, WebKit: startWebKit,
	}[k]
	b, err := start(path, profile)
	if err != nil {
		return nil, fmt.Errorf("browser: starting %s: %w", path, err)
	}
	b.Kind = k
	return b, nil
}

// Close ends the browser and removes its profile.
func (b *Browser) Close() { b.close() }

// Can gives an error that names what a kind cannot be made to do, or nil.
func (k Kind) Can(all ...Feature) error {
	for _, f := range all {
		if err := k.cannot(f); err != nil {
			return err
		}
	}
	return nil
}

// Open opens an empty tab.
func (b *Browser) Open() (*Tab, error) {
	t := &Tab{kind: b.Kind}
	if err := b.open(t); err != nil {
		return nil, fmt.Errorf("browser: opening a tab: %w", err)
	}
	return t, nil
}

// keys turns keys without a letter, as chromedp and the tests name them, into those of
// WebDriver (section 17.4.2, "Keyboard actions").
var keys = strings.NewReplacer(
	"\r", "\ue007", "\t", "\ue004", "\x1b", "\ue00c", "\b", "\ue003", "\x7f", "\ue017",
	"\u0301", "\ue015", "\u0302", "\ue012", "\u0303", "\ue014", "\u0304", "\ue013",
	"\u0305", "\ue010", "\u0306", "\ue011", "\u0307", "\ue00f", "\u0308", "\ue00e",
)

// action is an action of WebDriver; both of its protocols write it alike.
type action = map[string]any

// typing gives the actions that press keys one after the other, with the shift
// key held or not.
func typing(text string, shift bool) []action {
	const shiftKey = "\ue008"
	var all []action
	if shift {
		all = append(all, action{"type": "keyDown", "value": shiftKey})
	}
	for _, key := range keys.Replace(text) {
		all = append(all, action{"type": "keyDown", "value": string(key)}, action{"type": "keyUp", "value": string(key)})
	}
	if shift {
		all = append(all, action{"type": "keyUp", "value": shiftKey})
	}
	return []action{{"type": "key", "id": "keys", "actions": all}}
}

// clicking gives the actions that click at a point of the window.
func clicking(x, y float64) []action {
	return []action{{"type": "pointer", "id": "mouse", "parameters": action{"pointerType": "mouse"}, "actions": []action{
		{"type": "pointerMove", "x": int(x), "y": int(y), "origin": "viewport"},
		{"type": "pointerDown", "button": 0},
		{"type": "pointerUp", "button": 0},
	}}}
}

// ends are what undoes the steps of a start, the last one first.
type ends []func()

func (e *ends) add(end func()) { *e = append(*e, end) }

func (e *ends) run() {
	for _, end := range slices.Backward(*e) {
		end()
	}
}

// child is a process that ends when this one does, even when this one is
// killed: a shell waits for the end of a pipe, and ends the process then.
func child(name string, args ...string) (run *exec.Cmd, end func(), err error) {
	const watch = `"$@" & child=$!; read -r _; kill $child 2>/dev/null; wait $child`
	run = exec.Command("sh", append([]string{"-c", watch, "sh", name}, args...)...)
	pipe, err := run.StdinPipe()
	if err != nil {
		return nil, nil, err
	}
	return run, func() {
		pipe.Close()
		ended := make(chan struct{})
		go func() { _ = run.Wait(); close(ended) }()
		select {
		case <-ended:
		case <-time.After(10 * time.Second):
			_ = run.Process.Kill()
		}
	}, nil
}
