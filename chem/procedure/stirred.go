package procedure

import (
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
)

// The words of the ways that lead no gas: something is stirred into the acid slurry.
const (
	bySalt     = "slurrysalt"
	byPeroxide = "peroxide"
	byOxalic   = "oxalic"
)

// stirred are the steps of a way that leads no gas. What it takes is asked for by key,
// so that a way of the route needs nothing here but its words.
func (m *maker) stirred() {
	st := Step{
		Key: "stir", Stage: route.Slurry, Title: "Bring the oxide into solution", Watch: NeverLeave, Minutes: stirTime, Onward: true,
		Do: []string{"Add it in small portions, stirring well; each waits until the last has done its work."},
	}
	switch m.way() {
	case bySalt:
		st.Title = "Stir in the metabisulfite"
		st.Take = m.taken("Metabisulfite", "salt.used")
		st.Measure = m.expected("Metabisulfite taken", "salt.used")
		st.Do = []string{"A spoonful at a time, stirred under, into the cold acid slurry; the next when the smell has gone."}
		st.See = "The mud gets thinner and browner, then only carbon is left; when it settles, the liquor over it is pale pink."
		st.Misled = "Carbon stays black to the end, so the mud never looks finished."
		st.Stop = "Acid sets sulfur dioxide free from it: outdoors or in a working fume cupboard, upwind, nobody with asthma. Never all at once, never into strong acid."
	case byPeroxide:
		st.Title = "Drip in the peroxide"
		st.Take = m.taken("Hydrogen peroxide", "peroxide.used")
		st.Measure = m.expected("Peroxide taken", "peroxide.used")
		st.Do = []string{"In drops, into the cold, stirred acid slurry, so slowly that the froth stays low. The vessel is at most a third full."}
		st.See = "Froth of oxygen; the mud gets thinner, and when it settles, the liquor over it is pale pink."
		st.Misled = "Froth alone proves nothing: the oxide breaks peroxide up without dissolving. It dissolves only where acid is left."
		st.Stop = "Never a closed vessel, never onto the dry oxide, never warm. Oxygen feeds any flame: none near."
	case byOxalic:
		st.Title = "Warm it with the oxalic acid"
		st.Minutes = warmTime
		st.Take = m.taken("Oxalic acid dihydrate", "oxalic.used")
		st.Measure = m.expected("Oxalic acid taken", "oxalic.used")
		st.Watch = Attended
		st.Do = []string{"Outdoors. Bring the slurry to " + m.warm() + ", stirring; the oxalic acid goes in by the spoonful, each when the froth has gone down. Then keep it warm, and make up the water that steams off."}
		st.See = "Froth of carbon dioxide; the mud gets thinner. A pale, sandy solid is manganese oxalate: acid is short."
		st.Misled = "Carbon stays black to the end, so the mud never looks finished."
		st.Stop = "Oxalic acid is poisonous and gets through skin: gloves, goggles, no dust. Never a closed vessel."
	}
	m.add(st)
	if m.sulfurous() {
		m.endTest()
		return
	}
	m.add(Step{
		Key: "end", Stage: route.Slurry, Title: "Judge the end", Watch: Attended, Minutes: lastPaper,
		Do:      []string{"Rinse a pinch of the black and put fresh dilute hydrogen peroxide on it: it does not froth."},
		End:     "No froth. If it froths, oxide is left: go on.",
		Misled:  "A pinch that was not rinsed froths from what clings to it.",
		Measure: []Blank{{"Pinch with peroxide: froths or not", "", quantity.Blank}},
		Stop:    "Do not stopper the vessel: it goes on giving gas.",
	})
}

// taken is what a figure says, by its key; nothing where this route has no such figure.
func (m *maker) taken(name, key string) []Amount {
	id, ok := route.FigureByKey(key)
	if !ok {
		return nil
	}
	return m.take(name, id)
}

func (m *maker) expected(name, key string) []Blank {
	id, ok := route.FigureByKey(key)
	if !ok {
		return nil
	}
	return []Blank{m.expect(name, id)}
}

// warm is the temperature at which oxalic acid works.
func (m *maker) warm() string {
	in, ok := route.InputByKey("oxalic.warm")
	if !ok {
		return "80 to 90\u202f°C" // De Michelis et al., J. Power Sources 172 (2007) 975
	}
	return route.Print(in.Value(m.p), in.Unit)
}
