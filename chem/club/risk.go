package club

import (
	"strings"

	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

// Draft stands over the text for a risk assessment.
const Draft = "This is a draft out of a plan, not a risk assessment. It becomes one only when the person responsible has held it against this place, these people, the suppliers' safety data sheets and the local code, has changed and finished it, and has signed it. It does not say that the work is safe, or allowed. Where a code, a school's or a landlord's rule, or someone licensed to do this work says otherwise, that comes first."

// Risk is a line of a risk assessment: a stage of the work, what can harm there, whom, and
// the measures that the page's cautions name.
type Risk struct {
	Stage    route.Stage
	Hazards  []string // a sentence each
	Harmed   string
	Measures []safety.Caution
}

// Unfinished are the lines that the person responsible has to fill in.
func Unfinished() []string {
	return []string{
		"Place, and what is near it", "Who takes part, ages", "Anyone at special risk (asthma, pregnancy, skin, young people)", "Code or rule followed here", "Further measures",
		"What is left of the risk, and whether to go on", "Who stops the work, and on what sign",
	}
}

// substances are those that a hand meets at a stage, in the order of their harm. What is
// made on the way and stays in the liquor is told by the labels.
func substances(stage route.Stage, p *route.Plan) []reaction.Substance {
	caustic := route.Alkaline(p)
	flask := p.GasSource == route.FromCopper
	switch stage {
	case route.Cells, route.Wash, route.Batch:
		if caustic {
			return []reaction.Substance{reaction.Potash, reaction.ManganeseDioxide, reaction.ZincOxide}
		}
		return []reaction.Substance{reaction.ZincChloride, reaction.AmmoniumChloride, reaction.ManganeseDioxide}
	case route.Gas:
		if !route.Gaseous(p) {
			return nil
		}
		if flask {
			return []reaction.Substance{reaction.SulfuricAcid}
		}
		return []reaction.Substance{reaction.SulfuricAcid, reaction.SodiumMetabisulfite}
	case route.Slurry:
		list := []reaction.Substance{reaction.SulfuricAcid}
		switch p.GasSource {
		case route.BySalt:
			list = append(list, reaction.SodiumMetabisulfite)
		case route.ByPeroxide:
			list = append(list, reaction.HydrogenPeroxide)
		case route.ByOxalic:
			list = append(list, reaction.OxalicAcid)
		}
		return list
	case route.Filter, route.Dry:
		return []reaction.Substance{reaction.ManganeseSulfate, reaction.ZincSulfate}
	case route.CopperSalt:
		if flask {
			return []reaction.Substance{reaction.SulfuricAcid, reaction.CopperSulfate}
		}
	case route.Waste:
		list := []reaction.Substance{reaction.SodiumCarbonate, reaction.ManganeseSulfate, reaction.ZincSulfate}
		if flask {
			list = append(list, reaction.CopperSulfate)
		}
		return list
	}
	return nil
}

// besides are the hazards that no classification of a substance names, by common practice;
// sulfur dioxide's H331 is that of a supplier's sheet.
func besides(stage route.Stage, p *route.Plan) []string {
	gas := "Sulfur dioxide: toxic if inhaled (H331), burns eyes and airways, and can stop an asthmatic's breathing at once."
	switch stage {
	case route.Cells:
		return []string{"Cut metal; dust that often holds lead."}
	case route.Gas:
		switch {
		case p.GasSource == route.FromCopper:
			return []string{gas, "Hot glass and flame; a blocked tube; slurry drawn back into hot acid bursts the flask."}
		case route.Gaseous(p):
			return []string{gas, "A blocked tube; slurry drawn back."}
		}
	case route.Slurry:
		switch {
		case p.GasSource == route.ByPeroxide:
			return []string{"Froth, and oxygen that feeds fire."}
		case p.GasSource == route.ByOxalic:
			return []string{"Warm acid, froth, acid mist."}
		}
		return []string{gas}
	case route.Filter:
		if route.Sulfurous(p) {
			return []string{"The filtrate gives off sulfur dioxide."}
		}
	case route.Dry:
		return []string{"Hot dish; acid fumes; salt that spits."}
	case route.CopperSalt:
		if p.GasSource == route.FromCopper {
			return []string{"Heat when acid meets water: it boils and is thrown out."}
		}
	case route.Waste:
		return []string{"Froth; gas from what is poured together; streams and soil."}
	}
	return nil
}

// harmed says who is first in the way of a stage's harm.
var harmed = [route.Stages]string{
	route.Cells:      "who opens and scrapes; who breathes the dust, at home too, from clothes",
	route.Wash:       "who pours; who is in reach of a splash",
	route.Batch:      "who weighs; who breathes the dust",
	route.Gas:        "all in reach and downwind, anyone with asthma first; neighbours; who comes by",
	route.Slurry:     "who stirs; all in reach and downwind",
	route.Filter:     "who filters; who is in reach of a splash",
	route.Dry:        "who stands at the dish; who breathes the fumes",
	route.CopperSalt: "who pours; who is in reach of a splash",
	route.Waste:      "who treats and carries it; who collects it; water and soil",
}

// Risks are the lines of the draft for a plan, in bench order; stages that this way does
// not have are left out.
// A substance's statements stand where it is met first.
func Risks(p *route.Plan) []Risk {
	var list []Risk
	told := map[reaction.Substance]bool{}
	for stage := range route.Stage(route.Stages) {
		r := Risk{Stage: stage, Harmed: harmed[stage], Measures: safety.Cautions(stage, p)}
		r.Hazards = append(r.Hazards, besides(stage, p)...)
		for _, substance := range substances(stage, p) {
			switch words := safety.Words(substance); {
			case told[substance]:
				r.Hazards = append(r.Hazards, capital(substance.Name())+": as above.")
			case words != "":
				told[substance] = true
				r.Hazards = append(r.Hazards, capital(substance.Name())+": "+words)
			}
		}
		for _, drop := range safety.Drops(p) {
			if drop.Stage == stage {
				r.Hazards = append(r.Hazards, drop.Name+": "+drop.Words)
			}
		}
		if len(r.Hazards)+len(r.Measures) > 0 {
			list = append(list, r)
		}
	}
	return list
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
