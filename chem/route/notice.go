package route

import (
	"fmt"
	"strings"

	"rosesalt/chem/cell"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/room"
)

// Tone says what a notice is for.
type Tone uint8

// The tones of a notice.
const (
	Tip  Tone = iota // how to do better
	Mind             // something in this plan does not go as it should
)

// String is the tone in a word, as those who script read it.
func (t Tone) String() string { return [...]string{Tip: "tip", Mind: "mind"}[t] }

// Notice is a sentence about this plan that the chemist should read at a stage, and the
// changes that would remove its cause.
type Notice struct {
	Key   string // what it is about, for those who script; never changes
	Stage Stage
	Tone  Tone
	Text  string
	Mends []Mend
}

// Notices reads a plan and its figures and says what a chemist would say.
func Notices(p *Plan, s *Sheet) []Notice {
	n := notices{p: p, s: s}
	if s.Value(CellsOpened) == 0 {
		n.say("cells.none", Cells, Mind, "No cell is opened: all of the bag goes to collection.")
		return n.list
	}
	for _, about := range []func(*notices){
		(*notices).cells, (*notices).wash, (*notices).vessels, (*notices).gas, (*notices).slurry, (*notices).stir,
		(*notices).filter, (*notices).dry, (*notices).copper, (*notices).waste,
	} {
		about(&n)
	}
	return n.list
}

type notices struct {
	p    *Plan
	s    *Sheet
	list []Notice
}

func (n *notices) say(key string, stage Stage, tone Tone, format string, args ...any) {
	n.list = append(n.list, Notice{Key: key, Stage: stage, Tone: tone, Text: fmt.Sprintf(format, args...)})
}

// print is a figure as it stands on the page.
func (n *notices) print(id FigureID) string { return Print(n.s.Value(id), id.Info().Unit) }

func (n *notices) has(id FigureID) bool { return n.s.Reason(id) == Defined }

func (n *notices) cells() {
	v := n.s.Value
	if !quantity.Given(n.p.MixWet) && !quantity.Given(n.p.MixWashed) {
		n.say("cells.weigh", Cells, Tip, "Weigh the wet black mix before the first wash. Everything below hangs on it, and makers differ by a fifth either way.")
	}
	if asked := float64(n.p.Rows[0].Charge); !quantity.Given(n.p.MixAssay) && !quantity.Given(n.p.Rows[1].Count) && v(MixCharge) > asked+0.1 {
		n.say("cells.charge", Cells, Mind, "With so little water in the mix the cells cannot have gone below %s of unused oxide; %s was asked for.", n.print(MixCharge), Print(asked, "%"))
	}
	n.weighed()
	expected := bag(n.p, quantity.Blank)
	if wet := expected.wetMass(); quantity.Given(n.p.MixWet) && (float64(n.p.MixWet) > 1.5*wet || float64(n.p.MixWet) < 0.6*wet) {
		n.say("cells.wet", Cells, Mind, "%s of wet mix is far from the %s that these cells should hold. Is the size or the count right, or was the dish weighed too?",
			Print(float64(n.p.MixWet), "g"), Print(wet, "g"))
	}
	if washed := expected.washedMass(n.p.WashHydrolysis.Fraction()); quantity.Given(n.p.MixWashed) && float64(n.p.MixWashed) > 1.3*washed {
		n.say("cells.washed", Cells, Mind, "%s is far more than the %s that these cells should give, washed and dry. A mix weighed wet for dry looks like this.",
			Print(float64(n.p.MixWashed), "g"), Print(washed, "g"))
	}
}

// weighed says what the mass of a cell makes of its kind.
func (n *notices) weighed() {
	for i := range n.p.Rows {
		row := &n.p.Rows[i]
		if !row.present() || !quantity.Given(row.Weight) {
			continue
		}
		size := &cell.Sizes()[row.Size]
		alkaline := caustic(row)
		grams := Print(float64(row.Weight), "g")
		between := func(e cell.Estimate) string { return Print(e.Low, "") + " to " + Print(e.High, "g") }
		switch guess := size.Weigh(float64(row.Weight)); {
		case guess == cell.LikelyAlkaline && !alkaline:
			n.say("cells.alkaline", Cells, Mind, "%s of %s is likely alkaline (%s), whatever its wrapper says: zinc-carbon ones weigh %s. Look for LR on it; leave it shut, or plan it as its own kind.",
				aCell(size.Mark), grams, between(size.Alkaline), between(size.Cell))
		case guess == cell.LikelyZincCarbon && alkaline:
			n.say("cells.zinccarbon", Cells, Mind, "%s of %s is likely zinc-carbon (%s), not alkaline: those weigh %s.", aCell(size.Mark), grams, between(size.Cell), between(size.Alkaline))
		case guess == cell.Unsure:
			n.say("cells.unsure", Cells, Mind, "%s fits neither kind of %s well: zinc-carbon ones weigh %s, alkaline ones %s. Check size and balance; a cell you cannot tell stays shut.",
				grams, size.Mark, between(size.Cell), between(size.Alkaline))
		}
	}
}

