package route

import (
	"math"

	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

// Remedy is what a jar would hold if one step were done otherwise, or after it.
type Remedy struct {
	Key, Name, How string
	Product        float64   // g in the jar
	Purity         float64   // % of it manganese sulfate, with its water
	Keeps          float64   // % of the manganese sulfate that the plan's jar holds; above 100 where dithionate turns into it
	Left           []float64 // of each companion, g to 100 g of anhydrous manganese sulfate
}

// Purity is what lies in the jar beside the salt, what each step would take out, and
// what none does.
type Purity struct {
	Companions []string
	Now        Remedy
	Steps      []Remedy
	All        Remedy // all of them, one after the other
}

// jarful is a jar by its matter, in moles of salt and grams of companions.
type jarful struct {
	salt  float64 // MnSO4
	n     float64 // water to it
	mass  float64
	grams [len(companions)]float64
}

func (b *Runner) jarful() jarful {
	j := jarful{salt: float64(b.has(ledger.ProductJar, ManganeseSulfate)), n: b.sheet.Value(ProductWaters), mass: b.sheet.Value(ProductMass)}
	if j.mass == 0 { // less than can be told
		return jarful{n: j.n}
	}
	for i, c := range companions {
		j.grams[i] = b.sheet.Value(c.id)
	}
	return j
}

// remedy tells what is in the jar, against the one before, which holds salt.
func (j *jarful) remedy(key, name, how string, before *jarful) Remedy {
	r := Remedy{Key: key, Name: name, How: how, Product: j.mass, Purity: quantity.Blank, Keeps: 100 * j.salt / before.salt}
	if j.mass > 0 {
		r.Purity = 100 * math.Min(1, j.salt*(mass(ManganeseSulfate)+j.n*mass(Water))/j.mass)
	}
	for _, g := range j.grams {
		left := quantity.Blank
		if j.salt > 0 {
			left = 100 * g / (j.salt * mass(ManganeseSulfate))
		}
		r.Left = append(r.Left, left)
	}
	return r
}

// The temperatures of the remedies, °C.
const (
	warmSlurry    = 60  // dithionate is less (table.DithionateShare)
	breaksAt      = 270 // a little above where dithionates break up
	glowsAt       = 460 // a little above where ammonium sulfate is gone
	saturatedAt   = 25  // the salt dissolves best
	grownHot      = 100
	hotWaterLeft  = 1.0 / 3 // of the water: boil two thirds away (a purification handbook, at second hand)
	hardlySoluble = 0       // of sulfites and oxalates goes into solution
)

// Recrystal is what dissolving a salt to saturation at one temperature and growing it
// at another gives: the hydrate that forms there.
type Recrystal struct {
	Water  float64 // mL to dissolve it
	Waters float64 // of the hydrate
	Crop   float64 // mol
	Liquor float64 // g of water left in the mother liquor
}

// Recrystallise dissolves moles of anhydrous manganese sulfate to saturation at one
// temperature, boils away all but a share of the water, and grows crystals at another.
// Above 30 °C the salt is the less soluble the hotter it is, so that heating a cold
// solution grows the monohydrate. Both temperatures in 0 to 100 °C.
func Recrystallise(salt float64, dissolved, grown quantity.Celsius, left float64) (Recrystal, error) {
	return recrystallise(salt, 0, dissolved, grown, left)
}

// recrystallise does so with zinc and iron that grow in, so many moles with all of the salt.
func recrystallise(salt, zinc float64, dissolved, grown quantity.Celsius, left float64) (Recrystal, error) {
	s, err := table.ManganeseSulfateSolubility.At(float64(dissolved))
	if err != nil {
		return Recrystal{}, err
	}
	at, err := table.ManganeseSulfateSolubility.At(float64(grown))
	if err != nil {
		return Recrystal{}, err
	}
	water := salt * mass(ManganeseSulfate) * 100 / s
	n, _ := waters(grown)
	host := hostWaters(n, salt, zinc)
	c := crop(salt, water*left/mass(Water), host, at, ManganeseSulfate)
	return Recrystal{Water: water, Waters: n, Crop: c, Liquor: greater(0, water*left-c*host*mass(Water))}, nil
}

// recrystallise does it to a jar. Sulfites and oxalates are filtered off before. What
// dissolves stays in the mother liquor, of which the crystals hold some; but of zinc, iron
// and ammonium a part grows into the crystals (crop.taken), as when the plan crystallises,
// all zinc counted as its sulfate, all iron as iron(II).
func (j *jarful) recrystallise(p *Plan, grown quantity.Celsius, left float64) jarful {
	if j.salt == 0 {
		return jarful{}
	}
	taken, metals, all := p.CropTaken.Fraction(), 0.0, 0.0 // mol of zinc and iron, and g of all, with all of the salt
	for i, c := range companions {
		switch c.id {
		case ProductZinc:
			metals += taken * j.grams[i] / mass(ZincSulfate)
			all += taken * j.grams[i]
		case ProductIron:
			metals += taken * j.grams[i] / mass(FerrousSulfate)
			all += taken * j.grams[i]
		case ProductAmmonium:
			all += taken * j.grams[i]
		}
	}
	r, err := recrystallise(j.salt, metals, saturatedAt, grown, left)
	if err != nil {
		return jarful{}
	}
	grows := r.Crop / j.salt
	hydrate := mass(ManganeseSulfate) + r.Waters*mass(Water)
	out := jarful{salt: r.Crop, n: r.Waters, mass: grows * metals * r.Waters * mass(Water)}
	held := 1.0 // all of it is solid
	if r.Liquor > speck*r.Water {
		held = lesser(1, float64(p.CropHeld)*(r.Crop*hydrate+grows*all+out.mass)/r.Liquor)
	}
	out.salt += held * (j.salt - r.Crop)
	out.mass += out.salt * hydrate
	for i, c := range companions {
		share := held
		switch c.id {
		case ProductZinc, ProductIron, ProductAmmonium:
			share = taken*grows + held*(1-taken*grows)
		case ProductSulfite, ProductOxalate:
			share = hardlySoluble
		}
		out.grams[i] = share * j.grams[i]
		if c.id != ProductChloride { // its salts are counted already
			out.mass += out.grams[i]
		}
	}
	return out
}

// Purify tells what each step would take out of the jar: plans run again with the step
// changed, and recrystallising what this plan gives. Not ok where there is no salt.
func Purify(p *Plan) (purity Purity, ok bool) {
	var b Runner
	run := func(q *Plan) jarful { b.Run(q); return b.jarful() }
	now := run(p)
	if now.salt == 0 {
		return purity, false
	}
	for _, c := range companions {
		purity.Companions = append(purity.Companions, c.name)
	}
	sheet := b.sheet
	purity.Now = now.remedy("now", "this plan", "", &now)
	all := *p
	try := func(key, name, how string, change func(q *Plan)) {
		q := *p
		change(&q)
		change(&all)
		j := run(&q)
		purity.Steps = append(purity.Steps, j.remedy(key, name, how, &now))
	}
	if times, now := moreWashes(p, &sheet), sheet.Value(WashTimesUsed); times > now {
		try("wash", "more washes", Print(times, "")+" in place of "+Print(now, ""), func(q *Plan) { q.WashTimes = times })
	}
	if acid := quantity.Millilitre(sheet.Value(WashAcidNeeded)); float64(acid) > sheet.Value(WashAcidPoured) {
		try("rinse", "acid rinse of the washed mix", Print(float64(acid), "mL")+" of dilute acid", func(q *Plan) { q.WashAcid = acid })
	}
	if Sulfurous(p) && p.SlurryTemperature < warmSlurry {
		try("warm", "warmer slurry", "at "+Print(warmSlurry, "°C"), func(q *Plan) {
			q.SlurryTemperature, q.SlurryDithionate = warmSlurry, quantity.Percent(quantity.Blank)
		})
	}
	dried := func(key, name string, t quantity.Celsius) {
		if p.DryWay == ToDryness && p.DryTemperature < t && reducing(p).bears == 0 {
			try(key, name, "at "+Print(float64(t), "°C"), func(q *Plan) { q.DryTemperature = t })
		}
	}
	if Sulfurous(p) {
		dried("bake", "drying hotter, which breaks dithionate", breaksAt)
	}
	dried("glow", "drying hotter still, which drives ammonium and acid off", glowsAt)
	if !ThrowsIronDown(p) && sheet.Value(ProductIron) > trace*sheet.Value(ProductMass) {
		try("iron", "throwing the iron down", "cake kept back, soda to pH 5", func(q *Plan) { q.IronWay, q.IronKept = IronThrownDown, usualKept })
	}
	crystals := func(key, name string, grown quantity.Celsius, left float64) {
		j := now.recrystallise(p, grown, left)
		purity.Steps = append(purity.Steps, j.remedy(key, name, hydrateName(grown)+" at "+Print(float64(grown), "°C"), &now))
	}
	crystals("cold", "recrystallising in the cold", p.CropCold, 1)
	crystals("hot", "recrystallising hot, two thirds of the water boiled away", grownHot, hotWaterLeft)
	last := run(&all)
	last = last.recrystallise(p, grownHot, hotWaterLeft)
	purity.All = last.remedy("all", "all of them", "the hot crystals of such a run", &now)
	return purity, true
}

// moreWashes are enough by the silver test, or twice as many.
func moreWashes(p *Plan, s *Sheet) float64 {
	times := 2 * s.Value(WashTimesUsed)
	switch {
	case s.Reason(WashPotash) == Defined:
	case s.Value(WashAcidPoured) > 0 && s.Value(WashLast) <= float64(p.WashTarget):
		return s.Value(WashTimesUsed) // those after the acid do it
	case s.Reason(WashEnough) == Defined:
		times = s.Value(WashEnough)
	}
	in, _ := InputByKey("wash.times")
	return math.Min(in.Max, times)
}

func hydrateName(t quantity.Celsius) string {
	_, form := waters(t)
	return [...]string{heptahydrate: "heptahydrate", pentahydrate: "pentahydrate", monohydrateDamp: "monohydrate", monohydrate: "monohydrate", betweenForms: "monohydrate", anhydrous: "anhydrous"}[form]
}

// Remains names the companions of which all steps together leave more than a trace, in
// g to 100 g of anhydrous salt.
func (q *Purity) Remains() []Need {
	var list []Need
	for i, left := range q.All.Left {
		if left > 100*trace {
			list = append(list, Need{q.Companions[i], left, "g", ""})
		}
	}
	return list
}
