package route

import (
	"rosesalt/chem/field"
	. "rosesalt/chem/reaction"
	"rosesalt/chem/table"
)

var (
	peroxideCharge = Input{
		Field: field.Field{
			Key: "peroxide.charge", Name: "Hydrogen peroxide, as bought", Unit: "mL", Standing: WorkedOut, Min: 0, Max: 1e6,
			Blank: "as much as needed", Why: "In drops, into the acid slurry: it froths. 0 is dilute acid alone.", Remedy: "Leave the field blank for as much as is needed.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.PeroxideCharge) },
	}
	peroxideStrength = Input{
		Field: field.Field{
			Key: "peroxide.strength", Name: "Its strength", Unit: "%", Default: 3, Min: 0.5, Max: 35,
			Why:    "By mass, from the label; “10 volumes” is 3 %. It weakens in an old bottle.",
			Remedy: "Stronger than 35 % is not for this bench; 3 to 12 % is what shops sell.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.PeroxideStrength) },
	}
	peroxideLost = Input{
		Field: field.Field{
			Key: "peroxide.lost", Name: "Peroxide that the oxide only breaks up", Unit: "%", Standing: Estimated, Default: 25, Low: 5, High: 50, Min: 0, Max: 95,
			Why: "The oxide is a catalyst for it, but in ample acid print reports less than half lost, at 60 °C too. In drops and well stirred loses least.",
		},
		DrawGroup: 1,
		number:    func(p *Plan) *float64 { return (*float64)(&p.PeroxideLost) },
	}

	peroxideInputs = []Input{peroxideCharge, peroxideStrength, peroxideLost}
)

var peroxideFigures = []Figure{
	{ID: PeroxideUsed, Key: "peroxide.used", Unit: "mL", Name: "Hydrogen peroxide into the slurry, as bought", Main: true, For: "peroxide.charge", Poured: true},
	{ID: PeroxideNeeded, Key: "peroxide.needed", Unit: "mL", Name: "Hydrogen peroxide for this oxide, as bought"},
	{ID: PeroxideMass, Key: "peroxide.mass", Unit: "g", Name: "That peroxide, weighed"},
}

// peroxideWay: MnO2 + H2O2 + H2SO4 -> MnSO4 + O2 + 2 H2O. Each cation takes its
// sulfate from dilute acid, where gas would have brought one to a pair.
var peroxideWay = reductant{
	word: "peroxide", name: "hydrogen peroxide and dilute acid",
	conditions: []string{"peroxide"},
	bought:     "Hydrogen peroxide",
	charge:     &peroxideCharge,
	shelf:      "shelf.peroxide",
	used:       PeroxideUsed, needed: PeroxideNeeded,
	handled: []Substance{HydrogenPeroxide},
	stir: newStirred(stirred{
		inputs:   peroxideInputs,
		pure:     HydrogenPeroxide,
		strength: &peroxideStrength,
		density:  table.PeroxideDensity,
		excess:   &stirExcess,
		weighed:  PeroxideMass,
		oxides:   reductions{PeroxideDioxide, PeroxideManganite, PeroxideHetaerolite, PeroxideHausmannite},
		lost:     &peroxideLost,
		more:     heatOf("h.SO4 - h.SO2 + h.H2O2 - 2*h.H2O"),
		// What is lost and what is left break up, on the oxide or at the latest on boiling.
		after:  PeroxideBreaks,
		breaks: heatOf("2*h.H2O2 - 2*h.H2O"),
		froth:  Oxygen,
	}),
	figures: peroxideFigures,
	says: func(p *Plan, _ *Sheet) []string {
		if p.PeroxideStrength > 12 {
			return []string{"stir.warm", "stir.strong"}
		}
		return []string{"stir.warm"}
	},
}
