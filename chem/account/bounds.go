package account

import (
	"fmt"
	"math"
	"slices"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
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

// The keys of the bounds.
const (
	KeyMadeLeast = "account.made.least" // mmol of gas made
	KeyMadeMost  = "account.made.most"  // mmol of gas, or of what was stirred in
	KeyUsedLeast = "account.used.least" // mmol that worked
	KeyUsedMost  = "account.used.most"  // mmol that worked for what is in the jar
	KeyIdleLeast = "account.idle.least" // mmol that did nothing for the jar
	KeySurely    = "account.surely"     // %: used.least of made.most
	KeyClosure   = "account.closure"    // %: manganese found again
)

// Bounds are what the measurements say with few assumptions. Where no sulfur dioxide does
// the work, its place is taken by what was stirred in.
type Bounds struct {
	Made     Bound
	MadeMost Bound
	Used     Bound
	UsedMost Bound
	Idle     Bound
	Surely   Bound
	Closure  Bound

	sure string
}

// List is the bounds in the order in which they follow from each other.
func (b *Bounds) List() []*Bound {
	return []*Bound{&b.Made, &b.MadeMost, &b.Used, &b.UsedMost, &b.Idle, &b.Surely, &b.Closure}
}

// Sure is what is certain, in a sentence or two.
func (b *Bounds) Sure() string { return b.sure }

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
	chloride float64 // mmol that went into the slurry, the most
	sulfite  float64 // g of salt that there is at least once gas stays as hydrogensulfite, for want of acid when no MnO2 is left; infinite where it never does
	oxalate  bool    // oxalate may fall out with the salt
}

const surveyDraws = 512

func (m *model) look() survey {
	v := survey{share: math.Inf(1), barren: math.Inf(1), sulfite: math.Inf(1)}
	s := newSampler(m.dim(), []float64{1}, surveyDraws, 1, 1, nil)
	for i := range surveyDraws {
		m.glance(&v, AsPlanned, s.point(i))
		if m.asked {
			m.glance(&v, NoAcid, s.point(i))
		}
	}
	if math.IsInf(v.share, 1) {
		v.share = 0
	}
	if math.IsInf(v.barren, 1) {
		v.barren = 0
	}
	return v
}