// aCell begins a sentence with the mark of a cell: an R6, a 6F22.
func aCell(mark string) string {
	if mark[0] >= 'A' { // R and L are said as ar and el
		return "An " + mark
	}
	return "A " + mark
}

func (n *notices) wash() {
	v := n.s.Value
	if n.has(WashPotash) && v(WashPotash) > 0 {
		n.say("wash.potash", Wash, Tip, "Wash alkaline mix until pH paper shows little more in the liquor than in the water itself; silver nitrate tells nothing here. What is left, %s of potash, costs %s of dilute acid.",
			n.print(WashPotash), Print(v(WashPotash)/2/mass(reaction.Potash), "mL"))
	}
	switch {
	case !n.has(WashLast):
		n.say("wash.nothing", Wash, Mind, "Nothing drains: the dry mix would hold more than all the water you give it.")
	case n.p.WashAcid > 0:
		if v(WashLast) > float64(n.p.WashTarget) {
			n.say("wash.acid", Wash, Tip, "The acid rinse set chloride free: the wash after it shows %s. Wash again until silver nitrate stays clear.", n.print(WashLast))
		}
	case v(WashLast) > float64(n.p.WashTarget) && n.has(WashEnough):
		n.say("wash.last", Wash, Tip, "The last wash still shows %s. %s of this size would bring it to %s.",
			n.print(WashLast), Count(v(WashEnough), "wash", "washes"), Print(float64(n.p.WashTarget), "mg/L"))
	case v(WashLast) > float64(n.p.WashTarget):
		n.say("wash.never", Wash, Tip, "No number of washes of this size gets to %s: use more water in each, or stir better.", Print(float64(n.p.WashTarget), "mg/L"))
	}
	if v(WashBound) > 5*v(WashChloride) && n.p.WashAcid == 0 {
		n.say("wash.bound", Wash, Tip, "A clear test is not a chloride-free cake: %s stays locked in zinc salts that water leaves. A rinse with %s of dilute acid takes them out; without it they end as zinc in the product.", n.print(WashBound), n.print(WashAcidNeeded))
	}
	if v(WashManganese) > 0.02*v(MixManganese) {
		n.say("wash.manganese", Wash, Mind, "This much acid also dissolves %s of manganese, which leaves with the liquor.", n.print(WashManganese))
	}
}

// vessels tells at the batch which ones are too small for the share, and at its own stage
// what each does not hold.
func (n *notices) vessels() {
	var words, larger []string
	cut := Mend{}
	list := Vessels(n.p, n.s)
	for i := range list {
		v := &list[i]
		if !v.TooSmall() {
			continue
		}
		mends := v.Mends()
		n.list = append(n.list, Notice{"vessel." + v.Step, v.Stage, Mind, v.Warning(), mends})
		if v.Batches > 0 {
			words, larger, cut = append(words, v.word), append(larger, "a "+v.word+" of "+v.LeastText()+" or more"), mends[0]
		}
	}
	if words != nil {
		is := " is"
		if len(words) > 1 {
			is = " are"
		}
		n.list = append(n.list, Notice{"batch.vessels", Batch, Mind, fmt.Sprintf("The %s%s too small for this share. %s, or take %s.",
			listed(words, "the "), is, cut.Text, listed(larger, "")), []Mend{cut}})
	}
	if runs := Runs(n.p); runs > 1 && Gaseous(n.p) {
		again := runs*(n.value(GasHeadspace)+float64(n.p.GasTube)) - n.value(GasPurgeUsed)
		if quantity.Given(n.p.GasPurge) {
			again = (runs - 1) * float64(n.p.GasPurge)
		}
		n.say("batch.air", Batch, Tip, "Each of the %s batches drives the air out of flask and tube anew. The figures count that once: about %s of gas more is lost so, which the excess has to bear.",
			Print(runs, ""), Print(again/1000, "L"))
	}
}

