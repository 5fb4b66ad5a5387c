package phrase_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/phrase"
)

// some is a teller with these conditions, and one place.
type some []string

func (s some) Holds(condition string) bool {
	for _, c := range s {
		if c == condition {
			return true
		}
	}
	return false
}

func (s some) Place(name string) string {
	if name == "liquor" {
		return "rose liquor"
	}
	panic(name)
}

const file = `# A comment.
[first] when copper and not alkaline
lead: Mind the ${liquor}.
# The source of the text.
text dry.mass: ${Liquor}
  is pink:
  20 °C.
and when salt: It is salt,
and: , and more.
text when alkaline: Lye.

[second]
lead:
and when salt: Salt.
`

func parsed(t *testing.T, text string) []phrase.Block {
	t.Helper()
	blocks, err := phrase.Parse(text, "lead", "text")
	require.NoError(t, err)
	require.NotEmpty(t, blocks)
	return blocks
}

func TestBlockIsToldAsThePlanHasIt(t *testing.T) {
	blocks := parsed(t, file)
	require.Len(t, blocks, 2)
	first := blocks[0]
	assert.Equal(t, "first", first.Key)
	for _, c := range []struct {
		conditions some
		holds      bool
	}{{some{"copper"}, true}, {some{"copper", "alkaline"}, false}, {some{}, false}} {
		assert.Equal(t, c.holds, first.When.Holds(c.conditions), c.conditions)
	}
	told := first.Tell(some{"copper"})
	assert.Equal(t, "Mind the rose liquor.", told.One("lead"))
	assert.Equal(t, []string{"Rose liquor is pink: 20 °C., and more."}, told.All("text"))
	assert.Equal(t, "dry.mass", told.Lines[1].About)
	assert.Equal(t, []string{"Rose liquor is pink: 20 °C. It is salt,, and more.", "Lye."}, first.Tell(some{"salt", "alkaline"}).All("text"))
	assert.Empty(t, blocks[1].Tell(some{}).Lines, "what has no text is not there")
	assert.Equal(t, "Salt.", blocks[1].Tell(some{"salt"}).One("lead"), "added to nothing")
}

func TestListsAreRead(t *testing.T) {
	assert.Equal(t, "a, b and c", phrase.List([]string{"a", "b", "c"}, "and"))
	assert.Equal(t, "a or b", phrase.List([]string{"a", "b"}, "or"))
	assert.Equal(t, "a", phrase.List([]string{"a"}, "and"))
	assert.Empty(t, phrase.List[string](nil, "and"))
}

// TestWrongFilesAreRefused: with the line, so that whoever wrote it finds it.
func TestWrongFilesAreRefused(t *testing.T) {
	for text, says := range map[string]string{
		"lead: no block\n":                  "line 1",
		"[a]\nled: a typing error\n":        `no part "led"`,
		"[a]\nno colon\n":                   "line 2",
		"[a]\nand: added to nothing\n":      `no part "and"`,
		"[a]\nlead: x\n\n  after a gap\n":   "goes on with nothing",
		"[a\nlead: x\n":                     "no key in brackets",
		"[]\n":                              "no key in brackets",
		"[a] if copper\n":                   "behind a key",
		"[a] when copper when salt\n":       "no condition",
		"[a] when not \n":                   "line 1",
		"[a]\nlead when copper and : x\n":   "no condition",
		"[a]\nlead when : nothing behind\n": "no condition",
	} {
		_, err := phrase.Parse(text, "lead", "text")
		if assert.Error(t, err, text) {
			assert.Contains(t, err.Error(), says, text)
		}
	}
}

// FuzzParse: what is refused is named by its line, and what is read tells again without panic.
func FuzzParse(f *testing.F) {
	f.Add(file)
	f.Add("[a] when b\nlead c when not d: $ ${ ${liquor\n")
	f.Fuzz(func(t *testing.T, text string) {
		blocks, err := phrase.Parse(text, "lead", "text")
		if err != nil {
			assert.Contains(t, err.Error(), "line ")
			return
		}
		for i := range blocks {
			assert.NotEmpty(t, blocks[i].Key)
			_ = strings.Join(blocks[i].Tell(willing{}).All("lead"), " ")
		}
	})
}

// willing is a teller that knows all places.
type willing struct{}

func (willing) Holds(string) bool   { return true }
func (willing) Place(string) string { return "x" }
