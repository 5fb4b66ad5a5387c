package account

import (
	"fmt"
	"math"
	"strings"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
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

// Contradictions are those of a record, in bench order.
func Contradictions(c spread.Case, rec Record) []Contradiction {
	m := newModel(c, rec)
	b := m.bounds()
	return m.contradictions(&b)
}

func (m *model) contradictions(b *Bounds) []Contradiction {
	var list []Contradiction
	r := &m.rec
	add := func(size, half float64, unit, message string, keys []string, likely ...string) {
		if size > hair*math.Max(1, size) {
			list = append(list, Contradiction{
				Keys: keys, Size: size, Unit: unit, Likely: likely, Sure: size > half,
				Message: fmt.Sprintf(message, route.Print(size, unit)),
			})
		}
	}
	copper := m.meant(metal)
	if !copper {
		message := "Copper was weighed (%s), but this plan makes its gas from " + route.ReductantOf(&m.base).Name + "."
		if !route.Gaseous(&m.base) {
			message = "Copper was weighed (%s), but no copper goes into this plan."
		}
		for _, key := range []string{KeyCopper, KeyMetal} {
			if v := r.Value(key); v > 0 {
				add(v, 0, "g", message, []string{key},
					"the plan is that of another run")
			}
		}
	} else {
		m.copperContradictions(add)
	}

	most := m.survey.batch
	if g := r.Gas; quantity.Given(g) {
		half := r.Half(KeyGas)
		if copper && quantity.Given(m.copper) {
			add(g-1000*m.copper/massCopper, half, "mmol", "More gas was counted than all the copper could give: %s too many.", []string{KeyGas},
				"the bubbles were smaller than taken", "air was counted with the first gas", "more copper was charged")
		}
		if b.Made.OK() {
			add(b.Made.Value-g, math.Hypot(half, b.Made.Value*r.Half(KeyCopper)/math.Max(r.Copper, hair)), "mmol",
				"The blue crystals prove more gas than was counted: %s more.", []string{KeyGas, KeyCopper},
				"gas went past the counter", "the bubbles were larger than taken", "the crystals were wet", "the copper carried oxide")
		}
		if b.Used.OK() {
			add(b.Used.Value-g, math.Hypot(half, 0), "mmol", "The salt took more gas than was counted: %s more.", []string{KeyGas, KeyProduct},
				"the bubbles were larger than taken", "the salt is wet or not pure", "more cells went in")
		}
	}
	if v := r.Residue; quantity.Given(v) {
		half := r.Half(KeyResidue)
		heaviest, lightest := m.survey.dry, m.survey.barren
		add(v-heaviest, half, "g", "The residue weighs more than the whole dry cake could: %s too much.", []string{KeyResidue},
			"the residue is not dry", "it was hardly rinsed, and salt dried on it", "the paper was weighed with it", "more cake went in")
		add(lightest-v, half, "g", "The residue weighs less than carbon and gangue alone: %s too little.", []string{KeyResidue},
			"black fines went through the paper or stuck to it", "less cake went in", "the mix holds less carbon than taken")
	}
	if v := r.Product; quantity.Given(v) {
		half := r.Half(KeyProduct)
		heaviest := m.survey.heaviest
		add(v-heaviest, half, "g", "The salt weighs more than all manganese of the batch could give: %s too much.", []string{KeyProduct, KeyDried},
			"it holds more water than its drying gives: a wetter hydrate, or not dry", "free acid keeps it heavy and sticky",
			"zinc and ammonium salts came with it", "more cells went in than planned")
		if a := r.Assay; quantity.Given(a) {
			found := 1000 * v * a / 100 / massMn
			add(found-most, found*math.Hypot(half/math.Max(v, hair), r.Half(KeyAssay)/math.Max(a, hair)), "mmol",
				"Salt and assay together hold more manganese than the batch: %s too much.", []string{KeyAssay, KeyProduct},
				"the assay counts zinc too", "more cells went in than planned")
		}
	}
	if a := r.Assay; quantity.Given(a) {
		half := r.Half(KeyAssay)
		bare, form := 100*massMn/massSalt, 100*massMn/(massSalt+m.waters*massWater)
		if a > bare {
			add(a-bare, half, "%", "The assay is above that of the pure anhydrous salt, the most there can be: by %s.", []string{KeyAssay},
				"the assay counts zinc too", "its standard is weaker than taken", "the sample was weighed light")
		} else {
			add(a-form, half, "%", "The assay is above that of the pure salt as dried: by %s.", []string{KeyAssay, KeyDried},
				"it was dried hotter than noted", "the assay counts zinc too", "its standard is weaker than taken")
		}
	}
	return list
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

func (m *model) copperContradictions(add func(size, half float64, unit, message string, keys []string, likely ...string)) {
	r := &m.rec
	if !quantity.Given(m.copper) {
		return
	}
	blue, left := r.Copper, r.Metal
	perBlue := massCopper / massBlue
	switch {
	case quantity.Given(blue) && blue*perBlue > m.copper:
		add(blue-m.copper/perBlue, r.Half(KeyCopper), "g", "More copper is in the crystals than was charged: %s of crystals too many.", []string{KeyCopper},
			"the crystals were wet", "the charge was larger", "free acid or another salt came with them")
	case quantity.Given(left) && left > m.copper:
		add(left-m.copper, r.Half(KeyMetal), "g", "More copper is left than was charged: %s too much.", []string{KeyMetal},
			"black sulfide was weighed with it", "it was not dry", "the charge was larger")
	case quantity.Given(blue) && quantity.Given(left):
		// What reacted went to salt, but for sulfide: at the least share of it, 1 - 0.4 s
		// of blue salt a mole.
		low, _ := m.sulfide()
		inBlue := blue * perBlue / (1 - 0.4*low)
		add(left+inBlue-m.copper, math.Hypot(r.Half(KeyMetal), perBlue*r.Half(KeyCopper)), "g",
			"Copper left, in the crystals and in the sulfide that goes with them are more than was charged: %s too much.", []string{KeyCopper, KeyMetal},
			"the crystals were wet", "black sulfide was weighed with the copper", "the charge was larger")
	}
}