// listed joins words: a, b and c, each but the first after the article.
func listed(words []string, article string) string {
	last := len(words) - 1
	if last == 0 {
		return words[0]
	}
	return strings.Join(words[:last], ", "+article) + " and " + article + words[last]
}

func (n *notices) value(id FigureID) float64 {
	if !n.has(id) {
		return 0
	}
	return n.s.Value(id)
}

func (n *notices) gas() {
	v := n.s.Value
	switch {
	case v(GasMade) == 0 && v(DemandGas) > 0:
		n.say("gas.none", Gas, Mind, "This charge makes no gas that leaves the flask.")
	case v(GasMade) < v(GasNeeded)*(1-1e-6) && !n.has(MetShare):
		solid, needed := "copper", GasCopperNeeded
		if n.p.GasSource == FromMetabisulfite {
			solid, needed = "metabisulfite", GasSaltNeeded
		}
		n.say("gas.short", Gas, Mind, "The %s runs out at %s of gas, of %s wanted. For all of it take %s of acid and %s of %s; or make this run smaller, about %s of the oxide.",
			n.s.Word(GasLimit), n.print(GasMade), n.print(GasNeeded), n.print(GasAcidNeeded), n.print(needed), solid,
			Print(float64(n.p.BatchShare)*v(GasMade)/v(GasNeeded), "%"))
	}
	if acid := n.value(GasAcidUsed) / Runs(n.p); acid > benchAcid {
		n.say("gas.acid", Gas, Mind, "%s of acid in one flask is no longer work for a bench like this. Make smaller batches.", Print(acid, "mL"))
	}
	if v(GasMade) > 2*v(GasNeeded) && v(GasNeeded) > 0 {
		n.say("gas.over", Gas, Mind, "This charge makes %s of gas where %s are wanted: all the rest goes past the slurry.", n.print(GasVolume), Print(v(GasVolume)*v(GasNeeded)/v(GasMade), "L"))
	}
	if v(GasRate) > benchRate {
		n.say("gas.fast", Gas, Mind, "%s of gas is too fast for one funnel: most of it would pass by. Take more time.", n.print(GasRate))
	}
	if n.p.GasSource == FromCopper && v(GasMade) > 0 {
		n.say("gas.begins", Gas, Tip, "The gas begins when the acid smokes, somewhere from %s to %s (from memory). Lower the flame as soon as it comes freely; it fades when the flame is gone.", Print(float64(gasFromCelsius), ""), Print(float64(hottestCelsius), "°C"))
	}
	if v(GasBubbles) > 12 {
		n.say("gas.bubbles", Gas, Tip, "%s bubbles a second are too many to count. Watch the stream, or take more time.", Print(v(GasBubbles), ""))
	}
	if n.has(MetShare) && v(MetShare) < 99 {
		after := n.print(MetMinute)
		if runs := Runs(n.p); runs > 1 {
			after += " in all, " + Print(v(MetMinute)/runs, "min") + " in each batch"
		}
		n.say("gas.met", Gas, Tip, "The oxide has what it can use at about %s of the charge, after some %s. Stop there: the rest only has to be scrubbed.", n.print(MetShare), after)
	}
	if n.p.GasSource == FromMetabisulfite && v(GasHeld) > 0.2*v(GasMade) {
		n.say("gas.held", Gas, Tip, "The generator's water holds %s of the gas back. Use less water, or warm the flask more at the end.", n.print(GasHeld))
	}
}

