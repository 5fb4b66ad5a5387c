package web

import (
	"strings"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/chem/working"
	"rosesalt/web/browser"
)

// opened is the working that stands beside the page, one at a time. It stays open
// while the plan changes, and changes with it.
type opened struct {
	key      string // of the figure; empty when closed
	from     string // selector of the figure that it was first opened from: there the focus returns
	fragment string // of the plan that it was worked out for
	steps    working.Working
	said     string
	unlisten func()
}

const workingID = "working"

func (p *page) openWorking(ctx app.Context, key string) {
	if _, ok := route.FigureByKey(key); !ok {
		return
	}
	if p.how.key == "" {
		p.how.unlisten = app.Window().AddEventListener("keydown", func(ctx app.Context, e app.Event) {
			if e.Get("key").String() == "Escape" {
				p.closeWorking(ctx)
			}
		})
	}
	p.how.key, p.how.fragment, p.how.said = key, "", ""
	p.Update()
	browser.FocusLater(ctx, workingID+".title")
	ctx.Defer(func(app.Context) {
		if panel := app.Window().GetElementByID(workingID); panel.Truthy() {
			panel.Set("scrollTop", 0)
		}
	})
}

func (p *page) closeWorking(ctx app.Context) {
	if p.how.key == "" {
		return
	}
	p.how.unlisten()
	from := p.how.from
	p.how = opened{}
	p.Update()
	active := app.Window().Get("document").Get("activeElement")
	if active.Get("localName").String() != "body" && !active.Call("closest", "#"+workingID).Truthy() {
		return // one is typing beside it: what it lay over is free now, and keeps the focus
	}
	browser.AfterDraw(ctx, p, func() {
		data := app.Window().Get("document").Call("querySelector", from)
		if !data.Truthy() {
			return
		}
		if button := data.Call("closest", ".fig").Call("querySelector", "button"); button.Truthy() {
			button.Call("focus")
		}
	})
}

func (p *page) onCloseWorking(ctx app.Context, _ app.Event) { p.closeWorking(ctx) }

func (p *page) onCopyWorking(ctx app.Context, _ app.Event) {
	p.copy(ctx, p.how.steps.Text(), "Working copied as text.")
	p.how.said = p.copied
}

// workingView brings the open working into step with the plan.
func (p *page) workingView() *working.Working {
	if now := p.desk.Fragment(); now != p.how.fragment {
		id, _ := route.FigureByKey(p.how.key)
		p.how.steps, p.how.fragment, p.how.said = p.working(id), now, ""
	}
	return &p.how.steps
}

func (p *page) working(id route.FigureID) working.Working {
	c := p.desk.Case()
	return working.New(&c).Of(id)
}

// drawWorking is the panel. It is no modal dialog: the plan can be changed while it
// is open.
func (p *page) drawWorking() app.UI {
	w := p.workingView()
	var body []app.UI
	body = append(body, app.Elem("h2").ID(workingID+".title").TabIndex(-1).Text(w.Figure.Info().Name))
	if len(w.Equations) > 0 {
		body = append(body, app.Elem("h3").Text("Reactions"), app.Elem("ol").Class("reactions").Body(
			app.Range(w.Equations).Slice(func(i int) app.UI { return app.Elem("li").Body(typeset(w.Equations[i])...) }),
		))
	}
	if w.Reason != "" {
		body = append(body, app.Elem("p").Text("It has no value in this plan: "+w.Reason+"."))
	} else {
		body = append(body, app.Elem("ol").Class("steps").Body(
			app.Range(w.Steps).Slice(func(i int) app.UI { return drawStep(&w.Steps[i], i == len(w.Steps)-1) }),
		))
	}
	if len(w.Uses) > 0 {
		body = append(body, app.Elem("h3").Text("Figures in it, and their workings"), app.Elem("ul").Class("uses").Body(
			app.Range(w.Uses).Slice(func(i int) app.UI {
				info := w.Uses[i].Info()
				return app.Elem("li").Body(browser.Button().Class("plain").DataSet("how", info.Key).Text(info.Name))
			}),
		))
	}
	if len(w.Sources) > 0 {
		body = append(body, app.Elem("h3").Text("Where the numbers come from"), app.Elem("ul").Class("sources").Body(
			app.Range(w.Sources).Slice(func(i int) app.UI { return drawSource(w.Sources[i]) }),
		))
	}
	return app.Elem("div").ID(workingID).Class("working").Role("dialog").Aria("labelledby", workingID+".how "+workingID+".title").Body(
		app.Elem("div").Class("bar").Body(
			app.Elem("p").ID(workingID+".how").Text("How this comes about"),
			button("Copy as text", p.onCopyWorking),
			button("Close", p.onCloseWorking),
		),
		app.Elem("p").Class("copied").Aria("live", "polite").Text(p.how.said),
		app.Elem("div").Body(body...),
	)
}

