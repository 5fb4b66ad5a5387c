package runs

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Prefix begins the keys under which states lie in storage; the rest is the state's
// identifier. Since each has a key of its own, no page writes over another's.
const Prefix = "rosesalt.run."

// Shelf is a place that keeps texts by key and is shared by several pages.
type Shelf interface {
	Keys() ([]string, error)
	Load(key string) (string, error)
	Save(key, text string) error
	Remove(key string) error
}

// Why a shelf keeps nothing.
var (
	ErrFull      = errors.New("storage full")
	ErrForbidden = errors.New("storage forbidden")
	errGone      = errors.New("what is saved is gone at once")
	errKnown     = errors.New("This run is kept already, under this name.")
	errNone      = errors.New("That run is not kept here any more.")
)

// Store is the runs that a page knows and the shelf that it shares. A page that cannot
// write keeps its runs in memory, and tries again whenever it writes.
type Store struct {
	book  Book
	shelf Shelf
	there map[string]bool // on the shelf when it was last looked at
	state Standing
}

// Standing is how the runs lie on the shelf.
type Standing struct {
	Unsaved int   // states that only this page holds
	Why     error // nil while the shelf works
	Damaged int   // entries that cannot be read, and are left as they are
	Newer   int   // entries of a newer version, left too
}

// Troubles are the sentences for the user; none where all is well.
func (s Standing) Troubles() []string {
	var list []string
	why := "the browser refuses"
	for err, says := range map[error]string{ErrFull: "its storage is full", ErrForbidden: "its storage is forbidden or switched off"} {
		if errors.Is(s.Why, err) {
			why = says
		}
	}
	switch {
	case s.Unsaved > 0:
		list = append(list, fmt.Sprintf("This browser did not save %s (%s). Until it does, only this open page holds that: save the runs as a file before you close it. Each further run that is kept tries again.", changes(s.Unsaved), why))
	case s.Why != nil:
		list = append(list, fmt.Sprintf("This browser keeps no runs (%s). What you keep stays only in this open page: save it as a file.", why))
	}
	if s.Damaged > 0 {
		list = append(list, counted(s.Damaged, "One kept entry", "kept entries")+" could not be read; "+itIs(s.Damaged)+" left as "+itIs(s.Damaged)+".")
	}
	if s.Newer > 0 {
		list = append(list, counted(s.Newer, "One kept entry", "kept entries")+" "+was(s.Newer)+" written by a newer version of this page; "+itIs(s.Newer)+" left for that.")
	}
	return list
}

func changes(n int) string { return counted(n, "one run or change", "runs or changes") }

