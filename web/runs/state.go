// Package runs keeps runs with their plans: in a browser's storage that several pages
// share, in a plain file, and in a table.
//
// A kept run is a set of states that never change. A state says which states it
// replaces, all of them back to the first, and its identifier is a digest of what it
// says. So pages can be brought together by a union, in any order and as often as one
// likes: what two of them say alike is one state, what nobody replaced stands, and where two
// pages changed the same state both of theirs stand. A run that was forgotten is a state
// too, one that holds nothing.
//
// The package is pure: it has no clock and no storage of its own.
package runs

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"math"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	"rosesalt/chem/account"
	"rosesalt/chem/route"
	"rosesalt/web/link"
)

// Version is that of the entries and the file that this program writes.
const Version = 1

// Limits of a state; what is beyond them is damaged or hostile, not a run.
const (
	MaxName     = 200     // characters
	MaxNotes    = 1 << 14 // characters
	MaxReplaces = 1000
	MaxLearned  = 100
	most        = 1e9 // of a learned number
)

// Interval is low, likeliest and high, in the unit of the input.
type Interval [3]float64

// State is a run as it was kept, or changed, or forgotten, at one time. Make one by
// filling in what is kept; identifiers are set by the Store.
type State struct {
	ID       string              `json:"id,omitempty"`       // digest of all the rest
	Run      string              `json:"run,omitempty"`      // the run's first state; empty in that one
	Kept     string              `json:"kept,omitempty"`     // RFC 3339
	Name     string              `json:"name,omitempty"`     // as the user calls it
	Notes    string              `json:"notes,omitempty"`    // free text
	Plan     string              `json:"plan,omitempty"`     // fragment of the plan's link, weighings included
	Learned  map[string]Interval `json:"learned,omitempty"`  // by key of the input
	Told     account.Told        `json:"told,omitempty"`     // to be combined with other runs'
	Replaces []string            `json:"replaces,omitempty"` // identifiers, sorted
	Gone     bool                `json:"gone,omitempty"`     // the run was forgotten
}

// RunID names the run that a state is of.
func (s *State) RunID() string {
	if s.Run == "" {
		return s.ID
	}
	return s.Run
}

// said is a digest of what a state holds, whatever it replaces and whichever run it is of.
type said [sha256.Size]byte

func (s *State) said() said {
	c := *s
	c.ID, c.Run, c.Replaces = "", "", nil
	return sha256.Sum256(encode(&c))
}

// holds tells whether a state replaces another, which must be of its run.
func (s *State) holds(id string) bool {
	_, found := slices.BinarySearch(s.Replaces, id)
	return found
}

// sealed is a state in its one form, with its identifier.
func (s State) sealed() State {
	clean := func(text string) string { return strings.ToValidUTF8(text, "�") }
	s.Name, s.Notes, s.Plan = clean(strings.TrimSpace(s.Name)), clean(s.Notes), clean(s.Plan)
	s.Replaces = slices.Compact(slices.Sorted(slices.Values(s.Replaces)))
	if len(s.Told) == 0 {
		s.Told = nil
	}
	s.Learned = maps.Clone(s.Learned)
	for key, i := range s.Learned {
		for j := range i {
			i[j] += 0 // −0 becomes 0: two digits for one number would be two states
		}
		s.Learned[key] = i
	}
	s.ID = ""
	sum := sha256.Sum256(encode(&s))
	s.ID = hex.EncodeToString(sum[:16])
	return s
}

// encode writes a value in the one way that digests rest on. What cannot be written,
// not-a-number, Check refuses.
func encode(v any) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if e.Encode(v) != nil {
		return nil
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n"))
}

var (
	isTime = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]+)?(Z|[+-][0-9]{2}:[0-9]{2})$`)
	})
	isKey = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[a-z][a-z0-9]*(\.[a-z0-9]+)+$`) })
)

func isID(text string) bool { return len(text) == 32 && strings.Trim(text, "0123456789abcdef") == "" }

// Check tells what keeps a state from being kept, in a sentence for the user.
func (s *State) Check() error {
	if s.Run != "" && !isID(s.Run) {
		return fmt.Errorf("“%s” is no identifier of a run.", clip(s.Run))
	}
	if len(s.Replaces) > MaxReplaces {
		return fmt.Errorf("It replaces %d others; the limit is %d.", len(s.Replaces), MaxReplaces)
	}
	for _, id := range s.Replaces {
		if !isID(id) {
			return fmt.Errorf("“%s”, which it replaces, is no identifier.", clip(id))
		}
	}
	if s.Gone {
		return nil
	}
	if _, err := time.Parse(time.RFC3339, s.Kept); err != nil || !isTime().MatchString(s.Kept) {
		return fmt.Errorf("The time “%s” cannot be read. Give day, time and zone, such as 2026-03-14T09:30:00+01:00.", clip(s.Kept))
	}
	if s.Plan == "" {
		return errors.New("It has no plan. Give what stands after # in the plan's address; that of a new plan is v=1.")
	}
	if n := len(s.Plan); n > link.MaxLength {
		return fmt.Errorf("Its plan has %d characters; the limit is %d.", n, link.MaxLength)
	}
	if n := utf8.RuneCountInString(s.Name); n > MaxName {
		return fmt.Errorf("Its name has %d characters; the limit is %d. Put the rest into the notes.", n, MaxName)
	}
	if n := utf8.RuneCountInString(s.Notes); n > MaxNotes {
		return fmt.Errorf("Its notes have %d characters; the limit is %d.", n, MaxNotes)
	}
	if n := len(s.Learned); n > MaxLearned {
		return fmt.Errorf("It learned %d inputs; the limit is %d.", n, MaxLearned)
	}
	for key, i := range s.Learned {
		if !isKey().MatchString(key) {
			return fmt.Errorf("“%s” is no key of an input.", clip(key))
		}
		for _, v := range i {
			if !(math.Abs(v) <= most) {
				return fmt.Errorf("What it learned of %s is not a number up to 1e9.", key)
			}
		}
		if !(i[0] <= i[1] && i[1] <= i[2]) {
			return fmt.Errorf("What it learned of %s is out of order: low, likeliest, high.", key)
		}
	}
	return s.Told.Check()
}

func clip(s string) string { return route.Clip(s, 60) }