func drawStep(s *working.Step, last bool) app.UI {
	if s.Name == "since" {
		return app.Elem("li").Class("since").Body(
			app.Elem("p").Body(append([]app.UI{app.Text("since ")}, typeset(s.Words)...)...),
			app.Elem("p").Class("numbers").Body(typeset(s.Numbers)...),
		)
	}
	lines := []app.UI{app.Elem("p").Class("name").Body(typeset(s.Name)...)}
	for _, part := range []struct{ text, class string }{{s.Words, "words"}, {s.Numbers, "numbers"}, {s.Result, "result"}} {
		if part.text != "" {
			lines = append(lines, app.Elem("p").Class(part.class).Body(append([]app.UI{app.Text("= ")}, typeset(part.text)...)...))
		}
	}
	if s.Note != "" {
		lines = append(lines, app.Elem("p").Class("why").Body(typeset(s.Note)...))
	}
	class := ""
	if last {
		class = "last"
	}
	return app.Elem("li").Class(class).Body(lines...)
}

func drawSource(s working.Source) app.UI {
	head := s.Name
	if s.Value != "" {
		head += ", " + s.Value
	}
	return app.Elem("li").Body(append(append([]app.UI{}, app.Elem("b").Body(typeset(head)...), app.Text(": ")), typeset(s.Text)...)...)
}

const (
	lowDigits  = "₀₁₂₃₄₅₆₇₈₉"
	highDigits = "⁰¹²³⁴⁵⁶⁷⁸⁹"
)

// typeset sets small figures low or high, and names of several words, which stand in
// square brackets, apart from the signs between them.
func typeset(text string) []app.UI {
	var list []app.UI
	plain := func(s string) {
		if s != "" {
			list = append(list, app.Text(s))
		}
	}
	for text != "" {
		if inside, rest, ok := bracketed(text); ok {
			list = append(list, app.Elem("var").Body(typeset(inside)...))
			text = rest
			continue
		}
		at := strings.IndexFunc(text, func(c rune) bool { return c == '[' || kindOf(c) != "" })
		if at < 0 {
			plain(text)
			break
		}
		if at > 0 || text[0] == '[' {
			at = max(at, 1)
			plain(text[:at])
			text = text[at:]
			continue
		}
		kind, small := "", ""
		for i, c := range text {
			k := kindOf(c)
			if kind == "" {
				kind = k
			}
			if k != kind {
				text = text[i:]
				break
			}
			small += asDigit(c)
			if i+len(string(c)) == len(text) {
				text = ""
			}
		}
		list = append(list, app.Elem(kind).Text(small))
	}
	return list
}

// bracketed cuts off a name in square brackets at the start of a text.
func bracketed(text string) (inside, rest string, ok bool) {
	if !strings.HasPrefix(text, "[") {
		return "", text, false
	}
	return strings.Cut(text[1:], "]")
}

// kindOf is the element that a small figure is set by.
func kindOf(c rune) string {
	switch {
	case strings.ContainsRune(lowDigits, c):
		return "sub"
	case strings.ContainsRune(highDigits+"⁻⁺", c):
		return "sup"
	}
	return ""
}

func asDigit(c rune) string {
	switch c {
	case '⁻':
		return "−"
	case '⁺':
		return "+"
	}
	for _, set := range []string{lowDigits, highDigits} {
		for n, d := range []rune(set) {
			if c == d {
				return string(rune('0' + n))
			}
		}
	}
	return string(c)
}