func (n *notices) slurry() {
	v := n.s.Value
	if v(AcidSaves) > 0.02*v(GasMade) {
		n.say("slurry.short", Slurry, Mind, "Dilute acid is short: %s of gas stand in for it, two moles for one, and leave a sulfite in the product. %s of 1 mol/L acid would avoid that.",
			n.print(AcidSaves), Print(v(DemandAcid), "mL"))
		if n.has(DemandTimes) && v(SlurryAcidUsed) < 0.5*v(DemandAcid) {
			n.say("slurry.bare", Slurry, Mind, "With no dilute acid at all this oxide takes %s times the gas, %s in place of %s; wholly spent oxide takes three times.",
				n.print(DemandTimes), n.print(DemandBare), n.print(DemandGas))
		}
	} else if Sulfurous(n.p) && v(SlurryAcidUsed) < 0.95*v(DemandAcid) {
		n.say("slurry.waits", Slurry, Mind, "There is less dilute acid than the oxide wants: %s of 1 mol/L for %s. Where it is used up the gas dissolves only unused oxide, and spent oxide waits until that is gone.",
			n.print(SlurryAcidUsed), Print(v(DemandAcid), "mL"))
	}
	if v(DemandDithionate) >= 30 {
		n.say("slurry.dithionate", Slurry, Tip, "%s of the reducing power ends as dithionate, which costs that much more gas. A warmer slurry loses less of it, and takes gas up a little worse.", n.print(DemandDithionate))
	}
	if Gaseous(n.p) && n.p.SlurryTemperature < 7 {
		n.say("slurry.cold", Slurry, Mind, "Below 7 °C gas and water can set to a solid in a dipping tube and block it. Use a funnel at the surface, or keep the slurry at 8 to 15 °C.")
	}
	if n.has(ReduceIce) && n.value(ReduceRise) > 15 {
		n.say("slurry.heat", Slurry, Tip, "The reaction gives off %s. Stand the vessel in %s of ice and water, or it warms by %s.", n.print(ReduceHeat), n.print(ReduceIce), n.print(ReduceRise))
	}
}

// stir speaks of what is stirred into the slurry.
func (n *notices) stir() {
	need, ok := Stirred(n.p, n.s)
	if !ok {
		return
	}
	n.say("stir.straight", Gas, Tip, "No flask and no tube in this way: %s of %s go straight into the slurry. Only the strength of the acid matters here.", Print(need.Amount, need.Unit), lower(need.Name))
	v := n.s.Value
	stir := reductants[n.p.GasSource].stir
	excess := 0.0
	if Uses(n.p, "stir.excess") {
		excess = n.p.StirExcess.Fraction()
	}
	if v(StirServes) < 100/(1+excess)*(1-1e-6) {
		n.say("stir.few", Slurry, Mind, "%s of %s are too few: this oxide takes %s.", Print(need.Amount, need.Unit), lower(need.Name), n.print(stir.needed))
	}
	if short := v(DemandAcid) - v(SlurryAcidUsed); short > 0.02*v(DemandAcid) {
		what := "the peroxide only breaks up"
		switch n.p.GasSource {
		case BySalt:
			what = "part of the metabisulfite stays as it is, and gas has to stand in for acid"
		case ByOxalic:
			what = "oxalic acid has to stand in for it, and manganese falls out as oxalate"
		}
		n.say("stir.acid", Slurry, Mind, "Dilute acid is short by %s: without it %s.", Print(short, "mL"), what)
	}
	if v(StirFroth) > 0.1 {
		n.say("stir.froth", Slurry, Mind, "%s of gas froth out: a vessel three times the slurry, small portions, each after the last has died down.", n.print(StirFroth))
	}
	switch n.p.GasSource {
	case BySalt:
		n.say("stir.sodium", Slurry, Tip, "The sodium stays: %s of sodium sulfate in the jar, and no washing takes it out. The gas of a flask leaves none.", n.print(ProductSodium))
	case ByPeroxide:
		n.say("stir.warm", Slurry, Tip, "Print reports 25 to 40 °C and one to three hours. Warmer, the oxide breaks up more of the peroxide.")
		if n.p.PeroxideStrength > 12 {
			n.say("stir.strong", Slurry, Mind, "Peroxide of %s on this oxide can boil and spit. Thin it to 6 %% first.", percent(n.p.PeroxideStrength))
		}
	case ByOxalic:
		if n.p.OxalicWarm < 60 {
			n.say("stir.cold", Slurry, Mind, "At %s oxalic acid hardly works; the share that it brings into solution is known for 80 °C only.", Print(float64(n.p.OxalicWarm), "°C"))
		}
		if v(OxalicLost) > 0.02*v(BatchManganese) {
			n.say("stir.oxalate", Slurry, Mind, "%s of manganese fall out as oxalate and stay in the cake: less oxalic acid, or more dilute acid.", n.print(OxalicLost))
		}
	}
}

// lower begins a name in the middle of a sentence.
func lower(name string) string { return strings.ToLower(name[:1]) + name[1:] }

