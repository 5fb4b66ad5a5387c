package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/room"
)

// reductant is a way to bring the oxide to Mn(II): a file that says how, and a row
// below. Either gas is made in the generator and led in, or something is stirred
// straight into the acid slurry.
type reductant struct {
	word, name string   // of the option of gas.source
	inputs     []string // that have a meaning in this way; see Uses
	charge     func(p *Plan, acid strongAcid) charge
	stir       *stirred
}

// reductants in the order of gas.source.
var reductants = [...]reductant{
	FromCopper:        {word: "copper", name: "gas from copper and hot concentrated acid", inputs: copperKeys, charge: copperCharge},
	FromMetabisulfite: {word: "metabisulfite", name: "gas from metabisulfite and acid", inputs: metabisulfiteKeys, charge: metabisulfiteCharge},
	BySalt:            {word: "slurrysalt", name: "metabisulfite stirred into the acid slurry", inputs: saltKeys, stir: &saltStirred},
	ByPeroxide:        {word: "peroxide", name: "hydrogen peroxide and dilute acid", inputs: peroxideKeys, stir: &peroxideStirred},
	ByOxalic:          {word: "oxalic", name: "oxalic acid and dilute acid, warm", inputs: oxalicKeys, stir: &oxalicStirred},
}

// stirred is a reductant that goes straight into the slurry. Amounts are in moles
// of it; a pair is two electrons that the oxide takes up.
type stirred struct {
	name        func(p *Plan) string   // as bought
	unit        string                 // as bought
	acidPerPair float64                // mol H2SO4 that a pair takes beside what gas would need
	acidPerMole float64                // mol H2SO4 that the reductant takes up itself
	sulfurous   bool                   // it works as sulfur dioxide, dithionate and all
	charge      func(p *Plan) *float64 // as given, in its unit; Blank for as much as needed
	pure        func(p *Plan, amount float64) quantity.Mole
	needs       func(b *Bench, p *Plan, pairs quantity.Mole) quantity.Mole
	bought      func(p *Plan, n quantity.Mole) float64 // as bought, in its unit
	bring       func(b *Bench, p *Plan, n quantity.Mole)
	act         func(b *Bench, p *Plan) (heat float64)
	needed      FigureID
	used        FigureID
}

var stirInputs = []Input{
	{
		Field: field.Field{
			Key: "stir.excess", Name: "Excess over the demand", Unit: "%", Default: 10, Min: 0, Max: 500,
			Why: "So that the oxide, not the reductant, runs out first.",
		},
		Stage: Slurry, Late: 1,
		number: func(p *Plan) *float64 { return (*float64)(&p.StirExcess) },
	},
}

// Figures of what is stirred in.
var stirFigures = []Figure{
	{ID: StirFroth, Key: "stir.froth", Unit: "L", Name: "Oxygen or carbon dioxide that froths out of the slurry", Main: true, Of: byStirring},
	{
		ID: SlurrySulfite, Key: "slurry.sulfite", Unit: "mmol", Name: "Hydrogensulfite, for want of dilute acid", Of: bySulfurDioxide,
		Formula: "(2*n(reduced, Mn(HSO3)2) + 2*n(reduced, Zn(HSO3)2) + n(reduced, NH4HSO3) + n(reduced, KHSO3))*1000[mmol/mol]",
	},
	{ID: StirServes, Key: "stir.serves", Unit: "%", Name: "What goes in, of what is needed", Of: byStirring},
}

// The keys that two ways or more share.
var (
	generatorKeys = []string{"gas.acid", "gas.uptake", "gas.excess", "gas.flask", "gas.trap", "gas.tube", "gas.purge", "gas.bubble", "slurry.vessel"}
	sulfurousKeys = []string{"slurry.temperature", "slurry.dithionate", "slurry.bases", "dry.dithionate", "gas.minutes", "room.volume", "room.changes", "room.limit"}
)

func keys(lists ...[]string) []string {
	var all []string
	for _, list := range lists {
		all = append(all, list...)
	}
	return all
}

// usedIn tells, for keys that not every way uses, which do.
var usedIn = func() map[string]*[len(reductants)]bool {
	m := map[string]*[len(reductants)]bool{}
	for i := range reductants {
		for _, key := range reductants[i].inputs {
			if m[key] == nil {
				m[key] = new([len(reductants)]bool)
			}
			m[key][i] = true
		}
	}
	return m
}()

