// Package routetest makes random plans, and decides by the bare rules which of their
// vessels are too small, for the tests of all that shows plans.
package routetest

import (
	"math"
	"math/rand/v2"

	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// Plan is a plan that can be run. About a third of its inputs are drawn, within their
// limits and some powers of two around what is usual; sizes of vessels more often.
func Plan(r *rand.Rand) route.Plan {
	p := route.NewPlan()
	inputs := route.Inputs()
	for i := range inputs {
		in := &inputs[i]
		if in.Row > 1 || in.Key == route.TakenKey || r.Float64() > odds(in.Key) { // a plan is computed by its share
			continue
		}
		before := p
		draw(r, &p, in)
		if len(route.Check(&p)) > 0 {
			p = before
		}
	}
	return p
}

// Way is a plan as Plan draws it, whose reductant, where the plan allows that, is the one that
// a number picks: counted up, it gives all of them alike.
func Way(r *rand.Rand, number int) route.Plan {
	p := Plan(r)
	in, _ := route.InputByKey("gas.source")
	way := p
	_ = in.Choose(&way, in.Options[number%len(in.Options)].Word)
	if len(route.Check(&way)) > 0 {
		return p
	}
	return way
}

func odds(key string) float64 {
	switch key {
	case "cell.size", "cell.count", "batch.share", "batch.runs", "gas.source", "gas.flask", "gas.trap", "slurry.beaker", "dry.way", "dry.dish", "crop.vessel":
		return 0.6
	}
	return 0.3
}

func draw(r *rand.Rand, p *route.Plan, in *route.Input) {
	if in.IsChoice() {
		_ = in.Choose(p, in.Options[r.IntN(len(in.Options))].Word)
		return
	}
	usual := in.Default
	if !quantity.Given(usual) {
		s := new(route.Runner).Run(p)
		if v, ok := in.WorkedOut(p, s); ok {
			usual = v
		} else {
			usual = math.Sqrt(math.Max(in.Min, 1) * in.Max)
		}
	}
	v := math.Min(in.Max, math.Max(in.Min, usual*math.Exp2(4*r.Float64()-2)))
	if in.Whole {
		v = math.Round(v)
	}
	_ = in.Set(p, v) // refused: it stays what it was
}

// Holds is a vessel of a plan by the bare rules: what one batch brings into it, and what
// it may hold, both mL.
type Holds struct {
	Step, Key    string // the step that fills it, and the input that says its size
	Brings, Held float64
}

// TooMuch tells whether more is poured than the vessel may hold.
func (h Holds) TooMuch() bool { return h.Brings > h.Held*(1+1e-9) }

// Vessels are the vessels of which the plan says how large they are. Densities of copper
// 8.96 and metabisulfite 1.48 g/mL.
func Vessels(p *route.Plan, s *route.Sheet) []Holds {
	v := func(id route.FigureID) float64 {
		if s.Reason(id) != route.Defined {
			return 0
		}
		return s.Value(id)
	}
	runs := 1.0
	if quantity.Given(p.BatchRuns) {
		runs = p.BatchRuns
	}
	slurry := v(route.SlurryVolume) / runs
	var list []Holds
	add := func(step, key string, brings float64, size quantity.Millilitre, part float64) {
		if quantity.Given(size) && brings > 0 {
			list = append(list, Holds{step, key, brings, float64(size) * part})
		}
	}
	part := 2.0 / 3
	switch p.GasSource {
	case route.FromCopper:
		add("charge", "gas.flask", (v(route.GasAcidUsed)+v(route.GasCopperUsed)/8.96)/runs, p.GasFlask, 0.5)
		add("dissolve", "crop.vessel", (v(route.GasAcidUsed)+v(route.CopperWaterUsed))/runs, p.CropVessel, 0.5)
	case route.FromMetabisulfite:
		add("charge", "gas.flask", (v(route.GasAcidUsed)+float64(p.GasWater)+v(route.GasSaltUsed)/1.48)/runs, p.GasFlask, 0.5)
	default:
		part = 1.0 / 3
		add("stir", "slurry.beaker", slurry, p.SlurryBeaker, part)
	}
	add("slurry", "slurry.beaker", slurry, p.SlurryBeaker, part)
	if p.GasSource == route.FromCopper || p.GasSource == route.FromMetabisulfite {
		add("line", "gas.trap", slurry, p.GasTrap, part)
	}
	if p.DryWay == route.ToCrystals {
		add("grow", "crop.vessel", v(route.CropWaterUsed), p.CropVessel, 0.5)
		add("evaporate", "dry.dish", v(route.CropWaterUsed)*4/3, p.DryDish, 2.0/3)
	} else {
		add("evaporate", "dry.dish", v(route.ProductMass)*4/3, p.DryDish, 2.0/3)
	}
	return list
}

// Knows tells whether a text may name something of a plan: a figure, an input, or a condition.
func Knows(name string) (known bool) {
	if _, ok := route.FigureByKey(name); ok {
		return true
	}
	if _, ok := route.InputByKey(name); ok {
		return true
	}
	defer func() { known = recover() == nil }() // an unknown condition panics
	p := route.NewPlan()
	route.Holds(&p, name)
	return true
}
