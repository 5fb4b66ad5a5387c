package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/web/section"
)

// onClub prints the club sheet as onSheet does the bench sheet.
func (p *page) onClub(ctx app.Context, _ app.Action) {
	p.clubSheet = section.ClubSheet(sourceOf(p.desk, nil))
	p.printAlone(ctx)
}

// countOf is a number of things, such as "1 turn" or "2 turns".
func countOf(n float64, thing string) string { return route.Count(n, thing) }
