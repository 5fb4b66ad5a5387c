package section

import (
	"slices"
	"strings"

	"rosesalt/chem/phrase"
	"rosesalt/chem/procedure"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
)

// The first screen: the plan in a sentence, how sure it is, three columns, and what else to have.

// shares are the shares that the sentence offers, and how a person says them.
var shares = [...]struct {
	percent quantity.Percent
	words   string
}{{100, "all"}, {75, "three quarters"}, {50, "half"}, {25, "a quarter"}, {20, "a fifth"}, {10, "a tenth"}}

// shareWords says a share as a person does.
func shareWords(share quantity.Percent) string {
	for _, s := range shares {
		if s.percent == share {
			return s.words
		}
	}
	return route.Print(float64(share), "%")
}

// Sentence is the plan in a sentence, with its count, size, share and way changed in place.
func Sentence(s *Source) doc.Node {
	p := s.Plan()
	input := func(key string) *route.Input { in, _ := route.InputByKey(key); return in }
	count, size, share, way := input("cell.count"), input("cell.size"), input(route.ShareKey), input("gas.source")
	step := func(text, label, by string) doc.Button {
		return doc.Button{Text: text, Label: label, Action: Add, Value: count.Key + "=" + by, Off: s.Locked(count)}
	}
	pick := func(in *route.Input, label string, options []doc.Option) doc.Node {
		return doc.Span{Class: "set pick", Of: doc.Nodes{doc.Control{Key: in.Key, Double: true, Label: label, Options: options, Locked: s.Locked(in)}}}
	}
	wrong, described := unusable(s.Desk), ""
	if wrong != "" {
		described = "says.problem"
	}
	words := func(tint, text string) doc.Node { return doc.Span{Class: tint, Of: doc.Nodes{doc.Text(text)}} }
	cells, their, give := "cells", "their", "give"
	if p.Rows[0].Count == 1 && others(p) == 0 {
		cells, their, give = "cell", "its", "gives"
	}
	says := doc.Title{Level: 1, Class: "says", Of: doc.Nodes{
		doc.Span{Class: "set step", Of: doc.Nodes{
			step("−", "One cell fewer", "-1"),
			doc.Control{Key: count.Key, Double: true, Label: "How many cells", Described: described, Kind: "text", Mode: "numeric", Line: "count", Locked: s.Locked(count)},
			step("+", "One cell more", "1"),
		}},
		words("", " dead "),
		pick(size, "Size of the cells", Field(s.Desk, size).Options),
		words("", " "+cells+besides(s.Desk)),
	}}
	if s.Sheet().Value(route.CellsOpened) == 0 {
		says.Of = append(says.Of, words("", ", none of which is opened, give nothing."))
	} else {
		batches := route.InBatches(p)
		if batches != "" {
			batches = ", " + batches
		}
		says.Of = append(
			says.Of, words("", ", "), pick(share, "Share of the mix in this run", shareOptions(s)), words("", " of "+their+" black mix"+batches+", with "),
			doc.Span{Class: "joined", Of: doc.Nodes{pick(way, "What reduces the oxide", Field(s.Desk, way).Options), doc.Text(",")}}, words("", " "+give+" "),
		)
		says.Of = append(says.Of, gives(s.Desk, words)...)
	}
	if small := TooSmall(s.Desk); small != "" {
		says.Of = append(says.Of, words("stop", " Too small for what is poured: "+small+"."))
	}
	if wrong != "" {
		says.Class += " old"
		says.Of = append(says.Of, doc.Span{Class: "problem", ID: described, Of: doc.Nodes{doc.Text(wrong)}})
	}
	return says
}

// gives are the salts that a plan gives.
func gives(d *desk.Desk, words func(tint, text string) doc.Node) []doc.Node {
	number := func(id route.FigureID) string { r := Read(d, id); return r.Number + doc.Unit(r.Unit) }
	list := doc.Nodes{words("rose", number(route.ProductMass)+" of "+productName(d.Sheet()))}
	if d.Sheet().Reason(route.CopperCrop) == route.Defined {
		list = append(list, words("", " and "), words("blue", number(route.CopperCrop)+" of blue copper sulfate"))
	}
	return append(list, words("", "."))
}

