package runs

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"rosesalt/chem/quantity"
)

// Version of the file that this program writes.
const Version = 1

// Limits of what is read.
const (
	MaxFile     = 5_000_000 // bytes
	MaxTroubles = 1000
)

// gone is a dropped run in a file.
type gone struct {
	ID   string `json:"id"`
	Edit int    `json:"edit"`
}

// Encode writes the book as a file: JSON, a run a line, newest first. The same
// book is always the same text. The schema is testdata/runs/schema.json.
func (b *Book) Encode() []byte {
	var out bytes.Buffer
	out.Grow(b.size + 2*len(b.entries) + 100)
	fmt.Fprintf(&out, `{"rosesalt": "runs", "version": %d, "runs": [`, Version)
	list := b.sorted()
	lines := func(list []entry) {
		for i, e := range list {
			if i > 0 {
				out.WriteByte(',')
			}
			out.WriteByte('\n')
			out.Write(e.line)
		}
		out.WriteString("\n]")
	}
	lines(list[:b.kept])
	if len(list) > b.kept {
		out.WriteString(`, "dropped": [`)
		lines(list[b.kept:])
	}
	out.WriteString("}\n")
	return out.Bytes()
}

// Decode reads a file. It never reads more than MaxFile, takes every run that it
// can, and names what it did not take.
func Decode(r io.Reader) (*Book, []Trouble) {
	d := decode(r)
	return d.book, d.troubles
}

type decoding struct {
	book     *Book
	troubles []Trouble
	more     int // troubles that found no place
	newer    int // the version, if this program knows it not
	text     []byte
}

func (d *decoding) trouble(part, why string, args ...any) {
	if len(d.troubles) == MaxTroubles {
		d.more++
		d.troubles[MaxTroubles-1] = Trouble{"the file", fmt.Sprintf("%d further parts were not taken either.", d.more+1)}
		return
	}
	d.troubles = append(d.troubles, Trouble{part, fmt.Sprintf(why, args...)})
}

// item is a value in the file and where it stands.
type item struct {
	raw json.RawMessage
	at  int // of its last byte
}

func decode(r io.Reader) *decoding {
	d := &decoding{book: &Book{}}
	text, err := io.ReadAll(io.LimitReader(r, MaxFile+1))
	if err != nil {
		d.trouble("the file", "It could not be read to its end (%s). What stands before was read.", clip(err.Error()))
	}
	cut := err != nil
	if len(text) > MaxFile {
		d.trouble("the file", "It is longer than the limit of %d MB; the runs in the first %d MB were read. Split it.", MaxFile/1_000_000, MaxFile/1_000_000)
		text, cut = text[:MaxFile], true
	}
	if bytes.HasPrefix(text, []byte("\uFEFF")) {
		copy(text, "   ") // so that bytes are counted right
	}
	if len(bytes.TrimSpace(text)) == 0 {
		d.trouble("the file", "It is empty. Choose a file that was exported from this page.")
		return d
	}
	if !utf8.Valid(text) && !cut {
		at := 0
		for at < len(text) {
			r, n := utf8.DecodeRune(text[at:])
			if r == utf8.RuneError && n == 1 {
				break
			}
			at += n
		}
		d.trouble("the file", "Byte %d, in line %d, is not UTF-8; such bytes were read as “\uFFFD”.", at+1, lineOf(text, at))
	}
	// What stands behind the first damage is not believed.
	damage := -1
	var whole json.RawMessage
	var syntax *json.SyntaxError
	if err := json.Unmarshal(text, &whole); errors.As(err, &syntax) {
		damage = int(syntax.Offset)
		d.text = text[:max(0, min(len(text), damage-1))]
		if strings.HasPrefix(err.Error(), "unexpected end") {
			d.text = text
		}
	} else {
		d.text = text
	}
	runs, dropped, head, version := d.top()
	if damage >= 0 && !cut {
		n := "the runs"
		switch len(runs) {
		case 0:
			n = "no run"
		case 1:
			n = "the one run"
		default:
			n = fmt.Sprintf("the %d runs", len(runs))
		}
		d.trouble("the file", "It is damaged at byte %d, in line %d (%s). Of it, %s before that can be read.", damage, lineOf(text, damage-1), clip(syntax.Error()), n)
	}
	if head != "runs" {
		d.trouble("the file", "It does not say that it holds runs of this page (\"rosesalt\": \"runs\"). Nothing of it was read: choose a file that was exported from here.")
		return d
	}
	switch {
	case version > Version:
		d.newer = version
		d.trouble("the file", "It was written by version %d; this page knows version %d. What it knows was read: to have all, open it with the newer page.", version, Version)
	case version < 1:
		d.trouble("the file", "It says no version that could be read; it was read as version %d.", Version)
	}
	for i, it := range runs {
		d.run(i, it)
	}
	for i, it := range dropped {
		d.dropped(i, it)
	}
	return d
}

