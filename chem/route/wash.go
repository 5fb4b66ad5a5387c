package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/formula"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

var washInputs = []Input{
	{
		Field: field.Field{
			Key: "wash.soak", Name: "First soak", Unit: "mL", Standing: WorkedOut, Min: 0, Max: 1e6,
			Blank: "4 mL to each gram of dry mix", Why: "Stir a quarter of an hour, let it settle, pour off.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.WashSoak) },
	},
	{
		Field: field.Field{
			Key: "wash.times", Name: "Further washes", Unit: "×", Standing: WorkedOut, Min: 0, Max: 50, Whole: true,
			Blank: "until silver nitrate stays clear, but one where an acid rinse follows; four with alkaline mix",
			Why:   "Many small washes beat few large ones; drain each time.",
		},
		earlier: []float64{4},
		number:  func(p *Plan) *float64 { return &p.WashTimes },
	},
	{
		Field: field.Field{
			Key: "wash.each", Name: "Water for each", Unit: "mL", Standing: WorkedOut, Min: 0, Max: 1e6,
			Blank: "3 mL to each gram of dry mix", Why: "As little as still makes a thin mud.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.WashEach) },
	},
	{
		Field: field.Field{
			Key: "wash.held", Name: "Liquor held by the drained cake", Unit: "mL/g", Standing: Estimated, Rare: true, Default: 1, Low: 0.7, High: 2, Min: 0.05, Max: 10,
			Why:    "Weigh a spoonful wet and dry once and you know it: (wet − dry) / dry.",
			Remedy: "Drained by gravity it is 0.7 to 2, by suction 0.3 to 0.8.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.WashHeld) },
	},
	{
		Field: field.Field{
			Key: "wash.mixing", Name: "How well each wash mixes", Unit: "%", Standing: Estimated, Rare: true, Default: 90, Low: 70, High: 100, Min: 1, Max: 100,
			Why: "Stirred through is near 100; poured over a cake is less.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.WashMixing) },
	},
	{
		Field: field.Field{
			Key: "wash.hydrolysis", Name: "Diammine that the water breaks up", Unit: "%", Standing: Estimated, Rare: true, Default: 60, Low: 20, High: 100, Min: 0, Max: 100,
			Why: "Zinc diammine chloride does not dissolve in plain water; part of it turns to the basic salt.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.WashHydrolysis) },
	},
	{
		Field: field.Field{
			Key: "wash.acid", Name: "Dilute-acid rinse, 1 mol/L", Unit: "mL", Standing: WorkedOut, Min: 0, Max: 1e6,
			Blank: "a little more than the zinc salts take, where a tenth of the oxide or more is spent; none with alkaline mix",
			// In the plan that the page starts with it takes four fifths of the zinc out of the jar, whose
			// purity goes from 65 to 82 %, for 187 mL of it (46 mL of which the slurry spares), one wash
			// more, 0.6 L more of liquor to keep, and 23 g of soda for its zinc.
			Why: "Takes out the zinc salts that water leaves, which would else weigh most beside the salt in the jar. More than they take dissolves manganese.",
		},
		earlier: []float64{0},
		number:  func(p *Plan) *float64 { return (*float64)(&p.WashAcid) },
	},
	{
		Field: field.Field{
			Key: "wash.after", Name: "Washes after the acid rinse", Unit: "×", Standing: WorkedOut, Min: 1, Max: 50, Whole: true,
			Blank: "until silver nitrate stays clear", Why: "The acid sets the chloride free that was bound in zinc salts.",
		},
		DrawGroup: 4, earlier: []float64{1},
		number: func(p *Plan) *float64 { return &p.WashAfter },
	},
	{
		Field: field.Field{
			Key: "wash.split", Name: "Spent oxide that the acid rinse splits", Unit: "%", Standing: Estimated, Rare: true, Default: 20, Low: 5, High: 50, Min: 0, Max: 100,
			Why: "Acid that finds no more zinc salt dissolves half of the Mn(III) it splits; the manganese leaves with the liquor.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.WashSplit) },
	},
	{
		Field: field.Field{
			Key: "wash.target", Name: "Chloride that the last wash may show", Unit: "mg/L", Rare: true, Default: SilverLimit, Min: 0.01, Max: 1e5,
			Why: "At 2 mg/L silver nitrate gives a haze that is plain to see, well above a trace.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.WashTarget) },
	},
}

// SilverLimit is the chloride, in mg/L, up to which silver nitrate gives at most a haze.
const SilverLimit = 2

// DistilledWashes is how many of the last washes want distilled water: of 50 mg/L of chloride in
// tap water (estimate; drinking water may have 250) two of the usual size leave 4, one 14.
const DistilledWashes = 2

// cleanWashes is how many of a plan's washes want distilled water.
func cleanWashes(s *Sheet) float64 {
	return lesser(DistilledWashes, s.Amount(WashTimesUsed)+s.Amount(WashAfterUsed))
}

var silverConstants = []Constant{
	{"silverSees", SilverLimit, "mg/L", "chloride that is a plain haze with silver nitrate", "State Pharmacopoeia of the Russian Federation, 15th ed., OFS.1.2.2.2.0009, as reprinted: a marked opalescence at 2 µg/mL, the least that shows 0.1; the International Pharmacopoeia's limit test (2.2.1) compares at 5 mg/L"},
}

// The default volumes, mL to a gram of dry mix.
const (
	soakToMix = 4.0
	eachToMix = 3.0
)

var washConstants = []Constant{
	{"soakToMix", soakToMix, "mL/g", "water for the soak, to dry mix", "common practice, thin enough to stir and settle"},
	{"eachToMix", eachToMix, "mL/g", "water for a wash, to dry mix", "common practice, thin enough to stir and settle"},
	{"washesBefore", washesBefore, "", "washes before an acid rinse", "judgement: enough that the acid meets little chloride; what it sets free has to be washed out anyway"},
	{"rinseOver", rinseOver, "", "acid of the rinse, of what the zinc salts take", "judgement: the zinc is an estimate; twice as much over costs twice the manganese"},
	{"usualWashes", usualWashes, "", "washes where silver nitrate cannot tell", "common practice"},
}

const (
	washesBefore = 1 // an acid rinse, where as many as are needed follow it: more of them spare none of those
	rinseOver    = 1.08
	usualWashes  = 4  // where silver nitrate cannot tell
	spentEnough  = 10 // percent of the oxide from which on an acid rinse pays (judgement)
)

// Rinses tells whether the plan rinses the washed mix with dilute acid. Where that is left
// open it does if discharge left zinc salts to take out: a mix that was assayed counts as
// spent; that of alkaline cells has hardly any, since the zinc leaves with the gel.
func Rinses(p *Plan) bool {
	if quantity.Given(p.WashAcid) {
		return p.WashAcid > 0
	}
	if Alkaline(p) {
		return false
	}
	for i := range p.Rows {
		row := &p.Rows[i]
		if row.present() && row.opened() > 0 && (quantity.Given(p.MixAssay) || orElse(row.Charge, p.Rows[0].Charge) <= 100-spentEnough) {
			return true
		}
	}
	return false
}

// enoughLimit is where the search for enough washes gives up.
const enoughLimit = 50

// Figures of the wash, in the order of the page.
const (
	// WashLast is the chloride in the liquor that the last wash with water drains.
	WashLast FigureID = endOfCells + iota
	WashSilver
	// WashEnough is the least number of washes after the soak whose last drains at
	// or below wash.target.
	WashEnough
	// WashChloride is the soluble chloride in the liquor that the cake holds.
	WashChloride
	// WashBound is the chloride in the basic zinc chloride and the diammine.
	WashBound
	// WashZincLeft is the zinc of the salts in the cake that acid takes and water leaves.
	WashZincLeft
	WashLiquor
	WashSoakUsed
	WashEachUsed
	// WashPerGram is both, to a gram of the dry cake.
	WashPerGram
	// WashSingle is the soluble chloride that the water of the last washes, those after an
	// acid rinse where there is one, would leave if it were used in one portion.
	WashSingle
	// WashTimesUsed are the washes before any acid, WashAfterUsed those after it.
	WashTimesUsed
	WashAcidPoured
	WashAfterUsed
	WashCake
	WashZinc
	WashAmmonia
	// WashAcidNeeded is the 1 mol/L acid that just takes out the zinc salts that
	// water leaves.
	WashAcidNeeded
	WashSpent
	WashManganese
	WashPotash
	WashLye

	endOfWash
)

var washFigures = []Figure{
	{ID: WashLast, Key: "wash.last", Unit: "mg/L", Name: "Chloride in the last wash", Main: true, Else: NothingDrains},
	{ID: WashSilver, Key: "wash.silver", Name: "Silver nitrate on the last wash", Main: true, Words: []string{"stays clear", "still clouds"}, Else: NothingDrains},
	{ID: WashEnough, Key: "wash.enough", Name: "Washes that would do", Main: true, Else: NeverEnough},
	{ID: WashChloride, Key: "wash.chloride", Unit: "mg", Name: "Chloride left in the liquor held", Main: true},
	{
		ID: WashBound, Key: "wash.bound", Unit: "mg", Name: "Chloride locked in the solids, water leaves it", Main: true,
		Formula: "(2*n(washed, basic) + 2*n(washed, diammine))*1000[mg/g]*M(Cl)",
	},
	{
		ID: WashZincLeft, Key: "wash.zinc", Unit: "mmol", Name: "Zinc that goes on with the cake, and that acid takes out", Main: true,
		Formula: "(5*n(washed, basic) + n(washed, diammine) + n(washed, ZnO))*1000[mmol/mol]",
	},
	{
		ID: WashLiquor, Key: "wash.liquor", Unit: "mL", Name: "Liquor to keep for collection", Main: true,
		Formula: "n(wash, H2O)*M(H2O)/liquor",
	},
	{ID: WashSoakUsed, Key: "wash.soak.used", Unit: "mL", Name: "Water for the first soak", For: "wash.soak", Poured: true},
	{ID: WashEachUsed, Key: "wash.each.used", Unit: "mL", Name: "Water for each wash", For: "wash.each", Poured: true},
	{
		ID: WashPerGram, Key: "wash.pergram", Unit: "mg/g", Name: "Chloride in all, to a gram of dry cake", Of: hasCells,
		Formula: "(wash.chloride + wash.bound)/wash.cake", Else: NoCells,
	},
	{ID: WashSingle, Key: "wash.single", Unit: "mg", Name: "Chloride left if the water of the last washes went in at once"},
	{ID: WashTimesUsed, Key: "wash.times.used", Unit: "×", Name: "Washes, before any acid", For: "wash.times", Poured: true},
	{ID: WashAcidPoured, Key: "wash.acid.poured", Unit: "mL", Name: "Dilute acid for the rinse, 1 mol/L", For: "wash.acid", Poured: true},
	{ID: WashAfterUsed, Key: "wash.after.used", Unit: "×", Name: "Washes after the acid rinse", For: "wash.after", Poured: true},
	{ID: WashCake, Key: "wash.cake", Unit: "g", Name: "Washed cake, if it were dry"},
	{ID: WashZinc, Key: "wash.liquor.zinc", Unit: "g", Name: "Zinc in that liquor"},
	{
		ID: WashAmmonia, Key: "wash.liquor.ammonium", Unit: "g", Name: "Ammonium chloride in that liquor",
		Formula: "n(wash, NH4Cl)*M(NH4Cl)",
	},
	{ID: WashAcidNeeded, Key: "wash.acid.needed", Unit: "mL", Name: "Dilute acid that takes out the zinc salts, 1 mol/L"},
	{ID: WashSpent, Key: "wash.acid.used", Unit: "mmol", Name: "Acid that the rinse used"},
	{ID: WashManganese, Key: "wash.liquor.manganese", Unit: "mmol", Name: "Manganese lost to the acid rinse"},
	{
		ID: WashPotash, Key: "wash.potash", Unit: "mg", Name: "Potash left in the liquor held", Of: hasCells | hasLye,
		Formula: "n(washed, KOH)*M(KOH)*1000[mg/g]",
	},
	{
		ID: WashLye, Key: "wash.liquor.potash", Unit: "g", Name: "Potash in the liquor to keep", Of: hasCells | hasLye,
		Formula: "n(wash, KOH)*M(KOH)",
	},
}

// insoluble are the solids that make up the cake.
var insoluble = [...]Substance{
	Carbon, Gangue, ManganeseDioxide, Manganite, Hetaerolite, Hausmannite, ZincOxide, BasicZincChloride,
	ZincDiammine, ManganeseSulfite, ZincSulfite, ManganeseOxalate, ZincOxalate, IronHydroxide,
}

func (b *Runner) solids(v ledger.Vessel) quantity.Gram {
	sum := quantity.Gram(0)
	for _, s := range insoluble {
		sum += b.book.Mass(v, s)
	}
	return sum
}

// chlorideMass is the molar mass of chloride, g/mol.
var chlorideMass = float64(formula.MustParse("Cl").MolarMass())

// wash soaks and washes the mix, then rinses it with dilute acid if asked.
// The diammine that water breaks up is booked once, before the first contact;
// where discharge has left the mix too dry for that, the soak begins with what
// is missing.
func (b *Runner) wash(p *Plan) {
	hydrolysis := quantity.Mole(p.WashHydrolysis.Fraction()) * b.has(ledger.Mix, ZincDiammine) / 5
	b.book.Bring(ledger.Mix, Water, greater(0, -hydrolysis*quantity.Mole(Hydrolysis.Coefficient(Water))-b.has(ledger.Mix, Water)))
	b.react(ledger.Mix, Hydrolysis, hydrolysis)
	if quantity.Given(p.MixWashed) {
		// A mix that was weighed dry brings no water.
		b.book.MoveShare(ledger.Mix, ledger.Losses, Water, 1)
	}
	dry := b.solids(ledger.Mix)
	held := quantity.Millilitre(float64(p.WashHeld) * float64(dry))
	mixing := p.WashMixing.Fraction()
	soak := orElse(p.WashSoak, quantity.Millilitre(soakToMix*float64(dry)))
	each := orElse(p.WashEach, quantity.Millilitre(eachToMix*float64(dry)))
	b.set(WashSoakUsed, float64(soak))
	b.set(WashEachUsed, float64(each))

	last, drained := b.contact(soak, held, mixing)
	b.enough(p, last, drained, each, held, mixing)
	times := b.washes(p)
	b.set(WashTimesUsed, times)
	b.atOnce(times, each, held, mixing)
	for range int(times) {
		l, d := b.contact(each, held, mixing)
		if d > 0 {
			last, drained = l, d
		}
	}
	b.lastWash(last, drained)
	b.acidRinse(p, each, mixing)

	b.grams(WashCake, b.solids(ledger.Mix))
	b.set(WashChloride, float64(b.chloride(ledger.Mix))*1000*chlorideMass)
	b.set(WashZinc, float64(b.book.Element(ledger.WashLiquor, Zn).Mass(Zinc.MolarMass())))
	b.millimoles(WashManganese, b.book.Element(ledger.WashLiquor, Mn))
}

// contact adds water to the mix and drains it, and says what chloride, in mg/L,
// drained and how much liquor.
func (b *Runner) contact(add, held quantity.Millilitre, mixing float64) (chloride float64, drained quantity.Millilitre) {
	b.pour(ledger.Mix, add)
	before := b.chloride(ledger.Mix)
	drained = b.drain(ledger.Mix, ledger.WashLiquor, held, mixing)
	if drained == 0 {
		return 0, 0
	}
	gone := float64(before - b.chloride(ledger.Mix))
	return gone * chlorideMass * 1e6 / float64(drained), drained
}

// keeps is the share of the salt that a cake keeps when water is added and the
// cake drains to what it holds.
func keeps(has, add, held quantity.Millilitre, mixing float64) float64 {
	if has+add <= held || has+add == 0 {
		return 1
	}
	return 1 - mixing*float64((has+add-held)/(has+add))
}

// atOnce tells what washes that follow would leave if their water went in at once.
func (b *Runner) atOnce(times float64, each, held quantity.Millilitre, mixing float64) {
	kept := keeps(b.water(ledger.Mix), quantity.Millilitre(times)*each, held, mixing)
	b.set(WashSingle, float64(b.chloride(ledger.Mix))*kept*1000*chlorideMass)
}

// washes is how often the mix is washed after the soak and before any acid.
func (b *Runner) washes(p *Plan) float64 {
	times := float64(usualWashes)
	switch {
	case quantity.Given(p.WashTimes):
		return p.WashTimes
	case b.sheet.Reason(WashEnough) == Defined && !Alkaline(p):
		times = b.sheet.Value(WashEnough)
	}
	if Rinses(p) {
		return lesser(times, washesBefore)
	}
	return times
}

// enough counts the washes after the soak until one drains at or below the
// target. It only looks ahead: nothing is booked.
func (b *Runner) enough(p *Plan, last float64, drained, each, held quantity.Millilitre, mixing float64) {
	target := float64(p.WashTarget)
	if drained > 0 && last <= target {
		b.set(WashEnough, 0)
		return
	}
	if each == 0 {
		b.sheet.undefined(WashEnough, NoWashWater)
		return
	}
	if n, ok := b.until(target, each, held, mixing); ok {
		b.set(WashEnough, n)
	}
}

// until counts the washes from here on until one drains at or below the target.
func (b *Runner) until(target float64, each, held quantity.Millilitre, mixing float64) (n float64, ok bool) {
	salt, has := float64(b.chloride(ledger.Mix)), b.water(ledger.Mix)
	for n := 1; n <= enoughLimit; n++ {
		left := salt * keeps(has, each, held, mixing)
		off := has + each - held
		if off > speck*(has+each) && (salt-left)*chlorideMass*1e6/float64(off) <= target {
			return float64(n), true
		}
		salt, has = left, lesser(has+each, held)
	}
	return 1, false
}

// acidRinse lets dilute acid take the zinc salts that water leaves: ammonia
// first, then the diammine, the basic salt and the oxide; with acid left, a share
// of the MnOOH splits. Washes with water follow, at least one.
func (b *Runner) acidRinse(p *Plan, each quantity.Millilitre, mixing float64) {
	wants := b.has(ledger.Mix, Potash)/2 + b.has(ledger.Mix, Ammonia)/2 + b.has(ledger.Mix, ZincDiammine) +
		4*b.has(ledger.Mix, BasicZincChloride) + b.has(ledger.Mix, ZincOxide)
	b.millimoles(WashAcidNeeded, wants) // a mmol of H2SO4 is a mL
	acid := quantity.Mole(0)
	if Rinses(p) {
		acid = quantity.Mole(float64(orElse(p.WashAcid, quantity.Millilitre(rinseOver*wants*1000))) / 1000)
	}
	b.set(WashAcidPoured, float64(acid)*1000)
	if acid == 0 {
		b.set(WashSpent, 0)
		b.set(WashAfterUsed, 0)
		return
	}
	b.book.Bring(ledger.Mix, SulfuricAcid, acid)
	b.pour(ledger.Mix, quantity.Millilitre(float64(acid)*1000*diluteWater))
	b.acidOnZinc(ledger.Mix)
	b.react(ledger.Mix, SplitManganite, b.has(ledger.Mix, Manganite)/2*quantity.Mole(p.WashSplit.Fraction()))
	b.dissolveIron(p, ledger.Mix)
	b.millimoles(WashSpent, acid-b.has(ledger.Mix, SulfuricAcid))
	held := quantity.Millilitre(float64(p.WashHeld) * float64(b.solids(ledger.Mix)))
	b.drain(ledger.Mix, ledger.WashLiquor, held, mixing)
	after := p.WashAfter
	if !quantity.Given(after) {
		after, _ = b.until(float64(p.WashTarget), each, held, mixing)
	}
	b.set(WashAfterUsed, after)
	b.atOnce(after, each, held, mixing)
	for range int(after) {
		b.lastWash(b.contact(each, held, mixing))
	}
}

// lastWash tells what the last wash that drained anything showed.
func (b *Runner) lastWash(chloride float64, drained quantity.Millilitre) {
	if drained > 0 {
		b.set(WashLast, chloride)
		b.set(WashSilver, boolean(chloride > SilverLimit))
	}
}

// acidOnZinc lets the free acid in a vessel take potash, ammonia and the zinc salts, in
// the order in which they give way.
func (b *Runner) acidOnZinc(v ledger.Vessel) {
	b.react(v, AcidPotash, unlimited)
	b.react(v, AcidAmmonia, unlimited)
	b.react(v, AcidDiammine, unlimited)
	b.react(v, AcidBasic, unlimited)
	b.react(v, AcidZincOxide, unlimited)
}

func boolean(is bool) float64 {
	if is {
		return 1
	}
	return 0
}
