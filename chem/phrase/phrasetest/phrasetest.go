// Package phrasetest holds a file of texts against many plans.
package phrasetest

import (
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/phrase"
)

// Held gathers what a book says in the plans that it was asked of.
type Held struct {
	t    *testing.T
	book *phrase.Book
	said map[string]bool // blocks and parts that held in some plan
}

// Hold begins to hold a book.
func Hold(t *testing.T, book *phrase.Book) *Held {
	t.Helper()
	require.NotEmpty(t, book.Blocks())
	return &Held{t, book, map[string]bool{}}
}

// strict is a teller whose places must have something.
type strict struct {
	phrase.Teller
	t  *testing.T
	of string
}

func (s strict) Place(name string) string {
	text := s.Teller.Place(name)
	if text == "" || strings.Contains(text, "NaN") || strings.Contains(text, "$") {
		assert.Fail(s.t, "nothing at a place", "%s: ${%s} is %q", s.of, name, text)
	}
	return text
}

// In asks the book in one plan: every condition, whether what stands before it holds or not, so
// that an unknown one panics; and every place whose condition holds, which must have something.
func (h *Held) In(t phrase.Teller) {
	h.t.Helper()
	seen := map[string]bool{}
	for i := range h.book.Blocks() {
		b := &h.book.Blocks()[i]
		h.ask(b.When, t)
		here := b.When.Holds(t)
		assert.False(h.t, here && seen[b.Key], "two blocks %s in one plan", b.Key)
		seen[b.Key] = seen[b.Key] || here
		block := b.Key + " " + strconv.Itoa(i)
		h.said[block] = h.said[block] || here
		h.parts(block, b.Parts, t, here)
		if here {
			b.Tell(strict{t, h.t, b.Key})
		}
	}
}

func (h *Held) parts(of string, list []phrase.Part, t phrase.Teller, here bool) {
	for i := range list {
		key := of + "/" + list[i].Name + " " + list[i].Text
		h.ask(list[i].When, t)
		here := here && list[i].When.Holds(t)
		h.said[key] = h.said[key] || here
		h.parts(key, list[i].More, t, here)
	}
}

// ask asks for every term of a condition.
func (*Held) ask(w phrase.When, t phrase.Teller) {
	for i := range w {
		w[i : i+1].Holds(t)
	}
}

// Done fails for what no plan said.
func (h *Held) Done() {
	h.t.Helper()
	for key, said := range h.said {
		assert.True(h.t, said, "no plan has %s", key)
	}
}

// Asked fails for blocks that no code and no text of the package under test names.
func Asked(t *testing.T, books ...*phrase.Book) {
	t.Helper()
	all := ""
	for _, pattern := range []string{"*.go", "text/*/*.txt"} {
		names, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, name := range names {
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			if !strings.HasSuffix(name, "_test.go") {
				all += string(text)
			}
		}
	}
	for _, book := range books {
		for _, b := range book.Blocks() {
			named := strings.Contains(all, strconv.Quote(b.Key)) || strings.Contains(all, "${"+b.Key+"}")
			assert.True(t, named, "nobody asks for %s", b.Key)
		}
	}
}

// called finds the keys of blocks that code asks for: the text that is the first or second argument of
// a function of these names.
func called(source string, by []string) (keys []string) {
	for _, name := range by {
		for _, found := range regexp.MustCompile(`\b`+name+`\((?:[\w.]+, )?("[^"]*")`).FindAllStringSubmatch(source, -1) {
			if key, err := strconv.Unquote(found[1]); err == nil {
				keys = append(keys, key)
			}
		}
	}
	return keys
}

// Matches holds a book of sentences to the code of the package under test, which asks for a block by
// its key in a call of one of these functions. A key that is asked for must be there and the other way
// round; a place or a condition must be known to route, or have its name quoted in the code.
func Matches(t *testing.T, book *phrase.Book, known func(name string) bool, by ...string) {
	t.Helper()
	Asked(t, book)
	source := ""
	names, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, name := range names {
		if text, err := os.ReadFile(name); !strings.HasSuffix(name, "_test.go") {
			require.NoError(t, err)
			source += string(text)
		}
	}
	blocks := map[string]bool{}
	place := func(name string) bool { return known(name) || strings.Contains(source, strconv.Quote(name)) }
	condition := func(of string) {
		for _, head := range []string{"has ", "known "} {
			if name, ok := strings.CutPrefix(of, head); ok {
				assert.True(t, place(name), "no place %q", name)
				return
			}
		}
		assert.True(t, known(of), "no condition %q", of)
	}
	var parts func(list []phrase.Part)
	parts = func(list []phrase.Part) {
		for i := range list {
			for _, term := range list[i].When {
				condition(term.Of)
			}
			os.Expand(list[i].Text, func(name string) string {
				assert.True(t, place(phrase.Lower(name)), "no place %q", name)
				return ""
			})
			parts(list[i].More)
		}
	}
	for _, b := range book.Blocks() {
		blocks[b.Key] = true
		for _, term := range b.When {
			condition(term.Of)
		}
		parts(b.Parts)
	}
	keys := called(source, by)
	require.NotEmpty(t, keys)
	for _, key := range keys {
		assert.True(t, blocks[key], "no block %q", key)
	}
}
