package club

import (
	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
)

// Task is a step, and whom it is for.
type Task struct {
	Step  string // its title
	Adult bool   // for adults only, whatever a code allows
	Why   string // the hazard, in a few words
}

// Tasks say who may do what. Where a task is not for adults only, the local code says from
// what age, and the sheet leaves room for it. Which tasks are an adult's is common
// practice: whoever makes gas, handles strong acid or stands over hot acid.
func Tasks(p *route.Plan, steps []procedure.Step) []Task {
	var list []Task
	for i := range steps {
		why, adult := task(p, steps[i].Key)
		list = append(list, Task{steps[i].Title, adult, why})
	}
	return list
}

func task(p *route.Plan, key string) (why string, adult bool) {
	gas, flame := route.Sulfurous(p), p.GasSource == route.FromCopper
	switch key {
	case "ready":
		return "whoever answers for the day", true
	case "dilute":
		return "strong acid", true
	case "open":
		if route.Alkaline(p) {
			return "lye under pressure", true
		}
		return "sharp cans; dust of manganese, often lead", false
	case "soak", "wash":
		if route.Alkaline(p) {
			return "lye", true
		}
		return "zinc and ammonium salts; silver nitrate and nitric acid in drops", false
	case "acid", "slurry":
		return "dilute acid", false
	case "divide":
		return "dust where it dries", false
	case "line":
		return "glass, and a line that must be open", true
	case "charge":
		return "strong acid", true
	case "gas":
		if flame {
			return "sulfur dioxide, hot strong acid, flame", true
		}
		return "sulfur dioxide, acid", true
	case "stir":
		switch p.GasSource {
		case route.BySalt:
			return "sulfur dioxide out of an open vessel", true
		case route.ByPeroxide:
			return "peroxide and acid, froth", true
		}
		return "poisonous acid, warm", true
	case "end", "filter":
		if gas {
			return "the liquor still gives off sulfur dioxide", true
		}
		return "acid liquor", false
	case "cool":
		return "a flask of hot strong acid", true
	case "dissolve":
		return "strong acid into water", true
	case "evaporate":
		return "acid fumes; hot salt spits", true
	case "waste":
		return "acid, froth, poisonous liquors", true
	}
	return "salts that harm eyes and must not be swallowed", false
}

// Question is what every person is asked before the work with gas is begun; "" where no
// sulfur dioxide comes into the plan.
func Question(p *route.Plan) string {
	if !route.Sulfurous(p) {
		return ""
	}
	return "Has anyone asthma, or had it as a child, or ever used an inhaler, or wheezed from cold air, sport or wine? Ask each alone, before the acid is opened, the helpers and who only watches too. Whoever says yes or is not sure is not there, nor downwind, while gas is made and until it has cleared. Nobody has to say why."
}

// Blanks are what must be known before anything is opened, as lines to be filled in.
func Blanks(p *route.Plan) []string {
	list := []string{
		"Emergency number", "Poison centre", "Address here, and which entrance", "Who meets the ambulance", "First-aider, telephone", "Second adult, telephone",
		"Nearest eyewash", "Nearest running water", "Telephone that works here", "Sand, soda, extinguisher", "Data sheets lie", "Parents’ numbers lie",
	}
	if route.Sulfurous(p) {
		list = append(list, "Meet upwind at", "Wind today from")
	}
	return list
}
