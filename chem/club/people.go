package club

import (
	"rosesalt/chem/ledger"
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
// practice: whoever makes gas, handles strong acid or stands over hot acid. Whether a
// mother liquor is strong acid, the ledger says: what burns skin by the rules for mixtures.
func Tasks(p *route.Plan, book *ledger.Book, steps []procedure.Step) []Task {
	t := teller(p, book)
	var list []Task
	for i := range steps {
		if steps[i].Batch > 1 {
			continue // the same in every batch
		}
		for _, l := range tasks.At(steps[i].Key, t).Lines {
			list = append(list, Task{steps[i].Name, l.Name == "adult", l.Text})
		}
	}
	return list
}

// Question is what every person is asked before the work with gas is begun; "" where no
// sulfur dioxide comes into the plan.
func Question(p *route.Plan) string { return sheet.At("question", teller(p, nil)).One("text") }

// ToFindOut are what must be known before anything is opened, as lines to be filled in.
func ToFindOut(p *route.Plan) []string { return sheet.At("known", teller(p, nil)).All("line") }
