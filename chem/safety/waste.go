package safety

import (
	"cmp"
	"slices"

	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// Bottle is one stream of waste, kept apart from the others.
type Bottle struct {
	Name   string
	Volume quantity.Millilitre // of the water in it; 0 for a solid
	Mass   quantity.Gram       // of all that is in it
	Holds  []Content           // without the water, the heaviest first
	Metals [3]quantity.Gram    // copper, zinc and manganese in it
	Soda   quantity.Gram       // anhydrous, for the acid and the metals; 0 where none helps
	Acid   quantity.Millilitre // of 1 mol/L, for lye; 0 where there is none
	Treat  string              // how to bring the metals down
	Never  []string            // what it must never meet, the gravest; Meetings has all
	Keep   string              // how to keep it
}

// Content is a substance in a bottle.
type Content struct {
	Substance reaction.Substance
	Name      string
	Mass      quantity.Gram
}

// The pH at which the metals fall out best: copper at about 8, zinc at 9 to 10, manganese
// above 9.5, and with air brown at 8.5 to 9.5; much above 10 zinc and copper go back
// into solution (water-treatment bulletin on hydroxide precipitation, copper 8.1 and
// zinc 10.1, second hand; manganese from memory).
const (
	copperDown = "Soda in small portions, stirring, until it froths no more and pH paper shows 8 to 9: copper falls out green at about 8. Not above 10, where copper and zinc dissolve again. Let it stand overnight, decant; sludge and liquid both go to collection."
	zincDown   = "Outdoors only: it holds ammonium, and base drives ammonia out. Soda in small portions to pH 9 to 10 brings zinc and manganese down, but ammonia holds a part of them in solution, so the clear liquid is still waste. Untreated is as good, if the collection takes it."
	roseDown   = "Soda in small portions to pH 9 to 10 brings manganese and zinc down; air turns the sludge brown. Let it stand overnight, decant; both go to collection."
)

// Loose is how a bottle that was neutralised is kept.
const Loose = "Jar no more than half full, and the cap loose overnight after any base: it goes on giving gas."

const scrubberName = "Scrubber liquid"

type stream struct {
	vessel ledger.Vessel
	name   string
	thing  Thing
	solid  bool
	treat  string
	keep   string
	when   way
}

var streams = [...]stream{
	{
		ledger.WashLiquor, "Wash liquor", WashLiquor, false, zincDown,
		Loose, always,
	},
	{
		ledger.CopperLiquor, "Blue mother liquor", BlueLiquor, false, copperDown,
		Loose, withCopper,
	},
	{
		ledger.Generator, "Spent liquid of the generator", SpentLiquid, false, copperDown,
		Loose, withMetabisulfite,
	},
	{
		ledger.MotherLiquor, "Pink mother liquor", PinkLiquor, false, roseDown,
		Loose, always,
	},
	{
		ledger.Scrubber, scrubberName, ScrubberLiquid, false, "",
		"Cap loose overnight: it gives off carbon dioxide. Air turns the sulfite to sulfate in some days.", always,
	},
	{
		ledger.Residue, "Black residue, with its filter papers", BlackResidue, true, "",
		"Damp, in a lidded pail. No broom: its dust holds manganese and often lead.", always,
	},
	{
		ledger.CopperResidue, "Black powder from the generator, with left copper", BlackPowder, true, "",
		"Rinsed and damp; not into the household bin. Bright copper can go into the next charge.", withCopper,
	},
}

// least is the mass of a content that is worth a line.
const least quantity.Gram = 0.05

var metals = [3]reaction.Element{reaction.Cu, reaction.Zn, reaction.Mn}

var metalMass = [3]quantity.GramPerMole{
	formula.MustParse("Cu").MolarMass(), formula.MustParse("Zn").MolarMass(), formula.MustParse("Mn").MolarMass(),
}

// How many lines of what they must never meet a card, a thing of the small ones, and a label
// have room for: the gravest stand first.
const cardLines, smallLines, labelLines = 6, 2, 2

// never adds what one of the small things must never meet.
func (b *Bottle) never(t Thing, p *route.Plan, most int) {
	for _, line := range Never(t, p, most) {
		b.Never = append(b.Never, t.String()+" with "+line)
	}
}

// small are the things that no ledger counts.
func small(p *route.Plan) Bottle {
	b := Bottle{Name: "Small things: "}
	if withSulfurous.applies(p) {
		b.Name += "permanganate papers, "
		b.never(PermanganatePapers, p, smallLines)
		b.Keep += "Papers wet, in a jar of their own. "
	}
	if withZincCarbon.applies(p) {
		b.Name += "silver test drops, "
		b.never(SilverDrops, p, smallLines)
		b.Keep += "Silver drops into a little nitric acid, to collection with the label “silver”. "
	}
	b.Name += "gloves, rinsings"
	b.never(Slurry, p, smallLines)
	b.Keep += "First rinsings of glassware go to their own liquor. Nothing of it into the household bin."
	return b
}

// Bottles are the streams of waste of a run, read off its ledger and its figures, and
// last the small things that no ledger counts.
func Bottles(p *route.Plan, book *ledger.Book, sheet *route.Sheet) []Bottle {
	var list []Bottle
	for i := range streams {
		s := &streams[i]
		if !s.when.applies(p) || book.TotalMass(s.vessel) < least {
			continue
		}
		b := s.fill(book)
		thing := s.thing
		if s.vessel == ledger.Scrubber { // the ledger does not count its water
			b.Volume = quantity.Millilitre(sheet.Value(route.ScrubLiquid))
		}
		if s.vessel == ledger.WashLiquor && book.Amount(s.vessel, reaction.Potash) > 0 {
			b.lye(quantity.Millilitre(book.Amount(s.vessel, reaction.Potash).Millimoles() / 2))
			thing = WashLye
		}
		b.Never = Never(thing, p, cardLines)
		list = append(list, b)
	}
	return append(list, small(p))
}

func (s *stream) fill(book *ledger.Book) Bottle {
	b := Bottle{Name: s.name, Mass: book.TotalMass(s.vessel), Holds: contents(book, s.vessel), Treat: s.treat, Keep: s.keep}
	if !s.solid {
		b.Volume = quantity.Millilitre(book.Mass(s.vessel, reaction.Water))
	}
	for i, e := range metals {
		b.Metals[i] = book.Element(s.vessel, e).Mass(metalMass[i])
	}
	if s.treat != "" {
		b.Soda = route.Soda(book, s.vessel)
	}
	return b
}

// lye makes a bottle of wash liquor that of alkaline cells: half a mole of acid to a
// mole of potash, and no soda.
func (b *Bottle) lye(acid quantity.Millilitre) {
	b.Name, b.Soda, b.Acid = "Wash lye", 0, acid
	b.Treat = "Dilute acid into it, slowly, stirring, and stop at pH 9, by pH paper: zinc falls out white, and below 8 it dissolves again. It warms. Let it stand overnight, decant; both go to collection."
	b.Keep = "It burns skin and eyes without much pain at first. In plastic with a cap, not in glass with a ground stopper. " + Loose
}

// contents are what a vessel holds besides water, the heaviest first.
func contents(book *ledger.Book, v ledger.Vessel) []Content {
	var list []Content
	for substance := range reaction.Substance(reaction.Substances) {
		if m := book.Mass(v, substance); substance != reaction.Water && substance != reaction.CarbonDioxide && m >= least {
			list = append(list, Content{substance, substance.Name(), m})
		}
	}
	slices.SortStableFunc(list, func(a, b Content) int { return cmp.Compare(b.Mass, a.Mass) })
	return list
}

// Together pours the bottles of several runs together, stream by stream, in the order
// in which they first come.
func Together(runs ...[]Bottle) []Bottle {
	var list []Bottle
	at := map[string]int{}
	for _, bottles := range runs {
		for _, b := range bottles {
			i, there := at[b.Name]
			if !there {
				at[b.Name] = len(list)
				b.Holds = slices.Clone(b.Holds)
				list = append(list, b)
				continue
			}
			pour(&list[i], b)
		}
	}
	return list
}

func pour(into *Bottle, b Bottle) {
	into.Volume += b.Volume
	into.Mass += b.Mass
	into.Soda += b.Soda
	into.Acid += b.Acid
	for i := range into.Metals {
		into.Metals[i] += b.Metals[i]
	}
	for _, c := range b.Holds {
		if i := slices.IndexFunc(into.Holds, func(h Content) bool { return h.Name == c.Name }); i >= 0 {
			into.Holds[i].Mass += c.Mass
		} else {
			into.Holds = append(into.Holds, c)
		}
	}
	slices.SortStableFunc(into.Holds, func(a, b Content) int { return cmp.Compare(b.Mass, a.Mass) })
}
