// Package safety holds what can hurt: the cautions that stand at each stage of
// the route, where the hand is.
//
// They are the usual cautions of the trade in plain words. They defer to local
// codes, the supplier's safety data sheet and licensed practice, and promise
// nothing.
package safety

import "rosesalt/chem/route"

// Caution is one warning: a lead that says what to do, and why.
type Caution struct {
	Stage route.Stage
	Lead  string
	Text  string
	way   way
}

// way says in which plans a caution applies.
type way uint8

const (
	always way = iota
	withCopper
	withMetabisulfite
	withBisulfite // dripped on, or stirred in
	withGas       // led in from a generator
	withScrubber  // behind a closed vessel
	withSulfurous // led in, or set free in the slurry
	withSalt
	withPeroxide
	withOxalic
	withZincCarbon
	withAlkaline
)

func (w way) applies(p *route.Plan) bool {
	switch w {
	case withCopper:
		return p.GasSource == route.FromCopper
	case withMetabisulfite:
		return p.GasSource == route.FromMetabisulfite
	case withBisulfite:
		return p.GasSource == route.FromMetabisulfite || p.GasSource == route.BySalt
	case withGas:
		return route.Gaseous(p)
	case withScrubber:
		return route.Scrubbed(p)
	case withSulfurous:
		return route.Sulfurous(p)
	case withSalt:
		return p.GasSource == route.BySalt
	case withPeroxide:
		return p.GasSource == route.ByPeroxide
	case withOxalic:
		return p.GasSource == route.ByOxalic
	case withZincCarbon:
		return !route.Alkaline(p)
	case withAlkaline:
		return route.Alkaline(p)
	}
	return true
}

// Loudest is the caution of a plan that stays in view.
func Loudest(p *route.Plan) string {
	switch {
	case route.Sulfurous(p):
		return "Sulfur dioxide: outdoors or in a working fume cupboard"
	case p.GasSource == route.ByOxalic:
		return "Warm acid and oxalic acid: goggles, gloves, outdoors; never a closed vessel"
	}
	return "Peroxide and acid: goggles, gloves, in drops; never a closed vessel"
}

// Deference stands once on the page and once on paper.
const Deference = "These figures plan; they do not permit. Local codes on waste cells, strong acid and discharge, the supplier's safety data sheets, and the judgement of someone licensed to do this work come first. If the bench and the page disagree, stop and believe the bench."

