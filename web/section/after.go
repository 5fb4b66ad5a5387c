package section

import (
	"strings"

	"rosesalt/chem/account"
	"rosesalt/chem/field"
	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/web/chart"
	"rosesalt/web/desk"
	"rosesalt/web/doc"
	"rosesalt/web/link"
	"rosesalt/web/picture"
)

// AfterTitle is the title of the account of a run.
const AfterTitle = "After the run"

// PlanNext is the action that plans the next run from the account, its value the words of NextTakeOff
// and NextJar that are wanted; EndRun says that this one is over.
const (
	PlanNext    = "next"
	NextTakeOff = "used" // what this run used is taken off the shelf first
	NextJar     = "jar"  // from what this run left of its cake
	EndRun      = "ended"
)

// NextOf is how the value of PlanNext has the next run planned.
func NextOf(value string) desk.Next {
	return desk.Next{TakeOff: strings.Contains(value, NextTakeOff), Jar: strings.Contains(value, NextJar)}
}

// AsPlanned is the action that takes what nobody noted to have been as planned; its value is a line
// "key=text" for each field.
const AsPlanned = "asplanned"

// seldom are the measurements that few make.
var seldom = map[string]bool{account.KeyGas: true, account.KeyMetal: true, account.KeyDried: true, account.KeyAssay: true}

// after is what was measured of a run, and the account of it.
func after(s *Source) doc.Section {
	var measured doc.Box
	more := doc.Fold{Title: "More that tells: gas counted, copper left, an assay, how it was dried", Told: true}
	var facts, tolerances doc.Fields
	for _, in := range account.Inputs() {
		if in.Kind == field.Fact {
			facts = append(facts, fact(s, in))
			continue
		}
		to := &measured.Of
		if seldom[in.Key] {
			to = &more.Of
		}
		*to = append(*to, measure(s, in))
		tolerances = append(tolerances, tolerance(s, in)...)
	}
	more.Of = append(more.Of, facts)
	measured.Of = append(
		measured.Of, more,
		doc.Fold{Title: "How far each reading may be off", Of: doc.Nodes{
			doc.PText("lede soft", "Half-widths: the balance, and what handling may cost. Blank: the usual one."),
			tolerances,
		}},
		doc.Div("notes",
			doc.Label{For: "in." + link.NotesKey, Text: "Notes on the run"},
			doc.Control{ID: "in." + link.NotesKey, Key: link.NotesKey, Rows: 4, Most: link.MaxNotes},
		),
	)
	return doc.Section{Of: doc.Nodes{
		doc.ScreenOnly{doc.PText("lede", "Type what you weighed; leave out what you did not. For what really went into the flask and the beakers, change the fields in Plan. Two or three weighings are enough for an account.")},
		doc.Div("cols", measured, doc.Box{Class: "figures", Of: accounted(s)}),
		expectedAndFound(s),
	}}
}

// fact is a field of what happened or did not.
func fact(s *Source, in *field.Field) doc.Field {
	yes := s.Text(in.Key) == "1"
	f := doc.Field{
		Key: in.Key, Name: in.Name, Unit: in.Unit, Why: in.Why, Problem: s.Problem(in.Key), Line: lineOf(s, in.Key),
		Options: []doc.Option{{Word: "0", Name: "no", Chosen: !yes}, {Word: "1", Name: "yes", Chosen: yes}},
	}
	if yes {
		f.Told = in.Name + ": yes"
	}
	return f
}

func lineOf(s *Source, key string) string {
	if quantity.Given(s.Record().Value(key)) {
		return "weighed"
	}
	return "open"
}

// weighing is the field of a measurement.
func weighing(s *Source, in *field.Field) doc.Field {
	f := doc.Field{Key: in.Key, Name: in.Name, Unit: in.Unit, Why: in.Why, Problem: s.Problem(in.Key), Line: lineOf(s, in.Key)}
	if text := s.Text(in.Key); text != "" && !s.Record().Empty() {
		f.Told = in.Name + ": " + text + doc.Unit(in.Unit)
		if half := s.Record().OwnHalf(in.Key); quantity.Given(half) {
			f.Told += " ± " + route.Print(half, in.Unit) + ", by you"
		}
	}
	return f
}

