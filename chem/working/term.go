package working

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rosesalt/chem/figure"
	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
	"rosesalt/chem/table"
)

// term finds a name of a formula: a quantity defined on the way, a figure, an
// input, a constant, a molar mass, or an amount on the ledger.
func (w *Workings) term(name string) *term {
	if t := w.terms[name]; t != nil {
		if t.alias != "" {
			return w.term(t.alias)
		}
		return t
	}
	t := w.look(name)
	w.terms[name] = t
	return t
}

func (w *Workings) look(name string) *term {
	if inside, ok := strings.CutPrefix(name, "M("); ok {
		return molarMass(strings.TrimSuffix(inside, ")"))
	}
	if inside, ok := strings.CutPrefix(name, "n("); ok {
		at, what, _ := strings.Cut(strings.TrimSuffix(inside, ")"), ",")
		return w.amount(at, route.SubstanceNamed(strings.TrimSpace(what)))
	}
	if formed := route.FormedNamed(name); formed != "" {
		return formation(formed)
	}
	if id, ok := route.FigureByKey(name); ok {
		return &term{name: id.Info().Name, unit: id.Info().Unit, value: w.sheet.Value(id), known: true, figure: id, isFigure: true}
	}
	if in, ok := route.InputByKey(name); ok {
		return w.input(in)
	}
	for _, c := range route.Constants() {
		if c.Key == name {
			return &term{
				name: c.Name, unit: c.Unit, value: c.Value, known: true,
				source: &Source{c.Name, withUnit(digits(c.Value), c.Unit), c.Source},
			}
		}
	}
	panic("working: no quantity " + name)
}

func molarMass(text string) *term {
	text = route.FormulaNamed(text)
	m := float64(formula.MustParse(text).MolarMass())
	return &term{
		name: "M(" + lowered(text) + ")", unit: "g/mol", value: m, known: true,
		source: &Source{Name: "Molar masses M", Text: formula.WeightsSource},
	}
}

// input is an input as the plan holds it; it must not be blank.
func (w *Workings) input(in *route.Input) *term {
	v := in.Value(&w.plan)
	if !quantity.Given(v) {
		panic("working: " + in.Key + " is blank")
	}
	name := in.Name
	if clear, ok := clearer[in.Key]; ok {
		name = clear
	}
	if in.Row > 1 {
		name += ofRow(in.Row - 1)
	}
	return &term{
		name: name, unit: in.Unit, value: v, known: true,
		source: &Source{name, withUnit(digits(v), in.Unit), w.standing(in)},
	}
}

// clearer are names for inputs whose own only tell beside their field what they are.
var clearer = map[string]string{
	"cell.count": "cells in the bag", "cell.rejects": "cells never opened",
	"wash.each": "water for each wash", "rinse.each": "water for each rinse", "rinse.times": "rinses of the residue",
	"gas.water": "water that dilutes the generator's acid", "gas.warm": "generator's liquid at the end", "gas.hot": "temperature of the paste in the flask",
	"air.temperature": "air's temperature", "air.pressure": "air's pressure",
	"slurry.temperature": "slurry's temperature", "slurry.beaker": "slurry vessel holds",
	"dry.temperature": "temperature of drying", "dry.rate": "evaporation of the dish", "crop.cold": "temperature of the crystals",
	"copper.hot": "temperature of dissolving", "copper.cold": "temperature of the blue crystals",
}

// standing says what an input is worth, and what to do to know it better.
func (w *Workings) standing(in *route.Input) string {
	if given, ok := w.given[in.Key]; ok {
		return "you gave it as " + interval(given.Low, given.High, in.Unit)
	}
	switch {
	case in.Standing == route.Estimated && in.IsDefault(&w.plan):
		return w.estimate(in, in.Low, in.High)
	case in.Standing == route.Measured:
		return "you weighed or titrated it"
	case in.IsDefault(&w.plan):
		return "chosen, as the plan starts"
	}
	return "you set it"
}

// estimate tells an estimate's interval and how to replace it.
func (w *Workings) estimate(in *route.Input, low, high float64) string {
	if given, ok := w.given[in.Key]; ok {
		return "you gave it as " + interval(given.Low, given.High, in.Unit) + "."
	}
	s := "estimate, " + interval(low, high, in.Unit) + "."
	if m, ok := spread.MeasurementOf(in.Key); ok {
		s += " To replace it: " + phrase.Lower(m.Do) + ". " + m.How
	}
	return s
}

func interval(low, high float64, unit string) string {
	return withUnit(digits(low)+" to "+digits(high), unit)
}

