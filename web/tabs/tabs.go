// Package tabs keeps the latest state of each tab in the browser's storage, under a key of
// its own, so that a tab that is closed or crashes loses nothing.
//
// Every tab writes only its own entry, so that tabs never overwrite each other. The page
// tells which tabs are alive; the state of one that is not is called left, and can be
// offered, taken over with the tab's name, or forgotten. The package is pure: it has no
// clock and no storage of its own.
package tabs

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"rosesalt/web/desk"
	"rosesalt/web/link"
	"rosesalt/web/runs"
)

// Prefix begins the keys of the states in storage; the rest names the tab.
const Prefix = "rosesalt.last."

// Limits.
const (
	Version  = 1       // of the entries that this program writes
	MostLeft = 8       // states of tabs that are gone; older ones go
	MaxSize  = 1 << 20 // bytes of an entry, far more than anybody types
	probe    = 1 << 14 // bytes that there must be room for before a run is started
)

// State is what a tab is doing.
type State struct {
	At string `json:"at"` // when it was last changed, RFC 3339
	desk.Draft
	Name  string                     `json:"name,omitempty"`  // of the run, not kept yet
	Kept  string                     `json:"kept,omitempty"`  // the kept run that it was opened from
	Bench string                     `json:"bench,omitempty"` // where it stands in the bench view
	Tab   map[string]json.RawMessage `json:"tab,omitempty"`   // what else the tab's storage holds, by key
}

type entry struct {
	Version int `json:"version"`
	State
}

// says is the content of a state as text, without its time.
func (s State) says() string {
	s.At = ""
	text, err := json.Marshal(s)
	if err != nil {
		return ""
	}
	return string(text)
}

// Empty tells whether nobody has done anything on the page yet.
func (s *State) Empty() bool {
	return s.Plan == link.NewPlan && len(s.Unread) == 0 && s.Pinned == "" && s.Wanted.Grams == "" && s.Wanted.Pure == "" && s.Name == "" && len(s.Tab) == 0
}

// Same tells whether two states have the same content, whenever they were saved.
func (s *State) Same(o *State) bool { return s.says() == o.says() }

// Left is a state with the name of the tab that left it.
type Left struct {
	ID string
	State
}

// Store gives one tab access to the states on a shelf.
type Store struct {
	shelf runs.Shelf
	id    string
	saved string // what the tab's state said when it was last saved
	why   error  // nil while the shelf works
}

// Open gives the store of the tab with this name.
func Open(shelf runs.Shelf, id string) *Store {
	s := &Store{shelf: shelf, id: id}
	_, s.why = shelf.Keys()
	return s
}

// ID names the tab.
func (s *Store) ID() string { return s.id }

// ContinueAs gives the tab another name; the entry under the old one stays.
func (s *Store) ContinueAs(id string) { s.id, s.saved = id, "" }

// Own is the tab's own state, as a page finds it after a reload.
func (s *Store) Own() (State, bool) { return s.Load(s.id) }

// Load is a tab's state.
func (s *Store) Load(id string) (State, bool) {
	text, err := s.shelf.Load(Prefix + id)
	if err != nil {
		return State{}, false
	}
	state, err := decode(text)
	return state, err == nil
}

var errNewer = errors.New("written by a newer version")

func decode(text string) (State, error) {
	if len(text) > MaxSize {
		return State{}, fmt.Errorf("last: an entry has %d bytes; the limit is %d", len(text), MaxSize)
	}
	var e entry
	if err := json.Unmarshal([]byte(text), &e); err != nil {
		return State{}, err
	}
	if e.Version > Version {
		return State{}, errNewer
	}
	if e.Version < 1 || e.Plan == "" || len(e.Plan) > link.MaxLength {
		return State{}, errors.New("last: an entry holds no plan")
	}
	_, err := time.Parse(time.RFC3339, e.At)
	return e.State, err
}

// MarkSaved takes a state that is on the page without anyone's doing as saved: it is not
// written until it changes.
func (s *Store) MarkSaved(state *State) { s.saved = state.says() }

