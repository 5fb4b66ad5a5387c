package safety

import (
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Advice is what to ask for before something is bought.
type Advice struct {
	Of   string
	Text string
	way  way
}

// precursor is how strong a solution the public may have in the European Union: up to free
// without a licence, up to licensed with one, and no stronger.
type precursor struct{ free, licensed quantity.Percent }

// Regulation (EU) 2019/1148, annex I, columns 2 and 3, by mass. The first column as the
// Belgian Federal Public Service Economy prints it (2022); both as a Dutch supplier
// prints them (2021). The annex itself was not at hand.
var (
	sulfuricAcid     = precursor{15, 40}
	hydrogenPeroxide = precursor{12, 35}
	nitricAcid       = precursor{3, 10}
)

// band says between which of these limits a strength lies.
func (c precursor) band(strength quantity.Percent, what string) string {
	free, licensed := route.Print(float64(c.free), "%"), route.Print(float64(c.licensed), "%")
	text := "Up to " + free + " without a licence, with one up to " + licensed + ". " + what + " " + route.Print(float64(strength), "%")
	switch {
	case strength > c.licensed:
		return text + " is stronger than the public may have in the European Union, with a licence or without. "
	case strength > c.free:
		return text + " wants that licence. "
	}
	return text + " wants none. "
}

// licences: that several countries license nobody, by the pages of the Belgian, Maltese and
// Norwegian authorities. Great Britain: Poisons Act 1972, schedule 1A (sulfuric acid by
// SI 2018/451, the others by a trade paper of 2014); that the licence names a strength,
// and that trades need none, by the Home Office's guidance for suppliers (2024).
const licences = "Local law decides whether you may buy, keep and use strong acid and peroxide. In the European Union the public may have each up to one strength freely, up to a second with a licence, which several countries give to nobody, and no stronger (the second strengths are read second hand). In Great Britain all above the first takes a licence, which names the strength. Trades and professions have rules of their own: whether a school or a club counts as one, and what holds elsewhere, ask your authority."

// acidAdvice follows the strength of the acid that the plan counts. 1 mol/L is 9.2 %, so
// acid that is sold freely does wherever no copper is dissolved.
func acidAdvice(p *route.Plan) Advice {
	text := sulfuricAcid.band(p.GasStrength, "This plan's") + "Ask for plain sulfuric acid with its strength on the label. "
	if p.GasSource == route.FromCopper {
		text += "Battery acid is about 37 %: clean, but too weak to make gas with copper; it does for the dilute acid."
	} else {
		text += "Nothing in this way needs it strong: " + route.Print(float64(sulfuricAcid.free), "%") + " does, if you set that in the plan."
	}
	return Advice{"Sulfuric acid", text, always}
}

func peroxideAdvice(p *route.Plan) Advice {
	return Advice{
		"Hydrogen peroxide", "Plain 3 % in water is what shops sell, and enough; 6 to 12 % froths harder. " + hydrogenPeroxide.band(p.PeroxideStrength, "This plan's") +
			"It weakens with age: a fresh bottle, not one that has stood open, and none with cream, colour or scent.", withPeroxide,
	}
}

func nitricAdvice() Advice {
	return Advice{"Nitric acid", nitricAcid.band(nitricAcid.free, "Diluted to") + "A few millilitres do, for the drops of the silver test.", withZincCarbon}
}

// advices: all common practice.
var advices = [...]Advice{
	{
		"Drain cleaner",
		"Acid drain cleaner is often dyed, thickened or mixed with inhibitors, and its strength is a guess. What is in it ends in your salt or foams in the flask. Not for this work.", always,
	},
	{
		"Copper",
		"Bare, bright copper only: wire stripped of its lacquer and plastic, or offcuts of pipe without solder. Lacquered, tinned or brass scrap fouls the salt, plastic chars, and dark oxide makes blue salt without any gas.", withCopper,
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
	for _, a := range append([]Advice{{"Licences", licences, always}, acidAdvice(p), peroxideAdvice(p), nitricAdvice()}, advices[:]...) {
		if a.way.applies(p) {
			list = append(list, a)
		}
	}
	return list
}
