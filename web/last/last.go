// Package last keeps what each tab is doing, so that one that is closed or dies loses
// nothing: in a browser's storage, one last state for each tab, under a key of its own.
//
// Every tab writes its own entry only, so that several never write over each other. Which
// tabs live the page must tell: an entry of one that does not is left, and can be offered,
// taken over with its name, or forgotten. The package is pure: it has no clock and no
// storage of its own.
package last

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"regexp"
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
	MaxSize  = 1 << 20 // bytes of an entry: what is larger nobody typed
	probe    = 1 << 14 // bytes that must find room before a run is begun
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

// says is all of a state but its time.
func (s State) says() string {
	s.At = ""
	text, err := json.Marshal(s)
	if err != nil {
		return ""
	}
	return string(text)
}

var untouched = func() string { c := link.NewContent(); return link.Encode(&c) }()

// Empty tells whether a state is that of a page on which nobody did anything.
func (s *State) Empty() bool {
	return s.Plan == untouched && len(s.Unread) == 0 && s.Pinned == "" && s.Wanted.Grams == "" && s.Name == "" && len(s.Tab) == 0
}

// Same tells whether two states hold the same, whenever they were saved.
func (s *State) Same(o *State) bool { return s.says() == o.says() }

// Left is a state with the name of the tab that left it.
type Left struct {
	ID string
	State
}

// Store is the states on a shelf, as one tab sees them.
type Store struct {
	shelf runs.Shelf
	id    string
	saved string // what the tab's state said when it was last saved
	why   error  // nil while the shelf works
}

// Open looks at a shelf as the tab of this name.
func Open(shelf runs.Shelf, id string) *Store {
	s := &Store{shelf: shelf, id: id}
	_, s.why = shelf.Keys()
	return s
}

// ID names the tab.
func (s *Store) ID() string { return s.id }

// Become goes on under another name, and leaves what stands under the one before.
func (s *Store) Become(id string) { s.id, s.saved = id, "" }

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

// Stands says that a state is on the page without anyone's doing: it is not saved while
// nothing changes.
func (s *Store) Stands(state *State) { s.saved = state.says() }

// Save saves the tab's state where it says something new. One that is empty leaves nothing.
// What is saved is all that was: where there is no room, the one before stays.
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

// Try finds out whether there is room for a state, before anyone relies on it.
func (s *Store) Try() {
	key := Prefix + s.id + ".try"
	s.why = s.put(key, strings.Repeat("0", probe))
	_ = s.shelf.Remove(key) // refused: it is not there
}

// IsID tells whether a text can name a tab.
var IsID = regexp.MustCompile(`^[0-9A-Za-z]{8,40}$`).MatchString

// Left are the states that tabs left which do not live, the newest first, and so many as
// are kept: older ones are taken away. What cannot be read stays as it is.
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

// Gone are the names of the tabs other than this one that do not live, with an entry.
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

// Forgotten is what was forgotten, for Undo.
type Forgotten map[string]string

// Forget takes away the state of one tab.
func (s *Store) Forget(id string) Forgotten { return s.forget([]string{id}) }

// ForgetAll takes away this tab's state, those of tabs that do not live, and what cannot
// be read. Nothing of this tab is saved again before it changes.
func (s *Store) ForgetAll(now *State, lives func(id string) bool) Forgotten {
	s.Stands(now)
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

// Bring brings back what was forgotten. What a tab saved anew meanwhile stays.
func (s *Store) Bring(back Forgotten) {
	for id, text := range back {
		if there, err := s.shelf.Load(Prefix + id); err != nil || there != "" {
			continue
		}
		if err := s.put(Prefix+id, text); err != nil {
			s.why = err
		}
	}
}

// Trouble is a sentence for the user about a shelf that keeps nothing, or "".
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