// Save stores the tab's state where it has changed; an empty one is removed. A state is
// stored whole or not at all: where there is no room, the one before stays.
func (s *Store) Save(state *State) {
	says := state.says()
	if says == s.saved && s.why == nil {
		return
	}
	if state.Empty() {
		if s.shelf.Remove(Prefix+s.id) == nil {
			s.saved = says
		}
		return
	}
	text, err := json.Marshal(entry{Version, *state})
	switch {
	case err != nil:
	case len(text) > MaxSize:
		err = runs.ErrFull
	default:
		err = s.put(Prefix+s.id, string(text))
	}
	if s.why = err; err == nil {
		s.saved = says
	}
}

var errGone = errors.New("what is saved is gone at once")

func (s *Store) put(key, text string) error {
	if err := s.shelf.Save(key, text); err != nil {
		return err
	}
	there, err := s.shelf.Load(key)
	if err == nil && there != text {
		err = errGone
	}
	return err
}

// Try finds out whether there is room for a state before one is needed.
func (s *Store) Try() {
	key := Prefix + s.id + ".try"
	s.why = s.put(key, strings.Repeat("0", probe))
	_ = s.shelf.Remove(key) // refused: it is not there
}

// IsID tells whether a text can name a tab.
func IsID(text string) bool {
	return len(text) >= 8 && len(text) <= 40 && strings.Trim(text, letters) == ""
}

const letters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"

// Left are the states of tabs that are no longer alive, newest first, at most MostLeft;
// older ones are deleted. What cannot be read stays as it is.
func (s *Store) Left(lives func(id string) bool) []Left {
	var list []Left
	for _, id := range s.Gone(lives) {
		if state, ok := s.Load(id); ok && !state.Empty() {
			list = append(list, Left{id, state})
		}
	}
	slices.SortFunc(list, func(a, b Left) int {
		at := func(l Left) time.Time { t, _ := time.Parse(time.RFC3339, l.At); return t }
		return cmp.Or(at(b).Compare(at(a)), cmp.Compare(a.ID, b.ID))
	})
	for len(list) > MostLeft {
		_ = s.shelf.Remove(Prefix + list[len(list)-1].ID) // refused: it goes another time
		list = list[:len(list)-1]
	}
	return list
}

// Gone are the names of the other tabs with an entry that are no longer alive.
func (s *Store) Gone(lives func(id string) bool) (ids []string) {
	keys, err := s.shelf.Keys()
	if err != nil {
		s.why = err
		return nil
	}
	for _, key := range keys {
		if id, ours := strings.CutPrefix(key, Prefix); ours && IsID(id) && id != s.id && !lives(id) {
			ids = append(ids, id)
		}
	}
	return ids
}

// Forgotten holds deleted entries by key, so that Restore can bring them back.
type Forgotten map[string]string

// Forget deletes the state of one tab.
func (s *Store) Forget(id string) Forgotten { return s.forget([]string{id}) }

// ForgetAll deletes this tab's state, those of tabs no longer alive, and what cannot be
// read. This tab's state is not saved again before it changes.
func (s *Store) ForgetAll(now *State, lives func(id string) bool) Forgotten {
	s.MarkSaved(now)
	return s.forget(append(s.Gone(lives), s.id))
}

func (s *Store) forget(ids []string) Forgotten {
	gone := Forgotten{}
	for _, id := range ids {
		if text, err := s.shelf.Load(Prefix + id); err == nil && text != "" && s.shelf.Remove(Prefix+id) == nil {
			gone[id] = text
		}
	}
	return gone
}

// Restore brings back what was deleted, except where a tab has saved a newer state.
func (s *Store) Restore(back Forgotten) {
	for id, text := range back {
		if there, err := s.shelf.Load(Prefix + id); err != nil || there != "" {
			continue
		}
		if err := s.put(Prefix+id, text); err != nil {
			s.why = err
		}
	}
}

// Trouble is a sentence for the user where the storage does not work, or "".
func (s *Store) Trouble() string {
	switch {
	case s.why == nil:
		return ""
	case errors.Is(s.why, runs.ErrFull):
		return fmt.Sprintf(nowhere, "its storage is full")
	case errors.Is(s.why, runs.ErrForbidden):
		return fmt.Sprintf(nowhere, "its storage is forbidden or switched off")
	}
	return fmt.Sprintf(nowhere, "it refuses")
}

const nowhere = "This browser keeps nothing of what you do here: %s. A run lives only in this tab and its address. Before you close it, and now and then in a run, use “Save a copy”, or copy the address."
