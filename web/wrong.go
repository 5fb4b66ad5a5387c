package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/safety"
	"rosesalt/web/desk"
)

const wrongTitle = "If it goes wrong"

func wrongOf(d *desk.Desk) []safety.Mishap { return safety.Wrong(d.Plan(), d.Sheet()) }

// wrongCard is the section of what goes wrong.
type wrongCard struct {
	app.Compo
	List []safety.Mishap
}

func (w *wrongCard) Render() app.UI {
	return plainSection(wrongTitle, "read it before, hang it up beside the bench",
		app.Elem("details").Body(app.Elem("summary").Text("What to do, in which order"), mishaps(w.List)),
	)
}

// mishaps are the card's entries.
func mishaps(list []safety.Mishap) app.UI {
	return app.Elem("div").Class("bottles mishaps").Body(app.Range(list).Slice(func(i int) app.UI {
		m := list[i]
		return app.Elem("div").Class("bottle").Body(
			app.Elem("h3").Text(m.Name),
			app.If(m.Sign != "", app.Elem("p").Class("soft").Text(m.Sign)),
			app.Elem("ol").Body(app.Range(m.Do).Slice(func(j int) app.UI { return app.Elem("li").Text(m.Do[j]) })),
			app.If(m.Not != "", app.Elem("p").Body(app.Elem("b").Text(m.Not))),
		)
	}))
}
