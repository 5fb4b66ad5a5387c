package club

import (
	"rosesalt/chem/phrase"
	"rosesalt/chem/reaction"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

// DraftHeading stands over the text for a risk assessment.
func DraftHeading() string { return sheet.At("draft", nil).One("text") }

// Risk is a line of a risk assessment: a stage of the work, what can harm there, whom, and
// the measures that the page's cautions name.
type Risk struct {
	Stage    route.Stage
	Hazards  []string // a sentence each
	Harmed   string
	Measures []safety.Caution
}

// Unfinished are the lines that the person responsible has to fill in.
func Unfinished() []string { return sheet.At("unfinished", nil).All("line") }

// substances are those that a hand meets at a stage, in the order of their harm. What is
// made on the way and stays in the liquor is told by the labels.
func substances(stage route.Stage, p *route.Plan) []reaction.Substance {
	caustic := route.Alkaline(p)
	acid := []reaction.Substance{reaction.SulfuricAcid}
	switch stage {
	case route.Cells, route.Wash, route.Batch:
		if caustic {
			return []reaction.Substance{reaction.Potash, reaction.ManganeseDioxide, reaction.ZincOxide}
		}
		return []reaction.Substance{reaction.ZincChloride, reaction.AmmoniumChloride, reaction.ManganeseDioxide}
	case route.Gas, route.Slurry:
		if r := route.ReductantOf(p); r.Used.Info().Stage == stage {
			return append(acid, r.Handled...)
		}
		if stage == route.Slurry {
			return acid
		}
	case route.Filter, route.Dry:
		return []reaction.Substance{reaction.ManganeseSulfate, reaction.ZincSulfate}
	case route.CopperSalt:
		if route.MakesCopperSalt(p) {
			return append(acid, reaction.CopperSulfate)
		}
	case route.Waste:
		list := []reaction.Substance{reaction.SodiumCarbonate, reaction.ManganeseSulfate, reaction.ZincSulfate}
		if route.MakesCopperSalt(p) {
			list = append(list, reaction.CopperSulfate)
		}
		return list
	}
	return nil
}

// Risks are the lines of the draft for a plan, in bench order; stages that this way does
// not have are left out.
// A substance's statements stand where it is met first.
func Risks(p *route.Plan) []Risk {
	var list []Risk
	named := map[reaction.Substance]bool{}
	for stage := range route.Stage(route.Stages) {
		told := risks.At(stage.Word(), teller(p, nil))
		r := Risk{Stage: stage, Hazards: told.All("hazard"), Harmed: told.One("harmed"), Measures: safety.Cautions(stage, p)}
		for _, substance := range substances(stage, p) {
			switch words := safety.Words(substance); {
			case named[substance]:
				r.Hazards = append(r.Hazards, phrase.Capital(substance.Name())+": as above.")
			case words != "":
				named[substance] = true
				r.Hazards = append(r.Hazards, phrase.Capital(substance.Name())+": "+words)
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
