package working

import (
	"slices"
	"strconv"
	"strings"

	"rosesalt/chem/figure"
	"rosesalt/chem/ledger"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// Working is how one figure comes about.
type Working struct {
	Figure route.FigureID
	Reason string // why it has no value; then there is nothing else
	// Steps lead to the figure, which is the last of them.
	Steps     []Step
	Equations []string         // the reactions that the steps count with, as printed; steps give their number, from 1
	Sources   []Source         // what constants, tables and inputs rest on
	Uses      []route.FigureID // other figures that stand in the steps
}

// Step is one line: Name = Words = Numbers = Result. For a condition on which the
// next step rests, Name is "since" and Result is empty.
type Step struct {
	Name    string
	Words   string // the formula; names of several words stand in square brackets
	Numbers string // the same with this plan's numbers; empty, as Words, where it would say the same as Result
	Result  string // number and unit, or the word
	Note    string
	Value   float64 // in full
	Unit    string
}

// Source is what a number of the working rests on.
type Source struct{ Name, Value, Text string }

// Workings works out figures of one plan. Make one with New; it must not be used
// from two goroutines.
type Workings struct {
	plan   route.Plan
	given  map[string]spread.Interval
	runner route.Runner
	sheet  *route.Sheet

	terms     map[string]*term                        // by the name used in formulas
	places    map[string]place                        // by the name used in n(place, …)
	formulas  map[string]*recipe                      // of the figures, by key
	reactions map[route.FigureID][]*reaction.Equation // that a figure counts with beside those of its terms

	cakeWater string // the symbol of the water in the washed cake

	now  *Working // being written
	done map[*term]bool
}

// recipe is a formula with what is told of it; of a figure of words perhaps conditions alone.
type recipe struct {
	text  string
	since []string // conditions
	note  string
}

// term is a named quantity in a formula.
type term struct {
	recipe     // empty where the value is given
	name, unit string
	node       *figure.Formula // the recipe's, once it was asked for
	value      float64
	known      bool
	source     *Source
	equation   *reaction.Equation
	extent     bool // whether it is the extent of the equation; its name is what follows that
	figure     route.FigureID
	isFigure   bool
	alias      string // another name for the same
}

// New runs the plan, which must be in order, and prepares its workings. The
// intervals that are given with it are told with their inputs.
func New(c *spread.Case) *Workings {
	w := &Workings{
		plan: c.Planned(), given: c.Given, terms: map[string]*term{}, places: map[string]place{}, formulas: map[string]*recipe{},
		reactions: map[route.FigureID][]*reaction.Equation{},
	}
	w.runner.Keep = true
	w.sheet = w.runner.Run(&w.plan)
	w.acid()
	for _, stage := range stages {
		stage(w)
	}
	return w
}

// stages in bench order, a file each.
var stages = [route.Stages]func(*Workings){
	route.Cells:      (*Workings).cells,
	route.Wash:       (*Workings).wash,
	route.Batch:      (*Workings).batch,
	route.Gas:        (*Workings).gas,
	route.Slurry:     (*Workings).slurry,
	route.Filter:     (*Workings).filter,
	route.Dry:        (*Workings).dry,
	route.CopperSalt: (*Workings).copper,
	route.Waste:      (*Workings).waste,
}

// Sheet holds the figures of the plan.
func (w *Workings) Sheet() *route.Sheet { return w.sheet }

// Of is the working of a figure.
func (w *Workings) Of(id route.FigureID) Working {
	w.now, w.done = &Working{Figure: id}, map[*term]bool{}
	info := id.Info()
	if reason := w.sheet.Reason(id); reason != route.Defined {
		w.now.Reason = reason.String()
		return *w.now
	}
	f := w.formulas[info.Key]
	if f == nil {
		f = &recipe{text: w.sheet.Formula(id)}
	}
	for _, e := range w.reactions[id] {
		w.now.count(e)
	}
	for _, condition := range f.since {
		w.condition(condition)
	}
	if f.text == "" { // the conditions pick the word
		w.now.Steps = append(w.now.Steps, Step{Name: info.Name, Result: w.sheet.Word(id), Note: f.note})
		return *w.now
	}
	n := figure.Parse(f.text)
	w.tell(n)
	v := n.Eval(w.value)
	step := Step{Name: info.Name, Words: n.Print(w.word, written), Numbers: n.Print(w.number, written), Value: v, Unit: info.Unit, Note: f.note}
	step.Result = withUnit(digits(v), info.Unit)
	if info.Words != nil {
		step.Result, step.Unit = w.sheet.Word(id), ""
	}
	w.add(step)
	return *w.now
}

// add puts a step down, its numbers left out where they say no more than the result.
func (w *Workings) add(s Step) {
	if s.Numbers == s.Result {
		s.Numbers = ""
	}
	if s.Words == s.Result {
		s.Words = ""
	}
	w.now.Steps = append(w.now.Steps, s)
}

// condition puts down a comparison that the next step rests on.
func (w *Workings) condition(text string) {
	n := figure.Parse(text)
	w.tell(n)
	w.now.Steps = append(w.now.Steps, Step{Name: "since", Words: n.Print(w.word, written), Numbers: n.Print(w.number, written)})
}

// tell puts down the steps, and notes the sources, of all names in a formula that
// have not been told.
func (w *Workings) tell(n *figure.Formula) {
	n.Names(func(name string) {
		t := w.term(name)
		if w.done[t] {
			return
		}
		w.done[t] = true
		if t.isFigure {
			w.now.Uses = append(w.now.Uses, t.figure)
			return
		}
		if t.source != nil {
			w.now.cite(*t.source)
		}
		if t.equation != nil {
			w.now.count(t.equation)
		}
		if t.formula() == nil {
			return
		}
		for _, condition := range t.since {
			w.condition(condition)
		}
		w.tell(t.node)
		v := w.value(name)
		w.add(Step{Name: w.name(t), Words: t.node.Print(w.word, written), Numbers: t.node.Print(w.number, written), Result: withUnit(digits(v), t.unit), Note: t.note, Value: v, Unit: t.unit})
	})
}

func (w *Working) cite(s Source) {
	if !slices.Contains(w.Sources, s) {
		w.Sources = append(w.Sources, s)
	}
}

// count puts a reaction on the list and gives its number.
func (w *Working) count(e *reaction.Equation) int {
	text := lowered(e.String())
	at := slices.Index(w.Equations, text)
	if at < 0 {
		at = len(w.Equations)
		w.Equations = append(w.Equations, text)
	}
	return at + 1
}

func (w *Workings) value(name string) float64 {
	t := w.term(name)
	if !t.known {
		t.value, t.known = t.formula().Eval(w.value), true
	}
	return t.value
}

func (w *Workings) word(name string) string { return bracketed(w.name(w.term(name))) }

func (w *Workings) name(t *term) string {
	if t.extent {
		return "extent of reaction " + strconv.Itoa(w.now.count(t.equation)) + t.name
	}
	return t.name
}

func (w *Workings) number(name string) string {
	return withUnit(digits(w.value(name)), w.term(name).unit)
}

// def defines a quantity on the way. Conditions say why this formula and no other.
func (w *Workings) def(symbol, name, unit, text string, since ...string) {
	if w.terms[symbol] != nil {
		panic("working: " + symbol + " is defined twice")
	}
	t := &term{recipe: recipe{text: text, since: since}, name: name, unit: unit}
	if since == nil && figure.IsName(text) {
		t.alias = text // a step that only repeats a number is none
	}
	w.terms[symbol] = t
}

// define takes a list of definitions, one a line, in columns:
//
//	symbol | unit | name | formula
//	= key of a figure | formula
//
// Further columns hold a note, and conditions: "since" begins one that is told, "if" one that is
// not. A line whose conditions do not hold is left out; those of a figure of words say why it has
// its word, and it has no formula. In the list the first of each pair of texts stands for the second.
func (w *Workings) define(list string, pairs ...string) {
	for line := range strings.Lines(strings.NewReplacer(pairs...).Replace(list)) {
		column := strings.Split(strings.TrimSpace(line), " | ") // an empty one leaves two spaces
		key, isFigure := strings.CutPrefix(column[0], "= ")
		if key == "" {
			continue
		}
		formula := 3
		if isFigure {
			formula = 1
		}
		r, holds := recipe{text: column[formula]}, true
		for _, more := range column[formula+1:] {
			if told, ok := strings.CutPrefix(more, "since "); ok {
				r.since = append(r.since, told)
				holds = holds && w.is(told)
			} else if silent, ok := strings.CutPrefix(more, "if "); ok {
				holds = holds && w.is(silent)
			} else {
				r.note = more
			}
		}
		switch {
		case !holds:
		case isFigure:
			if _, ok := route.FigureByKey(key); !ok {
				panic("working: no figure " + key)
			}
			w.formulas[key] = &r
		default:
			w.def(key, column[2], strings.TrimSpace(column[1]), r.text, r.since...)
			w.note(key, r.note)
		}
	}
}

// formula is read only when it is asked for: most are not.
func (t *term) formula() *figure.Formula {
	if t.node == nil && t.text != "" {
		t.node = figure.Parse(t.text)
	}
	return t.node
}

// known defines a quantity whose value is known.
func (w *Workings) known(symbol, name, unit string, v float64, source *Source) {
	w.terms[symbol] = &term{name: name, unit: unit, value: v, known: true, source: source}
}

// note puts a remark at a quantity's step.
func (w *Workings) note(symbol, text string) { w.terms[symbol].note = text }

// figure says how a figure is worked out.
func (w *Workings) figure(id route.FigureID, text string, since ...string) {
	w.formulas[id.Info().Key] = &recipe{text: text, since: since}
}

// pick says why a figure of words has its word.
func (w *Workings) pick(id route.FigureID, note string, since ...string) {
	w.formulas[id.Info().Key] = &recipe{since: since, note: note}
}

// counts names reactions whose coefficients stand in a figure's formula.
func (w *Workings) counts(id route.FigureID, list ...*reaction.Equation) { w.reactions[id] = list }

// is works out a comparison, to choose between formulas.
func (w *Workings) is(text string) bool { return w.calc(text) != 0 }

// calc works out a formula.
func (w *Workings) calc(text string) float64 { return figure.Parse(text).Eval(w.value) }

// place is where matter stands at a moment: vessels taken together, and how many
// bookings were made by then.
type place struct {
	name    string
	vessels []ledger.Vessel
	from    int // bookings before it are left out
	upto    int
}

func (w *Workings) place(symbol, name string, upto int, vessels ...ledger.Vessel) {
	w.places[symbol] = place{name: name, vessels: vessels, upto: upto}
}

// start is the number of bookings made before a stage.
func (w *Workings) start(stage route.Stage) int {
	list := w.runner.Book().Bookings()
	for i := range list {
		if list[i].Stage >= int(stage) {
			return i
		}
	}
	return len(list)
}

// first is the number of bookings before the first of a stage that is asked for;
// the end of the stage where none is.
func (w *Workings) first(stage route.Stage, is func(*ledger.Booking) bool) int {
	list, end := w.runner.Book().Bookings(), w.start(stage+1)
	for i := w.start(stage); i < end; i++ {
		if is(&list[i]) {
			return i
		}
	}
	return end
}

// after is the number of bookings up to the last of a stage that is asked for; the
// start of the stage where none is.
func (w *Workings) after(stage route.Stage, is func(*ledger.Booking) bool) int {
	list, at := w.runner.Book().Bookings(), w.start(stage)
	for i, end := at, w.start(stage+1); i < end; i++ {
		if is(&list[i]) {
			at = i + 1
		}
	}
	return at
}

// Text is the working as plain text, to copy.
func (w *Working) Text() string {
	var b strings.Builder
	b.WriteString(w.Figure.Info().Name + "\n")
	if w.Reason != "" {
		b.WriteString("has no value: " + w.Reason + ".\n")
		return b.String()
	}
	if len(w.Equations) > 0 {
		b.WriteString("\nReactions\n")
		for i, e := range w.Equations {
			b.WriteString("  " + strconv.Itoa(i+1) + ": " + e + "\n")
		}
	}
	for _, s := range w.Steps {
		b.WriteString("\n" + s.Text() + "\n")
	}
	if len(w.Sources) > 0 {
		b.WriteString("\nWhere the numbers come from\n")
		for _, s := range w.Sources {
			b.WriteString("  " + s.Name)
			if s.Value != "" {
				b.WriteString(", " + s.Value)
			}
			b.WriteString(": " + s.Text + "\n")
		}
	}
	return b.String()
}

// Text is the step as plain text.
func (s *Step) Text() string {
	if s.Name == "since" {
		return "since " + s.Words + ": " + s.Numbers
	}
	text := s.Name
	for _, part := range []string{s.Words, s.Numbers, s.Result} {
		if part != "" {
			text += "\n  = " + part
		}
	}
	if s.Note != "" {
		text += "\n  (" + s.Note + ")"
	}
	return text
}
