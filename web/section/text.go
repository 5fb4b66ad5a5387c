package section

import (
	"embed"

	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

//go:embed text/*/*.txt
var files embed.FS

var (
	firstTexts  = phrase.Open(&files, "first", "text")
	answerTexts = phrase.Open(&files, "answers", "text")
)

// glanced is a sentence of the first screen, by its key. Behind it stand the places that are no keys
// of figures or inputs, each with what stands there.
func glanced(d *desk.Desk, key string, places ...string) string {
	return route.Tell(firstTexts, key, d.Plan(), d.Sheet(), places...).One("text")
}

// answered is a sentence of another part of the page; see glanced.
func answered(d *desk.Desk, key string, places ...string) string {
	return route.Tell(answerTexts, key, d.Plan(), d.Sheet(), places...).One("text")
}
