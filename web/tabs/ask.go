package tabs

import "strings"

// In a browser that does not tell a page which others are open, a page asks through the
// storage: it saves a word, and each page that is told of it saves the word under its own
// name.
const (
	AskKey     = "rosesalt.ask"
	HerePrefix = "rosesalt.here." // of the keys of answers
)

// Ask asks which tabs are alive. The word must be a new one.
func (s *Store) Ask(word string) { _ = s.shelf.Save(AskKey, word) } // refused: nobody answers

// Answer tells the tab that asked that this one is alive.
func (s *Store) Answer(word string) { _ = s.shelf.Save(HerePrefix+s.id, word) }

// Leave deletes this tab's answer, which may not have been read.
func (s *Store) Leave() { _ = s.shelf.Remove(HerePrefix + s.id) } // refused: it tells nothing later

// Heard deletes the answers to a word and tells which tabs gave one.
func (s *Store) Heard(word string) (lives func(id string) bool) {
	_ = s.shelf.Remove(AskKey) // refused: the next word is another
	here := map[string]bool{}
	keys, _ := s.shelf.Keys() // refused: nobody is heard
	for _, key := range keys {
		id, ours := strings.CutPrefix(key, HerePrefix)
		if !ours {
			continue
		}
		if said, err := s.shelf.Load(key); err == nil && said == word {
			here[id] = true
			_ = s.shelf.Remove(key) // refused: it tells nothing the next time
		}
	}
	return func(id string) bool { return here[id] }
}