// measure is a measurement and, folded, the readings of its dish, where it takes any. Each
// has beside it what is to be expected.
func measure(s *Source, in *field.Field) doc.Node {
	f := weighing(s, in)
	f.Tag = "not weighed"
	if f.Line == "weighed" {
		f.Tag = "you weighed"
	}
	id, expected := account.FigureOf(in.Key)
	expected = expected && s.Sheet().Reason(id) == route.Defined
	if expected {
		r := Read(s.Desk, id)
		f.Usual = readAs(s.Desk, id)
		f.Range = "To expect: " + r.Number + doc.Unit(r.Unit) + inRange(r.Range) + "."
	}
	inputs, logged := account.DishInputs(in.Key)
	if inputs == nil {
		return f
	}
	dish := s.Record().Dish(in.Key)
	f.Locked = s.Record().InDish(in.Key)
	if f.Locked {
		f.Tag = "full less empty"
	}
	var readings doc.Fields
	for i := range inputs {
		if i > dish.Weighed()+1 {
			break // the next one comes when this one is filled
		}
		r := weighing(s, inputs[i])
		if i > 0 && expected && quantity.Given(dish.Empty) {
			band := s.Band(id)
			r.Why = "To expect: about " + route.Print(dish.Empty+s.Sheet().Value(id), in.Unit)
			if band.OK {
				r.Why += inRange(route.Print(dish.Empty+band.Low, "") + "–" + route.Print(dish.Empty+band.High, ""))
			}
			r.Why += "."
		}
		readings = append(readings, r)
	}
	drying := ""
	if logged {
		drying = dryingOf(dish)
	}
	return doc.Div("measure", f, doc.Fold{
		Title: "Weighed with its dish: empty and full", Label: in.Name, Told: true,
		Of: doc.Nodes{readings, doc.Live{Class: "why", Of: doc.Nodes{doc.Text(drying)}}},
	})
}

func dryingOf(dish *account.Dish) string {
	switch state, change := dish.Drying(); state {
	case account.WeighedOnce:
		return "Dry on for an hour and weigh again: it is dry when two weighings agree."
	case account.NoDish:
		return "Give the empty dish too: without it nobody can tell whether what is in it is dry."
	case account.Constant:
		return "Two weighings agree: it is dry."
	case account.StillLosing:
		return "It lost " + route.Print(-change, "g") + " since the time before: not dry yet. The last weighing is used."
	case account.Gaining:
		return "It gained " + route.Print(change, "g") + " since the time before: it drew water while it cooled, or a reading slipped. Dry and weigh again."
	}
	return ""
}

// tolerance is the field of a measurement's half-width; none for what takes none.
func tolerance(s *Source, in *field.Field) doc.Fields {
	probe := account.NewRecord()
	if err := probe.Set(in.Key+"~", 1); err != nil {
		return nil
	}
	f := doc.Field{Key: in.Key + "~", Name: in.Name, Unit: in.Unit, Problem: s.Problem(in.Key + "~"), Line: "guess"}
	if half := s.Record().Half(in.Key); quantity.Given(half) {
		f.Usual = "± " + route.Print(half, "")
	}
	if quantity.Given(s.Record().OwnHalf(in.Key)) {
		f.Line = "set"
	}
	return doc.Fields{f}
}

// accounted is what follows from what was measured, in four parts: what is sure, at once, and when
// the account is made what is likely, what to weigh and what to change. Then the next run, and the
// numbers behind all of it.
func accounted(s *Source) []doc.Node {
	p := s.Account()
	if p == nil {
		return doc.Nodes{verdict(""), nextRun(s)}
	}
	var list doc.Nodes
	for _, c := range p.Contradictions {
		list = append(list, doc.Notice{Class: "mind", Lead: "Mind.", Text: c.Sentence()})
	}
	list = append(list, headed("Sure, on few assumptions", paragraphs("sure", p.Bounds.Sure())...))
	const likely = "What most likely happened"
	switch {
	case !s.Accounted():
		return append(list, doc.ScreenOnly{doc.PText("lede waiting", "Weighing the runs that fit …")}, verdict(""), numbers(p, nil))
	case !p.OK():
		return append(list, headed(likely, doc.PText("verdict", p.Why())), verdict(p.Why()), nextRun(s), numbers(p, nil))
	}
	v := p.Verdict()
	happened := pouredOrNot(p, &v)
	happened = append(happened, doc.PText("verdict", v.Answer))
	var advice []string
	for i := range v.Advice {
		advice = append(advice, v.Advice[i].Sentence())
	}
	change := paragraphs("lede", advice...)
	if len(advice) > 1 {
		change = doc.Nodes{doc.List{Class: "gear", Items: doc.Texts(advice)}}
	}
	return append(
		list,
		headed(likely, append(happened, paragraphs("lede", v.Missing)...)...),
		headed("What to weigh, or to note", append(append(paragraphs("lede", v.Unsaid), chargeUnsaid(s, p, v.Question != "")...), paragraphs("lede", v.Weigh)...)...),
		headed("What to change next time", change...),
		verdict(v.Sentence), nextRun(s), numbers(p, &v),
	)
}

