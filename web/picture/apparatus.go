package picture

import (
	"rosesalt/chem/route"
	"rosesalt/web/chart"
)

// Apparatus shows how the plan's vessels stand: from the flask through the empty trap and
// the counting bottle to the funnel over the slurry, and behind a closed vessel the second
// trap and the scrubber. A way that leads no gas has the slurry in its bath and nothing
// else. The liquids stand as high as they do in vessels of the sizes told.
func Apparatus(p *route.Plan, s *route.Sheet) chart.Apparatus {
	all := map[string]route.Vessel{}
	for _, v := range route.Vessels(p, s) {
		all[v.Name] = v
	}
	var row []chart.Vessel
	add := func(kind chart.VesselKind, name string, full float64, says ...string) {
		row = append(row, chart.Vessel{Kind: kind, Name: name, Full: full, Says: says})
	}
	flask, trap, slurry := all["Generator flask"], all["Empty trap"], all["Slurry vessel"]
	second, scrubber := all["Second empty trap"], all["Scrubber bottle"]
	// one is what one batch takes of a figure, as read.
	one := func(id route.FigureID) string { return route.Print(s.Amount(id)/route.BatchCount(p), id.Info().Unit) }

	gas := route.Gaseous(p)
	closed := route.Scrubbed(p)
	if gas {
		name, full := "Flask, "+flask.SizeText(), flask.Pours/flask.Stands()
		reductant := route.ReductantOf(p)
		charge := reductant.Name + " " + one(reductant.Used)
		if route.HotAcid(p) {
			add(chart.FlaskOverFlame, name, full, tooSmall(&flask), charge+", acid "+one(route.GasAcidUsed), "in a sand bath, at most half full")
		} else {
			add(chart.FlaskUnderFunnel, name, full, tooSmall(&flask), charge+"; dilute acid drips in")
		}
		add(chart.Trap, "Empty trap, "+trap.SizeText(), 0, tooSmall(&trap), "takes the whole slurry if it is drawn back")
		counting := all["Counting bottle"]
		add(chart.CountingBottle, counting.Name+", "+counting.SizeText(), 0.28, counting.For)
	}
	kind, says, funnel := chart.Slurry, "beaker of "+slurry.SizeText(), ""
	if closed {
		kind, says = chart.ClosedSlurry, "closed vessel of "+slurry.SizeText()
	}
	if s.Amount(route.ReduceIce) > 0 {
		says += ", bath with " + one(route.ReduceIce) + " of ice"
	}
	if gas {
		funnel = "inverted funnel, its rim only just in the slurry"
	}
	add(kind, "Slurry, "+one(route.SlurryVolume), slurry.Pours/slurry.Stands(), says, tooSmall(&slurry), funnel)
	if closed {
		liquid := s.Amount(route.ScrubLiquid)
		add(chart.Trap, "Second empty trap, "+second.SizeText(), 0, tooSmall(&second))
		add(chart.Scrubber, "Scrubber, "+scrubber.SizeText(), liquid/scrubber.Stands(),
			route.Print(s.Amount(route.ScrubAdvised), "g")+" of soda in "+route.Print(liquid, "mL"), "its outlet stays open")
	}
	return chart.InRow(row)
}

// tooSmall says that a vessel does not hold what is poured; "" where it does.
func tooSmall(v *route.Vessel) string {
	if !v.TooSmall() {
		return ""
	}
	return "too small: " + v.LeastText() + " or more"
}
