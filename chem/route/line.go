package route

import "rosesalt/chem/phrase"

var lineTexts = phrase.Open(&files, "lines", "text", "rose", "blue", "ochre", "stop", "mind")

// LinePart is a run of words of a line: Name is text for plain ones, rose, blue or ochre for
// what the stage gives.
type LinePart struct{ Name, Text string }

// StageLine is a stage in a line: what is taken or poured there, what comes, and in a few words what
// can hurt there most (Stop) and what else wants care (Mind), where there is such.
type StageLine struct {
	Parts      []LinePart
	Stop, Mind string
}

// LineOf is the line of a stage. Behind it stand the places that the caller reads in a way of its own,
// as for [Own].
func LineOf(stage Stage, p *Plan, s *Sheet, places ...string) (line StageLine) {
	told, ok := lineTexts.Find(stage.Word(), &Teller{Plan: p, Sheet: s, Own: Own(places...)})
	if !ok {
		return line
	}
	for _, l := range told.Lines {
		switch l.Name {
		case "stop":
			line.Stop = l.Text
		case "mind":
			line.Mind = l.Text
		default:
			line.Parts = append(line.Parts, LinePart{l.Name, l.Text})
		}
	}
	return line
}
