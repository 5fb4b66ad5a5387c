package route

import (
	"math"

	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

// stirred is a reductant that goes straight into the slurry: what it is, how it is sold, and
// the equations of what it does there. The stages compute by this, and the formulas that are
// printed are written by it (formulas.go). How much of it the oxide takes, and how much dilute
// acid goes with that, follows from the equations. A pair is two electrons that the oxide takes up.
type stirred struct {
	inputs []Input // that no other way has
	pure   Substance

	// How it is sold: as crystals that hold water, or in water; weighed, or by volume.
	waters   float64      // mol to a mole
	strength *Input       // % by mass; nil where it is not in water
	density  *table.Table // g/mL by strength; nil where it is weighed
	weighed  FigureID     // what that volume weighs; 0 where it is weighed

	excess *Input // % over the need that goes in; nil where none does

	more heat // kJ/mol, how much more a pair gives off than with gas

	// Where it works as sulfur dioxide.
	kept  *Input    // % of the gas that the slurry keeps; nil where it works itself
	frees *Equation // by which acid sets the gas free; nil where it is the gas

	// Where it works itself.
	before []*Equation // that take of it before the oxide does
	oxides reductions
	bare   *reductions // where dilute acid is short, by protons of its own; nil where it stops there
	lost   *Input      // % of it that does nothing; nil for none
	done   *Input      // % of the oxide in reach that it brings into solution; nil for all
	after  *Equation   // what becomes of the rest of it
	falls  *Input      // % of the rest of which that becomes; nil for all
	breaks heat        // kJ/mol that this gives off
	froth  Substance   // that comes off as a gas

	mole        float64 // g, as sold, without what it is dissolved in
	pairs       float64 // that a mole gives to the oxide
	acidPerPair float64 // mol H2SO4 that a pair takes beside what it would with gas
	acidPerMole float64 // mol H2SO4 that a mole takes up itself
}

// reductions are the equations by which a reductant dissolves each of the oxides.
type reductions [len(oxides)]*Equation

var (
	stirExcess = Input{
		Field: field.Field{
			Key: "stir.excess", Name: "Excess over the demand", Unit: "%", Default: 10, Min: 0, Max: 500,
			Why: "So that the oxide, not the reductant, runs out first.",
		},
		DrawGroup: 1, Sizes: true,
		number: func(p *Plan) *float64 { return (*float64)(&p.StirExcess) },
	}

	stirInputs = []Input{stirExcess}
)

// Figures of what is stirred in.
var stirFigures = []Figure{
	{ID: StirFroth, Key: "stir.froth", Unit: "L", Name: "Oxygen or carbon dioxide that froths out of the slurry", Main: true, Of: byStirring},
	{
		ID: SlurrySulfite, Key: "slurry.sulfite", Unit: "mmol", Name: "Hydrogensulfite, for want of dilute acid", Of: bySulfurDioxide,
		Formula: "(2*n(reduced, Mn(HSO3)2) + 2*n(reduced, Zn(HSO3)2) + n(reduced, NH4HSO3) + n(reduced, KHSO3))*1000[mmol/mol]",
	},
	{ID: StirServes, Key: "stir.serves", Unit: "%", Name: "What goes in, of what is needed", Of: byStirring, Else: NoPairs},
}

// coefficient is how many moles of a substance an equation takes or gives to a mole of another.
func coefficient(e *Equation, of, to Substance) float64 {
	return math.Abs(e.Coefficient(of) / e.Coefficient(to))
}

// newStirred works out what follows from the equations.
func newStirred(s stirred) *stirred {
	s.mole = mass(s.pure) + s.waters*mass(Water)
	switch {
	case s.kept == nil:
		s.pairs = coefficient(s.oxides[0], ManganeseDioxide, s.pure)
		s.acidPerPair = coefficient(s.oxides[0], SulfuricAcid, ManganeseDioxide)
	case s.frees == nil:
		s.pairs = 1
	default:
		s.pairs = coefficient(s.frees, SulfurDioxide, s.pure)
		s.acidPerMole = coefficient(s.frees, SulfuricAcid, s.pure)
	}
	return &s
}

// asBought is the grams or millilitres as bought that hold a mole.
func (s *stirred) asBought(p *Plan) float64 {
	n := s.mole / s.strength.fraction(p, 1)
	if s.density != nil {
		n /= at(s.density, *s.strength.number(p))
	}
	return n
}

// needs is the charge for so many pairs of the oxide as weighed out, mol. Of what works itself
// it is that of the best yield, dilute acid given enough: what the oxide in reach takes, and
// what is lost beside it.
func (s *stirred) needs(b *Runner, p *Plan, pairs quantity.Mole) quantity.Mole {
	n := float64(pairs) / s.pairs
	if s.kept != nil {
		n *= (1 + b.carry.dithionate) / s.kept.fraction(p, 1)
	} else {
		n *= p.reached()
	}
	return quantity.Mole(n * s.done.fraction(p, 1) * (1 + s.excess.fraction(p, 0)) / (1 - s.lost.fraction(p, 0)))
}

// charge works out what is stirred in: what the pairs of the batch take, with what
// gets lost and the excess, or what is given; and the dilute acid that it takes.
func (b *Runner) charge(p *Plan, r *reductant, pairs quantity.Mole) {
	stir, mole := r.stir, r.stir.asBought(p)
	needed := stir.needs(b, p, pairs)
	used := needed
	if given := r.charge.Value(p); quantity.Given(given) {
		used = quantity.Mole(given / mole)
	}
	b.carry.stirred = used
	b.carry.demandAcid += pairs*quantity.Mole(stir.acidPerPair) + used*quantity.Mole(stir.acidPerMole)
	b.set(r.needed, float64(needed)*mole)
	b.set(r.used, float64(used)*mole)
	if serves := 100 * float64(used/needed); needed > 0 && !math.IsInf(serves, 1) { // next to nothing may be needed
		b.set(StirServes, serves)
	}
}

// bring puts the charge into the slurry, with the water that comes along.
func (s *stirred) bring(b *Runner, p *Plan) {
	n := b.carry.stirred
	b.book.Bring(ledger.Slurry, s.pure, n)
	water := quantity.Mole(s.waters) * n
	if s.strength != nil {
		pure := s.pure.Mass(n)
		whole := pure / quantity.Gram(s.strength.fraction(p, 1))
		water = Water.Moles(whole - pure)
		if s.weighed > 0 {
			b.grams(s.weighed, whole)
		}
	}
	if water > 0 {
		b.book.Bring(ledger.Slurry, Water, water)
	}
}

// act lets the charge work, and tells the heat that it gives off, kJ.
func (b *Runner) act(p *Plan, r *reductant) (heat float64) {
	if r.stir.kept != nil {
		return b.freeGas(p, r)
	}
	return b.reduceWith(p, r.stir)
}

// freeGas lets the acid set the gas free, as far as it goes; what the slurry does
// not keep escapes, the rest does its work.
func (b *Runner) freeGas(p *Plan, r *reductant) (heat float64) {
	s, freed := r.stir, b.carry.stirred
	if s.frees != nil {
		freed = quantity.Mole(s.frees.Coefficient(SulfurDioxide)) * b.react(ledger.Slurry, s.frees, unlimited)
	}
	b.carry.made = freed
	if r.frees > 0 {
		b.millimoles(r.frees, freed)
	}
	b.book.MoveShare(ledger.Slurry, ledger.Vent, SulfurDioxide, 1-s.kept.fraction(p, 1))
	w := b.work()
	l := b.leadIn(w, float64(b.has(ledger.Slurry, SulfurDioxide)), p.SlurryBases.Fraction())
	return l.heat(w) + (l.pairs(w)+l.saved)*s.more.kJ
}

// reduceWith lets the reductant reduce its share of the oxide in reach. Where dilute acid is
// short it stops, or brings the protons as well, a mole for each that is missing, and its
// salts fall out; ammonia and potash that found no acid are left as they are. Then follows
// what becomes of the rest of it, in the slurry or at the latest on boiling.
func (b *Runner) reduceWith(p *Plan, s *stirred) (heat float64) {
	for _, e := range s.before {
		b.react(ledger.Slurry, e, unlimited)
	}
	w := b.work()
	share, byAcid := 0.0, 1.0
	if w.pairs() > 0 {
		at := float64(b.has(ledger.Slurry, s.pure)) * s.pairs * (1 - s.lost.fraction(p, 0))
		share = at / w.pairs()
		if share*w.cations() > w.have {
			share = w.have / w.cations()
			if s.bare != nil {
				share = (at + w.have) / (w.pairs() + w.cations())
			}
		}
		share = lesser(share, s.done.fraction(p, 1))
		if s.bare != nil && share*w.cations() > w.have {
			byAcid = w.have / (share * w.cations())
		}
	}
	b.onOxides(w, share*byAcid, s.oxides[:]...)
	if byAcid < 1 {
		b.onOxides(w, share*(1-byAcid), s.bare[:]...)
	}
	rest := unlimited
	if s.falls != nil {
		rest = b.has(ledger.Slurry, s.pure) * quantity.Mole(s.falls.fraction(p, 1))
	}
	after := b.react(ledger.Slurry, s.after, rest)
	b.carry.froth = b.has(ledger.Slurry, s.froth)
	b.book.MoveShare(ledger.Slurry, ledger.Vent, s.froth, 1)
	return w.heat(share, s.more.kJ) + float64(after)*s.breaks.kJ
}
