package route

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"rosesalt/chem/figure"
	"rosesalt/chem/phrase"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

// Formulas are how the figures of a way of reducing the oxide follow, beside those that
// stand in the figures' rows: package working prints them, and its tests hold them to what
// the stages compute. They are written out of what the way declares. Definitions are as in
// package working, one a line: symbol, unit, name and formula, or = and the key of a figure,
// and its formula.
type Formulas struct {
	Reads  []TableRead // out of tables
	Define string      // definitions
	Counts []*Equation // whose coefficients stand in them
	By     *Equation   // the reaction that Explains or Extent is about; nil for none

	// Of a way that makes gas: perSolid and perMillilitre, the gas that a mole of the solid
	// and a millilitre of acid give, are among the definitions, and where the liquid holds gas
	// back fixed, heldPerMole and added.
	Holding  string // the input that says how warm the liquid is that holds gas back
	Explains string // the definition that follows from By
	Solid    string // formula of the solid
	Over     string // how many times what the acid takes goes in where it is left blank; "" for once
	Density  string // key of its density

	// Of what is stirred in, amounts in mol of it.
	Need   string      // for the oxide
	Given  string      // a charge that is given
	Brings string      // mL of water that comes along; "" for none
	Acts   []*Equation // that go on while the dilute acid works
	Extent string      // symbol for how far By goes; "" for none
	More   string      // kJ/mol, how much more a pair gives off than with gas
	Heat   string      // kJ given off besides; "" for none
	// Part is the share of the oxide that is reduced, ShortPart what it is where ShortIf
	// holds. Where sulfur dioxide does the work these are empty, and Arrives is the gas, mol,
	// that is left to do it.
	Part, ShortIf, ShortPart string
	Arrives                  string
}

// TableRead is a number out of a table, read at an input.
type TableRead struct {
	Symbol, Name string
	Table        *table.Table
	At           string
}

// Factors of a formula for an input of percents, of 100 of which one is the whole: so much,
// what that leaves, and the whole with so much more; empty where there is no such input.
func percentOf(in *Input) string   { return factor("%s/100[%%]", in) }
func percentLeft(in *Input) string { return factor("(1 - %s/100[%%])", in) }
func percentMore(in *Input) string { return factor("(1 + %s/100[%%])", in) }

func factor(text string, in *Input) string {
	if in == nil {
		return ""
	}
	return fmt.Sprintf(text, in.Key)
}

// product joins those of the factors that are not empty.
func product(factors ...string) string {
	return strings.Join(slices.DeleteFunc(factors, func(f string) bool { return f == "" }), "*")
}

// over divides by a factor that is neither empty nor 1.
func over(factor string) string {
	if factor == "" || factor == "1" {
		return ""
	}
	return "/(" + factor + ")"
}

// multiple is so many times a factor.
func multiple(n float64, factor string) string {
	if n == 1 {
		return factor
	}
	return product(numeral(n), factor)
}

func numeral(n float64) string { return strconv.FormatFloat(n, 'g', -1, 64) }

// computed is a formula that a stage works out of numbers of its own, named in their order.
type computed struct {
	text    string
	program func() *figure.Program
}

func compute(text string, names ...string) computed {
	return computed{text, sync.OnceValue(func() *figure.Program {
		return figure.Compile(figure.Parse(text), func(name string) figure.Leaf {
			if molar, ok := molarLeaf(name); ok {
				return molar
			}
			return figure.Leaf{Place: slices.Index(names, name)}
		})
	})}
}

// of is its value.
func (w *computed) of(numbers ...float64) float64 { return w.program().Run(numbers) }

// formulas are those of a reductant that is stirred in.
func (s *stirred) formulas(r *reductant) *Formulas {
	f := &Formulas{More: cmp.Or(s.more.text, "0[kJ/mol]")}
	var define strings.Builder
	is := func(id FigureID, text string) { fmt.Fprintf(&define, "= %s | %s\n", id.Info().Key, text) }

	molar := "M(" + s.pure.Formula() + ")"
	mole, density := molar, "" // what a mole weighs as sold
	if s.waters > 0 {
		mole = "(" + molar + " + " + multiple(s.waters, "M(H2O)") + ")"
	}
	if s.density != nil {
		density = "stir.density"
		f.Reads = []TableRead{{density, "density of the " + phrase.Lower(r.bought), s.density, s.strength.Key}}
	}
	weighs := func(amount string) string { return product(amount, mole) + over(percentOf(s.strength)) }
	f.Given = product(r.charge.Key, density, percentOf(s.strength)) + over(mole)
	is(r.needed, weighs("stir.need")+over(density))
	is(r.used, weighs("stirred")+over(density))
	weighed := r.used
	if s.weighed > 0 {
		weighed = s.weighed
		is(weighed, weighs("stirred"))
	}
	switch {
	case s.waters > 0:
		f.Brings = multiple(s.waters, "stirred") + "*M(H2O)/liquor"
	case s.strength != nil:
		f.Brings = "(" + weighed.Info().Key + " - stirred*" + molar + ")/liquor"
	}

	acid := "acid.bare"
	if s.acidPerPair > 0 {
		acid += " + " + multiple(s.acidPerPair, "pairs")
	}
	if s.acidPerMole > 0 {
		acid += " + " + multiple(s.acidPerMole, "stirred")
	}
	is(DemandAcid, "("+acid+")*1000[mmol/mol]")

	reached := "(1 - loss.transfer/100[%])*slurry.reach/100[%]"
	if s.kept != nil {
		reached = "(1 + demand.dithionate/100[%])"
	}
	f.Need = product("pairs"+over(numeral(s.pairs)), reached, percentOf(s.done), percentMore(s.excess)) + over(percentLeft(s.lost)) + over(percentOf(s.kept))

	if s.kept != nil {
		s.gasFormulas(r, f, is)
	} else {
		s.ownFormulas(f)
	}
	f.Define = define.String()
	return f
}

// gasFormulas are those of what works as sulfur dioxide.
func (s *stirred) gasFormulas(r *reductant, f *Formulas, is func(FigureID, string)) {
	f.Counts = []*Equation{ReduceDioxide, ReduceDioxideDithionate}
	f.Arrives = product("n(acted, SO2)", percentOf(s.kept))
	if s.frees == nil {
		return
	}
	f.By, f.Extent, f.Acts = s.frees, "freed", []*Equation{s.frees}
	f.Counts = append(f.Acts, f.Counts...)
	is(r.frees, multiple(s.frees.Coefficient(SulfurDioxide), "freed")+"*1000[mmol/mol]")
}

// ownFormulas are those of what works itself.
func (s *stirred) ownFormulas(f *Formulas) {
	f.Acts, f.Counts = s.before, s.oxides[:]
	if s.breaks.text != "" {
		f.By, f.Extent, f.Counts = s.after, "after", append(f.Counts[:len(f.Counts):len(f.Counts)], s.after)
		f.Heat = "after*(" + s.breaks.text + ")"
	}
	at := "stirred"
	if s.before != nil {
		at = "n(acted, " + s.pure.Formula() + ")"
	}
	at = product(multiple(s.pairs, at), percentLeft(s.lost))
	short, most := "have/cations", ", "+cmp.Or(percentOf(s.done), "1")+")"
	if s.bare != nil {
		short = "(" + at + " + have)/(reach.pairs + cations)"
	}
	at += "/reach.pairs"
	f.Part, f.ShortIf, f.ShortPart = "min("+at+most, at+"*cations > have", "min("+short+most
}
