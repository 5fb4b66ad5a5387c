package route

import (
	"strings"
	"sync"

	"rosesalt/chem/figure"
	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
)

// Quantity is a number that formulas take beside figures and inputs, and that the stages
// set. It is no figure: only workings show it, which say where it comes from.
type Quantity int

// The quantities.
const (
	molarVolume   Quantity = iota // mL of SO2 a mole at the bench
	acidDensity                   // g/mL of the acid as bought
	cakeMn                        // mol of manganese in the washed cake
	broughtMn                     // mol of manganese brought to +2
	jarMn                         // mol of manganese in the jar
	roomLimit                     // ppm, the limit that the room is held against
	chargeRoom                    // mL that all that goes into the generator takes
	conditionsMet                 // as a number

	quantityCount
)

// quantities are their names in formulas.
var quantities = [quantityCount]string{
	molarVolume: "molar", acidDensity: "acid.density", cakeMn: "cake.Mn", broughtMn: "brought", jarMn: "jar.Mn", roomLimit: "limit", chargeRoom: "filled", conditionsMet: "conditions",
}

// Where the numbers of a sheet stand: the figures, the quantities, and the inputs and
// amounts that formulas name, with room for so many of each.
const (
	firstQuantity = int(figureCount)
	firstInput    = firstQuantity + int(quantityCount)
	mostInputs    = 11
	firstAmount   = firstInput + mostInputs
	mostAmounts   = 44
)

// moments are the names of places in formulas, n(place, substance): a vessel as it stands
// when a stage is done.
var moments = map[string]struct {
	stage  Stage
	vessel ledger.Vessel
}{
	"washed":  {Wash, ledger.Mix},
	"wash":    {Wash, ledger.WashLiquor},
	"spent":   {Gas, ledger.Generator},
	"reduced": {Slurry, ledger.Slurry},
	"vent":    {Slurry, ledger.Vent},
	"fumes":   {Dry, ledger.Vent},
	"jar":     {Dry, ledger.ProductJar},
}

// FormulaNamed is the chemical formula of a substance that formulas of figures call by a
// shorter name; all other names are formulas already.
func FormulaNamed(substance string) string {
	switch substance {
	case "hetaerolite":
		return reaction.Hetaerolite.Formula()
	case "basic":
		return reaction.BasicZincChloride.Formula()
	case "diammine":
		return reaction.ZincDiammine.Formula()
	case "dithionate":
		return reaction.ManganeseDithionate.Formula()
	}
	return substance
}

// SubstanceNamed is the substance that a formula of a figure names.
func SubstanceNamed(name string) reaction.Substance {
	s, ok := reaction.ByFormula(FormulaNamed(name))
	if !ok {
		panic("route: no substance " + name)
	}
	return s
}

// amount is one that formulas name.
type amount struct {
	place     int // on the sheet
	vessel    ledger.Vessel
	substance reaction.Substance
}

// derivations are the formulas of the figures, made ready.
type derivations struct {
	forms  [figureCount][]form
	inputs []*Input // that formulas name, from firstInput on
	// amounts that formulas name, by the stage after which they are read.
	amounts [Stages][]amount
	read    int // how many amounts
	held    []int

	leaves map[string]figure.Leaf // what names stand for that are no figures, as far as they were met

	// A sheet before anything is set.
	numbers [Numbers]float64
	reasons [figureCount]Reason
}

type form struct {
	when    Condition
	program *figure.Program
}

// derived makes the formulas ready when the first plan is run, not at the start of the
// program.
var derived = sync.OnceValue(func() *derivations {
	d := &derivations{leaves: map[string]figure.Leaf{}}
	for _, c := range Constants() {
		d.leaves[c.Key] = figure.Leaf{Fixed: true, Value: c.Value}
	}
	for k, key := range quantities {
		d.leaves[key] = figure.Leaf{Place: firstQuantity + k}
	}
	for i := range d.numbers {
		d.numbers[i] = quantity.Blank
	}
	for i := range figures {
		d.reasons[i] = NotReached
		forms := formsOf(&figures[i])
		for _, f := range forms {
			d.forms[i] = append(d.forms[i], form{f.When, figure.Compile(figure.Parse(f.Formula), func(name string) figure.Leaf { return d.leaf(name, f.When) })})
		}
		if forms == nil {
			d.reasons[i] = max(figures[i].Else, NotReached)
			d.held = append(d.held, i)
		}
	}
	for place := firstQuantity; place < firstAmount+d.read; place++ {
		d.held = append(d.held, place)
	}
	return d
})

// formsOf are the forms of a figure, that for all plans last; nil where the stages set it.
func formsOf(f *Figure) []Variant {
	if f.Formula == "" {
		return nil
	}
	return append(f.Variants[:len(f.Variants):len(f.Variants)], Variant{0, f.Formula})
}

// molarLeaf is a molar mass, M(…); not ok where the name is none.
func molarLeaf(name string) (leaf figure.Leaf, ok bool) {
	inside, ok := strings.CutPrefix(name, "M(")
	if !ok {
		return figure.Leaf{}, false
	}
	molar := formula.MustParse(FormulaNamed(strings.TrimSuffix(inside, ")"))).MolarMass()
	return figure.Leaf{Fixed: true, Value: float64(molar)}, true
}

// leaf finds what a name stands for in plans that meet a condition.
func (d *derivations) leaf(name string, when Condition) figure.Leaf {
	if id, ok := FigureByKey(name); ok {
		for _, f := range formsOf(&figures[id]) {
			if f.When&^when == 0 {
				return figure.Leaf{Formula: figure.Parse(f.Formula)}
			}
		}
		return figure.Leaf{Place: int(id)}
	}
	l, ok := d.leaves[name]
	if !ok {
		l = d.other(name)
		d.leaves[name] = l
	}
	return l
}

// other finds a molar mass, an amount or an input by its name.
func (d *derivations) other(name string) figure.Leaf {
	if molar, ok := molarLeaf(name); ok {
		return molar
	}
	if inside, ok := strings.CutPrefix(name, "n("); ok {
		at, substance, _ := strings.Cut(strings.TrimSuffix(inside, ")"), ", ")
		return figure.Leaf{Place: d.amount(at, SubstanceNamed(substance))}
	}
	in, ok := InputByKey(name)
	if !ok {
		panic("route: no quantity " + name)
	}
	if len(d.inputs) == mostInputs {
		panic("route: no room for the input " + name + " of a formula: make mostInputs larger")
	}
	d.inputs = append(d.inputs, in)
	return figure.Leaf{Place: firstInput + len(d.inputs) - 1}
}

// amount is the place of an amount.
func (d *derivations) amount(at string, substance reaction.Substance) int {
	moment, ok := moments[at]
	if !ok {
		panic("route: no place " + at)
	}
	list := &d.amounts[moment.stage]
	for _, have := range *list {
		if have.vessel == moment.vessel && have.substance == substance {
			return have.place
		}
	}
	if d.read == mostAmounts {
		panic("route: no room for the amount at " + at + " of a formula: make mostAmounts larger")
	}
	*list = append(*list, amount{firstAmount + d.read, moment.vessel, substance})
	d.read++
	return firstAmount + d.read - 1
}
