package safety

import (
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
	waterFrom     = 25.0
)

// elseFrom are those of all other statements.
var elseFrom = map[Code]float64{
	"H302": 25,
	"H312": 55,
	"H332": 30,
	"H335": 20,
	"H373": 1, // the GHS leaves it to the authority between 1 and 10 %, the Union takes 10; the stricter stands
	"H290": 1, // estimate: no limit is published; a supplier's sheet for 1 mol/L acid still bears it

	"EUH031": 1, // estimate, on the safe side: the annex gives no limit
}

// MixtureCodes are the hazard statements of a mixture, by the rules that add up what its
// substances bear. The rules stand in for a test of the mixture itself, and know nothing
// of what no share is given for.
func MixtureCodes(shares []Share) []Code {
	due := map[Code]float64{} // shares of limits: a statement is due from 1 on
	for _, s := range shares {
		c := classOf(s.Substance)
		if c == nil {
			continue
		}
		add := func(code Code, from float64) { due[code] += float64(s.Percent) / from }
		for _, code := range c.Codes {
			switch code {
			case "H314":
				irritates := c.limit("H319", irritatesFrom)
				add("H314", c.limit("H314", burnsFrom))
				add("H318", c.limit("H318", c.limit("H314", blindsFrom)))
				add("H315", c.limit("H315", irritates))
				add("H319", irritates)
			case "H318":
				add("H318", blindsFrom)
				add("H319", irritatesFrom)
			case "H315", "H319":
				add(code, irritantsFrom)
			case "H410":
				add("H400", c.limit("H400", waterFrom))
				add("H410", waterFrom)
				add("H411", waterFrom/10)
				add("H412", waterFrom/100)
			case "H411":
				add("H411", waterFrom)
				add("H412", waterFrom/10)
			default:
				add(code, c.limit(code, elseFrom[code]))
			}
		}
	}
	var codes []Code
	for code, sum := range due {
		if sum >= 1-1e-9 { // a tenth of soda is ten percent
			codes = append(codes, code)
		}
	}
	return OnLabel(codes)
}
