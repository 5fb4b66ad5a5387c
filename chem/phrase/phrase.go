// Package phrase reads the sentences of the program out of text files, so that a chemist can
// read and correct them without Go.
//
// A file holds blocks, each under a key in brackets, and in a block its parts. Blocks of one key
// have conditions that exclude each other.
//
//	[wash.lye] when alkaline
//	lead: The wash liquor is lye.
//	# Common practice.
//	text: It burns skin and eyes. The slurry is ${slurry.volume per batch},
//	  all of it lye.
//	and when not scrubber: Outdoors.
//
// A line that begins with a space goes on with the part above; one that begins with # is a
// comment, which tells the source of what stands below it. A condition behind "when" is a
// name, or several with "and" between them, each with or without "not"; a block or part whose
// condition does not hold is left out. "and" is added to the part above, where that is there:
// behind a space, or without one if it begins with a mark of punctuation. Between the name of
// a part and its condition may stand what it is about, such as the key of a figure.
//
// A name in braces behind a dollar is a place, which the plan fills. Written with a capital it
// gives a text that begins with one. Which conditions and places there are, the [Teller]
// knows.
package phrase

import (
	"embed"
	"fmt"
	"strings"
	"sync"
)

// Language is the folder, below text, whose files are read.
const Language = "en"

// Teller knows a plan: which conditions hold, and what stands at the places of a text. A name
// that it does not know is a mistake of the files, and panics.
type Teller interface {
	Holds(condition string) bool
	Place(name string) string
}

// When is a condition: all its terms must hold. An empty one always holds.
type When []Term

// Term is a condition by its name, or its opposite.
type Term struct {
	Not bool
	Of  string
}

// Holds tells whether the condition holds.
func (w When) Holds(t Teller) bool {
	for _, term := range w {
		if t.Holds(term.Of) == term.Not {
			return false
		}
	}
	return true
}

// Part is a named part of a block.
type Part struct {
	Name  string
	About string // what it is about; "" where nothing is said of that
	When  When
	Text  string // with its places not yet filled
	More  []Part // what is added to it
}

// Block is what stands under one key.
type Block struct {
	Key   string
	When  When
	Parts []Part
}

// Book is a file of blocks. It is read when it is first asked.
type Book struct {
	read func() []Block
}

// Open is the file of a name in the folder text of a package; its blocks have these parts and
// no others. A file that cannot be read is a mistake of the program, and panics when the book
// is asked.
func Open(files *embed.FS, name string, parts ...string) *Book {
	return &Book{sync.OnceValue(func() []Block {
		path := "text/" + Language + "/" + name + ".txt"
		text, err := files.ReadFile(path)
		if err != nil {
			panic("phrase: " + err.Error())
		}
		blocks, err := Parse(string(text), parts...)
		if err != nil {
			panic(fmt.Sprintf("phrase: %s: %v", path, err))
		}
		return blocks
	})}
}

// Blocks are all blocks of the file, in its order. The caller must not change them.
func (b *Book) Blocks() []Block { return b.read() }

// Of are the blocks whose key begins with a prefix and whose condition holds, in the order of
// the file.
func (b *Book) Of(t Teller, prefix string) []Told {
	var list []Told
	for i := range b.read() {
		if block := &b.read()[i]; strings.HasPrefix(block.Key, prefix) && block.When.Holds(t) {
			list = append(list, block.Tell(t))
		}
	}
	return list
}

// At is the first block of a key whose condition holds; where there is none, it panics.
func (b *Book) At(key string, t Teller) Told {
	if told, ok := b.Find(key, t); ok {
		return told
	}
	panic("phrase: no block " + key + " for this plan")
}

// Find is At, and tells whether there is such a block.
func (b *Book) Find(key string, t Teller) (told Told, ok bool) {
	blocks := b.read()
	for i := range blocks {
		if block := &blocks[i]; block.Key == key && block.When.Holds(t) {
			return block.Tell(t), true
		}
	}
	return Told{}, false
}

// Line is a part as it reads in one plan.
type Line struct{ Name, About, Text string }

// Told is a block as it reads in one plan: the parts whose conditions hold.
type Told struct {
	Key   string
	Lines []Line
}

// Tell fills the places of the parts whose conditions hold.
func (b *Block) Tell(t Teller) Told {
	told := Told{b.Key, make([]Line, 0, len(b.Parts))}
	for i := range b.Parts {
		part := &b.Parts[i]
		if !part.When.Holds(t) {
			continue
		}
		text := fill(part.Text, t)
		for _, more := range part.More {
			if more.When.Holds(t) {
				text = join(text, fill(more.Text, t))
			}
		}
		if text != "" {
			told.Lines = append(told.Lines, Line{part.Name, part.About, text})
		}
	}
	return told
}

// One is the first part of a name, or "".
func (t Told) One(name string) string {
	for _, l := range t.Lines {
		if l.Name == name {
			return l.Text
		}
	}
	return ""
}

// All are the parts of a name in their order.
func (t Told) All(name string) []string {
	var list []string
	for _, l := range t.Lines {
		if l.Name == name {
			list = append(list, l.Text)
		}
	}
	return list
}

// List is words in a row, with a word before the last of them: “a, b and c”.
func List[S ~string](words []S, last string) string {
	var b strings.Builder
	for i, word := range words {
		switch {
		case i == 0:
		case i < len(words)-1:
			b.WriteString(", ")
		default:
			b.WriteString(" " + last + " ")
		}
		b.WriteString(string(word))
	}
	return b.String()
}

// Capital begins a text with a capital.
func Capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// Lower begins a text with a small letter, as in the middle of a sentence.
func Lower(s string) string {
	if s == "" {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// Otherwise is what is said of something in another case, such as before a change; "" where the
// same is said of it now, so that a text says it by "has" where it differs.
func Otherwise(other, now string) string {
	if other == now {
		return ""
	}
	return other
}
