package chart

import (
	"math"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// acidPoints is how finely the acid's weakening is drawn.
const acidPoints = 16

// Acid shows the acid's strength and the gas made as copper dissolves in the
// acid of this plan, to where the gas fades. Each point is a run of the plan with
// so much copper.
func Acid(p *route.Plan) Picture {
	pic := Picture{
		Name: "acid",
		X:    Axis{Name: "copper dissolved", Unit: "g"},
		Panels: []Panel{
			{Y: Axis{Name: "strength of the acid", Unit: "%", Free: true}},
			{Y: Axis{Name: "gas made", Unit: "L"}},
		},
		Table: Table{Head: []string{"Copper dissolved, g", "Acid, %", "Gas made, L"}},
	}
	if p.GasSource != route.FromCopper {
		pic.Why = "No copper goes into this way of making the gas."
		return pic
	}
	var bench route.Bench
	plan := *p
	s := bench.Run(&plan)
	own, acid := readAcid(s), s.Value(route.GasAcidUsed)
	used, met := s.Value(route.GasCopperUsed), math.NaN()
	if s.Reason(route.MetShare) == route.Defined {
		met = s.Value(route.MetShare) / 100
	}
	if !own.ok || !(acid > 0) {
		pic.Why = "No gas is made."
		return pic
	}

	// More copper than any acid of this plan can dissolve: all that goes, goes.
	plan.GasAcid, plan.GasCopper = quantity.Millilitre(acid), quantity.Gram(math.Max(2*used, 20*acid))
	fade := readAcid(bench.Run(&plan))
	if !fade.ok || !(fade.copper > 0) {
		pic.Why = "Acid of this strength gives no gas."
		return pic
	}
	strength := make([]Point, 0, acidPoints+1)
	gas := make([]Point, 0, acidPoints+1)
	for i := range acidPoints + 1 {
		a := state{strength: float64(p.GasStrength), ok: true}
		if i > 0 {
			plan.GasCopper = quantity.Gram(fade.copper * float64(i) / acidPoints)
			a = readAcid(bench.Run(&plan))
		}
		strength = append(strength, at(a.copper, a.strength, a.ok))
		gas = append(gas, at(a.copper, a.litres, a.ok))
		pic.Table.Rows = append(pic.Table.Rows, []string{route.Print(a.copper, ""), route.Print(a.strength, ""), route.Print(a.litres, "")})
	}
	end := route.Print(float64(p.GasEnd), "%")
	pic.Panels[0].Series = []Series{{Role: Ink, Points: strength}}
	pic.Panels[0].Limits = []Limit{{At: float64(p.GasEnd), Text: "gas fades at " + end}}
	stop := Mark{X: own.copper, Y: own.strength, Shape: Ring, Role: Rose, Text: "this plan: " + route.Print(own.strength, "%")}
	if own.strength < float64(p.GasEnd)+1 {
		stop.Text = "" // the limit says it
	}
	pic.Panels[0].Marks = []Mark{stop}
	pic.Panels[1].Series = []Series{{Role: Ochre, Dash: Dashed, Points: gas}}
	pic.Panels[1].Marks = []Mark{{X: own.copper, Y: own.litres, Shape: Ring, Role: Rose, Text: "this plan: " + route.Print(own.litres, "L")}}
	if met < 0.98 {
		pic.Panels[1].Marks = append(pic.Panels[1].Marks, Mark{
			X: met * own.copper, Y: met * own.litres, Shape: Diamond, Role: Ochre,
			Text: "the oxide has enough: " + route.Print(met*own.litres, "L"),
		})
	}
	pic.Table.Rows = append(pic.Table.Rows, []string{"this plan: " + route.Print(own.copper, ""), route.Print(own.strength, ""), route.Print(own.litres, "")})

	grams := route.Print(own.copper, "g")
	switch {
	case used > own.copper*(1+1e-6):
		pic.Title = "Acid has weakened to " + end + " when " + grams + " of copper have dissolved; " + route.Print(used-own.copper, "g") + " stay"
	case own.copper < fade.copper*(1-1e-6):
		pic.Title = "Acid is still " + route.Print(own.strength, "%") + " strong when all " + grams + " of copper have dissolved"
	default:
		pic.Title = "Acid has weakened to " + end + " when " + grams + " of copper have dissolved"
	}
	return pic
}

// state is how far the flask has come.
type state struct {
	copper, strength, litres float64
	ok                       bool
}

func readAcid(s *route.Sheet) state {
	a := state{
		copper:   s.Value(route.GasCopperUsed) - s.Value(route.CopperLeft),
		strength: s.Value(route.GasStrengthEnd),
		litres:   s.Value(route.GasVolume),
	}
	a.ok = drawable(a.copper) && drawable(a.strength) && drawable(a.litres)
	return a
}