func (n *notices) filter() {
	if n.p.RinseTimes == 0 && n.value(RinseLeft0) > 1 {
		n.say("filter.rinse", Filter, Tip, "Not rinsed, the cake keeps %s of the product; one rinse leaves %s.", n.print(RinseLeft0), n.print(RinseLeft1))
	}
}

func (n *notices) dry() {
	v := n.s.Value
	if v(DryGas) > 1 {
		n.say("dry.gas", Dry, Mind, "%s of sulfur dioxide come off the dish while it boils down. Evaporate outdoors or in a working fume cupboard.", n.print(DryGasVolume))
	}
	if v(DryFumes) > 1 {
		n.say("dry.fumes", Dry, Mind, "Drying at this heat drives off hydrogen chloride from chlorides and free acid (%s): outdoors or in a fume cupboard.", n.print(DryFumes))
	}
	if n.p.DryWay == ToDryness && n.has(ProductForm) && int(v(ProductForm)) == monohydrateDamp {
		n.say("dry.pores", Dry, Tip, "Dried below 110 °C the crust keeps liquor in its pores, so the balance shows more than %s. Finish at 120 °C until two weighings agree.", n.print(ProductMass))
	}
	if n.has(ProductForm) && int(v(ProductForm)) == betweenForms {
		n.say("dry.between", Dry, Tip, "Between 200 and 400 °C the last water leaves little by little: the mass lies anywhere from %s to %s, beside the companions.", n.print(ProductAnhydrous), n.print(ProductMono))
	}
	if n.p.GasSource == ByOxalic && n.p.DryWay == ToDryness && n.p.DryTemperature > OxalateBears {
		n.say("dry.oxalate", Dry, Mind, "Oxalate may be in this salt, %s of it by the plan; hot it breaks up to oxide and gives off carbon monoxide. Not above %s.", n.print(ProductOxalate), Print(OxalateBears, "°C"))
	}
	if n.has(ProductPurity) && v(ProductPurity) < 90 {
		n.say("dry.purity", Dry, Tip, "About %s of what you weigh is manganese sulfate. %s", n.print(ProductPurity), n.companion())
	}
	if v(ProductAcid) > 0.05*v(ProductMass) && v(ProductMass) > 0 {
		n.say("dry.sticky", Dry, Mind, "%s of free acid stays in the salt and keeps it sticky: too much dilute acid went into the slurry.", n.print(ProductAcid))
	}
	salt := v(ProductAnhydrous) + n.value(CropLeft)/1000*mass(reaction.ManganeseSulfate)
	// Where all is solid, all zinc is in the jar, most of it as sulfate.
	zinc := n.p.CropTaken.Fraction() * v(ProductZinc) / mass(reaction.ZincSulfate)
	least := hydrationAt(n.p.CropCold, true).manganese * mass(reaction.Water) * (salt/mass(reaction.ManganeseSulfate) + zinc)
	if n.p.DryWay == ToCrystals && n.has(CropWaterUsed) && v(CropWaterUsed) < least {
		n.say("dry.solid", Dry, Mind, "With %s of water left the whole dish sets solid and no mother liquor drains. Leave at least %s.", n.print(CropWaterUsed), Print(least, "mL"))
	}
	if n.p.DryWay == ToCrystals && n.p.CropCold < pentahydrateEnds && v(ProductMass) > 0 {
		n.say("dry.stir", Dry, Tip, "Salt that falls out while the dish is hot is monohydrate; it goes back into solution as it cools. Stir until it has.")
	}
	if n.p.DryWay == ToCrystals && v(ProductMass) == 0 && v(ReduceConversion) > 0 {
		n.say("dry.nothing", Dry, Mind, "Nothing crystallises out of this much water: boil down further.")
	}
}

// The limits above which a plan is spoken of as too large or too fast: common
// practice for glassware on a table outdoors.
const (
	benchAcid = 300 // mL of hot acid in one flask
	benchRate = 400 // mL of gas a minute under one funnel
	boilsOver = 60  // K that acid and water may warm each other
)

