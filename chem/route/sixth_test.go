package route

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

// sixth is a way of the tests alone: sulfur dioxide dissolved in water, 5 % by mass,
// poured into the slurry, which is kept warm and keeps nine tenths of it. It borrows its
// charge and its figures from metabisulfite, since a plan and a sheet have as many as were
// compiled in.
var sixth = reductant{
	word: "sulfurouswater", name: "sulfur dioxide in water",
	inputs:  slices.Concat(sulfurousKeys, []string{"stir.excess", "salt.charge"}),
	bought:  func(*Plan) string { return "Sulfur dioxide in water, 5 %" },
	charge:  func(p *Plan) *float64 { return (*float64)(&p.SaltCharge) },
	key:     "salt.charge",
	used:    SaltUsed,
	needed:  SaltNeeded,
	handled: []Substance{SulfurDioxide},
	warm:    true,
	bears:   150,
	kept:    func(*Plan) quantity.Percent { return 90 },
	stir: &stirred{
		pure: func(_ *Plan, g float64) quantity.Mole { return SulfurDioxide.Moles(quantity.Gram(g / 20)) },
		needs: func(b *Runner, p *Plan, pairs quantity.Mole) quantity.Mole {
			return pairs * quantity.Mole((1+b.carry.dithionate)*(1+p.StirExcess.Fraction())/0.9)
		},
		bought: func(_ *Plan, n quantity.Mole) float64 { return 20 * float64(SulfurDioxide.Mass(n)) },
		bring: func(b *Runner, _ *Plan, n quantity.Mole) {
			b.book.Bring(ledger.Slurry, SulfurDioxide, n)
			b.book.Bring(ledger.Slurry, Water, Water.Moles(19*SulfurDioxide.Mass(n)))
		},
		act: func(b *Runner, p *Plan) float64 {
			b.book.MoveShare(ledger.Slurry, ledger.Vent, SulfurDioxide, 0.1)
			w := b.work()
			return b.leadIn(w, float64(b.has(ledger.Slurry, SulfurDioxide)), p.SlurryBases.Fraction()).heat(w)
		},
	},
	formulas: Formulas{
		Need:  "pairs*(1 + demand.dithionate/100[%])*(1 + stir.excess/100[%])*10/9",
		Given: "salt.charge/20/M(SO2)",
		Blank: "stir.need",
		Define: `
			= salt.needed | stir.need*20*M(SO2)
			= salt.used | stirred*20*M(SO2)
			= demand.acid | acid.bare*1000[mmol/mol]
		`,
		Brings:  "19*stirred*M(SO2)/liquor",
		More:    "0[kJ/mol]",
		Arrives: "n(acted, SO2)*9/10",
	},
}

// AddSixth lets plans be reduced in a sixth way while a test runs, and gives its word.
func AddSixth(t testing.TB) string {
	t.Helper()
	source := input(t, "gas.source")
	waysBefore, options := reductants, source.Options
	used, needed := figures[SaltUsed].Of, figures[SaltNeeded].Of
	reductants = append(reductants[:len(reductants):len(reductants)], &sixth)
	source.Options = append(options[:len(options):len(options)], field.Option{Word: sixth.word, Name: sixth.name})
	figures[SaltUsed].Of, figures[SaltNeeded].Of = byStirring, byStirring
	t.Cleanup(func() {
		reductants, source.Options = waysBefore, options
		figures[SaltUsed].Of, figures[SaltNeeded].Of = used, needed
	})
	return sixth.word
}

// TestASixthWayKeepsItsBooks: what a file declares and the list of ways holds is planned as
// the others are.
func TestASixthWayKeepsItsBooks(t *testing.T) {
	word, source := AddSixth(t), input(t, "gas.source")
	var b Runner
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		if err := source.Choose(p, word); err != nil {
			t.Fatal(err)
		}
		settle(t, p)
		s := b.Run(p)
		booksClose(t, p, &b)
		mayStand(t, p, s)
	})
}