func lineOf(text []byte, at int) int {
	return 1 + bytes.Count(text[:max(0, min(at, len(text)))], []byte("\n"))
}

// top walks the outermost object as far as it goes; its order does not matter.
func (d *decoding) top() (runs, dropped []item, head string, version int) {
	dec := json.NewDecoder(bytes.NewReader(d.text))
	if t, err := dec.Token(); err != nil || t != json.Delim('{') {
		return
	}
	seen := map[string]bool{}
	for dec.More() {
		t, err := dec.Token()
		key, ok := t.(string)
		if err != nil || !ok {
			return
		}
		list := key == "runs" || key == "dropped"
		if list && !seen[key] {
			seen[key] = true
			t, err := dec.Token()
			if err != nil {
				return
			}
			if t != json.Delim('[') {
				d.trouble("the file", "“%s” is not a list; it was not read.", key)
				if _, ok := t.(json.Delim); ok && !skip(dec) {
					return
				}
				continue
			}
			for dec.More() {
				var raw json.RawMessage
				if dec.Decode(&raw) != nil {
					return
				}
				it := item{raw, int(dec.InputOffset())}
				if key == "runs" {
					runs = append(runs, it)
				} else {
					dropped = append(dropped, it)
				}
			}
			if _, err := dec.Token(); err != nil {
				return
			}
			continue
		}
		var raw json.RawMessage
		if dec.Decode(&raw) != nil {
			return
		}
		switch {
		case seen[key]:
			d.trouble("the file", "“%s” stands twice; the first was taken.", clip(key))
		case key == "rosesalt":
			head, _ = read[string](raw)
		case key == "version":
			if v, err := read[float64](raw); err == nil && v >= 1 && v <= maxEdit && v == float64(int(v)) {
				version = int(v)
			}
		default:
			d.trouble("the file", "This page does not know its field “%s”; it was not read.", clip(key))
		}
		seen[key] = true
	}
	return
}

// skip leaves the object that was just entered.
func skip(dec *json.Decoder) bool {
	for depth := 1; depth > 0; {
		t, err := dec.Token()
		if err != nil {
			return false
		}
		switch t {
		case json.Delim('{'), json.Delim('['):
			depth++
		case json.Delim('}'), json.Delim(']'):
			depth--
		}
	}
	return true
}

// read reads a value that must not be null.
func read[T any](raw json.RawMessage) (T, error) {
	var v *T
	if err := json.Unmarshal(raw, &v); err != nil || v == nil {
		var none T
		return none, fmt.Errorf("“%s” cannot be read there", clip(string(raw)))
	}
	return *v, nil
}

// fields walks an object that is well formed.
func fields(raw json.RawMessage, take func(key string, value json.RawMessage) error) error {
	dec := json.NewDecoder(bytes.NewReader(raw))
	if t, err := dec.Token(); err != nil || t != json.Delim('{') {
		return fmt.Errorf("“%s” is no object with fields", clip(string(raw)))
	}
	seen := map[string]bool{}
	for dec.More() {
		t, err := dec.Token()
		if err != nil {
			return err
		}
		key, _ := t.(string)
		var value json.RawMessage
		if err := dec.Decode(&value); err != nil {
			return err
		}
		if seen[key] {
			return fmt.Errorf("“%s” stands twice", clip(key))
		}
		seen[key] = true
		if err := take(key, value); err != nil {
			return fmt.Errorf("%s: %w", clip(key), err)
		}
	}
	return nil
}

