package route

import (
	"rosesalt/chem/cell"
	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction" // the substances read like chemistry only without a prefix
)

var mixInputs = []Input{
	{
		Field: field.Field{
			Key: "mix.wet", Name: "Wet black mix, weighed", Unit: "g", Standing: Measured, Min: 0.1, Max: 200000,
			Blank: "estimated from size and count", Why: "Weigh it as it comes out of the cells, before the first wash.",
			Remedy: "Weigh in grams, the dish taken off.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.MixWet) },
	},
	{
		Field: field.Field{
			Key: "mix.washed", Name: "Washed mix, dried and weighed", Unit: "g", Standing: Measured, Min: 0.1, Max: 200000,
			Blank: "estimated from size and count", Why: "After the water washes, before any acid rinse, bone dry. It counts before the wet weighing.",
			Remedy: "Weigh in grams, dry; a wet cake weighs up to twice as much.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.MixWashed) },
	},
	{
		Field: field.Field{
			Key: "mix.assay", Name: "Assay of the washed mix, as MnO₂", Unit: "%", Standing: Measured, Min: 1, Max: 100,
			Blank: "the oxide still unused is estimated", Why: "Available oxygen of the washed dry mix. It fixes the oxide still unused.",
			Remedy: "Give mass percent of the washed dry mix.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.MixAssay) },
	},
	{
		Field: field.Field{
			Key: "cell.fill", Name: "Mix in a new cell, of the table's", Unit: "%", Standing: Estimated, Rare: true, Default: 100, Low: 80, High: 120, Min: 20, Max: 200,
			Why: "Makers differ. A weighing above takes its place.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.Fill) },
	},
	{
		Field: field.Field{
			Key: "cell.aged", Name: "Spent oxide aged to hetaerolite", Unit: "%", Standing: Estimated, Rare: true, Default: 20, Low: 0, High: 50, Min: 0, Max: 100,
			Why: "Old dead cells tie zinc into the oxide; it costs acid.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.Aged) },
	},
	{
		Field: field.Field{
			Key: "cell.deep", Name: "Spent oxide run down further, to Mn₃O₄", Unit: "%", Standing: Estimated, Rare: true, Default: 10, Low: 0, High: 60, Min: 0, Max: 100,
			Why: "Cells left in their lamp: about half of it in two published powders of collected cells.",
		},
		DrawGroup: 4,
		number:    func(p *Plan) *float64 { return (*float64)(&p.Deep) },
	},
	{
		Field: field.Field{
			Key: "mix.carbon", Name: "Carbon in 100 g new dry oxide and carbon", Unit: "g", Standing: WorkedOut, Rare: true, Low: 5, High: 25, Min: 0, Max: 60,
			Blank: "as is usual for the electrolyte", Why: "Between 1 part in 9 and 1 in 4; less in alkaline cells.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.MixCarbon) },
	},
	{
		Field: field.Field{
			Key: "mix.inert", Name: "Gangue and bound water in the new oxide", Unit: "%", Standing: WorkedOut, Rare: true, Low: 5, High: 25, Min: 0, Max: 60,
			Blank: "as is usual for the electrolyte", Why: "Natural ore holds more than electrolytic oxide.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.MixInert) },
	},
	{
		Field: field.Field{
			Key: "mix.ammonium", Name: "Ammonium chloride to the same 100 g", Unit: "g", Standing: WorkedOut, Rare: true, Low: 0, High: 22, Min: 0, Max: 60,
			Blank: "as is usual for the electrolyte", Why: "The paste's included.",
		},
		means:  zincCarbon,
		number: func(p *Plan) *float64 { return (*float64)(&p.MixAmmonium) },
	},
	{
		Field: field.Field{
			Key: "mix.zinc", Name: "Zinc chloride to the same 100 g", Unit: "g", Standing: WorkedOut, Rare: true, Low: 0, High: 14, Min: 0, Max: 60,
			Blank: "as is usual for the electrolyte", Why: "The paste's included.",
		},
		means:  zincCarbon,
		number: func(p *Plan) *float64 { return (*float64)(&p.MixZinc) },
	},
	{
		Field: field.Field{
			Key: "mix.water", Name: "Water to the same 100 g", Unit: "g", Standing: WorkedOut, Rare: true, Low: 10, High: 48, Min: 10, Max: 200,
			Blank: "as is usual for the electrolyte", Why: "A dried-out cell weighs less than it should.",
		},
		number: func(p *Plan) *float64 { return (*float64)(&p.MixWater) },
	},
	{
		Field: field.Field{
			Key: "mix.potash", Name: "Caustic potash to the same 100 g", Unit: "g", Standing: WorkedOut, Rare: true, Low: 6, High: 17, Min: 0, Max: 40,
			Blank: "as is usual for the electrolyte", Why: "Alkaline cells only: the lye that wets the black rings.",
		},
		DrawGroup: 1,
		means:     Alkaline,
		number:    func(p *Plan) *float64 { return (*float64)(&p.MixPotash) },
	},
	{
		Field: field.Field{
			Key: "mix.iron", Name: "Iron in that gangue", Unit: "%", Standing: WorkedOut, Rare: true, Low: 0.2, High: 15, Min: 0, Max: 60,
			Blank: "as is usual for the electrolyte", Why: "Of natural ore, and rust that falls in from steel jackets. A judgement: no analysis at hand tells it.",
		},
		DrawGroup: 4,
		number:    func(p *Plan) *float64 { return (*float64)(&p.MixIron) },
	},
	{
		Field: field.Field{
			Key: "mix.gel", Name: "Spent zinc that comes along with the rings", Unit: "%", Standing: Estimated, Rare: true, Default: 15, Low: 3, High: 50, Min: 0, Max: 100,
			Why: "Alkaline cells only. Lift the grey gel out first: each gram of its zinc oxide costs acid and ends in the product.",
		},
		DrawGroup: 1,
		means:     Alkaline,
		number:    func(p *Plan) *float64 { return (*float64)(&p.MixGel) },
	},
}

// Figures of the cells, in the order of the page.
const (
	// MixMass is the wet black mix as it comes out of the dead cells.
	MixMass FigureID = iota
	MixManganese
	// MixOxide is the available oxygen written as MnO2: a mole of Mn(IV) counts
	// one, of Mn(III) a half.
	MixOxide
	// MixCharge is the share of the manganese that is still Mn(IV), whether
	// estimated or solved from an assay.
	MixCharge
	CanZinc
	RodCarbon
	CellsOpened
	CellsRefused
	// MixDry is what the same mix weighs washed and dried.
	MixDry
	MixHetaerolite
	// AgedReached is the share of the MnOOH that could age; below cell.aged when
	// the zinc in the mix ran out, or hausmannite left less.
	AgedReached
	// MixPotash is the caustic potash in the mix of alkaline cells.
	MixPotash
	// MixAssay is what an assay of the washed dry mix would find in this plan.
	MixAssay
	// AssayLeast and AssayMost are the assays that no charge and full charge
	// would give: an assay outside them does not fit the rest of the plan.
	AssayLeast
	AssayMost

	endOfCells
)

var cellsFigures = []Figure{
	{ID: MixMass, Key: "mix.mass", Unit: "g", Name: "Black mix, wet", Main: true, For: "mix.wet"},
	{ID: MixManganese, Key: "mix.manganese", Unit: "mmol", Name: "Manganese in the mix", Main: true},
	{ID: MixOxide, Key: "mix.oxide", Unit: "g", Name: "Oxidising power, as MnO₂", Main: true},
	{ID: MixCharge, Key: "mix.charge", Unit: "%", Name: "Oxide still unused", Main: true, Of: hasCells},
	{ID: CanZinc, Key: "can.zinc", Unit: "g", Name: "Zinc cans, kept", Main: true},
	{ID: RodCarbon, Key: "rod.carbon", Unit: "g", Name: "Carbon rods, kept", Main: true},
	{ID: CellsOpened, Key: "cell.opened", Name: "Cells opened"},
	{ID: CellsRefused, Key: "cell.refused", Name: "Cells to collection, shut"},
	{ID: MixDry, Key: "mix.dry", Unit: "g", Name: "Black mix, washed and dried", For: "mix.washed"},
	{ID: MixHetaerolite, Key: "mix.hetaerolite", Unit: "g", Name: "Hetaerolite in the mix"},
	{ID: AgedReached, Key: "cell.aged.reached", Unit: "%", Name: "Spent oxide aged to hetaerolite", Of: hasCells},
	{ID: MixPotash, Key: "mix.lye", Unit: "g", Name: "Caustic potash in the mix", Of: hasCells | hasLye},
	{
		ID: MixAssay, Key: "mix.assay.expected", Unit: "%", Name: "Assay to expect of the washed mix, as MnO₂", For: "mix.assay", Of: hasCells,
		Formula: "100[%]*mix.oxide/mix.dry",
	},
	{ID: AssayLeast, Key: "mix.assay.least", Unit: "%", Name: "Assay if all oxide were spent", Of: hasCells},
	{ID: AssayMost, Key: "mix.assay.most", Unit: "%", Name: "Assay if none were", Of: hasCells},
}

// content is what a mass of mix holds, in moles: what it was made of, and the
// extents of the reactions that made it what it is.
type content struct {
	dioxide, carbon, gangue, ammonium, zinc, water, potash, rust float64 // new
	byAmmonium, byChloride, byOxide, deep                        float64 // discharge
	gel                                                          float64 // zinc oxide that stays out, with the gel of an alkaline cell
	byZincOxide, byBasic, byDiammine                             float64 // ageing
}

func (c *content) add(d *content, times float64) {
	c.dioxide += times * d.dioxide
	c.carbon += times * d.carbon
	c.gangue += times * d.gangue
	c.ammonium += times * d.ammonium
	c.zinc += times * d.zinc
	c.water += times * d.water
	c.potash += times * d.potash
	c.rust += times * d.rust
	c.byAmmonium += times * d.byAmmonium
	c.byChloride += times * d.byChloride
	c.byOxide += times * d.byOxide
	c.deep += times * d.deep
	c.gel += times * d.gel
	c.byZincOxide += times * d.byZincOxide
	c.byBasic += times * d.byBasic
	c.byDiammine += times * d.byDiammine
}

// What stands in the mix after discharge and ageing, by the equations.

func (c *content) spent() float64 { return 2*c.byAmmonium + 8*c.byChloride + 2*c.byOxide }
func (c *content) aged() float64  { return 2*c.byZincOxide + 8*c.byBasic + 2*c.byDiammine }
func (c *content) canZinc() float64 {
	return c.byAmmonium + 4*c.byChloride + c.byOxide + c.deep
}

// charge is the share of the oxide that is not spent; the last digits of none are none.
func (c *content) charge() float64 { return greater(0, 1-c.spent()/c.dioxide) }

// available is the oxygen that an assay finds, in moles of MnO2.
func (c *content) available() float64 { return c.dioxide - c.spent()/2 - c.deep }

// wetMass is the mass as the cells are opened: what was filled in, and the zinc
// that the discharge took from the can.
func (c *content) wetMass() float64 {
	return c.dioxide*mass(ManganeseDioxide) + c.carbon*mass(Carbon) + c.gangue*mass(Gangue) +
		c.ammonium*mass(AmmoniumChloride) + c.zinc*mass(ZincChloride) + c.water*mass(Water) +
		c.canZinc()*mass(Zinc) + c.potash*mass(Potash) + c.rust*mass(IronHydroxide) - c.gel*mass(ZincOxide)
}

// washedMass is the dry mass that the water washes leave, when they break up
// the given share of the diammine.
func (c *content) washedMass(hydrolysis float64) float64 {
	diammine := c.byAmmonium - c.byDiammine
	basic := c.byChloride - c.byBasic + hydrolysis*diammine/5
	return c.carbon*mass(Carbon) + c.gangue*mass(Gangue) + c.rust*mass(IronHydroxide) +
		(c.dioxide-c.spent())*mass(ManganeseDioxide) +
		greater(0, c.spent()-c.aged()-6*c.deep)*mass(Manganite) + c.aged()/2*mass(Hetaerolite) + 2*c.deep*mass(Hausmannite) +
		(c.byOxide+c.deep-c.byZincOxide-c.gel)*mass(ZincOxide) + basic*mass(BasicZincChloride) +
		(1-hydrolysis)*diammine*mass(ZincDiammine)
}

// assay is the available oxygen of the washed dry mix as mass percent MnO2.
func (c *content) assay(hydrolysis float64) float64 {
	return 100 * c.available() * mass(ManganeseDioxide) / c.washedMass(hydrolysis)
}

func mass(s Substance) float64 { return float64(s.MolarMass()) }

// fresh is a gram of new moist mix of the kind, with what the plan says instead
// of the kind's defaults.
func fresh(p *Plan, kind Choice) content {
	k := &cell.Kinds()[kind]
	c := k.Composition()
	carbon := orElse(p.MixCarbon, c.Carbon)
	oxide := 100 - carbon
	inert := orElse(p.MixInert, c.Inert).Fraction()
	ammonium, zinc, potash := c.Ammonium, c.Zinc, c.Potash
	if k.Caustic {
		potash = orElse(p.MixPotash, potash)
	} else {
		ammonium, zinc = orElse(p.MixAmmonium, ammonium), orElse(p.MixZinc, zinc)
	}
	water := orElse(p.MixWater, c.Water)
	total := float64(100 + ammonium + zinc + water + potash)
	rust := float64(oxide) * inert * orElse(p.MixIron, c.Iron).Fraction() / total / ironMass
	return content{
		dioxide:  float64(oxide) * (1 - inert) / total / mass(ManganeseDioxide),
		carbon:   float64(carbon) / total / mass(Carbon),
		gangue:   (float64(oxide)*inert/total - rust*mass(IronHydroxide)) / mass(Gangue),
		rust:     rust,
		ammonium: float64(ammonium) / total / mass(AmmoniumChloride),
		zinc:     float64(zinc) / total / mass(ZincChloride),
		water:    float64(water) / total / mass(Water),
		potash:   float64(potash) / total / mass(Potash),
	}
}

func orElse[T ~float64](x, otherwise T) T {
	if quantity.Given(x) {
		return x
	}
	return otherwise
}

// discharge uses up the dioxide until the charge is left: first with the
// ammonium chloride, then with the zinc chloride, then to zinc oxide, each until
// its salt, or the water, is used up. The share deep of the MnOOH goes on to
// hausmannite. Then a share of the MnOOH ages, as far as it is left, with the zinc of the
// oxide first, then of the basic salt, then of the diammine. Of the zinc oxide the share out
// stays with the gel.
func (c *content) discharge(charge, deep, aged, out float64) {
	left := c.dioxide * (1 - charge)
	c.byAmmonium = lesser(left/2, c.ammonium/2)
	left -= 2 * c.byAmmonium
	c.byChloride = lesser(lesser(left/8, c.zinc), c.water/9)
	left -= 8 * c.byChloride
	c.byOxide = greater(0, lesser(left/2, c.water-9*c.byChloride))

	c.deep = deep * c.spent() / 6
	old := lesser(aged*c.spent(), greater(0, c.spent()-6*c.deep))
	c.gel = out * (c.byOxide + c.deep)
	c.byZincOxide = lesser(old/2, c.byOxide+c.deep-c.gel)
	old -= 2 * c.byZincOxide
	c.byBasic = lesser(old/8, c.byChloride)
	old -= 8 * c.byBasic
	c.byDiammine = greater(0, lesser(old/2, c.byAmmonium))
}

// newCells are the opened cells of a plan as they were new, row by row, which no charge
// changes.
type newCells struct {
	rows [MaxRows]struct {
		mix    content
		charge float64
		out    float64 // of the zinc oxide, that stays with the gel
	}
	count      int
	deep, aged float64 // shares, as discharge takes them
}

// read takes them from a plan and the table of cells.
func (n *newCells) read(p *Plan) {
	n.deep, n.aged = p.Deep.Fraction(), p.Aged.Fraction()
	for i := range p.Rows {
		row := &p.Rows[i]
		if !row.present() || row.opened() == 0 {
			continue
		}
		r := &n.rows[n.count]
		n.count++
		r.mix = fresh(p, row.Kind)
		r.mix.scale(row.opened() * cell.PartsOf(int(row.Size), int(row.Kind)).Mix.Best * p.Fill.Fraction())
		r.charge = orElse(row.Charge, p.Rows[0].Charge).Fraction()
		if cell.Kinds()[row.Kind].Caustic {
			r.out = 1 - p.MixGel.Fraction()
		}
	}
}

// discharged is what they hold at the charges given; a charge that is not blank takes the place
// of those of all rows.
func (n *newCells) discharged(charge float64) (sum content) {
	for i := range n.rows[:n.count] {
		r := &n.rows[i]
		c := r.mix
		c.discharge(orElse(charge, r.charge), n.deep, n.aged, r.out)
		sum.add(&c, 1)
	}
	return sum
}

// bag is what the opened cells hold by the table, at the charges given, as discharged says.
func bag(p *Plan, charge float64) content {
	var n newCells
	n.read(p)
	return n.discharged(charge)
}

// chargeAt finds the one charge of all rows at which the washed mix has the
// assay. It clamps to 0..1; Check refuses assays beyond.
func (n *newCells) chargeAt(assay, hydrolysis float64) float64 {
	miss := func(q float64) float64 { c := n.discharged(q); return c.assay(hydrolysis) - assay }
	low, high := 0.0, 1.0
	below, above := miss(low), miss(high)
	if below >= 0 {
		return low
	}
	if above <= 0 {
		return high
	}
	return root(miss, low, below, high, above, 1e-12*assay)
}

// ChargeOf is the charge, 0 to 1, at which the washed mix has the plan's assay,
// found by trial; Blank without an assay, or where no cell is opened.
func ChargeOf(p *Plan) float64 {
	var n newCells
	n.read(p)
	if !quantity.Given(p.MixAssay) || n.count == 0 {
		return quantity.Blank
	}
	return n.chargeAt(float64(p.MixAssay), p.WashHydrolysis.Fraction())
}

// openCells books the cells as new, discharges and ages them, and moves the mix
// to its basin, cans and rods to the tray.
func (b *Runner) openCells(p *Plan) {
	opened, refused, can, rod := 0.0, 0.0, 0.0, 0.0
	for i := range p.Rows {
		if row := &p.Rows[i]; row.present() {
			part := cell.PartsOf(int(row.Size), int(row.Kind))
			opened += row.opened()
			refused += row.Count - row.opened()
			rod += row.opened() * part.Rod.Best
			if !cell.Kinds()[row.Kind].Caustic { // zinc powder is no can to keep
				can += row.opened() * part.Can.Best
			}
		}
	}
	b.set(CellsOpened, opened)
	b.set(CellsRefused, refused)
	if opened == 0 {
		for _, id := range []FigureID{MixMass, MixDry, MixManganese, MixOxide, MixHetaerolite, CanZinc, RodCarbon} {
			b.set(id, 0)
		}
		return
	}

	hydrolysis := p.WashHydrolysis.Fraction()
	charge := quantity.Blank
	var n newCells
	n.read(p)
	least, most := n.discharged(0), n.discharged(1)
	b.set(AssayLeast, least.assay(hydrolysis))
	b.set(AssayMost, most.assay(hydrolysis))
	if quantity.Given(p.MixAssay) {
		charge = n.chargeAt(float64(p.MixAssay), hydrolysis)
	}
	c := n.discharged(charge)
	switch {
	case quantity.Given(p.MixWashed):
		c.scale(float64(p.MixWashed) / c.washedMass(hydrolysis))
	case quantity.Given(p.MixWet):
		c.scale(float64(p.MixWet) / c.wetMass())
	}
	b.bookCells(&c, quantity.Gram(can), quantity.Gram(rod))

	b.set(MixMass, c.wetMass())
	b.set(MixDry, c.washedMass(hydrolysis))
	b.set(MixManganese, c.dioxide*1000)
	b.set(MixOxide, c.available()*mass(ManganeseDioxide))
	b.set(MixCharge, 100*c.charge())
	b.grams(MixHetaerolite, b.book.Mass(ledger.Mix, Hetaerolite))
	b.grams(CanZinc, b.book.Mass(ledger.Tray, Zinc))
	b.grams(RodCarbon, b.book.Mass(ledger.Tray, Carbon))
	b.set(MixPotash, c.potash*mass(Potash))
	if c.spent() > 0 {
		b.set(AgedReached, 100*c.aged()/c.spent())
	} else {
		b.set(AgedReached, 0)
	}
}

func (c *content) scale(by float64) {
	var scaled content
	scaled.add(c, by)
	*c = scaled
}

func (b *Runner) bookCells(c *content, can, rod quantity.Gram) {
	book := &b.book
	bring := func(s Substance, n float64) { book.Bring(ledger.Cells, s, quantity.Mole(n)) }
	bring(ManganeseDioxide, c.dioxide)
	bring(Carbon, c.carbon)
	bring(Gangue, c.gangue)
	bring(AmmoniumChloride, c.ammonium)
	bring(ZincChloride, c.zinc)
	bring(Water, c.water)
	bring(Potash, c.potash)
	bring(IronHydroxide, c.rust)
	// A weighing far above what the cans could have fed still needs its zinc.
	bring(Zinc, greater(float64(Zinc.Moles(can)), c.canZinc()))
	book.Bring(ledger.Tray, Carbon, Carbon.Moles(rod))

	for _, step := range []struct {
		equation *Equation
		extent   float64
	}{
		{DischargeAmmonium, c.byAmmonium},
		{DischargeChloride, c.byChloride},
		{DischargeOxide, c.byOxide},
		{DischargeDeep, c.deep},
		{AgeOxide, c.byZincOxide},
		{AgeBasic, c.byBasic},
		{AgeDiammine, c.byDiammine},
	} {
		b.react(ledger.Cells, step.equation, quantity.Mole(step.extent))
	}
	book.MoveShare(ledger.Cells, ledger.Tray, Zinc, 1)
	book.Move(ledger.Cells, ledger.Tray, ZincOxide, quantity.Mole(c.gel))
	book.MoveAll(ledger.Cells, ledger.Mix, 1)
}
