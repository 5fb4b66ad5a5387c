package route

import (
	"math"

	"rosesalt/chem/quantity"
)

// MostWashes is how many washes AlongWashes tries at most.
const MostWashes = 50

// Washing is the chloride in the wash liquor, wash by wash.
type Washing struct {
	After  []float64 // mg/L after so many washes, from the soak alone on; blank where nothing drains
	Clear  int       // the first wash after which silver nitrate stays clear; -1 where none does
	Rinsed float64   // mg/L in the wash behind the acid rinse; blank where there is none
}

// AlongWashes runs the plan with no wash, one, two and so on, to a little beyond the
// plan's own and the first clear one. The acid rinse, which comes after all of them, is
// left out of these.
func AlongWashes(p *Plan) Washing {
	var b Bench
	last := func(q *Plan) float64 {
		if s := b.Run(q); s.Reason(WashLast) == Defined {
			return s.Value(WashLast)
		}
		return quantity.Blank
	}
	w := Washing{Clear: -1, Rinsed: quantity.Blank}
	q, planned := *p, int(p.WashTimes)
	q.WashAcid = 0
	for n := 0; n <= MostWashes; n++ {
		q.WashTimes = float64(n)
		v := last(&q)
		w.After = append(w.After, v)
		if w.Clear < 0 && v <= SilverSees {
			w.Clear = n
		}
		if w.Clear >= 0 && n > max(planned, w.Clear, 3) {
			break
		}
	}
	if w.Clear < 0 {
		w.After = w.After[:min(len(w.After), max(planned+2, 12)+1)]
	}
	if p.WashAcid > 0 {
		w.Rinsed = last(p)
	}
	return w
}

// dissolvingSteps is into how many equal parts AlongCopper cuts the copper.
const dissolvingSteps = 16

// Dissolved is the generator when so much copper has dissolved.
type Dissolved struct {
	Copper   float64 // g
	Strength float64 // % of the acid
	Gas      float64 // L made
}

// Dissolving is the generator's acid as it weakens.
type Dissolving struct {
	Steps  []Dissolved // in equal parts of copper, from none to where the gas fades; none where this acid gives no gas
	Own    Dissolved   // when the plan's generator stops
	Left   float64     // g of the plan's copper that stays
	Enough float64     // the share of the plan's gas that the oxide takes; blank where that is not known
}

// AlongCopper runs the plan's acid with more and more copper; nil where the plan makes
// no gas from copper.
func AlongCopper(p *Plan) *Dissolving {
	if !HotAcid(p) {
		return nil
	}
	var b Bench
	q := *p
	s := b.Run(&q)
	acid, copper := s.Value(GasAcidUsed), s.Value(GasCopperUsed)
	d := &Dissolving{Own: dissolved(s), Enough: quantity.Blank}
	if !(acid > 0) || !d.Own.known() {
		return nil
	}
	d.Left = copper - d.Own.Copper
	if s.Reason(MetShare) == Defined {
		d.Enough = s.Value(MetShare) / 100
	}
	// More copper than any acid of this plan can dissolve: all that dissolves, does.
	q.GasAcid, q.GasCopper = quantity.Millilitre(acid), quantity.Gram(math.Max(2*copper, 20*acid))
	fade := dissolved(b.Run(&q))
	if !(fade.Copper > 0) || !fade.known() {
		return d
	}
	d.Steps = []Dissolved{{Strength: float64(p.GasStrength)}}
	for i := 1; i <= dissolvingSteps; i++ {
		q.GasCopper = quantity.Gram(fade.Copper * float64(i) / dissolvingSteps)
		d.Steps = append(d.Steps, dissolved(b.Run(&q)))
	}
	return d
}

func dissolved(s *Sheet) Dissolved {
	return Dissolved{s.Value(GasCopperUsed) - s.Value(CopperLeft), s.Value(GasStrengthEnd), s.Value(GasVolume)}
}

func (d Dissolved) known() bool {
	return quantity.Given(d.Copper) && quantity.Given(d.Strength) && quantity.Given(d.Gas)
}
