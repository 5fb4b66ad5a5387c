package safety

import (
	"slices"

	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
)

// Share is how much of a mixture a substance is.
type Share struct {
	Substance reaction.Substance
	Percent   quantity.Percent // by mass
}

// The shares, mass percent, from which a mixture bears a statement: CLP, annex I, tables
// 3.2.3 (skin), 3.3.3 (eyes), 3.8.3 (breath), 3.9.4 (organs), 4.1.1 and 4.1.2 (water),
// and 3.1.3.6.1 for what is harmful at once, with the converted values of table 3.1.2
// (500 and 1100 mg/kg and 1.5 mg/L against 2000 mg/kg and 5 mg/L). Skin and eyes as read; breath
// by TRGS 201 (Germany), 2.2.6.1, water by ADR 2017, 2.2.9.1.10.4.6; organs and what is
// harmful at once from memory.
const (
	burnsFrom     = 5
	irritatesFrom = 1  // by what burns
	irritantsFrom = 10 // by what irritates
	blindsFrom    = 3
	swallowedFrom = 25
	touchedFrom   = 55
	inhaledFrom   = 30
	breathFrom    = 20
	// organsFrom: the GHS leaves it to the authority between 1 and 10 %, the Union takes
	// 10; the stricter stands.
	organsFrom = 1
	waterFrom  = 25
	// metalsFrom: no limit is published; a supplier's sheet for 1 mol/L acid still bears
	// H290. Estimate.
	metalsFrom = 1
	// gasFrom: the annex gives no limit for EUH031; estimate, on the safe side.
	gasFrom = 1
	// dissolvedFrom: sulfur dioxide in water; estimate, on the safe side.
	dissolvedFrom = 1
)

// MixtureCodes are the hazard statements of a mixture, by the rules that add up what its
// substances bear. The rules stand in for a test of the mixture itself, and know nothing
// of what no share is given for.
func MixtureCodes(shares []Share) []Code {
	var m sums
	for _, s := range shares {
		if c := classOf(s.Substance); c != nil {
			m.add(c, float64(s.Percent))
		}
	}
	return OnLabel(m.codes())
}

// sums are shares of limits: a statement is due from 1 on.
type sums struct {
	metals, burns, skin, blinds, eyes, swallowed, touched, inhaled, breath, organs float64
	acute, one, two                                                                float64 // to aquatic life, %
	gas                                                                            float64
}

func orGeneral(own quantity.Percent, general float64) float64 {
	if own > 0 {
		return float64(own)
	}
	return general
}

func orOne(factor float64) float64 {
	if factor > 0 {
		return factor
	}
	return 1
}

func (m *sums) add(c *Class, percent float64) {
	has := func(code Code) bool { return slices.Contains(c.Codes, code) }
	if has("H290") {
		m.metals += percent / metalsFrom
	}
	if has("H314") {
		m.burns += percent / orGeneral(c.burns, burnsFrom)
		m.skin += percent / orGeneral(c.reddens, orGeneral(c.irritates, irritatesFrom))
		m.eyes += percent / orGeneral(c.irritates, irritatesFrom)
		m.blinds += percent / orGeneral(c.blinds, orGeneral(c.burns, blindsFrom))
	}
	if has("H318") {
		m.blinds += percent / blindsFrom
		m.eyes += percent / irritatesFrom
	}
	if has("H315") {
		m.skin += percent / irritantsFrom
	}
	if has("H319") {
		m.eyes += percent / irritantsFrom
	}
	if has("H302") {
		m.swallowed += percent / swallowedFrom
	}
	if has("H312") {
		m.touched += percent / touchedFrom
	}
	if has("H332") {
		if c.Substance == reaction.SulfurDioxide {
			m.inhaled += percent / dissolvedFrom
		} else {
			m.inhaled += percent / inhaledFrom
		}
	}
	if has("H335") {
		m.breath += percent / orGeneral(c.breath, breathFrom)
	}
	if has("H373") {
		m.organs += percent / organsFrom
	}
	switch {
	case has("H410"):
		m.one += percent * orOne(c.chronic)
		m.acute += percent * orOne(c.acute)
	case has("H411"):
		m.two += percent
	}
	if has("EUH031") {
		m.gas += percent / gasFrom
	}
}

func (m *sums) codes() []Code {
	var list []Code
	due := func(c Code, sum float64) {
		if sum >= 1-1e-9 { // a tenth of soda is ten percent
			list = append(list, c)
		}
	}
	due("H290", m.metals)
	due("H314", m.burns)
	due("H318", m.blinds)
	due("H315", m.skin)
	due("H319", m.eyes)
	due("H302", m.swallowed)
	due("H312", m.touched)
	due("H332", m.inhaled)
	due("H335", m.breath)
	due("H373", m.organs)
	due("H400", m.acute/waterFrom)
	due("H410", m.one/waterFrom)
	due("H411", (10*m.one+m.two)/waterFrom)
	due("H412", (100*m.one+10*m.two)/waterFrom)
	due("EUH031", m.gas)
	return list
}