func list[T any](raw json.RawMessage, each func(json.RawMessage) (T, error)) ([]T, error) {
	raws, err := read[[]json.RawMessage](raw)
	if err != nil {
		return nil, err
	}
	var out []T
	for _, raw := range raws {
		v, err := each(raw)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	return out, nil
}

func (d *decoding) run(i int, it item) {
	var run Run
	var unknown []string
	var id string
	missing := map[string]bool{"kept": true, "plan": true}
	err := fields(it.raw, func(key string, value json.RawMessage) (err error) {
		delete(missing, key)
		switch key {
		case "id":
			id, err = read[string](value)
		case "kept":
			run.Kept, err = read[string](value)
		case "edit":
			run.Edit, err = readEdit(value)
		case "name":
			run.Name, err = read[string](value)
		case "notes":
			run.Notes, err = read[string](value)
		case "plan":
			run.Plan, err = read[string](value)
		case "found":
			run.Found = map[string]float64{}
			err = fields(value, func(key string, value json.RawMessage) (err error) {
				run.Found[key], err = read[float64](value)
				return err
			})
		case "readings":
			run.Readings, err = list(value, func(raw json.RawMessage) (Reading, error) {
				r, more, err := readReading(raw)
				unknown = append(unknown, more...)
				return r, err
			})
		case "flags":
			run.Flags, err = list(value, read[string])
		case "learned":
			run.Learned = map[string][2]float64{}
			err = fields(value, func(key string, value json.RawMessage) error {
				ends, err := list(value, read[float64])
				if err == nil && len(ends) != 2 {
					err = fmt.Errorf("it has %d ends instead of 2", len(ends))
				}
				if err == nil {
					run.Learned[key] = [2]float64(ends)
				}
				return err
			})
		default:
			unknown = append(unknown, key)
		}
		return err
	})
	part := fmt.Sprintf("run %d, in line %d", i+1, lineOf(d.text, it.at-len(it.raw)))
	if run.Name != "" {
		part += ", “" + clip(run.Name) + "”"
	}
	if err != nil {
		d.trouble(part, "It was refused: %s.", err)
		return
	}
	for _, key := range []string{"kept", "plan"} {
		if missing[key] {
			d.trouble(part, "It was refused: it has no “%s”.", key)
			return
		}
	}
	run, err = check(run, MaxJoined)
	if err != nil {
		d.trouble(part, "It was refused. %s", err)
		return
	}
	for _, key := range unknown {
		d.trouble(part, "This page does not know its field “%s”; the rest of the run was read.", clip(key))
	}
	if id != "" && id != run.ID {
		d.trouble(part, "Its id is “%s”, but its content makes it %s: it was changed by another hand. It was taken under its new id.", clip(id), run.ID)
	}
	if e, ok := d.book.entries[run.ID]; ok {
		d.trouble(part, "It stands twice; one was kept.")
		if !same(run, e.run) {
			run = join(run, e.run)
		}
		run.Edit = max(run.Edit, e.run.Edit)
	}
	d.book.set(run, false)
}

func readEdit(raw json.RawMessage) (int, error) {
	v, err := read[int](raw)
	if err == nil && (v < 0 || v > maxEdit) {
		err = fmt.Errorf("%d is no count of edits", v)
	}
	return v, err
}

func readReading(raw json.RawMessage) (r Reading, unknown []string, err error) {
	r.Empty, r.Full = quantity.Blank, quantity.Blank
	err = fields(raw, func(key string, value json.RawMessage) (err error) {
		switch key {
		case "what":
			r.What, err = read[string](value)
		case "empty":
			r.Empty, err = read[float64](value)
		case "full":
			r.Full, err = read[float64](value)
		default:
			unknown = append(unknown, "readings."+key)
		}
		return err
	})
	return r, unknown, err
}

func (d *decoding) dropped(i int, it item) {
	var g gone
	part := fmt.Sprintf("dropped run %d, in line %d", i+1, lineOf(d.text, it.at-len(it.raw)))
	err := fields(it.raw, func(key string, value json.RawMessage) (err error) {
		switch key {
		case "id":
			g.ID, err = read[string](value)
		case "edit":
			g.Edit, err = readEdit(value)
		default:
			d.trouble(part, "This page does not know its field “%s”; it was not read.", clip(key))
		}
		return err
	})
	if err == nil && (len(g.ID) != 16 || strings.Trim(g.ID, "0123456789abcdef") != "") {
		err = fmt.Errorf("“%s” is no id", clip(g.ID))
	}
	if err != nil {
		d.trouble(part, "It was refused: %s.", err)
		return
	}
	one := Book{}
	one.set(Run{ID: g.ID, Edit: g.Edit}, true)
	d.book.Merge(&one)
}
