// Package cell says what is in a dry cell when it is new: how much black mix,
// zinc and carbon rod, by size, and what the mix is made of, by kind.
//
// No table of measured masses by size was at hand. The masses are estimates built
// from published figures; a weighing replaces any of them.
package cell

import (
	"strings"

	"rosesalt/chem/quantity"
)

// Estimate is a value used until something is weighed: the best guess, which the true
// value passes as often as not, with a low and a high that it should seldom pass.
type Estimate struct{ Low, Best, High float64 }

// Size is a row of the size table: a cell's mark, its common letter, and the
// masses of its parts when new, in grams.
type Size struct {
	Mark   string // as printed on the cell (IEC 60086); an alkaline one has an L before it
	Letter string // the common name
	Cell   Estimate
	// Alkaline is what an alkaline cell of the size weighs, within 8 percent: from a
	// maker's product table (11.0, 23.8, 69.0, 139 and 45 g); the packs 3R12 and 4R25
	// from memory.
	Alkaline Estimate
	// Mix is the moist black mix with the liquor of the paste: 50 to 55 percent of the
	// cell (derived from the maker's sheet of an R03P, 2016: oxide 35.4, carbon
	// 11.1, water 13.2, salts 1.9 percent, less the rod and the separator). By this and
	// the kinds 14 to 19 percent of a cell is manganese. The 24 percent of Khan and Kurny
	// (see Can) rest on a paste of 60 percent manganese and 22 percent zinc, which leaves no
	// room for oxygen; with it they come to 17 (derived).
	Mix Estimate
	// Can is the zinc, 24 to 34 percent of a new round cell (32.3 in the R03P sheet;
	// 22 percent is what Khan and Kurny, J. Miner. Mater. Charact. Eng. 11 (2012)
	// 641, found in spent cells).
	Can Estimate
	// Rod is the carbon rod, 4 to 7 percent of a round cell (common practice); a
	// layer-built 6F22 has none.
	Rod Estimate
}

// The shares of a round cell's mass that its parts make up, as explained at Size.
var (
	mixShare = Estimate{0.50, 0.525, 0.55}
	canShare = Estimate{0.24, 0.30, 0.34}
	rodShare = Estimate{0.04, 0.055, 0.07}
)

// alkalineSpread is how far makers' alkaline cells of one size lie apart
// (estimate).
const alkalineSpread = 0.08

func (e Estimate) times(share Estimate) Estimate {
	return Estimate{e.Low * share.Low, e.Best * share.Best, e.High * share.High}
}

func round(mark, letter string, low, high, alkaline float64) Size {
	c := Estimate{low, (low + high) / 2, high}
	return Size{
		mark, letter, c,
		Estimate{alkaline * (1 - alkalineSpread), alkaline, alkaline * (1 + alkalineSpread)},
		c.times(mixShare), c.times(canShare), c.times(rodShare),
	}
}

func layered(mark, letter string, low, high, alkaline float64) Size {
	s := round(mark, letter, low, high, alkaline)
	s.Rod = Estimate{}
	return s
}

// What the masses and the recipes rest on, in words for the page.
const (
	// MassSource is of the cell's mass and, by the shares at Size, of its parts.
	MassSource = "R6 from a maker's data sheet, all other sizes from memory; 3R12 holds three cells, 6F22 six layer cells (from memory, IEC 60086), 4R25 four of size F (Linden's Handbook of Batteries, 4th ed., p. 9.36); alkaline from a maker's product table, the packs 3R12 and 4R25 from memory"
	// KindSource is of what the mix is made of.
	KindSource = "Linden's Handbook of Batteries, from memory; a maker's sheet of an R03P, 2016; Rotinyan, Prikladnaya elektrokhimiya, 1974, p. 430, from a quotation; alkaline from four makers' safety data sheets of 2015"
)

// sizes: masses of the zinc-carbon cell, by MassSource.
var sizes = [...]Size{
	round("R03", "AAA", 8, 10, 11.0),
	round("R6", "AA", 18, 22, 23.8),
	round("R14", "C", 42, 50, 69.0),
	round("R20", "D", 80, 105, 139),
	round("3R12", "4.5 V pocket lamp", 100, 120, 157),
	layered("6F22", "9 V block", 34, 39, 45),
	round("4R25", "6 V lantern", 560, 650, 875),
}

// MarkAs is the mark of a cell of this size and a kind: an alkaline one has an L
// before the shape, after the number of cells in a pack: LR14, 3LR12, 6LF22 (IEC
// 60086-1, the letter of the electrochemical system, from memory).
func (s *Size) MarkAs(k *Kind) string {
	if !k.Caustic {
		return s.Mark
	}
	shape := strings.IndexAny(s.Mark, "RF")
	return s.Mark[:shape] + "L" + s.Mark[shape:]
}

// NameAs is MarkAs with the letter or the word that shops know the size by.
func (s *Size) NameAs(k *Kind) string { return s.MarkAs(k) + " (" + s.Letter + ")" }

// Sizes are the sizes on offer, smallest first, packs last.
func Sizes() []Size { return sizes[:] }

// Kind is the electrolyte of a cell, which sets the defaults for what its mix
// is made of. All amounts are grams to 100 g of fresh dry oxide and carbon.
type Kind struct {
	Word     string // as in a link
	Name     string
	Carbon   Estimate // of those 100 g
	Inert    Estimate // percent of the oxide that is gangue and combined water
	Ammonium Estimate // NH4Cl, the paste's included
	Zinc     Estimate // ZnCl2, the paste's included
	Water    Estimate
	Potash   Estimate // KOH
	Iron     Estimate // percent of that inert part that is iron: of the ore, and rust from the jacket
	// Caustic is the alkaline kind: potash in place of the salts, the black mix in
	// rings around a zinc gel, a steel can, no rod.
	Caustic bool
}

