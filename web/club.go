package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/section"
)

// onClub prints the club sheet as onSheet does the bench sheet.
func (p *page) onClub(ctx app.Context, _ app.Action) {
	p.clubSheet = clubSheetOf(p.desk)
	p.Update()
	ctx.Defer(func(app.Context) {
		alone(true)
		app.Window().Call("print")
	})
}

func clubSheetOf(d *desk.Desk) []doc.Node {
	return section.ClubSheet(&section.Source{Desk: d}, planWords(d), stripOf(d).Stop, func(stage route.Stage) string { return stageTitle[stage].Title })
}

// countOf is a number of things, such as "1 turn" or "2 turns".
func countOf(n float64, thing string) string { return route.Count(n, thing) }
