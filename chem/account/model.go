package account

import (
	"math"
	"slices"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/spread"
)

// Molar masses, g/mol.
var (
	massWater  = float64(reaction.Water.MolarMass())
	massSalt   = float64(reaction.ManganeseSulfate.MolarMass())
	massBlue   = float64(reaction.CopperSulfate.MolarMass()) + 5*massWater
	massCopper = float64(reaction.Copper.MolarMass())
	massMn     = massSalt - sulfateMass
	massOxygen = float64(reaction.ZincOxide.MolarMass() - reaction.Zinc.MolarMass())
	// Zinc sulfate with no more water than any drying leaves.
	massZincSulfite = float64(reaction.ZincSulfite.MolarMass())
	massZincSalt    = float64(reaction.ZincSulfate.MolarMass())
	massCuO         = massCopper + massOxygen
	sulfateMass     = float64(reaction.CopperSulfate.MolarMass() - reaction.Copper.MolarMass())
)

// The coordinates of a point beyond those of the plan's uncertain inputs.
const (
	howFar  = iota // the cause's own
	howElse        // a second of it
	howWet         // wet crystals
	howDark        // oxide on the copper
	howAcid        // whether dilute acid was poured in, where nobody said
	beyond  = iota // how many there are
)

const hair = 1e-9 // what is smaller is the last digits of the arithmetic

// model runs plans at points, under a cause, and says what would have been found.
type model struct {
	c         spread.Case
	rec       Record
	base      route.Plan // what was really run: charges held, dried as found
	best      route.Sheet
	uncertain []spread.Uncertain
	runner    route.Runner
	sheet     *route.Sheet // of the last point
	survey    survey
	plan      route.Plan // of the point
	learns    route.Plan // the same, before what only this run did wrong
	waters    float64    // to one manganese sulfate, as dried
	rinses    float64
	copper    float64             // g charged; Blank with metabisulfite
	weighed   bool                // the mix was
	asked     bool                // nobody said whether dilute acid was poured in, and the plan wants some
	without   bool                // somebody said that none was, and the plan wants some
	acid      quantity.Millilitre // as the plan would have poured it
}

// outcome is what a point would have given.
type outcome struct {
	found     [measurements]float64
	spilt     float64 // share of the salt
	water     float64 // g added to the jar by another hydrate, before the spill
	made      float64 // mmol
	used      float64 // mmol
	reached   float64 // mmol of it behind the manganese in the jar
	uptake    float64 // percent
	manganese float64 // mmol in the jar after the spill
}

func newModel(c spread.Case, rec Record) *model {
	m := &model{c: c, rec: rec}
	m.c.Plan = c.Planned()
	if quantity.Given(rec.Dried) {
		m.c.Plan.DryTemperature = quantity.Celsius(rec.Dried)
	}
	m.best = *m.runner.Run(&m.c.Plan)
	m.uncertain = slices.DeleteFunc(spread.Uncertains(&m.c), func(u spread.Uncertain) bool {
		return u.Input.Key == "heat.share" // no weighing tells of the heat
	})
	m.base = m.c.Plan
	spread.HoldCharges(&m.base, &m.best)
	wants := m.best.Value(route.DemandAcid)
	if m.acid = m.base.SlurryAcid; float64(m.acid) < nextToNone*wants {
		m.acid = quantity.Millilitre(wants) // of 1 mol/L, a millilitre to the mmol
	}
	if quantity.Given(rec.Acid) {
		m.base.SlurryAcid = quantity.Millilitre(rec.Acid)
	}
	said := quantity.Given(rec.Acid) || quantity.Given(m.c.Plan.SlurryAcid)
	m.asked = !said && float64(m.base.SlurryAcid) > nextToNone*wants
	m.without = said && float64(m.base.SlurryAcid) < nextToNone*wants
	m.waters = m.best.Value(route.ProductWaters)
	m.rinses = m.base.RinseTimes
	m.weighed = quantity.Given(m.base.MixWet) || quantity.Given(m.base.MixWashed)
	m.copper = quantity.Blank
	if route.MakesCopperSalt(&m.base) {
		m.copper = m.best.Value(route.ReductantOf(&m.base).Used)
	}
	m.survey = m.look()
	return m
}

func (m *model) dim() int { return len(m.uncertain) + beyond }

// priors are the causes' weights in this plan. Where it is known that no dilute acid went in,
// that is what happened even if all else went as planned.
func (m *model) priors() []float64 {
	list, sum := make([]float64, Causes), 0.0
	for c := range Cause(Causes) {
		if !m.may(c) {
			continue
		}
		list[c] = c.Prior()
		if c == NoAcid && m.without {
			list[c] = AsPlanned.Prior() / besides
		}
		sum += list[c]
	}
	for c := range list {
		list[c] /= sum
	}
	return list
}