// kinds: carbon from 1 part in 9 (common practice, 8 : 1) to 1 in 4 (Linden
// 3 : 1 to 11 : 1, from memory), 13 from the R03P sheet less the rod. Inert:
// natural ore holds more than electrolytic oxide (estimate). Salts: 5 to 10 g
// NH4Cl in 100 g dry mix and a paste of 23.5 % NH4Cl, 6.1 % ZnCl2 (Rotinyan,
// Prikladnaya elektrokhimiya, 1974, p. 430, from a quotation); zinc chloride cells
// from the R03P sheet (NH4Cl 0.5, ZnCl2 1.4, water 13.2 to 41 of oxide and
// carbon) and 15 to 40 % ZnCl2 in the electrolyte (Linden, from memory).
//
// Alkaline, from four makers' safety data sheets of 2015 (mass percent of the
// cell: MnO2 40 to 41.8, carbon 3 to 6.2, KOH 6.3 to 8, water 9 to 11): all the
// potash and water come to 14 to 19 and 20 to 25 g on 100 g of oxide and carbon;
// part of it is in the gel that is lifted out, how much is an estimate.
//
// Iron: judgement. A percent or so of natural ore is iron, of electrolytic oxide almost
// nothing, and rust falls in from cut steel jackets. Khan and Kurny (2012), as at Size, found "small
// amounts of iron" in the mix of spent cells, in steel jackets.
var kinds = [...]Kind{
	{"ammonium", "ammonium chloride", Estimate{9, 13, 25}, Estimate{8, 15, 25}, Estimate{7, 14, 22}, Estimate{2, 5, 10}, Estimate{22, 32, 45}, Estimate{}, Estimate{2, 6, 15}, false},
	{"zincchloride", "zinc chloride", Estimate{9, 13, 25}, Estimate{5, 8, 15}, Estimate{0, 1, 2}, Estimate{3, 6, 14}, Estimate{24, 34, 48}, Estimate{}, Estimate{2, 6, 15}, false},
	{"alkaline", "caustic potash: alkaline (LR)", Estimate{5, 7, 14}, Estimate{4, 8, 12}, Estimate{}, Estimate{}, Estimate{10, 16, 25}, Estimate{6, 11, 17}, Estimate{0.2, 1, 5}, true},
}

// Kinds are the kinds on offer.
func Kinds() []Kind { return kinds[:] }

// Composition is what 100 g of fresh dry oxide and carbon hold and are
// accompanied by.
type Composition struct {
	Carbon, Ammonium, Zinc, Water, Potash quantity.Gram
	Inert, Iron                           quantity.Percent
}

// Composition is the kind's best guess.
func (k Kind) Composition() Composition {
	return Composition{
		Carbon:   quantity.Gram(k.Carbon.Best),
		Ammonium: quantity.Gram(k.Ammonium.Best),
		Zinc:     quantity.Gram(k.Zinc.Best),
		Water:    quantity.Gram(k.Water.Best),
		Potash:   quantity.Gram(k.Potash.Best),
		Iron:     quantity.Percent(k.Iron.Best),
		Inert:    quantity.Percent(k.Inert.Best),
	}
}

// Parts are the masses of what a new cell of one size and kind is made of, in grams.
// The can of an alkaline cell is its zinc powder, which stands in the gel.
type Parts struct{ Cell, Mix, Can, Rod Estimate }

// The shares of an alkaline cell: the black rings with the lye that wets them (oxide
// and carbon 43 to 47 percent, by the sheets named at kinds, and a quarter or so of
// that in lye), and the zinc powder (16 to 17.8).
var (
	ringShare   = Estimate{0.51, 0.57, 0.64}
	powderShare = Estimate{0.16, 0.172, 0.178}
)

var parts = func() (table [len(kinds)][len(sizes)]Parts) {
	for k := range kinds {
		for i := range sizes {
			s := &sizes[i]
			if table[k][i] = (Parts{s.Cell, s.Mix, s.Can, s.Rod}); kinds[k].Caustic {
				table[k][i] = Parts{s.Alkaline, s.Alkaline.times(ringShare), s.Alkaline.times(powderShare), Estimate{}}
			}
		}
	}
	return table
}()

// PartsOf are the parts of a cell by the places of its size and kind. The caller
// must not change them.
func PartsOf(size, kind int) *Parts { return &parts[kind][size] }

// Guess is the kind of a cell as its mass suggests it.
type Guess uint8

// The guesses. Unsure is a mass that fits neither kind, or both.
const (
	Unsure Guess = iota
	LikelyZincCarbon
	LikelyAlkaline
)

// beyond is how far outside both ranges a mass still tells a kind; farther out
// the size or the balance is wrong (estimate).
const beyond = 0.15

// Weigh tells a likely alkaline cell from a zinc-carbon one of the same size by its
// mass in grams: the alkaline one is a fifth to a half heavier. A dead cell weighs
// what it did new, unless it leaked.
func (s *Size) Weigh(grams float64) Guess {
	switch {
	case grams < s.Cell.Low*(1-beyond) || grams > s.Alkaline.High*(1+beyond):
		return Unsure
	case grams <= s.Cell.High && grams < s.Alkaline.Low:
		return LikelyZincCarbon
	case grams >= s.Alkaline.Low && grams > s.Cell.High:
		return LikelyAlkaline
	}
	return Unsure
}