// shareOptions are the shares to choose from, with the plan's own.
func shareOptions(s *Source) (list []doc.Option) {
	own, found := s.Text(route.ShareKey), false
	for _, share := range shares {
		word := route.Plain(float64(share.percent))
		list = append(list, doc.Option{Word: word, Name: share.words, Chosen: word == own})
		found = found || word == own
	}
	if !found {
		list = append(list, doc.Option{Word: own, Name: shareWords(s.Plan().BatchShare), Chosen: true})
	}
	return list
}

// others counts the cells of other types in the bag.
func others(p *route.Plan) (n float64) {
	for _, r := range p.Rows[1:] {
		if quantity.Given(r.Count) {
			n += r.Count
		}
	}
	return n
}

// besides says of the bag which cells are left shut, and that there are other types.
func besides(d *desk.Desk) (says string) {
	p := d.Plan()
	if r := p.Rows[0].Rejects; r > 0 && d.Sheet().Value(route.CellsOpened) > 0 {
		says += ", " + route.Print(r, "") + " of them left shut,"
	}
	if n := others(p); n > 0 {
		says += " and " + route.Print(n, "") + " of other types"
	}
	return says
}

// Certain is how sure the sentence is, and what would make it surer.
func Certain(s *Source) []doc.Node {
	d := s.Desk
	var says []string
	if r := Read(d, route.ProductMass); r.Range != "" && s.Sheet().Value(route.CellsOpened) > 0 {
		blue := ""
		if b := Read(d, route.CopperCrop); b.Range != "" {
			blue = b.Range + doc.Unit(b.Unit)
		}
		says = append(says, glanced(d, "bands", "salt", r.Range+doc.Unit(r.Unit), "blue", blue))
	}
	says = append(says, guessed(d))
	if list, told := s.Suggestions(); told && s.BandsStand() && s.Asked() == route.ProductMass && len(list) > 0 && worth(&list[0]) {
		_, after := narrowed(s, &list[0])
		says = append(says, glanced(d, "measure", "do", list[0].Do, "after", after))
	}
	return doc.Nodes{doc.PText("", strings.Join(says, " "))}
}

// Near is the caution that stays in view, for windows in which what can hurt stands below the
// first screen.
func Near(s *Source) doc.Node {
	return doc.PText("stop near", safety.MainCaution(s.Plan()))
}

// Glance is what a plan needs, what it gives, what can hurt and what does not fit.
func Glance(s *Source) []doc.Node {
	column := func(class, title string, of ...doc.Node) doc.Node {
		return doc.Box{Class: class, Of: append(doc.Nodes{doc.Title{Level: 2, Of: doc.Nodes{doc.Text(title)}}}, of...)}
	}
	t, err := s.Timetable(s.Begin)
	if s.Sheet().Value(route.CellsOpened) == 0 {
		return doc.Nodes{column("hurt", "Nothing is opened", fitsNot(s, t.Steps, err)...)}
	}
	return doc.Nodes{
		column("need", "What you need", needed(s, &t)...),
		doc.Box{Class: "besides", Of: andBesides(s)},
		column("get", "What you get", got(s)...),
		column("hurt", "What can hurt, and what does not fit", slices.Concat(harms(s), fits(s), cramped(s), atHand(s), fitsNot(s, t.Steps, err), boiling(s))...),
	}
}

// at is a figure that has its place at a stage, under a name as short as here.
func at(s *Source, id route.FigureID, name string, whisker bool) doc.Figure {
	f := Figure(s.Desk, id, id.Info().Stage >= s.OldFrom(), whisker)
	f.Name, f.Double, f.Opens = name, true, true
	return f
}

