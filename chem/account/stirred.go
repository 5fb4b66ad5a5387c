package account

import "rosesalt/chem/route"

// says is a cause as the half of a sentence about this plan: where no gas is led in,
// nothing is said of gas.
func (p *Posterior) says(c Cause) string {
	if !route.Gaseous(&p.m.base) {
		switch c {
		case GasLost:
			return "most of what was stirred in never did its work"
		case EarlyEnd:
			return "less was stirred in than planned"
		}
	}
	return c.Says()
}

// Called is a cause as read beside this plan: where no gas is led in, none is lost.
func (p *Posterior) Called(c Cause) string {
	if c == GasLost && !route.Gaseous(&p.m.base) {
		return "reductant lost"
	}
	return c.Name()
}
