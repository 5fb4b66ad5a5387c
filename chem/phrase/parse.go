package phrase

import (
	"fmt"
	"os"
	"slices"
	"strings"
)

const added = "and" // the name of what is added to the part above

// Parse takes the text of a file apart. A block may have these parts and no others.
func Parse(text string, parts ...string) ([]Block, error) {
	f := file{parts: parts}
	number := 0
	for line := range strings.Lines(text) {
		number++
		if err := f.line(strings.TrimRight(line, "\r\n\t ")); err != nil {
			return nil, fmt.Errorf("line %d: %w", number, err)
		}
	}
	return f.blocks, nil
}

type file struct {
	parts  []string
	blocks []Block
	open   *string // the text that a further line goes on with; nil after an empty line
}

func (f *file) line(line string) error {
	switch {
	case line == "":
		f.open = nil
		return nil
	case line[0] == '#':
		return nil
	case line[0] == ' ':
		if f.open == nil {
			return fmt.Errorf("%q goes on with nothing", line)
		}
		*f.open = join(*f.open, strings.TrimLeft(line, " "))
		return nil
	case line[0] == '[':
		return f.block(line)
	}
	return f.part(line)
}

func (f *file) block(line string) error {
	key, behind, closed := strings.Cut(line[1:], "]")
	if !closed || key == "" {
		return fmt.Errorf("%q is no key in brackets", line)
	}
	rest, when, err := condition(behind)
	if err == nil && rest != "" {
		err = fmt.Errorf("%q stands behind a key", rest)
	}
	f.blocks, f.open = append(f.blocks, Block{Key: key, When: when}), nil
	return err
}

func (f *file) part(line string) error {
	head, text, ok := strings.Cut(line, ":")
	if !ok || len(f.blocks) == 0 {
		return fmt.Errorf("%q is no part of a block", line)
	}
	head, when, err := condition(head)
	if err != nil {
		return err
	}
	name, about, _ := strings.Cut(head, " ")
	list := &f.blocks[len(f.blocks)-1].Parts
	switch {
	case name == added && len(*list) > 0:
		list = &(*list)[len(*list)-1].More
	case !slices.Contains(f.parts, name):
		return fmt.Errorf("there is no part %q here", name)
	}
	*list = append(*list, Part{Name: name, About: about, When: when, Text: strings.TrimLeft(text, " ")})
	f.open = &(*list)[len(*list)-1].Text
	return nil
}

// condition cuts what stands behind "when" from a text.
func condition(text string) (before string, when When, err error) {
	before, behind, ok := strings.Cut(text, " when ")
	if !ok {
		return before, nil, nil
	}
	for term := range strings.SplitSeq(behind, " and ") {
		of, not := strings.CutPrefix(term, "not ")
		if of == "" || of == "not" || strings.Contains(of, " when ") {
			return "", nil, fmt.Errorf("%q is no condition", behind)
		}
		when = append(when, Term{not, of})
	}
	return before, when, nil
}

// join puts a text behind another: no space comes before a mark of punctuation.
func join(text, more string) string {
	if text == "" || more == "" || strings.ContainsRune(".,;:", rune(more[0])) {
		return text + more
	}
	return text + " " + more
}

// fill puts what a plan has at the places of a text.
func fill(text string, t Teller) string {
	if !strings.Contains(text, "$") {
		return text
	}
	return os.Expand(text, func(name string) string {
		if small := Lower(name); small != name {
			return Capital(t.Place(small))
		}
		return t.Place(name)
	})
}
