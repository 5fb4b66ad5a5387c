package web

import (
	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/section"
)

// onSheet prints the bench sheet: it is put on the page, shown alone on paper, and taken
// away when printing is over.
func (p *page) onSheet(ctx app.Context, _ app.Event) {
	address := ""
	if served() {
		where := app.Window().Get("location")
		address = where.Get("origin").String() + where.Get("pathname").String()
	}
	p.sheet = section.BenchSheet(sourceOf(p.desk, nil), address)
	p.printAlone(ctx)
}

// onClub prints the club sheet in the same way.
func (p *page) onClub(ctx app.Context, _ app.Action) {
	p.clubSheet = section.ClubSheet(p.settled())
	p.printAlone(ctx)
}

// onShelf prints the labels for the shelf in the same way.
func (p *page) onShelf(ctx app.Context, _ app.Action) {
	p.clubSheet = section.ShelfLabels(sourceOf(p.desk, nil))
	p.printAlone(ctx)
}

// printAlone prints the sheet that was made.
func (p *page) printAlone(ctx app.Context) {
	p.Update()
	ctx.Defer(func(app.Context) {
		alone(true)
		app.Window().Call("print")
	})
}

// printed takes the sheets away again.
func (p *page) printed(ctx app.Context) {
	alone(false)
	if p.open.paper {
		p.open.paper = false
		p.Update()
	}
	if p.sheet != nil || p.clubSheet != nil {
		p.sheet, p.clubSheet = nil, nil
		p.Update()
	}
}

// alone has paper show nothing but the bench sheet, or the page again.
func alone(sheet bool) {
	app.Window().Get("document").Get("documentElement").Get("classList").Call("toggle", "sheeted", sheet)
}