// read reads a table at a formula's value, along the straight line between the
// rows on either side; that is a step of its own.
func (w *Workings) read(symbol, name string, t *table.Table, at string) {
	x := w.calc(at)
	low, high, err := t.Between(x)
	if err != nil {
		panic("working: " + err.Error())
	}
	w.def(symbol, name, t.YUnit(), line(low.Y, high.Y, low.X, high.X, at, t.YUnit(), t.XUnit()))
	source := t.Source()
	if t.Standing() != table.Published {
		source += " (" + t.Standing().String() + ")"
	}
	w.terms[symbol].source = &Source{"table of " + t.Title(), "", source}
	w.note(symbol, "from the table of "+t.Title()+between(low.X, high.X, t.XUnit()))
}

// reads reads the tables of a way.
func (w *Workings) reads(f *route.Formulas) {
	for _, t := range f.Reads {
		w.read(t.Symbol, t.Name, t.Table, t.At)
	}
}

// invert reads a table backwards.
func (w *Workings) invert(symbol, name string, t *table.Table, at string) {
	x, err := t.Inverse(w.calc(at))
	if err != nil {
		panic("working: " + err.Error())
	}
	low, high, err := t.Between(x)
	if err != nil {
		panic("working: " + err.Error())
	}
	w.def(symbol, name, t.XUnit(), line(low.X, high.X, low.Y, high.Y, at, t.XUnit(), t.YUnit()))
	w.terms[symbol].source = &Source{"table of " + t.Title(), "", t.Source()}
	w.note(symbol, "from the table of "+t.Title()+", read backwards"+between(low.Y, high.Y, t.YUnit()))
}

func between(low, high float64, unit string) string {
	if low == high {
		return ", at " + withUnit(digits(low), unit)
	}
	return ", between " + digits(low) + " and " + withUnit(digits(high), unit)
}

// line is the formula of the straight line from (x0, y0) to (x1, y1).
func line(y0, y1, x0, x1 float64, at, yUnit, xUnit string) string {
	if x0 == x1 {
		return literal(y0, yUnit)
	}
	return fmt.Sprintf("%s + (%s - %s) * (%s - %s) / (%s - %s)",
		literal(y0, yUnit), literal(y1, yUnit), literal(y0, yUnit), at, literal(x0, xUnit), literal(x1, xUnit), literal(x0, xUnit))
}

// formation is a heat of formation.
func formation(what string) *term {
	h, err := table.FormationHeat(what)
	if err != nil {
		panic("working: " + err.Error())
	}
	name := "ΔH(" + ion(what) + ")"
	return &term{name: name, unit: "kJ/mol", value: h, known: true, source: &Source{name, withUnit(digits(h), "kJ/mol"), table.FormationSource()}}
}

// ion sets a charge high: Mn^2+ becomes Mn²⁺.
func ion(text string) string {
	body, charge, ok := strings.Cut(text, "^")
	if !ok {
		return lowered(text)
	}
	return lowered(body) + strings.NewReplacer("2", "²", "+", "⁺", "-", "⁻").Replace(charge)
}

// amount is what stands at a place, the sum of the bookings that brought it there
// and took it away. Moves within the place are passed over.
func (w *Workings) amount(at string, s reaction.Substance) *term {
	p, ok := w.places[at]
	if !ok {
		panic("working: no place " + at)
	}
	sum, have := w.bookings(p, s)
	t := &term{name: lowered(s.Formula()) + " in the " + p.name, unit: "mol", value: have, known: true}

	for i, part := range sum {
		if part.times == 1 && i == 0 && len(sum) == 1 {
			// One booking: it is the amount.
			t.equation = part.equation
			return t
		}
		t.node = join(t.node, part.node(w, fmt.Sprintf("n(%s,%d)%d", at, s, i)), part.sign)
	}
	return t
}

// part is one term of an amount: bookings of a kind, in a row or taken together.
// What comes in or is formed is added (+), what reacts is taken off (-); what goes
// elsewhere leaves a share (*): that can be worked out again from the printed
// figures, where the difference of two large numbers could not.
type part struct {
	name     string
	sign     byte
	times    float64 // coefficient of the reaction
	moles    float64
	left     float64 // the share
	equation *reaction.Equation
	count    int
}

func (p *part) node(w *Workings, symbol string) *figure.Formula {
	t := &term{name: p.name, unit: "mol", value: p.moles, known: true, equation: p.equation, extent: p.equation != nil}
	if p.sign == '*' {
		t.name, t.unit, t.value = "share that does not go "+p.name, "", p.left
	}
	if p.count > 1 {
		t.name += fmt.Sprintf(", %d times", p.count)
	}
	w.terms[symbol] = t
	n := figure.Name(symbol)
	if p.times != 1 {
		n = figure.Join(figure.Number(p.times, ""), '*', n)
	}
	return n
}

// join adds a term to a sum, takes it off, or multiplies by it.
func join(sum, n *figure.Formula, sign byte) *figure.Formula {
	switch {
	case sum == nil && sign == '+':
		return n
	case sum == nil:
		sum = figure.Number(0, "mol")
	}
	return figure.Join(sum, sign, n)
}

// listed is up to how many bookings are listed one by one.
const listed = 6

