package safety

import "rosesalt/chem/route"

// Advice is what to ask for before something is bought.
type Advice struct {
	Of   string
	Text string
	way  way
}

// advices: Regulation (EU) 2019/1148, annex I, restricts sulfuric acid above 15 % to
// licensed users (from memory); the rest is common practice.
var advices = [...]Advice{
	{"Sulfuric acid",
		"In the European Union acid above 15 % is not sold to the public without a licence, and other places have rules of their own: local law decides whether you may buy, keep and use it. Ask for plain sulfuric acid with its strength on the label. Battery acid is about 37 %: clean, but too weak to make gas with copper; it does for the dilute acid.", always},
	{"Drain cleaner",
		"Acid drain cleaner is often dyed, thickened or mixed with inhibitors, and its strength is a guess. What is in it ends in your salt or foams in the flask. Not for this work.", always},
	{"Copper",
		"Bare, bright copper only: wire stripped of its lacquer and plastic, or offcuts of pipe without solder. Lacquered, tinned or brass scrap fouls the salt, plastic chars, and dark oxide makes blue salt without any gas.", withCopper},
	{"Metabisulfite",
		"Sodium metabisulfite as sold for brewing, in a full, dry, freshly opened bag: an old one has lost gas. Note whether the bag says sodium or potassium; this plan counts the sodium salt.", withMetabisulfite},
	{"Soda",
		"Anhydrous sodium carbonate. Washing soda crystals weigh 2.7 times as much for the same work; baking soda does it too, with 1.6 times the mass and twice the froth.", always},
	{"Water",
		"Distilled or deionised, at least for the last wash and all that follows: tap water brings chloride, and fools the silver test.", always},
	{"Permanganate and silver nitrate",
		"A gram of either is plenty. Both stain, both feed fire; permanganate is a listed substance in some places.", always},
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
