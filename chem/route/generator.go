package route

import (
	"fmt"
	"math"
	"strings"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

// generator is how gas is made: the solid that strong acid acts on, and the equations by
// which it does. The stages compute by this, and the formulas that are printed are written by
// it too.
type generator struct {
	solid   Substance
	density *Constant // g/mL of the solid
	by      *Equation // that makes the gas
	side    *Equation // that makes none of the same; nil for none
	aside   *Input    // % of the solid that goes there
	over    *Input    // % of the solid that goes in beyond what the acid takes; nil for none

	// Where the acid is not used up to the last.
	fades func(g *generator, p *Plan, acid strongAcid) (solid float64) // mol of the solid that a mL takes
	tells func(g *generator, p *Plan) string                           // the same as definitions, with weakens for the result
	reads []TableRead                                                  // for these

	strict func(p *Plan) // lets all of it go to gas, as the formulas alone have it; nil where it does

	// Where the liquid holds gas back.
	water *Input // mL put in beside the acid; nil where no gas is held back
	warm  *Input // °C of the liquid

	steams func(b *Runner, p *Plan, made quantity.Mole) // lets water leave, of so much made; nil where none does

	rates [Substances][2]float64 // mol of each that a mole of the solid takes or gives in by and in side
}

// newGenerator works out what follows from the equations.
func newGenerator(g generator) *generator {
	for i, e := range []*Equation{g.by, g.side} {
		if e != nil {
			for _, t := range e.Terms() {
				g.rates[t.Substance][i] = math.Abs(t.Coefficient / e.Coefficient(g.solid))
			}
		}
	}
	return &g
}

// per is how much of a substance a mole of the solid takes or gives, mol.
func (g *generator) per(p *Plan, s Substance) float64 {
	aside := g.aside.fraction(p, 0)
	return g.rates[s][0]*(1-aside) + g.rates[s][1]*aside
}

// perText is the formula of per.
func (g *generator) perText(s Substance) string {
	if g.side == nil {
		return numeral(g.rates[s][0])
	}
	text := multiple(g.rates[s][0], percentLeft(g.aside))
	if k := g.side.Coefficient(s); k != 0 {
		text += " + " + numeral(math.Abs(k)) + "/" + numeral(-g.side.Coefficient(g.solid)) + "*" + percentOf(g.aside)
	}
	return text
}

// charge is what the acid and the solid of a plan can give. The water that holds gas back is
// what is put in, that of the acid used up and that of the reaction; the little of acid beyond
// what the solid can use is taken to hold nothing back.
func (g *generator) charge(p *Plan, acid strongAcid, solid *Input) charge {
	c := charge{
		solid:    g.solid,
		perSolid: g.per(p, SulfurDioxide),
		given:    quantity.Gram(solid.Value(p)),
		density:  g.density.Value,
		over:     g.over.fraction(p, 0),
	}
	if g.fades != nil {
		c.perMillilitre = greater(0, g.fades(g, p, acid)) * c.perSolid
	} else {
		c.perMillilitre = acid.acid / g.per(p, SulfuricAcid) * c.perSolid
	}
	if g.water != nil {
		held := gasSolubility(quantity.Celsius(g.warm.Value(p)), p.AirPressure) / 100 / mass(SulfurDioxide) // mol in a g of water
		c.added = quantity.Millilitre(g.water.Value(p))
		c.fixed = held * float64(c.added)
		c.heldPerMole = held * mass(Water) / c.perSolid * (acid.water/acid.acid*g.per(p, SulfuricAcid) + g.per(p, Water))
	}
	return c
}

// run makes so much gas in the liquid, mol.
func (g *generator) run(b *Runner, p *Plan, c charge, inLiquid float64) {
	before := b.has(ledger.Generator, Water)
	b.react(ledger.Generator, g.by, quantity.Mole(inLiquid/g.by.Coefficient(SulfurDioxide)))
	if g.side != nil {
		b.react(ledger.Generator, g.side, quantity.Mole(inLiquid/c.perSolid*g.aside.fraction(p, 0)/-g.side.Coefficient(g.solid)))
	}
	if g.steams != nil {
		g.steams(b, p, b.has(ledger.Generator, Water)-before)
	}
}

// formulas are those of a reductant that makes gas.
func (g *generator) formulas(r *reductant, p *Plan) *Formulas {
	f := &Formulas{By: g.by, Explains: "perSolid", Solid: g.solid.Formula(), Over: percentMore(g.over), Density: g.density.Key, Reads: g.reads}
	var define strings.Builder
	is := func(symbol, unit, name, text string) {
		fmt.Fprintf(&define, "%s | %s | %s | %s\n", symbol, unit, name, text)
	}

	of, acid, perMillilitre := r.called, g.perText(SulfuricAcid), "max(0[mol/mL], weakens)*perSolid"
	if g.fades != nil {
		f.Explains, f.Counts = "takes", []*Equation{g.by, g.side}
		is("takes", "", "acid that a mole of "+of+" uses", acid)
		define.WriteString(g.tells(g, p))
	} else {
		perMillilitre = "perSolid*acid.acid" + over(acid)
		if acid == "1" {
			of += ", or of acid"
		}
	}
	is("perSolid", "", "gas from a mole of "+of, g.perText(SulfurDioxide))
	is("perMillilitre", "mol/mL", "gas from a millilitre of acid", perMillilitre)
	if g.water != nil {
		f.Holding = g.warm.Key
		is("perGram", "mol/g", "gas that a gram of the liquid's water holds", "warm.soluble/100[g]/M(SO2)")
		is("fixed", "mol", "gas that the water put in holds back", "perGram*"+g.water.Key+"*liquor")
		is("heldPerMole", "", "share of the gas that the acid's own water holds back",
			"perGram*M(H2O)"+over(g.perText(SulfurDioxide))+"*("+multiple(g.per(p, SulfuricAcid), "acid.water/acid.acid")+" + "+g.perText(Water)+")")
		is("added", "mL", "water put into the generator", g.water.Key)
	}
	f.Define = define.String()
	return f
}
