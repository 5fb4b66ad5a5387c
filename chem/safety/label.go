package safety

import (
	"cmp"
	"slices"
	"strings"

	"rosesalt/chem/ledger"
	"rosesalt/chem/phrase"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// Millimetre is a length on paper.
type Millimetre float64

// Size is the least size of a label and of its pictograms, along their side.
type Size struct{ Width, Height, Pictogram Millimetre }

// The least sizes for a package of so many millilitres: CLP, annex I, table 1.3. Of the
// first the annex says "if possible"; its pictograms may shrink to 10 mm. The table's
// last, above 500 L, is not for this bench.
var sizes = [...]struct {
	most quantity.Millilitre
	size Size
}{
	{3000, Size{74, 52, 16}},
	{50000, Size{105, 74, 23}},
	{500000, Size{148, 105, 32}},
}

// SizeOf is the least size for a package of that capacity; the largest of the table for
// all above it.
func SizeOf(capacity quantity.Millilitre) Size {
	for _, s := range sizes {
		if capacity <= s.most {
			return s.size
		}
	}
	return sizes[len(sizes)-1].size
}

// LabelKind says what a label is for.
type LabelKind uint8

// The kinds of label.
const (
	Product LabelKind = iota
	Kept
	Reagent
	WasteJar
)

// Label is what stands on a jar. Mass, batch and date are written by hand; Mass and
// Volume here are only what to expect, 0 where there is no telling.
type Label struct {
	Kind        LabelKind
	Name        string // unique among the labels of a plan
	Formula     string
	Mass        quantity.Gram
	Volume      quantity.Millilitre
	Holds       []Content // without water of any kind, the heaviest first; nil for what is one thing
	Signal      Signal
	Pictograms  []Pictogram
	Hazards     []Statement
	Precautions []Statement
	Notes       []string
	Size        Size
}

var labels = phrase.Open(&files, "labels", "name", "formula", "note")

// label is the block of a key, as a label that bears nothing yet.
func label(key string, kind LabelKind, t *route.Teller) Label {
	told := labels.At(key, t)
	return Label{Kind: kind, Name: told.One("name"), Formula: told.One("formula"), Notes: told.All("note")}
}

// bear puts hazard statements on a label, and what follows from them.
func (l *Label) bear(codes ...Code) {
	shown := OnLabel(codes)
	l.Signal, l.Pictograms, l.Precautions, l.Hazards = SignalOf(shown), PictogramsOf(shown), precautionsOf(shown), statements(shown...)
}

// Labels are those of a plan: the salts, what is kept, the reagents made up, and the
// waste; large ones last, so that those of a size lie together on paper.
func Labels(p *route.Plan, s *route.Sheet, book *ledger.Book) []Label {
	m := labelling{p: p, s: s, book: book}
	m.t = &route.Teller{Plan: p, Sheet: s, Own: m.places}
	m.salts()
	m.kept()
	m.reagents()
	for _, b := range Bottles(p, book, s) {
		if b.Mass > 0 {
			m.waste(b)
		}
	}
	m.drops()
	for i := range m.list {
		l := &m.list[i]
		if l.Size == (Size{}) {
			l.Size = SizeOf(max(l.Volume, roomFor*quantity.Millilitre(l.Mass)))
		}
	}
	slices.SortStableFunc(m.list, func(a, b Label) int { return cmp.Compare(a.Size.Width, b.Size.Width) })
	return m.list
}

// roomFor is the room that a gram of solid has in its jar, mL, and halfFull how much
// larger than its liquid a waste bottle is (common practice, as route.Vessels has it).
const roomFor, halfFull = 2, 2

type labelling struct {
	p    *route.Plan
	s    *route.Sheet
	book *ledger.Book
	t    *route.Teller
	list []Label
}

// places are those of the labels' texts.
func (m *labelling) places(t *route.Teller, name string) (route.PlaceValue, bool) {
	if of, ok := strings.CutPrefix(name, "never "); ok {
		return route.Words(neverMeets(Never(thing(of), m.p, labelLines))), true
	}
	switch name {
	case "hydrate":
		salt, _ := hydrate(m.s.Value(route.ProductWaters))
		return route.Words(salt), true
	case "purity if raw":
		if purity := m.s.Value(route.ProductPurity); purity < pure {
			return route.Words(route.Print(purity, "%")), true
		}
		return route.Words(""), true
	case "one molar":
		return route.PlaceValue{Number: float64(oneMolar), Unit: "%"}, true
	}
	return Place(t, name)
}

func (m *labelling) value(id route.FigureID) float64 {
	return m.s.Amount(id)
}

// sharesOf are the contents of a mixture as shares of its mass.
func sharesOf(list []Content, total quantity.Gram) []Share {
	var shares []Share
	for _, c := range list {
		if total > 0 {
			shares = append(shares, Share{c.Substance, quantity.Percent(100 * c.Mass / total)})
		}
	}
	return shares
}

// CodesOf are the hazard statements of what a vessel of the ledger holds, by the rules for
// mixtures; none where it holds nothing.
func CodesOf(book *ledger.Book, v ledger.Vessel) []Code {
	return MixtureCodes(sharesOf(contents(book, v), book.TotalMass(v)))
}

// jar is the label of a vessel of the ledger. It bears what its main substance bears,
// however impure, and what the mixture bears besides.
func (m *labelling) jar(v ledger.Vessel, main reaction.Substance, l Label) {
	total := m.book.TotalMass(v)
	if total < least {
		return
	}
	l.Holds = contents(m.book, v)
	l.Mass = total
	l.bear(append(MixtureCodes(sharesOf(l.Holds, total)), classOf(main).Codes...)...)
	if len(l.Holds) == 1 {
		l.Holds = nil
	}
	m.list = append(m.list, l)
}

// pure is the percentage of its salt below which a jar is called raw (estimate).
const pure = 90

// hydrate names manganese sulfate with so many waters, from 0 to 7.
func hydrate(waters float64) (name, formula string) {
	const salt, anhydrous = "Manganese(II) sulfate", "MnSO₄"
	switch waters {
	case 0:
		return salt + ", anhydrous", anhydrous
	case 1:
		return salt + " monohydrate", anhydrous + "·H₂O"
	case 5:
		return salt + " pentahydrate", anhydrous + "·5H₂O"
	case 7:
		return salt + " heptahydrate", anhydrous + "·7H₂O"
	}
	return salt + ", between monohydrate and anhydrous", anhydrous + "·xH₂O, x about " + route.Print(waters, "")
}

func (m *labelling) salts() {
	if m.s.Reason(route.ProductWaters) == route.Defined {
		l := label("product", Product, m.t)
		_, l.Formula = hydrate(m.s.Value(route.ProductWaters))
		m.jar(ledger.ProductJar, reaction.ManganeseSulfate, l)
	}
	m.jar(ledger.CopperJar, reaction.CopperSulfate, label("copper", Product, m.t))
}

func (m *labelling) kept() {
	m.jar(ledger.Reserve, reaction.ManganeseDioxide, label("mix", Kept, m.t))
	m.plain("zinc", route.CanZinc)
	m.plain("rods", route.RodCarbon)
}

// plain labels what bears no statement.
func (m *labelling) plain(key string, id route.FigureID) {
	if g := quantity.Gram(m.value(id)); g >= least {
		l := label(key, Kept, m.t)
		l.Mass = g
		m.list = append(m.list, l)
	}
}

// neverMeets is as much of what a bottle must never meet as a label has room for.
func neverMeets(lines []string) string {
	return "Never meets " + strings.Join(lines[:min(labelLines, len(lines))], "; ") + "."
}

// oneMolar is the mass percent of 1 mol/L sulfuric acid.
var oneMolar = func() quantity.Percent {
	percent, err := table.AcidMolarity.Inverse(1)
	if err != nil {
		panic(err) // the table holds it
	}
	return quantity.Percent(percent)
}()

func (m *labelling) reagents() {
	if volume := quantity.Millilitre(m.value(route.SlurryAcidUsed) + m.value(route.WashAcidPoured)); volume > 0 {
		l := label("dilute", Reagent, m.t)
		l.Volume = volume
		// A supplier's sheet for this strength adds H332 and H335, for its mist; the annex
		// has neither. The stricter stands.
		l.bear(append(MixtureCodes([]Share{{reaction.SulfuricAcid, oneMolar}}), "H332", "H335")...)
		m.list = append(m.list, l)
	}
	// A solution of 2 % bears what a twentieth of a corrosive salt does, and for the water the
	// salt's factor of 100 (CLP, annex VI 047-001-00-2 for H272, H314 and H410; the factor by
	// suppliers; H290 by suppliers; all from memory).
	m.vial("silver", Reagent, "H290", "H315", "H319", "H410")
	// A pink solution holds a tenth of a percent at the most (estimate); with a factor of 10
	// for the water (from memory) that is H412.
	m.vial("permanganate", Reagent, "H412")
}

// vial labels a small jar of a reagent, or of its waste, which no ledger counts, if the plan
// has it.
func (m *labelling) vial(key string, kind LabelKind, codes ...Code) {
	if _, ok := labels.Find(key, m.t); !ok {
		return
	}
	l := label(key, kind, m.t)
	l.Size = SizeOf(0)
	l.bear(codes...)
	m.list = append(m.list, l)
}

// waste labels a bottle by what it holds.
func (m *labelling) waste(b Bottle) {
	total := b.Mass
	codes := []Code{}
	scrubber := b.of == "scrubber"
	if scrubber { // the ledger does not count its water
		total = max(total, quantity.Gram(b.Volume))
		codes = MixtureCodes([]Share{{reaction.SodiumCarbonate, route.ScrubberSoda}}) // before the gas has come
	}
	l := label("waste", WasteJar, m.t)
	l.Name, l.Mass, l.Volume, l.Holds = b.Name, b.Mass, b.Volume, b.Holds
	if !scrubber { // it never met the mix
		l.Notes = []string{sentenceOf("not food", m.p)}
	}
	l.Notes = append(l.Notes, neverMeets(b.Never), b.Keep)
	if b.Volume > 0 {
		l.Mass, l.Size = 0, SizeOf(halfFull*b.Volume)
	}
	l.bear(append(codes, MixtureCodes(sharesOf(b.Holds, total))...)...)
	if len(l.Hazards) == 0 {
		l.Notes = append(l.Notes, sentenceOf("undue", m.p))
	}
	m.list = append(m.list, l)
}

// drops are the small wastes that no ledger counts.
func (m *labelling) drops() {
	m.vial("silver drops", WasteJar, "H290", "H314", "H410") // as if the acid were above 5 %
	m.vial("papers", WasteJar, "H412")
}