// chargeUnsaid takes every charge that nobody noted to be as planned, or leads to the first field of
// those; nil where all were noted. Where the dilute acid alone was not, and is asked about, the
// answers to that question are enough.
func chargeUnsaid(s *Source, p *account.Posterior, asked bool) []doc.Node {
	var blank *route.Input
	var names, edits []string
	as := func(key, name, unit string, planned float64) {
		names = append(names, name+" "+route.Print(planned, unit))
		edits = append(edits, key+"="+route.Plain(route.Shown(planned)))
	}
	for _, in := range route.Charges(s.Plan()) {
		if !quantity.Given(in.Value(s.Plan())) {
			if blank == nil {
				blank = in
			}
			if planned, ok := in.WorkedOut(s.Plan(), s.Sheet()); ok {
				as(in.Key, phrase.Lower(in.Name), in.Unit, planned)
			}
		}
	}
	if planned, ok := p.Poured(); ok && (blank != nil || !asked) {
		as(account.KeyAcid, "dilute acid", "mL", planned)
	}
	var list doc.Nodes
	if edits != nil {
		list = doc.Nodes{doc.P("step-done", doc.Button{Class: "do", ID: "all.planned", Text: "All as planned: " + strings.Join(names, "; "), Action: AsPlanned, Value: strings.Join(edits, "\n")})}
	}
	if blank != nil {
		list = append(list, doc.P("", doc.Button{Class: "plain", Text: "Type what was charged, at “" + StageTitle(blank.Stage) + "”", Action: Jump, Value: blank.Key}))
	}
	if list == nil {
		return nil
	}
	return doc.Nodes{doc.ScreenOnly(list)}
}

// headed is a part with its heading; nil where nothing is in it.
func headed(heading string, of ...doc.Node) doc.Node {
	if len(of) == 0 {
		return nil
	}
	return doc.Box{Class: "part", Of: append(doc.Nodes{doc.Heading(heading)}, of...)}
}

// numbers are the bounds, and with a verdict what the account makes of each figure and cause.
func numbers(p *account.Posterior, v *account.Verdict) doc.Node {
	fold := doc.Fold{Title: "The numbers behind it", Told: true, Of: bounds(p)}
	if v == nil {
		return some(fold)
	}
	var figures doc.Figures
	for _, f := range account.Figures() {
		if i, ok := p.Shown(f.Key); ok {
			of := Interval(f.Key, f.Name, f.Unit, i)
			of.Number, of.Unit = route.PrintParts(i.Median, f.Unit) // as the sentence and the flow have it
			figures = append(figures, of)
		}
	}
	if figures != nil {
		says, is := p.Close()
		if is {
			says = "The middle numbers hold " + phrase.Lower(strings.TrimSuffix(says, ": ")) + "; the intervals are of all causes."
		}
		fold.Of = append(fold.Of, headed("Most likely, eight times in ten between", append(paragraphs("lede", says), figures)...))
	}
	causes := doc.List{Class: "gear"}
	for _, r := range v.Ranked {
		causes.Items = append(causes.Items, doc.Text(p.Called(r.Cause)+", "+r.Odds))
	}
	if v.Others != "" {
		causes.Items = append(causes.Items, doc.Text("one of the others, "+v.Others))
	}
	if causes.Items != nil {
		size := p.Size()
		went := ""
		if v.Planned != "" {
			went = "Of the runs that weigh this, " + v.Planned + " went as planned. If something went wrong, it was:"
		}
		fold.Of = append(fold.Of, headed(
			"How likely each cause is", paragraphs("lede", went), causes,
			doc.ScreenOnly{doc.PText("lede soft", "Effective number of points "+route.Print(size.Points, "")+" of "+route.Print(float64(size.Draws), "")+" runs weighed.")},
		))
	}
	return some(fold)
}

