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
	return sentenceOf(firstTexts, d, key, places)
}

// answered is a sentence of another part of the page; see glanced.
func answered(d *desk.Desk, key string, places ...string) string {
	return sentenceOf(answerTexts, d, key, places)
}

func sentenceOf(book *phrase.Book, d *desk.Desk, key string, places []string) string {
	return book.At(key, &route.Teller{Plan: d.Plan(), Sheet: d.Sheet(), Own: route.Own(places...)}).One("text")
}

// given is a number as read; "" for one that is not given.
func given(v float64, unit string) string {
	return route.PlaceValue{Number: v, Unit: unit}.String()
}