// Uses tells whether an input has a meaning in the plan: those of other reductants,
// of the other way of finishing, of other kinds of cell, and of a scrubber that is not
// there have none. How crystals are grown and drained always has one: what would grow again
// out of the jar's salt is told of every plan ([Purify]).
func Uses(p *Plan, key string) bool {
	if ways := usedIn[key]; ways != nil {
		return ways[p.GasSource]
	}
	switch key {
	case "room.escape":
		return Scrubbed(p)
	case "dry.temperature":
		return p.DryWay == ToDryness
	case "crop.water":
		return p.DryWay == ToCrystals
	case "crop.vessel":
		return p.GasSource == FromCopper || p.DryWay == ToCrystals
	case "mix.potash", "mix.gel":
		return Alkaline(p)
	case "mix.ammonium", "mix.zinc":
		return !Alkaline(p)
	}
	return true
}

// Gaseous tells whether the plan leads gas from a generator into the slurry.
func Gaseous(p *Plan) bool { return reductants[p.GasSource].stir == nil }

// Scrubbed tells whether the gas not taken up is led into a scrubber: gas of a generator,
// into a closed vessel. What is stirred in goes into an open one.
func Scrubbed(p *Plan) bool { return Gaseous(p) && p.SlurryVessel == ClosedVessel }

// Sulfurous tells whether sulfur dioxide does the work, led in or set free.
func Sulfurous(p *Plan) bool {
	stir := reductants[p.GasSource].stir
	return stir == nil || stir.sulfurous
}

// charge works out what is stirred in: what the pairs of the batch take, with what
// gets lost and the excess, or what is given; and the dilute acid that it takes.
func (b *Bench) charge(p *Plan, stir *stirred, pairs quantity.Mole) {
	needed := stir.needs(b, p, pairs)
	used := needed
	if given := *stir.charge(p); quantity.Given(given) {
		used = stir.pure(p, given)
	}
	b.carry.stirred = used
	b.carry.demandAcid += pairs*quantity.Mole(stir.acidPerPair) + used*quantity.Mole(stir.acidPerMole)
	b.set(stir.needed, stir.bought(p, needed))
	b.set(stir.used, stir.bought(p, used))
	if needed > 0 {
		b.set(StirServes, 100*float64(used/needed))
	} else {
		b.sheet.undefined(NoPairs, StirServes)
	}
}

// Cut leaves a share of the given charge of what is stirred in.
func Cut(p *Plan, share float64) {
	if stir := reductants[p.GasSource].stir; stir != nil {
		if charge := stir.charge(p); quantity.Given(*charge) {
			*charge = greater(*charge*share, 0.01) // the least that may be set
		}
	}
}

// froths lets a gas out of the slurry.
func (b *Bench) froths(s Substance) {
	b.carry.froth = b.has(ledger.Slurry, s)
	b.book.MoveShare(ledger.Slurry, ledger.Vent, s, 1)
}

// perfectLitre is a mole of perfect gas in L at room temperature and pressure.
func perfectLitre(p *Plan) float64 {
	return room.MolarVolume(p.AirTemperature.Kelvin(), float64(p.AirPressure))
}

// pairs and cations are what the oxides in reach take: electrons by the pair, and
// sulfate.
func (w *work) pairs() float64   { return w.dioxide + w.manganite/2 + w.hetaerolite }
func (w *work) cations() float64 { return w.dioxide + w.manganite + 3*w.hetaerolite }

// heat is what reducing a share of the oxides gives off, kJ, when a pair gives off
// so much more than with gas.
func (w *work) heat(share, more float64) float64 {
	return share * (w.dioxide*heatDioxide + (w.manganite+2*w.hetaerolite)*heatTrivalent + w.pairs()*more)
}

// Stirred is what is stirred into the slurry, as bought; not ok where gas is led in.
func Stirred(p *Plan, s *Sheet) (Need, bool) {
	stir := reductants[p.GasSource].stir
	if stir == nil {
		return Need{}, false
	}
	return Need{stir.name(p), s.Value(stir.used), stir.unit, "stirred into the slurry"}, true
}
