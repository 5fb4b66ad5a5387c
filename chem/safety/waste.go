package safety

import (
	"cmp"
	"slices"

	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// Bottle is one stream of waste, kept apart from the others.
type Bottle struct {
	of     string // key of its block
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

var bottles = phrase.Open(&files, "waste", "name", "treat", "keep")

// stream is a vessel of the ledger whose waste is kept apart; the block of its key says how.
type stream struct {
	key    string
	vessel ledger.Vessel
	thing  Thing
	solid  bool
}

var streams = [...]stream{
	{"wash", ledger.WashLiquor, "wash liquor", false},
	{"blue", ledger.CopperLiquor, "blue mother liquor", false},
	{"spent", ledger.Generator, "spent liquid of the generator", false},
	{"pink", ledger.MotherLiquor, "pink mother liquor", false},
	{"scrubber", ledger.Scrubber, "scrubber liquid", false},
	{"residue", ledger.Residue, "black residue", true},
	{"powder", ledger.CopperResidue, "black powder from the generator", true},
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
		b.Never = append(b.Never, string(t)+" with "+line)
	}
}

// small are the things that no ledger counts.
func small(p *route.Plan) Bottle {
	b := bottle("small", p)
	for _, t := range []Thing{"permanganate papers", "silver drops", "slurry"} {
		if t.In(p) {
			b.never(t, p, smallLines)
		}
	}
	return b
}

// bottle is the block of a key, as a bottle of which nothing is known yet.
func bottle(key string, p *route.Plan) Bottle {
	told := bottles.At(key, teller(p, nil))
	return Bottle{of: key, Name: told.One("name"), Treat: told.One("treat"), Keep: told.One("keep")}
}

// Bottles are the streams of waste of a run, read off its ledger and its figures, and
// last the small things that no ledger counts.
func Bottles(p *route.Plan, book *ledger.Book, sheet *route.Sheet) []Bottle {
	var list []Bottle
	for i := range streams {
		if s := &streams[i]; s.thing.In(p) && book.TotalMass(s.vessel) >= least {
			list = append(list, s.fill(p, book, sheet))
		}
	}
	return append(list, small(p))
}

func (s *stream) fill(p *route.Plan, book *ledger.Book, sheet *route.Sheet) Bottle {
	key, thing := s.key, s.thing
	potash := book.Amount(s.vessel, reaction.Potash)
	lye := s.vessel == ledger.WashLiquor && potash > 0
	if lye {
		key, thing = "lye", "wash lye"
	}
	b := bottle(key, p)
	b.Mass, b.Holds, b.Never = book.TotalMass(s.vessel), contents(book, s.vessel), Never(thing, p, cardLines)
	switch {
	case s.vessel == ledger.Scrubber: // the ledger does not count its water
		b.Volume = quantity.Millilitre(sheet.Value(route.ScrubLiquid))
	case !s.solid:
		b.Volume = quantity.Millilitre(book.Mass(s.vessel, reaction.Water))
	}
	for i, e := range metals {
		b.Metals[i] = book.Element(s.vessel, e).Mass(metalMass[i])
	}
	switch {
	case lye: // half a mole of acid to a mole of potash, and no soda
		b.Acid = quantity.Millilitre(potash.Millimoles() / 2)
	case b.Treat != "":
		b.Soda = route.Soda(book, s.vessel)
	}
	return b
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

// PourTogether pours the bottles of several runs together, stream by stream, in the order
// in which they first come.
func PourTogether(runs ...[]Bottle) []Bottle {
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