// needed is what to buy by its amount, and time.
func needed(s *Source, t *desk.Timetable) []doc.Node {
	var list doc.Figures
	var have []string
	for _, r := range s.Reagents() {
		name, how, stage, why := "", "", route.Slurry, ""
		switch r.ID {
		case route.StrongAcidReagent:
			name, why = "Sulfuric acid, "+route.Print(float64(s.Plan().GasStrength), "%")+", in all", r.For
		case route.ReductantReagent:
			reductant := route.ReductantOf(s.Plan())
			name, how, stage = reductant.Title(), reductant.Used.Info().Key, reductant.Used.Info().Stage
		case route.SodaReagent:
			name, how, stage, why = "Soda", route.WasteBase.Info().Key, route.Waste, "for "+r.For
		default:
			continue
		}
		why = strings.TrimSuffix("the plan takes "+route.Print(r.Amount, r.Unit)+": "+why, ": ")
		if stands := onTheShelf(s, &r); stands != "" {
			have = append(have, stands)
		}
		number, unit := r.ToBuy()
		list = append(list, doc.Figure{Name: name, For: why, Number: number, Unit: unit, Old: stage >= s.OldFrom(), How: how})
	}
	says := glanced(s.Desk, "enough")
	if have != nil {
		says += " " + phrase.Capital(strings.Join(have, "; ")) + "."
	}
	if !s.KnowsWhatToBuy() { // the line is there from the start, so that nothing moves
		says = glanced(s.Desk, "not known")
	}
	nodes := doc.Nodes{list, doc.PText("soft", says)}
	if t.Slots != nil {
		days, present := hours(t)
		nodes = append(nodes, doc.Figures{{Name: "Time", For: present, Number: days}})
	}
	return nodes
}

// andBesides is what else to have: what to buy by the drop, what a house has, glass, and the way to
// all of it.
func andBesides(s *Source) []doc.Node {
	var drops, house, glass []string
	for _, r := range s.Reagents() {
		switch {
		case r.ID.InDrops():
			drops = append(drops, phrase.Lower(r.Name))
		case r.ID.InHouse():
			house = append(house, r.ToBuyText()+" of "+phrase.Lower(r.Name))
		}
	}
	for _, v := range s.Vessels() {
		if v.Key != "" {
			glass = append(glass, v.Word())
		}
	}
	some := func(name string, of []string, joined string) doc.Figures {
		return doc.Figures{{Name: name, For: strings.Join(of, joined)}}
	}
	return doc.Nodes{
		some("Drops for tests", drops, "; "), some("From the house", house, ", "),
		doc.Box{Of: doc.Nodes{some("Glass", glass, ", "), doc.Button{Class: "plain", Text: "All of it, with goggles and tools", Action: Jump, Value: ID(ReadyTitle)}}},
	}
}

// onTheShelf says how much of a reagent stands on the shelf, and how much more would do in nine
// runs of ten; "" where nothing is said of it, or not yet known.
func onTheShelf(s *Source, r *route.Reagent) string {
	word, has, ok := s.Shelf().Stands(s.Plan(), r.ID)
	if !ok || !s.KnowsWhatToBuy() {
		return ""
	}
	more := ""
	if has < r.Buy {
		more = route.Print(r.Buy-has, r.Unit)
	}
	return glanced(s.Desk, "on shelf", "word", word, "has", route.Plain(has)+doc.Unit(r.Unit), "more", more)
}

// hours is how long the work takes: in how many days, and its hours, told as those of the days are
// counted.
func hours(t *desk.Timetable) (all, parts string) {
	days := 0
	for _, slot := range t.Slots {
		days = max(days, slot.Day)
	}
	spent := procedure.TimeOf(t.Steps, t.Slots)
	list := []string{procedure.Hours(spent.AtIt) + " at the bench"}
	for _, part := range [...]struct {
		takes quantity.Minute
		what  string
	}{{spent.Waits, "while it settles"}, {spent.Before, "the evening before"}, {spent.Between, "an adult’s, between sessions"}} {
		if part.takes > 0 {
			list = append(list, procedure.Hours(part.takes)+" "+part.what)
		}
	}
	return route.Count(float64(days), "day"), strings.Join(list, ", ")
}