// cautions in bench order. Sources: IEC 60086 for the marks on cells (Linden's
// Handbook of Batteries, 4th ed., Table 4.3b); mercury bans of 1994 to 1996 for
// the date (California PRC 15020; US Public Law 104-142); Khan and Kurny, J.
// Miner. Mater. Charact. Eng. 11 (2012) 641, for lead in the mix; ICSC 0362,
// 0175, 0290, 1416, 1051 and 0707 for the substances; classified strengths for
// peroxide (8 % and more harms eyes for good, GisChem), ICSC 0164 for the stronger;
// NRC, Acute Exposure Guideline Levels, vol. 8 (2010), ch. 9, for sulfur dioxide; FU
// Berlin, Acidic Reaction Gas, for suck-back; the rest is common practice.
var cautions = [...]Caution{
	{
		route.Cells, "Open only cells marked R with no letter before it (R6, R14, R20, 3R12, 4R25) or 6F22.",
		"LR is alkaline, FR and CR are lithium, HR and KR rechargeable, and buttons may hold mercury. No mark, no date, older than 1997, leaking or swollen: leave it shut and take it to collection. A magnet does not tell them apart; a balance often does.", withZincCarbon,
	},
	{
		route.Cells, "Alkaline cells (LR) hold caustic potash under pressure: face shield, gloves, sleeves.",
		"Open only firm, dry ones marked LR03, LR6, LR14, LR20, 3LR12, 4LR25 or 6LF22, slowly, pointing away. Lye on skin or in an eye: running water at once, a quarter of an hour, then a doctor. Never in one batch with zinc-carbon cells. FR and CR are lithium, HR and KR rechargeable; no mark, no date, older than 1997, leaking or swollen: leave it shut and take it to collection.", withAlkaline,
	},
	{
		route.Cells, "Lift the grey zinc gel out first and keep it wet and apart from acid.",
		Warn(ZincGel, DiluteAcid, WashLye) + " No flame near.", withAlkaline,
	},
	{
		route.Cells, "Keep the black mix wet, and wear gloves.",
		"Its dust holds manganese and often lead; both harm nerves over years. Nobody who is pregnant takes part. Cut cans have sharp edges. Work outdoors on newspaper that stays wet, no food near, hands washed after.", always,
	},
	{
		route.Wash, Warn(WashLiquor, Bleach, CausticCleaner, Lime),
		"It holds ammonium, and zinc chloride that burns eyes: goggles, gloves. Soda too only outdoors. The silver test goes at once into its jar with nitric acid. " + Warn(SilverDrops, WashLiquor), withZincCarbon,
	},
	{
		route.Wash, "The wash liquor is lye.",
		"It burns skin and eyes without much pain at first. Pour slowly, goggles on; no acid into it all at once. " + Warn(WashLye, AcidCleaner, Metal), withAlkaline,
	},
	{
		route.Batch, Warn(BlackMix, HydrochloricAcid),
		Warn(BlackMix, Fuel), always,
	},
	{
		route.Gas, "Make the gas only outdoors or in a working fume cupboard, upwind, with a second person near.",
		"Sulfur dioxide can stop an asthmatic's breathing at once: nobody with asthma takes part. Its smell is no alarm; a room cannot dilute it, and a kitchen hood is not a fume cupboard. If eyes sting or you cough: stop the gas if that is one step, walk out, let it clear.", withGas,
	},
	{
		route.Gas, "Drip the diluted acid onto the salt; never tip it in.",
		"The gas comes at once and in litres. Make the dilute acid first: acid slowly into cold water, never the reverse, and let it cool. Goggles, apron, gloves, running water in reach; never a closed system.", withMetabisulfite,
	},
	{
		route.Gas, "The spent liquid in the flask still holds gas.",
		"Open and empty it outdoors, into soda and water in small portions. " + Warn(SpentLiquid, DiluteAcid), withMetabisulfite,
	},
	{
		route.Gas, "Hot strong acid: goggles and face shield, apron, gloves, running water in reach.",
		"It burns to the bone and blinds. Only sound borosilicate glass, in a sand bath. Never a closed system, no stopcock in the gas line, a wide tube that no paste can plug. Never refill a spirit lamp that is lit or hot.", withCopper,
	},
	{
		route.Slurry, "Metabisulfite and acid give sulfur dioxide in the open vessel: outdoors or in a working fume cupboard, upwind, with a second person near.",
		"It can stop an asthmatic's breathing at once: nobody with asthma takes part. By the spoonful, stirred under, never all at once, and never into strong acid. If eyes sting or you cough: walk out, let it clear.", withSalt,
	},
	{
		route.Slurry, "Peroxide in drops, into the stirred acid slurry, never into the dry oxide, and never in a closed vessel.",
		"The oxide breaks it up: it froths over, warms, and gives off oxygen, which feeds any flame. Above 8 % it harms eyes for good; spills on paper or cloth can catch fire later. " + Warn(SparePeroxide, Permanganate, Fuel), withPeroxide,
	},
	{
		route.Slurry, "Oxalic acid is poisonous and gets through skin: gloves, goggles, no dust.",
		"In portions, into the warm slurry, outdoors: carbon dioxide froths and carries acid mist. Never a closed vessel. Never heat the dry acid: carbon monoxide. " + Warn(SpareOxalic, StrongAcid), withOxalic,
	},
	{
		route.Slurry, "Take the tube out of the slurry before the gas stops.",
		"The water swallows the gas and is drawn back into the flask. A funnel that only just meets the surface and an empty trap larger than all the slurry stop it.", withMetabisulfite,
	},
	{
		route.Slurry, "Take the tube out of the slurry before you take the flame away.",
		"As the flask cools or the water swallows the gas, liquid is drawn back into hot acid and bursts it. A funnel that only just meets the surface and an empty trap larger than all the slurry stop it. The hot flask goes on giving gas: lead it away from faces.", withCopper,
	},
	{
		route.Slurry, "Bleached paper proves gas, not the end.",
		"Permanganate paper is filter paper with a drop of pink, acidified permanganate: sulfur dioxide bleaches it. The end has come when the paper still bleaches after a quarter of an hour of stirring with the vessel stoppered, and " + route.PinchTest + ". Carbon stays black to the end.", withSulfurous,
	},
	{
		route.Filter, "The filtrate still smells of the gas.",
		"Filter where you made it, outdoors or in the fume cupboard.", withSulfurous,
	},
	{
		route.Dry, "Evaporate outdoors or in a fume cupboard, and do not boil to dryness.",
		"Gas and acid fumes come off, and hot salt spits. Stop at a slush and finish warm. The dry salt hurts eyes, its dust harms nerves: goggles, gloves.", always,
	},
	{
		route.Dry, "No peroxide may be left when you boil down.",
		"Stir until nothing froths any more, warm, and stir again.", withPeroxide,
	},
	{
		route.Dry, "Do not overheat a salt that holds oxalate.",
		"Hot it breaks up and gives off carbon monoxide, which has no smell. Outdoors, and not above " + route.Print(route.OxalateBears, "°C") + ".", withOxalic,
	},
	{
		route.CopperSalt, "Let the flask cool fully. Then the acid goes into plenty of cold water, slowly, stirring. Never water into acid.",
		"Water on hot strong acid boils and throws it into your face. " + Warn(StrongAcid, ZincCans), withCopper,
	},
	{
		route.CopperSalt, "Blue liquor and blue crystals harm eyes for good: goggles, gloves.",
		"Poisonous if swallowed: no vomiting, a glass or two of water, to a doctor.", withCopper,
	},
	{
		route.Waste, "Nothing down the drain, on soil or into the bin.",
		"A gram of copper sulfate fouls some twenty cubic metres of stream for its life. Keep wash liquor, copper liquor, scrubber liquid and black residue apart, labelled, and take them to collection; ask your waste authority first, rules differ.", always,
	},
	{
		route.Waste, noBleach + ", not to clean up either.",
		Warn(WashLiquor, Bleach) + " " + Brief(RoseLiquor, Bleach), withZincCarbon,
	},
	{
		route.Waste, noBleach + ", not to clean up either.",
		Warn(RoseLiquor, Bleach), withAlkaline,
	},
	{
		route.Waste, Warn(ScrubberLiquid, DiluteAcid, FoodAcid),
		"The acid liquors are never neutralised with it.", withScrubber,
	},
	{
		route.Waste, "Soda on acid froths.",
		"Small portions, a jar half full, the lid loose overnight.", always,
	},
}

// Cautions are those of a stage in this plan, the most harmful first.
func Cautions(stage route.Stage, p *route.Plan) []Caution {
	var list []Caution
	for _, c := range cautions {
		if c.Stage == stage && c.way.applies(p) {
			list = append(list, c)
		}
	}
	return list
}
