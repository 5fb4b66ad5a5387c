package page

import "rosesalt/scripts/browser"

// Media is how a reader has set the browser, or what the page is shown on.
type Media = browser.Media

// Heard is what a screen reader is told of an element.
type Heard = browser.Heard

// Show lays the page out in a window of this size, in CSS pixels, as a reader
// has set the browser. (A window at 400 % is a quarter as wide and as high.)
func (p *Page) Show(width, height int, m Media) {
	p.t.Helper()
	p.must(p.tab.View(width, height, m.Dark))
	p.must(p.tab.Show(m))
	p.Settle()
}

// Listen gives what a screen reader is told of every element, in order.
func (p *Page) Listen() []Heard {
	p.t.Helper()
	list, err := p.tab.Listen()
	p.must(err)
	return list
}

// Held is what a page holds in memory.
type Held = browser.Held

// Held throws away what nothing refers to and tells what the page still holds.
func (p *Page) Held() Held {
	p.t.Helper()
	h, err := p.tab.Held()
	p.must(err)
	return h
}

// Stroke presses keys as [Page.Press] does and waits for nothing: for walks
// through the whole page.
func (p *Page) Stroke(keys string) {
	p.t.Helper()
	p.must(p.tab.Press(keys))
}

// StrokeBack presses the tabulator with the shift key held.
func (p *Page) StrokeBack() {
	p.t.Helper()
	p.must(p.tab.PressShifted(Tab))
}

// Picture writes a picture (PNG) of the page as it is shown: the window, or the
// whole page. It does nothing where the browser takes none.
func (p *Page) Picture(path string, whole bool) {
	p.t.Helper()
	if !p.Can(Pictured) {
		return
	}
	b, err := p.tab.Picture(whole)
	p.must(err)
	p.must(write(path, b))
}