// times says which of several bookings of one name is meant.
var times = [listed]string{"first", "second", "third", "fourth", "fifth", "sixth"}

// told tells bookings of one name apart.
func told(list []part) []part {
	all, before := map[string]int{}, map[string]int{}
	for _, b := range list {
		all[b.name]++
	}
	for i := range list {
		if name := list[i].name; name != "" && all[name] > 1 {
			list[i].name += ", the " + times[before[name]] + " time"
			before[name]++
		}
	}
	return list
}

func (w *Workings) bookings(p place, s reaction.Substance) (list []part, have float64) {
	inside := func(v ledger.Vessel) bool {
		for _, have := range p.vessels {
			if v == have {
				return true
			}
		}
		return false
	}
	for _, b := range w.runner.Book().Bookings()[p.from:p.upto] {
		next := part{sign: '+', times: 1, moles: float64(b.Moles), count: 1}
		switch b.Kind {
		case ledger.Reacted:
			c := b.Equation.Coefficient(s)
			if !inside(b.From) || c == 0 {
				continue
			}
			next.times, next.equation = c, b.Equation
			if c < 0 {
				next.sign, next.times = '-', -c
			}
		case ledger.Brought:
			if b.Substance != s || !inside(b.To) {
				continue
			}
			next.name = "brought in"
		case ledger.Moved:
			if b.Substance != s || inside(b.From) == inside(b.To) {
				continue
			}
			next.name = "from the " + b.From.String()
			if inside(b.From) {
				next.name, next.sign = "to the "+b.To.String(), '*'
			}
		}
		switch next.sign {
		case '+':
			have += next.times * next.moles
		case '-':
			// So near to nothing is nothing, as on the ledger.
			used := next.times * next.moles
			if have -= used; have <= 1e-11*used {
				have = 0
			}
		default:
			if next.left = 1 - next.moles/have; !(next.left > 1e-12) {
				next.left = 0
			}
			have *= next.left
		}
		list = append(list, next)
	}
	if len(list) <= listed {
		return told(list), have
	}
	short := list[:1]
	for _, b := range list[1:] {
		last := &short[len(short)-1]
		if last.name != b.name || last.equation != b.equation || last.sign != b.sign || last.times != b.times {
			short = append(short, b)
			continue
		}
		last.moles += b.moles
		last.left *= b.left
		last.count++
	}
	return short, have
}

// extent defines the extent of a reaction in a vessel in a stage.
func (w *Workings) extent(symbol string, v ledger.Vessel, stage route.Stage, e *reaction.Equation) {
	sum := 0.0
	for _, b := range w.runner.Book().Bookings()[w.start(stage):w.start(stage+1)] {
		if b.Kind == ledger.Reacted && b.From == v && b.Equation == e {
			sum += float64(b.Moles)
		}
	}
	w.terms[symbol] = &term{unit: "mol", value: sum, known: true, equation: e, extent: true}
}

// extends says that a quantity is the extent of a reaction.
func (w *Workings) extends(symbol string, e *reaction.Equation) {
	w.terms[symbol].equation, w.terms[symbol].extent = e, true
}

// few is up to how many substances a sum names though there is nothing of them.
const few = 4

// elements is the formula of the moles of an element at a place, out of these
// substances.
func (w *Workings) elements(at string, e reaction.Element, among ...reaction.Substance) string {
	var parts []string
	for _, s := range among {
		n := s.Atoms(e)
		if n == 0 || len(among) > few && w.calc("n("+at+", "+s.Formula()+")") == 0 {
			continue
		}
		part := "n(" + at + ", " + s.Formula() + ")"
		if n != 1 {
			part = fmt.Sprintf("%g*%s", n, part)
		}
		parts = append(parts, part)
	}
	if parts == nil {
		return "0[mol]"
	}
	return strings.Join(parts, " + ")
}

// masses is the formula of what these substances weigh at a place.
func (w *Workings) masses(at string, among ...reaction.Substance) string {
	var parts []string
	for _, s := range among {
		if n := "n(" + at + ", " + s.Formula() + ")"; len(among) <= few || w.calc(n) != 0 {
			parts = append(parts, n+"*M("+s.Formula()+")")
		}
	}
	if parts == nil {
		return "0[g]"
	}
	return strings.Join(parts, " + ")
}

// everything is all substances.
var everything = func() (list []reaction.Substance) {
	for s := range reaction.Substance(reaction.Substances) {
		list = append(list, s)
	}
	return list
}()

// literal writes a number with its unit into a formula.
func literal(v float64, unit string) string {
	text := strconv.FormatFloat(math.Abs(v), 'f', -1, 64) + "[" + unit + "]"
	if v < 0 {
		return "(0[" + unit + "] - " + text + ")"
	}
	return text
}

// everythingDry is all but water.
var everythingDry = func() (list []reaction.Substance) {
	for _, s := range everything {
		if s != reaction.Water {
			list = append(list, s)
		}
	}
	return list
}()
