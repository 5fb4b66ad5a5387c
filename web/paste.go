package web

import (
	"maps"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/link"
)

// pasteLabel is the command that opens a plan out of a text.
const pasteLabel = "Open a plan text"

const (
	pasteID      = "paste.text"
	pasteProblem = "paste.problem"
)

// pasting is where a text is pasted to be opened as a plan.
type pasting struct {
	open bool
	said string // why the text was not opened
}

func (p *page) onPaste(ctx app.Context, _ app.Event) {
	p.paste = pasting{open: !p.paste.open}
	p.copied = "" // of an earlier text
	if p.paste.open {
		focusAfter(ctx, p, pasteID)
	} else {
		focusAfter(ctx, p, "paste.show") // “Put away” goes with its box
	}
}

// onPasted opens the plan of what was pasted. The one that is left is a step back in the
// browser; a text without a plan stays where it is.
func (p *page) onPasted(ctx app.Context, _ app.Event) {
	text := app.Window().GetElementByID(pasteID).Get("value").String()
	c, troubles, ok := link.ReadText(text)
	if !ok {
		p.copied = ""
		p.paste.said = "No plan is in this text. Paste all that “Copy plan text” made, or a link, or what stands in it behind the “#”, such as v=1&cell.count=9."
		focusAfter(ctx, p, pasteID)
		return
	}
	was := p.state()
	p.leave()
	p.desk.OpenContent(&c, troubles)
	p.took(&was, "Open it")
	p.from.troubles = nil
	p.opened, p.pushed = true, false
	p.kept.opened = "" // it is another run from here on
	p.nameRun("")
	p.paste = pasting{}
	p.changed(ctx)
	p.copied = "The plan of the text is open. Back in the browser brings the one before."
	focusAfter(ctx, p, "said") // the button goes with its box
}

// pasteUI is the place to paste, or nothing.
func (p *page) pasteUI() app.UI {
	if !p.paste.open {
		return app.Elem("div").Class("paste none")
	}
	area := app.Elem("textarea").ID(pasteID).Attr("rows", "7").Attr("spellcheck", "false").Aria("describedby", "paste.why")
	if p.paste.said != "" {
		area = app.Elem("textarea").ID(pasteID).Attr("rows", "7").Attr("spellcheck", "false").Aria("describedby", "paste.why "+pasteProblem).Aria("invalid", "true")
	}
	return app.Elem("div").Class("paste").Role("region").Aria("label", pasteLabel).Body(
		app.Elem("label").Attr("for", pasteID).Text("A plan’s text, a link, or what its code says"),
		area,
		app.Elem("p").Class("why").ID("paste.why").Text("Lines that a mail broke or quoted do no harm. It takes the place of the plan on this page, which stays one step back in the browser."),
		app.If(p.paste.said != "", app.Elem("p").Class("problem").ID(pasteProblem).Role("alert").Text(p.paste.said)),
		app.Elem("p").Class("labels-do").Body(
			app.Elem("button").Attr("type", "button").ID("paste.open").Class("do").Text("Open it").OnClick(p.onPasted),
			app.Elem("button").Attr("type", "button").Class("plain").Text("Put away").OnClick(p.onPaste),
		),
	)
}

// leave keeps what is lost when another plan is opened: the address as it should be, and
// what stands in fields that cannot be read, for Back.
func (p *page) leave() {
	if f := p.desk.Fragment(); f != p.written && !(p.written == "" && f == p.home()) {
		p.write(f)
	}
	p.remember()
}

func (p *page) remember() {
	if p.unread == nil {
		p.unread = map[string]map[string]string{}
	}
	p.unread[p.written] = maps.Clone(p.desk.Unread())
}

// recall types again what could not be read when a plan was left.
func (p *page) recall() {
	p.desk.Retype(p.unread[p.written])
}
