package browser

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"
)

// patience is how long one command may take. A page that computes is busy
// for moments; one that takes longer hangs.
const patience = 30 * time.Second

// Tab is one page.
type Tab struct {
	kind   Kind
	ctx    context.Context // Chromium's; nil in the others
	driver driver

	mu       sync.Mutex
	errors   []string
	requests []string
}

// driver sends the commands of a tab to one kind of browser.
type driver interface {
	load(address string) error                         // begins to load
	reload() error                                     // begins to load again
	eval(js string, out any) error                     // see [Tab.Eval]
	before(js string) (remove func() error, err error) // see [Tab.Before]
	press(text string, shift bool) error               // see [Tab.Press]
	click(x, y float64) error                          // see [Tab.Click]
	choose(selector, path string) error                // see [Tab.Choose]
	view(width, height int) error                      // see [Tab.View]
	show(m Media) error                                // see [Tab.Show]
	picture(whole bool) ([]byte, error)                // see [Tab.Picture]
	pdf(paper paper) ([]byte, error)                   // see [Tab.PDF]
	gather() error                                     // brings the record up to date
	close()
}

// paper is a size of paper, in cm.
type paper struct{ width, height float64 }

// inch in cm, exact since 1959.
const inch = 2.54

var (
	a4     = paper{21.0, 29.7} // ISO 216
	letter = paper{8.5 * inch, 11 * inch}
)

// said and asked add to the record.
func (t *Tab) said(words string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.errors = append(t.errors, words)
}

func (t *Tab) asked(address string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.requests = append(t.requests, address)
}

// Errors gives what the page complained about so far: errors and warnings of
// the console, exceptions nobody caught, refusals of its policy.
func (t *Tab) Errors() []string {
	t.gather()
	t.mu.Lock()
	defer t.mu.Unlock()
	return slices.Clone(t.errors)
}

// Requests gives the addresses the page asked for so far, its own among them.
func (t *Tab) Requests() []string {
	t.gather()
	t.mu.Lock()
	defer t.mu.Unlock()
	return slices.Clone(t.requests)
}

// gather brings the record up to date; that it cannot is a complaint.
func (t *Tab) gather() {
	if err := t.driver.gather(); err != nil {
		t.said(err.Error())
	}
}

// Forget empties the record, for whoever uses the tab next.
func (t *Tab) Forget() {
	t.gather()
	t.mu.Lock()
	defer t.mu.Unlock()
	t.errors, t.requests = nil, nil
}

// Close closes the tab.
func (t *Tab) Close() { t.driver.close() }

// Go begins to load an address and returns when the browser has taken it,
// before the page stands.
func (t *Tab) Go(address string) error { return t.driver.load(address) }

// GoAfresh begins to load an address as [Tab.Go] does, with nothing stored
// from before.
func (t *Tab) GoAfresh(address string) error {
	// The page itself empties its storage, before its first script.
	remove, err := t.driver.before(`try { localStorage.clear(); sessionStorage.clear(); } catch {}`)
	if err != nil {
		return err
	}
	if err := t.Go(address); err != nil {
		return err
	}
	return remove()
}

// Before evaluates a script in each page that is loaded from now on, before
// any script of the page.
func (t *Tab) Before(js string) error {
	_, err := t.driver.before(js)
	return err
}

// Reload begins to load the page again and returns when the old document is
// gone, before the new one stands.
func (t *Tab) Reload() error {
	if err := t.Eval("void (window.beforeReload = true)", nil); err != nil {
		return err
	}
	if err := t.driver.reload(); err != nil {
		return err
	}
	return arrive(t.driver, `!("beforeReload" in window)`)
}

// arrive waits until an expression is true in the document, the old or the new one. Between
// two documents there is none to evaluate it, and an answer may be lost with a document, so
// a command that fails is sent again.
func arrive(d driver, js string) error {
	var err error
	for end := time.Now().Add(3 * patience); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		var there bool
		if err = d.eval(js, &there); err == nil && there {
			return nil
		}
	}
	return errors.Join(fmt.Errorf("browser: the document did not come: %s is not true", js), err)
}

// Eval evaluates a JavaScript expression, waits for it when it is a promise,
// and decodes its value into out. The page's policy does not bind it. A nil
// out throws the value away; then js may be statements, too.
func (t *Tab) Eval(js string, out any) error { return t.driver.eval(js, out) }

// noValue is the error of an expression that gives nothing where something is
// wanted.
func noValue(js string) error { return fmt.Errorf("browser: %.60q has no value", js) }

// Press presses keys, one for each letter, on whatever has the focus.
func (t *Tab) Press(text string) error { return t.driver.press(text, false) }

// PressShifted does as [Tab.Press] with the shift key held.
func (t *Tab) PressShifted(text string) error { return t.driver.press(text, true) }

// Click clicks at a point of the window, in CSS pixels.
func (t *Tab) Click(x, y float64) error { return t.driver.click(x, y) }

// Choose gives a file of this machine to the field for files that matches a
// selector, as a person's choice does.
func (t *Tab) Choose(selector, path string) error { return t.driver.choose(selector, path) }

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
	if err := t.driver.view(width, height); err != nil {
		return err
	}
	return t.Show(Media{Dark: dark})
}

// Picture gives the page as PNG: the window, or the whole page when whole.
func (t *Tab) Picture(whole bool) ([]byte, error) { return t.driver.picture(whole) }

// PDF prints the page on the paper its stylesheet asks for, on A4, or Letter
// when onLetter, when it asks for none.
func (t *Tab) PDF(onLetter bool) ([]byte, error) {
	if onLetter {
		return t.driver.pdf(letter)
	}
	return t.driver.pdf(a4)
}
