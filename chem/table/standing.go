package table

import (
	"fmt"
	"slices"
)

// Standing tells how far a value is to be trusted, by where it comes from.
type Standing int

// The standings, the surest first.
const (
	Published  Standing = iota // Published: read in the named publication or a transcription of it.
	Derived                    // Derived: computed from published values by a stated formula.
	FromMemory                 // FromMemory: a publication is named, but it was not opened.
	Estimate                   // Estimate: a judgement; to be replaced by a measurement.
)

var standings = [...]string{"published", "derived", "from memory", "estimate"}

// String gives the word for the standing that the files use: "published",
// "derived", "from memory" or "estimate".
func (s Standing) String() string {
	if s < 0 || int(s) >= len(standings) {
		return fmt.Sprintf("Standing(%d)", int(s))
	}
	return standings[s]
}

// parseStanding reads what String writes.
func parseStanding(text string) (Standing, error) {
	i := slices.Index(standings[:], text)
	if i < 0 {
		return 0, fmt.Errorf("unknown standing %q", text)
	}
	return Standing(i), nil
}
