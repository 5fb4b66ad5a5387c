package last

import "strings"

// Where a browser tells no page which others are open, a page asks by way of the shelf:
// it saves a word, and each page that hears of it saves the word under its own name.
const (
	AskKey     = "rosesalt.ask"
	HerePrefix = "rosesalt.here." // of the keys of answers
)

// Ask asks who is there. The word must be a new one.
func (s *Store) Ask(word string) { _ = s.shelf.Save(AskKey, word) } // refused: nobody answers

// Answer says that this tab lives.
func (s *Store) Answer(word string) { _ = s.shelf.Save(HerePrefix+s.id, word) }

// Leave takes this tab's answer away, which nobody may have heard.
func (s *Store) Leave() { _ = s.shelf.Remove(HerePrefix + s.id) } // refused: it tells nothing later

// Heard takes the answers away, and tells which tabs gave one.
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
