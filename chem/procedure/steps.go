package procedure

import (
	"math"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

// How long things take, in minutes: all common practice, to be set by who knows better.
const (
	openStart, openEach   = 15, 5 // set out, and each cell
	soakTime              = 60    // electrolyte comes out slowly
	washEach              = 45    // stir 10, settle 30, pour off 5
	setUp                 = 30    // to build and test the line
	coolSlurry            = 30    // in its bath
	heatUp                = 20    // until the acid gives gas
	lastPaper             = 20    // the test with the paper, and with peroxide
	standStirred          = route.PinchApart
	filterTime, rinseEach = 30, 15 // gravity through a folded paper
	coolFlask             = 480    // overnight, shut to nothing
	dryTime               = 120    // two weighings an hour apart
	dissolveTime          = 40     // the residue in portions, hot filtration
	growTime              = 720    // crystals, overnight in the cold
	drainTime             = 60     // crystals on paper
	clearUp               = 60     // neutralise, label, wash hands
	flameRoom             = 120    // light the flame only if so much remains
	stirTime              = 60     // salt or peroxide, in portions
	warmTime              = 300    // oxalic acid: published leaches of spent cells take hours
)

func (m *maker) eve() {
	cold := "Ice into the freezer and water into the refrigerator; permanganate paper cut, the silver nitrate in its dropper."
	asthma := "Nobody with asthma takes part. "
	if !route.Sulfurous(m.p) {
		cold, asthma = "Ice into the freezer and water into the refrigerator, where the list has them; hydrogen peroxide in its dropper.", ""
	}
	m.add(Step{
		Key: "ready", Stage: route.Cells, Title: "Set out, and read", Eve: true, Watch: Attended, Minutes: 45,
		Do: []string{
			"Put out every reagent and vessel of the list, and read each supplier's safety data sheet. Hang up the card “If it goes wrong”.",
			"Pick the place: outdoors or a working fume cupboard, a second person near, running water in reach, soda and sand at hand.",
			cold,
		},
		Stop: asthma + "If the place, the help or the goggles are missing, there is no run.",
	})
	if m.has(route.SlurryAcidStrong) || m.p.WashAcid > 0 {
		st := Step{
			Key: "dilute", Stage: route.Slurry, Title: "Make the dilute acid", Eve: true, Watch: Attended, Minutes: 20,
			Take: m.take("Water, first", route.SlurryAcidWater, "Strong acid, into it", route.SlurryAcidStrong),
			Do:   []string{"Water first, cold, in a beaker that bears heat. The acid runs into it slowly, stirring. Let it cool, then bottle and label it."},
			Stop: "Acid into water, never water into acid. Goggles and gloves.",
		}
		if m.has(route.SlurryAcidRise) {
			st.See = "It warms by about " + route.Print(m.v(route.SlurryAcidRise), "K") + "."
		}
		if m.p.WashAcid > 0 {
			acid := route.StrongAcid(m.p, m.s)
			st.Do = append(st.Do, "Besides, make "+route.Print(float64(m.p.WashAcid), "mL")+" of the same for the acid rinse: "+route.Print(acid.Rinse, "mL")+" of strong acid into "+route.Print(acid.RinseWater, "mL")+" of water.")
		}
		m.add(st)
	}
}

func (m *maker) open() {
	cells := m.v(route.CellsOpened)
	st := Step{
		Key: "open", Stage: route.Cells, Parts: true, Title: "Open the cells", Watch: Attended, Minutes: quantity.Minute(openStart + openEach*cells),
		Do: []string{
			"Open " + count(cells) + ", one after the other, on newspaper outdoors. Zinc cans and carbon rods are rinsed and kept; caps, seals and paper go to the waste.",
			"Scrape the black mix into a weighed pail and keep it wet.",
		},
		Measure: []Blank{m.expect("Wet black mix", route.MixMass)},
		Misled:  "A magnet does not tell the kinds apart; the letters do.",
		Stop:    "Only cells marked R with no letter before it, or 6F22. Leaking, swollen, unmarked or undated: shut, to collection. Gloves: cut cans are sharp.",
	}
	if m.alkaline() {
		st.Do[0] = "Open " + count(cells) + ", one after the other, on newspaper outdoors, slowly, pointing away. Lift out the grey zinc gel first, wet, into a pail of its own; brass pin, seal and paper go to the waste."
		st.Stop = "Only firm, dry cells marked LR, 3LR12, 4LR25 or 6LF22. They hold lye under pressure: face shield, gloves, sleeves. Leaking, swollen, unmarked or undated: shut, to collection."
	}
	m.add(st)
}

func (m *maker) wash() {
	soakStop := safety.Brief(safety.WashLiquor, safety.Bleach, safety.Lime)
	if m.alkaline() {
		soakStop = "This liquor is lye: goggles on, pour slowly. " + safety.Brief(safety.WashLye, safety.AcidCleaner)
	}
	m.add(Step{
		Key: "soak", Stage: route.Wash, Title: "Soak the black mix", Watch: Unattended, Minutes: soakTime, Waits: true,
		Take: m.take("Water", route.WashSoakUsed),
		Do:   []string{"Break up the lumps in the water, stir, let settle, pour the liquor into the bottle for wash liquor."},
		See:  "Black mud settles under a pale liquor.",
		Stop: soakStop,
	})
	m.washes()
	if m.p.WashAcid > 0 {
		m.add(Step{
			Key: "acid", Stage: route.Wash, Title: "Rinse with dilute acid", Watch: Attended, Minutes: washEach,
			Take: []Amount{{"Dilute acid, 1 mol/L", float64(m.p.WashAcid), "mL"}},
			Do:   []string{"Stir it in slowly, let settle, pour off, and wash once more with water."},
			See:  "It may fizz where crumbs of zinc dissolve: that is hydrogen.",
			Stop: "No flame near it, no lid on it.",
		})
	}
	st := Step{
		Key: "divide", Stage: route.Batch, Title: "Divide the cake", Watch: Attended, Minutes: 15,
		Take:    m.take("Damp cake for this run", route.BatchDamp),
		Do:      []string{"Drain well, mix, weigh out the share. The rest is kept damp in a lidded jar, labelled.", "Weigh a level spoonful, dry it at about 105 °C, weigh it again: it tells what all of it would weigh dry."},
		Measure: []Blank{m.expect("Damp cake taken", route.BatchDamp), {"A spoonful wet", "g", quantity.Blank}, {"The same, dry", "g", quantity.Blank}},
		Stop:    safety.Brief(safety.BlackMix, safety.HydrochloricAcid),
	}
	if m.several() {
		st.Do = append(st.Do, "Then divide the share by weight into "+count(m.runs)+" equal parts of "+route.Print(m.v(route.BatchDamp)/m.runs, "g")+", one for each batch, damp in lidded, labelled jars.")
	}
	m.add(st)
}

// washes are the rinses with water, and the drop that tells when they are enough.
func (m *maker) washes() {
	times := m.p.WashTimes
	if times <= 0 {
		return
	}
	st := Step{
		Key: "wash", Stage: route.Wash, Parts: true, Title: "Wash " + count(times) + " times", Watch: Unattended, Minutes: quantity.Minute(washEach * times), Waits: true,
		Take: m.take("Water for each", route.WashEachUsed),
		Do:   []string{"Each time: stir ten minutes, let settle, pour off, drain. Then a few drops of the last liquor, clear, with a drop of dilute nitric acid and one of silver nitrate: at most a haze."},
		End:  "The test stays clear or hazy. If it clouds white, wash once more.",
		Measure: []Blank{
			{"Silver test of the last wash: clear, hazy or white", "", quantity.Blank},
		},
		Stop: "The silver test goes at once into its jar with acid. " + safety.Brief(safety.SilverDrops, safety.WashLiquor),
	}
	if times == 1 {
		st.Title = "Wash once"
	}
	if m.alkaline() {
		st.Do = []string{"Each time: stir ten minutes, let settle, pour off, drain. Hold pH paper into the last liquor and into the wash water: the same colour, or nearly."}
		st.End = "The paper shows little more than the water itself. If it turns blue, wash once more."
		st.Measure = []Blank{{"pH of the last wash", "", quantity.Blank}}
		st.Stop = "The first liquors are lye, for skin and eyes."
	}
	m.add(st)
}

func (m *maker) slurry() {
	into := "Stir the cake into the water, add the acid slowly"
	switch water, acid := m.has(route.SlurryWaterUsed), m.has(route.SlurryAcidUsed); {
	case water && !acid:
		into = "Stir the cake into the water"
	case acid && !water:
		into = "Add the acid to the cake slowly, stirring"
	case !water:
		into = "Put the damp cake in as it is"
	}
	var cake []Amount
	if m.several() {
		cake = m.take("Damp cake, one part", route.BatchDamp)
	}
	st := Step{
		Key: "slurry", Stage: route.Slurry, Title: "Make the slurry", Watch: Attended, Minutes: coolSlurry,
		Take: append(cake, m.take("Water", route.SlurryWaterUsed, "Dilute acid, 1 mol/L", route.SlurryAcidUsed)...),
		Do:   []string{into + ", and set the vessel in " + m.bath() + "."},
		See:  "Thin black mud that stirs easily. If it sets to a paste, add water, and write down how much.",
	}
	if route.Uses(m.p, "slurry.temperature") {
		st.Measure = []Blank{{slurryWarmth, "°C", float64(m.p.SlurryTemperature)}}
	}
	m.add(st)
}

func (m *maker) gas() {
	if !m.withGas() {
		m.stirred()
		return
	}
	line := "Flask, wide tube, empty trap of " + m.stands("line") + ", and an inverted funnel that only just meets the slurry"
	if m.p.SlurryVessel == route.ClosedVessel {
		line = "Flask, wide tube, empty trap of " + m.stands("line") + ", the closed slurry vessel, a second empty trap, the scrubber"
	}
	m.add(Step{
		Key: "line", Stage: route.Gas, Title: "Build the gas line", Watch: Attended, Minutes: setUp,
		Do:   []string{line + ". Press air through it with a rubber bulb first: it must be open from end to end."},
		Stop: m.again() + "No stopcock, no narrow tube, nothing that paste or crystals can plug.",
	})
	if m.withFlame() {
		m.add(Step{
			Key: "charge", Stage: route.Gas, Title: "Charge the flask", Watch: Attended, Minutes: 10, Onward: true,
			Take:    m.take("Copper, bare", route.GasCopperUsed, "Acid, "+route.Print(float64(m.p.GasStrength), "%"), route.GasAcidUsed),
			Do:      []string{"The flask of " + m.stands("charge") + " is dry, without star cracks, in its sand bath, at most half full. Copper first, all over its floor against bumping; then the acid, slowly, through a funnel. Close the line."},
			Measure: []Blank{m.expect("Copper taken", route.GasCopperUsed), m.expect("Acid taken", route.GasAcidUsed)},
			Stop:    "Goggles and face shield, apron, gloves. Light the flame only if two hours remain" + m.flame() + ".",
		})
		m.add(Step{
			Key: "gas", Stage: route.Gas, Title: "Make the gas", Watch: NeverLeave, Minutes: m.gasMinutes() + heatUp, Room: flameRoom, Onward: true,
			Do:     []string{"Heat gently until gas comes freely, then lower the flame. Stir the slurry all the time.", bubbles(m) + m.met()},
			See:    "Bubbles at the funnel. The acid in the flask darkens, and a grey-white salt settles: it is blue only in water. The mud gets thinner; when it settles, the liquor over it is pale pink.",
			Misled: "Carbon stays black to the end, so the mud never looks finished. White fumes without bubbles are acid, not gas.",
			Stop:   "Take the tube out of the slurry before you take the flame away, or the slurry is drawn into hot acid.",
			Measure: []Blank{
				{"Minutes of gas", "min", float64(m.gasMinutes())},
				m.counted(),
			},
		})
	} else {
		m.add(Step{
			Key: "charge", Stage: route.Gas, Title: "Charge the flask", Watch: Attended, Minutes: 10, Onward: true,
			Take:    m.take("Metabisulfite, into the flask", route.GasSaltUsed, "Strong acid, for the dilute acid", route.GasAcidUsed),
			Do:      []string{"Make the dilute acid: strong acid slowly into " + route.Print(m.share(float64(m.p.GasWater)), "mL") + " of cold water; let it cool; put it into the dropping funnel. Close the line."},
			Measure: []Blank{m.expect("Metabisulfite taken", route.GasSaltUsed), m.expect("Acid taken", route.GasAcidUsed)},
			Stop:    "Acid into water. Never tip the acid onto the salt.",
		})
		m.add(Step{
			Key: "gas", Stage: route.Gas, Title: "Make the gas", Watch: NeverLeave, Minutes: m.gasMinutes(), Onward: true,
			Do:     []string{"Drip the acid onto the salt, so fast that the bubbles can be counted. Stir the slurry all the time.", bubbles(m) + m.met()},
			See:    "Bubbles at the funnel, froth on the salt. The mud gets thinner; when it settles, the liquor over it is pale pink.",
			Misled: "Carbon stays black to the end, so the mud never looks finished.",
			Stop:   "Take the tube out of the slurry before the gas stops.",
			Measure: []Blank{
				{"Minutes of gas", "min", float64(m.gasMinutes())},
				m.counted(),
			},
		})
	}
	m.endTest()
}

// again is what must be done before the gas line is built for a further batch.
func (m *maker) again() string {
	switch {
	case m.batch <= 1:
		return ""
	case m.withFlame():
		return "Only when the flask of the last batch is cold, emptied, rinsed and dry. "
	}
	return "The flask of the last batch still holds gas: first empty it outdoors, in small portions, into soda and water, and rinse it. "
}

func bubbles(m *maker) string {
	if !m.has(route.GasBubbles) {
		return "Keep the gas even."
	}
	return "At the planned pace about " + count(perMinute(m)) + " bubbles come in a minute: " + route.Print(m.share(m.v(route.GasVolume)), "L") + " of gas in " + m.all() + "."
}

// all names what an amount of a step is the sum of: one batch, or all of the plan.
func (m *maker) all() string {
	if m.several() {
		return "this batch"
	}
	return "all"
}

// gasMinutes are the minutes in which a batch's gas is passed: the same stream as if all
// came at once.
func (m *maker) gasMinutes() quantity.Minute {
	return quantity.Minute(m.share(float64(m.p.GasMinutes)))
}

// countable is how many bubbles in a minute an eye can count (estimate).
const countable = 150

// counted is the blank for the bubbles: more than an eye can count are filmed.
func (m *maker) counted() Blank {
	n := perMinute(m)
	switch {
	case !(n > 0):
		return Blank{"Bubbles in a minute, at the middle of the run", "", quantity.Blank}
	case n > countable:
		return Blank{"Bubbles in ten seconds, filmed and counted slowly", "", math.Round(n / 6)}
	}
	return Blank{"Bubbles in a minute, at the middle of the run", "", math.Round(n)}
}

// met says when the gas is enough, where that is before its end.
func (m *maker) met() string {
	if !m.has(route.MetMinute) || m.v(route.MetMinute) >= float64(m.p.GasMinutes) {
		return ""
	}
	return " By the plan it is enough at about minute " + count(m.share(m.v(route.MetMinute))) + ": judge the end then; the rest would only have to be scrubbed."
}

func perMinute(m *maker) float64 { return m.v(route.GasBubbles) * 60 }

// What route.PinchTest asks for at the bench.
const (
	firstPinch   = "Keep a rinsed pinch of the black, wet. "
	secondPinch  = "put dilute peroxide on it and on a second pinch."
	alwaysFroths = "Some oxide is never reached, and always froths."
)

var pinched = Blank{"Second pinch: froths less, or no less", "", quantity.Blank}

func (m *maker) endTest() {
	more := "lead in more gas"
	if !m.withGas() {
		more = "add more"
	}
	st := Step{
		Key: "end", Stage: route.Slurry, Title: "Judge the end", Watch: Attended, Minutes: lastPaper + standStirred,
		Do:     []string{firstPinch + "Stir the stoppered slurry for a quarter of an hour, hold a moist permanganate paper over it, and " + secondPinch},
		End:    "The paper bleaches, and " + route.PinchTest + ". If not, " + more + ".",
		Misled: "To bleach at once proves gas, not the end. " + alwaysFroths,
		Measure: []Blank{
			{"Paper after a quarter of an hour: bleached or not", "", quantity.Blank},
			pinched,
		},
	}
	m.add(st)
	if m.withFlame() {
		m.add(Step{
			Key: "cool", Stage: route.Gas, Beside: true, Title: "Let the flask cool", Watch: Overnight, Minutes: coolFlask, Waits: true,
			Do:   []string{"It stands open to the air through its tube, outdoors under a roof, away from faces and out of reach, with a note: hot, it goes on giving gas."},
			Stop: "Do not touch, move or stopper it hot, and never add water to it.",
		})
	}
}

// gathered says that the batches come together.
func (m *maker) gathered() string {
	if !m.several() {
		return ""
	}
	return ", and that of all batches into one bottle"
}

func (m *maker) filter() {
	rinses := m.p.RinseTimes
	st := Step{
		Key: "filter", Stage: route.Filter, Title: "Filter and rinse", Watch: Unattended, Minutes: quantity.Minute(filterTime + rinseEach*rinses), Waits: true,
		Take:    m.take("Water for each of "+count(rinses)+" rinses", route.RinseUsed),
		Do:      []string{"Outdoors or in the fume cupboard. Filter; let each rinse run through before the next; all of it goes with the filtrate" + m.gathered() + "."},
		See:     "A clear, pale pink filtrate. The residue is black.",
		Misled:  "A cloudy first run is fine carbon: pour it through again.",
		Measure: []Blank{m.expect("Filtrate", route.FiltrateVol), m.expect("Black residue, dried, another day", route.ResidueMass)},
	}
	if route.Sulfurous(m.p) {
		st.Stop = "The filtrate still gives off the gas: not indoors."
	}
	m.add(st)
}

// fill says whether the dish takes all of the filtrate or is topped up.
func (m *maker) fill() string {
	v, ok := m.vessel("evaporate")
	switch {
	case !ok:
		return ""
	case v.Portion > 0:
		return "The dish of " + v.SizeText() + " takes " + route.Print(v.Portion, "mL") + " at a time: top it up as it boils down."
	}
	return "All of it fits into the dish of " + v.SizeText() + "."
}

func (m *maker) dry() {
	hours := m.v(route.DryHours)
	m.add(Step{
		Key: "evaporate", Stage: route.Dry, Parts: true, Title: "Evaporate", Watch: Attended, Minutes: quantity.Minute(hours * 60), Waits: true,
		Take: m.take("Water to boil off", route.DryWater),
		Do:   []string{"Outdoors or in a fume cupboard. " + m.fill() + " Simmer, never to dryness; at a slush take the heat down and finish warm, stirring."},
		See:  "A crust of pale pink salt creeps in from the rim.",
		Stop: "Gas and acid fumes come off the dish, and hot salt spits: goggles, upwind.",
	})
	if m.p.DryWay == route.ToDryness {
		m.add(Step{
			Key: "dry", Stage: route.Dry, Parts: true, Title: "Dry and weigh", Watch: Unattended, Minutes: dryTime, Waits: true,
			Do:      []string{"Dry at " + route.Print(float64(m.p.DryTemperature), "°C") + ". Let dish and salt cool, weigh them, dry an hour more, weigh again."},
			End:     "Both agree within a quarter of a percent of the salt.",
			Measure: []Blank{{"Dish, empty", "g", quantity.Blank}, {"Dish and salt, first", "g", quantity.Blank}, {"Dish and salt, second", "g", quantity.Blank}, m.expect("Salt", route.ProductMass)},
			Misled:  "Dry to the eye is not dry: free acid keeps the salt sticky, and it draws water as it cools.",
		})
		return
	}
	m.add(Step{
		Key: "grow", Stage: route.Dry, Title: "Let the pink crystals grow", Watch: Overnight, Minutes: growTime, Waits: true,
		Do:      []string{"Boil down until about " + route.Print(m.v(route.CropWaterUsed), "mL") + " of water are left, pour it into a beaker of " + m.stands("grow") + ", cool to " + route.Print(float64(m.p.CropCold), "°C") + " overnight, drain on paper."},
		Measure: []Blank{m.expect("Pink crystals", route.ProductMass)},
	})
}

func (m *maker) crystals() bool {
	return m.withFlame() && m.s.Reason(route.CopperWaterUsed) == route.Defined
}

func (m *maker) copper() {
	if !m.crystals() {
		return
	}
	m.add(Step{
		Key: "dissolve", Stage: route.CopperSalt, Needs: m.id("cool"), Title: "Dissolve the flask's residue", Watch: Attended, Minutes: dissolveTime,
		Take:    m.take("Water, cold", route.CopperWaterUsed),
		Do:      []string{"Into a beaker of " + m.stands("dissolve") + " with the cold water pour the cold acid off its salt, in a thin stream, stirring; then bring the salt over, in small portions. What clings to the flask comes out with cold liquor from the beaker, a little at a time, the mouth away from you. Then warm to " + route.Print(float64(m.p.CopperHot), "°C") + " and filter off black powder and copper, hot."},
		See:     "A clear deep blue liquor. It warms by up to " + route.Print(m.v(route.CopperRise), "K") + ".",
		Measure: []Blank{m.expect("Copper left, rinsed and dried", route.CopperLeft)},
		Stop:    "Goggles and face shield. Acid and salt into the water, never water into it.",
	})
	m.add(Step{
		Key: "blue", Stage: route.CopperSalt, Beside: true, Title: "Let the blue crystals grow", Watch: Overnight, Minutes: growTime, Waits: true,
		Do:  []string{"Cover it and let it stand at " + route.Print(float64(m.p.CopperCold), "°C") + ", undisturbed."},
		See: "Blue slanted crystals; slow cooling makes few and large ones.",
	})
}

// last is the ID of a step in the last batch.
func (m *maker) last(key string) string {
	at := *m
	at.batch = int(m.runs)
	return at.id(key)
}

// drain takes up the blue crystals, which grew while the liquor was dried.
func (m *maker) drain() {
	if !m.crystals() {
		return
	}
	m.add(Step{
		Key: "drain", Stage: route.CopperSalt, Needs: m.last("blue"), Title: "Drain and weigh the blue crystals", Watch: Unattended, Minutes: drainTime, Waits: true,
		Do:      []string{"Pour off the liquor into its bottle. Dry the crystals on paper in the shade, turned once, until they no longer stick."},
		Measure: []Blank{m.expect("Blue crystals", route.CopperCrop)},
		Misled:  "White powder is lost water: they dried too long or too warm.",
	})
}

func (m *maker) finish() {
	drain := "Nothing down the drain. " + safety.NoBleach(m.p)
	if route.Scrubbed(m.p) {
		drain += " " + safety.Brief(safety.ScrubberLiquid, safety.DiluteAcid)
	}
	do := []string{"Each liquor in its own bottle, as its card says. Label and date every jar and bottle. Caps loose overnight. Wash hands and bench."}
	if m.withGas() && !m.withFlame() {
		do = append(do, "The flask's liquid still holds gas: open it outdoors, and let it in small portions into soda and water.")
	}
	m.add(Step{
		Key: "waste", Stage: route.Waste, Title: "Make the waste fit to keep", Watch: Attended, Minutes: clearUp,
		Take: m.take("Soda, anhydrous, in all", route.WasteBase),
		Do:   do,
		Stop: drain,
	})
}

// slurryWarmth is the blank for how warm the slurry is.
const slurryWarmth = "Temperature of the slurry"

// bath is what the slurry stands in. Only a temperature that this way has is named.
func (m *maker) bath() string {
	switch {
	case m.p.GasSource == route.ByOxalic:
		return "its bath of water, to be warmed"
	case route.Uses(m.p, "slurry.temperature"):
		return "its bath at " + route.Print(float64(m.p.SlurryTemperature), "°C")
	}
	return "its cold bath"
}

// flame says how long the flame and what must follow it take in this plan.
func (m *maker) flame() string {
	long := m.minutes("gas", m.gasMinutes()+heatUp) + m.minutes("end", lastPaper+standStirred)
	if long <= flameRoom {
		return ""
	}
	return "; this plan takes " + Hours(long) + " from the flame to the last test"
}