func counted(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func was(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

func itIs(n int) string {
	if n == 1 {
		return "it is"
	}
	return "they are"
}

// Open looks at a shelf, and takes away what others have replaced there.
func Open(shelf Shelf) *Store {
	s := &Store{shelf: shelf, there: map[string]bool{}}
	s.Look()
	if s.state.Why == nil {
		s.tidy()
	}
	return s
}

// Book holds what is known.
func (s *Store) Book() *Book { return &s.book }

// Standing is how things stood after the last look or writing.
func (s *Store) Standing() Standing { return s.state }

// Look takes in what others have put on the shelf. It writes nothing, so that pages which
// hear of one another's changes do not answer for ever.
func (s *Store) Look() {
	was := s.state.Why
	s.state = Standing{}
	keys, err := s.shelf.Keys()
	if err != nil {
		s.state.Why = err
		s.count()
		return
	}
	there := map[string]bool{}
	for _, key := range keys {
		id, ours := strings.CutPrefix(key, Prefix)
		if !ours {
			continue
		}
		if s.there[id] { // a state never changes
			there[id] = true
			continue
		}
		text, err := s.shelf.Load(key)
		if err != nil {
			s.state.Damaged++
			continue
		}
		state, err := decodeEntry(text)
		switch {
		case err == errNewer:
			s.state.Newer++
		case err != nil || state.ID != id:
			s.state.Damaged++
		default:
			s.book.add(state)
			there[id] = true
		}
	}
	s.there = there
	s.count()
	if s.state.Unsaved > 0 {
		s.state.Why = was // still unsaved for that
	}
}

func (s *Store) count() {
	s.state.Unsaved = 0
	for _, state := range s.book.Standing() {
		if !s.there[state.ID] {
			s.state.Unsaved++
		}
	}
}

// Write looks, puts what is missing on the shelf, and then takes away what that
// replaced.
func (s *Store) Write() {
	s.Look()
	if s.state.Unsaved > 0 {
		s.state.Why = nil
	}
	for _, state := range s.book.Standing() {
		if s.there[state.ID] {
			continue
		}
		err := s.put(&state)
		if err != nil && state.Gone {
			// Where there is no room to say that a run is forgotten, the run makes it.
			for _, id := range state.Replaces {
				s.take(id)
			}
			err = s.put(&state)
		}
		if err != nil {
			s.state.Why = err
		}
	}
	s.count()
	s.tidy()
}

func (s *Store) put(state *State) error {
	key, text := Prefix+state.ID, string(encode(&entry{Version, *state}))
	if err := s.shelf.Save(key, text); err != nil {
		return err
	}
	there, err := s.shelf.Load(key)
	if err == nil && there != text {
		err = errGone
	}
	s.there[state.ID] = err == nil
	return err
}

func (s *Store) take(id string) {
	if s.there[id] && s.shelf.Remove(Prefix+id) == nil {
		delete(s.there, id)
	}
}

// tidy takes away each state that one on the shelf replaces together with all that it
// replaced itself; so what was replaced once never stands again.
func (s *Store) tidy() {
	for _, by := range s.book.Standing() {
		if !s.there[by.ID] {
			continue
		}
		for _, id := range by.Replaces {
			old, has := s.book.states[id]
			if has && old.RunID() == by.RunID() && !slices.ContainsFunc(old.Replaces, func(id string) bool { return !by.holds(id) }) {
				s.take(id)
			}
		}
	}
}

// Keep keeps a run that is new and gives the identifier of its state. The error is a
// sentence for the user, and then nothing is kept. Whether it was saved is told by Standing.
func (s *Store) Keep(state State) (string, error) {
	state.Run, state.Replaces, state.Gone = "", nil, false
	return s.keep(state, nil)
}

// Change puts another state in the place of a kept one, as Keep does. Where another page
// replaced that meanwhile, both states stand then; where it was forgotten, the run is back.
func (s *Store) Change(id string, state State) (string, error) {
	s.Look()
	k, ok := s.book.Get(id)
	if !ok {
		old, has := s.book.states[id]
		if !has || old.Gone {
			return "", errNone
		}
		k = Kept{State: old, alike: []string{id}}
	}
	state.Gone = false
	return s.keep(state, &k)
}

func (s *Store) keep(state State, was *Kept) (string, error) {
	s.Look()
	state = state.sealed()
	switch {
	case was != nil:
		state = s.book.after(was, state)
	case !s.book.stands(&state): // the very same was kept once, and forgotten
		state = s.book.back(state)
	}
	if err := state.Check(); err != nil {
		return "", err
	}
	for _, k := range s.book.List() {
		if k.Plan == state.Plan && k.Name == state.Name && k.Notes == state.Notes && len(k.Told) == len(state.Told) {
			return k.ID, errKnown
		}
	}
	s.book.add(state)
	s.Write()
	return state.ID, nil
}

// Forget lets a kept run go and gives what Undo takes to bring it back.
func (s *Store) Forget(id string) (State, error) {
	s.Look()
	k, ok := s.book.Get(id)
	if !ok {
		return State{}, errNone
	}
	s.book.add(s.book.after(&k, State{Gone: true}))
	s.Write()
	return k.State, nil
}

// Undo brings back a run that was forgotten.
func (s *Store) Undo(state State) {
	s.Look()
	if !s.book.stands(&state) {
		s.book.add(s.book.back(state))
	}
	s.Write()
}

// Join takes in the runs of a saved copy of the page as those of one more page: what was
// changed or forgotten here since stays so, however often the copy is opened. It says in
// sentences what is new, and what was not taken.
func (s *Store) Join(text []byte) []string {
	states, troubles := Decode(text)
	s.Look()
	fresh := 0
	for _, state := range states {
		if s.book.add(state) && s.book.stands(&state) {
			fresh++
		}
	}
	s.Write()
	var list []string
	if fresh > 0 {
		list = append(list, "From the saved copy that you opened: "+counted(fresh, "one run", "runs")+" that this browser did not have.")
	}
	for _, t := range troubles {
		list = append(list, t.String())
	}
	return list
}

// Import takes in the runs of a file, and says in sentences what came of them; the first
// counts the runs, the others tell what was not taken.
func (s *Store) Import(text []byte) []string {
	states, troubles := Decode(text)
	s.Look()
	var came [Back + 1]int
	for _, state := range states {
		came[s.book.bring(state)]++
	}
	s.Write()
	var parts []string
	for a, says := range map[Arrival]string{
		New: "new", Changed: "changed since, and taken in place of what was here", Same: "here already",
		Older: "older than what is here, which stays", Back: "forgotten here before, and back",
	} {
		if came[a] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", came[a], says))
		}
	}
	slices.Sort(parts)
	list := []string{"Nothing was brought in."}
	if len(parts) > 0 {
		list[0] = "Of the runs brought in: " + strings.Join(parts, "; ") + "."
	}
	for _, t := range troubles {
		list = append(list, t.String())
	}
	return list
}
