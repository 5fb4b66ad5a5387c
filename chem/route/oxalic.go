package route

import (
	"rosesalt/chem/field"
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	. "rosesalt/chem/reaction"
)

const byOxalic = ofWay << ByOxalic

var oxalicInputs = []Input{
	{
		Field: field.Field{
			Key: "oxalic.charge", Name: "Oxalic acid dihydrate", Unit: "g", Standing: WorkedOut, Min: 0.01, Max: 1e5,
			Blank: "as much as needed", Why: "The crystals as sold for wood and rust; in portions, it froths.", Remedy: "Leave the field blank for as much as is needed.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.OxalicCharge) },
	},
	{
		Field: field.Field{
			Key: "oxalic.warm", Name: "Keep the slurry warm at", Unit: "°C", Default: 80, Min: 10, Max: 95,
			Why: "Cold it hardly works: print reports 50 °C for two hours to 90 °C for five.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.OxalicWarm) },
	},
	{
		Field: field.Field{
			Key: "oxalic.done", Name: "Oxide in reach that it brings into solution", Unit: "%", Standing: Estimated, Default: 96, Low: 80, High: 99, Min: 1, Max: 100,
			Why: "95 in two hours at 50 °C, above 96 in two stages at 80 °C. Where print reports 70 in one, oxalic acid was short, and the slurry thick.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.OxalicDone) },
	},
	{
		Field: field.Field{
			Key: "oxalic.falls", Name: "Unused oxalic acid that falls out as oxalate", Unit: "%", Standing: Estimated, Rare: true, Default: 3, Low: 0, High: 15, Min: 0, Max: 100,
			Why: "Manganese oxalate hardly dissolves, but falls out slowly while acid is free: print reports hardly any. What stays dissolved falls out in the dish.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.OxalicFalls) },
	},
}

// Figures of the oxalic acid.
var oxalicFigures = []Figure{
	{ID: OxalicUsed, Key: "oxalic.used", Unit: "g", Name: "Oxalic acid dihydrate into the slurry", Main: true, For: "oxalic.charge", Poured: true, Of: byOxalic},
	{ID: OxalicNeeded, Key: "oxalic.needed", Unit: "g", Name: "Oxalic acid dihydrate for this oxide", Of: byOxalic},
	{
		ID: OxalicLost, Key: "oxalic.manganese", Unit: "mmol", Name: "Manganese that falls out as oxalate", Of: byOxalic,
		Formula: "n(reduced, MnC2O4)*1000[mmol/mol]",
	},
}

// oxalateBears is the heat, °C, above which a salt that may hold oxalic acid or oxalate
// is not dried: the acid begins to break up at 157 °C, to carbon monoxide among others (a
// supplier's page), manganese oxalate at some 300 (a thermogram of the dihydrate, quoted);
// the margin is an estimate.
const oxalateBears = 120

const oxalicWaters = 2 // the acid is bought as the dihydrate

var oxalicMass = mass(OxalicAcid) + oxalicWaters*mass(Water)

// oxalicWay: MnO2 + H2C2O4 + H2SO4 -> MnSO4 + 2 CO2 + 2 H2O. How far it goes:
// De Michelis et al., J. Power Sources 172 (2007) 975, spent cells at 80 °C.
var oxalicWay = reductant{
	word: "oxalic", name: "oxalic acid and dilute acid, warm",
	conditions: []string{"oxalic"},
	inputs:     []string{"oxalic.charge", "oxalic.warm", "oxalic.done", "oxalic.falls"},
	bought:     func(*Plan) string { return "Oxalic acid dihydrate" },
	charge:     func(p *Plan) *float64 { return (*float64)(&p.OxalicCharge) },
	key:        "oxalic.charge",
	shelf:      "shelf.oxalic",
	used:       OxalicUsed, needed: OxalicNeeded,
	handled: []Substance{OxalicAcid},
	warm:    true,
	bath:    "oxalic.warm",
	bears:   oxalateBears,
	stir:    &oxalicStirred,
	figures: oxalicFigures,
	formulas: Formulas{
		Need:  "pairs*(1 - loss.transfer/100[%])*slurry.reach/100[%]*oxalic.done/100[%]",
		Given: "oxalic.charge/(M(H2C2O4) + 2*M(H2O))",
		Blank: "stir.need",
		Define: `
			= oxalic.needed | stir.need*(M(H2C2O4) + 2*M(H2O))
			= oxalic.used | stirred*(M(H2C2O4) + 2*M(H2O))
			= demand.acid | (acid.bare + pairs)*1000[mmol/mol]
		`,
		Counts:    []*Equation{OxalicDioxide, OxalicManganite, OxalicHetaerolite, OxalicHausmannite},
		Brings:    "2*stirred*M(H2O)/liquor",
		Acts:      []*Equation{OxalicZincOxide, OxalicBasic},
		More:      "h.SO4 - h.SO2 + h.H2C2O4 - 2*h.CO2 - 2*h.H2O",
		Part:      "min(n(acted, H2C2O4)/reach.pairs, oxalic.done/100[%])",
		ShortIf:   "n(acted, H2C2O4)/reach.pairs*cations > have",
		ShortPart: "min((n(acted, H2C2O4) + have)/(reach.pairs + cations), oxalic.done/100[%])",
	},
	says: func(p *Plan, s *Sheet) (keys []string) {
		if p.OxalicWarm < 50 {
			keys = append(keys, "stir.cold")
		}
		if s.Value(OxalicLost) > 0.02*s.Value(BatchManganese) {
			keys = append(keys, "stir.oxalate")
		}
		return keys
	},
}

var oxalicStirred = stirred{
	inputs:      oxalicInputs,
	acidPerPair: 1,
	pure:        func(_ *Plan, g float64) quantity.Mole { return quantity.Mole(g / oxalicMass) },
	needs:       (*Runner).oxalicNeeds,
	bought:      func(_ *Plan, n quantity.Mole) float64 { return float64(n) * oxalicMass },
	bring: func(b *Runner, _ *Plan, n quantity.Mole) {
		b.book.Bring(ledger.Slurry, OxalicAcid, n)
		b.book.Bring(ledger.Slurry, Water, oxalicWaters*n)
	},
	act: (*Runner).stirOxalic,
}

// heatOxalic is how much more than gas a pair gives off, kJ. The crystals' dissolving,
// which takes heat up, is left out.
var heatOxalic = formationHeat("SO4^2-") - formationHeat("SO2") + formationHeat("H2C2O4") - 2*formationHeat("CO2") - 2*formationHeat("H2O")

// oxalicNeeds is the charge at the best yield, dilute acid given enough, mol: what the share
// of the oxide that it brings into solution takes, and not more, since what is not used
// takes manganese down again.
func (b *Runner) oxalicNeeds(p *Plan, pairs quantity.Mole) quantity.Mole {
	return pairs * quantity.Mole(p.reached()*p.OxalicDone.Fraction())
}

// stirOxalic lets the oxalic acid reduce its share of what it can reach. Where
// dilute acid is short it brings the protons as well, a mole for each that is
// missing, and the oxalates fall out; ammonia and potash that found no acid are left
// as they are. Of the acid that is not used up a share takes manganese down with it.
func (b *Runner) stirOxalic(p *Plan) (heat float64) {
	b.react(ledger.Slurry, OxalicZincOxide, unlimited)
	b.react(ledger.Slurry, OxalicBasic, unlimited)
	w := b.work()
	at, share := float64(b.has(ledger.Slurry, OxalicAcid)), 0.0
	if w.pairs() > 0 {
		share = at / w.pairs()
		if share*w.cations() > w.have {
			share = (at + w.have) / (w.pairs() + w.cations())
		}
		share = lesser(share, p.OxalicDone.Fraction())
	}
	byAcid := 1.0
	if share*w.cations() > w.have {
		byAcid = w.have / (share * w.cations())
	}
	b.onOxides(w, share*byAcid, OxalicDioxide, OxalicManganite, OxalicHetaerolite, OxalicHausmannite)
	b.onOxides(w, share*(1-byAcid), OxalicDioxideBare, OxalicManganiteBare, OxalicHetaeroliteBare, OxalicHausmanniteBare)
	b.react(ledger.Slurry, OxalateFalls, b.has(ledger.Slurry, OxalicAcid)*quantity.Mole(p.OxalicFalls.Fraction()))
	b.froths(CarbonDioxide)
	return w.heat(share, heatOxalic)
}
