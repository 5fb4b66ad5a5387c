package account

import (
	"fmt"
	"math"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// Bound is one figure of the bounds: its value, or why it has none, what it rests on,
// and the working in a line.
type Bound struct {
	Key, Name, Unit string
	Value           float64  // Blank where not defined
	Why             string   // why it has no value; else empty
	Assumes         []string // each a sentence
	Working         string
}

// OK tells whether the bound has a value.
func (b *Bound) OK() bool { return quantity.Given(b.Value) }

// Bounds are what the measurements say with few assumptions.
type Bounds struct {
	Made    Bound // account.made.least, mmol
	Used    Bound // account.used.least, mmol
	Surely  Bound // account.surely, %: used.least to made.least
	Closure Bound // account.closure, %
}

// List is the bounds in the order in which they follow from each other.
func (b *Bounds) List() []*Bound { return []*Bound{&b.Made, &b.Used, &b.Surely, &b.Closure} }

// BoundsOf works the bounds out, each as its Working and Assumes say. It takes a few hundred
// runs of the plan to find what the plan allows.
func BoundsOf(c spread.Case, rec Record) Bounds {
	m := newModel(c, rec)
	return m.bounds()
}

// survey is what the plan allows: the ends of what surveyDraws plans give, drawn as
// planned. With every estimate at its far end at once they would be wider, but nothing
// is ever so.
type survey struct {
	share    float64 // the least mass share of manganese in the salt, dried as said
	spent    float64 // mmol Mn(III) in the batch, the most
	batch    float64 // mmol manganese in the batch, the most
	dry      float64 // g of dry cake, the most
	barren   float64 // g of carbon and gangue in the residue, the least
	heaviest float64 // g of salt if all manganese of the batch were in it, the most
}

const surveyDraws = 512

func (m *model) look() survey {
	v := survey{share: math.Inf(1), barren: math.Inf(1)}
	s := newSampler(m.dim(), []float64{1}, surveyDraws, 1, 1, nil)
	for i := range surveyDraws {
		o, ok := m.run(AsPlanned, s.point(i))
		if !ok {
			continue
		}
		batch := m.sheet.Value(route.BatchManganese)
		mn := m.sheet.Value(route.ProductAnhydrous) / massSalt
		pure := massSalt + m.waters*massWater
		if o.found[product] > 0 {
			v.share = math.Min(v.share, o.found[assay]/100)
		}
		if spent := batch * (1 - m.sheet.Value(route.MixCharge)/100); spent > v.spent {
			v.spent = spent
		}
		v.batch = math.Max(v.batch, batch)
		v.dry = math.Max(v.dry, m.sheet.Value(route.BatchDry))
		v.barren = math.Min(v.barren, m.barren())
		v.heaviest = math.Max(v.heaviest, batch/1000*pure+math.Max(0, o.found[product]-mn*pure))
	}
	if math.IsInf(v.share, 1) {
		v.share = 0
	}
	if math.IsInf(v.barren, 1) {
		v.barren = 0
	}
	return v
}

// high is the high end of an input: that of its triangle, else what the plan holds.
func (m *model) high(key string) float64 {
	for k := range m.uncertain {
		if u := &m.uncertain[k]; u.Input.Key == key {
			return u.High
		}
	}
	in, _ := route.InputByKey(key)
	return in.Value(&m.base)
}

// wettest is the most water that a salt taken for another is thought to hold.
const wettest = 5.3

func (m *model) bounds() Bounds {
	b := Bounds{
		Made:    Bound{Key: "account.made.least", Name: "Gas made, at least", Unit: "mmol", Value: quantity.Blank},
		Used:    Bound{Key: "account.used.least", Name: "Gas that worked, at least", Unit: "mmol", Value: quantity.Blank},
		Surely:  Bound{Key: "account.surely", Name: "Share of the gas that surely worked", Unit: "%", Value: quantity.Blank},
		Closure: Bound{Key: "account.closure", Name: "Manganese of the run found again", Unit: "%", Value: quantity.Blank},
	}
	m.madeLeast(&b.Made)
	r := m.usedLeast(&b.Used)
	switch {
	case !b.Made.OK():
		b.Surely.Why = b.Made.Why
	case !b.Used.OK():
		b.Surely.Why = b.Used.Why
	case b.Made.Value == 0:
		b.Surely.Why = "no gas is proved to have been made"
	default:
		b.Surely.Value = 100 * b.Used.Value / b.Made.Value
		b.Surely.Assumes = []string{"Both are least values: more gas may have been made, and more may have worked."}
		b.Surely.Working = fmt.Sprintf("%s / %s", route.Print(b.Used.Value, "mmol"), route.Print(b.Made.Value, "mmol"))
	}
	m.closure(&b.Closure, r)
	return b
}

func (m *model) madeLeast(b *Bound) {
	switch {
	case !route.Gaseous(&m.base):
		b.Why = "no gas is led in"
		return
	case !route.MakesCopperSalt(&m.base):
		b.Why = route.ReductantOf(&m.base).Name + " leaves no blue salt to tell by"
		return
	case !quantity.Given(m.rec.Copper):
		b.Why = "the blue crystals were not weighed"
		return
	}
	s := m.high("gas.sulfide") / 100
	blue := m.rec.Copper
	b.Assumes = []string{
		fmt.Sprintf("No more than %s of the copper that reacted went to black sulfide.", route.Print(100*s, "%")),
		"The crystals are the blue pentahydrate; copper left in the mother liquor only adds to it.",
	}
	if m.rec.WetCrystals {
		blue /= 1 + wetMost
		b.Assumes = append(b.Assumes, fmt.Sprintf("The wet crystals held no more than %s of their dry mass in liquor.", route.Print(100*wetMost, "%")))
	} else {
		b.Assumes = append(b.Assumes, "The crystals were dry.")
	}
	if m.rec.OxideOnCopper {
		dark := oxideMost * m.copper
		blue = math.Max(0, blue-dark/massCuO*massBlue)
		b.Assumes = append(b.Assumes, fmt.Sprintf("Of the scrap no more than %s was oxide.", route.Print(100*oxideMost, "%")))
	} else {
		b.Assumes = append(b.Assumes, "The copper was bright: oxide would give blue salt without gas.")
	}
	b.Value = 1000 * blue / massBlue * (1 - s) / (1 - 0.4*s)
	b.Working = fmt.Sprintf("%s / %.2f g/mol × (1 − %.3g) / (1 − 0.4 × %.3g)", route.Print(blue, "g"), massBlue, s, s)
}

// usedLeast also says how much manganese, in mmol, is in the product at least.
func (m *model) usedLeast(b *Bound) (r float64) {
	if !quantity.Given(m.rec.Product) {
		b.Why = "the manganese sulfate was not weighed"
		return quantity.Blank
	}
	if quantity.Given(m.rec.Assay) {
		r = 1000 * m.rec.Product * m.rec.Assay / 100 / massMn
		b.Assumes = append(b.Assumes, "The assay counts manganese alone.")
		b.Working = fmt.Sprintf("R = %s × %s / %.3f g/mol", route.Print(m.rec.Product, "g"), route.Print(m.rec.Assay, "%"), massMn)
	} else {
		share := m.survey.share
		if wet := 1 / share; share > 0 && wettest > m.waters {
			// With each mole of manganese goes so much more water.
			share = 1 / (wet + (wettest-m.waters)*massWater/massMn)
		}
		r = 1000 * m.rec.Product * share / massMn
		b.Assumes = append(b.Assumes, fmt.Sprintf("At least %s of the salt is manganese: as the plan's estimates allow, and were it wet pentahydrate.", route.Print(100*share, "%")))
		b.Working = fmt.Sprintf("R = %s × %s / %.3f g/mol", route.Print(m.rec.Product, "g"), route.Print(100*share, "%"), massMn)
	}
	if !route.Gaseous(&m.base) {
		b.Why = "no gas is led in"
		return r
	}
	most := m.survey.spent
	b.Value = math.Max(0, r-most/2)
	b.Assumes = append(b.Assumes,
		fmt.Sprintf("The batch held no more than %s of spent oxide, Mn(III); acid alone dissolves at most half of that.", route.Print(most, "mmol")),
		"Manganese goes into solution by gas or by acid, and in no other way.")
	b.Working += fmt.Sprintf(" = %s; R − %s / 2", route.Print(r, "mmol"), route.Print(most, "mmol"))
	if m.base.SlurryAcid == 0 && m.base.WashAcid == 0 {
		b.Value = math.Max(b.Value, r/2)
		b.Assumes = append(b.Assumes, "No acid touched the oxide, so that each manganese took at least half a gas.")
		b.Working += ", at least R / 2"
	}
	return r
}

// closure counts the manganese of the run, not of the mix that was put by, that was
// found again. What the residue holds is its mass
// beyond carbon and gangue, as the oxide that the best estimate leaves.
func (m *model) closure(b *Bound, r float64) {
	if !quantity.Given(r) {
		b.Why = "the manganese sulfate was not weighed"
		return
	}
	s := m.runner.Run(&m.base)
	book := m.runner.Book()
	all := s.Value(route.BatchManganese)
	if all == 0 {
		b.Why = "no manganese went into the run"
		return
	}
	if !quantity.Given(m.rec.Assay) {
		// The best estimate here, not the least.
		r = 0
		if total := s.Value(route.ProductMass); total > 0 {
			r = 1000 * m.rec.Product * s.Value(route.ProductAnhydrous) / massSalt / total
		}
	}
	left := 0.0
	if quantity.Given(m.rec.Residue) {
		of := func(x reaction.Substance) float64 { return float64(book.Mass(ledger.Residue, x)) }
		barren := of(reaction.Carbon) + of(reaction.Gangue)
		perMole := float64(reaction.ManganeseDioxide.MolarMass())
		oxide := of(reaction.ManganeseDioxide) + of(reaction.Manganite) + of(reaction.Hetaerolite) + of(reaction.Hausmannite)
		if n := float64(book.Amount(ledger.Residue, reaction.ManganeseDioxide) + book.Amount(ledger.Residue, reaction.Manganite) +
			2*book.Amount(ledger.Residue, reaction.Hetaerolite) + 3*book.Amount(ledger.Residue, reaction.Hausmannite)); n > 0 {
			perMole = oxide / n
		}
		left = 1000 * math.Max(0, m.rec.Residue-barren) / perMole
		b.Assumes = append(b.Assumes, fmt.Sprintf("Of the residue %s is carbon and gangue, by the best estimate; the rest is oxide.", route.Print(barren, "g")))
	} else {
		b.Assumes = append(b.Assumes, "The residue was not weighed: its manganese is not counted.")
	}
	if !quantity.Given(m.rec.Assay) {
		b.Assumes = append(b.Assumes, "The salt holds as much manganese as the best estimate gives it.")
	}
	b.Assumes = append(b.Assumes, "The mix held what the best estimate says.")
	b.Value = 100 * (r + left) / all
	b.Working = fmt.Sprintf("(%s + %s) / %s", route.Print(r, "mmol"), route.Print(left, "mmol"), route.Print(all, "mmol"))
}
