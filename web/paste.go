package web

import (
	"maps"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/browser"
	"rosesalt/web/doc"
	"rosesalt/web/link"
	"rosesalt/web/section"
)

// pasting is where a text is pasted to be opened as a plan.
type pasting struct {
	open bool
	said string // why the text was not opened
}

func (p *page) onPaste(ctx app.Context, _ app.Action) {
	p.paste = pasting{open: !p.paste.open}
	p.copied = "" // of an earlier text
	if p.paste.open {
		browser.FocusAfter(ctx, p, section.PasteText)
	} else {
		browser.FocusAfter(ctx, p, "paste.show") // “Put away” goes with its box
	}
}

// onPasted opens the plan of what was pasted. The one that is left is a step back in the
// browser; a text without a plan stays where it is.
func (p *page) onPasted(ctx app.Context, _ app.Action) {
	text := app.Window().GetElementByID(section.PasteText).Get("value").String()
	c, troubles, ok := link.ReadText(text)
	if !ok {
		p.copied = ""
		p.paste.said = "No plan is in this text. Paste all that “Copy plan text” made, or a link, or what stands in it behind the “#”, such as v=1&cell.count=9."
		browser.FocusAfter(ctx, p, section.PasteText)
		return
	}
	was := p.state()
	p.leave()
	p.desk.OpenContent(&c, troubles)
	p.took(&was, "Open it")
	p.from.troubles = nil
	p.opened, p.pushed = true, false
	p.kept.Opened = "" // it is another run from here on
	p.nameRun("")
	p.paste = pasting{}
	p.changed(ctx)
	p.copied = "The plan of the text is open. Back in the browser brings the one before."
	browser.FocusAfter(ctx, p, "said") // the button goes with its box
}

// pasteNodes are the place to paste, or nothing.
func (p *page) pasteNodes() []doc.Node {
	if !p.paste.open {
		return nil
	}
	return section.Paste(p.paste.said)
}

// leave keeps what is lost when another plan is opened: the address as it should be, and
// what stands in fields that cannot be read, for Back.
func (p *page) leave() {
	if f := p.desk.Fragment(); !p.inAddress(f) {
		p.write(f)
	}
	p.remember()
}

func (p *page) remember() {
	if p.unread == nil {
		p.unread = map[string]map[string]string{}
	}
	if texts := p.desk.Unread(); len(texts) > 0 {
		p.unread[p.written] = maps.Clone(texts)
	} else {
		delete(p.unread, p.written)
	}
}

// recall types again what could not be read when a plan was left.
func (p *page) recall() {
	p.desk.Retype(p.unread[p.written])
}