// companion names what weighs most beside the manganese sulfate, and its cure.
func (n *notices) companion() string {
	most, say := 0.0, ""
	ammonium := "Ammonium salts weigh most beside it; they leave at 450 °C."
	if n.p.GasSource == ByOxalic { // that heat is not for oxalate
		ammonium = "Ammonium salts weigh most beside it; only washes before the acid leave less of them."
	}
	for _, c := range []struct {
		id  FigureID
		say string
	}{
		{ProductZinc, "Zinc salts weigh most beside it; a rinse of the washed mix with dilute acid takes most of them out."},
		{ProductDithionate, "Dithionate weighs most beside it; a warmer slurry makes less of it, and drying above 260 °C breaks it up."},
		{ProductAmmonium, ammonium},
		{ProductAcid, "Free acid weighs most beside it; less dilute acid would do."},
		{ProductSodium, "Sodium sulfate weighs most beside it; it comes with metabisulfite in the slurry, and another reductant leaves none."},
		{ProductPotassium, "Potassium sulfate weighs most beside it; wash the potash out before any acid."},
		{ProductOxalate, "Oxalate weighs most beside it; less oxalic acid would do."},
		{ProductSulfite, "Sulfite weighs most beside it, for want of dilute acid in the slurry."},
	} {
		if g := n.value(c.id); g > most {
			most, say = g, c.say
		}
	}
	return say
}

func (n *notices) copper() {
	if n.p.GasSource != FromCopper {
		return
	}
	v := n.s.Value
	if n.value(CopperRise) > boilsOver {
		n.say("copper.hot", CopperSalt, Mind, "Too little water: the residue could warm it by %s and throw it out. Take at least %s.", n.print(CopperRise),
			Print(v(CopperHeat)*1000/waterHeat/boilsOver, "mL"))
	} else if n.value(CopperRise) > 25 {
		n.say("copper.warm", CopperSalt, Mind, "Residue and water together can warm by up to %s: cold residue, cold water, small portions, stirring.", n.print(CopperRise))
	}
	if n.value(CopperWaterUsed) < n.value(CopperWaterLeast)*(1-1e-9) {
		n.say("copper.water", CopperSalt, Mind, "%s of water do not dissolve all the salt at this heat: what is left would go with the black sulfide. Take at least %s, or heat more.", n.print(CopperWaterUsed), n.print(CopperWaterLeast))
	}
	switch {
	case n.s.Reason(CopperCrop) == TooAcid:
		n.say("copper.acid", CopperSalt, Mind, "With %s of free acid in the liquor the blue pentahydrate no longer forms. Add water until it is below 50 %%.", n.print(CopperAcid))
	case n.has(CopperCrop) && v(CopperCrop) == 0 && v(CopperSulfatePenta) > 0:
		n.say("copper.nothing", CopperSalt, Mind, "Nothing crystallises on cooling: there is too much water. Boil down first.")
	}
	if !quantity.Given(n.p.CopperFactor) && n.has(CopperFactorUsed) {
		n.say("copper.factor", CopperSalt, Tip, "The free acid is taken to bring the solubility to %s of that in water: one table from memory, so a crop off by a fifth is no surprise.", n.print(CopperFactorUsed))
	}
}

// escapes says how much of what is not taken up gets out.
func (n *notices) escapes() string {
	if !Scrubbed(n.p) {
		return "all of"
	}
	return percent(Escapes(n.p)) + " of"
}

func (n *notices) waste() {
	if n.has(WasteAcid) && n.s.Value(WasteAcid) > 0 {
		n.say("waste.lye", Waste, Tip, "The wash liquor is lye: about %s of dilute acid, slowly; stop at pH 9, by pH paper. Then it is kept for collection like any other.", n.print(WasteAcid))
	}
	switch {
	case n.value(VentGas) <= 0 || Scrubbed(n.p):
	case Gaseous(n.p):
		n.say("waste.open", Waste, Mind, "An open beaker feeds no scrubber: %s of gas go into the air around it. Only a closed vessel with a second empty trap can be scrubbed.", n.print(VentVolume))
	default:
		n.say("waste.salt", Waste, Mind, "Salt is stirred into an open vessel, which feeds no scrubber: %s of gas go into the air around it.", n.print(VentVolume))
	}
	if n.has(RoomTimes) {
		limit := room.Limits()[n.p.RoomLimit]
		n.say("waste.room", Waste, Tip, "A room is no control for this gas. If %s what is not taken up got into one of %s, its air would hold %s, as a mean over the limit's time %s: %s the limit of %s. Outdoors or a working fume cupboard, nothing else.",
			n.escapes(), Print(float64(n.p.RoomVolume), "m³"), n.print(RoomPeak), n.print(RoomMean), Print(n.value(RoomTimes), "×"), limit.Name)
	}
}
