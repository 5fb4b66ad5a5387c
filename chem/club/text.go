package club

import (
	"embed"
	"slices"

	"rosesalt/chem/ledger"
	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

//go:embed text/*/*.txt
var files embed.FS

var (
	tasks = phrase.Open(&files, "tasks", "adult", "code")
	risks = phrase.Open(&files, "risks", "harmed", "hazard")
	sheet = phrase.Open(&files, "sheet", "text", "line")

	// offers are the sentences of what would make the work fit.
	offers = phrase.Open(&files, "offers", "do", "cost", "says")
)

// teller tells texts of a plan. Of a run's ledger, which may be left out where no text asks,
// it knows whether the mother liquors burn skin.
func teller(p *route.Plan, book *ledger.Book) *route.Teller {
	strong := func(v ledger.Vessel) (route.PlaceValue, bool) {
		if slices.Contains(safety.CodesOf(book, v), "H314") {
			return route.Words("strong"), true
		}
		return route.Words(""), true
	}
	return &route.Teller{Plan: p, Own: func(_ *route.Teller, name string) (route.PlaceValue, bool) {
		switch name {
		case "strong blue liquor":
			return strong(ledger.CopperLiquor)
		case "strong pink liquor":
			return strong(ledger.MotherLiquor)
		}
		return route.PlaceValue{}, false
	}}
}
