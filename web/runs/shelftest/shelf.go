// Package shelftest is storage for tests that can fail in the ways a browser's does.
package shelftest

import (
	"fmt"

	"rosesalt/web/runs"
)

// Shelf is a runs.Shelf. An error that is set is what its calls give.
type Shelf struct {
	Texts map[string]string
	KeysErr, LoadErr,
	SaveErr, RemoveErr error
	Forgets bool // saves nothing, and says nothing of it
	Room    int  // bytes of all texts together, if not 0
	Saves   int  // counts them
}

// New is a shelf on which nothing lies.
func New() *Shelf { return &Shelf{Texts: map[string]string{}} }

// Keys are those of the texts, and one of another page.
func (s *Shelf) Keys() ([]string, error) {
	list := []string{"another.page"}
	for key := range s.Texts {
		list = append(list, key)
	}
	return list, s.KeysErr
}

// Load gives a text, or "".
func (s *Shelf) Load(key string) (string, error) { return s.Texts[key], s.LoadErr }

// Save puts a text by its key, where there is room.
func (s *Shelf) Save(key, text string) error {
	if s.SaveErr != nil {
		return s.SaveErr
	}
	total := len(text)
	for k, v := range s.Texts {
		if k != key {
			total += len(v)
		}
	}
	if s.Room > 0 && total > s.Room {
		return fmt.Errorf("set item: %w", runs.ErrFull)
	}
	s.Saves++
	if !s.Forgets {
		s.Texts[key] = text
	}
	return nil
}

// Remove takes a text away.
func (s *Shelf) Remove(key string) error {
	if s.RemoveErr == nil {
		delete(s.Texts, key)
	}
	return s.RemoveErr
}
