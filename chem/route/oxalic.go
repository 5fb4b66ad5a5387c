package route

import (
	"rosesalt/chem/field"
	. "rosesalt/chem/reaction"
)

var (
	oxalicCharge = Input{
		Field: field.Field{
			Key: "oxalic.charge", Name: "Oxalic acid dihydrate", Unit: "g", Standing: WorkedOut, Min: 0.01, Max: 1e5,
			Blank: "as much as needed", Why: "The crystals as sold for wood and rust; in portions, it froths.", Remedy: "Leave the field blank for as much as is needed.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.OxalicCharge) },
	}
	oxalicWarm = Input{
		Field: field.Field{
			Key: "oxalic.warm", Name: "Keep the slurry warm at", Unit: "°C", Default: 80, Min: 10, Max: 95,
			Why: "Cold it hardly works: print reports 50 °C for two hours to 90 °C for five.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.OxalicWarm) },
	}
	oxalicDone = Input{
		Field: field.Field{
			Key: "oxalic.done", Name: "Oxide in reach that it brings into solution", Unit: "%", Standing: Estimated, Default: 96, Low: 80, High: 99, Min: 1, Max: 100,
			Why: "95 in two hours at 50 °C, above 96 in two stages at 80 °C. Where print reports 70 in one, oxalic acid was short, and the slurry thick.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.OxalicDone) },
	}
	oxalicFalls = Input{
		Field: field.Field{
			Key: "oxalic.falls", Name: "Unused oxalic acid that falls out as oxalate", Unit: "%", Standing: Estimated, Rare: true, Default: 3, Low: 0, High: 15, Min: 0, Max: 100,
			Why: "Manganese oxalate hardly dissolves, but falls out slowly while acid is free: print reports hardly any. What stays dissolved falls out in the dish.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.OxalicFalls) },
	}

	oxalicInputs = []Input{oxalicCharge, oxalicWarm, oxalicDone, oxalicFalls}
)

var oxalicFigures = []Figure{
	{ID: OxalicUsed, Key: "oxalic.used", Unit: "g", Name: "Oxalic acid dihydrate into the slurry", Main: true, For: "oxalic.charge", Poured: true},
	{ID: OxalicNeeded, Key: "oxalic.needed", Unit: "g", Name: "Oxalic acid dihydrate for this oxide"},
	{
		ID: OxalicLost, Key: "oxalic.manganese", Unit: "mmol", Name: "Manganese that falls out as oxalate",
		Formula: "n(reduced, MnC2O4)*1000[mmol/mol]",
	},
}

// oxalateBears is the heat, °C, above which a salt that may hold oxalic acid or oxalate
// is not dried: the acid begins to break up at 157 °C, to carbon monoxide among others (a
// supplier's page), manganese oxalate at some 300 (a thermogram of the dihydrate, quoted);
// the margin is an estimate.
const oxalateBears = 120

// oxalicWay: MnO2 + H2C2O4 + H2SO4 -> MnSO4 + 2 CO2 + 2 H2O. How far it goes:
// De Michelis et al., J. Power Sources 172 (2007) 975, spent cells at 80 °C. The excess
// does not count: what is not used takes manganese down again.
var oxalicWay = reductant{
	word: "oxalic", name: "oxalic acid and dilute acid, warm",
	conditions: []string{"oxalic"},
	bought:     "Oxalic acid dihydrate",
	charge:     &oxalicCharge,
	shelf:      "shelf.oxalic",
	used:       OxalicUsed, needed: OxalicNeeded,
	handled: []Substance{OxalicAcid},
	warm:    true,
	bath:    "oxalic.warm",
	bears:   oxalateBears,
	stir: newStirred(stirred{
		inputs: oxalicInputs,
		pure:   OxalicAcid,
		waters: 2,
		before: []*Equation{OxalicZincOxide, OxalicBasic},
		oxides: reductions{OxalicDioxide, OxalicManganite, OxalicHetaerolite, OxalicHausmannite},
		bare:   &reductions{OxalicDioxideBare, OxalicManganiteBare, OxalicHetaeroliteBare, OxalicHausmanniteBare},
		done:   &oxalicDone,
		// The crystals' dissolving, which takes heat up, is left out, and so is the oxalates' falling out.
		more:  heatOf("h.SO4 - h.SO2 + h.H2C2O4 - 2*h.CO2 - 2*h.H2O"),
		after: OxalateFalls,
		falls: &oxalicFalls,
		froth: CarbonDioxide,
	}),
	figures: oxalicFigures,
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
