package safety

import (
	"strings"

	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
)

// Drop is a reagent of a test, used in drops, which no ledger counts.
type Drop struct {
	Name  string
	Stage route.Stage // of its test
	Words string      // its hazards, in sentences
}

// homePeroxide is the strength of the peroxide that is bought for drops (route.Reagents).
const homePeroxide quantity.Percent = 3

// Drops are the reagents of a plan's tests, in the order of the bench. Where one is
// bought stronger than its label here has it, its words say so.
func Drops(p *route.Plan) []Drop {
	var list []Drop
	if withZincCarbon.applies(p) {
		silver := silverReagent()
		list = append(
			list, Drop{"Silver nitrate, 1 to 2 %", route.Wash, sentence(silver.Hazards) + " It stains. " + Warn(SilverDrops, Ammonia)},
			// GisChem (BG RCI, Germany), nitric acid from 5 to 20 %; that it irritates from 1 % is
			// the rule for mixtures.
			Drop{"Nitric acid, dilute", route.Wash, sentence(statements("H290", "H314")) + " That is from 5 %; from 1 % it irritates."},
		)
	}
	if withSulfurous.applies(p) {
		paper := permanganateReagent()
		// The solid: CLP, annex VI 025-002-00-9, H314 by suppliers, all from memory.
		list = append(list, Drop{"Permanganate", route.Slurry, "The solid feeds fire (H272), is harmful if swallowed (H302), burns skin and eyes (H314) and is very toxic in water for long (H410). The pink solution on the papers: " + sentence(paper.Hazards)})
	}
	if !withPeroxide.applies(p) { // else it is at hand, and its own hazards are told
		words := "At " + route.Print(float64(homePeroxide), "%") + " by the rules for mixtures no statement is due; it stings in eyes and cuts all the same, bleaches, and feeds fire where it dries in. From 8 % it harms eyes for good (H318)."
		if codes := MixtureCodes([]Share{{reaction.HydrogenPeroxide, homePeroxide}}); len(codes) > 0 {
			words = sentence(statements(codes...))
		}
		list = append(list, Drop{"Hydrogen peroxide, " + route.Print(float64(homePeroxide), "%"), route.Slurry, words})
	}
	return list
}

func statements(codes ...Code) []Statement {
	var list []Statement
	for _, c := range Shown(codes) {
		list = append(list, hazardOf(c).Statement)
	}
	return list
}

// sentence is statements in a row, with their codes.
func sentence(list []Statement) string {
	var words []string
	for _, s := range list {
		words = append(words, strings.TrimSuffix(s.Words, ".")+" ("+string(s.Code)+")")
	}
	return strings.Join(words, "; ") + "."
}
