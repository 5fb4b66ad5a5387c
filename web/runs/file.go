package runs

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"unicode/utf8"
)

// Format is what the file says that it holds.
const Format = "rosesalt-runs"

// Limits of a file.
const (
	MaxFile     = 8 << 20 // bytes
	MaxRuns     = 1000
	MaxTroubles = 20
)

// Trouble is a part of a file that was not taken as it stood, and why.
type Trouble struct{ Part, Why string }

func (t Trouble) String() string {
	if t.Part == "" {
		return t.Why
	}
	return t.Part + ": " + t.Why
}

// Encode writes kept runs as a file, a line for each. What it looks like is said in
// testdata/runs/schema.json.
func Encode(list []Kept) []byte {
	var b bytes.Buffer
	b.WriteString(`{"format":"` + Format + `","version":` + strconv.Itoa(Version) + `,"runs":[`)
	for i := range list {
		if i > 0 {
			b.WriteByte(',')
		}
		b.WriteByte('\n')
		b.Write(encode(&list[i].State))
	}
	b.WriteString("\n]}\n")
	return b.Bytes()
}

// Decode reads a file. It takes every run that it can, and names what it did not
// take; where a file is cut or damaged, the runs before that place are taken.
func Decode(text []byte) ([]State, []Trouble) {
	f := file{text: bytes.TrimPrefix(text, []byte("\ufeff"))}
	if len(text) > MaxFile {
		f.trouble("", fmt.Sprintf("The file has %d bytes; more than %d are no runs. Nothing of it was read.", len(text), MaxFile))
		return nil, f.troubles
	}
	f.dec = json.NewDecoder(bytes.NewReader(f.text))
	err := f.read()
	if err == nil {
		if _, err = f.dec.Token(); err == io.EOF {
			err = nil
		} else if err == nil {
			err = errors.New("something follows the end")
		}
	}
	if f.format != Format {
		why := "It does not say that it holds runs of this page; nothing was taken. Choose the file that “Save as a file” wrote."
		if err != nil {
			why = "It cannot be read " + f.where(err) + ", and does not say before that it holds runs of this page; nothing was taken."
		}
		return nil, []Trouble{{"", why}}
	}
	if err != nil {
		f.troubles = append([]Trouble{{"", fmt.Sprintf("It is damaged %s. Before that place %s %s read.", f.where(err), counted(len(f.runs), "one run", "runs"), was(len(f.runs)))}}, f.troubles...)
	}
	if f.version > Version {
		f.troubles = append([]Trouble{{"", fmt.Sprintf("It was written by version %d; this page knows version %d. What is known was read.", f.version, Version)}}, f.troubles...)
	}
	return f.runs, f.troubles
}

type file struct {
	text     []byte
	dec      *json.Decoder
	format   string
	version  int
	runs     []State
	count    int // of the list so far, those that were left out too
	troubles []Trouble
	more     int

	seen  int64 // bytes whose lines are counted
	lines int   // that end in them
}

func (f *file) trouble(part, why string) {
	if len(f.troubles) == MaxTroubles {
		f.more++
		f.troubles[MaxTroubles-1] = Trouble{"", fmt.Sprintf("%d further parts were not taken as they stood.", f.more+1)}
		return
	}
	f.troubles = append(f.troubles, Trouble{clip(part), why})
}

// where tells the place of an error.
func (f *file) where(err error) string {
	at := f.dec.InputOffset()
	var whole json.RawMessage
	var syntax *json.SyntaxError
	// The decoder counts from the last part; reading all at once counts from the beginning.
	if errors.As(json.Unmarshal(f.text, &whole), &syntax) {
		at, err = syntax.Offset, syntax
	}
	at = min(at, int64(len(f.text)))
	why := err.Error()
	return fmt.Sprintf("at byte %d, in line %d (%s)", at, f.line(at), why)
}

// line is the number of the line of a place. It goes on counting where it ended the time
// before: counted from the beginning for each run, a long file takes seconds in a browser.
func (f *file) line(at int64) int {
	if at < f.seen {
		f.seen, f.lines = 0, 0
	}
	f.lines += bytes.Count(f.text[f.seen:at], []byte("\n"))
	f.seen = at
	return 1 + f.lines
}

var errShape = errors.New("a file of runs begins with {")

func (f *file) read() error {
	if t, err := f.dec.Token(); err != nil {
		return err
	} else if t != json.Delim('{') {
		return errShape
	}
	for f.dec.More() {
		t, err := f.dec.Token()
		if err != nil {
			return err
		}
		switch key, _ := t.(string); key {
		case "format":
			err = f.dec.Decode(&f.format)
		case "version":
			err = f.dec.Decode(&f.version)
		case "runs":
			err = f.list()
		default:
			var skip json.RawMessage
			if err = f.dec.Decode(&skip); err == nil {
				f.trouble("its field “"+clip(key)+"”", "This page does not know it; it was left out.")
			}
		}
		if err != nil {
			return err
		}
	}
	_, err := f.dec.Token()
	return err
}

