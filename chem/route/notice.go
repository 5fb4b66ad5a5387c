package route

import (
	"math"
	"slices"
	"strings"

	"rosesalt/chem/cell"
	"rosesalt/chem/phrase"
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
		n.say("cells.none", Cells)
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
	held []Vessel
}

var (
	noticeTexts    = phrase.Open(&files, "notices", "tip", "mind")
	companionTexts = phrase.Open(&files, "companions", "text")
)

// say adds the notice of a key. Behind the stage stand the places of its text that are no keys
// of figures or inputs, each with what stands there.
func (n *notices) say(key string, stage Stage, places ...string) *Notice {
	said := Tell(noticeTexts, key, n.p, n.s, places...).Lines[0]
	tone := Tip
	if said.Name == "mind" {
		tone = Mind
	}
	n.list = append(n.list, Notice{Key: key, Stage: stage, Tone: tone, Text: said.Text})
	return &n.list[len(n.list)-1]
}

// print is a figure as it stands on the page.
func (n *notices) print(id FigureID) string { return Print(n.s.Value(id), id.Info().Unit) }

func (n *notices) has(id FigureID) bool { return n.s.Reason(id) == Defined }

func (n *notices) cells() {
	v := n.s.Value
	if !quantity.Given(n.p.MixWet) && !quantity.Given(n.p.MixWashed) {
		n.say("cells.weigh", Cells)
	}
	if asked := float64(n.p.Rows[0].Charge); !quantity.Given(n.p.MixAssay) && !quantity.Given(n.p.Rows[1].Count) && v(MixCharge) > asked+0.1 {
		n.say("cells.charge", Cells)
	}
	n.weighed()
	expected := bag(n.p, quantity.Blank)
	if wet := expected.wetMass(); quantity.Given(n.p.MixWet) && (float64(n.p.MixWet) > 1.5*wet || float64(n.p.MixWet) < 0.6*wet) {
		n.say("cells.wet", Cells, "expected", Print(wet, "g"))
	}
	if washed := expected.washedMass(n.p.WashHydrolysis.Fraction()); quantity.Given(n.p.MixWashed) && float64(n.p.MixWashed) > 1.3*washed {
		n.say("cells.washed", Cells, "expected", Print(washed, "g"))
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
		between := func(e cell.Estimate) string { return Print(e.Low, "") + " to " + Print(e.High, "g") }
		kinds := []string{
			"a cell", aCell(size.Mark), "mark", size.Mark, "weight", Print(float64(row.Weight), "g"),
			"as zinc-carbon", between(size.Cell), "as alkaline", between(size.Alkaline),
		}
		switch guess := size.Weigh(float64(row.Weight)); {
		case guess == cell.LikelyAlkaline && !alkaline:
			n.say("cells.alkaline", Cells, kinds...)
		case guess == cell.LikelyZincCarbon && alkaline:
			n.say("cells.zinccarbon", Cells, kinds...)
		case guess == cell.Unsure:
			n.say("cells.unsure", Cells, kinds...)
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
		n.say("wash.potash", Wash, "acid", Print(v(WashPotash)/2/mass(reaction.Potash), "mL"))
	}
	switch {
	case !n.has(WashLast):
		n.say("wash.nothing", Wash)
	case v(WashAcidPoured) > 0:
		if v(WashLast) > float64(n.p.WashTarget) {
			n.say("wash.acid", Wash)
		}
	case v(WashLast) > float64(n.p.WashTarget) && n.has(WashEnough):
		n.say("wash.last", Wash, "washes", Count(v(WashEnough), "wash", "washes"))
	case v(WashLast) > float64(n.p.WashTarget):
		n.say("wash.never", Wash)
	}
	if n.has(WashLast) && v(WashBound) > 5*v(WashChloride) && v(WashAcidPoured) == 0 {
		n.say("wash.bound", Wash)
	}
	if v(WashManganese) > 0.02*v(MixManganese) {
		n.say("wash.manganese", Wash)
	}
	if quantity.Given(n.p.CakeDamp) && float64(n.p.CakeDamp) < v(WashCake) {
		n.say("batch.light", Batch)
	}
	if quantity.Given(n.p.CakeTaken) && !quantity.Given(n.p.CakeDamp) {
		n.say("batch.guessed", Batch)
	}
}

// vessels tells at the batch which ones are too small for the share, and at its own stage
// what each does not hold.
func (n *notices) vessels() {
	var words, larger []string
	cut, beyond := Mend{}, false
	list := Vessels(n.p, n.s)
	n.held = list
	for i := range list {
		v := &list[i]
		if !v.TooSmall() {
			continue
		}
		mends := v.Mends()
		n.list = append(n.list, Notice{"vessel." + v.Step, v.Stage, Mind, v.Warning(), mends})
		if v.Batches > 0 {
			words, larger, cut = append(words, v.word), append(larger, "a "+v.word+" of "+v.LeastText()+" or more"), mends[0]
			beyond = beyond || v.beyond
		}
	}
	if words != nil {
		is := "is"
		if len(words) > 1 {
			is = "are"
		}
		do := cut.Text
		if !beyond {
			do += ", or take " + listed(larger, "")
		}
		said := n.say("batch.vessels", Batch, "vessels", listed(words, "the "), "is or are", is, "do", do)
		said.Mends = []Mend{cut}
	}
	if runs := BatchCount(n.p); runs > 1 && Gaseous(n.p) {
		again := runs*(n.value(GasHeadspace)+float64(n.p.GasTube)) - n.value(GasPurgeUsed)
		if quantity.Given(n.p.GasPurge) {
			again = (runs - 1) * float64(n.p.GasPurge)
		}
		n.say("batch.air", Batch, "gas", Print(again/1000, "L"))
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
		n.say("gas.none", Gas)
	case v(GasMade) < v(GasNeeded)*(1-1e-6) && n.s.Reason(MetShare) == NotMet:
		n.say("gas.short", Gas, "share", Print(float64(n.p.BatchShare)*v(GasMade)/v(GasNeeded), "%"))
	}
	if BeyondBench(n.p, n.s) {
		if cut := lessAcid(n.p, n.s, n.held); cut.Text != "" {
			n.say("gas.acid", Gas, "do", cut.Text).Mends = []Mend{cut}
		} else {
			n.say("gas.acid", Gas, "do", "Work a smaller share of the oxide")
		}
	}
	if v(GasMade) > 2*v(GasNeeded) && v(GasNeeded) > 0 && !n.standsIn() {
		n.say("gas.over", Gas, "wanted", Print(v(GasVolume)*v(GasNeeded)/v(GasMade), "L"))
	}
	switch {
	case v(GasRate) > benchRate:
		slower, time := n.slowerGas(math.Ceil(float64(n.p.GasMinutes) * v(GasRate) / benchRate))
		n.say("gas.fast", Gas, "time", time).Mends = slower
	case !quantity.Given(n.p.GasUptake) && v(GasMade) > 0 && v(UptakeShare) < wellTaken:
		n.passes()
	}
	if HotAcid(n.p) && v(GasMade) > 0 {
		n.say("gas.begins", Gas)
	}
	n.ofWay(Gas)
	if v(GasBubbles) > 12 {
		n.say("gas.bubbles", Gas, "bubbles", Print(v(GasBubbles), ""))
	}
	if n.has(MetShare) && v(MetShare) < 99 {
		n.say("gas.met", Gas)
	}
	if v(GasHeld) > 0.2*v(GasMade) {
		n.say("gas.held", Gas)
	}
}

// slowerGas is the mend that takes so many minutes for the gas, or the most that are taken, and
// what that is, as read; nothing where the plan takes as many already.
func (n *notices) slowerGas(minutes float64) (mends []Mend, time string) {
	minutes = math.Min(mostMinutes, minutes)
	if minutes <= float64(n.p.GasMinutes) {
		return nil, ""
	}
	time = Print(minutes, "min")
	return []Mend{{Text: "Take " + time, Done: "The gas takes " + time + " now.", Key: "gas.minutes", Value: minutes}}, time
}

// passes says how much gas passes by, and how much would with a slower flame and with a
// further vessel.
func (n *notices) passes() {
	var b Runner
	by := func(s *Sheet) string { return Print(100-s.Value(UptakeShare), "%") }
	after := func(m Mend) string {
		q := *n.p
		if m.Set(&q) != nil {
			return ""
		}
		return by(b.Run(&q))
	}
	slower, further := "", ""
	mends, time := n.slowerGas(2 * float64(n.p.GasMinutes))
	if mends != nil {
		slower = after(mends[0])
	}
	if Uses(n.p, "gas.vessels") && n.p.GasVessels < mostVessels {
		more := Mend{Text: "Add a slurry vessel behind", Done: "One slurry vessel more stands behind now.", Key: "gas.vessels", Value: n.p.GasVessels + 1}
		mends, further = append(mends, more), after(more)
	}
	n.say("gas.passes", Gas, "passes", by(n.s), "time", time, "slower", slower, "further", further).Mends = mends
}

func (n *notices) slurry() {
	v := n.s.Value
	if n.standsIn() {
		n.say("slurry.short", Slurry, "acid", Print(v(DemandAcid), "mL"))
		if n.has(DemandTimes) && v(SlurryAcidUsed) < 0.5*v(DemandAcid) {
			n.say("slurry.bare", Slurry)
		}
	} else if why := n.s.Reason(MetShare); Sulfurous(n.p) && v(SlurryAcidUsed) < 0.95*v(DemandAcid) && v(AcidSaves) < hardly && why != Defined && why != NoGasNeeded && !n.sour() {
		n.say("slurry.waits", Slurry, "acid", Print(v(DemandAcid), "mL"))
	}
	if liquid := v(SlurryWaterUsed) + v(SlurryAcidUsed) + v(BatchDamp) - v(BatchDry); v(BatchDry) > 0 && liquid < stirsIn*v(BatchDry) {
		n.say("slurry.paste", Slurry, "liquid", Print(liquid, "mL"), "least", Print(v(SlurryWaterUsed)+stirsIn*v(BatchDry)-liquid, "mL"))
	}
	if v(DemandDithionate) >= 30 {
		n.say("slurry.dithionate", Slurry)
	}
	if Sulfurous(n.p) && n.p.SlurryRest > 0 && v(ReduceConversion) > 0 {
		if v(RestGone) < 50 {
			n.say("rest.little", Slurry)
		}
		if v(RestFreed) > 0.01*v(DemandGas) {
			n.say("rest.freed", Slurry)
		}
	}
	if Gaseous(n.p) && n.p.SlurryTemperature < 7 {
		n.say("slurry.cold", Slurry)
	}
	if n.has(ReduceIce) {
		switch rise := n.value(ReduceRise); {
		case WarmthInput(n.p).Value(n.p)+rise > waterBoils:
			n.say("slurry.boils", Slurry)
		case rise > 15:
			n.say("slurry.heat", Slurry)
		}
	}
}

// standsIn tells whether gas stands in for dilute acid.
func (n *notices) standsIn() bool {
	gas, _ := SulfurDioxideFreed(n.p, n.s)
	return n.s.Value(AcidSaves) > 0.02*gas.Millimoles()
}

// hardly is the mmol of gas below which nothing is spoken of.
const hardly = 1e-6

// sour tells whether dilute acid was left, however little went in: what it should have
// dissolved found nothing to reduce it. It stays in the salt, or drives chlorides out.
func (n *notices) sour() bool {
	v := n.s.Value
	return v(ProductAcid) > trace*v(ProductMass) || v(DryFumes) > 1
}

// stir speaks of what is stirred into the slurry.
func (n *notices) stir() {
	if Gaseous(n.p) {
		return
	}
	reductant := ReductantOf(n.p)
	charge := n.print(reductant.Used)
	n.say("stir.straight", Gas, "charge", charge, "reductant", reductant.Name)
	v := n.s.Value
	excess := 0.0
	if Uses(n.p, "stir.excess") {
		excess = n.p.StirExcess.Fraction()
	}
	if v(StirServes) < 100/(1+excess)*(1-1e-6) {
		n.say("stir.few", Slurry, "charge", charge, "reductant", reductant.Name, "needed", n.print(reductant.Needed))
	}
	short, over := "", ""
	if acid := v(DemandAcid) - v(SlurryAcidUsed); acid > 0.02*v(DemandAcid) && (!n.sour() || slices.Contains(reductant.Handled, reaction.OxalicAcid)) { // which leaves acid itself
		short = Print(acid, "mL")
		n.say("stir.acid", Slurry, "acid", short)
	}
	if v(StirServes) > 100*(1+1e-6) {
		over = charge
	}
	if v(StirFroth) > 0.1 {
		n.say("stir.froth", Slurry)
	}
	n.ofWay(Slurry, "acid short", short, "charge over", over)
}

// ofWay says what only the way of the plan says, at its stage.
func (n *notices) ofWay(stage Stage, places ...string) {
	if r := reducing(n.p); r.says != nil && r.stage() == stage {
		for _, key := range r.says(n.p, n.s) {
			n.say(key, stage, places...)
		}
	}
}

func (n *notices) filter() {
	if n.p.RinseTimes == 0 && n.value(RinseLeft0) > 1 {
		n.say("filter.rinse", Filter)
	}
	switch v := n.s.Value; {
	case !ThrowsIronDown(n.p):
		if v(ProductIron) > ironTells*v(ProductMass) {
			n.say("filter.iron", Filter)
		}
	case n.has(SpotIron) && v(SpotIron) == 1:
		n.say("filter.ironleft", Filter)
	}
}

func (n *notices) dry() {
	v := n.s.Value
	if v(DryGas) > 1 {
		n.say("dry.gas", Dry)
	}
	if v(DryFumes) > 1 {
		n.say("dry.fumes", Dry)
	}
	if driedDown(n.p) && n.has(ProductForm) && int(v(ProductForm)) == monohydrateDamp {
		n.say("dry.pores", Dry)
	}
	if n.has(ProductForm) && int(v(ProductForm)) == betweenForms {
		n.say("dry.between", Dry)
	}
	for _, key := range [...]string{"dry.temperature", "crop.cold"} {
		in, _ := InputByKey(key)
		if at, low, _, ok := TransitionNear(n.p, key); ok && low != monohydrateEnds && v(ProductMass) > 0 && (key == "crop.cold" || driedDown(n.p)) {
			n.say("dry.turning", Dry, "at", Print(float64(at), "°C"), "here", Print(in.Value(n.p), "°C"))
		}
	}
	if bears := reducing(n.p).bears; bears > 0 && driedDown(n.p) && n.p.DryTemperature > bears {
		n.say("dry.oxalate", Dry)
	}
	if n.has(ProductPurity) && v(ProductPurity) < 90 {
		n.say("dry.purity", Dry, "companion", n.companion())
	}
	if v(ProductAcid) > 0.05*v(ProductMass) && v(ProductMass) > 0 {
		n.say("dry.sticky", Dry)
	}
	salt := v(ProductAnhydrous) + n.value(CropLeft)/1000*mass(reaction.ManganeseSulfate)
	// Where all is solid, all zinc is in the jar, most of it as sulfate.
	zinc := n.p.CropTaken.Fraction() * v(ProductZinc) / mass(reaction.ZincSulfate)
	least := hydrationAt(n.p.CropCold, true).manganese * mass(reaction.Water) * (salt/mass(reaction.ManganeseSulfate) + zinc)
	switch {
	case n.p.DryWay != ToCrystals:
	case v(ProductMass) == 0:
		if v(ReduceConversion) > 0 {
			n.say("dry.nothing", Dry)
		}
	case n.has(CropWaterUsed) && v(CropWaterUsed) < least:
		n.say("dry.solid", Dry, "least", Print(least, "mL"))
	case n.p.CropCold < pentahydrateEnds:
		n.say("dry.stir", Dry)
	}
}

// ironTells is the share of iron sulfate in the jar from which it is spoken of (estimate).
const ironTells = 0.005

// The limits above which a plan is spoken of as too large or too fast: common
// practice for glassware on a table outdoors.
const (
	benchAcid = 300 // mL of hot acid in one flask
	benchRate = 400 // mL of gas a minute from one flask and under one funnel
	boilsOver = 60  // K that acid and water may warm each other

	stirsIn    = 3   // mL of liquid to a gram of dry cake, the least that stirs; a drained cake holds one to two (judgement)
	waterBoils = 100 // °C; the salts of the slurry raise it by a few degrees

	wellTaken = 70 // % of the gas led in; where less is taken up, the plan could do better (judgement)
)

// companion names what weighs most beside the manganese sulfate, and its cure.
func (n *notices) companion() string {
	most, key := 0.0, ""
	for i := range companionTexts.Blocks() {
		of := companionTexts.Blocks()[i].Key
		if id, _ := FigureByKey(of); n.value(id) > most {
			most, key = n.value(id), of
		}
	}
	if key == "" {
		return ""
	}
	return companionTexts.At(key, &Teller{Plan: n.p}).One("text")
}

func (n *notices) copper() {
	if !MakesCopperSalt(n.p) {
		return
	}
	v := n.s.Value
	if n.value(CopperRise) > boilsOver {
		n.say("copper.hot", CopperSalt, "least", Print(v(CopperHeat)*1000/waterHeat/boilsOver, "mL"))
	} else if n.value(CopperRise) > 25 {
		n.say("copper.warm", CopperSalt)
	}
	scarce := n.value(CopperWaterUsed) < n.value(CopperWaterLeast)*(1-1e-9)
	if scarce {
		n.say("copper.water", CopperSalt)
	}
	switch {
	case n.s.Reason(CopperCrop) == TooAcid:
		n.say("copper.acid", CopperSalt)
	case scarce || n.value(CopperRise) > boilsOver: // more water first
	case n.has(CopperCrop) && v(CopperCrop) == 0 && v(CopperSulfatePenta) > 0:
		n.say("copper.nothing", CopperSalt)
	}
	if !quantity.Given(n.p.CopperFactor) && n.has(CopperFactorUsed) {
		n.say("copper.factor", CopperSalt)
	}
}

func (n *notices) waste() {
	if n.has(WasteAcid) && n.s.Value(WasteAcid) > 0 {
		n.say("waste.lye", Waste)
	}
	switch {
	case n.value(VentGas) <= 0 || Scrubbed(n.p):
	case Gaseous(n.p):
		n.say("waste.open", Waste)
	default:
		n.say("waste.salt", Waste)
	}
	if n.has(RoomTimes) {
		n.say("waste.room", Waste, "limit", room.Limits()[n.p.RoomLimit].Name)
	}
}