// glance lets a survey take in what a point gives.
func (m *model) glance(v *survey, cause Cause, u []float64) {
	o, ok := m.run(cause, u)
	if !ok {
		return
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
	if m.sheet.Value(route.SlurrySulfite) > hair {
		v.sulfite = math.Min(v.sulfite, o.found[product])
	}
	v.oxalate = v.oxalate || m.sheet.Value(route.ProductOxalate) > hair
	chloride := 0.0
	for _, where := range [...]ledger.Vessel{ledger.Slurry, ledger.Vent, ledger.Residue, ledger.Filtrate, ledger.Dish, ledger.MotherLiquor, ledger.ProductJar, ledger.Losses} {
		chloride += m.runner.Book().Element(where, reaction.Cl).Millimoles()
	}
	v.chloride = math.Max(v.chloride, chloride)
}

// ends are the least and the most that is drawn of an input, else what the plan holds.
func (m *model) ends(key string) (low, high float64) {
	for k := range m.uncertain {
		if u := &m.uncertain[k]; u.Input.Key == key {
			return u.Low, u.High
		}
	}
	in, _ := route.InputByKey(key)
	v := in.Value(&m.base)
	return v, v
}

// leastSalt is the least that what is weighed as manganese sulfate holds of it, counted
// without water, of its mass. An estimate, kept as weak as will do: it is to say that there is
// some. Where no dilute acid went in, half of the jars that this model gives hold less than a
// fifth, so that a larger one would decide between the causes.
const leastSalt = 0.02

// wettest is the most water to a manganese sulfate that a salt taken for another is thought to
// hold: that of pentahydrate with a fourteenth of its mass in drops. An estimate.
const wettest = 6.0

// bounds works the bounds out, each as its Working and Assumes say.
func (m *model) bounds() Bounds {
	b := Bounds{
		Made:     Bound{Key: KeyMadeLeast, Name: "Gas made, at least", Unit: "mmol", Value: quantity.Blank},
		MadeMost: Bound{Key: KeyMadeMost, Name: "Gas made, at most", Unit: "mmol", Value: quantity.Blank},
		Used:     Bound{Key: KeyUsedLeast, Name: "Gas that worked, at least", Unit: "mmol", Value: quantity.Blank},
		UsedMost: Bound{Key: KeyUsedMost, Name: "Gas behind what is in the jar, at most", Unit: "mmol", Value: quantity.Blank},
		Idle:     Bound{Key: KeyIdleLeast, Name: "Gas that did nothing for the jar, at least", Unit: "mmol", Value: quantity.Blank},
		Surely:   Bound{Key: KeySurely, Name: "Share of the gas that surely worked", Unit: "%", Value: quantity.Blank},
		Closure:  Bound{Key: KeyClosure, Name: "Manganese of the run found again", Unit: "%", Value: quantity.Blank},
	}
	if !m.meant(gas) {
		b.MadeMost.Name, b.Used.Name = "Reductant stirred in, at most", "Reductant that worked, at least"
		b.UsedMost.Name, b.Idle.Name = "Reductant behind what is in the jar, at most", "Reductant that did nothing for the jar, at least"
		b.Surely.Name = "Share of the reductant that surely worked"
	}
	m.madeLeast(&b.Made)
	m.madeMost(&b.MadeMost)
	r := m.usedLeast(&b.Used)
	m.usedMost(&b.UsedMost)
	m.idle(&b)
	switch {
	case !b.Used.OK():
		b.Surely.Why = b.Used.Why
	case !b.MadeMost.OK():
		b.Surely.Why = b.MadeMost.Why
	case b.MadeMost.Value == 0:
		b.Surely.Why = "nothing was charged"
	default:
		b.Surely.Value = 100 * math.Min(1, b.Used.Value/b.MadeMost.Value)
		b.Surely.Assumes = []string{"The least that worked, of the most that there was: the true share is larger."}
		b.Surely.Working = fmt.Sprintf("%s / %s", route.Print(b.Used.Value, "mmol"), route.Print(b.MadeMost.Value, "mmol"))
	}
	m.closure(&b.Closure, r)
	b.sure = m.sure(&b)
	return b
}

// unsaid is how many times the planned charge may have gone in where nobody noted how
// much did; an estimate.
const unsaid = 2.0

// charged tells whether somebody said how much of every charge went in.
func (m *model) charged() bool {
	return !slices.ContainsFunc(route.Charges(&m.base), func(in *route.Input) bool { return !quantity.Given(in.Value(&m.c.Plan)) })
}

// brought is the most that the charge can bring by the formulas, mmol; Blank without one.
func (m *model) brought() float64 {
	return route.MostBrought(&m.base).Millimoles()
}

// broughtBy is the working of what the charge can bring, n mmol: the least of what its acid and
// its copper or salt allow.
func (m *model) broughtBy(n float64) string {
	if !route.Gaseous(&m.base) {
		return "by the formulas, from the charge " + route.Print(n, "mmol")
	}
	solid := route.ReductantOf(&m.base).Charge
	what, acid, one := "the salt", "", ""
	if m.meant(metal) {
		what, acid, one = "the copper", ", two to one of gas", ", one to one"
	}
	return fmt.Sprintf("by the formulas, the acid, %s%s: %s; %s, %s%s: %s; the least of them, %s",
		route.Print(float64(m.base.GasAcid), "mL"), acid, route.Print(route.MostByAcid(&m.base).Millimoles(), "mmol"),
		what, route.Print(solid.Value(&m.base), solid.Unit), one, route.Print(route.MostBySolid(&m.base).Millimoles(), "mmol"), route.Print(n, "mmol"))
}

func (m *model) madeMost(b *Bound) {
	n := m.brought()
	if !quantity.Given(n) {
		b.Why = "nothing was charged"
		return
	}
	times := 1.0
	b.Working, b.Assumes = m.broughtBy(n), []string{"What the plan says was charged."}
	if !m.charged() {
		times = unsaid
		b.Working += fmt.Sprintf(" × %.2g", unsaid)
		b.Assumes = []string{fmt.Sprintf("Nobody noted what was charged: no more than %.2g times what the plan asks for. Note it, and this is %s.", unsaid, route.Print(n, "mmol"))}
	}
	b.Value = times * n
	if left := m.rec.Metal; quantity.Given(left) && quantity.Given(m.copper) {
		if gone := 1000 * math.Max(0, times*m.copper-left) / massCopper; gone < b.Value {
			b.Value = gone
			b.Working = fmt.Sprintf("(%s − %s) / %.3f g/mol", route.Print(times*m.copper, "g"), route.Print(left, "g"), massCopper)
			b.Assumes = append(b.Assumes, "The copper that is left was weighed clean.")
		}
	}
}

// keptAtLeast is the share of the salt that is taken to have reached the jar where that
// alone tells that no gas stayed as hydrogensulfite; an estimate.
const keptAtLeast = 0.5

// usedMost is a bound since the salt cannot weigh less than what the gas made of it: of all
// that stands in the jar, pure manganese sulfate takes most gas to the gram.
func (m *model) usedMost(b *Bound) {
	if !quantity.Given(m.rec.Product) {
		b.Why = "the manganese sulfate was not weighed"
		return
	}
	pure := massSalt + m.waters*massWater
	r := 1000 * m.rec.Product / pure
	b.Assumes = []string{"The salt holds as much water as its drying gives, or more."}
	b.Working = fmt.Sprintf("R = %s / %.2f g/mol", route.Print(m.rec.Product, "g"), pure)
	if quantity.Given(m.rec.Assay) {
		share := (m.rec.Assay + m.rec.Half(KeyAssay)) / 100
		mn := 1000 * m.rec.Product * share / massMn
		// What is not manganese sulfate may be zinc's, for each mole of which gas worked too.
		zinc := 1000 * math.Max(0, m.rec.Product-mn/1000*massSalt) / massZincSalt
		if mn+zinc < r {
			r = mn + zinc
			b.Working = fmt.Sprintf("R = %s × %s / %.3f g/mol, and the rest as zinc sulfate, %s", route.Print(m.rec.Product, "g"), route.Print(100*share, "%"), massMn, route.Print(zinc, "mmol"))
			b.Assumes = append(b.Assumes, "The assay, at its high end, counts manganese alone.")
		}
	}
	b.Working += " = " + route.Print(r, "mmol")
	each := 1.0
	switch {
	case route.Sulfurous(&m.base):
		_, d := m.ends("slurry.dithionate")
		d /= 100
		b.Assumes = append(b.Assumes, fmt.Sprintf("No more than %s of the reducing power ended as dithionate.", route.Print(100*d, "%")))
		switch from := m.survey.sulfite; {
		case m.rec.Product >= keptAtLeast*from:
			// Manganese takes half as much again, and zinc two, the sulfite of which is light.
			each = math.Max(1.5*(1+d), 2*pure/massZincSulfite)
			b.Assumes = append(b.Assumes, "Dilute acid may have been short, so that some gas stayed as hydrogensulfite: half as much again.")
		case !math.IsInf(from, 1):
			b.Assumes = append(b.Assumes, fmt.Sprintf("Gas does not stay as hydrogensulfite before there are %s of salt, and at least half of the salt reached the jar.", route.Print(from, "g")))
			fallthrough
		default:
			each = 1 + d
		}
		b.Working += fmt.Sprintf("; R × %.3g", each)
	case m.survey.oxalate:
		each = 2
		b.Assumes = append(b.Assumes, "Each manganese took one of oxalic acid, and one more where it fell out as oxalate.")
		b.Working += "; R × 2"
	default:
		b.Assumes = append(b.Assumes, "Each manganese took one of the reductant, at most.")
	}
	b.Value = r * each
}

// idle is what did nothing for the jar: of the gas that is proved, or where none is, of what
// the charge held.
func (m *model) idle(b *Bounds) {
	i := &b.Idle
	had := b.Made.Value
	switch {
	case !b.UsedMost.OK():
		i.Why = b.UsedMost.Why
		return
	case b.Made.OK():
	case m.meant(crystals) || !quantity.Given(m.brought()):
		i.Why = b.Made.Why
		return
	default:
		had = m.brought()
		i.Assumes = append(i.Assumes, "As much went in as the plan says.")
	}
	i.Value = math.Max(0, had-b.UsedMost.Value)
	i.Assumes = append(i.Assumes, "All that stands behind the two numbers.")
	i.Working = fmt.Sprintf("%s − %s", route.Print(had, "mmol"), route.Print(b.UsedMost.Value, "mmol"))
}

// sulfide are the ends of the share of the copper that goes to black sulfide.
func (m *model) sulfide() (low, high float64) {
	low, high = m.ends("gas.sulfide")
	return low / 100, high / 100
}

func (m *model) madeLeast(b *Bound) {
	switch {
	case !m.meant(gas):
		b.Why = "no gas is led in"
		return
	case !m.meant(crystals):
		b.Why = route.ReductantOf(&m.base).Name + " leaves no blue salt to tell by"
		return
	case !quantity.Given(m.rec.Copper):
		b.Why = "the blue crystals were not weighed"
		return
	}
	_, s := m.sulfide()
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
		dark := darkMost * m.copper
		blue = math.Max(0, blue-dark/massCuO*massBlue)
		b.Assumes = append(b.Assumes, fmt.Sprintf("Of the scrap no more than %s was oxide.", route.Print(100*darkMost, "%")))
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
		share := math.Max(m.survey.share, leastSalt*massMn/massSalt)
		if wet := 1 / share; wettest > m.waters {
			// With each mole of manganese goes so much more water.
			share = math.Max(1/(wet+(wettest-m.waters)*massWater/massMn), leastSalt*massMn/massSalt)
		}
		r = 1000 * m.rec.Product * share / massMn
		b.Assumes = append(b.Assumes, fmt.Sprintf("At least %s of the salt is manganese: as the plan's estimates allow were it wet pentahydrate, and what is weighed as manganese sulfate holds some.", route.Print(100*share, "%")))
		b.Working = fmt.Sprintf("R = %s × %s / %.3f g/mol", route.Print(m.rec.Product, "g"), route.Print(100*share, "%"), massMn)
	}
	most := m.survey.spent
	b.Value = math.Max(0, r-most/2)
	b.Assumes = append(b.Assumes,
		fmt.Sprintf("The batch held no more than %s of spent oxide, Mn(III); acid alone dissolves at most half of that.", route.Print(most, "mmol")),
		"Manganese goes into solution by the reductant or by acid, and in no other way.")
	b.Working += fmt.Sprintf(" = %s; R − %s / 2", route.Print(r, "mmol"), route.Print(most, "mmol"))
	if m.base.SlurryAcid == 0 && m.base.WashAcid == 0 && route.Sulfurous(&m.base) {
		b.Value = math.Max(b.Value, math.Max(r/2, r-m.survey.chloride/2))
		b.Assumes = append(b.Assumes, fmt.Sprintf("No acid touched the oxide, nor came over with the gas: but for %s of chloride at most, the salt's anions came of gas, and each manganese took at least half a gas.", route.Print(m.survey.chloride, "mmol")))
		b.Working += fmt.Sprintf(", at least R − %s / 2 and R / 2", route.Print(m.survey.chloride, "mmol"))
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
		barren := m.barren()
		perMole := float64(reaction.ManganeseDioxide.MolarMass())
		if n, oxide := undissolved(book); n > 0 {
			perMole = float64(oxide) / float64(n)
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
