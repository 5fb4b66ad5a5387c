package section

import (
	"strconv"

	"rosesalt/chem/gaslog"
	"rosesalt/chem/route"
	"rosesalt/web/doc"
)

// GasTitle is the title of the gas that is counted. Package bubbles draws that part.
const GasTitle = "Gas by its bubbles"

// GasStep is the key of the step in which gas is led in, and its bubbles can be tapped.
const GasStep = "gas"

// gas is what the text tells of the log of the gas: what was chosen and read, and what was
// counted.
func gas(s *Source) (made doc.Section) {
	read := s.GasReadings()
	for _, in := range gaslog.Inputs() {
		if _, ok := read[in.Key]; ok {
			if says := readingLine(in, s.Text(in.Key)); says != "" {
				made.Of = append(made.Of, doc.PText("", says))
			}
		}
	}
	if log, err := s.GasLog(); err == nil && log.Last > 0 && len(read) > 0 {
		made.Of = append(made.Of, doc.PText("", "By minute "+strconv.Itoa(log.Last)+": "+route.Print(log.Gas.Best, "mmol")+" of gas came over"))
	}
	return made
}
