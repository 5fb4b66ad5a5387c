package club

import (
	"slices"

	"rosesalt/chem/ledger"
	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/chem/safety"
)

// Task is a step, and whom it is for.
type Task struct {
	Step  string // its title
	Adult bool   // for adults only, whatever a code allows
	Why   string // the hazard, in a few words
}

// Tasks say who may do what. Where a task is not for adults only, the local code says from
// what age, and the sheet leaves room for it. Which tasks are an adult's is common
// practice: whoever makes gas, handles strong acid or stands over hot acid. Whether a
// mother liquor is strong acid, the ledger says: what burns skin by the rules for mixtures.
func Tasks(p *route.Plan, book *ledger.Book, steps []procedure.Step) []Task {
	var list []Task
	for i := range steps {
		if steps[i].Batch > 1 {
			continue // the same in every batch
		}
		why, adult := task(p, book, steps[i].Key)
		list = append(list, Task{steps[i].Name, adult, why})
	}
	return list
}

// burns tells whether what a vessel holds is strong enough to burn skin (H314).
func burns(book *ledger.Book, v ledger.Vessel) bool {
	return slices.Contains(safety.CodesOf(book, v), "H314")
}

func task(p *route.Plan, book *ledger.Book, key string) (why string, adult bool) {
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
	case "blue", "drain":
		if burns(book, ledger.CopperLiquor) {
			return "strong acid liquor, burns skin and eyes; copper salt", true
		}
		return "acid liquor; copper salt that harms eyes and must not be swallowed", false
	case "evaporate":
		return "acid fumes; hot salt spits", true
	case "grow":
		if burns(book, ledger.MotherLiquor) {
			return "acid liquor that burns skin and eyes, hot at first", true
		}
		return "acid liquor, hot at first; salts that harm eyes", false
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