// got is what the plan gives, and what would make it purer.
func got(s *Source) []doc.Node {
	list := doc.Figures{at(s, route.ProductMass, "Manganese sulfate", true)}
	if s.Sheet().Reason(route.ProductPurity) == route.Defined {
		list = append(list, at(s, route.ProductPurity, "Pure salt in it", true))
	}
	if s.Sheet().Reason(route.CopperCrop) == route.Defined {
		list = append(list, at(s, route.CopperCrop, "Blue copper sulfate", true))
	}
	if share := float64(s.Plan().BatchShare); share < 100 {
		number, unit := route.PrintParts(100-share, "%")
		list = append(list, doc.Figure{Name: "Oxide kept for later", Number: number, Unit: unit})
	}
	return append(doc.Nodes{list}, purer(s)...)
}

// purer is the one step that takes most out of the jar beside the salt.
func purer(s *Source) []doc.Node {
	following := s.Following()
	q, ok := following.Purity()
	if !ok {
		return nil
	}
	best := q.Now
	for _, step := range q.Steps {
		if step.Purity > best.Purity+5 && step.Keeps > 90 {
			best = step
		}
	}
	if best.Key == q.Now.Key {
		return nil
	}
	how := best.Name
	if best.How != "" {
		how += ", " + best.How
	}
	return doc.Nodes{doc.Notice{Class: "tip", Lead: "Tip.", Text: glanced(s.Desk, "purer", "purity", route.Print(best.Purity, "%"), "how", how, "unfit", unfitAfter(s, best.Set))}}
}

// harms are what can hurt most.
func harms(s *Source) (list []doc.Node) {
	for _, says := range safety.Harms(s.Plan(), s.Sheet()) {
		list = append(list, doc.Notice{Class: "stop", Lead: "Stop.", Text: says})
	}
	return list
}

// fits says that all vessels hold what is poured, how full they are, and how long the dish
// takes; nothing where one is too small, or the flask is for more acid than is work for a bench.
func fits(s *Source) []doc.Node {
	if TooSmall(s.Desk) != "" || route.BeyondBench(s.Plan(), s.Sheet()) {
		return nil
	}
	var full []string
	dish := ""
	for _, v := range s.Vessels() {
		switch {
		case v.Portion > 0:
			dish = v.Word()
		case v.Given():
			full = append(full, v.Word()+" "+route.Print(100*v.Pours/v.Stands(), "%")+" full")
		}
	}
	hours := route.If(s.Sheet().Reason(route.DryHours) == route.Defined)
	says := glanced(s.Desk, "fits", "full", strings.Join(full, ", "), "dish", dish, "hours", hours, "boils", dish+hours)
	return doc.Nodes{doc.Notice{Class: "fit", Lead: "Fits.", Text: says}}
}

// usual are notices of hazards that plans always have: they stand among the harms, or at their
// stage. That of vessels stands with them.
var usual = []string{"dry.gas", "dry.fumes", "copper.warm", "waste.open", "batch.vessels"}

// mostMinds is how many notices the first screen quotes; the lines of the stages count all.
const mostMinds = 2

// cramped says which vessels are too small, and what mends it.
func cramped(s *Source) []doc.Node {
	small := TooSmallBox(s.Desk)
	if small == nil {
		return nil
	}
	return doc.Nodes{doc.Box{Class: "small-vessels", Role: "region", Label: "Vessels that are too small", Of: small}}
}

// fitsNot says what else does not go as it should.
func fitsNot(s *Source, steps []procedure.Step, late error) (list []doc.Node) {
	minds := 0
	for _, n := range s.Notices() {
		if n.Tone != route.Mind || slices.Contains(usual, n.Key) || strings.HasPrefix(n.Key, "vessel.") {
			continue
		}
		if minds++; minds <= mostMinds {
			list = append(list, notice(s.Desk, n))
		}
	}
	if minds > mostMinds {
		list = append(list, doc.PText("soft", glanced(s.Desk, "minds", "minds", route.Print(float64(minds-mostMinds), ""))))
	}
	if late != nil {
		list = append(list, doc.Notice{
			Class: "mind", Lead: "Mind.", Text: glanced(s.Desk, "sessions", "why", procedure.Explain(late, steps)),
			Do: []doc.Button{{Class: "plain", Text: "To “" + DaysTitle + "”", Action: Jump, Value: ID(DaysTitle)}},
		})
	}
	return list
}
