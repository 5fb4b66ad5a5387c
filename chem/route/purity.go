package route

import (
	"math"

	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

// Jar is what a jar would hold if one step were done otherwise, or after it.
type Jar struct {
	Key, Name, How string
	Product        float64        // g in the jar
	Purity         float64        // % of it manganese sulfate, with its water
	Salt           float64        // g of it, counted anhydrous
	Keeps          float64        // % of the manganese sulfate that the plan's jar holds; above 100 where dithionate turns into it
	Left           []float64      // of each companion, g to 100 g of anhydrous manganese sulfate
	Set            []field.Change // by which the plan comes to it; nil where none do
}

// Purity is what lies in the jar beside the salt, what each step would take out, and
// what none does.
type Purity struct {
	Companions []string
	Now        Jar
	Steps      []Jar
	All        Jar // all of them, one after the other
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
func (j *jarful) remedy(key, name, how string, before *jarful) Jar {
	r := Jar{Key: key, Name: name, How: how, Product: j.mass, Purity: quantity.Blank, Salt: j.salt * mass(ManganeseSulfate), Keeps: 100 * j.salt / before.salt}
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

// PurityStep is one thing that a plan can do about the purity of its salt: changes of its fields,
// under one name. Of the steps of a kind a plan does one at most.
type PurityStep struct {
	Kind      PurityKind
	Key       string // of what is done, unique among the steps of a plan
	Name, How string
	Set       []field.Change
}

// PurityKind is what a step is about.
type PurityKind uint8

// The kinds, in the order in which steps are taken up: what a later one does may hang on an
// earlier one.
const (
	OfWay    PurityKind = iota // another reductant
	OfRinse                    // the acid rinse of the washed mix
	OfWash                     // washes
	OfWarmth                   // of the slurry
	OfIron                     // what is done about it
	OfFinish                   // how the salt is dried or grown
	// PurityKinds is how many there are.
	PurityKinds = iota
)

// With is the plan with changes made; not ok where they do not go together.
func (p *Plan) With(set []field.Change) (q Plan, ok bool) {
	q = *p
	form := q.Form()
	for _, c := range set {
		if f, found := form.Find(c.Key); !found || form.Set(f, c.Text) != nil {
			return q, false
		}
	}
	return q, len(Check(&q)) == 0
}

// Changes are those that make another plan of a plan, in bench order.
func (p *Plan) Changes(to *Plan) (list []field.Change) {
	for i := range inputs {
		in := &inputs[i]
		if text := in.Write(in.Value(to)); text != in.Write(in.Value(p)) {
			list = append(list, field.Change{Key: in.Key, Text: text})
		}
	}
	return list
}

// set is the change of a number.
func set(key string, v float64) field.Change { return field.Change{Key: key, Text: Plain(v)} }

// PuritySteps are what a plan can do about the purity of its salt, beside recrystallising it. The
// sheet is the plan's.
func PuritySteps(p *Plan, s *Sheet) (list []PurityStep) {
	add := func(kind PurityKind, key, name, how string, changes ...field.Change) {
		if q, ok := p.With(changes); ok && p.Changes(&q) != nil {
			list = append(list, PurityStep{kind, key, name, how, changes})
		}
	}
	if times, now := moreWashes(p, s), s.Value(WashTimesUsed); times > now {
		add(OfWash, "wash", "more washes", Print(times, "")+" in place of "+Print(now, ""), set("wash.times", times))
	}
	if now := s.Value(WashAfterUsed); now > 0 {
		for _, more := range [...]float64{1, 2, 4} {
			add(OfWash, "after."+Plain(more), "more washes after the acid", Print(now+more, "")+" in place of "+Print(now, ""), set("wash.after", now+more))
		}
	}
	if acid := Shown(s.Value(WashAcidNeeded)); acid > s.Value(WashAcidPoured) {
		add(OfRinse, "rinse", "acid rinse of the washed mix", Print(acid, "mL")+" of dilute acid", set("wash.acid", acid))
	}
	if Sulfurous(p) && p.SlurryTemperature < warmSlurry {
		add(OfWarmth, "warm", "warmer slurry", "at "+Print(warmSlurry, "°C"), set("slurry.temperature", warmSlurry), field.Change{Key: "slurry.dithionate"})
	}
	dried := func(key, name string, t quantity.Celsius) {
		if reducing(p).bears == 0 {
			add(OfFinish, key, name, "at "+Print(float64(t), "°C"), field.Change{Key: "dry.way", Text: "dry"}, set("dry.temperature", float64(t)))
		}
	}
	if p.DryWay == ToCrystals {
		dried("down", "drying it down, hot, in place of growing crystals", glowsAt)
	} else {
		if Sulfurous(p) && p.DryTemperature < breaksAt {
			dried("bake", "drying hotter, which breaks dithionate", breaksAt)
		}
		if p.DryTemperature < glowsAt {
			dried("glow", "drying hotter still, which drives ammonium and acid off", glowsAt)
		}
	}
	grown := func(key, name string, t quantity.Celsius, water field.Change) {
		add(OfFinish, key, name, hydrateName(t)+" at "+Print(float64(t), "°C"), field.Change{Key: "dry.way", Text: "crystals"}, set("crop.cold", float64(t)), water)
	}
	grown("cold", "growing crystals in the cold", lesser(p.CropCold, saturatedAt), field.Change{Key: "crop.water"})
	grown("hot", "growing crystals hot", grownHot, field.Change{Key: "crop.water"})
	grown("thick", "growing crystals hot, boiled down further", grownHot, set("crop.water", math.Ceil(thickCrop*s.Value(ProductAnhydrous))))
	if !ThrowsIronDown(p) && s.Value(ProductIron) > trace*s.Value(ProductMass) {
		add(OfIron, "iron", "throwing the iron down", "cake kept back, soda to pH 5", field.Change{Key: "iron.way", Text: "thrown"}, set("iron.kept", usualKept))
	}
	for i, r := range reductants {
		if Choice(i) != p.GasSource {
			add(OfWay, r.word, "another way", r.name, field.Change{Key: "gas.source", Text: r.word})
		}
	}
	return list
}

// thickCrop is the water left in a crop that is boiled down further, mL to a gram of anhydrous
// salt: a little more than that at which it sets solid (crop.water).
const thickCrop = 0.7

// told are the steps that the table of purity tells one by one. The ways have a table of
// their own.
func (st *PurityStep) told() bool {
	switch st.Key {
	case "wash", "rinse", "warm", "bake", "glow", "iron":
		return true
	}
	return false
}

// Purify tells what each step would take out of the jar: plans run again with the step
// changed, and recrystallising what this plan gives. Not ok where there is no salt. Planned is
// what is computed of a plan.
func Purify(p *Plan, planned func(*Plan) Plan) (purity Purity, ok bool) {
	var b Runner
	run := func(q *Plan) jarful {
		computed := planned(q)
		b.Run(&computed)
		return b.jarful()
	}
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
	is := planned(p)
	for _, st := range PuritySteps(&is, &sheet) {
		if !st.told() {
			continue
		}
		q, _ := p.With(st.Set)
		if more, ok := all.With(st.Set); ok {
			all = more
		}
		j := run(&q)
		jar := j.remedy(st.Key, st.Name, st.How, &now)
		jar.Set = st.Set
		purity.Steps = append(purity.Steps, jar)
	}
	crystals := func(key, name string, grown quantity.Celsius, left float64) {
		j := now.recrystallise(&is, grown, left)
		purity.Steps = append(purity.Steps, j.remedy(key, name, hydrateName(grown)+" at "+Print(float64(grown), "°C"), &now))
	}
	crystals("cold", "recrystallising in the cold", is.CropCold, 1)
	crystals("hot", "recrystallising hot, two thirds of the water boiled away", grownHot, hotWaterLeft)
	last := run(&all)
	last = last.recrystallise(&is, grownHot, hotWaterLeft)
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
func (q *Purity) Remains() []Need { return q.All.Remains() }

// Remains names the companions of which more than a trace is left, in g to 100 g of
// anhydrous salt.
func (r *Jar) Remains() []Need {
	var list []Need
	for i, left := range r.Left {
		if left > 100*trace {
			list = append(list, Need{companions[i].name, left, "g", ""})
		}
	}
	return list
}

// Jar is what the jar of the last run of a plan holds, and the same recrystallised hot. Not
// ok where there is no salt.
func (b *Runner) Jar(p *Plan) (now, again Jar, ok bool) {
	j := b.jarful()
	if j.salt == 0 || j.mass == 0 {
		return now, again, false
	}
	grown := j.recrystallise(p, grownHot, hotWaterLeft)
	return j.remedy("now", "this plan", "", &j), grown.remedy("hot", "recrystallising hot", "", &j), true
}