// may tells whether a cause can be in this plan, with what was said of it.
func (m *model) may(c Cause) bool {
	switch c {
	case AsPlanned:
		return !m.without
	case NoAcid:
		return m.without || m.asked
	case OtherCharge:
		return !m.charged()
	case Unrinsed:
		return m.rinses > 0
	case DarkCopper:
		return m.rec.OxideOnCopper && quantity.Given(m.copper)
	}
	return true
}

// shows tells whether a measurement can be made of a run of this plan.
func (m *model) shows(f measurement) bool {
	switch f {
	case gas:
		return route.Gaseous(&m.base)
	case crystals, metal:
		return route.MakesCopperSalt(&m.base)
	}
	return true
}

func set(in *route.Input, p *route.Plan, v float64) {
	if err := in.Set(p, v); err != nil {
		panic(err)
	}
}

// run computes what a point gives under a cause; not ok where the plan contradicts
// its own assay.
func (m *model) run(cause Cause, u []float64) (o outcome, ok bool) {
	p := &m.plan
	*p = m.base
	for k := range m.uncertain {
		set(m.uncertain[k].Input, p, m.uncertain[k].At(u[k]))
	}
	x := u[len(m.uncertain):]
	dn := 0.0
	switch cause {
	case PoorOxide:
		m.poor(p, either(x, poorLeast, poorMost, richLeast, richMost))
	case GasLost:
		// What is stirred in and lost never did any work.
		route.CutCharge(p, between(lostLeast, lostMost, x[howFar]))
		p.GasUptake *= quantity.Percent(between(lostLeast, lostMost, x[howFar]))
		p.GasUptake = max(p.GasUptake, 1)
	}
	route.Reconcile(p)
	m.learns = *p
	if m.none(cause, u) {
		p.SlurryAcid = 0
	}
	dark := 0.0
	if m.rec.OxideOnCopper && quantity.Given(m.copper) {
		dark = oxideMost * x[howDark] * m.copper
	}
	switch cause {
	case OtherCharge:
		m.charge(p, either(x, lessLeast, lessMost, moreLeast, moreMost))
	case DarkCopper:
		dark = between(darkLeast, darkMost, x[howFar]) * m.copper
		// The oxide takes acid, one to one, and leaves so much less metal.
		p.GasAcid *= quantity.Millilitre(math.Max(0.1, 1-dark/massCuO/(2*float64(route.MostByAcid(&m.base)))))
	case LiquorLeft:
		o.spilt = between(leftLeast, leftMost, x[howFar])
	case EarlyEnd:
		route.EndAt(p, between(endLeast, endMost, x[howFar]))
		route.Reconcile(p)
	case Unrinsed:
		p.RinseTimes = 0
		p.WashHeld *= quantity.MillilitrePerGram(between(soppingLeast, soppingMost, x[howFar]))
		p.WashHeld = min(p.WashHeld, 10)
	case OtherHydrate:
		dn = m.hydrate(x[howFar]) - m.waters
	case Spill:
		o.spilt = between(spillLeast, spillMost, x[howFar])
	}
	if dark > 0 { // what is oxide is no metal
		metal := route.ReductantOf(p).Charge
		set(metal, p, math.Max(metal.Min, metal.Value(p)-dark))
	}
	m.sheet = m.runner.Run(p)
	s := m.sheet
	if a := float64(p.MixAssay); quantity.Given(a) && (a < s.Value(route.AssayLeast) || a > s.Value(route.AssayMost)) {
		return o, false
	}
	m.read(s, dn, dark, x, &o)
	return o, true
}

// none tells whether a point takes no dilute acid to have gone in, where nobody said. What
// else went wrong may have gone wrong as well.
func (m *model) none(cause Cause, u []float64) bool {
	switch {
	case !m.asked || cause == AsPlanned:
		return false
	case cause == NoAcid:
		return true
	}
	return u[len(m.uncertain)+howAcid] < besides*NoAcid.Prior()/(NoAcid.Prior()+AsPlanned.Prior())
}

func between(low, high, u float64) float64 { return low + u*(high-low) }

// either is a share that is too small more often than too large; the second of the cause's
// coordinates says which.
func either(x []float64, lowLeast, lowMost, highLeast, highMost float64) float64 {
	if x[howElse] < lessOften {
		return between(lowLeast, lowMost, x[howFar])
	}
	return between(highLeast, highMost, x[howFar])
}

