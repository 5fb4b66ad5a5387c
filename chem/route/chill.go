package route

import "rosesalt/chem/quantity"

// AtTemperature is the plan with its slurry kept at another temperature.
type AtTemperature struct {
	Celsius    float64
	Dithionate float64 // % of the reducing power, as the temperature suggests
	Gas        float64 // L to make, or where the gas is set free in the slurry, to set free
	Product    float64 // g in the jar
	Purity     float64 // %
	Salt       float64 // g of dithionate in the jar
	Dissolves  float64 // g of sulfur dioxide that 100 g of water hold, under one air of it
}

// AlongTemperature keeps the slurry at each of the temperatures, 0 to 95 °C; the share
// of dithionate follows, whatever the plan gives. Nothing where no sulfur dioxide comes
// into the plan.
//
// What the slurry takes up of the gas follows, unless the plan gives it; what water can hold
// of it, which drives the uptake, is told beside.
func AlongTemperature(p *Plan, celsius []float64) []AtTemperature {
	if !Sulfurous(p) {
		return nil
	}
	var b Runner
	list := make([]AtTemperature, 0, len(celsius))
	for _, t := range celsius {
		q := *p
		q.SlurryTemperature, q.SlurryDithionate = quantity.Celsius(t), quantity.Percent(quantity.Blank)
		list = append(list, b.at(&q))
	}
	return list
}

func (b *Runner) at(q *Plan) AtTemperature {
	s := b.Run(q)
	gas := s.Value(DemandGas)
	if Gaseous(q) {
		gas = s.Value(GasNeeded)
	}
	return AtTemperature{
		Celsius: float64(q.SlurryTemperature), Dithionate: s.Value(DemandDithionate), Gas: gas / 1000 * b.carry.molarVolume / 1000,
		Product: s.Value(ProductMass), Purity: s.Value(ProductPurity), Salt: s.Value(ProductDithionate),
		Dissolves: gasSolubility(q.SlurryTemperature, q.AirPressure),
	}
}

// Anchor is what print says of dithionate at one end of the temperatures: the plan at
// the low and at the high end of it. Between two anchors nothing is published.
type Anchor struct {
	Name      string
	Low, High AtTemperature
	Source    string
}

var anchors = [...]struct {
	celsius   quantity.Celsius
	low, high quantity.Percent
	name      string
	source    string
}{
	{2, 35, 75, "in ice", "Schlessinger, Inorganic Laboratory Preparations (1962) 61: 70 to 75 % of barium dithionate, by one of two equations"},
	{90, 0, 3, "hot and acid", "Ward, US 7 951 282 B2 (2011): below 5 g/L with the oxide in excess"},
}

// Anchors are the two published ends of AlongTemperature, cold first.
func Anchors(p *Plan) []Anchor {
	if !Sulfurous(p) {
		return nil
	}
	var b Runner
	var list []Anchor
	for _, a := range anchors {
		q := *p
		q.SlurryTemperature, q.SlurryDithionate = a.celsius, a.low
		low := b.at(&q)
		q.SlurryDithionate = a.high
		list = append(list, Anchor{a.name, low, b.at(&q), a.source})
	}
	return list
}
