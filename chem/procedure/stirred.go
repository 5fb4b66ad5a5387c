package procedure

import (
	"strings"

	"rosesalt/chem/route"
)

// stirred are the steps of a way that leads no gas: something is stirred into the acid
// slurry.
func (m *maker) stirred() {
	st := Step{
		Key: "stir", Stage: route.Slurry, Title: "Bring the oxide into solution", Watch: NeverLeave, Minutes: stirTime, Onward: true,
		Do: []string{"Add it in small portions, stirring well; each waits until the last has done its work."},
	}
	switch m.p.GasSource {
	case route.BySalt:
		st.Title = "Stir in the metabisulfite"
		st.Take = m.take("Metabisulfite", route.SaltUsed)
		st.Measure = []Blank{m.expect("Metabisulfite taken", route.SaltUsed)}
		st.Do = []string{"A spoonful at a time, stirred under, into the cold acid slurry; the next when the smell has gone."}
		st.See = "The mud gets thinner and browner, then only carbon is left; when it settles, the liquor over it is pale pink."
		st.Misled = "Carbon stays black to the end, so the mud never looks finished."
		st.Stop = "Acid sets sulfur dioxide free from it: outdoors or in a working fume cupboard, upwind, nobody with asthma. Never all at once, never into strong acid."
	case route.ByPeroxide:
		st.Title = "Drip in the peroxide"
		st.Take = m.take("Hydrogen peroxide", route.PeroxideUsed)
		st.Measure = []Blank{m.expect("Peroxide taken", route.PeroxideUsed)}
		st.Do = []string{"In drops, into the cold, stirred acid slurry, so slowly that the froth stays low. The vessel is at most a third full."}
		st.See = "Froth of oxygen; the mud gets thinner, and when it settles, the liquor over it is pale pink."
		st.Misled = "Froth alone proves nothing: the oxide breaks peroxide up without dissolving. It dissolves only where acid is left."
		st.Stop = "Never a closed vessel, never onto the dry oxide, never warm. Oxygen feeds any flame: none near."
	case route.ByOxalic:
		st.Title = "Warm it with the oxalic acid"
		st.Minutes = warmTime
		st.Take = m.take("Oxalic acid dihydrate", route.OxalicUsed)
		st.Measure = []Blank{m.expect("Oxalic acid taken", route.OxalicUsed), {slurryWarmth, "°C", float64(m.p.OxalicWarm)}}
		st.Watch = Attended
		st.Do = []string{"Outdoors. Bring the slurry to " + route.Print(float64(m.p.OxalicWarm), "°C") + ", stirring; the oxalic acid goes in by the spoonful, each when the froth has gone down. Then keep it warm, and make up the water that steams off."}
		st.See = "Froth of carbon dioxide; the mud gets thinner. A pale, sandy solid is manganese oxalate: acid is short."
		st.Misled = "Carbon stays black to the end, so the mud never looks finished."
		st.Stop = "Oxalic acid is poisonous and gets through skin: gloves, goggles, no dust. Never a closed vessel."
	}
	m.add(st)
	if route.Sulfurous(m.p) {
		m.endTest()
		return
	}
	m.add(Step{
		Key: "end", Stage: route.Slurry, Title: "Judge the end", Watch: Attended, Minutes: lastPaper + standStirred,
		Do:      []string{firstPinch + "Add one small portion more, stir the slurry for a quarter of an hour, then " + secondPinch},
		End:     strings.ToUpper(route.PinchTest[:1]) + route.PinchTest[1:] + ". If it froths less, go on.",
		Misled:  "With nothing left to work, two pinches froth alike at any time. " + alwaysFroths,
		Measure: []Blank{pinched},
		Stop:    "Do not stopper the vessel: it goes on giving gas.",
	})
}
