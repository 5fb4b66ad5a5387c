package safety

import "rosesalt/chem/route"

// Advice is what to ask for before something is bought.
type Advice struct {
	Of   string
	Text string
	way  way
}

// advices: Regulation (EU) 2019/1148, annex I, restricts sulfuric acid above 15 %
// and hydrogen peroxide above 12 % to licensed users (from memory); the rest is common
// practice.
var advices = [...]Advice{
	{
		"Sulfuric acid",
		"In the European Union acid above 15 % is not sold to the public without a licence, and other places have rules of their own: local law decides whether you may buy, keep and use it. Ask for plain sulfuric acid with its strength on the label. Battery acid is about 37 %: clean, but too weak to make gas with copper; it does for the dilute acid.", always,
	},
	{
		"Drain cleaner",
		"Acid drain cleaner is often dyed, thickened or mixed with inhibitors, and its strength is a guess. What is in it ends in your salt or foams in the flask. Not for this work.", always,
	},
	{
		"Copper",
		"Bare, bright copper only: wire stripped of its lacquer and plastic, or offcuts of pipe without solder. Lacquered, tinned or brass scrap fouls the salt, plastic chars, and dark oxide makes blue salt without any gas.", withCopper,
	},
	{
		"Hydrogen peroxide",
		"Plain 3 % in water is what shops sell, and enough; 6 to 12 % froths harder. In the European Union more than 12 % is not sold to the public without a licence. It weakens with age: a fresh bottle, not one that has stood open, and none with cream, colour or scent.", withPeroxide,
	},
	{
		"Oxalic acid",
		"The crystals sold as wood bleach or rust remover, if the label says oxalic acid and nothing else. They are the dihydrate, which this plan counts: of the anhydrous acid 0.71 times as much does the same. Poisonous: in its own container, never one for food.", withOxalic,
	},
	{
		"Metabisulfite",
		"Sodium metabisulfite as sold for brewing, in a full, dry, freshly opened bag: an old one has lost gas. Note whether the bag says sodium or potassium; this plan counts the sodium salt.", withBisulfite,
	},
	{
		"Soda",
		"Anhydrous sodium carbonate. Washing soda crystals weigh 2.7 times as much for the same work; baking soda does it too, with 1.6 times the mass and twice the froth.", always,
	},
	{
		"Water",
		"Distilled or deionised, at least for the last wash and all that follows: tap water brings chloride, and fools the silver test.", always,
	},
	{
		"Permanganate",
		"A gram is plenty. It stains and feeds fire, and is a listed substance in some places.", withSulfurous,
	},
	{
		"Silver nitrate",
		"A gram is plenty. It stains and feeds fire.", withZincCarbon,
	},
}

// Buying is what to ask for, and what to leave on the shelf, for a plan.
func Buying(p *route.Plan) []Advice {
	var list []Advice
	for _, a := range advices {
		if a.way.applies(p) {
			list = append(list, a)
		}
	}
	return list
}
