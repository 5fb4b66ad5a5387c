package procedure

import (
	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
)

var onShelf = phrase.Open(&files, "shelf", "name", "amount", "keep", "harm")

// shelf is what steps leave that stands until others use it up, by their keys: there when the
// first has begun, gone when the last of the second is done.
var shelf = [...]struct{ key, from, until string }{
	{"dilute bottle", "dilute", "slurry"},
	{"mix", "open", "divide"},
	{"cake", "divide", "slurry"},
	{"slurry", "slurry", "filter"},
	{"flask", "gas", "dissolve"},
	{"rose liquor", "filter", "evaporate"},
	{"trays", "evaporate", "dry"},
	{"salt", "dry", "dry"},
	{"pink crystals", "grow", "waste"},
	{"blue liquor", "blue", "drain"},
	{"wash liquor", "soak", "waste"},
	{"residue", "filter", "waste"},
}

// Thing is something that stands on a shelf between sessions.
type Thing struct {
	Key, Name    string
	Amount       string // "" where nothing is to be said
	Keep, Harm   string // a sentence or some
	Since, Until int    // the slots, by their place, of the step that leaves it and of that which uses it up
}

// Shelf is what stands when the slots before one are over and that one has not begun, of all
// that is worked.
func Shelf(p *route.Plan, s *route.Sheet, steps []Step, slots []Slot, next int) (list []Thing) {
	if next <= 0 || next >= len(slots) {
		return nil
	}
	m := newMaker(p, s, nil)
	at := func(key string, from, to int) int {
		for i := from; i < to; i++ {
			if steps[slots[i].Step].Key == key && slots[i].By != Shown {
				return i
			}
		}
		return -1
	}
	air := false
	for i := range steps {
		air = air || steps[i].By == Air
	}
	for _, row := range shelf {
		since := at(row.from, 0, next)
		until := at(row.until, next, len(slots))
		if row.key == "trays" && !air || since < 0 || until < 0 {
			continue
		}
		told, ok := onShelf.Find(row.key, m.t)
		if !ok {
			continue
		}
		thing := Thing{Key: row.key, Name: told.One("name"), Keep: told.One("keep"), Harm: told.One("harm"), Since: since, Until: until}
		for _, l := range told.Lines {
			if l.Name != "amount" {
				continue
			}
			if a := m.t.At(l.About); a.Something() {
				thing.Amount = a.String() + " " + l.Text
			}
		}
		list = append(list, thing)
	}
	return list
}