// charge charges so many times what was planned, of what nobody noted.
func (m *model) charge(p *route.Plan, times float64) {
	if route.Gaseous(p) && !quantity.Given(m.c.Plan.GasAcid) {
		p.GasAcid *= quantity.Millilitre(times)
	}
	in := route.ReductantOf(p).Charge
	if v := in.Value(p); quantity.Given(v) && !quantity.Given(in.Value(&m.c.Plan)) {
		set(in, p, math.Min(math.Max(times*v, in.Min), in.Max))
	}
}

// poor leaves so much of the oxide, or brings so much more. A mix that was weighed is there:
// gangue stands in for its oxide, or oxide for gangue.
func (m *model) poor(p *route.Plan, share float64) {
	if !m.weighed {
		p.Fill = min(max(p.Fill*quantity.Percent(share), 20), 200)
		return
	}
	inert := float64(p.MixInert)
	if !quantity.Given(inert) {
		in, _ := route.InputByKey("mix.inert")
		inert, _ = in.WorkedOut(p, &m.best)
	}
	p.MixInert = quantity.Percent(math.Max(0, math.Min(60, 100-share*(100-inert))))
}

// hydrate is the water to a manganese sulfate where it is not what the drying gives: any from
// none to wettest, for salt that was not dried to the end stands between its hydrates.
func (m *model) hydrate(x float64) float64 {
	low := math.Max(0, m.waters-hydrateApart)
	high := math.Min(wettest, m.waters+hydrateApart)
	if x *= low + wettest - high; x > low {
		x += high - low
	}
	return x
}

// read tells what would have been found.
func (m *model) read(s *route.Sheet, dn, dark float64, x []float64, o *outcome) {
	book := m.runner.Book()
	o.water = dn * massWater * float64(book.Amount(ledger.ProductJar, reaction.ManganeseSulfate))
	mass := s.Value(route.ProductMass) + o.water
	mn := s.Value(route.ProductAnhydrous) / massSalt
	o.found[product] = mass * (1 - o.spilt)
	o.manganese = 1000 * mn * (1 - o.spilt)
	if mass > 0 {
		o.found[assay] = 100 * mn * massMn / mass
	}
	o.found[residue] = m.residue(book)
	o.made = s.Value(route.GasMade)
	o.found[gas] = o.made
	o.used = s.Value(route.UptakeTaken) - s.Value(route.UptakeDissolved)
	o.reached = o.used * o.manganese / m.dissolved(book)
	o.uptake = route.Uptake(&m.plan, s)
	if !route.MakesCopperSalt(&m.plan) {
		return
	}
	blue, left := s.Value(route.CopperCrop), s.Value(route.CopperLeft)
	if blue != blue {
		blue = 0 // too acid to crystallise
	}
	// Oxide gives blue salt and no gas. The acid that it takes is left out of account where the
	// copper is only dull.
	blue += dark / massCuO * massBlue
	if m.rec.WetCrystals {
		blue *= 1 + wetMost*x[howWet]
	}
	o.found[crystals], o.found[metal] = blue, left
}

// dissolved is the manganese that was brought into solution, wherever it is now, mmol.
func (m *model) dissolved(book *ledger.Book) (n float64) {
	for _, where := range [...]ledger.Vessel{ledger.Residue, ledger.MotherLiquor, ledger.ProductJar, ledger.Losses} {
		for _, s := range [...]reaction.Substance{reaction.ManganeseSulfate, reaction.ManganeseDithionate, reaction.ManganeseBisulfite, reaction.ManganeseSulfite, reaction.ManganeseOxalate} {
			n += book.Amount(where, s).Millimoles()
		}
	}
	return n
}

// residue is what the balance shows once the cake is dry: its solids, and the salt of
// the liquor that it held, the manganese sulfate as monohydrate.
func (m *model) residue(book *ledger.Book) float64 {
	of := func(s reaction.Substance) float64 { return float64(book.Mass(ledger.Residue, s)) }
	return float64(book.TotalMass(ledger.Residue)) - of(reaction.Water) - of(reaction.SulfurDioxide) - of(reaction.Ammonia) +
		massWater*float64(book.Amount(ledger.Residue, reaction.ManganeseSulfate))
}

// barren is what holds no manganese: carbon, and gangue with its iron.
var barren = [...]reaction.Substance{reaction.Carbon, reaction.Gangue, reaction.IronHydroxide}

const residueVessel = ledger.Residue

const productVessel = ledger.ProductJar