func (f *file) list() error {
	if t, err := f.dec.Token(); err != nil {
		return err
	} else if t != json.Delim('[') {
		return errors.New("runs must be a list")
	}
	for f.dec.More() {
		var raw json.RawMessage
		if err := f.dec.Decode(&raw); err != nil {
			return err
		}
		if f.count++; f.count <= MaxRuns {
			f.take(raw)
		}
	}
	if f.count > MaxRuns {
		f.trouble("", fmt.Sprintf("It holds %d runs; the first %d were read.", f.count, MaxRuns))
	}
	_, err := f.dec.Token()
	return err
}

// take reads one run of the list.
func (f *file) take(raw json.RawMessage) {
	s, left, err := decodeState(raw)
	part := fmt.Sprintf("run %d, in line %d", f.count, f.line(f.dec.InputOffset()))
	if s.Name != "" {
		part += ", “" + clip(s.Name) + "”"
	}
	if err == nil && s.Gone {
		err = errors.New("It says only that a run was forgotten; a file brings runs and takes none away.")
	}
	if err != nil {
		f.trouble(part, "It was left out. "+err.Error())
		return
	}
	if !utf8.Valid(raw) {
		left = append(left, "It holds letters that cannot be read (they are not UTF-8); � stands for each.")
	}
	for _, why := range left {
		f.trouble(part, why)
	}
	said := s.ID
	if s = s.sealed(); isID(said) && said != s.ID {
		// A run that was changed by hand: another state of the same run.
		if s.Run == "" {
			s.Run = said
			s = s.sealed()
		}
		if f.version <= Version && len(left) == 0 {
			f.trouble(part, "It was changed since this page wrote it, and is taken as it stands.")
		}
	}
	f.runs = append(f.runs, s)
}

// decodeState reads a state field by field and says what of it was left out.
func decodeState(raw []byte) (s State, left []string, err error) {
	var fields map[string]json.RawMessage
	if json.Unmarshal(raw, &fields) != nil || fields == nil {
		return s, nil, errors.New("It is no object.")
	}
	var learned map[string][]float64
	known := map[string]any{
		"id": &s.ID, "run": &s.Run, "kept": &s.Kept, "name": &s.Name, "notes": &s.Notes, "plan": &s.Plan, "learned": &learned, "told": &s.Told, "replaces": &s.Replaces, "gone": &s.Gone,
	}
	for key, raw := range fields {
		into, ok := known[key]
		if !ok {
			left = append(left, "This page does not know “"+clip(key)+"” in it; that was left out.")
			continue
		}
		if e := json.Unmarshal(raw, into); e != nil && err == nil {
			err = fmt.Errorf("Its field “%s” cannot be read: %s.", key, clip(string(raw)))
		}
	}
	for of, list := range learned {
		if len(list) != 3 {
			err = fmt.Errorf("What it learned of “%s” has %s; give three, low, likeliest and high.", clip(of), counted(len(list), "one number", "numbers"))
			continue
		}
		if s.Learned == nil {
			s.Learned = map[string]Interval{}
		}
		s.Learned[of] = Interval(list)
	}
	slices.Sort(left)
	if e := s.Told.Check(); e != nil && err == nil {
		s.Told = nil
		left = append(left, "What it tells of uptake and charge cannot be counted ("+e.Error()+"); the rest was taken.")
	}
	if err == nil {
		err = s.Check()
	}
	return s, left, err
}

// entry is a state as it lies in a browser's storage.
type entry struct {
	Version int `json:"version"`
	State
}

var errNewer = errors.New("written by a newer version of this page")

// decodeEntry reads what lies in storage: exactly what this version wrote, or not at
// all.
func decodeEntry(text string) (State, error) {
	var e entry
	if err := json.Unmarshal([]byte(text), &e); err != nil {
		var v struct{ Version int }
		if json.Unmarshal([]byte(text), &v) == nil && v.Version > Version {
			return State{}, errNewer
		}
		return State{}, err
	}
	if e.Version > Version {
		return State{}, errNewer
	}
	s := e.State.sealed()
	if err := s.Check(); err != nil {
		return State{}, err
	}
	if s.ID != e.ID || string(encode(&entry{Version, s})) != text {
		return State{}, errors.New("changed since it was kept")
	}
	return s, nil
}
