package runs

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strings"
)

// Shelf is where texts are kept, such as a browser's local storage. A key that
// holds nothing is "" without an error.
type Shelf interface {
	Load(key string) (string, error)
	Save(key, value string) error
}

// A shelf gives these, or errors that wrap them, where it knows the reason.
var (
	ErrFull      = errors.New("storage full")
	ErrForbidden = errors.New("storage forbidden")
)

// Key is where a store keeps its runs. A damaged text is set aside under
// Key + ".damaged." and its hash.
const Key = "rosesalt.runs"

// tries is how often a store begins anew when another page writes meanwhile.
const tries = 3

// Store keeps a book on a shelf that other pages use too. Each change first takes
// in what they kept. What cannot be saved stays in memory, is said to, and is
// saved by the next change that can be. It is for one goroutine.
//
// A page calls Sync when it hears that another page changed the shelf: should two
// have written at the very same time, that brings back what one wrote over.
type Store struct {
	book   Book
	shelf  Shelf
	seen   string // the text on the shelf that the book has taken in
	told   string // the text whose troubles were said
	block  string // why the text on the shelf must not be written over
	known  string // what of that text the book took in
	behind bool   // the book holds what the shelf does not
	aside  []string
}

type nowhere struct{}

func (nowhere) Load(string) (string, error) { return "", ErrForbidden }
func (nowhere) Save(string, string) error   { return ErrForbidden }

// Open reads what the shelf keeps. The store can be used whatever troubles there
// are; without a shelf it keeps in memory alone.
func Open(shelf Shelf) (*Store, []Trouble) {
	if shelf == nil {
		shelf = nowhere{}
	}
	s := &Store{shelf: shelf}
	troubles, ok := s.load()
	switch {
	case s.block != "":
		troubles = append(troubles, Trouble{"", s.block})
	case ok && s.behind:
		// a damaged text was set aside: begin a new one
		troubles = append(troubles, s.Sync()...)
	}
	return s, troubles
}

// List gives the runs, newest first.
func (s *Store) List() []Run { return s.book.List() }

// Get gives a run.
func (s *Store) Get(id string) (Run, bool) { return s.book.Get(id) }

// Len counts the runs.
func (s *Store) Len() int { return s.book.Len() }

// Book gives a copy of the book, to export or compare.
func (s *Store) Book() *Book {
	var b Book
	b.Merge(&s.book)
	return &b
}

// Saved tells whether all runs stand on the shelf, as far as this page knows.
func (s *Store) Saved() bool { return !s.behind }

// Aside gives the keys under which damaged texts were set aside since Open.
func (s *Store) Aside() []string { return append([]string(nil), s.aside...) }

// Keep adds or changes a run as Book.Add does, and gives its ID: "" when it was
// refused.
func (s *Store) Keep(run Run) (id string, troubles []Trouble) {
	var refused []Trouble
	troubles = s.change(func() {
		if _, err := s.book.Add(run); err != nil {
			refused = []Trouble{{run.label(), err.Error()}}
			return
		}
		id = ID(run)
	})
	return id, append(refused, troubles...)
}

// Drop removes a run for all pages.
func (s *Store) Drop(id string) []Trouble {
	return s.change(func() { s.book.Remove(id) })
}

// Merge takes the runs of a book from elsewhere, as Book.Import does.
func (s *Store) Merge(book *Book) (report Report, troubles []Trouble) {
	troubles = s.change(func() { report = s.book.Import(book) })
	return report, troubles
}

// Sync takes in what other pages kept, and saves what they do not have. It writes
// only if something differs, so that pages do not wake each other forever.
func (s *Store) Sync() []Trouble { return s.change(func() {}) }

// change takes in the shelf, does what is to be done, and saves.
func (s *Store) change(do func()) (troubles []Trouble) {
	for i := range tries {
		more, ok := s.load()
		troubles = append(troubles, more...)
		if i == 0 {
			do()
		}
		text := s.text()
		s.behind = text != s.seen
		if s.block != "" {
			s.behind = text != s.known
		}
		switch {
		case !ok || !s.behind: // load said why it could not read
			return troubles
		case s.block != "":
			return append(troubles, Trouble{"", s.block})
		case len(text) > MaxFile:
			return append(troubles, unsaved(fmt.Sprintf("%d kB of runs, above the limit of %d kB", len(text)/1000, MaxFile/1000)))
		}
		if err := s.shelf.Save(Key, text); err != nil {
			return append(troubles, unsaved(reason(err)))
		}
		back, err := s.shelf.Load(Key)
		switch {
		case err != nil:
			return append(troubles, unsaved(reason(err)))
		case back == text:
			s.seen, s.behind = text, false
			return troubles
		case back == "":
			return append(troubles, unsaved("what is saved is gone at once"))
		}
	}
	return append(troubles, unsaved("another page writes at the same time"))
}

// text is what should stand on the shelf; of an empty book, nothing need.
func (s *Store) text() string {
	if len(s.book.entries) == 0 && s.seen == "" {
		return ""
	}
	return string(s.book.Encode())
}

// load takes in what stands on the shelf, and tells whether it could be read.
func (s *Store) load() (troubles []Trouble, ok bool) {
	text, err := s.shelf.Load(Key)
	if err != nil {
		return []Trouble{unsaved(reason(err))}, false
	}
	if text == s.seen && s.block == "" {
		return nil, true
	}
	s.block = ""
	if text == "" {
		s.seen = ""
		return nil, true
	}
	d := decode(strings.NewReader(text))
	s.book.Merge(d.book)
	s.seen = text
	if len(d.troubles) == 0 {
		return nil, true
	}
	s.behind = true
	s.known = string(d.book.Encode())
	if text != s.told {
		troubles = d.troubles
	}
	for i := range troubles {
		if troubles[i].Part == "the file" {
			troubles[i].Part = "what the browser kept"
		}
	}
	if d.newer != 0 {
		s.told = text
		s.block = fmt.Sprintf("The runs here were kept by version %d of this page, and version %d does not write over them: open the newer page, or export the runs to a file.", d.newer, Version)
		return troubles, true
	}
	sum := sha256.Sum256([]byte(text))
	key := Key + ".damaged." + hex.EncodeToString(sum[:8])
	err = s.setAside(key, text)
	if err != nil {
		s.block = fmt.Sprintf("The runs kept here are damaged, and there is no place to set them aside (%s). They were not written over: export the runs to a file.", reason(err))
	} else {
		s.aside = append(s.aside, key)
		if text != s.told {
			troubles = append(troubles, Trouble{"what the browser kept", fmt.Sprintf("It is damaged. It was set aside whole under “%s”; %d runs could be read and are kept on.", key, d.book.Len())})
		}
	}
	s.told = text
	return troubles, true
}

func (s *Store) setAside(key, text string) error {
	if there, err := s.shelf.Load(key); err == nil && there == text {
		return nil
	}
	if err := s.shelf.Save(key, text); err != nil {
		return err
	}
	there, err := s.shelf.Load(key)
	if err == nil && there != text {
		err = errors.New("what is saved is gone at once")
	}
	return err
}

func reason(err error) string {
	for _, known := range []error{ErrFull, ErrForbidden} {
		if errors.Is(err, known) {
			return known.Error()
		}
	}
	return clip(err.Error())
}

func unsaved(why string) Trouble {
	return Trouble{"", "The browser keeps nothing here (" + why + "): export the runs to a file. Until then only this open page holds them."}
}
