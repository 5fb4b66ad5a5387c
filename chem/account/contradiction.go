package account

import (
	"fmt"
	"math"
	"strings"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// Contradiction is something that cannot be: two measurements, or a measurement and
// what was charged, that do not go together.
type Contradiction struct {
	Keys    []string // of the record, the likeliest culprit first
	Size    float64  // by how much, in Unit
	Unit    string
	Message string   // a sentence, with the size
	Likely  []string // what would explain it, the likeliest first
	// Sure is false where the excess is less than the half-width of the measurement: then
	// the balance alone may be to blame.
	Sure bool
}

// Sentence is the message with what would explain it.
func (c *Contradiction) Sentence() string {
	if len(c.Likely) == 0 {
		return c.Message
	}
	return c.Message + " Likely: " + strings.Join(c.Likely, "; or ") + "."
}

// contradictions are those that were found.
type contradictions []Contradiction

// add notes a contradiction of a size above zero; the message has a place for that. The half-width
// is that of what was measured.
func (l *contradictions) add(size, half float64, unit, message string, keys []string, likely ...string) {
	if size > hair*math.Max(1, size) {
		*l = append(*l, Contradiction{
			Keys: keys, Size: size, Unit: unit, Likely: likely, Sure: size > half,
			Message: fmt.Sprintf(message, route.Print(size, unit)),
		})
	}
}

// contradictions are those of the record, in bench order.
func (m *model) contradictions(b *Bounds) []Contradiction {
	var list contradictions
	m.ofCopper(&list)
	m.ofGas(&list, b)
	m.ofResidue(&list)
	m.ofSalt(&list)
	m.ofAssay(&list)
	return list
}

func (m *model) ofGas(l *contradictions, b *Bounds) {
	g, half := m.rec.Gas, m.rec.Half(KeyGas)
	if !quantity.Given(g) {
		return
	}
	if quantity.Given(m.copper) {
		l.add(g-1000*m.copper/massCopper, half, "mmol", "More gas was counted than all the copper could give: %s too many.", []string{KeyGas},
			"the bubbles were smaller than taken", "air was counted with the first gas", "more copper was charged")
	}
	if b.Made.OK() {
		l.add(b.Made.Value-g, math.Hypot(half, b.Made.Value*m.rec.Half(KeyCopper)/math.Max(m.rec.Copper, hair)), "mmol",
			"The blue crystals prove more gas than was counted: %s more.", []string{KeyGas, KeyCopper},
			"gas went past the counter", "the bubbles were larger than taken", "the crystals were wet", "the copper carried oxide")
	}
	if b.Used.OK() {
		l.add(b.Used.Value-g, half, "mmol", "The salt took more gas than was counted: %s more.", []string{KeyGas, KeyProduct},
			"the bubbles were larger than taken", "the salt is wet or not pure", "more cells went in")
	}
}

func (m *model) ofResidue(l *contradictions) {
	v, half := m.rec.Residue, m.rec.Half(KeyResidue)
	if !quantity.Given(v) {
		return
	}
	l.add(v-m.survey.dry, half, "g", "The residue weighs more than the whole dry cake could: %s too much.", []string{KeyResidue},
		"the residue is not dry", "it was hardly rinsed, and salt dried on it", "the paper was weighed with it", "more cake went in")
	l.add(m.survey.barren-v, half, "g", "The residue weighs less than carbon and gangue alone: %s too little.", []string{KeyResidue},
		"black fines went through the paper or stuck to it", "less cake went in", "the mix holds less carbon than taken")
}

func (m *model) ofSalt(l *contradictions) {
	v, half := m.rec.Product, m.rec.Half(KeyProduct)
	if !quantity.Given(v) {
		return
	}
	l.add(v-m.survey.heaviest, half, "g", "The salt weighs more than all manganese of the batch could give: %s too much.", []string{KeyProduct, KeyDried},
		"it holds more water than its drying gives: a wetter hydrate, or not dry", "free acid keeps it heavy and sticky",
		"zinc and ammonium salts came with it", "more cells went in than planned")
	if a := m.rec.Assay; quantity.Given(a) {
		found := 1000 * v * a / 100 / massMn
		l.add(found-m.survey.batch, found*math.Hypot(half/math.Max(v, hair), m.rec.Half(KeyAssay)/math.Max(a, hair)), "mmol",
			"Salt and assay together hold more manganese than the batch: %s too much.", []string{KeyAssay, KeyProduct},
			"the assay counts zinc too", "more cells went in than planned")
	}
}

func (m *model) ofAssay(l *contradictions) {
	a, half := m.rec.Assay, m.rec.Half(KeyAssay)
	bare, form := 100*massMn/massSalt, 100*massMn/(massSalt+m.waters*massWater)
	switch {
	case !quantity.Given(a):
	case a > bare:
		l.add(a-bare, half, "%", "The assay is above that of the pure anhydrous salt, the most there can be: by %s.", []string{KeyAssay},
			"the assay counts zinc too", "its standard is weaker than taken", "the sample was weighed light")
	default:
		l.add(a-form, half, "%", "The assay is above that of the pure salt as dried: by %s.", []string{KeyAssay, KeyDried},
			"it was dried hotter than noted", "the assay counts zinc too", "its standard is weaker than taken")
	}
}

// ofNoCopper is of copper that was weighed after a run without any.
func (m *model) ofNoCopper(l *contradictions) {
	message := "Copper was weighed (%s), but this plan makes its gas from " + route.ReductantOf(&m.base).Name + "."
	if !m.meant(gas) {
		message = "Copper was weighed (%s), but no copper goes into this plan."
	}
	for _, key := range []string{KeyCopper, KeyMetal} {
		if v := m.rec.Value(key); v > 0 {
			l.add(v, 0, "g", message, []string{key}, "the plan is that of another run")
		}
	}
}

// barren is the carbon and gangue in the residue of the bench's last run.
func (m *model) barren() float64 {
	s := 0.0
	for _, x := range barren {
		s += float64(m.runner.Book().Mass(residueVessel, x))
	}
	return s
}

// undissolved is the manganese of the oxides in the residue that a book holds, mol, and what
// these weigh.
func undissolved(book *ledger.Book) (manganese quantity.Mole, oxides quantity.Gram) {
	for _, x := range route.Oxides() {
		manganese += quantity.Mole(x.Atoms(reaction.Mn)) * book.Amount(residueVessel, x)
		oxides += book.Mass(residueVessel, x)
	}
	return manganese, oxides
}

// ofCopper is of the crystals and the copper that is left.
func (m *model) ofCopper(l *contradictions) {
	r := &m.rec
	switch {
	case !m.meant(metal):
		m.ofNoCopper(l)
		return
	case !quantity.Given(m.copper):
		return
	}
	blue, left := r.Copper, r.Metal
	perBlue := massCopper / massBlue
	switch {
	case quantity.Given(blue) && blue*perBlue > m.copper:
		l.add(blue-m.copper/perBlue, r.Half(KeyCopper), "g", "More copper is in the crystals than was charged: %s of crystals too many.", []string{KeyCopper},
			"the crystals were wet", "the charge was larger", "free acid or another salt came with them")
	case quantity.Given(left) && left > m.copper:
		l.add(left-m.copper, r.Half(KeyMetal), "g", "More copper is left than was charged: %s too much.", []string{KeyMetal},
			"black sulfide was weighed with it", "it was not dry", "the charge was larger")
	case quantity.Given(blue) && quantity.Given(left):
		// What reacted went to salt, but for sulfide: at the least share of it, 1 - 0.4 s
		// of blue salt a mole.
		low, _ := m.sulfide()
		inBlue := blue * perBlue / (1 - 0.4*low)
		l.add(left+inBlue-m.copper, math.Hypot(r.Half(KeyMetal), perBlue*r.Half(KeyCopper)), "g",
			"Copper left, in the crystals and in the sulfide that goes with them are more than was charged: %s too much.", []string{KeyCopper, KeyMetal},
			"the crystals were wet", "black sulfide was weighed with the copper", "the charge was larger")
	}
}
