package section

import (
	"strings"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/web/doc"
)

// orDash is a value with its unit, or a dash where there is none.
func orDash(v float64, unit string) string {
	if !quantity.Given(v) {
		return "–"
	}
	return route.Print(v, unit)
}

// listed writes needs as a list in words.
func listed(list []route.Need) string {
	var words []string
	for _, n := range list {
		s := route.Print(n.Amount, n.Unit) + " " + n.Name
		if n.For != "" {
			s += " " + n.For
		}
		words = append(words, s)
	}
	if words == nil {
		return "nothing to speak of"
	}
	return strings.Join(words, "; ")
}

// paragraphs makes a paragraph of each text that is not empty.
func paragraphs(class string, texts ...string) (list doc.Nodes) {
	for _, text := range texts {
		if text != "" {
			list = append(list, doc.P(class, doc.Text(text)))
		}
	}
	return list
}

// checked is a control with what is wrong with it.
func checked(s *Source, c doc.Control) doc.Node {
	problem := s.Problem(c.Key)
	if problem != "" {
		c.Bad, c.Described = true, "problem."+c.Key
	}
	return doc.Nodes{c, doc.Problem{Key: c.Key, Says: problem}}
}

// readingLine is a reading as it stands in its field; empty where none was taken, or where
// nobody chose.
func readingLine(in *field.Field, text string) string {
	for i, o := range in.Options {
		if o.Word == text {
			if float64(i) == in.Default {
				return ""
			}
			text = o.Name
		}
	}
	if text == "" {
		return ""
	}
	return in.Name + ": " + text + doc.Unit(in.Unit)
}
