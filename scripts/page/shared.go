package page

import (
	"fmt"
	"strings"
	"testing"

	"rosesalt/scripts/browser"
)

// Shared is one page that the tests of a binary use one after the other: showing another
// plan in it takes a fraction of the time of a new page. It is for tests that read what is
// shown and type valid input. A test of the start, of storage, of copies or of a crash
// opens a page of its own.
//
// It is served, so that it shares its storage with no page that is opened beside it.
type Shared struct {
	// Stands is JavaScript that is true once all of the page is there.
	Stands string

	// Begin is JavaScript that brings it into the state in which tests find it; a promise is
	// awaited.
	Begin string

	// Clean is JavaScript that puts away what a test may leave behind, its storage and
	// its fragment among it; a promise is awaited.
	Clean string

	// State is JavaScript for a text, line by line, of all that a test may leave behind.
	// It must be the same each time the page is clean.
	State string

	tab     *browser.Tab
	browser *browser.Browser
	address string
	clean   string // State of the page as it was opened
	taken   string // name of the test that uses it
}

// Open shows a fragment (without "#") of the page at an address, for the time of a test.
// At its end the page is cleaned. Where it is then not as it was before, or asked for or
// complained about something, the test fails, and the next one gets a new page.
func (s *Shared) Open(t testing.TB, address, fragment string) *Page {
	t.Helper()
	if s.taken != "" {
		t.Fatalf("page: the shared page is in use by %s; open one anew", s.taken)
	}
	if s.tab == nil {
		s.start(t, address)
	}
	s.taken = t.Name()
	p := &Page{t: t, browser: s.browser, tab: s.tab, own: s.address}
	t.Cleanup(func() { s.leave(p) })
	if fragment != "" {
		p.Address(fragment)
	}
	return p
}

func (s *Shared) start(t testing.TB, address string) {
	t.Helper()
	server, err := serve(address)
	if err != nil {
		t.Fatal(err)
	}
	keep := &outliving{TB: t}
	s.address = server.URL + "/"
	p := Load(keep, s.address, "")
	open-- // not counted: the next page that a test opens is still the first, with an empty storage
	p.Ready()
	p.Wait(s.Stands)
	if s.Begin != "" {
		p.Eval(s.Begin, nil)
	}
	p.Settle()
	s.tab, s.browser = p.tab, p.browser
	p.Eval(s.State, &s.clean)
	atEnd = append(atEnd, func() { p.tab.Close(); server.Close() })
}

// outliving is a test whose cleanups are not run, so that a page stays open after it.
type outliving struct{ testing.TB }

func (outliving) Cleanup(func()) {}

// leave gives the page back.
func (s *Shared) leave(p *Page) {
	s.taken = ""
	done := false
	defer func() {
		if !done || p.t.Failed() { // what a failed test leaves is not looked at
			s.tab.Close()
			s.tab = nil
		}
	}()
	p.record()
	p.must(p.tab.View(1280, 900, false))
	p.Eval(s.Clean, nil)
	p.Settle()
	var state string
	for range 20 { // what is drawn late is not left behind by the test
		if p.Eval(s.State, &state); state == s.clean {
			break
		}
		p.Settle()
	}
	if at := firstDifference(s.clean, state); at != "" {
		p.t.Errorf("page: the test leaves the shared page changed: %s", at)
	}
	s.tab.Forget()
	done = true
}

// firstDifference quotes the first line that differs, as it was and as it is.
func firstDifference(was, is string) string {
	before, after := strings.Split(was, "\n"), strings.Split(is, "\n")
	for i := range max(len(before), len(after)) {
		var a, b string
		if i < len(before) {
			a = before[i]
		}
		if i < len(after) {
			b = after[i]
		}
		if a != b {
			return fmt.Sprintf("%.300q in place of %.300q", b, a)
		}
	}
	return ""
}
