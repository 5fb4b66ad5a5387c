package stock

import (
	"embed"

	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
)

//go:embed text/*/*.txt
var files embed.FS

// texts are the sentences of offers and of what the shelf says of a plan.
var texts = phrase.Open(&files, "offers", "do", "gives", "done", "says")

// tell is the block of a key as it reads in a plan. Behind the sheet stand the places that are no
// keys of figures or inputs, each with what stands there.
func tell(key string, p *route.Plan, s *route.Sheet, places ...string) phrase.Told {
	return route.Tell(texts, key, p, s, places...)
}

// says is the sentence of a key; see tell.
func says(key string, p *route.Plan, s *route.Sheet, places ...string) string {
	return tell(key, p, s, places...).One("says")
}
