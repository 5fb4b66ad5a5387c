package section

import (
	"slices"
	"strings"

	"rosesalt/chem/field"
	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// LabelsTitle is the title of the labels of jars and bottles.
const LabelsTitle = "Jar labels"

// The actions of the labels.
const (
	TickLabel   = "label.tick"  // to print a label or not, its value the label's name
	TickLabels  = "label.all"   // to print all, or with no value none
	PrintLabels = "label.print" // to print those that are ticked, or with a label's name that one alone
)

// Labels is what was typed and ticked for the labels; it belongs to no plan.
type Labels struct {
	Texts LabelTexts
	Off   map[string]bool // by name: not to be printed
	Only  string          // the name of one that is printed alone; "" for those that are ticked
	Said  string          // what came of the last press
}

// LabelTexts are what was typed to stand on every label, in the order of LabelFields. They
// hold names and telephone numbers, so no link carries them.
type LabelTexts [len(LabelFields)]string

// LabelFields are the texts for every label; left blank, each is a line to write on.
var LabelFields = [...]field.Field{
	{Key: "label.batch", Name: "Batch", Kind: field.Text, Why: "And page of the notebook."},
	{Key: "label.date", Name: "Filled on", Kind: field.Text, Why: "Blank: a line to write on."},
	{Key: "label.who", Name: "Who to ask", Kind: field.Text, Why: "Name and telephone."},
}

// Form is the texts as they are typed.
func (t *LabelTexts) Form() field.Form {
	at := func(key string) int {
		return slices.IndexFunc(LabelFields[:], func(f field.Field) bool { return f.Key == key })
	}
	form := field.Form{Find: func(key string) (*field.Field, bool) {
		if i := at(key); i >= 0 {
			return &LabelFields[i], true
		}
		return nil, false
	}}
	for i := range LabelFields {
		form.Fields = append(form.Fields, &LabelFields[i])
	}
	form.Text = func(f *field.Field) string { return t[at(f.Key)] }
	form.Written = func(f *field.Field) (string, bool) { return t[at(f.Key)], t[at(f.Key)] != "" }
	form.Set = func(f *field.Field, text string) error {
		t[at(f.Key)] = text
		return nil
	}
	return form
}

// Kept are the texts as stored, by key.
func (t *LabelTexts) Kept() map[string]string {
	m := map[string]string{}
	form := t.Form()
	for _, f := range form.Fields {
		if text, ok := form.Written(f); ok {
			m[f.Key] = text
		}
	}
	return m
}

// LabelTextsOf takes them out of what was stored.
func LabelTextsOf(kept map[string]string) (t LabelTexts) {
	for i := range LabelFields {
		t[i] = field.Clip(kept[LabelFields[i].Key], labelMost)
	}
	return t
}

// labelMost is the most letters of a text.
const labelMost = 60

// ofLabels are the labels of a plan.
func ofLabels(d *desk.Desk) []safety.Label {
	return safety.Labels(d.Plan(), d.Sheet(), d.Runner().Book())
}

// Tick marks a label to be printed or not.
func (l *Labels) Tick(name string, on bool) {
	if l.Off == nil {
		l.Off = map[string]bool{}
	}
	l.Off[name], l.Said = !on, ""
}

// TickAll marks all labels of a plan.
func (l *Labels) TickAll(d *desk.Desk, on bool) {
	for _, label := range ofLabels(d) {
		l.Tick(label.Name, on)
	}
}

// Any tells whether any label of a plan is to be printed, and says so where none is.
func (l *Labels) Any(d *desk.Desk) bool {
	l.Said = ""
	for _, label := range ofLabels(d) {
		if !l.Off[label.Name] {
			return true
		}
	}
	l.Said = "No label is ticked: tick those to print."
	return false
}

// labels are at their size on paper.
func labels(s *Source) doc.Section {
	l := s.Labels
	if l == nil {
		l = &Labels{}
	}
	asked, all := doc.Box{Class: "rows"}, doc.Box{Class: "labels-grid"}
	for i := range LabelFields {
		f := &LabelFields[i]
		why := f.Key + ".why"
		asked.Of = append(asked.Of, doc.Div("row",
			doc.Label{For: f.Key, Text: f.Name},
			doc.Control{ID: f.Key, Key: f.Key, Most: labelMost, Raw: true, Line: "open", Described: why},
			doc.Para{Class: "why", ID: why, Of: doc.Nodes{doc.Text(f.Why)}},
		))
	}
	for _, label := range ofLabels(s.Desk) {
		item := doc.Box{Class: "labels-item" + wideClass[label.Size], Of: doc.Nodes{
			doc.Div("labels-tools",
				doc.Tick{Class: "labels-tick", Text: " Print " + phrase.Lower(label.Name), Action: TickLabel, Value: label.Name, On: !l.Off[label.Name]},
				doc.Button{Class: "plain", Text: "Print this one alone", Label: "Print this one alone: " + phrase.Lower(label.Name), Action: PrintLabels, Value: label.Name},
			),
			jarLabel(&label, &l.Texts),
		}}
		if l.Only == "" && l.Off[label.Name] || l.Only != "" && l.Only != label.Name {
			item.Class += " off"
		}
		all.Of = append(all.Of, item)
	}
	said := doc.Live{Class: "soft"}
	if l.Said != "" {
		said.Of = doc.Nodes{doc.Text(l.Said)}
	}
	return doc.Section{Of: doc.Nodes{
		doc.PText("lede labels-tools", "For both salts, what is kept, what you make up, and the waste. Masses, batch and date are left to the pencil; hazards are the stricter where sources differ. Compare them with the supplier's current safety data sheet."),
		doc.Fold{Key: "labels", Class: "jarlabels", Title: "Show the labels", Opened: "Put the labels away", Of: doc.Nodes{
			doc.Div("labels-tools",
				asked,
				doc.PText("lede soft", "At least 74 × 52 mm with pictograms 16 mm along their side for a jar of up to 3 L, 105 × 74 mm and 23 mm above (Regulation (EC) No 1272/2008, annex I, table 1.3); wider here, so that the words fit. Cut along the broken lines."),
				doc.P("labels-do",
					doc.Button{ID: "labels.print", Class: "do", Text: "Print labels", Action: PrintLabels},
					doc.Button{Class: "plain", Text: "Tick all", Action: TickLabels, Value: "all"},
					doc.Button{Class: "plain", Text: "Tick none", Action: TickLabels}),
				said,
			),
			all,
			classes(),
		}},
	}}
}

// sizeClass is the class of what is larger than the least label.
var sizeClass = map[safety.Size]string{safety.SizeOf(10e3): " large", safety.SizeOf(100e3): " huge"}

// wideClass is the class of what holds one that does not fit beside another on paper.
var wideClass = map[safety.Size]string{safety.SizeOf(10e3): " wide", safety.SizeOf(100e3): " wide"}

func jarLabel(l *safety.Label, texts *LabelTexts) doc.Node {
	expect, unit := "", "g"
	switch {
	case l.Mass > 0:
		expect = "expect about " + route.Print(float64(l.Mass), "g")
		_, unit = route.PrintParts(float64(l.Mass), "g")
	case l.Volume > 0:
		expect = "expect about " + route.Print(float64(l.Volume), "mL")
		_, unit = route.PrintParts(float64(l.Volume), "mL")
	case l.Kind != safety.Product:
		unit = "mL"
	}
	of := doc.Nodes{doc.Heading(l.Name), doc.PText("jarlabel-formula", l.Formula)}
	if l.Signal != "" || l.Pictograms != nil {
		signs := doc.Box{Class: "jarlabel-signs"}
		if len(l.Pictograms) > 3 {
			signs.Class += " many"
		}
		for _, code := range l.Pictograms {
			signs.Of = append(signs.Of, doc.Pictogram(code))
		}
		of = append(of, doc.Box{Class: "jarlabel-head", Of: append(doc.Nodes{signs}, paragraphs("jarlabel-signal", string(l.Signal))...)})
	}
	if hazards := statements(l.Hazards); hazards != "" {
		of = append(of, doc.P("", doc.Strong(hazards)))
	}
	of = append(of, paragraphs("", statements(l.Precautions))...)
	const most = 5 // contents that a label has room for
	var in []string
	for i, h := range l.Holds {
		if i == most {
			in = append(in, "and traces")
			break
		}
		in = append(in, route.Print(float64(h.Mass), "g")+" "+h.Name)
	}
	if in != nil {
		of = append(of, doc.PText("", "In it, about, counted without water: "+strings.Join(in, ", ")+"."))
	}
	return doc.Box{Class: "jarlabel" + sizeClass[l.Size], Of: append(of,
		doc.PText("", strings.Join(l.Notes, " ")),
		doc.Div("jarlabel-lines",
			labelLine("Amount", "", unit, expect),
			labelLine("Batch", texts[0]),
			labelLine("Filled on", texts[1]),
			labelLine("Ask", texts[2]),
		),
	)}
}

func statements(list []safety.Statement) string {
	var all []string
	for _, s := range list {
		all = append(all, string(s.Code)+"\u00a0"+s.Words)
	}
	return strings.Join(all, " ")
}

// labelLine is a line to write on, or what was typed for it.
func labelLine(name, text string, after ...string) doc.Node {
	line := doc.P("", doc.Span{Of: doc.Nodes{doc.Text(name)}}, doc.Span{Class: "blank", Of: doc.Nodes{doc.Text(text)}})
	for _, text := range after {
		if text != "" {
			line.Of = append(line.Of, doc.Span{Of: doc.Nodes{doc.Text(text)}})
		}
	}
	return line
}

// classes tells where the hazards come from.
func classes() doc.Node {
	table := doc.Table{Class: "prose", Label: "Classification of the substances", Heads: doc.Texts([]string{"Substance", "Statements", "Source"})}
	for _, c := range safety.Classes() {
		var codes []string
		for _, code := range c.Codes {
			codes = append(codes, string(code))
		}
		source := c.Source
		if c.Standing != "published" {
			source += " (" + c.Standing + ")"
		}
		table.Rows = append(table.Rows, doc.Texts([]string{c.Substance.Name(), strings.Join(codes, " "), source}))
	}
	return doc.Fold{Class: "labels-tools", Title: "How each substance is classified, and from where", Of: doc.Nodes{
		doc.PText("lede soft", "A jar bears what its salt bears, and what the shares of all that the ledger counts in it add up to by the rules for mixtures in the same regulation. Lead and other traces are not counted."),
		table,
	}}
}
