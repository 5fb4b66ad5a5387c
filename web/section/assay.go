package section

import (
	"slices"
	"strings"

	"rosesalt/chem/assay"
	"rosesalt/chem/field"
	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// AssaysTitle is the title of what the mix and the jar really hold.
const AssaysTitle = "Assays"

// Use is the action that hands over the result of an assay, its value the method's key.
const Use = "use"

// assays are the ways to find out, each with its readings and what they come to.
func assays(s *Source) doc.Section {
	outcomes := s.Assays()
	var mix, product, titrants, mixTitrated, productTitrated []doc.Node
	begun, titrated := false, false
	for i := range outcomes {
		o := &outcomes[i]
		to := &mix
		switch m := o.Method; {
		case m.Purpose == assay.OfTitrant:
			to = &titrants
		case m.Purpose == assay.OfMix && m.Burette:
			to = &mixTitrated
		case m.Purpose == assay.OfProduct && m.Burette:
			to = &productTitrated
		case m.Purpose == assay.OfProduct:
			to = &product
		}
		begun, titrated = begun || o.Begun, titrated || o.Begun && o.Method.Burette
		*to = append(*to, method(s, o, outcomes))
	}
	group := func(title string, of ...doc.Node) doc.Node {
		return doc.Box{Of: append(doc.Nodes{doc.Heading(title)}, of...)}
	}
	var shared doc.Fields
	for i := range assay.Shared {
		shared = append(shared, reading(s, &assay.Shared[i], outcomes))
	}
	recipes := doc.List{Class: "gear"}
	for _, r := range assay.Recipes() {
		recipes.Items = append(recipes.Items, doc.Text(r.String()))
	}
	return doc.Section{Of: doc.Nodes{
		doc.ScreenOnly{doc.PText("lede", "One assay of the washed mix is worth more than all guesses about its charge. A balance that reads to 0.01 g is enough; with a burette it is surer.")},
		doc.Fold{Key: "assays", Title: "Assay the mix or the product", Open: begun, Of: doc.Nodes{
			group("The black mix, without a burette", mix...),
			group("The product, without a burette", product...),
			doc.Fold{Key: "burette", Title: "Titrate with a burette", Open: titrated, Of: doc.Nodes{
				doc.Heading("Glass and balance"),
				doc.Div("cols", shared),
				doc.Fold{Title: "How to make up the solutions", Of: doc.Nodes{recipes}},
				group("The titrants", titrants...),
				group("The black mix", mixTitrated...),
				group("The product", productTitrated...),
			}},
		}},
		assaysTold(s, outcomes),
	}}
}

// assaysTold is what was read and found, as the text has it.
func assaysTold(s *Source, outcomes []assay.Outcome) (told doc.TextOnly) {
	read := func(list []field.Field) (lines []doc.Node) {
		for i := range list {
			lines = append(lines, doc.PText("", readingLine(&list[i], s.Text(list[i].Key))))
		}
		return lines
	}
	for i := range outcomes {
		o := &outcomes[i]
		if !o.Begun {
			continue
		}
		if told == nil {
			told = read(assay.Shared)
		}
		lines := append(doc.Nodes{doc.Heading(o.Method.Name)}, read(o.Method.Inputs)...)
		switch r := o.Result; {
		case r != nil:
			says := r.Name + ": " + route.Print(r.Value, r.Unit)
			if doubt := doubtOf(r); doubt != "" {
				says += ", " + phrase.Lower(doubt)
			}
			lines = append(lines, doc.Text(says))
		case o.Wanting != nil:
			lines = append(lines, doc.Text("Still wanted: "+wanted(o)))
		}
		told = append(told, doc.Box{Of: lines})
	}
	return told
}

// AssaySays is what a reading came to, in words: what is wrong with it, what its methods
// still want, or their results. Shared readings belong to several methods.
func AssaySays(s *Source, key string) string {
	outcomes := s.Assays()
	if problem := readingProblem(s, key, outcomes); problem != "" {
		return problem
	}
	of := func(list []field.Field) bool {
		return slices.ContainsFunc(list, func(in field.Field) bool { return in.Key == key })
	}
	var said []string
	for i := range outcomes {
		o := &outcomes[i]
		switch r := o.Result; {
		case !o.Begun || !of(assay.Shared) && !(of(o.Method.Inputs) && s.AsksAssay(key)):
		case r != nil:
			v := result("", r.Name, r.Unit, r.Value, r.U)
			said = append(said, v.Name+" "+v.Number+doc.Unit(v.Unit)+inRange(v.Range)+".")
		case o.Wanting != nil:
			said = append(said, stillWanted(o))
		}
	}
	return strings.Join(said, " ")
}

// readingProblem is what is wrong with a reading: by itself, or beside the others of a method.
func readingProblem(s *Source, key string, outcomes []assay.Outcome) string {
	problem := s.Problem(key)
	for i := 0; problem == "" && i < len(outcomes); i++ {
		problem = outcomes[i].Problems[key]
	}
	return problem
}

// reading is the field of a reading.
func reading(s *Source, in *field.Field, outcomes []assay.Outcome) doc.Field {
	f := BenchField(s.Desk, in)
	f.Problem = readingProblem(s, in.Key, outcomes)
	if !in.IsChoice() && in.Blank != "not read" {
		f.Range = "Blank: " + in.Blank + "."
	}
	return f
}

// method is one way to find out.
func method(s *Source, o *assay.Outcome, outcomes []assay.Outcome) doc.Node {
	m := o.Method
	var often, rare doc.Fields
	for i := range m.Inputs {
		switch in := &m.Inputs[i]; {
		case !s.AsksAssay(in.Key):
		case in.Rare:
			rare = append(rare, reading(s, in, outcomes))
		default:
			often = append(often, reading(s, in, outcomes))
		}
	}
	return doc.Fold{Key: m.Key, Title: m.Name, Open: o.Begun, Of: doc.Nodes{
		doc.List{Class: "gear", Ordered: true, Items: doc.Texts(m.Steps())},
		doc.Div("cols",
			doc.Box{Of: folding(often, rare)},
			doc.Box{Class: "figures", Of: found(s, o)},
		),
	}}
}

// found is what the readings of a method come to.
func found(s *Source, o *assay.Outcome) []doc.Node {
	parts, r := doc.Nodes{}, o.Result
	if o.Begun && o.Wanting != nil {
		parts = paragraphs("lede soft", stillWanted(o))
	}
	if r == nil {
		return parts
	}
	figures := doc.Figures{result(o.Method.Key, r.Name, r.Unit, r.Value, r.U)}
	for _, other := range r.Others {
		figures = append(figures, result("", other.Name, other.Unit, other.Value, other.U))
	}
	parts = append(append(parts, figures), paragraphs("lede soft", doubtOf(r))...)
	hand := r.NoHandover
	if h := r.Handover; h != nil {
		use := doc.Button{Class: "do", ID: "use." + o.Method.Key, Text: "Use this in the plan", Action: Use, Value: o.Method.Key}
		if h.Key != "mix.assay" {
			use.Text = "Use this in the account"
		}
		parts, hand = append(parts, use), handOver(s, h)
	}
	parts = append(append(parts, paragraphs("lede", hand)...), paragraphs("note tip", r.Notes...)...)
	return append(parts, doc.Fold{Title: "How this result is worked out", Of: doc.Nodes{doc.List{Class: "gear", Items: doc.Texts(r.Working)}}})
}

func stillWanted(o *assay.Outcome) string { return "Still wanted: " + wanted(o) + "." }

// wanted names the readings that are still wanted.
func wanted(o *assay.Outcome) string {
	var names []string
	for _, key := range o.Wanting {
		in, _ := assay.InputByKey(key)
		name := "“" + in.Name + "”"
		if !strings.HasPrefix(key, o.Method.Key+".") {
			name = "the strength of the titrant, above"
		}
		if len(names) == 0 || names[len(names)-1] != name {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}

// result shows a number with two standard uncertainties to either side.
func result(key, name, unit string, value, u float64) doc.Figure {
	r := spread.Round(value, value-2*u, value+2*u)
	v := doc.Figure{Key: key, Name: name, Value: full(value), Number: route.Fixed(r.Best, r.Decimals), Unit: unit}
	if u > 0 {
		v.Low, v.High = full(value-2*u), full(value+2*u)
		v.Range = route.Fixed(r.Low, r.Decimals) + "–" + route.Fixed(r.High, r.Decimals)
	}
	return v
}

// doubtOf is how sure a result is, and what makes it so.
func doubtOf(r *assay.Result) string {
	if !(r.U > 0) {
		return ""
	}
	text := "The range is that of balance and glass, nineteen times in twenty."
	if len(r.Shares) > 1 && r.Shares[0].Of > 0.3 {
		text += " The largest part comes from " + r.Shares[0].Name + ", " + route.Print(100*r.Shares[0].Of, "%") + " of the variance."
	}
	return text
}

// handOver says what one touch would do, or has done, or why it cannot.
func handOver(s *Source, h *assay.Handover) string {
	value, tolerance := desk.HandText(h)
	unit := "%"
	into := "the plan, as the assay of the washed mix"
	switch h.Key {
	case "found.assay":
		into = "the account after the run, as the manganese found"
	case "found.dried":
		unit, into = "°C", "the account after the run, as what it was dried at"
	}
	says := value + doc.Unit(unit)
	switch {
	case strings.Contains(tolerance, "to"):
		says += " (" + tolerance + ")"
	case tolerance != "":
		says += " ± " + tolerance
	}
	says += " into " + into + "."
	if tolerance != "" {
		says += " The width allows for a sample that is not quite like the rest."
	}
	switch {
	case s.UsesAssay(h):
		return "Used: " + says
	case s.Problem(h.Key) != "":
		return "It is not taken there: " + s.Problem(h.Key)
	}
	return "Puts " + says
}
