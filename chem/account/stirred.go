package account

import "rosesalt/chem/route"

// says is a cause as the half of a sentence about this plan, with what goes with it.
func (p *Posterior) says(c Cause) string {
	if c != NoAcid && p.noneOf[c] > 0.5 {
		return "no dilute acid went in, and " + p.alone(c)
	}
	return p.alone(c)
}

// alone is a cause as the half of a sentence about this plan: where no gas is led in,
// nothing is said of gas, and what may be too little or too much is what it is mostly.
func (p *Posterior) alone(c Cause) string {
	gas := route.Gaseous(&p.m.base)
	much := p.mostlyMuch(c)
	switch {
	case c == GasLost && !gas:
		return "much of what was stirred in never did its work"
	case c == EarlyEnd && !gas:
		return "less was stirred in than planned"
	case c == NoAcid && !gas:
		return "no dilute acid went in, so that little dissolved"
	case c == OtherHydrate && much:
		return "the salt was not dry: it holds more water than its drying leaves"
	case c == OtherHydrate:
		return "the salt was dried hotter than was said: it holds less water"
	case c == PoorOxide && much:
		return "the cells held far more oxide than the plan takes them to"
	case c == OtherCharge && !gas && much:
		return "more was stirred in than the plan asks for; nobody noted how much"
	case c == OtherCharge && !gas:
		return "less was stirred in than the plan asks for; nobody noted how much"
	case c == OtherCharge && much:
		return "more went into the generator than the plan asks for; nobody noted how much"
	case c == OtherCharge:
		return "less went into the generator than the plan asks for; nobody noted how much"
	}
	return c.Says()
}

// mostlyMuch tells whether the points of a cause that can be too little or too much are
// mostly too much.
func (p *Posterior) mostlyMuch(c Cause) bool {
	if p.s == nil {
		return false
	}
	much := 0
	for i, l := range p.s.label {
		x := p.s.point(i)[len(p.m.uncertain):]
		switch {
		case Cause(l) != c:
		case c == OtherHydrate && p.m.hydrate(x[howFar]) > p.m.waters, c != OtherHydrate && x[howElse] >= lessOften:
			much++
		default:
			much--
		}
	}
	return much > 0
}

// Called is a cause as read beside this plan: where no gas is led in, none is lost.
func (p *Posterior) Called(c Cause) string {
	if c == GasLost && !route.Gaseous(&p.m.base) {
		return "reductant lost"
	}
	return c.Name()
}
