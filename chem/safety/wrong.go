package safety

import (
	"strings"

	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// Mishap is something that goes wrong at the bench, and what to do, in that order.
type Mishap struct {
	Name string
	Sign string // how one sees it
	Do   []string
	Not  string // what makes it worse
}

// Bicarbonate is how much heavier baking soda is than anhydrous soda, for the same acid:
// two moles of NaHCO3 for one of Na2CO3.
const Bicarbonate = 1.585

// SodaFor is the anhydrous soda that takes up a volume of sulfuric acid of a strength
// between 0 and 100 %, mole for mole; more is wanted at the bench, until it froths no
// more. A strength outside the table of densities is an error.
func SodaFor(acid quantity.Millilitre, strength quantity.Percent) (quantity.Gram, error) {
	density, err := table.AcidDensity.At(float64(strength))
	if err != nil {
		return 0, err
	}
	pure := quantity.Gram(float64(acid) * density * strength.Fraction())
	return reaction.SodiumCarbonate.Mass(reaction.SulfuricAcid.Moles(pure)), nil
}

// Wrong is the card for the wall: what can go wrong in a plan and what to do then, with
// the amounts of one batch. First aid is that of ICSC 0074 (1993 and 2006) and 0362
// (2015): running water for a quarter of an hour at least, fresh air and half upright, a
// doctor in all cases. The rest is common practice.
func Wrong(p *route.Plan, s *route.Sheet) []Mishap {
	w := wrongs{p, s}
	var list []Mishap
	flame, drip := p.GasSource == route.FromCopper, p.GasSource == route.FromMetabisulfite
	if flame {
		list = append(list, w.flameOut())
	}
	if flame || drip {
		list = append(list, w.blocked(flame), w.suckBack(flame), w.stopsEarly(flame), w.bleachedEarly())
	} else {
		list = append(list, frothsOver)
	}
	list = append(list, w.paste(flame || drip), w.spill(flame || drip))
	for _, m := range spills {
		if m.when.applies(p) {
			list = append(list, m.Mishap)
		}
	}
	if route.Sulfurous(p) {
		list = append(list, w.gasAbout(flame))
	}
	return append(list, w.pouredTogether())
}

// gravest is how many of what must never meet stand on the card.
const gravest = 1

// pouredTogether is for two bottles that should not have met.
func (w wrongs) pouredTogether() Mishap {
	liquor := WashLiquor
	if route.Alkaline(w.p) {
		liquor = RoseLiquor // the lye gives no gas with bleach
	}
	return Mishap{
		Name: "Two bottles were poured together",
		Sign: capital(liquor.String()) + " and " + strings.Join(Never(liquor, w.p, gravest), "; and ") + ".",
		Do: []string{
			"Put it down. Everybody out and upwind; nobody sniffs at it.",
			"From outside call the emergency number, say both names. Whoever coughs goes to a doctor.",
		},
		Not: "No lid on it, and nothing poured in to undo it.",
	}
}

// spills are those of single ways and kinds of cell. First aid as above; ICSC 0707 (1993)
// and 0164 (2018, above 60 %) for oxalic acid and peroxide.
var spills = [...]struct {
	when way
	Mishap
}{
	{withPeroxide, Mishap{
		Name: "Peroxide is spilt",
		Do: []string{
			"On skin or in an eye: running water at once, a quarter of an hour; for an eye, or skin that stays white or sore, then to a doctor. Swallowed: rinse the mouth, no vomiting, call the poison centre.",
			"On the bench: flood it with water and wipe it up; rinse the cloth and the clothes it touched before they dry.",
		},
		Not: "No dry cloth, paper or sawdust left on it: they can catch fire later.",
	}},
	{withOxalic, Mishap{
		Name: "Oxalic acid is spilt, or swallowed",
		Do: []string{
			"On skin: clothes off, much water at once; if it stays red or sore, to a doctor. In an eye: running water for a quarter of an hour, then to a doctor. Swallowed: rinse the mouth, no vomiting, call the poison centre at once.",
			"On the bench: wipe it up wet, chalk or lime over what is left, into a labelled pail.",
		},
		Not: "Never sweep it dry.",
	}},
	{withAlkaline, Mishap{
		Name: "Lye on skin or in an eye",
		Sign: "It feels like soap, and hurts late.",
		Do:   []string{"Running water at once, until nothing feels slippery and for a quarter of an hour at least; an eye then to a doctor, rinsing on the way."},
		Not:  "No acid on it, not even vinegar.",
	}},
}

type wrongs struct {
	p *route.Plan
	s *route.Sheet
}

// one is a figure's part that one batch takes: only one stands on the bench at a time. It is 0
// where the figure means nothing.
func (w wrongs) one(id route.FigureID) float64 {
	if w.s.Reason(id) != route.Defined {
		return 0
	}
	return w.s.Value(id) / route.Runs(w.p)
}

// print is that part as read, or "" where there is none.
func (w wrongs) print(id route.FigureID) string {
	if v := w.one(id); v > 0 {
		return route.Print(v, id.Info().Unit)
	}
	return ""
}

// after puts a text behind an amount, and gives nothing where there is none.
func after(before, amount, behind string) string {
	if amount == "" {
		return ""
	}
	return before + amount + behind
}

func (wrongs) flameOut() Mishap {
	return Mishap{
		Name: "The flame goes out",
		Sign: "Bubbles get fewer; the slurry begins to climb the tube.",
		Do: []string{
			"Lift the funnel out of the slurry, at once and before anything else.",
			"Then see to the flame. Light it again only with the tube out of the liquid and the lamp cold; put the funnel back when gas comes freely.",
		},
		Not: "Do not fill up a hot lamp.",
	}
}

func (wrongs) blocked(flame bool) Mishap {
	heat := "Take the heat away."
	if !flame {
		heat = "Shut the dropping funnel."
	}
	return Mishap{
		Name: "A tube is blocked",
		Sign: "The flask works on, but no bubbles come; a stopper lifts or hisses.",
		Do: []string{
			"Keep your face away from the stoppers. Lift the funnel out of the slurry: most plugs sit in its mouth. " + heat,
			"If it does not blow free, loosen the joint at the trap, which is cold, at arm's length, behind the face shield, turned away from everybody. Let the flask get cold before anything is cleared.",
		},
		Not: "Do not hold a stopper down, prod a hot tube or open the hot flask.",
	}
}

func (w wrongs) suckBack(flame bool) Mishap {
	m := Mishap{
		Name: "Liquid is drawn back",
		Sign: "Slurry climbs the tube and runs into the trap.",
		Do: []string{
			"Lift the funnel out of the slurry, or open the line at the trap: air comes in and it stops." +
				after(" The trap must hold all of the slurry, ", w.print(route.SlurryVolume), "."),
			"If slurry gets past the trap into the flask: everybody away, behind something. It boils and spits, and may burst. Nobody goes near until it has been quiet and cold for an hour.",
		},
	}
	if flame {
		m.Not = "Do not take the flame away while the funnel is in the liquid: cooling draws harder."
	}
	return m
}

func (w wrongs) stopsEarly(flame bool) Mishap {
	m := Mishap{
		Name: "The gas stops early",
		Sign: after("Bubbles stop before the planned ", w.print(route.GasVolume), " have come."),
		Do: []string{
			"Lift the funnel out of the slurry. Hold moist permanganate paper to each joint: where it bleaches, gas gets out; mend it when the flask is cold.",
		},
	}
	if flame {
		m.Do = append(m.Do, "No leak: a little more heat, slowly. If nothing comes, the copper is used up or the acid is too weak: end the run, stopper the slurry, and let the flask cool. What has not dissolved keeps for the next charge.")
		m.Not = "Do not put acid, copper or water into the hot flask."
	} else {
		m.Do = append(m.Do, "No leak: swirl the flask, and drip on. If nothing comes, the salt is used up or was old: end the run, or charge a second flask.")
		m.Not = "Do not tip the rest of the acid in."
	}
	return m
}

func (w wrongs) bleachedEarly() Mishap {
	return Mishap{
		Name: "The paper bleaches too early",
		Sign: after("It bleaches long before minute ", w.minute(), ", when by the plan the demand is met."),
		Do: []string{
			"It proves that gas passes by, not that the oxide is used up. Less gas, the funnel's rim just in the liquid, more stirring, more ice in the bath.",
			"Then go on until " + route.PinchTest + ", and it bleaches still.",
		},
	}
}

func (w wrongs) minute() string {
	if w.s.Reason(route.MetMinute) != route.Defined {
		return ""
	}
	return route.Print(w.one(route.MetMinute), "")
}

// pasteWater is how much of the slurry's water to add to a paste at most, an estimate:
// more only has to be boiled off again.
const pasteWater = 0.5

func (w wrongs) paste(gas bool) Mishap {
	first := "Stop adding. "
	if gas {
		first = "Lift the funnel out and wipe its mouth free. "
	}
	water := "cold"
	if w.p.GasSource == route.ByOxalic {
		water = "warm"
	}
	water += " water in small portions"
	if used := w.one(route.SlurryWaterUsed); used > 0 {
		water += ", at most about " + route.Print(pasteWater*used, "mL") + " in all"
	}
	sign, not := "The rod stands in it, and the gas finds one channel or none.", "Do not warm it to thin it, and do not stir with a thermometer."
	if !gas {
		sign = "The rod stands in it, and what is put in stays where it fell."
	}
	if w.p.GasSource == route.ByOxalic { // it is warm as it is
		not = "Do not boil it to thin it, and do not stir with a thermometer."
	}
	return Mishap{
		Name: "The paste sets solid",
		Sign: sign,
		Do:   []string{first + "Then " + water + ", breaking it up with a rod. Write down how much: it is boiled off later."},
		Not:  not,
	}
}

func (w wrongs) spill(gas bool) Mishap {
	strength := route.Print(float64(w.p.GasStrength), "%")
	m := Mishap{
		Name: "Acid is spilt",
		Do: []string{
			"On skin or in an eye: running water at once and for a quarter of an hour at least, clothes off under the water, rinse again, gloves on who helps. In all cases then to a doctor, an eye rinsed on the way. No soda on skin.",
		},
		Not: "No water onto a pool of strong acid, no paper, sawdust or cloth: it chars and fumes.",
	}
	bench := "On the bench: sand or earth around it, then anhydrous soda from the rim inwards, a little at a time, until it froths no more. It gets hot."
	if each, err := SodaFor(10, w.p.GasStrength); err == nil {
		bench += " " + route.Print(10, "mL") + " of the " + strength + " acid take about " + route.Print(float64(each), "g")
		if all, err := SodaFor(quantity.Millilitre(w.one(route.GasAcidUsed)), w.p.GasStrength); gas && err == nil && all > 0 {
			bench += ", the whole charge of " + w.print(route.GasAcidUsed) + " about " + route.Print(float64(all), "g") + " (of baking soda " + route.Print(Bicarbonate*float64(all), "g") + ")"
		}
		bench += "; 100\u202fmL of the dilute acid " + route.Print(float64(reaction.SodiumCarbonate.Mass(0.1)), "g") + "."
	}
	m.Do = append(m.Do, bench, "What is left, with its sand, goes damp into a labelled pail for collection. Black slurry: wipe up wet, never let it dry to dust.")
	return m
}

func (w wrongs) gasAbout(flame bool) Mishap {
	stop := "shut the dropping funnel"
	switch {
	case flame:
		stop = "funnel out, flame off"
	case w.p.GasSource != route.FromMetabisulfite:
		stop = "stop adding the salt"
	}
	m := Mishap{
		Name: "Gas in the room, or in your face",
		Sign: "Eyes sting, somebody coughs, a smell of struck matches. Some smell nothing.",
		Do: []string{
			"If it is one step: " + stop + ". Everybody out and upwind, doors shut towards the house, and count heads. Nobody goes back for things, or before it has aired for an hour.",
			"Stinging eyes: running water for several minutes. Whoever coughs on, wheezes or has a tight chest: call the emergency number, say “sulfur dioxide”, fresh air, half upright, no effort, not alone. Lungs can get worse hours later: a doctor all the same.",
		},
		Not: "Do not trust your nose to tell when it is over.",
	}
	if flame || w.p.GasSource == route.FromMetabisulfite {
		m.Do[1] += after(" By the plan ", w.print(route.VentVolume), " of the gas are not taken up even if all goes well.")
	}
	return m
}

// frothsOver belongs to what is stirred into the slurry.
var frothsOver = Mishap{
	Name: "The slurry froths over",
	Sign: "The froth climbs faster than it falls.",
	Do: []string{
		"Stop adding, stir the froth down, set the vessel into cold water.",
		"Go on when it is quiet, in smaller portions; a larger vessel costs less than what runs over.",
	},
	Not: "Do not put a lid or a stopper on it.",
}