// some is a fold with something in it, or nil.
func some(fold doc.Fold) doc.Node {
	if fold.Of == nil {
		return nil
	}
	return fold
}

// verdict is the verdict for a screen reader.
func verdict(sentence string) doc.Node {
	return doc.Live{Class: "unseen", Of: doc.Nodes{doc.Text(sentence)}}
}

// bounds are the figures that follow with few assumptions, and those.
func bounds(p *account.Posterior) []doc.Node {
	var figures doc.Figures
	rests := doc.Fold{Title: "What these bounds rest on"}
	for _, b := range p.Bounds.List() {
		f := doc.Figure{Key: b.Key, Name: b.Name, Why: b.Why}
		if b.OK() {
			f.Why, f.Value = "", full(b.Value)
			f.Number, f.Unit = route.PrintParts(b.Value, b.Unit)
		}
		figures = append(figures, f)
		rests.Of = append(rests.Of, doc.Box{Of: doc.Nodes{
			doc.P("lede", doc.Strong(b.Name+". "), doc.Text(b.Working)),
			doc.List{Class: "gear", Items: doc.Texts(b.Assumes)},
		}})
	}
	if figures == nil {
		return nil
	}
	return doc.Nodes{headed("Bounds, on few assumptions", figures, rests)}
}

// toExpect is what the plan, with what was taken, says that a measurement will show:
// the figure as it stands on the page, where there is one.
func toExpect(d *desk.Desk, p *account.Posterior, key string) (account.Interval, bool) {
	id, ok := account.FigureOf(key)
	if band := d.Band(id); ok && band.OK && d.Sheet().Reason(id) == route.Defined {
		return account.Interval{Low: band.Low, Median: d.Sheet().Value(id), High: band.High}, true
	}
	return p.Expected(key)
}

// nextRun offers the next run once this one is over, and before that says what is wanted still.
func nextRun(s *Source) doc.Node {
	box := doc.Div("part next", doc.Heading("The next run"))
	if !s.Over() {
		if s.Started() == nil && s.Account() == nil {
			return nil
		}
		box.Of = append(box.Of,
			doc.PText("lede", "It is planned here once this run is over: weigh the product, dry, or mark its last stage done."),
			doc.P("", doc.Button{Class: "plain", ID: "run.ended", Text: "The run is over without that", Action: EndRun}),
		)
		return doc.ScreenOnly{box}
	}
	var lines []doc.Node
	if p := s.Account(); p != nil && p.OK() {
		carried, held := s.Carried()
		lines = learned(carried)
		for i := range held {
			lines = append(lines, doc.Text(held[i].Sentence()))
		}
	}
	jar, left := s.Jar()
	if left {
		box.Of = append(box.Of, doc.PText("lede", route.Print(float64(jar.Damp), "g")+" of damp cake, with about "+route.Print(float64(jar.Oxide), "g")+" of oxide, are left in its jar, if no run before took of it."))
	}
	if lines != nil {
		box.Of = append(box.Of, doc.Fold{Title: "What the next run may start from", Of: doc.Nodes{doc.List{Class: "gear", Items: lines}}})
	} else {
		box.Of = append(box.Of, doc.PText("lede", "It starts from this plan as it stands: nothing was learned that would change it."))
	}
	off, used := s.UsedUp()
	if used {
		box.Of = append(box.Of, doc.PText("lede", "What this run used is still counted as standing on the shelf."))
	}
	class := "do"
	for _, takeOff := range []bool{true, false} {
		for _, fromJar := range []bool{true, false} {
			if takeOff && !used || fromJar && !left {
				continue
			}
			plan := doc.Button{Class: class, Text: "Plan the next run from this one", Action: PlanNext}
			switch {
			case fromJar:
				plan.Text, plan.Value = "Plan the next run from that jar", NextJar
			case left:
				plan.Text = "Plan the next run with new cells"
			}
			if takeOff {
				plan.Text, plan.Value = plan.Text+", what this one used taken off the shelf", strings.TrimSpace(plan.Value+" "+NextTakeOff)
			} else if used {
				plan.Text += ", the shelf as it stands"
			}
			line := doc.P("step-done", plan)
			if takeOff && class == "do" {
				line.Of = append(line.Of, doc.Text(" "+off.Gives))
			}
			box.Of, class = append(box.Of, line), "plain"
		}
	}
	return doc.ScreenOnly{box}
}

