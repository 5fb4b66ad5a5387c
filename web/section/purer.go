package section

import (
	"math"
	"strings"

	"rosesalt/chem/field"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/chem/stock"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// AskPure asks how pure the salt is wanted.
const AskPure = "pure"

// The ids of its fields: among the wishes, and under the table of purity.
const (
	PureID      = "ask.pure"
	PureTableID = "ask.pure.table"
)

// Purer is the action that takes the steps named in its value, see [PurerOf].
const Purer = "purer"

// askPure is the field of how pure the salt is wanted.
func askPure(id, answer string) doc.Node {
	return doc.Div("ask",
		doc.Label{For: id, Text: "I want it"},
		doc.Control{ID: id, Ask: AskPure, Described: answer, Kind: "text", Mode: "decimal", Usual: "95", Unit: "% pure"},
	)
}

// pureAnswer is what brings the salt to the wanted purity, in sentences and with a button; nothing
// until that is known.
func pureAnswer(s *Source) (list []doc.Node) {
	w := s.Pure()
	if w.Problem != "" {
		return doc.Nodes{doc.Text(w.Problem)}
	}
	if !w.Known {
		return nil
	}
	best := &w.Answer.Best
	list = append(list, doc.PText("", pureSays(s, &w.Answer)))
	if len(best.Steps) == 0 {
		return list
	}
	list = append(list, doc.PText("", setSays(s, best)))
	if s.Started() == nil {
		list = append(list, doc.P("", purerButton(best)))
	}
	if sure := &w.Answer.Surest; len(sure.Steps) > 0 {
		list = append(list, doc.PText("", answered(s.Desk, "pure.surest", "steps", stepsSay(sure), "comes", surely(s, sure.Purity, w.Answer.SurestSure), "cost", costSays(&sure.Cost))),
			doc.PText("", setSays(s, sure)))
		if s.Started() == nil {
			list = append(list, doc.P("", purerButton(sure)))
		}
	}
	return list
}

// purerButton takes the steps at one touch.
func purerButton(c *spread.Cleaned) doc.Button {
	return doc.Button{Class: "plain", Text: "Do this", Label: "Do this: " + stepsSay(c), Action: Purer, Value: stepsKeys(c)}
}

func stepsKeys(c *spread.Cleaned) string {
	var keys []string
	for _, st := range c.Steps {
		keys = append(keys, st.Key)
	}
	return strings.Join(keys, " ")
}

func stepsSay(c *spread.Cleaned) string {
	var words []string
	for _, st := range c.Steps {
		words = append(words, st.Name+" ("+st.How+")")
	}
	return strings.Join(words, "; ")
}

// pureSays is the answer in sentences.
func pureSays(s *Source, a *spread.Purer) string {
	best := &a.Best
	says := func(key string) string {
		return answered(s.Desk, key, "now", pure(a.Now), "comes", surely(s, best.Purity, a.Sure), "priced", spread.Priced, "steps", stepsSay(best), "cost", costSays(&best.Cost))
	}
	switch {
	case a.Empty:
		return says("pure.nothing")
	case len(best.Steps) == 0 && best.Reaches:
		return says("pure.enough")
	case best.Reaches:
		return says("pure.best")
	}
	list := []string{says("pure.none")}
	if len(best.Steps) > 0 {
		list[0] = says("pure.most")
	}
	if len(best.Left) > 0 {
		list = append(list, answered(s.Desk, "pure.limits", "left", listed(best.Left)))
	}
	if quantity.Given(a.Again) && a.Again > best.Purity {
		list = append(list, answered(s.Desk, "pure.again", "pure", pure(a.Again), "enough", route.If(a.Again >= a.Want), "keeps", route.Print(a.Keeps, "%")))
	}
	return strings.Join(list, " ")
}

// surely is a purity with what nine draws in ten reach.
func surely(s *Source, purity, low float64) string {
	sure := ""
	if quantity.Given(low) {
		sure = pure(low)
	}
	return answered(s.Desk, "pure.surely", "pure", pure(purity), "low", sure)
}

// pure is a purity as read: never as what is wanted while it falls short of that.
func pure(v float64) string {
	return route.Fixed(math.Floor(10*v)/10, 1) + doc.Unit("%")
}

// costSays is what steps cost against the plan, in words.
func costSays(c *spread.Cost) string {
	var words []string
	say := func(v, least float64, amount func(v float64) string, of string) {
		if math.Abs(v) < least {
			return
		}
		than := " more"
		if v < 0 {
			than = " less"
		}
		words = append(words, amount(math.Abs(v))+than+of)
	}
	in := func(unit string) func(v float64) string {
		return func(v float64) string { return route.Print(v, unit) }
	}
	say(60*c.Hours, 5, func(v float64) string { return lasts(quantity.Minute(math.Round(v))) }, " at the bench")
	say(c.Nights, 1, func(v float64) string { return route.Count(v, "night") }, " of standing")
	say(1000*c.Litres, 10, in("mL"), " liquor to keep")
	say(c.Gas, 0.05, in("L"), " sulfur dioxide set free")
	say(-c.Grams, 0.05, in("g"), " salt")
	say(-c.Blue, 0.05, in("g"), " blue copper sulfate")
	if c.Way {
		words = append(words, "other reagents to buy")
	}
	if words == nil {
		return "nothing to speak of"
	}
	return strings.Join(words, ", ")
}

// setSays names all fields that steps change, with what is to stand in them and what stands
// there now, and what would not fit then.
func setSays(s *Source, c *spread.Cleaned) string {
	var words []string
	for _, change := range c.Set {
		words = append(words, changeSays(s.Plan(), change))
	}
	return strings.TrimSpace(answered(s.Desk, "pure.sets", "fields", strings.Join(words, "; "), "unfit", unfitAfter(s, c.Set)))
}

// unfitAfter says what does not fit after changes of the plan; "" where all does, or no less than
// now.
func unfitAfter(s *Source, set []field.Change) string {
	following := s.Following()
	changed, ok := following.With(set)
	if !ok {
		return ""
	}
	p := changed.Planned()
	if says := stock.UnfitThen(&p, new(route.Runner).Run(&p), s.Plan(), s.Sheet()); says != "" {
		return answered(s.Desk, "unfit", "unfit", says)
	}
	return ""
}

func changeSays(p *route.Plan, change field.Change) string {
	in, _ := route.InputByKey(change.Key)
	value := func(v float64) string {
		switch {
		case in.IsChoice():
			return in.OptionName(p, int(v))
		case !quantity.Given(v):
			return "nothing"
		}
		return in.Print(v)
	}
	to, _ := in.Read(change.Text)
	return "“" + in.Name + "” to " + value(to) + " (now " + value(in.Value(p)) + ")"
}

// helps is how much purer a step must make the salt to be worth its button, in points.
const helps = 0.1

// purerTable is each step by itself.
func purerTable(s *Source) doc.Node {
	w := s.Pure()
	if best := &w.Answer.Best; !w.Known || len(w.Answer.Alone) == 0 || best.Reaches && len(best.Steps) == 0 {
		return nil
	}
	table := doc.Table{Label: "Each step by itself", Heads: doc.Texts([]string{"Step by itself", "Manganese sulfate", "Against the plan, salt counted anhydrous"})}
	for i := range w.Answer.Alone {
		c := &w.Answer.Alone[i]
		st := &c.Steps[0]
		purity := doc.Nodes{doc.Text(pure(c.Purity))}
		if c.Reaches {
			purity = doc.Nodes{doc.Strong(pure(c.Purity)), doc.Text(", enough")}
		}
		row := doc.Nodes{doc.Nodes{doc.Text(st.Name), doc.Small{Text: " " + st.How}}, purity, doc.Text("does not help")}
		if c.Purity >= w.Answer.Now+helps {
			row[2] = doc.Text(strings.TrimSuffix(costSays(&c.Cost)+". "+unfitAfter(s, c.Set), ". "))
			if s.Started() == nil {
				row[2] = doc.Nodes{row[2], doc.Text(" "), purerButton(c)}
			}
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

// PurerOf is the steps that a button asks for.
func PurerOf(s *Source, value string) (spread.Cleaned, bool) {
	w := s.Pure()
	if w.Known && s.Started() == nil {
		for _, c := range append([]spread.Cleaned{w.Answer.Best, w.Answer.Surest}, w.Answer.Alone...) {
			if len(c.Steps) > 0 && stepsKeys(&c) == value {
				return c, true
			}
		}
	}
	return spread.Cleaned{}, false
}

// PurerDone says what is done when the steps are taken.
func PurerDone(d *desk.Desk, c *spread.Cleaned) string {
	return answered(d, "pure.done", "steps", stepsSay(c), "pure", pure(c.Purity))
}

// pureOnPaper is the wish beside the plan on the bench sheet.
func pureOnPaper(s *Source) string {
	w := s.Pure()
	if !w.Known || w.Answer.Empty {
		return ""
	}
	return " " + answered(s.Desk, "pure.paper", "want", route.Plain(w.Answer.Want)+doc.Unit("%"), "now", pure(w.Answer.Now))
}

// pureTold is the wish in the plan's text.
func pureTold(s *Source) (made doc.Section, ok bool) {
	w := s.Pure()
	if !w.Known {
		return made, false
	}
	wanted := doc.PText("", "Wanted: "+route.Plain(w.Answer.Want)+doc.Unit("%")+" of the jar.")
	return doc.Section{Title: PurityTitle, Of: append(doc.Nodes{wanted}, append(pureAnswer(s), purerTable(s))...)}, true
}
