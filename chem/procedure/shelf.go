package procedure

import (
	"rosesalt/chem/phrase"
	"rosesalt/chem/route"
)

var onShelf = phrase.Open(&files, "shelf", "name", "amount", "keep", "harm")

// shelf is what steps leave that stands until others use it up, by their keys: at once, or bit
// by bit, so that some is there until the last of them is done.
var shelf = [...]struct {
	key, from, until string
	bits             bool
}{
	{"dilute bottle", "dilute", "slurry", true},
	{"mix", "open", "divide", false},
	{"cake", "divide", "slurry", true},
	{"slurry", "slurry", "filter", false},
	{"flask", "gas", "dissolve", false},
	{"rose liquor", "filter", "evaporate", true},
	{"trays", "evaporate", "dry", false},
	{"salt", "dry", "dry", true},
	{"pink crystals", "grow", "waste", false},
	{"blue liquor", "blue", "drain", false},
	{"wash liquor", "soak", "waste", false},
	{"residue", "filter", "waste", false},
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
	first := func(key string, from int) int { // from a slot on
		for i := from; i < len(slots); i++ {
			if steps[slots[i].Step].Key == key && slots[i].By != ShownFirst {
				return i
			}
		}
		return -1
	}
	last := func(key string) (at int) { // before the next slot
		at = -1
		for i := first(key, 0); i >= 0 && i < next; i = first(key, i+1) {
			at = i
		}
		return at
	}
	air := false
	for i := range steps {
		air = air || steps[i].By == LeftToAir
	}
	for _, row := range shelf {
		since, until := last(row.from), first(row.until, next)
		used := !row.bits && last(row.until) >= since
		if row.key == "trays" && !air || since < 0 || until < 0 || used {
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
