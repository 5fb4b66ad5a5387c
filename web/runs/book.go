package runs

import (
	"cmp"
	"maps"
	"slices"
	"time"
)

// Book is a set of states that only grows. The zero Book is empty.
type Book struct {
	states   map[string]State
	runs     map[string][]string // the states of each run, as they came
	replaced map[of]bool
	says     map[string]said // what each state holds, to tell at once which hold the same
}

// of is a state by its run: a state replaces none of another run, whatever it says.
type of struct{ run, id string }

// add puts a sealed state into the book, and tells whether it is new there.
func (b *Book) add(s State) bool {
	if _, has := b.states[s.ID]; has {
		return false
	}
	if b.states == nil {
		b.states, b.runs, b.replaced, b.says = map[string]State{}, map[string][]string{}, map[of]bool{}, map[string]said{}
	}
	run := s.RunID()
	b.states[s.ID], b.says[s.ID] = s, s.said()
	b.runs[run] = append(b.runs[run], s.ID)
	for _, id := range s.Replaces {
		b.replaced[of{run, id}] = true
	}
	return true
}

// stands tells whether nothing replaced a state.
func (b *Book) stands(s *State) bool { return !b.replaced[of{s.RunID(), s.ID}] }

// Standing are the states that nothing replaced, those that say that a run is forgotten
// among them, in the order of their identifiers.
func (b *Book) Standing() []State {
	var list []State
	for _, id := range slices.Sorted(maps.Keys(b.states)) {
		if s := b.states[id]; b.stands(&s) {
			list = append(list, s)
		}
	}
	return list
}

// Kept is a kept run in a list.
type Kept struct {
	State
	// Split: another state of the same run stands too, since it was changed on two pages.
	Split bool
	alike []string // states that stand and say the same
}

// List are the runs that are kept, the newest first. States of a run that say the same
// are one.
func (b *Book) List() []Kept {
	var list []Kept
	for run := range b.runs {
		list = append(list, b.living(run)...)
	}
	when := make(map[string]time.Time, len(list))
	for i := range list {
		when[list[i].ID], _ = time.Parse(time.RFC3339, list[i].Kept)
	}
	slices.SortFunc(list, func(a, b Kept) int {
		return cmp.Or(when[b.ID].Compare(when[a.ID]), cmp.Compare(a.ID, b.ID))
	})
	return list
}

// living are the states of a run that stand and hold something.
func (b *Book) living(run string) []Kept {
	var list []Kept
	at := map[said]int{}
	for _, id := range slices.Sorted(slices.Values(b.runs[run])) {
		s := b.states[id]
		if s.Gone || !b.stands(&s) {
			continue
		}
		if i, has := at[b.says[id]]; has {
			list[i].alike = append(list[i].alike, id)
			continue
		}
		at[b.says[id]] = len(list)
		list = append(list, Kept{State: s, alike: []string{id}})
	}
	for i := range list {
		list[i].Split = len(list) > 1
	}
	return list
}

// Get finds a kept run by the identifier of a state that stands.
func (b *Book) Get(id string) (Kept, bool) {
	s, has := b.states[id]
	if has {
		for _, k := range b.living(s.RunID()) {
			if slices.Contains(k.alike, id) {
				return k, true
			}
		}
	}
	return Kept{}, false
}

// Known finds a state that holds something, one that was replaced too.
func (b *Book) Known(id string) (State, bool) {
	s, has := b.states[id]
	return s, has && !s.Gone
}

// after makes a state that replaces a kept one.
func (b *Book) after(k *Kept, s State) State {
	s.Run = k.RunID()
	s.Replaces = nil
	for _, id := range k.alike {
		s.Replaces = append(append(s.Replaces, id), b.states[id].Replaces...)
	}
	return s.sealed()
}

// back makes a state that brings back one which was replaced: it replaces whatever said that
// its run is gone, and what brought it back before and was replaced in turn. It is the same
// state on every page that knows the same.
func (b *Book) back(s State) State {
	run := s.RunID()
	s.Replaces = append(slices.Clone(s.Replaces), s.ID)
	for _, id := range b.runs[run] {
		if o := b.states[id]; o.Gone {
			s.Replaces = append(append(s.Replaces, id), o.Replaces...)
		}
	}
	s.Run = run
	for s = s.sealed(); !b.stands(&s); s = s.sealed() {
		s.Replaces = append(s.Replaces, s.ID)
	}
	return s
}

// Arrival is what came of a state that was brought in.
type Arrival int

const (
	New     Arrival = iota // it was not here
	Changed                // it replaces what was here
	Same                   // it is here already
	Older                  // here it was changed since, which stands
	Back                   // it was forgotten here, and is back
)

// bring takes in a state that somebody asked for.
func (b *Book) bring(s State) Arrival {
	run, changed := s.RunID(), false
	living, says := b.living(run), s.said()
	for _, k := range living {
		if b.says[k.ID] == says {
			b.add(s)
			return Same
		}
		for _, id := range k.alike {
			changed = changed || s.holds(id)
		}
	}
	known := len(b.runs[run]) > 0
	switch {
	case !b.stands(&s) && len(living) == 0:
		b.add(b.back(s))
		return Back
	case !b.stands(&s):
		b.add(s)
		return Older
	}
	b.add(s)
	switch {
	case changed:
		return Changed
	case known && len(living) == 0:
		return Back
	}
	return New
}