// FromJar says how a plan is meant that begins with the cake of a run before, which took a share of it.
func FromJar(took quantity.Percent) string {
	return "It begins at “Divide the cake”, with the cells opened and the mix washed for the run before. Its share is of the whole cake, of which that run took " + route.Print(float64(took), "%") + ": so much less is left than the plan says."
}

// Lesson is what a run taught, in a sentence, with what the shelf does not
// suffice for, and folded what that does otherwise for it. The source has the next run.
func Lesson(s *Source, changes []account.Change) (says string, more []doc.Node) {
	says = "The next run starts from this plan as it stands: nothing was learned that would change it."
	if len(changes) > 0 && changes[0].Key == "" {
		says, changes = changes[0].Sentence, changes[1:]
	} else if len(changes) > 0 {
		says = "The next run starts from what this one told."
	}
	if short := shortOf(s); short != "" {
		says += " " + short
	}
	var lines []string
	for i := range changes {
		lines = append(lines, changes[i].Sentence)
	}
	if lines == nil {
		return says, nil
	}
	return says, doc.Nodes{doc.Fold{Title: "What the next run does otherwise, and what to expect of it", Of: doc.Nodes{doc.List{Class: "gear", Items: doc.Texts(lines)}}}}
}

// expectedAndFound sets what was to expect beside what was found and what the account makes of it.
func expectedAndFound(s *Source) doc.Node {
	p := s.Account()
	if p == nil || !s.Accounted() || !p.OK() {
		return nil
	}
	table := doc.Table{Label: "Expected against found", Heads: doc.Texts([]string{"Weighed", "To expect", "Found", "As the account has it"})}
	var list []picture.Weighed
	for _, in := range account.Inputs() {
		planned, ok := toExpect(s.Desk, p, in.Key)
		if !ok {
			continue
		}
		w := picture.Weighed{Name: in.Name, Unit: in.Unit, Comparison: chart.Comparison{Planned: chart.Span(planned)}}
		fitted, isFitted := p.Fitted(in.Key)
		if isFitted {
			w.Account, w.HasAccount = chart.Span(fitted), true
		}
		if found := s.Record().Value(in.Key); quantity.Given(found) {
			half := s.Record().Half(in.Key)
			w.Found, w.IsFound = chart.Span{Low: found - half, Median: found, High: found + half}, true
			row := []string{in.Name, Reads(planned, in.Unit), route.Print(found, in.Unit), ""}
			if isFitted {
				row[3] = Reads(fitted, in.Unit)
			}
			table.Rows = append(table.Rows, doc.Texts(row))
		}
		if planned.Median > 0 {
			list = append(list, w)
		}
	}
	if table.Rows == nil {
		return nil
	}
	box := doc.Div("next", table)
	box.Of = append(box.Of, doc.Picture{Picture: picture.Against(list)})
	if flow := likeliestFlow(s, p); flow.Name != "" {
		box.Of = append(box.Of, doc.Picture{Picture: flow})
	}
	return doc.ScreenOnly{box}
}

// likeliestFlow is where everything went in the run as it most likely was.
func likeliestFlow(s *Source, p *account.Posterior) chart.Picture {
	runner := p.LikeliestRun()
	if runner == nil {
		return chart.Picture{}
	}
	pic := picture.Flows(runner.Book())
	pic.Name = "likeliest"
	_, cause, _, _ := p.Likeliest()
	begin, note := "Most likely, ", "As it most likely ran: "+p.Called(cause)+"."
	if says, is := p.Close(); is {
		begin, note = says, "The next cause is as good as likely, and would show another picture."
	}
	if pic.Title != "" {
		pic.Title = begin + phrase.Lower(pic.Title)
	}
	pic.Note = note
	planned, _ := s.Runner().Book().Balance(reaction.Mn)
	had, _ := runner.Book().Balance(reaction.Mn)
	now := route.Print(had.Millimoles(), "mmol")
	if was := phrase.Otherwise(route.Print(planned.Millimoles(), "mmol"), now); was != "" {
		pic.Note += " As the account has it, " + now + " of manganese was in the cells; the plan has " + was + "."
	}
	return pic
}
